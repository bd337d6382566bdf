"""The rows of the edges of own pieces as they are computed: from corner to corner."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from ..core.edge_parts import SectionRole
from ..core.expression import NOTHING, Expression
from ..shape.foot import Foot, height_of
from ..words.terms.section_names import SECTIONS
from .outline_sides import StretchOf


def rows_made(parts: Iterable[StretchOf], foot: Foot | None) -> Iterator[Expression]:
    """Yield the rows of parts of a side as they are computed, those of its hem or rib first; parts
    that follow one another are one."""
    if foot:
        yield height_of(foot, SECTIONS[SectionRole.LOWER_EDGE])
    ends: list[tuple[Expression, Expression]] = []
    for part in (part for part in parts if not part.level):
        follows = bool(ends) and ends[-1][1] is part.bottom
        ends.append((ends.pop()[0] if follows else part.bottom, part.top))
    yield from (top if bottom is NOTHING else top - bottom for bottom, top in ends)
