"""What the virtual needle bed remembers from step to step, and how it says no.

Source: a web lesson, "Crew neck collar on a drop-shoulder sweater" (S07).
"""

from __future__ import annotations

from dataclasses import field
from typing import NamedTuple

from ..machine.edge_steps import waste_of
from ..machine.needles import NONE, Needle, Needles, between
from ..machine.programs import Program
from ..machine.records import dataclass
from ..machine.set_up_steps import Carriage, Weight
from ..machine.step_keys import StepYarn
from ..machine.steps import Dial, Position, Side
from ..machine.tools import Tool, Use
from ..machine.trace import Facing, Refusal, State
from ..machine.two_yarn_steps import Yarns
from .on_needles import OnNeedles
from .second import Second

# A stitch and six laid loops: by tuck settings four rows on a needle at 4.5 mm are usual, six with
# thin yarn: alessandrina, "Tuck trims 4" and "Tuck lace trims". Loops hung for a closing are fewer.
HOOK = 7


class Refused(Exception):
    """A step that cannot be knitted; the bed's loop turns it into a Refusal."""

    def __init__(self, code: str, needles: Needles, expected: str, found: str) -> None:
        self.code, self.needles, self.expected, self.found = code, needles, expected, found

    def at(self, step: int, counter: int) -> Refusal:
        """The refusal of step number `step` [counted from 1] at `counter` [rows]."""
        return Refusal(step=step, code=self.code, counter=counter, needles=self.needles,
                       expected=self.expected, found=self.found)


class End(NamedTuple):
    """Where a yarn's working end hangs, and whether it hangs from the work or is still loose.

    `at` is the needle on which its last row ended, where that is known. A loose end is laid `under`
    these held needles.
    """

    side: Side
    joined: bool
    at: Needle | None = None
    under: Needles = NONE


