"""The yarn a size needs: every piece and band as the bed counted it, with an allowance."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from .counts import UP, Count, Unit, decimal, given, whole
from .fabrics.gauge import Gauge, measure
from .fabrics.hem_fabric import hem_fabric
from .fabrics.yarn import (
    Amount,
    cut_length,
    loop_millimetres,
    metres_per_gram,
    packages,
    stitch_amount,
    stitch_grams,
    total,
)
from .fabrics.yarn_ends import ends_of_band, ends_of_piece, seams
from .machine.steps import Program, TakeOff
from .machine.trace import Run
from .model import Fabric, Pattern, Yarn
from .planning.arranged import edge_fabric
from .planning.band import BandPlan
from .planning.ways import WASTE_ROWS
from .problems import Problem, Severity, note
from .programs.band import FACING, MAIN, WASTE
from .programs.chart_actions import CONTRAST
from .proof import KnittedPiece, SizeProof, Strip
from .shaping.piece import Piece
from .units import Length

# For knots, mending and a looser hand, on what is knitted. Common practice, no source.
ALLOWANCE = Fraction(1, 10)
MARGINS = Fraction(1, 2)  # of a swatch, round what is counted of it; common practice, no source
YARD = Fraction("0.9144")  # [m], by definition


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """What one piece or band takes of a yarn, all `times` it is knitted, without allowance.

    `stitches` are those of all times. `cautions` say what the amount leans on where a swatch
    of its fabric was not weighed.
    """

    key: str
    title: str
    yarn: str
    times: int
    stitches: Count
    amount: Amount
    cautions: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Extra:
    """What a size takes of a yarn beside its counted stitches: ends, seams or swatches."""

    title: str
    yarn: str
    amount: Amount


@dataclass(frozen=True, slots=True, kw_only=True)
class YarnNeed:
    """What a size takes of one yarn.

    `knitted` is all its parts, `amount` that with the allowance and the `extras`; `grams`,
    `metres` and `packages` are `amount` rounded up, None where it is not known. Where the
    package tells no length and a swatch was weighed, ends and seams are left out: `endless`.
    """

    yarn: Yarn
    parts: tuple[Part, ...]
    extras: tuple[Extra, ...]
    endless: bool
    knitted: Amount
    amount: Amount
    grams: Count | None
    metres: Count | None
    packages: Count | None

    @property
    def cautions(self) -> tuple[str, ...]:
        """What the amount leans on where it is an estimate, each once."""
        without = ("its package tells no length: ends and seams come on top",) if self.endless \
            else ()
        mixed = ("its package tells no length, and not all of its swatches were weighed: all of it "
                 "is estimated from the area of the stitches",) \
            if self.knitted.grams is None and any(p.amount.metres is None for p in self.parts) \
            else ()
        return (*dict.fromkeys(said for p in self.parts for said in p.cautions), *without, *mixed)

    @property
    def counts(self) -> tuple[tuple[str, Count], ...]:
        """Every count by name: the stitches of its parts, then grams, metres and packages."""
        named = [(f"{p.key}_stitches", p.stitches) for p in self.parts]
        named += [(name, count) for name, count in (
            ("grams", self.grams), ("metres", self.metres), ("packages", self.packages))
            if count is not None]
        return tuple(named)

    @property
    def yards(self) -> int | None:
        """The same length in whole yards, up; None where it is not known."""
        return None if self.amount.metres is None else whole(self.amount.metres / YARD, UP)


def needs(pattern: Pattern, size: SizeProof) -> tuple[YarnNeed, ...]:
    """Return what a size needs of each yarn, in the order in which they are first knitted with.

    Waste yarn is told by itself; cord is used again.
    """
    parts = [*_pieces(pattern, size), *_bands(pattern, size)]
    extras = [*_ends(pattern, size), *_seams(pattern, size), *_swatches(pattern, size)]
    return tuple(_need(pattern.yarns[key], [p for p in parts if p.yarn == key],
                       [e for e in extras if e.yarn == key])
                 for key in dict.fromkeys(p.yarn for p in parts))


def waste_metres(pattern: Pattern, size: SizeProof) -> int:
    """Return about how much waste yarn all starts and all waiting stitches take [m, up].

    Its stitches are taken to need as much as those of the fabric: an estimate from their area.
    What waits is knitted off in eight rows.
    """
    fabric = pattern.garment.fabric if pattern.garment else next(iter(pattern.fabrics))
    stitches = sum(_wasted(p.program, p.run) * _times(size, p) for p in size.pieces)
    stitches += sum(_wasted(s.program, s.run) for s in size.strips)
    loop = loop_millimetres(measure(pattern.fabrics[fabric].swatches))
    return whole(stitches * loop / 1000, UP)


def _wasted(program: Program, run: Run) -> int:
    """The stitches of waste yarn, those that take others off among them [stitches]."""
    off = sum(len(step.needles) for step in program.steps
              if isinstance(step, TakeOff) and not step.by_needle)
    return dict(run.stitches).get(WASTE, 0) + WASTE_ROWS * off


def unweighed(pattern: Pattern, sizes: Iterable[SizeProof]) -> tuple[Problem, ...]:
    """Return a caution for every yarn whose amount is not wholly from weighed swatches."""
    found = {(need.yarn.key, said) for size in sizes for need in needs(pattern, size)
             for said in need.cautions}
    return tuple(note(Severity.CAUTION, "yarn-not-weighed", pattern.place(f"yarns.{key}"),
                      found=said, expected="a weighed swatch of every fabric",
                      remedy="Weigh a washed and rested swatch and give its mass.")
                 for key, said in sorted(found))


def _need(yarn: Yarn, parts: Sequence[Part], extras: Sequence[Extra]) -> YarnNeed:
    knitted = total([p.amount for p in parts])
    counted = tuple(e for e in extras if knitted.grams is None or e.amount.grams is not None)
    amount = total([knitted.with_allowance(ALLOWANCE), *(e.amount for e in counted)])
    weighed = knitted.grams is not None
    sums = " + ".join(_said(p, weighed) for p in parts)
    more = "".join(f"; {_said(e, weighed)}" for e in counted)
    margins = f"{decimal(ALLOWANCE * 100, 0)} % more{more}"
    grams = _up(amount.grams, knitted.grams, Unit.GRAMS, f"{sums}; {margins}")
    metres = _up(amount.metres, knitted.metres, Unit.METRES,
                 f"of the same stitches; {margins}" if grams else f"{sums}; {margins}")
    return YarnNeed(yarn=yarn, parts=tuple(parts), extras=counted, knitted=knitted, amount=amount,
                    endless=len(counted) < len(extras), grams=grams, metres=metres,
                    packages=packages(amount, yarn))


def _said(part: Part | Extra, weighed: bool) -> str:
    """What it takes: by mass where all of the yarn is known by mass, else by length."""
    amount, title = part.amount, part.title
    if weighed and amount.grams is not None:
        return f"{title} {decimal(amount.grams, 1)} g"
    return f"{title} {decimal(amount.metres or amount.area_metres or Fraction(0), 1)} m"


def _up(exact: Fraction | None, knitted: Fraction | None, unit: Unit, said: str) -> Count | None:
    if exact is None or knitted is None:
        return None
    short = "g" if unit is Unit.GRAMS else "m"
    return Count(whole(exact, UP), unit, f"{decimal(knitted, 1)} {short}: {said} = "
                 f"{decimal(exact, 1)} {short}, up", exact)


# What no counted stitch holds


def _ends(pattern: Pattern, size: SizeProof) -> Iterator[Extra]:
    """The ends that are cut long, and the edges that are made by hand, of every yarn."""
    lengths: dict[str, Fraction] = {}
    pitch = pattern.bed.pitch
    made = [(piece_yarn(pattern, name), ends, _times(size, knitted)) for knitted in size.pieces
            for name, ends in ends_of_piece(knitted).items()]
    made += [(band_yarn(strip.plan, name), ends, strip.plan.run.times) for strip in size.strips
             for name, ends in ends_of_band(strip).items()]
    for yarn, ends, times in made:
        lengths[yarn] = lengths.get(yarn, Fraction(0)) + ends.length(pitch).mm * times
    for yarn, mm in lengths.items():
        yield _extra(pattern, "ends", yarn, Length(mm))


def free_key(key: str, what: str, taken: Collection[str]) -> str:
    """Return `key` for a piece or facing, with `what` it is after it while a band is so called."""
    while key in taken:
        key = f"{key}_{what}"
    return key


def piece_yarn(pattern: Pattern, name: str) -> str:
    """Return the key of the yarn that the steps of a piece call `name`."""
    assert pattern.garment is not None
    body = pattern.fabrics[pattern.garment.fabric]
    return body.contrast if name == CONTRAST else body.yarn


def band_yarn(plan: BandPlan, name: str) -> str:
    """Return the key of the yarn that the steps of a band call `name`."""
    return plan.facing.yarn if name == FACING and plan.facing else plan.band.yarn


def _seams(pattern: Pattern, size: SizeProof) -> Iterator[Extra]:
    if pattern.garment is None or size.dressed is None or not size.dressed.garment.joins:
        return
    fabric = pattern.fabrics[pattern.garment.fabric]
    length = seams(((p, _times(size, p)) for p in size.pieces), size.dressed.garment.joins,
                   measure(fabric.swatches))
    yield _extra(pattern, "seams", fabric.yarn, length)


def _swatches(pattern: Pattern, size: SizeProof) -> Iterator[Extra]:
    """A swatch of every fabric that is knitted, in its yarn: what was weighed, and its margins."""
    found: dict[str, list[Amount]] = {}
    for key, yarn, part in dict.fromkeys(_knitted_in(pattern, size)):
        amount = _one_swatch(pattern, key, yarn, part)
        found.setdefault(yarn, []).append(amount)
        yield Extra(title=f"swatch of {key}", yarn=yarn, amount=amount)
    for yarn, amounts in found.items():
        yield Extra(title="margins of the swatches, half as much again", yarn=yarn,
                    amount=total(amounts).share(MARGINS, "half"))


def _knitted_in(pattern: Pattern, size: SizeProof) -> Iterator[tuple[str, str, Fraction]]:
    """Every fabric of a size, the yarn that it is knitted in, and that yarn's share of it."""
    if pattern.garment and size.pieces:
        body = pattern.fabrics[pattern.garment.fabric]
        chart = pattern.stitch_charts.get(body.chart)
        second = chart.second if chart and any(_second(p.run) for p in size.pieces) else Fraction(0)
        yield body.key, body.yarn, 1 - second
        if second:
            yield body.key, body.contrast, second
        hem = hem_fabric(pattern)
        if hem and hem != body and any(p.piece.hem for p in size.pieces):
            yield hem.key, hem.yarn, Fraction(1)
    for plan in size.plans:
        if plan.band.fabric:
            yield plan.band.fabric, plan.band.yarn, Fraction(1)
        if plan.facing:
            yield plan.facing.fabric, plan.facing.yarn, Fraction(1)


