"""One stitch is no "stitches" (English), where a step tells to move it.

Lost by a change of the engine that no test noticed (`.ci/mutants.py`).
"""

from __future__ import annotations

import pytest
from walebook.machine.needles import bed_of
from walebook.program.chart_actions import Action, Doing
from walebook.words.chart import action_said


@pytest.mark.parametrize(("needles", "said"), [(1, "move the stitch of "),
                                               (2, "move the stitches of "),
                                               (3, "move the stitches of ")])
def test_one_needle_has_one_stitch_to_move(needles: int, said: str) -> None:
    some = bed_of(10).leftmost(needles)
    assert action_said(Action(Doing.MOVE, some, by=1)).startswith(said)
