"""What is done in the making up of a hat, or of a mitten's tips: drawn up, sewn, turned up."""

from __future__ import annotations

from ..shape.tasks import Task

# With what the seam below a gathered top is sewn: common practice, no source.
REST_OF_END = ("The rest of the end sews the seam below it. If it does not reach the end of "
               "the seam, go on with a new length of main yarn.")
SEAM_REST = ("<b>Sew the rest of the seam.</b> Fasten this end, and run it in between the two "
             "layers.")
FOLD_IN = ("<b>Push the end that was knitted first up into the other,</b> until both rings meet: "
           "the hat is double, and its fold is the lower edge.")


def draw_up(task: Task) -> str:
    """The end through the stitches of a gathered top again, and what the rest of it sews."""
    whose = "each end through its" if task.each else "the end through the crown"
    return (f"<b>Draw {whose} stitches once more</b>, beginning again with the first. Pull it "
            f"tight and fasten it. {REST_OF_END}")


def draw_lower(task: Task) -> str:
    """The first stitches of a tube drawn up, off the ravel cord."""
    return (f"<b>Draw up the edge that was knitted first:</b> draw a new length of main yarn, "
            f"about {task.end} long, through all {task.stitches} stitches along the ravel cord, "
            "among them the half loop where row 1 ended, away from the yarn's tail. Leave a hand's "
            "length hanging at the start. Then draw the cord out. Draw the yarn through once more, "
            "pull it tight and fasten it.")


_ROWS = " The row count listed here has a hem's outer layer only, and the rows above it."


def crown_seam(task: Task) -> str:
    """The seam below a crown: all of it, from two sides, or but for an opening."""
    if task.leaves:
        return ("<b>Sew the back seam</b> from ring to ring, a stitch in from either edge. Leave "
                "the last hand's breadth open.")
    if not (task.turn_up and task.turn_up.mm):
        hem = (f" At the hem sew the outer layers down to the fold, then the inner ones up.{_ROWS}"
               ) * task.hemmed
        return ("<b>Sew the back seam</b> from the crown down to the lower edge, a stitch in from "
                f"either edge.{hem}")
    hem = (" At the hem sew the layer that faces you down to the fold, then the other layer from "
           f"the fold back up.{_ROWS}") * task.hemmed
    layer = "the hem's inner layer, knit side out" if task.all_hem else \
        "at its top the hem's inner layer, knit side out, below it the purl side"
    inside = f"inside, which shows when the brim is turned up: {layer}." if task.hemmed else \
        "purl side, which shows when the brim is turned up."
    return ("<b>Sew the back seam</b> from the crown down, a stitch in from either edge, with the "
            f"knit side towards you, to {task.turn_up} above the lower edge. Sew on from the "
            f"{inside}{hem}")


def turn_up(task: Task) -> str:
    """A brim turned up."""
    return f"<b>Turn the lower edge up by {task.turn_up},</b> to the outside: this is the brim."
