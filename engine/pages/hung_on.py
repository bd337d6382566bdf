"""Pieces that bands are hung on where a pattern knits no garment: what must be knitted first."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from ..core.counts import UP, whole
from ..fabric.yarn import stitch_grams
from ..markup.html import block, esc, heading, items, link
from ..pattern.edges import Offer, Shape
from ..pattern.model import Pattern
from ..plan.band import BandPlan
from ..proof.proof import SizeProof
from ..shape.edging import Section
from ..words.words import counted, dial_said, stitches

WIDE, HIGH = 20, 20  # stitches beside a side edge, rows below waiting ones; common practice
ANCHOR = "pieces-first"


def pieces_first(pattern: Pattern, size: SizeProof) -> str:
    """Return the section that names the pieces; "" where the bands are hung on a garment's."""
    plans = _alone(pattern, size)
    if not plans:
        return ""
    lead = ("<p><strong>The bands are hung on pieces that these steps do not knit.</strong> Knit "
            "the pieces first. Each band takes an edge of its own, and no edge can be used twice. "
            "An edge of a garment with the same count will do as well. The yarn of the pieces "
            "is not in the amounts of this page.</p>\n")
    return heading(2, "Pieces to knit first", ANCHOR) + block(
        lead + items((_for_band(pattern, size, plan) for plan in plans), "wb-list"))


def listed(pattern: Pattern, size: SizeProof) -> Iterator[str]:
    """The entry of the materials, where there are such pieces."""
    plans = _alone(pattern, size)
    if plans:
        pieces = sum(_number(plan) for plan in plans)
        yield (f"<strong>{counted(pieces, 'piece').capitalize()} to hang the bands on:</strong> "
               f"{link(f'#{ANCHOR}', 'knit them first')}")


def _alone(pattern: Pattern, size: SizeProof) -> Sequence[BandPlan]:
    """The bands that take an edge which nothing on the page knits."""
    return [plan for plan in size.plans if pattern.garment is None]


def _strips(size: SizeProof, plan: BandPlan) -> int:
    """How many edges a band takes: one for each front that is knitted."""
    return max(1, len({strip.front for strip in size.strips
                       if strip.plan.band.key == plan.band.key}))


def _number(plan: BandPlan) -> int:
    """The pieces of a band: one with two side edges serves two fronts."""
    return len(plan.run.sections) if plan.run.shape is not Shape.FRONT else 1


def _for_band(pattern: Pattern, size: SizeProof, plan: BandPlan) -> str:
    fabric = pattern.fabrics[pattern.edges[plan.band.edge].fabric]
    made = f"{esc(pattern.yarns[fabric.yarn].name)}, dial {dial_said(fabric.dial)}"
    grams = stitch_grams(fabric.swatches)
    told = [_piece(section) for section in plan.run.sections]
    which = "; ".join(said for said, _, _ in told)
    mass = ""
    if grams is not None:
        amount = sum((Fraction(wide * high) * grams for _, wide, high in told), Fraction(0))
        mass = f", about {whole(amount, UP)} g"
    return f"<strong>{esc(plan.band.title)}:</strong> {which}; in {made}{mass}.{_sides(size, plan)}"


def _piece(section: Section) -> tuple[str, int, int]:
    """A piece in words, its stitches and its rows."""
    if section.offer is Offer.ROWS:
        return (f"a straight piece {counted(section.places, 'row')} high, at least "
                f"{stitches(WIDE)} wide", WIDE, section.places)
    return (f"{esc(section.title)}: a straight piece {stitches(section.places)} wide, about "
            f"{counted(HIGH, 'row')} high, its last row {_left(section.offer)}", section.places,
            HIGH)


def _left(offer: Offer) -> str:
    return {Offer.BOUND_OFF: "bound off", Offer.CAST_ON: "not used: the cast-on edge is hung",
            Offer.ABOVE_CORD: "not used: it begins on waste yarn and ravel cord"}.get(
                offer, "taken off on waste yarn")


def _sides(size: SizeProof, plan: BandPlan) -> str:
    if plan.run.shape is not Shape.FRONT:
        return ""
    if _strips(size, plan) > 1:
        return (" The right front's band takes one of its side edges, the left front's the other. "
                "The cast-on edge is the hem.")
    return " The band takes one of its side edges. The cast-on edge is the hem."
