"""What must hold where a rib has other stitches than its piece, or an end that the designer chose.

Every count is knitted or refused in words; what comes or goes above the rib is spread evenly.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st
from walebook.bed.run import run
from walebook.core.counted import stated
from walebook.core.counts import Unit
from walebook.forms.registry import FORMS
from walebook.machine.edge_steps import CloseUp
from walebook.machine.headings import Heading
from walebook.machine.needles import NONE, Needles
from walebook.machine.programs import Program, ProgramSection
from walebook.machine.rib_steps import Latch
from walebook.machine.steps import Increase, Step
from walebook.pattern.rib_specs import RibEnds, RibMake, RibStitches
from walebook.proof.needles_used import needles_of
from walebook.proof.proof import KnittedPiece
from walebook.shape.garment import CannotShape
from walebook.shape.rib_widths import shape_ribbed
from walebook.shape.ribs import RIBS, Rib, faces

from tests.laws import pieces
from tests.laws.test_ribs import NAMED, TIGHT, begun, piece, program_of, ribs, runs_on
from tests.scale import examples


def evenly(whole: Needles, some: Needles) -> bool:
    """True where no two stretches between those, or from an end, differ by more than one can help:
    at the ends lies half a stretch."""
    places = [n.place - whole.first.place for n in some]
    gaps = [b - a for a, b in pairwise(places)]
    ends = places[0] + 1, len(whole) - places[-1]
    return (not gaps or max(gaps) - min(gaps) <= 1) and all(
        abs(2 * end - Fraction(len(whole), len(places))) <= 2 for end in ends)


@given(ribs(), st.integers(12, 150), st.integers(-50, 50), st.booleans())
@settings(deadline=None, max_examples=examples(60))
def test_a_rib_of_any_count_is_knitted_and_evened_out_above(rib, own, off, mirrored):
    above = own + off
    assume(0 < 3 * abs(off) <= max(own, above) and not (rib.full and off < 0))
    made = program_of(replace(rib, stitches=stated(own, Unit.STITCHES)), above, mirrored=mirrored)
    result = run(made)
    assert result.refusal is None, str(result.refusal)
    (step,) = (step for step in made.steps if isinstance(step, CloseUp))
    at = list(made.steps).index(step)
    assert len(step.needles) == own and len(step.onto) == above
    changed = step.doubled or step.empty
    assert len(changed) == abs(off) and bool(step.doubled) == (off < 0)
    assert evenly(step.onto, changed)
    filled = [s for s in made.steps[at:] if isinstance(s, Increase)]
    assert [s.needles for s in filled] == ([step.empty] if step.empty else [])
    ready = result.states[at + (1 if step.empty else 0)]
    assert ready.loaded == step.onto == piece(rib, above, mirrored=mirrored).needles


@given(ribs(), st.integers(20, 90), st.integers(1, 9))
@settings(deadline=None, max_examples=examples(20))
def test_the_needles_of_a_wider_rib_count_among_those_that_a_piece_takes(rib, above, more):
    """A bed must have them: also those of a second bed's stitches once they are moved."""
    assume(not rib.full)
    wide = replace(rib, stitches=stated(above + more, Unit.STITCHES))
    own = piece(wide, above)
    made = program_of(wide, above)
    taken = NONE
    for state in run(made).states:
        taken |= state.loaded
    knitted = KnittedPiece(piece=own, program=made, trace=run(made))
    assert needles_of(knitted) == taken.last.place - taken.first.place + 1 == own.widest


def spoiled(made: Program) -> Iterator[tuple[str, Program]]:
    """The program with the spreading, or the filling after it, dropped, doubled or changed."""
    for at, step in enumerate(made.steps):
        changes: dict[str, tuple[Step, ...]] = {}
        if isinstance(step, CloseUp):
            changes = {"dropped": (), "doubled": (step, step),
                       "wider": (replace(step, onto=step.onto | step.onto.shifted(1)),),
                       "moved": (replace(step, onto=step.onto.shifted(1)),)}
            if step.empty:
                changes |= {"one filled": (replace(step, empty=step.empty.leftmost(1)),),
                            "at an end": (replace(step, empty=step.onto.leftmost(
                                len(step.empty))),),
                            "beside them": (replace(step, empty=step.empty.shifted(99)),),
                            "both": (replace(step, doubled=step.empty),)}
        elif isinstance(step, Increase):
            changes = {"not filled": (), "half filled": (replace(
                step, needles=step.needles.leftmost(1)),)}
        for name, new in changes.items():
            yield name, replace(made, sections=(ProgramSection(
                heading=Heading.BODY, steps=(*made.steps[:at], *new, *made.steps[at + 1:])),))


@pytest.mark.parametrize("above", [44, 36])
def test_a_spoiled_spreading_is_refused(above):
    rib = Rib(make=RibMake.LATCHED, works=RIBS["2x2"], rows=6, dial=TIGHT,
              stitches=stated(40, Unit.STITCHES))
    made, names = program_of(rib, above), set()
    assert run(made).refusal is None
    for name, bad in spoiled(made):
        assert run(bad).refusal is not None, name
        names.add(name)
    assert {"dropped", "doubled", "wider", "moved"} <= names
    assert ("not filled" in names) == (above > 40)


