"""Stitch patterns: what is told of them, row by row, and the text in their drawings."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from itertools import pairwise

from tests.reader.bed import Wrong, need
from tests.reader.knitter import Knitter, act
from tests.reader.needles import NAME, parse, place, rising, spoken
from tests.reader.visible import Block


@dataclass(slots=True)
class Chart:
    """A stitch pattern as it is told: its rows, how far it repeats, which rows are plain."""

    rows: int = 0
    width: int = 0
    plain: set[int] = field(default_factory=set)
    told: set[int] = field(default_factory=set)
    starts: tuple[int, ...] = ()
    whole: tuple[int, ...] = ()
    contrast: list[int] = field(default_factory=list)
    tucks: bool = False
    counters: list[int] = field(default_factory=list)
    slips: dict[int, set[int]] = field(default_factory=dict)  # the needles slipped in each row
    picks: dict[int, set[int]] = field(default_factory=dict)  # those with the second colour


def chart(k: Knitter) -> Chart:
    """The stitch pattern of this piece."""
    if "chart" not in k.notes:
        k.notes["chart"] = Chart()
    return k.notes["chart"]  # type: ignore[return-value]


@act("chart_but")
def chart_but(k: Knitter, said: dict) -> None:
    chart(k)
    k.note("plain rows", said["words"])


@act("chart_rest")
def chart_rest(k: Knitter, said: dict) -> None:
    need(k.last == "chart_but", "out-of-place", "which rows are plain is not said")


@act("chart_every", "chart_name", "chart_two")
def chart_every(k: Knitter, said: dict) -> None:
    chart(k)
    if "second colour" in k.sentence:
        k.note("contrast", "in work")
    if "words" in said and "chart" in k.part.lower():
        need(said["words"] in k.part, "chart", "another name")


@act("chart_from_rc", "chart_from_rc_on")
def chart_from_rc(k: Knitter, said: dict) -> None:
    its = chart(k)
    its.counters = said["numbers"]
    k.note("chart ends", said["numbers"][-1])
    k.note("chart first", (said["n"], said.get("rows")))


@act("chart_up", "chart_one_row")
def chart_up(k: Knitter, said: dict) -> None:
    """How many rows the chart has: the row counters at which one of its rows comes next agree."""
    its, rows = chart(k), said["n"]
    need("chart first" in k.notes, "out-of-place", "no row of the chart was named")
    row, every = k.notes["chart first"]  # type: ignore[misc]
    its.rows = its.rows or rows
    steps = {b - a for a, b in pairwise(its.counters)}
    need(rows == its.rows and steps <= {rows}, "chart", f"it has {its.rows} rows")
    need(every in (None, rows), "chart", f"it has {rows} rows")
    need((its.counters[0] - (row - 1)) % rows == 0 or "chart_start" in k.notes, "chart",
         "row 1 comes at row counter 0")


@act("chart_repeat")
def chart_repeat(k: Knitter, said: dict) -> None:
    its = chart(k)
    its.width, its.starts = said["needles_count"], rising(said["needles"])
    steps = {b - a for a, b in pairwise(its.starts)}
    need(steps <= {its.width}, "chart", f"they are not {its.width} apart")
    need((said["side"], said["side2"]) == ("left", "right"), "side", "from left to right")


@act("chart_over", "chart_over_wide")
def chart_over(k: Knitter, said: dict) -> None:
    spots = rising(said["needles"])
    k.note("chart over", spots)
    need((spots[0], spots[-1]) == (k.head[1][0], k.head[1][-1]), "range",
         "the section's head names other needles")
    k.note("chart wide", rising(said["needles2"]) if "needles2" in said else spots)


@act("chart_in", "chart_out")
def chart_in(k: Knitter, said: dict) -> None:
    chart(k)
    k.note("in rows" if k.sentence.startswith("Before") else "out rows", said["numbers"])
    if k.sentence.startswith("After"):
        k.owe("one yarn", "the carriage is still set to knit two yarns in a row")


@act("chart_hangs")
def chart_hangs(k: Knitter, said: dict) -> None:
    """What stands right after the sentence that it belongs to: `obligations.RIGHT_AFTER`."""


@act("chart_seen")
def chart_seen(k: Knitter, said: dict) -> None:
    its = chart(k)
    k.note("chart drawn", rising(said["needles"]))
    need(said["words"] in k.part, "chart", "another name")
    its.rows = its.rows or said["rows"]
    need(said["rows"] == its.rows, "chart", f"it has {its.rows} rows")


@act("chart_row_one")
def chart_row_one(k: Knitter, said: dict) -> None:
    need((said["n"], said["rc"]) == (1, 0), "chart", "row 1 is the first")


@act("chart_whole")
def chart_whole(k: Knitter, said: dict) -> None:
    its, spots = chart(k), rising(said["needles"])
    its.width = said["needles_count"]
    first, last = place(said["needle"]), place(said["needle2"])
    its.whole = tuple(range(first, last + 1))
    k.note("chart over", spots)
    need(last - first + 1 == said["n"] * its.width, "chart", "the repeats do not fit between")


@act("chart_edge")
def chart_edge(k: Knitter, said: dict) -> None:
    edge, over = set(rising(said["needles"])), set(k.notes.get("chart over", ()))
    need(edge == over - set(chart(k).whole), "chart", "the rest of the needles is another")


@act("chart_gaps")
def chart_gaps(k: Knitter, said: dict) -> None:
    spots = parse(said["needles"])
    k.note("gaps told", spots)


@act("chart_sides")
def chart_sides(k: Knitter, said: dict) -> None:
    need((said["side"], said["side2"]) == ("left", "right"), "side", "left and right")


@act("chart_again")
def chart_again(k: Knitter, said: dict) -> None:
    its = chart(k)
    need((said["n"], said["n2"]) == (1, its.rows), "chart", f"it has {its.rows} rows")


ROW_LINE = re.compile(r"Rows? ([\d, and to]+): (.*)")
WHERE = (rf"(?:every [a-z]+ needle|\d+ of every \d+ needles) from {NAME} to {NAME}"
         r"(?: \([^)]*\))?")
ON_NEEDLES = re.compile(WHERE)


def chart_rows(k: Knitter, blocks: list[Block]) -> None:
    """The rows of a pattern told one by one: each once, their needles as far apart as a repeat."""
    its = chart(k)
    for block in blocks:
        k.sentence = block.text
        k.attempt(lambda block=block: chart_line(k, its, block.text))
    missing = set(range(1, its.rows + 1)) - its.told
    need(not missing, "chart", f"rows {sorted(missing)} are not told")


def chart_line(k: Knitter, its: Chart, text: str) -> None:
    """One line of the rows."""
    match = ROW_LINE.fullmatch(text)
    if not match:
        return
    rows: set[int] = set()
    for part in re.split(r", | and ", match[1]):
        a, _, b = part.partition(" to ")
        rows |= set(range(int(a), int(b or a) + 1))
    twice = rows & its.told
    its.told |= rows
    plain = match[2] == "knit plain."
    if "second colour" in match[2]:
        its.contrast = sorted([*its.contrast, *rows])
    its.tucks = its.tucks or match[2].startswith("tuck on ")
    need(not twice and max(rows) <= its.rows, "chart", f"rows {sorted(twice)} are told twice")
    need(plain or ON_NEEDLES.search(match[2]) or "needles" in match[2] or NAME, "chart",
         "no needles are named")
    need(("Rows" in text[:5]) == (len(rows) > 1), "number", "one row, or more")
    if match[2].startswith("slip on "):
        slipped = set(rising(match[2].removeprefix("slip on ")[:-1]))
        its.slips |= dict.fromkeys(rows, slipped)
    if match[2].startswith("second colour on "):
        picked = set(rising(match[2].removeprefix("second colour on ")[:-1]))
        its.picks |= dict.fromkeys(rows, picked)
    for found in ON_NEEDLES.finditer(match[2]):
        on_needles(k, its, found)
    if "cross in groups" in match[2]:
        crossing(match[2])
    elif not plain:
        told = re.fullmatch(rf"(?:slip|tuck|second colour) on {ON_NEEDLES.pattern}\.|move the "
                            rf"stitches of {ON_NEEDLES.pattern} one needle to the (?:left|right)"
                            r"\.", match[2])
        need(told, "chart", f"this cannot be read: {match[2]!r}")


HANDS = r"the (\d+) (left|right)-hand stitches"
CROSSING = re.compile(
    rf"cross in groups of (\d+) on {WHERE}: of each, {HANDS} first, (\d+) needles to the "
    rf"(left|right), then {HANDS}, (\d+) needles to the (left|right)\.")


def crossing(words: str) -> None:
    """A crossing: two groups change places, each by the width of the other."""
    match = CROSSING.fullmatch(words)
    need(match, "chart", f"this cannot be read: {words!r}")
    size, one, side, far, way, two, side2, far2, way2 = match.groups()  # type: ignore[union-attr]
    need(int(size) == int(one) + int(two) and far == two and far2 == one, "chart",
         "the groups do not change places")
    need(side != side2 and way == side2 and way2 == side, "side", "the groups do not change places")
    taken = re.search(r"on (\d+) of every", words)
    need(not taken or taken[1] == size, "chart", f"a group is {size} needles")


def on_needles(k: Knitter, its: Chart, found: re.Match[str]) -> None:
    """Needles of one mark of a row: spaced as the repeat, within the piece, cut at the centre."""
    spots = rising(found[0])
    over = set(k.notes.get("chart wide") or k.notes.get("chart over", ()))
    step = re.search(r"every (\d+) needles", found[0])
    need(not step or its.width == 0 or its.width % int(step[1]) == 0, "chart",
         f"a repeat is {its.width} needles")
    need("(" in found[0] or not spots[0] < 0 <= spots[-1], "chart",
         "the needles beside the centre are not named")
    if over and not set(spots) <= over:
        raise Wrong("chart", "needles outside the piece")


def drawing(k: Knitter, blocks: list[Block]) -> None:
    """The text in a stitch pattern's drawing: strips, needles under them, rows beside them."""
    its = chart(k)
    strips: list[tuple[int, ...]] = []
    ticks: list[tuple[float, int]] = []
    rows: list[tuple[float, float, int]] = []
    for block in [*blocks, Block("drawn", "L1 to L1")]:
        if " to " in block.text:
            chart_strip(its, strips[-1] if strips else (), ticks, rows)
            strips.append(rising(block.text) if block.text != "L1 to L1" else (0,))
            ticks, rows = [], []
        elif re.fullmatch(NAME, block.text):
            ticks.append((block.at[0], place(block.text)))
        else:
            need(block.text.isdigit() or block.text == "centre", "chart",
                 f"this cannot be read: {block.text!r}")
            if block.text.isdigit():
                rows.append((block.at[0], block.at[1], int(block.text)))
    over = k.notes.get("chart drawn")
    if over and strips[:-1]:
        every = [s for strip in strips[:-1] for s in strip]
        need(every == list(over), "chart", "the strips are not what the words say")  # type: ignore


