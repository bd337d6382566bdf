"""Pieces, bands and making up are one graph: whatever order its needs allow can be worked.

The neckband comes before the front bands over its ends (Yateley Machine Knitting Club,
yateleymkclub.blogspot.com, February 2013); a ring cannot be hung on a straight bed, so that one
seam at a closed neck stays open (geometry); the rest is common practice, no source: what is worked
flat comes before the seam that makes a tube of it, and pieces are blocked before they are sewn.
"""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from functools import cache
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from hypothesis.strategies import DrawFn
from walebook.catalogue.bands import KINDS
from walebook.catalogue.edge_roles import EdgeRole
from walebook.catalogue.methods import SHOULDERS
from walebook.core.expression import plain
from walebook.core.problems import has_errors
from walebook.core.units import read_length
from walebook.forms.registry import FORMS
from walebook.machine.steps import Side
from walebook.pattern.model import Neck, Pattern
from walebook.pattern.specs import CordSpec, PocketSpec, ZipSpec
from walebook.plan.assemble import assemble
from walebook.plan.band_order import in_working_order
from walebook.plan.order_of_work import band_task, order_of_work
from walebook.shape.garment import Garment
from walebook.shape.tasks import Seam, Sewn, Task, TaskKind, in_order

from tests import small_patterns as small
from tests.scale import examples
from tests.site.garments import garment, made_up

SIZE = "M"
BOTH = (Side.RIGHT, Side.LEFT)
IN_THE_MIDDLE = {Seam.BACK, Seam.PANELS, Seam.PLACKET}
AT_NECK = {Seam.SHOULDER, Seam.RAGLAN, Seam.STRAP}
LATER = {Seam.ARMHOLE, Seam.SIDE, Seam.SLEEVE}


# What must hold of any order of the work


def seams_of(made: Garment) -> list[Sewn]:
    """Every seam of a garment, one by one: each at one side, and on one piece of the body."""
    fronts = {side: [p.key for p in made.pieces if p.key in ("front", f"{side.value}_front")]
              for side in BOTH}
    found = []
    for seam in dict.fromkeys(join.seam for join in made.joins):
        if seam in IN_THE_MIDDLE:
            found.append(Sewn(seam))
        elif seam in (Seam.RAGLAN, Seam.STRAP):
            found += [Sewn(seam, side, key) for side in BOTH for key in ("back", *fronts[side])]
        else:
            found += [Sewn(seam, side) for side in BOTH]
    return found


def strips_of(made: Garment) -> set[str]:
    """Everything of a garment that waits on waste yarn."""
    return {name for piece in made.pieces for name in (*piece.waits, piece.centre_waits) if name}


def faults(work: Sequence[Task], made: Garment, pattern: Pattern) -> list[str]:
    """What is wrong with an order of the work."""
    return [*_once(work, made), *_pieces_first(work), *_seams_in_turn(work, made),
            *(fault for at, task in enumerate(work) for fault in _band_there(
                at, task, work, made, pattern))]


def _once(work: Sequence[Task], made: Garment) -> Iterator[str]:
    for part in seams_of(made):
        if sum(task.closes(part) for task in work) != 1:
            yield f"{part} is not sewn once"
    taken = Counter(name for task in work for name in task.takes)
    wanted = dict.fromkeys(strips_of(made), 1)
    lower = {name: n for name, n in taken.items() if name not in wanted and "lower edge" in name}
    if dict(taken) != {**wanted, **lower} or set(lower.values()) > {1}:
        yield f"{dict(taken)} is taken off waste yarn, where {sorted(wanted)} waits"


def _pieces_first(work: Sequence[Task]) -> Iterator[str]:
    begun = blocked = False
    knitted: set[str] = set()
    blocks = any(task.kind is TaskKind.BLOCK for task in work)
    for task in work:
        if task.kind is TaskKind.KNIT and begun:
            yield f"{task.name} is knitted after something is made up"
        if task.kind is TaskKind.BLOCK:
            blocked = True
        elif task.kind is TaskKind.SEW_OFF and blocked:
            yield f"{task.name} comes after the blocking"
        elif task.kind not in (TaskKind.KNIT, TaskKind.SEW_OFF) and blocks and not blocked:
            yield f"{task.name} comes before the blocking"
        begun = begun or task.kind not in (TaskKind.KNIT, TaskKind.SEW_OFF)
        knitted |= set(task.pieces) if task.kind is TaskKind.KNIT else set()
        if not knitted >= set(task.pieces):
            yield f"{task.name} comes before its piece"
    yield from _ends_in(work)


