"""The published schedules of slopes: what their calculations come to, and what the bed knits.

Expressions are computed by `recomputed.py` from counts.json alone. The rows on which a piece is
shaped are read from the needles that hold a loop as the bed runs the steps; the bed shares nothing
with what plans them. A schedule's rows are its gaps added up one after the other, which needs no
source.
"""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Iterator
from copy import deepcopy
from itertools import accumulate, pairwise
from typing import Any

import pytest
from walebook.machine.headings import Heading
from walebook.pages.pattern_facts import side_of_counts
from walebook.proof.proof import KnittedPiece

from tests.laws.recomputed import (
    Tree,
    agrees,
    assert_calculates,
    notices,
    spoiled,
    value,
    within,
)
from tests.laws.test_expressions import published
from tests.whole_collection import collection

FIGURES = {"rows_below", "rows", "events", "first_row", "shorter_gap", "shorter_times",
           "longer_gap", "longer_times", "rows_left", "rows_apart", "stitches", "times",
           "stitches_above", "times_above", "stair", "repeated", "widened"}
BODIES = ("back", "front", "right_front", "left_front")
Where = tuple[str, str, str, str]


def every_schedule() -> Iterator[tuple[Where, Tree]]:
    """Every schedule of the collection, by pattern, size, piece and name."""
    for slug, document in published().items():
        for size, pieces in document["schedules"].items():
            for piece, named in pieces.items():
                for name, schedule in named.items():
                    yield (slug, size, piece, name), schedule


def schedules() -> Iterator[tuple[Where, Tree]]:
    """Those that are spread evenly."""
    return ((where, one) for where, one in every_schedule() if "order" in one)


def stepped() -> Iterator[tuple[Where, Tree]]:
    """Those whose stitches go in steps."""
    return ((where, one) for where, one in every_schedule() if "steps" in one)


def counts_of(schedule: Tree) -> Iterator[tuple[str, Tree]]:
    """Each of its figures and its steps, with their expressions."""
    yield from ((name, schedule[name]) for name in FIGURES & schedule.keys())
    yield from (("steps", one) for one in schedule.get("steps", ()))


def numbers(schedule: Tree) -> dict[str, int]:
    return {name: one["value"] for name, one in schedule.items() if name in FIGURES}


def named_beside(tree: Tree) -> Iterator[Tree]:
    """The operands of an expression that are other figures of its schedule, such as
    "increases.rows"."""
    return (one for one in within(tree) if one["is"] == "operand" and figure_of(one) in FIGURES)


def figure_of(operand: Tree) -> str:
    """The figure of a schedule that an operand names, "" where it names none."""
    return operand.get("name", "").partition(".")[2]


def is_whole(schedule: Tree) -> bool:
    """Whether a schedule comes to its rows and to its events, with what its figures name."""
    of = numbers(schedule)
    rows = of.get("first_row", 0) + of["shorter_gap"] * of["shorter_times"] \
        + of["longer_gap"] * of["longer_times"] + of["rows_left"]
    events = ("first_row" in of) + of["shorter_times"] + of["longer_times"]
    named = [one for name in of for one in named_beside(schedule[name]["expression"])]
    return (rows == of["rows"] and events == of["events"]
            and all(int(one["value"]) == of[figure_of(one)] for one in named))


