"""A garment as asked for, in one size: body to measures, measures to pieces that fit the bed."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction

from ..catalogue.edge_roles import EdgeRole, role_of, side_of
from ..catalogue.form_measures import SLEEVE_EASE
from ..catalogue.forms import Construction, Sort
from ..core.counts import Unit
from ..core.expression import Expression
from ..core.problems import Place, Problem, Severity, error, has_errors, note
from ..core.ranges import MEASURES
from ..core.text_kinds import FindingText
from ..core.units import Length
from ..fabric.gauge import measure
from ..fabric.piece_fabrics import piece_fabrics
from ..forms.registry import FORMS
from ..machine.steps import Side
from ..pattern.conventions import Conventions
from ..pattern.fabrics import Fabric
from ..pattern.model import Band, GarmentSpec, Pattern, Wearer
from ..pattern.outlines import NO_OUTLINE
from ..pattern.places import Places
from ..shape.garment import Cut, Garment, Join
from ..shape.piece import Piece
from ..shape.tasks import Seam
from ..sizing.charts import facts_of
from ..sizing.grading import OutOfStep, look_across
from ..sizing.measures import names_in
from .armhole_bands import under_armhole_bands
from .assembled import Assembled
from .body_ease import body_ease
from .cloths import cloths
from .early_slopes import early_slopes
from .feet import feet_not_swatched, flaring, swatch_shared
from .method_choice import with_methods
from .over_head import neck_over_head
from .overruled import overruled
from .shaped import shaped
from .whole_checks import is_short, neck_to_wrist, with_neck_to_wrist
from .worked_measures import Worked, definitions, own_chart, worked_out

_Found = tuple[str, OutOfStep]  # the name of the measure, "" for a count, and what is wrong

def assemble(pattern: Pattern, spec: GarmentSpec, size: str, *, bands: Expression, hidden: int,
             band: str = "",
             worked: Worked | None = None) -> tuple[Assembled | None, tuple[Problem, ...]]:
    """Return the garment in `size` with its findings, or None where it must be refused.

    `bands` is the finished depth of overlapping front bands [mm], `hidden` the stitches an
    enclosing one takes in. Its measures are worked out here unless they are `worked` already.
    """
    worked = worked or worked_out(pattern, spec, size)
    chart, measures, problems = worked.chart, worked.measures, worked.found
    if has_errors(problems):
        return None, problems
    each = cloths(pattern.garment, pattern.materials)
    own = each[""]
    cut = Cut(size=size, measures={**worked.known, **measures}, gauge=own.gauge,
              armholes=under_armhole_bands(pattern.bands), dial=own.dial, neck=spec.neck,
              hem=spec.hems.get(size, spec.hem),
              hem_gauge=own.hem_gauge, cuff=spec.cuffs.get(size), cuff_gauge=own.cuff_gauge,
              bands=bands, hidden=hidden, moved=spec.moved, repeat=own.repeat, chart=own.chart,
              cloths=each if spec.piece_fabrics else {}, align=spec.align, crown=spec.crown,
              slopes={one.slope: one.of(size) for one in spec.slopes if one.slope},
              conventions=spec.conventions.get(size, Conventions()), outline=spec.outline,
              placket=spec.placket[size] if spec.placket else None, stated=pattern.places.of,
              band=band)
    garment, found = shaped(pattern.places, spec, cut, worked.given)
    if garment is None or has_errors(found):
        return None, (*problems, *found)
    problems += found
    garment, found = _with_parts(pattern.places, spec, pattern.wearer, garment, cut)
    if garment is None:
        return None, (*problems, *found)
    if wrong := _left_open(pattern.places, spec, pattern.bands, garment):
        return None, (*problems, *wrong)
    garment, unfit = _as_specified(pattern, spec, garment)
    if has_errors(unfit):
        return None, (*problems, *unfit)
    garment = with_neck_to_wrist(garment, cut)
    problems += (*unfit, *_of_feet(pattern, spec, garment, cut),
                 *neck_over_head(pattern.places, chart, garment),
                 *body_ease(pattern.places, spec, chart, garment, measures),
                 *neck_to_wrist(pattern.places, spec, chart, garment),
                 *overruled(pattern.places, spec, garment, measures),
                 *early_slopes(pattern.places, spec, garment))
    return Assembled(garment=garment, measures=measures,
                     short_sleeve=is_short(spec, chart, garment)), problems


def _with_parts(places: Places, spec: GarmentSpec, wearer: Wearer, garment: Garment, cut: Cut
                ) -> tuple[Garment | None, tuple[Problem, ...]]:
    """The garment with its pockets and the cord of its hem, or None with what is wrong; what few
    garments have is imported where it is asked for."""
    made: Garment | None = garment
    found: tuple[Problem, ...] = ()
    if spec.pockets is not None:
        from .pockets import with_pockets
        made, found = with_pockets(places, spec, garment, cut.gauge)
    if made is not None and spec.cord is not None:
        from .cords import with_cord
        made, found = with_cord(places, spec, wearer, made, cut.gauge, cut.inside)
    return made, found


def _left_open(places: Places, spec: GarmentSpec, bands: Mapping[str, Band], garment: Garment
               ) -> tuple[Problem, ...]:
    """An error for every join whose sides differ, and for tops of own pieces that nothing takes."""
    apart = [join for join in garment.joins if not join.closes]
    if spec.outline is NO_OUTLINE:
        return tuple(_open(places, spec, garment.size, join) for join in apart)
    from .own_pieces import edges_apart, tops_left
    return (*(edges_apart(places, garment.size, join) if join.number else
              _open(places, spec, garment.size, join) for join in apart),
            *tops_left(places, bands, spec))


def _as_specified(pattern: Pattern, spec: GarmentSpec, garment: Garment
                  ) -> tuple[Garment, tuple[Problem, ...]]:
    """Return the garment with its names, ways on and off and stripes; and what is wrong."""
    if spec.names:
        from .own_names import with_own_names
        garment, strange = with_own_names(pattern.places, spec, garment)
        if strange:
            return garment, strange
    garment, unfit = with_methods(pattern, spec, garment)
    if has_errors(unfit):
        return garment, unfit
    if spec.stripes is None:
        return garment, unfit
    from .laid_stripes import with_stripes
    garment, found = with_stripes(pattern.places, spec, pattern.fabrics, garment)
    return garment, (*unfit, *found)


def _of_feet(pattern: Pattern, spec: GarmentSpec, garment: Garment, cut: Cut
             ) -> tuple[Problem, ...]:
    """Return what is to be said of ribs and hems and their swatches, once for all sizes."""
    return (*feet_not_swatched(pattern, spec, cut.size), *swatch_shared(pattern, cut.size),
            *flaring(pattern.places, pattern.sizes, garment, cut))


def _open(places: Places, spec: GarmentSpec, size: str, join: Join) -> Problem:
    """The finding of a join that is not closed: where its two edges may have an ease, with it."""
    takes_ease = join.seam is Seam.ARMHOLE and SLEEVE_EASE in FORMS[spec.form].optional
    at = next((path for name in (SLEEVE_EASE, "upper_arm_width", "armhole") if takes_ease
               and (path := f"garment.measures.{name}") in places), "garment.form")
    ease = f" Or write sleeve_ease: {Length(join.other - join.one).in_cm()} under measures, if " \
           "the two are meant to differ so." if takes_ease else ""
    return error("join-open", places.of(at, size), size=size,
                 found=f"{join.title}: {join.working}",
                 expected="two edges that meet within the tolerance",
                 remedy=f"Change the measures of one of the two pieces.{ease}")


def _sideways(spec: GarmentSpec | None) -> FindingText:
    """The form that goes on a narrower bed, where the garment is a pullover of another."""
    form = FORMS[spec.form] if spec else None
    return " Or write form: sideways pullover, whose rows run up the body." \
        if form and form.sort is Sort.PULLOVERS \
        and form.construction is not Construction.SIDEWAYS else ""


def too_wide_for_bed(pattern: Pattern, assembled: Sequence[Assembled]) -> list[Problem]:
    """Return an error for every piece and size with more stitches than the bed has needles."""
    needles = pattern.bed.needles
    problems = []
    keys = dict.fromkeys(p.key for d in assembled for p in d.garment.pieces)
    for key in keys:
        by_size = [(d.garment.size, _piece(d.garment, key)) for d in assembled]
        fitting = [size for size, p in by_size if p is not None and p.widest <= needles]
        for size, piece in by_size:
            if piece is None or piece.widest <= needles:
                continue
            largest = f"The largest size that fits is {fitting[-1]}. " if fitting and \
                pattern.sizes.index(fitting[-1]) < pattern.sizes.index(size) else ""
            problems.append(error(
                "bed-too-short", pattern.places.of("garment.form"), size=size,
                found=f"{piece.title.lower()} of {_room(piece)} on a bed of {needles} needles",
                expected=f"at most {needles}: {piece.widest - needles} needles short",
                remedy=f"{largest}Lessen the ease or a width, or use a thicker yarn or a bed with "
                       f"more needles.{_sideways(pattern.garment)}"))
    return problems


def _room(piece: Piece) -> FindingText:
    """The most a piece takes up of the bed."""
    out = piece.widest - piece.stitches.value
    if not piece.leaves_out:
        return f"{piece.widest} stitches"
    return f"{piece.widest} needles, {out} of them left out of work,"


def _piece(garment: Garment, key: str) -> Piece | None:
    return next((p for p in garment.pieces if p.key == key), None)


def across_sizes(places: Places, spec: GarmentSpec, fabrics: Mapping[str, Fabric],
                 assembled: Sequence[Assembled]) -> list[Problem]:
    """Return a warning for every measure and count that is out of step with its neighbours.

    Where a measure of the designer's own is, nothing is said of what follows from it.
    """
    if len(assembled) < 2:
        return []
    grows = _body_of(spec, [d.garment.size for d in assembled])
    own, others = list[_Found](), list[_Found]()
    for name in assembled[0].measures:
        values = [(d.garment.size, d.measures[name].value / 10) for d in assembled
                  if name in d.measures and d.measures[name].is_length]
        if len(values) == len(assembled):
            found = look_across(f"{name} [cm]", values, grows=grows, factor=Fraction(4),
                                grain=Fraction(1), rises=_rises(spec, name))
            (own if name in spec.measures else others).extend((name, one) for one in found)
    counted = assembled[0].garment.counts if len(assembled) > 2 else ()
    for at, (key, name, one) in enumerate(counted):
        counts = [(d.garment.size, Fraction(d.garment.counts[at][2].value)) for d in assembled]
        # Rows below an armhole are what three even numbers leave, each up to a row off.
        grain = Fraction(6 if one.unit is Unit.ROWS else 4)
        found = look_across(f"{key.replace('_', ' ')}, {name.replace('_', ' ')}", counts,
                            grows=grows, factor=Fraction(4), grain=grain)
        others += [("", one) for one in found]
    # Of two sizes' lengths each is up to a row off where rows are even; a front edge is what an
    # even number of rows leaves of another. An edge gathers the roundings of its sections, so
    # its usual step says less of the largest it may have.
    row = max(measure(one.swatches).row for one in piece_fabrics(spec, fabrics)) / 10
    fronts = {_edge_named(key) for key in assembled[0].garment.edges
              if role_of(key) is EdgeRole.FRONT}
    for name, lengths in (_lengths(assembled) if len(assembled) > 2 else {}).items():
        grain = max(Fraction(1), row * (4 if name in fronts else 2))
        # An edge that hardly changes may rise by a size: only to fall is against the sizes.
        others += [(name, f) for f in look_across(f"{name} [cm]", lengths, grows=grows,
                                          factor=Fraction(5), grain=grain)
                   if f.kind != "against" or f.step < 0]
    steps = next(filter(None, ([(name, f) for name, f in found if f.kind != "repeats"]
                               for found in (own, others))), [])
    return [note(Severity.WARNING, "out-of-step", _at(places, name, f.size), size=f.size,
                 found=f.text, expected="a step like its neighbours'",
                 remedy="Change the measure, or leave it if you mean it.")
            for name, f in steps]


def _edge_named(key: str) -> FindingText:
    return f"edge {key.replace('_', ' ')}"


def _lengths(assembled: Sequence[Assembled]) -> dict[str, list[tuple[str, Fraction]]]:
    """Every finished length, and every edge that a band can take, by size [cm]."""
    made: dict[str, list[tuple[str, Fraction]]] = {}
    for garment in (d.garment for d in assembled):
        edges = {_edge_named(key): edge_path.length for key, edge_path in garment.edges.items()
                 if side_of(key) is not Side.LEFT}
        for name, mm in {**{n: one.mm for n, one in garment.finished.items()}, **edges}.items():
            made.setdefault(name, []).append((garment.size, mm / 10))
    return {name: values for name, values in made.items() if len(values) == len(assembled)}


def _body_of(spec: GarmentSpec, sizes: Sequence[str]) -> list[Fraction] | None:
    """The body measurement that a garment's measures grow with, where the chart has one."""
    chart = own_chart(spec)
    for row in ("chest", "head"):
        if row in chart.rows and all(chart.cell(row, size) for size in sizes):
            return [chart.measurement(row, size).value for size in sizes]
    return None


