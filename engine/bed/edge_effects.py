"""How the bed does the steps at edges: hanging, binding off, taking off, drawing a cord out.

Every function keeps to one order: what the step needs, what it does to the loops, to the
carriage, to the counter.

Source: the author of The Neckline Encyclopedia, "Buttonhole band, method 1 revised" (D04).
"""

from __future__ import annotations

from itertools import pairwise

from ..machine.edge_steps import BindOff, DrawCord, Hang, TakeOff, waste_of
from ..machine.needles import NONE, Needles, of
from ..machine.set_up_steps import Carriage
from ..machine.step_keys import BindOffMethod
from ..machine.steps import Position, Side
from ..machine.tools import Tool
from .owed import need_ready_to_hang, need_seen_to
from .set_up_effects import (
    need_light,
    need_set_for_one,
    need_weight,
    need_weightless,
    need_weights_off,
    release,
)
from .state import Bed, Refused


def hang(bed: Bed, step: Hang) -> None:
    """Hang an edge that waits, one loop a needle, two on those that are doubled."""
    # needs
    if step.edge not in bed.waiting:
        raise Refused("edge-not-waiting", step.needles, f"{step.edge} waiting to be hung",
                      "it was hung before" if step.edge in bed.hung else "no such edge yet")
    _need_bare_or_full(bed, step)
    _need_fit(bed, step)
    need_ready_to_hang(bed, step)
    if not step.onto_empty:
        need_weights_off(bed, "another layer is hung")
    # loops
    bed.use(Tool.TRANSFER)
    if step.takes_marked_rows:
        bed.use(Tool.ROW_PINS)
    bed.lay(step.edge, step.needles)
    if step.doubled:
        bed.lay(step.edge, step.doubled)
    if step.corners:
        bed.lay(CORNER, step.corners)
    del bed.waiting[step.edge]
    bed.hung[step.edge] = len(step.needles) + len(step.doubled)
    bed.lean = bed.lean or (step.lean if step.edge in bed.strands else None)
    # carriage, counter: as they were


def _need_bare_or_full(bed: Bed, step: Hang) -> None:
    bed.need_pushed_up(step.needles)
    bed.need_no_cord(step.needles)
    if step.onto_empty:
        bed.need_empty(step.needles)
    else:
        bed.need_loaded(step.needles)


CORNER = "a loop of a corner"


def _need_corners(bed: Bed, step: Hang) -> None:
    """Where a hollow corner lies beside an edge, the end needle there takes a loop of it too."""
    first, last = step.needles.first, step.needles.last
    beside = of(*(first if (row == 1) is (step.from_side is Side.LEFT) else last
                  for edge, row in bed.program.corners if edge == step.edge))
    if step.corners != beside:
        raise Refused("corner-open", beside | step.corners,
                      f"a loop of the corner on {beside or 'no needle'}",
                      f"one on {step.corners or 'none'}")


def _need_fit(bed: Bed, step: Hang) -> None:
    _need_corners(bed, step)
    if step.edge in dict(bed.program.edges):
        _need_rows_taken_evenly(step, bed.waiting[step.edge])
        _need_doubled_at_ends(bed, step)
        if bed.program.row_one not in (None, step.from_side):
            raise Refused("wrong-end", step.needles, f"row 1 at the {bed.program.row_one.value}",
                          f"row 1 at the {bed.program.row_one.other.value}")
        return
    _need_doubled_evenly(step)
    if bed.waiting[step.edge] != len(step.needles) + len(step.doubled):
        raise Refused("loop-count", step.needles,
                      f"{bed.waiting[step.edge]} needles, one for each loop of {step.edge}",
                      f"{len(step.needles) + len(step.doubled)}")
    if step.edge in bed.strands:
        _need_lean(bed, step)
    elif step.edge in bed.seats:
        _need_seat(bed, step)


def _need_doubled_at_ends(bed: Bed, step: Hang) -> None:
    """A stitch that lies in a seam shares the outermost needle, a missed one a neighbour's."""
    if not step.doubled:
        return
    along = list(step.needles) if step.from_side is Side.LEFT else list(step.needles)[::-1]
    missed = (n for pair, (row, then) in zip(pairwise(along), pairwise(step.picks), strict=False)
              if then > row + 1 for n in pair)
    may = of(step.needles.first, step.needles.last, *missed)
    if other := step.doubled - may:
        raise Refused("wrong-needles", other, f"two loops on {may} at most", f"two on {other}")


