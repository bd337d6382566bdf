"""Every end of yarn that a band's program leaves is named where the knitter darns them in."""

from __future__ import annotations

from walebook.machine.edge_steps import BindOff
from walebook.machine.step_keys import StepYarn
from walebook.machine.steps import Attend, HandKnit, Knit, Step, Thread
from walebook.pages.program import numbered, words_of
from walebook.proof.proof import Strip
from walebook.words.instruction import Moment

from tests.whole_collection import collection

OWN = (StepYarn.MAIN, StepYarn.FACING)
SLITS, FOLD, ACROSS = "between the slits", "at the fold", "across the holes"


def left_inside(steps: tuple[Step, ...]) -> set[str]:
    """Where ends of the band's own yarns lie besides where it began and where it ended.

    An end begins where a new one is threaded, or where the feeder's is cut; those of the first and
    the last row lie where the band began and ended.
    """
    rows = [n for n, step in enumerate(steps) if isinstance(step, Knit | HandKnit)]
    found, slits, own = set(), False, False
    for n, step in enumerate(steps):
        if isinstance(step, Attend) and step.to == "choose slits":
            slits = True
        if isinstance(step, Thread):
            fresh = step.fresh and step.yarn in OWN
            if fresh and own and rows[0] < n < rows[-1]:
                found.add(SLITS if slits and step.yarn == OWN[0] else FOLD)
            own = own or step.yarn in OWN
        if isinstance(step, BindOff) and step.keep_last and step.yarn in OWN:
            found.add(ACROSS)
    return found


def test_every_end_is_named_where_the_ends_are_darned_in() -> None:
    wrong, met = [], set()
    for proof in collection().proofs:
        for strip in (s for s in proof.sizes[0].strips if isinstance(s, Strip)):
            told = [words_of(m).text for _, group in numbered(strip, proof.pattern) for m in group
                    if isinstance(m, Moment) and any(isinstance(s, Attend) and s.to in (
                        "darn in", "sew slits", "sew ends") for s in m.steps)]
            # Those at slits are darned in where the slits are sewn, if a layer then shuts them in.
            told += [ACROSS] * any("Darn in the ends at every hole," in words_of(m).text
                                   for _, group in numbered(strip, proof.pattern) for m in group
                                   if isinstance(m, Moment))
            told += [SLITS] * any("Darn these ends in now" in text for text in told)
            left = left_inside(strip.program.steps)
            met |= left
            wrong += [f"{proof.pattern.slug}, {strip.plan.band.title}: {where}: {told}"
                      for where in left if where not in "".join(told)]
    assert met == {SLITS, FOLD, ACROSS}
    assert not wrong, "\n".join(wrong)
