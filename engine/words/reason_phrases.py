"""The phrase for the reason of a step: "to the fold", "buttonhole 2"."""

from __future__ import annotations

from ..machine.reasons import Reason
from ..machine.steps import Step
from ..markup.html import esc

_PHRASES = {
    # Rows.
    Reason.TO_FOLD: "to the fold",
    Reason.FOLD_ROW: "the fold row, at the same dial",
    Reason.LOOSE_FOLD_ROW: "the fold row",
    Reason.TO_EYELETS: "to the eyelets",
    Reason.TO_CORD_EYELETS: "to the eyelets for the cord",
    Reason.TO_END_OF_HEM: "to the end of the hem",
    Reason.TO_JOIN_HEM: "to join the hem",
    Reason.TO_JOIN_RIB: "to join the rib",
    Reason.TO_BRING_CARRIAGE_BACK: "to bring the carriage back",
    Reason.OF_RIB: "of the rib",
    Reason.TO_END_OF_RIB: "to the end of the rib",
    Reason.TO_CLOSE_EDGE: "to close the edge",
    Reason.OF_WASTE_YARN: "of waste yarn",
    Reason.OF_RAVEL_CORD: "of ravel cord",
    Reason.TO_BUTTONHOLES: "to the buttonholes",
    Reason.TO_BUTTONHOLE: "to buttonhole {number}",
    Reason.TO_MARK: "to the next mark",
    Reason.FROM_FOLD_TO_BUTTONHOLES: "from the fold to the buttonholes' row",
    Reason.OVER_EMPTY_NEEDLES: "over the empty needles",
    Reason.TO_SLITS: "to the slits",
    Reason.OVER_FIRST_PART: "over the first part alone",
    Reason.OVER_PART: "over part {number} alone",
    Reason.OVER_ALL_PARTS: "over all parts",
    Reason.TO_FIRST_MITRE_PAIR: "to the mitre's first pair",
    Reason.TO_MITRE_PAIR: "to the mitre's next pair",
    Reason.TO_END_OF_SECOND_LAYER: "to the end of the second layer",
    Reason.TO_END_OF_INNER_LAYER: "to the end of the inner layer",
    Reason.TO_END_OF_BAND: "to the end of the band",
    Reason.TO_FACING_DEPTH: "to the facing's depth",
    Reason.TO_OUTER_EDGE: "to the outer edge",
    Reason.TO_FILL_PICOTS: "to fill the picots",
    Reason.AT_GARMENT_DIAL: "to begin the band",
    Reason.FIRST_OF_BAND: "to begin the band",
    Reason.AT_THIS_SETTING: "",  # the step before set the dial for these rows
    Reason.OVER_ALL: "over all stitches",
    Reason.OVER_THESE_TOO: "over the stitches now in work",
    Reason.PLAIN_OVER_ALL: "plain, over all stitches",
    Reason.OVER_LAST_DECREASES: "over the last decreases",
    Reason.ABOVE_GATHERING: "above the gathering",
    Reason.LOOSE_FOR_CHAIN: "very loose, for the chain",
    # Settings of the dial.
    Reason.FOR_FIRST_ROW: "for the first row",
    Reason.FOR_BAND: "for the band",
    Reason.FOR_PIECE: "for the piece",
    Reason.FOR_NEXT_ROW: "for the next row",
    Reason.FOR_NEXT_ROWS: "for the next {number} rows",
    Reason.FOR_LAST_ROW_ONLY: "for the last row only",
    Reason.FOR_FOLD_ROW: "very loose, for the fold row only",
    Reason.FOR_JOINING_ROW: "for the joining row only",
    Reason.FOR_SECOND_LAYER: "for the second layer",
    Reason.FOR_OTHER_LAYER: "for the other layer of the hem",
    Reason.FOR_OTHER_LAYER_OF_RIB: "for the other layer of the rib",
    Reason.FOR_FACING: "for the facing",
    Reason.FOR_ZIGZAG: "for the zigzag row",
    Reason.FOR_CLOSING_ROWS: "for the two rows that close the edge",
    Reason.TO_NARROW_TOP: "tighter, to narrow the top",
    Reason.FOR_GATHERING: "looser, for the gathering",
    Reason.TOWARDS_OUTER_EDGE: "towards the outer edge",
    Reason.TOWARDS_NECK: "towards the neck",
    # The row counter, a free pass, the carriage, the second bed.
    Reason.WHERE_DIVIDED: "where the work divided",
    Reason.WHERE_SLITS_BEGAN: "where the slits began",
    Reason.WHERE_NECK_BEGAN: "where the neck began",
    Reason.ROWS_OF_SIDES: "back from {number}: from here on it counts the rows of the sides",
    Reason.NO_ROW: "The free pass does not count as a row.",
    Reason.BEFORE_WASTE: "as before the waste yarn",
    Reason.TO_SIDE_OF_HALF: "to the side where this half begins",
    Reason.TO_SIDE_OF_QUARTER: "to the side where this quarter begins",
    Reason.TO_SIDE_OF_PARTS: "to the side where the other parts begin",
    Reason.TO_SIDE_OF_YARN: "This pass takes the carriage to the side where the yarn will hang.",
    Reason.TO_SIDE_WHERE_YARN_HANGS: "to the side where the yarn hangs",
    Reason.FOR_TUCK_ROWS: "for the rows that tuck",
    Reason.FOR_RIB: "for the rib",
    Reason.NEEDLE_FACES_NEEDLE: "so that needle faces needle",
    Reason.TO_SET_RIB: "to set the rib",
    # Needles into holding position and back.
    Reason.ALL_BUT_FIRST_HALF: "all except the half that you knit first",
    Reason.ALL_BUT_HALF_OF_NECK: "all except the first half and one stitch of the neck",
    Reason.SECOND_HALF_OF_NECK: "the second half and one stitch of the neck",
    Reason.FOR_NECK_ROW: "the whole neck",
    Reason.SECOND_HALF: "the second half",
    Reason.ALL_BUT_FIRST_QUARTER: "all quarters but the first",
    Reason.NEXT_QUARTER: "the next quarter",
    Reason.ALL_BUT_FIRST_PART: "all parts but the first",
    Reason.PART: "part {number}",
    Reason.FOR_ROWS_OVER_ALL: "for the rows over all",
    Reason.AT_LEFT: "at the left",
    Reason.AT_RIGHT: "at the right",
    Reason.FOR_LAST_ROW: "for the last row",
    Reason.FOR_LAST_ROW_BUT_ONE: "for the last row but one",
    Reason.FOR_SHORT_ROWS: "for the short rows",
    Reason.BACK_TO_SHORT_ROWS: "back to short rows",
    Reason.AWAY_FROM_CARRIAGE: "away from the carriage",
    # Stitches moved, needles filled.
    # Weights hung on again.
    # Ends of yarn, what comes off.
    Reason.FOOT_OF_PLACKET: "the foot of the placket",
    # What a step is about.
    Reason.BUTTONHOLE: "hole {number}",
    Reason.BAND: "band",
}


def reason_text(step: Step) -> str:
    """Return the phrase for a step's reason, as HTML; "" where it has none.

    Raises KeyError for a reason that only decides, and is nowhere said.
    """
    if step.reason is Reason.NONE:
        return ""
    return esc(_PHRASES[step.reason].format(number=step.number))


def reason_begun(step: Step) -> str:
    """Return the phrase with a capital letter, to begin a line with."""
    text = reason_text(step)
    return text[:1].upper() + text[1:]


# What is knitted first where the work divides, and for what the counter is then set back.
DIVIDES = {Reason.ALL_BUT_FIRST_HALF: ("half", "the second half"),
           Reason.ALL_BUT_HALF_OF_NECK: ("half", "the second half"),
           Reason.ALL_BUT_FIRST_QUARTER: ("quarter", "each of the others")}
