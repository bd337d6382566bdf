"""The list of how edges begin and end has only ways that a step of its page uses.

Common practice in editing patterns, no source. A knitter searched a cardigan for the edge that is
bound off stitch over stitch: its fronts end in one stitch, which is fastened off.
"""

from __future__ import annotations

from walebook.catalogue.methods import STITCH_OVER
from walebook.machine.edge_steps import BindOff
from walebook.machine.step_keys import BindOffMethod
from walebook.words.edge_methods import edge_methods
from walebook.words.instruction import works

from tests.whole_collection import collection


def test_a_way_of_binding_off_is_told_where_an_edge_is_bound_off_so() -> None:
    told = 0
    for proof in collection().proofs:
        for size in proof.sizes:
            bound = [step for work in works(size) for step in work.program.steps
                     if isinstance(step, BindOff) and step.method is BindOffMethod.STITCH_OVER
                     and not step.keep_last and len(step.needles) > 1]
            by_hand = size.assembled is not None and any(
                join.method == STITCH_OVER.name for join in size.assembled.garment.joins)
            said = "Bind off stitch over stitch" in edge_methods(size)
            told += said
            assert said == bool(bound or by_hand), (proof.pattern.slug, size.size)
    assert told
