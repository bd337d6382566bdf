"""The yarn in the counted stitches of each piece and band of a size."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from ..core.counted import Count
from ..core.counts import Unit
from ..core.expression import Expression, Noted, Operand, Rounded, Sum, Term, plain
from ..core.operands import Note, Role
from ..core.yarn_parts import SharedIn, ShareRole, YarnCaution, YarnDoubt
from ..fabric.gauge import Gauge, measure
from ..fabric.piece_fabrics import own_foot_fabric, piece_fabric
from ..fabric.yarn import Amount, per_gram, stitch_amount, stitch_length, stitch_mass, total
from ..machine.trace import Trace
from ..pattern.fabrics import Fabric, Materials, Yarn
from ..pattern.model import GarmentSpec, Pattern
from ..plan.arranged import edge_fabric, knits_as_edge
from ..plan.band import BandPlan
from ..program.band_steps import FACING, MAIN
from ..shape.piece import Piece
from ..words.terms.yarn_names import OTHER_YARNS
from .parts_of_fabrics import parts_of
from .proof import KnittedPiece, SizeProof, Strip
from .yarn_extras import piece_yarn, second_colour, times_of


@dataclass(frozen=True, slots=True, kw_only=True)
class YarnShare:
    """What one piece or band takes of a yarn, all `times` it is knitted, without allowance.

    `stitches` are those of all times. `cautions` say what the amount is based on where a swatch
    of its fabric was not weighed.
    """

    key: str
    part: SharedIn
    yarn: str
    times: int
    stitches: Count
    amount: Amount
    cautions: tuple[YarnCaution, ...] = ()


def free_key(key: str, what: str, taken: Collection[str]) -> str:
    """Return `key` for a piece or facing, with `what` it is after it while a band is so called."""
    while key in taken:
        key = f"{key}_{what}"
    return key


# Pieces: their hem in a separate fabric, where the pattern has one of that yarn and dial


def shares_of_pieces(pattern: Pattern, size: SizeProof) -> Iterator[YarnShare]:
    if pattern.garment is None or size.assembled is None:
        return
    for knitted in size.pieces:
        body = piece_fabric(pattern.garment, pattern.fabrics, knitted.piece.key)
        times = times_of(size, knitted)
        if _main(knitted.run) or not knitted.piece.striped:
            yield _piece(pattern, body, knitted, times)
        yield from _in_stripes(pattern, body, knitted, times)
        if second := second_colour(knitted.run):
            yield _in_contrast(pattern, body, knitted.piece, second, times)


def _in_contrast(pattern: Pattern, body: Fabric, piece: Piece, second: int, times: int
                 ) -> YarnShare:
    """The contrast yarn of a piece: its share of the swatch by its stitches, floats and all."""
    each = stitch_amount(body.swatches, measure(body.swatches),
                         per_gram(pattern.yarns[body.contrast]), fabric=body.key)
    shared = YarnCaution(doubt=YarnDoubt.TWO_YARNS, fabric=parts_of(pattern, body.key))
    all_ = second * times
    knitted = Operand(Fraction(second), Role.SECOND_COLOUR)
    made = plain(times) * knitted if times > 1 else knitted
    return YarnShare(key=free_key(piece.key, "piece", pattern.bands),
                     part=SharedIn(title=piece.title, times=times, role=ShareRole.SECOND_COLOUR),
                     yarn=body.contrast, times=times,
                     stitches=Count(Noted(made, Note.BED), Unit.STITCHES),
                     amount=each.times(bed_stitches(all_)),
                     cautions=(*_unweighed(pattern, [body]), shared))


def _in_stripes(pattern: Pattern, body: Fabric, knitted: KnittedPiece, times: int
                ) -> Iterator[YarnShare]:
    """The yarns of a piece's stripes beside its own, each by its own rows."""
    piece, found = knitted.piece, dict(knitted.run.stitches)
    for name in OTHER_YARNS:
        if name not in found:
            continue
        key = piece_yarn(pattern.garment, pattern.fabrics, piece.key, name)
        each = Noted(Operand(Fraction(found[name]), Role.IN_STRIPES), Note.BED)
        yield YarnShare(key=free_key(piece.key, "piece", pattern.bands), yarn=key, times=times,
                        part=SharedIn(title=piece.title, times=times, role=ShareRole.STRIPES),
                        stitches=Count(plain(times) * each if times > 1 else each, Unit.STITCHES),
                        amount=_of(pattern.materials, body, found[name] * times, key),
                        cautions=_unweighed(pattern, [body]))


def _piece(pattern: Pattern, body: Fabric, knitted: KnittedPiece, times: int) -> YarnShare:
    piece, all_ = knitted.piece, _main(knitted.run)
    inside = min(all_, piece.hem.knitted(piece.stitches.value) if piece.hem else 0)
    other = _hem_fabric(pattern.garment, pattern.materials, body, piece)
    if other is body:
        inside = 0
    amounts = [_of(pattern.materials, body, (all_ - inside) * times)]
    each = Noted(Operand(Fraction(all_), Role.BED), Note.BED)
    if inside:
        amounts.append(_of(pattern.materials, other, inside * times))
        each = Noted(Operand(Fraction(all_), Role.BED), Note.BED_HEM, (str(inside),))
    stitches = Count(plain(times) * each if times > 1 else each, Unit.STITCHES)
    fabrics = [body, other] if inside else [body]
    return YarnShare(key=free_key(piece.key, "piece", pattern.bands), yarn=body.yarn, times=times,
                     part=SharedIn(title=piece.title, times=times), stitches=stitches,
                     amount=total(amounts), cautions=_unweighed(pattern, fabrics))


