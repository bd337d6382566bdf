"""Fronts of raglans whose neck the designer shapes: refused in words, or knitted as she says.

Garments are drawn by a seed; what a half begins and ends with is added up here.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import accumulate, pairwise
from random import Random

import pytest
from walebook.pattern.model import Neck
from walebook.proof.proof import Proof
from walebook.shape.even_gaps import Remainder
from walebook.shape.piece import Piece
from walebook.shape.profile import How
from walebook.shape.step_sizes import SteppedSlope

from tests.small_sources import head, what_comes_of

SOURCE = head(300).replace("{", "{{").replace("}", "}}") + """\
fabrics:
  body:
    yarn: wool
    dial: 6
    swatch: {{stitches: {stitches}, width: 20 cm, rows: {rows}, height: 20 cm}}
sizes: [{size}]
garment:
  form: raglan {form}
  chart: women
  fabric: body
  neck: {neck}
  neckline: {neckline}
  measures: {{front_neck: {deep} cm, neck_width: {wide} cm}}
"""
PLAIN = {"stitches": 40, "rows": 56, "size": "M", "form": "pullover", "neck": Neck.ROUND.value,
         "neckline": "{curve: ellipse}", "deep": 8, "wide": 18}
SEEDS = range(24)


def proved(source: str) -> tuple[Proof | None, tuple[str, ...]]:
    """What comes of a source, and its errors."""
    proof, found = what_comes_of(source)
    return proof, tuple(str(each) for each in found if each.severity.value == "error")


def drawn(seed: int) -> dict[str, object]:
    draw = Random(seed)
    steps = sorted((draw.randint(1, 5) for _ in range(draw.randint(1, 5))), reverse=True)
    stitches = draw.randint(30, 70)
    return {"stitches": stitches, "rows": int(stitches * draw.uniform(1.2, 1.6)),
            "size": draw.choice(("S", "L", "4X")), "form": draw.choice(("pullover", "cardigan")),
            "neck": draw.choice(("round", "high")), "deep": draw.randint(3, 14),
            "wide": draw.randint(12, 26), "neckline": draw.choice((
                "{curve: ellipse}", f"{{front_centre: {2 * draw.randint(1, 15)}}}",
                f"{{front_steps: {steps}}}"))}


def front(proof: Proof) -> Piece:
    return next(each.piece for each in proof.sizes[0].pieces if "front" in each.piece.key)


@pytest.mark.parametrize("seed", SEEDS)
def test_any_neck_of_a_raglan_is_refused_in_words_or_knitted(seed: int) -> None:
    asked = drawn(seed)
    proof, errors = proved(SOURCE.format(**asked))
    if proof is None:
        assert all("cannot-shape" in each for each in errors), errors
        return
    piece, said = front(proof), str(asked["neckline"])
    if piece.opening is None:
        row = next(c.row for c in piece.left.changes)
        neck = [c.stitches for c in piece.left.changes]
        assert piece.stitches.value - sum(neck) + piece.right.net == 1
        assert row % 2  # bound off where the carriage is, at the left
    else:
        neck = [c.stitches for c in piece.opening.inner.changes]
        half = (piece.top - piece.opening.centre) // 2
        assert half - sum(neck) + piece.opening.outer.net == 1
    if "steps" in said:
        wanted = [int(each) for each in said.split("[")[1].rstrip("]}").split(",")]
        assert neck[-len(wanted):] == wanted
    if "centre" in said:
        centre = int(said.split(":")[1].rstrip("}"))
        whole = piece.opening.centre if piece.opening else 2 * neck[0]
        assert whole == centre


def test_most_of_what_is_drawn_is_knitted() -> None:
    assert sum(proved(SOURCE.format(**drawn(seed)))[0] is not None for seed in SEEDS) > 12


@pytest.mark.sampled(6, each=("form", "deep", "neck"))
@pytest.mark.parametrize("form", ["pullover", "cardigan"])
@pytest.mark.parametrize(("deep", "wide"), [(10, 16), (14, 18), (17, 22), (20, 15)])
@pytest.mark.parametrize("neck", ["v", "round"])
def test_the_schedules_of_a_neck_make_its_changes(form: str, neck: str, deep: int, wide: int
                                                  ) -> None:
    """Gap after gap from their published numbers, what is bound off before them; the line of a V
    lies nowhere a row off the straight one."""
    proof, errors = proved(SOURCE.replace("  neckline: {neckline}\n", "").format(
        **(PLAIN | {"form": form, "neck": neck, "deep": deep, "wide": wide})))
    assert proof is not None, errors
    piece = front(proof)
    edge, up = (piece.opening.inner, piece.opening.row) if piece.opening else (piece.left, 0)
    made = []
    for slope in (slope for slope in piece.slopes if slope.name.startswith("neck")):
        of = {name: count.value for name, count in slope.figures}
        if isinstance(slope, SteppedSlope):
            made += [(of["rows_below"], size.value) for size in slope.sizes]
            continue
        few, many = of["shorter_times"], of["longer_times"]
        longer = [n * many // (few + many) for n in range(few + many + 1)]
        gaps = [of["longer_gap"] if b > a else of["shorter_gap"] for a, b in pairwise(longer)]
        made += [(row, 1) for row in accumulate(gaps, initial=of["rows_below"])][1:]
        if neck == "v":
            high, line = of["rows"], [row - of["rows_below"] for row, _ in made]
            assert slope.gaps.order is Remainder.MIXED_LATE
            assert all(0 <= Fraction(high * n, few + many) - row < 1
                       for n, row in enumerate(line, start=1))
    assert made and made == [(up + c.row, c.stitches) for c in edge.changes]


def test_an_ellipse_is_bound_off_in_falling_steps_and_then_decreased() -> None:
    """As C10 and N02 bind necks off: on every second row from the first."""
    proof, errors = proved(SOURCE.format(**PLAIN))
    assert proof is not None, errors
    piece = front(proof)
    assert piece.opening is not None
    off = [c for c in piece.opening.inner.changes if c.how is How.BIND_OFF]
    assert off and all(c.row % 2 for c in off)
    assert [c.stitches for c in off] == sorted((c.stitches for c in off), reverse=True)


@pytest.mark.parametrize(("more", "expected"), [
    ({"neckline": "{back_steps: [3]}"}, "yaml:21:14: error, not-of-form: found back_steps in a "
     "raglan pullover, whose back is straight at the neck; expected the front's centre, steps or "
     "curve. Delete it, or choose another form."),
    ({"neck": "v", "neckline": "{front_centre: 8}"}, "error, not-of-form: found front_centre of "
     "a v neck; expected it in a round or high neck."),
    ({"neckline": "{front_centre: 9}"}, "yaml:21:3: error, cannot-shape: size M: found a centre of "
     "9 of the "),
    ({"neckline": "{front_steps: [9, 9, 9, 9]}", "deep": 3}, "error, cannot-shape: size M: found")])
def test_what_cannot_be_says_why_and_where(more: dict[str, object], expected: str) -> None:
    proof, errors = proved(SOURCE.format(**PLAIN | more))
    assert proof is None
    assert any(expected in each for each in errors), errors


def test_a_neckline_above_a_placket_is_refused() -> None:
    text = SOURCE.format(**PLAIN).replace("  measures", "  placket: 10 cm\n  measures") + (
        "bands:\n  slit: {edge: placket, pick_up: 3/4, depth: 3 cm, kind: single}\n")
    proof, errors = proved(text)
    assert proof is None
    assert any("found a neckline above a placket" in each and "Leave out the neckline, or the "
               "placket." in each for each in errors), errors
