"""How far the published cases are reached from a pattern source, counted by name.

A case counts as reached when a check of it begins with the text of a source. The rest stand here:
those whose own numbers no key of a source takes, and those that are not followed. Which check does
what is read from the syntax trees, so that a case cannot stay in a list that no longer holds for
it.
"""

from __future__ import annotations

import ast
from functools import cache
from pathlib import Path

from published_more import CASES, MORE

from tests.laws.calls import Calls, Name, calls_of, files_of

READS = {"walebook.source.pattern.read_pattern", "walebook.proof.texts.prove_texts"}
TALLY = {"reached from a source": 130, "by values alone": 9, "not followed": 11}

# Cases of functions that every source calls, with numbers that no key of a source takes.
BY_VALUES = {
    "B06": "the ends of a band differ from size to size; a source gives one distance for all",
    "D09": "the loops of a free edge are the bed's matter, and no key hangs fewer",
    "G03": "a source has a swatch's counts and sides, not the needles that were marked on it",
    **dict.fromkeys(("G07", "G08", "G10", "G11", "G12"),
                    "no key takes a count over from another gauge; caps of another fabric do it"),
    "P11": "an edge is hung by marks of our own, not by a number of sections",
}
# Published cases that nothing here follows, and why.
NOT_FOLLOWED = {
    "W3-002": "a neckband begins at one dial of the source; its first row is no looser",
    "W3-004": "nothing is cut and sewn",
    "W3-007": "a remedy for a half stitch after the fact; nothing is counted",
    "W3-010": "the inner layer of a hem has as many stitches as the outer one",
    "W3-016": "no hat is knitted round on two beds",
    "W3-018": "short rows of an own outline are held at both edges, not at one",
    "W3-035": "the dial of a rib is the designer's; none is derived",
    "W3-040": "no garment is knitted in one piece from front to back",
    "W3-042": "no form is a triangle held down to its centre and back",
    "W3-109": "a heel by hand, whose gusset is picked up along a flap; ours is of short rows alone",
    "W3-114": "no tube is knitted on two beds, whose heel takes stitches of both",
}
# Parts of cases that are reached for the rest.
PARTS_NOT_FOLLOWED = {
    "C09 rows": "rows are rounded part by part, not as one even number",
    "W3-082 neck": "the back neck waits, so that no band is sewn on round it in one",
    "W3-085 hole_in_border_st": "a hole lies in the middle of its band",
    "W3-086 decreases": "stitches on hold are hung one by one; none go in the row that takes them "
                        "up",
    "W3-110 toe": "its toe lies over half of the stitches, and its top is sewn to itself in "
                  "halves, which no join takes; ours is a strip half as wide with toe and heel",
    "W3-111 order": "its foot is parted from half of its leg; ours begins at the front of the leg",
    "W3-112 then": "all needles of a heel come back one by one, not half of them at once",
    "W3-116 needles": "a cuff is counted from the hand, not the hand from an every-other cuff",
    "W3-117 rows": "its thumb begins with part of the hand, ours is knitted apart and sewn in",
}

@cache
def calls() -> Calls:
    own = files_of("tests/against")
    shared = [(path, text) for path, text in files_of("tests") if len(path.parts) == 2]
    return calls_of([*files_of("engine", "hooks"), *own, *shared,
                     *((Path(path.name), text) for path, text in own)])


def checks() -> list[Name]:
    """The checks of this folder."""
    return [name for name in calls().functions
            if name.module.startswith("test_") and name.name.startswith("test_")]


def used_by(check: Name) -> set[str]:
    """What a check uses of the engine, itself or through a builder of the tests."""
    seen: set[Name] = set()
    todo, used = [check], set()
    while todo:
        name = todo.pop()
        if name in seen:
            continue
        seen.add(name)
        for found in calls().named_by(name):
            if found.module.startswith("walebook"):
                used.add(str(found))
            else:
                todo.append(found)
    return used


def cases_of(check: Name) -> set[str]:
    """The cases that stand over a check."""
    (node,) = calls().bodies[check]
    assert isinstance(node, ast.FunctionDef)
    return {str(each.value) for over in node.decorator_list if isinstance(over, ast.Call)
            and isinstance(over.func, ast.Name) and over.func.id == "against"
            for each in over.args if isinstance(each, ast.Constant)}


@cache
def sorted_out() -> tuple[frozenset[str], frozenset[str]]:
    """Cases reached from a source; those by values alone."""
    read: set[str] = set()
    values: set[str] = set()
    for check in checks():
        (read if READS & used_by(check) else values).update(cases_of(check))
    return frozenset(read), frozenset(values - read)


def test_every_case_stands_in_one_place():
    read, values = sorted_out()
    assert values == set(BY_VALUES)
    assert set(MORE) - read == set(NOT_FOLLOWED)
    assert read <= set(CASES)


def test_what_is_left_out_says_why():
    read, _ = sorted_out()
    assert {part.split()[0] for part in PARTS_NOT_FOLLOWED} <= read
    said = {**BY_VALUES, **NOT_FOLLOWED, **PARTS_NOT_FOLLOWED}
    assert all(len(why.split()) > 4 for why in said.values())


def test_the_tally():
    """So many cases of each kind: a case that moves, or a new one, changes it."""
    read, values = sorted_out()
    assert {"reached from a source": len(read), "by values alone": len(values),
            "not followed": len(set(MORE) - read)} == TALLY
    print("\n".join(f"{kind}: {number}" for kind, number in TALLY.items()))
