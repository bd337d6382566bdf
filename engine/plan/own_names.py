"""The pieces of a garment by the names that the designer gives them."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace

from ..core.problems import Problem, error
from ..core.text import clip, suggest
from ..pattern.model import GarmentSpec
from ..pattern.places import Places
from ..shape.garment import Garment

_WORDS = re.compile(r"(?:right |left )?[a-z]+")


def with_own_names(places: Places, spec: GarmentSpec, garment: Garment
                   ) -> tuple[Garment, tuple[Problem, ...]]:
    """Return the garment with each named piece called so, in its joins and tasks too.

    A name of a piece that the garment has not is an error.
    """
    if not spec.names:
        return garment, ()
    keys = {piece.key: piece.title for piece in garment.pieces}
    strange = tuple(_strange(places, spec, key, garment.size, keys)
                    for key in spec.names if key not in keys)
    if strange:
        return garment, strange
    called = {keys[key]: title for key, title in spec.names.items()}
    return replace(
        garment,
        pieces=tuple(replace(piece, title=called.get(piece.title, piece.title))
                     for piece in garment.pieces),
        joins=tuple(replace(join, title=_renamed(join.title, called),
                            sides=_both(join.sides, called)) for join in garment.joins),
        tasks=tuple(replace(task, title=called.get(task.title, task.title),
                            edges=_both(task.edges, called)) for task in garment.tasks)), ()


def _both(edges: tuple[str, str], called: Mapping[str, str]) -> tuple[str, str]:
    """Two edges for people, the pieces in them called otherwise."""
    return _renamed(edges[0], called), _renamed(edges[1], called)


def _renamed(text: str, called: Mapping[str, str]) -> str:
    """A text for people with the pieces in it called otherwise, in small letters."""
    small = {old.lower(): new.lower() for old, new in called.items()}
    return _WORDS.sub(lambda found: small.get(found[0], found[0]), text)


def _strange(places: Places, spec: GarmentSpec, key: str, size: str, keys: Mapping[str, str]
             ) -> Problem:
    expected, remedy = suggest(key.replace("_", " "), [one.replace("_", " ") for one in keys],
                               "Write one of these.")
    return error("unknown-name", places.of(f"garment.names.{key}"), size=size,
                 found=f'no piece called "{clip(key)}" in a {spec.form}',
                 expected=expected, remedy=remedy)
