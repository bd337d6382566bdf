"""Words for bands whose rows run along their edge: head, marks, holes, sewing, the sewing table."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import pairwise

from ..catalogue.bands import KINDS
from ..core.counts import decimal
from ..core.units import Length
from ..fabric.arrangement import repeat_text
from ..machine import edge_steps, steps
from ..machine.needles import Needle, Needles
from ..machine.step_keys import Topic
from ..machine.steps import Side
from ..markup.html import anchor, esc, link
from ..pattern.edges import Offer
from ..pattern.fabrics import Fabric
from ..plan.band import BandPlan
from ..plan.sense import curls_in
from ..plan.sewn_on import QUARTERS, met
from ..proof.proof import Strip
from ..proof.yarn_ends import hole_end, sewing_end, short_end
from ..shape.edging import Stretch
from .band_ends import band_ends
from .cut_lengths import to_sew
from .hanging_text import hem_joined
from .instruction import Instruction, Moment
from .reason_phrases import reason_begun
from .words import counted, joined, needles_text, stitches

MATTRESS = ("mattress-seam-by-rows.html", "how to sew row to row")
_FRACTIONS = {1: "¼", 2: "middle", 3: "¾", QUARTERS: "end"}


def sewing_anchor(strip: Strip) -> str:
    """The id of the sewing table of a strip."""
    return f"{anchor(strip.plan.band.key)}-{strip.front.value}-sewing"


def head(strip: Strip) -> str:
    """How the band begins: its stitches, its rows, and which edge is sewn."""
    plan, ends, needles = strip.plan, band_ends(strip.plan, strip.front), strip.layout.needles
    side = strip.layout.hem.other.value
    where, wide = f"{needles.first} to {needles.last}", ""
    if 1 < len(needles.spans()) < 4:
        where = needles_text(needles)
        wide = f" With those left out of work it takes {counted(needles.across, 'needle')}."
    return (f"The band has {stitches(len(needles))} on needles <strong>{where}</strong>, and "
            f"{counted(plan.stitches.value, 'row')} from the {ends.first} "
            f"to the {ends.last}.{wide} The edge at the {side} of the bed is sewn to the garment."
            f"{_set_out(plan, needles)}{_layers(strip)}")


def _set_out(plan: BandPlan, needles: Needles) -> str:
    """How the needles lie that work, in a sentence that begins with a space, or nothing. More
    than one stand side by side at either edge: a seam needs them so (common practice, no source).
    """
    first, *others = needles.spans()
    if plan.repeat is None or not others:
        return ""
    beside = first[1].place - first[0].place + 1
    but = f", but {beside} side by side at either edge: one for the seam, and a firm free edge" \
        if beside > 1 else ""
    return f" Its needles are set {repeat_text(plan.repeat)} of work{but}."


def _layers(strip: Strip) -> str:
    """Which half of a folded band lies outside: the one beside the edge that is sewn first."""
    if not KINDS[strip.plan.band.kind].doubled:
        return ""
    every = list(strip.layout.needles)
    half = len(every) // 2
    low, high = f"{every[0]} to {every[half - 1]}", f"{every[half]} to {every[-1]}"
    outer, inner = (low, high) if strip.layout.hem.other is Side.LEFT else (high, low)
    return f" The outer layer is knitted on {outer}, the inner one on {inner}."


def curls_text(fabrics: Mapping[str, Fabric], plan: BandPlan) -> str:
    """That a plain strip of one layer curls, in a sentence that begins with a space, or none."""
    if not curls_in(fabrics, plan.band):
        return ""
    return (" One layer of stocking stitch curls to its purl side along the free edge: the depth "
            "is that of the band laid flat.")


def choose_one(m: Moment, step: steps.Attend) -> Instruction:
    """The needles of one hole, at the row where it is made."""
    spans, placing = step.needles.spans(), m.strip.plan.placing
    assert placing is not None
    two = " in each layer" if len(spans) > 1 else ""
    size = stitches(len(step.needles) // len(spans))
    return Instruction(
        text=f"<b>Make buttonhole {step.number} of {placing.buttonhole_count} here,</b> of "
             f"{size}{two}. Bring its needles, {needles_text(step.needles)}, to "
             "upper working position.",
        diagram=True, chosen=step.needles)


def hole_named(m: Moment, step: steps.Step) -> str:
    """What a hole is called, and in which of two layers it lies: that which is sewn first lies
    outside."""
    reason = reason_begun(step)
    plan = m.strip.plan
    if not (plan.is_lengthwise and KINDS[plan.band.kind].doubled):
        return reason
    return f"{reason}, {'outer' if step is m.steps[0] else 'inner'} layer"


def mark_quarter(m: Moment, step: steps.Attend) -> Instruction:
    """The thread at a row that the sewing table names."""
    here = next(one for one in met(m.strip.plan) if one.row == m.after.counter)
    section = m.strip.plan.meetings[here.number - 1].section
    ends = f" Here the {esc(section.called)} ends." if here.quarter == QUARTERS else ""
    return Instruction(text=f"<b>Tie a thread into the edge</b> at this row, beside "
                       f"{needles_text(step.needles)}.{ends}")


def mark_button(m: Moment, step: steps.Attend) -> Instruction:
    """The thread where a button goes, on the band without holes: in the middle of a layer that is
    folded, since the fold shuts its edge in, and with its knot outside (common practice, no
    source)."""
    if KINDS[m.strip.plan.band.kind].doubled:
        return Instruction(text="<b>Draw both ends of a thread of another colour</b> round the "
                           f"stitch on {needles_text(step.needles)} to the knit side, and tie "
                           f"them there: button {step.number} goes here.")
    return Instruction(text="<b>Tie a thread of another colour into the edge</b> at this row, "
                       f"beside {needles_text(step.needles)}: button {step.number} goes here.")


def sew_on(m: Moment, step: steps.Attend) -> Instruction:
    """The band to the edge; one that is folded by its other edge as well."""
    plan, strip = m.strip.plan, m.strip
    ends, side = band_ends(plan, strip.front), strip.layout.hem.other.value
    table = link(f"#{sewing_anchor(strip)}", "sewing table")
    ease = (" Stretch the band slightly and evenly from thread to thread, by about "
            f"{decimal(plan.band.stretch * 100, 1)} %.") if plan.band.stretch else ""
    first = (f"<b>Sew the band to the {esc(ends.edge)},</b> with about "
             f"{to_sew(sewing_end(plan))} of main yarn. Its cast-on edge lies at the {ends.first}, "
             f"and the edge that was at the {side} of the bed beside the garment: both knit sides "
             f"face outwards. First pin each thread to its place in the {table}. Sew a stitch "
             f"in from both edges{_through(plan)}.{_inside_chain(plan)}{ease}")
    if not KINDS[plan.band.kind].doubled:
        return Instruction(text=first, how=MATTRESS)
    middle = joined([str(n) for n in _middle(strip)])
    return Instruction(
        text=f"{first} Take the pins and the threads of the edge out again, and count them."
             f"{_holes_darned(m)} Then fold the band along its middle, between {middle}, its purl "
             "side inside. Sew its other edge down behind the seam, row for row, with another "
             f"{to_sew(sewing_end(plan))}. Sew both short ends shut, the two layers together, each "
             f"with about {to_sew(short_end(plan))} of the same yarn.",
        how=MATTRESS)


def _holes_darned(m: Moment) -> str:
    """The ends at holes of either layer, before a fold shuts them in; "" where there are none.

    loose-row-and-chain-off.md, Finishing by hand (common practice, no source)."""
    holed = any(isinstance(step, edge_steps.BindOff) and step.keep_last for step in m.earlier)
    return (" <b>Darn in the ends at every hole,</b> in either layer, on the purl side: the fold "
            "shuts them in.") * holed


def _through(plan: BandPlan) -> str:
    """Where the edge lies in two layers, or nothing."""
    thick = [f"the {esc(m.section.called)}" for m in plan.meetings if m.section.layers > 1]
    return f", through both layers of {joined(thick)}" if thick else ""


def _inside_chain(plan: BandPlan) -> str:
    """How rows are sewn to bound-off stitches, in a sentence that begins with a space, or nothing
    (common practice, no source)."""
    bound = [m.section for m in plan.meetings if m.section.offer is Offer.BOUND_OFF]
    left = "leave the outermost stitch for the side seam. Take each other" if any(
        section.at_seam for section in bound) else "take each"
    return (f" Where the edge is bound off, {left} stitch, inside the chain, to a bar of the "
            "band, and now and then to two.") * bool(bound)


def _middle(strip: Strip) -> tuple[Needle, Needle]:
    """The two needles between which a band is folded."""
    every = list(strip.layout.needles)
    half = len(every) // 2
    return every[half - 1], every[half]


def join_holes(m: Moment, step: steps.Attend) -> Instruction:
    """Holes of two layers, made one of."""
    return Instruction(text="<b>Sew each buttonhole's two layers together</b> round its edge in "
                       "buttonhole stitch, each with about "
                       f"{to_sew(hole_end(m.strip.plan))} of split main yarn.")


def table_title(edge: str) -> str:
    """The heading of the table."""
    return f"Sewing table, {edge}"


def table_name(band: str, edge: str) -> str:
    """The name of the table of one band."""
    return f"{table_title(edge)}, {band}"


def lead(strip: Strip) -> str:
    """What the table counts from, and how long band and edge are, as HTML."""
    plan = strip.plan
    ends, threads = band_ends(plan, strip.front), len(met(plan)) - 1
    long, own = Length(plan.edge_path.length), Length(plan.stitches.value * plan.gauge.stitch)
    marked = " A thread marks each row of this table except the last." * (threads > 0)
    return (f"<p>Rows of the band are counted from its cast-on edge, which lies at the "
            f"{esc(ends.first)}.{marked} The band is {own} long, and the edge to which it is sewn "
            f"is {long} long. The edge is counted the same way{_down(plan)}."
            f"{_first_rows(plan)}{_hem_row(plan)}</p>")


def _down(plan: BandPlan) -> str:
    """Which parts of the edge are counted against their knitting."""
    down = [f"the {esc(m.section.called)}" for m in plan.meetings if m.section.falls]
    return f", so {joined(down)} from the top down" if down else ""


def _first_rows(plan: BandPlan) -> str:
    """Where row 1 lies above bound-off stitches, in a sentence that begins with a space."""
    sections = [meeting.section for meeting in plan.meetings]
    return "".join(
        f" Row 1 of the {esc(section.called)} is the first above the {esc(before.called)}."
        for before, section in pairwise(sections)
        if before.offer is not Offer.ROWS and section.offer is Offer.ROWS and not section.falls)


def _hem_row(plan: BandPlan) -> str:
    """Which row of a side joined the hem, in a sentence that begins with a space, or nothing."""
    sections = [meeting.section for meeting in plan.meetings]
    return "".join(
        hem_joined(section, named=True,
                   begins=before is not None and before.stretch is Stretch.HEM)
        for before, section in zip([None, *sections], sections, strict=False))


HEAD = ("Row of the band", "Where", "Place of the edge")


def rows(plan: BandPlan) -> Sequence[tuple[str, str, str]]:
    """The lines of the table."""
    several = len(plan.meetings) > 1
    out = []
    for one in met(plan):
        section = plan.meetings[one.number - 1].section
        what = "stitch" if section.offer is not Offer.ROWS else \
            "row or stitch" if section.level else "row"
        name = f"{section.called}, " if several else ""
        out.append((str(one.row), esc(f"{name}{_FRACTIONS[one.quarter]}"),
                    f"{what} {one.place} of {section.places}"))
    return out


def at_threads(plan: BandPlan, distances: str) -> str:
    """Where buttons go on a band of which each button's row was marked; `distances` is a link to
    where they are listed."""
    if not plan.is_lengthwise:
        return ""
    where = "each at its thread" if KINDS[plan.band.kind].doubled else \
        "each at the row of its thread, in the middle of the band"
    return f"{where}. Check their places by the {distances}."


ATTENTION = {Topic.MARK_QUARTER: mark_quarter, Topic.MARK_BUTTON: mark_button,
             Topic.JOIN_HOLES: join_holes, Topic.SEW_ON_BAND: sew_on}
