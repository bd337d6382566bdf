"""Words for the diagram of two beds."""

from __future__ import annotations

from ..machine.needles import Needle, Needles
from ..machine.trace import State
from .needle_marks import Mark
from .rib_instructions import pitch_text
from .words import KEY, stitches, which

SECOND_BED = "second bed"


def main_bed_named(first: Needle, last: Needle) -> str:
    """The name of the main bed over the needles that are drawn."""
    return f"main bed, {first} to {last}"


def two_beds_text(state: State) -> str:
    """Everything a diagram of two beds shows, in words."""
    second = state.second
    if second is None:
        return ""
    return (f"{_bed_text('Main bed', state.loaded, state.working)} "
            f"{_bed_text('Second bed', second.loaded, second.working)} {pitch_text(second.rack)}.")


def _bed_text(name: str, loaded: Needles, working: Needles) -> str:
    parts = []
    if loaded:
        parts.append(f"{stitches(len(loaded))} on {which(loaded)}")
    if empty := working - loaded:
        parts.append(f"{KEY[Mark.EMPTY]}: {which(empty)}")
    return f"{name}: {'; '.join(parts) or 'no needle in work'}."


