"""Words for the changes of yarn between stripes."""

from __future__ import annotations

from ..machine.reasons import Reason
from ..machine.steps import Thread, Unthread
from ..machine.two_yarn_steps import ThreadContrast
from ..proof.proof import Strip
from ..proof.yarn_extras import piece_yarn
from .instruction import Moment
from .terms.yarn_names import OTHER_YARNS
from .words import counted, needles_text

# Rows from which on a yarn that rests is caught at the edge: "Carry the yarn along the side", a
# lesson of a yarn maker.
CAUGHT = 4


def striped_yarn(m: Moment, step: Thread) -> str:
    """The name of a stripe's yarn, "" of any other."""
    if step.yarn not in OTHER_YARNS or isinstance(m.work, Strip):
        return ""
    return m.pattern.yarns[piece_yarn(m.pattern, m.work.piece.key, step.yarn)].called


def stripe_begun(m: Moment, step: Thread) -> str:
    """Where a stripe begins by the row counter, and how many rows it has; "" of any other yarn."""
    if step.reason is not Reason.STRIPE:
        return ""
    return (f" The row counter shows {m.after.counter}: a stripe of {counted(step.number, 'row')} "
            "begins.")


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
