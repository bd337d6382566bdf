"""The sheets of counts: a row a count, a column a size, each a formula beside what is published."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import field
from fractions import Fraction

from ..core.expression import Expression, LookUp, Operand, Term
from ..core.expression_parts import inside
from ..core.operands import Role
from ..core.problems import Place
from ..machine.records import dataclass
from ..words import sheet_text as words
from .sheet_formulas import Formula, figure_cell, formula
from .sheet_gauges import Gauges
from .sheet_inputs import FIRST_SIZE, Inputs, Used
from .sheet_remarks import NO_REMARKS, Remarks, with_remarks
from .sheet_trees import as_near, chart_place, first_place, is_bare, is_on_bed
from .sheet_values import Look, Sheet, SheetCell, address, column, when

# How far a formula may be off what is published: rounded to a hundredth, or to a binary fraction.
_GIVE, _NONE = "0.005001", "0.000001"
_MEASURES = (Role.MEASURE, Role.PLAIN_MEASURE)


@dataclass(frozen=True, slots=True)
class SheetRow:
    """A count by its key in every size that has it, by the size's number; `near` is how closely the
    published figure is rounded, 0 where it is exact. `home` is the place of what it is a count of,
    for one that the source states nowhere; a measure is named by other sums."""

    name: str
    unit: str
    made: Mapping[int, Expression]
    place: Place | None = None
    near: Fraction = Fraction(0)
    home: Place | None = None
    is_measure: bool = False


Search = tuple[Callable[[Expression], Place | None], dict[str, Place]]
"""What finds a place in an expression, and the places of measures that it found before."""
RowsBeside = Mapping[str, tuple[SheetRow, int]]
"""The rows of a sheet by their names, each with its number."""


@dataclass
class Steps:
    """Parts of long formulas, each in a cell of its size's column."""

    columns: dict[int, list[SheetCell]] = field(default_factory=dict)

    def add(self, size: int, found: Formula, value: Fraction) -> Formula:
        """Put a formula into the next free cell of a size, and return that cell."""
        cells = self.columns.setdefault(size, [])
        cells.append(SheetCell(found.text, Look.COUNTED, computes=True, value=value))
        return found.put(address(words.STEPS, len(cells) + 1, FIRST_SIZE + size))

    def sheet(self, sizes: Sequence[str]) -> Sheet:
        """Return the sheet of all parts."""
        rows = [tuple(SheetCell(text, Look.HEAD) for text in (*words.STEP_COLUMNS, *sizes))]
        longest = max((len(cells) for cells in self.columns.values()), default=0)
        for at in range(longest):
            cells = [SheetCell()] * (FIRST_SIZE - 1)
            for size in range(len(sizes)):
                here = self.columns.get(size, [])
                cells.append(here[at] if at < len(here) else SheetCell())
            rows.append(tuple(cells))
        return Sheet(words.STEPS, tuple(rows), FIRST_SIZE - 1)


