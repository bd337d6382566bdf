"""How a garment is laid out to be drawn: everything that no count decides, each with its reason.

All else in a sketch comes from the pieces. Directions are the sides of right-angled triangles in
whole numbers, so that a length laid along them stays as long as it is. Every one of these is our
own convention; no source.
"""

from __future__ import annotations

from fractions import Fraction

Way = tuple[Fraction, Fraction]  # a direction of length 1, to the right and up


def _way(right: int, up: int, along: int) -> Way:
    return Fraction(right, along), Fraction(up, along)


# A sleeve lies 46 degrees below the level: steep enough that two garments stand side by side on a
# card, flat enough that its underside is seen from the cuff nearly up to the armhole.
SLEEVE_HANGS = _way(20, -21, 29)
# A cap is bent where it leaves the shoulder: the shoulder's line runs on so far, and then turns.
CAP_BEND = 2000  # [hundredths of a mm] of every cap
CAP_BEND_SHARE = Fraction(12, 100)  # and of the cap's own height
DROP_BEND = 1200  # of a sleeve set on straight, which has no cap
BEND_SOFT = Fraction(3, 2)  # how far beyond the bend the turn is felt, in lengths of the bend
# A neckband leans towards the neck: at the shoulder most of its depth goes inward, little upward.
NECKBAND_LEANS = _way(-35, 12, 37)
# A collar that stands goes up more than inward.
STAND_LEANS = _way(-3, 4, 5)
# A collar that falls rises a third of its depth behind the neck, and falls over from there.
COLLAR_STANDS = Fraction(1, 3)
COLLAR_FALLS = _way(15, -8, 17)  # down the shoulder
POINT_FALLS = _way(20, -21, 29)  # the end of a shirt collar, away from the middle
# A band that rolls is seen as a roll a third as deep as it is knitted.
ROLL = Fraction(1, 3)
# The crown of a hat, drawn up, is a dome: it begins below the gathered rows and is flat on top.
CROWN_FROM = Fraction(19, 10)  # where the sides begin to lean in, in heights of the gathered top
# Along an edge that is rounded, no corner is felt further than this.
ROUND_REACH = 9000
# A step of stitches bound off, or of rows between them, that is shorter is pulled smooth once the
# edge is sewn or a band is worked on it: the edge runs through the middle of such steps.
STEP = 3000
# Of a slope of small steps only what is further off than this is drawn.
FLATTEN = 250
# Buttons are as wide as the source says; no line lies nearer to another than this, so that ribs
# closer together are drawn every second one.
CLOSEST = 550
# A hairline across a band stands for every second of its stitches.
BAND_HAIRS = 2
MARGIN = 1200  # round the whole drawing, room for its thickest line
