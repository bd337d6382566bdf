"""Words for the steps at openings and edges: cords, hanging, binding off."""

from __future__ import annotations

from ..catalogue.methods import BIND_OFF_METHODS
from ..machine import edge_steps, steps
from ..machine.needles import Needles
from ..machine.reasons import Reason
from ..machine.step_keys import BindOffMethod
from ..markup.html import anchor, esc
from ..pattern.edges import Offer
from ..program.band_steps import AT_FOLD
from ..proof.proof import Strip
from ..proof.yarn_ends import CLOSING, HOLE
from .band_ends import BandEnds, band_ends, inward, is_band_top
from .cut_lengths import to_cut
from .edge_methods import loosely_text, method_name, method_text, pegs_text
from .explained import why
from .fabric_names import whole_called
from .facing_instructions import hang_facing
from .hanging_text import from_first
from .hole_steps import bind_off_holes, bound_off, push_empty
from .hung_band_instructions import (
    corner_text,
    hang_edge,
    hang_line,
    is_knitted_on,
    point_text,
    table_link,
    through_facing,
    top_text,
    waiting_stitches,
)
from .instruction import Instruction, Moment
from .marked_edge import marked, marks_out
from .pocket_instructions import hang_lining, knit_pocket
from .reason_phrases import reason_begun, reason_text
from .slit_foot import bind_off_foot
from .terms.waiting_names import RIB_FIRST_ROW
from .terms.yarn_names import yarn_name
from .words import counted, named, needles_text, needles_toward, stitches

_CLOSING = "closing-holes.html"


def hanging_anchor(strip: Strip) -> str:
    """The id of the hanging table of a strip."""
    part = f"-{strip.plan.part.number}" if strip.plan.part else ""
    return f"{anchor(strip.plan.band.key)}-{strip.front.value}{part}-hanging"


def knit_with_cord(m: Moment, step: steps.HandKnit) -> Instruction:
    """The stitches of every opening, each with its own cord."""
    if not m.is_band:
        return knit_pocket(m, step)
    length = to_cut(len(step.needles), m.pattern.bed.pitch, HOLE, tails=2)
    lead = (f"Each hole has a separate cord, about {length} long" if len(m.steps) > 1 else
            f"Use a cord about {length} long")
    return Instruction(
        text=f"<b>Knit the buttonhole stitches by hand</b> with "
             f"{yarn_name(step.yarn)}. {lead}:",
        places=_each_hole(m), after="Carriage and row counter stay as they are.",
        how=("buttonholes-by-hand.html#knit", "how to knit the holes by hand"), check=True,
        diagram=True)


def hang(m: Moment, step: edge_steps.Hang) -> Instruction:
    """An edge onto needles; the first time in a program, with what."""
    instruction = _hang(m, step)
    if not m.earlier_of(edge_steps.Hang):
        instruction = instruction._replace(text=f"{instruction.text} Use the transfer tool.")
    return marked(m, step, instruction)


def _table_text(m: Moment) -> str:
    """The hanging table, linked at the first section that a band is hung by."""
    if any(hang.picks for hang in m.earlier_of(edge_steps.Hang)):
        return "hanging table"
    return table_link(hanging_anchor(m.strip))


def _hang(m: Moment, step: edge_steps.Hang) -> Instruction:
    if step.lean is not None:
        return _hang_upper(m, step)
    if step.picks and m.is_band and is_knitted_on(m):
        return hang_edge(m, step, _table_text(m)) if step.onto_empty else hang_line(m, step)
    if m.is_band and step.edge == AT_FOLD:
        return hang_facing(m, step)
    if step.onto_empty:
        return _hang_lower(m, step) if m.is_band else hang_lining(m, step)
    if step.picks:
        return _hang_garment(m, step)
    return _hang_first_row(m, step) if m.is_band else _hang_hem(m, step)


def _hang_upper(m: Moment, step: edge_steps.Hang) -> Instruction:
    loops, lean = len(step.needles), step.lean.value if step.lean else ""
    return Instruction(
        text=f"<b>Hang the edge of each hole towards the fold</b> (now the lower one) on the "
             f"needles above it, on top of the stitches there, the leftmost loop on the leftmost "
             f"needle. A hole of {loops - 1} has {loops} loops here. Hang these {loops} loops on "
             f"the hole's {counted(loops - 1, 'needle')} and on the next needle to the {lean}.",
        places=_each_hole(m), how=(f"{_CLOSING}#hang-upper", "how to find and hang the loops"),
        check=True, diagram=True)