def _ends_in(work: Sequence[Task]) -> Iterator[str]:
    """After all sewing and the washing, or before the seam is closed that shuts the ends in."""
    kinds = [task.kind for task in work]
    if TaskKind.DARN not in kinds:
        yield "the ends are not darned in"
        return
    at, rest = kinds.index(TaskKind.DARN), kinds[kinds.index(TaskKind.DARN) + 1:]
    inside = work[at].inside
    if inside != (TaskKind.SEAM_REST in rest) or inside != (TaskKind.FOLD_IN in rest):
        yield "the ends cannot be reached"
    if not inside and set(rest) - {TaskKind.TURN_UP}:
        yield "the ends are not darned in last"
    if TaskKind.TURN_UP in kinds[:-1]:
        yield "a brim is turned up before the end"


def open_at(at: int, work: Sequence[Task], made: Garment, seams: set[Seam]) -> list[Sewn]:
    """The seams of a kind that are open before a task."""
    return [part for part in seams_of(made) if part.seam in seams
            and not any(task.closes(part) for task in work[:at])]


def _seams_in_turn(work: Sequence[Task], made: Garment) -> Iterator[str]:
    """A tube is closed last; what is sewn "in the same way" comes second."""
    first = {seam: next((n for n, task in enumerate(work) if task.sews_any(seam)), len(work))
             for seam in Seam}
    last = {seam: max((n for n, task in enumerate(work) if task.sews_any(seam)), default=-1)
            for seam in Seam}
    for seam in AT_NECK | {Seam.ARMHOLE}:
        if last[seam] > first[Seam.SIDE]:
            yield f"{seam} is sewn after a side"
    if last[Seam.SHOULDER] > first[Seam.ARMHOLE]:
        yield "a sleeve is sewn to an open shoulder"
    if max(last[Seam.THUMB], last[Seam.SIDE]) > first[Seam.SLIT]:
        yield "a thumb is sewn in before its seam or its slit is there"
    if -1 < first[Seam.STRAP] < last[Seam.RAGLAN]:
        yield "a strap is sewn before the raglan below it"
    for seam in Seam:
        sides = [part.side for task in work for part in task.sews
                 if part.seam is seam and part.side]
        if sides and sides != sorted(sides, key=BOTH.index):
            yield f"{seam} is begun at the left"
    for n, task in enumerate(work):
        if task.kind is TaskKind.WASH and n < max(last.values()):
            yield "it is washed before it is sewn up"
        if task.kind is TaskKind.TURN and n > first[Seam.SHOULDER]:
            yield "the pieces are turned when a shoulder is sewn"
        if task.kind is TaskKind.DRAW_UP and n > min(first[Seam.BACK], first[Seam.SIDE],
                                                     first[Seam.THUMB]):
            yield "a tip is drawn up after its seam"
        if task.kind is TaskKind.CORD and n < last[Seam.SIDE]:
            yield "the cord is drawn in before its channel is whole"
        if task.kind is TaskKind.LININGS and n > min(first.values()):
            yield "a lining is sewn down when the fronts no longer lie flat"


