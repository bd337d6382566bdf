"""Words of facts that are compared, and of the operands by which one moved."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from fractions import Fraction
from functools import partial

from ..compare.moves import Move
from ..core.counts import decimal
from ..core.operands import Role
from ..core.problems import Problem
from ..core.text import series
from ..plan.pickup import PickUp
from ..shape.profile import How, Profile
from ..shape.schedule import schedule_of
from .branches import branches_text
from .terms.operand_words import WORDS, FigureForm
from .terms.schedules import schedule_text
from .terms.spelled import figure
from .words import counted
from .workings import rows_taken

LEFT_EDGE, RIGHT_EDGE = "left edge", "right edge"
OUTER_EDGE, NECK_EDGE = "outer edge above the opening", "neck edge"
ROWS_TAKEN = "rows taken"
LEFT_TAKEN = f"{ROWS_TAKEN}, left armhole"
STEPS = "steps"
"""What a strip or piece has, where the steps themselves are not told."""
ORDER = ("the order of its keys", "another order")
"""What a mapping had before, and has now, where its keys stand in another order."""
UNREAD = "a text that is no YAML"
"""What a whole source had before, or has now, where it cannot be read."""
_BARE = frozenset((
    Role.TITLED, Role.SEAMS, Role.SEAM, Role.INSIDE, Role.INSIDE_BANDS, Role.ARMHOLE_BAND,
    Role.WITHIN, Role.OVER_HELD, Role.AT_TIP, Role.AT_ENDS, Role.SECOND_COLOUR, Role.IN_STRIPES,
    Role.BEHIND, Role.ROWS_BEFORE, Role.ROWS_AFTER))
"""Stitches or rows that a sum has without their unit: "3 for the seams"."""
_MORE_PLACES = 6  # decimals more than usual after which two figures that print alike stay so


def count_shown(value: int | tuple[int, ...], unit: str) -> str:
    """A count with its unit, or several: "1 stitch", "156 stitches", "20, 20, 21 stitches"."""
    if isinstance(value, tuple):
        return f"{', '.join(map(str, value))} {unit}" if value else f"no {unit}"
    one = "stitch" if unit == "stitches" else unit.removesuffix("s")
    return f"{value} {one if value == 1 else unit}"


def exact_shown(value: Fraction, unit: str, more: int = 0) -> str:
    """A figure that is not rounded, with its unit: "4.467 mm", "0.003 grams"; `more` decimals."""
    return f"{decimal(value, 3 + more)} {unit}"


def with_more_places(text: Callable[[int], str]) -> Iterator[str]:
    """Yield what a function gives for one decimal more than usual, for two, and so on."""
    return map(text, range(1, _MORE_PLACES))


def join_shown(sewn: Sequence[Fraction], unit: str, more: int = 0) -> str:
    """Both sides of a join: "66 and 65 rows", "412.3 and 415.9 mm"."""
    return f"{' and '.join(decimal(side, 1 + more) for side in sewn)} {unit}"


def join_closer(sewn: Sequence[Fraction], unit: str, ease: Fraction, allowed: Fraction
                ) -> Iterator[str]:
    """Both sides of a join more and more closely, and last what may lie between them."""
    yield from with_more_places(partial(join_shown, sewn, unit))
    eased, off = (decimal(one, _MORE_PLACES) for one in (ease, allowed))
    yield f"{join_shown(sewn, unit)}, with an ease of {eased} {unit} and {off} {unit} allowed"


def edge_shaped(edge: Profile) -> str:
    """The shaping of an edge: "decrease 1 on every 6th row 4 times; bind off 4 on row 60"."""
    alike: dict[tuple[How, int], set[int]] = {}
    for row, many, how, _ in edge.changes:
        alike.setdefault((how, many), set()).add(row)
    return "; ".join(
        schedule_text(schedule_of(sorted(rows), edge.rows), f"{how.value} {many}", "")
        for (how, many), rows in alike.items()) or "straight"


def edge_closer(edge: Profile) -> Iterator[str]:
    """The shaping of an edge with how far inside it that of its darts lies."""
    inside = series(list(dict.fromkeys(str(one.inset) for one in edge.changes if one.how.at_dart)),
                    "and")
    if inside:
        yield f"{edge_shaped(edge)}, {inside} stitches inside the edge"


def finding_named(problem: Problem) -> str:
    """A finding without its place: 'error, unknown-word: found "foldedd", expected "folded"'."""
    expected = f", expected {problem.expected}" if problem.expected else ""
    return f"{problem.severity.value}, {problem.code}: found {problem.found}{expected}"


def rows_taken_shown(pick: PickUp) -> str:
    """Which rows of its edge a band takes."""
    return rows_taken(pick).rstrip(".")


def rows_taken_closer(pick: PickUp) -> Iterator[str]:
    """Which rows of its edge a band takes, with how many lie between those that it misses."""
    yield f"{rows_taken_shown(pick)} (rows one after the other: {', '.join(map(str, pick.runs))})"


def strip_steps(front: str, number: int = 0) -> str:
    """What the steps of a strip are called, and of a part of it its number."""
    return f"steps, {front} front" + (f", part {number}" if number else "")


def move_text(move: Move) -> str:
    """What moved, as one phrase: "body_length 52 → 53 cm", "87 → 89 rows above the hem"."""
    if move.role is None:
        old, new = move.names
        return f"rounded {old} → {new}" if not move.branches else \
            f"calculated otherwise: {branches_text(*move.branches, move.unit)}"
    old, new = (name.strip(" ,") for name in move.names)
    words = WORDS[move.role]
    if words.figure is FigureForm.IN_WORDS:
        return f"{old} → {new}"
    pair = " → ".join(_figures(move.before, move.after, move.role))
    if move.role is Role.NUMBER:  # in a sum it stands without the name of the count that it is
        plain = new.replace("_", " ")
        return f"{plain} {pair} {move.unit}".rstrip() if not plain.endswith(move.unit) else \
            f"{plain} {pair}"
    if move.role is Role.OF_SCHEDULE:  # counts.json calls it so
        return f"schedule {new}: {pair}"
    name = move.names[1] if old == new else f" {old} → {new}"
    if words.figure is FigureForm.ALONE:
        return f"{pair} {words.unit}".rstrip()
    unit = " mm" if words.unit == "mm" and not words.long else ""  # a sum names it at its end
    if move.role in _BARE:
        pair += f" {words.unit}"
    return " ".join(words.text.format(pair, name=name, long=words.long).split()) + unit


def _figures(before: Fraction, after: Fraction, role: Role) -> tuple[str, str]:
    """Both figures, printed so closely that they differ."""
    for extra in range(_MORE_PLACES):
        pair = figure(before, role, extra), figure(after, role, extra)
        if pair[0] != pair[1]:
            break
    return pair


def steps_shown(many: int) -> str:
    """How many steps a strip or piece has."""
    return counted(many, "step")
