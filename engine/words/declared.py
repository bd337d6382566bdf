"""Words for what a source declares of own pieces: bands on their edges, and joins."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from ..markup.html import esc
from ..shape.bars import BoundOff
from ..shape.garment import Join, Kindred
from ..shape.piece_folds import Folded
from ..shape.tasks import NamedBand, Sewing, Task
from .bands_named import ends_how, named
from .cut_lengths import to_sew
from .explained import why
from .terms.schedules import times_text
from .words import counted, stitches

_HOW = {Sewing.ROWS: "row to row, a stitch in", Sewing.STITCHES: "stitch to stitch",
        Sewing.MIXED: "rows to stitches"}


def sides_named(*, worn: bool) -> str:
    """By what the sides of own pieces are called, where they lie with the knit side up, and on
    whoever wears two pieces sewn at both sides."""
    text = ("The left and the right edge of a piece are named as they lay on the bed, with the "
            "purl side towards you. With the knit side towards you the left edge is at the right.")
    return text + (" So the left edge is at the wearer's left on a piece worn in front, and at "
                   "the wearer's right on a piece worn at the back." if worn else "")


def bands_worked(bands: Sequence[NamedBand]) -> str:
    """The bands on edges of own pieces, which lie flat."""
    which = " and the ".join(named([band]) for band in bands)
    return f"<b>Work the {which} now</b>, before any seam is sewn."


def join_sewn(task: Task) -> str:
    """Which edges are sewn in a task, and how; then the ends of the bands that meet there."""
    assert task.sewing is not None
    one, other = task.edges
    return " ".join((f"{_folded(task.folded)}<b>Sew {esc(one)} to {esc(other)}</b>, "
                     f"{_HOW[task.sewing]}.{_from_fold(task)}",
                     *(_ends_sewn(task, band) for band in task.bands)))


def _folded(fold: Folded | None) -> str:
    """Where a piece is folded for a seam, and which side is outside."""
    if fold is None or fold.again:
        return ""
    return (f"<b>Fold the {esc(fold.title.lower())} across at {_marks('fold', fold.marked)} of row "
            f"counter {fold.row},</b> the knit side outside. ")


def _from_fold(task: Task) -> str:
    """Where either part of a folded edge lies, and how the seam goes at a hem; common practice, no
    source."""
    fold = task.folded
    if fold is None:
        return ""
    layers = " At the hem sew both layers together, as one." * fold.at_hem
    if fold.again:
        return f" Begin at the fold.{layers}"
    low, high = (esc(task.edges[side]) for side in fold.sides)
    hem = ", the hem's rows with it" * fold.at_hem
    return (f" {low[:1].upper()}{low[1:]} reaches from the lower edge to the fold{hem}; {high} "
            f"from the fold to {_marks('upper', fold.top_marked)} of row counter {fold.top}. Begin "
            "at the fold."
            f"{layers}")


def _marks(name: str, named: bool) -> str:
    return f"the {name} marks" if named else "the threads"


def _ends_sewn(task: Task, band: NamedBand) -> str:
    """What closes the ring of a band, where a join closes that of its edge."""
    end = f", with an end about {to_sew(band.end)} long" if band.end else ""
    how = ends_how([band]) + ", layer to layer" * (band.layers > 1)
    return (f"<b>Sew the ends of {'each' if task.each else 'the'} {named([band])} to each other,"
            f"</b> {how}{end}.")


def eased(join: Join) -> str:
    """Both sides of a declared join that differ: how often two of the longer side's are taken, and
    where."""
    (less, short), (more, long) = sorted(zip((join.one, join.other), join.sides, strict=True))
    rows = join.kindred is Kindred.ROWS
    few, many = (_amount(figure, rows=rows) for figure in (less, more))
    return (f"{esc(join.title[:1].upper() + join.title[1:])}: <b>{few}</b> on {esc(short)} and "
            f"<b>{many}</b> on {esc(long)}, the longer side: take two of its "
            f"{'bars' if rows else 'stitches'} together {_often(int(more - less), join.at_top)}")


def _often(times: int, at_top: bool) -> str:
    """How often, and where: a row more is the last one, below what is bound off a row later."""
    if times > 1:
        return f"{times_text(times)}, spread evenly"
    return "once, just below the bound-off stitches" if at_top else "once, in the middle"


def ends_held(joins: Sequence[Join]) -> str:
    """What else holds the end stitches of those that are bound off in a join, as an explanation; ""
    where nothing."""
    return "".join(dict.fromkeys(why(text) for join in joins if join.bound_off
                                 and (text := _ends_held(join.bound_off))))


def _ends_held(bound: BoundOff) -> str:
    many, html = f"{bound.stitches} bound-off stitches", []
    if bound.below:
        html.append(f"Of the {many} the outermost lies in the seam of the {esc(bound.below)} too"
                    + ("." if bound.above else f": sew all, {bound.stitches - 1} are seen."))
    if bound.above:
        spans = bound.stitches + 1 - bool(bound.below)
        end = "the innermost" if bound.below else f"the innermost of the {many}"
        html.append(f"The seam goes on to one stitch beyond {end}, to the seam of the "
                    f"{esc(bound.above)}: it spans {spans} stitches.")
    return " ".join(html)


def steps_sewn(joins: Sequence[Join]) -> str:
    """How a seam goes on from step to step of bound-off edges, and what becomes of the rows above
    the last step, as HTML after a space; "" where there are none (common practice, no source)."""
    html = []
    for join in joins:
        if join.stepped is None:
            continue
        if join.stepped.steps > 1:
            html.append(why(f"These edges were bound off in {join.stepped.steps} steps, each "
                            f"{counted(join.stepped.climb, 'row')} above the one before. At both "
                            "edges go straight on from the last stitch of a step to the first of "
                            "the next: the rows between them turn inside."))
        if any(join.stepped.above):
            one, other = (f"{counted(rows, 'row')} on {esc(side)}" for rows, side in zip(
                join.stepped.above, join.sides, strict=True))
            html.append(" <b>Then sew the rows above these stitches to each other,</b> edge to "
                        f"edge, up to the upper edge: {one} and {other}.")
    return "".join(html)


def _amount(figure: Fraction, *, rows: bool) -> str:
    return counted(int(figure), "row") if rows else stitches(int(figure))