def _band_there(at: int, task: Task, work: Sequence[Task], made: Garment, pattern: Pattern
                ) -> Iterator[str]:
    """What is sewn and what is open where a band is worked."""
    place = {one.name: n for n, one in enumerate(work)}
    if task.kind is TaskKind.SEW_NECK or EdgeRole.NECK in _roles(task) | _around(task):
        still = open_at(at, work, made, AT_NECK)
        ring = [part.side for part in still]
        if ring != [Side.LEFT] * made.edges["neck"].ring:
            yield f"{task.name} is worked while {still} are open"
        elif ring and not any(work[n].bands == task.bands for n in range(at + 1, len(work))
                              if work[n].closes(still[0])) and task.kind is TaskKind.BAND:
            yield f"the ends of {task.name} are not sewn to each other"
    if task.kind in (TaskKind.FOOT, TaskKind.ENDS_TO_TOPS, TaskKind.ZIP):
        late = [band.key for band in task.bands if place.get(band_task(band.key), at + 1) > at] if \
            task.bands else ["none"]
        if late:
            yield f"{task.name} comes before {late}"
    if (task.first or task.kind in (TaskKind.ENDS_TO_TOPS, TaskKind.ZIP)) and len(
            open_at(at, work, made, LATER)) < sum(part.seam in LATER for part in seams_of(made)):
        yield f"{task.name} comes after sleeves or sides are sewn"
    if task.kind is not TaskKind.BAND:
        return
    roles = _roles(task)
    if EdgeRole.OUTLINE in roles:
        yield from _flat(at, task, work, made, pattern)
    elif roles != {None} and len(open_at(at, work, made, {Seam.SIDE})) < (
            1 if EdgeRole.HEM in roles else 2 - (Seam.BACK in {j.seam for j in made.joins}) * 2):
        yield f"{task.name} is worked on a tube"
    if EdgeRole.HEM in roles and [p.side for p in open_at(at, work, made, {Seam.SIDE})] != [
            Side.LEFT]:
        yield f"{task.name} is not worked with one side open"
    if EdgeRole.BRIM in roles and not open_at(at, work, made, {Seam.BACK}):
        yield f"{task.name} is worked on a tube"
    closes = {EdgeRole.HEM: Sewn(Seam.SIDE, Side.LEFT), EdgeRole.CUFF: Sewn(Seam.SIDE),
              EdgeRole.BRIM: Sewn(Seam.BACK)}
    for role in roles & set(closes):
        if not any(one.closes(closes[role]) and set(task.bands) <= set(one.bands)
                   for one in work[at:]):
            yield f"the ends of {task.name} are not sewn to each other where its ring is closed"
    if EdgeRole.ARMHOLE in roles:
        if open_at(at, work, made, AT_NECK):
            yield f"{task.name} is worked over an open shoulder"
        if not any({b.key for b in task.bands} <= {b.key for b in one.bands}
                   for one in work[at:] if one.kind is TaskKind.SIDES):
            yield f"the ends of {task.name} are not sewn"
    if EdgeRole.POCKET in roles and len(open_at(at, work, made, set(Seam))) < len(seams_of(made)):
        yield f"{task.name} is worked when the fronts no longer lie flat"
    yield from _over_ends(at, task, place, pattern)


def _flat(at: int, task: Task, work: Sequence[Task], made: Garment, pattern: Pattern
          ) -> Iterator[str]:
    """A band on an own piece: before all joins, and where its edge is a ring its ends are sewn."""
    if any(one.kind is TaskKind.DECLARED for one in work[:at]):
        yield f"{task.name} is worked when the pieces are sewn"
    for band in task.bands:
        sewn = [one for one in work[at:] if one.kind is TaskKind.DECLARED
                and band.key in {each.key for each in one.bands}]
        if len(sewn) != made.edges[pattern.bands[band.key].garment_edge].ring:
            yield f"the ends of {task.name} are sewn {len(sewn)} times"


def _over_ends(at: int, task: Task, place: Mapping[str, int], pattern: Pattern) -> Iterator[str]:
    """Front bands run over the end of a neckband that lies along the front edge; a neckband runs
    over the tops of what is worked at the front before it."""
    neck = [key for key, band in pattern.bands.items() if band.garment_edge == "neck"]
    if not neck or task.kind is not TaskKind.BAND:
        return
    kind, there = KINDS[pattern.bands[neck[0]].kind], place.get(band_task(neck[0]), at)
    assert pattern.garment is not None
    round_neck = pattern.garment.neck is not Neck.V
    if EdgeRole.FRONT in _roles(task):
        if kind.meets and there < at:
            yield "a collar that meets is worked before the bands that it runs over"
        if kind.stands and not kind.meets and round_neck and there > at:
            yield "a front band is worked before the neckband whose end it runs over"
    if EdgeRole.PLACKET in _roles(task) and there < at:
        yield "a neckband is worked before the placket bands that it runs over"


