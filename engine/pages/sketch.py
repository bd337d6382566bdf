"""The garment's sketch as a file, for lists, where the page would be too heavy with all of them."""

from __future__ import annotations

from ..drawings.garment_sketch import View, drawings_of
from ..drawings.schematic import outlines
from ..machine.records import dataclass
from ..proof.proof import Proof

FILE = "sketch.svg"
_SPACE = "http://www.w3.org/2000/svg"
# A picture knows nothing of the page that shows it: it has its inks and the device's scheme in it,
# and the rules of assets/garment.css (tests/laws/test_lists.py holds the two together).
_STYLE = (
    "<style>svg{--wb-ink:#18202c;--wb-paper:#f5f2e8;--y:#a9bdba;--f:#809192;--s:#f1da8f}"
    "svg{--p:var(--wb-paper)}svg,.wb-clear,.wb-pale{--wb-pen:var(--wb-ink)}.wb-deep{--wb-pen:var(--wb-paper)}"
    "@media(prefers-color-scheme:dark){"
    "svg{--wb-ink:#ede8db;--wb-paper:#12161d;--y:#3f5a58;--f:#324747;--s:#c9a63c}"
    ".wb-deep{--wb-pen:var(--wb-ink)}.wb-pale{--wb-pen:var(--wb-paper)}"
    "svg{--p:var(--wb-yarn-far,var(--f))}}"
    "path,circle{fill:none;stroke:none;stroke-linejoin:round;vector-effect:non-scaling-stroke}"
    "pattern path{vector-effect:none}"
    ".wb-fill{fill:var(--wb-yarn,var(--y))}.wb-far{fill:var(--wb-yarn-far,var(--f))}"
    ".wb-second{fill:var(--wb-second,var(--s))}.wb-third{fill:var(--wb-third,#c98d7b)}"
    ".wb-fourth{fill:var(--wb-fourth,#6f7f9a)}.wb-fifth{fill:var(--wb-fifth,#8b9a6b)}"
    ".wb-sixth{fill:var(--wb-sixth,#b9a1b5)}"
    ".wb-outline,.wb-seam,.wb-hole,.wb-button{stroke:var(--wb-pen);stroke-width:1.25}"
    ".wb-outline{stroke-width:1.75}.wb-seam{stroke-width:1}.wb-hem{stroke-dasharray:6 4}"
    ".wb-texture,.wb-mark{stroke:var(--wb-pen);stroke-opacity:.5}.wb-texture{stroke-width:.65}"
    ".wb-hole,.wb-button{fill:var(--wb-paper)}.wb-deep .wb-button{fill:var(--wb-yarn-far,var(--f))}"
    ".wb-pale .wb-button{fill:var(--p)}"
    ".wb-body{stroke:var(--wb-pen);stroke-dasharray:2 3;stroke-width:1.25}"
    ".wb-teeth{stroke-dasharray:2 1.5;stroke-width:2.5}</style>")


@dataclass(frozen=True, slots=True)
class Sketch:
    """The front of a garment in its middle size: an SVG file, its width and height [units]."""

    svg: str
    wide: int
    tall: int
    file: str = FILE


def sketch_of(proof: Proof) -> Sketch | None:
    """Return the sketch of a pattern's garment; None where it has none."""
    sample = proof.sizes[len(proof.sizes) // 2]
    drawn = drawings_of(proof.pattern, sample,
                        outlines(proof.pattern.garment, proof.pattern.fabrics, sample),
                        views=(View.FRONT,), titled=False)
    for drawing in drawn:
        return Sketch(drawing.svg(head=_STYLE, space=_SPACE), drawing.wide, drawing.tall)
    return None
