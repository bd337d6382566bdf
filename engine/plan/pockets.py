"""Pockets let into a garment's fronts: where each opens, its lining, the edges bands can take.

Source: the author of The Neckline Encyclopedia, "Buttonhole band, method 1 revised" (D04).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction

from ..catalogue.edge_roles import EdgeRole
from ..catalogue.pocket_edges import EDGES, LEFT, LINING, ONE, PAIR, RIGHT
from ..core.counted import Count, stated
from ..core.counts import Unit, decimal, whole
from ..core.edge_parts import SectionDetail, SectionRole, Worn
from ..core.expression import Expression, Operand, plain
from ..core.note_arguments import Noted
from ..core.operand_parts import PartRole
from ..core.operands import Note, Role
from ..core.problems import Problem, error
from ..core.text_kinds import FindingText
from ..core.units import Length
from ..fabric.gauge import Gauge, counted, rows_up, stitches_across
from ..machine.records import dataclass
from ..machine.steps import Side
from ..pattern.edges import Offer
from ..pattern.model import Band, GarmentSpec
from ..pattern.places import Places
from ..pattern.specs import PocketSpec
from ..shape.edge_path import EdgePath, run_of
from ..shape.edging import Stretch, waiting
from ..shape.garment import Garment
from ..shape.piece import FRONTS, Piece
from ..shape.pocket_slots import PocketSlot
from ..shape.profile import Profile
from ..shape.tasks import Seam, Task, TaskKind, needing
from ..shape.worn import worn
from ..words.terms.part_names import part_name
from ..words.terms.section_names import POCKET_LINING, pocket_edge
from ..words.terms.waiting_names import POCKET_TOP

SEAM = 1  # the side seam's stitch


@dataclass(frozen=True, slots=True, kw_only=True)
class _Sized:
    """A specification of pockets in one size, in whole stitches and rows."""

    stitches: Count
    row: Count
    lining: Count
    from_side: Length | int | None
    gauge: Gauge


class _Unfit(Exception):
    """Pockets that cannot be had: the finding's code, key of the source, figures, a way out."""

    def __init__(self, code: str, key: str, found: str, expected: str, remedy: str) -> None:
        super().__init__(found)
        self.code, self.key = code, key
        self.found, self.expected, self.remedy = found, expected, remedy


def with_pockets(places: Places, garment_spec: GarmentSpec | None, garment: Garment, gauge: Gauge
                 ) -> tuple[Garment | None, tuple[Problem, ...]]:
    """Return the garment with the pockets that its pattern asks for, or None with the finding."""
    spec = garment_spec.pockets if garment_spec else None
    if spec is None:
        return garment, ()
    try:
        sized = _sized(places, spec, garment, gauge)
        fronts = _fronts(garment, spec, sized)
    except _Unfit as fault:
        place = places.of(f"garment.pockets{fault.key and '.'}{fault.key}", garment.size)
        return None, (error(fault.code, place, size=garment.size, found=fault.found,
                            expected=fault.expected, remedy=fault.remedy),)
    return _added(garment, spec, sized, fronts), ()


def _sized(places: Places, spec: PocketSpec, garment: Garment, gauge: Gauge) -> _Sized:
    """Whole stitches, the row at which it opens, the lining's rows.

    A height is taken from the garment's lower edge, so that a hem's depth comes off; a row is
    counted above the hem.
    """
    size = garment.size
    front = next((p for p in garment.pieces if p.key in FRONTS), garment.pieces[0])
    hem = front.hem.depth(gauge.row) if front.hem else Fraction(0)
    row = _row(places, spec.height[size], size, hem, gauge)
    if row.value < 4:
        raise _Unfit("pocket-too-low", "height",
                     _height_text(spec.height[size], row, hem=bool(hem)),
                     "at least 4 rows below the opening", "Give it more height.")
    lining = _counted(places, "depth", spec.depth[size], size, gauge) if spec.depth else row
    if lining.value > row.value:
        most = Fraction(whole(row.value * gauge.row)) / 10
        raise _Unfit("pocket-too-deep", "depth",
                     f"a lining of {lining} below an opening at row {row.value}",
                     f"at most {row.value} rows, down to the {'hem' if hem else 'lower edge'}",
                     f"Write depth: {decimal(most, 1)} cm or less, or more height.")
    return _Sized(stitches=_stitches(places, spec, size, gauge), row=row, lining=lining,
                  from_side=spec.from_side[size] if spec.from_side else None, gauge=gauge)


