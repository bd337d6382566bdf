"""Words for the drawing of a stitch chart: its printed key and its caption."""

from __future__ import annotations

from enum import Enum

from ..fabric.chart_on_bed import Placed
from ..machine.needles import Needle
from ..markup.html import esc
from .words import counted

EDGE_STITCH = "edge stitch, outside the repeats"
ONE_REPEAT = "one whole repeat"
CENTRE = "below the chart: the centre of the bed"


class Drawn(Enum):
    """What one cell of a drawing shows."""

    PLAIN = "knit"
    DOUBLED = "knit, two stitches on one needle"
    TRIPLED = "knit, three stitches on one needle"
    EYELET_LEFT = "its stitch moved to the left, the needle empty: an eyelet"
    EYELET_RIGHT = "its stitch moved to the right, the needle empty: an eyelet"
    MOVED_LEFT = "its stitch moved to the left, and another in its place"
    MOVED_RIGHT = "its stitch moved to the right, and another in its place"
    NEAR = "crosses on the side towards you"
    FAR = "crosses on the side away from you, in front on the knit side"
    TUCK = "tuck: not knitted, the yarn laid over it"
    SLIP = "slip: passed by"
    SECOND = "knit with the second colour"
    OUT = "needle out of work"


def chart_caption(placed: Placed, title: str, first: Needle, last: Needle) -> str:
    """What the drawing shows, and from which side, as HTML."""
    return (f"{esc(title)}: this chart shows needles {first} to {last} and "
            f"{counted(placed.chart.height, 'row')}, as you see them at the machine. The purl side "
            "faces you. Row 1 is at the bottom. All of it is written row by row in words.")
