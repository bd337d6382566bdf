"""Reads a whole page: knits its pieces and bands, then holds the rest to what was knitted."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field

from tests.reader import (
    acts_bands,
    acts_beds,
    acts_finish,
    acts_heads,
    acts_off,
    acts_rows,
    acts_shape,
    checks,
    hanging,
)
from tests.reader.bed import Bed, need
from tests.reader.knitter import Fault, Knitter
from tests.reader.needles import spoken
from tests.reader.visible import Block, Section, Step, sections

ACTS_OF = (acts_bands, acts_beds, acts_finish, acts_off, acts_rows, acts_shape, checks)
NOT_KNITTED = ("Cautions", "Measures of the pieces", "Tools and materials", "Gauge",
               "How the shaping is worked", "How edges begin and end", "How it was counted", "")


@dataclass(slots=True)
class Group:
    """A section of the second level with the parts under it."""

    title: str
    parts: list[Section]

    def blocks(self) -> Iterator[Block]:
        """Every block of its parts, steps left out."""
        for part in self.parts:
            yield from part.blocks


@dataclass(slots=True)
class Reading:
    """A page as it was read: its groups, who knitted what, and everything found wrong."""

    title: str
    groups: list[Group]
    knitters: list[Knitter] = field(default_factory=list)
    faults: list[Fault] = field(default_factory=list)

    def group(self, title: str) -> Group | None:
        """The group with this title, if the page has it."""
        return next((one for one in self.groups if one.title == title), None)

    def fault(self, kind: str, section: str, words: str, message: str) -> None:
        """Put down what is wrong outside the steps."""
        self.faults.append(Fault(kind, section, 0, words, message))


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
            and not group.title.endswith((", buttons", ", cord", ", zip", "Making up")))


def knit(group: Group) -> Knitter:
    """Knit a group from its head to its last step."""
    k = Knitter(group.title, Bed())
    number = 0
    for part in group.parts:
        k.part = part.title
        for block in part.blocks:
            k.step, k.sentence = Step(number, [block]), block.text
            k.attempt(lambda block=block, part=part: beside(k, part, block))
        rows = [b for b in part.blocks if b.kind == "row"]
        del rows
        if part.title.startswith("Stitch pattern") and "chart" in k.notes and not part.steps:
            lines = [b for b in part.blocks if b.kind == "li"]
            acts_heads.chart_rows(k, lines)
            k.attempt(lambda: acts_heads.contrast_rows(k))
        hanging_tables(k, part)
        for step in part.steps:
            number += 1
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
    if part.title.startswith("Hanging table"):
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


def all_hung(k: Knitter) -> None:
    """Every section that the steps hang is in the table."""
    told = k.notes.get("sections told")
    if told is not None:
        need(told == [number for number, _, _ in k.sections], "section",
             f"the table tells sections {told}")


def finished(k: Knitter) -> None:
    """At the end of a piece or band nothing is left on the bed."""
    full = k.bed.main.full()
    if full:
        k.fault("left-on", f"{spoken(full)[:60]} still hold stitches")
    if k.bed.feeder:
        k.fault("feeder-left", f"the {k.bed.feeder} is still in the feeder")
    if k.bed.cord:
        k.fault("cord-left", "the ravel cord is still in the work")
    if k.notes.get("contrast") == "in work" and "in rows" in k.notes:
        k.fault("contrast", "the contrast yarn is never cut")
    if k.bed.second:
        k.fault("second-bed", "the second bed is still up")
    if k.notes.get("needs table") and not k.tables:
        k.fault("table-missing", "the hanging table is not there")
    if k.notes.get("loop open"):
        k.fault("loop-open", "the last loop is never closed")


def read(source: str) -> Reading:
    """Read a page and everything on it."""
    parts = sections(source)
    groups = grouped(parts)
    title = next((part.title for part in parts if part.level == 1), "")
    reading = Reading(title, groups)
    for group in groups:
        if is_knitted(group):
            k = knit(group)
            reading.knitters.append(k)
            reading.faults += k.faults
    return reading
