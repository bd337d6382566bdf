"""The stitch charts of a pattern source, each a block of marks, with every fault at its row.

    charts:
      ladder:
        title: Ladder        # the chart's own name, if left out
        repeat: |            # as seen on the knit side, the lowest row is row 1
          |.||
          |.||
        edge: 1              # plain stitches at each side; 1, if left out
        key:                 # own words for marks, none, if left out
          ".": ladder
"""

from __future__ import annotations

from ..core.problems import Place
from ..core.text import clip
from ..machine.records import dataclass
from ..pattern.cells import MARKS, Cell, Cells
from ..pattern.chart_flaws import Flaw, flaws
from ..pattern.stitch_chart import MOST_ROWS, MOST_STITCHES, StitchChart
from .fields import Fields, Findings, entries_of, open_fields
from .keys.fabric_keys import ChartKeys
from .keys.pattern_keys import PatternKeys
from .source import Scalar, Table
from .values import Entry, Fault, Text, misshapen, table_like

MOST_FLAWS = 6

_MARKS_LISTED = f"one of the marks {MARKS}"
_OTHERWISE = "The page about sources explains them."
_LIKELY = {
    **dict.fromkeys("Il1!", "Write | for a plain stitch."),
    **dict.fromkeys("oO0", "Write < or > for the stitch that is moved; its needle is the eyelet."),
    **dict.fromkeys("X#*", "Write x for the second colour."),
    "U": "Write u for a tuck.", "V": "Write v for a slipped stitch.",
    " ": "Write . for a needle out of work, and start every row at one column.",
}


@dataclass(frozen=True, slots=True)
class _Block:
    """The lines of a repeat, the lowest first, and where each of their marks stands."""

    lines: tuple[str, ...]
    scalar: Scalar
    key: Place

    def place(self, row: int, column: int) -> Place:
        """Where mark `column` of row `row` stands, both counted from 1.

        The parser does not say how far a block is indented; two columns more than its key, as
        the format is written here, is what the column assumes.
        """
        at = self.scalar.place
        if self.scalar.lines == 1 or self.scalar.quoted:
            return Place(at.file, at.line, at.column + self.scalar.quoted + column - 1)
        above = len(self.scalar.text) - len(self.scalar.text.lstrip("\n"))
        line = at.line + above + len(self.lines) - row + 1
        return Place(at.file, line, self.key.column + 1 + column)


def read_stitch_charts(findings: Findings, entry: Entry) -> dict[str, StitchChart | None]:
    """Return the charts under `entry`, a mapping of names to charts, recording every fault.

    None stands for a chart with a fault.
    """
    return {e.label: _chart(findings, e) for e in entries_of(findings, entry, PatternKeys.charts)}


def _chart(findings: Findings, entry: Entry) -> StitchChart | None:
    fields = open_fields(findings, entry, f'chart "{entry.label}"', ChartKeys)
    if fields is None:
        return None
    before = len(findings.problems)
    title = fields.get(ChartKeys.title) or entry.label.replace("_", " ").replace("-", " ")
    edge = fields.get(ChartKeys.edge)
    rows = _rows(fields, edge)
    words = _words(fields, rows)
    if rows is None or len(findings.problems) > before:
        return None
    repeat = fields.entry(ChartKeys.repeat)
    return StitchChart(title=title, rows=rows, edge=edge, words=words,
                       place=repeat.place if repeat else None)


def _rows(fields: Fields, edge: int) -> tuple[Cells, ...] | None:
    """The rows from row 1 up; None once their faults are recorded."""
    entry = fields.required(ChartKeys.repeat)
    block = None if entry is None else fields.findings.read(
        entry, lambda e: _block(e, fields.table.entries["repeat"].place))
    if block is None or _strange(fields.findings, block):
        return None
    rows = tuple(tuple(Cell(mark) for mark in line) for line in block.lines)
    found = flaws(rows, edge)
    for flaw in found[:MOST_FLAWS]:
        _record(fields.findings, block, flaw)
    return None if found else rows


def _block(entry: Entry, key: Place) -> _Block:
    """Read the block's lines. Raises Fault where it is none or too large."""
    node = entry.node
    if not isinstance(node, Scalar) or not node.text.strip():
        raise misshapen(entry, "rows of marks", f"Write repeat: | and a row such as |.|| below. "
                                                f"The marks are {MARKS}")
    lines = tuple(line.rstrip() for line in node.text.strip("\n").split("\n"))[::-1]
    if len(lines) > MOST_ROWS or max(map(len, lines)) > MOST_STITCHES:
        raise Fault("too-many", entry.place,
                    f"a repeat of {max(map(len, lines))} marks and {len(lines)} rows",
                    f"at most {MOST_STITCHES} marks and {MOST_ROWS} rows",
                    "Write what repeats, and once only.")
    return _Block(lines, node, key)


def _strange(findings: Findings, block: _Block) -> bool:
    """Record every character that is no mark, each once, from the top; whether there are any."""
    known = {cell.value for cell in Cell}
    seen: set[str] = set()
    for row in range(len(block.lines), 0, -1):
        for column, mark in enumerate(block.lines[row - 1], 1):
            if mark not in known | seen:
                seen.add(mark)
                findings.fault("chart-mark", block.place(row, column),
                               f'"{clip(mark) or mark}" at stitch {column} of row {row}',
                               _MARKS_LISTED, _LIKELY.get(mark, _OTHERWISE))
    return bool(seen)


def _record(findings: Findings, block: _Block, flaw: Flaw) -> None:
    findings.fault(flaw.code, block.place(flaw.row, flaw.column), flaw.found, flaw.expected,
                   flaw.remedy)


def _words(fields: Fields, rows: tuple[Cells, ...] | None) -> tuple[tuple[Cell, str], ...]:
    """The designer's own words for marks that the chart has."""
    entry = fields.entry(ChartKeys.key)
    if entry is None or (isinstance(entry.node, Table) and not entry.node.entries):
        return ()
    table = fields.findings.read(entry, table_like("words for marks", '{".": ladder}'))
    used = {cell.value for row in rows or () for cell in row} or set(MARKS) - {" "}
    out = []
    for mark, keyed in table.entries.items() if table else ():
        own = Entry(mark, keyed.node, f"{entry.path}.{mark}", keyed.place)
        meaning = fields.findings.read(own, Text(80, "words for the mark", "Write what it means."))
        if mark not in used:
            fields.findings.fault(
                "chart-key", keyed.place, f'words for "{clip(mark)}" in {fields.what}',
                f"a mark of the chart: {' '.join(m for m in MARKS.split() if m in used)}",
                "Delete the line.")
        elif meaning is not None:
            out.append((Cell(mark), meaning))
    return tuple(out)
