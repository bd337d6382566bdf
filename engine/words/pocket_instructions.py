"""Words for pockets: the opening knitted with a cord, the lining's way on, the top's way on."""

from __future__ import annotations

from ..machine import edge_steps, steps
from ..markup.html import esc
from ..proof.yarn_ends import HOLE
from ..shape.edging import Stretch
from .cut_lengths import to_cut
from .instruction import Instruction, Moment
from .terms.yarn_names import yarn_name
from .words import counted, needles_text, stitches

# How a band takes the sections of a pocket's lower edge, `but` on which of the needles.
POCKET_HOW = {
    Stretch.POCKET: "Turn the lining up out of the way. Take the stitches below the pocket cord, "
                    "one onto each needle{but}. Draw the cord out when every stitch is "
                    "on a needle: the loops above it are in the lining already. Let the "
                    "lining and the front above the pocket fall forward over the part below, "
                    "clear of the carriage. They hang there until the band is off the bed.",
    Stretch.GARMENT: "Take up the garment's first stitch beside the opening, only its half next to "
                     "it. It is sewn down later, with the band's short end.",
}


def knit_pocket(m: Moment, step: steps.HandKnit) -> Instruction:
    """The stitches of a pocket's opening with a cord."""
    length = to_cut(len(step.needles), m.pattern.bed.pitch, HOLE, tails=2)
    return Instruction(
        text=f"<b>Knit the {esc(step.cord)}'s {stitches(len(step.needles))} by hand</b> with a "
             f"{yarn_name(step.yarn)} about {length} long: {needles_text(step.needles)}. Put the "
             "needles back to working position, latches open, and let both ends of the cord hang "
             "down in front.",
        after="Carriage and row counter stay as they are. The cord stays in the work until the "
              "pocket is finished.",
        how=("pocket-opening.html", "how to open a pocket"), check=True, diagram=True)


def hang_lining(m: Moment, step: edge_steps.Hang) -> Instruction:
    """The loops above a pocket's cord on bare needles."""
    loops = len(step.needles)
    return Instruction(
        text=f"<b>Fold the front along the pocket cord, right sides together,</b> and let it hang "
             "down in front of the bed. The part above the pocket is then nearest to you, its "
             f"wrong side towards you. Hang {esc(step.edge)} on the empty needles "
             f"{needles_text(step.needles)}: one loop along the cord on each, "
             f"{counted(loops, 'loop')} over the {stitches(loops - 1)} of the opening.",
        after="Leave the cord in: the stitches below it still wait there.",
        how=("pocket-opening.html#lining", "how to hang the lining"), check=True)
