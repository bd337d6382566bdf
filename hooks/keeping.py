"""Writes into the site's worker what belongs to this edition: its files, and what goes together."""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path

from walebook.source import page_names
from walebook_site.single_file import Page, linked
from walebook_site.slimming import slim_code

PARTS = ("list", "cache", "install", "pages", "asks")
"""The files that the worker is joined from, in their order."""
EMPTY = "const EDITION = null;"
DIGITS = 20  # of a digest, in hexadecimal: as many as the worker compares
_FRAME = re.compile(r"(index|offline)\.html|manifest\.webmanifest"
                    r"|assets/(?!search\.).*(?<!LICENSE\.txt)")
_READING = re.compile(r"[^/]+\.html|(techniques|bands|closings)/.*|search/search_index\.js"
                      r"|assets/search\.[0-9a-f]+\.js")
_PATTERN = re.compile(r"patterns/([^/]+)/.*")
_ALONE = re.compile(rf".*{page_names.BESIDE}\.html"
                    r"|.*\.pdf|.*LICENSE\.txt|404\.html|sitemap\.xml.*"
                    r"|sw\.js|edition\.json|search/search_index\.json|assets/size-page\.png")


@dataclass(frozen=True, slots=True)
class BuiltFile:
    """A file of the site: its path, the first digits of its digest, its length [bytes]."""

    path: str
    digest: str
    length: int


def write_worker(site: Path, parts: Path) -> str:
    """Write the worker of the built site, joined from `parts`, and the edition's name; return it.

    The edition is named by the digest of all its files and of the worker itself: any change of
    any of them makes another edition, and the same files make the same. Both are written under
    another name first, so that no half of one is ever there. Raises ValueError when there is no
    place for the list of files in the worker, or when the site lacks a page that every device has.
    """
    source = "".join(slim_code((parts / f"{part}.js").read_text("utf-8")) for part in PARTS)
    if source.count(EMPTY) != 1:
        raise ValueError(f"the worker does not have the line {EMPTY!r} once")
    files = _files(site)
    missing = sorted({"index.html", "offline.html"} - {file.path for file in files})
    if missing:
        raise ValueError(f"{site} has no {' and no '.join(missing)}: it is not a whole site")
    groups = _groups(site, files)
    listed = _listed(files, groups)
    edition = sha256(f"{source}{listed}".encode()).hexdigest()[:DIGITS]
    filled = _json({"edition": edition, "list": sha256(listed.encode()).hexdigest()[:DIGITS],
                    "files": [[f.path, f.digest, f.length] for f in files], "groups": groups})
    _write(site / "sw.js", source.replace(EMPTY, f"const EDITION = {filled};"))
    _write(site / "edition.json", _json({"edition": edition}))
    return edition


def _write(path: Path, text: str) -> None:
    beside = path.with_name(f"{path.name}.part")
    beside.write_text(text, encoding="utf-8")
    beside.replace(path)


def _listed(files: Iterable[BuiltFile], groups: Mapping[str, Mapping[str, object]]) -> str:
    """The list as one text, as the worker writes it too to see that nothing of it is missing."""
    lines = ["\t".join((file.path, file.digest, str(file.length))) for file in files]
    for name in sorted(groups):
        title, version, places = (groups[name][key] for key in ("title", "version", "files"))
        assert isinstance(places, list)
        lines.append(f"{name}\t{title}\t{version}\t{','.join(map(str, places))}")
    return "".join(f"{line}\n" for line in lines)


def _files(site: Path) -> list[BuiltFile]:
    """Every file that is kept on devices, in the order of their paths."""
    paths = sorted(p.relative_to(site).as_posix() for p in site.rglob("*") if p.is_file())
    return [_built(site, path) for path in paths if not _ALONE.fullmatch(path)]


def _built(site: Path, path: str) -> BuiltFile:
    data = (site / path).read_bytes()
    return BuiltFile(path, sha256(data).hexdigest()[:DIGITS], len(data))


def _groups(site: Path, files: Iterable[BuiltFile]) -> dict[str, dict[str, object]]:
    """What is kept together: the frame of the site, all its reading, and each pattern.

    A pattern brings the pages that its own pages link to, so that these open as well.
    """
    places = {file.path: place for place, file in enumerate(files)}
    groups: dict[str, dict[str, object]] = {
        "frame": _group("The frame of the site", _matching(_FRAME, places)),
        "reading": _group("Everything to read: techniques, bands, closings and search",
                          _matching(_READING, places))}
    slugs = dict.fromkeys(found[1] for path in places if (found := _PATTERN.fullmatch(path))
                          and f"patterns/{found[1]}/index.html" in places)
    for slug in slugs:
        first = _page(site, f"patterns/{slug}/index.html")
        own = [path for path in places if path.startswith(f"patterns/{slug}/")]
        wanted = {goal for path in own if path.endswith(".html")
                  for goal in linked(_page(site, path))}
        groups[slug] = _group(
            first.title, [place for path, place in places.items() if path in wanted or path in own],
            first.facts.version if first.facts else "")
    return groups


def _group(title: str, files: list[int], version: str = "") -> dict[str, object]:
    return {"title": title, "version": version, "files": files}


def _matching(kind: re.Pattern[str], places: Mapping[str, int]) -> list[int]:
    return [place for path, place in places.items() if kind.fullmatch(path)]


def _page(site: Path, path: str) -> Page:
    return Page(path, (site / path).read_text(encoding="utf-8"))


def _json(value: object) -> str:
    return json.dumps(value, ensure_ascii=False, separators=(",", ":"))
