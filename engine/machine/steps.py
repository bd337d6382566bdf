"""What a program may tell a knitter to do: the vocabulary that planner, bed and pages share.

A step is one thing done at the machine. It says what it does, never what the bed then looks
like; what it leaves behind it only *claims*, and the bed recounts the claim. Rows and row
counters are in [rows], needles are sets of bed needles, dials in whole numbers and thirds.

Source: University of Brighton, "Short row or holding technique 1" (S06).
"""

from __future__ import annotations

from enum import Enum
from typing import NamedTuple

from .members import Members
from .needles import NONE, Needles
from .reasons import Reason
from .records import dataclass
from .step_keys import MARKING, CastOnMethod, StepYarn, Topic


class Side(Members):
    """A side of the bed as the knitter faces it."""

    LEFT = "left"
    RIGHT = "right"

    @property
    def other(self) -> Side:
        """The opposite side."""
        return Side.RIGHT if self is Side.LEFT else Side.LEFT


class Position(Enum):
    """Where a step brings needles, back to front, by words (never by makers' letters)."""

    NON_WORKING = "non-working"
    WORKING = "working"
    HOLDING = "holding"


@dataclass(frozen=True, slots=True, order=True)
class Dial:
    """A setting of the tension dial, counted in thirds: two dots lie between whole numbers."""

    thirds: int

    def __str__(self) -> str:
        whole, dots = divmod(self.thirds, 3)
        return f"{whole}.{dots}" if dots else str(whole)


class Claim(NamedTuple):
    """What must be true after a step.

    `counter` is the machine's row counter [rows]; `stitches` the needles that hold at least
    one loop; `loops` all loops on all needles (a hung needle holds two or more); `side` where
    the carriage stands.
    """

    counter: int
    stitches: int
    loops: int
    side: Side


@dataclass(slots=True, kw_only=True, unsafe_hash=True)
class Step:
    """One thing done at the machine, for a `reason`.

    `number` is that of the buttonhole, part or rows that the reason is about, 0 where none is.
    Nothing changes a step once it is written. Its kinds are not frozen all the same: a frozen one
    takes four times as long to make, and a size has some five hundred.
    """

    claim: Claim
    reason: Reason = Reason.NONE
    number: int = 0

    @property
    def marks(self) -> bool:
        """True where a pin, thread, clip or cord is put in that must come out again."""
        return False


@dataclass(slots=True, kw_only=True, unsafe_hash=True)
class Bring(Step):
    """Move empty needles into `position`. The needles hold nothing and are on the bed."""

    needles: Needles
    position: Position


@dataclass(slots=True, kw_only=True, unsafe_hash=True)
class Thread(Step):
    """Put `yarn` into the empty feeder, on the side where the carriage stands.

    A `fresh` end is new; otherwise it is the end that still hangs from the work, which must
    then hang at the carriage's side (or the first row would lay a float across the work).
    A new end is laid `under` a needle that was held there since the last row: no yarn hangs from
    it that would go round it.
    """

    yarn: StepYarn
    fresh: bool
    under: Needles = NONE


@dataclass(slots=True, kw_only=True, unsafe_hash=True)
class Unthread(Step):
    """Take the yarn out of the feeder; `cut` it, or leave it hanging from the work."""

    cut: bool


@dataclass(slots=True, kw_only=True, unsafe_hash=True)
class SetDial(Step):
    """Set the tension dial."""

    dial: Dial


@dataclass(slots=True, kw_only=True, unsafe_hash=True)
class SetCounter(Step):
    """Set the row counter to `rows`."""

    rows: int


@dataclass(slots=True, kw_only=True, unsafe_hash=True)
class CastOn(Step):
    """Lay one loop of the yarn in the feeder on each of these empty working needles.

    By hand or comb as `method` names it; carriage and row counter are as the claim says they
    were: the carriage does not end on the other side. Cast on `BY_HAND` they are left
    fully forward: the first row, the carriage set to knit, brings them back, or a `Resume`.
    """

    needles: Needles
    method: CastOnMethod


