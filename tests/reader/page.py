"""Reads a whole page: knits its pieces and bands, then holds the rest to what was knitted."""

from __future__ import annotations

import re
from collections.abc import Iterator

from tests.reader import (
    acts_bands,
    acts_beds,
    acts_crowns,
    acts_finish,
    acts_heads,
    acts_hold,
    acts_holes,
    acts_intervals,
    acts_lengthwise,
    acts_marks,
    acts_moves,
    acts_off,
    acts_rows,
    acts_seams,
    acts_shape,
    acts_slits,
    acts_weights,
    acts_yarns,
    charts,
    checks,
    garment,
    grammar,
    hanging,
)
from tests.reader.bed import HOLD, UPPER, WORK, Bed, need
from tests.reader.knitter import Knitter
from tests.reader.needles import spoken
from tests.reader.page_parts import Group, Reading
from tests.reader.visible import Block, Section, Step, sections

ACTS_OF = (acts_bands, acts_beds, acts_crowns, acts_finish, acts_hold, acts_holes, acts_intervals,
           acts_lengthwise, acts_marks, acts_moves, acts_off, acts_rows, acts_seams,
           acts_shape, acts_slits, acts_weights, acts_yarns, checks)
# What a piece or band must tell somewhere, where one of these is told.
AT_THE_END = {
    "head": ("begin",), "begin": ("bring", "bring_shown", "bring_main"),
    "others_out": ("bring", "bring_shown"),
    "darn": ("hang_edge", "hang_section", "hang_over", "hang_section_over", "sew_band"),
    "sew_band": ("sewn_side",), "sewn_side": ("head_rows",), "sew_lengths": ("sew_band",),
    "caution_in": ("fold_around", "mark_edge", "slit_threads", "loops_tie", "clips", "tie_row",
                   "tie_button"),
    "weights_on": ("cast_on", "hang_edge", "hang_section"),
    "shut": ("fold_around", "fold_inside"), "half_why": ("half_loop",),
    "mark_edge": ("take",), "edge_hangs": ("hang_edge", "hang_section"),
    "edge_lies": ("hang_over", "hang_section_over"), "cloth": ("edge_lies",),
    "latches": ("knit_join",), "cord_out": ("knit_join",), "clips": ("by_hand",),
    "fold_layer": ("hole_edges",), "transfer_tool": ("hang_edge", "hang_section"),
    "hang_takes": ("hang_from",), "mitre_pin": ("mitre_left",),
    "waiting_out": ("from_waste", "from_strip"), "slit_sew": ("slit_parts",),
}
ALIKE = {"take_there": "begin",
         "head_band": "head", "head_rows": "head", "open_ends": "shut", "sew_shut_one": "shut",
         "take_listed": "take", "take_rule": "take", "take_short": "take",
         "take_twice": "take", "comb_weights": "weights_on", "bring_shown": "bring",
         "hang_section_over": "hang_over"}
NOT_KNITTED = ("Cautions", "Schematic", "Tools and materials", "Gauge",
               "How the shaping is worked", "How edges begin and end", "Calculations",
               "Order of work", "Finished measures", "")


# It is parted where bands are worked, and its steps are numbered through.
MAKING_UP = re.compile(r"Making up(?:, steps? (\d+)(?: to (\d+))?)?")


def grouped(parts: list[Section]) -> list[Group]:
    """The groups of a page, the one before the first heading of the second level too."""
    out = [Group("", [])]
    for part in parts:
        if part.level == 2:
            out.append(Group(part.title, []))
        out[-1].parts.append(part)
    return out


def is_knitted(group: Group) -> bool:
    """Whether a group has steps at the machine."""
    return (group.title not in NOT_KNITTED and any(part.steps for part in group.parts)
            and not group.title.endswith((", buttons", ", cord", ", zip"))
            and not MAKING_UP.fullmatch(group.title))


def knit(group: Group, explained: set[str] | None = None) -> Knitter:
    """Knit a group from its head to its last step; what the page has `explained` before holds."""
    k = Knitter(group.title, Bed(), explained=set() if explained is None else explained)
    number = 0
    for part in group.parts:
        k.part = part.title
        for block in part.blocks:
            k.step, k.sentence = Step(number, [block]), block.text
            k.attempt(lambda block=block, part=part: beside(k, part, block))
        drawn = [b for b in part.blocks if b.kind == "drawn"]
        if drawn and part.title.startswith("Stitch pattern"):
            k.sentence = "the drawing of the stitch pattern"
            k.attempt(lambda drawn=drawn: charts.drawing(k, drawn))
        elif drawn:
            k.sentence = "the drawing of the band"
            k.attempt(lambda drawn=drawn: acts_heads.flat_drawing(k, drawn))
        if part.title.startswith("Stitch pattern") and "chart" in k.notes and not part.steps:
            lines = [b for b in part.blocks if b.kind == "li"]
            k.attempt(lambda lines=lines: charts.chart_rows(k, lines))
            k.attempt(lambda: charts.contrast_rows(k))
        hanging_tables(k, part)
        sewing_tables(k, part)
        for told in part.steps:
            number += 1
            step = told
            if all(block.kind == "li" for block in told.blocks):
                step = Step(told.number, [Block("p", block.text) for block in told.blocks])
            if step.number != number:
                k.fault("numbering", f"step {step.number} comes where {number} would")
                number = step.number
            k.do(step)
    k.step, k.sentence = Step(number), ""
    k.attempt(lambda: finished(k))
    return k


