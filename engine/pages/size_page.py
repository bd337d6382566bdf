"""The page of one size: everything a knitter needs for it, and nothing of the other sizes."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from ..catalogue.bands import KINDS
from ..core.units import Length
from ..drawings.band import band_drawing
from ..drawings.schematic import garment_schematic
from ..machine.steps import Side
from ..markup.html import block, details, esc, facts, front_matter, heading, items, shown_once
from ..pattern.edges import Offer
from ..pattern.model import Pattern
from ..plan.band import BandPlan
from ..proof.advice import SizeAdvice
from ..proof.proof import SizeProof, Strip
from ..shape.polygon import Outline
from ..words import page_headings as headings
from ..words import size_page as words
from ..words.band_ends import band_ends, strip_title
from ..words.closings_said import holes_said
from ..words.edge_methods import edge_methods
from ..words.figures import on_the_bed
from ..words.hands import buttons_anchor
from ..words.lengths import to_the_eighth
from ..words.strip_lead import strip_lead
from ..words.workings import (
    all_counts,
    depth_label,
    holes_lie,
    holes_lie_working,
    length_label,
    ratio_label,
    ratio_working,
)
from .band_lengths import Finished, back_depth, finished
from .casing_section import casing_section
from .cautions import cautions
from .compared import compared
from .contents import contents, strip_anchor
from .figures import AROUND_HOLES, Figure, divides
from .garment_facts import garment_facts, garment_workings, worked, yarn_needs
from .hanging import hanging_table
from .hung_on import pieces_first
from .making_up import making_up, own_bands
from .materials import holds, machine, materials, needles_wanted, slips
from .methods import methods
from .outer_edge import outer_edge_worked
from .page_facts import size_facts
from .pieces import piece_section
from .program import tell
from .shared import Shared
from .zip_section import zip_section

# Figures that one sum tells together on a size's page.
HOLES_LIE = ("lower_end", "gaps", "upper_end")


def size_page(pattern: Pattern, size: SizeProof, common: Shared, advice: SizeAdvice | None = None
              ) -> str:
    """Return the whole page as Markdown."""
    measured = [finished(plan) for plan in size.plans]
    title = headings.size_title(pattern.title, size.size)
    return "".join((
        front_matter(title, headings.size_summary(pattern.title, size.size), searchable=False),
        heading(1, title, "size"),
        block(_top(pattern, size, measured, common, advice)),
        pieces_first(pattern, size),
        heading(2, headings.CAUTIONS, "cautions"),
        block(cautions(pattern, size)),
        _drawing(size, common.outlines[size.size]),
        heading(2, headings.TOOLS, "materials"),
        block(machine(pattern, needles_wanted(size), holds=holds(size), slips=slips(size))
              + materials(pattern, size) + yarn_needs(size, common.needs[size.size])),
        heading(2, headings.GAUGE, "gauge"),
        block(common.gauge),
        methods(size), edge_methods(size),
        shown_once("".join(piece_section(pattern, size, piece) for piece in size.pieces)),
        _bands_and_making_up(pattern, size),
        heading(2, headings.COUNTED, "counted"),
        block(_workings(pattern, size, measured, common)),
    ))


def _drawing(size: SizeProof, pieces: Sequence[Outline]) -> str:
    if size.assembled is None:
        return ""
    return heading(2, headings.MEASURES, "drawing") + block(garment_schematic(size, pieces))


def _top(pattern: Pattern, size: SizeProof, measured: list[Finished], common: Shared,
         advice: SizeAdvice | None) -> str:
    pairs = list(garment_facts(pattern, size, advice))
    for plan, done in zip(size.plans, measured, strict=True):
        name = esc(plan.band.title)
        pairs += [(words.finished_length(name), f"{done.length}"),
                  (words.finished_depth(name), f"{done.depth}"),
                  (words.on_bed(name), on_the_bed(plan))]
        if plan.collar.short_rows:
            pairs.append((words.depth_behind(name), str(back_depth(plan))))
        if plan.placing:
            pairs.append((words.holes_of(name, plan), holes_said(plan)))
    own = size_facts(pattern, size, compared(size, common.figures))
    return (f"{words.edition(pattern)}\n{own.in_page()}\n{contents(size)}\n"
            f"{facts(pairs)}\n{words.HOW_TO_READ}")


def _bands_and_making_up(pattern: Pattern, size: SizeProof) -> str:
    """Every band of a garment where its making up tells to work it; those on edges that the source
    describes come first. A garment has so many that each way of working is linked to at the
    first."""
    told = [_strip(pattern, size, strip) for strip in size.strips]
    if size.assembled is None:
        return "".join((*told, *(_after(pattern, plan) for plan in size.plans)))
    worked: dict[str, str] = {}
    for strip, section in zip(size.strips, shown_once("\0".join(told)).split("\0"), strict=False):
        worked[strip.plan.band.key] = worked.get(strip.plan.band.key, "") + section
    for plan in size.plans:
        worked[plan.band.key] = worked.get(plan.band.key, "") + _after(pattern, plan)
    own = "".join(worked.pop(key) for key in own_bands(size))
    return own + making_up(size.assembled.garment, (p.program for p in size.pieces), worked)


def _after(pattern: Pattern, plan: BandPlan) -> str:
    """The sentences about a band once it is worked: its buttons, its zip, what goes through it."""
    return (_buttons(plan) + zip_section(plan)
            + casing_section(plan, child=pattern.wearer.is_child))


def _strip(pattern: Pattern, size: SizeProof, strip: Strip) -> str:
    needles, hem = strip.layout.needles, strip.layout.hem
    prefix = strip_anchor(strip)
    ends = band_ends(strip.plan, strip.front)
    low, high = (ends.first, ends.last) if hem is Side.LEFT else (ends.last, ends.first)
    kind = KINDS[strip.plan.band.kind]
    plain = (not kind.doubled or strip.plan.facing or not strip.plan.collar.is_straight
             or (size.assembled and not strip.with_holes))
    drawing = "" if plain else band_drawing(
        strip.plan, hem=hem, with_holes=strip.with_holes, prefix=prefix, start=ends.first,
        ends=(f"{needles.first.name} ({low})", f"{needles.last.name} ({high})"))
    lead = strip_lead(strip, pattern)
    return (heading(2, strip_title(strip), prefix) + block(f"{lead}\n{drawing}")
            + tell(strip, pattern, prefix) + hanging_table(strip))


def _buttons(plan: BandPlan) -> str:
    """Where the buttons go: over the middle of each hole, measured from the hem."""
    if plan.placing is None:
        return ""
    half = Fraction(plan.placing.hole, 2)
    holes = plan.band.buttonholes
    first = band_ends(plan, holes.front if holes else Side.RIGHT).first
    places = (Length((start - 1 + half) * plan.gauge.stitch) for start in plan.placing.starts)
    return (heading(2, words.buttons_title(plan), buttons_anchor(plan.band.key))
            + block(words.buttons_lead(plan, first)
                    + items((to_the_eighth(at) for at in places), "wb-list", "ol")))


def _workings(pattern: Pattern, size: SizeProof, measured: list[Finished], common: Shared
              ) -> str:
    out = garment_workings(size)
    for plan, done in zip(size.plans, measured, strict=True):
        made = common.figures[size.size, plan.band.key]
        if size.assembled:
            out.append(worked(all_counts(plan.band.title),
                              (f"<b>{label}:</b> {said}" for label, said in
                               (*_workings_of(plan, made, done, ""),
                                *outer_edge_worked(pattern, plan, "")))))
        else:
            whose = f"{plan.band.title}: " if len(size.plans) > 1 else ""
            out += [details(label, said) for label, said in (
                *_workings_of(plan, made, done, whose), *outer_edge_worked(pattern, plan, whose))]
    return "\n".join(out)


def _sections_worked(plan: BandPlan, whose: str) -> list[tuple[str, str]]:
    """The stitches of every section, those alike once; what is one for one needs no working."""
    lines = {f"{m.section.title}: {m.stitches}": m.stitches.working for m in plan.meetings
             if m.section.offer is Offer.ROWS or m.stitches.value != m.section.places}
    lines |= {f"{m.section.title}: {m.section.places} rows": m.section.working
              for m in plan.meetings if m.section.is_summed}
    return [(esc(f"{whose}{title[:1].upper()}{title[1:]}"), esc(f"{working}."))
            for title, working in lines.items()]


def _workings_of(plan: BandPlan, made: Sequence[Figure], done: Finished, whose: str
                 ) -> list[tuple[str, str]]:
    """Every figure of a band with its working, both HTML."""
    out = [(esc(f"{whose}{f.label}: {f.counted}"), esc(f"{f.working}."))
           for f in made if (f.value or f.name == "fold_rows")
           and f.name not in HOLES_LIE
           and (divides(plan) or f.name not in AROUND_HOLES)
           and (plan.closing_loops.value or f.name != "closing_gaps")]
    if len(plan.meetings) > 1:
        out += _sections_worked(plan, whose)
    else:
        out.append((esc(f"{whose}{ratio_label(plan.pick_up)}"), esc(ratio_working(plan.pick_up))))
    if plan.placing:
        out.append((esc(f"{whose}{holes_lie(plan)}"), esc(holes_lie_working(plan.placing))))
    out += [(esc(f"{whose}{length_label(done.length.length)}"), f"{done.length.working}."),
            (esc(f"{whose}{depth_label(done.depth.length)}"), f"{done.depth.working}.")]
    return out
