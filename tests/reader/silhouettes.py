"""What a piece was on the bed, from its first row to its last, and every measure of its drawing.

Where each measure begins and ends is common practice in drawing pieces, no source: a neck is as
deep as from where the work divides to the top, a width is that of the row after which the shaping
above it begins. The figures are stitches and rows of the reader's own bed, at the gauge.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from tests.reader.bed import need
from tests.reader.gauges import Gauge
from tests.reader.knitter import Knitter

FEW = 4  # rows below a slope that it takes in, all of them; common practice, no source
ONCE, TWICE = 0.06, 0.11  # cm: a length that is rounded, one above a depth that is rounded too
LESS, SIDES = ("bind off", "decrease"), ("left", "right")
FROM_FOOT = ("Height to ", "Lower edge to ", "Whole height", "Front edge up to the neck")


class Silhouette:
    """A piece by stretches of rows: from and up to which row, the outermost needles, the stitches.

    The rows count from where the row counter stood at 0. Of a piece that divides there is a part
    for either half, the first with all that lies below it.
    """

    def __init__(self, k: Knitter) -> None:
        self.k = k
        zero, before = int(str(k.notes.get("zeroed", 0))), 0
        self.parts: list[list[tuple[int, int, int, int, int]]] = [[]]
        for at, until, low, high, many in k.bed.seen:
            if at < zero:
                continue
            if until <= before:  # a second half, or rows that were not counted, as a bust dart's
                halves = [row for row in k.divisions if row < until]
                before = max(halves or [0, *(row for _, row, *_ in self.parts[-1] if row < until)])
                self.parts += [[]] if halves else []
            self.parts[-1].append((before, until, low, high, many))
            before = until
        loose = any(words == "last row only" for words, *_ in k.dials)  # it is chained off
        # After short rows the counter is set back: the top is where a part ends, not its highest.
        ends = [part[-1][1] for part in self.parts if part]
        shown, rows = k.notes.get("set back", (0, 0))  # type: ignore[misc]
        if rows == len(k.bed.seen):  # nothing is knitted above them
            ends[-1] = shown
        self.top = max(ends, default=0) - loose

    def across(self, row: int) -> tuple[int, int]:
        """The outermost needles of a row, of both halves together where it is in two."""
        here = [(low, high) for part in self.parts for after, until, low, high, _ in part
                if after < row <= until]
        return min(low for low, _ in here), max(high for _, high in here)

    def wide(self, row: int) -> int:
        """How many needles lie between the edges in a row."""
        low, high = self.across(row)
        return high - low + 1

    def widest(self, rows: set[int]) -> set[int]:
        """The same of the first of some rows, where the second side is shaped a row later."""
        return {self.wide(min(rows))} if rows and min(rows) else set()

    def tops(self) -> list[tuple[int, int]]:
        """The outermost needles of each part's last row, from left to right."""
        return sorted(part[-1][2:4] for part in self.parts)

    def changes(self, *ways: str, side: str = "") -> list[int]:
        """The rows after which an edge changes in one of these ways."""
        return [row for _, at, way, _, row in self.k.edges if way in ways and side in ("", at)]

    def underarm(self) -> set[int]:
        """After which row an armhole, a cap or a raglan begins; two where the sides differ.

        A front has its side at its own hand: the purl side faces the knitter.
        """
        opened = min(self.k.divisions, default=self.top)
        if marks := {row for row, _ in self.k.marks[:1]}:
            return marks
        hand = self.k.title.split(" ")[0].lower()
        sides = [hand] if hand in SIDES else SIDES
        bound = {min(rows) for side in sides if (rows := [
            row for row in self.changes("bind off", side=side) if row <= opened])}
        grown = max(self.changes("increase"), default=0)
        less = [row for side in sides for row in self.changes("decrease", side=side)]
        return bound or {min((row for row in less if row >= grown), default=0)} - {0}

    def slopes(self) -> set[int]:
        """After which row the first stitches of a shoulder are held; two where the sides differ.

        The last held step by step: below may be darts, a shirt tail or a neck that is held.
        """
        found = set()
        for side in SIDES:
            rows = sorted(self.changes("hold", side=side))
            starts = rows[:1] + [b for a, b in pairwise(rows) if b - a > FEW]
            found |= set(starts[-1:])
        return found

    def neck(self) -> tuple[set[int], set[int]]:
        """After which row a neck begins, and how many stitches wide it is."""
        if self.k.divisions:
            (_, left), *_, (right, _) = self.tops()
            held = "neck line" in self.k.notes  # a row is knitted before its first are held
            return {self.k.divisions[0] + held}, {right - left - 1}
        side = {"Right": "left", "Left": "right"}.get(self.k.title.split(" ")[0], "")
        rows, first = self.changes(*LESS, side=side), self.parts[0][0][2:4]
        if not side or not rows:
            return set(), set()
        start, place = rows[0], side == "right"
        below = 0
        if start in self.changes("decrease", side=side):
            apart = [b - a for a, b in pairwise(self.changes("decrease", side=side)[:2])]
            below = start if start <= FEW else min(start, *apart, start) if apart else 2
        return {start - below}, {abs(self.tops()[0][place] - first[place])}

    def waist(self) -> set[int]:
        """After which rows its sides have come in and do not go out yet."""
        out = min(self.changes("increase"), default=self.top)
        last = max((row for row in self.changes("decrease") if row < out), default=0)
        return set(range(last, out + 1))

    def steps(self) -> set[int]:
        """After which rows an edge changes, or a thread marks it, and what begins at a dial."""
        tops = {until for (dial, _, _, until), (other, *_) in pairwise(self.k.bed.done)
                if dial != other}
        return {*self.changes(*LESS, "increase"), *(row for row, _ in self.k.marks), *tops}

    def narrows(self) -> list[int]:
        """After which row it first has fewer stitches than before; none where it has no fewer."""
        return [after for part in self.parts for (*_, many), (after, _, _, _, few) in pairwise(part)
                if few < many][:1]


