"""Words for how a band begins: its needles, its part of a longer band, how often it is worked.

Source: Mary Anne Oger, "Button detail" (B11).
"""

from __future__ import annotations

from collections.abc import Mapping

from ..catalogue.bands import KINDS, BandKind, Making
from ..fabric.arrangement import repeat_text
from ..markup.html import esc, link
from ..pattern.fabrics import Fabric
from ..plan.band import BandPlan
from ..proof.proof import Strip
from . import lengthwise_instructions
from .band_ends import band_ends
from .begins import back_text
from .buttonhole_text import about_buttonholes, holes_name
from .corner_text import corners_turned
from .mitre_instructions import rest_text
from .rolling import rolls_text
from .terms.schedules import times_text
from .words import joined, stitches


def strip_lead(strip: Strip, fabrics: Mapping[str, Fabric], begins: str) -> str:
    """Return how a band begins, as HTML; `begins` is `begins.begins_text` of it."""
    needles, plan = strip.layout.needles, strip.plan
    ends, kind = band_ends(plan, strip.front), KINDS[plan.band.kind]
    note = f" {esc(ends.note)}" if ends.note else ""
    lies = lengthwise_instructions.head(strip) if plan.is_lengthwise else (
        f"The band has {stitches(len(needles))} on needles <strong>{needles.first} to "
        f"{needles.last}</strong>{_left_out(plan)}. The {ends.first} is at the "
        f"{strip.layout.hem.value}.")
    return (f"<p>{lies}{note}"
            f"{_of_parts(strip)}{begins}{_again(strip)}{_first_of_two(strip)} "
            f"{link(f'../../{kind.page}', f'About the {kind_called(kind)}')}."
            f"{lengthwise_instructions.curls_text(fabrics, plan)}{rolls_text(fabrics, plan)}"
            f"{corners_turned(plan)}{rest_text(plan)}{_graded(plan)}"
            f"{about_buttonholes(plan) if strip.with_holes else ''}</p>")


def kind_called(kind: BandKind) -> str:
    """What a kind of band is called in a sentence: "enclosing band", "shirt collar"."""
    return kind.name if kind.collar or kind.making in (Making.FACING, Making.CASING) else \
        f"{kind.name} band"


def _left_out(plan: BandPlan) -> str:
    """Which needles work, where some are left out."""
    return f", {repeat_text(plan.repeat)} of work" if plan.repeat else ""


def _of_parts(strip: Strip) -> str:
    """Which part of a band this is, and the stitches that its seams will take."""
    part, plan = strip.plan.part, strip.plan
    if part is None:
        return ""
    ends = band_ends(plan, strip.front)
    extra = [f"needle {strip.layout.at(at)} (at the {end})" for at, end, join in
             ((1, ends.first, plan.joins[0]), (plan.stitches.value, ends.last, plan.joins[1]))
             if join]
    hung, takes, each = ("is", "takes", "it") if len(extra) == 1 else ("are", "take", "each")
    but = f" but one leg of the loop beside {each}" if not strip.program.first_row else ""
    return (f" The band is longer than the bed, and is knitted in {part.of} parts: this is part "
            f"{part.number}, from the {esc(ends.first)} to the {esc(ends.last)}. "
            f"{esc(joined(extra)[:1].upper() + joined(extra)[1:])} {hung} for the join and {takes} "
            f"nothing of the edge{but}.")


def _graded(plan: BandPlan) -> str:
    """Why the dial of a band changes from row to row of a layer."""
    inner, outer = plan.row_dials[0], plan.row_dials[-1]
    if inner == outer or (plan.part and plan.part.number > 1):
        return ""
    how = "tighter" if outer.thirds < inner.thirds else "looser"
    return f" The dial changes within each layer, so that the band is {how} towards its outer edge."


def _again(strip: Strip) -> str:
    """An edge that is there more than once, such as the cuff of a pair, takes a band each."""
    times, edge = strip.plan.edge_path.times, band_ends(strip.plan, strip.front).edge
    return (f" Work all of it {times_text(times)}, once for each {esc(edge)}; the bands are alike."
            f"{back_text(strip)}") if times > 1 else ""


def _first_of_two(strip: Strip) -> str:
    """That both bands have the same counts, and why the plain one is knitted first: it checks the
    count (worked example B11)."""
    if strip.with_holes or strip.plan.placing is None or strip.plan.edge_path.fronts:
        return ""
    lets = "can be held to the edge to check the rows" if strip.plan.is_lengthwise else \
        "lets you check the stitch count"
    return (" Both bands have the same stitches and rows. Knit this one first: it "
            f"{lets} before you make {holes_name(strip.plan)} in the other.")
