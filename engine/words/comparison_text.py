"""Words of a report: facts that differ, the inputs that moved them, and by which operands."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby

from ..compare.report import Changed, MovedInput, MovedStep, PatternState, Report
from ..core.text import series

_AROUND = 4  # words of a step that stand before and behind what differs in it
CHANGED = "Changed:"
BY_ENGINE = "Because of the engine:"
BESIDE = "Because of what lies beside the sources, such as a page that the notes lead to:"
FACT, BY, EVERY_SIZE, EVERY_FACT = "What", "By", "every size", "The whole size"
NOTHING_DIFFERS = "Nothing differs."
_HEAD = {
    PatternState.SAME: "nothing moved", PatternState.NEW: "new", PatternState.GONE: "gone",
    PatternState.BROKEN_BEFORE: "not knitted before, because its source had errors",
    PatternState.BROKEN_AFTER: "not knitted now, because its source has errors",
    PatternState.BROKEN: "not knitted before or now, because its source has errors on both sides"}
_KINDS = {"measure": "measure", "finished length": "finished length", "count": "count",
          "schedule": "schedule", "yarn": "yarn figure", "material": "material",
          "gauge": "gauge figure", "join": "join", "band measure": "band measure",
          "finding": "finding", "steps": "list of steps"}
_PLURALS = {"steps": "lists of steps"}


def head_text(report: Report) -> str:
    """The line above the changes of a pattern."""
    title = f"{report.title} ({report.slug})" if report.title else report.slug
    versions = [v for v in (report.version_before, report.version_after) if v]
    version = f", version {' → '.join(dict.fromkeys(versions))}" if versions else ""
    if report.state is not PatternState.CHANGED:
        return f"{title}{version}: {_HEAD[report.state]}"
    kinds = {kind: len(list(same)) for kind, same in groupby(
        sorted((one.kind for one in report.changes if one.name), key=list(_KINDS).index))}
    parts = [_counted(many, _KINDS[kind], _PLURALS.get(kind, "")) for kind, many in kinds.items()]
    sizes = len({one.size for one in report.changes if one.size and one.name})
    where = f" in {_counted(sizes, 'size')}" if sizes else ""
    whole = list(_whole_texts(report))
    if parts or not whole:
        whole.append(f"{series(parts, 'and') or 'nothing'} changed{where}")
    return f"{title}{version}: {'; '.join(whole)}"


def _whole_texts(report: Report) -> Iterator[str]:
    """How many whole sizes, and pieces or bands, came and went."""
    whole = [one for one in report.changes if not one.name]
    for state, those in (("new", [one for one in whole if one.after]),
                         ("gone", [one for one in whole if not one.after])):
        if sizes := {one.size for one in those if not one.place}:
            yield f"{_counted(len(sizes), 'size')} {state}"
        if places := {one.place for one in those if one.place}:
            yield f"{_counted(len(places), 'piece or band', 'pieces or bands')} {state}"


def former_text(report: Report) -> str:
    """That the folder of a pattern has another name."""
    return f"The folder was called {report.former}."


def renamed_text(old: str, new: str) -> str:
    """That a size has another name."""
    return f"Size {old} is called {new} now."


def unknown_text(kinds: Sequence[str]) -> str:
    """What was not compared, since one side does not have it."""
    names = series([_PLURALS.get(kind, f"{_KINDS[kind]}s") for kind in kinds], "and")
    return f"Not compared, because one side does not have them: {names}."


def input_text(one: MovedInput) -> str:
    """An input that moved, with its place."""
    return f"{_value_moved(one)} ({one.file}:{one.line}:{one.column})"


def _value_moved(one: MovedInput) -> str:
    key = one.key or f"all of {one.file}"
    if not one.before:
        return f"{key}: {one.after} (new)"
    if not one.after:
        return f"{key}: {one.before} (gone)"
    return f"{key}: {one.before} → {one.after}"


def no_effect_text(inputs: Iterable[MovedInput]) -> str:
    """Which values of the sources are others and move no fact that is compared."""
    return "Changed in the source, without effect on what is compared: " \
        f"{'; '.join(map(_value_moved, inputs))}"


def because_text(inputs: Sequence[MovedInput]) -> str:
    """Why the changes that follow were made."""
    return f"Because of {'; and of '.join(map(input_text, inputs))}"


def fact_named(one: Changed) -> str:
    """What a change is of, without its size: "Front band: edge rows"."""
    name = one.name if one.kind == "finding" else one.name.replace("_", " ")
    if one.kind == "finding":
        return name
    return f"{one.title}, {name}" if one.title else name


def values_text(one: Changed) -> str:
    """What a fact was and is."""
    if not one.name:
        counts = _counted(one.many, "entry", "entries")
        return f"new, with {counts}" if one.after else f"gone, with {counts}"
    if one.kind == "finding":
        return "gone" if one.before else "new"
    if not one.before or not one.after:
        return f"new: {one.after}" if one.after else f"gone: {one.before}"
    if one.steps and one.before == one.after:
        return f"{len(one.steps)} of {one.after} with other text"
    if one.kind == "steps" and not one.steps:
        return "with other text"
    many = f", {len(one.steps)} with other text" if one.steps else ""
    return f"{_short(one)} → {one.after}{many}"


def _short(one: Changed) -> str:
    """What a figure was, without its unit where it has the same now: "208" of "212 rows"."""
    old, unit = _with_unit(one.before)
    same = one.kind not in ("schedule", "finding") and unit == _with_unit(one.after)[1]
    return old if same and old else one.before


def _with_unit(value: str) -> tuple[str, str]:
    """A value and its unit, the words behind its last figure: "0.75" and "stitches per row"."""
    words = value.split(" ")
    end = max((n for n, word in enumerate(words, 1) if any(map(str.isdigit, word))), default=0)
    return " ".join(words[:end]), " ".join(words[end:])


def path_text(path: Sequence[str]) -> str:
    """By which operands a change came to a count."""
    return f"by {', '.join(path)}"


def sizes_text(sizes: Sequence[str], every: Sequence[str]) -> str:
    """The sizes in which a change is the same: "all sizes", "sizes 2 and 4"; "" where it is of no
    one size. The word is there, as a size may be called by a number."""
    if not any(sizes):
        return ""
    if len(sizes) > 1 and set(sizes) == set(every):
        return "all sizes"
    return f"size{'s' if len(sizes) > 1 else ''} {series(sizes, 'and')}"


def in_sizes_text(value: str, sizes: str) -> str:
    """A value with its sizes behind it: "98 → 102 stitches in size 4"."""
    return f"{value} in {sizes}" if sizes else value


def step_text(one: MovedStep) -> str:
    """A step whose text differs."""
    if not one.number_before:
        return f"step {one.number_after} is new: {one.after}"
    if not one.number_after:
        return f"step {one.number_before} is gone: {one.before}"
    number = f"{one.number_after}" if one.number_before == one.number_after else \
        f"{one.number_before}, now {one.number_after}"
    return f"step {number}: {' → '.join(_where_they_differ(one.before, one.after))}"


def _where_they_differ(before: str, after: str) -> tuple[str, str]:
    """Two texts from the first word that differs to the last, with some words on either side."""
    old, new = before.split(" "), after.split(" ")
    least = min(len(old), len(new))
    start = next((n for n in range(least) if old[n] != new[n]), least)
    end = next((n for n in range(least - start) if old[-1 - n] != new[-1 - n]), least - start)
    start, end = max(0, start - _AROUND), max(0, end - _AROUND)
    return _part(old, start, end), _part(new, start, end)


def _part(words: Sequence[str], start: int, end: int) -> str:
    """Some of the words, with an ellipsis for what is left out before them and behind them."""
    return " ".join((*["…"] * bool(start), *words[start:len(words) - end], *["…"] * bool(end)))


def more_text(many: int) -> str:
    """That changes are left out of a short report."""
    return f"and {many} more {'change' if many == 1 else 'changes'}; --all shows every one"


def summary_text(reports: Sequence[Report]) -> str:
    """The last line: how many patterns differ, of how many that were compared."""
    differ = sum(report.differs for report in reports)
    if not differ:
        return f"{_counted(len(reports), 'pattern')} compared. {NOTHING_DIFFERS}"
    return f"{_counted(len(reports), 'pattern')} compared: {differ} " \
        f"{'differs' if differ == 1 else 'differ'}."



def some_text(values: Sequence[str], more: int) -> str:
    """The first values of several, and in how many sizes there are others."""
    return f"{'; '.join(values)}; others in {_counted(more, 'size')}"


def _counted(number: int, one: str, many: str = "") -> str:
    """A number of things; a report that was kept is printed without loading the words of pages."""
    return f"{number} {one if number == 1 else many or one + 's'}"