def _hang_lower(m: Moment, step: edge_steps.Hang) -> Instruction:
    return Instruction(
        text=f"The cord of each hole holds {stitches(len(step.needles))}, at the edge towards the "
             f"{'garment' if is_knitted_on(m) else 'waste yarn'} (now above). <b>Hang these "
             "stitches on the empty needles,</b> one on each:",
        places=_each_hole(m),
        how=(f"{_CLOSING}#hang-lower", "how to hang the stitches on the cord"),
        after=f"Every needle from {m.after.loaded.first} to {m.after.loaded.last} holds one "
              "stitch again." if m.after.loaded == m.band else "",
        check=True, diagram=True)


def _hang_hem(m: Moment, step: edge_steps.Hang) -> Instruction:
    over = f"over {named(step.needles)}"
    if m.before and len(step.needles.spans()) > 1 and step.needles == m.before.loaded:
        over = (f"over the {counted(len(step.needles), 'needle')} that hold a stitch, "
                f"{step.needles.first} to {step.needles.last}")
    return Instruction(
        text=f"<b>Fold the {'rib' if step.edge == RIB_FIRST_ROW else 'hem'} up towards you</b> "
             f"and hang {esc(step.edge)}, now just below the ravel cord, {over}, the leftmost "
             f"loop on the leftmost needle.{_half_loop(step)}",
        how=("hanging-first-row.html", "how to hang the first row"), check=True)


_TAIL = "Row 1 ended there; the yarn's tail is at the other end."


def _half_loop(step: edge_steps.Hang) -> str:
    return (f" The half loop at the {step.half_at.value} end is one of them: it goes on "
            f"{_end(step.needles, step.half_at)}.{why(_TAIL)}" if step.half_at else "")


def _hang_garment(m: Moment, step: edge_steps.Hang) -> Instruction:
    plan = m.strip.plan
    ends = band_ends(plan, m.strip.front)
    within = stitches(plan.band.stitches_in)
    table = _table_text(m)
    if len(plan.meetings) > 1:
        return _hang_section(m, step, ends, table)
    edge = plan.meetings[0].section.title
    return Instruction(
        text=f"{_lay_garment(m, ends)}<b>Hang the "
             f"{esc(edge.replace('-', ' ').replace('_', ' '))}</b> of "
             f"the garment's {ends.edge} over needles "
             f"{from_first(step.needles, m.strip.layout.hem)}, one loop on each. "
             f"Go in about {within} from the edge, which then hangs in "
             "front of the needles."
             f"{through_facing(plan.meetings[0], step.needles, m.strip.layout)}"
             + why(f"Hang both ends first, then the middle, then between, as the {table} says."),
        how=("hanging-an-edge.html", "how to hang an edge"), check=True)


def _lay_garment(m: Moment, ends: BandEnds) -> str:
    """How the garment is laid before its edge is hung: a sentence or two, and a space."""
    side, whole = m.strip.layout.hem.value, esc(whole_called(m.pattern.garment).lower())
    return (f"<b>Lay the {whole} back over the bed,</b> on the cloth, with its right side up, its "
            f"body away from you and the {ends.first} on the {side}. Bring its edge down over the "
            "needles towards you. ")


def _hang_section(m: Moment, step: edge_steps.Hang, ends: BandEnds, table: str) -> Instruction:
    """One section of several: waiting stitches one for one, rows as the table says."""
    number = 1 + sum(bool(hang.picks) for hang in m.earlier_of(edge_steps.Hang))
    meeting = m.strip.plan.meetings[number - 1]
    section = meeting.section
    lies = _lay_garment(m, ends) if number == 1 else ""
    each = ", one loop on each" * (section.offer is not Offer.WAITING)
    how = (waiting_stitches(section, m, step) if section.offer is not Offer.ROWS else
           top_text(section) if is_band_top(section) else
           inward(section, m.strip.plan.band.stitches_in)
           + through_facing(meeting, step.needles, m.strip.layout)
           + corner_text(m, step) + point_text(m, step, number)
           + why(f"Hang both ends first, then the middle, then between, as the {table} says."))
    return Instruction(
        text=f"{lies}<b>Hang section {number}, {esc(section.called)},</b> over needles "
             f"{from_first(step.needles, m.strip.layout.hem)}{each}. {how}",
        how=("hanging-an-edge.html", "how to hang an edge") if number == 1 else None,
        check=number == len(m.strip.plan.meetings))


def _hang_first_row(m: Moment, step: edge_steps.Hang) -> Instruction:
    return Instruction(
        text=f"<b>Fold the band up towards you</b> around the edge and hang "
             f"{esc(step.edge)}, now just below the ravel cord, over the same needles, the "
             f"leftmost loop on the leftmost needle.{_half_loop(step)}",
        how=("hanging-first-row.html", "how to hang the first row"), check=True)


