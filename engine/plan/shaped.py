"""A garment in whole stitches and rows, or what stands against it and where the source says it."""

from __future__ import annotations

from ..core.problems import Problem, error
from ..forms.registry import FORMS
from ..pattern.model import GarmentSpec, Pattern
from ..shape.garment import CannotRound, CannotShape, Cut, Garment
from ..shape.rib_widths import shape_ribbed
from ..shape.slopes import CannotFollow


def shaped(pattern: Pattern, spec: GarmentSpec, cut: Cut
           ) -> tuple[Garment | None, tuple[Problem, ...]]:
    """Return the garment in whole stitches and rows; None with what stands against it."""
    form = FORMS[spec.form]
    try:
        return shape_ribbed(form.shape, cut, spec.rounding, form.rounds, seamed=form.seamed), ()
    except CannotRound as fault:
        path, code, expected = "garment.round", "cannot-round", "the rounding asked for"
        return None, (_cannot(pattern, cut.size, fault, path, code, expected),)
    except CannotFollow as fault:
        path = f"garment.slopes.{fault.slope.value}.{fault.key}"
        return None, (_cannot(pattern, cut.size, fault, path, "slope-does-not-fit",
                              fault.expected),)
    except CannotShape as fault:
        return None, (_cannot(pattern, cut.size, fault, f"garment.{fault.at}", "cannot-shape",
                              f"whole numbers for a {spec.form}"),)


def _cannot(pattern: Pattern, size: str, fault: CannotShape, path: str, code: str, expected: str
            ) -> Problem:
    own = path.count(".") > 1  # a single entry, which may be given by size
    return error(code, pattern.place(path, size if own else ""), size=size, found=fault.found,
                 expected=expected, remedy=fault.remedy)