def _need_doubled_evenly(step: Hang) -> None:
    """Needles that take two loops are some of those that are hung on, evenly spread."""
    if other := step.doubled - step.needles:
        raise Refused("wrong-needles", other, f"some of {step.needles}", f"{other}")
    places = [n.place for n in step.doubled]
    gaps = [b - a for a, b in pairwise(places)]
    if gaps and max(gaps) - min(gaps) > 1:
        raise Refused("doubled-uneven", step.doubled, "needles spread evenly",
                      f"steps of {min(gaps)} to {max(gaps)} needles")


def _need_lean(bed: Bed, step: Hang) -> None:
    """The loops sit half a needle aside, on the same side at every opening (D04)."""
    if step.lean is None:
        raise Refused("no-lean", step.needles, "a side to which the loops are taken", "none named")
    if bed.lean not in (None, step.lean):
        raise Refused("lean-changed", step.needles,
                      f"loops taken to the {step.lean.other.value}, as at the openings before",
                      f"the {step.lean.value}")
    if step.onto_empty:
        raise Refused("needle-empty", step.needles, "stitches to hang the second loops on",
                      "bare needles")
    left = bed.strands[step.edge]
    _need_exactly(left if step.lean is Side.LEFT else left.shifted(1), step)


def _need_seat(bed: Bed, step: Hang) -> None:
    if step.edge == bed.program.first_row:
        if step.half_at is None:
            raise Refused("no-half", step.needles, "the end whose half loop is taken", "none named")
        if step.half_at is not bed.half_at:
            ended = bed.half_at.value if bed.half_at else "unknown"
            raise Refused("half-loop-end", step.needles, f"the half loop at the {ended} end, where "
                          "the first row ended", f"at the {step.half_at.value} end")
        if step.half_at is bed.lean:
            raise Refused("lean-changed", step.needles,
                          f"the half loop at the {bed.lean.other.value} end, as the openings lean",
                          f"at the {bed.lean.value} end")
    elif not step.onto_empty:
        raise Refused("needle-occupied", step.needles, "bare needles, where the loops are the "
                      "stitches", "loops hung on top of stitches")
    _need_exactly(bed.seats[step.edge], step)


def _need_exactly(seat: Needles, step: Hang) -> None:
    if step.needles != seat:
        raise Refused("wrong-needles", step.needles, f"{step.edge} on {seat}, where it sits",
                      f"{step.needles}")


