"""Words for the figures of a band: what each is called, and what is said of several at once."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from ..core.branched import shown
from ..core.counts import Unit
from ..core.expression import Chosen, Expression, Sum, Term
from ..core.operands import Role
from ..fabric.arrangement import repeat_text
from ..pattern.holes import ButtonholeKind
from ..pattern.model import Fold
from ..plan.band import BandPlan
from ..plan.buttonholes import Placing
from ..plan.hole_sums import filled, hole_ends
from ..program.bands.buttonhole_steps import buttonhole_kind
from .terms.working import working, working_of
from .words import stitches

LABELS: Mapping[str, str] = {
    "edge_rows": "Rows of the edge",
    "band_stitches": "Stitches of the band",
    "left_edge_rows": "Rows of the edge, left armhole",
    "left_band_stitches": "Stitches of the band, left armhole",
    "band_rows": "Rows of the band",
    "cast_on_stitches": "Stitches to cast on",
    "depth_stitches": "Stitches across the band that are seen",
    "mitre_pairs": "Pairs of stitches by which each corner is mitred",
    "point_stitches": "Stitches of each point",
    "outer_stitches": "Stitches at the outer edge",
    "short_row_pairs": "Pairs of short rows",
    "back_rows": "Rows at the back of the neck",
    "parts": "Parts (the band is longer than the bed)",
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
RIGHT_EDGE = "Rows of the edge, right armhole"
RIGHT_BAND = "Stitches of the band, right armhole"
ROWS_LIE: Mapping[str, str] = {
    "lower_end": "Rows before the first hole, from the hem",
    "gaps": "Rows from one hole to the next, less the row of the hole",
    "upper_end": "Rows after the last hole",
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
    return "the middle of the slits" if buttonhole_kind(plan) is ButtonholeKind.SLIT else \
        "the buttonholes"


def layer(first: Expression, second: Expression, which: str = "") -> str:
    """The rows of a layer, added up: those up to the holes, and those after them."""
    rows = Sum((Term(first, Role.NUMBER), Term(second, Role.NUMBER)))
    return f"{working(rows, Unit.ROWS)}{which}"


FIRST, SECOND = " of the first layer", " of the second layer"


def after_fold(plan: BandPlan, before: Expression, after: Expression) -> str:
    """Why so many rows lie between the fold and the holes of the second layer."""
    return f"as many as from {_holes_at(plan)} to the fold; {layer(after, before, SECOND)}"


def to_finish(plan: BandPlan, before: Expression, after: Expression) -> str:
    """Why so many rows lie after the holes of the second layer."""
    return f"as many as before {_holes_at(plan)}; {layer(after, before, SECOND)}"


def parts_cut(plan: BandPlan) -> str:
    """Where a band longer than the bed is divided, and the stitches of its parts."""
    if not plan.parts:
        return ONE_PIECE
    workings = [working_of(part.stitches) for part in plan.parts]
    text = f"each part {workings[0]}" if len(set(workings)) == 1 else "; ".join(workings)
    where = " and ".join(part.part.last for part in plan.parts if part.part and part.part.last)
    return f"divided at the {where}: {text}"


def on_the_bed(plan: BandPlan) -> str:
    """The stitches of a band, or of each of its parts: "87 and 88 stitches, in 2 parts",
    or "2 parts of 87 stitches each".

    With needles left out of work: "36 stitches on 52 needles, 2 in, 1 out of work".
    """
    if plan.is_lengthwise:
        return f"{stitches(plan.needles)}, {Unit.ROWS.of(plan.stitches.value)}"
    if not plan.parts:
        text = stitches(plan.stitches.value)
        return f"{text} on {plan.widest} needles, {repeat_text(plan.repeat)} of work" \
            if plan.repeat else text
    each = [str(part.stitches.value) for part in plan.parts]
    if len(set(each)) == 1:
        return f"{len(each)} parts of {each[0]} stitches each"
    return f"{', '.join(each[:-1])} and {each[-1]} stitches, in {len(each)} parts"


def holes_given(plan: BandPlan) -> str:
    """Where the holes lie, and what was given up for it."""
    if plan.placing is None:
        return NO_HOLES
    unit = plan.stitches.unit
    return (f"{holes_fill(plan.placing, unit)}; what had to be changed: "
            f"{given_up(plan.placing, unit)}")


def holes_fill(placing: Placing, unit: Unit) -> str:
    """The sum that shows the holes fill the band; `unit` is what lies along its edge."""
    return working(filled(placing), unit)


def given_up(placing: Placing, unit: Unit = Unit.STITCHES) -> str:
    """What was given up to place the holes; "nothing" where the numbers divided. `unit` is what
    lies along the band's edge."""
    one = "row" if unit is Unit.ROWS else "stitch"
    if placing.fixed:
        return f"nothing, every hole lies on the {one} nearest to where the designer puts it"
    parts, spec = [], placing.spec
    for name, end in zip(("lower end", "upper end"), hole_ends(placing), strict=True):
        made = shown(end)
        if isinstance(made, Chosen):
            grown = spec.usual_upper if name == "upper end" else None
            wanted = made.candidates[0].value if grown is None else grown
            why = "" if grown is None else ", so that no buttonhole lies on a join"
            where = "before the first hole" if name == "lower end" else "after the last one"
            parts.append(f"{unit.of(int(made.value))} {where} instead of {wanted}{why}")
    if placing.stitches != spec.stitches:
        parts.append(f"{unit.of(placing.stitches)} in the band instead of {spec.stitches}")
    gaps = placing.gaps
    odd = min(map(gaps.count, set(gaps))) if len(set(gaps)) > 1 else 0
    if odd:
        wider = max(gaps) - min(gaps)
        parts.append(f"{odd} of {len(gaps)} gaps differ{'s' if odd == 1 else ''} by "
                     f"{f'one {one}' if wider == 1 else unit.of(wider)}")
    return "; ".join(parts) or f"nothing, the {one}{'s' if one == 'row' else 'es'} divide evenly"


def gaps_hung(gaps: Sequence[Expression], placed: bool) -> str:
    """How the needles between hung loops follow from the gaps between the holes."""
    if gaps:
        sums = dict.fromkeys(working(one, Unit.NEEDLES)
                             for one in sorted(gaps, key=lambda one: one.value))
        return f"one needle fewer than the gaps between the holes: {', '.join(sums)}"
    return "no gap to hang across" if placed else NO_HOLES


def openings_at(plan: BandPlan) -> str:
    """How the openings of a casing were placed."""
    return "two stitches each, three from the middle of their section" if plan.casing.openings \
        else "none but the band's two ends"


def holes_counted(number: Expression, placed: bool) -> str:
    """Why a band has so many holes."""
    return working(number, Unit.HOLES) if placed else NO_HOLES
