"""Where an edge turns: the square corners between its sections, inward and outward, and the feet of
necks, square or not.

A band that goes on around one has an outer edge of another length than its foot: by its own depth
on either side of a square corner (geometry; half the turn is 45 degrees).
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import pairwise

from ..core.edge_parts import SectionRole
from ..machine.records import dataclass
from ..pattern.edges import Offer
from .edging import Section, Zone, begins_level


@dataclass(frozen=True, slots=True)
class Square:
    """A square corner after so many sections: the garment juts out there, or it is hollow."""

    before: int
    juts: bool

    def longer(self, depth: Fraction, *, stands: bool) -> Fraction:
        """How much longer the line is on which the free edge of a band lies than its foot [mm].

        `depth` is the band's [mm]. One that `stands` lies beyond the edge, any other behind it.
        """
        return 2 * depth if self.juts is stands else -2 * depth


def squares(sections: Sequence[Section]) -> tuple[Square, ...]:
    """Return the square corners of an edge by its sections, in their order.

    Hollow ones lie where a straight side meets the stitches that wait at the foot of the same neck,
    all in one row; at the top of a front edge a neck that begins level juts out.
    """
    found = []
    for number, (one, other) in enumerate(pairwise(sections), 1):
        if _is_square(one, other) or _is_square(other, one):
            found.append(Square(number, juts=False))
        elif _juts(one, other) or _juts(other, one):
            found.append(Square(number, juts=True))
    return tuple(found)


def feet(sections: Sequence[Section]) -> tuple[int, ...]:
    """Return after how many sections a side of rows meets the stitches that wait at the foot of the
    same neck.

    As the side is hung in from its edge, the edge stitches stand between the two, also where the
    side slopes or the foot lies in steps. The one stitch at the point of a V is no foot.
    """
    return tuple(number for number, (one, other) in enumerate(pairwise(sections), 1)
                 if _has_foot(one, other) or _has_foot(other, one))


def _has_foot(side: Section, foot: Section) -> bool:
    return (bool(side.segments) and not side.level and foot.offer is Offer.WAITING
            and side.role is foot.role and side.role is not SectionRole.OWN and foot.places > 1)


def _is_square(side: Section, foot: Section) -> bool:
    return (_has_foot(side, foot) and not any(segment.stitches for segment in side.segments)
            and not foot.turns)


def _juts(front: Section, neck: Section) -> bool:
    return front.is_straight_rows and front.zone is Zone.FRONT and begins_level(neck)
