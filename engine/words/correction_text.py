"""Words for what was put right in a pattern, and whom it concerns."""

from __future__ import annotations

from collections.abc import Sequence

from ..machine.records import dataclass
from ..markup.html import esc, link
from ..pattern.corrections import Correction
from .page_headings import MAKING_UP
from .words import joined


@dataclass(frozen=True, slots=True)
class CorrectedPlace:
    """A step, or a whole piece or band, that a correction concerns: its id and whose it is."""

    anchor: str
    title: str


MADE_UP = MAKING_UP
OLDER = "<p>Files and sheets of an earlier version do not have the corrections of later ones.</p>"
NONE = "<p>No corrections so far.</p>"
OTHER_PART = "Write one of these, or name the sizes that have it."
OTHER_STEP = "Write the number that the step has on the page of this size."


def no_part(name: str) -> str:
    """That a correction names a piece or band that a size does not have."""
    return f'no piece or band called "{name}"'


def steps_there(last: int) -> str:
    """Which steps a correction can name."""
    return f"a step from 1 to {last}"


def corrected(one: Correction) -> str:
    """A correction with its date, its version and the sizes that it concerns, as HTML."""
    return f"<strong>{esc(', '.join(_head(one)))}:</strong> {esc(one.text)}"


def in_your_size(one: Correction, places: Sequence[CorrectedPlace] = (), mine: str = "") -> str:
    """A correction on the page of a size that it concerns, as HTML, with links to its `places`;
    where it names other sizes too, with that of the page as `mine`."""
    since = f"Version {esc(one.version)}, {esc(one.date)}" if one.version else esc(one.date)
    return f"<strong>{since}:</strong> {esc(one.text)}{_yours(mine)}{_where(one, places)}"


def at_the_head(one: Correction, mine: str = "") -> str:
    """A correction of the present version, at the head of the page of a size, as HTML."""
    return (f'<aside class="wb-corrected-now"><details class="wb-fold"><summary><b>Corrected in '
            f"{esc(one.version)}: what changed</b></summary><div>{esc(one.text)}{_yours(mine)}"
            "</div></details></aside>\n")


def _yours(mine: str) -> str:
    return (f" Where this correction gives figures for several sizes, take those for {esc(mine)}."
            * bool(mine))


def _where(one: Correction, places: Sequence[CorrectedPlace]) -> str:
    """Where a correction holds, and what a knitter does who has begun."""
    if not places:
        return ""
    step = f"step {one.step} of " * bool(one.step)
    named = joined(link(f"#{place.anchor}", esc(f"{step}{place.title}")) for place in places)
    begun = (" If you have not reached this step, knit it as this page says. If you have passed "
             "it, compare your knitting with it.") if one.step else ""
    return f" It concerns {named}.{begun}"


def _head(one: Correction) -> list[str]:
    sizes = f"size{'s' * (len(one.sizes) > 1)} {joined(one.sizes)}" if one.sizes else ""
    return [part for part in (one.date, f"version {one.version}" * bool(one.version), sizes)
            if part]
