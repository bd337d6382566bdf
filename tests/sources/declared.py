"""A whole source around one key, made from the declarations: what must stand beside it, and above.

Used where the example of every key is knitted, and where a key is spoiled to see that it is read.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

import yaml
from walebook.source.keys.fabric_keys import SwatchKeys
from walebook.source.keys.key import Key, Keys, Several
from walebook.source.keys.pattern_keys import PatternKeys
from walebook.source.keys.whole import ROOTS

Source = dict[str, Any]
HERE = Path(__file__).parent
CARDIGAN = {"form": "set-in cardigan", "chart": "women", "fabric": "body"}
SINGLE = {"fabric": "band", "depth": "4 cm", "kind": "single"}
PULLOVER = {**CARDIGAN, "form": "set-in pullover"}
# What must stand elsewhere in the file than beside a key.
ELSEWHERE: dict[tuple[str, str], Source] = {
    ("BandKeys", "mitre"): {"garment": {**PULLOVER, "neck": "v"}},
    ("GarmentKeys", "placket"): {"bands": {"placket": {**SINGLE, "edge": "placket"}}},
    ("GarmentKeys", "pockets"): {"bands": {"pocket": {**SINGLE, "edge": "pocket"}}},
    ("PocketKeys", "number"): {"bands": {"pocket": {**SINGLE, "edge": "left_pocket"}}},
}
# What the mapping above a key must have for it: by the key, then by the mapping's table.
ABOVE: dict[tuple[str, str], dict[str, Source]] = {
    ("HoleKeys", "rows"): {"BandKeys": {"kind": "lengthwise", "fabric": "band",
                                        "pick_up": "null"}},
    ("NecklineKeys", "front_sides"): {"GarmentKeys": {"form": PULLOVER["form"]}},
    **{("SlopesKeys", f"side_to_{to}"): {"GarmentKeys": {"measures": {
        "hem_width": "(hips + 16 cm) / 2", "hip_width": "(hips + 8 cm) / 2", "hip_height": "11 cm",
        "waist_width": "(hips - 6 cm) / 2", "waist_height": "23 cm"}}}
       for to in ("hip", "waist", "chest")},
}


@dataclass(frozen=True)
class Declared:
    """A key, its table, and the keys above it from the whole file down, each with its table."""

    table: type[Keys]
    key: Key[Any]
    above: tuple[tuple[type[Keys], Key[Any]], ...] = ()

    @property
    def root(self) -> type[Keys]:
        return self.above[0][0] if self.above else self.table

    def __str__(self) -> str:
        return ".".join([*(key.name for _, key in self.above), self.key.name])


def declared(table: type[Keys], above: tuple[tuple[type[Keys], Key[Any]], ...] = ()
             ) -> Iterator[Declared]:
    """Every key of a table and of those under it."""
    for key in table.keys.values():
        yield Declared(table, key, above)
        if key.table is not None:
            yield from declared(key.table, (*above, (table, key)))


ALL = [one for root in ROOTS for one in declared(root)]


def value_of(written: str) -> Any:
    """A value as YAML has it, every scalar as text; `...` stands for a swatch."""
    return yaml.load(f"value: {written.replace('{...}', SwatchKeys.example)}",
                     yaml.BaseLoader)["value"]


def smallest(table: type[Keys]) -> Source:
    """The example of a whole mapping."""
    found = value_of(table.example)
    return dict(found[0] if isinstance(found, list) else found)


def with_key(table: type[Keys], key: Key[Any], value: Any) -> Source:
    """The smallest mapping that can have the key, with it."""
    beside = yaml.load(f"{{{key.beside}}}", yaml.BaseLoader)
    around = {**smallest(table), **beside, key.name: value}
    return {name: said for name, said in around.items()
            if name not in key.or_else and said != "null"}


def in_place(one: Declared, value: Any) -> Source:
    """The whole file with that value under the key."""
    below: Any = with_key(one.table, one.key, value) if one.above else value
    wanted = [ABOVE.get((table.__name__, key.name), {})
              for table, key in (*one.above, (one.table, one.key))]
    for table, key in reversed(one.above):
        example = value_of(key.example)
        if isinstance(key.read, Several):
            below = {next(iter(example)): below} if key.read.by_name else [below]
        if table is one.root:
            return whole(one, {key.name: below})
        below = with_key(table, key, below)
        for more in wanted:
            below = {name: said for name, said in {**below, **more.get(table.__name__, {})}.items()
                     if said != "null"}
    return whole(one, {one.key.name: value})


@cache
def around() -> Mapping[str, Source]:
    """The whole files around a key, by their tables; aliases are written out."""
    return {"PatternKeys": yaml.load((HERE / "declared.yaml").read_text(encoding="utf-8"),
                                     yaml.BaseLoader),
            "ChartFileKeys": yaml.load((HERE / "own-sizes.yaml").read_text(encoding="utf-8"),
                                       yaml.BaseLoader),
            "BedFileKeys": {"pitch": "9 mm", "needles": "110", "source": "measured"},
            "CollectionKeys": {"title": "Lantern Quay"}}


def whole(one: Declared, given: Source) -> Source:
    """The whole file with what is given in it, beside what else it has under that key."""
    made = dict(around()[one.root.__name__])
    elsewhere = [ELSEWHERE.get((table.__name__, key.name), {})
                 for table, key in (*one.above, (one.table, one.key))]
    if one.root is PatternKeys and not any(elsewhere) and "edge: neck" in one.key.beside:
        elsewhere.append({"garment": CARDIGAN})
    for part in (*elsewhere, given):
        for name, said in part.items():
            merged = isinstance(said, dict) and isinstance(made.get(name), dict)
            made[name] = {**made[name], **said} if merged else said
    return made


def written(source: Source) -> str:
    """A source as text, without aliases."""
    dumper = getattr(yaml, "CSafeDumper", yaml.SafeDumper)  # the one in C is quicker
    plain = type("Plain", (dumper,), {"ignore_aliases": lambda self, data: True})
    return str(yaml.dump(source, Dumper=plain, sort_keys=False, allow_unicode=True, width=200))
