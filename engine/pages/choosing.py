"""How to choose a size: the sizes with the bodies that they fit, and what their chart says."""

from __future__ import annotations

from collections.abc import Sequence

from ..core.inches import as_on_rule
from ..markup.html import esc, items, link
from ..proof.advice import GarmentAdvice, SizeAdvice
from ..proof.proof import Proof
from ..sizing.charts import SizeCell
from ..source.fabric_reading import size_slug
from ..words import garment_text
from ..words import overview_page_text as words
from ..words.choosing_text import choosing as how_to_choose


def sizes_to_choose(proof: Proof, advice: GarmentAdvice | None) -> str:
    """Return the sizes, each with the body that it fits, and how to choose.

    They lead to the sizes' pages, unless these are handed over as files.
    """
    apart = proof.pattern.files_only
    known = {size.size: size for size in advice.sizes} if advice else {}
    label = next((size.fits[0].label for size in known.values() if size.fits), "")
    lead = words.by_body(label, files_only=apart) if label else words.sizes_lead(
        knits_pieces=proof.pattern.garment is not None, files_only=apart)
    named = ((size.size, words.size_named(size.size) + _body(known.get(size.size)))
             for size in proof.sizes)
    sizes = items((f"<span>{text}</span>" if apart else link(f"{size_slug(size)}.html", text)
                   for size, text in named), "wb-sizes")
    return f"{lead}{sizes}{_how(advice) if advice and len(proof.sizes) > 1 else ''}"


def _body(size: SizeAdvice | None) -> str:
    """The body that a size fits, in centimetres, with the inches for a page that has those first.
    """
    if size is None or not size.fits:
        return ""
    body = size.fits[0].body
    inches = "–".join(dict.fromkeys(inches_of(body)))
    return f' <small data-in="{inches}">{esc("–".join(dict.fromkeys(body.figures)))}</small>'


def inches_of(body: SizeCell) -> tuple[str, ...]:
    """Return the inches that a chart prints; where it prints none, worked out to the quarter."""
    if body.printed_inches:
        return tuple(map(as_on_rule, body.printed_inches))
    return body.low.inch_figure(), body.high.inch_figure()


def _how(advice: GarmentAdvice) -> str:
    """How to choose, and what the chart says of its figures; shut until it is opened."""
    steps = items(map(esc, how_to_choose(advice.sizes)), "wb-list")
    known = advice.chart.key and any(size.body or size.fits for size in advice.sizes)
    chart = garment_text.chart_named(advice.chart) if known else ""
    remarks = items((garment_text.chart_remark(remark, _sizes(advice, sizes))
                     for remark, sizes in advice.remarks), "wb-list")
    more = f"<details><summary>{garment_text.ABOUT_CHART}</summary>{remarks}</details>"
    return (f"<details><summary>{words.HOW_TO_CHOOSE}</summary>{steps}{chart}</details>"
            + (more if remarks else ""))


def _sizes(advice: GarmentAdvice, sizes: Sequence[str]) -> Sequence[str]:
    """The sizes that a remark is of; none where it is of all."""
    return () if len(sizes) == len(advice.sizes) else sizes
