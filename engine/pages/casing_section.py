"""The section on what goes through a casing: its length, how it is drawn in and made fast."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..core.units import Length
from ..markup.html import anchor, block, esc, heading, items, link
from ..plan.band import BandPlan, depth_mm
from ..plan.casings import widest_elastic

CAUTIONS = link("../../cautions.html#cords", "Cautions on cords")


def casing_anchor(plan: BandPlan) -> str:
    """The id of the section on what goes through a casing."""
    return f"{anchor(plan.band.key)}-casing"


def casing_entries(plans: Sequence[BandPlan]) -> list[tuple[str, str]]:
    """The casings' lines in the list of contents."""
    return [(f"#{casing_anchor(plan)}", _title(plan)) for plan in plans if _is_casing(plan)]


def _is_casing(plan: BandPlan) -> bool:
    return plan.band.kind == "casing"


def _title(plan: BandPlan) -> str:
    return f"{plan.band.title}, {'cord' if plan.band.cord else 'elastic'}"


def casing_notions(plans: Sequence[BandPlan]) -> Iterator[str]:
    """What a casing asks for."""
    for plan in filter(_is_casing, plans):
        name = esc(plan.band.title)
        if plan.band.cord and plan.casing.cord:
            yield (f"<strong>Cord for the {name.lower()}:</strong> {plan.casing.cord.value} cm, "
                   f"{plan.band.cord.width.in_mm()} wide; a bodkin")
        else:
            yield (f"<strong>Elastic for the {name.lower()}:</strong> at most "
                   f"{_elastic(plan).in_mm()} wide; a bodkin")


def _elastic(plan: BandPlan) -> Length:
    return widest_elastic(depth_mm(plan))


def casing_section(plan: BandPlan, *, child: bool) -> str:
    """Return heading and steps; "" for any other kind of band."""
    if not _is_casing(plan):
        return ""
    steps = _cord(plan, child) if plan.band.cord else _of_elastic(plan)
    return heading(2, _title(plan), casing_anchor(plan)) + block(items(steps, "wb-steps", "ol"))


def _cord(plan: BandPlan, child: bool) -> Iterator[str]:
    cord, length = plan.band.cord, plan.casing.cord
    assert cord is not None and length is not None
    ways = "the two slits" if plan.casing.slit else "the two eyelets"
    if not plan.casing.openings:
        ways = "its open ends" if plan.casing.free else "the open seam of the inner layer"
    if not plan.casing.free:
        yield "Sew the seams that the band's ends lie in, so that its channel is whole."
    yield (f"Cut a cord of <b>{length.value} cm</b>, {esc(cord.width.in_mm())} wide. Draw it "
           f"through the channel with a bodkin, in and out at {ways}: each end hangs out "
           f"{esc(cord.ties.in_cm())} when the garment lies at its full width.")
    flat = (" No knots, bobbles or toggles on its ends: finish them flat." if child else
            " Finish its ends so that they do not fray.")
    yield ("Sew the cord fast through all layers half-way round, so that it cannot be drawn out."
           f"{flat} {CAUTIONS}.")


def _of_elastic(plan: BandPlan) -> Iterator[str]:
    yield (f"Take elastic of at most <b>{esc(_elastic(plan).in_mm())}</b>, 6 mm less than the "
           "channel is deep, and as long as sits well: try it round the body first.")
    if plan.casing.free:
        yield ("Draw it through with a bodkin. Sew it fast through all layers at either end of "
               "the band, and the ends shut over it.")
        return
    yield ("Sew the seam that the band's ends lie in, of its inner layer not yet. Draw the "
           "elastic through with a bodkin, sew its ends flat on each other, and let them slip in.")
    yield "Close the gap of the inner layer. Nothing may hang out of the channel."