def beside(k: Knitter, part: Section, block: Block) -> None:
    """A block beside the steps: the head, what stands under a drawing, a stitch pattern."""
    if block.kind in ("drawn", "key", "row", "summary"):
        return
    if part.title.startswith(("Hanging table", "Sewing table")):
        return
    if block.kind == "li" and re.match(r"Rows? \d", block.text):
        return
    k._follow([Block("p", block.text)])


def hanging_tables(k: Knitter, part: Section) -> None:
    """The hanging tables of a part, each after the words that announce it."""
    if not part.title.startswith("Hanging table"):
        return
    rows: list[Block] = []
    listed = False
    for block in [*part.blocks, Block("end", "")]:
        if block.kind == "row":
            rows.append(block)
            continue
        if rows:
            k.step = Step(0, rows)
            k.attempt(lambda rows=rows: hanging.table(k, rows))
            rows = []
        k.sentence = block.text
        if block.kind == "summary":
            listed = True
        elif block.kind == "p" and listed:
            k.attempt(lambda block=block: hanging.every_needle(k, block.text))
            listed = False
        elif block.kind == "p":
            k._follow([block])
    k.attempt(lambda: all_hung(k))
    k.attempt(lambda: hanging.corners_closed(k))


def sewing_tables(k: Knitter, part: Section) -> None:
    """The table of a band that is sewn on, with the words that announce it."""
    if not part.title.startswith("Sewing table"):
        return
    for block in part.blocks:
        if block.kind == "p":
            k.sentence = block.text
            k._follow([block])
    rows = [block for block in part.blocks if block.kind == "row"]
    k.step = Step(0, rows)
    k.attempt(lambda: acts_lengthwise.sewing_table(k, rows))
    k.expects = None


def all_hung(k: Knitter) -> None:
    """Every section that the steps hang is in the table."""
    told = k.notes.get("sections told")
    if told is not None:
        need(told == [number for number, _, _ in k.sections], "section",
             f"the table tells sections {told}")
    need(told is None or k.notes.get("corners told", 0) == len(k.corners), "corners",
         f"the steps lift {len(k.corners)} loops of corners")
    for number, spots in k.taken_off.items():
        need(told is None or k.in_table.get(number) == spots, "seams",
             f"the steps hang {len(spots)} waiting stitches in section {number}, the table "
             f"{len(k.in_table.get(number, ()))}")


def flipped(text: str) -> str:
    """A text with left and right changed for each other."""
    return re.sub(r"\b(left|right)\b", lambda m: "right" if m[1] == "left" else "left", text)


def as_drawn(k: Knitter) -> None:
    """A band is knitted as its drawing has it: the gaps between holes, the rows of its layers."""
    gaps, flat = k.notes.get("gaps"), k.notes.get("flat holes")
    if gaps and flat:
        end = k.notes.get("end told", ("", "left"))[1]  # type: ignore[index]
        mine = gaps if end == "left" else gaps[::-1]  # type: ignore[index]
        need(mine == flat, "drawing", f"the steps leave gaps of {mine}")
    rows = k.notes.get("flat rows")
    if rows and "parts" not in k.notes:
        knitted = sum(said["rows"] for act, said in k.log if act.startswith("knit") and act not in (
            "knit_of", "knit_loose", "knit_fold", "knit_join"))
        need(sum(rows) == knitted, "drawing",  # type: ignore[call-overload]
             f"the steps knit {knitted} rows besides the fold's")


