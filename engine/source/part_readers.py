"""The readers of keys that few patterns have, each imported where the key stands in a source.

Ask first whether the key is there: `parts.read_zip(own, edge) if "zip" in own else None`. Then a
check loads no reader of a part that its pattern does not have.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from ..core.on_use import by_table, import_all_of

READERS: Mapping[str, str] = {
    "check_cuff": "hem.check_cuff", "check_feet": "piece_fabric_reading.check_feet",
    "check_given_once": "rounding.check_given_once", "check_rib_pieces": "hem.check_rib_pieces",
    "hold_former": "former_size_reading.hold_former", "hole_rows": "lengthwise_reading.hole_rows",
    "read_band_cord": "cord.read_band_cord", "read_band_rib": "hem.read_band_rib",
    "read_body": "body_reading.read_body", "read_bust": "short_row_reading.read_bust",
    "read_collar": "collar_reading.read_collar",
    "read_conventions": "convention_reading.read_conventions", "read_cord": "cord.read_cord",
    "read_counts": "rounding.read_counts", "read_crown": "crown.read_crown",
    "read_darts": "dart_reading.read_darts",
    "read_designer_notes": "designer_note_reading.read_designer_notes",
    "read_facing_fabric": "facing_reading.read_facing_fabric", "read_hem": "hem.read_hem",
    "read_kept": "own_words.read_kept", "read_multiple": "rounding.read_multiple",
    "read_outline": "outline_reading.read_outline", "read_pairs": "pairs.read_pairs",
    "read_piece_fabrics": "piece_fabric_reading.read_piece_fabrics",
    "read_piece_names": "own_words.read_piece_names", "read_pockets": "pocket_reading.read_pockets",
    "read_rounding": "rounding.read_rounding", "read_slopes": "slope_reading.read_slopes",
    "read_stitch_charts": "stitch_chart_reading.read_stitch_charts",
    "read_stripes": "stripe_reading.read_stripes", "read_tail": "short_row_reading.read_tail",
    "read_techniques": "own_words.read_techniques", "read_zip": "zip_reading.read_zip",
    "refuse_otherwise": "lengthwise_reading.refuse_otherwise",
    "warn_of_idle": "idle_keys.warn_of_idle"}
"""The function that reads such a key, by the name that it has here."""

if TYPE_CHECKING:  # who reads imports, calls and types sees here what READERS names
    from .body_reading import read_body as read_body
    from .collar_reading import read_collar as read_collar
    from .convention_reading import read_conventions as read_conventions
    from .cord import read_band_cord as read_band_cord
    from .cord import read_cord as read_cord
    from .crown import read_crown as read_crown
    from .dart_reading import read_darts as read_darts
    from .designer_note_reading import read_designer_notes as read_designer_notes
    from .facing_reading import read_facing_fabric as read_facing_fabric
    from .former_size_reading import hold_former as hold_former
    from .hem import (
        check_cuff as check_cuff,
    )
    from .hem import (
        check_rib_pieces as check_rib_pieces,
    )
    from .hem import (
        read_band_rib as read_band_rib,
    )
    from .hem import (
        read_hem as read_hem,
    )
    from .idle_keys import warn_of_idle as warn_of_idle
    from .lengthwise_reading import hole_rows as hole_rows
    from .lengthwise_reading import refuse_otherwise as refuse_otherwise
    from .outline_reading import read_outline as read_outline
    from .own_words import (
        read_kept as read_kept,
    )
    from .own_words import (
        read_piece_names as read_piece_names,
    )
    from .own_words import (
        read_techniques as read_techniques,
    )
    from .pairs import read_pairs as read_pairs
    from .piece_fabric_reading import (
        check_feet as check_feet,
    )
    from .piece_fabric_reading import (
        read_piece_fabrics as read_piece_fabrics,
    )
    from .pocket_reading import read_pockets as read_pockets
    from .rounding import (
        check_given_once as check_given_once,
    )
    from .rounding import (
        read_counts as read_counts,
    )
    from .rounding import (
        read_multiple as read_multiple,
    )
    from .rounding import (
        read_rounding as read_rounding,
    )
    from .short_row_reading import read_bust as read_bust
    from .short_row_reading import read_tail as read_tail
    from .slope_reading import read_slopes as read_slopes
    from .stitch_chart_reading import read_stitch_charts as read_stitch_charts
    from .stripe_reading import read_stripes as read_stripes
    from .zip_reading import read_zip as read_zip
else:
    __getattr__ = by_table(__package__, READERS)


def import_all() -> None:
    """Import all of these modules, for whoever divides into processes that share them."""
    import_all_of(__package__, READERS.values())
