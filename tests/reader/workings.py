"""The workings of the counts, done again."""

from __future__ import annotations

import re
from collections import defaultdict

from tests.reader import counted
from tests.reader.facts import pairs_of
from tests.reader.garment_parts import attempt
from tests.reader.page_parts import Group, Reading

LABEL = re.compile(r"(.*?)(?:, |: )[−\d]")
LENGTH = re.compile(r"\d+(?:\.\d+)? cm \(\S+ in\)")


def measures_worked(reading: Reading) -> None:
    """Every finished measure has its calculation, under its own name and with the same figure."""
    told, title = set(), ""
    for block in (reading.group("Calculations") or Group("", [])).blocks():
        if block.kind == "summary":
            title = block.text.removesuffix(": all its counts")
            told.add(title.lower())
        elif " = " in block.text:
            name = block.text.rpartition(": ")[0]
            told |= {name.lower(), f"{title}: {name}".lower()}
    for label, text in pairs_of(reading.group("Finished measures")).items():
        whose, of_band, what = label.rpartition(", finished ")
        if label.startswith(("Fits ", "Ease, ")) or not LENGTH.fullmatch(text):
            continue
        names = {f"{whose}: finished {what}: {text}", f"finished {what}: {text}"} if of_band else {
            f"{label}, {text}"}
        if not {name.lower() for name in names} & told:
            reading.fault("working", "Finished measures", label, f"nothing comes to {text}")


def names_valued(reading: Reading) -> None:
    """What a sum adds or multiplies stands with its value, under a name of plain words; what is
    halved has its number."""
    for block in (reading.group("Calculations") or Group("", [])).blocks():
        for name in re.findall(r"\b[a-z]+(?:_[a-z]+)+\b", block.text):
            reading.fault("working", "Calculations", block.text, f"{name} is no word")
        for part in block.text.split(" = ")[:-1]:
            for name in re.split(r" [×÷+−/] ", part.rpartition(": ")[2])[1:]:
                if not re.search(r"\d", name):
                    reading.fault("working", "Calculations", block.text, f"what is {name} here?")
        if without := re.search(r"\bhalf of (?:stitches|rows) of [a-z ]+", block.text):
            reading.fault("working", "Calculations", block.text, f"{without[0]}: of how many?")


# What stands in a sum without its name: a cap's ease as what is asked for, panels as their number.
UNNAMED = ("cap ease", "panels")


def measures_used(reading: Reading) -> None:
    """Every measure that is listed stands with its value in a sum: no crown that nothing needs."""
    blocks = [b.text for b in (reading.group("Calculations") or Group("", [])).blocks()]
    for text in blocks:
        own = re.match(r"[A-Z][a-z ]+, \S+(?: cm)?(?: \(\S+ in\))?: ([a-z ]+) = ", text)
        if own and own[1] not in UNNAMED and not any(
                re.search(rf"(?:^|[(:;,×÷+−/=] ?){own[1]} −?\d", other) for other in blocks
                if other != text):
            reading.fault("measure", "Calculations", text, "nothing is counted from it")


def labels_alike(reading: Reading) -> None:
    """A label stands for one thing: once in its group, and never for a measure and for a count."""
    title, told = "", defaultdict(set)
    for block in (reading.group("Calculations") or Group("", [])).blocks():
        if block.kind == "summary":
            title = block.text
        elif (label := LABEL.match(block.text)) and title:
            groups = told[label[1].lower()]
            if title in groups or (groups and "Measures" in (title + next(iter(groups)))):
                reading.fault("label", "Calculations", block.text, f"{label[1]} stands twice")
            groups.add(title)


def workings(reading: Reading) -> None:
    """Every working done again, and its label held to what was knitted."""
    group = reading.group("Calculations")
    if not group:
        return
    title = ""
    knitted = {k.title.split(",")[0]: k for k in reading.knitters}
    for block in group.blocks():
        if block.kind == "summary":
            title = block.text
        text = f"{title}: {block.text}" if block.kind == "p" and title else block.text
        if block.kind in ("li", "p"):
            attempt(reading, group.title, text, counted.working, text)
            cast = re.match(r"(Cast on|Stitches above the rib), (\d+) stitches: ", block.text)
            k = knitted.get(title.removesuffix(": all its counts"))
            if cast and k and k.head[0] != int(cast[2]):
                reading.fault("working", group.title, block.text,
                              f"{k.title} begins with {k.head[0]}")
            if cast and k and cast[1] == "Cast on" and k.notes.get("ribbed"):
                reading.fault("working", group.title, block.text, "fewer are cast on for a rib")
