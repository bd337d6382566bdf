"""What few garments have beyond their form, each imported where a garment has it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from ..core.on_use import by_table, import_all_of

FORM_PARTS: Mapping[str, str] = {
    "check_darts": "dart_places.check_darts", "shaping_text": "charted.shaping_text",
    "with_bust_darts": "bust.with_bust_darts", "with_chart": "charted.with_chart",
    "with_tail": "tail.with_tail"}
"""What shapes it, or looks at it, by the name that it has here."""

if TYPE_CHECKING:  # who reads imports, calls and types sees here what FORM_PARTS names
    from .bust import with_bust_darts as with_bust_darts
    from .charted import shaping_text as shaping_text
    from .charted import with_chart as with_chart
    from .dart_places import check_darts as check_darts
    from .tail import with_tail as with_tail
else:
    __getattr__ = by_table(__package__, FORM_PARTS)


def import_all() -> None:
    """Import all of these modules, for whoever divides into processes that share them."""
    import_all_of(__package__, FORM_PARTS.values())