def chart_strip(its: Chart, strip: tuple[int, ...], ticks: list[tuple[float, int]],
                rows: list[tuple[float, float, int]]) -> None:
    """One strip of a drawing: its needles evenly apart, its rows from the lowest up, both sides."""
    if not strip:
        return
    need(all(spot in strip for _, spot in ticks), "chart", "a needle outside its strip")
    for (x1, a), (x2, b) in pairwise(sorted(ticks)):
        need(abs((x2 - x1) / 14 - (b - a)) < 0.1, "chart", "needles unevenly apart")
    if ticks:
        left = ticks[0][0] - 14 * (ticks[0][1] - strip[0])
        need(20 <= left <= 45, "chart", "a needle in another place")
    for side in {x for x, _, _ in rows}:
        column = [n for _, _, n in sorted((-y, x, n) for x, y, n in rows if x == side)]
        need(column == list(range(1, its.rows + 1)), "chart", f"rows {column}")


def contrast_rows(k: Knitter) -> None:
    """The second colour is put in before and taken out after the rows that take it."""
    its, acts = chart(k), [name for name, _ in k.log]
    need("chart_out" not in acts or "carriage_one" in acts[acts.index("chart_out"):][:3], "levers",
         "the carriage is still set to knit two yarns in a row")
    if its.contrast and "in rows" in k.notes:
        runs_in = [r for r in its.contrast if r - 1 not in its.contrast]
        runs_out = [r for r in its.contrast if r + 1 not in its.contrast]
        need(k.notes["in rows"] == runs_in, "chart", f"it is needed from rows {runs_in}")
        need(k.notes["out rows"] == runs_out, "chart", f"it is needed to rows {runs_out}")


