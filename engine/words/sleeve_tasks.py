"""Making up in words: how sleeves and sides are sewn, and how a body knitted sideways is turned."""

from __future__ import annotations

from ..catalogue.edge_roles import EdgeRole
from ..machine.steps import Side
from ..shape.tasks import CapFoot, Seam, Sewn, Task
from .band_ends import SEAM
from .bands_named import ends_how, named, rolled
from .words import stitches

FEET = {CapFoot.BOUND_OFF: "sew the bound-off stitches of armhole and cap together",
        CapFoot.DECREASES: "sew the first decreases of armhole and cap together",
        CapFoot.SEAM_END: "put the foot of each cap at the armhole mark, where the side seam ends"}
TURNED = ("<b>Turn the pieces:</b> what was cast on and bound off are the sides. Take the edge "
          "with the neck marks, which was on the right of the bed, as the top, on the back and on "
          "the front. The cast-on edge is then at the wearer's right on the front, and at the "
          "wearer's left on the back. Each side seam joins a cast-on edge to a bound-off edge.")
TOPS = ("<b>Sew the sleeve tops between the armhole marks</b>, stitches to rows, with "
        "the middle of each top at the shoulder.")


def caps(task: Task) -> str:
    assert task.cap_foot is not None
    return ("<b>Set in the sleeves</b> with the middle of each cap at the shoulder, and "
            f"{FEET[task.cap_foot]}.")


def sides(task: Task) -> str:
    if any(band.role is EdgeRole.ARMHOLE for band in task.bands):
        up, out = (" up to the armhole marks", " Then take the threads out.") \
            if task.tied else ("", "")
        return (f"<b>Sew the side seams{up}</b> and, in one with each, the ends of its "
                f"{named(task.bands)}, {ends_how(task.bands)}, with the band's yarn."
                f"{rolled(task.bands)}{out}")
    if Sewn(Seam.SIDE, Side.LEFT) in task.sews:
        return "<b>Sew the left side and sleeve seam</b> in the same way as the right one."
    if task.leaves is not None:
        return ("<b>Sew the right side seam,</b> stitch to stitch, and its sleeve seam, row to "
                "row.")
    if task.sews_any(Seam.SLEEVE):
        return "<b>Sew the side and sleeve seams</b>, each from the lower edge up."
    return "<b>Sew the side seams</b>."


def tops_to_sides(task: Task) -> str:
    return (f"<b>Sew the sleeve tops to the sides</b>, stitch to stitch, over "
            f"{stitches(task.stitches)} "
            "on either side of the shoulder. The shoulder "
            f"seam takes {stitches(SEAM)} more of each edge.")
