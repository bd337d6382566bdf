"""The row-by-row program of a shaped piece: both edges merged, both halves written out in full."""

from __future__ import annotations

from ..catalogue.ways import DRAWN, STITCH_OVER, TOGETHER, WASTE_ON, WAYS_OFF, WAYS_ON, Way
from ..fabric.arrangement import gathering
from ..fabric.chart_on_bed import Placed
from ..machine.needles import NONE, Needles, bed_of
from ..machine.programs import Program
from ..machine.steps import Dial, Side
from ..pattern.stitch_chart import Cell
from ..shape.crowns import Tighter
from ..shape.piece import Ending, Foot, Piece, PocketSlot, at_row, merged
from ..shape.profile import Change, How, Profile
from ..shape.ribs import Rib
from . import ways
from .band import CORD, MAIN, WASTE
from .chart_actions import ChartRows
from .hems import HEM_ROW, knit_hem
from .ledger import Ledger
from .part import Part
from .pocket import hang_on, hung_edges, open_pocket, pocket_edges
from .rib import knit_rib
from .waiting import end_apart, put_by, stands_apart, strips_of

CHART_ROWS = "Stitch pattern"
FOOT = "the foot of the placket"
GATHERED = "above the gathering"
TIGHTER = "to narrow the top"
BODY, TO_TOP, HALF = "Body", "To the top", "half"
FIRST_HALF, DIVIDED = "everything but the first half", "where the work divided"


def piece_program(piece: Piece, *, dial: Dial, bed_needles: int, second_needles: int = 0
                  ) -> Program:
    """Return the program of `piece` at `dial`, from an empty bed to an empty bed.

    `second_needles` are those of a second bed that can face it [needles], 0 without one.
    What waits on waste yarn is named in the program's `leaves`. Raises ValueError when the
    piece is wider than the bed: the plan must refuse that with a message first.
    """
    if piece.widest > bed_needles:
        raise ValueError(f"{piece.title}: {piece.widest} needles of a bed of {bed_needles}")
    needles = piece.needles
    pivot = -1 if piece.mirrored else None
    starts = Side.RIGHT if not piece.mirrored else Side.LEFT
    opens = WAYS_ON[piece.way_on] is WASTE_ON
    book = Ledger(side=starts.other if opens or (piece.hem and piece.hem.turns_carriage)
                  else starts)
    begins = book.side
    if piece.hung_on:
        hang_on(book, needles, piece.hung_on, dial)
    elif piece.hem:
        _begin(book, needles, piece, piece.hem, dial, inner=starts.other)
    else:
        ways.cast_on(book, needles, dial, WAYS_ON[piece.way_on])
        book.section("Cast on")
    first, last = needles.first.place, needles.last.place
    if pivot is not None:
        first, last = pivot - last, pivot - first
    placed = piece.placed
    part = Part(book, first, last, piece.moved, pivot,
                works=needles if piece.leaves_out else None,
                chart=ChartRows(placed) if placed else None)
    if placed and piece.is_straight:
        _knit_chart(book, placed, piece.rows)
    else:
        _shape(part, piece.left, piece.right, gathers=piece.gathers, pockets=piece.pockets,
               tightens=piece.tightens, marks=tuple(m for m in piece.marks if m <= piece.left.rows))
        book.section(BODY if piece.opening else TO_TOP)
    if piece.opening:
        _divide(part, piece)
    else:
        _end(part, piece, 0)
        book.section("Ending")
    lower = piece.lower_edge if opens else ""
    waits = tuple(strip for w in (*piece.waits, piece.centre_waits, lower, *pocket_edges(piece))
                  if w for strip in strips_of(piece, w))
    folds = piece.hem is not None and piece.hem.fold is not None
    corded = folds or opens
    return Program(name=piece.title, bed=bed_of(bed_needles), starts=begins,
                   sections=tuple(book.sections), first_row=HEM_ROW if folds else lower,
                   cord_yarn=CORD if corded else "", waste_yarn=WASTE if corded else "",
                   edges=hung_edges(piece), leaves=waits, totals=book.totals,
                   crossed=book.crossed, latched=book.latched,
                   second=bed_of(second_needles) if second_needles else NONE)


def _knit_chart(book: Ledger, placed: Placed, rows: int) -> None:
    """Every row from the chart, over and over; a last row that would leave a tuck or slip is plain.

    Stitches can only be bound off or taken off once a row is knitted over their laid loops.
    """
    chart = ChartRows(placed)
    book.tuck_by_holding(chart.tucks)
    for row in range(1, rows):
        chart.knit(book, row)
    if placed.on(rows, Cell.TUCK, Cell.SLIP):
        book.section(CHART_ROWS)
        book.cut_contrast()
        book.knit(1, "plain, over all stitches")
        book.section("Last row")
    else:
        chart.knit(book, rows)
        book.section(CHART_ROWS)
        book.cut_contrast()
    book.tuck_by_holding(False)


