"""Words for the page of one size: what stands at its top, and where buttons go."""

from __future__ import annotations

from collections.abc import Sequence

from ..markup.html import esc, link
from ..pattern.model import Pattern
from ..plan.band import BandPlan
from .band_ends import BandEnds
from .buttonhole_text import holes_name, lay_fronts
from .credits import made_by, version_text
from .words import joined

HOW_TO_READ = (
    "<p>Left and right are yours as you face the machine. Needles are counted from the centre "
    "of the bed: L1, L2 to the left, R1, R2 to the right. The purl side of the fabric faces "
    f"you. {link('../../reading.html', 'How to read this page')}. Every count is worked out "
    f"at the end: {link('#counted', 'Calculations')}.</p>")


def edition(pattern: Pattern) -> str:
    """Which version the page is of, who made it, and a link to the pattern's first page."""
    return (
        '<p class="wb-edition">'
        f"{esc(version_text(pattern.version, pattern.date))}. "
        f'<span class="wb-by">{esc(made_by(pattern.designer, pattern.licence))}'
        f"</span> {link('index.html', 'All sizes, and about this pattern')}</p>")


def begin(title: str, summary: str, anchor: str, drawn: str) -> str:
    """The card that leads to the first part of the work; a script of the page makes it go on with
    the part that is on the needles."""
    return (f'<div class="wb-go">{drawn}<p><b>{esc(title)}</b> {esc(summary)}</p><a '
            f'class="wb-main-button" href="#{anchor}-steps">Start knitting: {esc(title)}</a></div>')


YARN, GAUGE = "Yarn", "Gauge"


def gauge_of(names: Sequence[str]) -> str:
    """The label of the gauge of some pieces by their names."""
    return f"{GAUGE}: {joined(names)}"


def band_lies(length: str, depth: str) -> str:
    """What a band measures once it is finished."""
    return f"{length} long, {depth} deep"


def with_ease(finished: str, ease: str) -> str:
    """A finished measure with its ease, both in both units."""
    return f"{finished}, {ease} of ease"


def finished_length(band: str) -> str:
    """The label of a band's length; `band` is its title as HTML, here and below."""
    return f"{band}, finished length"


def finished_depth(band: str) -> str:
    """The label of a band's depth."""
    return f"{band}, finished depth"


def on_bed(band: str) -> str:
    """The label of a band's stitches while it is knitted."""
    return f"{band}, on the bed"


def depth_behind(band: str) -> str:
    """The label of a collar's depth where it is deepest."""
    return f"{band}, finished depth behind the neck"


def holes_of(band: str, plan: BandPlan) -> str:
    """The label of a band's buttonholes or loops."""
    return f"{band}, {holes_name(plan)}"


def buttons_title(plan: BandPlan) -> str:
    """The heading of where the buttons go."""
    return f"{plan.band.title}, buttons"


def buttons_lead(plan: BandPlan, ends: BandEnds, *, practised: bool) -> str:
    """How the fronts are laid, and from which end the places are measured, as HTML: a hem lies at
    that of the other front."""
    end = "hem" if ends.at_hem else ends.first
    return (f"<p>{lay_fronts(plan, practised=practised)} Distance of each button from the {end}, "
            "measured along the finished band:</p>")
