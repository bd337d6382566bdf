"""Which shapings stand together as one step, and which as a list of rows: by letters for kinds.

What is wanted is the rule itself, as `words/shaping_blocks.py` states it; it is a way of writing
of ours, and has no source.
"""

from __future__ import annotations

from typing import cast

import pytest
from hypothesis import given
from hypothesis import strategies as st
from walebook.bed.state import State
from walebook.machine.needles import Needle, of
from walebook.machine.steps import Side
from walebook.words.shaped_edges import Act, Done, Event
from walebook.words.shaping_blocks import FEWEST, in_blocks

KINDS = {"A": (Done.DECREASE, Side.LEFT), "B": (Done.DECREASE, Side.RIGHT),
         "C": (Done.INCREASE, Side.LEFT), "D": (Done.HOLD, Side.RIGHT),
         "E": (Done.BIND_OFF, Side.LEFT)}
NOTHING = cast(State, None)  # how the bed stands is not looked at


def events(letters: str) -> list[Event]:
    """Shapings of one stitch, one after the other; after a space something else was done."""
    out = []
    for at, letter in enumerate(letters):
        if letter != " ":
            done, side = KINDS[letter]
            act = Act(done=done, side=side, stitches=1, moved=1, needles=of(Needle(0)))
            out.append(Event(first=at, upto=at + 1, rows=2, acts=(act,), before=NOTHING,
                             after=NOTHING))
    return out


def letters_of(block_events: tuple[Event, ...]) -> str:
    names = {kind: name for name, kind in KINDS.items()}
    return "".join(names[one.done, Side(one.side)] for e in block_events for one in e.acts
                   if one.side)


def told(letters: str) -> list[str]:
    """Each block by its letters; a list of rows in brackets."""
    return [f"[{letters_of(b.events)}]" if b.mixed else letters_of(b.events)
            for b in in_blocks(events(letters))]


@pytest.mark.parametrize(("letters", "blocks"), [
    ("AABB", ["AA", "BB"]),  # nothing comes back
    ("ABA", ["[ABA]"]),  # A comes back after something else
    ("ABACC", ["[ABA]", "CC"]),  # and what comes after is a block again
    ("CCABA", ["CC", "[ABA]"]),
    ("ABCAB", ["[ABCAB]"]), ("ABCBDA", ["[ABCBDA]"]),
    ("ABADCD", ["[ABA]", "[DCD]"]),  # two lists of rows: neither comes back in the other
    ("AAAABABAAAA", ["AAAA", "[BAB]", "AAAA"]),  # long stretches at the ends stand alone
    ("AAAABAAAA", ["AAAA", "B", "AAAA"]),  # what is left between them is too little for a list
    ("AB A", ["A", "B", "A"]),  # steps of another kind lie between
    ("EE", ["E", "E"]), ("EEE", ["[EEE]"]), ("EEEE", ["[EEEE]"]),  # each names other needles
])
def test_what_comes_back_after_something_else_is_a_list_of_rows(letters: str, blocks: list[str]
                                                                ) -> None:
    assert told(letters) == blocks


@given(st.text(alphabet="ABCD ", max_size=14))
def test_no_event_is_lost_and_only_what_is_alike_is_one_step(letters: str) -> None:
    made = list(in_blocks(events(letters)))
    assert [event for block in made for event in block.events] == events(letters)
    for block in made:
        many = len({event.alike for event in block.events})
        assert (many > 1 and len(block.events) >= FEWEST) or not block.mixed
        assert block.mixed or many == 1
