"""Stripes of every form: each row in its yarn, yarns carried or cut by the rule, seams that match.

The yarn of every row is counted here anew from the words of the source: from the hem upward, or
from the top down, and on a sleeve from the row at which it meets the body.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import cache
from typing import Any

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st
from walebook.bed.run import run
from walebook.catalogue.forms import Construction
from walebook.core.problems import Problem
from walebook.forms.registry import FORMS
from walebook.machine.headings import Heading
from walebook.machine.needles import NONE, Needle, between
from walebook.machine.programs import Program, ProgramSection
from walebook.machine.reasons import Reason
from walebook.machine.step_keys import StepYarn
from walebook.machine.steps import Hold, Knit, SetCounter, Side, Thread, Unthread
from walebook.machine.two_yarn_steps import ThreadContrast, UnthreadContrast
from walebook.proof.proof import KnittedPiece, Proof, prove
from walebook.proof.yarn_requirement import yarn_requirements
from walebook.shape.striping import Striped, stripes_of
from walebook.source.pattern import read_pattern
from walebook.source.source import parse_source

from tests.laws.pieces import chart
from tests.scale import examples

YARNS = ("fog", "lamp", "tide")  # the first is the fabric's
CALLED = (StepYarn.MAIN, StepYarn.SECOND, StepYarn.THIRD)
WORN = [name for name, form in FORMS.items() if form.is_worn]
RAGLANS = [name for name in FORMS if "raglan" in name]
OWN = {"measures": {"wide": "40 cm", "high": "50 cm"},
       "pieces": {"bag": {"width": "wide", "height": "high"}}}  # for a form without its own pieces
SWATCH = {"stitches": 20, "width": "10 cm", "rows": 28, "height": "10 cm", "mass": "9 g"}


def source(form: str, stripes: dict[str, Any], **more: Any) -> str:
    """A garment of one size with these stripes, on a bed wide enough for all."""
    return yaml.safe_dump({
        "title": "Striped", "version": "1", "date": "2026-11-29", "designer": "Isolde Penhallow",
        "licence": "CC BY-NC 4.0", "summary": "Stripes.", "wearer": "women",
        "bed": {"pitch": "5 mm", "needles": 400},
        "yarns": {key: {"name": key.title(), "count": "2/10 Nm", "package": {"mass": "100 g"}}
                  for key in YARNS},
        "fabrics": {"body": {"yarn": "fog", "dial": 6, "swatch": SWATCH}}, "sizes": ["M"],
        "garment": {"form": form, "fabric": "body", "stripes": stripes,
                    **(OWN if FORMS[form].construction is Construction.OUTLINE else {}), **more,
                    **({"chart": "women"} if FORMS[form].is_worn else {})}}, sort_keys=False)


def read(text: str) -> tuple[Proof | None, tuple[Problem, ...]]:
    """The proof of a source with all findings."""
    node, problems = parse_source(text, name="pattern.yaml")
    assert node is not None
    pattern, more = read_pattern(node, slug="striped", beds={}, charts={"women": chart("women")})
    if pattern is None:
        return None, (*problems, *more)
    proof, found = prove(pattern)
    return proof, (*problems, *more, *found)


@cache
def plain(form: str) -> Proof:
    """The same garment without stripes."""
    made = yaml.safe_load(source(form, {}))
    del made["garment"]["stripes"]
    proof, found = read(yaml.safe_dump(made, sort_keys=False))
    assert proof is not None, [str(p) for p in found]
    return proof


def sequence(*stripes: tuple[str, int]) -> list[dict[str, Any]]:
    return [{"yarn": yarn, "rows": rows} for yarn, rows in stripes]


@st.composite
def asked(draw: st.DrawFn) -> tuple[str, dict[str, Any]]:
    """A form and its stripes."""
    yarns = draw(st.sampled_from((("fog", "lamp"), ("lamp", "tide"), ("lamp", "fog", "tide", "fog"),
                                  ("tide",))))
    odd = draw(st.booleans())
    rows = st.integers(1, 24) if odd else st.integers(1, 12).map(lambda n: 2 * n)
    stripes: dict[str, Any] = {
        "sequence": sequence(*((yarn, draw(rows)) for yarn in yarns)),
        "carried": draw(st.integers(0, 12)), "odd_rows": "cut" if odd else "refused",
        "repeat": draw(st.sampled_from(("yes", "no"))),
        "begin": draw(st.sampled_from(("hem", "top"))), "unmatched": "yes",
        "sleeves": draw(st.sampled_from(("counted like the body's", "level at the underarm")))}
    form = draw(st.sampled_from(sorted(FORMS)))
    return form, stripes


def rows_of(program: Program) -> list[tuple[int, str]]:
    """Every row above the hem by the row counter and its yarn, in the order of knitting."""
    found: list[tuple[int, str]] = []
    counter = 0
    for step in program.steps:
        if isinstance(step, SetCounter):
            if step.reason is not Reason.WHERE_DIVIDED:
                found.clear()  # rows of waste yarn, or of a hem
            counter = step.rows
        elif isinstance(step, Knit):
            found += [(counter + n, step.yarn) for n in range(1, step.rows + 1)]
            counter += step.rows
    return found


def wanted(stripes: dict[str, Any], row: int, last: int, up: int) -> str:
    """The yarn of a row, so many rows `up` from the same level of the body, by the source."""
    order = [each["yarn"] for each in stripes["sequence"] for _ in range(each["rows"])]
    called = dict(zip(dict.fromkeys(("fog", *order)), CALLED, strict=False))
    place = last - row - up if stripes["begin"] == "top" else row + up - 1
    if stripes["repeat"] == "no" and not 0 <= place < len(order):
        return called["fog"]
    return called[order[place % len(order)]]


def level(proof: Proof, knitted: KnittedPiece, stripes: dict[str, Any]) -> tuple[int, int]:
    """The last row from which a piece's stripes are counted, and how far up the body it lies."""
    assembled = proof.sizes[0].assembled
    assert assembled is not None
    own = knitted.piece.striped
    assert own is not None
    bodies = [p.piece for p in proof.sizes[0].pieces
              if p.piece.key in ("back", "front", "right_front", "left_front")]
    if knitted.piece.key != "sleeve" or stripes["sleeves"].startswith("counted") or not bodies:
        return own.last, 0
    under = {key: next((c.value for of, name, c in assembled.garment.counts
                        if of == key and name.startswith("rows_to_")), 0)
             for key in ("back", "sleeve")}
    assert bodies[0].striped is not None
    return bodies[0].striped.last, under["back"] - under["sleeve"]


