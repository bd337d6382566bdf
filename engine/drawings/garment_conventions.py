"""How a garment is laid out to be drawn: everything that no count decides, each with its reason.

All else in a sketch comes from the pieces. Directions are the sides of right-angled triangles in
whole numbers, so that a length laid along them stays as long as it is. Every one of these is our
own convention; no source.
"""

from __future__ import annotations

from fractions import Fraction

Direction = tuple[Fraction, Fraction]  # a direction of length 1, to the right and up


def _direction(right: int, up: int, along: int) -> Direction:
    return Fraction(right, along), Fraction(up, along)


# A sleeve lies 46 degrees below the level: steep enough that two garments stand side by side on a
# card, flat enough that its underside is seen from the cuff nearly up to the armhole.
SLEEVE_HANGS = _direction(20, -21, 29)
# A cap is bent where it leaves the shoulder: the shoulder's line runs on so far, and then turns.
CAP_BEND = 2000  # [hundredths of a mm] of every cap
CAP_BEND_SHARE = Fraction(12, 100)  # and of the cap's own height
DROP_BEND = 1200  # of a sleeve set on straight, which has no cap
BEND_SOFT = Fraction(3, 2)  # how far beyond the bend the turn is felt, in lengths of the bend
# A raglan's sleeve is sewn flat to the body down to the underarm, and hangs from there; the turn
# is felt so far.
YOKE_BEND = 12_000
STRAP_BEND = 6_000  # where a saddle's strap leaves the shoulder
# Under each arm a sleeve draws two folds into the body: from the side inward and down, in shares
# of the body's half width and of the armhole's depth below the underarm.
FOLDS = (((93, 6), (86, 18), (84, 34)), ((98, 17), (94, 30), (93, 47)))  # hundredths
# A neckband leans towards the neck: at the shoulder most of its depth goes inward, little upward.
NECKBAND_LEANS = _direction(-35, 12, 37)
NECK_LEFT = Fraction(1, 3)  # of the neck's width: so much of it a band leaves open at least
# A collar that stands goes up more than inward.
STAND_LEANS = _direction(-3, 4, 5)
# A collar that falls rises a third of its depth behind the neck, and falls over from there.
COLLAR_STANDS = Fraction(1, 3)
COLLAR_FALLS = _direction(15, -8, 17)  # down the shoulder
POINT_FALLS = _direction(20, -21, 29)  # the end of a shirt collar, away from the middle
# A band that rolls is seen as a roll a third as deep as it is knitted.
ROLL = Fraction(1, 3)
# The crown of a hat, drawn up, is a dome: the sides begin to lean in below the gathered rows.
CROWN_FROM = Fraction(19, 10)  # how deep the dome is, in heights of the gathered rows
TIP_FROM = Fraction(11, 5)  # the same of a mitten's tip, which has less to gather
DOME_SHOULDER = Fraction(9, 20)  # where it is bent most, down from its top, of its depth
DOME_TOP = Fraction(3, 5)  # and inward, of half its width
DOME_SIDE = Fraction(19, 20)  # how wide the dome is where the gathering begins, of its width
BRIM_OUT = 300  # a brim lies over the side, and so looks a little wider
THUMB_STANDS = _direction(3, 4, 5)  # away from the hand, and up
PAIR_APART = 2000  # between two mittens
PIECES_APART = 3000  # between own pieces, which lie side by side
SHAWL_ROWS = 8  # every so many rows of a shawl are drawn
# Of the edge that a band is worked on, where there is no garment, so much is drawn.
EDGE_SEEN = Fraction(3, 2)  # of the band's depth
EDGES_APART = 1500  # between two bands
STITCHES_APART = 250  # the hairlines of such a band, one for every stitch, are no nearer than this
HOLE_HIGH = Fraction(1, 9)  # half of how far a buttonhole stands open, of the band's depth
PICOT_RISE = Fraction(2, 5)  # how far a picot stands out, of its width
ROUND = 100_000  # a reach that takes in the whole of both lines beside a corner
BODY_SIDE = 6000  # how far the corners of a body's outline are rounded
# Along an edge that is rounded, no corner is felt further than this.
ROUND_REACH = 9000
# A step of stitches bound off, or of rows between them, that is shorter is pulled smooth once the
# edge is sewn or a band is worked on it: the edge runs through the middle of such steps.
STEP = 3000
# Of a slope of small steps only what is further off than this is drawn.
FLATTEN = 200
# Buttons are as wide as the source says; no line lies nearer to another than this, so that ribs
# closer together are drawn every second one.
CLOSEST = 550
# A hairline across a band stands for every second of its stitches.
BAND_HAIRS = 2
HAIRS_APART = 1000  # and no nearer than this
HAIR_SHARE = Fraction(1, 5)  # of the depth of a front band, whose hairlines begin at one edge
MARGIN = 1200  # round the whole drawing, room for its thickest line
