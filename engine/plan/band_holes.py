"""The buttonholes a band asks for, held to the band: which size, where, and what is refused.

Source: a printed pattern, "V-neck baby cardigan, sizes 8 to 21 in" (W3-082).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from ..core.counted import Count, stated
from ..core.counts import DOWN, UP, Unit, decimal, whole
from ..core.expression import (
    Difference,
    Expression,
    Operand,
    Product,
    Rounded,
    Sum,
    Term,
    plain,
)
from ..core.operands import Role
from ..core.problems import Place, Problem, Severity, error, has_errors, note
from ..core.units import Length
from ..fabric.gauge import Gauge
from ..pattern.band_places import place_in
from ..pattern.holes import ButtonholeKind, HemHoles, HoleRows
from ..pattern.model import Band, BandRows
from ..pattern.places import Places
from ..sizing.measures import Definition, evaluate
from ..sizing.quantities import Quantity
from .buttonholes import Placing, hole_stitches, place, place_at
from .hole_findings import at_join, no_placing, on_other_front
from .hole_fit import beside_holes, button_fits, hole_passes
from .hole_ground import HoleGround, spec_of, stitches_of
from .hole_sizes import fixed_stitches
from .hole_specs import about, above_hem, below, in_hem, stepwise
from .hole_sums import distance_along
from .lengthwise_counts import HOLE_ROWS, runs_along
from .pickup import ruled_width


def plan_holes(ground: HoleGround) -> tuple[Count, Placing | None, list[Problem]]:
    """Return a hole's stitches and where the holes go, with the findings; None where refused."""
    buttonholes, hole = ground.buttonholes, _hole(ground)
    problems = button_fits(ground.places, ground.band, ground.size, ground.gauge,
                           ground.rows)
    problems += hole_passes(ground.places, ground.band, ground.size, ground.fabric, hole)
    along = hole.value
    if runs_along(ground.band):
        problems += beside_holes(ground.places, ground.band, ground.size, ground.rows, hole)
        along = HOLE_ROWS
    if buttonholes.at is not None:
        placing, found = _fixed(ground, along)
    elif buttonholes.rows is not None:
        placing, found = _by_counter(ground, buttonholes.rows)
    elif buttonholes.in_hem is not None or buttonholes.through is not None:
        placing, found = _spread_about(ground, along)
    else:
        spec = spec_of(ground, along)
        placing = place(spec)
        found = [] if placing else [no_placing(ground, spec)]
    if placing is not None:
        found += [*at_join(ground, placing), *on_other_front(ground, placing)]
    problems += found
    if placing is None or has_errors(problems):
        return hole, None, problems
    return hole, below(placing, ground.beyond), problems


def _hole(ground: HoleGround) -> Count:
    buttonholes = ground.buttonholes
    if fixed := fixed_stitches(buttonholes.kind):
        return fixed
    if buttonholes.stitches is not None:
        place = ground.places.of(f"{ground.path}.stitches", ground.size)
        return stated(buttonholes.stitches[ground.size], Unit.STITCHES, place)
    gauge, band = ground.fabric, ground.band
    rule = None if gauge.swatches else band.pick_up
    width = ruled_width(gauge.stitch, gauge.row, rule, Role.STITCH_WIDTH, band.places)
    return hole_stitches(buttonholes.button, gauge.stitch,
                         ground.places.of(f"{ground.path}.button"), width)


def _fixed(ground: HoleGround, hole: int) -> tuple[Placing | None, list[Problem]]:
    """Holes where the source puts them, from the lower end, or from the upper where below 0."""
    assert ground.buttonholes.at is not None
    at, along = ground.buttonholes.at[ground.size], ground.along.value
    where = ground.places.of(f"{ground.path}.at", ground.size)
    width = _width(ground)
    parts = [Operand(x.mm, Role.STATED, "at", where) / width for x in at]
    middles = [ground.along.term(Role.NUMBER) + one if one.value < 0 else one for one in parts]
    placing = place_at(along, hole, middles, _hole_name(ground))
    if placing is not None:
        return placing, []
    return None, [error(
        "holes-too-close", ground.places.of(f"{ground.path}.at", ground.size),
        size=ground.size,
        found=f"{len(at)} holes of {ground.unit.of(hole)} at "
              f"{', '.join(x.in_cm() for x in at)} on a band of {ground.along}",
        expected=f"gaps of at least {ground.unit.of(max(2, hole))}, and {ground.unit.of(1)} at "
                 "either end",
        remedy="Move the holes further apart, or choose a smaller button.")]


