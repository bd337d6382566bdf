"""Words for the drawings of pieces: their scale, what they show, and what a heavy line means."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from ..markup.html import esc
from ..shape.dimension_names import DimensionKind, DimensionName
from ..shape.foot import Foot
from ..shape.polygon import Outline
from ..shape.ribs import Rib
from .words import joined

_LISTED = 3  # heights that are all named; of more the first and the last are

DIMENSIONS: Mapping[DimensionKind, str] = {
    DimensionKind.CAST_ON: "width at the cast-on edge",
    DimensionKind.ABOVE_HEM: "width above the hem",
    DimensionKind.ABOVE_RIB: "width above the rib",
    DimensionKind.UNDERARM: "width at the underarm",
    DimensionKind.ACROSS: "width between the armholes",
    DimensionKind.SHOULDER: "shoulder width",
    DimensionKind.NECK: "neck width",
    DimensionKind.TOP: "width at the top",
    DimensionKind.HEM: "hem depth",
    DimensionKind.RIB: "rib depth",
    DimensionKind.TO_UNDERARM: "lower edge to underarm",
    DimensionKind.ARMHOLE: "armhole depth",
    DimensionKind.ABOVE_UNDERARM: "height from the underarm to the top",
    DimensionKind.SLOPE: "shoulder slope",
    DimensionKind.NECK_DEPTH: "neck depth",
    DimensionKind.SLIT_DEPTH: "neck depth, with the slit",
    DimensionKind.FRONT_EDGE: "front edge up to the neck",
    DimensionKind.TO_MARK: "lower edge to lower mark",
    DimensionKind.MARKS: "height between the marks",
    DimensionKind.GATHERED: "height of the gathered top",
    DimensionKind.WEDGED: "height of the crown",
    DimensionKind.WHOLE: "whole height",
    DimensionKind.HIP_WIDTH: "width at the hip",
    DimensionKind.WAIST_WIDTH: "width at the waist",
    DimensionKind.TO_HIP: "lower edge to hip",
    DimensionKind.TO_WAIST: "lower edge to waist",
    DimensionKind.CORNER_WIDTH: "width at {corner}",
    DimensionKind.TO_CORNER: "height to {corner}",
    DimensionKind.TO_LAST_CORNER: "height from {below} to {corner}",
}


def dimension_text(name: DimensionName) -> str:
    """What a measure of a piece is called."""
    return DIMENSIONS[name.what].format(corner=name.corner, below=name.below)


def on_paper(smaller: str) -> str:
    """How many times smaller than the piece a drawing is when printed, as HTML."""
    return (f'<p class="wb-on-paper">Printed at 100 %, the drawings are 1 to {smaller}: 1 cm on '
            f"paper is {smaller} cm of the piece.</p>")


def legend(*, seams: bool, bands: bool, faced: bool, feet: str, folded: bool) -> str:
    """How the drawings lie, and what of a size with `seams`, `bands` (one a facing: `faced`) or
    `feet`, its hems and ribs, they show; one that is `folded` is closed by a row that its depth
    leaves out. HTML."""
    sewn = " Seam stitches are included." if seams else ""
    what = "Bands and facings are not" if faced else "Bands are not"
    more = "" if not bands else f" {what}." if seams else f" {what} drawn."
    dashed = f", and a dashed line is the top of a {feet}" if feet else ""
    dashed += ", below its joining row" * folded
    return ("<p>All pieces are drawn to one scale, as they lie on the bed: the purl side faces you."
            f"{sewn}{more} The arrowheads inside a piece point the way it is knitted{dashed}.</p>")


def foot_text(foot: Foot) -> str:
    """What the lower part of a piece is, in a word."""
    return "rib" if isinstance(foot, Rib) else "hem"


def is_folded(foot: Foot) -> bool:
    """True for a hem, and for a rib that is folded: a row joins the two layers."""
    return not isinstance(foot, Rib) or foot.folded


def drawn_in(size: str) -> str:
    """Of which size the drawings are, as HTML."""
    return f"<p>Drawn in size {esc(size)}. The letters stand for the measures in the table.</p>"


def alike(piece: Outline) -> str:
    """That a piece is as another."""
    return f" and {piece.title.lower()}"


def mirrored(piece: Outline) -> str:
    """That a piece is another as a mirror shows it."""
    return f" ({piece.title.lower()} mirrored)"


def rib_width(width: str) -> str:
    """How wide a rib is at rest."""
    return f"Rib at rest: {width} wide"


def pocket_opening(width: str, height: str) -> str:
    """What a heavy line in a piece is, with its figures in both units."""
    return f"Heavy line, the opening of a pocket: {width} wide, {height} above the lower edge"


def vertical_darts(many: int, inset: str, low: str, high: str) -> str:
    """What thin lines inside a piece are, with their figures in both units."""
    each = "Thin lines inside, vertical darts: each" if many > 1 else \
        "Thin line inside, a vertical dart:"
    return (f"{each} {inset} from the side edge at its lower end, from {low} to {high} above the "
            "lower edge")


def bust_darts(wide: str, high: str, deep: str) -> str:
    """What thin lines from the sides of a piece are, with their figures in both units."""
    return (f"Thin lines from the sides, bust darts: each {wide} wide, {high} above the lower "
            f"edge; between them the piece is {deep} longer than it is drawn")


def short_rows(high: Sequence[str], wide: str, deep: str, over: str = "") -> str:
    """What thin lines from the edges of an own piece are, or from the ends of a part of it that is
    so wide (`over`), at each of these heights, with their figures in both units."""
    at = joined(high) if len(high) <= _LISTED else f"from {high[0]} to {high[-1]}"
    each = "each time " * (len(high) > 1)
    times = f", {len(high)} times" * (len(high) > _LISTED)
    ends = f"an edge and from {over} beside it" if over else "the edges"
    return (f"Thin lines from {ends}, short rows{times}: each {wide} wide, {at} above the lower "
            f"edge; {each}the piece is {deep} longer between them than it is drawn")


def shirt_tail(low: str, long: str) -> str:
    """How far the middle of a lower edge hangs below its sides, and how `long` the piece is to
    there from its top, in both units."""
    return (f"Shirt tail: {low} lower in its middle than at its sides. The whole height is that of "
            f"the sides; from the top to the middle of the lower edge it is {long}")
