"""The first page of a pattern: what it is, all sizes side by side, and the way to each size."""

from __future__ import annotations

from collections.abc import Iterable

from ..catalogue.bands import KINDS
from ..core.problems import Problem
from ..drawings.band import band_drawing
from ..drawings.schematic import Outlines, graded_schematic
from ..machine.steps import Side
from ..markup.html import anchor, block, esc, facts, front_matter, heading, items, link, table
from ..markup.notes import notes_html, pictures_html
from ..pattern.model import Pattern
from ..plan.band import BandPlan
from ..proof.advice import GarmentAdvice
from ..proof.proof import Proof, SizeProof
from ..source.materials import size_slug
from ..words import overview_page as words
from ..words import page_headings as headings
from ..words.band_ends import band_ends
from ..words.figures import SPACING
from .band_lengths import finished, hole_spacing
from .cautions import cautions
from .chart_section import chart_drawings
from .fabric_section import fabric_patches
from .figures import AROUND_HOLES, divides
from .garment_facts import yarn_needs
from .garment_tables import choosing, garment_tables, yarn_rows
from .hung_on import pieces_first
from .materials import holds, machine, materials, needles_wanted, slips
from .page_facts import pattern_facts
from .shared import Shared


def overview_page(proof: Proof, common: Shared, advice: GarmentAdvice | None = None) -> str:
    """Return the whole page as Markdown."""
    pattern = proof.pattern
    sample = proof.sizes[len(proof.sizes) // 2]
    widest = max(map(needles_wanted, proof.sizes))
    parts = [
        front_matter(pattern.title, pattern.summary, searchable=True),
        heading(1, pattern.title, "pattern"), block(_top(pattern)),
        heading(2, headings.CHOOSE, "sizes"),
        block(_sizes(proof) + (choosing(advice) if advice else "")),
        pieces_first(pattern, sample),
        heading(2, headings.ALL_SIZES, "all-sizes"),
        *map(block, garment_tables(proof, common, advice) if advice else ()),
        *map(block, _tables(proof, common)),
        heading(2, headings.DRAWING, "drawing"), block(_drawings(proof, sample, common.outlines)),
        *_charts(sample),
        heading(2, headings.TOOLS, "materials"),
        block(machine(pattern, widest, holds=holds(sample), slips=slips(sample))
              + words.amounts_for(sample.size)
              + materials(pattern, sample)
              + yarn_needs(sample, common.needs[sample.size])),
        heading(2, headings.GAUGE_AND_SWATCH, "gauge"),
        block(common.gauge), block(fabric_patches(pattern)),
        heading(2, headings.SKILLS, "skills"), block(_skills(pattern)),
        heading(2, headings.CAUTIONS, "cautions"), block(cautions(pattern, sample)),
    ]
    if remarks := _remarks(pattern, proof.findings):
        parts += [heading(2, headings.REMARKS, "remarks"),
                  block(items(remarks, "wb-list"))]
    if pattern.notes.strip():
        parts += [heading(2, headings.NOTES, "notes"),
                  block(f'<div class="wb-notes">{notes_html(pattern.notes, pattern.pictures)}'
                        "</div>")]
    parts += [heading(2, headings.CORRECTIONS, "corrections"), block(_corrections(pattern))]
    return "".join(parts)


def _top(pattern: Pattern) -> str:
    return (f'<p class="wb-summary">{esc(pattern.summary)}</p>\n'
            f"{pattern_facts(pattern).in_page()}\n{pictures_html(pattern.pictures)}\n"
            f"{facts(words.about(pattern))}")


def _sizes(proof: Proof) -> str:
    return (words.sizes_lead(knits_pieces=proof.pattern.garment is not None)
            + items((link(f"{size_slug(size.size)}.html", words.size_link(size.size))
                     for size in proof.sizes), "wb-sizes"))


def _tables(proof: Proof, common: Shared) -> Iterable[str]:
    """A graded table a band: rows are counts, columns are sizes."""
    head = (words.COUNT, *(esc(size) for size in proof.pattern.sizes))
    for place, band in enumerate(proof.pattern.bands.values()):
        plans = [plan for size in proof.sizes for plan in size.plans if plan.band.key == band.key]
        columns = [common.figures[plan.size, plan.band.key] for plan in plans]
        shown = [(n, f) for n, f in enumerate(columns[0])
                 if (any(column[n].value for column in columns) or f.name == "fold_rows")
                 and (f.name not in AROUND_HOLES or any(map(divides, plans)))]
        rows = [(esc(f.label), *(esc(column[n].said) for column in columns)) for n, f in shown]
        if any(map(hole_spacing, plans)):
            at = [f.name for _, f in shown].index("gaps") + 1
            rows.insert(at, (SPACING, *map(_spacing, plans)))
        done = [finished(plan) for plan in plans]
        rows.insert(2, (words.LENGTH_CM, *(d.length.length.cm_figure() for d in done)))
        rows.insert(3, (words.LENGTH_IN, *(d.length.length.inch_figure() for d in done)))
        rows.insert(4, (words.DEPTH_CM, *(d.depth.length.cm_figure() for d in done)))
        rows.insert(5, (words.DEPTH_IN, *(d.depth.length.inch_figure() for d in done)))
        if place == 0 and proof.pattern.garment is None:
            rows += yarn_rows(proof, common)
        yield (f"<p><strong>{esc(band.title)}</strong></p>\n"
               + table(esc(words.in_all_sizes(band.title)), head, rows))
    yield words.COUNTED_ELSEWHERE


def _spacing(plan: BandPlan) -> str:
    """The distances from hole to hole, the least and the most where they are not one."""
    apart = [length.cm_figure() for length in hole_spacing(plan)]
    return words.least_to_most(apart[0], apart[-1]) if apart else "–"


def _drawings(proof: Proof, sample: SizeProof, drawn: Outlines) -> str:
    out = [graded_schematic(proof, drawn)] if sample.assembled else []
    fronts = [plan for plan in sample.plans if KINDS[plan.band.kind].doubled
              and (sample.assembled is None or plan.placing)]
    if fronts:
        out.append(words.drawn_in(sample.size))
    for plan in fronts:
        ends = band_ends(plan, Side.RIGHT)
        out.append(band_drawing(plan, hem=Side.LEFT, with_holes=True, start=ends.first,
                                ends=(ends.first, ends.last),
                                prefix=f"drawing-{anchor(plan.band.key)}"))
    return "\n".join(out)


def _charts(sample: SizeProof) -> Iterable[str]:
    """The stitch patterns on the needles of one size."""
    if drawn := chart_drawings(sample.pieces, sample.size):
        yield heading(2, headings.STITCH_PATTERN, "stitch-pattern") + block(drawn)


def _skills(pattern: Pattern) -> str:
    told = items((esc(skill[:1].upper() + skill[1:]) for skill in pattern.skills), "wb-list")
    return (told or words.NO_SKILLS) + words.ALL_TECHNIQUES


def _corrections(pattern: Pattern) -> str:
    made = items((words.corrected(date, text) for date, text in pattern.corrections), "wb-list")
    return words.this_version(pattern) + (made or words.NO_CORRECTIONS)


def _remarks(pattern: Pattern, findings: Iterable[Problem]) -> list[str]:
    """The findings that a knitter should know, in a knitter's words."""
    unswatched = [words.not_swatched(band) for band in pattern.bands.values()
                  if band.fabric is None]
    return unswatched + [text for text in dict.fromkeys(map(words.to_know, findings)) if text]
