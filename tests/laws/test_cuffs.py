"""Sleeves that begin otherwise than the body, and hems that differ by size: on any form of sleeves.

The depths are recomputed from the rows and the swatches, by arithmetic of this file.
"""

from __future__ import annotations

from fractions import Fraction
from random import Random

import pytest
from walebook.machine.steps import Knit
from walebook.proof.proof import Proof, SizeProof

from tests.small_sources import head, what_comes_of

FORMS = ("drop-shoulder pullover", "set-in cardigan", "raglan pullover", "saddle raglan cardigan")
ROW, CUFF_ROW = Fraction(100, 30), Fraction(100, 36)  # of the swatches below [mm]
SOURCE = """\
fabrics:
  body: {{yarn: wool, dial: 6, swatch: {{stitches: 40, width: 20 cm, rows: 30, height: 10 cm}}}}
  welt: {{yarn: wool, dial: 3, swatch: {{stitches: 40, width: 16 cm, rows: 36, height: 10 cm}}}}
sizes: [S, L]
garment:
  form: {form}
  chart: women
  fabric: body
{feet}"""


def proved(form: str, feet: str) -> tuple[Proof | None, tuple[str, ...]]:
    """What comes of a source, and its findings from a caution upward."""
    proof, found = what_comes_of(head(300) + SOURCE.format(form=form, feet=feet))
    return proof, tuple(str(each) for each in found if each.severity.value != "remark")


def counted(size: SizeProof, piece: str) -> dict[str, int]:
    assert size.assembled is not None
    return {name: count.value for key, name, count in size.assembled.garment.counts if key == piece}


def sizes(form: str, feet: str) -> tuple[SizeProof, ...]:
    proof, found = proved(form, feet)
    assert proof is not None, found
    return proof.sizes


@pytest.mark.parametrize("form", FORMS)
@pytest.mark.parametrize("seed", range(2))
def test_a_cuff_apart_is_counted_by_its_swatch_and_leaves_the_body_alone(form: str, seed: int
                                                                        ) -> None:
    draw = Random(f"{form} {seed}")
    hem, cuff = draw.randint(3, 7), {size: draw.randint(4, 10) for size in ("S", "L")}
    rib = draw.choice(("1x1", "2x2"))
    plain = f"  hem: {{depth: {hem} cm}}\n"
    other = plain + (f"  cuff: {{kind: latched rib, rib: {rib}, fabric: welt, "
                     f"depth: {{S: {cuff['S']} cm, L: {cuff['L']} cm}}}}\n")
    for size, before in zip(sizes(form, other), sizes(form, plain), strict=True):
        for piece in ("back", "front" if "pullover" in form else "right_front"):
            assert counted(size, piece) == counted(before, piece)
        made, was = counted(size, "sleeve"), counted(before, "sleeve")
        assert abs(made["hem_rows"] * CUFF_ROW - cuff[size.size] * 10) <= CUFF_ROW
        assert made["hem_rows"] % 2 == 0
        (sleeve,) = (each for each in size.pieces if each.piece.key == "sleeve")
        first = [step for step in sleeve.program.sections[0].steps if isinstance(step, Knit)]
        assert [(step.rows, str(step.dial)) for step in first] == [(made["hem_rows"], "3")]
        # The sleeve is as long as before: what the cuff takes more, the rows above have less.
        rows = next(name for name in made if name.startswith("rows_to_"))
        (old,) = (each.piece for each in before.pieces if each.piece.key == "sleeve")
        assert old.hem is not None
        now = made["hem_rows"] * CUFF_ROW + made[rows] * ROW
        assert abs(now - old.hem.depth(ROW) - was[rows] * ROW) <= 2 * ROW
        repeat = {"1x1": 2, "2x2": 4}[rib]
        assert made["cast_on"] % repeat == (0 if rib == "1x1" else 2)


@pytest.mark.parametrize("form", FORMS)
def test_a_hem_by_size_is_that_of_each_size(form: str) -> None:
    one, two = (sizes(form, f"  hem: {{depth: {deep} cm}}\n") for deep in (3, 6))
    both = sizes(form, "  hem: {depth: {S: 3 cm, L: 6 cm}}\n")
    assert [counted(size, "back") for size in both] == [counted(one[0], "back"),
                                                        counted(two[1], "back")]
    assert [counted(size, "sleeve") for size in both] == [counted(one[0], "sleeve"),
                                                          counted(two[1], "sleeve")]


@pytest.mark.parametrize(("form", "feet", "expected"), [
    ("sideways pullover", "  cuff: {depth: 3 cm}\n", "18:3: error, not-of-form: found a cuff in a "
     "sideways pullover; expected it in one of "),
    ("set-in slipover", "  cuff: {depth: 3 cm}\n", "18:3: error, not-of-form: found a cuff in a "
     "set-in slipover; expected it in one of "),
    ("raglan pullover", "  hem: {depth: {S: 3 cm}}\n", "18:9: error, missing-size: found no depth "
     "for L; expected a value for each of S, L. Add L."),
    ("raglan pullover", "  cuff: {kind: latched rib, depth: 3 cm}\n", "18:3: error, missing-key: "
     'found no "rib" in the cuff.'),
    ("raglan pullover", "  cuff: {kind: two-bed rib, rib: 1x1, depth: 3 cm}\n",
     "18:16: error, no-second-bed: found a two-bed rib on the bed"),
    ("raglan pullover",
     "  cuff: {kind: latched rib, rib: 1x1, depth: 3 cm, fabric: welt, dial: 4}\n",
     'error, two-answers: found both "dial" and "fabric" in the cuff')])
def test_what_cannot_be_is_told_in_words(form: str, feet: str, expected: str) -> None:
    proof, found = proved(form, feet)
    assert proof is None
    assert any(expected in each for each in found), found


def test_a_cuff_that_flares_is_warned_of_at_the_cuff() -> None:
    """At the welt's own gauge 40 stitches lie 16 cm wide; a swatch of 24 cm is half as wide again
    as the sleeve, of 20 cm to 40 stitches."""
    feet = "  cuff: {kind: latched rib, rib: 1x1, depth: 5 cm, fabric: welt}\n"
    wide = SOURCE.replace("width: 16 cm", "width: 24 cm").format(form=FORMS[0], feet=feet)
    _, found = what_comes_of(head(300) + wide)
    said = [str(each) for each in found if each.code == "foot-width"]
    assert len(said) == 1 and "yaml:18:" in said[0] and "below a sleeve" in said[0]
    assert "1.2 times as wide" in said[0]
