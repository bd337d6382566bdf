"""The pages of a pattern that was renamed or withdrawn: they say so where it stood."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from ..markup.html import block, front_matter, heading
from ..pattern.former import FormerPattern
from ..source.materials import size_slug
from ..source.page_names import FORMER
from ..words import former as words
from .lists import ListPage

HOME = "../../index.html"


def former_pages(one: FormerPattern, now: Mapping[str, str]) -> Iterator[ListPage]:
    """Yield the first page of a former pattern, and one for each of its sizes.

    `now` has the titles of the pages of the pattern in its place, by their names such as "index"
    and "m"; nothing where there is none that is published.
    """
    for name in dict.fromkeys(("index", *map(size_slug, one.sizes))):
        there = name if name in now else "index"
        way = words.where_now(f"../{one.now}/{there}.html", now[there]) if there in now \
            else words.all_patterns(HOME)
        yield ListPage(f"patterns/{one.folder}/{name}.md", "".join((
            front_matter(one.title, words.summary(one), searchable=False),
            heading(1, one.title, "pattern"),
            block(f'<p class="wb-lead {FORMER}">{words.gone(one)}</p><p>{way}</p>'
                  f"<p>{words.kept(one)}</p>"))))
