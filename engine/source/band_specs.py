"""What a designer asks of a band beyond its stitches: graded tension, and where its holes lie."""

from __future__ import annotations

from ..catalogue.bands import BandKind, kinds_that
from ..core.text import series
from ..core.units import Length
from ..machine.records import dataclass
from ..machine.steps import Dial
from ..pattern.holes import Distance, HemHoles
from ..pattern.model import BySize
from .fields import Fields
from .keys.band_keys import BandKeys
from .keys.hole_keys import HoleKeys, InHemKeys


def graded_dials(band: Fields, kind: BandKind) -> tuple[Dial, ...]:
    """The settings from the garment's edge to the fold; none where one setting holds."""
    entry = band.entry(BandKeys.dials)
    if entry is None:
        return ()
    if "dial" in band:
        band.refuse_both(BandKeys.dial, BandKeys.dials)
    if not kind.grades:
        band.findings.fault("dials-of-kind", entry.place, f"dials of a {kind.name} band",
                            "a band whose tension can be graded: "
                            + series(kinds_that(lambda kind: kind.grades)),
                            'Write one "dial", or choose another kind of band.')
    return band.listed(BandKeys.dials)


def mitred(band: Fields, kind: BandKind) -> bool:
    """True for a band that is mitred where its edge turns."""
    if not band.get(BandKeys.mitre):
        return False
    if not kind.mitres or "buttonholes" in band:
        what = f"a {kind.name} band" if not kind.mitres else "a band with buttonholes"
        band.findings.fault("mitre-of-kind", band.at(BandKeys.mitre),
                            f"a mitre in {what}", f"a band of the kind "
                            f"{series(kinds_that(lambda kind: kind.mitres))}, without buttonholes",
                            "Leave the mitre out, or choose another kind of band.")
    return True


@dataclass(frozen=True, slots=True, kw_only=True)
class HolePlaces:
    """Where single holes are asked for; `at_fault` where one could not be read."""

    through: BySize[str] | None = None
    in_hem: HemHoles | None = None
    centre_hole: bool = False
    at_fault: bool = False


def read_hole_places(holes: Fields, sizes: tuple[str, ...], hem: BySize[Length] | None
                     ) -> HolePlaces:
    """Which holes lie in the hem, through a chosen measure, or in the middle."""
    given = [key for key in (HoleKeys.at, HoleKeys.rows, HoleKeys.in_hem, HoleKeys.through,
                              HoleKeys.centre_hole)
             if key.name in holes]
    centre = holes.get(HoleKeys.centre_hole)
    if len(given) > 1:
        holes.refuse_both(given[0], given[1])
        return HolePlaces(at_fault=True)
    through = holes.sized(HoleKeys.through, sizes)
    in_hem = _in_hem(holes, sizes, hem)
    fault = ("through" in holes and through is None) or ("in_hem" in holes and in_hem is None)
    if centre and "number" in holes:  # a number says itself whether it is odd
        holes.refuse_both(HoleKeys.number, HoleKeys.centre_hole, remedy="Write every instead of "
                          "number, or an odd number and no centre_hole.")
    return HolePlaces(through=through, in_hem=in_hem, at_fault=fault,
                      centre_hole=centre and "number" not in holes)


def _in_hem(holes: Fields, sizes: tuple[str, ...], hem: BySize[Length] | None
            ) -> HemHoles | None:
    own = holes.opened(HoleKeys.in_hem, f"the holes in the hem of {holes.what}")
    if own is None:
        return None
    if "depth" not in own and hem is not None:
        depth: BySize[Length] | None = hem
    else:
        own.required(InHemKeys.depth)
        depth = own.sized(InHemKeys.depth, sizes)
    buttonhole_count, ends = own.get(InHemKeys.number), own.get(InHemKeys.ends)
    return None if depth is None else HemHoles(buttonhole_count=buttonhole_count, depth=depth,
                                               ends=ends)


def right_unit(holes: Fields, kind: BandKind, *ends: Distance | None) -> bool:
    """Return whether distances along the band are in what lies along it, or as lengths; a fault
    is recorded otherwise."""
    wrong = [end for end in ends if end and end.stitches is not None
             and end.rows is not kind.lengthwise]
    if not wrong:
        return True
    found, wanted = ("rows", "stitches") if wrong[0].rows else ("stitches", "rows")
    holes.findings.fault(
        "not-lengthwise", holes.at(HoleKeys.ends), f"ends in {found} in a {kind.name} band",
        f"{wanted}, which lie along its edge, or a length",
        f'Write "ends: {wrong[0].stitches} {wanted}", or a length.')
    return False
