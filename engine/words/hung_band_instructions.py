"""Words for bands that are knitted onto a hung edge: the way on, the closing line."""

from __future__ import annotations

from ..catalogue.bands import KINDS
from ..machine import edge_steps, steps
from ..machine.needles import NONE, Needles
from ..machine.reasons import Reason
from ..machine.steps import Side
from ..markup.html import esc, link
from ..pattern.edges import Offer
from ..plan.meeting import Meeting
from ..program.layout import Layout, sections
from ..program.waiting import faced_needles
from ..shape.edging import Section
from .band_ends import BandEnds, band_ends, inward, is_band_top, is_taken_by_rows
from .explained import why
from .fabric_names import whole_called
from .facing_instructions import fill_gaps, left_empty
from .filled import under_neighbour
from .hanging_text import from_first, row_below
from .instruction import Instruction, Moment
from .pocket_instructions import POCKET_HOW
from .words import counted, joined, named, needles_text, stitches

HANGING = "hanging-an-edge.html#knitted-on"


def top_text(section: Section) -> str:
    """How the short end of a front band is hung: closed where it has two layers, else open."""
    end = "through both layers of the band's closed end" if section.layers > 1 else \
        "along the open short end of the band's single layer"
    return f"One loop on each needle, {end}, a stitch from its edge."


def is_knitted_on(m: Moment) -> bool:
    """True for a band that is knitted onto its edge, not closed around it."""
    return not m.program.first_row


def is_hanging(m: Moment) -> bool:
    """True while a band's edge is hung, up to the next row."""
    last = next((s for s in reversed((*m.earlier, *m.steps))
                 if isinstance(s, steps.Knit | edge_steps.Hang)), None) if m.is_band else None
    return isinstance(last, edge_steps.Hang) and bool(last.picks)


def hang_edge(m: Moment, step: edge_steps.Hang, table: str) -> Instruction:
    """The garment's edge, or one section of it, on bare needles."""
    plan = m.strip.plan
    ends = band_ends(plan, m.strip.front)
    number = 1 + sum(bool(step.picks) for step in m.earlier_of(edge_steps.Hang))
    meeting = plan.meetings[number - 1]
    section = meeting.section
    whole = sections(plan, m.strip.layout)[number - 1][2]
    what, which = (f"the {ends.edge}{ends.of_it}", "") if is_taken_by_rows(plan) else (
        f"section {number}", f": {esc(section.called)}")
    how = inward(section, plan.band.stitches_in, ", one loop on each needle")
    how += through_facing(meeting, whole, m.strip.layout)
    if is_band_top(section):
        how = top_text(section)
    elif section.offer is Offer.CORD:
        how = POCKET_HOW[section.stretch].format(but=left_empty(whole - step.needles))
    elif section.offer is not Offer.ROWS:
        how = waiting_stitches(section, m, step, whole - step.needles)
    return Instruction(
        text=f"{_lies(m, ends) if number == 1 else ''}<b>Hang {what} on the empty "
             f"{_needle(whole, m.strip.layout.hem)}</b>{which}. {how}{corner_text(m, step)}"
             f"{point_text(m, step, number)}"
             + (why(f"Hang both ends first, then the middle, then between, as the {table} says.")
                if section.offer is Offer.ROWS else ""),
        how=(HANGING, "how to hang an edge") if number == 1 else None,
        check=number == len(plan.meetings))


def through_facing(meeting: Meeting, needles: Needles, layout: Layout) -> str:
    """At the top of a front edge, before a neck's facing that is turned in: through that too."""
    faced = faced_needles(meeting, needles, layout.hem)
    return (f" On {needles_text(faced)} go through the facing too, which lies behind the edge "
            "there." if faced else "")


