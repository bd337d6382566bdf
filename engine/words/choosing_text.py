"""Words for how to choose a size by the body that each is for."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from ..core.counts import decimal
from ..core.units import Length
from ..proof.advice import SizeAdvice
from ..sizing.charts import SizeCell
from ..sizing.printed_figures import MM_IN


def choosing(sizes: Sequence[SizeAdvice]) -> tuple[str, ...]:
    """Return how to choose a size, a sentence each.

    A measure within a size's band takes that size. Bands leave gaps: between two sizes the nearer
    one is taken, and of two that are equally near, or that both hold the measure, the larger (a
    rule of ours: a loose garment can be worn).
    """
    if sizes and sizes[0].body and not sizes[0].fits:
        return ("Each size is cut from the body measurements that its page lists: choose by these, "
                "and by what is knitted.",)
    if not sizes or not sizes[0].fits:
        return ("This garment has no measure that a body decides: choose by what is knitted.",)
    label = sizes[0].fits[0].label
    bodies = [(s.size, s.fits[0].body) for s in sizes if s.fits]
    if all(cell.low == cell.high for _, cell in bodies):
        steps = [f"Measure the wearer's {label} and take the size nearest to it; of two that "
                 "are equally near the larger: a loose garment can be worn."]
    else:
        steps = [f"Measure the wearer's {label} and take the size that holds it.",
                 "Between two sizes take the nearer, and the larger where both are equally near or "
                 "hold it: a loose garment can be worn.", *_gaps(bodies)]
    return (*steps, f"Below {bodies[0][1].low} or above {bodies[-1][1].high} the nearest size will "
            "not fit as meant.", "For another fit compare what is knitted with a garment that fits "
            "well, laid flat and measured.")


def _inches(body: SizeCell) -> tuple[str, str]:
    """Both ends as the chart prints them in inches; where it prints none, to the quarter."""
    printed = body.printed_inches
    low, high = (Length(end * MM_IN["in"]) for end in printed) if printed else (body.low, body.high)
    return low.inch_figure(), high.inch_figure()


def _gaps(bodies: Sequence[tuple[str, SizeCell]]) -> tuple[str, ...]:
    """The stretches between one size's band and the next that belong to neither."""
    gaps = [f"{decimal(a.high.cm, 1)}–{b.low.in_cm()} ({_inches(a)[1]}–"
            f"{_inches(b)[0]} in) between {one} and {other}"
            for (one, a), (other, b) in pairwise(bodies) if b.low.mm - a.high.mm > 10]
    return (f"The chart leaves gaps: {', '.join(gaps)}.",) if gaps else ()