@dataclass
class SheetCounts:
    """Writes sheets of counts, and remembers where each expression stands.

    `given` says where the source gives counts outright, by piece and name: "sleeve upper_arm".
    """

    inputs: Inputs
    gauges: Gauges
    remarks: Remarks = field(default_factory=lambda: NO_REMARKS)
    given: Mapping[str, Place] = field(default_factory=dict)
    steps: Steps = field(default_factory=Steps)
    counted: int = 0
    live: int = 0
    on_bed: int = 0
    _known: dict[tuple[int, int], tuple[Expression, Formula]] = field(default_factory=dict)
    _measures: dict[tuple[int, str], Formula] = field(default_factory=dict)
    _stated: dict[str, Place] = field(default_factory=dict)
    _charted: dict[str, Place] = field(default_factory=dict)

    def sheet(self, title: str, sizes: Sequence[str], rows: Iterable[SheetRow], *,
              fabrics: tuple[str, ...] = (), measures: bool = False) -> Sheet:
        """Return a sheet of counts; `fabrics` are those whose gauge its formulas look for first.

        The rows of `measures` are named by other sums.
        """
        many = len(sizes)
        head = (*words.COUNT_COLUMNS, *sizes, *map(words.published, sizes), *words.LAST_COLUMNS)
        made = [tuple(SheetCell(text, Look.HEAD) for text in head)]
        kept = [row for row in rows
                if any(tree.value or not is_bare(tree) for tree in row.made.values())]
        beside = {row.name: (row, at) for at, row in enumerate(kept, start=2)}
        written = {}
        for row in _in_order(kept) if measures else kept:
            at, owner = beside[row.name][1], row if measures else None
            used = Used(title, row.name, self._place(row, beside))
            found = {size: formula(tree, _Here(self, size, fabrics, owner, used, beside))
                     for size, tree in row.made.items()}
            for size, tree in row.made.items():
                here = found[size].put(address(title, at, FIRST_SIZE + size))
                self._known.setdefault((size, id(tree)), (tree, here))
                if measures:
                    self._measures[size, row.name] = here
            written[at] = self._cells(row, found, at, many, beside)
        return with_remarks(Sheet(title, (*made, *(written[at] for at in sorted(written))),
                                  FIRST_SIZE - 1), self.remarks)

    def _place(self, row: SheetRow, beside: RowsBeside) -> Place | None:
        """Where the source states a count, or else the first figure that it comes from: its own,
        or that of a measure or of a count beside it, which it names; or else where a chart does."""
        searches = ((first_place, self._stated), (chart_place, self._charted))
        return next((place for search in searches
                     if (place := self._found(row, beside, search))), row.home)

    def _found(self, row: SheetRow, beside: RowsBeside, search: Search) -> Place | None:
        trees = tuple(row.made.values())
        own = row.place or next((p for tree in trees if (p := search[0](tree))), None)
        place = own or self._place_named(trees, beside, {row.name}, search)
        if place and row.is_measure:
            search[1].setdefault(row.name, place)
        return place

    def _place_named(self, trees: Iterable[Expression], beside: RowsBeside, seen: set[str],
                     search: Search) -> Place | None:
        find, stated_at = search
        for tree in trees:
            within: Iterable[Expression] = inside(tree)
            if isinstance(tree, Operand | Term):
                if tree.role in _MEASURES and (stated := stated_at.get(tree.name)):
                    return stated
                if tree.role is Role.NUMBER and tree.name in beside and tree.name not in seen:
                    row = beside[tree.name][0]
                    if stated := row.place:
                        return stated
                    within = row.made.values()
                seen.add(tree.name)
            if found := next((p for each in within if (p := find(each))), None) \
                    or self._place_named(within, beside, seen, search):
                return found
        return None

    def _cells(self, row: SheetRow, found: Mapping[int, Formula], at: int, many: int,
               beside: RowsBeside) -> tuple[SheetCell, ...]:
        place = self._place(row, beside)
        cells = [SheetCell(words.count_text(row.name)), SheetCell(row.unit),
                 SheetCell(str(place or ""))]
        published, checks = [], []
        for size in range(many):
            if size not in found:
                cells.append(SheetCell())
                published.append(SheetCell())
                continue
            exact = row.made[size].value
            self.counted += 1
            self.live += found[size].live
            self.on_bed += is_on_bed(row.made[size])
            cells.append(SheetCell(found[size].text, Look.COUNTED, computes=True, value=exact)
                         if found[size].live else figure_cell(exact, Look.FIXED))
            published.append(figure_cell(as_near(exact, row.near), Look.PUBLISHED))
            here, there = (f"{column(FIRST_SIZE + n)}{at}" for n in (size, many + size))
            checks.append(f"ABS({here}-{there})<={_GIVE if row.near else _NONE}")
        kind = _kind(row, found)
        check = f'IF(AND({",".join(checks)}),"{words.GOOD}","{words.OTHER}")'
        check = check if kind == words.FORMULA else when(check, f'"{words.STALE}"')
        return (*cells, *published, SheetCell(check, Look.CHECK, computes=True, value=words.GOOD),
                SheetCell(kind))

    def cell(self, tree: Expression, used: Used, size: int, fabrics: tuple[str, ...]
             ) -> tuple[SheetCell, bool]:
        """Return the cell of a figure that stands on another sheet, and whether it follows all its
        inputs."""
        found = formula(tree, _Here(self, size, fabrics, None, used, {}))
        cell = SheetCell(found.text, Look.COUNTED, computes=True, value=tree.value) \
            if found.live else figure_cell(tree.value, Look.PUBLISHED)
        return cell, found.live and found.whole

    def known(self, tree: Expression, size: int) -> Formula | None:
        """Return the cell in which this very expression stands."""
        found = self._known.get((size, id(tree)))
        return found[1] if found and found[0] is tree else None

    def measure(self, name: str, size: int) -> Formula | None:
        """Return the cell of a measure by its name."""
        return self._measures.get((size, name))