def point_text(m: Moment, step: edge_steps.Hang, number: int) -> str:
    """Where the second side of a V is hung: which loop the needles beside its point take.

    Both lines come down beside their own edges, and each keeps its lowest row (common practice, no
    source).
    """
    plan, corner, hem = m.strip.plan, m.strip.plan.edge_path.corner, m.strip.layout.hem
    section = plan.meetings[number - 1].section
    at = number - 1 - (corner.own if corner else 0)
    if corner is None or at < 1 or section not in plan.edge_path.sections or \
            plan.edge_path.sections.index(section) != corner.before + corner.own:
        return ""
    before = sections(plan, m.strip.layout)[at - 1][2]
    own = sections(plan, m.strip.layout)[number - 1][2]
    last, first = (before.last, own.first) if hem is Side.LEFT else (before.first, own.last)
    between = "only the point's own stitch" if corner.own else "nothing"
    return (" At the point of the V both lines come together. "
            f"{last} has the lowest row of section {at} and {first} takes the lowest row of this "
            f"one, each loop {stitches(plan.band.stitches_in)} in from its own "
            f"edge. Hang {between} between them.")


def corner_text(m: Moment, step: edge_steps.Hang) -> str:
    """Where a side of rows is hung that meets stitches that wait: how the line comes out to the
    edge there, and a loop of the corner too.

    The corner's stitches lie between the two; bands/facing.md (common practice, no source).
    """
    deep, hem = m.strip.plan.band.stitches_in, m.strip.layout.hem
    many = min(deep + 1, len(step.needles))
    between = [str(one) for one in range(many - 2, 0, -1)]
    loops, far = counted(many, "loop"), stitches(many - 1)
    out = ", then ".join((far, *between, "none"))
    back = ", then ".join(("none", *between[::-1], far))
    begins = step.needles.first if hem is Side.LEFT else step.needles.last
    how = {True: f"With the first {loops}, from the corner, go in from the edge: {back}.",
           False: f"With the last {loops}, up to the corner, come out to the edge: go in {out}."}
    alone = "Take the one loop of this section at the edge itself."
    return "".join(
        f" Lift a loop of the corner, beside the stitches that wait, onto {needle} too, so that no "
        f"hole is left. {how[needle == begins] if many > 1 else alone}"
        for needle in step.corners)


def waiting_stitches(section: Section, m: Moment, step: edge_steps.Hang, gaps: Needles = NONE
                     ) -> str:
    """How stitches are hung that were bound off, or wait on waste yarn or above a ravel cord."""
    if section.offer is Offer.ABOVE_CORD:
        return ("Take each loop along the ravel cord onto a needle, and the half loop where row 1 "
                f"ended, away from the yarn's tail{left_empty(gaps)}. Draw the cord out when a row "
                "is knitted over all of them.")
    if section.offer is Offer.WAITING:
        strip = next((waits for edge, waits, _ in m.program.strips if edge == step.edge), "")
        label = f" labelled “{esc(strip)}”" if strip else ""
        if gaps:
            stay = "These needles stay" if len(gaps) > 1 else "This needle stays"
            return (f"{stay} empty for the next step: {needles_text(gaps)}. Take the "
                    f"stitches{label} off the waste yarn. Hang one on each of the other needles."
                    f"{_seams(step, section)}")
        return (f"Take the stitches{label} off the waste yarn, one onto each needle."
                f"{_seams(step, section)}")
    left = "Leave the outermost stitch bound off there for the side seam. " * section.at_seam
    every = len(step.needles) == section.places
    what = "every stitch" if every else "a stitch"
    if section.at_seam:
        what = "the other stitch" if section.places == 1 else \
            f"{'each' if every else 'one'} of the other stitches"
    deep = f", from {row_below(m.strip.plan.band.stitches_in)} the chain" \
        if section.offer is Offer.BOUND_OFF else ""
    each = " on each needle" * (not every)
    return f"{left}Take one loop of {what} {section.offer.value} there{each}{deep}."


