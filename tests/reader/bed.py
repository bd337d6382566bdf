"""The reader's own small bed: needles, loops, carriage, counter, dial, yarns, weights."""

from __future__ import annotations

from dataclasses import dataclass, field

from tests.reader.needles import spoken

OUT, WORK, UPPER, HOLD = "non-working", "working", "upper working", "holding"
FOREIGN = ("waste yarn", "ravel cord")
SIDES = ("left", "right")


class Wrong(Exception):
    """What a machine, or a page that keeps its word, could not do: its kind, and what is wrong."""

    def __init__(self, kind: str, message: str) -> None:
        super().__init__(message)
        self.kind, self.message = kind, message


def need(fact: object, kind: str, message: str) -> None:
    """Raise Wrong unless the fact holds."""
    if not fact:
        raise Wrong(kind, message)


def other(side: str | None) -> str:
    """The other side."""
    return "right" if side == "left" else "left"


class Needles:
    """One bed's needles: where each stands and which loops it holds, oldest first."""

    def __init__(self) -> None:
        self.position: dict[int, str] = {}
        self.loops: dict[int, list[str]] = {}
        self.span: tuple[int, int] = (0, -1)

    def at(self, spot: int) -> str:
        """Where a needle stands."""
        return self.position.get(spot, OUT)

    def full(self) -> list[int]:
        """The needles with a loop, from left to right."""
        return sorted(self.loops)

    def standing(self, *positions: str) -> list[int]:
        """The needles in one of these positions, from left to right."""
        return sorted([spot for spot, where in self.position.items() if where in positions])

    def knitting(self) -> list[int]:
        """The needles with a loop that the carriage knits."""
        at = self.position.get
        return sorted([spot for spot in self.loops if at(spot) in (WORK, UPPER)])

    def held(self) -> list[int]:
        """The needles with a loop in holding position."""
        at = self.position.get
        return sorted([spot for spot in self.loops if at(spot) == HOLD])

    def empty(self) -> list[int]:
        """The needles in working position without a loop."""
        return [spot for spot in self.standing(WORK, UPPER) if spot not in self.loops]

    def bring(self, spots: tuple[int, ...] | list[int], position: str = WORK) -> None:
        """Bring needles to a position."""
        for spot in spots:
            self.position[spot] = position
        if spots:
            low, high = self.span if self.span[1] >= self.span[0] else (spots[0], spots[0])
            self.span = (min(low, *spots), max(high, *spots))

    def push_out(self, spots: tuple[int, ...] | list[int]) -> None:
        """Push empty needles back to non-working position."""
        full = [spot for spot in spots if spot in self.loops]
        need(not full, "pushed-with-loop", f"{spoken(full)} still hold loops")
        already = [spot for spot in spots if self.at(spot) == OUT]
        need(not already, "pushed-twice", f"{spoken(already)} are in non-working position already")
        for spot in spots:
            self.position.pop(spot, None)

    def hang(self, spots: tuple[int, ...] | list[int], what: str, on: bool | None) -> None:
        """Hang a loop on each needle: on top of a stitch (on), on an empty one (not on)."""
        for spot in spots:
            if self.at(spot) == OUT:
                raise Wrong("needle-out", f"{spoken([spot])} is not in work")
            if on is not None and (spot in self.loops) != on:
                raise Wrong("hung-wrong",
                            f"{spoken([spot])} {'is empty' if on else 'holds a stitch already'}")
            self.loops.setdefault(spot, []).append(what)

    def drop(self, spots: tuple[int, ...] | list[int]) -> None:
        """Take the loops off needles, which stay where they stand."""
        for spot in spots:
            if spot not in self.loops:
                raise Wrong("no-loop", f"{spoken([spot])} holds no stitch")
            del self.loops[spot]

    def move(self, spots: tuple[int, ...] | list[int], by: int) -> None:
        """Move the loops of needles along by so many, all at once."""
        moved = {}
        for spot in spots:
            if spot not in self.loops:
                raise Wrong("no-loop", f"{spoken([spot])} holds no stitch to move")
            moved[spot + by] = self.loops.pop(spot)
        for spot, loops in moved.items():
            if self.at(spot) == OUT:
                raise Wrong("needle-out", f"{spoken([spot])} is not in work")
            self.loops.setdefault(spot, []).extend(loops)

    def row(self, yarn: str, rows: int) -> None:
        """Knit rows over every needle that the carriage knits."""
        for spot in self.standing(WORK, UPPER):
            self.loops[spot] = [yarn]
            if self.position[spot] == UPPER:
                self.position[spot] = WORK
        del rows


