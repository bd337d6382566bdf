"""What a designer asks of a band beyond its stitches: graded tension, and where its holes lie."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from ..catalogue.bands import BandKind
from ..core.units import Length
from ..machine.steps import Dial
from ..pattern.holes import HemHoles
from ..pattern.model import BySize
from .fields import Fields, listed_entries, open_fields, read_by_size
from .values import dial, length, text, whole_number, word

MOST_DIALS = 12
DIALS_EXAMPLE = "[5, 4.2, 4.1]"
IN_HEM_EXAMPLE = "{number: 2, depth: 6 cm}"
HEM_ENDS = Length(Fraction(127, 10))  # half an inch, from the borders of the hem (B10)
YES = {"yes": True, "no": False}


def graded_dials(band: Fields, kind: BandKind) -> tuple[Dial, ...]:
    """The settings from the garment's edge to the fold; none where one setting holds."""
    entry = band.entry("dials")
    if entry is None:
        return ()
    if "dial" in band:
        band.findings.fault("two-answers", band.place, f'both "dial" and "dials" in {band.what}',
                            "one of the two", "Delete one of them.")
    if not kind.grades:
        band.findings.fault("dials-of-kind", entry.place, f"dials of a {kind.name} band",
                            "a band whose tension can be graded: enclosing, folded or single",
                            'Write one "dial", or choose another kind of band.')
    items = listed_entries(band.findings, entry, "settings", DIALS_EXAMPLE, MOST_DIALS)
    read = [band.findings.read(item, dial()) for item in items]
    return tuple(setting for setting in read if setting is not None)


def mitred(band: Fields, kind: BandKind) -> bool:
    """True for a band that is mitred at the point of a V."""
    if not band.get("mitre", word(YES), False):
        return False
    if not kind.mitres or "buttonholes" in band:
        what = f"a {kind.name} band" if not kind.mitres else "a band with buttonholes"
        band.findings.fault("mitre-of-kind", band.findings.places[f"{band.path}.mitre"],
                            f"a mitre in {what}", "an enclosing or folded band without buttonholes",
                            "Leave the mitre out, or choose another kind of band.")
    return True


@dataclass(frozen=True, slots=True, kw_only=True)
class HolePlaces:
    """Wishes for single holes; `at_fault` where one could not be read."""

    through: BySize[str] | None = None
    in_hem: HemHoles | None = None
    centre_hole: bool = False
    at_fault: bool = False


def read_hole_places(holes: Fields, sizes: tuple[str, ...], hem: Length | None) -> HolePlaces:
    """Which holes lie in the hem, through a chosen measure, or in the middle."""
    given = [key for key in ("at", "in_hem", "through", "centre_hole") if key in holes]
    centre = holes.get("centre_hole", word(YES), False)
    if len(given) > 1:
        holes.findings.fault("two-answers", holes.place,
                             f'both "{given[0]}" and "{given[1]}" in {holes.what}',
                             "one of the two", "Delete one of them.")
        return HolePlaces(at_fault=True)
    entry = holes.entry("through")
    through = None if entry is None else read_by_size(
        holes.findings, entry, text(200, "a length or a sum of measures",
                                    "Write it as body_length - 24 cm."), sizes)
    in_hem = _in_hem(holes, sizes, hem)
    fault = ("through" in holes and through is None) or ("in_hem" in holes and in_hem is None)
    return HolePlaces(through=through, in_hem=in_hem, at_fault=fault,
                      centre_hole=centre and _may_be_odd(holes))


def _may_be_odd(holes: Fields) -> bool:
    """True where the number of holes is left to their distance; a number says itself."""
    if "number" not in holes:
        return True
    holes.findings.fault("two-answers", holes.place,
                         f'both "number" and "centre_hole" in {holes.what}', "one of the two",
                         "Write every instead of number, or an odd number and no centre_hole.")
    return False


def _in_hem(holes: Fields, sizes: tuple[str, ...], hem: Length | None) -> HemHoles | None:
    entry = holes.entry("in_hem")
    own = None if entry is None else open_fields(
        holes.findings, entry, f"the holes in the hem of {holes.what}",
        ("number", "depth", "ends"), IN_HEM_EXAMPLE)
    if own is None:
        return None
    number = own.get("number", whole_number("holes in a hem"), 2)
    ends = own.get("ends", length("end of a hem with holes"), HEM_ENDS)
    depth = _depth(own, sizes, hem)
    return None if depth is None else HemHoles(number=number, depth=depth, ends=ends)


def _depth(own: Fields, sizes: tuple[str, ...], hem: Length | None) -> BySize[Length] | None:
    if "depth" not in own and hem is not None:
        return dict.fromkeys(sizes, hem)
    entry = own.required("depth", "6 cm")
    return None if entry is None else read_by_size(
        own.findings, entry, length("depth of a hem with holes"), sizes)

