"""A garment in whole stitches and rows, or what stands against it and where the source says it."""

from __future__ import annotations

from ..core.problems import Problem, error
from ..core.text import a_form
from ..forms.registry import FORMS, outlined
from ..pattern.model import GarmentSpec
from ..pattern.places import Places
from ..shape.garment import CannotKeep, CannotRound, CannotShape, Cut, Garment
from ..shape.rib_widths import shape_ribbed
from ..shape.slopes import CannotFollow
from .given_counts import Given, check_kept, not_kept


def shaped(places: Places, spec: GarmentSpec, cut: Cut, given: Given
           ) -> tuple[Garment | None, tuple[Problem, ...]]:
    """Return the garment in whole stitches and rows, with the counts that are `given` outright
    and what is to be said of these; None with what stands against it."""
    form = outlined(FORMS[spec.form], spec.outline)
    try:
        garment = shape_ribbed(form.shape, cut, {**spec.rounding, **given.rounding}, form.rounds,
                               seamed=form.seamed)
        return garment, check_kept(places, spec, garment, given)
    except CannotKeep as fault:
        return None, (not_kept(places, cut.size, given, fault),)
    except CannotRound as fault:
        path, code, expected = "garment.round", "cannot-round", "the rounding asked for"
        return None, (_cannot(places, cut.size, fault, path, code, expected),)
    except CannotFollow as fault:
        return None, (_cannot(places, cut.size, fault, f"garment.{fault.at}",
                              "slope-does-not-fit", fault.expected),)
    except CannotShape as fault:
        path = f"garment.{given.written(fault.count) or fault.at}"
        return None, (_cannot(places, cut.size, fault, path, "cannot-shape",
                              fault.expected or f"figures that make {a_form(spec.form)}"),)


def _cannot(places: Places, size: str, fault: CannotShape, path: str, code: str, expected: str
            ) -> Problem:
    own = path.count(".") > 1  # a single entry, which may be given by size
    return error(code, places.of(path, size if own else ""), size=size, found=fault.found,
                 expected=expected, remedy=fault.remedy)
