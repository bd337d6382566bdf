"""Every number of a band in one size, labelled and with its working, for pages and data."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from functools import partial

from ..catalogue.bands import KINDS
from ..core.counted import Count
from ..core.counts import Unit
from ..core.expression import Expression, Operand, Term, plain
from ..core.kept import kept_of
from ..core.note_arguments import Noted, NotedCalculation, NotedFigures
from ..core.operands import Note, Role
from ..machine.records import dataclass
from ..pattern.band_places import place_in
from ..pattern.holes import ButtonholeKind
from ..plan.band import BandPlan
from ..plan.hole_sizes import loop_chains
from ..plan.hole_sums import buttonhole_count, hole_ends, hole_gaps, wanted_ends
from ..plan.layers import halves
from ..plan.lengthwise_counts import SEAM
from ..plan.zips import opening_of, zip_for
from ..program.bands.buttonhole_steps import buttonhole_kind
from ..words import figure_text as words
from ..words.buttonhole_text import holes_name
from ..words.terms.working import working_of


@dataclass(frozen=True, slots=True)
class ShownFigure:
    """One whole number, or a list of them, in `unit`, and how it was counted.

    `made` is the expression that computes it, or those of a list. `how` is the sentence that says
    how it was counted, or writes it when it is asked for: a comparison asks for none.
    """

    name: str
    label: str
    value: int | tuple[int, ...]
    unit: str
    how: str | Callable[[], str]
    made: Expression | tuple[Expression, ...]

    @property
    def working(self) -> str:
        """How it was counted, as a sentence."""
        return self.how if isinstance(self.how, str) else self.how()

    @property
    def shown(self) -> str:
        """The value as a table shows it: "39", "5", "5, 6, 5"; equal gaps are said once."""
        if isinstance(self.value, int):
            return str(self.value)
        if self.name == "parts":
            return " + ".join(map(str, self.value)) or "–"
        if len(set(self.value)) == 1:
            return str(self.value[0])
        return ", ".join(map(str, self.value)) or "–"

    @property
    def counted(self) -> str:
        """The value with its unit, as a sentence wants it: "1 row", "39 stitches"."""
        if self.value == 1:
            return f"1 {self.unit[:-2] if self.unit == 'stitches' else self.unit[:-1]}"
        return f"{self.shown} {self.unit}"


# Rows that are told apart only where there are buttonholes between them.
AROUND_HOLES = ("rows_to_holes", "rows_holes_to_fold", "rows_fold_to_holes", "rows_to_finish")


def divides(plan: BandPlan) -> bool:
    """True where rows before the holes and after them differ: loops lie at the fold or
    the edge, and divide nothing."""
    return plan.placing is not None and buttonhole_kind(plan) is not ButtonholeKind.LOOPS


def _of(name: str, count: Count, label: str = "") -> ShownFigure:
    return ShownFigure(name, label or words.LABELS[name], count.value, count.unit.value,
                       partial(working_of, count), count.made)


def _listed(name: str, made: Expression | tuple[Expression, ...], unit: str,
            how: str | Callable[[], str], label: str = "") -> ShownFigure:
    value = tuple(int(one.value) for one in made) if isinstance(made, tuple) else int(made.value)
    return ShownFigure(name, label or words.LABELS[name], value, unit, how, made)


@kept_of(64)  # a record is held to them, and then the pages have them
def figures(plan: BandPlan) -> tuple[ShownFigure, ...]:
    """Return all figures of a band, in the order in which a knitter meets them."""
    if plan.is_lengthwise:
        return _lengthwise(plan)
    return (
        _of("edge_rows", plan.edge_rows, words.RIGHT_EDGE if plan.left else ""),
        _of("band_stitches", plan.stitches, words.RIGHT_BAND if plan.left else ""),
        *_left(plan),
        *_parts(plan),
        *_holes(plan),
        *_of_the_hole(plan),
        *_zip(plan),
        *_cord(plan),
        *_facing(plan),
        *_rows(plan),
        *_collar(plan),
        *_mitre(plan),
    )


def _left(plan: BandPlan) -> tuple[ShownFigure, ...]:
    """The left band of a pair, where its edge has other rows than the right one."""
    if plan.left is None:
        return ()
    return (_of("left_edge_rows", plan.left.edge_rows),
            _of("left_band_stitches", plan.left.stitches))


def _lengthwise(plan: BandPlan) -> tuple[ShownFigure, ...]:
    """Those of a band whose rows run along its edge."""
    wide = plan.depth.term(Role.STITCHES) + Operand(Fraction(SEAM), Role.SEAM)
    cast_on = wide if not KINDS[plan.band.kind].doubled else plain(2) * wide
    number, lower, upper, gaps = _spread(plan)
    unit, given = plan.stitches.unit.value, words.holes_given(plan)
    other = (_of("left_edge_rows", plan.left.edge_rows),) if plan.left else ()
    return (
        _of("edge_rows", plan.edge_rows, words.RIGHT_EDGE if plan.left else ""),
        *other,
        _of("band_rows", plan.stitches),
        _of("cast_on_stitches", Count(cast_on, Unit.STITCHES)),
        _of("depth_stitches", plan.depth),
        _listed("buttonholes", number, holes_name(plan),
                partial(words.holes_counted, number, plan.placing is not None),
                holes_name(plan).capitalize()),
        _of("hole_stitches", plan.hole or Count(Noted(plain(0), Note.NO_HOLES), Unit.STITCHES)),
        *(_listed(name, made, unit, given, words.ROWS_LIE[name])
          for name, made in (("lower_end", lower), ("gaps", gaps), ("upper_end", upper))))


def _spread(plan: BandPlan) -> tuple[Expression, Expression, Expression, tuple[Expression, ...]]:
    """How many holes there are, what lies before the first and after the last, and the gaps."""
    if plan.placing is None:
        return plain(0), plain(0), plain(0), ()
    along = "band_rows" if plan.is_lengthwise else "band_stitches"
    ends = wanted_ends(plan, plan.placing)
    lower, upper = hole_ends(plan.placing, along, ends)
    return buttonhole_count(plan, plan.placing), lower, upper, hole_gaps(plan.placing, along, ends)


def _mitre(plan: BandPlan) -> tuple[ShownFigure, ...]:
    """The pairs that go at the point of a V, and come again."""
    if plan.mitre is None:
        return ()
    rows, made = NotedFigures(tuple(plan.mitre.rows)), plan.mitre.pairs.made
    return (_of("mitre_pairs", Count(
        Noted(made, Note.AFTER_ROWS, (rows,)) if rows.figures else made, Unit.PAIRS)),)


def _collar(plan: BandPlan) -> tuple[ShownFigure, ...]:
    """What only collars have, where it was asked for."""
    spec, collar, out = plan.band.collar, plan.collar, []
    if spec.points:
        outer = plain(plan.stitches.value, "band_stitches") \
            + plain(2) * collar.point.term(Role.NUMBER)
        out += [_of("point_stitches", collar.point),
                _of("outer_stitches", Count(outer, Unit.STITCHES))]
    if short := collar.short_rows:
        extra = short.extra.term(Role.NUMBER)
        out += [_of("short_row_pairs", Count(
                    Noted(extra / plain(2), Note.PAIRS, (
                        NotedCalculation(short.extra.made, short.extra.unit),)), Unit.PAIRS)),
                _of("back_rows", Count(plan.depth.term(Role.AT_ENDS) + extra, Unit.ROWS))]
    return tuple(out)


def _parts(plan: BandPlan) -> tuple[ShownFigure, ...]:
    """The parts of a band longer than the bed; of any other nothing."""
    return (_listed("parts", tuple(part.stitches.made for part in plan.parts), "stitches",
                    partial(words.parts_cut, plan)),)


def _holes(plan: BandPlan) -> tuple[ShownFigure, ...]:
    placing, name, given = plan.placing, holes_name(plan), words.holes_given(plan)
    number, lower, upper, gaps = _spread(plan)
    hung = tuple(Term(gap, Role.NUMBER) - plain(1) for gap in gaps)
    return (
        _listed("buttonholes", number, name,
                partial(words.holes_counted, number, placing is not None), name.capitalize()),
        _of("hole_stitches", plan.hole or Count(Noted(plain(0), Note.NO_HOLES), Unit.STITCHES)),
        _listed("lower_end", lower, "stitches", given),
        _listed("gaps", gaps, "stitches", given),
        _listed("upper_end", upper, "stitches", given),
        _of("closing_loops", plan.closing_loops),
        _listed("closing_gaps", hung, "needles",
                partial(words.gaps_hung, hung, placing is not None)),
    )


def _of_the_hole(plan: BandPlan) -> tuple[ShownFigure, ...]:
    """What a slit or a loop is counted in besides its stitches along the band."""
    buttonholes = plan.band.buttonholes
    if plan.slit:
        return (_of("slit_rows", plan.slit),)
    if buttonholes and buttonholes.kind is ButtonholeKind.LOOPS:
        chains = loop_chains(buttonholes.button, plan.gauge.stitch,
                             place_in(plan.band, "buttonholes.button"))
        return (_of("loop_chains", chains),)
    return ()


def _zip(plan: BandPlan) -> tuple[ShownFigure, ...]:
    if plan.band.zip is None:
        return ()
    found = zip_for(opening_of(plan.stitches, plan.gauge), plan.band.zip)
    return (_of("zip_length", found.count),)


def _cord(plan: BandPlan) -> tuple[ShownFigure, ...]:
    """What goes through a casing, and where it comes out."""
    cord = plan.casing.cord
    if cord is None:
        return ()
    return (_of("cord_length", cord),
            _listed("cord_openings", plan.casing.outlets, "stitches", words.openings_at(plan)))


def _facing(plan: BandPlan) -> tuple[ShownFigure, ...]:
    """What lies behind a fold in another fabric."""
    if plan.facing is None:
        return ()
    f = plan.facing
    return (_of("facing_stitches", f.stitches),
            _of("facing_rows", f.rows))


def _rows(plan: BandPlan) -> tuple[ShownFigure, ...]:
    if not KINDS[plan.band.kind].doubled:
        return _one_layer(plan)
    before, after = halves(plan.depth, plan.band.rows, place_in(plan.band, "rows"))
    first = words.layer(before, after, words.FIRST)
    return (
        _of("depth_rows", plan.depth, words.rows_label("depth_rows", plan, layers=2)),
        _part_of_layer(plan, "rows_to_holes", before, first, 2),
        _part_of_layer(plan, "rows_holes_to_fold", after, first, 2),
        _listed("fold_rows", plan.fold_rows.made, "rows", words.FOLDS[plan.band.fold]),
        _part_of_layer(plan, "rows_fold_to_holes", after, words.after_fold(plan, before, after),
                       2),
        _part_of_layer(plan, "rows_to_finish", before, words.to_finish(plan, before, after), 2),
    )


def _one_layer(plan: BandPlan) -> tuple[ShownFigure, ...]:
    """The rows of a band that is not doubled; a facing's fold still takes its own."""
    none, facing = words.ONE_LAYER, KINDS[plan.band.kind].faces
    before, after = halves(plan.depth, plan.band.rows, place_in(plan.band, "rows"))
    text = words.layer(before, after)
    depth = plan.facing.rows if plan.facing else plan.depth
    return (
        _of("depth_rows", depth, words.rows_label("depth_rows", plan, layers=1)),
        _part_of_layer(plan, "rows_to_holes", before, text, 1),
        _part_of_layer(plan, "rows_holes_to_fold", after, text, 1),
        _listed("fold_rows", plan.fold_rows.made if facing else plain(0), "rows",
                words.FOLDS[plan.band.fold] if facing else none),
        _part_of_layer(plan, "rows_fold_to_holes", plain(0), none, 1),
        _part_of_layer(plan, "rows_to_finish", plain(0), none, 1),
    )


def _part_of_layer(plan: BandPlan, name: str, made: Expression, working: str, layers: int
                   ) -> ShownFigure:
    return _listed(name, made, "rows", working, words.rows_label(name, plan, layers=layers))
