"""The order of work at the head of a page: what it lists is what the page has, in that order."""

from __future__ import annotations

import re

from tests.reader.bed import need
from tests.reader.garment_parts import attempt
from tests.reader.page_parts import Group, Reading
from tests.reader.visible import Step

SIDES = ("Left and right are yours as you face the machine. Needles are counted from the centre of "
         "the bed: L1, L2 to the left, R1, R2 to the right. The purl side of the fabric faces you.")
BESIDE = re.compile(r".*, buttons")  # a section within that of the band whose buttons they are
SEWN = re.compile(r"(?:Sew|Join|Graft|Set in|Back-stitch|Close|Draw) ")
WORK = re.compile(r"Making up(?:, steps? .*)?|.*, (?:zip|cord|elastic)(?:, .*)?")


def order_of_work(reading: Reading) -> None:
    """Every part of the work is listed once where it stands, with its stitches and its steps."""
    group = reading.group("Order of work")
    need(group, "order", "the page has no order of work")
    assert group is not None
    listed = [step for part in group.parts for step in part.steps]
    knitted = {k.title: k for k in reading.knitters}
    parts = [one for one in reading.groups if one.title in knitted or (
        WORK.fullmatch(one.title) and not BESIDE.fullmatch(one.title))]
    named = [step.blocks[0].text for step in listed if step.blocks]
    attempt(reading, group.title, ", ".join(named), need, named == [p.title for p in parts],
            "order", f"the page has {[p.title for p in parts]}")
    for step in listed:
        attempt(reading, group.title, step.blocks[0].text, need, len(step.blocks) > 1, "order",
                "what is done there is not listed")
    done = [what for step in listed if step.blocks[0].text.startswith("Making up")
            for what in step.blocks[-1].text.split(", ")]
    attempt(reading, group.title, ", ".join(done), need, len(set(done)) == len(done), "order",
            "one thing is listed twice")
    for step, part in zip(listed, parts, strict=False):
        sewn = [one for each in part.parts for one in each.steps
                if one.blocks and SEWN.match(one.blocks[0].text)]
        if part.title.startswith("Making up") and sewn:
            attempt(reading, group.title, step.blocks[-1].text, need,
                    SEWN.search(step.blocks[-1].text.capitalize()) or any(
                        SEWN.match(one.capitalize()) for one in step.blocks[-1].text.split(", ")),
                    "order", "what is sewn is not listed")
        if re.fullmatch(r"\d+ steps?", step.blocks[-1].text):
            attempt(reading, group.title, step.blocks[-1].text, need, int(
                step.blocks[-1].text.split(" ")[0]) == sum(len(one.steps) for one in part.parts),
                "order", "it has other steps")
        if k := knitted.get(part.title):
            attempt(reading, group.title, step.blocks[-1].text, counted, step, part, k.head[0])
    said = [block.text for part in group.parts for block in part.blocks if block.kind == "p"]
    attempt(reading, group.title, " ".join(said), need, said and said[0].startswith(SIDES),
            "sides", "how left and right are meant is not said as it is")


def counted(step: Step, part: Group, stitches: int) -> None:
    """The line of one piece or band: its first stitches, its steps, how often."""
    found = re.fullmatch(r"(\d+) stitch(?:es)?, (\d+) steps?( each)?", step.blocks[-1].text)
    need(found, "order", "this cannot be read")
    steps = sum(len(one.steps) for one in part.parts)
    need(int(found[1]) == stitches, "order", f"it has {stitches} stitches")  # type: ignore[index]
    need(int(found[2]) == steps, "order", f"it has {steps} steps")  # type: ignore[index]
    several = re.search(r", (?:knitted|worked) ", part.title) is not None
    need(bool(found[3]) == several, "order", "it is worked once, or several times")  # type: ignore
