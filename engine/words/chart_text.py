"""A stitch chart row by row in words, as the knitter meets it: the purl side towards her.

The words say everything that the drawing shows. Rows that are alike are told once.
"""

from __future__ import annotations

from ..fabric.chart_on_bed import Placed
from ..machine.needles import Needle, Needles
from ..machine.steps import Side
from ..markup.html import esc, items
from ..pattern.cells import Cell
from ..program.chart_actions import Action, Doing, cut_to, row_actions
from .two_yarn_instructions import contrast_text
from .words import counted, joined, stitches, which

PLAIN = "knit plain"

_TO_HOLD = "set the carriage to hold and bring the needles to holding position"
_BACK = ("For the next row in which they knit, put them back in upper working position, every "
         "latch open.")
_STAYS = "Leave it set to hold until a step says to set the carriage to knit."
# How each kind of work is done; tuck by holding: alessandrina.com, "tuck trims 4". The rest is
# common practice, no source.
HOW = {
    Doing.MOVE: "Move each stitch that the row names onto the needle beside it; move "
                "neighbours that go the same way together. "
                "Needles left empty stay in working position; the row fills them.",
    Doing.CROSS: "To cross, take a group off on two transfer tools: the left part on one, the "
                 "right part on the other. Hang each part on the other side of the group, in the "
                 "order that the row gives. The part that goes back first lies behind as you see "
                 "it, in front on the knit side.",
    Doing.TUCK: f"To tuck, {_TO_HOLD}: the yarn is laid over them. {_BACK} {_STAYS}",
    Doing.SLIP: "To slip, let the carriage pass the needles by: their stitches stay, and the yarn "
                "lies across them on the side towards you. Use the machine's own setting for that "
                f"row. Or slip by holding: {_TO_HOLD}, and lift the yarn over their hooks after "
                f"the row. {_BACK} Once no needle is held, set the carriage to knit again.",
    Doing.SECOND: "For a second colour bring the needles that the row names to upper working "
                  "position: they take the "
                  "contrast yarn from the second feeder, all others the main yarn from the first. "
                  "Each yarn floats past the other's stitches on the side towards you: let the "
                  "floats lie loose.",
}

MOVED = (Doing.MOVE, Doing.CROSS)
# As for moved stitches of an edge (common practice, no source).
WHILE_HOLDING = (" While the carriage is set to hold, put the needles of these stitches back in "
                 "upper working position, latches open. It passes by those that are fully forward.")


def chart_text(placed: Placed, *, title: str) -> str:
    """Return the chart of a straight piece, which holds no stitches, in words, as HTML: what holds
    throughout, how to, then every row."""
    rows = (f"<b>{numbers}:</b> {text}." for numbers, text in rows_text(placed))
    how = how_text(placed, holds=False)
    return (f'<div class="wb-chart-rows"><p><b>{esc(title)}, row by row.</b> {lying(placed)} '
            f"The purl side faces you; left and right are those of the bed. Before each row do "
            f"what it says, then knit it.</p>{how}{items(rows)}{_over(placed)}</div>")


def how_text(placed: Placed, *, holds: bool) -> str:
    """How each kind of work that the chart asks for is done, as HTML; with `holds`, where the
    carriage is set to hold."""
    return "".join(f"<p>{HOW[doing]}{WHILE_HOLDING * (holds and doing in MOVED)}"
                   f"{contrast_text(placed) if doing is Doing.SECOND else ''}</p>"
                   for doing in _kinds(placed))


def _kinds(placed: Placed) -> list[Doing]:
    """The kinds of work that the chart asks for, each once."""
    needed = {action.doing for row in range(1, placed.chart.height + 1)
              for action in row_actions(placed, row)}
    return [doing for doing in Doing if doing in needed]


def lying(placed: Placed) -> str:
    """How the repeats lie on the needles, in sentences."""
    chart = placed.chart
    first, last = placed.taken.first, placed.taken.last
    text = (f"{first} to {last}: {counted(placed.repeats, 'whole repeat')} of "
            f"{counted(chart.width, 'needle')}, the first from "
            f"{Needle(first.place + placed.bounds[0])}, the last to "
            f"{Needle(first.place + placed.bounds[-1] - 1)}.")
    cut = [f"{stitches(number)} of one on the {side}"
           for number, side in zip(placed.cut, ("left", "right"), strict=True) if number]
    if cut:
        text += f" Beside them stand {joined(cut)}."
    if placed.edges:
        text += f" Edge, always plain: {which(placed.edges)}."
    if out := placed.on(1, Cell.OUT):
        text += f" Out of work throughout: {which(out)}."
    return text


def _over(placed: Placed) -> str:
    height = placed.chart.height
    again = f"rows 1 to {height}" if height > 1 else "this row"
    return f"<p>Repeat {again} over and over.</p>"


def rows_text(placed: Placed, free: Needles | None = None) -> tuple[tuple[str, str], ...]:
    """Return the rows of a repeat in words: ("Rows 1 and 3", "knit plain"), alike ones together.

    They stand in the order of their first rows, as far as the needles are `free` for the chart.
    """
    alike: dict[str, list[int]] = {}
    for row in range(1, placed.chart.height + 1):
        alike.setdefault(row_text(placed, row, free), []).append(row)
    return tuple((_rows(numbers), text) for text, numbers in alike.items())


def _rows(numbers: list[int]) -> str:
    """ "Row 3", "Rows 1, 3 and 5 to 8"."""
    if len(numbers) == 1:
        return f"Row {numbers[0]}"
    runs = [[numbers[0], numbers[0]]]
    for number in numbers[1:]:
        if number == runs[-1][1] + 1:
            runs[-1][1] = number
        else:
            runs.append([number, number])
    parts: list[str] = []
    for a, b in runs:
        parts += [f"{a} to {b}"] if b > a + 1 else [str(n) for n in range(a, b + 1)]
    return f"Rows {joined(parts)}"


def row_text(placed: Placed, row: int, free: Needles | None = None) -> str:
    """Return one row in words; "knit plain" where all needles do the same."""
    actions = row_actions(placed, row)
    if free is not None:
        actions = cut_to(actions, free)
    return "; ".join(map(action_text, actions)) or PLAIN


def action_text(action: Action, where: str = "") -> str:
    """Return one kind of work in a row in words: "tuck on every fourth needle from L9 to R8".

    Its needles are called `where`, if that is given.
    """
    where = where or which(action.needles)
    if action.doing is Doing.MOVE:
        side = "right" if action.by > 0 else "left"
        return f"move {_of(action.needles)} {where} one needle to the {side}"
    if action.doing is Doing.CROSS:
        return ": ".join(crossing(action, where))
    return f"{action.doing.value} on {where}"


def _of(needles: Needles) -> str:
    return "the stitch of" if len(needles) == 1 else "the stitches of"


def crossing(action: Action, where: str) -> tuple[str, str]:
    """Return what is crossed, and the two moves of each crossing in their order."""
    size = action.left + action.right
    moves = [(Side.LEFT, action.left, action.right), (Side.RIGHT, action.right, action.left)]
    if action.first is Side.RIGHT:
        moves.reverse()
    (one, a, by_a), (two, b, by_b) = moves
    return (f"cross in groups of {size} on {where}",
            f"of each, the {_some(a, one)} first, "
            f"{counted(by_a, 'needle')} to the {one.other.value}, then the {_some(b, two)}, "
            f"{counted(by_b, 'needle')} to the {two.other.value}")


def _some(number: int, side: Side) -> str:
    return f"{number} {side.value}-hand {'stitches' if number > 1 else 'stitch'}"
