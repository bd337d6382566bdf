"""All sizes of a pattern side by side: one table of measures, and the counts, which are folded."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from ..core.counted import Count
from ..core.units import Length
from ..drawings.schematic import Graded
from ..markup.html import TableRow, esc, groups_table, table
from ..proof.advice import GarmentAdvice, SizeAdvice
from ..proof.proof import Proof
from ..shape.garment import Garment
from ..shape.ribs import Rib
from ..sizing.charts import SizeCell
from ..words import garment_text
from ..words import overview_page_text as words
from ..words.figure_text import SPACING
from .band_lengths import finished, hole_spacing
from .choosing import inches_of
from .figures import AROUND_HOLES, divides
from .garment_facts import measured
from .materials import needles_wanted
from .shared_by_pages import Shared

NONE = "–"
TableGroups = Iterator[tuple[str, list[TableRow]]]


def measures_table(proof: Proof, graded: Graded | None, advice: GarmentAdvice | None) -> str:
    """Return the measures in the unit that is chosen above them: of the garment and of the bodies
    it is for in one table, of its pieces and bands in another, shut until it is opened."""
    head = (words.MEASURE, *map(esc, proof.pattern.sizes))
    garment, pieces = list(_garment(proof, advice)), list(_pieces(proof, graded))
    if not (advice and pieces):
        garment, pieces = [*garment, *pieces], []
    measures = words.in_all_sizes(words.MEASURES)
    folded = _folded(words.OF_PIECES, groups_table(
        esc(words.in_all_sizes(words.OF_PIECES)), head, pieces)) if pieces else ""
    return (f"{_units()}{words.moves_sideways()}"
            + groups_table(esc(measures), head, garment) + folded)


def _units() -> str:
    """The choice of a unit: it is the browser's own, and needs no script."""
    choices = "".join(
        f'<label><input type="radio" name="wb-unit" id="wb-unit-{key}"{chosen}> {label}</label>'
        for key, label, chosen in (("cm", words.CENTIMETRES, " checked"),
                                   ("in", words.INCHES, "")))
    return (f'<fieldset class="wb-unit-choice"><legend>{words.MEASURES_IN}</legend>{choices}'
            "</fieldset>\n")


def _garment(proof: Proof, advice: GarmentAdvice | None) -> TableGroups:
    if advice:
        yield words.FINISHED, [*_finished(proof, advice), _needles(proof)]
        yield words.BODIES, list(_fits(proof, advice))
    else:
        yield "", [_needles(proof)]


def _pieces(proof: Proof, graded: Graded | None) -> TableGroups:
    for title, measures in (graded.measures.items() if graded else ()):
        yield title, [row for (letter, name), lengths in measures.items()
                      for row in _lengths(f"<b>{letter}</b> {esc(name)}", lengths)]
    for band in proof.pattern.bands.values():
        done = [finished(plan) for size in proof.sizes for plan in size.plans
                if plan.band.key == band.key]
        yield esc(band.title), [*_lengths(words.LENGTH, [d.length.length for d in done]),
                                *_lengths(words.DEPTH, [d.depth.length for d in done])]


def _lengths(label: str, lengths: Sequence[Length | None]) -> list[TableRow]:
    """A measure in centimetres and in inches; the label is HTML."""
    return [TableRow(label, [x.cm_figure() if x else NONE for x in lengths], "cm"),
            TableRow(label, [x.inch_figure() if x else NONE for x in lengths], "in")]


def _needles(proof: Proof) -> TableRow:
    return TableRow(words.NEEDLES, [str(needles_wanted(size)) for size in proof.sizes])


def _finished(proof: Proof, advice: GarmentAdvice) -> Iterator[TableRow]:
    spec, fabrics, bands = proof.pattern.garment, proof.pattern.fabrics, proof.pattern.bands
    for name in dict.fromkeys(name for size in advice.sizes for name, _ in size.finished):
        text = "".join(_first_text(proof, advice, name))
        yield from _lengths(text[:1].upper() + text[1:], [
            measured(spec, fabrics, bands, size, name)[2].length
            if name in dict(one.finished) else None
            for size, one in zip(proof.sizes, advice.sizes, strict=True)])


def _first_text(proof: Proof, advice: GarmentAdvice, name: str) -> tuple[str, str]:
    """A finished measure and the band it ends at, as the first size that has it says them."""
    spec, fabrics, bands = proof.pattern.garment, proof.pattern.fabrics, proof.pattern.bands
    return next(measured(spec, fabrics, bands, size, name)[:2]
                for size, one in zip(proof.sizes, advice.sizes, strict=True)
                if name in dict(one.finished))


