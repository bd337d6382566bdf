"""What is said of a reader's own measures: how they are taken, what may be entered, what stays."""

from __future__ import annotations

from fractions import Fraction

from ..core.counts import decimal
from ..core.units import Length
from ..pattern.publishing import BUTTONS
from .measure_names import BODY, MEASURES


def called(name: str) -> str:
    """Return what a measure is called to a reader: "Upper arm width"."""
    return name.replace("_", " ").capitalize()


def how(name: str, *, is_body: bool) -> str:
    """Return how a body's measure is taken, or what a garment's is; "" for one of a chart alone."""
    return (BODY if is_body else MEASURES).get(name, "")


def figure(name: str, text: str) -> str:
    """Return a measure with a figure: "Chest: 98 cm"."""
    return f"{called(name)}: {text}"


def beside(own: str, theirs: Length) -> str:
    """Return a reader's figure beside the designer's."""
    return f"{own}. The designer’s page has {theirs.in_cm()}"


def unread(name: str, least: str, most: str) -> str:
    """Return what is wrong with a figure, and what to write."""
    return f"{called(name)}: write a length from {least} to {most}, such as 42 cm or 16.5 in."


def stays(name: str) -> str:
    """Return that a measure cannot be entered."""
    return f"{called(name)}: the designer lets this measure stay as it is."


def too_far(name: str, own: Length, theirs: Length, size: str, most: Length) -> str:
    """Return that a measure is further from the designer's than she allows."""
    return (f"{called(name)}: you entered {own}. The designer has {theirs} for size {size}, and "
            f"allows at most {most.in_cm()} more or less. Try the next size.")


def lost(what: str, band: str, theirs: int | Fraction, own: int | Fraction) -> str:
    """Return what the designer wants to stay and would not: buttons, or the depth of a band."""
    if what == BUTTONS:
        return (f"{band}: with your figures it would have {own} buttonholes. The designer wants "
                f"it to keep {theirs}.")
    return (f"{band}: with your figures it would be {decimal(Fraction(own) / 10, 1)} cm deep. The "
            f"designer wants it to stay {decimal(Fraction(theirs) / 10, 1)} cm.")