def _by_counter(ground: HoleGround, rows_of: HoleRows) -> tuple[Placing | None, list[Problem]]:
    """Holes after so many rows, as printed patterns give them (W3-082, a V-neck baby cardigan)."""
    assert ground.buttonholes.buttonhole_count is not None
    first, every, number = (each[ground.size] for each in (
        rows_of.first, rows_of.every, ground.buttonholes.buttonhole_count))
    last, half = first + every * (number - 1), Fraction(HOLE_ROWS, 2)
    begin, apart = (Operand(Fraction(figure), Role.SOURCE, "rows", ground.places.of(
        f"{ground.path}.rows.{key}", ground.size)) for key, figure in (
        ("first", first), ("every", every)))
    placing = place_at(ground.along.value, HOLE_ROWS,
                       tuple(stepwise(begin + plain(half), apart, number)))
    if placing is not None:
        return placing, []
    return None, [error(
        "holes-too-close", ground.places.of(f"{ground.path}.rows", ground.size),
        size=ground.size,
        found=f"{number} holes, the first after {Unit.ROWS.of(first)} and the last after {last}, "
              f"on a band of {ground.along}",
        expected="a row at least after the last hole, and 2 rows between holes",
        remedy="Ask for fewer holes, or fewer rows from hole to hole.")]


def _spread_about(ground: HoleGround, hole: int) -> tuple[Placing | None, list[Problem]]:
    """Holes spread about one at a chosen measure, or above those in the hem."""
    buttonholes, stitch, through = ground.buttonholes, ground.gauge.stitch, ""
    half = plain(hole, _hole_name(ground)) / plain(2)
    low, high = (distance_along(stitches_of(one, ground.gauge), one, ground.gauge, place_in(
        ground.band, f"buttonholes.ends.{key}")) for one, key in (
        (buttonholes.lower, "lower"), (buttonholes.upper, "upper")))
    low, top = low + half, ground.along.term(Role.NUMBER) - high - half
    apart = None if buttonholes.every is None else Operand(
        buttonholes.every.mm, Role.STATED, "every",
        place_in(ground.band, "buttonholes.every")) / _width(ground)
    counts = buttonholes.buttonhole_count
    number = None if counts is None else counts[ground.size]
    if buttonholes.in_hem is not None:
        middles = _above_hem(ground, buttonholes.in_hem, top, apart)
    else:
        chosen, found = _chosen(ground)
        if chosen is None:
            return None, found
        through = chosen.sum
        middles = about(_stated(chosen.made, ground) / _width(ground), low, top,
                        number=number, apart=apart)
    placing = place_at(ground.along.value, hole, middles, _hole_name(ground)) if middles else None
    if placing is not None:
        above = None if buttonholes.in_hem is None else _above(ground, buttonholes.in_hem, hole)
        return replace(placing, through=through, above=above), []
    key = "in_hem" if buttonholes.in_hem is not None else "through"
    return None, [error(
        "holes-too-close", ground.places.of(f"{ground.path}.{key}", ground.size),
        size=ground.size,
        found=f"holes of {ground.unit.of(hole)} about {_middles_text(middles, stitch)} from the "
              f"lower end, on {ground.along}" if middles else
              f"a hole that should lie outside the first and the last, on {ground.along}",
        expected=f"gaps of at least {ground.unit.of(max(2, hole))}, and {ground.unit.of(1)} at "
                 "either end",
        remedy="Ask for fewer holes, a smaller button, or another place for them.")]


def _width(ground: HoleGround) -> Operand:
    """What one of what lies along the band is worth [mm]."""
    return Operand(ground.gauge.stitch, Role.BAND_STITCH)


def _stated(made: Expression, ground: HoleGround) -> Expression:
    """What the source asks for in a sum, each figure of it with the place of the sum."""
    if isinstance(made, Operand) and made.place is None and made.role in (
            Role.WRITTEN, Role.WRITTEN_LENGTH):
        return replace(made, place=ground.places.of(f"{ground.path}.through", ground.size))
    if isinstance(made, Sum | Product):
        return replace(made, parts=tuple(_stated(part, ground) for part in made.parts))
    if isinstance(made, Difference):
        return replace(made, of=_stated(made.of, ground), less=_stated(made.less, ground))
    return made


def _hole_name(ground: HoleGround) -> str:
    """The name of the count of what a hole takes along the band, where it is one."""
    return "" if runs_along(ground.band) else "hole_stitches"


