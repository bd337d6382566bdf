"""What lists of patterns show of each, and what a search finds it by."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from ..markup.html import esc, front_matter, heading, items, link
from ..proof.proof import Proof
from ..source.materials import size_slug
from ..words import lists as words

ON_A_PAGE = 60  # patterns; a list of more is hard to look through (common practice, no source)
_NEAR = 2  # pages before and behind the one that is shown


@dataclass(frozen=True, slots=True)
class ListPage:
    """A page of the list of patterns: its path under the site's source folder, and its text."""

    path: str
    text: str


def first_list(cards: Sequence[str]) -> str:
    """Return what the home page has of the list of patterns, with links to its further pages."""
    return pattern_cards(cards[:ON_A_PAGE]) + _pages(1, _many(cards))


def further_lists(cards: Sequence[str]) -> Iterator[ListPage]:
    """Yield the second and further pages of the list of patterns; none where one page has all."""
    many = _many(cards)
    for number in range(2, many + 1):
        title = words.page_title(number, many)
        some = cards[(number - 1) * ON_A_PAGE:number * ON_A_PAGE]
        yield ListPage(f"patterns-{number}.md", front_matter(title, title, searchable=False)
                       + heading(1, title, "patterns") + pattern_cards(some) + "\n\n"
                       + _pages(number, many))


def _many(cards: Sequence[str]) -> int:
    return max(1, -(-len(cards) // ON_A_PAGE))


def _pages(shown: int, many: int) -> str:
    """The links from one page of the list to the first, the last and those near it."""
    if many == 1:
        return ""
    near = range(max(2, shown - _NEAR), min(many, shown + _NEAR + 1))
    links = []
    for number in (1, *near, many):
        href = "index.html#choose" if number == 1 else f"patterns-{number}.html"
        links.append(f'<strong aria-current="page">{number}</strong>' if number == shown else
                     f'<a href="{href}" aria-label="{words.page_named(number)}">{number}</a>')
    return f'\n\n<nav class="wb-pages" aria-label="{words.PAGES}">{" ".join(links)}</nav>\n'


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
