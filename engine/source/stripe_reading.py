"""The stripes of a garment.

    stripes:
      sequence: [{yarn: fog, rows: 6}, {yarn: lamp, rows: 2}]
      sleeves: level at the underarm
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from ..core.text import clip
from ..pattern.fabrics import Fabric, Yarn
from ..pattern.stripes import StripeRows, StripesSpec
from .fabric_reading import named
from .fields import Fields, open_fields
from .keys.garment_keys import GarmentKeys
from .keys.stripe_keys import MOST_YARNS, StripeKeys, StripesKeys
from .values import Entry


def read_stripes(garment: Fields, fabric: Fabric | None, yarns: Mapping[str, Yarn | None], *,
                 apart: bool = False) -> StripesSpec | None:
    """The stripes under `stripes`; None where there are none, or they have a fault.

    Where pieces are of fabrics `apart`, which of them have a chart is seen when they are cut.
    """
    own = garment.opened(GarmentKeys.stripes, "the stripes")
    if own is None:
        return None
    odd = own.get(StripesKeys.odd_rows)
    given = tuple(own.each(StripesKeys.sequence))
    found = [_stripe(own, entry, yarns, odd=odd) for entry in given]
    sequence = tuple(each for each in found if each is not None)
    spec = StripesSpec(
        sequence=sequence, repeat=own.get(StripesKeys.repeat), begins=own.get(StripesKeys.begin),
        pieces=own.listed(StripesKeys.pieces), sleeves=own.get(StripesKeys.sleeves),
        carried=own.get(StripesKeys.carried), unmatched=own.get(StripesKeys.unmatched))
    if not given or len(sequence) < len(given) or fabric is None:
        return None
    return None if _refused(own, spec, fabric, apart=apart) else spec


def _stripe(stripes: Fields, entry: Entry, yarns: Mapping[str, Yarn | None], *, odd: bool
            ) -> StripeRows | None:
    own = open_fields(stripes.findings, entry, "a stripe", StripeKeys)
    if own is None:
        return None
    yarn, rows = own.need_as(StripeKeys.yarn, named("yarn", yarns)), own.need(StripeKeys.rows)
    if rows is not None and rows % 2 and not odd:
        own.findings.fault("stripe-odd", own.at(StripeKeys.rows), f"a stripe of {rows} "
                           f"row{'s' if rows > 1 else ''}",
                           "an even number of rows: the carriage then comes back to the side "
                           "where the yarns hang",
                           f"Write {rows - 1 or 2} or {rows + 1}, or odd_rows: cut in the "
                           "stripes to cut a yarn that hangs on the other side.")
        return None
    return None if yarn is None or rows is None else StripeRows(yarn.key, rows)


def _refused(own: Fields, spec: StripesSpec, fabric: Fabric, *, apart: bool) -> bool:
    """True once it is recorded why these are no stripes of the fabric."""
    faults = tuple(_faults(spec, fabric, apart=apart))
    for found, expected, remedy in faults:
        own.findings.fault("stripes-not-here", own.place, found, expected, remedy)
    return bool(faults)


def _faults(spec: StripesSpec, fabric: Fabric, *, apart: bool) -> Iterator[tuple[str, str, str]]:
    several = {fabric.yarn, *spec.yarns}
    if len(several) > MOST_YARNS:
        yield (f"stripes of {len(several)} yarns, the fabric's among them",
               f"{MOST_YARNS} at most", "Use fewer yarns.")
    if len(several) == 1:
        yield ("stripes of one yarn alone", "a yarn to stripe it with",
               "Add a stripe of another yarn, or delete the stripes.")
    if fabric.chart and not apart:
        yield (f'stripes in the fabric "{clip(fabric.key)}", which is knitted from a stitch chart',
               "a fabric without a chart",
               "Use a plain fabric, or a chart in two colours instead of the stripes.")
