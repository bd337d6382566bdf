"""The forms of the catalogue, each with its builder: measures -> pieces, joins, edges."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import field, fields, replace
from functools import cache
from typing import TYPE_CHECKING

from ..catalogue.forms import FORM_KINDS, Construction, FormKind
from ..core.on_use import on_use
from ..fabric.arrangement import repeat_text
from ..machine.records import dataclass
from ..pattern.outlines import OutlineSpec
from ..shape.garment import CannotShape, Cut, Garment
from ..shape.roundings import Roundable, check_met
from . import form_parts as parts
from .builder import Builder


@dataclass(frozen=True, slots=True, kw_only=True)
class Form(FormKind):
    """A form of the catalogue, how it is built, and the counts that a designer can have rounded.

    `outlined` are those of the designer's own pieces.
    """

    outlined: Roundable = field(default_factory=dict)

    @property
    def rounds(self) -> Roundable:
        """The counts that can be rounded, by name."""
        return {**_builder(self.name).rounds, **self.outlined}

    def shape(self, cut: Cut) -> Garment:
        """Return the garment in one size.

        Raises CannotShape with figures; what the shaping arithmetic refuses is one too, and a
        shaped piece of a fabric that leaves needles out of work.
        """
        try:
            garment = _builder(self.name).build(cut)
        except CannotShape:
            raise
        except ValueError as fault:
            raise CannotShape(str(fault), "Change the measures it names.") from fault
        garment = _with_short_rows(cut, garment)
        check_met(cut, garment)
        if cut.conventions.darts is not None:
            parts.check_darts(cut, garment)
        _need_repeat_laid(cut, garment)
        charted = any(cut.of(piece.key).chart for piece in garment.pieces)
        return parts.with_chart(cut, garment, self.plain) if charted else garment


def _with_short_rows(cut: Cut, garment: Garment) -> Garment:
    """The garment with the shirt tail and the bust darts that are asked for: few are."""
    tail, bust = cut.conventions.tail, cut.conventions.bust
    if tail is not None:
        garment = parts.with_tail(cut, garment, tail)
    if bust is not None:
        garment = parts.with_bust_darts(cut, garment, bust)
    return garment


def _need_repeat_laid(cut: Cut, garment: Garment) -> None:
    """Shaped pieces of a fabric with needles left out of work: none is knitted yet in such."""
    for piece in garment.pieces:
        repeat = cut.of(piece.key).repeat
        if repeat is None or piece.repeat:
            continue
        raise CannotShape(
            f"{piece.title.lower()}, {parts.shaping_text(piece)}, of a fabric with needles "
            f"{repeat_text(repeat)} of work",
            "Use a fabric of every needle, or a form of straight pieces: a hat, mitten or "
            "blanket.")


# The construction's module, and what returns its builder.
BUILDERS: Mapping[Construction, str] = {
    Construction.DROP_SHOULDER: "fitted.builder", Construction.SET_IN: "fitted.builder",
    Construction.RAGLAN: "sloped.builder", Construction.SADDLE_RAGLAN: "saddle.builder",
    Construction.SIDEWAYS: "sideways.builder", Construction.HAT: "hat.builder",
    Construction.SHAWL: "shawl.builder", Construction.BLANKET: "blanket.builder",
    Construction.MITTEN: "mitten.builder", Construction.OUTLINE: "outline_garment.builder"}

if TYPE_CHECKING:  # who reads imports and calls sees here what BUILDERS names
    from . import blanket, fitted, hat, mitten, outline_garment, saddle, shawl, sideways, sloped

    NAMED: tuple[Callable[[FormKind], Builder], ...] = (
        blanket.builder, fitted.builder, hat.builder, mitten.builder, outline_garment.builder,
        saddle.builder, shawl.builder, sideways.builder, sloped.builder)


@cache
def _builder(name: str) -> Builder:
    """The builder of the form called `name`, whose module is imported now."""
    kind = FORM_KINDS[name]
    builder: Callable[[FormKind], Builder] = on_use(__package__, BUILDERS[kind.construction])
    return builder(kind)


def import_all() -> None:
    """Import the modules of all forms, for whoever divides into processes that share them."""
    for name in FORM_KINDS:
        _builder(name)


def _form(kind: FormKind) -> Form:
    return Form(**{each.name: getattr(kind, each.name) for each in fields(kind)})


FORMS: Mapping[str, Form] = {kind.name: _form(kind) for kind in FORM_KINDS.values()}


def outlined(form: Form, spec: OutlineSpec) -> Form:
    """Return a form with the counts of the designer's own pieces, where it has any."""
    if not spec.pieces:
        return form
    from .outline_garment import rounds  # no other form needs them
    return replace(form, outlined=rounds(spec))
