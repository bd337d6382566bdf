"""What is published of a pattern: its pages or files alone, and what a reader may change."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum


class Publish(Enum):
    """What of a pattern the site shows: all its pages, or its overview and no instruction."""

    PAGES = "pages"
    FILES_ONLY = "files only"


@dataclass(frozen=True, slots=True)
class ReaderGauge:
    """That a reader may have the pattern's pages at her own gauge.

    `within` is how far it may be from the designer's, in stitches and in rows [%]; None for any.
    """

    within: int | None = None
