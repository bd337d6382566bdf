"""Is there as much yarn in a swatch as its stitches take? In plain stocking stitch it is known.

Loops in an area × (the yarn in one)² are a constant, whatever the yarn: 19.0 dry relaxed, 21.6 wet
relaxed, 23.1 fully relaxed (D. L. Munden, "The geometry and dimensional properties of plain-knit
fabrics", Journal of the Textile Institute 50, 1959; from memory). So a stitch has between 4.4 and
4.8 times the root of its width × height. A swatch is washed and has rested, so that it has at least
the yarn of the dry relaxed state: there is no room below it, as a size knitted from a lighter
swatch can run out of yarn. A true 21.6 has 6.6 % more yarn than that limit, which the tenth that an
amount has on top still covers. Above, the band is 15 % wider, for scales that show half a gram and
packages that hold more or less: too much yarn is left over, and spoils nothing. Those shares are
ours.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction

from ..catalogue.bands import KINDS
from ..core.counts import decimal
from ..core.problems import Place, Problem, Severity, note
from ..core.ranges import COMPARED
from ..core.roots import root_of
from ..fabric.gauge import measure
from ..fabric.piece_fabrics import feet_of
from ..fabric.yarn import loop_millimetres, metres_per_gram
from ..pattern.fabrics import Fabric, Swatch
from ..pattern.model import Band, GarmentSpec, Pattern
from ..pattern.rib_specs import RibSpec

DRY, FULLY_RELAXED = Fraction(19), Fraction(231, 10)
ROOM = Fraction(15, 100)
# (Yarn in a stitch)² over its width × height, at the least and at the most.
LEAST, MOST = DRY, FULLY_RELAXED * (1 + ROOM) ** 2


def unlikely_yarn(pattern: Pattern) -> Iterator[Problem]:
    """Yield a warning for every weighed swatch of plain stitches with too little or much yarn.

    What is far beyond any fabric's yarn was warned of when the swatch was read.
    """
    ribs = _ribs(pattern.garment, pattern.bands)
    for fabric in pattern.fabrics.values():
        per_gram = metres_per_gram(pattern.yarns[fabric.yarn])
        if per_gram is None or fabric.key in ribs or not _is_plain(fabric):
            continue
        path = f"fabrics.{fabric.key}.swatch"
        for at, swatch in enumerate(fabric.swatches):
            own = path if path in pattern.places else f"{path}es.{at}"
            if swatch.mass_g is not None:
                yield from _weighed(pattern.places.of(f"{own}.mass"), swatch, per_gram)


def _weighed(place: Place, swatch: Swatch, per_gram: Fraction) -> Iterator[Problem]:
    """The warning for a swatch outside the band; lengths [mm], `per_gram` [m/g]."""
    assert swatch.mass_g is not None
    gauge, stitches = measure((swatch,)), swatch.stitches * swatch.rows
    per_stitch = swatch.mass_g * per_gram * 1000 / stitches
    area = gauge.stitch * gauge.row
    usual = COMPARED["share of the yarn of its area"]
    if LEAST * area <= per_stitch ** 2 <= MOST * area or \
            not usual.is_plausible(per_stitch / loop_millimetres(gauge)):
        return
    least, most = root_of(LEAST * area), root_of(MOST * area)
    grams = [decimal(one * stitches / per_gram / 1000, 1) for one in (least, most)]
    yield note(
        Severity.WARNING, "swatch-yarn-unlikely", place,
        found=f"{decimal(swatch.mass_g, 1)} g for {swatch.stitches} stitches and {swatch.rows} "
              f"rows, so {decimal(per_stitch, 1)} mm of yarn in a stitch "
              f"{decimal(gauge.stitch, 1)} mm wide and {decimal(gauge.row, 1)} mm high",
        expected=f"{decimal(least, 1)} to {decimal(most, 1)} mm in a plain stitch of this size, "
                 f"so {grams[0]} to {grams[1]} g",
        remedy="Weigh the swatch again and write the mass of these stitches and rows alone, such "
               f"as mass: {_middle(area, stitches, per_gram)} g; or check its width and height, "
               "and the mass and length of the yarn's package.")


def _middle(area: Fraction, stitches: int, per_gram: Fraction) -> str:
    """A mass that would pass [g]: between dry and fully relaxed."""
    loop = (root_of(DRY * area) + root_of(FULLY_RELAXED * area)) / 2
    return decimal(loop * stitches / per_gram / 1000, 1)


def _is_plain(fabric: Fabric) -> bool:
    """True for stocking stitch of one yarn on every needle."""
    return not (fabric.repeat or fabric.chart or fabric.contrast)


def _ribs(spec: GarmentSpec | None, all_bands: Mapping[str, Band]) -> frozenset[str]:
    """The fabrics of ribs, which draw in: below pieces, and in bands."""
    feet = (foot.fabric for foot in feet_of(spec) if isinstance(foot, RibSpec))
    bands = (band.fabric for band in all_bands.values()
             if band.fabric and KINDS[band.kind].latched)
    return frozenset((*feet, *bands))
