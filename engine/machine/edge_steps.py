"""Steps at edges: hanging, binding off, taking off, drawing a cord out; and the edges' names."""

from __future__ import annotations

from .needles import NONE, Needles
from .records import dataclass
from .step_keys import BindOffMethod, StepYarn
from .steps import Side, Step


@dataclass(slots=True, kw_only=True, unsafe_hash=True)
class Hang(Step):
    """Hang an edge that waits (of an opening, of a finished piece, of a first row) on `needles`.

    Each needle takes one loop, the leftmost loop on the leftmost needle. `onto_empty` says
    whether the needles are bare (the loop is then their stitch) or hold a stitch already.

    For the `upper` edge of an opening of n stitches there are n + 1 loops, which sit half a
    needle to either side: `lean` says to which side they are taken, the same for every
    opening of the work. For a first row of n stitches there are n − 1 full loops and a half
    loop at each end: `half_at` names the end whose half loop is taken, so that n needles are
    covered. It is the end at which the row ended, away from its yarn's tail, and with openings the
    end they do not lean to, so that all loops move alike.
    For an edge of a finished piece, `picks` says for each needle, in the order of the edge's
    own rows, which row it takes (counted from 1), and `from_side` on which side of the
    bed row 1 lies. `doubled` are those of the needles that take two loops of the edge, `corners`
    those that take a loop of a square corner beside it as well.
    """

    edge: str
    needles: Needles
    onto_empty: bool
    lean: Side | None = None
    half_at: Side | None = None
    picks: tuple[int, ...] = ()
    from_side: Side | None = None
    doubled: Needles = NONE
    corners: Needles = NONE

    @property
    def takes_marked_rows(self) -> bool:
        """True where rows are missed or taken twice, so that they must be marked to be found."""
        return self.picks != tuple(range(1, len(self.picks) + 1))

    @property
    def marks(self) -> bool:
        """The rows of an edge are marked with pins or threads."""
        return self.takes_marked_rows


@dataclass(slots=True, kw_only=True, unsafe_hash=True)
class BindOff(Step):
    """Bind off these neighbouring needles with `yarn`, working towards `toward`.

    With the yarn in the feeder all of them are begun where that hangs, but for a `CHAINED` end,
    which takes no yarn. All loops of a needle are taken together; `layers` says how many each
    must hold (None where that does not matter). With `keep_last` the last stitch stays on the
    last needle, else it is fastened off. Emptied needles stay in work, or go to non-working when
    `rest` is set.
    """

    needles: Needles
    yarn: StepYarn
    toward: Side
    keep_last: bool
    method: BindOffMethod
    layers: int | None = None
    rest: bool = False


@dataclass(slots=True, kw_only=True, unsafe_hash=True)
class DrawCord(Step):
    """Draw out a cord once both edges of its opening are hung, or waste yarn.

    `edge` is the cord's name; or the first row's, which a row must have knitted in; or that of a
    strip of waste yarn (`waste_of`), all stitches of which must be hung.
    """

    edge: str


@dataclass(slots=True, kw_only=True, unsafe_hash=True)
class TakeOff(Step):
    """Put these stitches on waste yarn and take them off: they wait as `edge`.

    So many `rows` of it are knitted over them alone [rows], and a pass without yarn drops them:
    the feeder must be empty and all others held. Carriage and row counter move as they do for any
    rows, and for a free pass. Without rows a length of it is drawn through the stitches with a
    sewing needle, from work or from holding, and the carriage stays. Weights under these stitches
    come off before the stitches do.
    """

    needles: Needles
    edge: str
    rows: int = 0

    @property
    def by_needle(self) -> bool:
        """True where a length of waste yarn is drawn through the stitches."""
        return self.rows == 0


@dataclass(slots=True, kw_only=True, unsafe_hash=True)
class CloseUp(Step):
    """Take all stitches off, and hang them again in their order, side by side on `onto`.

    A stitch goes onto each of these needles, two neighbours onto each of `doubled`, none onto those
    that stay `empty`, in work. They wait on the garter bar or on a length of waste yarn that is
    drawn through them: carriage, row counter and the yarn in the feeder stay as they are. Needles
    beyond these go to non-working.
    """

    needles: Needles
    onto: Needles
    doubled: Needles = NONE
    empty: Needles = NONE


def waste_of(edge: str) -> str:
    """The name of the strip of waste yarn on which an edge waits."""
    return f"{edge}, waste yarn"


def lower(cord: str) -> str:
    """The name of the lower edge of the opening made with `cord`."""
    return f"{cord}, lower edge"


def upper(cord: str) -> str:
    """The name of the upper edge of the opening made with `cord`."""
    return f"{cord}, upper edge"
