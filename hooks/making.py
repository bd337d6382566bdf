"""What the preview asks for of a pattern: the page that is looked at, then all that there is."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path, PurePosixPath
from typing import Any

from walebook.core.problems import has_errors
from walebook.pages import page_names, write_page
from walebook.proof.proof import Proof
from walebook_site.cache import Cache, CacheEntry
from walebook_site.former import gone_size_of
from walebook_site.page_texts import title_of
from walebook_site.prover import as_text
from walebook_site.proving import Workshop
from walebook_site.reading import Folder, Reading
from walebook_site.results import as_json

AnswerData = dict[str, Any]


def answer(root: Path, request: Mapping[str, Any], *, current: bool) -> AnswerData:
    """Return what is asked for of a pattern: "page" one page of it, "whole" its entry.

    An entry is made and kept only by code that is `current`, as its digest says: else nothing is.
    """
    reading = Reading(root)
    shop = Workshop(reading, Cache.beside(root), True)
    folder = reading.folder(request["slug"])
    entry = shop.find(folder)
    if entry is None and request["do"] == "page":
        return _page(shop, folder, request["page"])
    if entry is None and not current:
        return {"stale": True}
    return _whole(shop, folder, entry or shop.make(folder))


def _whole(shop: Workshop, folder: Folder, entry: CacheEntry) -> AnswerData:
    return {**_answer(shop, folder, entry.found["problems"]),
            "file": str(entry.file) if entry.file else None,
            "data": "" if entry.file else as_text(entry.data)}


def _page(shop: Workshop, folder: Folder, path: str) -> AnswerData:
    """One page, for which nothing else is written; "missing" where the pattern has it not.

    For the page of a size, no other size is knitted.
    """
    proved = shop.prover.prove(folder, look=PurePosixPath(path).stem)
    data = _answer(shop, folder, [as_json(each) for each in proved.problems])
    if proved.proof is None or has_errors(proved.problems):
        return data
    return {**data, **_text(proved.proof, path)}


def _text(proof: Proof, path: str) -> AnswerData:
    if path not in page_names(proof):
        page = gone_size_of(proof.pattern, path)
        return {"page": path, "title": page[0], "text": page[1]} if page else {"missing": path}
    text = write_page(proof, path).text
    return {"page": path, "text": text, "title": title_of(text)}


def _answer(shop: Workshop, folder: Folder, problems: list[Any]) -> AnswerData:
    """A pattern's findings, and apart from them those in the files that all patterns share."""
    shared = list(map(as_json, shop.shared_problems()))
    return {"draft": folder.is_draft, "problems": problems, "shared": shared,
            "lines": _lines(shop, [*problems, *shared])}


def _lines(shop: Workshop, problems: list[list[Any]]) -> dict[str, str]:
    """The author's line of each finding, by "file:line"; those of files that were not read too."""
    lines: dict[str, str] = {}
    for _, _, file, number, *_ in problems:
        if file not in shop.reading.lines and (shop.reading.root / file).is_file():
            shop.reading.apart(shop.reading.root / file)
        those = shop.reading.lines.get(file, ())
        if 1 <= number <= len(those):
            lines[f"{file}:{number}"] = those[number - 1]
    return lines
