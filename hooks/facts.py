"""Reads the facts of a pattern's page from the one element in which the engine wrote them."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass

from walebook.pages import BLOCK

_START = f'<script type="application/json" id="{BLOCK}">'
_END = "</script>"


@dataclass(frozen=True, slots=True, kw_only=True)
class BuiltPageFacts:
    """What the hooks need of a page's facts; `page` is the size page's name, "" on a first page.

    `sizes` leads from the name of every size to its page's name, in the pattern's order.
    """

    heading: str
    version: str
    date: str
    designer: str
    licence: str
    sizes: Mapping[str, str]
    page: str


def facts_in(html: str) -> BuiltPageFacts | None:
    """Return the facts of a page that the engine wrote; None of any other page."""
    _, start, behind = html.partition(_START)
    if not start:
        return None
    given = json.loads(behind.partition(_END)[0])
    return BuiltPageFacts(heading=given.get("heading", given["title"]), version=given["version"],
                          date=given["date"], designer=given["designer"], licence=given["licence"],
                          sizes=given["sizes"], page=given["sizes"].get(given.get("size"), ""))


def behind_facts(html: str, more: str) -> str:
    """Return the page with more HTML behind its facts, which stand below its first lines.

    Raises ValueError when the page has none.
    """
    at = html.index(_END, html.index(_START)) + len(_END)
    return html[:at] + more + html[at:]
