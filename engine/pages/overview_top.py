"""The first screen of a pattern: its picture, what it is, whom it fits, what it takes."""

from __future__ import annotations

from collections.abc import Iterator

from ..drawings.garment_sketch import View, drawings_of
from ..markup.html import esc, facts, items, link
from ..markup.notes import pictures_html
from ..proof.advice import GarmentAdvice
from ..proof.proof import Proof
from ..source.fabric_reading import size_slug
from ..words import overview_page_text as words
from .materials import holds, needles_wanted, second_bed
from .page_facts import pattern_facts
from .shared_by_pages import Shared


def overview_top(proof: Proof, common: Shared, advice: GarmentAdvice | None) -> str:
    """Return the first screen, as HTML. A designer's own photographs stand before the sketch."""
    pattern = proof.pattern
    pictures = pictures_html(pattern.pictures)
    return (f'<div class="wb-hero"><div class="wb-hero-seen">{pictures}'
            f"{sketch(proof, common, View.FRONT)}</div>"
            f'<div class="wb-hero-said"><p class="wb-summary wb-lead">{esc(pattern.summary)}</p>\n'
            f"{_strip(proof)}\n{facts(_facts(proof, common, advice))}</div></div>\n"
            f"{pattern_facts(pattern).in_page()}")


def sketch(proof: Proof, common: Shared, view: View) -> str:
    """Return the garment in its middle size, seen from one side; nothing where it has none."""
    sample = proof.sizes[len(proof.sizes) // 2]
    drawn = drawings_of(proof.pattern, sample, common.outlines[sample.size], views=(view,))
    if not any(drawing.view is view for drawing in drawn):
        return ""  # what is alike on both sides is drawn once
    svg = "".join(drawing.svg() for drawing in drawn)
    caption = words.drawn_size if view is View.FRONT else words.back_view
    return (f'<figure class="wb-sketch wb-{view.value}">{svg}'
            f"<figcaption>{caption(sample.size)}</figcaption></figure>")


def _strip(proof: Proof) -> str:
    """The sizes in one line: a reader who knows hers need not read on. Nothing where no page of a
    size is published."""
    if proof.pattern.files_only:
        return words.FILES_ONLY
    sizes = items((link(f"{size_slug(size.size)}.html", words.size_link(size.size))
                   for size in proof.sizes), "wb-strip")
    return f'<nav aria-label="{words.SIZES_OF}">{sizes}</nav>'


def _facts(proof: Proof, common: Shared, advice: GarmentAdvice | None
           ) -> Iterator[tuple[str, str]]:
    pattern = proof.pattern
    yield _fits(proof, advice)
    yield words.YARN, "<br>".join(_yarns(proof, common))
    needles = [needles_wanted(size) for size in proof.sizes]
    yield words.MACHINE, words.machine_of_all(
        pattern.bed, min(needles), max(needles), holds=any(map(holds, proof.sizes)),
        second=second_bed(pattern.garment))
    if pattern.skills:
        yield words.SKILLS, esc(", ".join(pattern.skills))


def _fits(proof: Proof, advice: GarmentAdvice | None) -> tuple[str, str]:
    """Which bodies the sizes are for, by the first measure that a body decides."""
    wearers = words.WEARERS[proof.pattern.wearer]
    fits = [size.fits[0] for size in advice.sizes if size.fits] if advice else []
    if not fits:
        return words.FOR, wearers
    low = min((fit.body.low for fit in fits), key=lambda length: length.mm)
    high = max((fit.body.high for fit in fits), key=lambda length: length.mm)
    return words.FITS, words.fits(wearers, fits[0].label, low, high)


def _yarns(proof: Proof, common: Shared) -> Iterator[str]:
    """Each yarn with the least and the most that a size takes of it: by weight, else by length."""
    for yarn in proof.pattern.yarns.values():
        required = [one for size in proof.sizes for one in common.yarn_requirements[size.size]
                    if one.yarn.key == yarn.key]
        grams = [one.grams.value for one in required if one.grams]
        metres = [one.metres.value for one in required if one.metres]
        if grams or metres:
            amounts = grams or metres
            yield words.yarn_of_all(yarn, min(amounts), max(amounts), "g" if grams else "m")
        elif required:
            yield esc(yarn.called)
