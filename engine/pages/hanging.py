"""The table that says which garment row meets which needle, for one front."""

from __future__ import annotations

from ..pickup import marks
from ..proof import Strip
from .html import esc, heading, table
from .tell_edges import hanging_anchor
from .words import joined

_QUARTERS = ("end at the hem", "quarter", "middle", "three quarters", "upper end")


def hanging_table(strip: Strip) -> str:
    """Return heading and table; a Markdown heading and an HTML block."""
    pick, layout = strip.plan.pick_up, strip.layout
    where = _places(pick.stitches)
    rows = [(layout.at(stitch).name, str(pick.rows[stitch - 1]), str(stitch),
             where.get(stitch, "every tenth")) for stitch in marks(pick.stitches)]
    front = f"{strip.front.value} front"
    label = esc(f"Hanging table, {strip.plan.band.title}, {front}")
    return (heading(3, f"Hanging table, {front}",
                    hanging_anchor(strip.front.value, strip.plan.band.key))
            + f'<div class="wb">\n<p>Rows of the garment\'s edge are counted from the hem, which '
              f"lies on the {layout.hem.value} of the bed. {pick.stitches} needles take "
              f"{pick.stitches} of its {pick.edge_rows} rows. {esc(pick.said)}</p>\n"
            + table(label, ("Needle", "Garment row", "Stitch from the hem", "Where"), rows)
            + "\n</div>\n\n")


def _places(stitches: int) -> dict[int, str]:
    """Names of the marked stitches: ends, quarters and middle."""
    found: dict[int, list[str]] = {}
    for k, name in enumerate(_QUARTERS):
        found.setdefault(1 + (2 * k * (stitches - 1) + 4) // 8, []).append(name)
    return {stitch: joined(names) for stitch, names in found.items()}
