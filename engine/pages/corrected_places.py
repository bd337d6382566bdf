"""Where on a size's page a correction holds: pieces, bands or making up that it names, its step."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import TYPE_CHECKING

from ..core.problems import Problem, error
from ..core.text import clip, suggest
from ..machine.records import dataclass
from ..pattern.corrections import Correction
from ..pattern.designer_notes import MAKING_UP
from ..pattern.model import Pattern
from ..proof.designer_note_places import works_at
from ..proof.proof import KnittedPiece, Proof, SizeProof, Strip
from ..words import correction_text as words
from ..words.band_ends import strip_title
from .anchors import piece_anchor, strip_anchor
from .numbering import numbered

if TYPE_CHECKING:
    from .making_up import StepStretch


@dataclass(frozen=True, slots=True)
class CorrectedPart:
    """What a correction names of a size's page: a piece or strip, or a stretch of the making up.

    `anchor` is what the ids of its steps begin with, `heading` the id of its heading. Its steps are
    numbered from `first` to `last`.
    """

    anchor: str
    title: str
    last: int
    heading: str
    first: int = 1


def corrected_parts(pattern: Pattern, size: SizeProof, one: Correction
                    ) -> tuple[CorrectedPart, ...]:
    """Return the parts of a size that a correction names, in the page's order.

    Of the making up it is the stretch that has the step, or all of them.
    """
    if not one.at:
        return ()
    works = works_at(size, one.at)
    if not works and one.at == MAKING_UP.replace(" ", "_"):
        from .making_up import stretches  # few corrections are of the making up
        parts = tuple(_stretch(part, step=bool(one.step)) for part in stretches(size))
        return tuple(part for part in parts if part.first <= one.step <= part.last) or parts
    made = []
    for work in works:
        anchor, title = _named(work)
        steps = sum(len(each) for _, each in numbered(work, pattern))
        made.append(CorrectedPart(anchor, title, steps, anchor))
    return tuple(made)


def _stretch(part: StepStretch, *, step: bool) -> CorrectedPart:
    return CorrectedPart(part.key, words.MADE_UP if step else part.title,
                         part.first + len(part.steps) - 1, part.anchor, part.first)


def _named(work: KnittedPiece | Strip) -> tuple[str, str]:
    """The id of a piece's or strip's section, and its title."""
    if isinstance(work, Strip):
        return strip_anchor(work), strip_title(work)
    return piece_anchor(work), work.piece.title


def put_right_now(sizes: tuple[str, ...], corrections: tuple[Correction, ...], version: str,
                  size: SizeProof) -> str:
    """Return what the present version put right in a size, as HTML for the head of its page."""
    return "".join(
        words.at_the_head(one, _mine(sizes, size.size, one)) for one in corrections
        if one.version == version and one.concerns(size.size))


def put_right_in(pattern: Pattern, size: SizeProof) -> tuple[str, ...]:
    """Return the corrections that concern a size, each as HTML that leads to its step."""
    out = []
    for one in pattern.corrections:
        if one.concerns(size.size):
            places = [words.CorrectedPlace(
                f"{part.anchor}-{one.step}" if one.step else part.heading, part.title)
                      for part in corrected_parts(pattern, size, one) if one.step <= part.last]
            out.append(words.in_your_size(one, places, _mine(pattern.sizes, size.size, one)))
    return tuple(out)


def _mine(sizes: tuple[str, ...], mine: str, correction: Correction) -> str:
    """The size of the page where a text names another one, else ""; a name in figures alone may be
    any count."""
    named = set(re.findall(r"[\w-]+", correction.text))
    return mine * any(one in named and one != mine and not one.isdigit() for one in sizes)


def misplaced(proof: Proof) -> tuple[Problem, ...]:
    """Return an error for every correction that names what a size it concerns does not have."""
    return tuple(problem for number, one in enumerate(proof.pattern.corrections) if one.at
                 for size in proof.sizes if one.concerns(size.size)
                 for problem in _misplaced(proof.pattern, size, one, f"corrections.{number}"))


def _misplaced(pattern: Pattern, size: SizeProof, one: Correction, path: str
               ) -> Iterator[Problem]:
    """What is wrong with the place that a correction names, in one size."""
    parts = corrected_parts(pattern, size, one)
    if not parts:
        there = dict.fromkeys((*(piece.piece.key.replace("_", " ") for piece in size.pieces),
                               *(strip.plan.band.key for strip in size.strips),
                               *([MAKING_UP] if size.assembled else [])))
        place = one.at.replace("_", " ")
        expected, remedy = suggest(place, there, words.OTHER_PART)
        yield error("unknown-name", pattern.places.of(f"{path}.at"), size=size.size,
                    found=words.no_part(clip(place)), expected=expected, remedy=remedy)
    elif one.step > (last := max(part.last for part in parts)):
        yield error("out-of-range", pattern.places.of(f"{path}.step"), size=size.size,
                    found=f'"{one.step}"', expected=words.steps_there(last),
                    remedy=words.OTHER_STEP)
