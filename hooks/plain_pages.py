"""Writes the pages as plain files into a folder of the designer's, all of them or none."""

from __future__ import annotations

import json
from base64 import b64decode
from collections.abc import Collection as Group
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING

from walebook.pages import BINARY, SCHEMAS, pattern_cards
from walebook_site.own_files import write_own
from walebook_site.photographs import published
from walebook_site.targets import real_target

if TYPE_CHECKING:
    from walebook.pages.lists import ListPage
    from walebook_site.results import Results
    from walebook_site.sources import Collection

    Source = Results | Collection

FOLDER = "patterns"


def write_out(found: Source, out: Path, *, former: Iterable[ListPage] = (),
              sources: Group[Path] = ()) -> int:
    """Write every page, count file and picture into `out`/patterns; return how many files.

    The pages of `former` patterns stand among them.

    They are written beside it and take its place together. What an earlier run wrote goes; every
    other file there stays, unless one of the pages has its name. Raises Refused when the folder is
    one of `sources` or cannot be replaced, Held while another process writes it, and OSError.
    """
    written = write_own(real_target(out / FOLDER, sources), _files(found, former))
    written.put_in_place()
    return written.count


def _files(found: Source, former: Iterable[ListPage]) -> Iterator[tuple[str, bytes]]:
    """Each file's path in the folder of the patterns, and its content, made when it is its turn."""
    for path, text in found.texts():
        yield path.removeprefix(f"{FOLDER}/"), \
            b64decode(text) if path.endswith(BINARY) else text.encode()
    for page in former:
        yield page.path.removeprefix(f"{FOLDER}/"), page.text.encode()
    for name, schema in SCHEMAS.items():
        text = json.dumps(schema(), indent=1, ensure_ascii=False)
        yield f"{name}.schema.json", text.encode()
    yield "index.html", pattern_cards(found.cards()).encode()
    for path, picture in found.pictures:
        yield path.removeprefix(f"{FOLDER}/"), published(picture)