def rows_of(s: Silhouette, label: str) -> set[int]:
    """How many rows a height of the drawing may have; none where nothing here knows it."""
    top, arms, slopes, necks = s.top, s.underarm(), s.slopes(), s.neck()[0]
    foot = set(sorted(arms)[:1])  # where one side begins a row later, the drawing has the first
    if label.startswith("Height from ") and label != "Height from the underarm to the top":
        return {top - row for row in s.steps()}
    if label.startswith("Height to "):
        return s.steps()
    if label == "Lower edge to waist":
        return s.waist()
    marks = [row for row, _ in s.k.marks]
    return {
        "Whole height": {top}, "Lower edge to underarm": foot,
        "Height from the underarm to the top": {top - arm for arm in foot},
        "Armhole depth": {slope + 1 - arm for arm in arms for slope in slopes},
        "Shoulder slope": {top - slope - 1 for slope in slopes},
        "Neck depth": {top - row for row in necks},
        "Neck depth, with the slit": {top - row for row in necks},
        "Front edge up to the neck": necks,
        "Lower edge to lower mark": set(marks[:1]),
        "Height between the marks": {b - a for a, b in pairwise(marks[:2])},
        "Height of the gathered top": {
            top - row for row in (*s.steps(), *s.narrows())},
        "Height of the crown": {top - row for row in s.narrows()},
    }.get(label, set())


def stitches_of(s: Silhouette, label: str) -> set[int]:
    """How many stitches a width of the drawing may have; none where nothing here knows it."""
    slopes, inner = s.slopes(), s.tops()
    return {
        "Width at the underarm": s.widest(s.underarm()),
        "Width between the armholes": s.widest(slopes),
        "Width at the top": {high - low + 1 for low, high in inner},
        "Shoulder width": {high - low + 1 for low, high in inner},
        "Neck width": s.neck()[1],
    }.get(label, set())


def closing_rows(k: Knitter, hem: bool) -> int:
    """The rows between a hem or a rib that is folded and row 0: one joins its layers, and one more
    may bring the carriage back."""
    acts = [act for act, _ in k.log]
    if "knit_join" not in acts:
        return int(hem)
    after = k.log[acts.index("knit_join"):]
    zero = next((n for n, (act, _) in enumerate(after) if act == "counter"), 1)
    return sum(said["rows"] for act, said in after[:zero] if act in ("knit_join", "knit"))


def at_level(s: Silhouette, label: str, rows: dict[str, float]) -> set[int]:
    """How many stitches it has at a waist or a corner whose height the page names, before or after
    what changes there."""
    name = label.removeprefix("Width at ")
    row = next((s.top if told.endswith(f" to {name}") and "from" in told else round(rows[told])
                for told in rows if told.endswith(f" to {name}")), None)
    return set() if row is None else {s.wide(one) for one in (row, row + 1) if 0 < one <= s.top}


def as_knitted(k: Knitter, lengths: dict[str, float], main: Gauge) -> Iterator[str]:
    """What of a drawing's measures [cm] is not what was knitted; each is held that is known."""
    s = Silhouette(k)
    foot = next((lengths[name] for name in ("Hem depth", "Rib depth") if name in lengths), 0.0)
    closed = main.height(closing_rows(k, "Hem depth" in lengths))
    high = {name: (told - foot - closed) / main.height(1) for name, told in lengths.items()}
    for label, told in lengths.items():
        rows, stitches = rows_of(s, label), stitches_of(s, label)
        if label.startswith("Width at ") and not stitches:
            stitches = at_level(s, label, high)
        below = foot + closed if label.startswith(FROM_FOOT) else 0.0
        exact = [below + main.height(n) for n in rows] + [main.width(n) for n in stitches]
        give = TWICE if below else ONCE
        if exact and all(abs(one - told) > give for one in exact):
            yield f"{label} is {', '.join(f'{one:.1f}' for one in exact[:3])} cm, not {told}"


def held(k: Knitter, lengths: dict[str, float], main: Gauge) -> None:
    """Raises Wrong where a measure is not what was knitted."""
    odd = list(as_knitted(k, lengths, main))
    need(not odd, "drawing", "; ".join(odd))