def _one_swatch(pattern: Pattern, key: str, yarn: str, part: Fraction) -> Amount:
    """The yarn in the counted stitches of a swatch, or a `part` of it: what it weighs, else an
    estimate from its area."""
    fabric = pattern.fabrics[key]
    one = next((s for s in fabric.swatches if s.mass_g is not None), fabric.swatches[0])
    each = stitch_amount((one,), measure(fabric.swatches), metres_per_gram(pattern.yarns[yarn]))
    return each.times(one.stitches * one.rows).share(part, "its share")


def _extra(pattern: Pattern, title: str, yarn: str, length: Length) -> Extra:
    return Extra(title=title, yarn=yarn,
                 amount=cut_length(length, metres_per_gram(pattern.yarns[yarn])))


def _times(size: SizeProof, knitted: KnittedPiece) -> int:
    assert size.dressed is not None
    return size.dressed.garment.times.get(knitted.piece.key, 1)


# Pieces: their hem in a fabric of its own, where the pattern has one of that yarn and dial


def _pieces(pattern: Pattern, size: SizeProof) -> Iterator[Part]:
    if pattern.garment is None or size.dressed is None:
        return
    body = pattern.fabrics[pattern.garment.fabric]
    for knitted in size.pieces:
        times = _times(size, knitted)
        yield _piece(pattern, body, knitted, times)
        if second := _second(knitted.run):
            yield _in_contrast(pattern, body, knitted.piece, second, times)


