"""What the fabrics of a pattern are called by those who read it: by the parts knitted in them."""

from __future__ import annotations

from ..pattern.model import GarmentSpec, Pattern
from ..proof.parts_of_fabrics import parts_of, parts_of_fabrics, whole_part
from .terms.piece_names import fabric_in_sentence, part_called, parts_called


def whole_called(spec: GarmentSpec | None) -> str:
    """Return what all that is knitted is called, with a capital letter: as its only piece, where it
    has one, or as the designer calls that, "Mitten", or "Garment"."""
    return part_called(whole_part(spec))


def fabric_names(pattern: Pattern) -> dict[str, list[str]]:
    """Return by a fabric's key the names of the parts that it is swatched for, the first as a
    heading has it: "Hem", "collar", "front band"."""
    return {key: parts_called(parts) for key, parts in parts_of_fabrics(pattern).items()}


def fabric_called(pattern: Pattern, key: str) -> str:
    """Return what a fabric is called inside a sentence: "the hem, collar and front band"; one that
    no part is knitted in has its key alone."""
    return fabric_in_sentence(parts_of(pattern, key))
