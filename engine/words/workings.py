"""Words for the section that says how everything was counted: what its sums are called."""

from __future__ import annotations

from collections import Counter

from ..core.counted import Count
from ..core.counts import Unit
from ..core.note_arguments import Noted
from ..core.operands import Note
from ..core.units import Length
from ..machine.steps import Dial
from ..pattern.edges import Offer
from ..plan.band import BandPlan
from ..plan.buttonholes import Placing
from ..plan.graded import OuterEdge
from ..plan.pickup import LARGEST_CYCLE, PickUp
from ..sizing.measure_text import PLACES
from ..sizing.quantities import Quantity
from .buttonhole_text import holes_name
from .figure_text import LABELS, given_up, holes_fill
from .terms.working import length_working
from .words import counted, stitches

JOINED_EDGES = "Edges that are joined"
SUMS = "Finished measures, and how they are calculated"
MEASURES = "Measures, and what they come from"
PER_ROW = "stitches per row"
AS_EDGE = "as the edge has"


def all_counts(title: str) -> str:
    """The counts of a piece or band that open together."""
    return f"{title}: all its counts"


def working_label(name: str) -> str:
    """The label of the working of one figure."""
    return f"Working: {name}"


def ratio_label(pick: PickUp, offer: Offer = Offer.ROWS) -> str:
    """At what ratio a band takes rows of its edge, or stitches where it has these alone."""
    if offer is not Offer.ROWS:
        return (f"Stitches for stitches of the edge: {pick.ratio.numerator} for "
                f"{stitches(pick.ratio.denominator)}")
    return (f"Stitches for rows of the edge: {pick.ratio.numerator} for every "
            f"{counted(pick.ratio.denominator, 'row')}")


def ratio_working(pick: PickUp, offer: Offer = Offer.ROWS) -> str:
    """How that ratio was found, and how it lies along the edge."""
    if offer is not Offer.ROWS:
        alike = pick.stitches == pick.edge_rows
        return (f"{stitches(pick.stitches)} for {stitches(pick.edge_rows)}. "
                + ("Take every stitch once." if alike else "Take them as the hanging table says."))
    return (f"{pick.stitches} stitches for {pick.edge_rows} rows; the nearest ratio with at "
            f"most {LARGEST_CYCLE} rows. {rows_taken(pick)}")


def rows_taken(pick: PickUp, place: str = "row") -> str:
    """Which rows of an edge are taken, one after the other; or which stitches or places, where a
    `place` is called so."""
    if pick.stitches >= pick.edge_rows:
        twice = pick.stitches - pick.edge_rows
        return (f"Take every {place} once." if not twice else
                f"Take every {place}; {twice} of them twice, spread as the table says.")
    if 0 in pick.runs:
        return (f"Take about {pick.ratio.numerator} of every "
                f"{counted(pick.ratio.denominator, place)}, as the table says.")
    first, *inner, last = pick.runs
    times = Counter(inner)
    middle = "; ".join(
        f"{counted(run, place)} and miss 1, {n} times" if n > 1 else
        f"{counted(run, place)}, miss 1" for run, n in sorted(times.items(), reverse=True))
    mixed = ", mixed evenly" if len(times) > 1 else ""
    then = f"then take {middle}{mixed}; " if inner else ""
    return f"Take {counted(first, place)}, miss 1; {then}end with {counted(last, place)}."


def holes_lie(plan: BandPlan) -> str:
    """The label of where a band's holes lie."""
    return f"Where the {holes_name(plan)} lie"


def holes_lie_working(placing: Placing, unit: Unit) -> str:
    """The stitches or rows along a band with holes, and what was given up to place them."""
    return (f"{holes_fill(placing, unit)}: before the first, in the holes, between them, "
            f"after the last. What had to be changed: {given_up(placing, unit)}.")


def edge_stitches_label(number: int) -> str:
    """How many stitches an edge has that has no rows."""
    return f"Stitches of the edge: {stitches(number)}"


def counted_label(label: str, counted: str, made: object) -> str:
    """A figure and what it comes to; an edge with rows and stitches by both."""
    if isinstance(made, Noted) and made.note is Note.AND_STITCHES:
        return f"{label.replace(LABELS['edge_rows'], 'Edge')}: {counted} and stitches"
    return f"{label}: {counted}"


def as_counted(counted: str, working: str) -> str:
    """The working of a figure, or whose it is where it is a count of the edge and no sum."""
    return AS_EDGE if working == counted else working


def of_band_label(section: str, count: Count) -> str:
    """How many stitches or rows of a band lie along a section of its edge."""
    return f"Band {count.unit.value} along the {section}: {count}"


def of_edge_label(section: str, rows: int) -> str:
    """How many rows a section of an edge has."""
    return f"Rows of the {section}: {counted(rows, 'row')}"


def measure_label(name: str, quantity: Quantity) -> str:
    """A measure and what it comes to, a length in both units: "Ease, 10.16 cm (4 in)"."""
    inches = f" ({quantity.length.in_inches(PLACES)})" if quantity.is_length else ""
    return f"{name}, {quantity}{inches}"


def length_label(length: Length) -> str:
    """The finished length of a band."""
    return f"Finished length: {length}"


def depth_label(depth: Length) -> str:
    """The finished depth of a band."""
    return f"Finished depth: {depth}"


def behind_label(depth: Length) -> str:
    """The finished depth of a collar behind the neck."""
    return f"Finished depth behind the neck: {depth}"


def outer_label(dial: Dial, made: OuterEdge | None) -> str:
    """About how long an outer edge is at another dial than the swatch's."""
    length = f"about {Length(made.made.value)}" if made else "not swatched"
    return f"Outer edge, at dial {dial}: {length}"


def outer_working(own: Dial, dial: Dial, made: OuterEdge | None, other: str = "") -> str:
    """How that was found, by the swatch of the `other` fabric, and what the rest of the band is
    counted by."""
    counted_at = f"The band is counted at dial {own}, that of its swatch."
    if made is None:
        return f"{counted_at} Knit a swatch at dial {dial} to know how long this edge is."
    return (f"{length_working(made.made)}. {counted_at} What a number is worth is the "
            f"difference to the swatch of {other}, at dial {made.other.dial}: "
            f"knit one at dial {dial} to be sure.")
