"""counts.json: every count of a pattern for other programs to read."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from fractions import Fraction
from typing import Any

from ..core.counted import Count
from ..core.counts import whole
from ..core.expression import Expression
from ..fabric.gauge import measure, row_made, stitch_made
from ..fabric.yarn import stitch_amount
from ..pattern.edges import EdgeSpec
from ..pattern.fabrics import Fabric, Swatch
from ..pattern.model import GarmentSpec
from ..proof.advice import GarmentAdvice
from ..proof.proof import Proof, SizeProof
from ..proof.yarn_requirement import waste_metres
from ..shape.garment import Join
from ..shape.step_sizes import CountedSlope, SteppedSlope
from ..words.gauges import gauge_worked
from ..words.terms.working import working_of
from .exact_figures import exact_figures
from .expression_json import VERSION, TreeWriter, placed
from .expression_json import as_text as _json
from .figures import ShownFigure
from .hung_on import counts as edge_masses
from .shared_by_pages import Shared
from .shown_counts import counted_pieces, piece_counts

Tree = Callable[[Expression], str]
"""Writes an expression; what stands in several of the file is written once."""


def counts_json(proof: Proof, common: Shared, advice: GarmentAdvice | None = None) -> str:
    """Return the counts of all sizes as JSON text, a garment's finished lengths and yarn too."""
    pattern = proof.pattern
    tree = TreeWriter().of
    sizes = ",\n".join(_named(size.size, _places(size, common, tree)) for size in proof.sizes)
    more = f"{_lengths(proof, tree)}{_measures(proof, tree)}{_joins(proof, tree)}" \
        f"{_yarn(common, tree)}" if advice else ""
    more += _bands(proof, tree) + _gauges(pattern.fabrics, tree) + _materials(proof, tree)
    more += _schedules(proof)
    return (f'{{"pattern": {_json(pattern.slug)},\n"version": {_json(pattern.version)},\n'
            f'"expression_version": {VERSION},\n'
            f'"sizes": {_json(list(pattern.sizes))},\n"counts": {{\n{sizes}\n}}{more}}}\n')


def _places(size: SizeProof, common: Shared, tree: Tree) -> str:
    """A line a count, so that two versions of a file can be compared line by line."""
    bands = [_named(plan.band.key, ",\n".join(
        f"{_json(f.name)}: {_entry(f, tree)}"
        for f in common.figures[size.size, plan.band.key])) for plan in size.plans]
    pieces = [_named(key, ",\n".join(
        f"{_json(name)}: {_counted(count, tree)}" for name, count in piece_counts(size, p)))
        for key, p in counted_pieces(size)]
    return ",\n".join((*bands, *pieces))


def _lengths(proof: Proof, tree: Tree) -> str:
    """Finished lengths of every size, to a hundredth of a millimetre."""
    sizes = ",\n".join(_named(size.size, ",\n".join(
        f"{_json(name)}: " + _joined_to(
            {"mm": hundredths(one.length.mm), "working": working_of(one)},
            _expressed(one.made, tree))
        for name, one in size.assembled.garment.lengths.items()))
        for size in proof.sizes if size.assembled)
    return f',\n"lengths": {{\n{sizes}\n}}'


def _measures(proof: Proof, tree: Tree) -> str:
    """The measures that every size is cut by, down to the size chart."""
    sizes = ",\n".join(_named(size.size, ",\n".join(
        f"{_json(one.name)}: " + _joined_to(
            {"mm" if one.is_length else "number": hundredths(one.value), "working": one.working},
            _expressed(one.made, tree), placed(one.place))
        for one in size.assembled.measures.values()))
        for size in proof.sizes if size.assembled)
    return f',\n"measures": {{\n{sizes}\n}}'


def _joins(proof: Proof, tree: Tree) -> str:
    """Both sides of every join, and how much the second has more than it should."""
    sizes = ",\n".join(_named(size.size, ",\n".join(
        f"{_json(join.title)}: {_joined(join, tree)}"
        for join in size.assembled.garment.joins))
        for size in proof.sizes if size.assembled)
    return f',\n"joins": {{\n{sizes}\n}}'


def _joined(join: Join, tree: Tree) -> str:
    one, other = (_value(side, tree) for side in join.sewn)
    return (f"{_json({'unit': join.unit, 'working': join.working})[:-1]}, "
            f'"one": {one}, "other": {other}, '
            + _json({"ease": str(join.ease), "off": str(join.off),
                     "allowed": str(join.tolerance)})[1:])


def _value(made: Expression, tree: Tree) -> str:
    return _joined_to({"value": str(made.value)}, _expressed(made, tree))


def hundredths(value: Fraction) -> str:
    """Return a length [mm], or a plain number, to a hundredth: "510.00", "-2.50"."""
    ones, rest = divmod(whole(abs(value) * 100), 100)
    return f"{'-' if value < 0 else ''}{ones}.{rest:02d}"


def _yarn(common: Shared, tree: Tree) -> str:
    sizes = ",\n".join(_named(size, ",\n".join(
        _named(one.yarn.key, ",\n".join(f"{_json(name)}: {_counted(count, tree)}"
                                        for name, count in one.counts))
        for one in required)) for size, required in common.yarn_requirements.items())
    return f',\n"yarn": {{\n{sizes}\n}}'


