"""The garment forms a source can name, with the measures each is cut from."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass, field
from functools import partial

from ..fabric.arrangement import repeat_said
from ..shape.garment import CannotShape, Cut, Garment
from ..shape.roundings import Roundable, check_met
from ..sizing.measures import names_in
from . import blanket, charted, fitted, hat, mitten, saddle, shawl, sideways, sloped
from .defaults import HEADS, TO_THE_HIP, Better, over_head, sums
from .opened import EDGES

EASE = "8 cm"
FRONTS: Mapping[str, tuple[str, ...]] = {"fronts": ("right_front", "left_front")}
SLEEVES: Mapping[str, tuple[str, ...]] = {"sleeves": ("sleeve",)}


@dataclass(frozen=True, slots=True, kw_only=True)
class Form:
    """A form by name: what it is, its measures' default expressions, and how it is built.

    `edges` are the names bands can take, `rounds` the counts that a designer can have rounded,
    `pairs` the pieces that can be knitted side by side, by what they are called together.
    `plain` the pieces that no stitch chart is laid on. `better` and `halves` are what a measure
    is instead where chart or designer have more (see `defaults`); `followed` names the measures
    that no piece is cut by, and says what is: only other measures follow them. One that is not
    `seamed` has pieces with no seam at their sides.
    """

    name: str
    summary: str
    measures: Mapping[str, str]
    build: Callable[[Cut], Garment]
    edges: tuple[str, ...]
    rounds: Roundable
    pairs: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    plain: tuple[str, ...] = ()
    better: Better = field(default_factory=dict)
    halves: Mapping[str, str] = field(default_factory=dict)
    followed: Mapping[str, str] = field(default_factory=dict)
    seamed: bool = True

    def sums(self, rows: Collection[str], given: Mapping[str, str], *, slit: bool = False
             ) -> dict[str, str]:
        """Return the sum of every measure, for a chart with `rows` and what the designer gave.

        A neck that a `slit` opens is as wide as an open garment's.
        """
        known = [row for row in rows if not (slit and row in HEADS)]
        return sums(self.measures, self.better, self.halves, known, given)

    @property
    def is_worn(self) -> bool:
        """True where its own measures depend on a body's."""
        return any(name not in self.measures
                   for sum_ in self.measures.values() for name in names_in(sum_))

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


def _fitted(name: str, summary: str, *, set_in: bool, opens: bool, sleeves: bool) -> Form:
    edges = EDGES if opens else ("neck", "placket")
    own = {name: said for name, said in (fitted.SET_IN if set_in else fitted.DROP).items()
           if sleeves or name not in fitted.OF_SLEEVES}
    neck = {} if opens else over_head(own["neck_width"], "0.285", "0.27")
    return Form(name=name, summary=summary, measures={"ease": EASE, **own},
                build=partial(fitted.build, set_in=set_in, opens=opens, sleeves=sleeves),
                edges=edges if sleeves else (*edges, "armhole"),
                rounds=fitted.roundable(set_in=set_in, opens=opens, sleeves=sleeves),
                better={**TO_THE_HIP, **neck, **(fitted.BETTER if set_in else {})},
                halves={} if set_in or not sleeves else fitted.HALVES,
                followed=fitted.followed(set_in=set_in, sleeves=sleeves),
                pairs={**(FRONTS if opens else {}), **(SLEEVES if sleeves else {})})


def _sloped(name: str, summary: str, *, opens: bool) -> Form:
    return Form(name=name, summary=summary, measures={"ease": EASE, **sloped.MEASURES},
                build=partial(sloped.build, opens=opens),
                edges=EDGES if opens else ("neck", "placket"),
                rounds=sloped.roundable(opens=opens),
                better={**TO_THE_HIP, **sloped.BETTER, **({} if opens else over_head(
                    sloped.MEASURES["neck_width"], "0.285", "0.27"))},
                followed=sloped.FOLLOWED,
                pairs={**FRONTS, **SLEEVES} if opens else SLEEVES)


def _saddle(name: str, summary: str, *, opens: bool) -> Form:
    return Form(name=name, summary=summary, measures={"ease": EASE, **saddle.MEASURES},
                build=partial(saddle.build, opens=opens), edges=EDGES if opens else ("neck",),
                rounds=saddle.roundable(opens=opens),
                better={**TO_THE_HIP, **saddle.BETTER, **({} if opens else over_head(
                    saddle.MEASURES["neck_width"], "0.26", "0.25"))},
                followed=sloped.FOLLOWED,
                pairs={**FRONTS, **SLEEVES} if opens else SLEEVES)


FORMS: Mapping[str, Form] = {form.name: form for form in (
    _fitted("drop-shoulder pullover", "straight to the shoulder, sleeves set on straight",
            set_in=False, opens=False, sleeves=True),
    _fitted("drop-shoulder cardigan", "the same, open at the front",
            set_in=False, opens=True, sleeves=True),
    _fitted("drop-shoulder waistcoat", "the same, open and without sleeves",
            set_in=False, opens=True, sleeves=False),
    _fitted("set-in pullover", "shaped armholes and sleeve caps",
            set_in=True, opens=False, sleeves=True),
    _fitted("set-in cardigan", "the same, open at the front",
            set_in=True, opens=True, sleeves=True),
    _fitted("set-in waistcoat", "shaped armholes, open and without sleeves",
            set_in=True, opens=True, sleeves=False),
    _fitted("set-in slipover", "shaped armholes, closed and without sleeves",
            set_in=True, opens=False, sleeves=False),
    _sloped("raglan pullover", "body and sleeves narrowing together to the neck", opens=False),
    _sloped("raglan cardigan", "the same, open at the front", opens=True),
    _saddle("saddle raglan pullover", "a raglan with a strap of the sleeve over each shoulder",
            opens=False),
    _saddle("saddle raglan cardigan", "the same, open at the front", opens=True),
    Form(name="sideways pullover", summary="its body turned: straight pieces knitted from side to "
         "side, a boat neck, sleeves set on straight", measures={"ease": EASE, **sideways.MEASURES},
         build=sideways.build, edges=("neck", "hem"), rounds=sideways.ROUNDS, pairs=SLEEVES,
         better={**TO_THE_HIP, **over_head(sideways.MEASURES["neck_width"], "0.42", "0.4")},
         halves=fitted.HALVES, followed=sideways.FOLLOWED),
    Form(name="hat", summary="knitted flat, the crown gathered and drawn up, one back seam",
         measures=hat.MEASURES, build=hat.build, edges=("brim",),
         rounds=hat.ROUNDS, followed=hat.FOLLOWED),
    Form(name="triangular shawl", summary="from its long edge, short rows down to the tip",
         measures=shawl.MEASURES, build=shawl.build, edges=(),
         rounds=shawl.ROUNDS),
    Form(name="panelled blanket", summary="panels of equal width, sewn row to row",
         measures=blanket.MEASURES, build=blanket.build, edges=(),
         rounds=blanket.ROUNDS, seamed=False),
    Form(name="mitten", summary="knitted flat with a side seam, a small thumb sewn into it",
         measures=mitten.MEASURES, build=mitten.build, edges=("cuff",),
         rounds=mitten.ROUNDS, plain=("thumb",), followed=mitten.FOLLOWED,
         pairs={"hands": ("hand",), "thumbs": ("thumb",)}),
)}
