"""The keys of a pattern source as the command explains them, from their declarations."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Iterator
from difflib import get_close_matches
from pathlib import Path

from walebook.core.codes import CODES
from walebook.pages.measure_lists import explained as measure_explained
from walebook.source.keys.key import Keys
from walebook.source.keys.pattern_keys import SharedFileKeys
from walebook.source.keys.whole import ROOTS, TABLES
from walebook.words.keys import explained
from walebook.words.measure_names import BODY, MEASURES, OF_GARMENT
from walebook_site.shipped import BEDS, CHARTS, PARTS, layered

_LINK = re.compile(r"\[([^\]]+)\]\([^)]+\)")
_FILES = ("pattern.yaml", "a bed in _beds/", "a chart in _sizes/", "collection.yaml",
          "_shared.yaml")


def keys_named(name: str, width: int = 100) -> list[str]:
    """Return what each key, measure, finding, size chart or bed of this name means, and where it
    stands; nothing where none.

    A dotted name, such as bands.buttonholes, narrows it to the key in that mapping.
    """
    *above, last = name.strip().split(".")
    found: dict[str, list[str]] = {}
    for path, table in _paths():
        for key in table.keys.values():
            where = [*path[1:], key.name]
            if last in (key.name, *key.former) and _within(where[:-1], above):
                text = _LINK.sub(r"\1", explained(key, table))
                found.setdefault(text, []).append(f"{path[0]}: {' > '.join(where)}")
    for whose, text in measure_explained(name.strip()).items():
        found.setdefault(text, []).append(f"{whose} > {name.strip()}" if whose == OF_GARMENT
                                          else f"{name.strip()}: {whose}")
    for heading, text in _also(name.strip()):
        found.setdefault(text, []).append(heading)
    lines = textwrap.TextWrapper(width, initial_indent="    ", subsequent_indent="    ",
                                 break_long_words=False, break_on_hyphens=False)
    return ["\n".join([*places, *lines.wrap(text)]) for text, places in found.items()]


def _also(name: str) -> Iterator[tuple[str, str]]:
    """What else of Walebook has a name that a designer meets, and what it is."""
    if name in CODES:
        yield f"{name}: a finding of the check", f"{CODES[name]} All findings: source.html#findings"
    for folder, what, key in ((CHARTS, "a size chart", "chart"), (BEDS, "a needle bed", "bed")):
        path = layered(Path.cwd(), folder).get(name)
        if path is not None:
            part = f"{Path(folder).name}/{path.name}"
            where = f"`walebook parts --copy {part}` copies it to where you can read and change " \
                "it." if path.is_relative_to(PARTS) else f"Yours: {folder}/{path.name}."
            yield f"{name}: {what}", f"A pattern takes it by `{key}: {name}`. {where}"


def all_keys() -> list[str]:
    """Return the name of every key, in order."""
    return sorted({key for table in TABLES.values() for key in table.keys})


def near(name: str) -> list[str]:
    """Return the names of what `keys_named` explains that are spelt much like this one."""
    known = (*all_keys(), *BODY, *MEASURES, *CODES, *layered(Path.cwd(), CHARTS),
             *layered(Path.cwd(), BEDS))
    return get_close_matches(name.rpartition(".")[2], dict.fromkeys(known), 3)


def _within(path: list[str], above: list[str]) -> bool:
    return not above or path[-len(above):] == above


def _paths() -> Iterator[tuple[list[str], type[Keys]]]:
    """Every table of keys, with the keys that lead to it, its file first."""
    for file, root in zip(_FILES, (*ROOTS, SharedFileKeys), strict=True):
        waiting: list[tuple[list[str], type[Keys]]] = [([file], root)]
        while waiting:
            path, table = waiting.pop(0)
            yield path, table
            waiting += [([*path, key.name], key.table) for key in table.keys.values()
                        if key.table is not None]
