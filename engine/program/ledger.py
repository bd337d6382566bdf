"""Writes a program step by step, claiming after each what the knitter should then find.

The claims are reckoned here from what each step is meant to do; the bed recounts them from
what it does.
"""

from __future__ import annotations

from typing import Any

from ..catalogue.methods import WASTE_ROWS
from ..machine.edge_steps import BindOff, CloseUp, DrawCord, Hang, TakeOff
from ..machine.needles import NONE, Needles
from ..machine.reasons import Because, Reason
from ..machine.records import dataclass
from ..machine.rib_steps import (
    Latch,
)
from ..machine.set_up_steps import (
    Carriage,
    CutEnd,
    Weight,
)
from ..machine.step_keys import BindOffMethod, CastOnMethod, StepYarn, Topic
from ..machine.steps import (
    Attend,
    Bring,
    CastOn,
    Cross,
    FreePass,
    HandKnit,
    Hold,
    Increase,
    Knit,
    Position,
    Resume,
    Side,
    Slip,
    Transfer,
    Tuck,
    TurnLoop,
    TurnWork,
)
from ..machine.two_yarn_steps import (
    KnitTwo,
    PickContrast,
    ThreadContrast,
    UnthreadContrast,
    Yarns,
)
from .yarn_changes import Striping

AT = {Side.LEFT: Reason.AT_LEFT, Side.RIGHT: Reason.AT_RIGHT}


