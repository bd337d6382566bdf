"""What the sketch of a garment shows."""

from __future__ import annotations

from enum import Enum


class Sketched(Enum):
    """What the sketch of a garment shows: it alone, or the body that it is cut for as well."""

    GARMENT = "garment"
    BODY = "body"
