"""What the measures of forms and of bodies are, for the page about measures and its drawings."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

BODY: Mapping[str, str] = {
    "head": "Round the head, across the forehead, the tape snug.",
    "head_by_age": "The same, as the mean of an age, in charts for babies and children.",
    "neck": "Round the neck at its base.",
    "shoulder": "Along one shoulder, from the side of the neck to the shoulder's outer end.",
    "cross_back": "Across the back, from the outer end of one shoulder to that of the other.",
    "chest": "Round the fullest part of the chest or bust, under the arms, the tape not tight.",
    "waist": "Round the narrowest part, mostly just above the navel.",
    "hips": "Round the widest part of the hips.",
    "armhole_depth": "From the outer end of the shoulder straight down to the armpit.",
    "back_waist_length": "From the bone at the base of the neck down the back to the waist.",
    "back_hip_length": "From the bone at the base of the neck down the back to the hip.",
    "upper_arm": "Round the widest part of the arm above the elbow.",
    "wrist": "Round the wrist.",
    "arm_length": "From the armpit to the wrist, the arm slightly bent.",
    "neck_to_wrist": "From the bone at the base of the neck across the shoulder and along the "
                     "straight arm to the wrist.",
}
"""How a body measurement is taken, in the order of the drawing's letters."""

MEASURES: Mapping[str, str] = {
    "ease": "How much wider than the body the garment is, all round. Below zero it is narrower.",
    "chest_width": "The width of the back from side seam to side seam, below the armhole.",
    "hem_width": "The width of the back at its lower edge. Without it: as wide as the hip, or "
                 "else as the chest.",
    "hip_width": "The width of the back at the hip, where the sides begin to narrow or widen.",
    "hip_height": "From the lower edge to the hip, hem and all.",
    "waist_width": "The width of the back at the waist.",
    "waist_height": "From the lower edge to the waist, hem and all: to the lower end of what is "
                    "straight there.",
    "waist_straight": "How far the sides are straight at the waist.",
    "chest_height": "From the lower edge to where the sides are as wide as the chest. Without it "
                    "the last shaping ends one gap below the underarm.",
    "across": "The width of the back between the armholes, at the shoulders.",
    "body_length": "From the lower edge to the top of the shoulder or of the raglan, hem and all.",
    "shoulder_drop": "How far the shoulder falls from the neck to its outer end.",
    "neck_width": "The width of the neck at the top of the back.",
    "back_neck": "How deep the neck of the back is below the top of the shoulder. It is two rows "
                 "at least, and those of the shoulder's slope.",
    "front_neck": "How deep the neck of the front is below the top of the shoulder or the raglan. "
                  "With shoulders it has an even number of rows, at a front edge an odd one: 39 of "
                  "80 rows open at row 41.",
    "armhole": "From the underarm straight up to the outer end of the shoulder.",
    "upper_arm_width": "The width of the sleeve, lying open, at the underarm.",
    "cuff_width": "The width of the sleeve, lying open, at its lower edge.",
    "sleeve_length": "From the lower edge of the sleeve to the underarm, hem and all.",
    "cap_ease": "How much longer the edge of a sleeve's cap is than its armhole.",
    "sleeve_ease": "How much longer the top of a straight sleeve is than its armhole. Without it "
                   "the two are alike.",
    "armhole_straight": "How far the armhole is straight below the shoulder. Without it the "
                        "lowest third of the armhole is shaped.",
    "cap_height": "How high the cap of a sleeve is, from the underarm to its flat top. Without it "
                  "the height is found that fits the armhole.",
    "cap_top": "The width of the flat top of a sleeve's cap. Without it: a quarter of the "
               "sleeve's width.",
    "raglan_depth": "From the underarm straight up to the neck.",
    "underarm": "The width that is bound off at each underarm before a raglan begins.",
    "sleeve_top": "The width of a raglan's sleeve at the neck.",
    "saddle_width": "The width of the strap that lies over the shoulder.",
    "saddle_length": "How long that strap is, from the raglan to the neck.",
    "hat_width": "The width of the hat, lying open: the way round the head.",
    "hat_depth": "How deep the hat is from its brim, turned up if it is, to the top.",
    "turn_up": "How deep the brim is turned up.",
    "hat_length": "From the lower edge to the top, as the piece is knitted.",
    "crown": "How deep the part is that is gathered at the top.",
    "wingspan": "The long edge of the shawl.",
    "depth": "From the middle of the long edge to the tip.",
    "blanket_width": "Across all panels.",
    "blanket_length": "From the lower to the upper edge.",
    "panels": "How many panels there are: a number.",
    "hand_circumference": "Round the hand above the thumb. No chart has it: give your own.",
    "hand_length": "From the wrist to the tip of the middle finger. No chart has it.",
    "cuff_depth": "How deep the cuff is below the wrist.",
    "mitten_width": "The width of the hand's piece, lying open: the way round the hand.",
    "mitten_length": "From the lower edge of the cuff to the top, before this is drawn up.",
    "to_thumb": "From the lower edge of the cuff to the slit for the thumb.",
    "thumb_width": "The width of the thumb's piece, lying open: the way round the thumb.",
    "thumb_length": "How long the thumb is, from the slit. The row above its gathering is one of "
                    "its rows: 12 rows below that are 13.",
    "tip": "How deep the part is that is gathered at the fingertips.",
}
"""What a measure is, in the order of the drawings' numbers."""

NOT_DRAWN = ("ease", "cap_ease", "sleeve_ease", "panels", "hand_circumference")
"""Measures that are no line on a garment."""

WITH_BODY, WITH_SLEEVES = "every form with a body", "every form with sleeves"
FRONT, BACK = "from the front", "from the back"
PIECES = {"body": "body", "sides": "body with shaped sides", "sleeve": "sleeve",
          "raglan": "raglan and its sleeve",
          "saddle": "saddle raglan", "hat": "hat", "mitten": "mitten and its thumb",
          "shawl": "shawl", "blanket": "blanket"}


OF_BODY = "measurement of a body, in a size chart or under garment > body"
OF_GARMENT = "pattern.yaml: garment > measures"


def entry(name: str, mark: str, meaning: str, used: str) -> str:
    """A name with its mark on the drawing, meaning and users, as an entry of a list in Markdown."""
    shown = f" On the drawing: **{mark}**." if mark else ""
    return f"`{name}`\n:   {meaning}{shown}{used}\n"


def used_by(forms: Sequence[str], many: Mapping[str, Sequence[str]]) -> str:
    """Which forms use it; those of `many` are named together where all of them do."""
    if not forms:
        return " No form uses it by itself; your sums can."
    for name, those in many.items():
        if set(those) <= set(forms):
            more = [form for form in forms if form not in those]
            return f" Used by: {', '.join([name, *more])}."
    return f" Used by: {', '.join(forms)}."
