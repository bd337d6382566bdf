"""The forms of the catalogue, each with its builder: measures -> pieces, joins, edges."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, fields
from functools import partial

from ..catalogue import forms as kinds
from ..catalogue.forms import FormKind
from ..fabric.arrangement import repeat_said
from ..shape.garment import CannotShape, Cut, Garment
from ..shape.roundings import Roundable, check_met
from . import blanket, charted, fitted, hat, mitten, saddle, shawl, sideways, sloped


@dataclass(frozen=True, slots=True, kw_only=True)
class Form(FormKind):
    """A form of the catalogue, how it is built, and the counts that a designer can have rounded."""

    build: Callable[[Cut], Garment]
    rounds: Roundable

    def shape(self, cut: Cut) -> Garment:
        """Return the garment in one size.

        Raises CannotShape with figures; what the shaping arithmetic refuses is one too, and a
        shaped piece of a fabric that leaves needles out of work.
        """
        try:
            garment = self.build(cut)
        except CannotShape:
            raise
        except ValueError as fault:
            raise CannotShape(str(fault), "Change the measures it names.") from fault
        check_met(cut, garment)
        _need_repeat_laid(cut, garment)
        return charted.with_chart(cut, garment, self.plain)


def _need_repeat_laid(cut: Cut, garment: Garment) -> None:
    """Shaped pieces of a fabric with needles left out of work: none is knitted yet in such."""
    if cut.repeat is None or all(piece.repeat for piece in garment.pieces):
        return
    piece = next(piece for piece in garment.pieces if piece.repeat is None)
    raise CannotShape(
        f"{piece.title.lower()}, {charted.shaping_said(piece)}, of a fabric with needles "
        f"{repeat_said(cut.repeat)} of work",
        "Use a fabric of every needle, or a form of straight pieces: a hat, mitten or blanket.")


def _form(kind: FormKind, build: Callable[[Cut], Garment], rounds: Roundable) -> Form:
    declared = {each.name: getattr(kind, each.name) for each in fields(kind)}
    return Form(**declared, build=build, rounds=rounds)


def _fitted(kind: FormKind, *, set_in: bool, sleeves: bool) -> Form:
    return _form(kind, partial(fitted.build, set_in=set_in, opens=kind.opens, sleeves=sleeves),
                 fitted.roundable(set_in=set_in, opens=kind.opens, sleeves=sleeves))


FORMS: Mapping[str, Form] = {form.name: form for form in (
    _fitted(kinds.DROP_PULLOVER, set_in=False, sleeves=True),
    _fitted(kinds.DROP_CARDIGAN, set_in=False, sleeves=True),
    _fitted(kinds.DROP_WAISTCOAT, set_in=False, sleeves=False),
    _fitted(kinds.SET_IN_PULLOVER, set_in=True, sleeves=True),
    _fitted(kinds.SET_IN_CARDIGAN, set_in=True, sleeves=True),
    _fitted(kinds.SET_IN_WAISTCOAT, set_in=True, sleeves=False),
    _fitted(kinds.SLIPOVER, set_in=True, sleeves=False),
    *(_form(kind, partial(sloped.build, opens=kind.opens), sloped.roundable(opens=kind.opens))
      for kind in (kinds.RAGLAN_PULLOVER, kinds.RAGLAN_CARDIGAN)),
    *(_form(kind, partial(saddle.build, opens=kind.opens), saddle.roundable(opens=kind.opens))
      for kind in (kinds.SADDLE_PULLOVER, kinds.SADDLE_CARDIGAN)),
    _form(kinds.SIDEWAYS, sideways.build, sideways.ROUNDS),
    _form(kinds.HAT, hat.build, hat.ROUNDS),
    _form(kinds.SHAWL, shawl.build, shawl.ROUNDS),
    _form(kinds.BLANKET, blanket.build, blanket.ROUNDS),
    _form(kinds.MITTEN, mitten.build, mitten.ROUNDS))}
