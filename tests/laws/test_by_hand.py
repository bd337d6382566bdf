"""What hands do without the carriage is missed where a program leaves it out, or argued by name."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import pytest
from walebook.bed.run import run
from walebook.machine.headings import Heading
from walebook.machine.programs import Program, ProgramSection
from walebook.machine.steps import Attend, Side
from walebook.pages.program import steps_html
from walebook.pattern.holes import ButtonholeKind
from walebook.pattern.model import Fold
from walebook.proof.proof import prove

from tests.laws.test_band_kinds import banded as band_of
from tests.laws.test_one_edge import faced_round
from tests.laws.test_sewn_ends import banded, made
from tests.laws.test_yarn_sums import source, worn

# Attended to, or not: no loop, end or edge of the work is another for it.
SPARE = {
    "choose holes": "holes whose stitches are moved or bound off are found on the bed itself",
    "look at holes": "looking finds what the bed would have refused",
    "waste end": "where the waste end hangs is not modelled",
    "sew buttons": "which strip has the buttons is the plan's",
    "join parts": "the part before is another program's",
    "sew ends": "a facing, and a band that is back-stitched down, look alike on the bed",
}
MISSED = {"clip ends": "cord-unclipped", "cloth": "no-cloth", "fold up": "not-folded",
          "sew ends": "ends-open", "leave ends": "ends-open", "sew facing": "edge-unsewn",
          "sew off": "edge-unsewn", "darn in": "ends-hanging",
          "choose slits": "slit-unsewn", "sew slits": "slit-unsewn", "join slits": "slit-unsewn",
          "choose eyelets": "hole-unsewn", "mark loops": "loops-unmade",
          "make loops": "loops-unmade",
          "overcast holes": "hole-unsewn", "sew round holes": "hole-unsewn",
          "overcast cord eyelets": "hole-unsewn", "count back": "marks-left",
          "choose holes": "hole-unchosen", "leave facing": "edge-unsewn"}


HOLES = {"button": "15 mm", "number": 3}
FRONTS = [("enclosing", {}), ("enclosing", {"buttonholes": HOLES}), ("folded", {}),
          ("folded", {"bind_off": "back-stitched"}), ("single", {"bind_off": "back-stitched"}),
          *((kind, {"buttonholes": {**HOLES, "closing": closing}}) for kind, closing in (
              ("folded", "enclosed"), ("folded", "eyelet"), ("folded", "slit"),
              ("single", "one stitch"), ("single", "two stitches"), ("single", "bound off"),
              ("single", "slit"), ("single", "loops"), ("facing", "loops")))]
CASING = source(garment=worn("set-in cardigan"), edges={
    "waist": {"kind": "closed round", "fabric": "body", "length": "60 cm"}}, bands={
    "waist": {"edge": "waist", "kind": "casing", "fabric": "band", "depth": "3 cm",
              "cord": {"width": "6 mm", "openings": "eyelets"}}})


@pytest.fixture(scope="module")
def programs() -> list[Program]:
    """A band of each kind with each closing, one with eyelets for a cord, and a facing in parts."""
    sizes = [made(banded(kind, **more))[1] for kind, more in FRONTS]  # type: ignore[arg-type]
    proof, problems = prove(faced_round(130))
    assert proof is not None, [str(p) for p in problems]
    sizes += [made(CASING)[1], proof.sizes[0]]
    return [strip.program for size in sizes for strip in size.strips]


def without(program: Program) -> Iterator[tuple[Attend, Program]]:
    """The program less each step for hands and eyes, one at a time."""
    for at, step in enumerate(steps := program.steps):
        if isinstance(step, Attend):
            yield step, replace(program, sections=(
                ProgramSection(heading=Heading.BODY, steps=(*steps[:at], *steps[at + 1:])),))


def test_what_is_left_undone_by_hand_is_refused_or_argued_by_name(programs: list[Program]) -> None:
    seen: dict[str, set[str]] = {}
    for program in programs:
        for step, spoiled in without(program):
            refusal = run(spoiled).refusal
            seen.setdefault(step.to, set()).add(refusal.code if refusal else "")
    lived = {topic for topic, codes in seen.items() if "" in codes}
    assert lived == set(SPARE), lived ^ set(SPARE)
    found = {topic: codes - {""} for topic, codes in seen.items() if codes - {""}}
    assert {topic: {MISSED[topic]} for topic in found} == found
    assert set(MISSED) == set(found)


def test_needles_that_were_not_chosen_get_no_hole(programs: list[Program]) -> None:
    """The page names the chosen needles, and the holes are made on them."""
    moved = 0
    for program in programs:
        for at, step in enumerate(steps := program.steps):
            if isinstance(step, Attend) and step.to in ("choose holes", "choose eyelets",
                                                        "clip ends"):
                wrong = replace(step, needles=step.needles.shifted(1))
                refusal = run(replace(program, sections=(ProgramSection(
                    heading=Heading.BODY, steps=(*steps[:at], wrong, *steps[at + 1:])),))).refusal
                assert refusal and refusal.code in ("hole-elsewhere", "clips-elsewhere"), step
                moved += 1
    assert moved > 7


def test_threads_for_buttons_must_come_out_though_no_other_marks_are_in() -> None:
    """A thread shows where each button of the other band goes: it is put in, and counted back."""
    proof, problems = prove(band_of("lengthwise", ButtonholeKind.BOUND_OFF, rows=80,
                                    fold=Fold.LOOSE, front=Side.RIGHT, split=(4, 5)))
    assert proof is not None, [str(p) for p in problems]
    strip = next(one for one in proof.sizes[0].strips if not one.with_holes)
    kept = tuple(step for step in strip.program.steps if not (
        isinstance(step, Attend) and step.to in ("mark quarter", "count back")))
    assert any(isinstance(step, Attend) and step.to == "mark button" for step in kept)
    refusal = run(replace(strip.program, sections=(
        ProgramSection(heading=Heading.BODY, steps=kept),))).refusal
    assert refusal is not None and refusal.code == "marks-left"


@pytest.mark.parametrize("rows", [4, 6, 8, 80])
def test_only_what_marked_a_lengthwise_band_is_counted_back(rows: int) -> None:
    """A band along a few rows has no thread to take out, and its steps can be written too."""
    made_of = band_of("lengthwise", None, rows=rows, fold=Fold.LOOSE, front=Side.RIGHT,
                      split=(4, 5))
    proof, problems = prove(made_of)
    assert proof is not None, [str(p) for p in problems]
    for strip in proof.sizes[0].strips:
        tied = any(step.marks for step in strip.program.steps)
        assert tied is any(step.to == "count back" for step in strip.program.of(Attend))
        assert "Count everything back in" in steps_html(strip, made_of, "band") or not tied
