"""Words for the ways in which a piece is shaped at the machine, said once on a page."""

from __future__ import annotations

from ..markup.html import link
from .shaped_edges import Done

HEADING = "How the shaping is worked"
# What is done at the bed is common practice, no source, unless a step of the engine names one.
HOW = {
    Done.DECREASE: (
        "Decrease, fully fashioned",
        "Take as many end stitches as the step says on the prongs of the transfer tool, and put "
        "them one needle inward. Where it has too few prongs, move them in several goes, the "
        "innermost first. The innermost lands on a needle that has a stitch: the next row knits "
        "both as one. Push the outermost needle, now empty, back to non-working position."),
    Done.INCREASE: (
        "Increase",
        "Bring the next empty needle beside the edge to working position. With the transfer "
        "tool, lift onto this needle the loop just below the end stitch, so that no hole is left."),
    Done.BIND_OFF: (
        "Bind off at an edge",
        "Bind off only where the carriage stands, with the yarn that hangs there. Move the end "
        "stitch onto the needle beside it, draw a loop of the yarn through both stitches, and so "
        "on inward. When as many needles are empty as the step says, the last loop stays on its "
        "needle as the new end stitch: push that needle back to working position. Push the empty "
        "needles back to non-working position."),
    Done.HOLD: (
        "Hold stitches (short rows)",
        "Set the carriage to hold. Push the needles that the step names forward to holding "
        "position: several at once only on the side away from the carriage. The carriage passes "
        "them by. At each turn lay the yarn round the first held needle, or a hole forms. Either "
        "push one needle more forward on the carriage's own side, and the yarn goes round it by "
        "itself (automatic wrap); or lay the yarn by hand under the held needle next to those in "
        "work before the carriage goes back. Do not do this at an opening or a slit, or between a "
        "crown's quarters. Claw weights hang under the stitches in work, beside "
        "the held ones, and move along with them. When no needle is held any more, set the "
        "carriage to knit."),
}
# Added where the carriage is set to hold somewhere on the page (common practice, no source).
WHILE_HOLDING = {
    Done.DECREASE: " If the carriage is set to hold, push the needles of the moved stitches back "
                   "to upper working position, latches open. The carriage does not knit needles "
                   "that are fully forward.",
    Done.INCREASE: " If the carriage is set to hold, push that needle back to upper working "
                   "position, latch open. The carriage does not knit needles that are fully "
                   "forward."}
_PAGES = {Done.DECREASE: "fully-fashioned-decrease", Done.INCREASE: "increase",
          Done.BIND_OFF: "bind-off-at-the-side", Done.HOLD: "held-shoulders"}
WASTE = ("Put stitches on waste yarn",
         "With a needle: draw smooth yarn through the stitches with a blunt sewing needle and "
         "lift them off. By the carriage: knit eight rows of waste yarn and cut it. "
         "Keep your feet clear, and take the weights off these stitches. Take the carriage across "
         "once with no yarn: these stitches drop off, and held stitches stay on. Nothing can run, "
         "for the waste rows come undone first.")


def more_of(done: Done) -> str:
    """A link to the technique page of a way of shaping."""
    return link(f"../../techniques/{_PAGES[done]}.html", "More of it", "wb-how")
