"""A cord through a garment's hem: where it comes out, how long it is, who may have none."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from ..core.counted import Count
from ..core.counts import decimal
from ..core.expression import Expression, Operand, Sum, Term, plain
from ..core.operand_parts import PartRole
from ..core.operands import Role
from ..core.problems import Place, Problem, error
from ..core.units import Length
from ..fabric.gauge import Gauge
from ..pattern.model import GarmentSpec, Wearer
from ..pattern.places import Places
from ..shape.foot import Hem
from ..shape.garment import Garment
from ..shape.piece import Piece
from ..shape.tasks import Seam, Task, TaskKind
from ..words.terms.part_names import part_name
from .cord_rules import FROM_EDGE, FROM_MIDDLE, ROOM, STANDARDS, cord_length, long_ends

SEAM = 1  # stitches a side seam takes of each piece


def allowed(places: Places, garment_spec: GarmentSpec | None, wearer: Wearer
           ) -> tuple[Problem, ...]:
    """Return what is to be said of a cord for whoever wears the garment; an error refuses it."""
    spec = garment_spec.cord if garment_spec else None
    if spec is None:
        return ()
    place = places.of("garment.cord")
    if wearer is Wearer.BABIES:
        return (error("cord-on-baby", place, found="a cord in a baby's garment",
                      expected=f"none. {STANDARDS}", remedy="Leave the cord out."),)
    return long_ends(wearer, place, spec.ties)


def with_cord(places: Places, garment_spec: GarmentSpec | None, wearer: Wearer, garment: Garment,
              gauge: Gauge, hidden: Operand) -> tuple[Garment | None, tuple[Problem, ...]]:
    """Return the garment with the eyelets and the cord that its pattern asks for, or None with
    the finding. `hidden` are the stitches that a front band takes in."""
    spec = garment_spec.cord if garment_spec else None
    if spec is None:
        return garment, ()
    place, size = places.of("garment.cord"), garment.size
    fronts = [p for p in garment.pieces if p.key in ("front", "right_front", "left_front")]
    hem = fronts[0].hem if fronts else None
    if not isinstance(hem, Hem):
        where = f"a cord in a {garment_spec.form}" if garment_spec else ""
        return None, (error("cord-without-hem", place, size=size,
                            found=f"{where} without a hung hem" if fronts else where,
                            expected="a hem on a form with fronts, for the cord to lie in",
                            remedy='Add a line such as "hem: {depth: 3 cm}", or leave the cord '
                                   "out." if fronts else "Leave the cord out."),)
    depth, need = hem.rows * (hem.row or gauge.row), spec.width.mm + ROOM
    if depth < need:
        return None, (error(
            "casing-too-shallow", place, size=size,
            found=f"a cord of {spec.width.in_mm()} in a hem {decimal(depth, 1)} mm deep",
            expected=f"a hem {decimal(ROOM, 0)} mm deeper than its cord: {decimal(need, 1)} mm",
            remedy=f"Make the hem at least {decimal(need / 10, 1)} cm deep, or the cord thinner."),)
    return _added(places, garment_spec, wearer, garment, fronts, gauge, hidden), ()


def _added(places: Places, spec: GarmentSpec | None, wearer: Wearer, garment: Garment,
           fronts: list[Piece], gauge: Gauge, hidden: Operand) -> Garment:
    assert spec is not None and spec.cord is not None
    ties = spec.cord.ties
    opened = {p.key: _with_eyelets(p, int(hidden.value)) for p in fronts}
    length = _length(garment, fronts, gauge, hidden, ties,
                     places.of("garment.cord.ties"))
    return replace(garment, pieces=tuple(opened.get(p.key, p) for p in garment.pieces),
                   counts=(*garment.counts, (fronts[0].key, "cord", length)),
                   tasks=_drawn_in(garment.tasks, Task(
                       kind=TaskKind.CORD, name="cord", cord=Length(Fraction(10 * length.value)),
                       ties=ties, child=wearer.is_child)))


def _drawn_in(tasks: tuple[Task, ...], cord: Task) -> tuple[Task, ...]:
    """The tasks with the cord before the last, and the channel open in the side seams."""
    sides = tuple(task.name for task in tasks if task.sews_any(Seam.SIDE))
    opened = [replace(task, open_hem=task.name in sides) for task in tasks]
    return (*opened[:-1], replace(cord, needs=sides), opened[-1])


def _with_eyelets(front: Piece, hidden: int) -> Piece:
    """A whole front has two about its middle, one of a pair one beside its front edge."""
    assert isinstance(front.hem, Hem)
    middle = front.stitches.value // 2
    at = (middle - FROM_MIDDLE, middle + FROM_MIDDLE - 1) if front.key == "front" else \
        (hidden + FROM_EDGE,)
    return replace(front, hem=replace(front.hem, eyelets=at))


def _length(garment: Garment, fronts: list[Piece], gauge: Gauge, hidden: Operand, ties: Length,
            place: Place) -> Count:
    """The way round the hem from eyelet to eyelet, and an end at either side [cm], rounded up."""
    back = next(p for p in garment.pieces if p.key == "back")
    taken: Expression = plain(2) * Operand(Fraction(2 * SEAM), Role.SEAMS)
    if len(fronts) > 1 and hidden.value:
        taken = taken + plain(2) * hidden
    each = tuple(p.stitches.term(Role.STITCHES) for p in (back, *fronts))
    around = Term(Sum(each) - taken, Role.STITCHES, part_name(PartRole.ROUND_HEM))
    return cord_length(around, gauge, ties, place)