def _in_contrast(pattern: Pattern, body: Fabric, piece: Piece, second: int, times: int) -> Part:
    """The contrast yarn of a piece: its share of the swatch by its stitches, floats and all."""
    named = _together(piece.title, times)
    each = stitch_amount(body.swatches, measure(body.swatches),
                         metres_per_gram(pattern.yarns[body.contrast]))
    shared = (f"the two yarns of fabric {body.key} share its swatch by their stitches: a yarn with "
              "long floats takes more",)
    return Part(key=free_key(piece.key, "piece", pattern.bands), yarn=body.contrast, times=times,
                title=f"{named}, second colour",
                stitches=given(second * times, Unit.STITCHES,
                               f"{times} × {second} in the second colour, as the bed counted"
                               if times > 1 else f"{second} in the second colour, as the bed "
                               "counted"),
                amount=each.times(second * times),
                cautions=_unweighed([body]) + shared)


def _piece(pattern: Pattern, body: Fabric, knitted: KnittedPiece, times: int) -> Part:
    piece, all_ = knitted.piece, _main(knitted.run)
    inside = min(all_, piece.hem.knitted(piece.stitches.value) if piece.hem else 0)
    other = _hem_fabric(pattern, body, piece)
    if other is body:
        inside = 0
    amounts = [_of(pattern, body, (all_ - inside) * times)]
    said = f"{all_}, as the bed counted"
    if inside:
        amounts.append(_of(pattern, other, inside * times))
        said += f", {inside} of them in the hem"
    each = f"({said})" if times > 1 else said
    stitches = given(all_ * times, Unit.STITCHES,
                     f"{times} × {each} = {all_ * times} stitches" if times > 1 else said)
    fabrics = [body, other] if inside else [body]
    return Part(key=free_key(piece.key, "piece", pattern.bands), yarn=body.yarn, times=times,
                title=_together(piece.title, times),
                stitches=stitches, amount=total(amounts), cautions=_unweighed(fabrics))


