"""Whether a pattern is published, what of it, and what a reader may change."""

from __future__ import annotations

from enum import Enum

from ..core.units import Length
from ..machine.records import dataclass

BUTTONS, BAND_DEPTHS = "buttons", "band depths"
KEEPS = (BUTTONS, BAND_DEPTHS)
"""What a reader may have to keep that is no measure."""


class Status(Enum):
    """How far a pattern is: a draft is shown in the preview, and is not published."""

    DRAFT = "draft"
    PUBLISHED = "published"


class Publish(Enum):
    """What of a pattern the site shows: all its pages, or its overview and no instruction."""

    PAGES = "pages"
    FILES_ONLY = "files only"


@dataclass(frozen=True, slots=True, kw_only=True)
class ReaderChange:
    """What a reader may change on the pages that her device makes: her gauge, her measures.

    `within` is how far her gauge may be from the designer's, in stitches and in rows [%];
    `measures_within` how far each measure may be from that of her size. None is for any.
    """

    gauge: bool
    within: int | None = None
    measures: bool = False
    measures_within: Length | None = None
