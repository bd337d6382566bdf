"""Leaves the pages for designers out of a site: its knitters do not need them."""

from __future__ import annotations

import posixpath
import re
from collections.abc import Collection, Iterator
from typing import Any

SECTION = "For designers"  # of our navigation
_LINK = re.compile(r"\[((?:[^\[\]]|\[[^\]]*\])*)\]\(([^()\s#]+\.md)(?:#[^()\s]*)?\)")


def designer_pages(nav: list[Any]) -> set[str]:
    """Return the pages of the section for designers."""
    return {page for item in nav if isinstance(item, dict) and SECTION in item
            for page in _pages(item[SECTION])}


def _pages(items: list[Any]) -> Iterator[str]:
    for item in items:
        if isinstance(item, dict):
            for within in item.values():
                yield from _pages(within if isinstance(within, list) else [within])
        else:
            yield item


def without_section(nav: list[Any]) -> list[Any]:
    """Return a navigation without the section for designers."""
    return [item for item in nav if not (isinstance(item, dict) and SECTION in item)]


def unlinked(markdown: str, page: str, gone: Collection[str]) -> str:
    """Return the text of a page in which the words of a link to a page that is gone stay alone."""
    def words(link: re.Match[str]) -> str:
        target = posixpath.normpath(posixpath.join(posixpath.dirname(page), link[2]))
        return link[1] if target in gone else link[0]

    return _LINK.sub(words, markdown) if gone else markdown
