"""Adds to the site the pages of patterns that were renamed or withdrawn."""

from __future__ import annotations

from collections.abc import Iterable
from posixpath import basename, dirname, splitext

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import File, Files, InclusionLevel
from walebook.pages.former_page import former_pages
from walebook.pattern.collection import CollectionSettings
from walebook_site.results import Result


def add_former(files: Files, config: MkDocsConfig, settings: CollectionSettings,
               patterns: Iterable[Result], folders: Iterable[str] = ()) -> None:
    """Add the pages of every former pattern; they lead to what is published in its place.

    In a preview, where a pattern is knitted when it is asked for, the `folders` alone are known.
    """
    titles = {f"patterns/{slug}": {"index": slug} for slug in folders}
    titles |= {f"patterns/{each.slug}": {splitext(basename(page.path))[0]: page.title
                                         for page in each.published if page.path.endswith(".md")}
               for each in patterns}
    for one in settings.former_patterns:
        for page in former_pages(one, titles.get(f"patterns/{one.now}", {})):
            assert dirname(page.path) not in titles  # the check of the settings refuses it
            files.append(File.generated(config, page.path, content=page.text,
                                        inclusion=InclusionLevel.NOT_IN_NAV))