def _roles(task: Task) -> set[EdgeRole | None]:
    return {band.role for band in task.bands} if task.kind is TaskKind.BAND else set()


def _around(task: Task) -> set[EdgeRole | None]:
    return {EdgeRole.NECK} if EdgeRole.AROUND in _roles(task) else set()


# Garments with any bands


@cache
def shaped(form: str, neck: Neck, slit: bool, pockets: int, cord: bool, method: str, waste: bool
           ) -> tuple[Pattern, Garment] | None:
    """A garment of one size before its work is put in order; None for what no form can have."""
    base = garment(form, neck=neck, bands=False)
    assert base.garment is not None
    by_size = {SIZE: read_length("10 cm")}
    spec = replace(
        base.garment,
        placket=dict.fromkeys(base.sizes, read_length("12 cm")) if slit else None,
        pockets=PocketSpec(width=by_size, height={SIZE: read_length("25 cm")}, number=pockets)
        if pockets
        else None,
        cord=CordSpec(width=read_length("4 mm"), ties=read_length("7 cm")) if cord else None,
        bind_off={"shoulders": method} if method else {},
        cast_on={"": "waste yarn"} if waste else {},
    )
    if waste:
        spec = replace(spec, hem=None)
    pattern = replace(base, garment=spec, sizes=(SIZE,))
    made, found = assemble(pattern, spec, SIZE, bands=plain(30), hidden=1)
    return None if made is None or has_errors(found) else (pattern, made.garment)


@st.composite
def garments(draw: DrawFn) -> tuple[Pattern, Garment]:
    """A garment of any form with bands on some of its edges."""
    form = draw(st.sampled_from(sorted(FORMS)))
    edges = FORMS[form].edges
    slit = "placket" in edges and draw(st.booleans())
    found = shaped(form, draw(st.sampled_from(list(Neck))) if "neck" in edges else Neck.ROUND, slit,
                   draw(st.sampled_from((0, 1, 2))), draw(st.booleans()),
                   draw(st.sampled_from(("", *(method.name for method in SHOULDERS)))),
                   draw(st.booleans()))
    if found is None:
        found = shaped(form, Neck.ROUND, slit, 0, False, "", False) or \
            shaped(form, Neck.ROUND, False, 0, False, "", False)
    assert found is not None
    pattern, made = found
    taken = [edge for edge in made.edges if draw(st.integers(0, 3))]
    if "front_and_neck" in taken and draw(st.booleans()):
        taken = [edge for edge in taken if edge == "front_and_neck" or "armhole" in edge]
    else:
        taken = [edge for edge in taken if edge != "front_and_neck"]
    if slit and pattern.garment and pattern.garment.placket:
        taken = [edge for edge in taken if "placket" not in edge] + ["placket"]
    else:
        taken = [edge for edge in taken if "placket" not in edge]
    if all(f"{side}_front.front_edge" in taken for side in ("right", "left")) and draw(
            st.booleans()):
        taken = [edge for edge in taken if "front_edge" not in edge] + ["front_edge"]
    if all(f"{side}_armhole" in taken for side in ("right", "left")) and draw(st.booleans()):
        taken = [edge for edge in taken if "armhole" not in edge] + ["armhole"]
    bands = {}
    for n, edge in enumerate(taken):
        kind = draw(st.sampled_from([k.name for k in KINDS.values() if not k.collar or (
            edge == "neck" and not (k.meets and made.edges[edge].ring))]))
        zipped = "front_edge" in edge and draw(st.booleans())
        bands[f"band{n}"] = small.band(key=f"band{n}", title=f"Band {n}", edge=edge, kind=kind,
                                       rows=None, depth={SIZE: read_length("3 cm")},
                                       zip=ZipSpec() if zipped else None)
    return replace(pattern, bands=bands), made


def shuffled(tasks: Sequence[Task], seed: int) -> list[Task]:
    """The tasks in another order."""
    return random.Random(seed).sample(list(tasks), len(tasks))


