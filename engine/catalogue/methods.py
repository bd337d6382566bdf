"""The ways on and off the bed by name: what each takes, what its edge is like, how it gives."""

from __future__ import annotations

from collections.abc import Mapping
from enum import Enum
from fractions import Fraction

from ..core.counts import UP
from ..core.expression import Expression, Operand, Rounded
from ..core.operands import Role
from ..core.text_kinds import SourceName
from ..core.units import Length, length_cm
from ..machine.records import dataclass
from ..machine.step_keys import BindOffMethod, CastOnMethod
from ..words.terms import method_words as words

WASTE_ROWS = 8  # between a start and its cord, or over what waits: clearwaterknits.com, "Hems"


class Give(Enum):
    """How far an edge stretches."""

    FIRM = "firm"
    FABRIC = "gives with the fabric"
    ELASTIC = "elastic"


# How much longer an edge can be drawn than it lies, as a share: common practice, no source. No
# measured figure was found; "How stretchy is your cast-on/bind-off?", acengineeredknits, 2010,
# tells how to measure it: the change under one load, of the edge and of the fabric beside it.
STRETCH: Mapping[Give, Fraction] = {Give.FIRM: Fraction(0), Give.FABRIC: Fraction(1, 10),
                                    Give.ELASTIC: Fraction(3, 5)}


@dataclass(frozen=True, slots=True, kw_only=True)
class Method:
    """A way on or off, by the name a source gives it.

    `phrase` is how a step names it, `look` what the edge is like. `yarn` is how long an end it
    takes, in [mm] for each [mm] of the work's width on the bed. `page` is its technique page.
    `pegs` are the gate pegs that the yarn goes round at every stitch; with none the edge is as
    wide as the stitches are.
    One that `waits` leaves the stitches on waste yarn, to be closed by hand off the bed.
    """

    name: SourceName
    phrase: str
    look: str
    give: Give
    yarn: Fraction
    page: str
    waits: bool = False
    pegs: int = 0


def _method(name: SourceName, words_of: words.MethodWords, give: Give, yarn: int, page: str,
            waits: bool = False, pegs: int = 0) -> Method:
    return Method(name=name, phrase=words_of.phrase, look=words_of.look, give=give,
                  yarn=Fraction(yarn), page=page, waits=waits, pegs=pegs)


# How each edge looks and gives: common practice, no source, where its technique page names none.
# Yarn: three times the width for back-stitching (Knit Fits), for grafting and for drawing up (Diana
# Sullivan, "Mobius scarf: waste knitting", 2015; "Mid-gauge hat for premature baby", 2014), the
# rest common practice, no source.
BY_HAND = _method("by hand", words.BY_HAND, Give.FABRIC, 4, "cast-on-by-hand.html")
LATCH_ON = _method("latch-tool chain", words.LATCH_ON, Give.FIRM, 4, "latch-tool-chain.html#steps")
PEG_ON = _method("chain over the gate pegs", words.PEG_ON, Give.FABRIC, 4,
                 "latch-tool-chain.html#over-the-pegs", pegs=1)
WASTE_ON = _method("waste yarn", words.WASTE_ON, Give.ELASTIC, 0, "waste-start.html", True)
CAST_ONS: Mapping[str, Method] = {
    method.name: method for method in (BY_HAND, LATCH_ON, PEG_ON, WASTE_ON)
}
CAST_ON_STEPS: Mapping[Method, CastOnMethod] = {
    BY_HAND: CastOnMethod.BY_HAND, LATCH_ON: CastOnMethod.LATCH_CHAIN,
    PEG_ON: CastOnMethod.PEG_CHAIN, WASTE_ON: CastOnMethod.WASTE_START}
CAST_ON_METHODS: Mapping[CastOnMethod, Method] = {
    step: method for method, step in CAST_ON_STEPS.items()}

STITCH_OVER = _method("stitch over stitch", words.STITCH_OVER, Give.FIRM, 3,
                      "bind-off-at-the-side.html")
PEGS_OFF = _method("around the gate pegs", words.PEGS_OFF, Give.FABRIC, 4, "gate-pegs.html", pegs=1)
TWO_PEGS_OFF = _method("around two gate pegs", words.TWO_PEGS_OFF, Give.FABRIC, 6,
                       "gate-pegs.html#two-pegs", pegs=2)
