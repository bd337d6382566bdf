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
from ..pattern.model import Band, Pattern, Wearer
from ..plan.band import BandPlan
from ..proof.advice import GarmentAdvice
from ..proof.proof import Proof, SizeProof
from ..source.materials import size_slug
from ..words.band_ends import band_ends
from .band_lengths import finished, hole_spacing
from .cautions import cautions
from .chart_section import chart_drawings
from .figures import AROUND_HOLES, divides, figures
from .garment_facts import yarn_needs
from .garment_tables import choosing, garment_tables, yarn_rows
from .hung_on import pieces_first
from .materials import holds, machine, materials, needles_wanted, slips
from .page_facts import pattern_facts
from .shared import Shared

_WEARERS = {Wearer.WOMEN: "women", Wearer.MEN: "men", Wearer.CHILDREN: "children",
            Wearer.BABIES: "babies", Wearer.ANYONE: "anyone"}


def overview_page(proof: Proof, common: Shared, advice: GarmentAdvice | None = None) -> str:
    """Return the whole page as Markdown."""
    pattern = proof.pattern
    sample = proof.sizes[len(proof.sizes) // 2]
    widest = max(map(needles_wanted, proof.sizes))
    parts = [
        front_matter(pattern.title, pattern.summary, searchable=True),
        heading(1, pattern.title, "pattern"), block(_top(pattern)),
        heading(2, "Choose your size", "sizes"),
        block(_sizes(proof) + (choosing(advice) if advice else "")),
        pieces_first(pattern, sample),
        heading(2, "All sizes", "all-sizes"),
        *map(block, garment_tables(proof, common, advice) if advice else ()),
        *map(block, _tables(proof, common)),
        heading(2, "The drawing", "drawing"), block(_drawings(proof, sample, common.outlines)),
        *_charts(sample),
        heading(2, "Tools and materials", "materials"),
        block(machine(pattern, widest, holds=holds(sample), slips=slips(sample))
              + f"<p>Amounts for size {esc(sample.size)}; each size's page has its own.</p>"
              + materials(pattern, sample)
              + yarn_needs(sample, common.needs[sample.size])),
        heading(2, "Gauge and swatch", "gauge"),
        block(common.gauge),
        heading(2, "Skills", "skills"), block(_skills(pattern)),
        heading(2, "Cautions", "cautions"), block(cautions(pattern, sample)),
    ]
    if remarks := _remarks(pattern, proof.findings):
        parts += [heading(2, "What to know before you knit", "remarks"),
                  block(items(remarks, "wb-list"))]
    if pattern.notes.strip():
        parts += [heading(2, "Designer's notes", "notes"),
                  block(f'<div class="wb-notes">{notes_html(pattern.notes, pattern.pictures)}'
                        "</div>")]
    parts += [heading(2, "Version and corrections", "corrections"), block(_corrections(pattern))]
    return "".join(parts)


def _top(pattern: Pattern) -> str:
    about = (("Designer", esc(pattern.designer)), ("For", _WEARERS[pattern.wearer]),
             ("Version", f"{esc(pattern.version)}, {esc(pattern.date)}"),
             ("Licence", esc(pattern.licence)))
    return (f'<p class="wb-summary">{esc(pattern.summary)}</p>\n'
            f"{pattern_facts(pattern).in_page()}\n{pictures_html(pattern.pictures)}\n"
            f"{facts(about)}")


def _sizes(proof: Proof) -> str:
    begins = "hanging an edge" if proof.pattern.garment is None else "casting on"
    return (f"<p>Each page holds one size only, from {begins} to the last stitch.</p>\n"
            + items((link(f"{size_slug(size.size)}.html", f"Size {esc(size.size)}")
                     for size in proof.sizes), "wb-sizes"))


def _tables(proof: Proof, common: Shared) -> Iterable[str]:
    """A graded table a band: rows are counts, columns are sizes."""
    head = ("Count", *(esc(size) for size in proof.pattern.sizes))
    for place, band in enumerate(proof.pattern.bands.values()):
        plans = [plan for size in proof.sizes for plan in size.plans if plan.band.key == band.key]
        columns = [figures(plan) for plan in plans]
        shown = [(n, f) for n, f in enumerate(columns[0])
                 if (any(column[n].value for column in columns) or f.name == "fold_rows")
                 and (f.name not in AROUND_HOLES or any(map(divides, plans)))]
        rows = [(esc(f.label), *(esc(column[n].said) for column in columns)) for n, f in shown]
        if any(map(hole_spacing, plans)):
            at = [f.name for _, f in shown].index("gaps") + 1
            rows.insert(at, ("From hole to hole [cm]", *map(_spacing, plans)))
        done = [finished(plan) for plan in plans]
        rows.insert(2, ("Finished length [cm]", *(d.length.cm_figure() for d in done)))
        rows.insert(3, ("Finished length [in]", *(d.length.inch_figure() for d in done)))
        rows.insert(4, ("Finished depth [cm]", *(d.depth.cm_figure() for d in done)))
        rows.insert(5, ("Finished depth [in]", *(d.depth.inch_figure() for d in done)))
        if place == 0 and proof.pattern.garment is None:
            rows += yarn_rows(proof, common)
        yield (f"<p><strong>{esc(band.title)}</strong></p>\n"
               + table(esc(f"{band.title} in all sizes"), head, rows))
    yield ("<p>How each number was counted is on each size's page. "
           + link("counts.json", "All counts as data (counts.json)") + "</p>")


def _spacing(plan: BandPlan) -> str:
    """The distances from hole to hole, the least and the most where they are not one."""
    apart = [length.cm_figure() for length in hole_spacing(plan)]
    return " to ".join(dict.fromkeys((apart[0], apart[-1]))) if apart else "–"


def _drawings(proof: Proof, sample: SizeProof, drawn: Outlines) -> str:
    out = [graded_schematic(proof, drawn)] if sample.dressed else []
    fronts = [plan for plan in sample.plans if KINDS[plan.band.kind].layers == 2
              and (sample.dressed is None or plan.placing)]
    if fronts:
        out.append(f"<p>In size {esc(sample.size)}, the hem at the left.</p>")
    for plan in fronts:
        ends = band_ends(plan, Side.RIGHT)
        out.append(band_drawing(plan, hem=Side.LEFT, with_holes=True, start=ends.first,
                                ends=(ends.first, ends.last),
                                prefix=f"drawing-{anchor(plan.band.key)}"))
    return "\n".join(out)


def _charts(sample: SizeProof) -> Iterable[str]:
    """The stitch patterns on the needles of one size."""
    if drawn := chart_drawings(sample.pieces, sample.size):
        yield heading(2, "The stitch pattern", "stitch-pattern") + block(drawn)


def _skills(pattern: Pattern) -> str:
    told = items((esc(skill[:1].upper() + skill[1:]) for skill in pattern.skills), "wb-list")
    return (told or "<p>The designer names none.</p>") + \
        f"<p>{link('../../techniques/index.html', 'All techniques')}</p>"


def _corrections(pattern: Pattern) -> str:
    made = items((f"<strong>{esc(date)}:</strong> {esc(text)}"
                  for date, text in pattern.corrections), "wb-list")
    return (f"<p>This is version {esc(pattern.version)} of {esc(pattern.date)}.</p>"
            + (made or "<p>No corrections so far.</p>"))


def _remarks(pattern: Pattern, findings: Iterable[Problem]) -> list[str]:
    """The findings that a knitter should know, in a knitter's words."""
    unswatched = [_not_swatched(band) for band in pattern.bands.values() if band.fabric is None]
    told = [{"small-swatch": f"A swatch was measured on a small piece ({esc(p.found)}), so its "
                             "gauge is less certain.",
             "hem-not-swatched": "The hem's dial was not swatched: its rows are counted at the "
                                 "garment's gauge. Measure the first hem you knit.",
             "neck-over-head": f"Size {esc(p.size)}: {esc(p.found)}. Try it on before the bands.",
             "against-neighbours": f"Size {esc(p.size)}: {esc(p.found)}."}.get(p.code, "")
            for p in findings]
    return unswatched + [text for text in dict.fromkeys(told) if text]


def _not_swatched(band: Band) -> str:
    return (f"The fabric of the {esc(band.title)} was not swatched. Its stitches come from a "
            "pick-up rule, and its depth and holes are counted as if it had the row height of the "
            "garment. Knit a swatch of the band first.")
