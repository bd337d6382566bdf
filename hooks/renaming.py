"""New names of keys, and the kinds of front edges, written into the sources of a site."""

from __future__ import annotations

import json
import os
from collections.abc import Iterator
from pathlib import Path

from walebook.core.problems import visible
from walebook.source.keys.collection_keys import CollectionKeys
from walebook.source.keys.key import Keys
from walebook.source.keys.pattern_keys import BedFileKeys, PatternKeys, SharedFileKeys
from walebook.source.keys.size_chart_keys import ChartFileKeys
from walebook.source.kinds_written import FRONT, with_kind
from walebook.source.renamed import rewritten
from walebook_site.reading import RECORD
from walebook_site.text_files import TextFiles

_FILES: tuple[tuple[str, type[Keys]], ...] = (
    ("*/pattern.yaml", PatternKeys), ("*/chart.yaml", ChartFileKeys),
    ("_sizes/*.yaml", ChartFileKeys), ("_beds/*.yaml", BedFileKeys),
    ("_shared.yaml", SharedFileKeys), ("collection.yaml", CollectionKeys))
_EDGES = "*/pattern.yaml"  # the files that have them
_MARK = b"\xef\xbb\xbf"  # of byte order, which an editor may have put first


def run_fix(root: Path, *, show: bool) -> int:
    """Write the new names of keys and the kinds of front edges that are known, or show them.

    Return 0, or 1 where a file cannot be written.
    """
    done = kinds = 0
    try:
        for line in rename_keys(root, write=not show):
            print(visible(line))
            done += 1
        for line, written in write_kinds(root, write=not show):
            print(visible(line))
            kinds += written
    except OSError as fault:
        print(visible(f"{fault.filename} could not be written: {fault.strerror}."))
        return 1
    keys, edges = f"{done} key{'s' * (done != 1)}", f"{kinds} edge{'s' * (kinds != 1)}"
    more = f", {edges} {'to get' if show else 'got'} a kind" if kinds else ""
    print(f"{keys} to rename{more}. Nothing was written." if show else f"{keys} renamed{more}.")
    return 0


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


def write_kinds(root: Path, *, write: bool = True) -> Iterator[tuple[str, bool]]:
    """Write the kind of each edge `front` that does not say it and where it is known.

    A line for each such edge, and True where its kind was written, or would be with `write`. Raises
    OSError where a file cannot be written.
    """
    reading = TextFiles(root)
    for path in sorted((root / "patterns").glob(_EDGES)):
        name, text = path.relative_to(root).as_posix(), reading.text(path)
        new, done = ("", None) if text is None else with_kind(text, _published(path), name=name)
        if done is None:
            continue
        if done.written and write:
            _replace(path, new)
        yield (f"{done.place}: edge {FRONT} has kind: pair of fronts now" if done.written else
               f"{done.place}: edge {FRONT} has no kind. Write kind: pair of fronts or kind: one "
               "edge", done.written)


def _published(source: Path) -> frozenset[str]:
    """The keys of the parts that the record beside a source counts; none without a sound record."""
    try:
        record = json.loads(source.with_name(RECORD).read_text(encoding="utf-8"))
        return frozenset(key for parts in record["counts"].values() for key in parts)
    except (OSError, ValueError, RecursionError, KeyError, TypeError, AttributeError):
        return frozenset()


def _replace(path: Path, text: str) -> None:
    """Put a text in the place of a file's, all of it or nothing."""
    mark = _MARK if path.read_bytes().startswith(_MARK) else b""
    new = path.with_name(f"{path.name}.new")
    new.write_bytes(mark + text.encode("utf-8"))
    new.chmod(path.stat().st_mode)
    os.replace(new, path)
