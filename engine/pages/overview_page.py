"""The first page of a pattern: what it is, all sizes side by side, and the way to each size."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from ..catalogue.bands import KINDS
from ..core.problems import Problem
from ..drawings.band_drawing import band_drawing
from ..drawings.garment_sketch import View
from ..drawings.schematic import Graded, graded_schematic
from ..machine.steps import Side
from ..markup.html import anchor, block, esc, facts, front_matter, heading, items
from ..markup.notes import notes_html
from ..pattern.model import Pattern
from ..pattern.stitch_chart import StitchChart
from ..proof.advice import GarmentAdvice
from ..proof.parts_of_fabrics import parts_of_fabrics
from ..proof.proof import Proof, SizeProof
from ..words import correction_text
from ..words import overview_page_text as words
from ..words import page_headings as headings
from ..words.band_ends import band_ends
from ..words.former_text import size_withdrawn
from ..words.pieces_first import HEADING as PIECES_FIRST
from ..words.rolling import lower_edges_roll
from .cautions import cautions
from .chart_files import chart_links
from .chart_section import chart_drawings
from .choosing import sizes_to_choose
from .fabric_section import fabric_patches
from .garment_facts import required_yarns
from .hung_on import ANCHOR, pieces_first
from .materials import holds, machine, materials, needles_wanted, slips
from .overview_tables import counts_folded, measures_table
from .overview_top import overview_top, sketch
from .shared_by_pages import Shared


def overview_page(proof: Proof, common: Shared, advice: GarmentAdvice | None = None) -> str:
    """Return the whole page as Markdown."""
    pattern = proof.pattern
    sample = proof.sizes[len(proof.sizes) // 2]
    graded = graded_schematic(proof, common.outlines)
    parts = [
        front_matter(pattern.title, pattern.summary, searchable=True),
        heading(1, pattern.title, "pattern"), block(overview_top(proof, common, advice)),
        heading(2, headings.CHOOSE, "sizes"), block(sizes_to_choose(proof, advice)),
        block('<div class="wb-keep-place"></div>'),
        *_pieces_first(pattern, sample),
        heading(2, headings.MEASURES_OF_ALL, "drawing"),
        block(_drawings(proof, sample, graded)
              + sketch(proof, common, View.BACK) + measures_table(proof, graded, advice)),
        *_instructed(proof, common, advice),
        heading(2, headings.TOOLS, "materials"), block(_materials(proof, sample, common)),
        heading(2, headings.CAUTIONS, "cautions"),
        block(cautions(pattern.garment, pattern.bands, pattern.wearer, sample)),
    ]
    if remarks := [*lower_edges_roll(pattern.bands, sample), *_remarks(proof.findings)]:
        parts += [heading(2, headings.REMARKS, "remarks"),
                  block(items(remarks, "wb-list"))]
    if pattern.notes.strip():
        parts += [heading(2, headings.NOTES, "notes"),
                  block(f'<div class="wb-notes">{notes_html(pattern.notes, pattern.pictures)}'
                        "</div>")]
    parts += [heading(2, headings.CORRECTIONS, "corrections"), block(_corrections(pattern))]
    return "".join(parts)


def _pieces_first(pattern: Pattern, sample: SizeProof) -> Iterable[str]:
    """The pieces that the bands of one size are hung on; none where their steps are handed over."""
    if not pattern.files_only and (pieces := pieces_first(pattern.garment, pattern.materials,
                                                          pattern.edges, sample)):
        yield heading(2, PIECES_FIRST, ANCHOR) + block(pieces)


def _instructed(proof: Proof, common: Shared, advice: GarmentAdvice | None) -> Iterable[str]:
    """The stitch patterns of one size and the counts of all; none where they are handed over."""
    if not proof.pattern.files_only:
        yield from _charts(proof.pattern.stitch_charts, proof.sizes[len(proof.sizes) // 2])
        yield heading(2, headings.ALL_COUNTS, "all-sizes")
        yield block(words.COUNTS_LEAD + "".join(counts_folded(proof, common, advice)))


def _materials(proof: Proof, sample: SizeProof, common: Shared) -> str:
    """The gauge, which every reader needs, and the materials of one size, which fold."""
    pattern = proof.pattern
    tools = (machine(pattern.garment, pattern.bed, needles_wanted(sample), holds=holds(sample),
                     slips=slips(sample))
             + words.amounts_for(sample.size, files_only=pattern.files_only)
             + materials(pattern, sample, common.yarn_requirements[sample.size],
                         pieces=not pattern.files_only)
             + required_yarns(sample, common.yarn_requirements[sample.size]))
    patches = fabric_patches(pattern.materials, parts_of_fabrics(pattern))
    return (f'<h3 id="gauge">{headings.GAUGE_AND_SWATCH}</h3>\n{common.gauge}\n'
            f"{patches}\n<details><summary>{esc(words.tools_of(sample.size))}</summary>{tools}</details>\n"
            f'<p id="skills">{words.ALL_TECHNIQUES}</p>')


def _drawings(proof: Proof, sample: SizeProof, graded: Graded | None) -> str:
    out = [graded.figures] if graded else []
    fronts = [plan for plan in sample.plans if KINDS[plan.band.kind].doubled
              and (sample.assembled is None or plan.placing) and not proof.pattern.files_only]
    if fronts:
        out.append(words.drawn_in(sample.size))
    for plan in fronts:
        ends = band_ends(plan, Side.RIGHT)
        out.append(band_drawing(plan, hem=Side.LEFT, with_holes=True, start=ends.first,
                                ends=(ends.first, ends.last),
                                prefix=f"drawing-{anchor(plan.band.key)}"))
    return "\n".join(out)


def _charts(charts: Mapping[str, StitchChart], sample: SizeProof) -> Iterable[str]:
    """The stitch patterns on the needles of one size."""
    if drawn := chart_drawings(sample.pieces, sample.size):
        yield heading(2, headings.STITCH_PATTERN, "stitch-pattern")
        yield block(drawn + chart_links(charts))


def _corrections(pattern: Pattern) -> str:
    gone = (esc(size_withdrawn(one)) for one in pattern.withdrawn_sizes)
    made = items([*gone, *map(correction_text.corrected, pattern.corrections)], "wb-list")
    return facts(words.credits_of(pattern)) + (made or correction_text.NONE)


def _remarks(findings: Iterable[Problem]) -> list[str]:
    """The findings that a knitter should know, in a knitter's words; what was not swatched stands
    under the gauge."""
    return [text for text in dict.fromkeys(map(words.to_know, findings)) if text]
