"""What is joined, hung and sewn: both sides of every join, what waits, pairs, buttons."""

from __future__ import annotations

import re

from tests.reader import gauges
from tests.reader.bed import need
from tests.reader.garment_parts import attempt
from tests.reader.knitter import Knitter
from tests.reader.materials import BED
from tests.reader.measures import CM, PAIR, inches
from tests.reader.page_parts import Group, Reading

EITHER = re.compile(r"(.+): (\d+) (rows|stitches) on either side"
                    r"(?:(?<=stitches on either side), one of them in the raglan seam)?")
TWO = re.compile(rf"(.+): {PAIR.pattern} on (?:the [a-z ]+) and {PAIR.pattern} on (?:the [a-z ]+),"
                 rf" the longer side; (?:spread|ease) the difference of {CM} cm \(([^)]*) in\) "
                 r"(evenly|into the upper third of the cap's edge)"
                 rf"(?: \({CM} cm \([^)]*\) of ease\))?")
ROW_APART = re.compile(r"(.+): (\d+) rows on one edge and (\d+) rows on the edge that lay at the "
                       r"(left|right) of the bed\. Just (below|above) the "
                       r"underarm take two bars of this longer edge together once")
DECLARED = re.compile(r"(.+): (\d+) (rows|stitches) on the ([a-z ]+?) and (\d+) \3 on the "
                      r"([a-z ]+), the longer side: take two of its (bars|stitches) together "
                      r"(?:once, (?P<where>in the middle|just below the bound-off stitches)|"
                      r"(?:(twice)|(three|four) times|(\d+) times), spread evenly)")
ONE = re.compile(rf"(.+): {PAIR.pattern} on either side")
NEAR = re.compile(rf"(.+): {PAIR.pattern} on (?:the [a-z ]+) and {PAIR.pattern} on (?:the [a-z ]+),"
                  r" less than 1 mm apart: there is nothing to ease")
# Joins whose two sides are no whole rows and stitches: a curve, and the depth of a band.
BY_LENGTH = ("Sleeve cap and armhole", "Right sleeve cap and armhole",
             "Left sleeve cap and armhole", "Placket bands, their depth and the width of the slit")
HOW_MANY = {"one": 1, "two": 2, "three": 3, "four": 4}
BARS = re.compile(r"(.+): (\d+) stitches of the ([a-z ]+) to (\d+) rows of the "
                  r"([a-z ]+): (.+)")
# The same where the name has both edges: the figures stand in their order.
BARS_BY_NAME = re.compile(r"(.+ to .+): (\d+) (?:stitches to (\d+) rows|rows to (\d+) stitches): "
                          r"(.+)")
LAY = re.compile(r", where the ([a-z ]+) lay at the (left|right) of the bed(?=: )")
UNEVEN = re.compile(r"(.+): (\d+) (rows|stitches) of the ([a-z ]+) to (\d+) \3 of the ([a-z ]+): "
                    r"(.+)")
TAKES = re.compile(
    r"(\d+)(?: (stitch|bar)(?:e?s)?)? to (\w+)(?: (?:bar|stitch)(?:e?s)?)?(?: each)?")


def joins(reading: Reading) -> None:
    """Every join of the making up, held to the workings and to what was knitted."""
    making = reading.making_up
    counted = joined_lines(reading.group("Calculations"))
    told: set[str] = set()
    for step, text in making.joins if making else ():
        if not text.startswith("Top of the cap: "):  # cap_tops.py
            attempt(reading, f"Making up, step {step}", text, one_join, reading, text, counted,
                    told)
    for name in counted if making else ():
        if name not in told:
            reading.fault("join", "Making up", name, "it is counted and never joined")


def joined_lines(group: Group | None) -> dict[str, str]:
    """The lines under "Edges that are joined": name to figures."""
    out: dict[str, str] = {}
    inside = False
    for block in group.blocks() if group else ():
        if block.kind == "summary":
            inside = block.text == "Edges that are joined"
        elif inside and ": " in block.text:
            name, _, rest = block.text.partition(": ")
            out[name] = rest
    return out


