"""The row-by-row program of a folded band, in the machine's language, for either front."""

from __future__ import annotations

from dataclasses import dataclass

from .band import BandPlan
from .ledger import Ledger
from .meeting import Meeting
from .model import Fold, Lean
from .needles import Needle, Needles, bed_of, between, centred, every_other
from .steps import Dial, Program, Side, lower, upper

WASTE, CORD, MAIN = "waste yarn", "ravel cord", "main yarn"
HOLE_CORD = "buttonhole cord"
FIRST_ROW = "the band's first row"
LOOSEST = Dial(30)
LOOSER = Dial(12)  # a very loose row: four numbers up, T10 against T6 in one published hem


@dataclass(frozen=True, slots=True)
class Layout:
    """Where a band lies on the bed: its needles, and on which side the garment's hem is.

    The garment lies back over the bed, right side up, its edge towards the knitter: so a right
    front's hem lies at the left of the bed, and a left front's at the right (common practice,
    no source).
    """

    needles: Needles
    hem: Side

    def at(self, stitch: int) -> Needle:
        """The needle of a stitch counted from 1 at the hem's end."""
        if self.hem is Side.LEFT:
            return Needle(self.needles.first.place + stitch - 1)
        return Needle(self.needles.last.place - stitch + 1)

    def span(self, first: int, last: int) -> Needles:
        """The needles of the stitches from `first` to `last`, counted from the hem's end."""
        a, b = sorted((self.at(first), self.at(last)))
        return between(a, b)


def lay_out(stitches: int, front: Side) -> Layout:
    """Return the layout of a band of `stitches` for the wearer's right or left front."""
    hem = front.other
    return Layout(centred(stitches, extra=hem.value), hem)


def band_program(plan: BandPlan, *, front: Side, bed_needles: int, garment_dial: Dial,
                 with_holes: bool) -> Program:
    """Return the whole program of the band for one `front`, as its makers work it.

    A button band (`with_holes` False) is the same band without holes. The left front's program
    is the right front's mirrored. Order and steps: common practice, no source; loops of the
    closing D04 and D09.
    """
    layout = lay_out(plan.stitches.value, front)
    book = Ledger(side=layout.hem.other)
    _waste_start(book, plan, layout, garment_dial)
    holes = _hole_spans(plan, layout) if with_holes else ()
    _first_layer(book, plan, holes)
    _fold(book, plan, layout)
    _second_layer(book, plan, layout, bool(holes))
    if holes:
        _close_holes(book, plan, layout, holes)
        _last_rows(book, plan)
    _close_band(book, plan, layout)
    _finish(book, plan, bool(holes))
    return Program(name=f"{plan.band.title}, {front.value} front", bed=bed_of(bed_needles),
                   starts=layout.hem.other, sections=tuple(book.sections),
                   edges=tuple((name, m.section.places) for name, m, _ in sections(plan, layout)),
                   first_row=FIRST_ROW,
                   cord_yarn=CORD, waste_yarn=WASTE, row_one=layout.hem, totals=book.totals)


def _hole_spans(plan: BandPlan, layout: Layout) -> tuple[Needles, ...]:
    if plan.placing is None:
        return ()
    return tuple(layout.span(start, start + plan.placing.hole - 1)
                 for start in plan.placing.starts)


def _waste_start(book: Ledger, plan: BandPlan, layout: Layout, garment_dial: Dial) -> None:
    book.bring(layout.needles)
    book.thread(WASTE, fresh=True)
    book.set_dial(garment_dial)
    book.cast_on(layout.needles, "waste start")
    book.attend("weights", layout.needles)
    book.knit(plan.band.waste_rows, "of waste yarn")
    book.unthread(cut=True)
    book.thread(CORD, fresh=True)
    book.knit(1, "of ravel cord")
    book.unthread(cut=False)
    book.section("Waste yarn and ravel cord")


def _first_layer(book: Ledger, plan: BandPlan, holes: tuple[Needles, ...]) -> None:
    book.thread(MAIN, fresh=True)
    book.set_dial(plan.band.dial)
    book.set_counter(0)
    rows = plan.rows
    if not holes:
        book.knit(rows.to_holes + rows.holes_to_fold, "to the fold")
        book.section("First layer")
        return
    book.knit(rows.to_holes, "to the buttonholes")
    book.attend("choose holes", _all(holes))
    for number, span in enumerate(holes, 1):
        book.hand_knit(span, HOLE_CORD, f"buttonhole {number}", cord=_cord(number))
    book.attend("clip ends", _all(holes))
    book.knit(rows.holes_to_fold, "to the fold")
    book.section("First layer")


def _fold(book: Ledger, plan: BandPlan, layout: Layout) -> None:
    if plan.band.fold is Fold.TURNED:
        _turn(book, layout, "to the purl side")
        book.knit(1, "the fold row")
        _turn(book, layout, "back to the knit side")
    elif plan.band.fold is Fold.LOOSE:
        book.set_dial(min(LOOSEST, Dial(plan.band.dial.thirds + LOOSER.thirds)),
                      "for the fold row only")
        book.knit(1, "the fold row, very loose")
        book.set_dial(plan.band.dial, "for the second layer")
    else:
        picots = _picots(layout)
        book.transfer(picots, _inward(layout), "for the picot row", fewer=len(picots))
    book.section("Fold")