@settings(max_examples=examples(13), deadline=None)
@given(asked())
def test_every_row_is_knitted_in_its_yarn(made: tuple[str, dict[str, Any]]) -> None:
    form, stripes = made
    proof, found = read(source(form, stripes))
    assert proof is not None, [str(p) for p in found]
    before = {p.piece.key: p for p in plain(form).sizes[0].pieces}
    for knitted in proof.sizes[0].pieces:
        assert knitted.trace.refusal is None
        last, up = level(proof, knitted, stripes)
        rows = rows_of(knitted.program)
        assert [counter for counter, _ in rows] == [
            counter for counter, _ in rows_of(before[knitted.piece.key].program)]
        top = knitted.piece.striped.last if knitted.piece.striped else 0
        for row, yarn in rows:
            assert yarn == wanted(stripes, min(row, top), last, up), (form, row)
        other = dict(before[knitted.piece.key].trace.stitches)
        assert sum(n for yarn, n in dict(knitted.trace.stitches).items() if yarn in CALLED) \
            == other[StepYarn.MAIN]


@settings(max_examples=examples(8), deadline=None)
@given(asked())
def test_a_yarn_is_carried_over_few_rows_and_cut_before_many(made: tuple[str, dict[str, Any]]
                                                             ) -> None:
    """Between two stripes of one yarn the rows of the program are counted, half by half."""
    form, stripes = made
    proof, _ = read(source(form, stripes))
    assert proof is not None
    for knitted in proof.sizes[0].pieces:
        out: dict[str, int] = {}
        rows, yarn = 0, ""
        for step in knitted.program.steps:
            if isinstance(step, SetCounter) and step.reason is Reason.WHERE_DIVIDED:
                out.clear()
            rows += step.rows if isinstance(step, Knit) else 0
            if isinstance(step, Unthread) and step.reason is Reason.STRIPE and not step.cut:
                assert step.number <= stripes["carried"]
                assert step.number % 2 == 0
                out[yarn] = rows
            if isinstance(step, Thread):
                yarn = step.yarn
                if not step.fresh and step.reason is Reason.STRIPE:
                    assert rows - out.pop(yarn) <= stripes["carried"]


