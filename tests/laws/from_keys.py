"""Values and mappings drawn at random from the declarations of their keys.

A key is drawn with its kind of value: a figure from what is plausible of it, one of its words, a
name that the source has. So a key that is declared is drawn without a word about it here.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any

import yaml
from hypothesis import strategies as st
from hypothesis.strategies import DrawFn, SearchStrategy
from walebook.core.ranges import Measured, Range
from walebook.core.units import read_dial, read_length
from walebook.source.keys.key import Key, Keys, Mapped, Name, Several
from walebook.source.values import Figure, Word

Drawn = dict[str, Any]
OFTEN = 1  # how many times in ten a key is drawn of which nothing else is said


@dataclass(frozen=True)
class Known:
    """What a source has: its sizes, and its names by what they name."""

    sizes: Sequence[str]
    names: Mapping[str, Sequence[str]] = field(default_factory=dict)


def lengths(low: int, high: int) -> SearchStrategy[str]:
    """A length in one of the ways a source has it [mm]."""
    whole = st.integers(-(-low // 10), high // 10).map(lambda cm: f"{cm} cm")
    millimetres = st.integers(low, high).map(lambda mm: f"{mm} mm")
    return millimetres | whole if -(-low // 10) <= high // 10 else millimetres


def dials(low: int = 0, high: int = 10) -> SearchStrategy[str]:
    """A dial setting."""
    return st.builds(lambda whole, dots: f"{whole}{dots}", st.integers(low, high - 1),
                     st.sampled_from(("", ".1", ".2")))


def sized(sizes: Sequence[str], value: SearchStrategy[Any]) -> SearchStrategy[Any]:
    """One value for all sizes, or one for each."""
    return value | st.fixed_dictionaries(dict.fromkeys(sizes, value))


def figures(kind: Range) -> SearchStrategy[str] | None:
    """A plausible figure of a kind, a length from the smaller ones; None where examples must do."""
    if kind.measured is Measured.LENGTH:
        low, high = (int(read_length(end).mm) for end in (kind.low, kind.high))
        return lengths(low, high if low < 0 else low + (high - low) // 3)
    if kind.measured is Measured.DIAL:
        return dials(*(read_dial(end).thirds // 3 for end in (kind.low, kind.high)))
    if kind.measured in (Measured.COUNT, Measured.SHARE, Measured.MASS):
        low, high = (Fraction(end.split()[0]) for end in (kind.low, kind.high))
        unit = {Measured.SHARE: " %", Measured.MASS: " g"}.get(kind.measured, "")
        return st.integers(-(-low // 1), int(high)).map(lambda n: f"{n}{unit}")
    return None


def written_values(key: Key[Any]) -> SearchStrategy[Any]:
    """The example of a key, and the other values of it that its declaration has."""
    said = (key.example, *key.likely)
    return st.sampled_from([one if "\n" in one else yaml.load(f"value: {one}", yaml.BaseLoader)
                            ["value"] for one in said])


def values(key: Key[Any], known: Known) -> SearchStrategy[Any]:
    """A value of a key."""
    read, found = key.read, None
    if isinstance(read, Figure):
        found = figures(read.range)
    elif isinstance(read, Word):
        found = st.sampled_from(list(read.choices))
    elif isinstance(read, Name) and known.names.get(read.what):
        found = st.sampled_from(known.names[read.what])
    elif isinstance(read, Mapped):
        return mappings(read.keys, known)
    elif isinstance(read, Several) and read.keys is not None and not read.by_name:
        return st.lists(mappings(read.keys, known), min_size=1, max_size=2)
    one = written_values(key) if found is None else found
    if key.inside is not None:
        one |= mappings(key.inside, known)
    return sized(known.sizes, one) if key.by_size else one


def stands(key: Key[Any], mapping: Drawn) -> bool:
    """True where all that must stand beside a key does."""
    beside = yaml.load(f"{{{key.beside}}}", yaml.BaseLoader)
    return all(mapping.get(name, "null") == said for name, said in beside.items())


@st.composite
def mappings(draw: DrawFn, table: type[Keys], known: Known, begun: Drawn | None = None, *,
             near: Mapping[str, SearchStrategy[Any]] | None = None,
             tenths: Mapping[str, int] | None = None) -> Drawn:
    """What is `begun`, with what it needs, and with other keys now and then.

    `near` draws the values of some keys from a smaller range than their declarations have, so that
    more can be knitted; `tenths` draws some keys more often, or never.
    """
    made, near, tenths = dict(begun or {}), near or {}, tenths or {}
    for key in sorted(table.keys.values(), key=lambda key: bool(key.beside)):
        group = [name for name in table.keys if name in (key.name, *key.or_else)]
        if key.name in made or (key.or_else and made.keys() & set(group)):
            continue
        name = draw(st.sampled_from(group)) if key.or_else else key.name
        often = 10 if key.needed or key.or_else else tenths.get(name, OFTEN)
        slip = key.beside and not stands(key, made) and name not in tenths
        if draw(st.integers(0, 9)) >= 10 - often and not (slip and draw(st.integers(0, 9))):
            made[name] = draw(near[name] if name in near else values(table.keys[name], known))
    return made
