"""What a unit is that the trade does not use; the only user of pint, and loads it when asked."""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import pint


def dimension_of(unit: str) -> str:
    """Return what `unit` measures: "[time]" for a month, "" where it is no unit at all."""
    try:
        return str(_registry().Unit(unit).dimensionality)
    except Exception:  # pint raises many kinds for text that is no unit; all mean "unknown"
        return ""


@lru_cache(maxsize=1)
def _registry() -> pint.UnitRegistry:  # type: ignore[type-arg]
    """Pint's units with the trade's, so that these have a dimension as well."""
    import pint  # a third of a second, which a source of known units need not wait for
    registry = pint.UnitRegistry(  # type: ignore[var-annotated]
        non_int_type=Fraction, autoconvert_offset_to_baseunit=True)
    registry.define("button_ligne = inch / 40")
    registry.define("worsted_count = 560 * yard / pound")
    registry.define("linen_lea = 300 * yard / pound")
    return registry
