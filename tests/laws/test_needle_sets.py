"""Sets of needles against Python's own sets of whole numbers."""

from __future__ import annotations

from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st
from walebook.machine.needles import Needle, of

PLACES = st.sets(st.integers(-9, 9))


@given(PLACES)
def test_a_stretch_is_every_needle_from_the_first_to_the_last(places: set[int]) -> None:
    whole = set(range(min(places), max(places) + 1)) if places else set()
    assert {n.place for n in of(*map(Needle, places)).stretch} == whole


@given(PLACES)
def test_spans_have_every_needle_once_and_do_not_touch(places: set[int]) -> None:
    spans = of(*map(Needle, places)).spans()
    assert [place for first, last in spans
            for place in range(first.place, last.place + 1)] == sorted(places)
    assert all(b[0].place - a[1].place > 1 for a, b in pairwise(spans))
