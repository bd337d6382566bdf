"""The new names of keys written into the sources of a site."""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path

from walebook.source.keys.collection import CollectionKeys
from walebook.source.keys.head import BedFileKeys, PatternKeys, SharedFileKeys
from walebook.source.keys.key import Keys
from walebook.source.keys.sizes import ChartFileKeys
from walebook.source.renamed import rewritten
from walebook_site.text_files import TextFiles

_FILES: tuple[tuple[str, type[Keys]], ...] = (
    ("*/pattern.yaml", PatternKeys), ("*/chart.yaml", ChartFileKeys),
    ("_sizes/*.yaml", ChartFileKeys), ("_beds/*.yaml", BedFileKeys),
    ("_shared.yaml", SharedFileKeys), ("collection.yaml", CollectionKeys))
_MARK = b"\xef\xbb\xbf"  # of byte order, which an editor may have put first


def rename_keys(root: Path, *, write: bool = True) -> Iterator[str]:
    """Write the new name of every key into the sources under `root`; say what is renamed.

    A file that cannot be read is left as it is; without `write` every file is. Raises OSError where
    one cannot be written.
    """
    reading = TextFiles(root)
    for pattern, table in _FILES:
        for path in sorted((root / "patterns").glob(pattern)):
            name, text = path.relative_to(root).as_posix(), reading.text(path)
            new, renamed = ("", ()) if text is None else rewritten(text, table, name=name)
            if renamed and write:
                _replace(path, new)
            for each in renamed:
                yield f"{each.place}: {each.old} is {each.new} now"


def _replace(path: Path, text: str) -> None:
    """Put a text in the place of a file's, all of it or nothing."""
    mark = _MARK if path.read_bytes().startswith(_MARK) else b""
    new = path.with_name(f"{path.name}.new")
    new.write_bytes(mark + text.encode("utf-8"))
    new.chmod(path.stat().st_mode)
    os.replace(new, path)
