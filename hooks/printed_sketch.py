"""Sketches and patches of fabric for a library that applies no style sheet within a drawing.

What `assets/garment.css` and `assets/fabric.css` say of each class is written into the drawing as
attributes, for white paper. Lines there are so thick at the width of a sheet, and scale with it.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

SHEET = 640  # about how wide a drawing is on a sheet of A4 [px]
PAPER, INK = "#fff", "#000"
TONES = {"yarn": "#a9bdba", "yarn-far": "#798886", "second": "#f1da8f", "third": "#c98d7b",
         "fourth": "#6f7f9a", "fifth": "#8b9a6b", "sixth": "#b9a1b5"}
_DRAWING = re.compile(r'<svg class="wb-(?:garment|fabric)\b.*?</svg>', re.DOTALL)
_TAG = re.compile(r"<(/?)(svg|g|a|path|circle|ellipse)\b([^>]*?)(/?)>")
_CLASS = re.compile(r'\sclass=(?:"([^"]*)"|([\w-]+))')  # a built page leaves quotes out
_TONE = re.compile(rf"--wb-({'|'.join(sorted(TONES, reverse=True))}):(#[0-9a-f]{{6}})")
_WIDE = re.compile(r'viewBox="\S+ \S+ (\d+)')
# For each class: its fill, its line's tone, how thick [px], in what dashes [px].
FILLS: Mapping[str, str] = {"wb-fill": "yarn", "wb-far": "yarn-far", "wb-second": "second",
                            "wb-third": "third", "wb-fourth": "fourth", "wb-fifth": "fifth",
                            "wb-sixth": "sixth", "wb-hole": "paper", "wb-button": "paper"}
LINES: Mapping[str, tuple[str, float]] = {
    "wb-outline": ("pen", 1.75), "wb-seam": ("pen", 1), "wb-texture": ("pen", 0.65),
    "wb-hole": ("pen", 1.25), "wb-button": ("pen", 1.25), "wb-body": ("pen", 1.25),
    "wb-teeth": ("pen", 2.5), "wb-mark": ("pen", 0), "wb-loop": ("yarn", 0),
    "wb-under": ("yarn-far", 0), "wb-loop-second": ("second", 0)}
DASHES: Mapping[str, tuple[float, ...]] = {"wb-hem": (6, 4), "wb-teeth": (2, 1.5),
                                           "wb-body": (2, 3)}
FAINT = {"wb-texture", "wb-mark"}
LOOP, UNDER = 30, 44  # in a patch, in its own units


@dataclass(frozen=True, slots=True)
class _Worn:
    """The tones that hold for a part of a drawing, of paper and ink, and its units to the pixel."""

    tones: Mapping[str, str]
    ground: tuple[str, str]
    unit: float

    def of(self, attributes: str) -> _Worn:
        """What holds within an element with these attributes."""
        found = dict(_TONE.findall(attributes))
        if not found and "wb-deep" not in attributes:
            return self
        deep = "wb-deep" in attributes
        return replace(self, tones={**self.tones, **found, "pen": self.ground[not deep],
                                    "button": "yarn-far" if deep else "paper"})


def inked(article: str, paper: str = PAPER, ink: str = INK) -> str:
    """Return an article with every sketch and every patch in its colours, on paper in ink."""
    return _DRAWING.sub(lambda found: "".join(_written(found[0], paper, ink)), article)


def _written(drawing: str, paper: str, ink: str) -> Iterator[str]:
    wide = _WIDE.search(drawing)
    plain = _Worn({**TONES, "paper": paper, "pen": ink, "button": "paper"}, (paper, ink),
                  (int(wide[1]) if wide else SHEET) / SHEET)
    worn, at = [plain], 0
    for tag in _TAG.finditer(drawing):
        yield drawing[at:tag.start()]
        at = tag.end()
        closes, name, attributes, alone = tag.groups()
        if name in ("svg", "g", "a"):
            worn = worn[:-1] if closes else [*worn, worn[-1].of(attributes)]
            yield tag[0]
        else:
            yield f"<{name}{_painted(attributes, worn[-1])}{alone}>"
    yield drawing[at:]


def _painted(attributes: str, worn: _Worn) -> str:
    """The attributes of a line, with what its classes say."""
    found = _CLASS.search(attributes)
    classes = (found[1] or found[2]).split() if found else []
    fill = next((FILLS[one] for one in classes if one in FILLS), "")
    fill = worn.tones["button"] if "wb-button" in classes else fill
    drawn = "" if "style=" in attributes else f' fill="{worn.tones[fill] if fill else "none"}"'
    lines = [LINES[one] for one in classes if one in LINES]
    if lines:
        tone, thick = lines[-1]
        drawn += f' stroke="{worn.tones[tone]}" stroke-linejoin="round"'
        drawn += f' stroke-width="{thick * worn.unit:.2f}"' if thick else ""
    if "wb-loop" in classes and "stroke-width" not in attributes:
        drawn += f' stroke-width="{LOOP}"'
    if "wb-under" in classes:
        drawn += f' stroke-width="{UNDER}"'
    for one in classes:
        if one in DASHES:
            dashes = " ".join(f"{far * worn.unit:.2f}" for far in DASHES[one])
            drawn += f' stroke-dasharray="{dashes}"'
    faint = ' stroke-opacity="0.5"' if FAINT & set(classes) else ""
    return f"{attributes}{drawn}{faint}"
