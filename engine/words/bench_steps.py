"""All that the scripts of a size page need of a piece's or band's steps, in the attributes of its
lists."""

from __future__ import annotations

from collections.abc import Sequence

from ..markup.html import data
from ..proof.proof import Work
from .at_bench import NOTHING, run_of, yarns_of
from .bench_bed import bed_of
from .bench_chart import chart_facts
from .instruction import Moment
from .shaped_edges import ShapingBlock


class StepFacts:
    """Tells the lists of a work in their order: a token says what changes since the one before."""

    __slots__ = ("_bed", "_chart", "_known", "_work", "_yarns")

    def __init__(self, work: Work) -> None:
        self._work, self._yarns = work, yarns_of(work.program)
        self._known, self._bed, self._chart = NOTHING, "", chart_facts(work)

    def attributes(self, group: Sequence[Moment | ShapingBlock]) -> str:
        """Return the attributes of the next list of steps."""
        run, self._known = run_of(group, self._known, self._yarns)
        bed, self._bed = bed_of(group, self._bed)
        return run + bed + (self._chart.rows_in(group, self._work) if self._chart else "")

    def chart_data(self, name: str) -> str:
        """Return the element with the texts of the work's chart, its id `name`; "" without one."""
        return data(name, self._chart.as_json()) + "\n\n" if self._chart else ""
