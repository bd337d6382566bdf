"""The steps of making up: which tasks each tells, which joins are made in it, what shows how."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from ..catalogue.edge_roles import EdgeRole
from ..catalogue.methods import GRAFT, SEWN, TOGETHER
from ..machine.records import dataclass
from ..shape.garment import Join
from ..shape.tasks import Sewing, Task, TaskKind
from .bands_named import ends_met, ends_sewing, is_second
from .joins import counted_back
from .task_instructions import task_text

BLOCKING = ("techniques/blocking", "How to block")
WASHING = ("techniques/blocking", "How to wash and dry")
SHOULDERS = ("techniques/joining-shoulders", "How to join shoulders")
GRAFTED = ("techniques/grafted", "How to graft")
BACK_STITCHED = ("techniques/back-stitched", "How to back-stitch")
SET_IN = ("techniques/setting-in-a-sleeve", "How to set in a sleeve")
BY_ROWS = ("techniques/mattress-seam-by-rows", "How to sew row to row")
POCKETS = ("techniques/pocket-opening", "How to sew a lining down")
ENDS = ("techniques/edge-to-edge", "How to sew edge to edge")
STITCHES = ("techniques/stitch-to-stitch", "How to sew stitch to stitch")
TO_STITCHES = ("techniques/rows-to-stitches", "How to sew rows to stitches")
PLACKETS = ("bands/placket", "About plackets")
MARKERS = ("techniques/markers", "How to take markers out")
CROWNS = ("techniques/gathering-a-crown", "How to gather a crown")
PageLink = tuple[str, str]


def _several(*pages: tuple[PageLink, str]) -> tuple[PageLink, ...]:
    """Pages that stand side by side: each says what it is for, and ends with a stop."""
    return tuple((page, f"{label}{', ' * bool(what)}{what}.") for (page, label), what in pages)


# The technique pages of a task.
PAGES: Mapping[TaskKind, tuple[PageLink, ...]] = {
    TaskKind.SEW_OFF: (BACK_STITCHED,), TaskKind.SEW_NECK: (BACK_STITCHED,),
    TaskKind.BLOCK: (BLOCKING,), TaskKind.WASH: (WASHING,), TaskKind.LININGS: (POCKETS,),
    TaskKind.CAPS: (SET_IN,),
    TaskKind.FOOT: _several((TO_STITCHES, "for the ends"), (PLACKETS, "")),
    TaskKind.STRAPS: (TO_STITCHES,),
    TaskKind.TOPS: (TO_STITCHES,), TaskKind.TOPS_TO_SIDES: (STITCHES,),
    TaskKind.THUMB_SLIT: (TO_STITCHES,), TaskKind.CROWN_SEAM: (BY_ROWS,),
    TaskKind.QUARTER_SEAMS: (BY_ROWS,),
    # What is drawn up is sewn in a later step, which leads to how.
    TaskKind.DRAW_UP: (CROWNS,), TaskKind.DRAW_LOWER: (CROWNS,), TaskKind.THUMBS: (BY_ROWS,),
    **dict.fromkeys((TaskKind.SIDES, TaskKind.HAND_SIDES, TaskKind.PANELS), (BY_ROWS,)),
    TaskKind.RAGLANS: _several((BY_ROWS, "for the raglans"), (STITCHES, "for the underarms"))}
ONE_SIDE = _several((STITCHES, "for the side seam"), (BY_ROWS, "for the sleeve seam"))
BY_SEWING = {Sewing.ROWS: BY_ROWS, Sewing.STITCHES: STITCHES, Sewing.MIXED: TO_STITCHES,
             Sewing.ENDS: ENDS}
BY_METHOD = {TOGETHER.name: SHOULDERS, GRAFT.name: GRAFTED, SEWN.name: BACK_STITCHED}


def unfastened(*, child: bool) -> str:
    """How fronts are worn that nothing fastens, as HTML; a child's with nothing round the body."""
    belt = "" if child else ", or closed with a belt, which is not part of the pattern"
    return f"<p>Nothing fastens the fronts: they are worn open{belt}.</p>"


