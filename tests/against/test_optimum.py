"""The placing of buttonholes is the cheapest there is, against an integer programming solver.

The written cost and the rules for a sound placing are put to scipy's solver as they are worded,
in whole-number unknowns; it knows nothing of how the placing was found. One hole alone has no
gaps, its lower end being what is left, and is left out here.
"""

import random
from dataclasses import dataclass, field

import numpy as np
import pytest
from scipy.optimize import Bounds, LinearConstraint, milp
from walebook.plan.buttonholes import BandSpec, place

from tests.small_patterns import cost_of

GAP, BAND, END, LOPSIDED, UPPER = 1_000_000, 10_000, 100, 10, 1  # as the cost is written
FAR = 1_000  # more than any count of stitches here


@dataclass
class Model:
    """Whole-number unknowns with their bounds, and linear conditions on them."""

    names: list[str] = field(default_factory=list)
    low: list[float] = field(default_factory=list)
    high: list[float] = field(default_factory=list)
    conditions: list[tuple[dict[str, int], float, float]] = field(default_factory=list)

    def unknown(self, name: str, low: float, high: float) -> None:
        self.names.append(name)
        self.low.append(low)
        self.high.append(high)

    def require(self, weights: dict[str, int], low: float, high: float) -> None:
        self.conditions.append((weights, low, high))

    def row(self, weights: dict[str, int]) -> np.ndarray:
        return np.array([weights.get(name, 0) for name in self.names], dtype=float)

    def least(self, weights: dict[str, int]) -> dict[str, int] | None:
        """The unknowns that make the weighted sum least, or None where there are none."""
        limits = [LinearConstraint(self.row(w), low, high) for w, low, high in self.conditions]
        found = milp(
            self.row(weights),
            integrality=np.ones(len(self.names)),
            bounds=Bounds(self.low, self.high),
            constraints=limits,
            options={"mip_rel_gap": 0},
        )
        assert found.status in (0, 2), found.message  # solved, or shown to have no solution
        if found.status == 2:
            return None
        return {name: round(value) for name, value in zip(self.names, found.x, strict=True)}


COST = {
    "odd": GAP,
    "band more": BAND,
    "band fewer": BAND,
    "lower more": END,
    "lower fewer": END,
    "upper more": END + UPPER,
    "upper fewer": END + UPPER,
    "lopsided": LOPSIDED,
}


def add_end(model: Model, end: str, asked: int, give: int) -> None:
    """An end's stitches, at least one, and how far it moves either way but not both."""
    model.unknown(end, max(1, asked - give), asked + give)
    model.unknown(f"{end} more", 0, give)
    model.unknown(f"{end} fewer", 0, give)
    model.unknown(f"{end} grows", 0, 1)
    model.require({end: 1, f"{end} more": -1, f"{end} fewer": 1}, asked, asked)
    model.require({f"{end} more": 1, f"{end} grows": -FAR}, -np.inf, 0)
    model.require({f"{end} fewer": 1, f"{end} grows": FAR}, -np.inf, FAR)


def add_gaps(model: Model, spec: BandSpec) -> None:
    """One base gap, some gaps one larger, and the fewer of the two kinds as the odd ones."""
    spaces = spec.buttonhole_count - 1
    model.unknown("gap", max(2, spec.hole), FAR)
    model.unknown("larger", 0, spaces - 1)
    model.unknown("odd", 0, spaces)
    model.unknown("larger are most", 0, 1)
    model.require({"odd": 1, "larger": -1, "larger are most": FAR}, 0, np.inf)
    model.require({"odd": 1, "larger": 1, "larger are most": -FAR}, spaces - FAR, np.inf)


def modelled(spec: BandSpec) -> Model:
    """The specification as the solver is asked it."""
    model = Model()
    add_end(model, "lower", spec.lower, spec.end_give)
    add_end(model, "upper", spec.upper, spec.end_give)
    add_gaps(model, spec)
    model.unknown("band more", 0, spec.band_give)
    model.unknown("band fewer", 0, spec.band_give)
    model.unknown("lopsided", 0, FAR)
    moves = {"lower more": 1, "lower fewer": 1, "upper more": -1, "upper fewer": -1}
    model.require({**moves, "lopsided": -1}, -np.inf, 0)
    model.require({**moves, "lopsided": 1}, 0, np.inf)
    model.require({"band more": 1, "band fewer": 1}, 0, spec.band_give)
    filled = {"lower": 1, "upper": 1, "gap": spec.buttonhole_count - 1, "larger": 1}
    to_fill = spec.stitches - spec.buttonhole_count * spec.hole
    model.require({**filled, "band more": -1, "band fewer": 1}, to_fill, to_fill)
    return model


def drawn(chance: random.Random) -> BandSpec:
    """One that seldom divides; now and then it cannot be met at all."""
    holes, hole = chance.randint(2, 11), chance.randint(2, 5)
    ends = [chance.randint(1, 7) for _ in range(2)]
    gap, over = chance.randint(hole - 1, 16), chance.randint(-3, holes + 2)
    stitches = sum(ends) + holes * hole + (holes - 1) * gap + over
    gives = {"end_give": chance.randint(0, 3), "band_give": chance.randint(0, 2)}
    lower, upper = ends if chance.random() < 0.5 else [ends[0]] * 2
    return BandSpec(stitches=stitches, buttonhole_count=holes, hole=hole, lower=lower, upper=upper,
                    **gives)


@pytest.mark.parametrize("seed", range(8))
def test_no_placing_is_cheaper(seed):
    chance = random.Random(seed)
    met = 0
    for spec in (drawn(chance) for _ in range(50)):
        best, ours = modelled(spec).least(COST), place(spec)
        assert (best is None) == (ours is None), spec
        if best is None or ours is None:
            continue
        met += 1
        least = sum(weight * best[name] for name, weight in COST.items())
        assert cost_of(ours) == least, (spec, best, ours)
    assert 20 <= met < 50  # both answers are tried


@pytest.mark.parametrize("seed", range(100, 103))
def test_among_equals_the_larger_band_then_the_larger_lower_end(seed):
    chance = random.Random(seed)
    for spec in (drawn(chance) for _ in range(30)):
        ours, model = place(spec), modelled(spec)
        if ours is None:
            continue
        model.require(COST, cost_of(ours), cost_of(ours))
        best = model.least({"band more": -100, "band fewer": 100, "lower": -1})
        assert best is not None
        band = spec.stitches + best["band more"] - best["band fewer"]
        assert (ours.stitches, ours.lower) == (band, best["lower"]), (spec, best, ours)
