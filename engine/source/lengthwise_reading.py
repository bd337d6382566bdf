"""What a band whose rows run along its edge takes of a source, and what it cannot."""

from __future__ import annotations

from typing import Any

from ..catalogue.bands import BandKind, kinds_that
from ..core.text import series
from ..pattern.holes import HoleRows
from .fields import Fields
from .keys.band_keys import BandKeys
from .keys.hole_keys import HoleKeys, HoleRowsKeys
from .keys.key import Key

# What such a band has otherwise, or not at all: the key, what is found, what to write.
_OTHERWISE: tuple[tuple[Key[Any], str, str], ...] = (
    (BandKeys.pick_up, "a pick-up rule, which counts stitches along the edge",
                       "Write fabric: and the name of its swatched fabric, which can be the "
                       "garment's."),
    (BandKeys.rows, "rows from fold to fold",
                    'Write its width as a depth, such as "depth: 3 cm".'),
    (BandKeys.fold, "a fold that is knitted", "Delete it: such a band is folded along its middle."),
    (BandKeys.ease, "an ease of the whole band", "Write stretch: and the share, such as 2 %."),
    (BandKeys.zip, "a zip, which lies behind a hung edge",
                   "Choose kind: facing or kind: folded for the edge beside a zip."),
    (BandKeys.stitches_in, "stitches that the edge is hung in from",
                           "Delete it: such a band is sewn on a stitch in."),
    (BandKeys.stitches, "stitches along the edge",
                        "Write depth: 5 stitches for those on its needles, and rows_along for its "
                        "rows."),
    (BandKeys.waste_rows, "rows of waste yarn", "Delete it: such a band is cast on."),
)


def refuse_otherwise(band: Fields, kind: BandKind) -> None:
    """Record each key that a band cannot have whose rows run along the edge."""
    if not kind.lengthwise:
        return
    others = series(kinds_that(lambda one: not (one.lengthwise or one.collar)), "or")
    for key, found, remedy in _OTHERWISE:
        if (entry := band.entry(key)) is not None:
            band.findings.fault(
                "not-lengthwise", entry.place, f"{found}, in a {kind.name} band",
                f"it only in a band of another kind, such as {others}", remedy)


def hole_rows(holes: Fields, kind: BandKind, sizes: tuple[str, ...]) -> HoleRows | None:
    """The rows after which holes are made; None where the source does not say."""
    own = holes.opened(HoleKeys.rows, f"the rows of {holes.what}")
    if own is None:
        return None
    if not kind.lengthwise:
        holes.findings.fault(
            "not-lengthwise", holes.at(HoleKeys.rows), f"rows of holes in a {kind.name} band",
            "stitches along the edge, or a band whose rows run along it",
            f"Delete rows, or write kind: {kinds_that(lambda one: one.lengthwise)[0]}.")
        return None
    own.required(HoleRowsKeys.first)
    own.required(HoleRowsKeys.every)
    first, every = own.sized(HoleRowsKeys.first, sizes), own.sized(HoleRowsKeys.every, sizes)
    holes.required(HoleKeys.number)
    return None if first is None or every is None else HoleRows(first=first, every=every)
