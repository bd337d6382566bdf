"""How far a facing's free edge must stretch between square hollow corners, and where too far."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import pairwise

from ..catalogue.bands import KINDS
from ..core.counts import decimal
from ..core.problems import Problem, Severity, note
from ..core.units import Length
from ..pattern.model import Band
from ..pattern.places import Places
from ..shape.corners import squares
from ..shape.edge_path import EdgePath

# Open stitches, sewn down one by one, give a fifth across and lie flat; beyond it they pucker or
# draw the corner in. Twice what a bound-off edge of plain fabric gives (`catalogue.methods`), a
# third of what an elastic one does. Common practice, no source.
MOST = Fraction(1, 5)


def sides(edge_path: EdgePath) -> Iterator[tuple[Fraction, int]]:
    """Yield the lengths [mm] into which an edge's hollow corners part it, each with how many of
    them lie at its ends. Round an opening the last goes on into the first."""
    hollow = [corner.before for corner in squares(edge_path.sections) if not corner.juts]
    marks = [0, *hollow, len(edge_path.sections)]
    parts = [sum((s.length for s in edge_path.sections[a:b]), Fraction(0)) for a,
             b in pairwise(marks)]
    if not hollow:
        return
    if edge_path.ring:
        parts = [parts[0] + parts[-1], *parts[1:-1]]
        yield from ((part, 2) for part in parts)
    else:
        yield from ((part, 1 + (0 < n < len(hollow))) for n, part in enumerate(parts))


def most_stretched(edge_path: EdgePath, depth: Fraction) -> tuple[Fraction, Fraction]:
    """Return the side between hollow corners that is stretched most by a facing so deep: its length
    and what it lacks [mm], a depth at each corner (geometry); 0 and 0 without such a corner."""
    return max(((length, ends * depth) for length, ends in sides(edge_path)),
               key=lambda side: side[1] / side[0], default=(Fraction(0), Fraction(0)))


def stretched(places: Places, band: Band, size: str, edge_path: EdgePath, depth: Fraction
              ) -> Sequence[Problem]:
    """Return a warning for a facing, `depth` deep [mm], that is stretched more than by `MOST`."""
    if band.mitre or not KINDS[band.kind].faces:
        return ()
    length, lacks = most_stretched(edge_path, depth)
    if lacks <= MOST * length:
        return ()
    fewer = "a facing less deep, or a wider or deeper neck"
    remedy = f"Write mitre: yes; or choose {fewer}." if not band.facing_fabric else \
        f"Leave facing_fabric out and write mitre: yes; or choose {fewer}."
    return (note(
        Severity.WARNING, "facing-stretched", places.of(f"bands.{band.key}.kind"), size=size,
        found=f"a facing {Length(depth).in_cm()} deep round square hollow corners: a side of "
              f"{Length(length).in_cm()} must stretch by {Length(lacks).in_cm()}, "
              f"{decimal(lacks / length * 100, 0)} %",
        expected=f"at most {decimal(MOST * 100, 0)} % of stretch",
        remedy=remedy),)
