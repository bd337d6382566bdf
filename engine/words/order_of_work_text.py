"""Words for the order of work: what a list of the work says of each part, and where it stands."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from ..proof.proof import KnittedPiece, Strip
from ..shape.tasks import Task, TaskKind
from .bands_named import is_second, named
from .task_instructions import ends_and_tops
from .words import counted, stitches

ORDER = "Order of work"
# What is done in a task, in few words; bands and pieces have lines of their own in the list.
SHORT: Mapping[TaskKind, str] = {
    TaskKind.SEW_OFF: "sew open edges off the waste yarn",
    TaskKind.DRAW_UP: "draw up the top",
    TaskKind.DRAW_LOWER: "draw up the other end",
    TaskKind.FOLD_IN: "push one half into the other",
    TaskKind.BLOCK: "block",
    TaskKind.TURN: "turn the pieces",
    TaskKind.LININGS: "sew the pocket linings down",
    TaskKind.SEW_NECK: "sew the neck off the waste yarn",
    TaskKind.SHOULDERS: "join the shoulders",
    TaskKind.SHOULDER_ROWS: "sew the shoulders",
    TaskKind.RAGLANS: "sew the raglan seams",
    TaskKind.STRAPS: "sew the straps to the shoulders",
    TaskKind.FOOT: "sew the placket bands to the slit",
    TaskKind.ZIP: "set in the zip",
    TaskKind.CAPS: "set in the sleeves",
    TaskKind.TOPS: "sew the sleeve tops",
    TaskKind.TOPS_TO_SIDES: "sew the sleeve tops",
    TaskKind.SIDES: "sew the side seams",
    TaskKind.QUARTER_SEAMS: "sew the quarters together",
    TaskKind.CROWN_SEAM: "sew the seam",
    TaskKind.SEAM_REST: "close the seam",
    TaskKind.DECLARED: "sew the seams",
    TaskKind.THUMBS: "sew the thumbs",
    TaskKind.HAND_SIDES: "sew the sides",
    TaskKind.THUMB_SLIT: "sew in the thumbs",
    TaskKind.PANELS: "sew the panels together",
    TaskKind.CORD: "draw in the cord",
    TaskKind.WASH: "wash",
    TaskKind.DARN: "darn in the ends",
    TaskKind.TURN_UP: "turn the brim up",
}
# A task that leaves one seam open, and the task that sews this.
BUT_ONE: Mapping[TaskKind, str] = {
    TaskKind.SHOULDERS: "join the right shoulder",
    TaskKind.SHOULDER_ROWS: "sew the right shoulder",
    TaskKind.RAGLANS: "sew the raglan seams but one",
    TaskKind.SIDES: "sew the right side",
    TaskKind.STRAPS: "sew the straps to the shoulders, all but one seam",
}
LATER: Mapping[TaskKind, str] = {
    TaskKind.SHOULDERS: "join the left shoulder",
    TaskKind.SHOULDER_ROWS: "sew the left shoulder",
    TaskKind.RAGLANS: "sew the last raglan seam",
    TaskKind.STRAPS: "sew the left strap to the back",
    TaskKind.SIDES: "sew the left side",
}


def place_text(number: int, of: int) -> str:
    """Which part of the work one is: "1 of 8"."""
    return f"{number} of {of}"


def piece_text(knitted: KnittedPiece, steps: int, times: int) -> str:
    """What the list says of a piece."""
    each = " each" if times > 1 else ""
    return f"{stitches(len(knitted.piece.needles))}, {counted(steps, 'step')}{each}"


def strip_text(strip: Strip, steps: int) -> str:
    """What the list says of a band."""
    each = " each" if strip.plan.edge_path.times > 1 else ""
    return f"{stitches(len(strip.layout.needles))}, {counted(steps, 'step')}{each}"


def steps_text(steps: int) -> str:
    """What the list says of what is set into a band."""
    return counted(steps, "step")


def making_text(tasks: Iterable[Task]) -> str:
    """What the list says of a part of the making up: its tasks in few words, and the bands that
    are worked where it has no other task."""
    listed = list(tasks)
    short = dict.fromkeys(text for task in listed if (text := _short(task)))
    bands = [band for task in listed for band in task.bands]
    return ", ".join(short) or f"work the {named(bands, several=True)}"


def _short(task: Task) -> str:
    """A task in few words; one that is done in two parts by what each of them is."""
    if is_second(task) and task.kind in LATER:
        return LATER[task.kind]
    if task.leaves is not None and task.kind in BUT_ONE:
        return BUT_ONE[task.kind]
    if task.kind is TaskKind.ENDS_TO_TOPS:
        neck, front = ends_and_tops(task)
        return f"sew the {neck} to the {front}"
    return SHORT.get(task.kind, "")
