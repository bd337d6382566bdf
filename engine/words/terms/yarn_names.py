"""What steps call the yarns of a piece or band."""

from __future__ import annotations

OWN_YARN = "main yarn"
"""That of its fabric."""
OTHER_YARNS = ("second yarn", "third yarn", "fourth yarn", "fifth yarn", "sixth yarn")
"""Those of its stripes, in the order in which they are first knitted."""
CONTRAST_YARN, FACING_YARN = "contrast yarn", "facing yarn"
WASTE_YARN, RAVEL_CORD = "waste yarn", "ravel cord"
HOLE_CORD, POCKET_CORD = "buttonhole cord", "pocket cord"


def cord_of_hole(number: int) -> str:
    """Return what the cord of a buttonhole is called, by the number of the hole from 1."""
    return f"cord {number}"