def _rises(spec: GarmentSpec, name: str) -> bool:
    """True for a measure that does not fall as the sizes grow, or whose figures are all given."""
    row = MEASURES.get(name)
    given = spec.measures.get(name)
    if row is None:
        return False
    return row.follows or (given is not None and not row.is_plausible_below_nothing
                           and not any(names_in(one.text) for one in given.values()))


def _at(places: Places, name: str, size: str) -> Place:
    """Where a measure that is out of step is given; one that has no name of a measure has none."""
    path = f"garment.measures.{name}"
    return places.of(path, size) if path in places else \
        places.of("garment.measures")


def chart_remarks(places: Places, sizes: tuple[str, ...], spec: GarmentSpec,
                  assembled: Sequence[Assembled]) -> list[Problem]:
    """Return what a designer should know of the chart's figures that her measures depend on."""
    used: dict[str, None] = {}
    for one in assembled[:1]:
        for text in definitions(places, sizes, spec, one.garment.size).values():
            used.update(dict.fromkeys(names_in(text.text)))
    return [note(Severity.REMARK, "chart-remark", places.of("garment.chart"),
                 found=f"chart {spec.chart.key}: {remark.line}",
                 facts=facts_of(spec.chart, remark))
            for remark in spec.chart.remarks
            if (not remark.rows or used.keys() & set(remark.rows))
            and (not remark.sizes or set(sizes) & set(remark.sizes))]
