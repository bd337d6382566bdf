"""Setting out, yarns, casting on, plain rows, weights."""

from __future__ import annotations

import re

from tests.reader.bed import FOREIGN, WORK, need
from tests.reader.charts import picked_next, slipped_next
from tests.reader.knitter import Knitter, act
from tests.reader.needles import parse, rising, spoken
from tests.reader.ways import BY_HAND, LATCH_ON, NAMED, PEG_ON

DOTS = {"one dot past": 1, "two dots past": 2}


def counted(spots: tuple[int, ...] | list[int], number: int) -> None:
    """Hold a printed count to the needles that are named with it."""
    need(len(spots) == number, "count", f"{spoken(spots)} are {len(spots)}, not {number}")


@act("bring")
def bring(k: Knitter, said: dict) -> None:
    spots = rising(said["needles"])
    k.note("brought", spots)
    fresh = [spot for spot in spots if k.bed.main.at(spot) == WORK]
    k.bed.main.bring(spots)
    counted(spots, said["needles_count"])
    need(not fresh, "brought-twice", f"{spoken(fresh)} are in work already")


@act("bring_shown")
def bring_shown(k: Knitter, said: dict) -> None:
    ends = rising(said["needles"])
    shown = [b.text for b in k.step.blocks if b.kind == "figcaption"]
    need(shown, "diagram-missing", "no diagram shows them")
    match = re.search(r"Empty, in working position: (.*?)\.(?: |$)", shown[0])
    need(match, "diagram", "the diagram shows no needles in work")
    spots = parse(match[1])
    k.note("brought", spots)
    k.bed.main.bring(spots)
    need(min(spots) == ends[0] and max(spots) == ends[-1], "range",
         f"the diagram shows {spoken(spots)[:60]}")
    gaps = k.notes.get("gaps told")
    need(gaps is None or set(ends) - set(spots) == set(gaps), "range",  # type: ignore[arg-type]
         "the stitch pattern leaves others out")
    counted(spots, said["needles_count"])


@act("others_out")
def others_out(k: Knitter, said: dict) -> None:
    here = set(k.bed.main.position)
    need(here == set(k.notes.get("brought", ())), "others-in", "other needles are in work")


@act("dial")
def dial(k: Knitter, said: dict) -> None:
    text = said["dial"]
    k.bed.dial = text
    k.note("dial spent", None)
    k.note("dialled", said.get("words") or said.get("rows") or
           ("first row" if "first row" in k.sentence else ""))
    k.dials.append((str(k.notes["dialled"]), text, k.part))
    unused = k.notes.get("dial unused")
    k.note("dial unused", text)
    k.note("dial rows", said.get("rows"))
    need(not unused, "dial", f"no row was knitted at {unused}")
    setting_of(text)


def setting_of(text: str) -> float:
    """A dial setting as a number of thirds; raises Wrong where its two ways of telling differ."""
    match = re.fullmatch(r"(\d+)(?:\.(\d))?(?: \((one dot|two dots) past (\d+)\))?", text)
    need(match, "dial", f"this is no setting: {text!r}")
    whole, dot, words, past = match.groups()
    need(bool(dot) == bool(words), "dial", f"this is no setting: {text!r}")
    if dot:
        need(past == whole and DOTS[f"{words} past"] == int(dot), "dial",
             f"the two ways to tell the setting differ: {text!r}")
    return int(whole) + int(dot or 0) / 3


def passes_counted(k: Knitter) -> None:
    """The row counter is looked at or set: after a pass that dropped stitches off, the page must
    have said whether it counts that and the rows of waste yarn."""
    need(not k.notes.pop("passes", None), "left-out",
         "whether the row counter counts the waste yarn's rows is not said")


@act("counter")
def counter(k: Knitter, said: dict) -> None:
    passes_counted(k)
    to = said["rc"]
    late = k.bed.counter is None and k.notes.get("brought") and not k.notes.get("taken off")
    k.bed.counter = to
    need(not late, "counter-late", "the row counter is set before anything else")
    if "divided" in k.sentence:
        need(to == k.notes.get("divided"), "counter-back",
             f"the work divided at row counter {k.notes.get('divided')}")
        shown = k.bed.done[-1][3]
        need(k.notes.get("half ends") == shown, "counter",
             f"the first half ends at {shown}, not at {k.notes.get('half ends')}")
    elif "slits" in k.sentence:
        need(to == k.notes.get("noted"), "counter-back",
             f"the row counter stood at {k.notes.get('noted')} where the slits began")
    else:
        need(to == 0, "counter-set", "a row counter is set to 0 where a new count begins")
        k.note("zeroed", len(k.bed.done))