def _row(places: Places, height: Length | int, size: str, hem: Fraction, gauge: Gauge) -> Count:
    """The row above the hem at which a pocket opens."""
    place = places.of("garment.pockets.height", size)
    if isinstance(height, int):
        return stated(height, Unit.ROWS, place)
    up: Expression = Operand(height.mm, Role.LENGTH, place=place)
    if hem:
        up -= Operand(hem, Role.LENGTH, part_name(PartRole.OF_HEM))
    return counted(rows_up(up, gauge), Unit.ROWS, gauge.row)


def _height_text(height: Length | int, row: Count, *, hem: bool) -> FindingText:
    if isinstance(height, int):
        return f"a pocket {row} above the {'hem' if hem else 'lower edge'}"
    return (f"a pocket {height.in_cm()} above the lower edge, {row} above "
            f"{'the hem' if hem else 'it'}")


def _counted(places: Places, key: str, figure: Length | int, size: str, gauge: Gauge) -> Count:
    """The rows of a length, or those that are given."""
    place = places.of(f"garment.pockets.{key}", size)
    if isinstance(figure, int):
        return stated(figure, Unit.ROWS, place)
    return counted(rows_up(Operand(figure.mm, Role.LENGTH, place=place), gauge), Unit.ROWS,
                   gauge.row)


def _stitches(places: Places, spec: PocketSpec, size: str, gauge: Gauge) -> Count:
    wide, place = spec.width[size], places.of("garment.pockets.width", size)
    if isinstance(wide, int):
        return stated(wide, Unit.STITCHES, place)
    return stitches_across(wide, gauge, measure=Operand(wide.mm, Role.LENGTH, place=place))


def _fronts(garment: Garment, spec: PocketSpec, sized: _Sized) -> tuple[Piece, ...]:
    """The fronts with their pockets; the right one lies at the right of the bed, purl side up."""
    halves = [p for p in garment.pieces if FRONTS.get(p.key)]
    if halves:
        wanted = halves if spec.number == 2 else [
            p for p in halves if FRONTS[p.key] is Side.LEFT]
        return tuple(_opened(p, {_pocket_of(p): _start(p, sized)}, sized) for p in wanted)
    fronts = [p for p in garment.pieces if p.key == "front"]
    if not fronts:
        raise _Unfit("pocket-nowhere", "", f"pockets on a {garment.form.value}",
                     "a form with fronts", "Leave pockets out.")
    (front,) = fronts
    if spec.number == 1:
        middle = (front.stitches.value - sized.stitches.value) // 2
        return (_opened(front, {ONE: middle}, sized),)
    right = _start(front, sized, half=True)
    left = front.stitches.value - right - sized.stitches.value
    gap = right - left - sized.stitches.value
    if gap < 2:
        raise _Unfit("pocket-too-wide", "width",
                     f"two pockets of {sized.stitches}, which "
                     + (f"overlap by {Unit.STITCHES.of(-gap)}" if gap < 0 else
                        f"have {Unit.STITCHES.of(gap)} between them"),
                     "at least 2 stitches between them",
                     "Make the pockets narrower, or put them nearer to the sides.")
    return (_opened(front, {RIGHT: right, LEFT: left}, sized),)


def _pocket_of(half: Piece) -> str:
    """The edge of the pocket on half a front."""
    return LEFT if FRONTS[half.key] is Side.LEFT else RIGHT


def _start(piece: Piece, sized: _Sized, *, half: bool = False) -> int:
    """How far from the left end of the cast-on a pocket at its right begins [stitches]."""
    whole_, n = piece.stitches.value, sized.stitches.value
    if sized.from_side is not None:
        given = sized.from_side
        beside = given if isinstance(given, int) else whole(given.mm / sized.gauge.stitch)
        return whole_ - SEAM - beside - n
    within = whole_ - whole_ // 2 if half else 0
    return within + (whole_ - within - n) // 2


def _opened(piece: Piece, starts: Mapping[str, int], sized: _Sized) -> Piece:
    """The piece with its pockets, or a refusal with the room it has at that row."""
    if piece.chart or piece.leaves_out:
        raise _Unfit("pocket-in-chart", "", f"a pocket in the {piece.title.lower()}, which is "
                     "knitted from a stitch chart or with needles left out of work",
                     "a front in a plain fabric", "Leave pockets out, or use a plain fabric.")
    row, n = sized.row.value, sized.stitches.value
    if row >= piece.left.rows:
        raise _Unfit("pocket-too-high", "height",
                     f"a pocket at row {row} of the {piece.title.lower()}",
                     f"a row below {piece.left.rows}, where its "
                     f"{'neck opens' if piece.opening else 'top is'}", "Give it less height.")
    lower, upper = piece.room(row)
    for start in starts.values():
        if not lower <= start <= upper - n:
            raise _no_room(piece, sized, max(0, upper - lower), moved=sized.from_side is not None)
    slots = tuple(PocketSlot(key=key, row=row, start=start, stitches=n)
                  for key, start in starts.items())
    return replace(piece, pockets=slots)