@settings(max_examples=examples(150))
@given(garments(), st.integers(0, 9))
def test_any_order_that_the_needs_allow_can_be_worked(drawn: tuple[Pattern, Garment], seed: int
                                                      ) -> None:
    pattern, plain = drawn
    made = order_of_work(pattern, plain)
    assert faults(made.tasks, made, pattern) == []
    assert faults(in_order(shuffled(made.tasks, seed)), made, pattern) == []
    worked = [task.bands[0].key for task in made.tasks if task.kind is TaskKind.BAND]
    assert worked == [band.key for band in in_working_order(pattern.bands.values())]
    assert all(made_up(made))


# Spoiled graphs


def whole(form: str, **said: object) -> tuple[Pattern, Garment]:
    """A garment of a form with a band on each of its edges."""
    pattern = garment(form, **said)  # type: ignore[arg-type]
    assert pattern.garment is not None
    made, _ = assemble(pattern, pattern.garment, SIZE, bands=plain(30), hidden=1)
    assert made is not None
    return pattern, order_of_work(pattern, made.garment)


def implied(name: str, need: str, needs: Mapping[str, tuple[str, ...]]) -> bool:
    """True where a need follows from the other needs of a task."""
    left = [other for other in needs[name] if other != need]
    seen: set[str] = set()
    while left:
        other = left.pop()
        seen.add(other)
        left += [one for one in needs[other] if one not in seen]
    return need in seen


def as_early_as_can_be(name: str, tasks: Sequence[Task]) -> tuple[Task, ...]:
    """An order in which one task comes right after what it needs."""
    needs = {task.name: task.needs for task in tasks}
    before = {name} | {other for other in needs if implied_by(name, other, needs)}
    return in_order(sorted(tasks, key=lambda task: task.name not in before))


def implied_by(name: str, other: str, needs: Mapping[str, tuple[str, ...]]) -> bool:
    """True where a task needs another, however indirectly."""
    return other in needs[name] or any(implied_by(one, other, needs) for one in needs[name])


@pytest.mark.sampled(24, each=("form", "neck"))
@pytest.mark.parametrize("form", sorted(FORMS))
@pytest.mark.parametrize("neck", list(Neck), ids=lambda neck: neck.value)
def test_a_need_that_is_taken_away_is_missed(form: str, neck: Neck) -> None:
    if neck is not Neck.ROUND and "neck" not in FORMS[form].edges:
        return
    pattern, made = whole(form, neck=neck)
    needs = {task.name: task.needs for task in made.tasks}
    for at, task in enumerate(made.tasks):
        for need in task.needs:
            if implied(task.name, need, needs):
                continue
            less = replace(task, needs=tuple(other for other in task.needs if other != need))
            tasks = [*made.tasks[:at], less, *made.tasks[at + 1:]]
            assert faults(as_early_as_can_be(task.name, tasks), made, pattern), (task.name, need)


@pytest.mark.parametrize("form", sorted(FORMS))
def test_tasks_that_change_places_left_out_or_done_twice_are_found(form: str) -> None:
    pattern, made = whole(form)
    work = list(made.tasks)
    needs = {task.name: task.needs for task in work}
    for n, (one, other) in enumerate(pairwise(work)):
        if one.name in needs[other.name]:
            swapped = [*work[:n], other, one, *work[n + 2:]]
            assert faults(swapped, made, pattern), (one.name, other.name)
    for n, task in enumerate(work):
        if task.sews or task.takes:
            assert faults([*work[:n], *work[n + 1:]], made, pattern), task.name
            assert faults([*work[:n], task, *work[n:]], made, pattern), task.name


def test_a_circle_a_need_of_nothing_and_a_name_twice_are_refused() -> None:
    one = Task(kind=TaskKind.TURN, name="one", needs=("two",))
    two = Task(kind=TaskKind.TURN, name="two", needs=("one",))
    for tasks, said in (((one, two), "need each other"), ((one,), "no task is called"),
                        ((replace(two, needs=()),) * 2, "one name")):
        with pytest.raises(ValueError, match=said):
            in_order(tasks)
