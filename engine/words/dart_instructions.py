"""Words for vertical darts: what is moved on a row, and how it is done."""

from __future__ import annotations

from collections.abc import Iterable

from ..machine.needles import of
from ..machine.steps import Side
from ..markup.html import aside_link
from .shaped_edges import Act, Done, Event
from .words import needles_toward

PAIR = 3  # needles whose stitches go one needle inward: the middle one, one on either side
_PAGE = "../../techniques/vertical-dart.html"
_LESS = ("Dart, 2 fewer: move the stitches of the three needles named first one needle inward. "
         "Then move the others two needles inward, several at a time, those nearest the dart "
         "first. Two needles now hold two stitches each, with the dart's middle stitch between "
         "them. Push the two empty needles at the edge back to non-working position.")
_MORE = ("Dart, 2 more: bring the two empty needles beside the edge to working position. Move the "
         "stitches named first two needles outward, several at a time, the outermost first. Then "
         "move the dart's middle stitch one needle outward. Fill the two needles that are now "
         "empty, each with the loop just below the stitch beside it, away from the dart's middle "
         "stitch.")


def dart_text(act: Act) -> str:
    """What a dart does on a row, with its needles: "dart, 2 fewer: R10 to R12 by 1, then R13 to R34
    by 2"."""
    assert act.side is not None
    out, needles = act.side, act.needles
    if act.done is Done.DART_LESS:
        inner = needles.leftmost(PAIR) if out is Side.RIGHT else needles.rightmost(PAIR)
        return (f"dart, 2 fewer: {needles_toward(inner, out)} by 1, then "
                f"{needles_toward(needles - inner, out)} by 2")
    middle = needles.first if out is Side.RIGHT else needles.last
    step = 1 if out is Side.RIGHT else -1
    brought = needles.rightmost(2) if out is Side.RIGHT else needles.leftmost(2)
    others = needles - brought - of(middle)
    near, below, far, above = (of(middle).shifted(by * step).first.name for by in (0, -1, 2, 3))
    return (f"dart, 2 more: {needles_toward(others, out.other)} by 2, then {middle.name} by 1, "
            f"fill {near} from {below} and {far} from {above}")


def how_text(events: Iterable[Event]) -> str:
    """How a dart is worked, of those that are there; "" without any."""
    done = {act.done for event in events for act in event.acts}
    texts = [text for kind, text in ((Done.DART_LESS, _LESS), (Done.DART_MORE, _MORE))
             if kind in done]
    return f" {' '.join(texts)} {aside_link(_PAGE, 'how to work a dart')}" if texts else ""
