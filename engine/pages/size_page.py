"""The page of one size: everything a knitter needs for it, and nothing of the other sizes."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from ..catalogue.bands import KINDS
from ..core.counts import times_said
from ..core.units import Length
from ..drawings.band import band_drawing
from ..drawings.schematic import garment_schematic
from ..fabric.arrangement import repeat_said
from ..machine.steps import Side
from ..markup.html import block, details, esc, facts, front_matter, heading, items, link, shown_once
from ..pattern.edges import Offer
from ..pattern.model import Pattern
from ..plan.band import BandPlan
from ..proof.advice import SizeAdvice
from ..proof.proof import SizeProof, Strip
from ..shape.polygon import Outline
from ..words.band_ends import band_ends, strip_title
from ..words.closings_said import about_closing, holes_name, holes_said, lay_fronts
from ..words.credits import made_by, version_said
from ..words.edge_ways import edge_ways
from ..words.hands import buttons_anchor
from ..words.lengths import to_the_eighth
from ..words.rolling import rolls_said
from ..words.words import counted, joined, stitches
from .band_lengths import Finished, back_depth, finished
from .casing_section import casing_section
from .cautions import cautions
from .contents import contents, strip_anchor
from .figures import AROUND_HOLES, divides, figures, on_the_bed
from .garment_facts import garment_facts, garment_workings, worked, yarn_needs
from .hanging import hanging_table
from .hung_on import pieces_first
from .making_up import making_up
from .materials import holds, machine, materials, needles_wanted, slips
from .page_facts import size_facts
from .pieces import piece_section
from .program import tell
from .shared import Shared
from .ways import ways
from .zip_section import zip_section

# Figures that one sum tells together on a size's page.
HOLES_LIE = ("lower_end", "gaps", "upper_end")


def size_page(pattern: Pattern, size: SizeProof, common: Shared, advice: SizeAdvice | None = None
              ) -> str:
    """Return the whole page as Markdown."""
    measured = [finished(plan) for plan in size.plans]
    return "".join((
        front_matter(f"{pattern.title}, size {size.size}",
                     f"{pattern.title} in size {size.size}, step by step.", searchable=False),
        heading(1, f"{pattern.title}, size {size.size}", "size"),
        block(_top(pattern, size, measured, advice)),
        pieces_first(pattern, size),
        heading(2, "Cautions", "cautions"),
        block(cautions(pattern, size)),
        _drawing(size, common.outlines[size.size]),
        heading(2, "Tools and materials", "materials"),
        block(machine(pattern, needles_wanted(size), holds=holds(size), slips=slips(size))
              + materials(pattern, size) + yarn_needs(size, common.needs[size.size])),
        heading(2, "Gauge", "gauge"),
        block(common.gauge),
        ways(size), edge_ways(size),
        shown_once("".join(piece_section(pattern, size, piece) for piece in size.pieces)),
        _strips(pattern, size),
        *(_buttons(plan) for plan in size.plans),
        *(zip_section(plan) for plan in size.plans),
        *(casing_section(plan, child=pattern.wearer.is_child) for plan in size.plans),
        making_up(size.dressed.garment, (p.program for p in size.pieces)) if size.dressed else "",
        heading(2, "How it was counted", "counted"),
        block(_workings(pattern, size, measured)),
    ))


def _drawing(size: SizeProof, pieces: Sequence[Outline]) -> str:
    if size.dressed is None:
        return ""
    return heading(2, "Measures of the pieces", "drawing") + block(garment_schematic(size, pieces))


def _top(pattern: Pattern, size: SizeProof, measured: list[Finished], advice: SizeAdvice | None
         ) -> str:
    pairs = list(garment_facts(pattern, size, advice))
    for plan, done in zip(size.plans, measured, strict=True):
        name = esc(plan.band.title)
        pairs += [(f"{name}, finished length", f"{done.length}"),
                  (f"{name}, finished depth", f"{done.depth}"),
                  (f"{name}, on the bed", on_the_bed(plan))]
        if plan.collar.short_rows:
            pairs.append((f"{name}, finished depth behind the neck", str(back_depth(plan))))
        if plan.placing:
            pairs.append((f"{name}, {holes_name(plan)}", holes_said(plan)))
    return (
        '<p class="wb-edition">'
        f"{esc(version_said(pattern.version, pattern.date))}. "
        f'<span class="wb-by">{esc(made_by(pattern.designer, pattern.licence))}'
        f"</span> {link('index.html', 'All sizes, and about this pattern')}</p>\n"
        f"{size_facts(pattern, size).in_page()}\n{contents(size)}\n"
        f"{facts(pairs)}\n"
        "<p>Left and right are yours as you face the machine. Needles are counted from the centre "
        "of the bed: L1, L2 to the left, R1, R2 to the right. The purl side of the fabric faces "
        f"you. {link('../../reading.html', 'How to read this page')}. Every number is worked out "
        f"at the end: {link('#counted', 'how it was counted')}.</p>")


def _strips(pattern: Pattern, size: SizeProof) -> str:
    """All bands; a garment has so many that each way of working is linked to at the first."""
    told = "".join(_strip(pattern, size, strip) for strip in size.strips)
    return shown_once(told) if size.dressed else told


def _strip(pattern: Pattern, size: SizeProof, strip: Strip) -> str:
    needles, hem = strip.layout.needles, strip.layout.hem
    prefix = strip_anchor(strip)
    ends = band_ends(strip.plan, strip.front)
    low, high = (ends.first, ends.last) if hem is Side.LEFT else (ends.last, ends.first)
    kind = KINDS[strip.plan.band.kind]
    plain = (kind.layers == 1 or strip.plan.facing or not strip.plan.collar.is_straight
             or (size.dressed and not strip.with_holes))
    drawing = "" if plain else band_drawing(
        strip.plan, hem=hem, with_holes=strip.with_holes, prefix=prefix, start=ends.first,
        ends=(f"{needles.first.name} ({low})", f"{needles.last.name} ({high})"))
    note = f" {esc(ends.note)}" if ends.note else ""
    return (heading(2, strip_title(strip), prefix)
            + block(f"<p>{stitches(len(needles))} on needles <strong>{needles.first} to "
                    f"{needles.last}</strong>, {_left_out(strip.plan)}the {ends.first} at the "
                    f"{hem.value}.{note}"
                    f"{_of_parts(strip)} Begin with an empty bed, no yarn in the feeder, and the "
                    f"carriage on the {strip.program.starts.value}, set to knit."
                    f"{_again(strip)}{_first_of_two(strip)}{_when(size, strip)} "
                    f"{link(f'../../{kind.page}', f'About this kind of band: {kind.name}')}."
                    f"{rolls_said(pattern, strip.plan)}"
                    f"{about_closing(strip.plan) if strip.with_holes else ''}</p>\n"
                    f"{drawing}")
            + tell(strip, pattern, prefix) + hanging_table(strip))


def _left_out(plan: BandPlan) -> str:
    """Which needles work, where some are left out."""
    return f"{repeat_said(plan.repeat)} of work, " if plan.repeat else ""


def _of_parts(strip: Strip) -> str:
    """Which part of a band this is, and the stitches that its seams will take."""
    part, plan = strip.plan.part, strip.plan
    if part is None:
        return ""
    ends = band_ends(plan, strip.front)
    extra = [f"needle {strip.layout.at(at)} (at the {end})" for at, end, join in
             ((1, ends.first, plan.joins[0]), (plan.stitches.value, ends.last, plan.joins[1]))
             if join]
    hung, takes = ("is", "takes") if len(extra) == 1 else ("are", "take")
    return (f" The band is longer than the bed, and is knitted in {part.of} parts: this is part "
            f"{part.number}, from the {esc(ends.first)} to the {esc(ends.last)}. "
            f"{esc(joined(extra)[:1].upper() + joined(extra)[1:])} {hung} for the join and {takes} "
            "nothing of the garment.")


def _again(strip: Strip) -> str:
    """An edge that is there more than once, such as the cuff of a pair, takes a band each."""
    times, edge = strip.plan.run.times, band_ends(strip.plan, strip.front).edge
    return f" Work all of it {times_said(times)}, once for each {esc(edge)}; the bands are alike." \
        if times > 1 else ""


def _when(size: SizeProof, strip: Strip) -> str:
    """A band of a garment is worked when its making up says so; told at the first of them."""
    if size.dressed is None or strip is not size.strips[0] or not any(
            "Work the" in sentence for sentence in size.dressed.garment.making_up):
        return ""
    return (f" When the bands are worked, between blocking and the last seams, is told under "
            f"{link('#making-up', 'Making up')}.")


def _buttons(plan: BandPlan) -> str:
    """Where the buttons go: over the middle of each hole, measured from the hem."""
    if plan.placing is None:
        return ""
    half = Fraction(plan.placing.hole, 2)
    holes = plan.band.buttonholes
    first = band_ends(plan, holes.front if holes else Side.RIGHT).first
    places = (Length((start - 1 + half) * plan.gauge.stitch) for start in plan.placing.starts)
    return (heading(2, f"{plan.band.title}, buttons", buttons_anchor(plan.band.key))
            + block(f"<p>{lay_fronts(plan)} Measured along the finished band from the {first}:</p>"
                    + items((to_the_eighth(at) for at in places), "wb-list", "ol")))


def _first_of_two(strip: Strip) -> str:
    """Knitting the plain band first proves the count (worked example B11)."""
    if not strip.with_holes or strip.plan.run.fronts:
        return ""
    return (f" If you knit the band without {holes_name(strip.plan)} first (it is further down), "
            "it proves the count.")


def _workings(pattern: Pattern, size: SizeProof, measured: list[Finished]) -> str:
    out = garment_workings(size)
    for plan, done in zip(size.plans, measured, strict=True):
        if size.dressed:
            out.append(worked(f"{plan.band.title}: all its counts",
                              (f"<b>{label}:</b> {said}" for label, said in
                               _workings_of(plan, done, ""))))
        else:
            whose = f"{plan.band.title}: " if len(size.plans) > 1 else ""
            out += [details(label, said) for label, said in _workings_of(plan, done, whose)]
    return "\n".join(out)


def _sections_worked(plan: BandPlan, whose: str) -> list[tuple[str, str]]:
    """The stitches of every section, those alike once; what is one for one needs no working."""
    lines = {f"{m.section.title}: {m.stitches}": m.stitches.working for m in plan.meetings
             if m.section.offer is Offer.ROWS}
    return [(esc(f"{whose}{title[:1].upper()}{title[1:]}"), esc(f"{working}."))
            for title, working in lines.items()]


def _workings_of(plan: BandPlan, done: Finished, whose: str) -> list[tuple[str, str]]:
    """Every figure of a band with its working, both HTML."""
    out = [(esc(f"{whose}{f.label}: {f.counted}"), esc(f"{f.working}."))
           for f in figures(plan) if (f.value or f.name == "fold_rows")
           and f.name not in HOLES_LIE
           and (divides(plan) or f.name not in AROUND_HOLES)
           and (plan.closing_loops.value or f.name != "closing_gaps")]
    pick = plan.pick_up
    if len(plan.meetings) > 1:
        out += _sections_worked(plan, whose)
    else:
        out.append((
            esc(f"{whose}Stitches for rows of the edge: {pick.ratio.numerator} for every "
                f"{counted(pick.ratio.denominator, 'row')}"),
            esc(f"{pick.stitches} stitches for {pick.edge_rows} rows; the nearest ratio with at "
                f"most 8 rows. {pick.said}")))
    if plan.placing:
        out.append((esc(f"{whose}Where the {holes_name(plan)} lie"),
                    esc(f"{plan.placing.working}: before the first, in the holes, between them, "
                        f"after the last. Given up: {plan.placing.given_up}.")))
    out += [(esc(f"{whose}Finished length: {done.length}"), f"{done.length_working}."),
            (esc(f"{whose}Finished depth: {done.depth}"), f"{done.depth_working}.")]
    return out
