"""The yarn in the counted stitches of each piece and band of a size."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from fractions import Fraction

from ..core.counted import Count
from ..core.counts import Unit
from ..core.expression import Expression, Operand, Rounded, Sum, Term, plain
from ..core.note_arguments import Noted
from ..core.operands import Note, Role
from ..core.yarn_parts import SharedIn, ShareRole, YarnCaution, YarnDoubt
from ..fabric.gauge import Gauge, measure
from ..fabric.piece_fabrics import own_foot_fabric, piece_fabric
from ..fabric.yarn import Amount, per_gram, stitch_amount, stitch_length, stitch_mass, total
from ..machine.records import dataclass
from ..machine.step_keys import STRIPE_YARNS, StepYarn
from ..machine.trace import Trace
from ..pattern.fabrics import Fabric, Materials, Yarn
from ..pattern.model import GarmentSpec, Pattern
from ..plan.arranged import edge_fabric, knits_as_edge
from ..plan.band import BandPlan
from ..shape.piece import Piece
from .parts_of_fabrics import Parts, parts_of, parts_of_fabrics
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


@dataclass(frozen=True, slots=True, kw_only=True)
class _Body:
    """A piece with the key of its share, the fabric of its body, and how often it is knitted."""

    knitted: KnittedPiece
    key: str
    fabric: Fabric
    times: int


def free_key(key: str, what: str, taken: Collection[str]) -> str:
    """Return `key` for a piece or facing, with `what` it is after it while a band is so called."""
    while key in taken:
        key = f"{key}_{what}"
    return key


# Pieces: their hem in a separate fabric, where the pattern has one of that yarn and dial


def shares_of_pieces(pattern: Pattern, size: SizeProof) -> Iterator[YarnShare]:
    if pattern.garment is None or size.assembled is None:
        return
    spec, materials, parts = pattern.garment, pattern.materials, parts_of_fabrics(pattern)
    for knitted in size.pieces:
        key = knitted.piece.key
        body = _Body(knitted=knitted, key=free_key(key, "piece", pattern.bands),
                     fabric=piece_fabric(spec, materials.fabrics, key),
                     times=times_of(size, knitted))
        if _main(knitted.trace) or not knitted.piece.striped:
            yield _piece(spec, materials, parts, body)
        yield from _in_stripes(spec, materials, parts, body)
        if second := second_colour(knitted.trace):
            yield _in_contrast(materials.yarns, parts, body, second)


def _in_contrast(yarns: Mapping[str, Yarn], parts: Mapping[str, Parts], body: _Body, second: int
                 ) -> YarnShare:
    """The contrast yarn of a piece: its share of the swatch by its stitches, floats and all."""
    fabric, times = body.fabric, body.times
    each = stitch_amount(fabric.swatches, measure(fabric.swatches),
                         per_gram(yarns[fabric.contrast]), fabric=fabric.key)
    shared = YarnCaution(doubt=YarnDoubt.TWO_YARNS, fabric=parts_of(parts, fabric.key))
    all_ = second * times
    knitted = Operand(Fraction(second), Role.SECOND_COLOUR)
    made = plain(times) * knitted if times > 1 else knitted
    title = body.knitted.piece.title
    return YarnShare(key=body.key, yarn=fabric.contrast, times=times,
                     part=SharedIn(title=title, times=times, role=ShareRole.SECOND_COLOUR),
                     stitches=Count(Noted(made, Note.BED), Unit.STITCHES),
                     amount=each.times(bed_stitches(all_)),
                     cautions=(*_unweighed(parts, [fabric]), shared))


def _in_stripes(spec: GarmentSpec | None, materials: Materials, parts: Mapping[str, Parts],
                body: _Body) -> Iterator[YarnShare]:
    """The yarns of a piece's stripes beside its own, each by its own rows."""
    piece, times, found = body.knitted.piece, body.times, dict(body.knitted.trace.stitches)
    for name in STRIPE_YARNS:
        if name not in found:
            continue
        key = piece_yarn(spec, materials.fabrics, piece.key, name)
        each = Noted(Operand(Fraction(found[name]), Role.IN_STRIPES), Note.BED)
        yield YarnShare(key=body.key, yarn=key, times=times,
                        part=SharedIn(title=piece.title, times=times, role=ShareRole.STRIPES),
                        stitches=Count(plain(times) * each if times > 1 else each, Unit.STITCHES),
                        amount=_of(materials, body.fabric, found[name] * times, key),
                        cautions=_unweighed(parts, [body.fabric]))


