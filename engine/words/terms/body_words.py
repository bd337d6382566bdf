"""What is said of the figures of a body, in a calculation and beside a size chart."""

from __future__ import annotations

from collections.abc import Mapping

from ...core.body_figures import BodyFigure, FigureBy

WHOSE: Mapping[FigureBy, str] = {
    FigureBy.DESIGNER: "the designer's own figure",
    FigureBy.READER: "the reader's own figure",
}
"""Whose figure stands in the place of a chart's."""
THE_DESIGNER = "the designer"
"""Who says what a measure is that no chart has."""
_MENDED, _FILLED = "mended", "filled in"


def body_figure_name(figure: BodyFigure) -> str:
    """Return what a figure of a body is called in a calculation: "women 12, bust 84–88 cm,
    middle"."""
    where = f"{figure.chart} {figure.column}" if figure.column else \
        f"{WHOSE[FigureBy.DESIGNER]} for {figure.size}"
    marks = [f"{where}, {figure.label} {figure.printed}"]
    if figure.held:
        marks.append(f"{'yours' if figure.by is FigureBy.READER else f'{_MENDED} to'} "
                     f"{figure.held}")
    marks += [_FILLED] * figure.filled + ["middle"] * figure.middle
    return ", ".join(marks)


def figures_printed(cm: str, inches: str, *, apart: bool) -> str:
    """Return the print of a chart in both units, "" where there is none; where they are not one
    measure it says that the chart prints them so."""
    if cm and inches:
        return f"{cm} cm ({'the chart prints ' if apart else ''}{inches} in)"
    return f"{cm} cm" if cm else f"{inches} in" if inches else ""


def length_range(low: str, high: str, low_inches: str, high_inches: str) -> str:
    """Return a length in both units, or from one to another: "8 cm (3¼ in)"."""
    if (low, low_inches) == (high, high_inches):
        return f"{low} ({low_inches})"
    return f"{low} to {high} ({low_inches} to {high_inches})"


def mended_remark(label: str, how: str) -> str:
    """Return that a figure of a chart is mended, and how."""
    return f"The {label} is {_MENDED}: {how}"


def filled_remark(label: str, how: str) -> str:
    """Return that a figure of a chart is filled in, and how."""
    return f"The {label} is {_FILLED}: {how}"