@act("counter_waste")
def counter_waste(k: Knitter, said: dict) -> None:
    """The stitches go on where they were taken off."""
    passes_counted(k)
    k.bed.counter = said["rc"]
    need(said["rc"] == k.notes.pop("before waste", None), "counter-back",
         "it stood elsewhere before the waste yarn")


@act("counter_neck")
def counter_neck(k: Knitter, said: dict) -> None:
    need(said["rc"] == k.notes.get("divided"), "counter-back",
         f"the work divided at row counter {k.notes.get('divided')}")
    need(k.bed.neck and set(k.bed.neck) == set(k.bed.main.loops), "out-of-place",
         "there are other stitches than those of a neck")
    k.bed.counter = said["rc"]


@act("counter_back")
def counter_back(k: Knitter, said: dict) -> None:
    before = k.bed.counter
    k.bed.counter = said["rc"]
    need(before == said["rc"] + 1, "counter-back",
         f"the free pass took it to {before}: back is {(before or 1) - 1}")


@act("draw_down")
def draw_down(k: Knitter, said: dict) -> None:
    need(k.bed.feeder == said["yarn"], "feeder", f"in the feeder is {k.bed.feeder or 'no yarn'}")
    k.note("drawn down", float(said["cm"].split(" ")[0]))


@act("lift_chain")
def lift_chain(k: Knitter, said: dict) -> None:
    k.paid("lifted", "no chain lies round the pegs")


@act("take_slack")
def take_slack(k: Knitter, said: dict) -> None:
    need("lifted" not in k.owed, "way-order", "the chain still lies round the pegs")
    k.paid("slack", "no yarn hangs slack")


def chained(k: Knitter, spots: tuple[int, ...]) -> None:
    """A chain begins at the end away from the carriage, with yarn that hangs down from the feeder:
    four times its width (site: techniques/latch-tool-chain, of its end), on needles 4.5 mm apart or
    more. What is left must not lie in a loop before the first row."""
    length, across = k.notes.pop("drawn down", None), spots[-1] - spots[0] + 1
    k.owe("slack", "the yarn that was drawn down lies slack in the first row")
    if "pegs" in k.sentence:
        k.owe("lifted", "the first row cannot pass a chain that lies round the pegs")
    need(length and 18 * across <= 10 * (float(str(length)) - 15) < 40 * across, "yarn-short",
         "not enough yarn is drawn down for the chain")


@act("cast_on")
def cast_on(k: Knitter, said: dict) -> None:
    spots = rising(said["needles"])
    if "in work" in k.sentence:
        ends, spots = spots, tuple(s for s in spots if k.bed.main.at(s) == WORK)
        need(spots and (spots[0], spots[-1]) == (ends[0], ends[-1]), "range",
             "the ends named are not in work")
    need(k.bed.feeder == said["yarn"], "feeder", f"in the feeder is {k.bed.feeder or 'no yarn'}")
    need(k.bed.dial is not None, "dial", "no dial was set")
    need(not k.bed.main.full(), "bed-full", "the bed is not empty")
    need(set(spots) == set(k.bed.main.empty()), "range",
         f"in work are {spoken(k.bed.main.empty())[:70]}")
    k.bed.main.hang(spots, said["yarn"], on=False)
    counted(spots, said["stitches"])
    k.bed.forward = "by hand" in k.sentence  # as its technique page says
    foot = re.search("hem|rib", str(k.notes.get("plain rows", "")))  # row 1 lies above it
    k.bed.slips_first = not foot and bool(slipped_next(k, spots))
    k.bed.picks_first = not foot and bool(picked_next(k, spots))
    k.note("cast on", len(spots))
    if " chain " in k.sentence:
        chained(k, spots)
    title = next((title for name, title in NAMED["on"].items() if name in k.sentence), "")
    if title and k.bed.fresh:  # the last loop lies where the yarn is: at the carriage
        k.did |= {one for one in CAST if one[0] == title}


