"""Words for the steps at openings and edges: cords, hanging, binding off, and what to look at."""

from __future__ import annotations

from .. import steps
from ..needles import Needles
from .html import esc, link
from .lengths import CLOSING, HOLE, to_cut
from .told import Moment, Told
from .words import counted, joined, needles_said, stitches

_CLOSING = "closing-holes.html"


def hanging_anchor(front: str, band: str) -> str:
    """The id of the hanging table of a band for one front."""
    return f"{band}-{front}-hanging"


def knit_with_cord(m: Moment, step: steps.HandKnit) -> Told:
    """The stitches of every opening, each with its own cord."""
    length = to_cut(len(step.needles), m.pattern.bed.pitch, HOLE, tails=2)
    lead = (f"Each hole has a cord of its own, about {length} long" if len(m.steps) > 1 else
            f"Use a cord about {length} long")
    return Told(
        text=f"<b>Knit the buttonhole stitches by hand</b> with "
             f"{esc(step.yarn)}. {lead}:",
        places=_each_hole(m), after="Carriage and row counter stay as they are.",
        how=("buttonholes-by-hand.html#knit", "how to knit the holes by hand"), check=True,
        diagram=True)


def hang(m: Moment, step: steps.Hang) -> Told:
    """An edge onto needles."""
    if step.lean is not None:
        return _hang_upper(m, step)
    if step.onto_empty:
        return _hang_lower(m, step)
    if step.picks:
        return _hang_garment(m, step)
    return _hang_first_row(m, step)


def _hang_upper(m: Moment, step: steps.Hang) -> Told:
    loops, lean = len(step.needles), step.lean.value if step.lean else ""
    return Told(
        text=f"<b>Hang the upper edge of each hole</b> on the needles above it, on top "
             f"of the stitches there, the leftmost loop on the leftmost needle. A hole of "
             f"{loops - 1} has {loops} loops here; at every hole take them over the hole's "
             f"own {counted(loops - 1, 'needle')} and one more to the {lean}.",
        places=_each_hole(m), how=(f"{_CLOSING}#hang-upper", "how to find and hang the loops"),
        check=True, diagram=True)


def _hang_lower(m: Moment, step: steps.Hang) -> Told:
    return Told(
        text=f"<b>Hang the {stitches(len(step.needles))}</b> that wait on the cord at "
             "the lower edge of each hole on the empty needles, one on each:",
        places=_each_hole(m), how=(f"{_CLOSING}#hang-lower", "how to hang the lower edge"),
        after=f"Every needle from {m.after.loaded.first} to {m.after.loaded.last} holds one "
              "stitch again." if m.after.loaded == m.band else "",
        check=True, diagram=True)


def _hang_garment(m: Moment, step: steps.Hang) -> Told:
    hem = m.strip.layout.hem.value
    table = link(f"#{hanging_anchor(m.strip.front.value, m.strip.plan.band.key)}",
                 "hanging table")
    return Told(
        text=f"<b>Hang the {esc(step.edge.replace('-', ' ').replace('_', ' '))}</b> of "
             f"the garment's {m.strip.front.value} front over needles "
             f"{needles_said(step.needles)}, one loop on each, with the wrong side facing you and "
             f"its hem on the {hem}. Go in about "
             f"{stitches(m.strip.plan.band.stitches_in)} from its edge.",
        after=f"Both ends first, then the middle, then the quarters, as the {table} says; then "
              "fill in between.",
        how=("hanging-an-edge.html", "how to hang an edge"), check=True)


def _hang_first_row(m: Moment, step: steps.Hang) -> Told:
    half = f" Take the half loop at the {step.half_at.value} end as well, so that every needle " \
        "gets one." if step.half_at else ""
    return Told(
        text=f"<b>Fold the band up towards you</b> around the garment's edge and hang "
             f"{esc(step.edge)}, just above the ravel cord, over the same needles, the leftmost "
             f"loop on the leftmost needle.{half}",
        how=("hanging-first-row.html", "how to hang the first row"), check=True)


def bind_off(m: Moment, step: steps.BindOff) -> Told:
    """Needles bound off: across the holes, or the whole band."""
    return _bind_off_holes(m, step) if step.keep_last else _bind_off_all(m, step)


def _bind_off_holes(m: Moment, step: steps.BindOff) -> Told:
    spare = to_cut(len(m.band), m.pattern.bed.pitch, CLOSING)
    places = []
    for one in m.steps:
        assert isinstance(one, steps.BindOff)
        stays = one.needles & m.after.loaded
        empty = one.needles - m.after.loaded
        places.append(f"{_hole(one)}: bind off <b>{needles_said(one.needles)}</b>; the "
                      f"last stitch stays on {needles_said(stays)}, and {needles_said(empty)} "
                      f"{'is' if len(empty) == 1 else 'are'} empty")
    carry = ("Carry the yarn loosely, between the layers, from hole to hole. "
             if len(m.steps) > 1 else "")
    return Told(
        text=f"<b>Bind off across each hole,</b> {esc(step.method)}, towards the "
             f"{step.toward.value}, all loops of a needle together. Use a spare end of "
             f"{esc(step.yarn)} about {spare} long, not the one in the feeder.",
        places=tuple(places),
        after=f"{carry}Then lift the yarn off the pegs. The empty needles stay in working "
              "position.",
        how=(f"{_CLOSING}#bind-off", "how to bind off around the gate pegs"), check=True,
        diagram=True)


