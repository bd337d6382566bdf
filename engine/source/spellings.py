"""Readers of values with a spelling of their own: remarks, repeats of needles, distances, zips."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction
from itertools import groupby
from typing import Any, TypeVar

from ..core.codes import REMARK_CODES
from ..core.colours import NAMED, read_colour
from ..core.problems import Severity, note
from ..core.ranges import BEDS, BODY
from ..core.text import clip, nearest
from ..core.units import Length, PlyOrder, UnitError, read_yarn_count
from ..fabric.arrangement import read_repeat
from ..machine.records import dataclass
from ..pattern.fabrics import Repeat
from ..pattern.holes import Distance
from ..pattern.publishing import ReaderChange
from ..pattern.specs import ZipSpec
from ..sizing.printed_figures import MM_IN, read_span
from .source import Listing, Scalar
from .values import Entry, Fault, Figure, Text, length, listing_like, share, whole_number

T = TypeVar("T")
MOST_OUT = 2  # needles side by side out of work: each is filled from a stitch beside it
LARGEST_LENGTH = Length(Fraction(4000))
_CUT = "cut"
_ACCEPTED = re.compile(r"[a-z-]+ [0-9a-f]{8}")
_VERSION = re.compile(r"[0-9]{1,4}(?:\.[0-9]{1,4}){0,2}")
_READER = {"gauge": re.compile(r"gauge(?:\s+within\s+([0-9]{1,9})\s*%)?"),
           "measures": re.compile(r"measures(?:\s+within\s+(\S.{0,20}))?")}
_MAIL = re.compile(r"[A-Za-z0-9.!#$*+/=?^_{|}~-]{1,64}@[A-Za-z0-9-]+(?:\.[A-Za-z0-9-]+)+")
_WEB = re.compile(r"https?://[A-Za-z0-9-]+(?:\.[A-Za-z0-9-]+)+(?:[/?#][A-Za-z0-9/?#.,:=&%+~_-]*)?")
_STITCHES = re.compile(r"(.*\S)\s*(stitch|stitches|st|sts|row|rows)")
_REPEAT = Text(60, "needles in and out of work", "Write it as 2 in 1 out.")
_NEEDLES = whole_number("needles of a bed", "20..300", "10..400", BEDS)
_MIDDLE = length("place of a hole", "-150 cm..150 cm", "-300 cm..300 cm")
_END = length("end of a band", "2 mm..20 cm", "1 mm..100 cm")
_STEP = length("step of zips", "1 cm..30 cm", "1 cm..30 cm")
_STITCHES_AT_END = whole_number("stitches at an end", "1..60", "1..200")
_COUNT = Text(40, "a yarn count such as 2/30 Nm", "Write it as 2/30 Nm.")
YARD_MM = Fraction(9144, 10)
TURNED = " Or write count_order: size/ply or ply/size for the order that you have."
_SHAPED = whole_number("stitches of a step", "1..40", "1..200")
_AT_ONCE = share("share of an armhole bound off", "10 %..60 %", "1 %..90 %")
_EVERY_ROW = whole_number("decreases on every row", "0..30", "0..99")
_PER_CENT = whole_number("per cent of a gauge", "2..30", "1..50")
_BY = length("change of a measure", "1 cm..15 cm", "5 mm..60 cm", example="6 cm")
MOST_STEPS = 40
# Figures within a value that has more in it than a figure.
FIGURES: tuple[Figure[Any], ...] = (_NEEDLES, _MIDDLE, _END,
                                    _STITCHES_AT_END, _STEP, _SHAPED, _AT_ONCE, _EVERY_ROW,
                                    _PER_CENT, _BY)


def even_needles(entry: Entry) -> int:
    """Read how many needles a bed has. Raises Fault for an odd number."""
    needles = _NEEDLES(entry)
    if needles % 2:
        raise Fault("odd-needles", entry.place, f"{needles} needles",
                    "an even number, half on each side of 0",
                    f"Write {needles - 1} or {needles + 1}.")
    return needles


def accepted(entry: Entry) -> str:
    """Read the code and the mark of a remark. Raises Fault for what is none."""
    expected = "the code and the mark of a remark, such as chart-remark 1a2b3c4d"
    text = Text(60, expected, "Copy it from what the check prints.")(entry)
    code = text.partition(" ")[0]
    if not _ACCEPTED.fullmatch(text) or code not in REMARK_CODES:
        raise Fault("bad-accepted", entry.place, f'"{clip(text)}"', expected,
                    "Copy it from what the check prints; only remarks can be accepted.")
    return text


def reader_change(entry: Entry) -> ReaderChange | None:
    """Read what a reader may change. Raises Fault for anything but nothing, gauge and measures."""
    expected = "nothing, gauge within 10 %, measures within 6 cm, or the last two with a comma"
    written = Text(60, expected, "Write what she may change, and how far.")(entry)
    if written == "nothing":
        return None
    parts = [part.strip() for part in written.split(",")]
    found = {name: match[1] for name, spelling in _READER.items() for part in parts
             if (match := spelling.fullmatch(part))}
    if not 0 < len(found) == len(parts):
        raise Fault("unknown-word", entry.place, f'"{clip(written)}"', expected,
                    "Write reader_may_change: gauge within 10 %, measures within 6 cm.")
    def part(name: str, read: Figure[T]) -> T | None:
        text = found.get(name)
        return None if text is None else read(replace(entry, node=Scalar(text, entry.place)))
    return ReaderChange(gauge="gauge" in found, within=part("gauge", _PER_CENT),
                        measures="measures" in found, measures_within=part("measures", _BY))


def version(entry: Entry) -> str:
    """Read a version of one to three numbers with points between. Raises Fault."""
    value = Text(40, "a version such as 1.2.0", "Write numbers with points between.")(entry)
    if _VERSION.fullmatch(value):
        return value
    raise Fault("bad-version", entry.place, f'"{value}"', "a version such as 1.2.0",
                "Write up to three numbers with points between.")


def contact(entry: Entry) -> str:
    """Read a mail address or a link, as the address of a link. Raises Fault for anything else."""
    expected = "a mail address such as wren@example.org, or a link with https://"
    text = Text(160, expected, "Write one of the two.")(entry)
    if _MAIL.fullmatch(text):
        return f"mailto:{text}"
    if _WEB.fullmatch(text):
        return text
    raise Fault("bad-contact", entry.place, f'"{clip(text)}"', expected,
                "Write one address, and no name beside it.")


def colour(entry: Entry) -> str:
    """Read a colour as # and six digits. Raises Fault for what is neither name nor digits."""
    expected = 'a colour such as slategray or "#708090"'
    text = Text(40, expected, "Write it out, # and digits in quotes: without quotes all "
                "behind a # is a remark.")(entry)
    try:
        return read_colour(text)
    except ValueError:
        within = [name for name in NAMED if text.lower().startswith(name)]
        near = max(within, key=len, default=None) or nearest(text, NAMED)
    raise Fault("bad-colour", entry.place, f'"{clip(text)}"', f'"{near}"' if near else expected,
                f"Write {near}." if near else "Write the name of a colour in CSS, or # and six "
                "digits in quotes.")