CAST = {(BY_HAND, "way_open", "words", "forward"), (BY_HAND, "way_to", "words", "beside"),
        (BY_HAND, "way_knot", "words", "farthest from"),
        (LATCH_ON, "way_from", "words", "farthest from"),
        (PEG_ON, "way_from", "words", "farthest from")}


def knit_rows(k: Knitter, said: dict) -> None:
    """Knit plain rows with the yarn of the piece."""
    start = k.bed.counter
    once = str(k.notes.get("dialled", ""))
    need(not k.notes.get("dial spent"), "dial", f"the dial is still set for the {once}")
    k.note("dial spent", once.endswith(" only"))
    if light := k.notes.pop("light", None):
        k.fault("weights-off", f"no weights hang under {spoken(light)}, which stay on the bed")
    if k.notes.pop("to fill in", None):
        k.owe("fills", "that the empty needles take up loops is not said")
    k.note("dial unused", None)
    rows = k.notes.pop("dial rows", None)
    if rows and said["rows"] != rows:
        k.fault("rows", f"the setting is for {rows} rows")
    foreign = k.bed.feeder in FOREIGN
    try:
        k.bed.knit(said["rows"], said["rc"])
    finally:
        k.note("started", start)
        if said.get("side") and said["side"] != k.bed.carriage:
            k.fault("side", f"the carriage is on the {k.bed.carriage}")
    need(not foreign, "yarn", f"the {k.bed.feeder} is in the feeder")


@act("knit", "knit_picot")
def knit(k: Knitter, said: dict) -> None:
    k.note("fold ready", None)
    need("over all" not in k.sentence or not k.bed.main.held(), "held", "some stitches are held")
    knit_rows(k, said)
    closed = any(act in ("mitre_close", "mitre_open") for act, _ in k.log)
    need("mitre's" not in k.sentence or ("first pair" in k.sentence) != closed, "mitre",
         "the first pair is called so, and no other")
    if "last decreases" in k.sentence:
        before = k.bed.rows - said["rows"]
        need(any(one[0] == before and one[2] == "decrease" for one in k.edges), "out-of-place",
             "nothing was decreased just now")
        need(("plain" in k.sentence) == bool(k.notes.get("chart")), "chart",
             "this row is plain, whatever the chart shows")


@act("knit_loose")
def knit_loose(k: Knitter, said: dict) -> None:
    need(k.notes.get("dialled") in ("fold row only", "last row only"), "dial",
         "the dial was not opened for it")
    counted_row(said)
    knit_rows(k, said)
    k.note("dialled", "")


def counted_row(said: dict) -> None:
    """One row is one row."""
    need(said["rows"] == 1, "rows", "it is one row")


@act("knit_fold")
def knit_fold(k: Knitter, said: dict) -> None:
    need(k.notes.get("face") == "knit", "fold", "the work was not turned for it")
    counted_row(said)
    knit_rows(k, said)


@act("knit_body")
def knit_body(k: Knitter, said: dict) -> None:
    need(k.notes.get("dialled") in ("first row", ""), "dial", "it was not set for the first row")
    counted_row(said)
    was, k.bed.weights = k.bed.weights, True  # the garment hangs from the needles already
    knit_rows(k, said)
    k.bed.weights = was
    need(not was, "weights-on", "weights hang before a row holds")