@dataclass(slots=True)
class Bed:
    """Everything that a knitter has before her while she follows a section."""

    main: Needles = field(default_factory=Needles)
    second: Needles | None = None
    carriage: str | None = None
    counter: int | None = None
    dial: str | None = None
    feeder: str | None = None
    hangs: str | None = None
    resting: dict[str, str] = field(default_factory=dict)  # yarns that hang from the work: where
    out: str | None = None  # the yarn that was taken out of the feeder last
    holds: bool = False
    forward: bool = False
    slips_first: bool = False  # the chart slips needles in the first row above the cast-on
    picks_first: bool = False  # the same for the second colour
    passing: bool = False
    weights: bool = False
    claws: bool = False
    beside_held: set[int] = field(default_factory=set)  # knitted, with claws, beside held ones
    uneven: int = 0  # rows over all stitches since then, of which claw weights pull at a part
    slipping: set[str] = field(default_factory=set)
    cord: int = 0
    half_end: str | None = None
    passed_by: str | None = None
    joined: bool = False
    own_arm: bool = True
    cloth: bool = False
    rows: int = 0
    heavy: str = ""  # needles with two loops above a rib: doubled, then forward for the next row
    short: set[int] = field(default_factory=set)  # held for short rows, not as a half that waits
    neck: dict[int, int] = field(default_factory=dict)  # held for a neck: the counter then
    wrapped: set[int] = field(default_factory=set)  # of these the yarn goes round
    turn: int | None = None  # the held needle beside which the last row ended
    laid: bool = False  # by hand under the held needle at this step's turns
    lays: bool = False  # so from the next row on
    fresh: bool = False  # the yarn in the feeder is a new end, which hangs from nothing
    under: int | None = None  # the held needle under which a new end was laid
    ended: dict[str, int] = field(default_factory=dict)  # the needle where a yarn's row ended
    long: tuple[int, ...] = ()
    done: list[tuple[str | None, int, str, int]] = field(default_factory=list)
    across: list[tuple[int, int]] = field(default_factory=list)  # rows, and the stitches of each
    # The same with where they end: place in `done`, counter, first and last needle, stitches.
    seen: list[tuple[int, int, int, int, int]] = field(default_factory=list)

    def thread(self, yarn: str, side: str) -> None:
        """Put a yarn into the feeder at the carriage's side."""
        need(self.feeder is None, "feeder-full", f"the {self.feeder} is still in the feeder")
        need(yarn not in self.resting, "end-uncut", f"the old end of the {yarn} still hangs")
        need(self.carriage == side, "side", f"the carriage stands on the {self.carriage}")
        self.feeder, self.fresh, self.under = yarn, True, None

    def unthread(self, yarn: str) -> None:
        """Take a yarn out of the feeder."""
        need(self.feeder == yarn, "feeder", f"in the feeder is {self.feeder or 'no yarn'}")
        self.feeder, self.out = None, yarn

    def count(self, rows: int, until: int) -> None:
        """Let the counter run on, and hold it to what the page says it shows."""
        if self.counter is None:
            self.counter = until
            raise Wrong("counter-unset", "the row counter was never set")
        self.counter += rows
        shown, self.counter = self.counter, until
        need(shown == until, "counter", f"the row counter shows {shown}, not {until}")

    def unlike(self) -> tuple[str, str] | None:
        """How the needles from the first to the last in use are not alike: a mark for each.

        A needle is in work (with a stitch or, where none has one, without), empty, held or out.
        """
        loops, at = self.main.loops, self.main.position.get
        used = sorted({*loops, *self.main.standing(WORK, UPPER)})
        there = {HOLD: "h", OUT: "."}
        marks = "".join([
            there.get(at(s, OUT)) or ("x" if not loops or s in loops else "o")
            for s in range(used[0], used[-1] + 1)]) if used else ""
        names = {"h": "held needles", ".": "needles out of work", "o": "empty needles"}
        found = [name for mark, name in names.items() if mark in marks]
        return (f"{used[0]} {marks}", " and ".join(found)) if len(set(marks)) > 1 else None

    def beside(self, side: str) -> int | None:
        """The needle held for short rows next to those that the carriage knits, at a side."""
        knits = self.main.knitting() if self.short else []
        if not knits:
            return None
        end = knits[-1] if side == "right" else knits[0]
        near = min((s for s in self.main.loops if s > end), default=None) if side == "right" \
            else max((s for s in self.main.loops if s < end), default=None)
        return near if near in self.short and self.main.at(near) == HOLD else None

    def unwrapped(self, rows: int) -> Wrong | None:
        """A turn beside held needles at which the yarn lies round none of them: a hole.

        Round one that is held on the carriage's own side it lies by itself. Of a neck's it need lie
        round each but once: the rows that follow beside the last of them are the neck's edge.
        """
        if self.laid or self.carriage is None:
            return None
        bare = self.beside(self.carriage)
        if bare in self.neck and bare != self.turn:
            self.wrapped.add(int(bare))  # type: ignore[arg-type]
        if bare is not None and self.fresh and self.under != bare:
            return Wrong("no-wrap", f"the new end goes round no needle beside {spoken([bare])}")
        if bare is None or bare != self.turn:
            bare = self.beside(other(self.carriage)) if rows > 1 else None
        return None if bare is None or bare in self.wrapped else Wrong(
            "no-wrap", f"at the turn beside {spoken([bare])} the yarn lies round no held needle")

    def floated(self) -> Wrong | None:
        """A yarn that lies over held needles to where its row begins: it was left on one of them,
        or beyond. Round one of them it turns."""
        at = self.ended.get(str(self.feeder))
        if self.fresh or at is None or not self.short or not (knits := self.main.knitting()):
            return None
        begins = knits[-1] if self.carriage == "right" else knits[0]
        over = [s for s in self.main.held() if min(at, begins) <= s <= max(at, begins)]
        return Wrong("over-held", f"the {self.feeder} lies over {spoken(over)}") \
            if len(over) > 1 else None

    def unready(self, rows: int) -> Wrong | None:
        """What is wrong with the needles before a row: forward, or two empty ones side by side.

        Over two neighbours that are empty a row lays one long loop, which is a stitch on neither
        until it is turned on the second (site: closings/two-stitch).
        """
        if forward := self.main.standing(UPPER):
            return Wrong("upper", f"{spoken(forward)[:60]} are still in upper working position")
        if self.long:
            return Wrong("long-loop", f"the long loops on {spoken(self.long)} were not turned")
        empty = self.main.empty()
        self.long = tuple(s for s in empty if s - 1 in empty or s + 1 in empty) \
            if self.main.full() else ()
        if self.long and rows > 1:
            return Wrong("long-loop", f"a row leaves long loops on {spoken(self.long)}")
        return None

    def pulled(self, rows: int) -> int:
        """Rows knitted over all stitches, since some of them were held and had claw weights beside
        them: a last row is no harm, more come out longer where these hang (common practice, no
        source)."""
        if self.main.held():
            self.beside_held, self.uneven = set(self.main.knitting()), 0
        elif self.claws and self.weights and self.beside_held and not (
                set(self.main.knitting()) <= self.beside_held):
            self.uneven += rows
        return self.uneven

    def knit(self, rows: int, until: int) -> None:
        """Knit rows with the carriage over all needles in work."""
        need(rows > 0, "no-rows", "no rows are knitted")
        need(self.carriage, "carriage-lost", "nobody knows where the carriage stands")
        need(self.feeder, "no-yarn", "no yarn is in the feeder")
        need(not self.passing, "passing", "the carriage is still set not to knit")
        need(self.main.standing(WORK, UPPER), "no-needles", "no needle is in work")
        need(self.heavy != "doubled", "slowly", "needles that hold two loops do not stand forward")
        self.heavy = ""
        problem = self.unready(rows) or self.unwrapped(rows) or self.floated()
        self.laid, self.lays = self.laid or self.lays, False
        self.main.row(str(self.feeder), rows)
        if self.half_end is None and self.cord and self.feeder not in FOREIGN:
            self.half_end = other(self.carriage)
        if rows % 2:
            self.carriage = other(self.carriage)
        self.turn, self.fresh = self.beside(str(self.carriage)), False
        if knits := self.main.knitting():
            self.ended[str(self.feeder)] = knits[-1] if self.carriage == "right" else knits[0]
        self.rows += rows
        self.done.append((self.dial, rows, str(self.feeder), until))
        self.across.append((rows, len(knits)))
        if knits:
            self.seen.append((len(self.done) - 1, until, knits[0], knits[-1], len(knits)))
        held, pulled = self.main.held(), self.pulled(rows)
        forward, self.forward = self.forward, False
        if problem:
            pass
        elif forward and self.holds:
            problem = Wrong("needles-forward", "all needles stand fully forward since the cast-on, "
                            "and the carriage is set to hold: it passes them by")
        elif forward and self.slips_first:
            problem = Wrong("slip-forward", "all needles stand fully forward since the cast-on, "
                            "and the carriage knits those that the chart slips")
        elif forward and self.picks_first:
            problem = Wrong("pick-forward", "all needles stand fully forward since the cast-on, "
                            "and there all take the second colour")
        elif held and not self.holds:
            problem = Wrong("hold-off", f"{spoken(held)} are in holding position, but the carriage"
                            " is not set to hold: it knits them")
        elif held and not self.claws:
            problem = Wrong("no-claws", "no claw weights hang under the stitches in work")
        elif not self.weights and not self.claws:
            problem = Wrong("no-weights", "rows are knitted without weights")
        elif pulled > 1:
            problem = Wrong("claws", "claw weights pull at a part, and none is held any more")
        self.count(rows, until)
        if problem:
            raise problem
