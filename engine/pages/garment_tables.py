"""A garment's sizes side by side: finished measures, bodies, ease, counts of the pieces, yarn."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from ..core.counted import Count
from ..markup.html import esc, items, table
from ..proof.advice import GarmentAdvice, SizeAdvice
from ..proof.proof import Proof
from ..shape.garment import Garment
from .garment_facts import amount_said, cell_said, measure_said, to_band
from .shared import Shared

Row = tuple[str, ...]


def garment_tables(proof: Proof, common: Shared, advice: GarmentAdvice) -> Iterable[str]:
    """Return the tables of a garment in all sizes, HTML blocks."""
    head = ("Measure", *map(esc, proof.pattern.sizes))
    yield ("<p><strong>Finished measures</strong></p>\n"
           + table("Finished measures in all sizes", head, _finished(proof, advice)))
    yield ("<p><strong>Bodies and ease</strong></p>\n"
           + table("Bodies and ease in all sizes", head, _bodies(advice)))
    yield ("<p><strong>Counts of the pieces</strong></p>\n"
           + table("Counts of the pieces in all sizes", ("Count", *head[1:]), _counts(proof)))
    yield ("<p><strong>Yarn</strong></p>\n"
           + table("Yarn in all sizes", ("Yarn", *head[1:]), yarn_rows(proof, common)))


def _finished(proof: Proof, advice: GarmentAdvice) -> Iterable[Row]:
    names = dict.fromkeys(name for size in advice.sizes for name, _ in size.finished)
    for name in names:
        made = [(size, dict(one.finished).get(name))
                for size, one in zip(proof.sizes, advice.sizes, strict=True)]
        told = [to_band(proof.pattern, size, name, x) if x else ("", None) for size, x in made]
        lengths = [length for _, length in told]
        said = esc(measure_said(name)) + next((band for band, length in told if length), "")
        label = said[:1].upper() + said[1:]
        yield (f"{label} [cm]", *(x.cm_figure() if x else "–" for x in lengths))
        yield (f"{label} [in]", *(x.inch_figure() if x else "–" for x in lengths))


def _bodies(advice: GarmentAdvice) -> Iterable[Row]:
    labels = dict.fromkeys(label for size in advice.sizes for label, _ in size.body)
    for label in labels:
        cells = [dict(size.body).get(label) for size in advice.sizes]
        yield (f"Body: {esc(label)}", *(esc(cell_said(c)) if c else "–" for c in cells))
    fits = dict.fromkeys(fit.name for size in advice.sizes for fit in size.fits)
    for name in fits:
        yield (f"Ease: {esc(measure_said(name))}",
               *(esc(_ease(size, name)) for size in advice.sizes))


def _ease(size: SizeAdvice, name: str) -> str:
    return next((fit.ease_said for fit in size.fits if fit.name == name), "–")


def _counts(proof: Proof) -> Iterable[Row]:
    """Every count of every piece; a size that does not have it shows a dash."""
    garments = [size.dressed.garment for size in proof.sizes if size.dressed]
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
               *(esc(amount_said(need)) if need else "–" for need in found))


def choosing(advice: GarmentAdvice) -> str:
    """Return how to choose a size, and what the chart has to say of its own figures."""
    said = items(map(esc, advice.choosing), "wb-list")
    remarks = items((f"{esc(remark.text)} ({_whose(advice, sizes)}; {esc(remark.source)})"
                     for remark, sizes in advice.remarks), "wb-list")
    chart = f"<p>Body measurements: {esc(advice.chart.title)}, {esc(advice.chart.publisher)}.</p>" \
        if advice.chart.key else ""
    more = (f'<details class="wb-working"><summary>What is known of this size chart</summary>'
            f"{remarks}</details>" if remarks else "")
    return f"{said}{chart}{more}"


def _whose(advice: GarmentAdvice, sizes: Sequence[str]) -> str:
    if len(sizes) == len(advice.sizes):
        return "all sizes"
    return f"size{'s' if len(sizes) > 1 else ''} {', '.join(sizes)}"
