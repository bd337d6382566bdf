"""Words for a zip: what to buy, and how it is set in so that nothing stretches."""

from __future__ import annotations

from collections.abc import Iterator

from ..core.counts import decimal
from ..core.units import Length
from ..markup.html import esc, link
from ..plan.zips import THROAT, Zip


def zip_title(band: str) -> str:
    """The heading of a band's zip."""
    return f"{band}, zip"


def zip_to_buy(found: Zip, *, cut: bool) -> str:
    """The entry of the materials; a zip that may be `cut` may be a longer one."""
    longer = ", or a longer one to be cut" if cut else ""
    return (f"<strong>Zip:</strong> one that comes apart, {found.length}{longer}; ribbon for "
            f"its stay and the throat, {found.ribbon}; sewing thread and needle")


def zip_eased(found: Zip) -> str:
    """How long fronts and zip are, and how much is eased in, as HTML."""
    return (f"<p>Both fronts are {found.opening} along their bands, the zip is <b>{found.length}"
            f"</b>: {Length(found.opening.mm - found.length.mm)} of edge, "
            f"{decimal(found.eased * 100, 1)} %, are eased in. "
            f"{link('../../bands/zip.html', 'About edges for a zip')}.</p>")


def zip_steps(found: Zip, *, cut: bool, stands: bool) -> Iterator[str]:
    """How a zip is set in, a step each: it may have to be `cut`, and its bands may `stand` out from
    the fronts."""
    half = Length(found.stay.mm / 2)
    yield "Block both fronts and their bands to the same length, and let them dry."
    if cut:
        yield (f"Sew across the zip's teeth by hand as a new stop, {esc(str(found.length))} above "
               "its lower end. Then cut the zip a finger's breadth above the stop.")
    yield (f"Cut {esc(str(Length(THROAT)))} off the ribbon, for the throat. Cut the rest in two, "
           f"{esc(str(half))} each. Mark the long pieces, both tapes of the zip "
           "and both front edges at their halves, quarters and eighths.")
    # The rows of a band that stands out from the front run along the zip; a facing is turned in,
    # and the front's own edge is left.
    edges, by = ("bands", "stitch by stitch") if stands else ("front edges", "row by row")
    yield (f"Tack the two {edges} together edge to edge, {by} from the hem. Pin the closed zip "
           "behind them mark on mark, from the hem to the top. Ease the edge in between the marks, "
           "and never stretch it. Tack the zip.")
    yield ("Take out the first tacking. Open and close the zip: no yarn may catch, no front may "
           "wave.")
    along = (("a row in from the edge, along one row of the band", "stitch") if stands else
             ("a stitch in from the edge, along one column", "row"))
    yield (f"Sew it in by hand with back stitch, {along[0]}, a stitch of sewing into every second "
           f"{along[1]}.")
    yield ("Lay the ribbon over each tape, mark on mark, and sew it down along both its sides: it "
           "keeps the edge from stretching. Turn in the ends of tape and ribbon.")
    yield ("At the throat sew the short piece of ribbon over the top end of the zip, so that the "
           "zip does not pinch the skin.")