def _above_hem(ground: HoleGround, hem: HemHoles, top: Expression, apart: Expression | None
               ) -> tuple[Expression, ...]:
    """The middles of the holes in a hem and of those above it."""
    buttonholes, width = ground.buttonholes, _width(ground)
    deep = Operand(hem.depth[ground.size].mm, Role.STATED, "depth", _depth_at(ground)) / width
    ends = Operand(hem.ends.mm, Role.STATED, "ends", place_in(
        ground.band, "buttonholes.in_hem.ends")) / width
    inside = Operand(Fraction(hem.buttonhole_count), Role.SOURCE, "holes", place_in(
        ground.band, "buttonholes.in_hem.number"))
    number = None if buttonholes.buttonhole_count is None else Operand(
        Fraction(buttonholes.buttonhole_count[ground.size]), Role.HOLES_GIVEN,
        place=ground.places.of(f"{ground.path}.number", ground.size))
    return above_hem(in_hem(inside, deep, ends), deep, top, number=number, apart=apart)


def _depth_at(ground: HoleGround) -> Place:
    """Where the source gives the depth of the hem in which holes lie."""
    own = "buttonholes.in_hem.depth" in ground.band.places
    return ground.places.of(f"{ground.path}.in_hem.depth" if own else "garment.hem.depth",
                                ground.size)


def _above(ground: HoleGround, hem: HemHoles, hole: int) -> Expression:
    """How many holes lie above those in the hem, as `above_hem` has it."""
    buttonholes, stitch, band = ground.buttonholes, ground.gauge.stitch, ground.band
    if buttonholes.buttonhole_count is not None:
        return Operand(Fraction(buttonholes.buttonhole_count[ground.size]), Role.HOLES_GIVEN,
                       place=ground.places.of(f"{ground.path}.number", ground.size))
    assert buttonholes.every is not None
    width = Operand(stitch, Role.BAND_STITCH)
    upper = distance_along(stitches_of(buttonholes.upper, ground.gauge), buttonholes.upper,
                           ground.gauge, place_in(band, "buttonholes.ends.upper"))
    room = plain(ground.along.value, "band_stitches") - upper \
        - plain(hole, "hole_stitches") / plain(2) \
        - Operand(hem.depth[ground.size].mm, Role.STATED, "depth", _depth_at(ground)) / width
    every = Operand(buttonholes.every.mm, Role.STATED, "every", place_in(band, "buttonholes.every"))
    return Rounded(room / Term(every / width, Role.APART))


def _middles_text(middles: Sequence[Expression], stitch: Fraction) -> str:
    return ", ".join(Length(max(m.value, Fraction(0)) * stitch).in_cm() for m in middles)


def _chosen(ground: HoleGround) -> tuple[Quantity | None, list[Problem]]:
    """How far from the lower end the chosen hole lies: a sum of the garment's measures."""
    assert ground.buttonholes.through is not None
    name = ground.buttonholes.through[ground.size]
    place_ = ground.places.of(f"{ground.path}.through", ground.size)
    found, problems = evaluate({"chosen_hole": Definition(name, place_)}, ground.measures)
    if "chosen_hole" not in found:
        return None, list(problems)
    chosen = found["chosen_hole"]
    if chosen.is_length:
        return chosen, []
    return None, [error("unlike-measures", place_, size=ground.size, found=f"{name}, a number",
                        expected="a length from the band's lower end",
                        remedy='Write a length, such as "body_length - 24 cm".')]


def edge_in_hole(places: Places, band: Band, size: str, body: Gauge, gauge: Gauge,
                 rows: BandRows) -> list[Problem]:
    """The garment's edge lies inside the band, from the closing as deep as it is hung; a row is
    wanted between it and the holes (common practice, no source). Loops lie beyond the band."""
    hidden = band.stitches_in * body.stitch
    room = (rows.to_finish - 1) * gauge.row
    loops = band.buttonholes is not None and band.buttonholes.kind is ButtonholeKind.LOOPS
    if hidden <= room or loops:
        return []
    need = whole(hidden / gauge.row, UP) + 1
    deep = Length(Fraction(whole(2 * need * gauge.row, UP)))  # half of a layer behind the holes
    fewer = whole(room / body.stitch, DOWN)
    hang = f"Write stitches_in: {fewer}, or give" if fewer else "Give"
    return [note(
        Severity.WARNING, "edge-in-hole", places.of(f"bands.{band.key}.stitches_in"), size=size,
        found=f"the garment's edge {decimal(hidden, 1)} mm inside the band ({band.stitches_in} "
              f"stitch{'' if band.stitches_in == 1 else 'es'} in), and the holes {rows.to_finish} "
              f"row{'' if rows.to_finish == 1 else 's'}, "
              f"{decimal(rows.to_finish * gauge.row, 1)} mm, from the closing",
        expected="at least a row between the edge and the holes, or it shows in them",
        remedy=f"{hang} the band {need} rows from the holes to the closing"
               + (f", with a depth of {deep.in_cm()} or more." if band.depth else "."))]


