"""The making up: each join stands under the step that sews it, and what is named was knitted."""

from __future__ import annotations

import re

from tests.reader.acts_seams import seams_told
from tests.reader.bed import need
from tests.reader.garment_parts import attempt
from tests.reader.knitter import Knitter
from tests.reader.page_parts import Reading
from tests.reader.visible import Step

# A seam that is sewn, and not merely named: "right sides together" is no side seam.
SEWN = r"\b(?:[Ss]ew|[Ss]et in)\b[^.]*"
SEAM = re.compile(r"(side|sleeve|back) seam\b")
_EDGE = r"(?:left|right|upper|lower) [a-z0-9 ]+ of (?:the|each) [a-z0-9 ]+"
DECLARED = re.compile(f"{_EDGE} to {_EDGE}")  # edges that a source joins
BODY = ("Back", "Right front", "Left front")


def seams_sewn(reading: Reading) -> None:
    """A seam's rows stand under the step that sews it, after all that needs the sides open."""
    making = reading.making_up
    for number, text in making.joins if making else ():
        if text.startswith("Panel to panel"):
            here = " ".join(words for step, words, _ in making.seams if step == number)
            attempt(reading, f"Making up, step {number}", text, need, "Sew the panels" in here,
                    "join", "the panels are not sewn in this step")
        name = text.partition(": ")[0].lower()
        if DECLARED.fullmatch(name):
            here = " ".join(words for step, words, _ in making.seams if step == number)
            attempt(reading, f"Making up, step {number}", text, need,
                    f"sew the {name.replace(' to ', ' to the ')}" in here.lower(), "join",
                    "these edges are not sewn in this step")
        if found := SEAM.match(text.lower()):
            attempt(reading, f"Making up, step {number}", text, sewn_here, making, number, found[1])


def tops_before_sides(reading: Reading) -> None:
    """Sleeve tops are sewn in a step before that of the sides: a step has one kind of seam, and
    where a sleeve meets a side that is sewn its edge is no longer flat (common practice)."""
    making = reading.making_up
    lines = making.joins if making else ()
    tops = [step for step, text in lines if text.startswith(("Sleeve top", "Sleeve cap"))]
    sides = [step for step, text in lines if text.startswith(("Side seam", "Sleeve seam"))]
    attempt(reading, "Making up", "the sleeve tops", need,
            not tops or not sides or max(tops) < min(sides), "order",
            f"they are sewn in {tops}, the sides in {sides}")


# A seam that a step sews, and what the line of its figures begins with.
FIGURED = {r"\band sleeve seam": "Sleeve seam", r"\bunderarm stitches\b": "Underarm"}


def figures_of_seams(reading: Reading) -> None:
    """What is sewn has its rows or stitches."""
    making = reading.making_up
    for words, begins in FIGURED.items() if making else ():
        sewn = any(re.search(words, sentence) for _, sentence, _ in making.seams)
        attempt(reading, "Making up", begins, need, not sewn or any(
            line.startswith(begins) for _, line in making.joins), "join",
                "it is sewn, and its rows or stitches are not said")


def sewn_here(making: Knitter, number: int, which: str) -> None:
    """One seam."""
    here = " ".join(words for step, words, _ in making.seams if step == number)
    need(re.search(rf"{SEWN}\b{which}\b[^.]*\bseams?\b", here), "join",
         f"the {which} seam is not sewn in this step")
    late = [words for step, words, _ in making.seams if step > number
            and re.match(r"Work the (?!.* side is open)|Set in the zip", words)]
    need(not late, "order", f"it is sewn before {late[:1]}")


def underarms(reading: Reading) -> None:
    """Where a sleeve is set in, what its step pins together was knitted on body and sleeve."""
    making = reading.making_up
    for number, words, _ in making.seams if making else ():
        if "middle of the cap" in words or "middle of each cap" in words:
            attempt(reading, f"Making up, step {number}", words, underarm, reading, words)


def underarm(reading: Reading, words: str) -> None:
    """The first that is done at the underarm, by the bed: stitches bound off, or a decrease."""
    sleeve = [k for k in reading.knitters if k.title.startswith("Sleeve")]
    body = [k for k in reading.knitters if k.title.split(",")[0] in (*BODY, "Front")]
    need(sleeve and body, "join", "no sleeve and no body are knitted")
    firsts = {first_off(k) for k in (*sleeve, *body)}
    told = {"bind off"} if "bound-off stitches" in words else (
        {"decrease"} if "first decreases" in words else set())
    need(firsts == told, "join", f"armhole and cap begin with {sorted(firsts)}")


def first_off(k: Knitter) -> str:
    """How the first stitches go at a side of a piece."""
    first = min((e for e in k.edges if e[2] in ("bind off", "decrease")), key=lambda e: e[4])
    return first[2]


def steps_of(reading: Reading, k: Knitter) -> list[Step]:
    """The steps of a piece."""
    group = reading.group(k.title)
    return [step for part in group.parts for step in part.steps] if group else []


TOPS = (", upper edge", ", both short sides")


def tops(reading: Reading) -> None:
    """A top that waits on waste yarn, and is not hung again, is closed with yarn, all of it."""
    hung = [set(words.replace(",", "").split()) for k in reading.knitters
            for words, _ in k.hung_counts if "waiting stitches" in words]
    making = reading.making_up
    closed = [(said["stitches"], words) for _, words, said in (making.seams if making else ())
              if (" top " in words or "both short sides" in words) and "stitches" in said]
    for k in reading.knitters:
        for label, count in k.waiting.items():
            named = set(label.replace(",", "").split())
            if label.endswith(TOPS) and not any(named <= words for words in hung):
                attempt(reading, "Making up", label, need, any(
                    stitches == count and ("of yarn" in words or ("that was left" in words and any(
                        "sewn off with this end" in str(step.blocks) for step in steps_of(
                            reading, k)))) for stitches, words in closed), "left-out",
                    f"nothing closes the {count} stitches that wait as {label!r}, with yarn for it")


RISES = re.compile(r"Rows of the front edge: \d+ rows: (\d+) rows above the (?:hem|rib)")


def feet_of_v(reading: Reading) -> None:
    """Ends that meet at the foot of a V: at which row of the front, as many as its band was hung
    on above the hem."""
    making, calculated = reading.making_up, reading.group("Calculations")
    if making is None or calculated is None:
        return
    rows = {int(found[1]) for block in calculated.blocks() if (found := RISES.match(block.text))}
    sewn = any(words.startswith("Sew each end of") for _, words, _ in making.seams)
    told = making.notes.get("foot of the V")
    attempt(reading, "Making up", "the foot of the V", need, sewn == (told is not None), "left-out",
            "the row of the front where ends meet is not said")
    attempt(reading, "Making up", f"row counter {told}", need, told is None or rows <= {told},
            "count", f"the front's edge has {rows} rows above its hem")


def checks(reading: Reading) -> None:
    """All of it."""
    feet_of_v(reading)
    tops(reading)
    seams_sewn(reading)
    tops_before_sides(reading)
    figures_of_seams(reading)
    underarms(reading)
    seams_told(reading)