@dataclass(frozen=True, slots=True)
class _Here:
    """The cells as the formulas of one count see them."""

    counts: SheetCounts
    size: int
    fabrics: tuple[str, ...]
    owner: SheetRow | None
    used: Used
    beside: RowsBeside

    def figure(self, operand: Operand) -> Formula:
        """Return the cell of an operand: a count of the same sheet, a measure, a gauge or an input.
        """
        row, at = self.beside.get(operand.name, (None, 0))
        if row and operand.role is Role.NUMBER and self.size in row.made \
                and row.made[self.size].value == operand.value:
            return formula(row.made[self.size], self).put(
                address(self.used.title, at, FIRST_SIZE + self.size))
        measured = self.counts.measure(operand.name, self.size) \
            if operand.role in _MEASURES else None
        return (measured or self.counts.gauges.cell(operand, self.fabrics)
                or self._input(operand))

    def _input(self, operand: Operand) -> Formula:
        if self.owner is None:
            return self.counts.inputs.cell(operand, self.size, self.used)
        return self.counts.inputs.cell(operand, self.size, self.used, self.owner.name,
                                       self.owner.place)

    def word(self, table: LookUp) -> Formula:
        """Return the cell with the key of a look-up, which a source gives."""
        return self.counts.inputs.word(table, self.size, self.used)

    def outright(self, number: int) -> Formula | None:
        """Return the cell of a count that stands under `counts` in the source."""
        title, name = self.used.title, self.used.name
        place = self.counts.given.get(f"{title} {name}")
        return None if place is None else self.counts.inputs.cell(
            Operand(Fraction(number), Role.SOURCE), self.size, self.used,
            words.of_sheet(title, name), place)

    def known(self, tree: Expression) -> Formula | None:
        """Return the cell that has this expression, or the measure of its name."""
        if isinstance(tree, Term) and tree.role in _MEASURES and (
                found := self.counts.measure(tree.name, self.size)):
            return found
        return None if isinstance(tree, Operand) else self.counts.known(tree, self.size)

    def apart(self, formula: Formula, value: Fraction) -> Formula:
        """Put a part of a long formula into a cell between."""
        return self.counts.steps.add(self.size, formula, value)


def _in_order(rows: Sequence[SheetRow]) -> Iterator[SheetRow]:
    """The rows of measures so that each comes after those that it is calculated from."""
    left = {row.name: row for row in rows}

    def after(name: str) -> Iterator[SheetRow]:
        row = left.pop(name)
        for one in sorted(set(_measures_in(row.made.values()))):
            if one in left:
                yield from after(one)
        yield row

    for row in rows:
        if row.name in left:
            yield from after(row.name)


def _measures_in(trees: Iterable[Expression]) -> Iterator[str]:
    """The names of the measures that stand in expressions."""
    for tree in trees:
        if isinstance(tree, Term | Operand) and tree.role in _MEASURES:
            yield tree.name
        yield from _measures_in(inside(tree))


def _kind(row: SheetRow, found: Mapping[int, Formula]) -> str:
    if all(map(is_on_bed, row.made.values())):
        return words.ON_BED
    if not all(one.live for one in found.values()):
        return words.VALUE
    return words.FORMULA if all(one.whole for one in found.values()) else words.PARTLY