@given(st.sampled_from(NAMED), st.integers(6, 120))
def test_the_ends_decide_which_counts_fit(named, many):
    """Whole repeats between the seams; alike at both ends; or any count, which ends in knit
    stitches on one bed."""
    make, works = named
    rib = Rib(make=make, works=works, rows=4, dial=TIGHT)
    fits = {ends: replace(rib, ends=ends).fits(seamed=True) for ends in RibEnds}
    assert fits[RibEnds.ANY] is None
    shown = faces(many, works, make)
    if fits[RibEnds.RUN_ON].allows(many, Fraction(many)):
        assert runs_on(shown, works)
    if fits[RibEnds.ALIKE].allows(many, Fraction(many)):
        assert shown == shown[::-1] and shown[0]
    assert shown[0] or make is RibMake.TWO_BED


@given(ribs(), st.integers(12, 90), st.sampled_from((RibEnds.ALIKE, RibEnds.ANY)))
@settings(deadline=None, max_examples=examples(30))
def test_a_rib_that_does_not_run_on_is_mirrored_with_its_piece(rib, many, ends):
    """So two fronts begin alike beside their bands; needle by needle, from the other end."""
    lies = [{(needle.place if mirrored else -1 - needle.place)
             for step in program_of(replace(rib, ends=ends), many, mirrored=mirrored).steps
             if isinstance(step, Latch | Increase) for needle in step.needles}
            for mirrored in (False, True)]
    assert lies[0] == lies[1]


def test_one_by_one_that_ends_as_it_begins_is_odd():
    """"Ribs", zanotowane.pl 774/5106: a balanced 1x1 has an odd count, 2x2 a multiple of 4 and 2
    more."""
    for name, first in (("1x1", {7, 9, 11}), ("2x2", {6, 10, 14})):
        rib = Rib(make=RibMake.TWO_BED, works=RIBS[name], rows=4, dial=TIGHT, ends=RibEnds.ALIKE)
        fits = rib.fits(seamed=True)
        assert {n for n in range(6, 15) if fits.allows(n, Fraction(n))} >= first
        assert not any(fits.allows(n + 1, Fraction(n + 1)) for n in first)


@given(begun(), st.one_of(st.integers(10, 200), st.fractions(Fraction(2, 3), Fraction(3, 2),
                                                            max_denominator=100)),
       st.sampled_from(RibEnds), st.sampled_from(("back", "sleeve", "right_front", "hat", "hand",
                                                 "panel")))
@settings(deadline=None, max_examples=examples(60),
          suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much])
def test_every_form_with_a_rib_of_another_count_is_knitted_or_refused_in_words(
        asked, figure, ends, key):
    form, cut = asked
    assert cut.hem is not None
    own = replace(cut.hem, ends=ends, stitches={key: RibStitches(figure)})
    try:
        garment = shape_ribbed(FORMS[form].shape, replace(cut, hem=own), {}, FORMS[form].rounds,
                               seamed=FORMS[form].seamed)
    except CannotShape as fault:
        assert fault.remedy and fault.found
        return
    assert pieces.faults(garment) == []
    counts = {(piece, name): count.value for piece, name, count in garment.counts}
    full = cut.hem.works == RIBS["full needle"]
    rib = counts[key, "rib_on_main_bed" if full else "rib_stitches"]
    above = counts.get((key, "cast_on"))
    assert not full or (counts[key, "rib_on_second_bed"], counts[key, "rib_on_both_beds"]) == (
        rib - 1, rib + rib - 1)
    change = {name: counts[key, name] for name in ("increases_above_rib", "decreases_above_rib")
              if (key, name) in counts}
    assert above is None or sum(change.values()) == abs(above - rib)
    assert isinstance(figure, Fraction) or rib == figure
    for each in garment.pieces:
        if isinstance(each.hem, Rib) and each.key == key:
            assert each.hem.across(each.stitches.value) == rib and each.widest >= rib
            fits = each.hem.fits(seamed=FORMS[form].seamed)
            assert fits is None or fits.allows(rib, Fraction(rib))


@pytest.mark.parametrize(("make", "works"), [each for each in NAMED if each[0] is not RibMake.HUNG])
@given(many=st.integers(8, 150), wide=st.fractions(Fraction(1), Fraction(9), max_denominator=20))
@settings(deadline=None, max_examples=examples(20))
def test_a_stitch_of_a_rib_is_worth_what_it_adds_to_its_width(make, works, many, wide):
    """On a needle of a full needle rib lie two stitches, and a needle out of work adds none."""
    rib, repeat = Rib(make=make, works=works, rows=6, dial=TIGHT, stitch=wide), len(works)
    below = many - many % repeat + 2
    narrow, wider = rib.width(below), rib.width(below + repeat)
    assert narrow is not None and wider is not None
    assert wider - narrow == repeat * rib.place(wide)
