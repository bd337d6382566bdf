"""Making up where it happens: its steps in order, parted where a band is worked."""

from __future__ import annotations

from collections.abc import Container, Iterable, Mapping, Sequence
from dataclasses import replace
from types import MappingProxyType

from ..catalogue.edge_roles import EdgeRole, role_of
from ..core.kept import kept_of
from ..core.units import Length
from ..machine.edge_steps import TakeOff
from ..machine.programs import Program
from ..machine.reasons import Reason
from ..machine.records import dataclass
from ..machine.step_keys import Topic
from ..machine.steps import Attend, HandKnit
from ..markup.html import items, link, shown_once
from ..pattern.designer_notes import DesignerNote
from ..proof.proof import SizeProof
from ..proof.yarn_ends import ring_ends, short_end
from ..shape.foot import Hem
from ..shape.garment import Garment
from ..shape.piece import FRONTS
from ..shape.tasks import Sewing, Task, TaskKind
from ..words.band_ends import SEAM
from ..words.declared import ends_held, sides_named, steps_sewn
from ..words.garment_text import AROUND
from ..words.joins import SEAM_YARN, fronts_worn, joins_text, raglans_worn, shoulders_worn
from ..words.making_up_instructions import TaskInstruction, instructions
from ..words.marked_edge import takes_tied
from ..words.page_headings import MAKING_UP, some_steps
from .placed_designer_notes import at_tasks


@dataclass(frozen=True, slots=True, kw_only=True)
class StepStretch:
    """Steps of the making up between two bands: the `number` of the stretch, that of its `first`
    step, and whether it is the `only` one."""

    number: int
    first: int
    steps: tuple[TaskInstruction, ...]
    only: bool

    @property
    def anchor(self) -> str:
        """The id of its heading."""
        return "making-up" if self.number == 1 else f"making-up-{self.number}"

    @property
    def key(self) -> str:
        """What the ids of its steps begin with."""
        return "make-up" if self.number == 1 else f"make-up-{self.number}"

    @property
    def title(self) -> str:
        """Its heading."""
        return MAKING_UP if self.only else \
            some_steps(self.first, self.first + len(self.steps) - 1)

    @property
    def bands(self) -> tuple[str, ...]:
        """The keys of the bands that are worked after it."""
        return self.steps[-1].bands

    @property
    def tasks(self) -> tuple[Task, ...]:
        """Its tasks, in their order."""
        return tuple(task for step in self.steps for task in step.tasks)


@kept_of(1)  # the page of a size has them twice
def stretches(size: SizeProof) -> tuple[StepStretch, ...]:
    """Return the making up of a size, parted where bands are worked; () for a band alone."""
    if size.assembled is None:
        return ()
    left = {Topic.MARK_EDGES, *[Topic.MARK_NECK] * (not any(map(takes_tied, size.strips)))}
    return _parted(size.assembled.garment, (piece.program for piece in size.pieces), left,
                   {plan.band.key: 0 if plan.is_lengthwise else plan.depth.value
                    for plan in size.plans},
                   {**{key: one.length for key, one in ring_ends(size.strips).items()}, **{
                       s.plan.band.key: short_end(s.plan).length for s in size.strips
                       if role_of(s.plan.band.garment_edge) is EdgeRole.POCKET}})


