"""Words for the stripes of a piece, and for the changes of yarn between them."""

from __future__ import annotations

from collections.abc import Sequence

from ..machine.reasons import Reason
from ..machine.step_keys import STRIPE_YARNS, StepYarn
from ..machine.steps import Thread, Unthread
from ..machine.two_yarn_steps import ThreadContrast
from ..markup.html import esc
from ..pattern.fabrics import Materials
from ..pattern.model import GarmentSpec
from ..proof.proof import Strip
from ..proof.yarn_extras import piece_yarn
from ..shape.piece import Piece
from ..shape.ribs import Rib
from .instruction import Moment
from .terms.yarn_names import yarn_name
from .words import counted, joined, needles_text

# Rows from which on a yarn that rests is caught at the edge: "Carry the yarn along the side", a
# lesson of a yarn maker.
CAUGHT = 4


def striped_yarn(m: Moment, step: Thread) -> str:
    """The name of a stripe's yarn, "" of any other."""
    if step.yarn not in STRIPE_YARNS or isinstance(m.work, Strip):
        return ""
    return m.pattern.yarns[piece_yarn(m.pattern.garment, m.pattern.fabrics, m.work.piece.key,
                                      step.yarn)].called


def stripe_begun(m: Moment, step: Thread) -> str:
    """Where a stripe begins by the row counter, and how many rows it has; "" of any other yarn.

    The last one ends with the piece, and may have fewer rows than others of its yarn.
    """
    if step.reason is not Reason.STRIPE or isinstance(m.work, Strip):
        return ""
    striped, rows = m.work.piece.striped, counted(step.number, "row")
    begins = f"a stripe of {rows} begins"
    if striped and striped.until(m.after.counter + 1) is None:
        begins = f"the last stripe begins, {rows} up to the end"
    return f" The row counter shows {m.after.counter}: {begins}."


def stripes_lead(spec: GarmentSpec | None, materials: Materials, piece: Piece) -> str:
    """Return the stripes of a piece, with the names of their yarns, as HTML; "" where none."""
    if not piece.striped or len(piece.striped.stripes) < 2:
        return ""
    ends = [*(each.first for each in piece.striped.stripes[1:]), piece.striped.last + 1]
    runs = [(each.yarn, end - each.first)
            for each, end in zip(piece.striped.stripes, ends, strict=True)]
    period = _period(runs[1:])
    again = f" over and over, in {sum(rows for _, rows in runs[1:period + 1])} rows:" \
        if period < len(runs) - 1 else ""
    parts, named = [], set()
    for yarn, rows in runs[:period + 1]:
        called = materials.yarns[piece_yarn(spec, materials.fabrics, piece.key, yarn)].called
        parts.append(f"{counted(rows, 'row')} of the {yarn_name(yarn)}"
                     + f" ({called})" * (yarn not in named))
        named.add(yarn)
    foot = f" above the {'rib' if isinstance(piece.hem, Rib) else 'hem'}" * bool(piece.hem)
    return (f"<p>Stripes, by the row counter{foot}: first {esc(parts[0])}. Then{again} "
            f"{esc(joined(parts[1:]))}.</p>")


def _period(runs: Sequence[tuple[StepYarn, int]]) -> int:
    """After how many stripes they come again, the last of all perhaps cut; all, if never."""
    return next(n for n in range(1, len(runs) + 1) if all(
        a == b or (at == len(runs) - 1 and a[0] == b[0] and a[1] < b[1])
        for at, (a, b) in enumerate(zip(runs[n:], runs, strict=False), n)))


def laid_under(step: Thread | ThreadContrast) -> str:
    """How a new end goes round the needle held beside it, as a yarn would that hung from it."""
    if not step.under:
        return ""
    return (f" Lay it by hand under the held needle {needles_text(step.under)}, so that no hole is "
            "left.")


def caught_text(step: Unthread) -> str:
    """How a yarn that rests for long is kept from hanging in a long loop along the edge."""
    if step.reason is not Reason.STRIPE or step.number < CAUGHT:
        return ""
    return (f" It rests for {counted(step.number, 'row')}: each time the carriage is back on this "
            "side, lay it once round the yarn in the feeder.")
