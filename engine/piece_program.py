"""The row-by-row program of a shaped piece: both edges merged, both halves written out in full."""

from __future__ import annotations

from dataclasses import dataclass

from . import ways
from .arrangement import gathering
from .chart_actions import knit_row
from .chart_on_bed import Placed
from .hems import HEM_ROW, knit_hem
from .ledger import Ledger
from .needles import NONE, Needle, Needles, bed_of, between
from .piece import Ending, Foot, Piece, at_row, merged
from .profile import Change, How, Profile
from .program import CORD, MAIN, WASTE
from .rib_program import knit_rib
from .ribs import Rib
from .steps import Dial, Position, Program, Side
from .stitch_chart import Cell

CHART_ROWS = "Stitch pattern"
FOOT = "the foot of the placket"


@dataclass(slots=True)
class _Part:
    """Stitches being shaped, as on the right of the bed; `pivot` mirrors them to where they are.

    `first` and `last` are the places of its outermost stitches, held ones included; `idle_left`
    and `idle_right` how many of them are held at either side. `works` are the bed's needles
    with stitches, where others between them are left out of work, else None.
    """

    book: Ledger
    first: int
    last: int
    moved: int
    pivot: int | None = None
    idle_left: int = 0
    idle_right: int = 0
    works: Needles | None = None

    def side(self, side: Side) -> Side:
        """The bed's side for a side of the part."""
        return side if self.pivot is None else side.other

    def span(self, first: int, last: int) -> Needles:
        """The bed's needles for places of the part."""
        if self.pivot is not None:
            first, last = self.pivot - last, self.pivot - first
        return between(Needle(first), Needle(last))

    def edge(self, side: Side, count: int) -> Needles:
        """The `count` outermost working needles at a side."""
        if side is Side.RIGHT:
            end = self.last - self.idle_right
            return self.span(end - count + 1, end)
        start = self.first + self.idle_left
        return self.span(start, start + count - 1)

    @property
    def stitches(self) -> Needles:
        """The bed's needles with stitches of this part, held ones included."""
        whole = self.span(self.first, self.last)
        return whole if self.works is None else whole & self.works

    @property
    def working(self) -> int:
        """How many stitches are not held."""
        return self.last - self.first + 1 - self.idle_left - self.idle_right

    def narrow(self, side: Side, by: int) -> None:
        """Note that the part ends `by` stitches further in (further out below 0)."""
        if side is Side.RIGHT:
            self.last -= by
        else:
            self.first += by


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
    opens = ways.WAYS_ON[piece.way_on] is ways.WASTE_ON
    book = Ledger(side=starts.other if opens or (piece.hem and piece.hem.turns_carriage)
                  else starts)
    begins = book.side
    if piece.hem:
        _begin(book, needles, piece, piece.hem, dial, inner=starts.other)
    else:
        ways.cast_on(book, needles, dial, ways.WAYS_ON[piece.way_on])
        book.section("Cast on")
    first, last = needles.first.place, needles.last.place
    if pivot is not None:
        first, last = pivot - last, pivot - first
    part = _Part(book, first, last, piece.moved, pivot,
                 works=needles if piece.leaves_out else None)
    if placed := piece.placed:
        _knit_chart(book, placed, piece.rows)
    else:
        _shape(part, piece.left, piece.right, gathers=piece.gathers,
               marks=tuple(m for m in piece.marks if m <= piece.left.rows))
        book.section("Body" if piece.opening else "To the top")
    if piece.opening:
        _divide(part, piece)
    else:
        _end(part, piece, 0)
        book.section("Ending")
    lower = piece.lower_edge if opens else ""
    waits = tuple(w for w in (*piece.waits, piece.centre_waits, lower) if w)
    folds = piece.hem is not None and piece.hem.fold is not None
    corded = folds or opens
    return Program(name=piece.title, bed=bed_of(bed_needles), starts=begins,
                   sections=tuple(book.sections), first_row=HEM_ROW if folds else lower,
                   cord_yarn=CORD if corded else "", waste_yarn=WASTE if corded else "",
                   leaves=waits, totals=book.totals, crossed=book.crossed, latched=book.latched,
                   second=bed_of(second_needles) if second_needles else NONE)


def _knit_chart(book: Ledger, placed: Placed, rows: int) -> None:
    """Every row from the chart, over and over; a last row that would leave a tuck or slip is plain.

    Stitches can only be bound off or taken off once a row is knitted over their laid loops.
    """
    for row in range(1, rows):
        knit_row(book, placed, row)
    if placed.on(rows, Cell.TUCK, Cell.SLIP):
        book.section(CHART_ROWS)
        book.knit(1, "plain, over all stitches")
        book.section("Last row")
    else:
        knit_row(book, placed, rows)
        book.section(CHART_ROWS)


def _begin(book: Ledger, needles: Needles, piece: Piece, foot: Foot, dial: Dial, *, inner: Side
           ) -> None:
    if isinstance(foot, Rib):
        knit_rib(book, needles, foot, dial, inner=inner, way=ways.WAYS_ON[piece.way_on])
    else:
        knit_hem(book, needles, foot, dial, inner=inner)


def _gather(part: _Part) -> None:
    """Every second stitch onto the one before it, the emptied needles out of work."""
    part.works, moves = gathering(part.stitches, mirrored=part.pivot is not None)
    for by, moved in moves:
        part.book.transfer(moved, by, "to gather", fewer=len(moved), rest=True)