def _parted(garment: Garment, programs: Iterable[Program], left: Container[str],
            bands: Mapping[str, int], rings: Mapping[str, Length] = MappingProxyType({})
            ) -> tuple[StepStretch, ...]:
    """What the `programs` of the pieces tie into edges, their cords and pins are counted last;
    `left` are the marks that no band's edge took out with its own, `bands` has the rows of a layer
    of each band, `rings` what sews its ends to each other, or each end of a pocket top down."""
    programs = tuple(programs)
    marked = any(step.to in left for program in programs for step in program.of(Attend))
    corded = any(program.cord_yarn or any(step.cord for step in program.of(HandKnit))
                 for program in programs)
    labelled = any(step.reason is not Reason.DRAWN_UP for program in programs
                   for step in program.of(TakeOff))
    hemmed = any(isinstance(piece.hem, Hem) or (piece.hem is not None and piece.hem.folded)
                 for piece in garment.pieces)
    pointed = any(section.narrow(SEAM) for edge_path in garment.edges.values()
                  for section in edge_path.sections)
    tasks = [replace(task, hemmed=hemmed, pointed=pointed, bands=tuple(
        replace(band, end=rings.get(band.key), rows=bands.get(band.key, 0)) for band in task.bands))
             for task in garment.tasks]
    pinned = bool(garment.joins) or any(task.kind is TaskKind.BLOCK for task in tasks)
    steps = instructions(tasks, garment.joins, pinned=pinned, marked=marked, corded=corded,
                         labelled=labelled)
    ends = [n for n, step in enumerate(steps, 1) if set(step.bands) & set(bands) or n == len(steps)]
    return tuple(StepStretch(number=number, first=first + 1, steps=steps[first:end],
                             only=len(ends) == 1)
                 for number, (first, end) in enumerate(zip([0, *ends], ends, strict=False), 1))


def own_bands(size: SizeProof, parts: Iterable[StepStretch]) -> tuple[str, ...]:
    """Return the keys of the bands that no step tells to work: edges that the source describes."""
    worked = {key for part in parts for key in part.bands}
    return tuple(key for key in dict.fromkeys(plan.band.key for plan in size.plans)
                 if key not in worked)


def making_up(garment: Garment, parts: Sequence[StepStretch] = (),
              notes: Sequence[DesignerNote] = ()) -> Mapping[int, str]:
    """Return what stands under the heading of each stretch, by its number: a numbered step each,
    its joins with what either side has, and the designer's `notes`. Without `parts` it is one step.
    """
    parts = parts or _parted(garment, (), (), {})
    kinds_of = [step.kinds for part in parts for step in part.steps]
    steps = shown_once(_step(part, n, step) for part in parts
                       for n, step in enumerate(part.steps, part.first))
    steps = at_tasks(notes, list(zip(steps, kinds_of, strict=True)))
    kinds = {task.kind for task in garment.tasks}
    lie = f"<p>{shoulders_worn(garment.joins)}</p>\n" \
        if kinds & {TaskKind.SHOULDERS, TaskKind.STRAPS} else ""
    if any(task.kind is TaskKind.DECLARED and task.sewing is not Sewing.STITCHES
           for task in garment.tasks):
        lie = f"<p>{sides_named(worn=AROUND in garment.lengths)}</p>\n"
    if not lie and any(task.kind is TaskKind.RAGLANS and task.leaves for task in garment.tasks):
        lie = f"<p>{raglans_worn()}</p>\n"
    if not lie and any(FRONTS.get(piece.key) for piece in garment.pieces):
        lie = f"<p>{fronts_worn()}</p>\n"
    if garment.joins:
        lie += f"<p>{SEAM_YARN}</p>\n"
    return {part.number: _stretch(part, steps, lie) for part in parts}


def _stretch(part: StepStretch, steps: list[str], lie: str) -> str:
    first = part.number == 1
    start = "" if first else f' start="{part.first}"'
    listed = "".join(steps[part.first - 1:part.first - 1 + len(part.steps)])
    return f'{lie * first}<ol class="wb-steps"{start}>\n{listed}</ol>\n'


def _step(part: StepStretch, number: int, step: TaskInstruction) -> str:
    shown = "".join(f" {link(f'../../{page}.html', label, 'wb-how')}" for page, label in step.pages)
    return (f'<li id="{part.key}-{number}"><p>{step.text}{ends_held(step.joins)}'
            f'{steps_sewn(step.joins)}{shown}</p>'
            f'{items(joins_text(step.joins), "wb-holes")}</li>\n')
