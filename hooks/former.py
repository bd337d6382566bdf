"""The pages of patterns that were renamed or withdrawn, and of sizes that were renamed."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from posixpath import basename, splitext
from typing import TYPE_CHECKING

from walebook.pages.former_page import former_pages, former_size_pages
from walebook.pages.lists import ListPage
from walebook.pattern.collection import CollectionSettings

if TYPE_CHECKING:
    from walebook_site.results import Result


def former_of(settings: CollectionSettings, patterns: Iterable[Result],
              folders: Iterable[str] = ()) -> Iterator[ListPage]:
    """Yield the pages of every former pattern, and of every size that was called otherwise.

    They lead to what is published in its place.

    In a preview, where a pattern is knitted when it is asked for, the `folders` alone are known.
    """
    known = tuple(patterns)
    titles = {slug: {"index": slug} for slug in folders}
    titles |= {each.slug: {splitext(basename(page.path))[0]: page.title
                           for page in each.published if page.path.endswith(".md")}
               for each in known}
    sizes = {each.slug: each.former_sizes for each in known}
    for one in settings.former_patterns:
        assert one.folder not in titles  # the check of the settings refuses it
        yield from former_pages(one, titles.get(one.now, {}), sizes.get(one.now, ()))
    for slug, former in sizes.items():
        yield from former_size_pages(slug, former, titles[slug])
