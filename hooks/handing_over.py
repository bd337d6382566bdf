"""The files of patterns that are sold, written apart: the site has their overviews alone.

They lie in the folder of the site's settings: the site's own folder, and whatever is beside that
one, may be open to everybody.
"""

from __future__ import annotations

import os
from collections.abc import Iterator, Sequence
from pathlib import Path

from walebook.words.site_files import size_link
from walebook_site.facts import behind_facts
from walebook_site.finishing import WHOLE, pages_of, reader
from walebook_site.frame import SiteFrame
from walebook_site.own_files import OwnFiles, listed, write_own
from walebook_site.paper import paper
from walebook_site.progress import Progress
from walebook_site.results import PublishedFile, Result
from walebook_site.single_file import Page, one_file
from walebook_site.targets import BadTarget

FOLDER = "to-hand-over"
"""Where the files are written, a folder for each pattern."""


def hand_over(frame: SiteFrame, patterns: Sequence[Result], site_dir: str, progress: Progress
              ) -> OwnFiles | None:
    """Write the files of these patterns; they wait to be put in place. None if there is no need.

    The site that the frame was made for is built, and will lie in `site_dir`. Raises Refused where
    the files would lie in a site, NoPaper, Held, and OSError.
    """
    target = Path(os.path.realpath(frame.config.config_file_path)).parent / FOLDER
    if not patterns and not listed(target):
        return None
    site = Path(os.path.realpath(site_dir))
    if site.is_relative_to(target) or target.is_relative_to(site):
        raise BadTarget(f"the files to hand over are written into {target}, and must lie in no "
                        f"site: name another folder than {site_dir} for the site")
    progress.expect(sum(len(_sized(each)) + frame.settings.whole_pattern for each in patterns),
                    "pages written to hand over")
    return write_own(target, _files(frame, patterns, progress))


def _files(frame: SiteFrame, patterns: Sequence[Result], progress: Progress
           ) -> Iterator[tuple[str, bytes]]:
    """Each file's path and content, made when it is its turn. A PDF alone is written where the
    settings have no single files."""
    settings = frame.settings
    single = settings.single_files or not settings.pdf
    page, read = pages_of(frame.site), reader(frame.site)
    for each in patterns:
        sizes = list(_sizes(frame, each))
        chosen = {_name(size): [size] for size in sizes}
        if settings.whole_pattern:
            first = page(f"patterns/{each.slug}/index.html")
            chosen[WHOLE] = [_with_sizes(first), *sizes]
        for name, pages in chosen.items():
            if single:
                yield f"{each.slug}/{name}.html", one_file(pages, page, read,
                                                               frame.language).encode()
            if settings.pdf:
                yield f"{each.slug}/{name}.pdf", paper(pages, read, frame.language)
            progress.step()


def _sizes(frame: SiteFrame, sold: Result) -> Iterator[Page]:
    """The pages of a pattern's sizes, which are no files of the site."""
    for facts in _sized(sold):
        html = frame.render(facts.path, facts.title, sold.text(facts.path), files_only=True)
        yield Page(f"{facts.path.removesuffix('.md')}.html", html)


def _sized(sold: Result) -> list[PublishedFile]:
    """What is known of a pattern's pages that are no files of the site."""
    return [facts for facts in sold.pages
            if facts.path.endswith(".md") and facts not in sold.published]


def _with_sizes(first: Page) -> Page:
    """The overview as it leads to its sizes, which are in the same file."""
    if first.facts is None:
        return first
    links = "".join(f"<li>{size_link(f'{page}.html', size)}</li>"
                    for size, page in first.facts.sizes.items())
    return Page(first.path, behind_facts(first.html, f"<ul>{links}</ul>"))


def _name(page: Page) -> str:
    return page.path.rpartition("/")[2].removesuffix(".html")
