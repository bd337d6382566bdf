"""counts.json: every count of a pattern for other programs to read."""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import Any

from ..core.counted import Count
from ..core.counts import whole
from ..core.expression import Expression
from ..fabric.gauge import measure, row_made, stitch_made
from ..fabric.yarn import stitch_amount
from ..pattern.fabrics import Swatch
from ..pattern.model import Pattern
from ..proof.advice import GarmentAdvice
from ..proof.proof import Proof, SizeProof
from ..proof.yarn_requirement import waste_metres
from ..shape.even_gaps import EvenSlope
from ..shape.garment import Join
from ..words.gauges import gauge_worked
from ..words.terms.working import working_of
from .exact_figures import exact_figures
from .expression_json import VERSION, placed, tree_json
from .figures import ShownFigure
from .hung_on import counts as edge_masses
from .shared import Shared
from .shown_counts import counted_pieces, piece_counts


def counts_json(proof: Proof, common: Shared, advice: GarmentAdvice | None = None) -> str:
    """Return the counts of all sizes as JSON text, a garment's finished lengths and yarn too."""
    pattern = proof.pattern
    sizes = ",\n".join(_named(size.size, _places(size, common)) for size in proof.sizes)
    more = f"{_lengths(proof)}{_measures(proof)}{_joins(proof)}{_yarn(common)}" if advice else ""
    more += _bands(proof) + _gauges(pattern) + _materials(proof) + _schedules(proof)
    return (f'{{"pattern": {_json(pattern.slug)},\n"version": {_json(pattern.version)},\n'
            f'"expression_version": {VERSION},\n'
            f'"sizes": {_json(list(pattern.sizes))},\n"counts": {{\n{sizes}\n}}{more}}}\n')


def _places(size: SizeProof, common: Shared) -> str:
    """A line a count, so that two versions of a file can be compared line by line."""
    bands = [_named(plan.band.key, ",\n".join(
        f"{_json(f.name)}: {_json(_entry(f))}" for f in common.figures[size.size, plan.band.key]))
        for plan in size.plans]
    pieces = [_named(key, ",\n".join(
        f"{_json(name)}: {_json(_counted(count))}" for name, count in piece_counts(size, p)))
        for key, p in counted_pieces(size)]
    return ",\n".join((*bands, *pieces))


def _lengths(proof: Proof) -> str:
    """Finished lengths of every size, to a hundredth of a millimetre."""
    sizes = ",\n".join(_named(size.size, ",\n".join(
        f"{_json(name)}: " + _json({"mm": hundredths(one.length.mm), "working": working_of(one),
                                    **_expressed(one.made)})
        for name, one in size.assembled.garment.lengths.items()))
        for size in proof.sizes if size.assembled)
    return f',\n"lengths": {{\n{sizes}\n}}'


def _measures(proof: Proof) -> str:
    """The measures that every size is cut by, down to the size chart."""
    sizes = ",\n".join(_named(size.size, ",\n".join(
        f"{_json(one.name)}: " + _json({"mm" if one.is_length else "number": hundredths(one.value),
                                       "working": one.working, **_expressed(one.made),
                                       **placed(one.place)})
        for one in size.assembled.measures.values()))
        for size in proof.sizes if size.assembled)
    return f',\n"measures": {{\n{sizes}\n}}'


def _joins(proof: Proof) -> str:
    """Both sides of every join, and how much the second has more than it should."""
    sizes = ",\n".join(_named(size.size, ",\n".join(
        f"{_json(join.title)}: {_json(_joined(join))}" for join in size.assembled.garment.joins))
        for size in proof.sizes if size.assembled)
    return f',\n"joins": {{\n{sizes}\n}}'


def _joined(join: Join) -> dict[str, Any]:
    one, other = join.sewn
    return {"unit": join.unit, "working": join.working,
            "one": {"value": str(one.value), **_expressed(one)},
            "other": {"value": str(other.value), **_expressed(other)},
            "ease": str(join.ease), "off": str(join.off), "allowed": str(join.tolerance)}


def hundredths(value: Fraction) -> str:
    """Return a length [mm], or a plain number, to a hundredth: "510.00", "-2.50"."""
    ones, rest = divmod(whole(abs(value) * 100), 100)
    return f"{'-' if value < 0 else ''}{ones}.{rest:02d}"


def _yarn(common: Shared) -> str:
    sizes = ",\n".join(_named(size, ",\n".join(
        _named(need.yarn.key, ",\n".join(f"{_json(name)}: {_json(_counted(count))}"
                                         for name, count in need.counts))
        for need in needed)) for size, needed in common.needs.items())
    return f',\n"yarn": {{\n{sizes}\n}}'


