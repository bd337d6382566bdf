"""What the fabrics of a pattern are called by those who read it: by the parts knitted in them."""

from __future__ import annotations

from collections.abc import Mapping

from ..pattern.model import GarmentSpec
from ..proof.parts_of_fabrics import Parts, parts_of, whole_part
from .terms.piece_names import fabric_in_sentence, part_called, parts_called


def whole_called(spec: GarmentSpec | None) -> str:
    """Return what all that is knitted is called, with a capital letter: as its only piece, where it
    has one, or as the designer calls that, "Mitten", or "Garment"."""
    return part_called(whole_part(spec))


def fabric_names(parts: Mapping[str, Parts]) -> dict[str, list[str]]:
    """Return by a fabric's key the names of the parts that it is swatched for, the first as a
    heading has it: "Hem", "collar", "front band"."""
    return {key: parts_called(own) for key, own in parts.items()}


def fabric_called(parts: Mapping[str, Parts], key: str) -> str:
    """Return what a fabric is called inside a sentence: "the hem, collar and front band"; one that
    no part is knitted in has its key alone."""
    return fabric_in_sentence(parts_of(parts, key))