def _shape(part: _Part, left: Profile, right: Profile, *, start: int = 0,
           marks: tuple[int, ...] = (), gathers: tuple[int, ...] = (),
           inside_left: bool = False) -> None:
    """Knit from row `start` to the edges' last row, making every change on its row.

    A left edge that is `inside`, at a neck, is not marked.
    """
    at = start
    for row in sorted({*merged(left, right), *marks, *gathers}):
        part.book.knit(start + row - at)
        at = start + row
        if row in marks:
            far = NONE if inside_left else part.edge(Side.LEFT, 1)
            part.book.attend("mark edges", far | part.edge(Side.RIGHT, 1))
        if row in gathers:
            _gather(part)
        for side, profile in ((Side.RIGHT, right), (Side.LEFT, left)):
            for change in at_row(profile, row):
                _make(part, side, change)
    part.book.knit(start + left.rows - at)


def _make(part: _Part, side: Side, change: Change) -> None:
    {How.DECREASE: _decrease, How.INCREASE: _increase, How.BIND_OFF: _bind_off,
     How.HOLD: _hold}[change.how](part, side, change.stitches)


def _decrease(part: _Part, side: Side, count: int) -> None:
    """Move the outermost stitches inward, so that the doubled one lies inside the edge.

    Where few are left, fewer are moved: both edges' doubled stitches lie on needles of their own.
    """
    inward = -1 if side is Side.RIGHT else 1
    for _ in range(count):
        moved = max(1, min(part.moved, (part.working - 2) // 2))
        by = inward if part.pivot is None else -inward
        part.book.transfer(part.edge(side, moved), by, f"decrease at the {part.side(side).value}",
                           fewer=1, rest=True)
        part.narrow(side, 1)


def _increase(part: _Part, side: Side, count: int) -> None:
    for _ in range(count):
        part.narrow(side, -1)
        part.book.increase(part.edge(side, 1), f"increase at the {part.side(side).value}")


def _bind_off(part: _Part, side: Side, count: int) -> None:
    """The last loop of what is bound off goes to the next stitch, which stays."""
    part.book.bind_off(part.edge(side, count + 1), MAIN, f"at the {part.side(side).value}",
                       toward=part.side(side).other, keep_last=True,
                       method="stitch over stitch", rest=True)
    part.narrow(side, count)


def _hold(part: _Part, side: Side, count: int) -> None:
    part.book.hold(part.edge(side, count), f"at the {part.side(side).value}")
    if side is Side.RIGHT:
        part.idle_right += count
    else:
        part.idle_left += count


def _end(part: _Part, piece: Piece, half: int) -> None:
    """A row over all if any are held, then off: bound off, drawn up, or on waste yarn."""
    book = part.book
    if part.idle_left or part.idle_right:
        _knit_over_held(part)
    elif book.loops > book.stitches:
        book.knit(1, "over the last decreases")
    waits = piece.waits[half] if piece.waits else ""
    ways.bind_off(book, part.stitches, way_off(piece), waits, _bound_off_said(piece))


def way_off(piece: Piece) -> ways.Way:
    """The way in which a piece's last stitches come off: its own, else what its ending asks for."""
    if piece.way_off:
        return ways.WAYS_OFF[piece.way_off]
    if piece.ends is Ending.BIND_OFF:
        return ways.STITCH_OVER if piece.bound_off_to is None else ways.PEGS_OFF
    return ways.DRAWN if piece.ends is Ending.DRAWN_UP else ways.TOGETHER


def _bound_off_said(piece: Piece) -> str:
    if piece.bound_off_to is None:
        return "all stitches"
    return f"all stitches, very loosely, until the edge measures {piece.bound_off_to}"


def _knit_over_held(part: _Part) -> None:
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


def _divide(part: _Part, piece: Piece) -> None:
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
    book.hold(rest, "everything but the first half")
    if centre and opening.centre_ends is Ending.WASTE:
        book.take_off(centre, piece.centre_waits, "the centre of the neck", held=True,
                      by_needle=True)
        book.bring(centre, Position.NON_WORKING)
    book.section("Slit" if opening.centre_ends is Ending.BIND_OFF else "Neck opening")
    marks = tuple(m - row for m in piece.marks if m > row)
    right = _Part(book, part.last - half + 1, part.last, part.moved, part.pivot)
    _shape(right, opening.inner, opening.outer, start=row, marks=marks, inside_left=True)
    _end(right, piece, 0)
    book.section(f"{part.side(Side.RIGHT).value.capitalize()} half")
    _to_side(book, part.side(Side.LEFT), row)
    first_half = part.span(part.first, part.first + half - 1)
    book.resume(first_half, "the second half")
    book.thread(MAIN, fresh=True)
    mirror = pivot if part.pivot is None else None
    left = _second_half(part, half, mirror)
    _shape(left, opening.inner, opening.outer, start=row, marks=marks, inside_left=True)
    _end(left, piece, 1)
    book.section(f"{part.side(Side.LEFT).value.capitalize()} half")


def _second_half(part: _Part, half: int, pivot: int | None) -> _Part:
    """The other half seen as if it were the first: mirrored about the piece's own middle."""
    if pivot is not None:
        return _Part(part.book, part.last - half + 1, part.last, part.moved, pivot)
    assert part.pivot is not None
    # A piece already mirrored: mirroring it twice moves it back to where the bed has it.
    shift = part.pivot - (part.first + part.last)
    return _Part(part.book, part.last - half + 1 + shift, part.last + shift, part.moved, None)


def _to_side(book: Ledger, side: Side, row: int) -> None:
    """Carriage to `side` and counter to `row`, for a half that starts with a new end."""
    if book.side is not side:
        book.free_pass("to the side where this half begins")
    book.set_counter(row, "where the work divided")
