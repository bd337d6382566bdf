"""A garment's sizes side by side: finished measures, bodies, ease, counts of the pieces, yarn."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from ..core.counted import Count
from ..markup.html import esc, items, table
from ..proof.advice import GarmentAdvice, SizeAdvice
from ..proof.proof import Proof
from ..shape.garment import Garment
from ..words import garment as words
from ..words.choosing import choosing as how_to_choose
from ..words.overview_page import in_all_sizes
from .garment_facts import cell_said, to_band
from .shared import Shared

Row = tuple[str, ...]


def garment_tables(proof: Proof, common: Shared, advice: GarmentAdvice) -> Iterable[str]:
    """Return the tables of a garment in all sizes, HTML blocks."""
    sizes = tuple(map(esc, proof.pattern.sizes))
    for title, first, rows in (
            (words.FINISHED, words.MEASURE, _finished(proof, advice)),
            (words.BODIES, words.MEASURE, _bodies(advice)),
            (words.COUNTS, words.COUNT, _counts(proof)),
            (words.YARN, words.YARN, yarn_rows(proof, common))):
        yield (f"<p><strong>{title}</strong></p>\n"
               + table(in_all_sizes(title), (first, *sizes), rows))


def _finished(proof: Proof, advice: GarmentAdvice) -> Iterable[Row]:
    names = dict.fromkeys(name for size in advice.sizes for name, _ in size.finished)
    for name in names:
        made = [(size, dict(one.finished).get(name))
                for size, one in zip(proof.sizes, advice.sizes, strict=True)]
        told = [to_band(proof.pattern, size, name, x) if x else ("", None) for size, x in made]
        lengths = [length for _, length in told]
        said = esc(words.measure_said(name)) + next((band for band, length in told if length), "")
        label = said[:1].upper() + said[1:]
        yield (f"{label} [cm]", *(x.cm_figure() if x else "–" for x in lengths))
        yield (f"{label} [in]", *(x.inch_figure() if x else "–" for x in lengths))


def _bodies(advice: GarmentAdvice) -> Iterable[Row]:
    labels = dict.fromkeys(label for size in advice.sizes for label, _ in size.body)
    for label in labels:
        cells = [dict(size.body).get(label) for size in advice.sizes]
        yield (words.body_of(label), *(esc(cell_said(c)) if c else "–" for c in cells))
    fits = dict.fromkeys(fit.name for size in advice.sizes for fit in size.fits)
    for name in fits:
        yield (words.ease_in(name),
               *(esc(_ease(size, name)) for size in advice.sizes))


def _ease(size: SizeAdvice, name: str) -> str:
    return next((fit.ease_said for fit in size.fits if fit.name == name), "–")


def _counts(proof: Proof) -> Iterable[Row]:
    """Every count of every piece; a size that does not have it shows a dash."""
    garments = [size.assembled.garment for size in proof.sizes if size.assembled]
    by_size = [piece_counts(garment) for garment in garments]
    titles = {p.key: p.title for garment in garments for p in garment.pieces}
    for key, name in dict.fromkeys(at for counts in by_size for at in counts):
        found = (counts.get((key, name)) for counts in by_size)
        yield (esc(f"{titles.get(key, key)}: {name.replace('_', ' ')}"),
               *(str(count.value) if count else "–" for count in found))


def piece_counts(garment: Garment) -> dict[tuple[str, str], Count]:
    """The counts of a garment by piece and name."""
    return {(key, name): count for key, name, count in garment.counts}


def yarn_rows(proof: Proof, common: Shared) -> Iterable[Row]:
    """Every yarn with what each size needs of it."""
    by_size = [{need.yarn.key: need for need in common.needs[size.size]} for size in proof.sizes]
    for key in dict.fromkeys(key for size in by_size for key in size):
        found = (size.get(key) for size in by_size)
        yield (esc(proof.pattern.yarns[key].name),
               *(esc(words.amount_said(need)) if need else "–" for need in found))


def choosing(advice: GarmentAdvice) -> str:
    """Return how to choose a size, and what the chart says of its figures."""
    said = items(map(esc, how_to_choose(advice.sizes)), "wb-list")
    remarks = items((words.chart_remark(remark, _sizes(advice, sizes))
                     for remark, sizes in advice.remarks), "wb-list")
    chart = words.chart_named(advice.chart) if advice.chart.key else ""
    more = (f'<details class="wb-working"><summary>{words.ABOUT_CHART}</summary>'
            f"{remarks}</details>" if remarks else "")
    return f"{said}{chart}{more}"


def _sizes(advice: GarmentAdvice, sizes: Sequence[str]) -> Sequence[str]:
    """The sizes that a remark is of; none where it is of all."""
    return () if len(sizes) == len(advice.sizes) else sizes