@dataclass(slots=True, kw_only=True, unsafe_hash=True)
class Knit(Step):
    """Knit `rows` rows with the carriage over every needle in work, at `dial`, with `yarn`.

    The carriage changes side and the row counter moves on by one with every row. Needles in
    holding are passed over. Empty needles in work take a new loop, and `fills` names them: a
    loop that comes up unasked is refused. So is a needle in work that is not knitted, for a tuck
    or a slip, unless `passes` names it.
    """

    rows: int
    yarn: StepYarn
    dial: Dial
    fills: Needles = NONE
    passes: Needles = NONE


@dataclass(slots=True, kw_only=True, unsafe_hash=True)
class HandKnit(Step):
    """Knit each of these needles once by hand with `yarn`; carriage and counter stay.

    With a `cord` name the yarn is a separate length that will be drawn out again: the
    stitches it was knitted through then wait on it at the lower edge of an opening, and once
    rows are knitted above, the opening's upper edge can be hung too. The two edges are called
    `lower(cord)` and `upper(cord)`. Without a name it is an ordinary row made by hand, over
    all needles in work.
    """

    needles: Needles
    yarn: StepYarn
    cord: str = ""
    loose: bool = False


@dataclass(slots=True, kw_only=True, unsafe_hash=True)
class FreePass(Step):
    """Move the carriage to its other side without knitting; the feeder must be empty.

    The row counter cannot tell a free pass from a row, and moves on by one.
    """


@dataclass(slots=True, kw_only=True, unsafe_hash=True)
class TurnWork(Step):
    """Take all work off on the garter bar, turn it over, and put it back on the same needles.

    The feeder must be empty, all weights off. Left and right of the work change places
    about its own middle,
    and so does every yarn end hanging from it; the carriage stays.
    """


@dataclass(slots=True, kw_only=True, unsafe_hash=True)
class Transfer(Step):
    """Move the loops of `needles` by `by` needles to the right (negative: left).

    They land beside or on top of the loops of those needles. Emptied needles stay in work, or go to
    non-working when `rest` is set.
    """

    needles: Needles
    by: int
    rest: bool = False


@dataclass(slots=True, kw_only=True, unsafe_hash=True)
class Cross(Step):
    """Let neighbouring stitches change places: of every `left` + `right` of `needles`.

    The `left` ones on the left go to the right, the `right` others to the left. Those of side
    `first` go back on the needles first: they then lie behind as the knitter sees it, in front
    on the knit side.
    """

    needles: Needles
    left: int
    right: int
    first: Side


@dataclass(slots=True, kw_only=True, unsafe_hash=True)
class Tuck(Step):
    """Choose needles that do not knit in the next row: its yarn is laid over them as a loop."""

    needles: Needles


@dataclass(slots=True, kw_only=True, unsafe_hash=True)
class Slip(Step):
    """Choose needles that the next row passes by: their loops stay, the yarn lies before them.

    `by_holding` stand in upper working position since they were held: slipping would knit them.
    """

    needles: Needles
    by_holding: Needles = NONE


@dataclass(slots=True, kw_only=True, unsafe_hash=True)
class Hold(Step):
    """Push needles in work forward to holding, their loops on them.

    Several at once only on the side away from the carriage; on its own side only one (S06).
    """

    needles: Needles


@dataclass(slots=True, kw_only=True, unsafe_hash=True)
class Resume(Step):
    """Put needles back where the carriage knits them: held, or forward since a cast-on."""

    needles: Needles


@dataclass(slots=True, kw_only=True, unsafe_hash=True)
class Increase(Step):
    """Bring each of these empty needles into work, with a loop from the work beside it."""

    needles: Needles


@dataclass(slots=True, kw_only=True, unsafe_hash=True)
class TurnLoop(Step):
    """Take each long loop off the second of its two needles, turn it over once, hang it again.

    A row lays one long loop over two neighbouring empty needles. `needles` are the second ones
    in the direction of the row: those nearer to the carriage. Common practice, no source.
    """

    needles: Needles


@dataclass(slots=True, kw_only=True, unsafe_hash=True)
class Attend(Step):
    """Something for the knitter's hands and eyes that changes nothing on the needles.

    `to` says what; `needles` those it concerns.
    """

    to: Topic
    needles: Needles = NONE

    @property
    def marks(self) -> bool:
        """Threads or clips are put in; those of a piece's edges stay until it is made up."""
        return self.to in MARKING
