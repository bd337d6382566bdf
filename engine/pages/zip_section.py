"""The section on a zip: its length, its stay, how it is set in so that nothing stretches."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..catalogue.bands import KINDS
from ..markup.html import anchor, items
from ..plan.band import BandPlan
from ..plan.zips import Zip, opening_of, zip_for
from ..words.zip_instructions import zip_eased, zip_steps, zip_to_buy


def zip_anchor(plan: BandPlan) -> str:
    """The id of the section on a band's zip."""
    return f"{anchor(plan.band.key)}-zip"


def zip_of(plan: BandPlan) -> Zip | None:
    """The zip of a band as it will be knitted; None where it has none."""
    if plan.band.zip is None:
        return None
    return zip_for(opening_of(plan.stitches, plan.gauge), plan.band.zip)


def zip_notions(plans: Sequence[BandPlan]) -> Iterator[str]:
    """What a zip asks for."""
    for plan in plans:
        if found := zip_of(plan):
            yield zip_to_buy(found, cut=_cut(plan))


def zip_body(plan: BandPlan) -> str:
    """Return what stands under the heading of a zip; "" for a band without one."""
    found = zip_of(plan)
    if found is None:
        return ""
    steps = zip_steps(found, cut=_cut(plan), stands=KINDS[plan.band.kind].stands)
    return f"{zip_eased(found)}\n{items(steps, 'wb-steps', 'ol')}\n"


def _cut(plan: BandPlan) -> bool:
    return plan.band.zip is not None and plan.band.zip.cut