def slipped_next(k: Knitter, spots: tuple[int, ...] | list[int], ahead: int = 0) -> set[int]:
    """Those of some needles that the chart slips in the next row, or so many rows after it; never
    the outermost, which are plain."""
    its = chart(k) if "chart" in k.notes else Chart()
    return its.slips.get(next_row(k, its, ahead), set()) & set(spots[1:-1])


def next_row(k: Knitter, its: Chart, ahead: int = 0) -> int:
    """The chart's row that is next, or so many rows after it; 0 without a chart."""
    return ((k.bed.counter or 0) + ahead) % its.rows + 1 if its.rows else 0


def picked_next(k: Knitter, spots: tuple[int, ...] | list[int]) -> set[int]:
    """Those of some needles that take the second colour in the next row."""
    its = chart(k) if "chart" in k.notes else Chart()
    return its.picks.get(next_row(k, its), set()) & set(spots[1:-1])


@act("lower")
def lower(k: Knitter, said: dict) -> None:
    """A needle put back from holding stands in upper working position, where it takes the second
    colour (site: techniques/stitch-chart). Edges are plain, whatever the chart shows there."""
    k.paid("lower", "no row of two colours follows needles just put back")
    k.tools["transfer"] = True
    told, back = set(rising(said["needles"])), list(k.notes["put back"][1])  # type: ignore[index]
    picked = picked_next(k, back)
    if "except" in k.sentence:
        told = set(back) - told
    plain = {spot for spot in told & picked if min(spot - back[0], back[-1] - spot) >= 4}
    need(told <= set(back) and set(back) - picked <= told and not plain, "upper-pick",
         f"the second colour lies on {spoken(sorted(picked))} in the next row")
    k.owe("lower_why", "what these needles would do otherwise is not said")


@act("lower_why")
def lower_why(k: Knitter, said: dict) -> None:
    k.paid("lower_why", "no needles were put back to working position")


@act("slip_held")
def slip_held(k: Knitter, said: dict) -> None:
    """A needle put back from holding stands in upper working position, and in the slip setting the
    carriage knits it there (site: techniques/stitch-chart). Those next to stitches that are moved,
    bound off or held after the row are plain: they lie at the ends."""
    k.paid("slip_held", "none of the needles put back is slipped in the next row")
    told, back = set(rising(said["needles"])), list(k.notes["put back"][1])  # type: ignore[index]
    slipped = slipped_next(k, back)
    between = {spot for spot in slipped if min(told) <= spot <= max(told)}
    need(told <= slipped and told == between, "upper-slip",
         f"the chart slips {spoken(sorted(slipped))} in the next row")
    need(bool(told & slipped_next(k, back, 1)) == ("as long as" in k.sentence), "upper-slip",
         "whether the row after it slips them too is not so")
