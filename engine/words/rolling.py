"""Says where stocking stitch rolls: bands of one layer, and lower edges of pieces."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import partial

from ..catalogue.bands import KINDS
from ..pattern.fabrics import Fabric
from ..pattern.model import Band, GarmentSpec
from ..plan.band import BandPlan
from ..plan.bare_edges import BareSides, Rolls, bare_sides, rolls_below
from ..plan.sense import rolls
from ..proof.proof import SizeProof
from ..shape.piece import Piece
from .words import joined


def rolls_text(fabrics: Mapping[str, Fabric], plan: BandPlan) -> str:
    """A sentence that begins with a space, or none."""
    if plan.repeat or not rolls(fabrics, plan.band):
        return ""
    points = (" Its points curl too: pin them flat and steam them, if the yarn's label allows "
              "steam, and again after a wash.") if curls_at_points(fabrics, plan) else ""
    return (" One layer of stocking stitch rolls towards its knit side: the depth is that of the "
            f"band laid flat.{points}")


def curls_at_points(fabrics: Mapping[str, Fabric], plan: BandPlan) -> bool:
    """True for a collar of one layer whose points are to be pinned flat and steamed."""
    return bool(plan.collar.points and not plan.repeat and rolls(fabrics, plan.band))


def pressed_over(plan: BandPlan) -> bool:
    """True for a shirt collar of two layers, which is folded over and pressed
    (bands/shirt-collar.md, step 5)."""
    kind = KINDS[plan.band.kind]
    return kind.doubled and kind.falls and kind.meets


def left_to_roll(fabrics: Mapping[str, Fabric], plan: BandPlan) -> bool:
    """True for a band that is worn rolled: a collar of one layer is pinned and steamed flat."""
    return not plan.repeat and rolls(fabrics, plan.band) and not KINDS[plan.band.kind].collar


def seam_of_roll(fabrics: Mapping[str, Fabric], plan: BandPlan) -> str:
    """From which side two ends of a band are sewn to each other, a sentence after a space; a roll
    shows the purl side (bands/rolled.md)."""
    return (" The band rolls: sew its rows with the purl side towards you, so that the seam lies "
            "inside the roll."
            if left_to_roll(fabrics, plan) else "")


def hidden(fabrics: Mapping[str, Fabric], plan: BandPlan) -> str:
    """Where the ends of a band are hidden, in a sentence; and what its own seam asks for."""
    if KINDS[plan.band.kind].doubled:
        return "Draw each in between the layers."
    if _falls_purl_out(fabrics, plan):
        return ("Hide those at the bound-off edge on the knit side, which lies beneath when the "
                "collar has fallen over. Hide the others on the garment's wrong side, along its "
                "edge.")
    if not left_to_roll(fabrics, plan):
        return "Hide them on the wrong side, along the edge."
    return ("Hide those at the bound-off edge on the knit side, inside the roll. Hide the others "
            "on the wrong side, along the edge.")


def _falls_purl_out(fabrics: Mapping[str, Fabric], plan: BandPlan) -> bool:
    """True for a collar of one layer of stocking stitch that is worn purl side out."""
    kind = KINDS[plan.band.kind]
    return kind.falls and not kind.doubled and not plan.collar.right_side and rolls(fabrics,
                                                                                   plan.band)


def lower_edge_rolls(bands: Mapping[str, Band], size: SizeProof, piece: Piece) -> str:
    """A sentence on a piece's lower edge that begins with a space, or none."""
    if size.assembled is None:
        return ""
    side = rolls_below(bands, size.assembled.garment, piece)
    edge, size_of = ("long edge", "depth") if piece.bound_off_to else ("lower edge", "length")
    return "" if side is None else (
        f" The {edge} is bare stocking stitch and rolls towards its {side.value} side: the "
        f"{size_of} is that of the piece laid flat.")


def sides_roll(spec: GarmentSpec | None, bands: Mapping[str, Band], piece: Piece) -> str:
    """Sentences on a piece's sides that are bare, each after a space, or none."""
    return "".join(map(partial(_side_rolls, piece.left.rows), bare_sides(spec, bands, piece)))


def _side_rolls(rows: int, bare: BareSides) -> str:
    """Which part of one side or of both rolls, and why, in a piece of so many `rows`."""
    edges = f"the {' and the '.join(side.value for side in bare.sides)} edge"
    lie, take = ("lie", "take") if len(bare.sides) > 1 else ("lies", "takes")
    where = "" if (bare.low, bare.high) == (0, rows) else (
        f"above row counter {bare.low} " if bare.high == rows else
        f"up to row counter {bare.high} " if not bare.low else
        f"between row counter {bare.low} and {bare.high} ")
    text = (f"{where}{edges} {lie} in no seam and {take} no band: bare stocking stitch rolls "
            f"there towards its {Rolls.PURL.value} side.")
    return f" {text[:1].upper()}{text[1:]}"


def lower_edges_roll(bands: Mapping[str, Band], size: SizeProof) -> Iterator[str]:
    """What to know of a garment whose lower edges roll, a sentence for each way they do."""
    if size.assembled is None:
        return
    garment = size.assembled.garment
    for side in Rolls:
        names = [piece.title.lower() for piece in garment.pieces
                 if rolls_below(bands, garment, piece) is side]
        if names:
            which, does, each = ("edges", "roll", "their") if len(names) > 1 else \
                ("edge", "rolls", "its")
            are = "are" if len(names) > 1 else "is"
            where = "long" if any(piece.bound_off_to for piece in garment.pieces) else "lower"
            yield (f"The {where} {which} of the {joined(names)} {are} bare stocking stitch and "
                   f"{does} towards {each} {side.value} side. Lengths are those of the work laid "
                   "flat.")