def one_join(reading: Reading, text: str, counted: dict[str, str], told: set[str]) -> None:
    """One join: a count on either side, or two lengths."""
    lay = LAY.search(text)
    text = LAY.sub("", text)
    either, two, one = EITHER.fullmatch(text), TWO.fullmatch(text), ONE.fullmatch(text)
    bars, apart = BARS.fullmatch(text), ROW_APART.fullmatch(text)
    by_name = BARS_BY_NAME.fullmatch(text)
    differ, uneven = DECLARED.fullmatch(text), UNEVEN.fullmatch(text)
    near = NEAR.fullmatch(text)
    match = apart or uneven or bars or by_name or either or differ or two or one or near
    need(match, "join", "this cannot be read")
    name = match[1]  # type: ignore[index]
    side = lay[2] if lay else ""
    need(name + side not in told, "join", "it stands here twice")
    told.update((name, name + side))
    need(name in counted, "join", "its lengths are not counted")
    figures = re.findall(r"\d+(?:\.\d+)?", counted[name])
    need(bool(apart) == row_apart(reading, name) or uneven, "join",
         "the sides are bound off a row apart")
    if uneven:
        need(bool(lay) == (row_apart(reading, name) and uneven[3] == "rows"), "join",
             "the sides are bound off a row apart, or are not")
        in_two_fabrics(reading, uneven, figures, lay)
    elif apart:
        need(figures[:2] == [apart[3], apart[2]] and int(apart[3]) == int(apart[2]) + 1, "join",
             f"the working says {counted[name]!r}")
        need((apart[4], apart[5]) == (("right", "above") if "aglan, " in name
                                      else ("left", "below")), "join", "another edge, or place")
        knitted_join(reading, name, int(apart[2]), "rows")
    elif differ:
        declared(reading, differ, figures, counted[name])
    elif bars:
        need(" to " not in name, "join", "its name has both edges, and they are named again")
        rows_to_stitches(reading, name, int(bars[2]), int(bars[4]), bars[6])
    elif by_name:
        first, other = int(by_name[2]), int(by_name[3] or by_name[4])
        rows_to_stitches(reading, name, *((first, other) if by_name[3] else (other, first)),
                         by_name[5])
    elif either and " mm: " in counted[name]:
        as_many(reading, either, figures)
    elif either:
        need(figures[:2] == [either[2], either[2]] and either[3] in counted[name], "join",
             f"the working says {counted[name]!r}")
        knitted_join(reading, name, int(either[2]), either[3])
    elif near:
        need(name in BY_LENGTH, "join", "rows meet stitches, and how many of each is not said")
        for told_cm, mm in zip((near[2], near[6]), sorted(float(one) for one in figures[:2]),
                               strict=True):
            need(abs(float(told_cm) * 10 - mm) <= 0.51, "join", f"{mm} mm are counted")
        need(abs(float(figures[0]) - float(figures[1])) < 1, "join", "they are 1 mm apart or more")
    elif two:
        need(name in BY_LENGTH, "join", "rows meet stitches, and how many of each is not said")
        shown = sorted((float(two[2]), float(two[6])))
        for told_cm, mm in zip(shown, sorted(float(one) for one in figures[:2]), strict=True):
            need(abs(told_cm * 10 - mm) <= 0.51, "join", f"{mm} mm are counted")
        apart, ease = two[10], two[13]
        need(float(two[2]) < float(two[6]), "join", "the longer side is the other")
        need(abs(abs(shown[0] - shown[1]) - float(apart)) < 0.01, "join", "another difference")
        asked = "more where" in counted[name]  # on purpose, and so at the top alone
        need((two[12] == "evenly") != asked, "join", "an ease is shared out at the top alone")
        inch = inches(two[8]) - inches(two[4])
        need(two[11] == "less than ⅛" if inch == 0 else inches(two[11]) == inch, "join",
             f"in inches the difference is {inch}")
        if ease:
            need(abs(float(ease) * 10 - float(figures[2])) <= 0.51, "join",
                 f"{figures[2]} mm of ease are counted")
    elif one:
        need(name in BY_LENGTH, "join", "rows meet stitches, and how many of each is not said")
        need(abs(float(one[2]) * 10 - float(figures[0])) <= 1.1, "join", f"{figures[0]} mm")