@dataclass
class Ledger(Striping):
    """A program in the making, with what its bases keep: the claims, the settings, a second bed.

    `tucks` and `slips` are chosen for the next row, `crossed` counts stitches that changed places,
    `latched` those latched up again. `contrast` is the yarn in the second feeder, `hanging` where
    its end was left when it was taken out, `picks` what takes it in the next row.
    """

    tucks: Needles = NONE
    slips: Needles = NONE
    crossed: int = 0
    latched: int = 0
    contrast: StepYarn = StepYarn.NONE
    hanging: Side | None = None
    last_contrast: StepYarn = StepYarn.NONE
    picks: Needles = NONE

    def bring(self, needles: Needles, position: Position = Position.WORKING,
              reason: Because = Reason.NONE) -> None:
        """Empty needles to `position`."""
        self._write(Bring, reason, needles=needles, position=position)

    def cast_on(self, needles: Needles, method: CastOnMethod, reason: Because = Reason.NONE
                ) -> None:
        """A loop on each of `needles`."""
        self.stitches += len(needles)
        self.loops += len(needles)
        if method is CastOnMethod.BY_HAND:
            self.forward |= needles
        self._write(CastOn, reason, needles=needles, method=method)

    def knit(self, rows: int, reason: Because = Reason.NONE, *, fills: Needles = NONE) -> None:
        """Rows with the carriage, over everything that is on the bed, each in its yarn."""
        for these in self.by_yarn(rows):
            self._knit(these, reason, fills)
            fills = NONE

    def _knit(self, rows: int, reason: Because, fills: Needles) -> None:
        self.ready()
        self.counter += rows
        self.stitches += len(fills)
        kept = self.tucks | self.slips
        self.piled = {n: self.piled.get(n, 0) + (n in self.tucks) for n in kept} if kept else {}
        self.loops = self.stitches + sum(self.piled.values())
        self._book(self.yarn, rows * (self.stitches - self.held - len(self.slips)), rows)
        if rows % 2:
            self.side = self.side.other
        self._write(Knit, reason, rows=rows, yarn=self.yarn, dial=self.dial, fills=fills,
                    passes=kept)
        self.raised &= self.slips
        self.tucks = self.slips = self.near = NONE

    def thread_contrast(self, yarn: StepYarn) -> None:
        """The contrast yarn into the second feeder, and the carriage set for two yarns.

        It is the end that hangs here, else a new one, laid under the needle held beside it.
        """
        self.contrast = yarn
        fresh = self.hanging is not self.side
        self._write(ThreadContrast, yarn=yarn, fresh=fresh, under=self.near if fresh else NONE)
        self.set_yarns(Yarns.TWO)

    def unthread_contrast(self, *, cut: bool, before_held: bool = False) -> None:
        """The contrast yarn out of the second feeder, where it is in; the carriage set for one.

        Cut, too, where needles are held before it is used again: it would lie over them.
        """
        if self.contrast:
            self.last_contrast = self.contrast
            self.contrast, self.hanging = StepYarn.NONE, None if cut or before_held else self.side
            self._write(UnthreadContrast, Reason.BEFORE_HELD if before_held else Reason.NONE,
                        cut=cut or before_held)
            self.set_yarns(Yarns.ONE)

    def cut_contrast(self) -> None:
        """The contrast yarn cut, in its feeder or where it was left hanging: no row needs it."""
        if self.contrast:
            self.unthread_contrast(cut=True)
        elif self.hanging:
            self.hanging = None
            self._write(CutEnd, yarn=self.last_contrast)

    def pick(self, needles: Needles) -> None:
        """Needles that take the contrast yarn in the next row."""
        self.picks |= needles
        self._write(PickContrast, needles=needles, lowered=self.raised - needles)
        self.raised &= needles

    def knit_two(self, *, fills: Needles = NONE) -> None:
        """One row with both yarns, over everything that is on the bed."""
        self.ready()
        self.counter += 1
        self.stitches += len(fills)
        self.piled, self.loops = {}, self.stitches
        self._book(self.yarn, self.stitches - self.held - len(self.picks), 1)
        self._book(self.contrast, len(self.picks), 1)
        self.side = self.side.other
        self._write(KnitTwo, rows=1, yarn=self.yarn, dial=self.dial, fills=fills,
                    contrast=self.contrast, picks=self.picks)
        self.picks = self.near = self.raised = NONE

    def hand_knit(self, needles: Needles, yarn: StepYarn, reason: Because = Reason.NONE, *,
                  cord: str = "", loose: bool = False) -> None:
        """Each of `needles` once by hand: what hangs there becomes one loop."""
        if not cord:
            self.loops = self.stitches
        self._book(yarn, len(needles), 0 if cord else 1)
        self._write(HandKnit, reason, needles=needles, yarn=yarn, cord=cord, loose=loose)

    def free_pass(self, reason: Because = Reason.NONE) -> None:
        """The carriage across without knitting; the counter counts it.

        Its slip levers are set, or every stitch is held, or no needle holds one.
        """
        if self.stitches and (self.stitches > self.held or self.carriage is Carriage.KNIT):
            self.set_carriage(Carriage.SLIP)
        self.counter += 1
        self.side, self.near = self.side.other, NONE
        self._write(FreePass, reason)

    def turn_work(self) -> None:
        """The work over on the garter bar."""
        self._write(TurnWork)

    def transfer(self, needles: Needles, by: int, reason: Because = Reason.NONE, *, fewer: int,
                 rest: bool = False) -> None:
        """Stitches moved, so that `fewer` needles hold some."""
        self.stitches -= fewer
        self.raised -= needles - needles.shifted(by)
        self._write(Transfer, reason, needles=needles, by=by, rest=rest)

    def turn_loops(self, needles: Needles) -> None:
        """The long loops over two needles each, turned on the second of them, `needles`."""
        self._write(TurnLoop, needles=needles)

    def cross(self, needles: Needles, left: int, right: int, first: Side,
              ) -> None:
        """Neighbouring stitches that change places."""
        self.crossed += len(needles)
        self._write(Cross, needles=needles, left=left, right=right, first=first)

    def tuck(self, needles: Needles) -> None:
        """Needles that the next row only lays its yarn over."""
        if self.carriage is not Carriage.HOLD:
            self.set_carriage(Carriage.HOLD)
        self.tucks |= needles
        self._write(Tuck, needles=needles)

    def slip(self, needles: Needles) -> None:
        """Needles that the next row passes by."""
        self.slips |= needles
        self._write(Slip, needles=needles, by_holding=needles & self.raised)

    def latch(self, needles: Needles, rows: int) -> None:
        """Columns of so many rows dropped and latched up again."""
        self.latched += len(needles) * rows
        self._write(Latch, needles=needles, rows=rows)

    def increase(self, needles: Needles, reason: Because = Reason.NONE) -> None:
        """A new stitch on each of these bare needles."""
        self.stitches += len(needles)
        self.loops += len(needles)
        self._write(Increase, reason, needles=needles)

    def hold(self, needles: Needles, reason: Because = Reason.NONE) -> None:
        """Needles forward to holding, the carriage set to hold first."""
        if self.carriage is not Carriage.HOLD:
            self.set_carriage(Carriage.HOLD)
        self.held += len(needles)
        if reason is AT[self.side]:
            self.near |= needles
        self.raised -= needles
        self._write(Hold, reason, needles=needles)

    def resume(self, needles: Needles, reason: Because = Reason.NONE) -> None:
        """Held needles back to work; with the last of them the carriage is set back."""
        self.held -= len(needles)
        self.raised |= needles
        self._write(Resume, reason, needles=needles)
        if not self.held and self.carriage is not self.rests:
            self.set_carriage(self.rests)

    def take_off(self, needles: Needles, edge: str, reason: Because = Reason.NONE, *,
                 held: bool = False, by_needle: bool = False) -> None:
        """Stitches off on waste yarn, from work or where `held` from holding.

        Rows of it leave the carriage where they began, and the pass that drops the stitches takes
        it across. Drawn through them `by_needle`, it moves nothing.
        """
        self.stitches -= len(needles)
        self.loops -= len(needles) + self._off(needles)
        if held:
            self.held -= len(needles)
        self._release(needles)
        if not by_needle:
            self.counter += WASTE_ROWS + 1
            self.side, self.near = self.side.other, NONE
        self._write(TakeOff, reason, needles=needles, edge=edge,
                    rows=0 if by_needle else WASTE_ROWS)

    def close_up(self, needles: Needles, onto: Needles, doubled: Needles = NONE,
                 empty: Needles = NONE, reason: Because = Reason.NONE) -> None:
        """All stitches off and on again, two on each of `doubled`, a loop from beside on those that
        stay `empty`; weights off before, on after."""
        self.weights_off()
        self.stitches -= len(doubled)
        self._write(CloseUp, reason, needles=needles, onto=onto, doubled=doubled, empty=empty)
        if empty:
            self.increase(empty, reason)
        self.hang_weights(Weight.EVEN, onto, Reason.AGAIN_ON_RIB if reason is Reason.ABOVE_RIB
                          else Reason.AGAIN)

    def hang(self, edge: str, needles: Needles, reason: Because = Reason.NONE, *, onto_empty: bool,
             doubled: Needles = NONE, corners: Needles = NONE, **how: Any) -> None:
        """A waiting edge, a loop a needle, two where `doubled`, one of a corner on `corners`."""
        self.loops += len(needles) + len(doubled) + len(corners)
        if onto_empty:
            self.stitches += len(needles)
        self._write(Hang, reason, edge=edge, needles=needles, onto_empty=onto_empty,
                    doubled=doubled, corners=corners, **how)

    def bind_off(self, needles: Needles, yarn: StepYarn, reason: Because = Reason.NONE, *,
                 toward: Side, keep_last: bool, method: BindOffMethod, layers: int = 1,
                 rest: bool = False) -> None:
        """Needles with `layers` loops each, or one and what was moved onto it, bound off; one loop
        may stay."""
        if not keep_last:
            self.lighten(needles)
        self.stitches -= len(needles) - keep_last
        moved = self._off(needles)
        self.loops -= layers * len(needles) + moved - keep_last
        self._write(BindOff, reason, needles=needles, yarn=yarn, toward=toward,
                    keep_last=keep_last, method=method, layers=None if moved else layers, rest=rest)

    def draw_cord(self, edge: str) -> None:
        """A cord, or waste, out."""
        self._write(DrawCord, edge=edge)

    def attend(self, to: Topic, needles: Needles = NONE, reason: Because = Reason.NONE) -> None:
        """Something to see to."""
        self._write(Attend, reason, to=to, needles=needles)
