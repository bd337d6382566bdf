"""Pieces for the laws: cut from forms, knitted on the bed, mirrored, counted from their steps."""

from __future__ import annotations

from collections import Counter
from dataclasses import fields, replace
from fractions import Fraction
from functools import cache
from pathlib import Path

from walebook.bed.run import run
from walebook.core.expression import plain
from walebook.core.problems import Place
from walebook.core.units import Length
from walebook.fabric.gauge import Gauge
from walebook.forms.registry import FORMS
from walebook.machine.headings import Heading
from walebook.machine.needles import Needles
from walebook.machine.programs import Program
from walebook.machine.reasons import Reason
from walebook.machine.steps import Claim, Cross, Dial, Knit, Side, Step
from walebook.machine.trace import Trace
from walebook.pattern.fabrics import Repeat
from walebook.pattern.model import Fold, HemSpec, Neck
from walebook.pattern.rib_specs import RibSpec
from walebook.program.piece_program import piece_program
from walebook.shape.garment import Cut, Garment
from walebook.shape.piece import Piece
from walebook.shape.profile import How
from walebook.sizing.charts import Chart
from walebook.sizing.measures import Definition, evaluate
from walebook.sizing.quantities import Quantity
from walebook.source.size_chart import read_chart
from walebook.source.source import parse_source

from tests.small_patterns import outline_of

SIZES = Path(__file__).parents[2] / "patterns" / "_sizes"
WIDE_BED = 1900  # so that no piece is too wide: what is on trial is the shaping
OTHER = {"left": "right", "right": "left"}
MIRRORED = {Reason.AT_LEFT: Reason.AT_RIGHT, Reason.AT_RIGHT: Reason.AT_LEFT}


@cache
def chart(key: str) -> Chart:
    """A size chart of the collection."""
    node, _ = parse_source((SIZES / f"{key}.yaml").read_text(encoding="utf-8"), name=key)
    made, _ = read_chart(node, key=key)
    assert made is not None
    return made


def gauge(stitches: Fraction | int | str, rows: Fraction | int | str) -> Gauge:
    """A gauge from stitches and rows to 10 cm."""
    return Gauge(100 / Fraction(stitches), 100 / Fraction(rows))


def hem(depth: int, fold: Fold) -> HemSpec:
    """A hem so deep [mm]."""
    return HemSpec(depth=Length(Fraction(depth)), fold=fold, dial=Dial(12))


def cut(form: str, known: dict[str, Quantity], gauge: Gauge, *, own: dict[str, str] | None = None,
        hem: HemSpec | RibSpec | None = None, repeat: Repeat | None = None, neck: Neck = Neck.ROUND,
        band: int = 0, hidden: int = 2, moved: int = 3) -> Cut:
    """What `form` is cut from, its own measures where `own` has no other."""
    outline, drawn = outline_of(form)
    texts = {**drawn, **FORMS[form].measures, **(own or {})}
    measures, problems = evaluate(
        {name: Definition(text, Place("law", 1, 1)) for name, text in texts.items()}, known)
    assert not problems, [str(p) for p in problems]
    return Cut(size="one", measures={**known, **measures}, gauge=gauge, dial=Dial(18), neck=neck,
               hem=hem, bands=plain(band), hidden=hidden, moved=moved, repeat=repeat,
               outline=outline)


def knit(piece: Piece) -> tuple[Program, Trace]:
    """The piece's program and what came of it."""
    program = piece_program(piece, dial=Dial(18), bed_needles=WIDE_BED,
                            second_needles=WIDE_BED)
    return program, run(program)


def short_rows(piece: Piece) -> list[tuple[Needles, list[Needles]]]:
    """Of each section of short rows all needles of the piece, and those that each row knits."""
    program, result = knit(piece)
    found, at = [], 0
    for section in program.sections:
        upto = at + len(section.steps)
        if section.heading is Heading.SHORT_ROWS:
            found.append((result.states[at - 1].loaded, [
                state.loaded - state.holding for step, state in zip(
                    section.steps, result.states[at:upto], strict=True)
                if isinstance(step, Knit) for _ in range(step.rows)]))
        at = upto
    return found


def last_row(program: Program, result: Trace) -> int:
    """What the row counter showed after the last row [rows]: what takes stitches off on waste yarn
    runs it on."""
    return [state.counter for step, state in zip(program.steps, result.states, strict=True)
            if isinstance(step, Knit)][-1]


def faults(garment: Garment) -> list[str]:
    """What stops a garment: pieces the bed refuses, and joins that stay open."""
    refused = [f"{piece.title}: {refusal}" for piece in garment.pieces
               if (refusal := knit(piece)[1].refusal)]
    return refused + [f"{join.title}: {join.working}" for join in garment.joins if not join.closes]


def waiting(result: Trace) -> dict[str, int]:
    """The loops that wait at the end, by their edge."""
    return dict(result.states[-1].waiting)


def changes(piece: Piece) -> Counter[How]:
    """Stitches that come and go, by how, both halves above an opening counted."""
    edges = [piece.left, piece.right]
    if piece.opening:
        edges += 2 * [piece.opening.outer, piece.opening.inner]
    made: Counter[How] = Counter()
    for edge in edges:
        for change in edge.changes:
            made[change.how] += change.stitches
    return made


def mirrored(program: Program) -> tuple[tuple[Step, ...], ...]:
    """All steps with left and right exchanged, section by section."""
    return tuple(tuple(_mirror(step) for step in section.steps) for section in program.sections)


def _mirror(step: Step) -> Step:
    made = replace(step, **{f.name: _other(f.name, getattr(step, f.name)) for f in fields(step)})
    return replace(made, left=made.right, right=made.left) if isinstance(made, Cross) else made


def _other(name: str, value: object) -> object:
    if isinstance(value, Needles):
        return value.mirrored()
    if isinstance(value, Side):
        return value.other
    if isinstance(value, Claim):
        return value._replace(side=value.side.other)
    if name == "by" and isinstance(value, int):
        return -value
    if isinstance(value, Reason):
        return MIRRORED.get(value, value)
    return value
