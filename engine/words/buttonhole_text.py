"""What a band's buttonholes are called, how many and how large they are, and where buttons go."""

from __future__ import annotations

from fractions import Fraction

from ..core.units import Length
from ..markup.html import link
from ..pattern.holes import ButtonholeKind
from ..pattern.model import GarmentSpec
from ..pattern.rib_specs import RibSpec
from ..plan.band import BandPlan
from ..plan.band_order import PLACKET
from ..plan.hole_sizes import loop_chains, loop_length
from ..program.bands.buttonhole_steps import buttonhole_kind
from .words import counted, joined, stitches

_NAMES = {ButtonholeKind.LOOPS: "loops"}
PAGES = {ButtonholeKind.ENCLOSED: ("enclosed", "enclosed buttonholes"),
         ButtonholeKind.ONE_STITCH: ("one-stitch", "buttonholes of one stitch"),
         ButtonholeKind.TWO_STITCHES: ("two-stitch", "buttonholes of two stitches"),
         ButtonholeKind.BOUND_OFF: ("many-stitch", "buttonholes of several stitches"),
         ButtonholeKind.EYELET: ("eyelet", "eyelet buttonholes"),
         ButtonholeKind.SLIT: ("vertical-slit", "slits for buttons"),
         ButtonholeKind.LOOPS: ("loops", "button loops")}


def holes_name(plan: BandPlan) -> str:
    """ "buttonholes", or what else closes the band."""
    return _NAMES.get(buttonhole_kind(plan) or ButtonholeKind.ENCLOSED, "buttonholes")


def holes_in_foot(plan: BandPlan, spec: GarmentSpec | None) -> str:
    """Which buttonholes the designer put in the hem or rib: the gaps there are unlike the rest."""
    buttonholes = plan.band.buttonholes
    if buttonholes is None or buttonholes.in_hem is None:
        return ""
    foot = "rib" if spec is not None and isinstance(spec.hem, RibSpec) else "hem"
    match buttonholes.in_hem.buttonhole_count:
        case 1:
            return f" Hole 1 is the one in the {foot}."
        case 2:
            return f" Holes 1 and 2 are those in the {foot}."
        case number:
            return f" Holes 1 to {number} are those in the {foot}."


def holes_text(plan: BandPlan) -> str:
    """How many there are and how large each is: "5, each of 3 stitches", "5 slits, ..."."""
    assert plan.placing is not None and plan.band.buttonholes is not None
    buttonhole_count, button = plan.placing.buttonhole_count, plan.band.buttonholes.button
    match buttonhole_kind(plan):
        case ButtonholeKind.SLIT:
            assert plan.slit is not None
            return (f"{counted(buttonhole_count, 'slit')} of {counted(plan.slit.value, 'row')}, "
                    f"{slit_length(plan).in_mm()} long, for a button of {button.in_mm()}"
                    f"{_try_it(plan)}")
        case ButtonholeKind.EYELET:
            return counted(buttonhole_count, "eyelet")
        case ButtonholeKind.LOOPS:
            chains = loop_chains(button, plan.gauge.stitch)
            return (f"{buttonhole_count}, of about {counted(chains.value, 'chain')} "
                    f"({loop_length(button).in_mm()}), {stitches(plan.placing.hole)} from foot to "
                    "foot")
    assert plan.hole is not None
    return f"{buttonhole_count}, each of {stitches(plan.hole.value)}{_by_rows(plan)}"


def _by_rows(plan: BandPlan) -> str:
    """After which rows the holes of a band are made whose rows run along the edge."""
    if not plan.is_lengthwise or plan.placing is None:
        return ""
    return f", after rows {joined(str(start - 1) for start in plan.placing.starts)}"


def slit_length(plan: BandPlan) -> Length:
    """How long a slit of the band is: its rows, each as high as the band's."""
    assert plan.slit is not None
    return Length(plan.slit.value * plan.gauge.row)


FAR = Fraction(1, 5)  # of the button that a slit may be shorter; common practice, no source


def _try_it(plan: BandPlan) -> str:
    """What to do where an even number of rows is far from the tenth less that is wanted."""
    assert plan.band.buttonholes is not None
    button = plan.band.buttonholes.button.mm
    length = slit_length(plan).mm
    if button * (1 - FAR) <= length < button:
        return ""
    return (f": {'shorter' if length < button else 'longer'} than the rule asks, for its rows are "
            "an even number. Knit one slit and try the button first")


def about_buttonholes(plan: BandPlan) -> str:
    """A link to the reference page of the band's kind of hole."""
    page, name = PAGES[buttonhole_kind(plan) or ButtonholeKind.ENCLOSED]
    return f" {link(f'../../closings/{page}.html', f'About {name}')}."


def lay_fronts(plan: BandPlan, *, practised: bool) -> str:
    """How the fronts are laid to find the places of the buttons; where both bands are `practised`
    on the edges of one piece, this is bent to a ring."""
    if practised:
        return f"Bend the piece to a ring. {_laid(plan)}"
    return _laid(plan)


def _laid(plan: BandPlan) -> str:
    if buttonhole_kind(plan) is ButtonholeKind.LOOPS:
        return ("Lay the fronts edge to edge, hem to hem. Sew a button beside the middle of "
                "each loop, half the button's width from the edge.")
    over = "Lay the band that has the buttonholes over the other, hem to hem."
    if buttonhole_kind(plan) is ButtonholeKind.SLIT:
        return (f"{over} A slit runs across its band: sew "
                "a button under that end of each slit which is nearer to the band's outer edge.")
    if plan.band.garment_edge == PLACKET:
        over = "Lay the band that has the buttonholes over the other, foot to foot."
    return f"{over} Sew a button under the middle of each hole."
