"""What steps call the yarns of a piece or band."""

from __future__ import annotations

from collections.abc import Mapping

from ...machine.step_keys import StepYarn

_YARNS: Mapping[StepYarn, str] = {
    StepYarn.NONE: "", StepYarn.MAIN: "main yarn", StepYarn.SECOND: "second yarn",
    StepYarn.THIRD: "third yarn", StepYarn.FOURTH: "fourth yarn", StepYarn.FIFTH: "fifth yarn",
    StepYarn.SIXTH: "sixth yarn", StepYarn.CONTRAST: "contrast yarn",
    StepYarn.FACING: "facing yarn", StepYarn.WASTE: "waste yarn",
    StepYarn.RAVEL_CORD: "ravel cord", StepYarn.HOLE_CORD: "buttonhole cord",
    StepYarn.POCKET_CORD: "pocket cord"}


def yarn_name(yarn: StepYarn) -> str:
    """Return what steps call a yarn; "" for none."""
    return _YARNS[yarn]


def cord_of_hole(number: int) -> str:
    """Return what the cord of a buttonhole is called, by the number of the hole from 1."""
    return f"cord {number}"