def _turn(book: Ledger, layout: Layout, purpose: str) -> None:
    rows = book.counter
    book.unthread(cut=False)
    book.free_pass("so that the carriage is where the yarn will hang")
    book.set_counter(rows, "the free pass was no row")
    book.attend("weights off", layout.needles)
    book.turn_work(purpose)
    book.attend("weights on", layout.needles)
    book.thread(MAIN, fresh=False)


def _picots(layout: Layout) -> Needles:
    """Every other stitch from the second, the last stitch staying (D02)."""
    first, last = sorted((layout.at(2), layout.at(len(layout.needles) - 1)))
    if layout.hem is Side.LEFT or len(layout.needles) % 2:
        return every_other(first, last)
    return every_other(Needle(first.place + 1), last)


def _inward(layout: Layout) -> int:
    """Each picot stitch moves onto its neighbour away from the hem."""
    return 1 if layout.hem is Side.LEFT else -1


def _second_layer(book: Ledger, plan: BandPlan, layout: Layout, holes: bool) -> None:
    fills = _picots(layout) if plan.band.fold is Fold.PICOT else Needles(0)
    rows = plan.rows
    if holes:
        book.knit(rows.fold_to_holes, "from the fold to the buttonholes' row", fills=fills)
    else:
        book.knit(rows.fold_to_holes + rows.to_finish, "to the end of the second layer",
                  fills=fills)
        book.unthread(cut=True)
    book.section("Second layer")


def _close_holes(book: Ledger, plan: BandPlan, layout: Layout,
                 holes: tuple[Needles, ...]) -> None:
    lean = _lean(plan, layout)
    hung = tuple(span | span.shifted(1 if lean is Side.RIGHT else -1) for span in holes)
    book.attend("weights off", layout.needles)
    book.attend("fold up", _all(holes))
    for number, span in enumerate(hung, 1):
        book.hang(upper(_cord(number)), span, f"buttonhole {number}", onto_empty=False, lean=lean)
    in_order = list(enumerate(hung, 1))
    for number, span in in_order if lean is layout.hem.other else in_order[::-1]:
        book.bind_off(span, MAIN, f"buttonhole {number}", toward=lean, keep_last=True,
                      method="around the gate pegs", layers=2)
    for number, span in enumerate(holes, 1):
        book.hang(lower(_cord(number)), span, f"buttonhole {number}", onto_empty=True)
    for number in range(1, len(holes) + 1):
        book.draw_cord(_cord(number), f"buttonhole {number}")
    book.attend("waste end", layout.needles)
    book.attend("weights on", layout.needles, "along the fold")
    book.section("Closing the buttonholes")


def _last_rows(book: Ledger, plan: BandPlan) -> None:
    book.knit(plan.rows.to_finish, "to the end of the second layer")
    book.attend("look at holes")
    book.unthread(cut=True)
    book.section("Last rows")


def sections(plan: BandPlan, layout: Layout) -> tuple[tuple[str, Meeting, Needles], ...]:
    """The sections of the edge in order from the band's first end: name, meeting, needles."""
    out, at = [], 1
    for number, meeting in enumerate(plan.meetings, 1):
        last = at + meeting.stitches.value - 1
        name = meeting.section.title if len(plan.meetings) == 1 else \
            f"{number}: {meeting.section.title}"
        out.append((name, meeting, layout.span(at, last)))
        at = last + 1
    return tuple(out)


def _close_band(book: Ledger, plan: BandPlan, layout: Layout) -> None:
    book.attend("weights off", layout.needles)
    book.attend("cloth", layout.needles)
    for name, meeting, needles in sections(plan, layout):
        book.hang(name, needles, "the garment's edge", onto_empty=False,
                  picks=meeting.pick_up.rows, from_side=layout.hem)
    book.hang(FIRST_ROW, layout.needles, "the band's first row", onto_empty=False,
              half_at=_lean(plan, layout).other)
    book.draw_cord(FIRST_ROW)
    book.hand_knit(layout.needles, MAIN, "to join all layers", loose=True)
    book.bind_off(layout.needles, MAIN, "to close the band", toward=book.side.other,
                  keep_last=False, method="chained through each other", rest=True)
    book.section("Closing the band around the edge")


def _finish(book: Ledger, plan: BandPlan, holes: bool) -> None:
    """By hand, off the bed; the buttons go on the band that has no holes."""
    book.attend("sew ends")
    book.attend("darn in")
    if plan.placing is not None and not holes:
        book.attend("sew buttons")
    book.attend("count back")
    book.section("Finishing by hand")


def _lean(plan: BandPlan, layout: Layout) -> Side:
    """The side of the bed to which hung loops go; away from the hem where there are no holes."""
    holes = plan.band.buttonholes
    return layout.hem if holes and holes.lean is Lean.HEM else layout.hem.other


def _cord(number: int) -> str:
    return f"cord {number}"


def _all(spans: tuple[Needles, ...]) -> Needles:
    mask = 0
    for span in spans:
        mask |= span.mask
    return Needles(mask)