def _hem_fabric(spec: GarmentSpec | None, materials: Materials, body: Fabric, piece: Piece
               ) -> Fabric:
    """The fabric of the piece's hem where it was swatched, else the body itself."""
    return (own_foot_fabric(spec, materials, piece.key) if piece.hem else None) or body


# Bands: of their own fabric; without one, of their edge's if it is the same yarn


def shares_of_bands(pattern: Pattern, size: SizeProof) -> Iterator[YarnShare]:
    taken = set(pattern.bands)
    for plan in size.plans:
        strips = [s for s in size.strips if plan.knits(s.plan)]
        yield _band(pattern, plan, strips)
        if any(FACING in dict(s.run.stitches) for s in strips):
            key = free_key(f"{plan.band.key}_facing", "facing", taken)
            taken.add(key)
            yield _behind(pattern, plan, strips, key)


def _band(pattern: Pattern, plan: BandPlan, strips: Sequence[Strip]) -> YarnShare:
    """A band for all fronts and in all its parts."""
    band = plan.band
    each = [_main(strip.run) for strip in strips] * plan.run.times
    fabric = pattern.fabrics[band.fabric or edge_fabric(pattern.garment, pattern.edges, band)]
    cautions = _unweighed(pattern, [fabric])
    if band.fabric is not None or fabric.yarn == band.yarn:
        inside = _inside(plan, len(each))
        amount = _of(pattern.materials, fabric, sum(each) - inside, band.yarn)
        if inside and plan.facing:
            other = pattern.fabrics[plan.facing.fabric]
            amount = total([amount, _of(pattern.materials, other, inside)])
            cautions += _unweighed(pattern, [other])
        if band.fabric is None and not knits_as_edge(pattern, band):
            cautions += (YarnCaution(doubt=YarnDoubt.AS_EDGE, band=band.title),)
    else:
        amount = _of_area(pattern.yarns[band.yarn], plan.gauge, sum(each))
        cautions = (YarnCaution(doubt=YarnDoubt.BY_AREA, band=band.title),)
    counted = tuple(Operand(Fraction(one), Role.BED) for one in each)
    made = Sum(counted) if len(each) > 1 else counted[0]
    stitches = Count(Noted(made, Note.BED), Unit.STITCHES)
    return YarnShare(key=band.key, yarn=band.yarn, times=len(each), stitches=stitches,
                     part=SharedIn(title=band.title, times=len(each), parts=bool(plan.parts)),
                     amount=amount, cautions=cautions)


def _behind(pattern: Pattern, plan: BandPlan, strips: Sequence[Strip], key: str) -> YarnShare:
    """The layer behind the fold of a band, where it has a separate yarn."""
    band = plan.band
    assert plan.facing is not None
    fabric = pattern.fabrics[plan.facing.fabric]
    times = len(strips) * plan.run.times
    all_ = sum(dict(s.run.stitches)[FACING] for s in strips) * plan.run.times
    made = Operand(Fraction(all_), Role.BEHIND)
    return YarnShare(key=key, part=SharedIn(title=band.title, role=ShareRole.BEHIND_FOLD),
                     yarn=fabric.yarn, times=times,
                     stitches=Count(Noted(made, Note.BED), Unit.STITCHES),
                     amount=_of(pattern.materials, fabric, all_),
                     cautions=_unweighed(pattern, [fabric]))


def _inside(plan: BandPlan, strips: int) -> int:
    """The stitches behind the folds that are of the band's own yarn [stitches]."""
    facing = plan.facing
    if facing is None or facing.yarn != plan.band.yarn:
        return 0
    return strips * facing.stitches.value * facing.rows.value


def _of(materials: Materials, fabric: Fabric, stitches: int, yarn: str = "") -> Amount:
    """The yarn in so many stitches of a fabric, knitted in `yarn` where it is not its own.

    Where a chart passes stitches by, its swatch has fewer with yarn than it counts: each then
    weighs more.
    """
    each = stitch_amount(fabric.swatches, measure(fabric.swatches),
                         per_gram(materials.yarns[yarn or fabric.yarn]), fabric=fabric.key)
    chart = materials.stitch_charts.get(fabric.chart)
    if chart is None or chart.laid == 1:
        return each.times(bed_stitches(stitches))
    return each.times(Rounded(bed_stitches(stitches) / Term(
        Operand(chart.laid, Role.SHARE, place=chart.place), Role.NUMBER)))


def _of_area(yarn: Yarn, gauge: Gauge, stitches: int) -> Amount:
    return stitch_amount((), gauge, per_gram(yarn)).times(bed_stitches(stitches))


def bed_stitches(stitches: int) -> Expression:
    """Stitches that the bed counted, as an operand."""
    return Noted(Operand(Fraction(stitches), Role.BED_STITCHES), Note.BED)


def _unweighed(pattern: Pattern, fabrics: Sequence[Fabric]) -> tuple[YarnCaution, ...]:
    """A caution for each fabric that has no swatch that was weighed, or whose yarn was measured."""
    return tuple(YarnCaution(doubt=YarnDoubt.UNWEIGHED, fabric=parts_of(pattern, f.key))
                 for f in fabrics
                 if stitch_mass(f.swatches) is None and stitch_length(f.swatches) is None)


def _main(run: Trace) -> int:
    """The stitches knitted with the main yarn."""
    return dict(run.stitches).get(MAIN, 0)
