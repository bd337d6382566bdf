"""Armholes, caps, necks and shoulders shaped as designers ask: any choice is knitted, or refused.

Choices, gauges and forms are drawn at random. What is made has the counts that were asked for, its
joins close, the virtual bed knits it, and the band along an armhole has the whole of its edge.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from hypothesis import example, given, settings
from hypothesis import strategies as st
from hypothesis.strategies import DrawFn
from walebook.forms.registry import FORMS
from walebook.forms.sleeve_caps import GIVEN
from walebook.pattern.conventions import (
    ArmholeCurve,
    ArmholeSpec,
    CapCurve,
    CapSpec,
    Conventions,
    Larger,
    NeckCurve,
    NeckSides,
    NeckSpec,
    ShoulderSpec,
)
from walebook.pattern.edges import Offer
from walebook.pattern.model import Neck
from walebook.shape.edging import Section
from walebook.shape.garment import CannotShape, Cut, Garment
from walebook.shape.piece import Piece
from walebook.shape.profile import How
from walebook.shape.tasks import Seam

from tests.laws import pieces
from tests.scale import examples

SET_IN = ("set-in pullover", "set-in cardigan", "set-in waistcoat", "set-in slipover")
WITH_SHOULDERS = (*SET_IN, "drop-shoulder pullover", "drop-shoulder cardigan")
FOUND: list[bool] = []

falling = st.lists(st.integers(1, 6), max_size=5).map(lambda made: tuple(sorted(made)[::-1]))


@st.composite
def conventions(draw: DrawFn) -> Conventions:
    """Any choices."""
    curve = draw(st.sampled_from(CapCurve))
    twice = st.tuples(st.integers(0, 6), st.integers(0, 6))
    return Conventions(
        armhole=ArmholeSpec(curve=draw(st.sampled_from(ArmholeCurve)), bind_off=draw(
            st.none() | falling.filter(bool) | st.sampled_from(
                (Fraction(1, 4), Fraction(2, 5), Fraction(9, 10))))),
        cap=CapSpec(curve=curve, top_bind_offs=draw(falling.map(lambda made: made[:2])),
                    every_row=draw(twice) if curve is CapCurve.BELL else ()),
        front_neck=draw(necks()), back_neck=draw(necks()),
        shoulders=ShoulderSpec(steps=draw(falling), remainder=draw(st.sampled_from(Larger))))


@st.composite
def necks(draw: DrawFn) -> NeckSpec:
    """A neck of which the centre or the steps are given, or neither, bound off or held."""
    which = draw(st.sampled_from(("centre", "steps", "")))
    return NeckSpec(curve=draw(st.sampled_from(NeckCurve)),
                    centre=draw(st.integers(0, 40)) if which == "centre" else None,
                    steps=draw(falling) if which == "steps" else (),
                    sides=draw(st.sampled_from(NeckSides)))


@st.composite
def cuts(draw: DrawFn) -> tuple[str, Cut]:
    """A form cut by any conventions, its optional measures given or not."""
    form = draw(st.sampled_from(WITH_SHOULDERS))
    size = draw(st.sampled_from(("S", "XL", "5X")))
    count = draw(st.integers(10, 40))
    own = {name: f"{draw(st.integers(low, high))} mm" for name, low, high in (
        ("armhole_straight", 30, 180), ("cap_height", 80, 180), ("cap_top", 40, 200),
        ("cap_ease", -10, 60), ("back_neck", 20, 60))
        if name in FORMS[form].names and draw(st.booleans())}
    made = pieces.cut(form, dict(pieces.chart("women").measurements(size)),
                      pieces.gauge(count, count * draw(st.integers(120, 160)) / Fraction(100)),
                      own=own, neck=draw(st.sampled_from((Neck.ROUND, Neck.V, Neck.HIGH))))
    asked = draw(conventions())
    if made.neck is Neck.V or FORMS[form].opens:  # the source refuses a held front there
        asked = replace(asked, front_neck=replace(asked.front_neck, sides=NeckSides.BOUND_OFF))
    return form, replace(made, conventions=asked)


def shaped(form: str, cut: Cut) -> Garment | None:
    try:
        return FORMS[form].shape(cut)
    except CannotShape as refused:
        assert refused.found and refused.remedy.endswith(".")
        return None


def steps_of_a_whole_shoulder() -> tuple[str, Cut]:
    """At 10 stitches and 13 rows to 10 cm a shoulder in S has 16 stitches, as many as its steps."""
    made = pieces.cut("drop-shoulder cardigan", dict(pieces.chart("women").measurements("S")),
                      pieces.gauge(10, Fraction(13)), own={"back_neck": "20 mm"}, neck=Neck.HIGH)
    neck = NeckSpec(curve=NeckCurve.ELLIPSE, sides=NeckSides.HELD)
    return "drop-shoulder cardigan", replace(made, conventions=Conventions(
        back_neck=neck, shoulders=ShoulderSpec(steps=(4, 3, 3, 3, 3))))


@settings(max_examples=examples(60), deadline=None)
@example(steps_of_a_whole_shoulder())
@given(cuts())
def test_any_choice_is_refused_in_words_or_knitted(drawn: tuple[str, Cut]) -> None:
    form, cut = drawn
    garment = shaped(form, cut)
    FOUND.append(garment is not None)
    if garment is None:
        return
    assert pieces.faults(garment) == []
    counts = {f"{key} {name}": count.value for key, name, count in garment.counts}
    _armholes_are_as_asked(cut, counts, garment)
    _shoulders_are_as_asked(cut, garment.pieces[0])
    for key, spec in (("back", cut.conventions.back_neck), ("front", cut.conventions.front_neck)):
        _neck_is_as_asked(key, spec, cut, garment)
        piece = next((p for p in garment.pieces if p.key == key), None)
        if (centre := counts.get(f"{key} neck_centre")) is not None:
            assert piece is not None and piece.opening is not None
            assert piece.opening.centre == centre
        elif piece is not None and replace(spec, sides=NeckSides.BOUND_OFF) != NeckSpec():
            assert key == "front" and cut.neck is Neck.V
    caps = [join for join in garment.joins if join.seam is Seam.ARMHOLE and "cap" in join.title]
    assert all(abs(join.off) <= GIVEN for join in caps)


def test_enough_choices_are_knitted() -> None:
    """Of what the law above drew, so that it does not pass by refusing everything."""
    assert not FOUND or sum(FOUND) > len(FOUND) / 10


def _armholes_are_as_asked(cut: Cut, counts: dict[str, int], garment: Garment) -> None:
    asked, back = cut.conventions.armhole, garment.pieces[0]
    edge = (*back.right.changes, *(back.opening.outer.changes if back.opening else ()))
    going = (counts.get("back chest", counts["back cast_on"]) - counts["back across"]) // 2
    gone = [c.stitches for c in edge if c.how is not How.HOLD]
    assert sum(gone) == going
    if going and isinstance(asked.bind_off, tuple):
        assert tuple(gone[:len(asked.bind_off)]) == asked.bind_off
    for name, run in garment.edges.items():
        if name.endswith("_armhole"):  # every stitch bound off there is an edge of its band, but
            off = sum(c.stitches for c in edge if c.how is How.BIND_OFF)
            off -= bool(edge) and edge[0].how is How.BIND_OFF  # the side seam's
            assert sum(_bound_off(section) for section in run.sections) == 2 * off


def _bound_off(section: Section) -> int:
    """The stitches bound off that a section of an edge has."""
    if section.offer is Offer.BOUND_OFF:
        return section.places
    return sum(abs(run.stitches) for run in section.segments if run.how is How.BIND_OFF)


def _shoulders_are_as_asked(cut: Cut, back: Piece) -> None:
    """Every step goes into hold but the last of the shoulder: the rest, where one is left (S04)."""
    asked = cut.conventions.shoulders.steps
    assert back.opening is not None
    held = [c.stitches for c in back.opening.outer.changes if c.how is How.HOLD]
    shoulder = back.half + back.opening.inner.net
    if asked:
        on_hold = asked if sum(asked) < shoulder else asked[:-1]
        assert [sum(step) for step in _by_step(held, on_hold)] == list(on_hold)
        assert sum(held) == sum(on_hold) < shoulder


def _by_step(held: list[int], asked: tuple[int, ...]) -> list[list[int]]:
    """What is held, a step of more than one stitch in two goes: all but one, and that one."""
    rest, made = list(held), []
    for step in asked:
        take = 1 if step == 1 else 2
        made.append(rest[:take])
        rest = rest[take:]
    return made


def _neck_is_as_asked(key: str, spec: NeckSpec, cut: Cut, garment: Garment) -> None:
    piece = next((p for p in garment.pieces if p.key == key), None)
    if piece is None or piece.opening is None or (key == "front" and cut.neck is Neck.V):
        return
    steps = tuple(c.stitches for c in piece.opening.inner.changes)
    if spec.held:
        steps = piece.opening.steps
        _neck_is_held(piece, garment)
    if spec.centre is not None:
        assert piece.opening.centre == spec.centre
    if spec.steps:
        assert steps == spec.steps
    if spec.curve is NeckCurve.STEPS and not spec.steps:
        assert list(steps) == sorted(steps, reverse=True)


def _neck_is_held(piece: Piece, garment: Garment) -> None:
    """All of it waits on one length of waste yarn, and a band takes every stitch of it.

    Of a step all but one go into hold with the carriage at the far side, the last with it at the
    neck; a single one then (S07). The carriage starts at the right, and the half at the right of
    the bed is knitted first, so that it stands at the neck after odd rows.
    """
    opening = piece.opening
    assert opening is not None and opening.held
    for change in opening.inner.changes:
        assert change.how is How.HOLD
        assert change.row % 2 == 0 or change.stitches == 1
    neck = next(count.value for _, name, count in garment.counts if name == "neck_stitches")
    assert opening.centre + 2 * sum(opening.steps) == neck
    waiting = [s for run in garment.edges.values() for s in run.sections
               if s.waits == piece.centre_waits]
    assert waiting and {s.places for s in waiting} == {neck}
    assert all(0 < turn < neck and neck - turn in s.turns for s in waiting for turn in s.turns)
