"""The pages of patterns that were renamed or withdrawn, and of sizes that were."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from posixpath import basename, dirname, splitext
from typing import TYPE_CHECKING, Any

from walebook.pages.former_page import former_pages, gone_size_pages
from walebook.pages.former_sizes import GoneSize, gone_sizes
from walebook.pages.lists import ListPage
from walebook.pattern.collection import CollectionSettings
from walebook.pattern.model import Pattern
from walebook.source.fabric_reading import size_slug
from walebook.words.page_headings import size_title
from walebook_site.page_texts import title_of

if TYPE_CHECKING:
    from walebook_site.results import Result


def former_of(settings: CollectionSettings, patterns: Iterable[Result],
              folders: Iterable[str] = ()) -> Iterator[ListPage]:
    """Yield the pages of every former pattern, and of every size that is gone.

    They lead to what is published in its place.

    In a preview, where a pattern is knitted when it is asked for, the `folders` alone are known.
    """
    known = tuple(patterns)
    titles = {slug: {"index": slug} for slug in folders}
    titles |= {each.slug: _by_name((page.path, page.title) for page in each.published)
               for each in known}
    sizes = {each.slug: each.gone_sizes for each in known}
    sold = {each.slug for each in known if each.files_only}
    for one in settings.former_patterns:
        assert one.folder not in titles  # the check of the settings refuses it
        yield from former_pages(one, titles.get(one.now, {}), sizes.get(one.now, ()),
                                files_only=one.now in sold)
    for slug, former in sizes.items():
        yield from gone_size_pages(slug, former, titles[slug], files_only=slug in sold)


def gone_size_kept(facts: Mapping[str, Any], path: str) -> tuple[str, str] | None:
    """Return the title and text of a page where a size stood that is gone.

    `facts` is what an entry of the cache says of its pattern; None where no size had this page.
    """
    titles = _by_name((page, title) for page, title, *_ in facts["pages"])
    return _page(facts.get("gone_sizes", ()), titles, path, files_only=facts["files_only"])


def gone_size_of(pattern: Pattern, path: str) -> tuple[str, str] | None:
    """Return the same of a pattern whose pages are not written yet."""
    titles = {"index": pattern.title} | {
        size_slug(size): size_title(pattern.title, size) for size in pattern.sizes}
    return _page(gone_sizes(pattern.sizes, pattern.former_sizes, pattern.withdrawn_sizes), titles,
                 path, files_only=pattern.files_only)


def _page(sizes: Iterable[GoneSize], titles: Mapping[str, str], path: str, *, files_only: bool
          ) -> tuple[str, str] | None:
    """The page at a path; as on the site it leads to the overview where that alone is published."""
    slug = basename(dirname(path))
    shown = {"index": titles["index"]} if files_only else titles
    return next(((title_of(page.text), page.text)
                 for page in gone_size_pages(slug, sizes, shown, files_only=files_only)
                 if page.path == path), None)


def _by_name(pages: Iterable[tuple[str, str]]) -> dict[str, str]:
    """The titles of a pattern's pages by their names, such as "index" and "m"."""
    return {splitext(basename(path))[0]: title for path, title in pages if path.endswith(".md")}
