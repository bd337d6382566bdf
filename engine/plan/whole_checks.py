"""What is looked at in a whole garment beside its joins: the way from the neck to the wrist."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from ..core.counted import Count, Reckoned
from ..core.counts import DOWN, Unit, decimal
from ..core.edge_parts import SectionRole
from ..core.expression import Expression, Operand, Rounded, Stepped, Sum, Term, plain
from ..core.operand_parts import PartRole
from ..core.operands import Role
from ..core.problems import Problem, Severity, note
from ..core.roots import Hypotenuse
from ..fabric.gauge import Gauge
from ..forms.lengths import on_foot, rows_high, stitches_wide
from ..pattern.model import GarmentSpec
from ..pattern.places import Places
from ..shape.garment import Cut, Garment
from ..shape.outline import last_row
from ..shape.piece import Piece
from ..shape.ribs import Rib
from ..shape.seams import sewn_rows
from ..sizing.charts import Chart
from ..words.terms.body_length_names import (
    NECK,
    NECK_TO_WRIST,
    SLEEVE_TOP,
    half_of,
    of_shoulder,
    with_foot,
)
from ..words.terms.part_names import part_name
from ..words.terms.section_names import SECTIONS

# How far the sleeve may end from the wrist, as a share of the way; common practice, no source.
MOST_OFF = Fraction(1, 10)
# How far above the wrist a short sleeve ends, as a share of the way; common practice, no source.
SHORT = Fraction(1, 4)
SEAM = 1  # stitches a seam takes of each side
# The counts that a sleeve's rows are made up of: up to its underarm, and above it.
_UPWARD = ("rows_to_underarm", "rows_to_raglan", "cap_rows", "raglan_rows")


def with_neck_to_wrist(garment: Garment, cut: Cut) -> Garment:
    """Return the garment with its way from the centre of the back neck to the wrist [mm].

    As knitted, along the fabric: half the back neck, over the shoulder to the sleeve, and the
    sleeve along its middle, as high as it is drawn. In a raglan the shoulder is half the sleeve's
    top, in a saddle raglan the sleeve itself reaches the neck. Stitches that seams take are left
    out. The parts are measured to a tenth of a millimetre, so that they add up as they are
    printed. A garment without sleeves is returned as it is.
    """
    sleeve = next((p for p in garment.pieces if p.key == "sleeve"), None)
    if sleeve is None or sleeve.corners is not None:
        return garment
    foot = "rib" if isinstance(sleeve.hem, Rib) else "hem"
    hem = with_foot(foot) if sleeve.hem else ""
    body, arm = cut.of("back").gauge, cut.of(sleeve.key).gauge
    parts = (*_to_the_sleeve(garment, body, arm),
             _part(_height(garment, sleeve, arm), f"sleeve{hem}"))
    return replace(garment, lengths={**garment.lengths, NECK_TO_WRIST: Reckoned(Sum(parts))})


def _part(length: Expression, name: str) -> Term:
    """A part of the way, to the tenth of a millimetre to which it is printed."""
    return Term(Stepped(length, plain(Fraction(1, 10))), Role.PART_OF_LENGTH, name)


def _height(garment: Garment, sleeve: Piece, gauge: Gauge) -> Expression:
    """How high a sleeve is as its outline is drawn, with the hem or rib below it."""
    above: Expression = sewn_rows(sleeve.rows, _rows_up(garment, sleeve))
    if last := last_row(sleeve):
        above += Operand(Fraction(last), Role.ROWS, part_name(PartRole.ABOVE_SHAPING))
    return on_foot(rows_high(above, gauge), sleeve.hem, gauge)


def _rows_up(garment: Garment, sleeve: Piece) -> Expression | None:
    """The rows of a sleeve as they were counted: up to its underarm, and of what is above it."""
    parts = tuple(count.term(Role.ROWS) for key, name, count in garment.counts
                  if key == sleeve.key and name in _UPWARD)
    return Sum(parts) if parts else None


def _to_the_sleeve(garment: Garment, gauge: Gauge, arm: Gauge) -> tuple[Term, ...]:
    """From the centre of the back neck to the middle of the sleeve's upper edge."""
    counts = {(key, name): count for key, name, count in garment.counts}
    if ("back", "neck_opening_rows") in counts:  # knitted sideways: all of it is rows
        neck, rows = counts["back", "neck_opening_rows"], counts["back", "shoulder_rows"]
        return (_part(rows_high(neck.term(Role.ROWS) / plain(2), gauge), half_of(str(neck), NECK)),
                _part(rows_high(rows.term(Role.ROWS), gauge), of_shoulder(str(rows))))
    seams = Operand(Fraction(2 * SEAM), Role.SEAMS)
    neck = counts["back", "neck_stitches"]
    if ("sleeve", "top") in counts:  # a raglan: its seams take a stitch of either side
        return (_half(neck.term(Role.STITCHES) - seams, SECTIONS[SectionRole.BACK_NECK], gauge),
                _half(counts["sleeve", "top"].term(Role.STITCHES) - seams, SLEEVE_TOP,
                      arm))
    half = _half(neck.term(Role.STITCHES), SECTIONS[SectionRole.BACK_NECK], gauge)
    if ("back", "across") not in counts:
        return (half,)
    return half, _shoulder(counts["back", "across"], neck, counts["back", "shoulder_rows"], gauge)


