"""Bands whose rows run along their edge: needles from the depth, rows from the edge's length.

Such a band is knitted apart on a few needles and sewn on. In its plan what is counted along the
edge are rows, and its gauge is turned by a quarter, so that lengths along the edge and across it
are reckoned as those of any band.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from ..catalogue.bands import KINDS
from ..core.counted import Count, stated
from ..core.counts import Rounding, Unit
from ..core.expression import Expression, Operand, Term, plain
from ..core.note_arguments import Noted
from ..core.operand_parts import PartRole
from ..core.operands import Note, Role
from ..core.problems import Problem, error
from ..fabric.arrangement import allowed_counts
from ..fabric.gauge import Gauge, counted, measure, stitches_across, stitches_in
from ..pattern.edges import OPEN
from ..pattern.fabrics import Fabric, Repeat, swatched_plain
from ..pattern.model import Band, BandRows
from ..pattern.places import Places
from ..shape.edge_path import EdgePath
from ..words.terms.part_names import part_name
from .layers import halves

SEAM = 1
"""The stitch of the band that the seam takes: mattress stitch, common practice, no source."""
HOLE_ROWS = 1
"""The rows that a hole takes: it is made between two rows, and the next one is knitted over it."""
LEAST = 2  # stitches of a band's width, beside that of the seam


def runs_along(band: Band) -> bool:
    """True for a band whose rows run along its edge."""
    return KINDS[band.kind].lengthwise


def across_unit(band: Band) -> Unit:
    """What of the band lies across its edge."""
    return Unit.STITCHES if runs_along(band) else Unit.ROWS


def waiting_edge(places: Places, band: Band, size: str, edge_path: EdgePath) -> list[Problem]:
    """Return an error where the edge has stitches that wait: no seam along them holds them."""
    waits = next((s for s in edge_path.sections if s.offer in OPEN), None)
    if waits is None or not runs_along(band):
        return []
    return [error(
        "not-lengthwise", places.of(f"bands.{band.key}.edge"), size=size,
        found=f"a {band.kind} band along {edge_path.title}, of which {waits.places} stitches wait "
              f"({waits.name})",
        expected="an edge of rows, or of stitches that were bound off or cast on, to which it can "
                 "be sewn",
        remedy="Give this edge a band of another kind, and the lengthwise one to the front edges, "
               "the armholes or a separate edge.")]


def seen_width(places: Places, fabrics: Mapping[str, Fabric], band: Band, wide: Count, gauge: Gauge,
               repeat: Repeat | None) -> Expression:
    """Return how wide the `wide` stitches that are seen of a band lie [mm].

    With needles left out of work whole repeats are as wide as in the swatch, ladders and all. What
    stands beside them at the edges has no ladder: it is as wide as swatched on every needle.
    """
    stitch = Operand(gauge.stitch, Role.STITCH_WIDTH)
    if repeat is None:
        return wide.term(Role.STITCHES) * stitch
    beside, solid = _beside(places, fabrics, band, repeat, gauge)
    laddered = Operand(gauge.stitch, Role.STITCH_WIDTH, part_name(PartRole.WITH_LADDER))
    return (wide.term(Role.STITCHES) - beside) * laddered + Term(beside, Role.STITCHES) * solid


def _beside(places: Places, fabrics: Mapping[str, Fabric], band: Band, repeat: Repeat, gauge: Gauge
            ) -> tuple[Operand, Operand]:
    """The stitches seen beside whole repeats, and the width of one [mm]; a band without a swatch
    of it is refused elsewhere."""
    own = swatched_plain(fabrics, band.fabric or "")
    solid = measure(own.swatches) if own else gauge
    number = Fraction(allowed_counts(repeat).plus - SEAM)
    place = places.of(f"fabrics.{band.fabric}.needles") if band.fabric else None
    return (Operand(number, Role.STITCHES, part_name(PartRole.AT_EDGES), place),
            Operand(solid.stitch, Role.STITCH_WIDTH))


def width_stitches(places: Places, fabrics: Mapping[str, Fabric], band: Band, size: str,
                   gauge: Gauge, repeat: Repeat | None
                  ) -> tuple[Count, BandRows | None, list[Problem]]:
    """Return the stitches [stitches] that are seen of the band's depth, and how the holes divide
    them; `gauge` is that of its fabric, not turned.

    With needles left out of work the stitches, and the one of the seam, fit whole repeats.
    """
    if band.rows is not None:
        r = band.rows
        wide = Count(Noted(plain(r.to_holes) + plain(r.holes_to_fold), Note.A_LAYER),
                     Unit.STITCHES)
        return wide, r, []
    if size in band.across:
        return _outright_width(places, band, size, repeat)
    assert band.depth is not None
    place = places.of(f"bands.{band.key}.depth", size)
    deep = Operand(band.depth[size].mm, Role.LENGTH, place=place)
    wide = stitches_across(band.depth[size], gauge, measure=deep)
    if repeat is not None:
        beside, solid = _beside(places, fabrics, band, repeat, gauge)
        seen = Rounding("multiple", allowed_counts(repeat).of, int(beside.value))
        figure = stitches_in(deep - beside * solid, gauge) + Term(beside, Role.STITCHES)
        wide = counted(figure, Unit.STITCHES, gauge.stitch, seen)
    if wide.value < LEAST:
        return wide, None, [error(
            "band-too-shallow", place, size=size,
            found=f"a depth of {band.depth[size].in_cm()}, which is {wide}",
            expected=f"at least {LEAST} stitches beside the one that the seam takes",
            remedy="Give the band more depth.")]
    first, rest = (int(one.value) for one in halves(wide, None))
    return wide, BandRows(to_holes=first, holes_to_fold=rest, fold_to_holes=rest,
                          to_finish=first), []


def _outright_width(places: Places, band: Band, size: str, repeat: Repeat | None
                    ) -> tuple[Count, BandRows | None, list[Problem]]:
    """The stitches that are seen of those which the designer gives on its needles, and how the
    holes divide them."""
    place, layers = places.of(f"bands.{band.key}.depth", size), KINDS[band.kind].layers
    number = band.across[size]
    fits = allowed_counts(repeat) if repeat is not None else None
    wrong = number % layers or (fits is not None and (number - fits.plus) % fits.of)
    if wrong or number // layers - SEAM < LEAST:
        return stated(number, Unit.STITCHES, place), None, [error(
            "cannot-round" if wrong else "band-too-shallow", place, size=size,
            found=f"{Unit.STITCHES.of(number)} across",
            expected=(str(fits) if fits is not None else "an even number") if wrong else
            f"at least {layers * (LEAST + SEAM)}", remedy="Write another number of stitches.")]
    on_needles: Expression = Operand(Fraction(number), Role.SOURCE, Unit.STITCHES.name_of(number),
                                     place)
    if layers > 1:
        on_needles = on_needles / plain(layers)
    wide = Count(on_needles - Operand(Fraction(SEAM), Role.SEAM), Unit.STITCHES)
    first, rest = (int(one.value) for one in halves(wide, None))
    return wide, BandRows(to_holes=first, holes_to_fold=rest, fold_to_holes=rest,
                          to_finish=first), []
