"""What plans parts that few bands or patterns have, each imported where a pattern has the part."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from ..core.on_use import by_table, import_all_of

PLANNERS: Mapping[str, str] = {
    "LEFT": "mitres.LEFT", "band_over_head": "over_head.band_over_head",
    "can_turn": "mitres.can_turn", "check_charts": "chart_sense.check_charts",
    "cord_refusals": "casings.cord_refusals", "plan_casing": "casings.plan_casing",
    "plan_collar": "collars.plan_collar", "plan_mitre": "mitres.plan_mitre",
    "turned_between": "mitres.turned_between", "turns_of": "mitres.turns_of"}
"""The planner of a part, and what else is asked of it, by the name that it has here."""

if TYPE_CHECKING:  # who reads imports, calls and types sees here what PLANNERS names
    from .casings import cord_refusals as cord_refusals
    from .casings import plan_casing as plan_casing
    from .chart_sense import check_charts as check_charts
    from .collars import plan_collar as plan_collar
    from .mitres import (
        LEFT as LEFT,
    )
    from .mitres import (
        can_turn as can_turn,
    )
    from .mitres import (
        plan_mitre as plan_mitre,
    )
    from .mitres import (
        turned_between as turned_between,
    )
    from .mitres import (
        turns_of as turns_of,
    )
    from .over_head import band_over_head as band_over_head
else:
    __getattr__ = by_table(__package__, PLANNERS)


def import_all() -> None:
    """Import all of these modules, for whoever divides into processes that share them."""
    import_all_of(__package__, PLANNERS.values())