def finished(k: Knitter) -> None:
    """At the end of a piece or band nothing is left on the bed."""
    full = k.bed.main.full()
    acts_weights.moved_up(k)
    if full:
        k.fault("left-on", f"{spoken(full)[:60]} still hold stitches")
    if k.bed.feeder:
        k.fault("feeder-left", f"the {k.bed.feeder} is still in the feeder")
    if k.bed.holds and "cast on" in k.notes:
        k.fault("levers", "the carriage is still set to hold")
    if k.notes.get("contrast") == "in work" and "in rows" in k.notes:
        k.fault("contrast", "the contrast yarn is never cut")
    if "in rows" in k.notes and "two yarns" not in k.notes:
        k.fault("levers", "the carriage is never set to knit two yarns in a row")
    if k.bed.second:
        k.fault("second-bed", "the second bed is still up")
    if k.rows_below and k.depths and set(k.rows_below) != set(k.depths):
        k.fault("depth", f"beside the rows one goes in {k.depths} stitches")
    if k.notes.get("needs table") and not k.tables:
        k.fault("table-missing", "the hanging table is not there")
    if k.notes.get("loop open"):
        k.fault("loop-open", "the last loop is never closed")
    if not k.sections:
        still = k.bed.main.standing(WORK, UPPER, HOLD)
        if still and "cast on" in k.notes:
            k.fault("not-pushed", f"{spoken(still)[:60]} are left in work")
    k.attempt(lambda: as_drawn(k))
    k.attempt(lambda: acts_heads.back_for_next(k))
    if k.notes.get("dial unused"):
        k.fault("dial", f"no row is knitted at {k.notes['dial unused']}")
    if k.dials and k.dials[-1][0] == "first row":
        k.fault("dial", "it is set for the first row, and for no row after it")
    sides = {label for label in k.waiting if re.search(r"\b(?:left|right)\b", label)}
    paired = re.search("left|right", k.title.lower())
    if {flipped(label) for label in sides} != sides and not paired:
        k.fault("waiting", f"left and right do not both wait: {sorted(sides)}")
    if sides and any("shoulder" in label for label in set(k.waiting) - sides):
        k.fault("waiting", f"a shoulder waits without its side: {sorted(k.waiting)}")
    acts = {ALIKE.get(act, act) for act, _ in k.log} | k.explained
    owed = [name for name, when in AT_THE_END.items()
            if name not in acts and any(one in acts for one in when)]
    if "left open" in k.notes:  # finished with the part joined to it
        owed = [name for name in owed if name not in ("darn", "mitre_pin")]
    for name in owed:
        k.fault("left-out", f"{name} is told nowhere, though {AT_THE_END[name]}")
    head = k.notes.get("head")
    low, high = k.bed.main.span
    if head and high - low + 1 > len(head[1]) and not k.sections and not k.notes.get("widest"):
        k.fault("left-out", f"nothing says that it takes {high - low + 1} needles at its widest")
    if "knitted" in k.title and "times" not in k.notes:
        k.fault("left-out", "nothing says how often it is knitted")


def in_place(reading: Reading, groups: list[Group]) -> None:
    """Each part of the making up is called by its steps; a band stands after the step that tells
    to work it, and before the next one."""
    told = ""
    for group in groups:
        if match := MAKING_UP.fullmatch(group.title):
            steps = [step for part in group.parts for step in part.steps]
            told = steps[-1].blocks[0].text.lower() if steps else ""
            named = [int(n) for n in match.groups() if n]
            if named and named != sorted({steps[0].number, steps[-1].number}):
                reading.fault("numbering", group.title, "", "its steps have other numbers")
        elif told and any(k.title == group.title and k.sections for k in reading.knitters):
            band = group.title.split(",")[0].lower()
            if not re.search(rf"\bwork the\b.*\b{re.escape(band)}", told):
                reading.fault("order", group.title, told, "no step before it tells to work it")


def read(source: str) -> Reading:
    """Read a page and everything on it."""
    return read_parts(sections(source))


def read_parts(parts: list[Section]) -> Reading:
    """Read a page from its sections."""
    reading = begun(parts)
    with grammar.noting() as reading.met:
        for _ in knit_all(reading, reading.groups):
            pass
    return reading


def is_refused(parts: list[Section]) -> bool:
    """Whether something on a page is wrong: it is read no further than to the first fault."""
    reading = begun(parts)
    return any(reading.faults for _ in knit_all(reading, reading.groups))


def begun(parts: list[Section]) -> Reading:
    """A page of which nothing is read but its title."""
    title = next((part.title for part in parts if part.level == 1), "")
    return Reading(title, grouped(parts))


def knit_all(reading: Reading, groups: list[Group]) -> Iterator[None]:
    """Knit every part of a page, and hold the page to what was knitted; stop after each part."""
    explained: set[str] = set()
    for group in groups:
        if is_knitted(group):
            k = knit(group, explained)
            reading.knitters.append(k)
            reading.faults += k.faults
        elif group.title.endswith((", cord", ", zip")):
            reading.faults += knit(group).faults
        yield
    making = [group for group in groups if MAKING_UP.fullmatch(group.title)]
    if making:
        reading.making_up = knit(Group("Making up", [part for g in making for part in g.parts]))
        reading.faults += reading.making_up.faults
    in_place(reading, groups)
    yield
    for _ in garment.whole(reading):
        yield
