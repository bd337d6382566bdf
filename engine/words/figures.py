"""Words for the figures of a band: what each is called, and workings that are no expressions."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction

from ..core.units import Length
from ..fabric.arrangement import repeat_said
from ..fabric.gauge import Gauge
from ..pattern.holes import Closing
from ..pattern.model import BandRows, Fold
from ..plan.band import BandPlan
from ..plan.buttonholes import Placing
from ..program.bands.closings import closing_of
from .words import stitches

LABELS: Mapping[str, str] = {
    "edge_rows": "Rows of the garment's edge",
    "band_stitches": "Stitches of the band",
    "mitre_pairs": "Pairs of stitches by which each corner is mitred",
    "point_stitches": "Stitches of each point",
    "outer_stitches": "Stitches at the outer edge",
    "short_row_pairs": "Pairs of short rows",
    "back_rows": "Rows at the back of the neck",
    "parts": "Parts, as the band is longer than the bed",
    "hole_stitches": "Stitches of a buttonhole",
    "lower_end": "Stitches before the first hole, from the hem",
    "gaps": "Stitches between the holes",
    "upper_end": "Stitches after the last hole",
    "closing_loops": "Loops hung over each hole",
    "closing_gaps": "Needles between the hung loops",
    "slit_rows": "Rows of a slit",
    "loop_chains": "Chain stitches of a loop",
    "zip_length": "Length of the zip",
    "cord_length": "Length of the cord",
    "cord_openings": "First stitches of the openings, from the first end",
    "facing_stitches": "Stitches behind the fold",
    "facing_rows": "Rows behind the fold",
    "fold_rows": "Rows of the fold",
}
SPACING = "From hole to hole [cm]"
NO_HOLES, ONE_PIECE, ONE_LAYER = "no buttonholes", "one piece", "one layer only"
FOLDS: Mapping[Fold, str] = {
    Fold.TURNED: "1 row, knitted with the work turned",
    Fold.LOOSE: "1 row, knitted very loose",
    Fold.PICOT: "no separate row: stitches are moved, and the next row fills the empty needles",
}


def rows_label(name: str, plan: BandPlan, *, layers: int) -> str:
    """What the rows of a band, or of a part of a layer, are called."""
    at = _holes_at(plan)
    whole = "Rows of one layer" if layers > 1 else "Rows of the band"
    upto = f"Rows from {at} to the fold" if layers > 1 else f"Rows from {at} to the end"
    return {"depth_rows": whole, "rows_to_holes": f"Rows to {at}", "rows_holes_to_fold": upto,
            "rows_fold_to_holes": f"Rows from the fold to {at}",
            "rows_to_finish": f"Rows from {at} to the end"}[name]


def _holes_at(plan: BandPlan) -> str:
    """What the rows of a layer are counted to: a slit lies half before its middle, half after."""
    return "the middle of the slits" if closing_of(plan) is Closing.SLIT else "the buttonholes"


def first_layer(rows: BandRows, depth: int) -> str:
    """The rows of the first layer, added up."""
    return f"{rows.to_holes} + {rows.holes_to_fold} = {depth} rows of the first layer"


def only_layer(rows: BandRows, depth: int) -> str:
    """The rows of a band that is not doubled, added up."""
    return f"{rows.to_holes} + {rows.holes_to_fold} = {depth} rows"


def _second_layer(rows: BandRows, depth: int) -> str:
    return f"{rows.fold_to_holes} + {rows.to_finish} = {depth} rows of the second layer"


def after_fold(plan: BandPlan) -> str:
    """Why so many rows lie between the fold and the holes of the second layer."""
    return (f"as many as from {_holes_at(plan)} to the fold; "
            f"{_second_layer(plan.rows, plan.depth.value)}")


def to_finish(plan: BandPlan) -> str:
    """Why so many rows lie after the holes of the second layer."""
    return f"as many as before {_holes_at(plan)}; {_second_layer(plan.rows, plan.depth.value)}"


def parts_cut(plan: BandPlan) -> str:
    """Where a band longer than the bed is cut, and the stitches of its parts."""
    if not plan.parts:
        return ONE_PIECE
    said = "; ".join(part.stitches.working for part in plan.parts)
    where = " and ".join(part.part.last for part in plan.parts if part.part and part.part.last)
    return f"cut at the {where}: {said}"


def on_the_bed(plan: BandPlan) -> str:
    """The stitches of a band, or of each of its parts: "87 and 88 stitches, in two parts".

    With needles left out of work: "36 stitches on 52 needles, 2 in, 1 out of work".
    """
    if not plan.parts:
        said = stitches(plan.stitches.value)
        return f"{said} on {plan.widest} needles, {repeat_said(plan.repeat)} of work" \
            if plan.repeat else said
    each = [str(part.stitches.value) for part in plan.parts]
    return f"{', '.join(each[:-1])} and {each[-1]} stitches, in {len(each)} parts"


def holes_given(plan: BandPlan) -> str:
    """Where the holes lie, and what was given up for it."""
    holes = plan.placing
    return f"{holes.working}; not as asked for: {holes.given_up}" if holes else NO_HOLES


def gaps_hung(plan: BandPlan) -> str:
    """How the needles between hung loops follow from the gaps between the holes."""
    gaps: Sequence[int] = plan.closing_gaps
    if gaps:
        sums = ", ".join(f"{gap + 1} − 1 = {gap}" for gap in sorted(set(gaps)))
        return f"one needle fewer than the gaps between the holes: {sums}"
    return "no gap to hang across" if plan.placing else NO_HOLES


def openings_at(plan: BandPlan) -> str:
    """How the openings of a casing were placed."""
    return "two stitches each, three from the middle of their section" if plan.casing.openings \
        else "none but the band's two ends"


def holes_counted(plan: BandPlan) -> str:
    """Why a band has so many holes."""
    if plan.placing is None:
        return NO_HOLES
    asked = plan.band.buttonholes
    assert asked is not None
    if asked.in_hem is not None:
        rest = plan.placing.holes - asked.in_hem.number
        return (f"{asked.in_hem.number} in the hem and {rest} above it, the last at the upper end: "
                f"{plan.placing.holes}")
    if asked.through is not None:
        return (f"{plan.placing.holes}, one of them at {asked.through[plan.size]} from the lower "
                "end, the others shared out below it and above it")
    if asked.number is not None:
        return f"{plan.placing.holes}, as the source says"
    if asked.at is not None:
        return f"{plan.placing.holes}, each where the source puts it"
    assert asked.every is not None
    odd = ", an odd number so that one lies in the middle" if asked.centre_hole else ""
    return (f"about {asked.every} asked for from the start of one hole to the start of the next"
            f"{odd}: {plan.placing.holes} buttonholes{_lie(plan.placing, plan.gauge)}")


def _lie(placing: Placing, gauge: Gauge) -> str:
    """How far apart so many come out, from start to start; gaps can differ by a stitch."""
    spaces = placing.holes - 1
    if not spaces:
        return ""
    each = placing.hole + Fraction(sum(placing.gaps), spaces)
    return f", {Length(each * gauge.stitch)} apart"
