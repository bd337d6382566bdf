"""The folded band: knitted onto the edge, folded inward, closed along the line where it began.

Source: the author of The Neckline Encyclopedia, "Buttonhole band, method 1 revised" (D04).
"""

from __future__ import annotations

from collections.abc import Callable, Mapping

from ...machine.headings import Heading
from ...machine.needles import Needles
from ...machine.reasons import Reason
from ...machine.step_keys import Topic
from ...machine.steps import Dial
from ...pattern.holes import ButtonholeKind
from ...pattern.model import Fold
from ...plan.band import BandPlan
from ..band_steps import close_holes, fold, hand_holes, knit_rows, picots
from ..layout import Layout, all_of, hole_spans
from ..ledger import Ledger
from . import layer_parts
from .buttonhole_steps import buttonhole_kind, eyelets, feet, slits
from .facing_fabric import behind_fold, layer_yarn
from .hung import SEAM_LINE, close_inside, ends, first_row, hang_edge
from .kind import MadeBand


def make(plan: BandPlan, layout: Layout, garment_dial: Dial, with_holes: bool) -> MadeBand:
    """Return the steps: 1 row at the garment's dial, the rest tighter, equal layers (D04)."""
    book = Ledger(side=layout.hem.other)
    holes = hole_spans(plan, layout) if with_holes else ()
    hang_edge(book, plan, layout, garment_dial)
    done = first_row(book, plan, layout)
    layers = _LAYERS.get(buttonhole_kind(plan), _plain) if holes else _plain
    if plan.mitre is not None:
        layers = _mitred
    if plan.facing is not None:
        layout = _faced(book, plan, layout, holes, done)
    else:
        layers(book, plan, layout, holes, done)
    slit = bool(holes) and buttonhole_kind(plan) is ButtonholeKind.SLIT
    leaves = close_inside(book, plan, layout, layer_yarn(plan),
                          first=Topic.SEW_SLITS if slit else None)
    ends(book, plan, bool(holes), folded=True)
    return MadeBand(sections=tuple(book.sections), totals=book.totals, leaves=leaves,
                    seams=() if leaves else ((SEAM_LINE, plan.stitches.value),))


def _filled(plan: BandPlan, layout: Layout) -> Needles:
    """The needles that are empty after the fold."""
    return picots(layout) if plan.band.fold is Fold.PICOT else Needles(0)


def _plain(book: Ledger, plan: BandPlan, layout: Layout, holes: Holes, done: int) -> None:
    """Both layers without holes; the feet of loops are marked at the fold."""
    rows = plan.rows
    knit_rows(book, plan, rows.to_holes + rows.holes_to_fold - done, Reason.TO_FOLD, done=done)
    if holes:
        feet(book, holes)
    book.section(Heading.FIRST_LAYER)
    fold(book, plan, layout)
    knit_rows(book, plan, rows.fold_to_holes + rows.to_finish, Reason.TO_END_OF_SECOND_LAYER,
              back=True, fills=_filled(plan, layout))
    book.section(Heading.SECOND_LAYER)


def _faced(book: Ledger, plan: BandPlan, layout: Layout, holes: Holes, done: int) -> Layout:
    """The outer layer, and an inner one in another fabric; loops are marked at the fold."""
    knit_rows(book, plan, plan.depth.value - done, Reason.TO_FOLD, done=done)
    if holes:
        feet(book, holes)
    book.section(Heading.FIRST_LAYER)
    fold(book, plan, layout)
    lies = behind_fold(book, plan, layout, _filled(plan, layout))
    book.section(Heading.SECOND_LAYER)
    return lies


def _mitred(book: Ledger, plan: BandPlan, layout: Layout, holes: Holes, done: int) -> None:
    """Both layers of a band that turns at corners, without holes."""
    changed = layer_parts.mitred_first_layer(book, plan, layout, Reason.TO_FOLD, done=done)
    book.section(Heading.FIRST_LAYER)
    fold(book, plan, changed)
    layer_parts.mitred_second_layer(book, plan, changed, _filled(plan, changed))
    book.section(Heading.SECOND_LAYER)


def _enclosed(book: Ledger, plan: BandPlan, layout: Layout, holes: Holes, done: int) -> None:
    rows = plan.rows
    knit_rows(book, plan, rows.to_holes - done, Reason.TO_BUTTONHOLES, done=done)
    hand_holes(book, plan, holes)
    fold(book, plan, layout)
    knit_rows(book, plan, rows.fold_to_holes, Reason.FROM_FOLD_TO_BUTTONHOLES,
              back=True, fills=_filled(plan, layout))
    book.section(Heading.SECOND_LAYER)
    close_holes(book, plan, layout, holes)
    knit_rows(book, plan, rows.to_finish, Reason.TO_END_OF_SECOND_LAYER, back=True,
              done=rows.fold_to_holes)
    book.attend(Topic.LOOK_AT_HOLES)


def _eyelets(book: Ledger, plan: BandPlan, layout: Layout, holes: Holes, done: int) -> None:
    """The same needles in both layers, as many rows from the fold."""
    rows = plan.rows
    knit_rows(book, plan, rows.to_holes - done, Reason.TO_BUTTONHOLES, done=done)
    book.attend(Topic.CHOOSE_HOLES, all_of(holes))
    knit_rows(book, plan, rows.holes_to_fold, Reason.TO_FOLD, done=rows.to_holes,
              fills=eyelets(book, layout, holes))
    book.section(Heading.FIRST_LAYER)
    fold(book, plan, layout)
    knit_rows(book, plan, rows.fold_to_holes, Reason.FROM_FOLD_TO_BUTTONHOLES,
              back=True, fills=_filled(plan, layout))
    knit_rows(book, plan, rows.to_finish, Reason.TO_END_OF_SECOND_LAYER, back=True,
              done=rows.fold_to_holes, fills=eyelets(book, layout, holes))
    book.attend(Topic.LOOK_AT_HOLES)
    book.section(Heading.SECOND_LAYER)


def _slits(book: Ledger, plan: BandPlan, layout: Layout, holes: Holes, done: int) -> None:
    rows = plan.rows
    slits(book, plan, layout, holes, rows.to_holes, rows.holes_to_fold, done=done)
    book.section(Heading.FIRST_LAYER)
    fold(book, plan, layout)
    slits(book, plan, layout, holes, rows.fold_to_holes, rows.to_finish, back=True,
          fills=_filled(plan, layout))
    book.attend(Topic.LOOK_AT_HOLES)
    book.section(Heading.SECOND_LAYER)


Holes = tuple[Needles, ...]
_LAYERS: Mapping[ButtonholeKind | None, Callable[[Ledger, BandPlan, Layout, Holes, int], None]] = {
    ButtonholeKind.ENCLOSED: _enclosed, ButtonholeKind.EYELET: _eyelets,
    ButtonholeKind.SLIT: _slits, ButtonholeKind.LOOPS: _plain}