def _no_room(piece: Piece, sized: _Sized, room: int, *, moved: bool) -> _Unfit:
    n, row = sized.stitches.value, sized.row.value
    remedy: FindingText = \
        "Put it further from the side seam or nearer to it, or make it narrower." \
        if moved and n <= room else "Make the pocket narrower or lower."
    where: FindingText = ", from its side seam as the designer gives it," if moved else ""
    return _Unfit("pocket-too-wide", "from_side" if moved and n <= room else "width",
                  f"a pocket of {n} stitches{where} on the {piece.title.lower()} at row {row}, "
                  f"where {room} lie inside its edges",
                  f"a pocket within those {room} stitches", remedy)


def _added(garment: Garment, spec: PocketSpec, sized: _Sized, fronts: tuple[Piece, ...]) -> Garment:
    opened = {p.key: p for p in fronts}
    lining = _lining(sized)
    slots = [(p, slot) for p in fronts for slot in p.pockets]
    counts = [(fronts[0].key, "pocket_stitches", sized.stitches),
              (fronts[0].key, "pocket_row", sized.row),
              (LINING, "stitches", lining.stitches), (LINING, "lining_rows", sized.lining)]
    times = dict(garment.times)
    if len(slots) > 1:
        times[LINING] = len(slots)
    edges = {slot.key: _edge(slot, sized) for _, slot in slots}
    return replace(garment, pieces=(*(opened.get(p.key, p) for p in garment.pieces), lining),
                   counts=(*garment.counts, *counts), times=times,
                   edges={**garment.edges, **edges},
                   tasks=_with_pockets(garment.tasks, len(slots)))


def _lining(sized: _Sized) -> Piece:
    """Straight, hung on the opening's upper edge: n stitches offer n + 1 loops there (D04)."""
    n, rows = sized.stitches.value, sized.lining.value
    return Piece(key=LINING, title=POCKET_LINING, hung_on=POCKET_TOP,
                 stitches=Count(
                     Noted(sized.stitches.term(Role.NUMBER) + plain(1), Note.LOOPS_ABOVE,
                           (n + 1, n)), Unit.STITCHES),
                 left=Profile(rows), right=Profile(rows))


def _edge(slot: PocketSlot, sized: _Sized) -> EdgePath:
    """The lower edge, and a stitch of the garment at either end, to be sewn down there."""
    side = waiting(SectionRole.BESIDE_POCKET, 1, sized.gauge, Offer.CORD, made=plain(1))
    below = replace(waiting(SectionRole.POCKET, slot.stitches, sized.gauge, Offer.CORD,
                            made=sized.stitches.made),
                    details=(SectionDetail.ON_CORD,), stretch=Stretch.POCKET)
    return run_of(slot.key, pocket_edge(slot.name),
                  worn([side, below, side],
                       *((Worn.LEFT, Worn.RIGHT) if slot.key == ONE else (Worn.INNER, Worn.OUTER))))


def _with_pockets(tasks: tuple[Task, ...], number: int) -> tuple[Task, ...]:
    """The tasks with the pockets after the first of them, while the fronts lie flat."""
    several, first = number > 1, tasks[0]
    top = Task(kind=TaskKind.BAND, name="pockets", needs=(first.name,), roles=(EdgeRole.POCKET,),
               each=several, waits=True)
    lining = Task(kind=TaskKind.LININGS, name="linings", needs=(first.name,), pieces=(LINING,),
                  each=several)
    later = needing(tasks[1:], (top.name, lining.name), Seam)
    return (first, top, lining, *later)


def tops(places: Places, garment_spec: GarmentSpec | None, bands: Mapping[str, Band]
        ) -> tuple[Problem, ...]:
    """Return an error where a pocket's stitches would wait for a band for ever, or a band that
    takes them has buttonholes."""
    spec = garment_spec.pockets if garment_spec else None
    if spec is None:
        return ()
    for band in bands.values():
        if band.garment_edge in EDGES and band.buttonholes:
            return (error("pocket-with-holes", places.of(f"bands.{band.key}.buttonholes"),
                          found="buttonholes in a pocket top", expected="a band without",
                          remedy="Leave them out, or sew a loop to the pocket top."),)
    taken = {band.garment_edge for band in bands.values()} & set(EDGES)
    if PAIR in taken or {RIGHT, LEFT} <= taken or (spec.number == 1 and taken):
        return ()
    return (error("pocket-open", places.of("garment.pockets"),
                  found="pockets whose stitches no band takes",
                  expected="a band for every pocket, for its stitches wait on a cord",
                  remedy='Add a band with "edge: pocket", or for a single pocket the name its '
                         "edge has."),)
