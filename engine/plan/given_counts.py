"""Counts that the designer gives outright: what they are worth, and whether they are kept."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import field
from fractions import Fraction

from ..catalogue.outright import STITCH, Outright, outright_of
from ..core.counts import Rounding, Unit, outright
from ..core.expression import NOTHING, Expression, Operand
from ..core.operands import Role
from ..core.problems import Problem, Severity, error, note
from ..fabric.gauge import measure
from ..fabric.piece_fabrics import SLEEVE, own_foot_fabric, piece_fabric
from ..forms.body_counts import hem_of
from ..forms.registry import FORMS, outlined
from ..machine.records import dataclass
from ..pattern.fabrics import Fabric, Materials
from ..pattern.model import Band, GarmentSpec
from ..pattern.places import Places
from ..shape.garment import CannotKeep, CannotShape, Cut, Garment
from ..sizing.bare_counts import bare_count
from ..sizing.expression_tree import Number
from ..sizing.measures import Definition
from ..sizing.reckoning import Pitches
from ..words.terms.working import working_of
from .armhole_bands import under_armhole_bands

HEM_ROWS = "hem_rows"
APART = 2  # stitches or rows by which a count may be off its measure; a pair is rounding


@dataclass(frozen=True, slots=True)
class Given:
    """The counts of one size that are given outright: how each is rounded, by the count's name,
    and the measures that are written as counts, by theirs."""

    rounding: Mapping[str, Rounding] = field(default_factory=dict)
    measures: Mapping[str, tuple[int, Outright]] = field(default_factory=dict)
    found: tuple[Problem, ...] = ()

    def written(self, name: str) -> str:
        """The entry of the garment that gives the count called `name` outright; "" for none."""
        if name not in self.rounding:
            return ""
        return next((f"measures.{measure}" for measure, (_, one) in self.measures.items()
                     if one.name == name), f"counts.{name.replace(' ', '_')}")


def given_in(places: Places, spec: GarmentSpec, size: str, own: Mapping[str, Definition]
             ) -> Given:
    """Return the counts that are given in `size`, by the measures that are the designer's `own`
    and under `counts`."""
    form, found = outlined(FORMS[spec.form], spec.outline), list[Problem]()
    known = outright_of(form, own.keys())
    rounding = {name: outright(by_size[size]) for name, by_size in spec.counts.items()}
    measures: dict[str, tuple[int, Outright]] = {}
    for name, definition in own.items():
        count = bare_count(definition.text)
        if count is None or name not in form.names:
            continue
        one = known.get(name)
        if one is None or one.of != count.of:
            found.append(_refused(places, name, size, count, one))
            continue
        measures[name] = int(count.value), one
        if one.name and one.name in form.rounds:
            rounding.setdefault(one.name, outright(int(count.value)))
    return Given(rounding, measures, tuple(found))


def _refused(places: Places, name: str, size: str, count: Number, one: Outright | None
             ) -> Problem:
    expected = f"a count of {'stitches' if one.of == STITCH else 'rows'}, or a length" if one else \
        "a length: no count of this garment is that measure alone"
    return error("count-not-kept", places.of(f"garment.measures.{name}", size), size=size,
                 found=f"{name} of {count.text}", expected=expected,
                 remedy="Write it with a unit of length, such as 5 cm." if one is None else
                 f"Write {name} in {'stitches' if one.of == STITCH else 'rows'}.")


def _count_of(name: str) -> str:
    """Which count of its piece a name has: "hem_rows" of "back hem_rows"."""
    return name.partition(" ")[2]


def pitches(materials: Materials, bands: Mapping[str, Band], spec: GarmentSpec, size: str,
            given: Given) -> Pitches:
    """Return what stitches and rows are worth in the fabrics of the garment's pieces, and what a
    bare count of a measure has besides."""
    gauge = measure(piece_fabric(spec, materials.fabrics).swatches)
    known = {name: one for name, (_, one) in given.measures.items()}
    foot = {name: _foot(spec, materials, size, given, one.piece)
            for name, one in known.items() if one.from_foot}
    return Pitches(gauge.stitch, gauge.row, apart=dict(_apart(spec, materials.fabrics)),
                   beyond={name: more for name, one in known.items()
                           if (more := _beyond(bands, spec, one)).value},
                   above={name: deep for name, deep in foot.items() if deep})


def _beyond(bands: Mapping[str, Band], spec: GarmentSpec, one: Outright) -> Expression:
    """The stitches of a count that are not in its measure's width: in seams, or under bands."""
    if one.at_armholes and not FORMS[spec.form].sleeved:
        return under_armhole_bands(bands)
    return Operand(Fraction(one.seams), Role.SEAM if one.seams == 1 else Role.SEAMS)