def test_yarn_and_ends_follow_the_rows_of_each_yarn() -> None:
    """Two rows in four of either yarn: as many stitches of both, but for the hemless cast-on."""
    proof, _ = read(source("panelled blanket", {
        "sequence": sequence(("fog", 2), ("lamp", 2)), "carried": 2}, measures={
            "panels": 1, "blanket_width": "40 cm", "blanket_length": "40 cm"}))
    assert proof is not None
    (panel,) = proof.sizes[0].pieces
    rows = panel.piece.rows
    assert rows % 4 == 0
    fog, lamp = yarn_requirements(proof.pattern, proof.sizes[0])
    assert [need.parts[0].stitches.value for need in (fog, lamp)] == 2 * [
        panel.piece.stitches.value * rows // 2]
    fresh = [step for step in panel.program.of(Thread) if step.fresh]
    assert [step.yarn for step in fresh] == [StepYarn.MAIN, StepYarn.SECOND]


@pytest.mark.parametrize("form", RAGLANS)
@pytest.mark.parametrize("begin", ["hem", "top"])
def test_stripes_that_are_level_at_the_underarm_match_all_the_way_up(form: str, begin: str) -> None:
    stripes = {"sequence": sequence(("fog", 6), ("lamp", 4)), "begin": begin,
               "sleeves": "level at the underarm", "carried": 6}
    proof, found = read(source(form, stripes))
    assert proof is not None
    assert not [p for p in found if p.code == "stripes-unmatched"]
    assembled = proof.sizes[0].assembled
    assert assembled is not None
    under = {of: c.value for of, name, c in assembled.garment.counts if name == "rows_to_raglan"}
    pieces = {p.piece.key: p.piece for p in proof.sizes[0].pieces}
    back, sleeve = pieces["back"].striped, pieces["sleeve"].striped
    assert back is not None
    assert sleeve is not None
    for up in range(1, min(back.last - under["back"], sleeve.last - under["sleeve"])):
        assert back.yarn(under["back"] + up) == sleeve.yarn(under["sleeve"] + up)


@pytest.mark.parametrize("form", [name for name in WORN if "back" in str(FORMS[name].rounds)])
def test_a_striped_back_beside_a_plain_front_is_warned_of_unless_it_is_said(form: str) -> None:
    stripes = {"sequence": sequence(("lamp", 4), ("fog", 4)), "pieces": ["back"]}
    _, found = read(source(form, stripes))
    (said, *_) = [p for p in found if p.code == "stripes-unmatched"]
    assert "of the back in the second yarn" in said.found
    assert "row 1 " in said.found
    _, found = read(source(form, {**stripes, "unmatched": "yes"}))
    assert not [p for p in found if p.code == "stripes-unmatched"]


@pytest.mark.parametrize("form", [name for name in WORN if "sleeve" in str(FORMS[name].rounds)])
def test_only_a_raglan_has_raglan_seams_in_which_stripes_may_not_meet(form: str) -> None:
    _, found = read(source(form, {"sequence": sequence(("lamp", 4), ("fog", 4)),
                                  "pieces": ["sleeve"]}))
    warned = [p for p in found if p.code == "stripes-unmatched" and "raglan seam" in p.found]
    assert bool(warned) == (form in RAGLANS), found


def test_a_change_left_out_or_a_yarn_threaded_elsewhere_is_refused() -> None:
    """Spoiled: each thread and each unthread of a striped front left out; each carried yarn cut."""
    proof, _ = read(source("drop-shoulder pullover", {
        "sequence": sequence(("fog", 4), ("lamp", 2), ("tide", 2)), "carried": 8}))
    assert proof is not None
    program = next(p.program for p in proof.sizes[0].pieces if p.piece.key == "front")
    steps = program.steps
    changes = [at for at, step in enumerate(steps) if step.reason is Reason.STRIPE]
    assert len(changes) > 20
    for at in changes:
        assert _refused(program, [*steps[:at], *steps[at + 1:]])
        step = steps[at]
        if isinstance(step, Unthread) and not step.cut:
            assert _refused(program, [*steps[:at], replace(step, cut=True), *steps[at + 1:]])
        if isinstance(step, Thread):
            other = next(yarn for yarn in CALLED if yarn != step.yarn)
            assert _refused(program, [*steps[:at], replace(step, yarn=other), *steps[at + 1:]])


CARRIED = [(("fog", 4), ("lamp", 2), ("tide", 2)), (("fog", 2), ("lamp", 2)),
           (("fog", 4), ("lamp", 2), ("fog", 2), ("tide", 4))]


@pytest.mark.parametrize("order", CARRIED)
def test_no_yarn_is_laid_over_held_needles_and_a_new_end_goes_round_the_one_at_its_turn(
        order: tuple[tuple[str, int], ...]) -> None:
    """Between the needle on which a yarn's row ended and the one with which its next row begins at
    most one is held: round that it turns. A yarn that is carried at a shoulder's steps would lie
    over all that were held since (common practice, no source)."""
    proof, found = read(source("drop-shoulder pullover", {
        "sequence": sequence(*order), "carried": 8}))
    assert proof is not None, found
    turns = 0
    for knitted in proof.sizes[0].pieces:
        left_at: dict[str, Needle] = {}
        for at, (step, state) in enumerate(zip(knitted.program.steps, knitted.trace.states,
                                               strict=True)):
            if isinstance(step, Knit):
                before = knitted.trace.states[at - 1]
                begins = before.working.last if before.side is Side.RIGHT else before.working.first
                if step.yarn in left_at:
                    low, high = sorted((begins, left_at[step.yarn]))
                    assert len(between(low, high) & before.holding) < 2, (knitted.piece.key, at)
                left_at[step.yarn] = state.working.last if state.side is Side.RIGHT \
                    else state.working.first
            if isinstance(step, Thread) and step.fresh:
                left_at.pop(step.yarn, None)
                turns += len(step.under)
    assert turns > 2


def test_a_yarn_carried_over_held_needles_and_an_end_laid_round_none_are_refused() -> None:
    proof, _ = read(source("drop-shoulder pullover", {"sequence": sequence(*CARRIED[1])}))
    assert proof is not None
    program = next(p.program for p in proof.sizes[0].pieces if p.piece.key == "back")
    steps = list(program.steps)
    bare = [at for at, step in enumerate(steps) if isinstance(step, Thread) and step.under]
    assert bare
    for at in bare:
        spoiled = [*steps[:at], replace(steps[at], under=NONE), *steps[at + 1:]]
        assert _refusal(program, spoiled) == "turn-bare"
    again = next(at for at in bare if steps[at].yarn == StepYarn.MAIN)
    out = max(at for at in range(again) if isinstance(steps[at], Unthread) and at > 0
              and isinstance(steps[at - 1], Hold) and steps[at + 1].yarn != StepYarn.MAIN)
    steps[out] = replace(steps[out], cut=False)
    steps[again] = replace(steps[again], fresh=False, under=NONE)
    assert _refusal(program, steps) == "yarn-over-held"


def _refusal(program: Program, steps: Sequence[Any]) -> str:
    body = (ProgramSection(heading=Heading.BODY, steps=tuple(steps)),)
    refusal = run(replace(program, sections=body)).refusal
    return refusal.code if refusal else ""


def _refused(program: Program, steps: Sequence[Any]) -> bool:
    return bool(_refusal(program, steps))


def test_the_published_rules_of_carrying_differ_and_each_is_a_number() -> None:
    """W3-088 (Holladay): over two rows at most, the default; W3-087 (Lion Brand): from four rows on
    the resting yarn is caught at the edge; W3-089: under about two inches, 14 rows at 28 to 10 cm.
    """
    two = Striped(stripes_of(2 * ["a"] + 2 * ["b"] + 4 * ["a"] + 4 * ["b"]), 12, 2)
    assert [two.is_carried(two.rests(yarn, row)) for yarn, row in (("a", 3), ("b", 5))] == [
        True, False]
    assert two.rests("b", 5) == 4
    assert not any(Striped(two.stripes, 12, 14).is_carried(n) for n in (0, 3, 16))
    assert Striped(two.stripes, 12, 14).is_carried(14)


LAMPS = "||||||\n" * 4 + "xx||||\n||xx||\n"  # a contrast yarn that rests for four rows


def test_a_contrast_yarn_is_cut_before_held_needles_and_its_new_end_laid_under_one() -> None:
    """The same two rules for a yarn in the second feeder (common practice, no source)."""
    text = yaml.safe_load(source("drop-shoulder pullover", {}))
    del text["garment"]["stripes"]
    text["charts"] = {"lamps": {"repeat": LAMPS}}
    text["fabrics"]["body"] |= {"chart": "lamps", "contrast": "lamp"}
    proof, found = read(yaml.safe_dump(text, sort_keys=False))
    assert proof is not None, found
    program = next(p.program for p in proof.sizes[0].pieces if p.piece.key == "back")
    steps = list(program.steps)
    laid = [at for at, step in enumerate(steps) if isinstance(step, ThreadContrast) and step.under]
    assert laid
    for at in laid:
        spoiled = [*steps[:at], replace(steps[at], under=NONE), *steps[at + 1:]]
        assert _refusal(program, spoiled) == "turn-bare"
    cut = [at for at, step in enumerate(steps) if isinstance(step, UnthreadContrast)
           and step.reason is Reason.BEFORE_HELD]
    assert cut
    again = next(at for at in range(cut[0], len(steps)) if isinstance(steps[at], ThreadContrast))
    steps[cut[0]] = replace(steps[cut[0]], cut=False)
    steps[again] = replace(steps[again], fresh=False, under=NONE)
    assert _refusal(program, steps) == "yarn-over-held"
