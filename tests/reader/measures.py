"""Lengths in centimetres and inches, the drawings' figures, and what they say of the knitting."""

from __future__ import annotations

import math
import re
import unicodedata
from collections.abc import Iterator
from fractions import Fraction
from functools import cache

from tests.reader.bed import Wrong, need
from tests.reader.visible import Block

PART = "[¼½¾⅛⅜⅝⅞]"
INCH = rf"(−?(?:(?:\d+\u00a0)?\d+/16|\d*{PART}|\d+(?:\.\d+)?))"
CM = r"(−?\d+(?:\.\d+)?)"
# A cell of a size chart whose two units differ as its maker prints it.
PRINTED_SO = {"49.5 cm (18½ in)"}
NOT_DRAWN = re.compile("Whole height|Heavy line|Rib at rest|Shirt tail|"
                       "Thin lines? (?:inside|from (?:the (?:sides|edges)|an edge))")
PAIR = re.compile(rf"{CM}(?:(?:–| cm to ){CM})? cm \({INCH}(?:(?:–| in to ){INCH})? in\)")


def inches(text: str) -> Fraction:
    """Inches as they are printed: 7½, ¾, −½, 3/16, 8.25."""
    sign = -1 if text.startswith("−") else 1
    ones = re.sub(PART, "", text.lstrip("−"))
    parts = [Fraction(unicodedata.numeric(one)) for one in re.findall(PART, text)]
    return sign * sum(map(Fraction, ones.split()), sum(parts, Fraction(0)))


def agree(cm: str, inch: str, *, chart: bool = False) -> None:
    """Hold a length in centimetres to the same in inches.

    The inches are those of the centimetres as they are printed, with one decimal or two, to the
    nearest eighth, so that one length is one text on a page; to the nearest sixteenth where the
    eighth is 0. A size `chart` is printed as its maker prints it: both units rounded by
    themselves.
    """
    exact = Fraction(cm.replace("−", "-")) / Fraction("2.54")
    if chart:
        fits = abs(inches(inch) - exact) <= Fraction("0.265")
    else:
        parts = 16 if abs(exact) < Fraction(1, 16) else 8
        nearest = Fraction(math.floor(abs(exact) * parts + Fraction(1, 2)), parts)
        fits = abs(inches(inch)) == nearest and (inches(inch) < 0) == (exact < 0)
    need(fits, "inches", f"{cm} cm are {float(exact):.2f} in, not {inch}")


@cache
def both_units(text: str, *, chart: bool = False) -> None:
    """Every length in a text that stands in centimetres and in inches; `chart`: of a body."""
    text = re.sub(r"(?:spread|ease) the difference of [^)]*\)", "", text)  # as printed
    need(not MIXED.search(text), "inches", "a figure has a decimal or a fraction, not both")
    for match in PAIR.finditer(text):
        printed = chart or "[" in text[:match.start()]
        if match[0] not in PRINTED_SO:
            agree(match[1], match[3], chart=printed)
        need(bool(match[2]) == bool(match[4]), "inches", "one range is no range")
        if match[2]:
            need(float(match[1].replace("−", "-")) < float(match[2].replace("−", "-")), "inches",
                 "a range runs from the smaller to the greater")
            agree(match[2], match[4], chart=printed)


MIXED = re.compile(r"\d[.]\d+ ?[⅛¼⅜½⅝¾⅞]")
GAP = re.compile(
    r"\(\s*(?:mm|cm|in)\b|–\s*(?:cm|in|mm)\b|(?:[−÷×+=]|\bto|\babout|\bis)\s+(?:cm|in|mm)\b|"
    r"(?:: |, | \()(?:rows|stitches|loops|needles|pairs|cm|mm)(?=:)|"
    r", (?:cm|mm|g|balls)\b|\bup: ?(?:$|[.;,])|[=÷×+] ?[.,;)]|"
    r"[÷×+=]\s*$|\(–|^(?:cm|mm|stitches)\b|\(\s*\)| ,")


@cache
def complete(text: str) -> None:
    """A text in which a figure is missing: a unit, a sign or a bracket with nothing to it."""
    found = GAP.search(text)
    need(not found, "figure-missing", f"at {found[0]!r}" if found else "")


def drawn(blocks: list[Block]) -> Iterator[tuple[str, str | None]]:
    """The lengths in a drawing: in one text, or the inches in the one below the centimetres."""
    texts = [b.text for b in blocks if b.kind == "drawn"]
    spot = 0
    while spot < len(texts):
        whole = re.fullmatch(rf"{CM} cm \({INCH} in\)", texts[spot])
        alone = re.fullmatch(rf"{CM} cm", texts[spot])
        if whole:
            yield whole[1], whole[2]
        elif alone:
            below = texts[spot + 1] if spot + 1 < len(texts) else ""
            match = re.fullmatch(rf"{INCH} in", below)
            yield alone[1], match[1] if match else None
            spot += 1 if match else 0
        elif re.search(r"\d", texts[spot]):
            raise Wrong("drawing", f"this cannot be read: {texts[spot]!r}")
        spot += 1


def figures(blocks: list[Block]) -> Iterator[tuple[str, list[Block], dict[str, str]]]:
    """Each drawing of the pieces: its name, its texts, and its list of measures."""
    texts: list[Block] = []
    keys: dict[str, str] = {}
    name = ""
    for block in [*blocks, Block("drawn", "")]:
        if block.kind == "drawn" and name:
            yield name, texts, keys
            texts, keys, name = [], {}, ""
        if block.kind == "drawn":
            texts.append(block)
        elif block.kind == "figcaption":
            name = block.text
        elif block.kind == "key" and ": " in block.text:
            label, _, value = block.text.partition(": ")
            if label in keys:
                raise Wrong("drawing", f"{label!r} is told twice")
            keys[label] = value


def same_figures(name: str, texts: list[Block], keys: dict[str, str]) -> None:
    """The figures in a drawing are those of the list under it, no more and no fewer."""
    shown = sorted(drawn(texts), key=str)
    told = []
    for value in keys.values():
        told += [(m[1], m[3]) for m in PAIR.finditer(value)]
    for cm, inch in shown:
        need(inch is not None, "drawing", f"{name}: {cm} cm without inches")
        need((cm, inch) in told, "drawing", f"{name}: {cm} cm ({inch} in) is not in its list")
    missing = [(m[1], m[3]) for label, value in keys.items() if not NOT_DRAWN.match(label)
               for m in PAIR.finditer(value) if (m[1], m[3]) not in shown]
    need(not missing, "drawing", f"{name}: {missing} are not drawn")
    if tail := keys.get("Shirt tail"):
        low, long = (float(m[1]) for m in PAIR.finditer(tail))
        high = float(PAIR.search(keys["Whole height"])[1])  # type: ignore[index]
        need(abs(high + low - long) < 0.11, "drawing", f"{name}: {high} and {low} are not {long}")
