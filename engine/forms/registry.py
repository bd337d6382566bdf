"""The forms of the catalogue, each with its builder: measures -> pieces, joins, edges."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, fields, replace
from functools import partial

from ..catalogue.forms import FORM_KINDS, Construction, FormKind
from ..fabric.arrangement import repeat_said
from ..pattern.outlines import OutlineSpec
from ..shape.garment import CannotShape, Cut, Garment
from ..shape.roundings import Roundable, check_met
from . import blanket, charted, fitted, hat, mitten, outlines, saddle, shawl, sideways, sloped
from .bust import with_bust_darts
from .darts import check_darts
from .tail import with_tail


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
        garment = with_bust_darts(cut, with_tail(cut, garment))
        check_met(cut, garment)
        check_darts(cut, garment)
        _need_repeat_laid(cut, garment)
        return charted.with_chart(cut, garment, self.plain)


def _need_repeat_laid(cut: Cut, garment: Garment) -> None:
    """Shaped pieces of a fabric with needles left out of work: none is knitted yet in such."""
    for piece in garment.pieces:
        repeat = cut.of(piece.key).repeat
        if repeat is None or piece.repeat:
            continue
        raise CannotShape(
            f"{piece.title.lower()}, {charted.shaping_said(piece)}, of a fabric with needles "
            f"{repeat_said(repeat)} of work",
            "Use a fabric of every needle, or a form of straight pieces: a hat, mitten or "
            "blanket.")


Builder = tuple[Callable[[Cut], Garment], Roundable]  # how it is built, and what can be rounded


def _fitted(kind: FormKind) -> Builder:
    set_in = kind.construction is Construction.SET_IN
    return (partial(fitted.build, set_in=set_in, opens=kind.opens, sleeves=kind.sleeved),
            fitted.roundable(set_in=set_in, opens=kind.opens, sleeves=kind.sleeved))


BUILDERS: Mapping[Construction, Callable[[FormKind], Builder]] = {
    Construction.DROP_SHOULDER: _fitted,
    Construction.SET_IN: _fitted,
    Construction.RAGLAN: lambda kind: (
        partial(sloped.build, opens=kind.opens), sloped.roundable(opens=kind.opens)),
    Construction.SADDLE_RAGLAN: lambda kind: (
        partial(saddle.build, opens=kind.opens), saddle.roundable(opens=kind.opens)),
    Construction.SIDEWAYS: lambda _: (sideways.build, sideways.ROUNDS),
    Construction.HAT: lambda _: (hat.build, hat.ROUNDS),
    Construction.SHAWL: lambda _: (shawl.build, shawl.ROUNDS),
    Construction.BLANKET: lambda _: (blanket.build, blanket.ROUNDS),
    Construction.MITTEN: lambda _: (mitten.build, mitten.ROUNDS),
    Construction.OUTLINE: lambda _: (outlines.build, {})}


def _form(kind: FormKind) -> Form:
    build, rounds = BUILDERS[kind.construction](kind)
    declared = {each.name: getattr(kind, each.name) for each in fields(kind)}
    return Form(**declared, build=build, rounds=rounds)


FORMS: Mapping[str, Form] = {kind.name: _form(kind) for kind in FORM_KINDS.values()}


def outlined(form: Form, spec: OutlineSpec) -> Form:
    """Return a form with the counts of the designer's own pieces, where it has any."""
    return replace(form, rounds={**form.rounds, **outlines.rounds(spec)}) if spec.pieces else form
