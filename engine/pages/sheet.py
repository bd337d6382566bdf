"""The tech editor's workbook of a pattern: what stands on which sheet."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from fractions import Fraction
from functools import partial

from ..core.counts import Unit, decimal
from ..core.expression import Expression
from ..core.problems import Place, Problem
from ..pattern.fabrics import Fabric
from ..pattern.model import GarmentSpec
from ..pattern.places import Places
from ..proof.proof import Proof, SizeProof
from ..proof.yarn_requirement import yarn_requirements
from ..proof.yarn_shares import free_key
from ..words import sheet_text as words
from .counts_json import material_counts
from .exact_figures import exact_figures
from .figures import figures
from .sheet_counts import SheetCounts, SheetRow
from .sheet_formulas import figure_cell
from .sheet_gauges import Gauges
from .sheet_inputs import Inputs, Used
from .sheet_pieces import Named, derived
from .sheet_remarks import NO_REMARKS, Remarks, with_remarks
from .sheet_shaping import piece_path, shaping
from .sheet_values import CHANGES, Look, Sheet, SheetCell, Workbook, address, column, when
from .sheet_yarn import yarn_counts

HUNDREDTH = Fraction(1, 100)
Rows = list[SheetRow]


def workbook(proof: Proof, findings: Sequence[Problem] = (), remarks: Remarks = NO_REMARKS
             ) -> Workbook:
    """Return the workbook of a pattern in all its sizes, with the findings of its check.

    `remarks` are those of the editor that are not done, by sheet and row.
    """
    pattern, sizes = proof.pattern, proof.pattern.sizes
    inputs = Inputs(len(sizes))
    counts = SheetCounts(inputs, Gauges(pattern.fabrics, pattern.places), remarks,
                         _given(pattern.places, pattern.garment))
    measures = counts.sheet(words.MEASURES, sizes, _measures(proof), measures=True,
                            fabrics=_garments(proof))
    parts = {key: rows for key, rows in _parts(proof).items() if rows}
    titles = _titles(parts)
    sheets = [counts.sheet(titles[key], sizes, rows, fabrics=_fabrics(proof, key))
              for key, rows in parts.items()]
    lengths = _lengths(proof)
    sheets += [counts.sheet(words.LENGTHS, sizes, lengths, fabrics=_garments(proof))] \
        if lengths else []
    sheets.append(counts.sheet(words.YARN, sizes, _yarn(proof)))
    joins = _joins(proof, counts)
    given = with_remarks(inputs.sheet(sizes), remarks)
    about = _about(words.about(
        pattern.slug, pattern.title, pattern.version, pattern.date, counted=counts.counted,
        live=counts.live, on_bed=counts.on_bed), (given, counts.gauges.sheet))
    return Workbook(
        pattern.slug, pattern.title, pattern.version, pattern.date,
        (about, given,
         with_remarks(counts.gauges.sheet, remarks), measures, *sheets,
         with_remarks(joins, remarks), shaping(proof, remarks),
         with_remarks(_findings(findings), remarks), _one_line(parts, sizes),
         counts.steps.sheet(sizes)),
        counts.counted, counts.live)


def _about(texts: Sequence[str], checked: Iterable[Sheet]) -> Sheet:
    """What the workbook is, with how many rows of the sheets of inputs differ from the source."""
    rows: list[tuple[SheetCell, ...]] = [(SheetCell(text),) for text in texts]
    ranges = []
    for sheet in checked:
        place = [cell.text for cell in sheet.rows[0]].index(words.CHECK) + 1
        end = f"${column(place)}${max(2, len(sheet.rows))}"
        ranges.append(f'COUNTIF({address(sheet.title, 2, place)}:{end},"{words.CHANGED}")')
    at = CHANGES[0] - 1
    rows[at] += (SheetCell("+".join(ranges), Look.COUNTED, computes=True, value=Fraction(0)),)
    return Sheet(words.ABOUT, tuple(rows))


def _given(places: Places, spec: GarmentSpec | None) -> Mapping[str, Place]:
    """Where the source gives counts outright, by their names in the form."""
    names = spec.counts if spec else ()
    return {name: places.of(f"garment.counts.{name}") for name in names}


def one_line(proof: Proof) -> Mapping[str, Mapping[str, str]]:
    """Return every count of all sizes in one line, by its part and its key."""
    return {key: {row.name: _in_a_line(row, len(proof.sizes)) for row in rows}
            for key, rows in _parts(proof).items() if rows}


def line_units(proof: Proof) -> Mapping[str, Mapping[str, str]]:
    """Return the unit of every count in `one_line`, by its part and its key; "" for none."""
    return {key: {row.name: row.unit for row in rows}
            for key, rows in _parts(proof).items() if rows}


def _in_a_line(row: SheetRow, many: int) -> str:
    return words.all_sizes([decimal(row.made[size].value, 2) if size in row.made else "–"
                            for size in range(many)])


def _measures(proof: Proof) -> Rows:
    made: dict[str, SheetRow] = {}
    home = proof.pattern.places.of("garment")
    for at, size in enumerate(proof.sizes):
        for one in size.assembled.measures.values() if size.assembled else ():
            row = made.setdefault(one.name, SheetRow(one.name, "mm" if one.is_length else "", {},
                                                     one.place))
            made[one.name] = SheetRow(row.name, row.unit, {**row.made, at: one.made}, row.place,
                                      HUNDREDTH, home, is_measure=True)
    return list(made.values())


def _lengths(proof: Proof) -> Rows:
    return _rows(proof, lambda size: ((name, "mm", one.made) for name, one in (
        size.assembled.garment.lengths.items() if size.assembled else ())),
        proof.pattern.places.of("garment"), HUNDREDTH)


def _yarn(proof: Proof) -> Rows:
    """The counts of each yarn, at the place of the yarn, and of materials for all that is knitted.
    """
    pattern = proof.pattern
    needed = {size.size: yarn_requirements(pattern, size) for size in proof.sizes}
    keys = dict.fromkeys(one.yarn.key for each in needed.values() for one in each)

    def of(key: str, size: SizeProof) -> Iterator[Named]:
        return yarn_counts([one for one in needed[size.size] if one.yarn.key == key],
                           pattern.bands, size)
    rows = [row for key in keys
            for row in _rows(proof, partial(of, key), pattern.places.of(f"yarns.{key}"))]
    return rows + _rows(proof, lambda size: (
        (name.replace("_", " "), count.unit.value, count.made)
        for name, count in material_counts(pattern.garment, pattern.fabrics, pattern.edges, size)),
        pattern.places.of("garment"))


def _rows(proof: Proof, of: Callable[[SizeProof], Iterable[Named]], home: Place,
          near: Fraction = Fraction(0)) -> Rows:
    """A row for each name of what `of` gives for a size: (name, unit, expression).

    A length is published to a hundredth of a millimetre. `home` is the place of what they are of.
    """
    made: dict[str, tuple[str, dict[int, Expression]]] = {}
    for at, size in enumerate(proof.sizes):
        for name, unit, tree in of(size):
            made.setdefault(name, (unit, {}))[1][at] = tree
    return [SheetRow(name, unit, trees, None, HUNDREDTH if unit == "mm" else near, home)
            for name, (unit, trees) in made.items()]


def _parts(proof: Proof) -> Mapping[str, Rows]:
    """The counts of every piece and band by its key in counts.json."""
    bands = list(dict.fromkeys(plan.band.key for size in proof.sizes for plan in size.plans))
    pieces = list(dict.fromkeys(one.piece.key for size in proof.sizes for one in size.pieces))
    places = proof.pattern.places
    return {**{free_key(key, "piece", bands): _rows(
                   proof, partial(_piece, key), places.of(piece_path(key))) for key in pieces},
            **{key: _rows(proof, partial(_band, proof.pattern.fabrics, key),
                          places.of(f"bands.{key}")) for key in bands}}


def _band(fabrics: Mapping[str, Fabric], key: str, size: SizeProof) -> Iterator[Named]:
    for plan in size.plans:
        if plan.band.key != key:
            continue
        for figure in figures(plan):
            if isinstance(figure.made, tuple):
                for n, tree in enumerate(figure.made, start=1):
                    yield words.count_text(figure.name, n), figure.unit, tree
            else:
                yield figure.name, figure.unit, figure.made
        for one in exact_figures(fabrics, plan):
            yield one.name, one.unit, one.made


def _piece(key: str, size: SizeProof) -> Iterator[Named]:
    assert size.assembled is not None
    for knitted in size.pieces:
        if knitted.piece.key != key:
            continue
        counts = [(name, count) for piece, name, count in size.assembled.garment.counts
                  if piece == key]
        for name, count in counts:
            yield name, count.unit.value, count.made
        if "stitches" not in dict(counts):
            yield "stitches", Unit.STITCHES.value, knitted.piece.stitches.made
        yield from (one for one in derived(size.assembled.garment, knitted)
                    if one[0] not in dict(counts))


def _garments(proof: Proof) -> tuple[str, ...]:
    return proof.pattern.garment.fabrics if proof.pattern.garment else ()


def _fabrics(proof: Proof, key: str) -> tuple[str, ...]:
    """The fabric of a piece or band, and then those of the garment."""
    band, spec = proof.pattern.bands.get(key), proof.pattern.garment
    own = [band.fabric] if band and band.fabric else []
    if band is None and spec:
        own = [spec.fabric_of(key)]
    return tuple(dict.fromkeys((*own, *_garments(proof))))


def _titles(parts: Iterable[str]) -> Mapping[str, str]:
    """The title of each part's sheet: at most 31 characters, and no two alike in small letters."""
    taken = {sheet.lower() for sheet in words.SHEETS}
    made: dict[str, str] = {}
    for key in parts:
        sheet, number = _plain(key), 2
        while sheet.lower() in taken:
            sheet, number = f"{_plain(key)[:27]} {number}", number + 1
        taken.add(sheet.lower())
        made[key] = sheet
    return made