def _begin(book: Ledger, needles: Needles, piece: Piece, foot: Foot, dial: Dial, *, inner: Side
           ) -> None:
    if isinstance(foot, Rib):
        knit_rib(book, needles, foot, dial, inner=inner, way=WAYS_ON[piece.way_on])
    else:
        knit_hem(book, needles, foot, dial, inner=inner)


def _gather(part: Part) -> None:
    """Every second stitch onto the one before it, the emptied needles out of work."""
    part.chart, part.purpose = None, GATHERED  # from here on every row is plain
    part.book.cut_contrast()
    part.works, moves = gathering(part.stitches, mirrored=part.pivot is not None)
    for by, moved in moves:
        part.book.transfer(moved, by, "to gather", fewer=len(moved), rest=True)


def _tighten(book: Ledger, tighter: Tighter) -> None:
    assert book.dial is not None
    book.set_dial(Dial(max(0, book.dial.thirds - tighter.thirds)), TIGHTER)


def _shape(part: Part, left: Profile, right: Profile, *, start: int = 0,
           marks: tuple[int, ...] = (), gathers: tuple[int, ...] = (),
           tightens: tuple[Tighter, ...] = (), pockets: tuple[PocketSlot, ...] = (),
           inside_left: bool = False) -> None:
    """Knit from row `start` to the edges' last row, making every change on its row.

    A left edge that is `inside`, at a neck, is not marked.
    """
    at, origin = start, part.first
    part.book.tuck_by_holding(part.chart is not None and part.chart.tucks)
    for row in sorted({*merged(left, right), *marks, *gathers, *(p.row for p in pockets),
                       *(t.row for t in tightens)}):
        part.knit(start + row - at, _soon(part, left, right, row, gathers))
        at = start + row
        for slot in pockets:
            if slot.row == row:
                first = origin + slot.start
                open_pocket(part.book, slot, part.span(first, first + slot.stitches - 1))
        if row in marks:
            far = NONE if inside_left else part.edge(Side.LEFT, 1)
            part.book.attend("mark edges", far | part.edge(Side.RIGHT, 1))
        if row in gathers:
            _gather(part)
        for tighter in tightens:
            if tighter.row == row:
                _tighten(part.book, tighter)
        for side, profile in ((Side.RIGHT, right), (Side.LEFT, left)):
            for change in at_row(profile, row):
                _make(part, side, change)
    part.knit(start + left.rows - at, part.span(part.first, part.last))
    part.book.cut_contrast()
    part.book.tuck_by_holding(False)


def _soon(part: Part, left: Profile, right: Profile, row: int, gathers: tuple[int, ...]
          ) -> Needles:
    """The needles that are worked on by hand when the counter reads `row`."""
    if row in gathers or row == left.rows:
        return part.span(part.first, part.last)
    needles = NONE
    for side, profile in ((Side.LEFT, left), (Side.RIGHT, right)):
        if changes := at_row(profile, row):
            reached = sum(c.stitches for c in changes) + part.moved + 1
            needles |= part.edge(side, min(reached, part.working))
    return needles


def _make(part: Part, side: Side, change: Change) -> None:
    {How.DECREASE: _decrease, How.INCREASE: _increase, How.BIND_OFF: _bind_off,
     How.HOLD: _hold}[change.how](part, side, change.stitches)


