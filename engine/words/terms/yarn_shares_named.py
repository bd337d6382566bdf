"""What yarn is needed for, and what to take care of where its amount is an estimate."""

from __future__ import annotations

from collections.abc import Mapping

from ...core.yarn_parts import (
    Beside,
    ExtraPart,
    SharedIn,
    ShareRole,
    YarnCaution,
    YarnDoubt,
)
from .piece_names import fabric_in_sentence

SHARES: Mapping[ShareRole, str] = {
    ShareRole.ALL: "{of}",
    ShareRole.BEHIND_FOLD: "{of}, behind its fold",
    ShareRole.SECOND_COLOUR: "{of}, second colour",
    ShareRole.STRIPES: "{of}, its stripes",
}
EXTRAS: Mapping[Beside, str] = {
    Beside.ENDS: "ends",
    Beside.MARGINS: "margins of the swatches, half as much again",
    Beside.SEAMS: "seams",
    Beside.SWATCH: "swatch of {fabric}",
}
CAUTIONS: Mapping[YarnDoubt, str] = {
    YarnDoubt.ALL_BY_AREA:
        "its package tells no length, and not all of its swatches were weighed: all of it is "
        "estimated from the area of the stitches",
    YarnDoubt.AS_EDGE:
        "the {band} was not swatched: its stitches are taken to need as much yarn as those of the "
        "edge that it is knitted on",
    YarnDoubt.BY_AREA:
        "the {band} was not swatched: its yarn is estimated from the area of its stitches",
    YarnDoubt.EXTRAS_ON_TOP: "its package tells no length: {extras} come on top",
    YarnDoubt.TWO_YARNS:
        "the swatch of {fabric} was weighed with both its yarns, and its mass was parted by their "
        "stitches: a yarn that lies in long floats takes more than is given here, so have some to "
        "spare",
    YarnDoubt.UNWEIGHED:
        "no swatch of {fabric} was weighed: its yarn is estimated from the area of a stitch",
}


def share_title(shared: SharedIn) -> str:
    """Return what a share of a yarn is called: what is knitted more than once, or in parts, so
    that it reads as that of all."""
    of = shared.title
    if shared.times > 1:
        what = " parts" if shared.parts else ""
        of += f", {'both' if shared.times == 2 else f'all {shared.times}'}{what} together"
    return SHARES[shared.role].format(of=of)


def extra_title(part: ExtraPart) -> str:
    """Return what is needed of a yarn beside its counted stitches: "swatch of the hem"."""
    return EXTRAS[part.what].format(fabric=fabric_in_sentence(part.fabric) if part.fabric else "")


def yarn_caution(caution: YarnCaution) -> str:
    """Return what to take care of, as part of a sentence."""
    return CAUTIONS[caution.doubt].format(
        fabric=fabric_in_sentence(caution.fabric) if caution.fabric else "",
        band=caution.band.lower(), extras=" and ".join(map(extra_title, caution.extras)))
