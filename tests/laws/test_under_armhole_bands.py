"""What a band on an armhole takes of the edge that it is hung on, held to what the bed knitted.

A band that is hung so many stitches in covers as many at each side of the back, and the side seam
takes the outermost stitch of each piece at the underarm (geometry, no source).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import pytest
import yaml
from walebook.catalogue.edge_roles import EdgeRole, role_of
from walebook.core.problems import has_errors
from walebook.drawings.garment_sketch import View, garment
from walebook.drawings.schematic import outlines
from walebook.fabric.gauge import Gauge, measure
from walebook.forms.registry import FORMS
from walebook.machine.edge_steps import BindOff, Hang
from walebook.pattern.edges import Offer
from walebook.pattern.model import Pattern
from walebook.proof.proof import SizeProof, assemble_all, prove
from walebook.shape.piece import Piece

from tests.against import wardrobe
from tests.laws import pieces
from tests.laws.sketches import drawn, sketches
from tests.laws.test_any_source import read
from tests.laws.test_measures_heard import asked

BANDED = [name for name, form in FORMS.items()
          if any(role_of(edge) is EdgeRole.ARMHOLE for edge in form.edges)]
SLEEVED = ["set-in pullover", "set-in cardigan", "drop-shoulder pullover"]
SIZES = ("XS", "M", "3X")


def hung(form: str, deep: int, kind: str) -> Pattern:
    """A garment with a band on its armholes that is hung so `deep` in [stitches]."""
    made = wardrobe.pattern(form, sizes=SIZES, edge="armhole", title="Armhole band")
    bands = {key: replace(band, stitches_in=deep, kind=kind) for key, band in made.bands.items()}
    return replace(made, bands=bands)


def proofs(pattern: Pattern) -> Iterator[tuple[SizeProof, Piece, Gauge]]:
    """Each size with its back and the gauge of its pieces."""
    proof, problems = prove(pattern)
    assert proof is not None and not has_errors(problems), [str(p) for p in problems]
    for size in proof.sizes:
        assert size.assembled is not None
        back = next(p for p in size.assembled.garment.pieces if p.key == "back")
        yield size, back, measure(pattern.fabrics["body"].swatches)


def across(back: Piece, to_armhole: int) -> int:
    """The stitches of a back in the last row before any is held, above its armholes."""
    states = pieces.knit(back)[1].states
    above = [s for s in states if s.loaded and s.counter > to_armhole + 2]
    return next(len(s.loaded) for s in above if len(s.working) < len(s.loaded))


def counts(size: SizeProof) -> dict[str, int]:
    """The counts of the back, by their names."""
    assert size.assembled is not None
    return {name: one.value for key, name, one in size.assembled.garment.counts if key == "back"}


@pytest.mark.parametrize("form", BANDED)
@pytest.mark.parametrize(("deep", "kind"), [
    (1, "enclosing"), (2, "enclosing"), (3, "enclosing"), (4, "enclosing"), (1, "single"),
    (2, "single"), (3, "folded")])
def test_the_width_across_is_what_the_bands_leave_of_it(form: str, deep: int, kind: str) -> None:
    for size, back, gauge in proofs(hung(form, deep, kind)):
        assert size.assembled is not None
        seen = (across(back, counts(size)["rows_to_armhole"]) - 2 * deep) * gauge.stitch
        assert size.assembled.garment.finished["across"].mm == seen
        if form.startswith("set-in"):  # as asked, but for the pair that both sides are alike by
            asked = size.assembled.measures["across"].value
            assert abs(seen - asked) <= gauge.stitch, (size.size, seen, asked)


@pytest.mark.parametrize("form", BANDED)
@pytest.mark.parametrize("deep", [0, 1, 2, 4])
def test_a_sketch_is_as_wide_across_as_its_bands_leave_it(form: str, deep: int) -> None:
    """The outer ends of its shoulders, front and back, are that far apart; without bands (0 here)
    no stitch is taken."""
    made = hung(form, deep, "single") if deep else wardrobe.pattern(form, sizes=SIZES, band=None)
    for size, back, gauge in proofs(made):
        seen = float((across(back, counts(size)["rows_to_armhole"]) - 2 * deep) * gauge.stitch)
        drawings = garment(made, size, outlines(made.garment, made.fabrics, size),
                           views=(View.FRONT, View.BACK))
        fills = [line for svg in sketches(drawings) for line in drawn(svg)
                 if line.part in ("back", "front", "left_front") and "wb-fill" in line.looks]
        assert {line.part for line in fills} > {"back"}
        for line in fills:
            top = next(i for i, (x, y) in enumerate(line.points) if y == max(line.ys) and x > 0)
            ends = {round(2 * line.points[at][0] - seen) for at in (top - 1, top + 1)
                    if 0 <= at < len(line.points)}
            assert ends & {-1, 0, 1}, (line.part, size.size, ends)


@pytest.mark.parametrize("form", BANDED)
def test_an_armhole_without_a_band_loses_nothing(form: str) -> None:
    made = wardrobe.pattern(form, sizes=SIZES, band=None)
    for size, back, gauge in proofs(made):
        assert size.assembled is not None
        seen = across(back, counts(size)["rows_to_armhole"]) * gauge.stitch
        assert size.assembled.garment.finished["across"].mm == seen


@pytest.mark.parametrize("form", SLEEVED)
def test_a_seam_with_a_sleeve_takes_a_stitch_at_either_side(form: str) -> None:
    for size, back, gauge in proofs(wardrobe.pattern(form, sizes=SIZES)):
        assert size.assembled is not None
        seen = (across(back, counts(size)["rows_to_armhole"]) - 2) * gauge.stitch
        assert size.assembled.garment.finished["across"].mm == seen


def bound_off(piece: Piece, to_armhole: int) -> set[int]:
    """How many stitches the bed bound off first at either side of a piece, where it did."""
    program, result = pieces.knit(piece)
    steps = zip(program.steps[1:], result.states, result.states[1:], strict=False)
    return {len(before.loaded) - len(after.loaded) for step, before, after in steps
            if isinstance(step, BindOff) and to_armhole <= before.counter <= to_armhole + 1}


@pytest.mark.parametrize("form", BANDED)
@pytest.mark.parametrize("kind", ["enclosing", "single", "folded"])
def test_a_band_is_hung_on_all_that_the_side_seam_leaves_of_an_underarm(form: str, kind: str
                                                                        ) -> None:
    for size, back, _ in proofs(hung(form, 2, kind)):
        wholes = bound_off(back, counts(size)["rows_to_armhole"])
        assert bool(wholes) == (size.size != "XS" and form.startswith("set-in"))
        left = [whole - 1 for whole in wholes for _ in ("back", "front")]
        assert len(wholes) < 2
        for strip in size.strips:
            meetings = strip.plan.meetings
            under = [m for m in meetings if m.section.offer is Offer.BOUND_OFF]
            assert [m.section.places for m in under] == left
            assert not under or (meetings[0], meetings[-1]) == tuple(under)
            hangs = [step for step in strip.program.steps if isinstance(step, Hang) and step.picks]
            ends = [len(hangs[at].needles) for at in (0, len(meetings) - 1)]
            assert not left or ends == left


@pytest.mark.parametrize("deep", [1, 2, 3])
@pytest.mark.parametrize("form", ["set-in waistcoat", "set-in slipover"])
def test_a_width_across_that_is_given_in_stitches_is_kept(form: str, deep: int) -> None:
    """A count is the back's own, and what is seen of it has none of what bands take."""
    source = yaml.safe_load(asked(form, "round", {"across": "70 stitches"}))
    source["bands"] = {"arms": {"title": "Armhole band", "edge": "armhole", "kind": "single",
                                "fabric": "body", "depth": "2 cm", "stitches_in": deep}}
    pattern, found = read(yaml.safe_dump(source, allow_unicode=True))
    assert pattern is not None, [str(p) for p in found]
    (assembled,) = assemble_all(pattern, pattern)[0].values()
    (one,) = [count for _, name, count in assembled.garment.counts if name == "across"]
    seen = (70 - 2 * deep) * measure(pattern.fabrics["body"].swatches).stitch
    assert (one.value, one.exact) == (70, 70)
    assert assembled.measures["across"].value == assembled.garment.finished["across"].mm == seen
