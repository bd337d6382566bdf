"""The colour of a sketch: the yarn's own, and lines that stand out from it."""

from __future__ import annotations

from collections.abc import Mapping

from ..core.colours import contrast, parts, written
from ..fabric.piece_fabrics import piece_fabric
from ..pattern.fabrics import Materials, Yarn
from ..pattern.model import Band, GarmentSpec
from ..shape.striping import step_yarns

# The ink of a page, on its paper and in the dark: --wb-ink in site_src/assets/walebook.css.
INK, LIGHT_INK = "#18202c", "#ede8db"
LEAST = 3  # WCAG 2.2, 1.4.11: a line stands out from what it lies on
SHADE = 28  # the far side of a neck is at most so much darker [%], or lighter


# The tones of the yarns beside a piece's own: of a chart's second colour, and of stripes.
OTHER_TONES = ("second", "third", "fourth", "fifth", "sixth")


def clothed(yarn: Yarn, *others: Yarn | None) -> str:
    """Return the attribute that gives a drawing the colour of its yarn, "" where it has none.

    The `others` are the yarns of the second colour or of stripes, in their order.
    """
    style = yarn_style(yarn, *others)
    return f' style="{style}"' if style else ""


def yarn_style(yarn: Yarn, *others: Yarn | None) -> str:
    """Return the properties with the colours of `clothed`."""
    own = [f"--wb-yarn:{yarn.colour}", f"--wb-yarn-far:{far(yarn.colour)}"] if yarn.colour else []
    own += [f"--wb-{tone}:{other.colour}" for tone, other in zip(OTHER_TONES, others, strict=False)
            if other and other.colour]
    return ";".join(own)


def lines_on(colour: str) -> str:
    """Return the class by which lines on a yarn are drawn in ink, or in the paper's tone.

    "wb-deep": the ink is not told from it; "wb-pale": the ink of the dark is not; else "wb-clear".
    Without a colour the yarn has a tone that goes with either.
    """
    if colour and contrast(colour, INK) < LEAST:
        return "wb-deep"
    if colour and contrast(colour, LIGHT_INK) < LEAST:
        return "wb-pale"
    return "wb-clear"


def far(colour: str) -> str:
    """Return the colour of the far side of what is knitted in a colour.

    It is darker, or lighter where the yarn is dark, only so far that the scheme's ink still stands
    out from it; where it never does, it is changed the other way.
    """
    dark, light = (0, INK), (255, LIGHT_INK)
    inks = (light, dark) if lines_on(colour) == "wb-deep" else (dark, light)
    return next(made for to, ink in inks for shade in range(SHADE, 0, -1)
                if contrast(made := _towards(colour, to, shade), ink) >= LEAST and made != colour)


def _towards(colour: str, to: int, shade: int) -> str:
    """A colour with so much [%] of black (0) or white (255) in it."""
    red, green, blue = ((one * (100 - shade) + to * shade) // 100 for one in parts(colour))
    return written((red, green, blue))


def yarn_of(spec: GarmentSpec | None, materials: Materials, all_bands: Mapping[str, Band], key: str
           ) -> Yarn | None:
    """The yarn of a piece, or of a band by "band " and its key; None where it cannot be told."""
    bands = {f"band {name}": band for name, band in all_bands.items()}
    if key in bands:
        return materials.yarns.get(bands[key].yarn)
    if spec is None:
        return None
    return materials.yarns.get(piece_fabric(spec, materials.fabrics, key).yarn)


def others_of(spec: GarmentSpec | None, materials: Materials, key: str = "") -> tuple[Yarn, ...]:
    """The yarns of a garment's piece beside its fabric's: of the second colour of its stitch
    chart, or of the stripes, as the steps count them."""
    if spec is None:
        return ()
    fabric, stripes = piece_fabric(spec, materials.fabrics, key), spec.stripes
    if stripes:
        return tuple(materials.yarns[key] for key in step_yarns(stripes, fabric.yarn)
                     if key != fabric.yarn)
    return (materials.yarns[fabric.contrast],) if fabric.contrast in materials.yarns else ()