def _together(title: str, times: int) -> str:
    """What is knitted more than once, named so that its yarn reads as that of all of it."""
    if times == 1:
        return title
    return f"{title}, {'both' if times == 2 else f'all {times}'} together"


def _hem_fabric(pattern: Pattern, body: Fabric, piece: Piece) -> Fabric:
    """The fabric of the piece's hem where it was swatched, else the body itself."""
    return (hem_fabric(pattern) if piece.hem else None) or body


# Bands: of their own fabric; without one, of their edge's if it is the same yarn


def _bands(pattern: Pattern, size: SizeProof) -> Iterator[Part]:
    taken = set(pattern.bands)
    for plan in size.plans:
        strips = [s for s in size.strips if any(s.plan is part for part in plan.strips)]
        yield _band(pattern, plan, strips)
        if any(FACING in dict(s.run.stitches) for s in strips):
            key = free_key(f"{plan.band.key}_facing", "facing", taken)
            taken.add(key)
            yield _behind(pattern, plan, strips, key)


def _band(pattern: Pattern, plan: BandPlan, strips: Sequence[Strip]) -> Part:
    """A band for all fronts and in all its parts."""
    band = plan.band
    each = [_main(strip.run) for strip in strips] * plan.run.times
    fabric = pattern.fabrics[band.fabric or edge_fabric(pattern, band)]
    cautions = _unweighed([fabric])
    if band.fabric is not None or fabric.yarn == band.yarn:
        inside = _inside(plan, len(each))
        amount = _of(pattern, fabric, sum(each) - inside, band.yarn)
        if inside and plan.facing:
            other = pattern.fabrics[plan.facing.fabric]
            amount = total([amount, _of(pattern, other, inside)])
            cautions += _unweighed([other])
        if band.fabric is None:
            cautions += (f"the {band.title.lower()} was not swatched: its stitches are taken to "
                         f"need as much yarn as those of fabric {fabric.key}",)
    else:
        amount = _of_area(pattern.yarns[band.yarn], plan.gauge, sum(each))
        cautions = (f"the {band.title.lower()} was not swatched: its yarn is estimated from the "
                    "area of its stitches",)
    said = " + ".join(map(str, each))
    stitches = given(sum(each), Unit.STITCHES, f"{said}, as the bed counted" if len(each) == 1
                     else f"{said} = {sum(each)} stitches, as the bed counted")
    return Part(key=band.key, title=_together(band.title, len(each)), yarn=band.yarn,
                times=len(each), stitches=stitches, amount=amount, cautions=cautions)


