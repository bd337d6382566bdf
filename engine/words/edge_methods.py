"""How edges begin and end, each way spelled out once on a page, for those its size uses."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction

from ..catalogue.methods import (
    BIND_OFF_METHODS,
    BIND_OFFS,
    BY_HAND,
    CAST_ON_METHODS,
    CAST_ONS,
    CHAIN_OFF,
    GRAFT,
    LATCH_OFF,
    LATCH_ON,
    PEG_ON,
    PEGS_OFF,
    SEWN,
    STITCH_OVER,
    TWO_PEGS_OFF,
    Method,
)
from ..core.counts import decimal
from ..core.units import Length
from ..machine import edge_steps, steps
from ..machine.reasons import Reason
from ..machine.step_keys import BindOffMethod, Topic
from ..markup.html import esc, fold, link
from ..proof.proof import KnittedPiece, SizeProof, Strip, Work
from ..shape.tasks import TaskKind
from .cut_lengths import to_cut
from .instruction import Moment, works
from .shaped_edges import Done
from .shaping import METHOD_ANCHORS
from .terms.yarn_names import yarn_name

# What is done at the bed stands at length, with its sources, on each way's technique page. How
# shoulders are bound off together, and stitches drawn up, is described where they are made up.
_DESCRIPTIONS: Mapping[Method, str] = {
    BY_HAND: "Bring the needles fully forward, latches open. Hang a slip knot on the one farthest "
             "from the carriage. Wind the yarn round the next needle: under it, up between it "
             "and the one after it, back over it and down. Go on to the needle beside the "
             "carriage, no loop tighter than another. Take up the slack in the mast, and knit "
             "the first row slowly.",
    LATCH_ON: "Begin with the needle farthest from the carriage. Make a slip loop round the latch "
              "tool and hold the tool below the needles, its hook up, between the first needle and "
              "the next. Lay the yarn over the first needle, catch it, and draw it through the "
              "loop on the tool. Move the tool between the next two needles and go on. Hang the "
              "last loop of the chain on the last needle, and push the chain back against the "
              "gate pegs.",
    PEG_ON: "Make a chain with the latch tool. Begin with the needle farthest from the carriage. "
            "Draw the yarn over each needle through the loop on the tool. Before you draw the next "
            "loop, lay this one round the gate peg beside the needle: the pegs set the chain's "
            "length. Hang the last loop on the last needle. Lift the chain off "
            "the pegs before the first row.",
    STITCH_OVER: "Begin at the carriage's side. With the transfer tool, move the end stitch onto "
                 "the needle beside it. Knit both as one by hand with the yarn that hangs there. "
                 "Move the new stitch onto the next needle, and so on: every loop is as long as a "
                 "stitch.",
    PEGS_OFF: "Begin at the carriage's side. With the transfer tool, move the end stitch onto the "
              "needle beside it, behind the gate peg, while the yarn stays in front of the peg. "
              "Bring that needle forward, lay the yarn in its hook and push it back through both "
              "stitches. Go on, the yarn round every peg. At the end lift the loops off the pegs: "
              "they are no stitches.",
    TWO_PEGS_OFF: "Begin at the carriage's side. With the transfer tool, move the end stitch onto "
                  "the needle beside it, behind the gate peg, while the yarn stays in front of "
                  "the peg. Loop the yarn round that peg and the next, and bring it back to the "
                  "needle. Bring the needle forward, lay the yarn in its hook and push it back "
                  "through both stitches. Go on, the yarn round two pegs at every stitch. At the "
                  "end lift the loops off the pegs: they are no stitches.",
    LATCH_OFF: "Begin at the carriage's side. Take the end stitch on the latch tool, and let it "
               "slip behind the tool's latch. Lay the yarn round the gate peg beside the "
               "stitch and into the tool's hook, and draw it through. Take the next stitch, draw "
               "the yarn through both, and so on. At the end lift the work off the pegs.",
    CHAIN_OFF: "Begin at the end away from the yarn. Take the first stitch on the latch tool, off "
               "its needle. Catch the next in the hook, take it off its needle, and draw it "
               "through the one on the tool. Go on to the last, and draw the yarn's end through "
               "it.",
    SEWN: "Work off the bed, with a blunt sewing needle. Sew into the front of the first stitch, "
          "then into the back of the second. Go back to the stitch before and sew into its front. "
          "Go on two stitches and sew into the back of that one. Repeat. You enter each stitch "
          "twice. "
          "Draw up after every third stitch, as slack as a row. Take the waste yarn out when all "
          "are sewn.",
    GRAFT: "Lay the two edges knit side up and head to head, the waste yarn folded away beneath. "
           "With a blunt sewing needle: up through the first loop of the near edge; down into the "
           "first of the far edge and up through the one beside it; down into the loop of the "
           "near edge that you came out of and up through the next; and so on, first into the "
           "used loop, then into a new one. Draw each up to the size of its neighbours, and take "
           "the waste yarn out at the end.",
}
_TITLES: Mapping[Method, str] = {
    LATCH_ON: "Cast on with a latch-tool chain", PEG_ON: "Cast on over the gate pegs",
    BY_HAND: "Cast on by hand", LATCH_OFF: "Bind off with a latch-tool chain",
    STITCH_OVER: "Bind off stitch over stitch", PEGS_OFF: "Bind off around the gate pegs",
    TWO_PEGS_OFF: "Bind off around two gate pegs",
    CHAIN_OFF: "Chain the stitches off", SEWN: "Back-stitch off waste yarn",
    GRAFT: "Graft off waste yarn"}


def edge_methods(size: SizeProof) -> str:
    """Return the section on the ways on and off of a size; "" where none needs to be told."""
    used = set(_used(size))
    found = [f'<dt id="{_anchor(method)}">{_TITLES[method]}</dt><dd>{text} {_about(method)}</dd>'
             for method, text in _texts(size).items() if method in used]
    if not found:
        return ""
    return fold("How edges begin and end", "ways-on-and-off",
                f'<dl class="wb-ways">{"".join(found)}</dl>')


# What a chain does where a needle between two others is out of work: common practice, no source.
_GAPS = " At a needle out of work make no stitch of the chain: "
_PAST: Mapping[Method, str] = {
    PEG_ON: f"{_GAPS}take the loop past it, round the last peg before the next needle in work.",
    LATCH_ON: f"{_GAPS}draw the loop longer, past it."}


WIDER = Fraction(11, 10)  # beyond this share of a band's length its edge flares; common practice
_TWO_EDGES = " Two edges are laid knit sides together and taken as one."


def _texts(size: SizeProof) -> Mapping[Method, str]:
    """What is said of every way, of a chain over gaps too where pieces have them."""
    gaps = {CAST_ON_METHODS[step.method] for work in works(size)
            for step in work.program.of(steps.CastOn) if len(step.needles.spans()) > 1}
    joins = size.assembled.garment.joins if size.assembled else ()
    more = {SEWN: _TWO_EDGES} if any(join.method == SEWN.name for join in joins) else {}
    return {
        method: text + more.get(method, "") + _PAST.get(method, "") * (method in gaps)
        for method, text in _method_texts(size).items()
    }


def _method_texts(size: SizeProof) -> Mapping[Method, str]:
    """What is said of every way; a bind-off that the sides have described is left out."""
    at_sides = any(step.keep_last for piece in size.pieces
                   for step in piece.program.of(edge_steps.BindOff))
    if not at_sides:
        return _DESCRIPTIONS
    described = link(f"#{METHOD_ANCHORS[Done.BIND_OFF]}", "at an edge")
    return {**_DESCRIPTIONS, STITCH_OVER: f"As {described}, over all stitches."}


def chain_text(m: Moment, step: steps.CastOn) -> tuple[str, str]:
    """What is done before and after a chain is cast on with the yarn of the feeder, as HTML: the
    chain begins at the far end, so the yarn for it hangs in front first (common practice)."""
    method = CAST_ON_METHODS[step.method]
    if method not in (LATCH_ON, PEG_ON):
        return "", ""
    length = to_cut(step.needles.across, m.pattern.bed.pitch, int(method.yarn), tails=1)
    lift = " Lift the chain off the pegs." * (method is PEG_ON)
    return (f"Draw about {length} of the {yarn_name(m.after.feeder)} down from the feeder. ",
            f"{lift} Take the slack up into the mast before the first row.")


def method_name(step: edge_steps.BindOff) -> str:
    """How a step names the way in which a few stitches are bound off, as HTML."""
    return esc(BIND_OFF_METHODS[step.method].phrase)


def method_text(method: Method) -> str:
    """How a step names a way, linked to where the page spells it out."""
    phrase = esc(method.phrase)
    return link(f"#{_anchor(method)}", phrase) if method in _DESCRIPTIONS else phrase


def loosely_text(work: Work, step: edge_steps.BindOff) -> str:
    """How loosely the last stitches of a piece are bound off: to a length where one is given, or as
    the fabric stretches where no seam holds them (common practice, no source)."""
    if not isinstance(work, KnittedPiece):
        return ""
    if work.piece.top_is_free and step.method is BindOffMethod.STITCH_OVER:
        return ", loosely, so that the edge stretches as far as the fabric"
    return esc(f", so loosely that the edge can be drawn out to {work.piece.bound_off_to}") \
        if work.piece.bound_off_to else ""


def pegs_text(m: Moment, step: edge_steps.BindOff) -> str:
    """How a band's edge stays as short as the band where the pegs lie further apart than its
    stitches: by every second peg (common practice, no source)."""
    method = BIND_OFF_METHODS[step.method]
    if not isinstance(m.work, Strip) or method.pegs != 1 or step.keep_last:
        return ""
    gauge = m.work.plan.gauge  # of a lengthwise band it is turned by a quarter
    stitch = gauge.row if m.work.plan.is_lengthwise else gauge.stitch
    long = Length(stitch * len(step.needles))
    if m.pattern.bed.pitch.times(len(step.needles)).mm <= long.mm * WIDER:
        return ""
    return (" Lay the yarn round every second peg only, in front of those between: the edge is to "
            f"measure about {long}.")


def _used(size: SizeProof) -> Iterator[Method]:
    """A band's own chain stands whole in its step, and its holes in theirs; a single stitch is
    fastened off, which is no edge."""
    for work in works(size):
        program, of_piece = work.program, isinstance(work, KnittedPiece)
        for cast_on in program.of(steps.CastOn):
            if cast_on.reason is Reason.NONE:
                yield CAST_ON_METHODS[cast_on.method]
        for off in program.of(edge_steps.BindOff):
            if not off.keep_last and len(off.needles) > 1 and (
                    of_piece or off.method is not BindOffMethod.CHAINED):
                yield BIND_OFF_METHODS[off.method]
        if any(attended.to == Topic.SEW_OFF for attended in program.of(steps.Attend)):
            yield SEWN
    if size.assembled is not None:
        yield from _by_hand(size)


def _by_hand(size: SizeProof) -> Iterator[Method]:
    """The ways of what waits on waste yarn, as the making up tells them."""
    assert size.assembled is not None
    garment = size.assembled.garment
    if any(task.kind in (TaskKind.SEW_OFF, TaskKind.SEW_NECK) for task in garment.tasks):
        yield SEWN
    for join in garment.joins:
        if join.method:
            yield BIND_OFFS[join.method]


def _anchor(method: Method) -> str:
    kind = "on" if method in CAST_ONS.values() else "off"
    return f"way-{kind}-{method.name.replace(' ', '-')}"


def _about(method: Method) -> str:
    takes = (
        f" It takes {decimal(method.yarn, 0)} times the width on the bed." if method.yarn else ""
    )
    if method is SEWN:
        takes += " An edge that is drawn out longer takes as many times its length."
    return (f"It makes {method.look}.{takes} "
            + link(f"../../techniques/{method.page}", "More of it", "wb-how"))