@dataclass(frozen=True, slots=True)
class NeedleRepeat:
    """A reader of which needles work, over and over, with `edge` stitches at either end."""

    edge: int = 1

    def __call__(self, entry: Entry) -> Repeat:
        """The repeat. Raises Fault for any other text."""
        text = _REPEAT(entry)
        try:
            return read_repeat(text, edge=self.edge)
        except ValueError as fault:
            raise Fault("bad-repeat", entry.place, f'"{clip(text)}"', str(fault),
                        "Begin with the needles in work, end with those out of work.") from None


@dataclass(frozen=True, slots=True)
class CountWritten:
    """The count of one end of a yarn [tex, g/km], and as it is written."""

    tex: Fraction
    written: str


@dataclass(frozen=True, slots=True)
class YarnCount:
    """A reader of a yarn's count, whose two numbers stand in `order` and whose `hank` a pound has
    so many of; as its system has them where they are None."""

    order: PlyOrder | None = None
    hank: Length | None = None

    def __call__(self, entry: Entry) -> CountWritten:
        """The count. Raises Fault for any other text, and for a hank of a count without hanks."""
        text = _COUNT(entry)
        try:
            tex = read_yarn_count(text, self.order, None if self.hank is None else
                                  self.hank.mm / YARD_MM)
        except UnitError as fault:
            turned = "plies of size" in fault.found
            raise Fault("bad-yarn-count", entry.place, fault.found, fault.expected,
                        f"{fault.remedy or 'Check the count.'}"
                        f"{TURNED if turned else ''}") from None
        if self.hank is not None and re.search("tex|den|Nm", text):
            raise Fault("bad-yarn-count", entry.place, f'"{clip(text)}" with a hank',
                        "a count in hanks to the pound, such as 2/30 worsted",
                        "Delete the hank.")
        return CountWritten(tex, text)


def rib_needles(entry: Entry) -> tuple[bool, ...]:
    """Read the repeat of a mock rib. Raises Fault where too many are out side by side."""
    works = NeedleRepeat()(entry).works
    out = max(len(list(run)) for on, run in groupby(works) if not on)
    if out > MOST_OUT:
        raise Fault("bad-repeat", entry.place, f"{out} needles side by side out of work in a rib",
                    f"at most {MOST_OUT}, which are filled from the stitches beside them",
                    "Leave fewer out.")
    return works


