"""The pages of a pattern or size that was renamed or withdrawn: they say so where it stood."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from ..markup.html import block, esc, front_matter, heading
from ..pattern.former_patterns import FormerPattern
from ..source.fabric_reading import size_slug
from ..source.page_names import FORMER
from ..words import former_text as words
from .former_sizes import GoneSize
from .lists import ListPage

HOME = "../../index.html"


def gone_size_pages(slug: str, sizes: Iterable[GoneSize], now: Mapping[str, str],
                    *, files_only: bool = False) -> Iterator[ListPage]:
    """Yield a page for each size of a pattern that was renamed or withdrawn, where its page stood.

    `sizes` are those of `gone_sizes`, `now` the titles of the pattern's pages by their names.
    With `files_only` it has no page of a size.
    """
    for label, name, label_now, why in sizes:
        there = size_slug(label_now)
        there = there if there in now else "index"
        title = f"{now['index']}, size {label}"
        texts = (words.size_gone(label), words.where_now(f"{there}.html", now[there]),
                 words.size_kept(files_only=files_only)) if label_now else \
            (esc(why), words.other_sizes("index.html", now["index"]), words.withdrawn_kept())
        lead = "wb-lead" if label_now and not files_only else f"wb-lead {FORMER}"
        yield ListPage(f"patterns/{slug}/{name}.md", "".join((
            front_matter(title, words.size_summary(now["index"], label, withdrawn=not label_now),
                         searchable=False),
            heading(1, title, "pattern"),
            block(f'<p class="{lead}">{texts[0]}</p><p>{texts[1]}</p><p>{texts[2]}</p>'))))


def former_pages(one: FormerPattern, now: Mapping[str, str],
                 sizes: Iterable[GoneSize] = (), *, files_only: bool = False
                 ) -> Iterator[ListPage]:
    """Yield the first page of a former pattern, and one for each of its sizes.

    `now` has the titles of the pages of the pattern in its place, by their names such as "index"
    and "m"; nothing where there is none that is published. `sizes` are those of its sizes that
    are gone, as `gone_sizes` has them. With `files_only` the pattern in its place has no page of a
    size.
    """
    renamed = {page: size_slug(label) for _, page, label, _ in sizes if label}
    for name in dict.fromkeys(("index", *map(size_slug, one.sizes))):
        there = renamed.get(name, name)
        there = there if there in now else "index"
        where_to = words.where_now(f"../{one.now}/{there}.html", now[there]) if there in now \
            else words.all_patterns(HOME)
        yield ListPage(f"patterns/{one.folder}/{name}.md", "".join((
            front_matter(one.title, words.summary(one), searchable=False),
            heading(1, one.title, "pattern"),
            block(f'<p class="wb-lead {FORMER}">{words.gone(one)}</p><p>{where_to}</p>'
                  f"<p>{words.kept(one, files_only=files_only)}</p>"))))
