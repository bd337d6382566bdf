"""Shortens the index of the search: of each section of a page, its heading and first sentence.

Every device that searches brings the whole index. What a pattern is found by is written by the
engine, and is short already.
"""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from pathlib import Path

INDEX = "search/search_index.json"
SCRIPT = "search/search_index.js"
"""The index as a script: a page that is opened from disk may read no other file."""
_END = re.compile(r"</(?:p|li|pre)>")
_TAG = re.compile(r"<[^>]+>")
_SENTENCE = re.compile(r"\s*(.+?[.!?:])(?=\s|$)", re.DOTALL)
_PATTERNS = "patterns/"


def shorten(site: Path) -> None:
    """Write the built site's index anew; nothing where the site has none."""
    path = site / INDEX
    if not path.is_file():
        return
    index = json.loads(path.read_text(encoding="utf-8"))
    for entry in index["docs"]:
        if not entry["location"].startswith(_PATTERNS):
            entry["text"] = first_sentence(entry["text"])
    text = json.dumps(index, separators=(",", ":"), ensure_ascii=False)
    path.write_text(text, encoding="utf-8")
    (site / SCRIPT).write_text(f"var __index = {text}", encoding="utf-8")


def first_sentence(html: str) -> str:
    """Return the first sentence of a section's text, as the index has it: plain, and escaped."""
    text = _TAG.sub("", _END.split(html, maxsplit=1)[0])
    found = _SENTENCE.match(text)
    return " ".join((found[1] if found else text).split())


def with_patterns(index: str, entries: Mapping[str, str]) -> str:
    """Return an index, as JSON or as its script, with patterns: by folder what finds each."""
    start, brace, text = index.partition("{")
    whole = json.loads(brace + text)
    for slug, html in entries.items():
        heading, _, text = html.partition("</h1>")
        whole["docs"].append({"location": f"{_PATTERNS}{slug}/index.html#pattern",
                              "title": _TAG.sub("", heading), "text": text})
    return start + json.dumps(whole, separators=(",", ":"), ensure_ascii=False)
