"""How the bed takes all stitches off and hangs them again, closer together or further apart.

The function keeps to one order: what the step needs, what it does to the loops, to the carriage,
to the counter.
"""

from __future__ import annotations

from ..machine.edge_steps import CloseUp
from ..machine.needles import Needle, Needles, of
from ..machine.steps import Position
from ..machine.tools import Tool
from .set_up_effects import need_weights_off
from .state import Bed, Refused


def close_up(bed: Bed, step: CloseUp) -> None:
    """Take all stitches off, and hang them again side by side, two on some needles or none."""
    # needs
    _need_all(bed, step)
    _need_room(bed, step)
    need_weights_off(bed, "all stitches are taken off")
    # loops: in their order, the second of two on top of the first
    to = _places(step)
    lifted = bed.lift(step.needles)
    first, second = _split(to)
    for going in (first, second):
        for loop, on in lifted:
            if landing := of(*(to[n] for n in on if n in going)):
                bed.lay(loop, landing)
    bed.place(step.needles - step.onto, Position.NON_WORKING)
    bed.place(step.onto, Position.WORKING)
    bed.use(Tool.OFF_ALL)
    bed.use(Tool.TRANSFER)
    # carriage, counter: as they were


def _need_all(bed: Bed, step: CloseUp) -> None:
    """Every stitch comes off in work; none is left behind or was not there. Each is a single loop
    where two are hung on one needle."""
    bed.need_loaded(step.needles)
    if others := bed.loaded - step.needles:
        raise Refused("others-in-work", others, "all stitches taken off", f"{others} left on")
    bed.need_in_work(step.needles)
    if step.doubled:
        bed.need_layers(step.needles, 1)
    bed.need_no_cord(step.needles)


def _need_room(bed: Bed, step: CloseUp) -> None:
    """They go onto needles side by side of the bed, as many as there are stitches for."""
    bed.need_on_bed(step.onto)
    bed.need_neighbours(step.onto)
    if other := (step.doubled | step.empty) - step.onto:
        raise Refused("wrong-needles", other, f"some of {step.onto}", f"{other}")
    if both := step.doubled & step.empty:
        raise Refused("wrong-needles", both, "two stitches or none", "both")
    if ends := step.empty & of(step.onto.first, step.onto.last):
        raise Refused("wrong-needles", ends, "a stitch on either end needle", f"none on {ends}")
    hung = len(step.onto) + len(step.doubled) - len(step.empty)
    if hung != len(step.needles):
        raise Refused("loop-count", step.onto, f"places for {len(step.needles)} stitches",
                      f"for {hung}")


def _places(step: CloseUp) -> dict[Needle, Needle]:
    """For each needle, from the left, the one that its stitch goes onto."""
    places = [n for n in step.onto - step.empty for _ in range(1 + (n in step.doubled))]
    return dict(zip(step.needles, places, strict=True))


def _split(to: dict[Needle, Needle]) -> tuple[Needles, Needles]:
    """The needles whose stitches go onto a bare needle, and those that go on top of another."""
    seen: set[Needle] = set()
    first: list[Needle] = []
    second: list[Needle] = []
    for needle, landing in to.items():
        (second if landing in seen else first).append(needle)
        seen.add(landing)
    return of(*first), of(*second)