def _plain(key: str) -> str:
    return "".join("_" if sign in "[]:*?/\\'" else sign for sign in key)[:31] or "_"


def _joins(proof: Proof, counts: SheetCounts) -> Sheet:
    """Both sides of every join by their formulas, and whether they meet."""
    rows = [tuple(SheetCell(text, Look.HEAD) for text in words.JOIN_COLUMNS)]
    home = proof.pattern.places.of("garment")
    for n, size in enumerate(proof.sizes):
        for join in size.assembled.garment.joins if size.assembled else ():
            at = len(rows) + 1
            sides = [counts.cell(each, Used(words.JOINS, "", home), n, _garments(proof))
                     for each in join.sewn]
            one, other = join.sewn
            off = other.value - one.value - join.ease
            check = f'IF(ABS(G{at})<=H{at}+1E-9,"{words.GOOD}","{words.OTHER}")'
            if not all(follows for _, follows in sides):
                check = when(check, f'"{words.STALE}"')
            rows.append((
                SheetCell(size.size), SheetCell(join.title), SheetCell(join.unit),
                *(cell for cell, _ in sides), figure_cell(join.ease, Look.PUBLISHED),
                SheetCell(f"E{at}-D{at}-F{at}", Look.COUNTED, computes=True, value=off),
                figure_cell(join.tolerance, Look.PUBLISHED),
                SheetCell(check, Look.CHECK, computes=True,
                          value=words.GOOD if abs(off) <= join.tolerance else words.OTHER),
                SheetCell(str(home))))
    return Sheet(words.JOINS, tuple(rows), 2)


def _findings(findings: Sequence[Problem]) -> Sheet:
    rows = [tuple(SheetCell(text, Look.HEAD) for text in words.FINDING_COLUMNS)]
    rows += [tuple(map(SheetCell, (one.severity.value, one.code, str(one.place), one.found,
                                   one.expected, one.remedy,
                                   ", ".join(filter(None, (one.size, *one.more_sizes))))))
             for one in findings]
    return Sheet(words.FINDINGS, tuple(rows))


def _one_line(parts: Mapping[str, Rows], sizes: Sequence[str]) -> Sheet:
    """Every count in one line, headed by the sizes in their order."""
    head = (*words.LINE_COLUMNS, words.all_sizes(sizes))
    rows = [tuple(SheetCell(text, Look.HEAD) for text in head)]
    rows += [(SheetCell(key), SheetCell(words.count_text(row.name)), SheetCell(row.unit),
              SheetCell(_in_a_line(row, len(sizes))))
             for key, of in parts.items() for row in of]
    return Sheet(words.ONE_LINE, tuple(rows), 2)
