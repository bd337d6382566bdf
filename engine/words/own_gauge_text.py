"""What the page at a reader's own gauge says: whose it is, what changed, why there is none.

She has no source: no sentence here names a file, a line or a key.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from fractions import Fraction

from ..core.counts import Unit, decimal
from ..fabric.gauge import Gauge
from ..machine.records import dataclass
from ..markup.html import esc, items, link
from .words import joined

MARK, MEASURES = "My gauge", "My measures"

_REFUSED: Mapping[tuple[str, ...], str] = {
    ("bed-too-short",): "{at}, a part of this size takes more stitches than the bed has "
                        "needles.",
    ("cannot-shape", "cannot-round", "collar-too-deep", "points-too-sharp"):
        "{at}, a shaping of this size does not come out in whole stitches and rows.",
    ("holes-too-close", "hole-wider-than-gap"):
        "{at}, the buttonholes of this size do not all have room along their band.",
    ("hole-at-join", "hole-at-end"):
        "{at}, a buttonhole of this size lies on a seam, or too near to the end of its "
        "band.",
    ("button-too-large", "slit-too-long"):
        "{at}, a band of this size is too narrow for its buttons.",
    ("band-too-short", "band-too-shallow"):
        "{at}, a band of this size has too few stitches or rows.",
    ("facing-far-off",): "{at_each}, the stitches of two fabrics that hang on each other "
                         "differ too much in width.",
    ("join-open",): "{at}, two edges that are sewn together differ too much in length.",
    ("bed-refuses",): "The steps for {figures} could not be knitted to their end on the virtual "
                      "needle bed. That is a fault of this site, and none of yours.",
}
_OTHERWISE = "{at}, a part of this size does not come out as the designer wrote it."
_AT_GAUGE = {"at": "At your gauge", "at_each": "At your gauges", "figures": "your gauge"}
_WITH_MEASURES = {"at": "With your figures", "at_each": "With your figures",
                  "figures": "your figures"}
_DOUBTS: Mapping[str, str] = {
    "band-too-tight": "A band is shorter than its edge by more than is usual. It may draw the edge "
                      "in.",
    "band-wavy": "A band is longer than its edge by more than is usual. It may wave.",
    "count-against-edge": "A band has as many stitches as the designer says. At your gauge its "
                          "edge asks for another number: it may draw in, or wave.",
    "foot-width": "The hem and the fabric above it differ much in width. Measure both swatches "
                  "again.",
    "edge-in-hole": "The edge inside a band reaches its buttonholes. It may show in them.",
    "hole-too-small": "A buttonhole may be too small for its button. Try the button in the swatch.",
    "gauge-off-bed": "A stitch of this width is unusual on this bed. Measure the swatch again.",
    "small-swatch": "The swatch is less than 10 cm wide or high. A larger one is measured more "
                    "exactly.",
    "swatch-yarn-unlikely": "Your swatch weighs little or much for its stitches. Weigh it again, "
                            "without what lies round the counted stitches.",
    "unlikely-value": "A figure of your swatch is unusual. Measure the swatch again.",
}
_DOUBT = ("Something of this size is less usual at your gauge than at the designer's. Look at the "
          "finished measurements before you begin.")
_FIELDS: Mapping[str, str] = {
    "stitches": "stitches: write a whole number from 1 to 500",
    "width": "width: write a length from 1 cm to 100 cm, such as 14.2 cm or 5.5 in",
    "rows": "rows: write a whole number from 1 to 1000",
    "height": "height: write a length from 1 cm to 100 cm, such as 15 cm or 6 in",
    "mass": "mass: write a mass up to 1 kg, such as 8.4 g, or leave it empty"}


def refused(codes: Iterable[str], *, with_measures: bool = False) -> tuple[str, ...]:
    """Return why there is no page at a gauge, or with a reader's measures, each reason once."""
    texts = {code: text for codes_of, text in _REFUSED.items() for code in codes_of}
    found = dict.fromkeys(texts.get(code, _OTHERWISE) for code in codes)
    return tuple(text.format_map(_WITH_MEASURES if with_measures else _AT_GAUGE) for text in found)


def doubts(codes: Iterable[str]) -> tuple[str, ...]:
    """Return what is less usual at a gauge than at the designer's, each once."""
    return tuple(dict.fromkeys(_DOUBTS.get(code, _DOUBT) for code in codes))


def unread(field: str) -> str:
    """Return what is wrong with a figure of a swatch, and what to write."""
    return f"{_FIELDS[field][:1].upper()}{_FIELDS[field][1:]}."


def too_far(called: str, percent: int, own: Gauge, theirs: Gauge) -> str:
    """Return that a gauge is further from the designer's than she allows."""
    return (f"{called}: you measured {own}. The designer has {theirs}, and allows a gauge that "
            f"differs by at most {percent} %.")


def limit(stitches: tuple[str, str], rows: tuple[str, str]) -> str:
    """Return the gauges within that limit: least and most stitches and rows to 10 cm."""
    return (f"Within this limit are {stitches[0]} to {stitches[1]} stitches and {rows[0]} to "
            f"{rows[1]} rows to 10 cm.")


