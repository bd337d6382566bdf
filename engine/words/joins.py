"""Words for the making up: how shoulders lie, and what both sides of a join have."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from ..catalogue.methods import GRAFT
from ..core.counts import Unit, decimal, tenth
from ..core.inches import in_parts
from ..core.units import Length
from ..machine.steps import Side
from ..markup.html import esc
from ..proof.yarn_ends import SEAM
from ..shape.bars import Bars, CapTop, Uneven
from ..shape.garment import Join, Kindred
from ..shape.tasks import Seam
from .declared import eased
from .terms.join_names import worn_at
from .words import counted, joined, plural, stitches

_HOW_MANY = ("no", "one", "two", "three", "four", "five", "six")
SEAM_YARN = ("Where a step names no yarn, sew with the pieces' yarn. Take an end "
             f"{_HOW_MANY[SEAM]} times as long as the seam, and a hand's length more at either "
             "end.")


def counted_back(*, marked: bool, corded: bool, labelled: bool, drawn: bool) -> str:
    """What is counted at the very end: pins of the seams, cords of hems, openings and strips until
    the last of them is drawn out, labels and waste yarn of stitches that waited, and threads that
    mark edges until the seams are sewn. A cord that is `drawn` into the hem stays."""
    what = ["pin that you used", *["cord"] * corded, *["label"] * labelled,
            *["strip of waste yarn"] * (corded or labelled),
            *["thread that you tied into an edge"] * marked]
    stays = "Nothing but the cord drawn through the hem" if drawn else "Nothing"
    every = joined(f"every {one}" for one in what)
    return f"<b>Count everything back in:</b> {every}. {stays} may stay in the work."


def shoulders_worn(joins: Sequence[Join]) -> str:
    """Which shoulder lay where, and how two pieces lie when their shoulders meet."""
    text = ("Shoulders are named as they are worn: right is the wearer's right. On the bed the "
            "inside of the fabric faced you. So the right of the bed was the right shoulder of a "
            "front, but the left shoulder of the back.")
    shoulders = [join for join in joins if join.seam is Seam.SHOULDER]
    if not shoulders:
        return text
    lay = ("knit side up and head to head" if all(j.method == GRAFT.name for j in shoulders) else
           "with their knit sides together")
    return f"{text} Lay two pieces {lay}, and the shoulders with the same name meet."


def raglans_worn() -> str:
    """Whose left the back's open raglan seam is named by, and where that lay."""
    return ("Raglan seams are named as they are worn: left is the wearer's left. On the bed the "
            "inside of the fabric faced you. So the right of the bed was the left of the back.")


def fronts_worn() -> str:
    """Whose right the fronts of a garment without shoulder seams are named by."""
    return "Fronts are named as they are worn: the right front is at the wearer's right."


def joins_text(joins: Sequence[Join]) -> Iterator[str]:
    """Yield a line for each join, and one more for the top of a sleeve cap."""
    for join in joins:
        yield from _lines(join)
        if join.top:
            yield _top_text(join.top, join.other - join.one)


def _lines(join: Join) -> Iterator[str]:
    """The lines of a join, two where it has other rows at either side of the wearer."""
    uneven = join.uneven
    if not uneven or not uneven.later:
        yield join_text(join)
        return
    title = join_title(join)
    for side, rows in uneven.by_side[:1 if join.side else 2]:
        yield (f"{title}, where the {esc(uneven.edges[0])} lay at the {side.value} of the bed: "
               f"{_uneven_text(rows)}")


def join_title(join: Join) -> str:
    """What a line of a join begins with, as HTML: counts.json has the right armhole, where both
    differ, under the name of both."""
    title = join.title
    if join.seam is Seam.ARMHOLE and join.side is Side.RIGHT:
        title = worn_at(join.side.value, title)
    return esc(title[:1].upper() + title[1:])


def join_text(join: Join) -> str:
    """Both sides of a join: "Side seam, right front and back: 66 rows on either side". Where rows
    meet stitches, how many of each, and how they are shared out."""
    title = join_title(join)
    if join.bars:
        return f"{title}: {_bars_text(join.bars)}"
    if join.uneven:
        return f"{title}: {_uneven_text(join.uneven)}"
    (less, short), (more, long) = sorted(zip((join.one, join.other), join.sides, strict=True))
    one, other = _amount(join, less), _amount(join, more)
    if one == other:
        held = ", one of them in the raglan seam" * (join.seam is Seam.STRAP)
        return f"{title}: <b>{one}</b> on either side{held}"
    if join.seam is Seam.DECLARED and join.kindred is not Kindred.LENGTH:
        return eased(join)
    if join.kindred is Kindred.ROWS:
        return (f"{title}: <b>{one}</b> on {short} and <b>{other}</b> on {long}. "
                f"Just {'above' if join.seam is Seam.RAGLAN else 'below'} the underarm "
                "take two bars of this longer edge together once")
    if join.kindred is not Kindred.LENGTH:
        return f"{title}: <b>{one}</b> on {short} and <b>{other}</b> on {long}"
    cm, inches = _difference(less, more)
    if not cm:
        return f"{title}: <b>{Length(less)}</b> on either side"
    if more - less < 1:
        return (f"{title}: <b>{one}</b> on {short} and <b>{other}</b> on {long}, less than 1 mm "
                "apart: there is nothing to ease")
    difference = f"the difference of {decimal(cm, 1)} cm ({inches})"
    spread = (f"ease {difference} into the upper third of the cap's edge"
              if join.ease > 0 and join.other > join.one else f"spread {difference} evenly")
    return (f"{title}: <b>{one}</b> on {short} and <b>{other}</b> on {long}, the longer side; "
            f"{spread}")