def event_rows(schedule: Tree) -> list[int]:
    """What the row counter reads at each event, gap by gap."""
    of, order = numbers(schedule), schedule["order"]
    short, far = of["shorter_gap"], of["longer_gap"]
    few, many = of["shorter_times"], of["longer_times"]
    if order == "mixed":  # the longer ones as evenly as whole numbers can be
        parts = few + many + bool(of["rows_left"] >= short)
        due = [-(-many * n // parts) for n in range(few + many + 1)]
        gaps = [far if b > a else short for a, b in pairwise(due)]
    elif order == "longer in the middle":  # the gap after the last event is one of the shorter
        below = min(few, (few + 1 + (of["rows_left"] > 0)) // 2)
        gaps = [short] * below + [far] * many + [short] * (few - below)
    elif order == "mixed, a shorter one first":
        due = [many * n // (few + many) for n in range(few + many + 1)]
        gaps = [far if b > a else short for a, b in pairwise(due)]
    else:
        gaps = [far] * many + [short] * few if order == "longer first" \
            else [short] * few + [far] * many
    start = of["rows_below"] + of.get("first_row", 0)
    return list(accumulate(gaps, initial=start))["first_row" not in of:]


def shaped_rows(knitted: KnittedPiece, below: int, last: int | None = None, *, left: bool = False
                ) -> dict[int, int]:
    """By how many needles the drawn right edge of a piece, or its left one, moves outward at which
    row counter above a hem or a rib, of the half that is knitted first where its neck opens."""
    moves: Counter[int] = Counter()
    before = None
    of_rib = sum(len(part.steps) for part in knitted.program.sections
                 if part.heading in (Heading.CAST_ON, Heading.HEM, Heading.RIB))
    for state in knitted.trace.states[of_rib:]:
        held = [one.place for one in state.loaded]
        if (last is not None and state.counter > last) or (before is not None and not held):
            break
        place = (-min(held) if knitted.piece.mirrored is not left else max(held)) if held else None
        opening = knitted.piece.opening
        if opening and state.counter > opening.row + opening.outer.rows:
            break  # the half that is knitted first comes off its needles
        if None not in (place, before) and state.counter > below:
            moves[state.counter] += place - before
        before = place
    return {row: move for row, move in moves.items() if move}


def own_edge(named: dict[str, Tree], *, left: bool) -> dict[int, int]:
    """By how much the right or the left edge of an own outline moves, by its schedules: those of
    both edges where the left one has no others. At the left it is bound off a row later."""
    moves: dict[int, int] = {}
    for name, schedule in named.items():
        side = name.partition("_")[0]
        if side == ("right" if left else "left") or (left and f"left_{name}" in named):
            continue
        sign = 1 if schedule["shaping"] == "increase" else -1
        moves |= {row + left: move for row, move in step_rows(schedule).items()} \
            if "steps" in schedule else dict.fromkeys(event_rows(schedule), sign)
    return moves


def test_every_edge_of_an_own_outline_is_what_its_schedules_say() -> None:
    """All that comes and goes at either edge up to its top, and nothing else, but for a piece that
    has rates by its designer."""
    seen: Counter[str] = Counter()
    for (slug, size, piece), knitted in pieces().items():
        if knitted.piece.corners is None:
            continue
        named = published()[slug]["schedules"][size].get(piece, {})
        asked = {name.removesuffix("_rows_shaped") for name in published()[slug]["counts"][size][
            piece] if name.endswith("_rows_shaped")}
        if asked - named.keys():
            seen["rated"] += 1
            continue
        for left in (False, True):
            wanted = own_edge(named, left=left)
            assert shaped_rows(knitted, 0, left=left) == wanted, (slug, size, piece, left)
            seen.update("steps" if "steps" in one else one["order"] for one in named.values())
    assert seen["steps"] > 10 and seen["mixed"] > 5 and seen["rated"], seen


@pytest.mark.parametrize(("slug", "figure"), [
    ("spar-pullover", "rows_below"), ("spar-pullover", "longer_times"),
    ("pursers-bag", "shorter_gap")])
def test_a_spoiled_schedule_of_an_own_outline_is_noticed(slug: str, figure: str) -> None:
    slug, size, piece, name = next(where for where, _ in schedules() if where[0] == slug)
    named, left = deepcopy(published()[slug]["schedules"][size][piece]), name.startswith("left")
    named[name][figure]["value"] += 1
    assert shaped_rows(pieces()[slug, size, piece], 0, left=left) != own_edge(named, left=left)


def is_knitted(schedule: Tree, knitted: KnittedPiece, *beside: Tree) -> bool:
    """Whether the edge moves by a schedule, and by those of the same rows `beside` it."""
    of = numbers(schedule)
    last = of["rows_below"] + of["rows"] - (of["rows_left"] > 0)
    wanted: Counter[int] = Counter()
    for one in (schedule, *beside):
        sign = 1 if one["shaping"].startswith("increase") else -1
        each = 2 if one["shaping"].endswith("at a dart") else 1
        wanted.update(dict.fromkeys(event_rows(one), sign * each))
    return shaped_rows(knitted, of["rows_below"], last) == wanted


def beside(where: Where) -> list[Tree]:
    """The schedule of the dart beside a side, or of the side beside a dart."""
    slug, size, piece, name = where
    other = {"side": "dart", "dart": "side"}.get(name.partition("_to_")[0], "")
    one = published()[slug]["schedules"][size][piece].get(f"{other}_to_{name.partition('_to_')[2]}")
    return [] if one is None else [one]


def pieces() -> dict[tuple[str, str, str], KnittedPiece]:
    return {(proof.pattern.slug, size.size, one.piece.key): one
            for proof in collection().proofs for size in proof.sizes for one in size.pieces}


def test_every_number_of_a_schedule_is_what_its_expression_comes_to() -> None:
    found = list(every_schedule())
    assert len(found) > 100
    for where, schedule in found:
        for name, one in counts_of(schedule):
            assert agrees(one), (where, name)
            assert_calculates(one["working"])


def test_a_schedule_comes_to_its_rows_and_its_events() -> None:
    assert not [where for where, schedule in schedules() if not is_whole(schedule)]


def test_a_schedule_is_computed_from_counts_of_its_piece() -> None:
    """Rows and events from counts that have calculations themselves, or one of the two from the
    other; the rest from these."""
    for where, schedule in schedules():
        for name, other in (("rows", "events"), ("events", "rows")):
            made = schedule[name]["expression"]
            kinds = {one["is"] for one in within(made)}
            assert ("count" in kinds or other in map(figure_of, named_beside(made))
                    or any("source" in one for one in within(made))), (where, name)
        named = {figure_of(one) for name in numbers(schedule)
                 for one in named_beside(schedule[name]["expression"])}
        assert "events" in named, where


def test_a_schedule_is_what_the_bed_knits() -> None:
    made = pieces()
    assert not [(where, schedule["order"]) for where, schedule in schedules()
                if where[3] != "neck" and not where[3].startswith("cap_")
                and not is_knitted(schedule, made[where[:3]], *beside(where))]
    assert any(beside(where) for where, _ in schedules())


def test_every_sleeve_and_raglan_has_its_schedules() -> None:
    """But for a slope whose rates the designer writes: those are hers, and come from no sum."""
    found = {where for where, _ in schedules()}
    own = {key for proof in collection().proofs if proof.pattern.garment
           for size in proof.sizes if size.assembled
           for key in [(proof.pattern.slug, size.size, piece, name)
                       for piece, name, _ in size.assembled.garment.counts]}
    seen = 0
    for slug, size, piece in pieces():
        for count, name, asked in (("upper_arm", "increases", "rows_shaped"),
                                   ("raglan_rows", "raglan_decreases", "raglan_rows_shaped")):
            if (slug, size, piece, count) in own and (slug, size, piece, asked) not in own:
                knitted = pieces()[slug, size, piece]
                shaped = any(c.how.value == name.removeprefix("raglan_").rstrip("s")
                             for c in knitted.piece.right.changes)
                assert ((slug, size, piece, name) in found) is shaped, (slug, size, piece, name)
                seen += 1
    assert seen > 80


def stretch_at(of: Tree, row: int) -> str:
    """Which stretch of a body's side a row belongs to, by the counts of the back."""
    return next((f"side_to_{name}" for name in ("hip", "waist") if f"rows_to_{name}" in of
                 and row <= of[f"rows_to_{name}"]["value"]), "side_to_chest")


def test_every_side_of_a_body_has_its_schedules() -> None:
    """Between two widths, with the darts beside it, but for rates that the designer writes."""
    found: Counter[tuple[str, str]] = Counter()
    for (slug, size, piece, name), schedule in schedules():
        if piece == "back" and name.startswith(("side_to_", "dart_to_")):
            found[slug, size] += schedule["events"]["value"]
    wanted: Counter[tuple[str, str]] = Counter()
    seen = set[str]()
    for (slug, size, piece), knitted in pieces().items():
        of = published()[slug]["counts"][size][piece]
        up = of.get("rows_to_armhole") or of.get("rows_to_raglan")
        rated = {name for name in ("side_to_hip", "side_to_waist", "side_to_chest")
                 if f"{name}_rows_shaped" in of and not {name, name.replace(
                     "chest", "underarm")} & published()[slug]["schedules"][size]["back"].keys()}
        seen |= rated
        if piece == "back" and up:
            wanted[slug, size] += sum(
                one.row < up["value"] and not one.how.is_level
                and stretch_at(of, one.row) not in rated
                for one in knitted.piece.right.changes)
    assert found == +wanted and found and seen


def step_rows(schedule: Tree) -> dict[int, int]:
    """By how much the edge moves at each of its steps, by the row counter."""
    of = numbers(schedule)
    return {of["rows_below"] + n * of["rows_apart"]: -one["value"]
            for n, one in enumerate(schedule["steps"]) if one["value"]}


def are_whole_steps(schedule: Tree) -> bool:
    """Whether its steps are as many as it says and come to its stitches, with what they name."""
    of = numbers(schedule)
    named = [one for _, count in counts_of(schedule) for one in named_beside(count["expression"])]
    return (len(schedule["steps"]) == of["times"]
            and sum(one["value"] for one in schedule["steps"]) == of["stitches"]
            and all(int(one["value"]) == of[figure_of(one)] for one in named))


def test_steps_come_to_their_stitches() -> None:
    found = list(stepped())
    assert found and not [where for where, schedule in found if not are_whole_steps(schedule)]


def bodies() -> Iterator[tuple[tuple[str, str, str], KnittedPiece, Tree]]:
    """The backs and fronts that have armholes, or a mark in their place, with the back's counts."""
    for (slug, size, piece), knitted in pieces().items():
        back = published()[slug]["counts"][size].get("back", {})
        if back.keys() >= {"armhole_rows", "shoulder_rows"} and piece in BODIES:
            yield (slug, size, piece), knitted, back


def test_every_armhole_is_what_its_schedules_say() -> None:
    """All that goes at the drawn right edge above the underarm, and nothing else."""
    found = dict(every_schedule())
    seen = 0
    for where, knitted, back in bodies():
        wanted: dict[int, int] = {}
        if schedule := found.get((*where, "armhole_bind_offs")):
            wanted |= step_rows(schedule)
        if schedule := found.get((*where, "armhole_decreases")):
            wanted |= dict.fromkeys(event_rows(schedule), -1)
        up = back["rows_to_armhole"]["value"]
        assert shaped_rows(knitted, up - 1) == wanted, where
        seen += bool(wanted)
    assert seen > 60


CAP = ("cap_bind_offs", "cap_first_decreases", "cap_decreases", "cap_last_decreases",
       "cap_top_bind_offs")


def test_every_cap_is_what_its_schedules_say() -> None:
    """All that goes at the drawn right edge above the underarm, and nothing else but the flat top.
    """
    found = dict(every_schedule())
    seen: Counter[str] = Counter()
    for where, knitted in pieces().items():
        of = published()[where[0]]["counts"][where[1]][where[2]]
        if "cap_rows" not in of:
            continue
        wanted: dict[int, int] = {}
        for name in CAP:
            if schedule := found.get((*where, name)):
                seen[name] += 1
                wanted |= step_rows(schedule) if "steps" in schedule else dict.fromkeys(
                    event_rows(schedule), -1)
        up = of["rows_to_underarm"]["value"]
        assert shaped_rows(knitted, up - 1) == wanted, where
        assert max(wanted) < up + of["cap_rows"]["value"]
    assert seen["cap_decreases"] > 20 and {*CAP} == {*seen}, seen


def held_rows(knitted: KnittedPiece, above: int) -> dict[int, int]:
    """How many needles outside the drawn right edge go into hold at which row counter, of the half
    that is knitted first."""
    moves: Counter[int] = Counter()
    before, mirrored = 0, knitted.piece.mirrored
    for state in knitted.trace.states:
        work = [one.place for one in state.working]
        if state.counter <= above or not work:
            continue
        end = min(work) if mirrored else max(work)
        out = sum((one.place < end) if mirrored else (one.place > end) for one in state.holding)
        if out < before:
            break  # the last row goes over all of them
        moves[state.counter] += out - before
        before = out
    return {row: many for row, many in moves.items() if many}


def last_step(knitted: KnittedPiece, above: int) -> int:
    """How many needles still knit of the half that is knitted first when all others are held."""
    found, most = 0, 0
    for state in knitted.trace.states:
        out = sum(held_rows_of(state, mirrored=knitted.piece.mirrored))
        if state.counter > above and out > most:
            found, most = len(state.working), out
        elif out < most:
            break
    return found


def held_rows_of(state: Any, *, mirrored: bool) -> Iterator[int]:
    """1 for each needle that is held outside the working ones."""
    work = [one.place for one in state.working]
    if work:
        end = min(work) if mirrored else max(work)
        yield from (1 for one in state.holding
                    if (one.place < end if mirrored else one.place > end))


def test_every_shoulder_is_what_its_schedule_says() -> None:
    """A step goes into hold in two rows, its last needle in the second of them; the last step is
    not held at all."""
    found = dict(every_schedule())
    seen = 0
    for where, knitted, back in bodies():
        up = back["rows_to_armhole"]["value"] + 1
        held = held_rows(knitted, up)
        schedule = found.get((*where, "shoulder"))
        assert (schedule is not None) == bool(held), where
        if schedule is None:
            continue
        *steps, last = step_rows(schedule).items()
        assert {row: held.get(row, 0) + held.get(row + 1, 0) for row, _ in steps} == {
            row: -step for row, step in steps}, where
        assert sum(held.values()) == -sum(step for _, step in steps), where
        assert last_step(knitted, up) == -last[1], where
        seen += 1
    assert seen > 100


def neck_rows(knitted: KnittedPiece) -> dict[int, int]:
    """By how many needles the edge at the neck moves at which row counter: of half a front at its
    front edge, of a whole piece beside the neck, in the half that is knitted first."""
    piece, moves = knitted.piece, Counter[int]()
    before = None
    for state in knitted.trace.states:
        work = [one.place for one in state.working if not piece.opening or one.place >= 0]
        if piece.opening and (state.counter < piece.opening.row or not state.holding):
            continue
        if not work and moves:
            break
        place = (max(work) if piece.mirrored else min(work)) if work else None
        if None not in (place, before):
            moves[state.counter] += before - place if piece.mirrored else place - before
        before = place
    return {row: move for row, move in moves.items() if move}


def test_every_neck_is_what_its_schedule_says() -> None:
    """All that goes at the neck, what is bound off before its slope too, and nothing else."""
    found = dict(every_schedule())
    seen: Counter[str] = Counter()
    for where, knitted in pieces().items():
        schedule, first = (found.get((*where, name)) for name in ("neck", "neck_bind_offs"))
        if schedule is None:
            assert first is None
            continue
        wanted = step_rows(schedule) if "steps" in schedule else dict.fromkeys(
            event_rows(schedule), -1)
        wanted |= step_rows(first) if first else {}
        found_rows = neck_rows(knitted)
        if schedule["shaping"] == "hold":  # the last needle of a step a row later
            found_rows = {row: many for row, many in found_rows.items()
                          if row >= min(wanted)}  # the centre's last needle before them
            assert sum(found_rows.values()) == -sum(wanted.values()), where
            found_rows = {row: found_rows.get(row, 0) + found_rows.get(row + 1, 0)
                          for row in wanted}
        assert found_rows == {row: -move for row, move in wanted.items()}, where
        seen["steps" if "steps" in schedule else schedule["order"]] += 1
        seen["bound off"] += first is not None
    assert seen["steps"] > 60 and seen["shorter first"] > 10, seen
    assert seen["bound off"], seen


def test_every_body_whose_neck_is_shaped_has_its_schedule() -> None:
    """But for rates that the designer writes."""
    found = dict(every_schedule())
    raglans = [(where, knitted, {}) for where, knitted in pieces().items()
               if where[2] in BODIES[1:] and "raglan_rows" in published()[where[0]]["counts"][
                   where[1]].get("back", {})]
    assert len(raglans) > 20
    for where, knitted, _ in (*bodies(), *raglans):
        own = "neck_rows_shaped" in published()[where[0]]["counts"][where[1]].get(where[2], {})
        assert own or ((*where, "neck") in found) == bool(neck_rows(knitted)), where


def test_the_rows_of_a_slope_that_is_asked_for_are_added_up_from_its_schedule() -> None:
    """The sentence prints the schedule's own numbers, and its expression leads on from them."""
    seen = 0
    for (slug, size, piece, name), schedule in schedules():
        shaped = {"increases": "rows_shaped", "raglan_decreases": "raglan_rows_shaped",
                  "side_to_hip": "side_to_hip_rows_shaped",
                  "side_to_underarm": "side_to_chest_rows_shaped"}.get(name)
        count = published()[slug]["counts"][size][piece].get(shaped)
        if count is None:
            continue
        seen += 1
        of = numbers(schedule)
        gaps = [(of[f"{length}_times"], of[f"{length}_gap"]) for length in ("shorter", "longer")]
        if schedule["order"] == "longer first":
            gaps.reverse()
        gaps = [(times, rows) for times, rows in gaps if times]
        added = [f"({times} × {rows})" for times, rows in gaps]
        assert count["working"].removeprefix("(").startswith(
            " + ".join(added)[1:] if len(added) > 1 else added[0][1:-1]), (slug, size, piece)
        led_on = {int(value(one)) for one in within(count["expression"]) if one["is"] == "count"}
        assert led_on >= {figure for gap in gaps for figure in gap}, (slug, size, piece)
        assert any("source" in one or one.get("name") for one in within(count["expression"]))
    assert seen


def test_a_file_without_schedules_is_still_followed() -> None:
    """Version 4 of the form had all else; an unknown one is compared by its values alone."""
    document = deepcopy(published()["practice-band"])
    now = side_of_counts(json.dumps(document))
    for version in (5, 6, 7, 8, 9):
        older = side_of_counts(json.dumps(document | {"expression_version": version}))
        assert older.facts == now.facts
    del document["schedules"]
    older = side_of_counts(json.dumps(document | {"expression_version": 4}))
    unknown = side_of_counts(json.dumps(document | {"expression_version": 3}))
    assert older.facts == now.facts and any(fact.made for fact in now.facts.values())
    assert not any(fact.made for fact in unknown.facts.values())


# Spoiled ones


def first(slug: str, name: str) -> tuple[Tree, KnittedPiece]:
    where, schedule = next((at, one) for at, one in schedules()
                           if at[0] == slug and at[2] == "sleeve" and at[3] == name)
    return deepcopy(schedule), pieces()[where[:3]]


SLOPES = [("slack-tide-cardigan", "increases"), ("mudlark-pullover", "raglan_decreases")]


@pytest.mark.parametrize(("slug", "name"), SLOPES)
@pytest.mark.parametrize("figure", ["shorter_gap", "shorter_times", "longer_gap", "longer_times",
                                    "rows_below"])
def test_a_spoiled_schedule_is_noticed(slug: str, name: str, figure: str) -> None:
    """A number that is one more comes to other rows, and the bed knits others."""
    schedule, knitted = first(slug, name)
    assert is_whole(schedule) and is_knitted(schedule, knitted)
    schedule[figure]["value"] += 1
    assert not is_knitted(schedule, knitted)
    assert figure == "rows_below" or not is_whole(schedule)
    assert not agrees(schedule[figure])


@pytest.mark.parametrize(("slug", "name"), SLOPES)
def test_another_order_is_noticed(slug: str, name: str) -> None:
    schedule, knitted = first(slug, name)
    for order in ("longer first", "mixed"):
        assert not is_knitted(schedule | {"order": order}, knitted)


@pytest.mark.parametrize(("slug", "name"), SLOPES)
def test_a_spoiled_expression_is_noticed(slug: str, name: str) -> None:
    """Of the figures that are computed from the others; by a rounding some changes come to nought.
    """
    schedule, _ = first(slug, name)
    kept, seen = [], 0
    for figure in ("events", "shorter_times", "longer_times", "longer_gap", "rows_left"):
        one: dict[str, Any] = schedule[figure]
        for tree in spoiled(one["expression"]):
            seen += 1
            if not notices(one | {"expression": tree}):
                kept.append((figure, tree))
    assert seen > 30 and len(kept) < seen / 10, (len(kept), seen)