def bind_off(m: Moment, step: edge_steps.BindOff) -> Instruction:
    """Needles bound off: across the holes, or the whole band."""
    if step.keep_last and m.is_band:
        return bind_off_holes(m, step) if step.layers == 1 else _bind_off_holes(m, step)
    return _bind_off_some(step) if step.keep_last else _bind_off_all(m, step)


def _bind_off_some(step: edge_steps.BindOff) -> Instruction:
    return Instruction(text=f"<b>Bind off needles {needles_toward(step.needles, step.toward)}</b> "
                     f"towards the {step.toward.value}, {method_name(step)}; the last stitch "
                            "stays.", check=True)


def _bind_off_holes(m: Moment, step: edge_steps.BindOff) -> Instruction:
    spare = to_cut(len(m.band), m.pattern.bed.pitch, CLOSING)
    places = []
    for one in m.steps:
        assert isinstance(one, edge_steps.BindOff)
        places.append(f"{_hole(one)}: {bound_off(m, one)}")
    begin = (f" Begin at {reason_text(step)}. Carry the yarn loosely from hole to hole, between "
             "the layers.") * (len(m.steps) > 1)
    return Instruction(
        text=f"<b>Bind off across each hole,</b> {method_name(step)}, towards the "
             f"{step.toward.value}, all loops of a needle together. Use a spare end of "
             f"{yarn_name(step.yarn)} about {spare} long, not the one in the feeder.{begin}",
        places=tuple(places),
        after="Then lift the yarn off the pegs. The empty needles stay in working "
              "position.",
        how=(f"{_CLOSING}#bind-off", "how to bind off around the gate pegs"), check=True,
        diagram=True)


def _bind_off_all(m: Moment, step: edge_steps.BindOff) -> Instruction:
    if step.reason is Reason.FOOT_OF_PLACKET:
        return bind_off_foot(m, step)
    cut = isinstance(next(iter(m.later), None), steps.Unthread)
    push = "" if cut else f" {push_empty(many=len(step.needles) > 1)}"
    if step.method is not BindOffMethod.CHAINED:
        if len(step.needles) == 1:
            return Instruction(text=f"<b>Take off the last stitch,</b> {step.needles}: keep its "
                               f"loop in your fingers.{push}", check=not cut)
        loosely, pegs = loosely_text(m.work, step), pegs_text(m, step)
        method = method_text(BIND_OFF_METHODS[step.method])
        return Instruction(
            text=f"<b>Bind off all {stitches(len(step.needles))},</b> "
                 f"{needles_toward(step.needles, step.toward)}, towards the {step.toward.value}, "
                 f"{method}{loosely}.{pegs} Keep the last loop on the tool.{push}",
            check=not cut)
    return Instruction(
        text=f"<b>Chain off the stitches</b> with the latch tool, from "
             f"{_end(step.needles, step.toward.other)} to {_end(step.needles, step.toward)}, and "
             f"fasten off the last with the yarn's end. {push_empty(many=True)}",
        how=("loose-row-and-chain-off.html#chain-off", "how to chain off"), check=True)


def _end(needles: Needles, side: steps.Side) -> str:
    return (needles.first if side is steps.Side.LEFT else needles.last).name


def draw_cord(m: Moment, step: edge_steps.DrawCord) -> Instruction:
    """Cords of holes (in the step that hangs their stitches), ravel cord, or waste yarn, out."""
    if step.edge in m.program.on_waste:
        return Instruction(text="Draw the waste yarn out when every stitch is on a needle."
                                f"{marks_out(m)}")
    if step.edge == m.program.first_row:
        return Instruction(text=f"<b>Draw out the {yarn_name(m.program.cord_yarn)}.</b>"
                           + why("The joining row holds every loop now. "
                                 "The waste yarn falls away."),
                           how=("hanging-first-row.html#draw-cord", "how to draw the cord"),
                           check=m.is_band)
    many = f"the {len(m.steps)} cords" if len(m.steps) > 1 else "the cord"
    return Instruction(text="Take the clips off, and <em>count them</em> as you put them away. "
                     f"<b>Draw out {many}</b> gently from one end, now that both edges of every "
                     "hole are safe.")


def _each_hole(m: Moment) -> tuple[str, ...]:
    return tuple(f"{_hole(step)}: <b>{needles_text(_needles(step))}</b>" for step in m.steps)


def _hole(step: steps.Step) -> str:
    return reason_begun(step)


def _needles(step: steps.Step) -> Needles:
    needles = getattr(step, "needles", None)
    assert isinstance(needles, Needles)
    return needles