def material_counts(pattern: Pattern, size: SizeProof) -> Iterator[tuple[str, Count]]:
    """What is needed besides the yarns, by name: waste yarn, and the mass of what is knitted first
    where no garment is."""
    waste = waste_metres(pattern, size)
    if waste.value:
        yield "waste_metres", waste
    yield from edge_masses(pattern, size)


def _materials(proof: Proof) -> str:
    sizes = ",\n".join(_named(size.size, ",\n".join(
        f"{_json(name)}: {_json(_counted(count))}"
        for name, count in material_counts(proof.pattern, size))) for size in proof.sizes)
    return f',\n"materials": {{\n{sizes}\n}}'


def _schedules(proof: Proof) -> str:
    """How the slopes of every piece are spread that are shaped evenly: each number of them."""
    sizes = ",\n".join(_named(size.size, ",\n".join(
        _named(key, ",\n".join(f"{_json(slope.name)}: {_json(_slope(slope))}"
                               for slope in knitted.piece.slopes))
        for key, knitted in counted_pieces(size) if knitted.piece.slopes)) for size in proof.sizes)
    return f',\n"schedules": {{\n{sizes}\n}}'


def _slope(slope: EvenSlope) -> dict[str, Any]:
    """The numbers of a slope; one that comes from others of them names these, with its schedule:
    a source has keys such as `rows` too."""
    beside = {id(count.made): f"{slope.name}.{name}" for name, count in slope.figures}
    return {"shaping": slope.how.value, "order": slope.gaps.order.value, **{
        name: {**_told(count), "expression": tree_json(count.made, beside)}
        for name, count in slope.figures}}


def _bands(proof: Proof) -> str:
    """What is computed of every band and not rounded."""
    sizes = ",\n".join(_named(size.size, ",\n".join(_named(plan.band.key, ",\n".join(
        f"{_json(one.name)}: " + _json({"value": str(one.made.value), "unit": one.unit,
                                       "working": one.working, **_expressed(one.made)})
        for one in exact_figures(proof.pattern, plan))) for plan in size.plans))
        for size in proof.sizes)
    return f',\n"bands": {{\n{sizes}\n}}'


def _gauges(pattern: Pattern) -> str:
    """The gauge of every fabric, from what was measured of its swatches."""
    fabrics = ",\n".join(f"{_json(fabric.key)}: {_json(_gauge(fabric.swatches))}"
                         for fabric in pattern.fabrics.values() if fabric.swatches)
    return f',\n"gauges": {{\n{fabrics}\n}}'


def gauge_figures(swatches: Sequence[Swatch]) -> Iterator[tuple[str, str, Expression]]:
    """Yield the width of a stitch and the height of a row [mm], and the yarn in a stitch, where it
    is known: name, unit, expression."""
    yield "stitch", "mm", stitch_made(swatches)
    yield "row", "mm", row_made(swatches)
    yarn = stitch_amount(swatches, measure(swatches))
    for name, one in (("grams", yarn.mass), ("metres", yarn.length or yarn.area_length)):
        if one is not None:
            yield name, name, one


def _gauge(swatches: Sequence[Swatch]) -> dict[str, Any]:
    made = {name: one for name, _, one in gauge_figures(swatches)}
    wide, high = made.pop("stitch"), made.pop("row")
    return {"working": gauge_worked(measure(swatches)),
            "stitch": {"mm": str(wide.value), **_expressed(wide)},
            "row": {"mm": str(high.value), **_expressed(high)},
            "yarn": {name: {"value": str(one.value), **_expressed(one)}
                     for name, one in made.items()}}


def _named(name: str, inside: str) -> str:
    return f"{_json(name)}: {{\n{inside}\n}}"


_json = json.JSONEncoder(ensure_ascii=False).encode


def _entry(figure: ShownFigure) -> dict[str, Any]:
    return {"value": figure.value, "unit": figure.unit, "working": figure.working,
            **_expressed(figure.made)}


def _counted(count: Count) -> dict[str, Any]:
    return {**_told(count), **_expressed(count.made)}


def _told(count: Count) -> dict[str, Any]:
    return {"value": count.value, "unit": count.unit.value, "working": working_of(count)}


def _expressed(made: Expression | tuple[Expression, ...]) -> dict[str, Any]:
    """The expression of a count, or of every one of a list."""
    return {"expression": [tree_json(one) for one in made] if isinstance(made, tuple)
            else tree_json(made)}
