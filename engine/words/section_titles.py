"""The title of a section of a program: "First layer", "Last rows of the second layer"."""

from __future__ import annotations

from ..machine.headings import Heading
from ..machine.programs import ProgramSection
from ..machine.steps import Side
from ..proof.proof import KnittedPiece, Work

_TITLES = {
    Heading.CAST_ON: "Cast on",
    Heading.HEM: "Hem",
    Heading.RIB: "Rib",
    Heading.HANGING: "Hanging the edge",
    Heading.BODY: "Body",
    Heading.FIRST_ROWS: "First rows",
    Heading.TAIL: "Shirt tail",
    Heading.TO_BUST: "Up to the bust darts",
    Heading.BUST: "Bust darts",
    Heading.TO_SHORT_ROWS: "Up to the short rows",
    Heading.TO_TOP: "To the top",
    Heading.ENDING: "Ending",
    Heading.CHART: "Stitch pattern",
    Heading.LAST_ROW: "Last row",
    Heading.SLIT: "Slit",
    Heading.NECK_OPENING: "Neck opening",
    Heading.NECK: "Neck",
    Heading.WASTE_START: "Waste yarn and ravel cord",
    Heading.FIRST_LAYER: "First layer",
    Heading.FOLD: "Fold",
    Heading.SECOND_LAYER: "Second layer",
    Heading.CLOSING_BUTTONHOLES: "Closing the buttonholes",
    Heading.LAST_ROWS: "Last rows",
    Heading.CLOSING_AROUND: "Closing the band around the edge",
    Heading.BY_HAND: "Finishing by hand",
    Heading.JOINING_ROW: "Joining row",
    Heading.FACING: "Facing",
    Heading.SEWING_DOWN: "Sewing down",
    Heading.CLOSING_INSIDE: "Closing the band inside",
    Heading.BINDING_OFF: "Binding off",
    Heading.ANOTHER_FABRIC: "Another fabric",
    Heading.COLLAR: "Collar",
    Heading.OVER_ALL: "Rows over all stitches",
    Heading.LAST_ROWS_BEHIND: "Last rows of the second layer",
    Heading.SHORT_ROWS_BEHIND: "Short rows of the second layer",
    Heading.SHORT_ROWS: "Short rows",
    Heading.OUTER_LAYER: "Outer layer",
    Heading.INNER_LAYER: "Inner layer",
    Heading.BAND: "Band",
    Heading.QUARTERS: "Crown in quarters",
    Heading.FIRST_QUARTER: "First quarter",
    Heading.SECOND_QUARTER: "Second quarter",
    Heading.THIRD_QUARTER: "Third quarter",
    Heading.LAST_QUARTER: "Last quarter",
}


def title_of(section: ProgramSection, work: Work) -> str:
    """Return the title of a section of a band's or a piece's program."""
    if section.heading is Heading.HALF and isinstance(work, KnittedPiece):
        return _half_title(section, work)
    if section.heading is Heading.TO_TOP and isinstance(work, KnittedPiece) \
            and work.piece.bound_off_to is not None:
        return "To the tip"  # of a shawl, all of whose stitches come to be bound off at its sides
    return _TITLES[section.heading]


def _half_title(section: ProgramSection, work: KnittedPiece) -> str:
    """What a half is called: by its side of the bed, and by what it is as worn.

    The inside of the fabric faces the knitter: a back is turned about, a front is not.
    """
    assert section.side is not None
    piece, side = work.piece, section.side
    first = section.side is (Side.LEFT if piece.mirrored else Side.RIGHT)
    worn = piece.halves_worn[0 if first else 1] if piece.halves_worn else \
        f"{(side.other if piece.key == 'back' else side).value} half"
    return f"{worn.capitalize()} as worn, the bed's {side.value} half"