def _bind_off_all(m: Moment, step: steps.BindOff) -> Told:
    return Told(
        text=f"<b>Chain the stitches off</b> through each other, from "
             f"{_end(step.needles, step.toward.other)} to {_end(step.needles, step.toward)}, and "
             "fasten off the last with the yarn's end."
        if step.method == "chained through each other" else
        f"<b>Bind off needles {needles_said(step.needles)}</b> towards the "
        f"{step.toward.value}, {esc(step.method)}, and fasten off the last stitch.",
        how=("loose-row-and-chain-off.html#chain-off", "how to chain off"), check=True)


def _end(needles: Needles, side: steps.Side) -> str:
    return (needles.first if side is steps.Side.LEFT else needles.last).name


def draw_cord(m: Moment, step: steps.DrawCord) -> Told:
    """Cords, or the ravel cord, out."""
    if step.edge == m.strip.program.first_row:
        return Told(text=f"<b>Draw out the {esc(m.strip.program.cord_yarn)},</b> now "
                         "that every loop is on its needle. The waste yarn falls away.",
                    how=("hanging-first-row.html#draw-cord", "how to draw the cord"), check=True)
    many = f"the {len(m.steps)} cords" if len(m.steps) > 1 else "the cord"
    return Told(text=f"<b>Draw out {many}</b> gently from one end, now that both edges "
                     "of every hole are safe. Take the clips off first, and count them as you put "
                     "them away.", how=(f"{_CLOSING}#draw-cord", "how to draw the cords"),
                check=True)


def _each_hole(m: Moment) -> tuple[str, ...]:
    return tuple(f"{_hole(step)}: <b>{needles_said(_needles(step))}</b> "
                 f"({counted(len(_needles(step)), 'needle')})" for step in m.steps)


def _hole(step: steps.Step) -> str:
    return esc(step.purpose[:1].upper() + step.purpose[1:])


def _needles(step: steps.Step) -> Needles:
    needles = getattr(step, "needles", None)
    assert isinstance(needles, Needles)
    return needles


def attend(m: Moment, step: steps.Attend) -> Told:
    """What changes nothing on the needles: looking, clipping, covering."""
    return _ATTENTION[step.to](m, step)


def _weights(m: Moment, step: steps.Attend) -> Told:
    return Told(text="<b>Hang the weights</b> evenly as soon as the first rows hold, and "
                     "move them up as the work grows. Keep your feet clear: weights drop.")


def _choose(m: Moment, step: steps.Attend) -> Told:
    spans = step.needles.spans()
    size = stitches(len(step.needles) // len(spans))
    return Told(
        text=f"<b>Choose the needles of all {counted(len(spans), 'buttonhole')}</b> of "
             f"{size} before you knit the first. Bring them to upper working position:",
        places=tuple(f"Buttonhole {n}: <b>{_span(a, b)}</b>"
                     for n, (a, b) in enumerate(_from_hem(m, spans), 1)),
        after=f"Count across from the left: {_counts_across(m, step)}. A hole moved by one needle "
              "cannot be put right later.",
        how=("buttonholes-by-hand.html#choose", "how to choose the needles"), diagram=True,
        chosen=step.needles)


def _span(a: object, b: object) -> str:
    return f"{a}" if a == b else f"{a} to {b}"


def _from_hem(m: Moment, spans: tuple[tuple[object, object], ...]
              ) -> tuple[tuple[object, object], ...]:
    """The holes in the order of their numbers: from the hem."""
    return spans if m.strip.layout.hem is steps.Side.LEFT else spans[::-1]


def _counts_across(m: Moment, step: steps.Attend) -> str:
    """Needles of ends, holes and gaps from left to right, as the bed has them."""
    free = [(a, b, False) for a, b in (m.after.loaded - step.needles).spans()]
    holes = [(a, b, True) for a, b in step.needles.spans()]
    return joined(f"{'a hole of ' if hole else ''}{b.place - a.place + 1}"
                  for a, b, hole in sorted(free + holes))


def _clip(m: Moment, step: steps.Attend) -> Told:
    cords = len(step.needles.spans())
    return Told(text=f"<b>Clip both ends of every cord,</b> hanging down in front: "
                     f"{2 * cords} clips on {counted(cords, 'cord')}. Put the needles back to "
                     "working position, latches open.",
                how=("buttonholes-by-hand.html#clip-ends", "how to clip the ends"))


def _fold_up(m: Moment, step: steps.Attend) -> Told:
    return Told(text="<b>Fold the first layer up towards you,</b> so that the two purl "
                     "sides meet and the cords lie below the needles of their holes.",
                how=(f"{_CLOSING}#fold-up", "how to fold the band up"))


def _look(m: Moment, step: steps.Attend) -> Told:
    return Told(text="<b>Look at every buttonhole</b> from both sides. A fault can still "
                     "be undone here; once the band is closed it cannot.")


def _cloth(m: Moment, step: steps.Attend) -> Told:
    return Told(text="<b>Lay a clean cloth over the bed,</b> between needles and fabric. "
                     "It keeps oil off the garment, and hooks out of it.",
                how=("hanging-an-edge.html#cloth", "how to keep the fabric clean"))


_ATTENTION = {"weights": _weights, "choose holes": _choose, "clip ends": _clip,
              "fold up": _fold_up, "look at holes": _look, "cloth": _cloth}
