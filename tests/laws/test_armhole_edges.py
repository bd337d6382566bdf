"""An edge that a band takes has the rows that the bed knitted on its outermost stitches."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from walebook.core.operands import Role
from walebook.forms.registry import FORMS
from walebook.machine.edge_steps import BindOff, TakeOff
from walebook.machine.needles import Needle, Needles
from walebook.machine.steps import Knit, Side, Step
from walebook.machine.trace import State
from walebook.pattern.edges import Offer
from walebook.pattern.model import Neck
from walebook.shape.edge_path import EdgePath
from walebook.shape.edging import Section, Stretch
from walebook.shape.garment import Garment
from walebook.shape.piece import Piece

from tests.against import wardrobe
from tests.laws import pieces
from tests.laws.test_placing import operands

SLEEVELESS = [name for name, form in FORMS.items() if "armhole" in form.edges]
OPEN = [name for name, form in FORMS.items() if "front_edge" in form.edges]
CLOSED = [name for name, form in FORMS.items()
          if form.edges[:1] == ("neck",) and "sideways" not in name]
# On which side of the bed a piece's armhole lies that is the wearer's right one: the knitter sees
# the inside, so a front's right is the wearer's, and a back's is not (geometry, no source).
WEARERS_RIGHT = {"back": Side.LEFT, "front": Side.RIGHT}


def outermost(needles: Needles, side: Side) -> Needle:
    return needles.last if side is Side.RIGHT else needles.first


def traced(piece: Piece) -> Iterator[tuple[Step, State, State]]:
    """Each step of a piece as the bed saw it: before it, and after."""
    program, result = pieces.knit(piece)
    assert result.refusal is None
    states = result.states
    yield from zip(program.steps[1:], states, states[1:], strict=False)


def knitted(step: Step, before: State, after: State) -> int:
    """The rows of a step, by the row counter."""
    return max(0, after.counter - before.counter) if isinstance(step, Knit) else 0


def rows_at_the_edge(piece: Piece, side: Side, above: int) -> int:
    """Rows the carriage knitted on the outermost stitch at a `side` of the bed, from the first
    bind-off there, or above row `above` where none is bound off, up to the shoulder, where the
    half's stitches go onto waste yarn."""
    rows, starts = 0, None
    for step, before, after in traced(piece):
        if not before.loaded:
            continue
        edge = outermost(before.loaded, side)
        if isinstance(step, BindOff) and starts is None and edge in step.needles and (
                before.counter >= above):
            starts, rows = before.counter, 0
        if isinstance(step, TakeOff) and edge in step.needles and before.counter > above:
            break
        if edge in before.working:
            row = knitted(step, before, after)
            rows += min(row, max(0, after.counter - above))
    return rows


def rows_beside_the_neck(piece: Piece) -> list[int]:
    """Rows the carriage knitted on either half of a piece above its neck, each half by itself: the
    row counter is set back before the second."""
    assert piece.opening is not None
    rows = [0]
    for step, before, after in traced(piece):
        if after.counter == piece.opening.row < before.counter:
            rows.append(0)
        if before.counter >= piece.opening.row:
            rows[-1] += knitted(step, before, after)
    return rows


def rows_of(section: Section) -> int:
    """The rows of a section as its table prints them, without what was bound off among them."""
    return section.places - section.level


def armhole(garment: Garment, worn: str) -> tuple[EdgePath, dict[str, tuple[Piece, Side]]]:
    """An armhole as it is offered to a band, and which side of which piece it is, as worn."""
    found: dict[str, tuple[Piece, Side]] = {}
    for piece in garment.pieces:
        if piece.key in WEARERS_RIGHT:
            side = WEARERS_RIGHT[piece.key]
            found[piece.key] = piece, side if worn == "right" else side.other
        elif piece.key == f"{worn}_front":  # a front edge at one side, the armhole at the other
            found["front"] = piece, Side(worn)
    return garment.edges[f"{worn}_armhole"], found


@pytest.mark.parametrize("form", SLEEVELESS)
@pytest.mark.parametrize("size", ["XS", "M", "2X"])
@pytest.mark.parametrize("neck", [Neck.ROUND, Neck.V])
def test_an_armhole_has_the_rows_of_its_outermost_stitches(form: str, size: str, neck: Neck
                                                           ) -> None:
    """Rows knitted while a shoulder is held are none of the armhole's, and the side that the
    carriage comes to a row later is bound off a row later (no source: geometry)."""
    known = pieces.chart("women").measurements(size)
    made = FORMS[form].shape(pieces.cut(form, known, pieces.gauge(26, 38), neck=neck))
    (under,) = [count.value for _, name, count in made.counts if name == "rows_to_armhole"]
    for worn in ("right", "left"):
        edge, sides = armhole(made, worn)
        told = {s.worn.value: rows_of(s) for s in edge.sections
                if s.worn and s.offer is Offer.ROWS}
        assert told == {key: rows_at_the_edge(piece, side, under)
                        for key, (piece, side) in sides.items()}, worn


