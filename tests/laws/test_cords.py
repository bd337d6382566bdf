"""A cord through any hem: its eyelets lie in the outer layer, mirrored, and cost no stitch."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st
from walebook.core.counted import stated
from walebook.core.counts import Unit
from walebook.machine.edge_steps import Hang
from walebook.machine.reasons import Reason
from walebook.machine.step_keys import StepYarn
from walebook.machine.steps import Dial, Knit, Transfer
from walebook.pattern.model import Fold
from walebook.shape.foot import Hem
from walebook.shape.piece import Piece
from walebook.shape.profile import Profile

from tests.laws import pieces
from tests.scale import examples


@st.composite
def hemmed(draw: st.DrawFn) -> Piece:
    """A straight piece with a hem that has one eyelet or two."""
    stitches, rows = draw(st.integers(12, 160)), draw(st.integers(2, 30))
    places = draw(st.lists(st.integers(1, stitches // 2 - 2), min_size=1, max_size=2,
                           unique_by=lambda at: at // 2))
    hem = Hem(rows=rows, dial=Dial(12), fold=draw(st.sampled_from((Fold.LOOSE, Fold.PICOT))),
              eyelets=tuple(sorted(2 * at for at in places)))
    return Piece(key="front", title="Front", stitches=stated(stitches, Unit.STITCHES),
                 left=Profile(20), right=Profile(20), hem=hem, mirrored=draw(st.booleans()))


@given(hemmed())
@settings(max_examples=examples(60), deadline=None)
def test_a_hem_with_eyelets_is_knitted_to_its_end_and_costs_nothing(piece: Piece) -> None:
    assert isinstance(piece.hem, Hem)
    _, run = pieces.knit(piece)
    assert run.refusal is None, str(run.refusal)
    _, plain = pieces.knit(replace(piece, hem=replace(piece.hem, eyelets=())))
    assert run.states[-1].counter == plain.states[-1].counter
    assert dict(run.rows)[StepYarn.MAIN] == dict(plain.rows)[StepYarn.MAIN]


@given(hemmed())
@settings(max_examples=examples(30), deadline=None)
def test_eyelets_lie_between_the_fold_and_the_joining(piece: Piece) -> None:
    """The layer above the fold is the outer one, for the first is folded up behind it."""
    assert isinstance(piece.hem, Hem)
    program, _ = pieces.knit(piece)
    steps = list(program.steps)
    (at,) = [n for n, s in enumerate(steps) if isinstance(s, Transfer)
             and s.reason is Reason.FOR_CORD]
    (hung,) = [n for n, s in enumerate(steps) if isinstance(s, Hang)]
    assert at < hung
    before = sum(s.rows for s in steps[:at] if isinstance(s, Knit) and s.yarn == StepYarn.MAIN)
    fold = 0 if piece.hem.fold is Fold.PICOT else 1
    assert before == piece.hem.rows + fold + piece.hem.rows // 2
    assert len(steps[at].needles) == len(piece.hem.eyelets)  # type: ignore[attr-defined]


@given(hemmed())
@settings(max_examples=examples(30), deadline=None)
def test_a_mirrored_hem_has_its_eyelets_mirrored(piece: Piece) -> None:
    def moved(of: Piece) -> list[tuple[object, int]]:
        program, _ = pieces.knit(of)
        return [(s.needles, s.by) for s in program.steps
                if isinstance(s, Transfer) and s.reason is Reason.FOR_CORD]

    ((needles, by),) = moved(replace(piece, mirrored=False))
    assert moved(replace(piece, mirrored=True)) == [(needles.mirrored(), -by)]  # type: ignore