def _seams(step: edge_steps.Hang, section: Section) -> str:
    """What becomes of the stitches that lie in a seam."""
    if not step.doubled:
        return ""
    if len(step.doubled) != sum(section.seams):
        return (f" More wait than there are needles: hang two stitches on each of "
                f"{needles_text(step.doubled)}, so that none can run.")
    if len(step.doubled) == 1:
        return (f" One stitch more waits at the end that lies in a seam: hang it with its "
                f"neighbour, two stitches on {needles_text(step.doubled)}, so that it cannot run.")
    return (" One stitch more waits at either end, in a seam or where one will be: hang each with "
            f"its neighbour, two stitches on each of {needles_text(step.doubled)}, so that neither "
            "can run.")


def _needle(needles: Needles, side: Side) -> str:
    """ "needle L3", "needles L3 to R4", in the order of the hanging table."""
    return f"needle{'s' if len(needles) > 1 else ''} {from_first(needles, side)}"


def _lies(m: Moment, ends: BandEnds) -> str:
    """How the garment is held before its edge is hung: a sentence or two, and a space."""
    whole = esc(whole_called(m.pattern.garment).lower())
    kind, turned = KINDS[m.strip.plan.band.kind], m.strip.plan.collar.right_side
    falls = turned or (kind.falls and not kind.doubled)
    shows = (f"When the collar has fallen over, its {'knit' if turned else 'purl'} side shows. "
             ) * falls
    side = "<em>right</em>" if turned else "wrong"
    return (f"<b>Let the {whole} hang down in front of the bed,</b> with its {side} side towards "
            f"you and the {ends.first} on the {m.strip.layout.hem.value}. {shows}")


def hang_line(m: Moment, step: edge_steps.Hang) -> Instruction:
    """The line along which a folded band was begun, onto its last stitches."""
    rows, count = m.strip.plan.stitches.value, len(step.needles)
    taken = "one on each, from one end to the other"
    if count != rows:
        what = "missed" if count < rows else "taken twice"
        taken += (f", with {stitches(abs(rows - count))} {what}, spread evenly; mark where with "
                  "threads or pins")
    return Instruction(
        text="<b>Hang the purl bump of each stitch of the band's first row</b>, along "
             f"{esc(step.edge)}, over {named(step.needles)}, on top of the stitches "
             f"there: {taken}. The two layers lie one on the other, purl side to purl side.",
        how=("../bands/folded.html#steps", "how to close the band"), check=True)


def fold_up(m: Moment) -> Instruction:
    """A band without cords, folded to the inside."""
    whole = esc(whole_called(m.pattern.garment).lower())
    return Instruction(text=f"<b>Fold the band to the inside of the {whole},</b> the side that "
                     "faces you, so that its two layers lie purl side to purl side.")


def table_link(anchor: str) -> str:
    """A link to the hanging table."""
    return link(f"#{anchor}", "hanging table")


def increase(m: Moment, step: steps.Increase) -> Instruction:
    """Needles into work with a loop from beside."""
    if step.reason in (Reason.FOR_FACING, Reason.FOR_STEPS, Reason.ABOVE_RIB):
        return fill_gaps(m, step)
    if step.reason is Reason.FOR_JOIN:
        # Common practice, no source: no row is knitted yet, so the edge's own loop is all there is.
        plan, lies = m.strip.plan, m.strip.layout
        beside = [lies.at(at).name for at, join in
                  ((2, plan.joins[0]), (plan.stitches.value - 1, plan.joins[1])) if join]
        return Instruction(text=f"<b>Give {needles_text(step.needles)} a loop</b> for the join: "
                           f"lift one leg of the loop beside {'it' if len(beside) == 1 else 'each'}"
                           f", on {joined(beside)}, onto it too. It may be slack, so that it does "
                           "not pull the edge.", check=True)
    held = (m.before.loaded if m.before else m.after.loaded) - step.needles
    return Instruction(text=f"<b>Lift onto each of the empty needles</b> "
                     f"{needles_text(step.needles)} {under_neighbour(step.needles, held)}.",
                       check=True)