def as_many(reading: Reading, said: re.Match[str], lengths: list[str]) -> None:
    """As many rows or stitches on either side of a seam of two fabrics, by either gauge."""
    known, number = gauges.gauges(reading), int(said[2])
    pieces = said[1].split(", ")[1].replace("body", "back").split(" and ")
    for piece in pieces:
        gauge = gauges.of_piece(known, piece)
        need(gauge, "join", f"no gauge of the {piece} is printed")
        long = gauge.height(number) if said[3] == "rows" else (  # type: ignore[union-attr]
            gauge.width(number))
        need("lower edge" in said[1] or any(abs(long - float(one) / 10) < 0.06
                                            for one in lengths[:2]), "join", f"they are {long} cm")


def in_two_fabrics(reading: Reading, said: re.Match[str], lengths: list[str],
                   lay: re.Match[str] | None) -> None:
    """Two edges in two fabrics: their rows or stitches, of which the fewer take all of the more,
    are as long by their own gauges as the working has it, but for a hem of a third fabric. An edge
    that lay at the left of the bed has a row less than the working counts."""
    few, many = int(said[2]), int(said[5])
    found = TAKES.findall(said[7].removesuffix(", spread evenly"))
    taker = "bar" if said[3] == "rows" else "stitch"
    need(found and {each[1] for each in found} <= {taker, ""}, "join", "this cannot be read")
    need(few == sum(int(n) for n, *_ in found), "join", f"{few} take them")
    need(many == sum(int(n) * HOW_MANY[each] for n, _, each in found), "join",
         f"{many} are not what they take")
    known = gauges.gauges(reading)
    printed = sorted(float(one) / 10 for one in lengths[:2])
    exact = []
    for number, piece in ((few, said[4]), (many, said[6])):
        gauge = gauges.of_piece(known, piece)
        need(gauge, "join", f"no gauge of the {piece} is printed")
        less = bool(lay) and (lay[2] == "left") == (piece == lay[1])  # type: ignore[index]
        exact.append(gauge.height(number + less) if taker == "bar" else  # type: ignore[union-attr]
                     gauge.width(number))
    if "lower edge" not in said[1]:
        need(all(abs(a - b) < 0.06 for a, b in zip(sorted(exact), printed, strict=True)), "join",
             f"by the gauges they are {exact}, not {printed}")
    if taker == "bar":
        over = 0 if "lower edge" in said[1] else 1  # the row over a raglan's last decreases
        for number, piece in ((few, said[4]), (many, said[6])):
            less = bool(lay) and (lay[2] == "left") == (piece == lay[1])  # type: ignore[index]
            knitted_join(reading, said[1], number + less - over, "rows")


OFTEN = {"twice": 2, "three": 3, "four": 4}
SIDE_OF = re.compile(r"(left|right) [a-z ]+? of (?:the|each|the (?:first|second)) ([a-z ]+)")


def declared(reading: Reading, said: re.Match[str], figures: list[str], working: str) -> None:
    """Two edges that a source joins: the longer one is taken together as often as it has more."""
    few, many = int(said[2]), int(said[5])
    times = OFTEN.get(said[9] or said[10] or "") or int(said[11] or 1)
    need(times == many - few > 0, "join", f"{many} are {many - few} more than {few}")
    need(said[7] == ("bars" if said[3] == "rows" else "stitches"), "join", "what is taken together")
    need(sorted(figures[:2]) == sorted((said[2], said[5])), "join", f"the working says {working!r}")
    need(said[1].lower() in (f"{said[4]} to {said[6]}", f"{said[6]} to {said[4]}"), "join",
         "other edges are named than those that are joined")
    for number in (few, many):
        knitted_join(reading, said[1], number, said[3])
    if times == 1:
        below = (said[6], said[4], "left", "right") in _bound_off_later(reading)
        need((said["where"] != "in the middle") == below, "join",
             "a row more lies below what was bound off a row later")


def _bound_off_later(reading: Reading) -> set[tuple[str, str, str, str]]:
    """Pairs of edges, by their names, of which the left one was bound off a row after the right."""
    begun: dict[tuple[str, str], int] = {}
    for k in reading.knitters:
        for e in k.edges if not k.sections else ():
            if e[2] == "bind off":
                begun.setdefault((k.title.split(",")[0].lower(), e[1]), e[4])
    edges = {name: match.groups()[::-1] for step, words, _ in reading.making_up.seams
             for name in re.findall(r"(?:left|right) [a-z ]+? of the [a-z ]+?(?= to |,)", words)
             if (match := SIDE_OF.fullmatch(name))}
    return {(long, short, "left", "right") for long, one in edges.items()
            for short, other in edges.items() if one in begun and other in begun
            and begun[one] == begun[other] + 1 and (one[1], other[1]) == ("left", "right")}