def _fits(proof: Proof, advice: GarmentAdvice) -> Iterator[TableRow]:
    """The bodies that the sizes are for, and the ease on them."""
    worn = [dict([*size.body, *((fit.label, fit.body) for fit in size.fits)])
            for size in advice.sizes]
    for label in dict.fromkeys(label for bodies in worn for label in bodies):
        cells = [bodies.get(label) for bodies in worn]
        text = garment_text.body_of(label)
        yield TableRow(text, [_span(cell) if cell else NONE for cell in cells], "cm")
        yield TableRow(text, [_ends(inches_of(cell)) if cell else NONE for cell in cells], "in")
    for name in dict.fromkeys(fit.name for size in advice.sizes for fit in size.fits):
        text = garment_text.ease_in(_first_text(proof, advice, name)[0])
        for place, unit in enumerate(("cm", "in")):
            yield TableRow(text, [_ease(size, name, place) for size in advice.sizes], unit)


def _span(cell: SizeCell) -> str:
    return _ends(cell.figures)


def _ends(figures: Iterable[str]) -> str:
    """A range on two lines, so that a column is as wide as a figure; one figure by itself."""
    return " <br>to ".join(dict.fromkeys(figures))


def _ease(size: SizeAdvice, name: str, place: int) -> str:
    fit = next((fit for fit in size.fits if fit.name == name), None)
    if fit is None:
        return NONE
    return _ends(fit.ease_each[place])


def counts_folded(proof: Proof, common: Shared, advice: GarmentAdvice | None) -> Iterable[str]:
    """Return the counts of pieces, of each band and of the yarn, each shut until it is opened."""
    sizes = tuple(map(esc, proof.pattern.sizes))
    if advice:
        yield _folded(garment_text.COUNTS, table(
            words.in_all_sizes(garment_text.COUNTS), (words.COUNT, *sizes), _counts(proof)))
    for band in proof.pattern.bands.values():
        title = words.counts_of(band)
        yield _folded(title, table(esc(words.in_all_sizes(title)), (words.COUNT, *sizes),
                                   _band_rows(proof, common, band.key)))
    yield _folded(garment_text.YARN, table(
        words.in_all_sizes(garment_text.YARN), (garment_text.YARN, *sizes),
        _yarn_rows(proof, common)))


def _folded(title: str, body: str) -> str:
    return f"<details><summary>{esc(title)}</summary>{body}</details>"


def _counts(proof: Proof) -> Iterator[tuple[str, ...]]:
    """Every count of every piece; a size that does not have it shows a dash."""
    garments = [size.assembled.garment for size in proof.sizes if size.assembled]
    by_size = [piece_counts(garment) for garment in garments]
    at_corners = garment_text.corner_counts(
        corner for garment in garments for corner in garment.own_corners)
    titles = {p.key: p.title for garment in garments for p in garment.pieces}
    ribbed = {p.key for garment in garments for p in garment.pieces if isinstance(p.hem, Rib)}
    for key, name in dict.fromkeys(at for counts in by_size for at in counts):
        found = (counts.get((key, name)) for counts in by_size)
        text = at_corners.get(name) or garment_text.count_text(name, ribbed=key in ribbed)
        yield (esc(f"{titles.get(key, key)}: {text}"),
               *(str(count.value) if count else NONE for count in found))


def piece_counts(garment: Garment) -> dict[tuple[str, str], Count]:
    """The counts of a garment by piece and name."""
    return {(key, name): count for key, name, count in garment.counts}


def _band_rows(proof: Proof, common: Shared, key: str) -> list[tuple[str, ...]]:
    """The counts of a band; those that no size has are left out."""
    plans = [plan for size in proof.sizes for plan in size.plans if plan.band.key == key]
    columns = [{f.name: f for f in common.figures[plan.size, plan.band.key]} for plan in plans]
    longest = max(columns, key=len)
    shown = [f for f in longest.values()
             if (any(column[f.name].value for column in columns if f.name in column)
                 or f.name == "fold_rows")
             and (f.name not in AROUND_HOLES or any(map(divides, plans)))]
    rows = [(esc(f.label), *(esc(column[f.name].shown) if f.name in column else NONE
                             for column in columns)) for f in shown]
    if any(map(hole_spacing, plans)):
        at = [f.name for f in shown].index("gaps") + 1
        apart = [[length.cm_figure() for length in hole_spacing(plan)] for plan in plans]
        rows.insert(at, (SPACING, *(words.least_to_most(each[0], each[-1]) if each else NONE
                                    for each in apart)))
    return rows


def _yarn_rows(proof: Proof, common: Shared) -> Iterator[tuple[str, ...]]:
    """Every yarn with what each size needs of it."""
    by_size = [{one.yarn.key: one for one in common.yarn_requirements[size.size]}
               for size in proof.sizes]
    for key in dict.fromkeys(key for size in by_size for key in size):
        found = (size.get(key) for size in by_size)
        yield (esc(proof.pattern.yarns[key].called),
               *(esc(garment_text.amount_text(one)) if one else NONE for one in found))
