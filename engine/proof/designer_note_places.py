"""Whether the places at which a designer puts notes are there, in every size that shows them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from ..core.problems import Problem, error
from ..core.text import clip, suggest
from ..core.text_kinds import FindingText
from ..machine.headings import Heading
from ..machine.top_row import top_row
from ..pattern.designer_notes import MAKING_UP, DesignerNote
from ..pattern.places import Places
from ..shape.tasks import TaskKind
from .proof import SizeProof, Work

Wrong = tuple[FindingText, FindingText, FindingText]
_MAKING_UP = MAKING_UP.replace(" ", "_")


def word_of(kind: Heading | TaskKind) -> str:
    """Return the word by which a source names a section of the steps, or a task."""
    return kind.name.lower().replace("_", " ")


def is_making_up(note: DesignerNote) -> bool:
    """True for a note on the making up."""
    return note.at == _MAKING_UP


def works_at(size: SizeProof, at: str) -> tuple[Work, ...]:
    """Return the piece of that key, or the strips of the band; none where there is neither."""
    pieces = tuple(piece for piece in size.pieces if piece.piece.key == at)
    return pieces or tuple(strip for strip in size.strips
                           if strip.plan.band.key.replace("-", "_").replace(" ", "_") == at)


def notes_nowhere(places: Places, notes: tuple[DesignerNote, ...], sizes: Iterable[SizeProof]
                 ) -> tuple[Problem, ...]:
    """Return an error for every note and size whose place is not there."""
    return tuple(_nowhere(places, notes, tuple(sizes)))


def _nowhere(places: Places, notes: tuple[DesignerNote, ...], sizes: tuple[SizeProof, ...]
            ) -> Iterator[Problem]:
    for number, note in enumerate(notes):
        for size in sizes:
            if note.at and note.is_of(size.size, note.at) and (wrong := _wrong(size, note)):
                found, expected, remedy = wrong
                yield error("note-nowhere", places.of(f"notes.{number}"), size=size.size,
                            found=found, expected=expected, remedy=remedy)


def _wrong(size: SizeProof, note: DesignerNote) -> Wrong | None:
    """What is wrong with a note's place in a size: found, expected, what to do; None if nothing."""
    at = note.at.replace("_", " ")
    if is_making_up(note):
        if size.assembled is None:
            return "a note on the making up of bands alone", "a garment that is made up", \
                "Put it at a band, or delete it."
        if note.row:
            return f"row {note.row} of the making up", "a section of it", "Write a section."
        tasks = [word_of(task.kind) for task in size.assembled.garment.tasks
                 if task.kind is not TaskKind.KNIT]
        return _no_section(note, at, tasks)
    works = works_at(size, note.at)
    if not works:
        names = dict.fromkeys((*(p.piece.key.replace("_", " ") for p in size.pieces),
                               *(s.plan.band.key for s in size.strips), MAKING_UP))
        expected, remedy = suggest(at, names, "Write one of these.")
        return f'a note at "{clip(at)}", which is no piece or band', expected, remedy
    if note.row:
        most = max(top_row(work.program.steps, work.trace.states) for work in works)
        return None if note.row <= most else (
            f"a note at row {note.row} of the {at}", f"a row from 1 to {most}",
            "Write another row, or the sizes that have it.")
    return _no_section(note, at, [word_of(section.heading) for work in works
                                  for section in work.program.sections])


def _no_section(note: DesignerNote, at: str, known: Iterable[str]) -> Wrong | None:
    known = dict.fromkeys(known)
    if not note.section or note.section in known:
        return None
    expected, remedy = suggest(note.section, known,
                               "Write one of these, or the sizes that have it.")
    return f'a note at "{note.section}" of the {at}, which is not there', expected, remedy
