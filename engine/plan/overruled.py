"""Measures that were given and are not knitted as given, because another one wins."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction

from ..core.problems import Problem, Severity, note
from ..core.text_kinds import FindingText
from ..forms.registry import FORMS
from ..pattern.model import GarmentSpec
from ..pattern.places import Places
from ..pattern.specs import CrownShape
from ..shape.garment import Garment
from ..sizing.quantities import Quantity
from ..words.terms.working import working_of

APART = Fraction(10)  # how far two measures of one edge may differ [mm]; common practice
ROUNDED = 2  # stitches or rows by which rounding may move a count
# Measures whose counts are kept within others: what limits them.
LIMITS: Mapping[str, tuple[str, FindingText]] = {
    "across": ("across", "the chest, which is never narrower"),
    "back_neck": ("neck_rows", "the shoulders, below which a neck opens"),
    "front_neck": ("neck_rows", "the shoulders, below which a neck opens")}
SLOPED: tuple[str, FindingText] = (
    "raglan_depth", "the raglan's line, the lowest rows of which stay below a neck")


def overruled(places: Places, spec: GarmentSpec, garment: Garment,
              measures: Mapping[str, Quantity]) -> tuple[Problem, ...]:
    """Warn of each measure of the designer's that another one overrules, with both figures."""
    return (*_halves(places, spec, garment, measures), *_limits(places, spec, garment),
            *_crown(places, spec, garment, measures))


def _halves(places: Places, spec: GarmentSpec, garment: Garment,
            measures: Mapping[str, Quantity]) -> tuple[Problem, ...]:
    """A sleeve's top set on straight is both armholes high, whatever its width was to be."""
    return tuple(
        _warning(places, whole, garment.size, f"{whole} {measures[whole]}, where {half} is "
                 f"{measures[half]} and the sleeve's top twice that", f"two {half}s",
                 f"Leave {half} out: it then follows. Or leave {whole} out.")
        for half, whole in FORMS[spec.form].halves.items()
        if whole in spec.measures
        and abs(measures[whole].value - 2 * measures[half].value) > APART)


def _crown(places: Places, spec: GarmentSpec, garment: Garment,
           measures: Mapping[str, Quantity]) -> Iterator[Problem]:
    """The rows of a crown that is closed up follow from its stitches, whatever its depth was to be.
    """
    if "crown" in spec.measures and spec.crown.shape is not CrownShape.GATHERED:
        rows = next(made for _, name, made in garment.counts if name == "crown_rows")
        yield _warning(places, "crown", garment.size, f"crown {measures['crown']}, where the "
                       f"{spec.crown.shape.value} take {rows}", "a gathered crown",
                       "Leave the measure crown out, or change the crown's own keys.")


def _limits(places: Places, spec: GarmentSpec, garment: Garment) -> tuple[Problem, ...]:
    found = []
    for key, count, made in garment.counts:
        name = "across" if count == "across" else \
            "back_neck" if key == "back" else "front_neck"
        if name not in spec.measures or LIMITS[name][0] != count or \
                f"{key} {count}" in {**spec.rounding, **spec.counts} or \
                abs(made.value - made.exact) < ROUNDED:
            continue
        limit = SLOPED[1] if SLOPED[0] in FORMS[spec.form].measures else LIMITS[name][1]
        found.append(_warning(places, name, garment.size, f"{name} knitted as {made}: "
                              f"{working_of(made)}", f"a measure within {limit}",
                              f"Change {name}, or what limits it."))
    return tuple(found)


def _warning(places: Places, name: str, size: str, found: str, expected: str, remedy: str
             ) -> Problem:
    return note(Severity.WARNING, "overruled-measure", places.of(f"garment.measures.{name}"),
                size=size, found=found, expected=expected, remedy=remedy)
