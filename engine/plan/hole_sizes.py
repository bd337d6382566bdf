"""How large holes are, besides where they lie: the stitches some always take, a slit's rows, a
loop's length.

Sources: Sharon Turner, "Teach Yourself Visually Knitting" (B06); Yateley Machine Knitting Club,
"February 2013: buttonholes and bands" (P05).
"""

from __future__ import annotations

from fractions import Fraction

from ..core.counted import Count
from ..core.counts import EVEN, Unit
from ..core.expression import Chosen, Expression, LookUp, Operand, Rounded, Rule, plain
from ..core.note_arguments import Noted
from ..core.operand_parts import FixedHole
from ..core.operands import ChoiceReason, Note, Role
from ..core.problems import Place
from ..core.units import Length
from ..pattern.holes import ButtonholeKind
from ..words.terms.part_names import HOLES

# Holes that have just so many stitches, whatever the button: made by moving stitches (P05), an
# eyelet counted with the stitch it is moved onto (B06), a slit with the stitch at either side.
FIXED: dict[ButtonholeKind, tuple[int, FixedHole]] = {
    ButtonholeKind.ONE_STITCH: (1, FixedHole.ONE_STITCH),
    ButtonholeKind.TWO_STITCHES: (2, FixedHole.TWO_STITCHES),
    ButtonholeKind.EYELET: (2, FixedHole.EYELET),
    ButtonholeKind.SLIT: (2, FixedHole.SLIT),
}
TIGHTER = Fraction(9, 10)  # a slit is a tenth shorter than its button; common practice, no source
PI = Fraction(355, 113)  # less than a millionth too much


def fixed_stitches(kind: ButtonholeKind) -> Count | None:
    """Return the stitches [stitches] of a hole that has so many whatever the button, else None."""
    if kind not in FIXED:
        return None
    entries = tuple((HOLES[hole], n) for n, hole in FIXED.values())
    return Count(LookUp("stitches of a hole", HOLES[FIXED[kind][1]], entries), Unit.STITCHES)


def slit_rows(button: Length, row: Fraction, place: Place | None = None) -> Count:
    """Return the rows [rows] of a slit for `button`, where a row is `row` high [mm].

    Nine tenths of the button, to an even number, since each side begins and ends at its own
    outer edge; at least two. Common practice, no source.
    """
    wide = Operand(button.mm, Role.BUTTON, place=place)
    figure = wide * plain(TIGHTER) / Operand(row, Role.ROW_HEIGHT)
    return Count(Chosen((Rounded(figure, EVEN, row), plain(2)), Rule.LARGEST,
                        ChoiceReason.LEAST_SLIT),
                 Unit.ROWS)


def loop_length(button: Length) -> Length:
    """Return the length of a loop from foot to foot along its chain: half the button's girth.

    Common practice, no source.
    """
    return Length(loop_made(button).value)


def loop_made(button: Length, place: Place | None = None) -> Expression:
    """Return that length as it is computed [mm]; a `place` is where the source has the button."""
    return Operand(button.mm, Role.BUTTON, place=place) * Operand(PI, Role.PI) / plain(2)


def loop_chains(button: Length, stitch: Fraction, place: Place | None = None) -> Count:
    """Return the chain stitches of a loop, each as long as a band stitch is wide [mm].

    That a chain is so long is common practice, no source: the loop is tried on the button.
    """
    chains = Rounded(loop_made(button, place) / Operand(stitch, Role.STITCH_WIDTH), pitch=stitch)
    return Count(Noted(Chosen((chains, plain(3)), Rule.LARGEST, ChoiceReason.LEAST_LOOP),
                       Note.HALF_GIRTH), Unit.STITCHES)
