"""The keys of a body size chart."""

from __future__ import annotations

from ...sizing.ages import Age
from ..spellings import Span
from ..values import Text, Word, word
from .key import Key, Keys, Mapped, Several

_SPANS = "{S: 81–86, M: 91.5–96.5}"


class MendedKeys(Keys, example="{cm: 67.5, how: 26.5 in is 67.3 cm}"):
    """A printed figure put right, in one size."""

    cm = Key(Span("cm"), "The figure in place of the printed one.", "67.5",
             "that of the column that holds", "")
    in_ = Key(Span("in"), "The same, in inches.", "26.5", "that of the column that holds", "")
    how = Key(Text(400), "How that is known.", "26.5 in is 67.3 cm")


class FilledKeys(Keys, example="{cm: {L: 101}, how: from what}"):
    """Figures for sizes that are empty in print."""

    cm = Key(Several("figures by size", 40, Span("cm"), by_name=True),
             "The figures, by size. Needed where this column holds.", "{L: 101}", "")
    in_ = Key(Several("figures by size", 40, Span("in"), by_name=True),
              "The same, in inches. Needed where this column holds.", "{L: 40}", "")
    how = Key(Text(600), "From what they follow.", "the mean of 40 friends")


class RowKeys(Keys, example="{cm: {S: 81–86, M: 91.5–96.5}}"):
    """A body measurement."""

    label = Key(Text(60), "What the page calls it.", "bust", "its name", "")
    how = Key(Text(300), "How it is taken.", "around the fullest part", "not stated", "")
    source = Key(Text(600), "Where it comes from if not from the chart's source.",
                 "measured anew", "not stated", "")
    cm = Key(Several("figures by size", 40, Span("cm"), by_name=True),
             f"The figures as printed, by size: `{_SPANS}`. Needed where this column holds.",
             _SPANS, "")
    in_ = Key(Several("figures by size", 40, Span("in"), by_name=True),
              "The same, in inches. Needed where this column holds.", "{S: 32–34, M: 36–38}", "")
    mended = Key(Several("figures by size", 40, keys=MendedKeys, by_name=True),
                 "Printed errors put right, by size.", "{M: {cm: 91.5–96.5, how: why}}", "none")
    filled = Key(Mapped(FilledKeys), "Figures for sizes that are empty in print.",
                 FilledKeys.example, "none")


class RemarkKeys(Keys, example="[{text: Tight at the upper arm., source: who says so}]"):
    """What is to be known about a chart's figures."""

    short = Key(Text(100), "It in one line, as the check prints it.", "Tight upper arms",
                "its first sentence", "")
    text = Key(Text(600), "What is to be known.", "Tight at the upper arm.")
    source = Key(Text(600), "Who says so.", "who says so")
    rows = Key(Several("rows", 60, Text(60)), "A list of the measurements it is about.",
               "[chest]", "all")
    sizes = Key(Several("sizes", 60, Text(60)), "A list of the sizes it is about.", "[M]", "all")


class ChartFileKeys(Keys, example="title: Women's body sizes"):
    """A body size chart."""

    title = Key(Text(120), "What it is called.", "Women's body sizes")
    publisher = Key(Text(120), "Who published it.", "Lantern Quay")
    source = Key(Text(600), "Where the figures come from.", "measured on 40 friends")
    url = Key(Text(300), "Its address.", "https://example.org/sizes", "not stated", "")
    version = Key(Text(300), "Its edition.", "second edition", "not stated", "")
    read = Key(Text(600), "By which route it was read.", "from the printed leaflet", "not stated",
               "")
    authority = Key(Word({"cm": "cm", "in": "in"}), "{words}: which of the two columns holds.",
                    "cm")
    sizes = Key(Several("sizes", 40, Text(120)), "As in a pattern.", "[S, M, L]")
    ages = Key(Several("ages by size", 40, word(Age), by_name=True), "Whose bodies its sizes are: "
               "`baby`, `child` or `adult`. In a pattern for anyone the page of a child's size "
               "says so among its cautions.", "{S: child}", "not stated")
    measurements = Key(Several("measurements", 60, keys=RowKeys, by_name=True),
                       "The body measurements by name, up to 60.",
                       f"{{chest: {RowKeys.example}}}")
    remarks = Key(Several("remarks", 40, keys=RemarkKeys), "A list of what is to be known about "
                  "its figures, up to 40.", RemarkKeys.example, "none")
