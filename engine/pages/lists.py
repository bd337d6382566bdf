"""What lists of patterns show of each, and what a search finds it by."""

from __future__ import annotations

from collections.abc import Iterable

from ..markup.html import esc, items, link
from ..proof.proof import Proof
from ..source.materials import size_slug


def pattern_cards(cards: Iterable[str]) -> str:
    """Return a list of patterns, each as `pattern_card` gives it, as one HTML block."""
    return f'<div class="wb">\n{items(cards, "wb-cards")}\n</div>'


def pattern_card(proof: Proof) -> str:
    """Return what a list shows of a pattern, as HTML; its links are from the site's root."""
    pattern = proof.pattern
    folder = f"patterns/{pattern.slug}"
    sizes = items((link(f"{folder}/{size_slug(size)}.html",
                        f'<span class="wb-unseen">{esc(pattern.title)}, size </span>{esc(size)}')
                   for size in pattern.sizes), "wb-sizes")
    return (f'<p class="wb-card-title">{link(f"{folder}/index.html", esc(pattern.title))}</p>'
            f"<p>{esc(pattern.summary)}</p>{sizes}")


def search_text(proof: Proof) -> str:
    """Return what a search finds a pattern by, as HTML: title, summary, form, yarns, bed."""
    pattern = proof.pattern
    forms = [pattern.garment.form] if pattern.garment else sorted(
        {f"{band.kind} band" for band in pattern.bands.values()})
    yarns = "; ".join(", ".join(filter(None, (yarn.name, yarn.fibre)))
                      for yarn in pattern.yarns.values())
    said = (pattern.summary, f"{', '.join(forms)}.", f"{yarns}.",
            f"Needle bed: {pattern.bed.name}.")
    return f'<h1 id="pattern">{esc(pattern.title)}</h1>' + "".join(
        f"<p>{esc(each)}</p>" for each in said)
