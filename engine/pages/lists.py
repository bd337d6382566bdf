"""The lists of patterns: all of them, and those of each group, every one page by page."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from ..machine.records import dataclass
from ..markup.html import block, esc, front_matter, heading, items
from ..pattern.collection import CollectionSettings
from ..words import list_text as words
from .card import Card, CardGroup

ON_A_PAGE = 60  # patterns; a list of more is hard to look through (common practice, no source)
_NEAR = 2  # pages before and behind the one that is shown
_FACETS = (words.BY_GARMENT, words.BY_WEARER, words.BY_BED)
_HOME = "index.html#choose"


@dataclass(frozen=True, slots=True)
class ListPage:
    """A page of a list of patterns: its path under the site's source folder, and its text."""

    path: str
    text: str


def opening(collection: CollectionSettings, patterns: int) -> str:
    """Return how the first page begins: the collection's name, and the designer's sentences.

    Below them is the place where a script says what the reader is knitting.
    """
    made = words.made_by(collection)
    return (heading(1, collection.title or words.PATTERNS, "patterns")
            + block(f'<p class="wb-lead">{esc(words.lead(collection, patterns))}</p>'
                    + (f'<p class="wb-credit">{esc(made)}</p>' if made else "")
                    + '<div class="wb-go-on-place"></div>'))


def first_list(cards: Sequence[Card]) -> str:
    """Return what the home page has of the list of patterns, with links to its further pages."""
    ordered = _in_order(cards)
    return (_choose(ordered, None) + pattern_cards(ordered[:ON_A_PAGE])
            + _pages(1, _many(ordered), "patterns", _HOME))


def further_lists(cards: Sequence[Card]) -> Iterator[ListPage]:
    """Yield every other page of a list: the further ones of all patterns, and those of groups."""
    ordered = _in_order(cards)
    for number in range(2, _many(ordered) + 1):
        yield _page(ordered, ordered, number, None)
    for group in _groups(ordered):
        some = [card for card in ordered if group in card.groups]
        for number in range(1, _many(some) + 1):
            yield _page(ordered, some, number, group)


def _in_order(cards: Sequence[Card]) -> list[Card]:
    """Garments first, bands to try last."""
    return sorted(cards, key=lambda card: card.bands)


def _page(every: Sequence[Card], some: Sequence[Card], number: int, group: CardGroup | None
          ) -> ListPage:
    many = _many(some)
    base, first = _base(group), f"{_base(group)}.html" if group else _HOME
    title = words.group_title(group.facet, group.label) if group else words.page_title(number, many)
    shown = some[(number - 1) * ON_A_PAGE:number * ON_A_PAGE]
    return ListPage(f"{base}.md" if number == 1 else f"{base}-{number}.md",
                    front_matter(title, title, searchable=False)
                    + heading(1, title, "patterns") + _choose(every, group)
                    + pattern_cards(shown) + "\n\n" + _pages(number, many, base, first))


def _base(group: CardGroup | None) -> str:
    return f"patterns-{group.slug}" if group else "patterns"


def _groups(cards: Iterable[Card]) -> dict[CardGroup, int]:
    """The groups to choose by, each with the number of its patterns, by facet and name.

    What all patterns have in common is nothing to choose by.
    """
    found: dict[CardGroup, int] = {}
    for group in (group for card in cards for group in card.groups):
        found[group] = found.get(group, 0) + 1
    by_facet = {facet: [group for group in found if group.facet == facet] for facet in _FACETS}
    return {group: found[group] for facet in _FACETS if len(by_facet[facet]) > 1
            for group in sorted(by_facet[facet], key=lambda g: (g.slug == words.BANDS[0], g.label))}


def _choose(cards: Sequence[Card], shown: CardGroup | None) -> str:
    """The lists to choose by, one below the other: they open on a phone, and are open elsewhere."""
    groups = _groups(cards)
    if not groups:
        return ""
    lists = "".join(_facet(facet, groups, len(cards), shown) for facet in _FACETS
                    if any(group.facet == facet for group in groups))
    return (f'<details class="wb-choose"><summary>{words.CHOOSE}</summary>'
            f'<div class="wb-lists">{lists}</div></details>\n')


def _facet(facet: str, groups: Mapping[CardGroup, int], every: int, shown: CardGroup | None) -> str:
    everything = _choice(_HOME, words.ALL, every, current=shown is None)
    chosen = (_choice(f"{_base(group)}.html", group.label, many, current=group == shown)
              for group, many in groups.items() if group.facet == facet)
    return f"<div><p>{facet}</p>{items((everything, *chosen))}</div>"


def _choice(href: str, label: str, many: int, *, current: bool) -> str:
    here = ' aria-current="true"' if current else ""
    return f'<a href="{href}"{here}>{esc(label)}</a> <span>{many}</span>'


def _many(cards: Sequence[Card]) -> int:
    return max(1, -(-len(cards) // ON_A_PAGE))


def _pages(shown: int, many: int, base: str, first: str) -> str:
    """The links from one page of a list to the first, the last and those near it."""
    if many == 1:
        return ""
    near = range(max(2, shown - _NEAR), min(many, shown + _NEAR + 1))
    links = []
    for number in (1, *near, many):
        href = first if number == 1 else f"{base}-{number}.html"
        links.append(f'<strong aria-current="page">{number}</strong>' if number == shown else
                     f'<a href="{href}" aria-label="{words.page_named(number)}">{number}</a>')
    return f'\n\n<nav class="wb-pages" aria-label="{words.PAGES}">{" ".join(links)}</nav>\n'


def pattern_cards(cards: Iterable[Card]) -> str:
    """Return a list of patterns as one HTML block."""
    return f'<div class="wb">\n{items((card.html for card in cards), "wb-cards")}\n</div>'
