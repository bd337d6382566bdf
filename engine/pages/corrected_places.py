"""Where on the page of a size a correction holds: the pieces or bands that it names, its step."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from ..core.problems import Problem, error
from ..core.text import clip, suggest
from ..pattern.corrections import Correction
from ..pattern.model import Pattern
from ..proof.designer_notes import works_at
from ..proof.proof import KnittedPiece, Proof, SizeProof, Strip
from ..words import corrections as words
from ..words.band_ends import strip_title
from .pieces import piece_anchor
from .program import numbered
from .strips import strip_anchor


@dataclass(frozen=True, slots=True)
class CorrectedPart:
    """A piece or strip that a correction names: the id of its section, its title, its steps."""

    anchor: str
    title: str
    steps: int


def corrected_parts(pattern: Pattern, size: SizeProof, one: Correction
                    ) -> tuple[CorrectedPart, ...]:
    """Return the pieces and strips of a size that a correction names, in the page's order."""
    return tuple(CorrectedPart(*_named(work), sum(len(each) for _, each in numbered(work, pattern)))
                 for work in works_at(size, one.at)) if one.at else ()


def _named(work: KnittedPiece | Strip) -> tuple[str, str]:
    """The id of a piece's or strip's section, and its title."""
    if isinstance(work, Strip):
        return strip_anchor(work), strip_title(work)
    return piece_anchor(work), work.piece.title


def put_right_in(pattern: Pattern, size: SizeProof) -> tuple[str, ...]:
    """Return the corrections that concern a size, each as HTML that leads to its step."""
    out = []
    for one in pattern.corrections:
        if one.concerns(size.size):
            places = [words.Place(f"{part.anchor}-{one.step}" if one.step else part.anchor,
                                  part.title)
                      for part in corrected_parts(pattern, size, one) if one.step <= part.steps]
            out.append(words.in_your_size(one, places))
    return tuple(out)


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
                               *(strip.plan.band.key for strip in size.strips)))
        said = one.at.replace("_", " ")
        expected, remedy = suggest(said, there, words.OTHER_PART)
        yield error("unknown-name", pattern.place(f"{path}.at"), size=size.size,
                    found=words.no_part(clip(said)), expected=expected, remedy=remedy)
    elif one.step > (last := max(part.steps for part in parts)):
        yield error("out-of-range", pattern.place(f"{path}.step"), size=size.size,
                    found=f'"{one.step}"', expected=words.steps_there(last),
                    remedy=words.OTHER_STEP)
