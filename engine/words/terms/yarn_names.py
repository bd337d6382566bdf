"""What steps call the yarns of a piece or band."""

from __future__ import annotations

OWN_YARN = "main yarn"
"""That of its fabric."""
OTHER_YARNS = ("second yarn", "third yarn", "fourth yarn", "fifth yarn", "sixth yarn")
"""Those of its stripes, in the order in which they are first knitted."""
