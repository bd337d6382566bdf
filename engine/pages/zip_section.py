"""The section on a zip: its length, its stay, how it is set in so that nothing stretches."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..catalogue.bands import KINDS
from ..core.counts import decimal
from ..core.units import Length
from ..markup.html import anchor, block, esc, heading, items, link
from ..plan.band import BandPlan
from ..plan.zips import Zip, zip_for


def zip_anchor(plan: BandPlan) -> str:
    """The id of the section on a band's zip."""
    return f"{anchor(plan.band.key)}-zip"


def zip_of(plan: BandPlan) -> Zip | None:
    """The zip of a band as it will be knitted; None where it has none."""
    if plan.band.zip is None:
        return None
    return zip_for(Length(plan.stitches.value * plan.gauge.stitch), plan.band.zip)


def zip_entries(plans: Sequence[BandPlan]) -> list[tuple[str, str]]:
    """The zips' lines in the list of contents."""
    return [(f"#{zip_anchor(plan)}", f"{plan.band.title}, zip") for plan in plans if plan.band.zip]


def zip_notions(plans: Sequence[BandPlan]) -> Iterator[str]:
    """What a zip asks for."""
    for plan in plans:
        if found := zip_of(plan):
            cut = ", or a longer one to be cut" if plan.band.zip and plan.band.zip.cut else ""
            yield (f"<strong>Zip:</strong> one that comes apart, {found.length}{cut}; ribbon for "
                   f"its stay, {found.stay}; sewing thread and needle")


def zip_section(plan: BandPlan) -> str:
    """Return heading and steps; "" for a band without a zip."""
    found = zip_of(plan)
    if found is None:
        return ""
    lead = (f"<p>Both fronts are {found.opening} along their bands, the zip is <b>{found.length}"
            f"</b>: {Length(found.opening.mm - found.length.mm).in_cm()} of edge, "
            f"{decimal(found.eased * 100, 1)} %, are eased in. "
            f"{link('../../bands/zip.html', 'About edges for a zip')}.</p>")
    return heading(2, f"{plan.band.title}, zip", zip_anchor(plan)) + block(
        f"{lead}\n{items(_steps(plan, found), 'wb-steps', 'ol')}")


def _steps(plan: BandPlan, found: Zip) -> Iterator[str]:
    half = Length(found.stay.mm / 2)
    yield "Block both fronts and their bands to the same length, and let them dry."
    if plan.band.zip and plan.band.zip.cut:
        yield (f"Cut the zip at its upper end to {esc(str(found.length))} and a finger's breadth, "
               "and sew across the teeth by hand as a new stop, before you cut.")
    yield (f"Cut the ribbon in two, {esc(str(half))} each. Mark the ribbon, both tapes of the zip "
           "and both front edges at their halves, quarters and eighths.")
    # The rows of a band that stands out from the front run along the zip; a facing is turned in,
    # and the front's own edge is left.
    stands = KINDS[plan.band.kind].stands
    edges, by = ("bands", "stitch by stitch") if stands else ("front edges", "row by row")
    yield (f"Tack the two {edges} together edge to edge, {by} from the hem. Pin the closed zip "
           "behind them mark on mark, from the hem to the top, the edge eased in between the marks "
           "and never stretched; tack it.")
    yield ("Take out the first tacking. Open and close the zip: no yarn may catch, no front may "
           "wave.")
    along = (("a row in from the edge, along one row of the band", "stitch") if stands else
             ("a stitch in from the edge, along one column", "row"))
    yield (f"Sew it in by hand with back stitch, {along[0]}, a stitch of sewing into every second "
           f"{along[1]}.")
    yield ("Lay the ribbon over each tape, mark on mark, and sew it down along both its sides: it "
           "keeps the edge from stretching. Turn in the ends of tape and ribbon.")
    yield "At the throat sew a short piece of ribbon over the end of the zip: it must not pinch."
