"""The headings of pages and of their sections, and what leads from a page to the next."""

from __future__ import annotations

CAUTIONS, GAUGE = "Cautions", "Gauge"
MEASURES = "Schematic"
FINISHED = "Finished measures"
TOOLS = "Tools and materials"
MAKING_UP = "Making up"
COUNTED = "Calculations"
PUT_RIGHT = "Corrections to this size"

# The first page of a pattern.
CHOOSE = "Choose your size"
MEASURES_OF_ALL = "Measures"
ALL_COUNTS = "Counts"
STITCH_PATTERN = "The stitch pattern"
GAUGE_AND_SWATCH = "Gauge and swatch"
REMARKS = "What to know before you knit"
NOTES = "Designer's notes"
CORRECTIONS = "Version and corrections"


def some_steps(first: int, last: int) -> str:
    """The title of one of several sections of the making up."""
    steps = f"steps {first} to {last}" if last > first else f"step {first}"
    return f"{MAKING_UP}, {steps}"


def size_title(pattern: str, size: str) -> str:
    """The title of a size's page."""
    return f"{pattern}, size {size}"


def size_summary(pattern: str, size: str) -> str:
    """What a size's page is, for lists and search engines."""
    return f"{pattern} in size {size}, step by step."
