"""The report of a comparison: two sides of a pattern, their differences with causes and ways."""

from __future__ import annotations

from collections.abc import Mapping

from ..compare.causes import KnitAgain, causes
from ..compare.compared_facts import EVERY_KIND, ComparedSide, FactKey, FactKind, shown_apart
from ..compare.differences import (
    FactDifference,
    differences,
    moves_of_figures,
    renamed_sizes,
    with_sizes,
)
from ..compare.inputs import Input, is_unread, shown
from ..compare.moves import Move
from ..compare.report import Changed, MovedInput, PatternState, Report, steps_moved
from ..core.problems import fold_sizes
from ..words.moved import ORDER, STEPS, UNREAD, move_text, steps_shown

_ORDER = (FactKind.GAUGE, FactKind.MEASURE, FactKind.COUNT, FactKind.LENGTH, FactKind.BAND,
          FactKind.JOIN, FactKind.YARN, FactKind.MATERIAL, FactKind.SCHEDULE, FactKind.FINDING,
          FactKind.STEPS)


def report_of(before: ComparedSide, after: ComparedSide, inputs: tuple[Input, ...], knit: KnitAgain,
              *, steps: bool = True) -> Report:
    """Return what differs between two sides of a pattern, and which of the `inputs` moved it.

    `knit` gives the side after with some inputs set back; its sizes have the names they have there.
    Without `steps` it is said whose steps read differently, and not which: telling them is two
    fifths of what a report takes.
    """
    names = renamed_sizes(before, after)
    before = with_sizes(before, names)
    found = sorted(differences(before, after), key=lambda one: _ORDER.index(one.key.kind))
    moved = causes(found, before, after, inputs, lambda some: with_sizes(knit(some), names))
    taken = moves_of_figures(before, after, found, moved)
    titles = {**before.titles, **after.titles}
    changes = tuple(_changed(one, titles, tuple(inputs.index(each) for each in
                                                moved.get(one.key, ())), taken.get(one.key, ()),
                             steps=steps) for one in found)
    errors = fold_sizes((*before.errors, *after.errors))
    return Report(slug=after.slug, title=after.title or before.title,
                  state=_state(before, after, changed=bool(changes)),
                  version_before=before.version, version_after=after.version,
                  sizes=after.sizes, renamed=tuple(names.items()),
                  inputs=tuple(map(_input, inputs)), changes=changes,
                  unknown=_unknown(before, after), errors=tuple(map(str, errors)))


def came_or_went(side: ComparedSide, state: PatternState) -> Report:
    """Return the report of a pattern that only one side has."""
    before, after = (side.version, "") if state is PatternState.GONE else ("", side.version)
    return Report(slug=side.slug, title=side.title, state=state, sizes=side.sizes,
                  version_before=before, version_after=after,
                  errors=tuple(map(str, fold_sizes(side.errors))))


def _state(before: ComparedSide, after: ComparedSide, *, changed: bool) -> PatternState:
    if before.errors or after.errors:
        return {(True, True): PatternState.BROKEN, (True, False): PatternState.BROKEN_BEFORE}.get(
            (bool(before.errors), bool(after.errors)), PatternState.BROKEN_AFTER)
    return PatternState.CHANGED if changed else PatternState.SAME


def _unknown(before: ComparedSide, after: ComparedSide) -> tuple[str, ...]:
    if before.errors or after.errors:
        return ()
    gone = EVERY_KIND - (before.kinds & after.kinds)
    return tuple(kind.value for kind in FactKind if kind in gone)


def _input(one: Input) -> MovedInput:
    before, after = ORDER if one.order else [
        UNREAD if is_unread(one, node) else shown(node) for node in (one.before, one.after)]
    return MovedInput(one.file, one.key, one.place.line, one.place.column, before, after)


def _changed(one: FactDifference, titles: Mapping[str, str], moved: tuple[int, ...],
             path: tuple[Move, ...], *, steps: bool) -> Changed:
    key = one.key
    title = titles.get(key.place, key.place.replace("_", " "))
    if one.is_whole:
        return Changed(key.size, key.kind.value, key.place, title, "",
                       "" if one.before is None else "there",
                       "" if one.after is None else "there", one.many, moved)
    if key.kind is FactKind.STEPS:
        return _steps(one, title, moved, listed=steps)
    title = "" if key.kind is FactKind.FINDING else title
    before, after = shown_apart(one.before, one.after) if one.before and one.after else (
        fact.shown if fact else "" for fact in (one.before, one.after))
    return Changed(key.size, key.kind.value, key.place, title, key.name, before, after, 1, moved,
                   tuple(dict.fromkeys(map(move_text, path))))


def _steps(one: FactDifference, title: str, moved: tuple[int, ...], *, listed: bool) -> Changed:
    key: FactKey = one.key
    if not listed:
        before, after = (STEPS if fact else "" for fact in (one.before, one.after))
        return Changed(key.size, key.kind.value, key.place, title, key.name, before, after, 1,
                       moved)
    old, new = (fact.texts() if fact and fact.texts else () for fact in (one.before, one.after))
    return Changed(key.size, key.kind.value, key.place, title, key.name,
                   steps_shown(len(old)) if one.before else "",
                   steps_shown(len(new)) if one.after else "", 1, moved,
                   steps=steps_moved(old, new))