def _top_text(top: CapTop, apart: Fraction) -> str:
    """Where a cap's slope ends and its bound-off top begins, and how that is sewn to the rows;
    which share of the ease lies there, where the edges are so far `apart` [mm]."""
    eased, text = Length(top.eased), ""
    if tenth(eased.cm) > 0 and eased.printed_inches():
        rest = ", at the left armhole all of it" * top.takes_all or (
            ", the rest just below" * (tenth(apart / 10) > tenth(eased.cm)))
        text = f" {eased.in_cm()} ({eased.in_inches()}) of the ease goes in here{rest}."
    return (f"Top of the cap: {_bars_text(top.bars, has_stitch_edge=True)}.{text} Pin both ends "
            f"{counted(top.rows, 'row')} from the shoulder seam, {Length(top.reach).in_cm()} "
            f"({Length(top.reach).in_inches()})")


def _bars_text(bars: Bars, *, has_stitch_edge: bool = False) -> str:
    """How many stitches there are to how many rows, and how many bars each of them takes. A title
    that names both edges is not repeated: the figures stand in the order of its edges. Nor is one
    that `has_stitch_edge`, the edge of the stitches alone."""
    wales, courses = f"<b>{stitches(bars.stitches)}</b>", f"<b>{counted(bars.rows, 'row')}</b>"
    if bars.first is None:
        of = "" if has_stitch_edge else f" of the {bars.stitch_edge}"
        text = f"{wales}{of} to {courses} of the {bars.row_edge}"
    else:
        text = " to ".join((wales, courses)[::1 if bars.first is Unit.STITCHES else -1])
    if bars.rows == bars.stitches:
        return f"{text}: one bar to each stitch"
    taker, taken = ("stitch", "bar") if bars.rows > bars.stitches else ("bar", "stitch")
    return f"{text}: {shared_text(bars.shares, taker, taken)}"


def _uneven_text(uneven: Uneven) -> str:
    """How many rows, or stitches, of either edge there are, and how they are shared out."""
    noun, taker = ("row", "bar") if uneven.counted is Unit.ROWS else ("stitch", "stitch")
    (less, edge), (more, other) = uneven.fewer, uneven.more
    if less == more:
        return f"<b>{counted(less, noun)}</b> on either side"
    return (f"<b>{counted(less, noun)}</b> of the {esc(edge)} to <b>{counted(more, noun)}</b> of "
            f"the {esc(other)}: {shared_text(uneven.shares, taker, taker)}")


def shared_text(shares: Sequence[tuple[int, int]], taker: str, taken: str) -> str:
    """How many take how many each."""
    if len(shares) == 1:
        return f"join each {taker} to {_several(shares[0][1], taken)}"
    (few, one), (more, other) = shares
    return (f"join {counted(few, taker)} to {_several(one, taken)}{' each' * (few > 1)}, {more} to "
            f"{_small(other)}{' each' * (more > 1)}, spread evenly")


def _several(number: int, noun: str) -> str:
    """A small number with its noun: "two bars"."""
    return f"{_small(number)} {noun if number == 1 else plural(noun)}"


def _small(number: int) -> str:
    """A small number in a word."""
    return _HOW_MANY[number] if number < len(_HOW_MANY) else str(number)


def _difference(less: Fraction, more: Fraction) -> tuple[Fraction, str]:
    """How much more one side has, by the figures that are printed: [cm], and in inches."""
    long, short = Length(more), Length(less)
    inches = long.printed_inches() - short.printed_inches()
    text = in_parts(inches) if inches else "less than ⅛ in"
    return tenth(long.cm) - tenth(short.cm), text


def _amount(join: Join, figure: Fraction) -> str:
    if join.kindred is Kindred.LENGTH:
        return f"{Length(figure).in_cm()} ({Length(figure).in_inches()})"
    if join.kindred is Kindred.STITCHES:
        return stitches(int(figure))
    return counted(int(figure), "row")
