"""The order of work after knitting, in the words of the bands that a garment has."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from functools import reduce

from ..catalogue.bands import KINDS, BandKind
from ..catalogue.edges import EdgeRole, role_of
from ..catalogue.pockets import LEFT, ONE, PAIR, RIGHT
from ..pattern.model import Pattern
from .band_order import AROUND, FRONT_EDGES, NECK, PLACKET, ends_at_tops, upper_front

# The sentences of the forms that tell to work a band, or what of them does.
NECK_THEN_FRONTS = "the neckband, then the front bands"
NECK_ENDS = ", and sew the neckband's ends together, edge to edge"
OPEN_NECK = "Along the open neck work the neckband."  # where nothing waits without one
NECK_SEWN = "Back-stitch the stitches that wait at the neck, loosely, off their waste yarn."
ARMHOLES = "Work the armhole bands flat, then "
ENDS_TO_TOPS = ("Sew each end of the neckband to the top of the front band, where they meet at the "
                "foot of the V.")
ZIP = "Set in the zip, as its own section tells."
# Edges at the end of a piece, and the seam before which their band is worked.
LOWER = {"cuff": ("Sew each side seam", "Work the cuff band on each lower edge while its side seam "
                  "is open. The band's ends are sewn to each other in that seam."),
         "brim": ("Sew the back seam", "Work the brim band on the lower edge while the back seam "
                  "is open. The band's ends are sewn to each other in that seam."),
         "hem": ("Sew the left side",
                 "Work the hem band on the lower edge while the left side is open. The band's ends "
                 "are sewn to each other in that seam.")}


def say_making_up(pattern: Pattern, sentences: Sequence[str]) -> tuple[str, ...]:
    """Return a form's order of work with the bands that this garment has, and with no others.

    Stitches that wait for a neckband which is not there are sewn off by hand.
    """
    bands = {band.garment_edge: KINDS[band.kind] for band in pattern.bands.values()}
    words, names = _words(pattern, bands), _names(pattern)
    told = [said for sentence in sentences for said in _with_bands(pattern, bands, sentence)]
    worded = (reduce(lambda said, pair: said.replace(*pair), words, sentence) for sentence in told)
    return tuple(_NAMED.sub(lambda found: names.get(found[0], found[0]), sentence)
                 for sentence in worded)


# What the sentences of the forms call a band, by its edges.
_CALLED = {"front and neckband": (AROUND,), "neckband": (NECK,), "front band": FRONT_EDGES,
           "armhole band": ("armhole", "right_armhole", "left_armhole"), "placket band": (PLACKET,),
           "pocket top": (PAIR, ONE, RIGHT, LEFT), "cuff band": ("cuff",), "brim band": ("brim",),
           "hem band": ("hem",)}
_NAMED = re.compile("|".join(f"{name}s?" for name in _CALLED))


def _names(pattern: Pattern) -> dict[str, str]:
    """A band's name in the sentences, and its plural: the title that its section has."""
    out: dict[str, str] = {}
    for name, edges in _CALLED.items():
        titles = [_inside(band.title) for band in pattern.bands.values()
                  if band.garment_edge in edges]
        if titles:
            out[name] = " or ".join(titles)
            out[f"{name}s"] = f"{titles[0]}s" if len(titles) == 1 else " and the ".join(titles)
    return out


def _inside(title: str) -> str:
    """A title as it stands inside a sentence: "front band", but "V-neck band"."""
    return title if title[1:2].isupper() or title[1:2] == "-" else title[:1].lower() + title[1:]


def _with_bands(pattern: Pattern, bands: Mapping[str, BandKind], sentence: str) -> Iterator[str]:
    """A form's sentence, less the bands that are not there, with what comes before or after."""
    yield from (said for edge, (seam, said) in LOWER.items()
                if edge in bands and sentence.startswith(seam))
    if NECK_THEN_FRONTS in sentence:
        yield from _opened(pattern, bands, sentence)
    elif sentence.startswith("Work the neckband") and NECK not in bands:
        yield NECK_SEWN
    elif sentence == OPEN_NECK and NECK not in bands:
        return
    elif sentence.startswith(ARMHOLES):
        yield _armholes(bands, sentence.removeprefix(ARMHOLES))
    else:
        yield sentence if NECK in bands else sentence.replace(NECK_ENDS, "")


def _opened(pattern: Pattern, bands: Mapping[str, BandKind], sentence: str) -> Iterator[str]:
    """The bands of a garment that opens at the front, and the zip between them."""
    if not bands.keys() & {NECK, AROUND}:
        yield NECK_SEWN
    if bands.keys() & {NECK, AROUND, *FRONT_EDGES}:
        yield sentence
    neck = bands.get(NECK)
    if neck and bands.keys() & set(FRONT_EDGES) and neck.stands and not neck.meets \
            and ends_at_tops(pattern):
        yield ENDS_TO_TOPS
    if any(band.zip for band in pattern.bands.values()):
        yield ZIP


def _armholes(bands: Mapping[str, BandKind], seams: str) -> str:
    """The side seams, which close the ends of the armholes' bands where there are any."""
    if not any(role_of(edge) is EdgeRole.ARMHOLE for edge in bands):
        return f"{seams[:1].upper()}{seams[1:].partition(',')[0].removesuffix('.')}."
    return f"{ARMHOLES}{seams}"


def _words(pattern: Pattern, bands: Mapping[str, BandKind]) -> list[tuple[str, str]]:
    """What is said instead of what, in turn."""
    neck, around = bands.get(NECK), bands.get(AROUND)
    words = []
    if around:
        words.append((NECK_THEN_FRONTS, "the front and neckband"))
    elif not bands.keys() & set(FRONT_EDGES):
        words.append((NECK_THEN_FRONTS, "the neckband"))
    elif not neck:
        words.append((NECK_THEN_FRONTS, "the front bands"))
    if neck and neck.meets:
        words += [(NECK_THEN_FRONTS,
                   "the front bands, then the neckband over half of the top of each"),
                  ("all of the top of each placket band", "half of the top of each placket band")]
    slit = next((b for b in pattern.bands.values() if b.garment_edge == PLACKET), None)
    if slit and slit.buttonholes is None:
        words.append(("the band with the buttonholes on top",
                      f"the {upper_front(pattern.wearer).value} band on top"))
    return words
