"""Mappings and lists of a source opened entry by entry, gathering every finding on the way."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import replace
from fractions import Fraction
from typing import Any, TypeVar

from ..core.problems import Place, Problem, Severity, error, note
from ..core.ranges import Measured
from ..core.text import clip, suggest
from ..machine.records import dataclass
from ..sizing.grading import look_across
from .keys.key import Key, Keys, Several
from .listed_by_size import or_by_size
from .source import Node, Scalar, Table
from .unknown_keys import Guess, rejoined, unknown_key
from .values import Entry, Fault, Figure, Reader, listing_like, table_like

T = TypeVar("T")

_NAME = re.compile(r"(?=.{1,40}\Z)[a-z][a-z0-9]*(?:[ _-][a-z0-9]+)*")


class Findings:
    """All that is found wrong in one source, and where each of its entries stands."""

    def __init__(self) -> None:
        self.problems: list[Problem] = []
        self.places: dict[str, Place] = {}
        self.labels: dict[str, str] = {}
        self.former: dict[str, str] = {}  # labels that sizes had before, and what they have now
        """What the pattern calls a size of its chart, where that is another name."""

    def fault(self, code: str, place: Place, found: str, expected: str = "",
              remedy: str = "") -> None:
        """Record an error."""
        self.problems.append(error(code, place, found=found, expected=expected, remedy=remedy))

    def warn(self, code: str, place: Place, found: str, expected: str = "",
             remedy: str = "") -> None:
        """Record a warning."""
        self.problems.append(note(Severity.WARNING, code, place, found=found, expected=expected,
                                  remedy=remedy))

    def read(self, entry: Entry, reader: Reader[T]) -> T | None:
        """What `reader` makes of `entry`; None once its fault is recorded."""
        self.places[entry.path] = entry.place
        try:
            return reader(entry)
        except Fault as fault:
            self.problems.append(fault.problem)
            return None
        finally:
            self.problems += entry.doubts
            entry.doubts.clear()


@dataclass(frozen=True, slots=True)
class Fields:
    """A mapping with the keys of a table; `what` it is, as messages call it."""

    findings: Findings
    table: Table
    path: str
    place: Place
    what: str
    keys: type[Keys]
    misspelt: frozenset[str] = frozenset()  # keys that stand here in another spelling

    def __contains__(self, key: str) -> bool:
        return self.keys.keys[key].name in self.table.entries

    def entry(self, key: Key[Any]) -> Entry | None:
        """The entry under `key`, if there is one. Raises KeyError for a key of another table."""
        keyed = self.table.entries.get(self.keys.keys[key.name].name)
        return None if keyed is None else replace(
            _entry(key.name, keyed.node, self.path, keyed.place), needed=key.needed)

    def at(self, key: Key[Any]) -> Place:
        """Where the value of `key` stands, which must have been read; else where the mapping does.
        """
        return self.findings.places.get(f"{self.path}.{key.name}" if self.path else key.name,
                                        self.place)

    def get(self, key: Key[T]) -> T:
        """The value under `key`; its default where it is left out (or, once recorded, at fault)."""
        return self.get_as(key, key.read, key.fallback)

    def get_as(self, key: Key[Any], reader: Reader[T], default: T) -> T:
        """What `reader` makes of the entry under `key`, which may be left out."""
        entry = self.entry(key)
        value = None if entry is None else self.findings.read(entry, reader)
        return default if value is None else value

    def need(self, key: Key[T]) -> T | None:
        """The value under `key`, which must be there; None once the fault is recorded."""
        return self.need_as(key, key.read)

    def need_as(self, key: Key[Any], reader: Reader[T]) -> T | None:
        """What `reader` makes of the entry under `key`, which must be there; None if at fault."""
        entry = self.required(key)
        return None if entry is None else self.findings.read(entry, reader)

    def sized(self, key: Key[T], sizes: tuple[str, ...]) -> dict[str, T] | None:
        """The values by size under `key`; None where it is left out or at fault."""
        entry = self.required(key) if key.needed else self.entry(key)
        return None if entry is None else read_by_size(self.findings, entry, key.read, sizes)

    def opened(self, key: Key[Any], what: str, guess: Guess | None = None) -> Fields | None:
        """The mapping under `key`, called `what`; None where it is left out or is no mapping."""
        entry = self.entry(key)
        return None if entry is None or key.table is None else open_fields(
            self.findings, entry, what, key.table, guess)

    def each(self, key: Key[Any], *, needed: bool | None = None) -> Iterator[Entry]:
        """The values of the list, or of the mapping with names, under `key`."""
        entry = self.required(key) if needed or (needed is None and key.needed) \
            else self.entry(key)
        return iter(()) if entry is None else entries_of(self.findings, entry, key)

    def listed(self, key: Key[Any]) -> tuple[Any, ...]:
        """What the items of the list under `key` are read as, but for those at fault."""
        assert isinstance(key.read, Several)
        read = [self.findings.read(item, key.read.item) for item in self.each(key)]
        return tuple(value for value in read if value is not None)

    def required(self, key: Key[Any]) -> Entry | None:
        """The entry under `key`, which must be there; None once it is recorded that it is not.

        A key that stands there misspelt has its finding already.
        """
        entry = self.entry(key)
        if entry is None and key.name not in self.misspelt:
            self.findings.fault("missing-key", self.place, f'no "{key.name}" in {self.what}',
                                remedy=f'Add a line such as "{key.line}".')
        return entry

    def one_of(self, first: Key[Any], second: Key[Any], better: Key[Any] | None = None
               ) -> Key[Any] | None:
        """Which of two keys is given; None once it is recorded that both or neither are.

        `better` is the one to propose where neither is, `first` if not said.
        """
        given = [key for key in (first, second) if key.name in self]
        if len(given) == 1:
            return given[0]
        if given:
            self.refuse_both(first, second)
        elif not self.misspelt & {first.name, second.name}:
            self.findings.fault("missing-key", self.place,
                                f'neither "{first.name}" nor "{second.name}" in {self.what}',
                                "one of the two", f'Add a line such as "{(better or first).line}".')
        return None

    def refuse_both(self, first: Key[Any], second: Key[Any], why: str = "one of the two",
                    remedy: str = "Delete one of them.") -> None:
        """Record two keys that answer one question, at the second of them."""
        given = [self.table.entries[key.name].place for key in (first, second) if key.name in
                 self.table.entries]
        place = max(given, key=lambda at: (at.line, at.column), default=self.place)
        self.findings.fault("two-answers", place,
                            f'both "{first.name}" and "{second.name}" in {self.what}', why, remedy)


def open_fields(findings: Findings, entry: Entry, what: str, keys: type[Keys],
                guess: Guess | None = None) -> Fields | None:
    """Open the mapping in `entry`, recording keys that its table has not; None if it is none.

    `guess` tells from its value what an unknown key unlike any other was most likely to be.
    """
    table = findings.read(entry, table_like(what, keys.example))
    if table is None:
        return None
    known = tuple(keys.keys)
    table, commas = rejoined(table)
    findings.problems += commas
    _warn_of_idle(findings, table, keys, what)
    unknown = [unknown_key(key, keyed, what, known, guess)
               for key, keyed in table.entries.items() if key not in known]
    findings.problems += [problem for problem, _ in unknown]
    return Fields(findings, table, entry.path, entry.place, what, keys,
                  frozenset(meant for _, meant in unknown if meant))


def _warn_of_idle(findings: Findings, table: Table, keys: type[Keys], what: str) -> None:
    """Warn, once, of keys that do nothing beside another one that is given."""
    for other in table.entries:
        idle = [name for name, key in keys.keys.items()
                if other in key.idle_beside and name in table.entries]
        if idle:
            findings.warn("unused", table.entries[idle[0]].place,
                          f"{', '.join(idle)} beside {other} in {what}, which nothing uses",
                          remedy=f"Delete {'it' if len(idle) == 1 else 'them'}.")
            return


def entries_of(findings: Findings, entry: Entry, key: Key[Any]) -> Iterator[Entry]:
    """The values of the list, or of the mapping with names, that `entry` has under `key`."""
    assert isinstance(key.read, Several)
    several = named_entries if key.read.by_name else listed_entries
    return several(findings, entry, key.read.what, key.example, key.read.most)


def named_entries(findings: Findings, entry: Entry, what: str, example: str,
                  most: int) -> Iterator[Entry]:
    """The entries of a mapping whose keys the designer chose, in order, at most `most`."""
    table = findings.read(entry, table_like(what, example))
    if table is not None:
        table, commas = rejoined(table)
        findings.problems += commas
    seen: dict[str, tuple[str, Place]] = {}
    for number, (key, keyed) in enumerate(table.entries.items() if table else ()):
        if number == most:
            findings.fault("too-many", keyed.place, f"more than {most} {what}",
                           f"at most {most}", "Split the pattern.")
            return
        if not _NAME.fullmatch(key):
            small = key.lower()
            to = f"Rename it {small}" if _NAME.fullmatch(small) else "Rename it"
            findings.fault("bad-name", keyed.place, f'the name "{clip(key)}"',
                           "small letters and digits, with single spaces, - or _ between words",
                           f"{to}; a title may hold anything.")
        twin, there = seen.setdefault(re.sub("[ _]", "-", key), (key, keyed.place))
        if twin != key:
            findings.fault("bad-name", keyed.place, f'the name "{clip(key)}" beside '
                           f'"{clip(twin)}" ({there.short})',
                           "names that differ in letters or digits", "Rename one of the two.")
        yield _entry(key, keyed.node, entry.path, keyed.place)


def listed_entries(findings: Findings, entry: Entry, what: str, example: str,
                   most: int) -> Iterator[Entry]:
    """The items of a list, in order, at most `most`."""
    listing = findings.read(entry, listing_like(what, example))
    for number, node in enumerate(listing.items if listing else ()):
        if number == most:
            findings.fault("too-many", node.place, f"more than {most} {what}",
                           f"at most {most}", "Leave some out.")
            return
        yield Entry(f"item {number + 1}", node, f"{entry.path}.{number}", node.place)


def sized_entries(findings: Findings, entry: Entry, sizes: tuple[str, ...]) -> Iterator[Entry]:
    """The entries of a mapping whose keys are sizes, recording those that the pattern has not."""
    table, commas = rejoined(entry.node) if isinstance(entry.node, Table) else (None, ())
    findings.problems += commas
    for size, keyed in table.entries.items() if table else ():
        if sizes and size not in sizes:
            label = findings.former.get(size) or findings.labels.get(size, "")
            expected, remedy = (f'"{label}", as sizes calls it', f"Write {label}.") if label else \
                suggest(size, sizes, "Delete it, or add it to sizes.")
            findings.fault("unknown-size", keyed.place, f'the unknown size "{clip(size)}"',
                           expected, remedy)
        else:
            yield _entry(size, keyed.node, entry.path, keyed.place)


def read_by_size(findings: Findings, entry: Entry, reader: Reader[T],
                 sizes: tuple[str, ...]) -> dict[str, T] | None:
    """A value for every size, from one value or a mapping that names each size exactly once."""
    if not isinstance(entry.node, Table):
        value = findings.read(entry, or_by_size(reader, sizes))
        return None if value is None else dict.fromkeys(sizes, value)
    findings.places[entry.path] = entry.place
    values = {at.label: findings.read(at, reader) for at in sized_entries(findings, entry, sizes)}
    missing = [size for size in sizes if size not in values]
    if missing:
        findings.fault("missing-size", entry.place, f"no {entry.label} for {', '.join(missing)}",
                       f"a value for each of {', '.join(sizes)}", f"Add {missing[0]}.")
    whole = {size: value for size in sizes if (value := values.get(size)) is not None}
    if len(whole) < len(sizes):
        return None
    if isinstance(reader, Figure) and not reader.range.follows:  # those that do: see sense
        warn_of_steps(findings, entry, reader, whole)
    return whole


def warn_of_steps(findings: Findings, entry: Entry, reader: Figure[T], values: Mapping[str, T]
                   ) -> None:
    """Warn of the first figure that falls or jumps from one size to the next."""
    length = reader.range.measured is Measured.LENGTH
    plain = [(size, Fraction(reader.worth(value)) / (10 if length else 1))
             for size, value in values.items()]
    named = f"{clip(entry.label)} in cm" if length else clip(entry.label)
    for found in look_across(named, plain, grain=Fraction(1), rises=True)[:1]:
        findings.problems.append(note(
            Severity.WARNING, "out-of-step", findings.places[f"{entry.path}.{found.size}"],
            size=found.size, found=found.text,
            expected="sizes, the smallest first, that grow by even steps",
            remedy="Check the figure."))


def _entry(label: str, node: Node, path: str, key: Place) -> Entry:
    """Point at a value that was typed, else (a list, a mapping, nothing) at its key."""
    typed = isinstance(node, Scalar) and node.text
    return Entry(label, node, f"{path}.{label}" if path else label,
                 node.place if typed else key)