def _shoulder(across: Count, neck: Count, rows: Count, gauge: Gauge) -> Term:
    """Half of what the neck leaves of the back, less a seam, along the shoulder's slope."""
    wide = Rounded((across.term(Role.STITCHES) - neck.term(Role.STITCHES)) / plain(2), DOWN) \
        - Operand(Fraction(SEAM), Role.SEAM)
    return _part(Hypotenuse(stitches_wide(wide, gauge), rows_high(rows.term(Role.ROWS), gauge)),
                 of_shoulder(Unit.STITCHES.of(int(wide.value)), str(rows)))


def _half(stitches: Expression, what: str, gauge: Gauge) -> Term:
    return _part(stitches_wide(stitches / plain(2), gauge),
                 half_of(Unit.STITCHES.of(int(stitches.value)), what))


def is_short(spec: GarmentSpec | None, chart: Chart, garment: Garment) -> bool:
    """True for a sleeve that ends far above the wrist of the chart's body as the designer asks."""
    length, cell = garment.finished.get(NECK_TO_WRIST), chart.cell("neck_to_wrist", garment.size)
    return (length is not None and cell is not None and spec is not None
            and "sleeve_length" in spec.measures
            and cell.low.mm - length.mm > SHORT * cell.low.mm)


def neck_to_wrist(places: Places, spec: GarmentSpec | None, chart: Chart, garment: Garment
                 ) -> tuple[Problem, ...]:
    """Warn of a sleeve that ends far from the wrist of the chart's body, beyond its range.

    Nothing is said where the chart has no such measure, nor of a short sleeve where the designer
    gave sleeve_length herself: that is what she asks for.
    """
    length, cell = garment.finished.get(NECK_TO_WRIST), chart.cell("neck_to_wrist", garment.size)
    if length is None or cell is None or spec is None:
        return ()
    off = max(cell.low.mm - length.mm, length.mm - cell.high.mm, Fraction(0))
    middle = (cell.low.mm + cell.high.mm) / 2
    short = length < cell.low
    if off <= MOST_OFF * middle or (short and "sleeve_length" in spec.measures):
        return ()
    return (note(Severity.WARNING, "neck-to-wrist", places.of("garment.measures"),
                 size=garment.size,
                 found=f"{length.in_cm()} from the centre of the back neck to the wrist for a body "
                       f"of {cell.span}: {decimal(off / middle * 100, 1)} % too "
                       f"{'short' if short else 'long'}",
                 expected=f"at most {decimal(MOST_OFF * 100, 0)} %",
                 remedy="Give sleeve_length, or change what lies across the shoulders."),)
