"""The measures of every form: what each is by default, by what the size chart has.

A measure is a sum of the chart's rows and of other measures, as a source would write it.
"""

from __future__ import annotations

from collections.abc import Mapping

from ..core.text_kinds import FindingText, Formulas, FormulaText
from ..machine.records import dataclass
from ..words.terms.body_length_names import HAND_LONG, HAND_ROUND


@dataclass(frozen=True, slots=True)
class Optional:
    """A measure that a form takes and does not need: without it the piece is as it is without.

    Where one of the `beside` is given it has a usual `sum`, or none; without any of them nothing
    uses it. With nothing `beside` it stands alone.
    """

    sum: FormulaText = ""
    beside: tuple[str, ...] = ()


# Sums to take before a measure's usual one, the best first.
Better = Mapping[str, tuple[FormulaText, ...]]

# A child's neck must pass the head (machine-knitting teachers' common practice). A knitted neck
# gives a third over its length (over_head.STRETCH). Round necks are 2.9 times as long as they
# are wide or longer, those of a saddle raglan 3.4, of a boat neck knitted sideways 2: measured on
# the forms. So wide, a neck passes the largest head of its size with a stitch or two to spare.
# A head by age is a mean one, and the chart's head the middle of a range: hence two shares.
HEADS = ("head", "head_by_age")
# A men's chart has the hip, not the waist. A deeper armhole takes some of the length; common
# practice, no source.
TO_THE_HIP: Better = {"body_length": ("back_waist_length * 1.35",
                                       "back_hip_length - 6 cm + armhole_depth / 2")}


def over_head(usual: FormulaText, share: str, by_age: str) -> Better:
    """Return the width of a closed neck: the usual one, but wide enough for the chart's head."""
    return {"neck_width": (f"max({usual}, head * {share}, head_by_age * {by_age})",
                           f"max({usual}, head * {share})")}


def to_the_wrist(above: FormulaText) -> Better:
    """Return the length of a sleeve to the underarm; the garment takes `above` off the whole way.

    Midway between the arm below the armpit and what the way from the neck to the wrist leaves:
    the garment's underarm lies lower than the body's, and charts give larger sizes longer arms
    than bodies have. The second sum of the two is less for babies alone, whose charts have arms
    that are long for their way. Common practice, no source for the shares.
    """
    return {"sleeve_length": (f"min((arm_length + neck_to_wrist - {above}) / 2, "
                              f"neck_to_wrist * 1.1 - 2.2 cm - {above})",)}


EASE = {"ease": "8 cm"}
COMMON: Formulas = {
    "chest_width": "(chest + ease) / 2",
    "across": "cross_back",
    "body_length": "back_waist_length * 1.35",
    "shoulder_drop": "2 cm",
    "back_neck": "2 cm",
    "front_neck": "neck_width * 0.45",
    "cuff_width": "upper_arm_width * 0.62",
}
# The sides below the armhole or raglan, straight where no width is given. The waist of a garment
# lies as deep below its shoulders as the body's below the neck; about an inch is straight there
# (Sandi Wiseheart, "Waist shaping: from waist on up", 2008). The hip a quarter of the way up to the
# waist: common practice, no source.
WIDTHS = ("hem_width", "hip_width", "waist_width")
SIDES: Mapping[str, Optional] = {
    "hem_width": Optional(),
    "hip_width": Optional(),
    "hip_height": Optional("(body_length - back_waist_length) / 4", ("hip_width",)),
    "waist_width": Optional(),
    "waist_height": Optional("body_length - back_waist_length", ("waist_width",)),
    "waist_straight": Optional("2.5 cm", ("waist_width",)),
    "chest_height": Optional("", WIDTHS),
}
SET_IN: Formulas = {
    **COMMON,
    "armhole": "armhole_depth + 2 cm",
    "neck_width": "across * 0.42",
    "shoulder_drop": "3 cm",
    "back_neck": "3 cm",
    # Less ease for thin arms: a baby's armhole has no room for 5 cm (common practice).
    "upper_arm_width": "min(upper_arm + 5 cm, upper_arm * 1.2)",
    "sleeve_length": "arm_length",
    "cap_ease": "1 cm",
}
SET_IN_BETTER = to_the_wrist("across / 2 - armhole * 0.66")  # the cap: 0.54 to 0.79 of the armhole
# What only a garment with sleeves is cut from.
OF_SLEEVES = ("cuff_width", "upper_arm_width", "sleeve_length", "cap_ease")
DROP: Formulas = {
    **COMMON,
    "armhole": "armhole_depth + 4 cm",
    "neck_width": "across * 0.45",
    "upper_arm_width": "armhole * 2",
    "sleeve_length": "neck_to_wrist - chest_width / 2 - 2 cm",
}
HALVES: Formulas = {"armhole": "upper_arm_width"}  # of a sleeve set on straight
# What an armhole and a cap follow where it is given; else they follow from the counts.
ARMHOLE: Mapping[str, Optional] = {"armhole_straight": Optional()}
CAP: Mapping[str, Optional] = {"cap_height": Optional(), "cap_top": Optional()}
SLEEVE_EASE = "sleeve_ease"  # how much longer a straight sleeve's top is than its armhole
SET_ON: Mapping[str, Optional] = {SLEEVE_EASE: Optional()}
CHEST: Mapping[str, FindingText] = {"ease": "chest_width is given"}
ON_STRAIGHT: Mapping[str, FindingText] = {
    "upper_arm_width": "armhole is given, and the sleeve's top is twice as wide"}

