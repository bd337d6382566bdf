"""A band looked at across the sizes: its length and its depth, as knitted."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction

from ..core.problems import Problem, Severity, note
from ..pattern.edges import EdgeSpec
from ..pattern.model import Band
from ..pattern.places import Places
from ..sizing.grading import OutOfStep, look_across
from .band import BandPlan, depth_mm

GRAIN = Fraction(1)  # what rounding may move a length by [cm]; common practice, no source
FACTOR = Fraction(4)  # as for a garment's measures


def out_of_step(places: Places, edges: Mapping[str, EdgeSpec], band: Band, plans: Sequence[BandPlan]
               ) -> list[Problem]:
    """Return a warning for each size in which a band falls where its neighbours rise, or jumps.

    Two sizes say nothing of what is usual, and a band that stays the same is no fault. Where the
    edge itself is out of step, it was said of the edge.
    """
    if len(plans) < 3 or band.edge in edges:
        return []
    edge = _found("edge", [(p.size, p.edge_path.length / 10) for p in plans])
    lengths = {"length": [(p.size, p.stitches.value * p.gauge.stitch / 10) for p in plans],
               "depth": [(p.size, depth_mm(p) / 10) for p in plans]}
    return [note(Severity.WARNING, "out-of-step", places.of(f"bands.{band.key}"),
                 size=found.size, found=found.text, expected="a step like its neighbours'",
                 remedy="Change what its edge is cut from, or leave it if you mean it.")
            for name, values in lengths.items()
            for found in _found(f"{band.title}, {name} [cm]", values)
            if found.size not in {each.size for each in edge}]


def _found(name: str, values: Sequence[tuple[str, Fraction]]) -> tuple[OutOfStep, ...]:
    """What falls or jumps; to rise by a size is not against the sizes."""
    return tuple(f for f in look_across(name, values, factor=FACTOR, grain=GRAIN)
                 if f.kind != "against" or f.step < 0)