def _apart(spec: GarmentSpec, fabrics: Mapping[str, Fabric]
           ) -> Iterator[tuple[str, tuple[Fraction, Fraction]]]:
    """Yield the measures that are counted in a piece of another fabric, with the width of its
    stitch and the height of its row [mm]."""
    for name, one in outright_of(FORMS[spec.form], spec.measures).items():
        if one.piece in spec.piece_fabrics:
            own = measure(piece_fabric(spec, fabrics, one.piece).swatches)
            yield name, (own.stitch, own.row)


def _foot(spec: GarmentSpec, materials: Materials, size: str, given: Given, above: str
          ) -> Fraction:
    """How deep the hem or rib `above` which a piece lies is knitted [mm], 0 where there is none or
    it cannot be counted; of a sleeve its cuff, where that is another."""
    rounding = {name: one for name, one in {**spec.rounding, **given.rounding}.items()
                if isinstance(one, Rounding)}
    piece = next((name.partition(" ")[0] for name in FORMS[spec.form].rounds
                  if _count_of(name) == HEM_ROWS), "back")
    apart = above == SLEEVE and bool(spec.cuffs)
    piece = SLEEVE if apart or (above == SLEEVE and SLEEVE in spec.piece_fabrics) else piece
    own = own_foot_fabric(spec, materials, above)
    fabric = piece_fabric(spec, materials.fabrics, above)
    gauge = measure(fabric.swatches)
    cut = Cut(size=size, measures={}, gauge=gauge, dial=fabric.dial,
              neck=spec.neck, hem=spec.cuffs.get(size) if apart else spec.hems.get(size, spec.hem),
              hem_gauge=measure(own.swatches) if own else None,
              bands=NOTHING, rounding=rounding, repeat=None)
    try:
        foot, _ = hem_of(cut, piece)
    except CannotShape:  # it is refused where the garment is cut
        return Fraction(0)
    return foot.depth(gauge.row) if foot else Fraction(0)


def not_kept(places: Places, size: str, given: Given, fault: CannotKeep) -> Problem:
    """The finding of a count that a garment cannot be knitted with, at the line that gives it."""
    path = next((f"measures.{name}" for name, (_, one) in given.measures.items()
                 if one.name == fault.name), f"counts.{fault.name.replace(' ', '_')}")
    if _count_of(fault.name) == HEM_ROWS and fault.name not in given.rounding:
        path = "hem.depth"
    path = fault.at or path
    place = places.of(f"garment.{path}", size)
    return error("count-not-kept", place, size=size, found=fault.found,
                 expected="the count that the source gives", remedy=fault.remedy)


def check_kept(places: Places, spec: GarmentSpec, garment: Garment, given: Given
               ) -> tuple[Problem, ...]:
    """Return what is to be said of counts that are not as given, and of those that run against
    the measures."""
    made = {f"{key} {name}": count for key, name, count in garment.counts}
    found = []
    for name, (number, one) in given.measures.items():
        count = made.get(one.name or one.left)
        kept = count is not None and (count.value == number if one.name
                                      else count.value == count.exact)
        if not kept:
            unit = Unit.STITCHES if one.of == STITCH else Unit.ROWS
            was = "no count of this garment" if count is None else working_of(count)
            found.append(error(
                "count-not-kept", places.of(f"garment.measures.{name}", garment.size),
                size=garment.size, found=f"{name} of {unit.of(number)}, which cannot stay: {was}",
                expected="a count that leaves even rows, or one within the others",
                remedy=f"Write {unit.of(number - 1)} or {unit.of(number + 1)}, or a length."))
    for name, by_size in spec.counts.items():
        count = made.get(name)
        if count and abs(count.exact - by_size[garment.size]) >= APART:
            plain = name.replace(" ", "_")
            found.append(note(
                Severity.WARNING, "count-against-measures",
                places.of(f"garment.counts.{plain}", garment.size), size=garment.size,
                found=f"{name.replace('_', ' ')} {count}, where the measures give another: "
                      f"{working_of(count)}",
                expected=f"a count within {APART} of what the measures give",
                remedy="Change the measure, or leave it if you mean it."))
    return tuple(found)