def middles(entry: Entry) -> tuple[Length, ...]:
    """Read a list of distances, at least one; below 0 from the upper end. Raises Fault."""
    items = listing_like("distances", "[1.5 cm, 9 cm, -1.5 cm]")(entry).items
    return tuple(_MIDDLE(replace(entry, label=f"{entry.label}.{n}", node=node,
                                 path=f"{entry.path}.{n}", place=node.place))
                 for n, node in enumerate(items))


def distance(entry: Entry) -> Distance:
    """Read a distance in stitches or rows, or as a length. Raises Fault."""
    expected = "a distance such as 2 stitches or 1.5 cm"
    match = _STITCHES.fullmatch(Text(40, expected, "Write stitches or a length.")(entry))
    if match:
        return Distance(rows=match[2].startswith("row"), stitches=_STITCHES_AT_END(
            replace(entry, node=Scalar(match[1], entry.place))))
    if isinstance(entry.node, Scalar) and (typed := entry.node.text.strip()).isdecimal():
        raise Fault("bad-length", entry.place, f'"{clip(typed)}"', expected,
                    f"Write {clip(typed)} stitches, or the unit of a length, as in "
                    f"{clip(typed)} cm.")
    return Distance(length=_END(entry))


def _numbers(entry: Entry, figure: Figure[int], what: str, example: str) -> tuple[int, ...]:
    items = listing_like(what, example)(entry).items
    if len(items) > MOST_STEPS:
        raise Fault("too-many", entry.place, f"{len(items)} {what}", f"at most {MOST_STEPS}",
                    "Leave some out.")
    return tuple(figure(replace(entry, label=f"{entry.label}.{n}", node=node,
                                path=f"{entry.path}.{n}", place=node.place))
                 for n, node in enumerate(items))


def steps(entry: Entry) -> tuple[int, ...]:
    """Read the stitches of each step, one at least. Raises Fault."""
    return _numbers(entry, _SHAPED, "steps in stitches", "[3, 2, 1]")


def bind_offs(entry: Entry) -> tuple[int, ...] | Fraction:
    """Read a number of stitches, those of several steps, or a share. Raises Fault."""
    if isinstance(entry.node, Listing):
        return steps(entry)
    text = Text(40, "stitches such as 8, steps such as [4, 2, 1, 1], or a share such as 25 %",
                "Write one of these.")(entry)
    return _AT_ONCE(entry) if text.endswith("%") else (_SHAPED(entry),)


def every_row(entry: Entry) -> tuple[int, ...]:
    """Read how many decreases are made on every row, first and last. Raises Fault."""
    made = _numbers(entry, _EVERY_ROW, "numbers", "[9, 7]")
    if len(made) != len(("first", "last")):
        raise Fault("wrong-shape", entry.place, f"a list of {len(made)}",
                    "two numbers, such as [9, 7]", "Write the first ones, then the last.")
    return made


def zip_sold(entry: Entry) -> ZipSpec:
    """Read how zips are sold: every so many whole centimetres, or cut. Raises Fault."""
    expected = "how zips are sold, such as 5 cm, or cut"
    if Text(40, expected, "Write 1 cm, or cut.")(entry) == _CUT:
        return ZipSpec(cut=True)
    every = _STEP(entry)
    if every.cm.denominator != 1:
        raise Fault("bad-length", entry.place, every.in_cm(), "whole centimetres",
                    "Zips are sold so: write 1 cm or 5 cm.")
    return ZipSpec(every=int(every.cm))


@dataclass(frozen=True, slots=True)
class Span:
    """A reader of a figure or range in `unit`, as typed."""

    unit: str

    def __call__(self, entry: Entry) -> str:
        """The text. Raises Fault where it is no figure above nothing, or too large."""
        figures = Text(40, "a number or a range such as 28–30", "Write the figures.")(entry)
        try:
            low, high = read_span(figures)
        except UnitError as fault:
            raise Fault("bad-span", entry.place, fault.found, fault.expected,
                        fault.remedy or "Check the figures.") from None
        if Length(high * MM_IN[self.unit]) > LARGEST_LENGTH:
            raise Fault("out-of-range", entry.place, f'"{figures}" {self.unit}',
                        f"at most {LARGEST_LENGTH.in_cm()}", "Check the figure and its column.")
        if not all(BODY.is_plausible(end * MM_IN[self.unit]) for end in (low, high)):
            typed = f"{figures} {self.unit}"
            entry.doubts.append(note(
                Severity.WARNING, "unlikely-value", entry.place, found=f'"{typed}"',
                expected=BODY.usual + BODY.beside(typed),
                remedy=f"Check the figure: this column is in {self.unit}."))
        return figures