def _need_rows_taken_evenly(step: Hang, rows: int) -> None:
    """Check the picks of a finished edge of `rows` [rows]: in order, to both ends, evenly."""
    picks, count = step.picks, len(step.needles)
    if len(picks) != count:
        raise Refused("loop-count", step.needles, f"{len(picks)} needles, one for each row taken",
                      f"{count}")
    if step.from_side is None:
        raise Refused("no-side", step.needles, "the side on which row 1 lies", "none named")
    if outside := [row for row in picks if not 1 <= row <= rows]:
        raise Refused("picks-outside", step.needles, f"rows 1 to {rows}", f"row {outside[0]}")
    gaps = [after - before for before, after in pairwise(picks)]
    least = 0 if count > rows else 1
    if gaps and min(gaps) < least:
        fall = next(place for place, gap in enumerate(gaps) if gap < least)
        raise Refused("picks-order", step.needles, "rows one after the other",
                      f"row {picks[fall + 1]} after row {picks[fall]}")
    reach = -(-rows // count)
    if picks[0] > reach or picks[-1] <= rows - reach:
        raise Refused("picks-ends", step.needles,
                      f"the edge taken from its first {reach} to its last {reach} rows",
                      f"rows {picks[0]} to {picks[-1]} of {rows}")
    if gaps and max(gaps) - min(gaps) > 1:
        raise Refused("picks-uneven", step.needles, "rows spread evenly",
                      f"steps of {min(gaps)} to {max(gaps)} rows")


def bind_off(bed: Bed, step: BindOff) -> None:
    """Bind off neighbouring needles; the last stitch may stay."""
    # needs
    bed.need_loaded(step.needles)
    bed.need_neighbours(step.needles)
    bed.need_no_cord(step.needles)
    bed.need_yarn(step.yarn)
    if step.layers is not None:
        bed.need_layers(step.needles, step.layers)
    if step.yarn == bed.feeder and not step.keep_last and step.method is not BindOffMethod.CHAINED:
        _need_begun_at_end(bed, step)
    if not step.keep_last:
        need_light(bed, step.needles)
    # loops
    for tool in _OFF_TOOLS[step.method]:
        bed.use(tool)
    bed.lift(step.needles)
    emptied = step.needles
    if step.keep_last:
        last = of(step.needles.last if step.toward is Side.RIGHT else step.needles.first)
        bed.lay(step.yarn, last)
        bed.bound = True
        emptied -= last
    bed.place(emptied, Position.NON_WORKING if step.rest else Position.WORKING)
    # carriage, counter: as they were


_OFF_TOOLS = {BindOffMethod.CHAINED: (Tool.LATCH,), BindOffMethod.STITCH_OVER: (Tool.TRANSFER,),
              **dict.fromkeys((BindOffMethod.GATE_PEGS, BindOffMethod.TWO_GATE_PEGS),
                              (Tool.TRANSFER, Tool.PEGS)),
              BindOffMethod.LATCH_CHAIN: (Tool.LATCH, Tool.PEGS)}


def _need_begun_at_end(bed: Bed, step: BindOff) -> None:
    """Stitches bound off with the yarn in the feeder are begun where that hangs."""
    hangs = bed.ends[step.yarn].side
    if step.toward is hangs:
        raise Refused("yarn-side", step.needles, f"begun at the {hangs.value}, where {step.yarn} "
                      "hangs", f"begun at the {hangs.other.value}")


def draw_cord(bed: Bed, step: DrawCord) -> None:
    """Draw out a cord, or the waste below a first row, when nothing hangs on it any more."""
    # needs
    if step.edge not in bed.cords:
        raise Refused("no-such-cord", NONE, f"{step.edge} in the work", "no such cord")
    for edge in bed.cords[step.edge]:
        if edge not in bed.hung:
            raise Refused("edge-not-hung", bed.seats.get(edge, NONE), f"{edge} hung first",
                          "its loops would drop")
    for edge, _, stitches in bed.program.strips:
        if step.edge == waste_of(edge) and bed.hung[edge] < stitches:
            raise Refused("stitches-run", NONE, f"all {stitches} stitches on that waste yarn hung",
                          f"{bed.hung[edge]}: the others would run")
    need_seen_to(bed, step)
    if any(loop == step.edge for loop, _ in bed.layers):
        raise Refused("cord-too-soon", bed.seats[step.edge], f"a row that knits {step.edge} in",
                      "its loops only hung")
    if step.edge == bed.program.first_row:
        need_weights_off(bed, "the waste yarn falls away")
    # loops: none hang on it
    del bed.cords[step.edge]
    # carriage, counter: as they were


def _need_alone(bed: Bed, step: TakeOff) -> None:
    """Waste yarn knitted with the carriage must meet no other stitch."""
    bed.need_empty_feeder()
    bed.need_in_work(step.needles)
    if others := (bed.working & bed.loaded) - step.needles:
        raise Refused("others-in-work", others, "all other stitches in holding",
                      f"{others} in work, which would be knitted off too")
    if bed.carriage is Carriage.SLIP:
        raise Refused("carriage-slips", step.needles, "a carriage that knits these stitches",
                      "its slip levers are set")
    if bed.carriage is Carriage.KNIT and (back := bed.loaded & bed.holding):
        raise Refused("hold-off", back, "a carriage set to hold",
                      f"set to knit: it would knit {back} back")
    need_set_for_one(bed, step.needles)
    need_weight(bed, step.needles, 2)


def take_off(bed: Bed, step: TakeOff) -> None:
    """Take stitches off on waste yarn; their needles stay in work, empty."""
    # needs
    bed.need_free_name(step.edge)
    bed.need_loaded(step.needles)
    bed.need_no_cord(step.needles)
    if step.by_needle:
        need_weightless(bed, step.needles)
    else:
        _need_alone(bed, step)
    # loops
    if step.by_needle:
        bed.use(Tool.BLUNT_NEEDLE)
    bed.lift(step.needles)
    bed.light -= step.needles
    release(bed)
    bed.place(step.needles, Position.WORKING)
    bed.waiting[step.edge] = len(step.needles)
    # carriage, counter: the rows of waste yarn, and the pass that drops the stitches
    if not step.by_needle:
        passes = step.rows + 1
        bed.side = bed.side.other if passes % 2 else bed.side
        bed.near = NONE
        bed.count(passes)
