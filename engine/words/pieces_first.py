"""Words for the pieces that a band is tried on: cast on, knitted straight, ended as it is hung."""

from __future__ import annotations

from ..catalogue.ways import BY_HAND, STITCH_OVER, WASTE_ON, WASTE_ROWS, Way
from ..machine.needles import centred
from ..machine.steps import Dial
from ..markup.html import esc, link
from ..pattern.edges import Offer
from .words import counted, dial_said, needles_said, stitches

TECHNIQUES = "../../techniques/"
WEIGHTS = "Hang the weights as soon as the first rows hold. Keep your feet clear: weights drop."


def piece_said(wide: int, rows: int, offer: Offer, *, yarn: str, dial: Dial, label: str,
               plain: bool) -> str:
    """How a piece of so many stitches and rows is knitted, an instruction a sentence.

    Its edge is hung as `offer` says. In a fabric that is not `plain` the stitches lie on the
    needles of its swatch.
    """
    on = WASTE_ON if offer is Offer.ABOVE_CORD else BY_HAND
    where = f" ({needles_said(centred(wide))})" if plain else ""
    like = "" if plain else ", as you knitted its swatch"
    return (f"Set the dial to {dial_said(dial)}. Cast on {stitches(wide)}{where} {_way(on)}, with "
            f"{esc(yarn)}. Set the row counter to 0. Knit {counted(rows, 'row')}{like}. "
            f"{_ended(wide, offer, label)}")


def _way(way: Way) -> str:
    return link(f"{TECHNIQUES}{way.page}", esc(way.said))


def _ended(wide: int, offer: Offer, label: str) -> str:
    if offer is Offer.WAITING:
        return (f"Cut the yarn. Knit about {counted(WASTE_ROWS, 'row')} of waste yarn over the "
                f"{stitches(wide)}. Take the weights off. Take the work off the needles. Label it "
                f"<b>{esc(label)}</b>.")
    return f"Take the weights off. Bind off all {stitches(wide)} {_way(STITCH_OVER)}."