LATCH_OFF = _method("latch-tool chain", words.LATCH_OFF, Give.FIRM, 4,
                    "latch-tool-chain.html#steps-off", pegs=1)
CHAIN_OFF = _method("yarnless chain", words.CHAIN_OFF, Give.FABRIC, 0, "yarnless-chain.html")
SEWN = _method("back-stitched", words.SEWN, Give.ELASTIC, 3, "back-stitched.html", True)
GRAFT = _method("grafted", words.GRAFT, Give.FABRIC, 3, "grafted.html", True)
TOGETHER = _method("bound off together", words.TOGETHER, Give.FIRM, 4, "joining-shoulders.html",
                   True)
DRAWN = _method("drawn up", words.DRAWN, Give.FIRM, 3, "gathering-a-crown.html")
BIND_OFFS: Mapping[str, Method] = {method.name: method for method in (
    STITCH_OVER, PEGS_OFF, TWO_PEGS_OFF, LATCH_OFF, CHAIN_OFF, SEWN, GRAFT, TOGETHER, DRAWN)}
BIND_OFF_STEPS: Mapping[Method, BindOffMethod] = {
    STITCH_OVER: BindOffMethod.STITCH_OVER, PEGS_OFF: BindOffMethod.GATE_PEGS,
    TWO_PEGS_OFF: BindOffMethod.TWO_GATE_PEGS, LATCH_OFF: BindOffMethod.LATCH_CHAIN,
    CHAIN_OFF: BindOffMethod.CHAINED}
"""The step that binds off in each way; the others are made by hand, off the bed."""
BIND_OFF_METHODS: Mapping[BindOffMethod, Method] = {
    step: method for method, step in BIND_OFF_STEPS.items()}

# Of a piece that is bound off
TOPS = (STITCH_OVER, PEGS_OFF, TWO_PEGS_OFF, LATCH_OFF, CHAIN_OFF, SEWN)
# Of one whose edge must be longer than its stitches are wide, its own first: a very wide edge is
# sewn off loosely, "Swag blanket 3", brunsmachknit.blogspot.com, 2015
SPREAD_TOPS = (SEWN, TWO_PEGS_OFF, PEGS_OFF)
SHOULDERS = (TOGETHER, GRAFT, SEWN)  # two edges of as many stitches that wait on waste yarn
SINGLES = (CHAIN_OFF, PEGS_OFF, TWO_PEGS_OFF, LATCH_OFF, SEWN)  # of a band of one layer
SEWN_ON = (LATCH_OFF, PEGS_OFF, SEWN)  # of a band that is knitted apart on a few needles
FOLDED = (CHAIN_OFF, SEWN)  # of a band folded inward


CUT_STEP = length_cm(5)  # to which a step says what is cut
HAND = length_cm(15)  # what hangs at either end of a length to sew with: common practice, no source


def end_of(method: Method, width: Length) -> Length:
    """Return the end that a way takes for an edge of this `width`, up to the next 5 cm."""
    return Length(_end_made(method, Operand(width.mm, Role.LENGTH)).value)


def separate_end(method: Method, width: Length) -> Length:
    """Return a separate end for an edge of this `width`: it is a hand's length longer, to hold."""
    return Length(separate_end_made(method, Operand(width.mm, Role.LENGTH)).value)


def separate_end_made(method: Method, width: Expression) -> Expression:
    """Return the same end [mm] as it is computed from a `width` [mm]."""
    return _end_made(method, width) + hands_long(1)


def _end_made(method: Method, width: Expression) -> Expression:
    step = Operand(CUT_STEP.mm, Role.CUT_STEP)
    return Rounded(longer(method.yarn, width) / step, UP) * step


def longer(times: Fraction | int, along: Expression) -> Expression:
    """Return yarn that is so many `times` as long as what it goes `along` [mm]."""
    return Operand(Fraction(times), Role.TIMES_LONG) * along


def hands_long(number: int) -> Expression:
    """Return so many hand's lengths, one for each end that hangs [mm]."""
    one = Operand(HAND.mm, Role.HAND)
    return one if number == 1 else Operand(Fraction(number), Role.ENDS_CUT) * one