@act("knit_join")
def knit_join(k: Knitter, said: dict) -> None:
    need(k.notes.get("dialled") == "joining row only", "dial", "the dial was not set for it")
    need(k.notes.get("hung") and said["words"] in ("hem", "rib"), "hem", "no hem is hung")
    plain = str(k.notes.get("plain rows", "hem"))
    need("hem" in plain or "rib" in plain, "chart", "every row, so also those of the hem, was said "
         "to be knitted from the chart")
    doubled = [s for s in k.bed.main.full() if len(k.bed.main.loops[s]) > 1]
    counted_row(said)
    was, k.bed.weights = k.bed.weights, True  # the hem holds itself: weights come after the row
    knit_rows(k, said)
    k.bed.weights = was
    need(doubled, "hem", "no needle holds two loops to join")
    need(not was, "weights-on", "the weights still hang")
    k.note("joined")
    # Both layers have as many rows, and a fold without picots one between them.
    k.note("hem rows", (k.bed.done[-1][3] - 1) // 2 + 1)


@act("knit_of")
def knit_of(k: Knitter, said: dict) -> None:
    need(k.bed.feeder == said["yarn"], "yarn", f"in the feeder is {k.bed.feeder or 'no yarn'}")
    if said["yarn"] == "ravel cord":
        counted_row({"rows": said["rows"]})
        k.bed.cord = len(k.bed.main.full())
        k.note("cord row", k.bed.main.full()[-1] - k.bed.main.full()[0] + 1)
    else:
        need(said["rows"] >= 6, "rows", "waste yarn of fewer than 6 rows runs")
        k.waste_rows.append(said["rows"])
    k.note("dial unused", None)
    k.bed.knit(said["rows"], said["rc"])


@act("knit_before_calm")
def knit_before_calm(k: Knitter, said: dict) -> None:
    """Nothing is tucked or slipped in the row before held stitches go back, or all are worked."""
    need(k.notes.get("chart"), "chart", "no stitch pattern is printed for this piece")
    need(said["rows"] == 1, "rows", "more rows than one are plain")
    knit_rows(k, said)


@act("knit_but_last")
def knit_but_last(k: Knitter, said: dict) -> None:
    """The last row alone is plain, though the chart tucks or slips in it."""
    need(k.notes.get("chart"), "chart", "no stitch pattern is printed for this piece")
    need(said["n"] == 1, "rows", "more rows than one are plain")
    knit_rows(k, {**said, "rows": said["rows"] + 1})


@act("knit_chart")
def knit_chart(k: Knitter, said: dict) -> None:
    need(k.notes.get("chart"), "chart", "no stitch pattern is printed for this piece")
    knit_rows(k, said)


@act("knit_part", "knit_first_part", "knit_every")
def knit_part(k: Knitter, said: dict) -> None:
    part = said.get("n") or (1 if "first" in k.sentence else None)
    if "all parts" in k.sentence:
        need(not k.bed.main.held(), "held", "parts are still held")
    else:
        need(k.bed.main.held(), "held", "no part is held")
        need(part == k.notes.get("part at work", 1), "part",
             f"in work is part {k.notes.get('part at work', 1)}")
        need(said["rows"] == k.notes.get("slit rows"), "rows",
             f"the slits are {k.notes.get('slit rows')} rows long")
    knit_rows(k, said)


@act("fills")
def fills(k: Knitter, said: dict) -> None:
    k.owed.pop("fills", None)
    need(k.last in ("knit", "knit_picot") and k.notes.pop("emptied", None), "out-of-place",
         "no needle is empty")


@act("repeats", "repeat_part")
def repeats(k: Knitter, said: dict) -> None:
    chart = k.notes.get("chart")
    need(chart, "chart", "no stitch pattern is printed for this piece")
    first, last = said["n"], said["n2"]
    times = said.get("n3", 1)
    start = k.bed.counter
    need(first == 1 and last <= chart.rows and (last == chart.rows or "n3" not in said), "chart",
         f"a repeat has rows 1 to {chart.rows}")
    k.note("dial unused", None)
    k.note("ends", [(start or 0) + (last - first + 1) * (i + 1) for i in range(times)])
    k.bed.knit((last - first + 1) * times, said["rc"])


@act("repeat_length")
def repeat_length(k: Knitter, said: dict) -> None:
    chart = k.notes["chart"]
    need(said["rows"] == chart.rows, "chart", f"a repeat has {chart.rows} rows")
    ends = k.notes.get("ends", [chart.rows])
    need(said["rc"] == ends[0] - chart.rows, "counter", f"it begins at {ends[0] - chart.rows}")


@act("repeat_ends")
def repeat_ends(k: Knitter, said: dict) -> None:
    need(said["numbers"] == k.notes.get("ends"), "repeats",
         f"the repeats end at {k.notes.get('ends')}")
