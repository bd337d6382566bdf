"""Every number of a band in one size, labelled and with its working, for pages and data."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from ..catalogue.bands import KINDS
from ..core.counted import Count
from ..core.counts import Unit
from ..core.expression import Expression, Noted, plain
from ..core.operands import Note, Role
from ..core.units import Length
from ..fabric.arrangement import repeat_said
from ..fabric.gauge import Gauge
from ..pattern.holes import Closing
from ..pattern.model import Fold
from ..plan.band import BandPlan
from ..plan.buttonholes import Placing
from ..plan.closings import loop_chains
from ..plan.zips import zip_for
from ..program.bands.closings import closing_of
from ..words.closings_said import holes_name


@dataclass(frozen=True, slots=True)
class Figure:
    """One whole number, or a list of them, in `unit`, and how it was counted.

    `made` is the expression that computes it, or those of a list.
    """

    name: str
    label: str
    value: int | tuple[int, ...]
    unit: str
    working: str
    made: Expression | tuple[Expression, ...] | None = None

    @property
    def said(self) -> str:
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
        return f"{self.said} {self.unit}"


_FOLDS = {
    Fold.TURNED: "1 row, knitted with the work turned",
    Fold.LOOSE: "1 row, knitted very loose",
    Fold.PICOT: "no row of its own: stitches are moved, and the next row fills the empty needles",
}


# Rows that are told apart only where there are buttonholes between them.
AROUND_HOLES = ("rows_to_holes", "rows_holes_to_fold", "rows_fold_to_holes", "rows_to_finish")


def divides(plan: BandPlan) -> bool:
    """True where rows before the holes and after them are told apart: loops lie at the fold or
    the edge, and divide nothing."""
    return plan.placing is not None and closing_of(plan) is not Closing.LOOPS


def _holes_at(plan: BandPlan) -> str:
    """What the rows of a layer are counted to: a slit lies half before its middle, half after."""
    return "the middle of the slits" if closing_of(plan) is Closing.SLIT else "the buttonholes"


def _of(name: str, label: str, count: Count) -> Figure:
    return Figure(name, label, count.value, count.unit.value, count.working, count.made)


def figures(plan: BandPlan) -> tuple[Figure, ...]:
    """Return all figures of a band, in the order in which a knitter meets them."""
    return (
        _of("edge_rows", "Rows of the garment's edge", plan.edge_rows),
        _of("band_stitches", "Stitches of the band", plan.stitches),
        *_parts(plan),
        *_holes(plan),
        *_closing(plan),
        *_zip(plan),
        *_cord(plan),
        *_facing(plan),
        *_rows(plan),
        *_collar(plan),
        *_mitre(plan),
    )


def _mitre(plan: BandPlan) -> tuple[Figure, ...]:
    """The pairs that go at the point of a V, and come again."""
    if plan.mitre is None:
        return ()
    rows, made = ", ".join(map(str, plan.mitre.rows)), plan.mitre.pairs.made
    return (_of("mitre_pairs", "Pairs of stitches that go at the point, and come again",
                Count(Noted(made, Note.AFTER_ROWS, (rows,)) if rows else made, Unit.PAIRS)),)


def _collar(plan: BandPlan) -> tuple[Figure, ...]:
    """What only collars have, where it was asked for."""
    asked, collar, out = plan.band.collar, plan.collar, []
    if asked.points:
        outer = plan.stitches.term(Role.NUMBER) + plain(2) * collar.point.term(Role.NUMBER)
        out += [_of("point_stitches", "Stitches of each point", collar.point),
                _of("outer_stitches", "Stitches at the outer edge", Count(outer, Unit.STITCHES))]
    if short := collar.short_rows:
        extra = short.extra.term(Role.NUMBER)
        out += [_of("short_row_pairs", "Pairs of short rows", Count(
                    Noted(extra / plain(2), Note.PAIRS, (short.extra.working,)), Unit.PAIRS)),
                _of("back_rows", "Rows at the back of the neck", Count(
                    plan.depth.term(Role.AT_ENDS) + extra, Unit.ROWS))]
    return tuple(out)


def _parts(plan: BandPlan) -> tuple[Figure, ...]:
    """The parts of a band longer than the bed; of any other nothing."""
    said = "; ".join(part.stitches.working for part in plan.parts)
    where = " and ".join(part.part.last for part in plan.parts if part.part and part.part.last)
    return (Figure("parts", "Parts, as the band is longer than the bed",
                   tuple(part.stitches.value for part in plan.parts), "stitches",
                   f"cut at the {where}: {said}" if plan.parts else "one piece",
                   tuple(part.stitches.made for part in plan.parts)),)


def on_the_bed(plan: BandPlan) -> str:
    """The stitches of a band, or of each of its parts: "87 and 88 stitches, in two parts".

    With needles left out of work: "36 stitches on 52 needles, 2 in, 1 out of work".
    """
    if not plan.parts:
        said = Figure("", "", plan.stitches.value, "stitches", "").counted
        return f"{said} on {plan.widest} needles, {repeat_said(plan.repeat)} of work" \
            if plan.repeat else said
    each = [str(part.stitches.value) for part in plan.parts]
    return f"{', '.join(each[:-1])} and {each[-1]} stitches, in {len(each)} parts"


def _holes(plan: BandPlan) -> tuple[Figure, ...]:
    holes, none, name = plan.placing, "no buttonholes", holes_name(plan)
    given = f"{holes.working}; given up: {holes.given_up}" if holes else none
    gaps = plan.closing_gaps
    fewer = (f"one needle fewer than the gaps between the holes: "
             f"{', '.join(f'{g + 1} − 1 = {g}' for g in sorted(set(gaps)))}" if gaps else
             "no gap to hang across" if holes else none)
    return (
        Figure("buttonholes", name.capitalize(), holes.holes if holes else 0, name,
               _number_of_holes(plan) if holes else none),
        _of("hole_stitches", "Stitches of a buttonhole",
            plan.hole or Count(Noted(plain(0), Note.NO_HOLES), Unit.STITCHES)),
        Figure("lower_end", "Stitches before the first hole, from the hem",
               holes.lower if holes else 0, "stitches", given),
        Figure("gaps", "Stitches between the holes", holes.gaps if holes else (), "stitches",
               given),
        Figure("upper_end", "Stitches after the last hole", holes.upper if holes else 0,
               "stitches", given),
        _of("closing_loops", "Loops hung over each hole", plan.closing_loops),
        Figure("closing_gaps", "Needles between the hung loops", gaps, "needles", fewer),
    )


def _closing(plan: BandPlan) -> tuple[Figure, ...]:
    """What a slit or a loop is counted in besides its stitches along the band."""
    asked = plan.band.buttonholes
    if plan.slit:
        return (_of("slit_rows", "Rows of a slit", plan.slit),)
    if asked and asked.closing is Closing.LOOPS:
        chains = loop_chains(asked.button, plan.gauge.stitch)
        return (_of("loop_chains", "Chain stitches of a loop", chains),)
    return ()


def _zip(plan: BandPlan) -> tuple[Figure, ...]:
    if plan.band.zip is None:
        return ()
    found = zip_for(Length(plan.stitches.value * plan.gauge.stitch), plan.band.zip)
    return (_of("zip_length", "Length of the zip", found.count),)


def _cord(plan: BandPlan) -> tuple[Figure, ...]:
    """What goes through a casing, and where it comes out."""
    cord, at = plan.casing.cord, plan.casing.openings
    if cord is None:
        return ()
    return (_of("cord_length", "Length of the cord", cord),
            Figure("cord_openings", "First stitches of the openings, from the first end", at,
                   "stitches", "two stitches each, three from the middle of their section" if at
                   else "none but the band's two ends"))


def _facing(plan: BandPlan) -> tuple[Figure, ...]:
    """What lies behind a fold in another fabric."""
    if plan.facing is None:
        return ()
    f = plan.facing
    return (_of("facing_stitches", "Stitches behind the fold", f.stitches),
            _of("facing_rows", "Rows behind the fold", f.rows))


def _number_of_holes(plan: BandPlan) -> str:
    asked = plan.band.buttonholes
    assert asked is not None and plan.placing is not None
    if asked.in_hem is not None:
        rest = plan.placing.holes - asked.in_hem.number
        return (f"{asked.in_hem.number} in the hem and {rest} above it, the last at the upper end: "
                f"{plan.placing.holes}")
    if asked.through is not None:
        return (f"{plan.placing.holes}, one of them at {asked.through[plan.size]} from the lower "
                "end, the others shared out below it and above it")
    if asked.number is not None:
        return f"{plan.placing.holes}, as the source says"
    if asked.at is not None:
        return f"{plan.placing.holes}, each where the source puts it"
    assert asked.every is not None
    odd = ", an odd number so that one lies in the middle" if asked.centre_hole else ""
    return (f"about {asked.every} asked for from the start of one hole to the start of the next"
            f"{odd}: {plan.placing.holes} buttonholes{_lie(plan.placing, plan.gauge)}")


def _lie(placing: Placing, gauge: Gauge) -> str:
    """How far apart so many come out, from start to start; gaps can differ by a stitch."""
    spaces = placing.holes - 1
    if not spaces:
        return ""
    each = placing.hole + Fraction(sum(placing.gaps), spaces)
    return f", {Length(each * gauge.stitch)} apart"


def _rows(plan: BandPlan) -> tuple[Figure, ...]:
    r, depth, at = plan.rows, plan.depth.value, _holes_at(plan)
    first = f"{r.to_holes} + {r.holes_to_fold} = {depth} rows of the first layer"
    second = f"{r.fold_to_holes} + {r.to_finish} = {depth} rows of the second layer"
    if KINDS[plan.band.kind].layers == 1:
        return _one_layer(plan)
    return (
        _of("depth_rows", "Rows of one layer", plan.depth),
        Figure("rows_to_holes", f"Rows to {at}", r.to_holes, "rows", first),
        Figure("rows_holes_to_fold", f"Rows from {at} to the fold", r.holes_to_fold,
               "rows", first),
        Figure("fold_rows", "Rows of the fold", plan.fold_rows, "rows", _FOLDS[plan.band.fold]),
        Figure("rows_fold_to_holes", f"Rows from the fold to {at}", r.fold_to_holes,
               "rows", f"as many as from {at} to the fold; {second}"),
        Figure("rows_to_finish", f"Rows from {at} to the end", r.to_finish, "rows",
               f"as many as before {at}; {second}"),
    )


def _one_layer(plan: BandPlan) -> tuple[Figure, ...]:
    """The rows of a band that is not doubled; a facing's fold still takes its own."""
    r, none, at = plan.rows, "one layer only", _holes_at(plan)
    fold = plan.fold_rows if plan.band.kind == "facing" else 0
    said = f"{r.to_holes} + {r.holes_to_fold} = {plan.depth.value} rows"
    depth = plan.facing.rows if plan.facing else plan.depth
    return (
        _of("depth_rows", "Rows of the band", depth),
        Figure("rows_to_holes", f"Rows to {at}", r.to_holes, "rows", said),
        Figure("rows_holes_to_fold", f"Rows from {at} to the end", r.holes_to_fold,
               "rows", said),
        Figure("fold_rows", "Rows of the fold", fold, "rows", _FOLDS[plan.band.fold] if fold
               else none),
        Figure("rows_fold_to_holes", f"Rows from the fold to {at}", 0, "rows", none),
        Figure("rows_to_finish", f"Rows from {at} to the end", 0, "rows", none),
    )
