"""The yarn of a size beside its counted stitches: its ends, its seams, its swatches."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction

from ..catalogue.methods import SEWN, separate_end_made
from ..core.expression import Expression, Operand, so_often
from ..core.operands import Role
from ..core.yarn_parts import Beside, ExtraPart
from ..fabric.gauge import Gauge, measure, rows_of, stitches_of
from ..fabric.piece_fabrics import foot_fabrics, piece_fabric, piece_fabrics
from ..fabric.yarn import Amount, cut_length, per_gram, stitch_amount, total
from ..machine.records import dataclass
from ..machine.step_keys import STRIPE_YARNS, StepYarn
from ..machine.trace import Trace
from ..pattern.fabrics import Fabric, Materials, NeedleBed, Yarn
from ..pattern.model import GarmentSpec, Pattern
from ..pattern.places import Places
from ..plan.band import BandPlan
from ..shape.striping import step_yarns
from ..shape.tasks import TaskKind
from .parts_of_fabrics import parts_of, parts_of_fabrics
from .proof import KnittedPiece, SizeProof
from .rows_counted import rows_of_piece
from .seam_yarn import seams
from .yarn_ends import YarnEnds, added, cut_of, ends_of_band, ends_of_piece

MARGINS = Fraction(1, 2)  # of a swatch, round what is counted of it; common practice, no source


@dataclass(frozen=True, slots=True, kw_only=True)
class Extra:
    """What a size takes of a yarn beside its counted stitches: ends, seams or swatches, each of
    one `fabric`."""

    part: ExtraPart
    yarn: str
    amount: Amount
    fabric: str = ""


def ends(spec: GarmentSpec | None, materials: Materials, bed: NeedleBed, size: SizeProof
        ) -> Iterator[Extra]:
    """The ends that are cut long, and the edges that are made by hand, of every yarn."""
    lengths: dict[str, list[tuple[YarnEnds, int]]] = {}
    pitch = bed_pitch(bed)
    made = [(piece_yarn(spec, materials.fabrics, knitted.piece.key, name), ends,
             times_of(size, knitted))
            for knitted in size.pieces for name, ends in ends_of_piece(knitted).items()]
    made += [(band_yarn(strip.plan, name), ends, strip.plan.edge_path.times)
             for strip in size.strips
             for name, ends in ends_of_band(strip).items()]
    for yarn, ends, times in made:
        lengths.setdefault(yarn, []).append((ends, times))
    for yarn, cut in lengths.items():
        yield _extra(materials.yarns, Beside.ENDS, yarn, cut_of(cut, pitch))


def bed_pitch(bed: NeedleBed) -> Operand:
    """Return how far it is from needle to needle [mm], with the place that states it."""
    return Operand(bed.pitch.mm, Role.PITCH, place=bed.place)


def piece_yarn(spec: GarmentSpec | None, fabrics: Mapping[str, Fabric], piece: str, name: StepYarn
              ) -> str:
    """Return the key of the yarn that the steps of the piece with that key call `name`."""
    assert spec is not None
    body = piece_fabric(spec, fabrics, piece)
    if name in STRIPE_YARNS and spec.stripes:
        names = step_yarns(spec.stripes, body.yarn)
        return next(key for key, called in names.items() if called == name)
    return body.contrast if name == StepYarn.CONTRAST else body.yarn


def band_yarn(plan: BandPlan, name: StepYarn) -> str:
    """Return the key of the yarn that the steps of a band call `name`."""
    return plan.facing.yarn if name == StepYarn.FACING and plan.facing else plan.band.yarn


def sewing(spec: GarmentSpec | None, materials: Materials, bed: NeedleBed, size: SizeProof
          ) -> Iterator[Extra]:
    if spec is None or size.assembled is None:
        return
    garment = size.assembled.garment
    open_ = {key for t in garment.tasks if t.lower and t.end and t.kind is TaskKind.SEW_OFF
             for key in t.pieces}
    cut = [so_often(times_of(size, p), separate_end_made(
        SEWN, p.piece.stitches.term(Role.STITCHES) * bed_pitch(bed)))
        for p in size.pieces if p.piece.key in open_]
    if not garment.joins and not cut:
        return
    sides = [(p.piece, times_of(size, p), _gauge(spec, materials.fabrics, p),
              rows_of_piece(garment, p.piece)) for p in size.pieces]
    length = seams(sides, size.strips, garment.joins,
                   max(_gauge(spec, materials.fabrics, p).stitch for p in size.pieces))
    yield _extra(materials.yarns, Beside.SEAMS, piece_fabric(spec, materials.fabrics).yarn,
                 added([length, *cut]))


def _gauge(spec: GarmentSpec | None, fabrics: Mapping[str, Fabric], knitted: KnittedPiece) -> Gauge:
    return measure(piece_fabric(spec, fabrics, knitted.piece.key).swatches)


def swatches(pattern: Pattern, size: SizeProof) -> Iterator[Extra]:
    """A swatch of every fabric that is knitted, in its yarn: what was weighed, and its margins."""
    found, parts = dict[str, list[Amount]](), parts_of_fabrics(pattern)
    for key, yarn, part in dict.fromkeys(_knitted_in(pattern.garment, pattern.materials, size)):
        amount = _one_swatch(pattern.places, pattern.materials, key, yarn, part)
        found.setdefault(yarn, []).append(amount)
        yield Extra(part=ExtraPart(Beside.SWATCH, parts_of(parts, key)), yarn=yarn,
                    amount=amount, fabric=key)
    for yarn, amounts in found.items():
        yield Extra(part=ExtraPart(Beside.MARGINS), yarn=yarn,
                    amount=total(amounts).share(MARGINS))


def _knitted_in(spec: GarmentSpec | None, materials: Materials, size: SizeProof
               ) -> Iterator[tuple[str, str, Fraction]]:
    """Every fabric of a size, the yarn that it is knitted in, and that yarn's share of it."""
    if spec and size.pieces:
        for body in piece_fabrics(spec, materials.fabrics):
            chart = materials.stitch_charts.get(body.chart)
            two = any(second_colour(p.trace) for p in size.pieces
                      if piece_fabric(spec, materials.fabrics, p.piece.key) == body)
            second = chart.second if chart and two else Fraction(0)
            yield body.key, body.yarn, 1 - second
            if second:
                yield body.key, body.contrast, second
        if any(p.piece.hem for p in size.pieces):
            for hem in foot_fabrics(spec, materials):
                if hem not in piece_fabrics(spec, materials.fabrics):
                    yield hem.key, hem.yarn, Fraction(1)
    for plan in size.plans:
        if plan.band.fabric:
            yield plan.band.fabric, plan.band.yarn, Fraction(1)
        if plan.facing:
            yield plan.facing.fabric, plan.facing.yarn, Fraction(1)


def _one_swatch(places: Places, materials: Materials, key: str, yarn: str, part: Fraction
               ) -> Amount:
    """The yarn in the counted stitches of a swatch, or a `part` of it: what it weighs, else an
    estimate from its area."""
    fabric = materials.fabrics[key]
    one = next((s for s in fabric.swatches if s.mass_g is not None), fabric.swatches[0])
    each = stitch_amount((one,), measure(fabric.swatches), per_gram(materials.yarns[yarn]))
    return each.times(stitches_of(one) * rows_of(one)).share(
        part, places.of(f"fabrics.{key}.chart"))


def _extra(yarns: Mapping[str, Yarn], what: Beside, yarn: str, length: Expression) -> Extra:
    return Extra(part=ExtraPart(what), yarn=yarn,
                 amount=cut_length(length, per_gram(yarns[yarn])))


def times_of(size: SizeProof, knitted: KnittedPiece) -> int:
    assert size.assembled is not None
    return size.assembled.garment.times.get(knitted.piece.key, 1)


def second_colour(trace: Trace) -> int:
    """The stitches knitted with the contrast yarn."""
    return dict(trace.stitches).get(StepYarn.CONTRAST, 0)
