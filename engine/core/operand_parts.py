"""Which of a garment's stitches or rows an operand of a calculation counts."""

from __future__ import annotations

from ..machine.members import Members


class FixedHole(Members):
    """A buttonhole that takes just so many stitches."""

    EYELET = "eyelet"
    ONE_STITCH = "one stitch"
    SLIT = "slit"
    TWO_STITCHES = "two stitches"


class PartRole(Members):
    """Where the stitches or rows of an operand lie, or what becomes of them."""

    ABOVE_GATHERING = "above gathering"
    ABOVE_IT = "above it"
    ABOVE_SHAPING = "above shaping"
    ABOVE_SLOPE = "above slope"
    ACROSS = "across"
    ALONG_SHOULDER = "along shoulder"
    AT_CENTRE = "at centre"
    AT_CHEST = "at chest"
    AT_EDGES = "at edges"
    AT_LEFT = "at left"
    AT_RIGHT = "at right"
    AT_TOP = "at top"
    BEFORE_THESE = "before these"
    BELOW_RAGLAN = "below raglan"
    BELOW_SHOULDER = "below shoulder"
    BETWEEN_SHAPED_ROWS = "between shaped rows"
    BETWEEN_STEPS = "between steps"
    BOUND_OFF = "bound off"
    CAST_ON = "cast on"
    HELD_AT_SIDE = "held at side"
    OF_ARMHOLE = "of armhole"
    OF_ARMHOLES = "of armholes"
    OF_ARMHOLE_SLOPE = "of armhole slope"
    OF_A_FRONT = "of a front"
    OF_CROWN = "of crown"
    OF_EDGE = "of edge"
    OF_ENDS = "of ends"
    OF_FRONT_NECK = "of front neck"
    OF_HEM = "of hem"
    OF_NECK = "of neck"
    OF_PLACKET = "of placket"
    OF_RAGLAN = "of raglan"
    OF_RIB = "of rib"
    OF_SHOULDER = "of shoulder"
    OF_SLIT = "of slit"
    OF_STITCHES = "of stitches"
    OF_THE_HEM = "of the hem"
    OF_THUMB = "of thumb"
    ONE_FOR_ONE = "one for one"
    OVER_LAST_DECREASES = "over last decreases"
    ROUND_HEM = "round hem"
    THERE = "there"
    TO_ARMHOLE = "to armhole"
    WITH_LADDER = "with ladder"