def _decrease(part: Part, side: Side, count: int) -> None:
    """Move the outermost stitches inward, so that the doubled one lies inside the edge.

    Where few are left, fewer are moved: both edges' doubled stitches lie on needles of their own.
    """
    inward = -1 if side is Side.RIGHT else 1
    for _ in range(count):
        moved = max(1, min(part.moved, (part.working - 2) // 2))
        by = inward if part.pivot is None else -inward
        edge = part.edge(side, moved)
        part.book.transfer(edge, by, f"decrease at the {part.side(side).value}", fewer=1, rest=True)
        part.laid |= edge.shifted(by)
        part.narrow(side, 1)


def _increase(part: Part, side: Side, count: int) -> None:
    for _ in range(count):
        part.narrow(side, -1)
        part.book.increase(part.edge(side, 1), f"increase at the {part.side(side).value}")


def _bind_off(part: Part, side: Side, count: int) -> None:
    """The last loop of what is bound off goes to the next stitch, which stays."""
    part.book.bind_off(part.edge(side, count + 1), MAIN, f"at the {part.side(side).value}",
                       toward=part.side(side).other, keep_last=True,
                       method="stitch over stitch", rest=True)
    part.narrow(side, count)
    part.laid |= part.edge(side, 1)


def _hold(part: Part, side: Side, count: int) -> None:
    part.book.hold(part.edge(side, count), f"at the {part.side(side).value}")
    if side is Side.RIGHT:
        part.idle_right += count
    else:
        part.idle_left += count
    part.hang_claws()


def _end(part: Part, piece: Piece, half: int) -> None:
    """A row over all if any are held, then off: bound off, drawn up, or on waste yarn."""
    book = part.book
    if part.idle_left or part.idle_right:
        _knit_over_held(part)
    elif book.loops > book.stitches:
        book.knit(1, "over the last decreases")
    if stands_apart(piece):
        end_apart(book, piece, part.stitches)
        return
    waits = piece.waits[half] if piece.waits else ""
    ways.bind_off(book, part.stitches, way_off(piece), waits, _bound_off_said(piece))


def way_off(piece: Piece) -> Way:
    """The way in which a piece's last stitches come off: its own, else what its ending asks for."""
    if piece.way_off:
        return WAYS_OFF[piece.way_off]
    if piece.ends is Ending.BIND_OFF:
        return STITCH_OVER
    return DRAWN if piece.ends is Ending.DRAWN_UP else TOGETHER


def _bound_off_said(piece: Piece) -> str:
    if piece.bound_off_to is None:
        return "all stitches"
    return f"all stitches, so loosely that the edge can be drawn out to {piece.bound_off_to}"


def _knit_over_held(part: Part) -> None:
    """Held stitches back in work, those away from the carriage first, a row over each (S06)."""
    far = part.side(part.book.side).other  # the part's own side, away from the carriage
    for side in (far, far.other):
        if side is Side.RIGHT:
            held, part.idle_right = part.idle_right, 0
        else:
            held, part.idle_left = part.idle_left, 0
        if held:
            needles = part.span(part.last - held + 1, part.last) if side is Side.RIGHT else \
                part.span(part.first, part.first + held - 1)
            waits = part.idle_left or part.idle_right
            part.book.resume(needles, "for the last row but one" if waits else "for the last row")
            part.book.knit(1, "over these as well" if waits else "over all stitches")


def _divide(part: Part, piece: Piece) -> None:
    """Both halves above the opening, the right one first while the left one is held."""
    opening, book = piece.opening, part.book
    assert opening is not None
    row, half = book.counter, piece.half
    outside = part.last - part.first + 1 - half
    pivot = part.first + part.last
    rest = part.span(part.first, part.first + outside - 1)
    centre = part.span(part.first + half, part.last - half) if opening.centre else NONE
    if centre and opening.centre_ends is Ending.BIND_OFF:
        book.bind_off(centre, MAIN, FOOT, toward=book.side.other, keep_last=False,
                      method="stitch over stitch", rest=True)
        rest -= centre
    right = Part(book, part.last - half + 1, part.last, part.moved, part.pivot,
                 chart=part.chart)
    book.hold(rest, FIRST_HALF)
    if centre and opening.centre_ends is Ending.WASTE:
        book.lighten_held(centre)
        put_by(book, piece, centre, piece.centre_waits, "the centre of the neck", held=True)
    right.hang_claws()
    marks = tuple(m - row for m in piece.marks if m > row)
    book.section("Slit" if opening.centre_ends is Ending.BIND_OFF else "Neck opening")
    _shape(right, opening.inner, opening.outer, start=row, marks=marks, inside_left=True)
    _end(right, piece, 0)
    book.section(_half_title(part.side(Side.RIGHT), piece, 0))
    _to_side(book, part.side(Side.LEFT), row)
    first_half = part.span(part.first, part.first + half - 1)
    book.resume(first_half, "the second half")
    left = _second_half(part, half, pivot if part.pivot is None else None)
    left.hang_claws()
    book.thread(MAIN, fresh=True)
    _shape(left, opening.inner, opening.outer, start=row, marks=marks, inside_left=True)
    _end(left, piece, 1)
    book.section(_half_title(part.side(Side.LEFT), piece, 1))


def _half_title(side: Side, piece: Piece, half: int) -> str:
    """What a half is called: by its side of the bed, and by the shoulder or half it is as worn.

    The inside of the fabric faces the knitter: a back is turned about, a front is not.
    """
    worn = piece.waits[half].partition(", ")[2] if piece.waits else ""
    if not worn:
        worn = f"{(side.other if piece.key == 'back' else side).value} {HALF}"
    return f"{worn.capitalize()} as worn, the bed's {side.value} {HALF}"


def _second_half(part: Part, half: int, pivot: int | None) -> Part:
    """The other half seen as if it were the first: mirrored about the piece's own middle."""
    if pivot is not None:
        return Part(part.book, part.last - half + 1, part.last, part.moved, pivot,
                    chart=part.chart)
    assert part.pivot is not None
    # A piece already mirrored: mirroring it twice moves it back to where the bed has it.
    shift = part.pivot - (part.first + part.last)
    return Part(part.book, part.last - half + 1 + shift, part.last + shift, part.moved, None,
                chart=part.chart)


def _to_side(book: Ledger, side: Side, row: int) -> None:
    """Carriage to `side` and counter to `row`, for a half that starts with a new end."""
    if book.side is not side:
        book.free_pass("to the side where this half begins")
    book.set_counter(row, DIVIDED)
