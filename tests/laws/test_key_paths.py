"""Every dotted path at which the engine looks for an entry of a source is one of declared keys.

`Places.of` falls back to what holds an entry, so a wrong path would point at the wrong line and
nothing would fail.
"""

from __future__ import annotations

import ast
import itertools
import re
from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from typing import Any

import pytest
from walebook.core.ranges import MEASURES
from walebook.source.keys.band_keys import BandKeys
from walebook.source.keys.garment_keys import GarmentKeys
from walebook.source.keys.key import Key, Keys, Several
from walebook.source.keys.pattern_keys import PatternKeys
from walebook.source.keys.whole import TABLES

from tests.laws.test_house import MODULES, nodes_of

# What stands in a path for a part that is known at run time only.
OPEN = "*"
ROOTS = {name for name, key in PatternKeys.keys.items() if key.table is not None}
_PATH = re.compile(rf"({'|'.join(sorted(ROOTS))})[*]?([.][a-z_*]+)+[*]?")
# The mappings at which a path may begin: the source, and for who has a garment or a band, these.
BEGIN = (PatternKeys, GarmentKeys, BandKeys)
# Methods and functions that take a path, and the argument that it is.
TAKES = {"place": 0, "stated": 0, "place_in": 1}


def takes(node: ast.expr) -> int | None:
    """Which argument of a function is a path; None for a function that takes none."""
    match node:
        case ast.Attribute(attr="of", value=ast.Name(id=name) | ast.Attribute(attr=name)):
            return 0 if name.endswith("places") else None
        case ast.Attribute(attr=name) | ast.Name(id=name):
            return TAKES.get(name)
    return None


@dataclass(frozen=True)
class At:
    """A place in a source: in a mapping with these keys, or below the names of a key's entries."""

    keys: type[Keys] | None
    named: bool = False

    def under(self, step: str) -> set[At]:
        """Where a step of a path leads from here: nowhere if nothing declared has that name.

        Names are the designer's, but for measures that forms ask for.
        """
        if self.named or self.keys is None:
            return {replace(self, named=False)} if step == OPEN or \
                (self.keys is None and step in MEASURES) else set()
        keys = self.keys.keys
        return {at for key in (keys.values() if step == OPEN else filter(None, [keys.get(step)]))
                for at in below(key)}


def below(key: Key[Any]) -> Iterator[At]:
    """What stands under a key: the keys of its mapping, its named entries, an entry a size."""
    several = isinstance(key.read, Several)
    yield At(key.table, several)
    if key.by_size:
        yield At(None)


def leads(path: str) -> bool:
    """True where a path is one of declared keys; one that begins openly may begin anywhere."""
    first, *steps = re.sub(r"(?<=[a-z_])[*]+", ".*", path).split(".")
    reached = set(map(At, TABLES.values())) if first == OPEN else {
        at for keys in BEGIN for at in At(keys).under(first)}
    for at, step in enumerate(steps):
        if step == OPEN and at == len(steps) - 1:
            return bool(reached)
        reached = {after for place in reached for after in place.under(step)}
    return bool(reached)


def texts(node: ast.expr, chosen: dict[str, list[str]]) -> list[str]:
    """Every text that an expression may be, with OPEN for each part that is not written out."""
    match node:
        case ast.Constant(value=str() as text):
            return [text]
        case ast.IfExp(body=one, orelse=other):
            return texts(one, chosen) + texts(other, chosen)
        case ast.JoinedStr(values=parts):
            return ["".join(texts_) for texts_ in
                    itertools.product(*(texts(part, chosen) for part in parts))]
        case ast.FormattedValue(value=value):
            return texts(value, chosen)
        case ast.Name(id=name):
            return chosen.get(name, [OPEN])
        case _:
            return [OPEN]


def chosen_in(nodes: Iterable[ast.AST]) -> dict[str, list[str]]:
    """The names of a module that are given one of some literals and nothing else."""
    found: dict[str, list[str]] = {}
    bound = Counter[str]()
    for node in nodes:
        match node:
            case ast.Assign(targets=[ast.Name(id=name)], value=value):
                found.setdefault(name, []).extend(texts(value, {}))
                bound[name] -= 1  # the name itself is met as well
            case ast.arg(arg=name) | ast.Name(id=name, ctx=ast.Store()):
                bound[name] += 1
    return {name: said for name, said in found.items()
            if OPEN not in said and not bound[name]}


def paths(nodes: tuple[ast.AST, ...]) -> Iterator[tuple[int, str]]:
    """The line and the text of every path: handed on for a place, or written as one."""
    chosen = chosen_in(nodes)
    for node in nodes:
        match node:
            case ast.Call(func=function, args=args) \
                    if (at := takes(function)) is not None and len(args) > at:
                handed = args[at]
                yield from ((node.lineno, text) for text in texts(handed, chosen)
                            if isinstance(handed, ast.Constant | ast.JoinedStr | ast.IfExp)
                            and re.fullmatch(r"[a-z_.*]+", text))
            case ast.Constant(value=str()) | ast.JoinedStr():
                yield from ((node.lineno, text) for text in texts(node, chosen)
                            if _PATH.fullmatch(text))


def every_path() -> set[tuple[str, int, str]]:
    return {(name, line, path) for name, file in MODULES.items()
            if not name.startswith(("source/", "words/", "pages/", "markup/", "drawings/"))
            for line, path in paths(nodes_of(file))}


def test_every_path_is_one_of_declared_keys() -> None:
    found = every_path()
    assert len(found) > 100
    wrong = {one for one in found if not leads(one[2])}
    assert not wrong, sorted(wrong)


@pytest.mark.parametrize("path", [
    "garment.pockets.height", "garment.pockets.*", "bands.*.buttonholes.ends", "*.in_hem.depth",
    "garment.measures.*", "garment.measures.*.*", "fabrics.*.yarn", "garment.pockets**",
    "bands.*.depth.*", "sizes"])
def test_a_path_of_declared_keys_leads_somewhere(path: str) -> None:
    assert leads(path)


@pytest.mark.parametrize("spoiled", [
    "garment.pocket.height", "garment.pockets.hight", "band.*.depth", "bands.depth",
    "bands.*.depths", "*.in_hem.deep", "bands.*.depth.M", "garment.pocket**", "hems"])
def test_a_spoiled_path_leads_nowhere(spoiled: str) -> None:
    assert not leads(spoiled)


@pytest.mark.parametrize(("line", "path"), [
    ('pattern.place("garment.hight")', "garment.hight"),
    ('places.of(f"bands.{band.key}.deep", size)', "bands.*.deep"),
    ('places.of(f"{path}.deep" if own else "hem.depth")', "*.deep"),
    ('place_in(band, "buttonholes.end")', "buttonholes.end"),
    ('at = "garment.cords"', "garment.cords"),
    ('key = "at" if given else "nimber"\nplaces.of(f"bands.{name}.{key}")', "bands.*.nimber")])
def test_every_way_of_writing_a_path_is_found(line: str, path: str) -> None:
    assert path in {found for _, found in paths(tuple(ast.walk(ast.parse(line))))}
    assert not leads(path)
