"""The table that says which garment row meets which needle, for one front."""

from __future__ import annotations

from itertools import groupby

from ..pickup import PickUp, marks
from ..proof import Strip
from .html import details, esc, heading, table
from .tell_edges import hanging_anchor
from .words import joined

_QUARTERS = ("hem end", "1/4", "middle", "3/4", "top end")


def hanging_table(strip: Strip) -> str:
    """Return heading and table; a Markdown heading and an HTML block."""
    pick, layout = strip.plan.pick_up, strip.layout
    where = _places(pick.stitches)
    rows = [(layout.at(stitch).name, where.get(stitch, "10th"), str(pick.rows[stitch - 1]),
             str(stitch)) for stitch in marks(pick.stitches)]
    front = f"{strip.front.value} front"
    label = esc(f"Hanging table, {strip.plan.band.title}, {front}")
    return (heading(3, f"Hanging table, {front}",
                    hanging_anchor(strip.front.value, strip.plan.band.key))
            + '<div class="wb wb-hanging">\n<p>Rows of the garment\'s edge and stitches of the '
              f"band are counted from the hem, which lies on the {layout.hem.value} of the bed. "
              f"{pick.stitches} needles take {pick.stitches} of the edge's {pick.edge_rows} rows. "
              f"{esc(pick.said)}{_in_order(pick)}</p>\n"
            + table(label, ("Needle", "Where", "Row", "Stitch"), rows)
            + _every_needle(strip) + "\n</div>\n\n")


def _in_order(pick: PickUp) -> str:
    """The runs of rows as they follow each other, where they are of more than one length."""
    if not _in_runs(pick) or len(set(pick.runs[1:-1])) < 2:
        return ""
    runs = (f"{run} ({n} times)" if n > 2 else ", ".join([str(run)] * n)
            for run, n in ((run, len(list(same))) for run, same in groupby(pick.runs)))
    return (" In this order from the hem, always with one row missed between: "
            f"{', '.join(runs)}.")


def _in_runs(pick: PickUp) -> bool:
    """True where single rows are missed between rows that are taken once."""
    return pick.stitches < pick.edge_rows and 0 not in pick.runs


def _every_needle(strip: Strip) -> str:
    """Every needle's row, where no sentence can tell them all."""
    pick = strip.plan.pick_up
    if _in_runs(pick) or pick.stitches == pick.edge_rows:
        return ""
    return details("Every needle and its row", ", ".join(
        f"{strip.layout.at(stitch).name}: {row}" for stitch, row in enumerate(pick.rows, 1)))


def _places(stitches: int) -> dict[int, str]:
    """Names of the marked stitches: ends, quarters and middle."""
    found: dict[int, list[str]] = {}
    for k, name in enumerate(_QUARTERS):
        found.setdefault(1 + (2 * k * (stitches - 1) + 4) // 8, []).append(name)
    return {stitch: joined(names) for stitch, names in found.items()}
