"""Are figures likely beside one another: a swatch's, its yarn's, a body's beside its chart's?"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from ..core.counts import decimal
from ..core.problems import Place, Severity, error, note
from ..core.ranges import COMPARED, Range
from ..core.units import Length
from ..fabric.gauge import measure
from ..fabric.yarn import loop_millimetres, metres_per_gram
from ..pattern.fabrics import Swatch, Yarn
from ..sizing.charts import Row
from .fields import Fields, Findings

SWATCH = "Check the figures of the swatch."


def judge(findings: Findings, place: Place, kind: str, value: Fraction, found: str,
          expected: str, remedy: str) -> bool:
    """True unless `value` is beyond the hard limit of its kind, which is then recorded.

    A warning is recorded where it is unlikely. `expected` has {range} where the figures stand.
    """
    row: Range = COMPARED[kind]
    if not row.is_allowed(value):
        findings.problems.append(error(
            "out-of-range", place, found=found, remedy=remedy,
            expected=expected.format(range=f"{row.least} to {row.most}")))
        return False
    if not row.is_plausible(value):
        findings.problems.append(note(
            Severity.WARNING, "unlikely-value", place, found=found, remedy=remedy,
            expected=expected.format(range=f"{row.low} to {row.high}")))
    return True


def check_package(package: Fields, grams: Fraction | None, length: Length | None) -> bool:
    """True unless a package holds an impossible length of yarn for its mass."""
    if not grams or length is None:
        return False
    to_100 = length.mm / 1000 / grams * 100
    return judge(package.findings, package.findings.places[f"{package.path}.length"],
                 "metres to 100 g", to_100,
                 f"{decimal(length.mm / 1000, 1)} m to {decimal(grams, 1)} g, which is "
                 f"{decimal(to_100, 1)} m to 100 g", "{range} m to 100 g",
                 "Check the mass and the length of the package.")


def check_against_count(package: Fields, grams: Fraction | None, length: Length | None,
                        counted: Fraction) -> bool:
    """True unless a package's length is impossible for the yarn's count, `counted` [m/g]."""
    if not grams or length is None:
        return False
    share = length.mm / 1000 / grams / counted
    return judge(package.findings, package.findings.places[f"{package.path}.length"],
                 "share of the length of its count", share,
                 f"{decimal(length.mm / 1000, 1)} m to {decimal(grams, 1)} g, "
                 f"{decimal(share, 2)} times what the yarn's count says", "{range} times",
                 "Check the count, its order and the package; or delete the length.")


def check_measured(own: Fields, swatch: Swatch) -> bool:
    """True unless the yarn that was measured in a swatch is impossible for its stitches."""
    if swatch.yarn is None:
        return True
    loop = swatch.yarn.mm / (swatch.stitches * swatch.rows)
    share = loop / loop_millimetres(measure((swatch,)))
    return judge(own.findings, own.findings.places[f"{own.path}.yarn"],
                 "share of the yarn of its area", share,
                 f"{decimal(swatch.yarn.mm / 1000, 1)} m of yarn, {decimal(share, 2)} times what "
                 "stitches of this size take", "{range} times", SWATCH)


def check_gauge(own: Fields, swatch: Swatch) -> bool:
    """True unless a swatch has an impossible stitch or row, or the two do not go together."""
    findings, gauge = own.findings, measure((swatch,))
    wide, high = decimal(gauge.stitch, 2), decimal(gauge.row, 2)
    at_rows = findings.places[f"{own.path}.rows"]
    return (judge(findings, findings.places[f"{own.path}.stitches"], "width of a stitch",
                  gauge.stitch, f"a stitch {wide} mm wide", "one of {range}", SWATCH)
            and judge(findings, at_rows, "height of a row", gauge.row, f"a row {high} mm high",
                      "one of {range}", SWATCH)
            and judge(findings, at_rows, "stitch width to row height", gauge.stitch / gauge.row,
                      f"a row {high} mm high under a stitch {wide} mm wide",
                      "a stitch {range} times as wide as its row is high", SWATCH))


def check_mass(findings: Findings, path: str, swatch: Swatch, yarn: Yarn) -> bool:
    """True unless a swatch weighs impossibly much or little for its stitches and its yarn."""
    density = metres_per_gram(yarn)  # of its ends together, as the swatch is knitted
    if swatch.mass_g is None or density is None:
        return True
    loop = swatch.mass_g * density * 1000 / (swatch.stitches * swatch.rows)
    share = loop / loop_millimetres(measure((swatch,)))
    return judge(findings, findings.places[f"{path}.mass"], "share of the yarn of its area", share,
                 f"{decimal(swatch.mass_g, 1)} g, {decimal(share, 2)} times the yarn that stitches "
                 "of this size take", "{range} times",
                 "Check the swatch's mass, and the package of its yarn.")


def check_body(findings: Findings, path: str, row: Row, lengths: Mapping[str, Length]) -> None:
    """Record a designer's body measurements that are far from the chart's."""
    for size, length in lengths.items():
        cell = row.cells.get(size)
        if cell is None:
            continue
        share = length.mm / cell.middle.mm
        judge(findings, findings.places.get(f"{path}.{size}", findings.places.get(
            path, findings.places[""])), "share of the chart's figure", share,
            f"{row.label} {length.in_cm()} in size {size}, {decimal(share, 2)} times the chart's "
            f"{cell.span}", "{range} times", "Check the figure and its unit.")