def row_apart(reading: Reading, name: str) -> bool:
    """True where the two edges of a seam were bound off with the row counter a row apart: at both
    sides of the wearer, but where the name has one."""
    begun = {k.title.split(",")[0].lower(): {side: min(
        (e[4] for e in k.edges if e[1:3] == (side, "bind off")), default=None)
        for side in ("left", "right")} for k in reading.knitters if not k.sections}
    kind, _, rest = name.removeprefix("Right ").removeprefix("Left ").partition(", ")
    if name.startswith("Sleeve seam"):
        pairs = [(("sleeve", "left"), ("sleeve", "right"))]
    elif kind.lower() in ("side seam", "raglan"):
        own, _, other = rest.split(", ")[0].partition(" and ")
        worn = name.split(" ")[0].lower() if name.startswith(("Right ", "Left ")) else (
            own.removesuffix(" front"))
        sides = (worn,) if worn in ("right", "left") else ("right", "left")
        turned = {"right": "left", "left": "right"}
        edges = (turned[side] if own == "back" else side for side in sides)
        pairs = [((own, edge), (other, turned[edge])) for edge in edges]
    else:
        return False
    found = {_a_row_apart(begun, one, other) for one, other in pairs}
    need(len(found) == 1, "join", "only one of the two seams is a row off")
    return found.pop()


def _a_row_apart(begun: dict[str, dict[str, int | None]], one: tuple[str, str],
                 other: tuple[str, str]) -> bool:
    """True where two edges begin to go in rows that differ by one. Where a sleeve meets a body,
    each row is counted from that at which its own piece begins to go."""
    rows = []
    for key, side in (one, other):
        edges = begun.get(key, {})
        at = edges.get(side)
        if at is None:
            return False
        first = min(row for row in edges.values() if row is not None)
        rows.append(at - first if other[0] == "sleeve" else at)
    return abs(rows[0] - rows[1]) == 1