@pytest.mark.parametrize("form", ["set-in slipover", "set-in waistcoat"])
def test_a_band_takes_what_is_bound_off_at_an_underarm_less_the_stitch_of_the_side_seam(form: str
                                                                                       ) -> None:
    """The side seam takes the outermost stitch (geometry): the sum names it, and comes to as many
    as there are places."""
    known = pieces.chart("women").measurements("M")
    made = FORMS[form].shape(pieces.cut(form, known, pieces.gauge(26, 38)))
    under = [s for worn in ("right", "left") for s in made.edges[f"{worn}_armhole"].sections
             if s.offer is Offer.BOUND_OFF]
    assert len(under) == 4
    for section in under:
        assert section.taken.value == section.places
        assert (Role.SEAM, 1) in operands(section.taken)


@pytest.mark.parametrize("form", CLOSED)
@pytest.mark.parametrize("neck", [Neck.ROUND, Neck.V, Neck.SQUARE])
def test_a_neck_has_the_rows_of_its_innermost_stitches(form: str, neck: Neck) -> None:
    """Either half of a front or back, by the rows that the bed knitted on it alone."""
    known = pieces.chart("women").measurements("M")
    made = FORMS[form].shape(pieces.cut(form, known, pieces.gauge(26, 38), neck=neck, own={
        "front_neck": "20 cm"}))
    for key in ("front", "back"):
        piece = next(p for p in made.pieces if p.key == key)
        told = [rows_of(s) for s in made.edges["neck"].sections
                if s.name == f"{key} neck" and s.offer is Offer.ROWS]
        if piece.opening and told:
            assert told == rows_beside_the_neck(piece), key


@pytest.mark.parametrize("form", OPEN)
@pytest.mark.parametrize("neck", [Neck.ROUND, Neck.V])
def test_a_front_edge_has_the_rows_of_its_outermost_stitches(form: str, neck: Neck) -> None:
    """Front edge and front neck together, from the cast-on to the shoulder or the raglan's top."""
    known = pieces.chart("women").measurements("M")
    made = FORMS[form].shape(pieces.cut(form, known, pieces.gauge(26, 38), neck=neck, band=24, own={
        "front_neck": "20 cm"}))
    above = [rows_of(s) for s in made.edges["neck"].sections if s.name == "front neck"]
    for piece in made.pieces:
        if piece.key in ("right_front", "left_front"):
            side = Side.LEFT if piece.key == "right_front" else Side.RIGHT
            edge = made.edges[f"{piece.key}.front_edge"]
            told = sum(rows_of(s) for s in edge.sections if s.stretch is Stretch.GARMENT)
            seen = 0
            for step, before, after in traced(piece):
                if before.loaded and outermost(before.loaded, side) in before.working:
                    seen += knitted(step, before, after)
            assert told + above[0] == seen, piece.key


@pytest.mark.parametrize("form", ["set-in slipover", "set-in waistcoat"])
def test_a_band_of_each_armhole_is_hung_by_the_rows_of_its_own_edge(form: str) -> None:
    """Both of as many stitches; each takes its own armhole's rows, section by section."""
    (size,) = wardrobe.proved(wardrobe.pattern(form, sizes=("M",), edge="armhole",
                                               title="Armhole band")).sizes
    assert size.assembled is not None and len(size.strips) == 2
    for strip in size.strips:
        edge = size.assembled.garment.edges[f"{strip.front.value}_armhole"]
        assert [m.section for m in strip.plan.meetings] == list(edge.sections)
        assert strip.plan.edge_rows.value == edge.places
        assert strip.plan.pick_up.edge_rows == edge.places
        assert len(strip.layout.needles) == size.plans[0].stitches.value
    assert {size.plans[0].knits(strip.plan) for strip in size.strips} == {True}


@pytest.mark.parametrize("form", ["raglan pullover", "raglan cardigan"])
def test_a_raglan_seam_has_all_rows_of_its_edges(form: str) -> None:
    """From what is bound off at the underarm to the stitches that wait at the top, the row over the
    last decreases with them: of back and sleeve, at either side of the bed."""
    known = pieces.chart("women").measurements("M")
    made = FORMS[form].shape(pieces.cut(form, known, pieces.gauge(26, 38), band=24))
    by_key = {piece.key: piece for piece in made.pieces}
    (seam,) = [join for join in made.joins if join.title == "raglan, back and sleeve"]
    body, sleeve = (sorted(rows_at_the_edge(by_key[key], side, 0) for side in Side)
                    for key in ("back", "sleeve"))
    assert body == sleeve == [seam.other, seam.one]
