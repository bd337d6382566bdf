"""A designer's notes where she puts them: at a part of the work, at a section of it, at a step."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from ..machine.headings import Heading
from ..machine.records import dataclass
from ..machine.top_row import top_row
from ..pattern.designer_notes import DesignerNote
from ..proof.designer_note_places import is_making_up, word_of, works_at
from ..proof.proof import SizeProof, Work
from ..shape.tasks import TaskKind
from ..words.designer_note_text import note_text
from ..words.instruction import Moment
from ..words.shaped_edges import ShapingBlock


@dataclass(frozen=True, slots=True)
class NotesHere:
    """The notes at one part of the work, in their order."""

    notes: tuple[DesignerNote, ...] = ()

    def around(self, html: str) -> str:
        """The whole part, HTML, with the notes before and after it."""
        whole = [note for note in self.notes if not note.section and not note.row]
        return _around(html, whole)

    def at_section(self, heading: Heading, steps: str, every: Sequence[Heading], place: int) -> str:
        """The steps of the section at that place, of `every` heading of the part.

        Of several with one heading a note stands before the first, or after the last.
        """
        alike = [n for n, each in enumerate(every) if each is heading]
        own = [note for note in self.notes if note.section == word_of(heading)
               and place == alike[-1 if note.after else 0]]
        return _around(steps, own)

    def at_step(self, each: Moment | ShapingBlock, html: str, before: int) -> str:
        """A numbered step, with the notes at the rows that the counter has passed in it.

        `before` is the most that the counter has shown before.
        """
        if not self.notes:
            return html
        reached = shown(each)
        own = [note for note in self.notes if note.row and before < note.row <= reached]
        return _inside(html, own)


NOWHERE = NotesHere()


def notes_at(notes: tuple[DesignerNote, ...], size: SizeProof, work: Work) -> NotesHere:
    """Return the notes at a piece or band."""
    return NotesHere(tuple(note for note in notes if note.is_of(size.size, note.at)
                           and any(each is work for each in works_at(size, note.at))))


def shown(each: Moment | ShapingBlock) -> int:
    """Return the most that the row counter shows after the rows of a numbered step [rows]."""
    if isinstance(each, ShapingBlock):
        return max(event.after.counter for event in each.events)
    return top_row(each.steps, each.states)


def on_the_page(notes: tuple[DesignerNote, ...], size: SizeProof, *, after: bool) -> str:
    """Return the notes on the whole page, before its work or after it."""
    return "".join(note_text(note) for note in notes
                   if note.is_of(size.size, "") and note.after is after)


def on_making_up(notes: tuple[DesignerNote, ...], size: SizeProof) -> tuple[DesignerNote, ...]:
    """Return the notes on the making up."""
    return tuple(note for note in notes
                 if is_making_up(note) and note.is_of(size.size, note.at))


def at_tasks(notes: Iterable[DesignerNote], tasks: Sequence[tuple[str, Sequence[TaskKind]]]
             ) -> list[str]:
    """Return the numbered steps of the making up, each with the notes at its tasks.

    Each step is its HTML and the kinds of its tasks. A note stands before the first step of a task,
    or after the last; one on the whole, or on a task that no step tells, at the first or last step.
    """
    at: dict[int, list[DesignerNote]] = {}
    for note in notes:
        steps = [n for n, (_, kinds) in enumerate(tasks)
                 if note.section in map(word_of, kinds)] or list(range(len(tasks)))
        at.setdefault(steps[-1 if note.after else 0], []).append(note)
    return [_inside(step, at.get(n, ())) for n, (step, _) in enumerate(tasks)]


def _around(html: str, notes: Iterable[DesignerNote]) -> str:
    notes = tuple(notes)
    before = "".join(note_text(note) for note in notes if not note.after)
    return before + html + "".join(note_text(note) for note in notes if note.after)


def _inside(step: str, notes: Iterable[DesignerNote]) -> str:
    """A step with notes at its beginning or end, within its item of the list."""
    notes = tuple(notes)
    if not notes:
        return step
    head, end = step.index(">") + 1, step.rindex("</li>")
    return step[:head] + _around(step[head:end], notes) + step[end:]