def _piece(spec: GarmentSpec | None, materials: Materials, parts: Mapping[str, Parts], body: _Body
           ) -> YarnShare:
    piece, fabric, times = body.knitted.piece, body.fabric, body.times
    all_ = _main(body.knitted.trace)
    inside = min(all_, piece.hem.knitted(piece.stitches.value) if piece.hem else 0)
    other = _hem_fabric(spec, materials, fabric, piece)
    if other is fabric:
        inside = 0
    amounts = [_of(materials, fabric, (all_ - inside) * times)]
    each = Noted(Operand(Fraction(all_), Role.BED), Note.BED)
    if inside:
        amounts.append(_of(materials, other, inside * times))
        each = Noted(Operand(Fraction(all_), Role.BED), Note.BED_HEM, (inside,))
    stitches = Count(plain(times) * each if times > 1 else each, Unit.STITCHES)
    fabrics = [fabric, other] if inside else [fabric]
    return YarnShare(key=body.key, yarn=fabric.yarn, times=times,
                     part=SharedIn(title=piece.title, times=times), stitches=stitches,
                     amount=total(amounts), cautions=_unweighed(parts, fabrics))


def _hem_fabric(spec: GarmentSpec | None, materials: Materials, body: Fabric, piece: Piece
               ) -> Fabric:
    """The fabric of the piece's hem where it was swatched, else the body itself."""
    return (own_foot_fabric(spec, materials, piece.key) if piece.hem else None) or body


# Bands: of their own fabric; without one, of their edge's if it is the same yarn


def shares_of_bands(pattern: Pattern, size: SizeProof) -> Iterator[YarnShare]:
    taken, materials, parts = set(pattern.bands), pattern.materials, parts_of_fabrics(pattern)
    for plan in size.plans:
        band, strips = plan.band, [s for s in size.strips if plan.knits(s.plan)]
        key = band.fabric or edge_fabric(pattern.garment, pattern.edges, band)
        yield _band(materials, parts, plan, strips, materials.fabrics[key],
                    as_edge=knits_as_edge(pattern.garment, pattern.fabrics, pattern.edges, band))
        if any(StepYarn.FACING in dict(s.trace.stitches) for s in strips):
            key = free_key(f"{plan.band.key}_facing", "facing", taken)
            taken.add(key)
            yield _behind(materials, parts, plan, strips, key)


def _band(materials: Materials, parts: Mapping[str, Parts], plan: BandPlan, strips: Sequence[Strip],
          fabric: Fabric, *, as_edge: bool) -> YarnShare:
    """A band for all fronts and in all its parts, by its `fabric` or its edge's; `as_edge` says
    that it is knitted as its edge is."""
    band = plan.band
    each = [_main(strip.trace) for strip in strips] * plan.edge_path.times
    cautions = _unweighed(parts, [fabric])
    if band.fabric is not None or fabric.yarn == band.yarn:
        inside = _inside(plan, len(each))
        amount = _of(materials, fabric, sum(each) - inside, band.yarn)
        if inside and plan.facing:
            other = materials.fabrics[plan.facing.fabric]
            amount = total([amount, _of(materials, other, inside)])
            cautions += _unweighed(parts, [other])
        if band.fabric is None and not as_edge:
            cautions += (YarnCaution(doubt=YarnDoubt.AS_EDGE, band=band.title),)
    else:
        amount = _of_area(materials.yarns[band.yarn], plan.gauge, sum(each))
        cautions = (YarnCaution(doubt=YarnDoubt.BY_AREA, band=band.title),)
    counted = tuple(Operand(Fraction(one), Role.BED) for one in each)
    made = Sum(counted) if len(each) > 1 else counted[0]
    stitches = Count(Noted(made, Note.BED), Unit.STITCHES)
    return YarnShare(key=band.key, yarn=band.yarn, times=len(each), stitches=stitches,
                     part=SharedIn(title=band.title, times=len(each), parts=bool(plan.parts)),
                     amount=amount, cautions=cautions)


def _behind(materials: Materials, parts: Mapping[str, Parts], plan: BandPlan,
            strips: Sequence[Strip], key: str) -> YarnShare:
    """The layer behind the fold of a band, where it has a separate yarn."""
    band = plan.band
    assert plan.facing is not None
    fabric = materials.fabrics[plan.facing.fabric]
    times = len(strips) * plan.edge_path.times
    all_ = sum(dict(s.trace.stitches)[StepYarn.FACING] for s in strips) * plan.edge_path.times
    made = Operand(Fraction(all_), Role.BEHIND)
    return YarnShare(key=key, part=SharedIn(title=band.title, role=ShareRole.BEHIND_FOLD),
                     yarn=fabric.yarn, times=times,
                     stitches=Count(Noted(made, Note.BED), Unit.STITCHES),
                     amount=_of(materials, fabric, all_), cautions=_unweighed(parts, [fabric]))


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


def _unweighed(parts: Mapping[str, Parts], fabrics: Sequence[Fabric]
               ) -> tuple[YarnCaution, ...]:
    """A caution for each fabric that has no swatch that was weighed, or whose yarn was measured."""
    return tuple(YarnCaution(doubt=YarnDoubt.UNWEIGHED, fabric=parts_of(parts, f.key))
                 for f in fabrics
                 if stitch_mass(f.swatches) is None and stitch_length(f.swatches) is None)


def _main(trace: Trace) -> int:
    """The stitches knitted with the main yarn."""
    return dict(trace.stitches).get(StepYarn.MAIN, 0)