@dataclass(slots=True, kw_only=True)
class Bed(OnNeedles):
    """Everything that can change at the machine; the loops on the needles come with `OnNeedles`.

    `waiting` counts the loops of every edge off the needles (of a finished edge: its rows). `seats`
    are the needles an edge came from and goes back to. `strands` are the running strands that make
    an opening's upper edge, each by the needle on its left. `under_cord` are the needles on which a
    cord's own loops still lie. `cords` names what can be drawn out, with the edges that must be
    hung first; `hung` are those that were, with their loops. `near` are needles held on the
    carriage's own side since the last row; `long` those that share a long loop, two by two;
    `marked` those beside pins, threads or clips; `forward` those that a cast-on by hand left fully
    forward, `raised` those put back from holding, both until a row knits them; `tucking` and
    `slipping` those chosen for the next row, `picked` those that take the `contrast` yarn of the
    second feeder in it. `crossed` counts stitches that changed places, `latched` those latched up
    again. `second` is the second bed. `half_at` is the end at which the first row above the cord
    ended, with a half loop to give. `attended` counts what hands did by its topic, a fold only to
    the next row; `chosen` the needles for holes before that row, `holed` those that have theirs,
    `clipped` the cords whose ends are; `closed` says that two layers of a band were hung together,
    `bound` that its holes were bound off. `counter` is None until a step sets it. `carriage` and
    `yarns` are how the main bed's carriage is set; `weights` are those that hang, `claws` the
    needles under which claw weights do, `light` those without the others; `tools` what was used.
    """

    program: Program
    side: Side
    counter: int | None = None
    carriage: Carriage = Carriage.KNIT
    yarns: Yarns = Yarns.ONE
    weights: frozenset[Weight] = frozenset()
    claws: Needles = NONE
    light: Needles = NONE
    tools: dict[Use, None] = field(default_factory=dict)
    dial: Dial | None = None
    feeder: StepYarn = StepYarn.NONE
    working: Needles = NONE
    holding: Needles = NONE
    near: Needles = NONE
    forward: Needles = NONE
    raised: Needles = NONE
    contrast: StepYarn = StepYarn.NONE
    picked: Needles = NONE
    long: Needles = NONE
    marked: Needles = NONE
    tucking: Needles = NONE
    slipping: Needles = NONE
    crossed: int = 0
    latched: int = 0
    second: Second = field(default_factory=Second)
    lean: Side | None = None
    half_at: Side | None = None
    ends: dict[StepYarn, End] = field(default_factory=dict)
    waiting: dict[str, int] = field(default_factory=dict)
    seats: dict[str, Needles] = field(default_factory=dict)
    strands: dict[str, Needles] = field(default_factory=dict)
    under_cord: dict[str, Needles] = field(default_factory=dict)
    cords: dict[str, tuple[str, ...]] = field(default_factory=dict)
    hung: dict[str, int] = field(default_factory=dict)
    attended: dict[str, int] = field(default_factory=dict)
    chosen: Needles = NONE
    holed: Needles = NONE
    clipped: set[str] = field(default_factory=set)
    closed: bool = False
    bound: bool = False
    stitches: dict[StepYarn, int] = field(default_factory=dict)
    rows: dict[StepYarn, int] = field(default_factory=dict)

    # Where needles stand, and what is counted

    def place(self, needles: Needles, position: Position) -> None:
        """Move `needles` to `position`, with whatever they hold."""
        self.working -= needles
        self.holding -= needles
        self.forward -= needles
        self.raised -= needles
        if position is Position.HOLDING:
            self.holding |= needles
        elif position is not Position.NON_WORKING:
            self.working |= needles

    def beyond_work(self, needles: Needles, side: Side) -> Needles:
        """Those of `needles` that lie on `side` of every stitch the carriage would knit."""
        knitting = (self.working & self.loaded) - needles
        if not knitting or not needles:
            return NONE
        if side is Side.RIGHT:
            start, stop = Needle(knitting.last.place + 1), needles.last
        else:
            start, stop = needles.first, Needle(knitting.first.place - 1)
        return needles & between(start, stop) if start <= stop else NONE

    def count_knitted(self, yarn: StepYarn, on: Needles, rows: int, *, whole_rows: int) -> None:
        """Book `rows` [rows] of stitches `on` needles; `whole_rows` of them count as rows."""
        self.stitches[yarn] = self.stitches.get(yarn, 0) + len(on) * rows
        self.rows[yarn] = self.rows.get(yarn, 0) + whole_rows

    def leave_end(self, yarn: StepYarn) -> None:
        """Note where a row ended: `yarn` hangs from the last needle in work, at the carriage."""
        last = self.working.last if self.side is Side.RIGHT else self.working.first
        self.ends[yarn] = End(self.side, joined=True, at=last)

    def count(self, passes: int) -> None:
        """Move the row counter on by so many passes of the carriage; it must have been set."""
        if self.counter is None:
            raise Refused("counter-unset", NONE, "a row counter set before it counts",
                          "one that nobody set")
        self.counter += passes

    def use(self, tool: Tool, size: int = 1) -> None:
        """Note that a tool is used, of this size at least."""
        self.tools[Use(tool, size)] = None

    # What a step may need

    def need_on_bed(self, needles: Needles) -> None:
        """Refuse no needles at all, and needles the bed does not have."""
        if not needles:
            raise Refused("no-needles", NONE, "at least one needle", "none")
        if off := needles - self.program.bed:
            raise Refused("needle-off-bed", off, f"needles of the bed, {self.program.bed}",
                          f"{off}, which the bed does not have")

    def need_empty(self, needles: Needles) -> None:
        """Refuse needles that hold a loop."""
        self.need_on_bed(needles)
        if full := needles & self.loaded:
            raise Refused("needle-occupied", full, "empty needles", f"loops on {full}")

    def need_loaded(self, needles: Needles) -> None:
        """Refuse needles that hold no loop."""
        self.need_on_bed(needles)
        if bare := needles - self.loaded:
            raise Refused("needle-empty", bare, "a stitch on every needle", f"none on {bare}")

    def need_layers(self, needles: Needles, layers: int) -> None:
        """Refuse needles that do not hold just so many loops each."""
        at_least = [needles.mask] + [0] * (layers + 1)
        for _, on in self.layers:
            for k in range(layers + 1, 0, -1):
                at_least[k] |= at_least[k - 1] & on.mask
        if other := Needles(needles.mask & (~at_least[layers] | at_least[layers + 1])):
            raise Refused("layers", other, f"{layers} on each needle", "more loops or fewer")

    def need_in_work(self, needles: Needles) -> None:
        """Refuse needles that the carriage would not knit."""
        self.need_on_bed(needles)
        if idle := needles - self.working:
            raise Refused("not-in-work", idle, "needles in work", f"{idle} not in work")

    def need_pushed_up(self, needles: Needles) -> None:
        """Refuse needles in non-working: they cannot hold a loop."""
        self.need_on_bed(needles)
        if idle := needles - self.working - self.holding:
            raise Refused("not-in-work", idle, "needles in work or holding",
                          f"{idle} in non-working position")

    def need_neighbours(self, needles: Needles) -> None:
        """Refuse needles with others between them."""
        if len(needles.spans()) > 1:
            raise Refused("not-neighbouring", needles, "needles side by side", f"{needles}")

    def need_no_cord(self, needles: Needles) -> None:
        """Refuse needles on which a cord's own loops lie: they must be knitted over first."""
        for cord, on in self.under_cord.items():
            if on & needles:
                raise Refused("cord-loop", on & needles, f"a row knitted above {cord}",
                              f"loops of {cord} still on the needles")

    def need_empty_feeder(self) -> None:
        """Refuse a yarn in the feeder."""
        if self.feeder:
            raise Refused("feeder-full", NONE, "an empty feeder", f"{self.feeder} in the feeder")
        if self.contrast:
            raise Refused("feeder-full", NONE, "empty feeders", f"{self.contrast} in the second")

    def need_feeder(self) -> None:
        """Refuse an empty feeder."""
        if not self.feeder:
            raise Refused("feeder-empty", NONE, "a yarn in the feeder", "an empty feeder")

    def need_yarn(self, yarn: StepYarn) -> None:
        """Refuse a yarn without a name."""
        if not yarn:
            raise Refused("no-yarn", NONE, "a yarn", "none named")

    def need_end_at_carriage(self, yarn: StepYarn) -> None:
        """Refuse a yarn of which no end hangs at the carriage: a float would cross the work."""
        if yarn not in self.ends:
            raise Refused("no-such-end", NONE, f"an end of {yarn} hanging from the work",
                          "none; it was cut or never knitted")
        if self.ends[yarn].side is not self.side:
            raise Refused("yarn-side", NONE, f"{yarn} hanging on the {self.side.value}, "
                          "where the carriage stands", f"it hangs on the {self.side.other.value}")

    def need_clear_path(self, yarn: StepYarn, row: Needles) -> None:
        """Refuse a yarn that would lie over held needles to reach the first of `row`.

        Round one it lies as it should, where a turn is (S07). A new end goes round none: it is
        laid under the needle held on the carriage's side (common practice, no source).
        """
        side, joined, at, under = self.ends[yarn]
        if not joined and (bare := self.near - under):
            raise Refused("turn-bare", bare, f"the new end laid under {bare}", "it goes round none")
        if at is None:
            return
        first = row.last if side is Side.RIGHT else row.first
        path = between(min(first, at), max(first, at)) & self.holding & self.loaded
        if joined and len(path) > 1:
            raise Refused("yarn-over-held", path, f"{yarn} hanging beside {first}",
                          f"it hangs at {at} and would lie over {len(path)} held needles")

    def need_no_old_end(self, yarn: StepYarn) -> None:
        """Refuse a new end of a yarn while an old one still hangs from the work uncut."""
        if (old := self.ends.get(yarn)) and old.joined and yarn != self.program.cord_yarn:
            raise Refused("end-uncut", NONE, f"the old end of {yarn} cut",
                          f"it hangs at the {old.side.value}")

    def need_room(self, needles: Needles) -> None:
        """Refuse needles with more loops than a hook holds."""
        seen = [needles.mask] + [0] * (HOOK + 1)
        for _, on in self.layers:
            for k in range(HOOK + 1, 0, -1):
                seen[k] |= seen[k - 1] & on.mask
        if full := Needles(seen[HOOK + 1]):
            raise Refused("hook-full", full, f"at most {HOOK} loops on a needle", "more")

    def need_free_name(self, *edges: str) -> None:
        """Refuse to name a new edge like one there is or was."""
        for edge in edges:
            if edge in self.waiting or edge in self.hung or edge in self.cords:
                raise Refused("name-taken", NONE, "a new name", f"{edge!r} used before")

    def state(self) -> State:
        """The bed as it is now."""
        assert self.counter is not None
        return State(self.counter, self.side, self.dial, self.feeder, self.working, self.holding,
                     tuple(self.layers), self.loaded, tuple(self.waiting.items()),
                     Facing(self.second.rack, self.second.working, self.second.loaded)
                     if self.second.up else None, self.contrast, self.carriage, self.weights,
                     self.claws, self.yarns)


def empty_bed(program: Program) -> Bed:
    """The bed before the first step of `program`: bare, its counter unknown, edges ready."""
    return Bed(program=program, side=program.starts, waiting=dict(program.edges),
               cords={waste_of(edge): (edge,) for edge, _, _ in program.strips})