def _behind(pattern: Pattern, plan: BandPlan, strips: Sequence[Strip], key: str) -> Part:
    """The layer behind the fold of a band, where it has a yarn of its own."""
    band = plan.band
    assert plan.facing is not None
    fabric = pattern.fabrics[plan.facing.fabric]
    times = len(strips) * plan.run.times
    all_ = sum(dict(s.run.stitches)[FACING] for s in strips) * plan.run.times
    return Part(key=key, title=f"{band.title}, behind its fold",
                yarn=fabric.yarn, times=times, stitches=given(
                    all_, Unit.STITCHES, f"{all_} behind the fold, as the bed counted"),
                amount=_of(pattern, fabric, all_), cautions=_unweighed([fabric]))


def _inside(plan: BandPlan, strips: int) -> int:
    """The stitches behind the folds that are of the band's own yarn [stitches]."""
    facing = plan.facing
    if facing is None or facing.yarn != plan.band.yarn:
        return 0
    return strips * facing.stitches.value * facing.rows.value


def _of(pattern: Pattern, fabric: Fabric, stitches: int, yarn: str = "") -> Amount:
    """The yarn in so many stitches of a fabric, knitted in `yarn` where it is not its own.

    Where a chart passes stitches by, its swatch has fewer with yarn than it counts: each then
    weighs more.
    """
    each = stitch_amount(fabric.swatches, measure(fabric.swatches),
                         metres_per_gram(pattern.yarns[yarn or fabric.yarn]))
    chart = pattern.stitch_charts.get(fabric.chart)
    if chart is None or chart.laid == 1:
        return each.times(stitches)
    counted = whole(stitches / chart.laid)
    return each.times(counted, f"stitches, those passed by among them ({stitches} knitted),")


def _of_area(yarn: Yarn, gauge: Gauge, stitches: int) -> Amount:
    return stitch_amount((), gauge, metres_per_gram(yarn)).times(stitches)


def _unweighed(fabrics: Sequence[Fabric]) -> tuple[str, ...]:
    """What is said where a fabric has no weighed swatch."""
    return tuple(f"no swatch of fabric {f.key} was weighed: its yarn is estimated from the area of "
                 "a stitch" for f in fabrics if stitch_grams(f.swatches) is None)


def _main(run: Run) -> int:
    """The stitches knitted with the main yarn."""
    return dict(run.stitches).get(MAIN, 0)


def _second(run: Run) -> int:
    """The stitches knitted with the contrast yarn."""
    return dict(run.stitches).get(CONTRAST, 0)