@dataclass(frozen=True, slots=True)
class TaskInstruction:
    """A step of the making up: its text, the pages that show how, the joins made in it, and the
    keys of the bands that it tells to work, and its tasks."""

    text: str  # HTML
    pages: tuple[tuple[str, str], ...]
    joins: tuple[Join, ...]
    bands: tuple[str, ...] = ()
    tasks: tuple[Task, ...] = ()

    @property
    def kinds(self) -> tuple[TaskKind, ...]:
        """The kinds of its tasks, in their order."""
        return tuple(task.kind for task in self.tasks)


def instructions(tasks: Sequence[Task], joins: Sequence[Join], *, pinned: bool = False,
                 marked: bool = False, corded: bool = False, labelled: bool = False
                 ) -> tuple[TaskInstruction, ...]:
    """Return what is done after the pieces are knitted, a step for each sentence that tells it.

    A join stands in the first step that sews some of it. With `pinned`, pins of blocking and of
    seams are counted back in at the end; with `marked`, threads that were tied into edges; with
    `corded`, the cords of the pieces; with `labelled`, the labels of stitches that waited.
    """
    done = [task for task in tasks if task.kind is not TaskKind.KNIT]
    first = [(join, task) for join in joins
             if (task := next((one for one in done if one.sews_any(join.seam, join.side)
                               and one.number == join.number), None))]
    steps = [TaskInstruction(text, _pages(group, made), made, _worked(group), group)
             for group in _steps(done) if (text := task_text(group))
             for made in (_joins(group, first),)]
    if marked or corded or labelled or pinned:
        drawn = any(task.kind is TaskKind.CORD for task in done)
        steps.append(TaskInstruction(counted_back(marked=marked, corded=corded, labelled=labelled,
                                                  drawn=drawn), (MARKERS,) * marked, ()))
    return tuple(steps)


def _steps(tasks: Iterable[Task]) -> Iterator[tuple[Task, ...]]:
    """The tasks that each step tells: bands of one part of the garment stand together."""
    step: list[Task] = []
    for task in tasks:
        if step and not _goes_on(step[-1], task):
            yield tuple(step)
            step = []
        step.append(task)
    if step:
        yield tuple(step)


_AT_FRONT = (EdgeRole.NECK, EdgeRole.FRONT, EdgeRole.AROUND)


def _goes_on(before: Task, task: Task) -> bool:
    """True where a task shares the step of the one before it."""
    if before.kind is not TaskKind.BAND or task.kind is not TaskKind.BAND:
        return False
    role = before.bands[0].role
    return not (before.tops and not before.half) and (
        task.bands[0].role is role or {role, task.bands[0].role} <= set(_AT_FRONT))


def _worked(group: Iterable[Task]) -> tuple[str, ...]:
    return tuple(band.key for task in group if task.kind is TaskKind.BAND for band in task.bands)


def _joins(group: Iterable[Task], first: Sequence[tuple[Join, Task]]) -> tuple[Join, ...]:
    return tuple(join for join, sews in first if any(task is sews for task in group))


def _pages(group: Sequence[Task], joins: Sequence[Join]) -> tuple[PageLink, ...]:
    """The pages of the seams of a step, then that of the ends of bands that are sewn in it, and of
    rows above bound-off stitches."""
    own, ends = _seam_pages(group[-1]), ends_met(group[-1])
    more = [(BY_SEWING[ends_sewing(ends)], "for the band's ends")] * bool(ends)
    more += [(ENDS, "for the rows above")] * any(
        join.stepped and any(join.stepped.above) for join in joins)
    if not more or not own:
        return own or tuple(page for page, _ in more)
    seams = own if len(own) > 1 else _several((own[0], "for the seam"))
    return (*seams, *_several(*more))


def _seam_pages(task: Task) -> tuple[PageLink, ...]:
    if task.kind in (TaskKind.SHOULDERS, TaskKind.SHOULDER_ROWS):
        return () if is_second(task) else (BY_METHOD.get(task.method, BY_ROWS),)
    if task.kind is TaskKind.SIDES and task.leaves is not None:
        return ONE_SIDE
    return (BY_SEWING[task.sewing],) if task.sewing else PAGES.get(task.kind, ())
