"""The yarn a size needs: every piece and band as the bed counted it, with an allowance."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction

from ..core.counted import Count
from ..core.counts import UP, Unit, whole
from ..core.expression import Expression, Rounded, Sum, Term, plain
from ..core.operands import Role
from ..core.problems import Problem, Severity, note
from ..core.yarn_parts import ExtraPart, YarnCaution, YarnDoubt
from ..fabric.gauge import measure
from ..fabric.piece_fabrics import piece_fabric
from ..fabric.yarn import Amount, loop_made, packages, per_gram, total
from ..machine.edge_steps import TakeOff
from ..machine.programs import Program
from ..machine.records import dataclass
from ..machine.step_keys import StepYarn
from ..machine.steps import CastOn
from ..machine.trace import Trace
from ..pattern.fabrics import Fabric, Yarn
from ..pattern.model import GarmentSpec, Pattern
from ..words.terms.yarn_shares_named import extra_title, share_title, yarn_caution
from .proof import SizeProof
from .yarn_extras import Extra, ends, sewing, swatches, times_of
from .yarn_shares import YarnShare, bed_stitches, shares_of_bands, shares_of_pieces

# For knots, mending and a looser hand, on what is knitted. Common practice, no source.
ALLOWANCE = Fraction(1, 10)
YARD = Fraction("0.9144")  # [m], by definition


@dataclass(frozen=True, slots=True, kw_only=True)
class YarnRequirement:
    """What a size takes of one yarn.

    `knitted` is all its parts, `amount` that with the allowance and the `extras`; `grams`,
    `metres` and `packages` are `amount` rounded up, None where it is not known. Where the
    package tells no length and a swatch was weighed, ends and seams are left out: these are
    `left_out`.
    """

    yarn: Yarn
    parts: tuple[YarnShare, ...]
    extras: tuple[Extra, ...]
    left_out: tuple[ExtraPart, ...]
    knitted: Amount
    amount: Amount
    grams: Count | None
    metres: Count | None
    packages: Count | None

    @property
    def cautions(self) -> tuple[YarnCaution, ...]:
        """What the amount is based on where it is an estimate, each once."""
        without = (YarnCaution(doubt=YarnDoubt.EXTRAS_ON_TOP, extras=self.left_out),) \
            if self.left_out else ()
        mixed = (YarnCaution(doubt=YarnDoubt.ALL_BY_AREA),) \
            if self.knitted.grams is None and any(p.amount.metres is None for p in self.parts) \
            else ()
        return (*dict.fromkeys(one for p in self.parts for one in p.cautions), *without, *mixed)

    @property
    def counts(self) -> tuple[tuple[str, Count], ...]:
        """Every count by name: the stitches of its parts, then grams, metres and packages."""
        named = [(f"{p.key}_stitches", p.stitches) for p in self.parts]
        named += [(name, count) for name, count in (
            ("grams", self.grams), ("metres", self.metres), ("packages", self.packages))
            if count is not None]
        return tuple(named)

    @property
    def metres_made(self) -> Count | None:
        """The metres from the grams that are printed beside them, where they come of these alone;
        else from the parts; None where they are not known."""
        mass, each = self.amount.mass, per_gram(self.yarn)
        if mass is None or each is None:
            return self.metres
        by_mass = Term(mass, Role.YARN_GRAMS) * each
        return _up(by_mass, Unit.METRES) if by_mass.value == self.amount.metres else self.metres

    @property
    def yards(self) -> int | None:
        """The metres that are printed beside them in whole yards, up, so that a reader can redo
        the pair; None where they are not known."""
        return None if self.metres is None else whole(self.metres.value / YARD, UP)


def yarn_requirements(pattern: Pattern, size: SizeProof) -> tuple[YarnRequirement, ...]:
    """Return what a size needs of each yarn, in the order in which they are first knitted with.

    Waste yarn is listed by itself; cord is used again.
    """
    parts = _shares(pattern, size)
    extras = [*ends(pattern.garment, pattern.materials, pattern.bed, size),
              *sewing(pattern.garment, pattern.materials, pattern.bed, size),
              *swatches(pattern, size)]
    return tuple(_yarn_requirement(pattern.yarns[key], [p for p in parts if p.yarn == key],
                                   [e for e in extras if e.yarn == key])
                 for key in dict.fromkeys(p.yarn for p in parts))


def _shares(pattern: Pattern, size: SizeProof) -> list[YarnShare]:
    return [*shares_of_pieces(pattern, size), *shares_of_bands(pattern, size)]


def waste_metres(spec: GarmentSpec | None, fabrics: Mapping[str, Fabric], size: SizeProof) -> Count:
    """Return about how much waste yarn all starts and all waiting stitches take [m, up].

    A loop that is cast on with it counts as a stitch (common practice, no source). Its stitches are
    taken to need as much as those of the fabric: an estimate from their area.
    """
    own = spec.fabric if spec else next(iter(fabrics))
    found = {own: 0}
    for one in size.pieces:
        key = piece_fabric(spec, fabrics, one.piece.key).key
        found[key] = found.get(key, 0) + _wasted(one.program, one.trace) * times_of(size, one)
    found[own] += sum(_wasted(s.program, s.trace) for s in size.strips)
    parts = tuple(bed_stitches(stitches) * Term(
        loop_made(measure(fabrics[key].swatches)) / plain(1000), Role.STITCH_METRES, key)
        for key, stitches in found.items() if stitches or key == own)
    return Count(Rounded(parts[0] if len(parts) == 1 else Sum(parts), UP), Unit.METRES)


def _wasted(program: Program, trace: Trace) -> int:
    """The stitches of waste yarn, with its cast-ons and those that take others off [stitches]."""
    off = sum(len(step.needles) * step.rows for step in program.of(TakeOff))
    on = sum(len(step.needles) for step, state in zip(program.steps, trace.states, strict=True)
             if isinstance(step, CastOn) and state.feeder == StepYarn.WASTE)
    return dict(trace.stitches).get(StepYarn.WASTE, 0) + on + off


def unweighed(pattern: Pattern, sizes: Iterable[SizeProof]) -> tuple[Problem, ...]:
    """Return a caution for every yarn whose amount is not wholly from weighed swatches."""
    found = {(share.yarn, yarn_caution(caution))
             for size in sizes for share in _shares(pattern, size)
             if share.amount.basis.is_estimate for caution in share.cautions}
    return tuple(note(Severity.CAUTION, "yarn-not-weighed", pattern.places.of(f"yarns.{key}"),
                      found=f"that {text}", expected="a weighed swatch of every fabric",
                      remedy="Knit a swatch of it where there is none. Weigh it when it is washed "
                             "and rested, and give its mass.")
                 for key, text in sorted(found))


def _yarn_requirement(yarn: Yarn, parts: Sequence[YarnShare],
                      extras: Sequence[Extra]) -> YarnRequirement:
    knitted = total([p.amount.named(share_title(p.part)) for p in parts])
    counted = tuple(e for e in extras if knitted.mass is None or e.amount.mass is not None)
    amount = total([knitted.with_allowance(ALLOWANCE),
                    *(e.amount.named(extra_title(e.part)) for e in counted)])
    return YarnRequirement(yarn=yarn, parts=tuple(parts), extras=counted, knitted=knitted,
                           amount=amount,
                           left_out=tuple(e.part for e in extras if e not in counted),
                    grams=_up(amount.mass, Unit.GRAMS), metres=_up(amount.length, Unit.METRES),
                           packages=packages(amount, yarn))


def _up(needed: Expression | None, unit: Unit) -> Count | None:
    """What is needed, rounded up; None where it is not known."""
    return None if needed is None else Count(Rounded(needed, UP), unit)
