"""What a step of a program does, and with what, by keys: pages print the words for each."""

from __future__ import annotations

from enum import StrEnum, auto

from .members import Members


class CastOnMethod(Members):
    """How loops are laid on empty needles."""

    BY_HAND = auto()  # leaves its needles fully forward
    LATCH_CHAIN = auto()
    PEG_CHAIN = auto()
    WASTE_START = auto()


class BindOffMethod(Members):
    """How stitches are bound off."""

    STITCH_OVER = auto()
    GATE_PEGS = auto()
    TWO_GATE_PEGS = auto()
    LATCH_CHAIN = auto()
    CHAINED = auto()  # the stitches are drawn through each other, without yarn


class StepYarn(StrEnum):
    """Which yarn a step uses, by what it is for in a piece or band; the designer's names are not in
    steps."""

    NONE = ""
    MAIN = "main-yarn"  # that of the fabric
    SECOND = "second-yarn"  # those of stripes, in the order in which they are first knitted
    THIRD = "third-yarn"
    FOURTH = "fourth-yarn"
    FIFTH = "fifth-yarn"
    SIXTH = "sixth-yarn"
    CONTRAST = "contrast-yarn"
    FACING = "facing-yarn"
    WASTE = "waste-yarn"
    RAVEL_CORD = "ravel-cord"
    HOLE_CORD = "hole-cord"
    POCKET_CORD = "pocket-cord"


STRIPE_YARNS = (StepYarn.SECOND, StepYarn.THIRD, StepYarn.FOURTH, StepYarn.FIFTH, StepYarn.SIXTH)


class Topic(StrEnum):
    """What the knitter's hands and eyes attend to; `words/hands.py` has the words for each."""

    CHOOSE_HOLES = "choose holes"
    CLIP_ENDS = "clip ends"
    FOLD_UP = "fold up"
    LOOK_AT_HOLES = "look at holes"
    CLOTH = "cloth"
    MARK_EDGES = "mark edges"
    MARK_NECK = "mark neck"
    SEW_FACING = "sew facing"
    LEAVE_FACING = "leave facing"
    SEW_OFF = "sew off"
    WASTE_END = "waste end"
    SEW_ENDS = "sew ends"
    JOIN_PARTS = "join parts"
    DARN_IN = "darn in"
    SEW_BUTTONS = "sew buttons"
    COUNT_BACK = "count back"
    CHOOSE_SLITS = "choose slits"
    SEW_SLITS = "sew slits"
    JOIN_SLITS = "join slits"
    OVERCAST_HOLES = "overcast holes"
    SEW_ROUND_HOLES = "sew round holes"
    MARK_LOOPS = "mark loops"
    MAKE_LOOPS = "make loops"
    CHOOSE_EYELETS = "choose eyelets"
    OVERCAST_CORD_EYELETS = "overcast cord eyelets"
    LEAVE_ENDS = "leave ends"
    NEEDLES_FORWARD = "needles forward"
    DOUBLED_FORWARD = "doubled forward"
    MARK_QUARTER = "mark quarter"
    MARK_BUTTON = "mark button"
    JOIN_HOLES = "join holes"
    SEW_ON_BAND = "sew on band"


MARKING = frozenset({Topic.CLIP_ENDS, Topic.MARK_LOOPS, Topic.CHOOSE_SLITS, Topic.MARK_QUARTER,
                     Topic.MARK_BUTTON})
