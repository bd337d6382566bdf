"""The list of how edges begin and end has only ways that a step of its page uses.

Common practice in editing patterns, no source. A knitter searched a cardigan for the edge that is
bound off stitch over stitch: its fronts end in one stitch, which is fastened off.
"""

from __future__ import annotations

from walebook.catalogue.ways import STITCH_OVER
from walebook.machine.edge_steps import BindOff
from walebook.words.edge_ways import edge_ways
from walebook.words.told import works

from tests.laws.test_collection import collection


def test_a_way_of_binding_off_is_told_where_an_edge_is_bound_off_so() -> None:
    told = 0
    for proof in collection().proofs:
        for size in proof.sizes:
            bound = [step for work in works(size) for step in work.program.steps
                     if isinstance(step, BindOff) and step.method == STITCH_OVER.name
                     and not step.keep_last and len(step.needles) > 1]
            by_hand = size.dressed is not None and any(
                join.way == STITCH_OVER.name for join in size.dressed.garment.joins)
            said = "Bind off stitch over stitch" in edge_ways(size)
            told += said
            assert said == bool(bound or by_hand), (proof.pattern.slug, size.size)
    assert told