def rows_to_stitches(reading: Reading, name: str, stitches: int, rows: int, how: str) -> None:
    """A join of rows to stitches: how many take how many bars comes to all of both, and the rows
    were knitted, on one half of the edge at least."""
    ways = {"one bar to each stitch": (1, 1), "join each stitch to two bars": (1, 2)}
    if how in ways:
        need(stitches * ways[how][1] == rows, "join", "the bars do not come to the rows")
    else:
        found = TAKES.findall(how.removesuffix(", spread evenly"))
        need(len(found) == 2 and how.endswith(", spread evenly"), "join", "this cannot be read")
        takers = sum(int(n) for n, *_ in found)
        taken = sum(int(n) * HOW_MANY[each] for n, _, each in found)
        pair = (takers, taken) if found[0][1] == "stitch" else (taken, takers)
        need(pair == (stitches, rows), "join", f"{pair[0]} stitches and {pair[1]} rows are taken")
    if "slit" not in name:  # a slit's marks are read with the hand's
        knitted_join(reading, name, rows // (1 + ("armhole" in name)), "rows")


def knitted_join(reading: Reading, name: str, number: int, unit: str) -> None:
    """A join's count is one that the bed met: rows between two events, or stitches put by."""
    pieces = [k for k in reading.knitters if not k.sections]
    met: set[int] = set()
    for k in pieces:
        if unit == "rows":
            spots = {0, *(c for c, _ in k.marks), *(e[4] for e in k.edges),
                     *(until for *_, until in k.bed.done)}
            met |= {b - a for a in spots for b in spots if b > a}
            hem = [rows for *_, rows in [(d[3],) for d in k.bed.done]]
            met |= {a + b + more for a in hem for b in spots for more in (0, 1, 2)}
        else:
            met |= set(k.waiting.values()) | {e[3] for e in k.edges if e[2] == "bind off"}
            met |= {k.head[0]}
    need(number in met or not pieces or unit == "stitches" or "without" in name, "join",
         f"no edge of {number} {unit} is knitted")


def waits(reading: Reading) -> None:
    """What waits on waste yarn is what is hung again, count for count."""
    waiting: dict[str, int] = {}
    for k in reading.knitters:
        for label, count in k.waiting.items():
            waiting[label] = waiting.get(label, 0) + count
    hung: dict[str, list[int]] = {}
    for k in reading.knitters:
        fewer = {words: rows for words, rows, _ in k.edge_rows}
        for words, count in ((words, fewer.get(words, one)) for words, one in k.hung_counts):
            if "waiting stitches" in words:
                hung.setdefault(words.split(", waiting")[0], []).append(count)
    for words, counts in hung.items():
        names = set(words.replace(",", "").split())
        mine = [count for label, count in waiting.items()
                if names <= set(label.replace(",", "").split()) and "shoulders and" not in label]
        attempt(reading, "Making up", words, same_wait, words, counts, mine)


def strips(reading: Reading) -> None:
    """Waste yarn is drawn out of a strip only when all stitches that wait on it are hung."""
    left = [(label, count) for k in reading.knitters for label, count in k.waiting.items()]
    for k in reading.knitters:
        for name, count in k.strips:
            if name:
                attempt(reading, k.title, name, whole_strip, left, name, count)
        for name, places in k.lifted.items():
            attempt(reading, k.title, name, at_steps, reading, name, places)


def at_steps(reading: Reading, name: str, places: tuple[int, ...]) -> None:
    """A loop is lifted after those stitches of a held neck where it was held in the next step."""
    turns = next((k.notes.get("turns") for k in reading.knitters if name in k.waiting), None)
    need(turns == places, "steps", f"the neck rises after stitches {turns}")


def whole_strip(left: list[tuple[str, int]], name: str, count: int) -> None:
    """One strip of that name and number waits, and is taken."""
    need((name, count) in left, "waiting",
         f"{count} are taken of {[n for label, n in left if label == name]} that wait as {name!r}")


def cords(reading: Reading) -> None:
    """A cord that stays in an edge is drawn out when that edge is sewn off. The end is three times
    as long as the edge is wide on the bed, and a hand's length (back-stitched.md), 15 cm."""
    making = reading.making_up
    pitch = BED.search(" ".join(
        b.text for b in reading.group("Tools and materials").blocks() if b.kind == "p"))
    for _, words, said in making.seams if making else ():
        if words.startswith("Back-stitch the lower edge"):
            least = 3 * said["stitches"] * float(pitch[1]) / 10 + 15  # type: ignore[index]
            told = float(str(said["cm"]).split(" ")[0])
            attempt(reading, "Making up", "", need, least <= told < least + 5, "end",
                    f"it takes {least:.0f} cm")
            attempt(reading, "Making up", "", need, "edge_half_one" in {a for a, _ in making.log},
                    "left-out", "where the half loop lies is not said")
    sewn = {said["words"]: said["stitches"] for _, words, said in (making.seams if making else ())
            if words.startswith("Back-stitch the lower edge")}
    halves = {said["words"]: said.get("half at")
              for _, words, said in (making.seams if making else ())
              if words.startswith("Back-stitch the lower edge")}
    drawn = [said["stitches"] for _, words, said in (making.seams if making else ())
             if words.startswith("Draw up the edge that was knitted")]
    for k in reading.knitters:
        if k.bed.cord:
            name = k.title.split(",")[0].lower()
            attempt(reading, k.title, "", need,
                    sewn.get(name) == k.bed.cord or drawn == [k.bed.cord], "cord-left",
                    "the ravel cord is still in the work")
            attempt(reading, k.title, "", need, name not in halves or
                    halves[name] == k.bed.half_end, "half-loop-end",
                    f"row 1 ended at the {k.bed.half_end}")


def same_wait(words: str, counts: list[int], mine: list[int]) -> None:
    """The stitches of one edge that wait, and those that are hung."""
    # A seam takes a stitch at each end of a piece's top (mattress-seam-by-rows.md).
    need(not mine or sum(counts) in (sum(mine), 2 * sum(mine)) or
         all(count in mine or count + 2 in mine for count in counts), "waiting",
         f"{sum(mine)} wait as {words!r}, {sum(counts)} are hung")


def edge_lengths(reading: Reading) -> None:
    """Each edge that a band is hung on is as long as it was knitted: rows, stitches bound off."""
    lengths: dict[str, set[int]] = {}
    for k in reading.knitters:
        if not k.sections:
            lengths.setdefault(k.title.lower().split(",")[0], set()).update(paths(k))
    for k in reading.knitters:
        for words, rows, _ in k.edge_rows:
            where = words.split(" neck")[0]
            if " neck" not in words or "band" in words or "to the" in words or "wait" in words:
                continue
            mine = [paths for title, paths in lengths.items() if where in title]
            if mine:
                attempt(reading, k.title, words, edge_length, words, rows, set().union(*mine))


def paths(k: Knitter) -> set[int]:
    """How long an edge can be from where its shaping begins to the top, in rows and stitches."""
    out: set[int] = set()
    tops = [until for *_, until in k.bed.done] or [0]
    for side in ("left", "right"):
        events = [e for e in k.edges if e[1] == side and e[2] in ("bind off", "decrease")]
        out |= {top - start for top in tops for start in k.divisions}
        if k.bed.neck:  # beside a held neck, above the row that is knitted over it
            out |= {top - max(k.bed.neck.values()) - 1 for top in tops}
        marks = [c for c, _ in k.marks]
        out |= {b - a for a in marks for b in marks}
        if len(events) > 1 and events[0][2] == "decrease":  # a V begins up to one interval earlier
            gap = min(max(events[1][4] - events[0][4], 0), 8)
            out |= {top - events[0][4] + more for top in tops for more in range(gap + 1)}
        for spot in range(len(events)):
            rest = events[spot:]
            stitches = sum(e[3] for e in rest if e[2] == "bind off")
            for top in set(tops):
                out.add(top - rest[0][4] + stitches)
            run = 0
            for e in rest:
                run += e[3] if e[2] == "bind off" else 0
                for start in {rest[0][4], *k.divisions}:
                    out |= {top - start + run for top in set(tops)}
    return {one for one in out if one > 0}


def edge_length(words: str, rows: int, lengths: set[int]) -> None:
    """One edge."""
    need(rows in lengths, "edge-length", f"no edge of {rows} is knitted for {words!r}")


def blocked_first(reading: Reading) -> None:
    """Pieces are blocked before they are sewn together: the page about blocking has it so, and a
    seam is sewn edge to edge, each at its measure."""
    log = [act for act, _ in reading.making_up.log] if reading.making_up else []
    if "block" in log and any("panel" in words for _, words, _ in reading.making_up.seams):
        first = min(log.index(one) for one in log if one.startswith("sew"))
        attempt(reading, "Making up", "block", need, log.index("block") < first, "order",
                "panels are sewn before they are blocked")


def marks_alike(reading: Reading) -> None:
    """Back and fronts are marked at the same rows, so that the marks meet in the seam; and where a
    piece is turned to its marked edge, the threads are in that edge alone."""
    told = reading.making_up.notes.get("marked edges") if reading.making_up else None
    for k in reading.knitters:
        marked = k.notes.get("marked edges")
        if marked and (told or len(marked) == 1):
            attempt(reading, k.title, "the edge with the marks", need,
                    marked == told, "marks", "other edges are marked than the making up takes")
    body = [k for k in reading.knitters
            if k.title in ("Back", "Front", "Right front", "Left front")]
    counters = {tuple(sorted({c for c, _ in k.marks})) for k in body}
    attempt(reading, "Making up", "", need, len(counters) <= 1, "marks",
            f"the body's pieces are marked at {sorted(counters)}")


def tied_threads(reading: Reading) -> None:
    """The thread at the foot of a V is named where its front edge is hung, and comes out there: a
    band closed around the edge would shut it in (geometry)."""
    tied = {k.title for k in reading.knitters if "neck begins" in k.notes}
    edges = [(k, number) for k in reading.knitters
             for number, words, _ in k.sections if words.endswith("front edge")]
    for k, number in edges:
        attempt(reading, k.title, "front edge", need,
                k.notes.get("tied section") == (number if tied else None), "shut in",
                "what the thread tied into the front edge marks")
    for k in reading.knitters:
        words = [words for _, words, _ in k.sections]
        necks = bool(tied) and len(words) > 1 and {words[0], words[-1]} == {"front neck"} and (
            ", part " not in k.title)
        attempt(reading, k.title, "neck", need, ("between the ties" in k.notes) == necks, "marks",
                "the edge lies between the threads tied into the fronts")
    attempt(reading, "Making up", "front edges", need, not tied or not edges
            or len(edges) == len(tied), "shut in", f"threads are tied into {sorted(tied)}")


def underarm_threads(reading: Reading) -> None:
    """Threads that alone show where an armhole begins are named where its band is hung and where
    the side seam ends (common practice, no source)."""
    bands = [k for k in reading.knitters if re.search(r"\b(left|right) armhole$", k.title)]
    tied = bool(bands) and any(k.marks for k in reading.knitters)
    for k in bands:
        want = (1, len(k.sections)) if tied else None
        attempt(reading, k.title, "underarms", need, k.notes.get("underarm sections") == want,
                "marks", "what the threads tied in at the underarms mark")
    ends = reading.making_up and "ties_out" in [name for name, _ in reading.making_up.log]
    attempt(reading, "Making up", "side seams", need, not bands or bool(ends) == tied, "marks",
            "where the side seams end, and that the threads come out")


def edge_told_whole(reading: Reading) -> None:
    """What sleeve, side and shoulder take of a side edge comes to all its stitches, and a band on
    the other edge covers as many of them as it is hung in from there."""
    making = reading.making_up
    tops = [said["stitches"] for act, said in (making.log if making else ()) if act == "sew_tops"]
    if not tops:
        return
    texts = " ".join(words for _, words in making.joins)
    side = re.search(r"Side seam, front and back: (\d+) stitches", texts)
    whole = next(k.head[0] for k in reading.knitters if k.title == "Back")
    parts = (making.notes.get("in the shoulder", 0), tops[0], int(side[1]) if side else 0)
    attempt(reading, "Making up", "sleeve tops", need, sum(parts) == whole, "join",
            f"{parts} stitches are sewn of an edge of {whole}")
    band = next((str(said["words"]) for act, said in making.log if act == "work_side"), "none")
    inside = {one for k in reading.knitters if k.title.lower().startswith(band)
              for one in k.depths}
    attempt(reading, "Making up", "covered", need, inside <= {making.notes.get("covered")},
            "join", f"the band is hung {inside} stitches in")


def hems_knitted(reading: Reading) -> None:
    """A band is hung on the hem of a body that has one: a plain lower edge is called that."""
    hung = [k for k in reading.knitters for act, said in k.log
            if act == "hang_edge" and str(said["words"]).startswith("hem")]
    hems = {act for k in reading.knitters if k.title in ("Back", "Front") for act, _ in k.log}
    for k in hung:
        attempt(reading, k.title, "hem", need, "knit_join" in hems, "edge",
                "no hem is knitted on the body")


def ends_in_last_seam(making: Knitter | None) -> None:
    """The ends of a band worked while a side is open are sewn where that side is: a knitter who
    sews it, many steps later, reads there what belongs to it."""
    log = making.log if making else []
    worked = [(said["words"], said["side"]) for act, said in log if act == "work_side"]
    sewn, side = [], None
    for act, said in log:
        side = said["side"] if act == "sew_side" else side
        if act == "ring_ends":
            sewn.append((said["words"], side))
    need(sewn == worked, "left-out",
         f"worked while a side is open: {worked}; ends sewn in a seam: {sewn}")


def sides_in_turn(making: Knitter | None) -> None:
    """What is done to one side first is done to the other later, and to no side twice."""
    done: dict[str, list[str]] = {}
    for name, said in making.log if making else ():
        if "side" in said and name in ("join_shoulder", "graft", "join_same", "sew_side",
                                       "work_side"):
            words = "shoulder" if name in ("join_shoulder", "graft", "join_same") else "side"
            done.setdefault(words, []).append(str(said["side"]))
    shoulders = done.get("shoulder", [])
    if making and any(name == "sew_side" and "shoulder" in sentence for _, sentence, _ in
                      making.seams for name in ("sew_side",) if sentence.startswith("Sew the")):
        shoulders = [*done.get("side", [])[:1], *shoulders]
        done["side"] = done.get("side", [])[1:]
    need(shoulders in ([], ["right", "left"]), "side", f"shoulders are joined: {shoulders}")
    last = done.get("side", [])
    need(last in ([], ["right", "left", "left"]), "side", f"sides are sewn: {last}")


def back_closed(making: Knitter | None) -> None:
    """A seam left open at the back is closed, the same one, once the neckband is worked."""
    log = making.log if making else []
    sides = [(name, str(said["side"])) for name, said in log if name in ("open_back", "sew_back")]
    names = [name for name, _ in log]
    need(sides in ([], [("open_back", "left"), ("sew_back", "left")]), "side",
         f"the neck's open seam: {sides}")
    need(not sides or ("work" in names and names.index("open_back") < names.index("work")
         < names.index("sew_back")), "order", "the neckband is worked while that seam is open")
    need(not sides or {"worn_back", "worn_bed"} & set(names), "side",
         "which side of the back that seam is at is not said")


def work_order(reading: Reading) -> None:
    """Pieces are blocked first, ends darned in last, a band worked before what closes its ring."""
    making = reading.making_up
    names = [name for name, _ in making.log] if making else []
    sewing = [i for i, name in enumerate(names) if name.startswith(("sew", "join", "graft"))]
    blocked = any(words.startswith("Block the pieces") for _, words, _ in making.seams) if (
        making) else False
    if blocked and sewing:
        attempt(reading, "Making up", "", need, names.index("block") < sewing[0], "order",
                "pieces are blocked before they are sewn")
    attempt(reading, "Making up", "", need, not making or "block" in names or (
        "wash" in names and not any(i > names.index("wash") for i in sewing)), "left-out",
            "the gauge is of a washed swatch, and nothing says that the work is washed or blocked")
    if "darn" in names:
        rest = names[names.index("darn") + 1:]
        attempt(reading, "Making up", "", need, not [n for n in rest if n not in (
            "explain", "how", "brim_up", "count_back_ties", "count_back_cords",
            "count_back_pins", "caution_in")],
                "order",
                "ends are darned in last")
    counted = any(name.startswith("count_back_") for name in names)
    attempt(reading, "Making up", "", need, counted or not (sewing or "block" in names),
            "left-out", "pins of blocking and of the seams are counted at the very end")
    out = any("tied section" in k.notes for k in reading.knitters)
    tied = any(k.marks or ("neck begins" in k.notes and not out) for k in reading.knitters)
    attempt(reading, "Making up", "", need, tied == ("count_back_ties" in names), "left-out",
            "the threads tied into edges come out at the end, and no others are counted")
    acts = [{name for name, _ in k.log} for k in reading.knitters]
    corded = any(one & {"pocket_cord", "thread_cord"}
                 and not one & {"count_back", "count_back_cord"} for one in acts)
    attempt(reading, "Making up", "", need,
            not making or corded == ("cords counted" in making.notes), "left-out",
            "the pieces' cords are counted at the end")
    labelled = any(k.waiting for k in reading.knitters if k is not making)
    attempt(reading, "Making up", "", need,
            not making or labelled == ("labels counted" in making.notes), "left-out",
            "the labels of stitches that wait are counted at the end, and no others")
    gathered = any("gather" in {a for a, _ in k.log} for k in reading.knitters)
    attempt(reading, "Making up", "", need, not gathered or "sew_crown" in names, "left-out",
            "the gathered stitches are never fastened")
    attempt(reading, "Making up", "", need, ("sew_with" in names) == ("sew_crown" in names),
            "left-out", "with what yarn the seam below a gathered end is sewn is not said")
    attempt(reading, "Making up", "", need,
            not making or "darn" in names or "darn_inside" in names, "left-out",
            "nothing says that ends are darned in")
    attempt(reading, "Making up", "", need, "brim_up" in names or "sew_turned" not in names,
            "left-out", "the brim is never turned up")
    hung = any("hang_first_row" in {a for a, _ in k.log} for k in reading.knitters)
    attempt(reading, "Making up", "", need,
            "sew_turned" not in names or ("sew_hem" in names) == hung, "left-out",
            "in what order a hem's layers are sewn is said where there is a hem")
    attempt(reading, "Making up", "", sides_in_turn, making)
    attempt(reading, "Making up", "", ends_in_last_seam, making)
    attempt(reading, "Making up", "", back_closed, making)
    if "join_same" in names and "work" in names:
        attempt(reading, "Making up", "", need, names.index("work") < names.index("join_same"),
                "order", "the neckband is worked while a shoulder is open")
    told = " ".join(words for _, words, _ in making.seams).lower() if making else ""
    for k in reading.knitters if making else ():
        name = k.title.split(",")[0].lower()
        if k.sections:
            last = name.split(" ")[-1]
            attempt(reading, "Making up", k.title, need, last in told or "band" in told, "order",
                    "when it is worked is not said")