def material_counts(spec: GarmentSpec | None, fabrics: Mapping[str, Fabric],
                    edges: Mapping[str, EdgeSpec], size: SizeProof) -> Iterator[tuple[str, Count]]:
    """What is needed besides the yarns, by name: waste yarn, and the mass of what is knitted first
    where no garment is."""
    waste = waste_metres(spec, fabrics, size)
    if waste.value:
        yield "waste_metres", waste
    yield from edge_masses(spec, fabrics, edges, size)


def _materials(proof: Proof, tree: Tree) -> str:
    spec, fabrics, edges = proof.pattern.garment, proof.pattern.fabrics, proof.pattern.edges
    sizes = ",\n".join(_named(size.size, ",\n".join(
        f"{_json(name)}: {_counted(count, tree)}"
        for name, count in material_counts(spec, fabrics, edges, size))) for size in proof.sizes)
    return f',\n"materials": {{\n{sizes}\n}}'


def _schedules(proof: Proof) -> str:
    """How the slopes of every piece are shaped that are computed: each number of them."""
    sizes = ",\n".join(_named(size.size, _size_schedules(size)) for size in proof.sizes)
    return f',\n"schedules": {{\n{sizes}\n}}'


def _size_schedules(size: SizeProof) -> str:
    """Those of a size; a slope that two pieces have, as both fronts do, is written once."""
    written: dict[int, str] = {}
    pieces = []
    for key, knitted in counted_pieces(size):
        for slope in knitted.piece.slopes:
            if id(slope) not in written:
                written[id(slope)] = f"{_json(slope.name)}: {_slope(slope)}"
        if knitted.piece.slopes:
            pieces.append(_named(key, ",\n".join(
                written[id(slope)] for slope in knitted.piece.slopes)))
    return ",\n".join(pieces)


def _slope(slope: CountedSlope) -> str:
    """The numbers of a slope; one that comes from others of them names these, with its schedule:
    a source has keys such as `rows` too."""
    named = slope.figures
    tree = TreeWriter({id(count.made): f"{slope.name}.{name}" for name, count in named}).of
    figures = [f"{_json(name)}: {_counted(count, tree)}" for name, count in named]
    if isinstance(slope, SteppedSlope):
        steps = ", ".join(_counted(count, tree) for count in slope.sizes)
        return _joined_to({"shaping": slope.how.value}, ", ".join((
            *figures, f'"steps": [{steps}]')))
    return _joined_to({"shaping": slope.how.value, "order": slope.gaps.order.value},
                      ", ".join(figures))


def _bands(proof: Proof, tree: Tree) -> str:
    """What is computed of every band and not rounded."""
    sizes = ",\n".join(_named(size.size, ",\n".join(_named(plan.band.key, ",\n".join(
        f"{_json(one.name)}: " + _joined_to(
            {"value": str(one.made.value), "unit": one.unit, "working": one.working},
            _expressed(one.made, tree))
        for one in exact_figures(proof.pattern.fabrics, plan))) for plan in size.plans))
        for size in proof.sizes)
    return f',\n"bands": {{\n{sizes}\n}}'


def _gauges(swatched: Mapping[str, Fabric], tree: Tree) -> str:
    """The gauge of every fabric, from what was measured of its swatches."""
    fabrics = ",\n".join(f"{_json(fabric.key)}: {_gauge(fabric.swatches, tree)}"
                         for fabric in swatched.values() if fabric.swatches)
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


def _gauge(swatches: Sequence[Swatch], tree: Tree) -> str:
    made = {name: one for name, _, one in gauge_figures(swatches)}
    wide, high = (_joined_to({"mm": str(one.value)}, _expressed(one, tree))
                  for one in (made.pop("stitch"), made.pop("row")))
    yarn = ", ".join(f"{_json(name)}: {_value(one, tree)}" for name, one in made.items())
    return _joined_to({"working": gauge_worked(measure(swatches))}, f'"stitch": {wide}',
                      f'"row": {high}', f'"yarn": {{{yarn}}}')


def _named(name: str, inside: str) -> str:
    return f"{_json(name)}: {{\n{inside}\n}}"


def _joined_to(first: dict[str, Any], *more: str | dict[str, Any]) -> str:
    """A JSON object of what stands `first`, and of `more` members: as text, or to be written."""
    texts = (each if isinstance(each, str) else _json(each)[1:-1] for each in more)
    return "".join((_json(first)[:-1], *(f", {text}" for text in texts if text), "}"))


def _entry(figure: ShownFigure, tree: Tree) -> str:
    value = figure.value if isinstance(figure.value, int) else list(figure.value)
    return (f'{{"value": {value}, "unit": {_json(figure.unit)}, '
            f'"working": {_json(figure.working)}, {_expressed(figure.made, tree)}}}')


def _counted(count: Count, tree: Tree) -> str:
    return (f'{{"value": {count.value}, "unit": {_json(count.unit.value)}, '
            f'"working": {_json(working_of(count))}, {_expressed(count.made, tree)}}}')


def _expressed(made: Expression | tuple[Expression, ...], tree: Tree) -> str:
    """The expression of a count, or of every one of a list."""
    made_of = f"[{', '.join(map(tree, made))}]" if isinstance(made, tuple) else tree(made)
    return f'"expression": {made_of}'