def within_limit(stitches: str, rows: str, narrowest: str, widest: str, lowest: str, highest: str
                 ) -> str:
    """Return how wide and high a reader's own stitches and rows are within that limit."""
    return (f"On your swatch, {stitches} stitches are {narrowest} to {widest} wide, and "
            f"{rows} rows are {lowest} to {highest} high.")


def bed_needed(needles: int, of: int) -> str:
    """Return how many needles a size takes at a gauge, on a bed that has fewer."""
    return f"It takes a bed of {needles} needles. The bed of this pattern has {of}."


def searched(gauges: tuple[int, int], measures: tuple[int, int]) -> str:
    """Return how many figures were tried where none works, and how far from a reader's.

    `gauges` and `measures` are each a number of tries, and the steps to either side: of a
    millimetre or a sixteenth of an inch, and of half a centimetre or a quarter of an inch.
    """
    texts = []
    if gauges[0]:
        texts.append(f"{gauges[0]} gauges near yours were tried, up to {gauges[1]} mm (or "
                     f"{gauges[1]}/16 in) wider, narrower, higher or lower on a swatch, and then "
                     "the designer’s gauge.")
    if measures[0]:
        texts.append(f"{measures[0]} measures near yours were tried, each up to "
                     f"{decimal(Fraction(measures[1], 2), 1)} cm (or "
                     f"{decimal(Fraction(measures[1], 4), 2)} in) more or less.")
    return " ".join((*texts, "None of them works."))


def called(names: Sequence[str]) -> str:
    """Return what a fabric is called: "Garment", "Hem and collar"."""
    return joined(names)


def swatch_text(stitches: str, width: str, rows: str, height: str) -> str:
    """Return a swatch as it was measured."""
    return f"{stitches} stitches over {width}, {rows} rows over {height}"


def as_designed(gauge: Gauge) -> str:
    """Return the gauge of a fabric that the reader did not measure."""
    return f"as the designer measured it, {gauge}"


def of_fabric(called: str, swatch: str) -> str:
    """Return a swatch with the name of its fabric."""
    return f"{called}: {swatch}"


def of_fabrics(swatches: Iterable[str]) -> str:
    """Return the swatches of several fabrics, each with its name."""
    return "; ".join(swatches)


@dataclass(frozen=True, slots=True)
class About:
    """What of a page is the reader's: her gauge, None where it is the designer's; her measures."""

    gauge: Gauge | None
    measures: bool

    @property
    def mark(self) -> str:
        """The short mark of her page, for every screen of it."""
        return ". ".join(([f"{MARK}: {decimal(self.gauge.stitches_per_10cm, 1)} stitches, "
                           f"{decimal(self.gauge.rows_per_10cm, 1)} rows to 10 cm"]
                          if self.gauge else []) + [MEASURES] * self.measures)

    @property
    def short_mark(self) -> str:
        """The mark for the head of a step: stitches and rows to 10 cm, or that measures are
        hers."""
        return ", ".join(([f"{MARK}, {decimal(self.gauge.stitches_per_10cm, 1)} by "
                           f"{decimal(self.gauge.rows_per_10cm, 1)}"]
                          if self.gauge else []) + [MEASURES] * self.measures)

    @property
    def of(self) -> str:
        """What the page is made for: "gauge", "measures", or both."""
        return joined([*["gauge"] * bool(self.gauge), *["measures"] * self.measures])


def stays(keeps: Iterable[str]) -> Iterator[str]:
    """Return what a reader must leave as it is, each as the form names it."""
    return (name.replace("_", " ") for name in keeps)


def mine(title: str, version: str, about: About, figures: Iterable[tuple[str, str]]) -> str:
    """Return what stands at the head of a reader's page, as HTML.

    `title` is that of the designer's page, `figures` each fabric's and measure's name with what
    was entered.
    """
    listed = items(f"{esc(name)}: {esc(text)}" for name, text in figures)
    return (f"<p><strong>This page is made for your {about.of}.</strong> It is {esc(title)}, "
            f"version {esc(version)}, counted anew from what you measured:</p>{listed}")


def designers_page(href: str) -> str:
    """Return the way to the page at the designer's gauge, as HTML."""
    return f"<p>{link(href, 'The designer’s page')}</p>"


def changed(counts: Sequence[tuple[str, str, str]]) -> str:
    """Return the counts that differ from the designer's page, as HTML: name, theirs, hers."""
    if not counts:
        return "<p>No count differs from the designer’s page.</p>"
    listed = items(f"{esc(name)}: {esc(before)} → {esc(now)}" for name, before, now in counts)
    return (f"<details><summary>What differs from the designer’s page ({len(counts)})</summary>"
            f"{listed}</details>")


def holes_moved(stitches: int) -> tuple[str, ...]:
    """Return that the buttonholes lie elsewhere than the designer's; nothing where they do not."""
    if not stitches:
        return ()
    return (f"With your figures a buttonhole would lie on a seam. The uppermost buttonhole lies "
            f"{Unit.STITCHES.of(stitches)} further from the end of its band, so that none does.",)


def less_usual(texts: Iterable[str]) -> str:
    """Return what is less usual at this gauge, as HTML; nothing where nothing is."""
    return items(map(esc, texts))


