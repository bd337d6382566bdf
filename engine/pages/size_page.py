"""The page of one size: everything a knitter needs for it, and nothing of the other sizes.

At its head stand what it is, five facts and the order of work; all else is closed until it is
opened: the parts of the work, and what is read before or after them.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from ..core.expression import Expression
from ..drawings.schematic import garment_schematic
from ..machine.steps import Side
from ..markup.html import block, details, esc, facts, fold, front_matter, headed, heading, items
from ..markup.own_techniques import with_own_techniques
from ..pattern.edges import Offer
from ..pattern.fabrics import Fabric
from ..pattern.model import Band, GarmentSpec, Pattern
from ..plan.band import BandPlan
from ..plan.meeting import Meeting
from ..proof.advice import SizeAdvice
from ..proof.parts_of_fabrics import parts_of_fabrics
from ..proof.proof import SizeProof
from ..shape.polygon import Outline
from ..words import correction_text, garment_text
from ..words import order_of_work_text as order
from ..words import page_headings as headings
from ..words import size_page_text as words
from ..words.buttonhole_text import holes_text
from ..words.edge_methods import edge_methods
from ..words.figure_text import on_the_bed
from ..words.hanging_text import section_names
from ..words.sketch_text import body_line
from ..words.terms.working import working_of
from ..words.workings import (
    AS_EDGE,
    all_counts,
    as_counted,
    behind_label,
    counted_label,
    depth_label,
    edge_stitches_label,
    holes_lie,
    holes_lie_working,
    length_label,
    of_band_label,
    of_edge_label,
    ratio_label,
    ratio_working,
)
from .band_lengths import Finished, back_depth, finished
from .cautions import cautions
from .compared import compared
from .corrected_places import put_right_in, put_right_now
from .cover import cover
from .figures import AROUND_HOLES, ShownFigure, divides
from .garment_facts import garment_facts, garment_workings, required_yarns, worked
from .hung_on import pieces_folded
from .materials import holds, machine, materials, needles_wanted, slips
from .outer_edge import outer_edge_worked
from .page_facts import size_facts
from .placed_designer_notes import on_the_page
from .shaping_explained import methods
from .shared_by_pages import Shared
from .top_facts import top_facts
from .work_parts import WorkPart, links_of, listed, parts_of, sections_of

# Figures that one sum tells together on a size's page.
HOLES_LIE = ("lower_end", "gaps", "upper_end")


def size_page(pattern: Pattern, size: SizeProof, common: Shared, advice: SizeAdvice | None = None
              ) -> str:
    """Return the whole page as Markdown; all below its heading is HTML."""
    title = headings.size_title(pattern.title, size.size)
    outlines = common.outlines[size.size]
    parts = parts_of(pattern, size, outlines)
    page = "".join((
        front_matter(title, headings.size_summary(pattern.title, size.size), searchable=False),
        heading(1, title, "size"),
        block("".join((
            '<div class="wb-size"><div class="wb-top">\n',
            _top(pattern, size, common, advice, parts),
            '</div>\n<div class="wb-work">\n',
            on_the_page(pattern.designer_notes, size, after=False),
            pieces_folded(pattern.garment, pattern.materials, pattern.edges, size),
            headed(order.ORDER, "order"), listed(parts), words.HOW_TO_READ,
            *_before(pattern, size, common, advice, outlines),
            sections_of(parts), on_the_page(pattern.designer_notes, size, after=True),
            fold(headings.COUNTED, "counted", _workings(pattern, size, common)),
            "</div></div>",
        ))),
    ))
    return with_own_techniques(page, pattern.techniques)


def _top(pattern: Pattern, size: SizeProof, common: Shared, advice: SizeAdvice | None,
         parts: Sequence[WorkPart]) -> str:
    """What the page is of, the way to begin, and the facts that are wanted first."""
    begin, own = parts[0], size_facts(pattern, size, compared(size, common.figures))
    drawn = cover(pattern, size, common.outlines[size.size], links_of(size))
    right = put_right_now(pattern.sizes, pattern.corrections, pattern.version, size)
    return (f"{words.edition(pattern)}\n{right}{own.in_page()}\n{drawn}\n"
            f"{body_line(pattern.garment)}"
            f"{words.begin(begin.title, begin.summary, begin.anchor, begin.drawn_again)}\n"
            f"{facts(top_facts(pattern, size, common.yarn_requirements[size.size], advice))}\n")


def _before(pattern: Pattern, size: SizeProof, common: Shared, advice: SizeAdvice | None,
            outlines: Sequence[Outline]) -> Iterator[str]:
    """What is read before the work, each closed until it is opened."""
    requirements = common.yarn_requirements[size.size]
    if put_right := put_right_in(pattern, size):
        yield fold(headings.PUT_RIGHT, "corrections", items(put_right, "wb-list")
                   + correction_text.OLDER * any(one.version for one in pattern.corrections))
    yield fold(headings.TOOLS, "materials", machine(
        pattern.garment, pattern.bed, needles_wanted(size), holds=holds(size), slips=slips(size))
        + materials(pattern, size, requirements) + required_yarns(size, requirements))
    yield fold(headings.CAUTIONS, "cautions",
               cautions(pattern.garment, pattern.bands, pattern.wearer, size))
    yield fold(headings.GAUGE, "gauge", common.gauge)
    yield fold(headings.FINISHED, "finished", facts(_measured(
        pattern.garment, pattern.fabrics, pattern.bands, size, advice))
               + garment_text.of_the_chart(advice.worn if advice else ()))
    if size.assembled is not None:
        yield fold(headings.MEASURES, "drawing", garment_schematic(size, outlines))
    yield methods(size)
    yield edge_methods(size)


def _measured(spec: GarmentSpec | None, fabrics: Mapping[str, Fabric], bands: Mapping[str, Band],
              size: SizeProof, advice: SizeAdvice | None) -> Iterator[tuple[str, str]]:
    """Every finished measure of the garment, and what its bands measure and take."""
    yield from garment_facts(spec, fabrics, bands, size, advice)
    for plan in size.plans:
        name, done = esc(plan.band.title), finished(plan)
        yield words.finished_length(name), f"{done.length}"
        yield words.finished_depth(name), f"{done.depth}"
        yield words.on_bed(name), on_the_bed(plan)
        if behind := back_depth(plan):
            yield words.depth_behind(name), f"{behind}"
        if plan.placing:
            yield words.holes_of(name, plan), holes_text(plan)


def _workings(pattern: Pattern, size: SizeProof, common: Shared) -> str:
    out = garment_workings(pattern.garment, pattern.fabrics, pattern.bands, size,
                           _of_bands(size, common))
    fabrics, parts = pattern.fabrics, parts_of_fabrics(pattern)
    for plan in size.plans:
        done, made = finished(plan), common.figures[size.size, plan.band.key]
        if size.assembled:
            out.append(worked(all_counts(plan.band.title),
                              (f"<b>{label}:</b> {text}" for label, text in
                               (*_workings_of(plan, made, done, ""),
                                *outer_edge_worked(fabrics, parts, plan, "")))))
        else:
            whose = f"{plan.band.title}: " if len(size.plans) > 1 else ""
            out += [details(label, text) for label, text in (
                *_workings_of(plan, made, done, whose),
                *outer_edge_worked(fabrics, parts, plan, whose))]
    return "\n".join(out)


def _of_bands(size: SizeProof, common: Shared) -> Iterator[Expression]:
    """The sums of everything that is counted of bands."""
    for plan in size.plans:
        for figure in common.figures[size.size, plan.band.key]:
            yield from figure.made if isinstance(figure.made, tuple) else (figure.made,)


def _sections_worked(plan: BandPlan, whose: str) -> list[tuple[str, str]]:
    """The stitches of every section, those alike once; what is one for one needs no working."""
    met = [(section_names(m.section, None if plan.left is None else Side.RIGHT), m)
           for m in plan.meetings]
    if plan.left:
        met += [(section_names(m.section, Side.LEFT), m) for m in plan.left.meetings]
    lines = [(of_band_label(name, m.stitches), working_of(m.stitches))
             for name, m in _named_apart([
                 (names, m) for names, m in met
                 if m.section.offer is Offer.ROWS or m.stitches.value != m.section.places])]
    lines += {of_edge_label(m.section.title, m.section.places): m.section.working
              for _, m in met if m.section.is_summed}.items()
    return [(esc(f"{whose}{title[:1].upper()}{title[1:]}"), esc(f"{working}."))
            for title, working in lines]


def _named_apart(met: Sequence[tuple[tuple[str, ...], Meeting]]) -> list[tuple[str, Meeting]]:
    """Return every section once, each by the first of its names that stands for no other count;
    where a designer gave two of them one title, by that."""
    found: dict[tuple[str, str], Meeting] = {}
    for names, own in met:
        alike = (all(working_of(other.stitches) == working_of(own.stitches) for others, other in met
                     if others[at] == name) for at, name in enumerate(names))
        found[next((name for name, same in zip(names, alike, strict=True) if same), names[-1]),
              working_of(own.stitches)] = own
    return [(name, own) for (name, _), own in found.items()]


def _workings_of(plan: BandPlan, made: Sequence[ShownFigure], done: Finished, whose: str
                 ) -> list[tuple[str, str]]:
    """Every figure of a band with its working, both HTML."""
    offer = plan.meetings[0].section.offer if len(plan.meetings) == 1 else Offer.ROWS
    out = [(esc(f"{whose}{edge_stitches_label(plan.edge_rows.value)}"), esc(f"{AS_EDGE}."))
           if f.name == "edge_rows" and offer is not Offer.ROWS else
           (esc(f"{whose}{counted_label(f.label, f.counted, f.made)}"),
            esc(f"{as_counted(f.counted, f.working)}."))
           for f in made if (f.value or f.name == "fold_rows")
           and f.name not in HOLES_LIE
           and (divides(plan) or f.name not in AROUND_HOLES)
           and (plan.closing_loops.value or f.name != "closing_gaps")]
    if len(plan.meetings) > 1:
        out += _sections_worked(plan, whose)
    elif not plan.is_lengthwise:
        out.append((esc(f"{whose}{ratio_label(plan.pick_up, offer)}"),
                    esc(ratio_working(plan.pick_up, offer))))
    if plan.placing:
        out.append((esc(f"{whose}{holes_lie(plan)}"),
                    esc(holes_lie_working(plan.placing, plan.stitches.unit))))
    out += [(esc(f"{whose}{length_label(done.length.length)}"), f"{working_of(done.length)}."),
            (esc(f"{whose}{depth_label(done.depth.length)}"), f"{working_of(done.depth)}.")]
    if behind := back_depth(plan):
        out.append((esc(f"{whose}{behind_label(behind.length)}"), f"{working_of(behind)}."))
    return out
