"""Words for the pieces that a band is tried on: cast on, knitted straight, ended as it is hung."""

from __future__ import annotations

from ..catalogue.methods import BY_HAND, STITCH_OVER, WASTE_ON, WASTE_ROWS, Method
from ..machine.needles import centred
from ..machine.steps import Dial
from ..markup.html import esc, link
from ..pattern.edges import Offer
from .cut_lengths import TAIL
from .words import counted, dial_text, needles_text, stitches

TECHNIQUES = "../../techniques/"
WEIGHTS = "Keep your feet clear: weights drop. After two or three rows hang the weights."
HEADING = "Pieces to knit first"
LEAD = ("<p><strong>The bands are hung on pieces that these steps do not knit.</strong> Knit "
        "the pieces first. Each band takes a separate edge, and no edge can be used twice. "
        "An edge of a garment with the same count will do as well. The yarn of the pieces, and "
        "of their swatch, is not in the amounts of this page. Begin each with an empty bed and "
        "the carriage on the right: bring the needles to working position, and thread the yarn "
        f"there. Bind off from the carriage's side. Cut the yarn, {TAIL}, and "
        "draw the tail through the last loop. Wash each piece, pin it out flat and let it dry: "
        f"its edges curl. {WEIGHTS}</p>\n")


def pieces_listed(number: int, to: str) -> str:
    """The entry of the materials; its link leads `to` the section on the pieces."""
    which = "it" if number == 1 else "them"
    return (f"<strong>{counted(number, 'piece').capitalize()} to hang the bands on:</strong> "
            f"{link(to, f'knit {which} first')}")


def mass_text(grams: int, *, several: bool) -> str:
    """What the piece or pieces of a band take of their yarn."""
    who = "Together they take" if several else "It takes"
    return f" {who} about {grams} g."


def side_taken(*, fronts: int) -> str:
    """Which side edges of a piece the bands of one front or of two take."""
    if fronts > 1:
        return (" The cast-on edge is the hem. Lay the piece knit side up, the hem towards you. "
                "The right front's band takes the side edge at your right, the left front's the "
                "other.")
    return " The band takes one of its side edges. The cast-on edge is the hem."


def piece_text(wide: int, rows: int, offer: Offer, *, yarn: str, dial: Dial, label: str,
               plain: bool) -> str:
    """How a piece of so many stitches and rows is knitted, an instruction a sentence.

    Its edge is hung as `offer` says. In a fabric that is not `plain` the stitches lie on the
    needles of its swatch.
    """
    on = WASTE_ON if offer is Offer.ABOVE_CORD else BY_HAND
    where = f" ({needles_text(centred(wide))})" if plain else ""
    like = "" if plain else ", as you knitted its swatch"
    return (f"Set the dial to {dial_text(dial)}. Cast on {stitches(wide)}{where} "
            f"{_method_link(on)}, with {esc(yarn)}. Set the row counter to 0. Knit "
            f"{counted(rows, 'row')}{like}. {_ended(wide, offer, label)}")


def _method_link(method: Method) -> str:
    return link(f"{TECHNIQUES}{method.page}", esc(method.phrase))


_LIGHT = "Keep your feet clear, and take the weights off."


def _ended(wide: int, offer: Offer, label: str) -> str:
    if offer is Offer.WAITING:
        return (f"Cut the yarn. Knit about {counted(WASTE_ROWS, 'row')} of waste yarn over the "
                f"{stitches(wide)}. {_LIGHT} Take the work off the needles. Label it "
                f"<b>{esc(label)}</b>.")
    return f"{_LIGHT} Bind off all {stitches(wide)} {_method_link(STITCH_OVER)}."
