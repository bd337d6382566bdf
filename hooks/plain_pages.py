"""Writes the pages as plain files into a folder of the designer's, all of them or none."""

from __future__ import annotations

import json
from collections.abc import Collection as Group
from pathlib import Path

from walebook.pages import counts_schema, facts_schema, pattern_cards, write_pages
from walebook_site.replacement import begin
from walebook_site.sources import Collection
from walebook_site.targets import real_target

FOLDER = "patterns"
OURS = ".walebook-pages"
"""Lists the files that were written, so that those that are no longer written can go."""


def write_out(collection: Collection, out: Path, *, sources: Group[Path] = ()) -> int:
    """Write every page, count file and picture into `out`/patterns; return how many files.

    They are written beside it and take its place together. What an earlier run wrote goes; every
    other file there stays, unless one of the pages has its name. Raises Refused when the folder is
    one of `sources` or cannot be replaced, Held while another process writes it, and OSError.
    """
    files = _files(collection)
    target = real_target(out / FOLDER, sources)
    made = begin(target)
    try:
        for path, content in files.items():
            (made.folder / path).parent.mkdir(parents=True, exist_ok=True)
            (made.folder / path).write_bytes(content)
        (made.folder / OURS).write_text("".join(f"{path}\n" for path in sorted(files)),
                                        encoding="utf-8")
        earlier = _listed(target)
        made.put_in_place(keep=lambda path: path not in earlier)
    except BaseException:
        made.give_up()
        raise
    return len(files)


def _files(collection: Collection) -> dict[str, bytes]:
    """The content of every file by its path in the folder of the patterns."""
    texts = {page.path: page.text for proof in collection.proofs for page in write_pages(proof)}
    for name, schema in (("counts", counts_schema()), ("facts", facts_schema())):
        texts[f"{FOLDER}/{name}.schema.json"] = json.dumps(schema, indent=1, ensure_ascii=False)
    texts[f"{FOLDER}/index.html"] = pattern_cards(collection.proofs)
    files = {path: text.encode() for path, text in texts.items()}
    files |= {path: picture.read_bytes() for path, picture in collection.pictures}
    return {path.removeprefix(f"{FOLDER}/"): content for path, content in files.items()}


def _listed(folder: Path) -> frozenset[str]:
    """The files that an earlier run wrote there; none where it left no list."""
    try:
        return frozenset((folder / OURS).read_text(encoding="utf-8").splitlines())
    except (OSError, UnicodeDecodeError):
        return frozenset()
