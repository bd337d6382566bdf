"""Words for the threads and pins that mark the rows of an edge while it is hung."""

from __future__ import annotations

from itertools import takewhile

from ..catalogue.edge_roles import EdgeRole, role_of
from ..machine import edge_steps, steps
from ..machine.step_keys import Topic
from ..program.bands.hung import SEAM_LINE
from ..proof.proof import Strip
from .instruction import Instruction, Moment
from .words import counted, joined

# The thread lies in the last row below the armhole (common practice, no source).
UNDERARMS = (" The armhole marks show the underarms: section 1 begins just above the back's, "
             "section 2 ends just above the front's.")
TIED = "the two threads tied in where the neck begins"


def marked(m: Moment, step: edge_steps.Hang, base: Instruction) -> Instruction:
    """The step with where its edge is marked, and where the marks come out again.

    They come out as soon as the whole edge hangs: a fold would shut them in (common practice, no
    source).
    """
    if _marks_now(m, step):
        base = base._replace(text="<b>Mark the rows of the edge</b> with threads or pins, as "
                                  f"the hanging table says.{_tied_text(m.strip)} {base.text}")
    draws = m.later[:1] and isinstance(m.later[0], edge_steps.DrawCord) and \
        m.later[0].edge in m.program.on_waste
    out = "" if draws else marks_out(m, step)
    return base._replace(text=f"{base.text}{out}") if out else base


def marks_out(m: Moment, *now: edge_steps.Hang) -> str:
    """That the marks of a marked edge come out, where its last section hangs."""
    hung = [hang for hang in (*m.earlier_of(edge_steps.Hang), *now) if _is_edge(hang)]
    last = hung and not any(map(_is_edge, _hung_next(m))) and (not now or now[-1] is hung[-1])
    but = "" if not m.is_band else ", the tied-in thread too" if takes_tied(m.strip) else \
        but_tied(m.strip)
    return f" Take the threads or pins out again{but}, and count them." if last and any(
        _is_marked(m, hang) for hang in hung) else ""


def takes_tied(strip: Strip) -> bool:
    """True where the thread of a front, tied in where its neck begins, comes out with the marks of
    this band's edge."""
    return not _is_armhole(strip) and any(
        meeting.section.tied for meeting in strip.plan.meetings) and any(
        hang.takes_marked_rows and _is_edge(hang) for hang in strip.program.of(edge_steps.Hang))


def but_tied(strip: Strip) -> str:
    """That the threads of both fronts stay where this edge lies between them: a later one needs
    them. Of an edge in parts the one before has taken its thread out."""
    between = strip.plan.part is None and not takes_tied(strip) and any(
        meeting.section.above_tied for meeting in strip.plan.meetings)
    return f", but not {TIED}" * between


def _tied_text(strip: Strip) -> str:
    """What the thread marks that was tied into a front where its neck begins, which threads the
    edge lies between, and those where an armhole begins that is not shaped there."""
    meetings = strip.plan.meetings
    if _is_armhole(strip):
        return UNDERARMS * any(meeting.section.tied for meeting in meetings)
    if but_tied(strip):
        return f" Its ends lie just above {TIED}."
    return "".join(" The thread tied in where the neck begins marks the upper end of "
                   f"{f'section {n}' if len(meetings) > 1 else 'the edge'}."
                   for n, meeting in enumerate(meetings, 1) if meeting.section.tied)


def _is_armhole(strip: Strip) -> bool:
    """True for a band round an armhole, whose threads stay in until the side seams are sewn."""
    return role_of(strip.plan.band.garment_edge) is EdgeRole.ARMHOLE


def _marks_now(m: Moment, step: edge_steps.Hang) -> bool:
    """True where rows are marked: before the first section of the garment's edge hangs."""
    before = m.earlier_of(edge_steps.Hang)
    return not any(hang.picks for hang in before) and bool(step.picks) and any(
        _is_marked(m, hang) for hang in (step, *_hung_next(m)))


def _hung_next(m: Moment) -> tuple[edge_steps.Hang, ...]:
    """What else is hung before the next row."""
    until = takewhile(lambda step: not isinstance(step, steps.Knit), m.later)
    return tuple(step for step in until if isinstance(step, edge_steps.Hang))


def _is_edge(step: edge_steps.Hang) -> bool:
    """True for the garment's edge; the line that closes a band is no such edge."""
    return bool(step.picks) and step.edge != SEAM_LINE


def _is_marked(m: Moment, step: edge_steps.Hang) -> bool:
    """True for a garment's edge by its rows."""
    return step.takes_marked_rows and m.is_band and step.edge != SEAM_LINE


def count_back(m: Moment, step: steps.Attend) -> Instruction:
    """What is counted when an edge's band is finished: cords, clips, pins and threads."""
    cords = sum(bool(step.cord) for step in m.earlier_of(steps.HandKnit))
    counted_in = [counted(cords, "buttonhole cord"), counted(2 * cords, "clip")] if cords else []
    if m.program.cord_yarn:
        counted_in.append("the ravel cord")
    if any(s.marks for s in m.earlier if not isinstance(s, steps.Attend)
           or s.to != Topic.CLIP_ENDS):
        counted_in.append("every pin and thread of this edge")
    but = but_tied(m.strip)
    return Instruction(text=f"<b>Count everything back in:</b> {joined(counted_in)}{but}. Nothing "
                     f"{'else ' * bool(but)}may stay in the work.",
                       how=("markers.html#out", "how to take markers out"))
