"""What is computed of a band and not rounded: its lengths, and how its edge is taken up."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from functools import partial

from ..core.expression import Expression
from ..machine.records import dataclass
from ..pattern.fabrics import Fabric
from ..plan.band import BandPlan
from ..words.terms.working import length_working, working_of
from ..words.workings import PER_ROW, ratio_working
from .band_lengths import finished
from .outer_edge import outer_of


@dataclass(frozen=True, slots=True)
class Exact:
    """An exact figure in a unit, by its name, and what writes the sentence of how it comes."""

    name: str
    unit: str
    made: Expression
    how: Callable[[], str]

    @property
    def working(self) -> str:
        """The sentence that tells how it comes."""
        return self.how()


def exact_figures(fabrics: Mapping[str, Fabric], plan: BandPlan) -> Iterator[Exact]:
    """Yield the finished length and depth of a band, its pick-up ratio, and how long its outer edge
    is about, where that is known."""
    done, outer = finished(plan), outer_of(fabrics, plan)
    yield Exact("length", "mm", done.length.made, partial(working_of, done.length))
    yield Exact("depth", "mm", done.depth.made, partial(working_of, done.depth))
    yield Exact("pick_up", PER_ROW, plan.pick_up.made, partial(ratio_working, plan.pick_up))
    if outer and outer.made:
        yield Exact("outer_edge", "mm", outer.made.made,
                    partial(length_working, outer.made.made))