RAGLAN: Formulas = {
    "chest_width": "(chest + ease) / 2",
    "body_length": "back_waist_length * 1.35",
    "raglan_depth": "armhole_depth + 4 cm",
    "underarm": "chest_width * 0.04",
    "neck_width": "cross_back * 0.42",
    "front_neck": "neck_width * 0.35",
    "sleeve_top": "neck_width * 0.25",
    "upper_arm_width": "upper_arm + 5 cm",
    "cuff_width": "upper_arm_width * 0.62",
    "sleeve_length": "arm_length",
}
RAGLAN_BETTER = to_the_wrist("neck_width / 2 - sleeve_top / 2 - raglan_depth")

# Shares of the back: common practice, no source.
SADDLE: Formulas = {
    "chest_width": "(chest + ease) / 2",
    "body_length": "back_waist_length * 1.35",
    "neck_width": "cross_back * 0.42",
    "saddle_width": "cross_back * 0.2",
    "saddle_length": "(cross_back - neck_width) / 3",
    "raglan_depth": "armhole_depth + 4 cm - saddle_width / 2",
    "underarm": "chest_width * 0.04",
    "front_neck": "neck_width * 0.35",
    "upper_arm_width": "upper_arm + 5 cm",
    "cuff_width": "upper_arm_width * 0.62",
    "sleeve_length": "arm_length",
}
SADDLE_BETTER = to_the_wrist("neck_width / 2 - saddle_length - raglan_depth")

SIDEWAYS: Formulas = {
    "chest_width": "(chest + ease) / 2",
    "body_length": "back_waist_length * 1.35",
    "armhole": "armhole_depth + 4 cm",
    # A boat neck has no depth, so that it must be wide; common practice, no source.
    "neck_width": "cross_back * 0.75",
    "cuff_width": "upper_arm_width * 0.62",
    "upper_arm_width": "armhole * 2",
    "sleeve_length": "neck_to_wrist - chest_width / 2 - 2 cm",
}
SIDEWAYS_FOLLOWED: Mapping[str, FindingText] = {
    "ease": "chest_width is given",
    "upper_arm_width": "armhole is given, and the sleeve's top is twice as wide"}

# Negative ease of 2 cm: common practice, no source. Half the way over the crown is about 0.32 of
# the head (woman 13 to 15 in over a head of 21 to 23.5 in: Martha Stewart's head sizes); it
# ends above the ears, 3 cm cover them (common practice).
HAT: Formulas = {
    "hat_width": "head - 2 cm",
    "hat_depth": "head * 0.32 + 3 cm",
    "turn_up": "0 cm",
    "hat_length": "hat_depth + turn_up",
    "crown": "hat_depth / 6",
}
HAT_FOLLOWED: Mapping[str, FindingText] = {"hat_depth": "hat_length and crown are given"}

SHAWL: Formulas = {  # own values, no source; the tip has a right angle
    "wingspan": "120 cm",
    "depth": "wingspan / 2",
}

BLANKET: Formulas = {  # a lap blanket; own values, no source
    "blanket_width": "90 cm",
    "blanket_length": "120 cm",
    "panels": "3",
}

# A woman's hand, in no chart here: own values. Shares and ease: common practice, no source.
# A top that is drawn up closes over the fingertips: it takes some of the length. A ladies' mitten
# for mid-gauge machines has 56 rows above its cuff at 7 to the inch, 20.3 cm, and a thumb of 18
# rows, 6.5 cm (clearwaterknits.com, "Mittens for mid-gauge machines", W3-117).
MITTEN: Formulas = {
    "hand_circumference": "19 cm",
    "hand_length": "18 cm",
    "cuff_depth": "6 cm",
    "mitten_width": "hand_circumference + 1 cm",
    "mitten_length": "cuff_depth + hand_length + 2 cm",
    "to_thumb": "cuff_depth + hand_length * 0.3",
    "thumb_width": "hand_circumference * 0.4",
    "thumb_length": "hand_length / 3 + 0.5 cm",
    "tip": "1.5 cm",
}
HAND: Mapping[str, tuple[str, str]] = {
    "hand_circumference": (HAND_ROUND, "hand"),
    "hand_length": (HAND_LONG, "")}
MITTEN_FOLLOWED: Mapping[str, FindingText] = {
    "hand_circumference": "mitten_width and thumb_width are given",
    "hand_length": "mitten_length, to_thumb and thumb_length are given",
    "cuff_depth": "mitten_length and to_thumb are given"}


def followed(*, set_in: bool, sleeves: bool) -> Mapping[str, FindingText]:
    """Return the measures that only others follow, with what the pieces are cut by."""
    if set_in:
        return CHEST
    return {**CHEST, **(ON_STRAIGHT if sleeves else {}),
            "across": "neck_width is given, and the body is as wide as its chest up to the "
                      "shoulders"}


def shaping(*, set_in: bool, sleeves: bool) -> Mapping[str, Optional]:
    """Return the measures of the shaping of a garment with shoulders, none of them needed."""
    if not set_in:
        return SET_ON if sleeves else {}
    return {**ARMHOLE, **(CAP if sleeves else {})}
