"""The section on what goes through a casing: its length, how it is drawn in and made fast."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..catalogue.bands import KINDS
from ..markup.html import anchor, items
from ..plan.band import BandPlan
from ..words.casing_instructions import cord_steps, elastic_steps, to_draw_in


def casing_anchor(plan: BandPlan) -> str:
    """The id of the section on what goes through a casing."""
    return f"{anchor(plan.band.key)}-casing"


def _is_casing(plan: BandPlan) -> bool:
    return KINDS[plan.band.kind].channel


def casing_notions(plans: Sequence[BandPlan]) -> Iterator[str]:
    """What a casing asks for."""
    for plan in filter(_is_casing, plans):
        yield to_draw_in(plan)


def casing_body(plan: BandPlan, *, child: bool) -> str:
    """Return the steps that stand under the heading of a casing; "" for any other kind of band."""
    if not _is_casing(plan):
        return ""
    steps = cord_steps(plan, child=child) if plan.band.cord else elastic_steps(plan)
    return items(steps, "wb-steps", "ol") + "\n"
