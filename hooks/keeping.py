"""Writes into the site's worker what belongs to this edition: its files, and what goes together."""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path
from typing import Any

from walebook.source import page_names
from walebook.words import site_files as words
from walebook_site.single_file import linked, page_at
from walebook_site.slimming import slim_code

PARTS = ("texts", "list", "cache", "install", "pages", "asks")
"""The files that the worker is joined from, in their order."""
EMPTY = "const EDITION = null;"
DIGITS = 20  # of a digest, in hexadecimal: as many as the worker compares
_FRAME = re.compile(r"(index|offline)\.html|manifest\.webmanifest"
                    r"|assets/(?!search\.|try-it\.).*(?<!LICENSE\.txt)")
_READING = re.compile(r"[^/]+\.html|(techniques|bands|closings)/.*|search/search_index\.js"
                      r"|assets/search\.[0-9a-f]+\.js")
_RUNTIME = re.compile(r"runtime/.*(?<!LICENSES\.txt)")
_TRY_IT = re.compile(r"(runtime|try-it)/.*(?<!LICENSES\.txt)|try-it\.html|assets/try-it\..*"
                     r"|patterns/pattern\.schema\.json")
_PATTERN = re.compile(r"patterns/([^/]+)/.*")
_LIST = "files.json"
"""The list of a pattern's files, in the pattern's folder."""
_ALONE = re.compile(rf".*{page_names.BESIDE}\.html"
                    rf"|.*\.pdf|.*/{re.escape(page_names.PREVIEW)}|.*LICENSES?\.txt|404\.html"
                    r"|sitemap\.xml.*"
                    r"|sw\.js|edition\.json|search/search_index\.json|assets/size-page\.png"
                    rf"|patterns/[^/]+/{re.escape(_LIST)}")


KeptGroup = dict[str, Any]
"""What is kept together, as the worker has it: title and version first."""


@dataclass(frozen=True, slots=True)
class BuiltFile:
    """A file of the site: its path, the first digits of its digest, its length [bytes]."""

    path: str
    digest: str
    length: int

    @property
    def as_json(self) -> list[str | int]:
        """The file as lists have it."""
        return [self.path, self.digest, self.length]


def write_worker(site: Path, parts: Path) -> str:
    """Write the worker of the built site, joined from `parts`, and the edition's name; return it.

    The edition is named by the digest of all its files and of the worker itself: any change of
    any of them makes another edition, and the same files make the same. Each pattern's files stand
    in a list beside its pages, of which the worker has the digest: so it grows with the patterns,
    not with their pages. All are written under another name first, so that no half of one is ever
    there. Raises ValueError when there is no place for the list of files in the worker, or when the
    site lacks a page that every device has.
    """
    source = "".join(slim_code((parts / f"{part}.js").read_text("utf-8")) for part in PARTS)
    if source.count(EMPTY) != 1:
        raise ValueError(f"the worker does not have the line {EMPTY!r} once")
    files = _files(site)
    missing = sorted({"index.html", "offline.html"} - {file.path for file in files})
    if missing:
        raise ValueError(f"{site} has no {' and no '.join(missing)}: it is not a whole site")
    patterns, fixed = _parted(files)
    groups = _fixed_groups(fixed)
    for slug, own in patterns.items():
        groups[slug] = _pattern_group(site, slug, own, fixed)
    listed = _listed(fixed, groups)
    edition = sha256(f"{source}{listed}".encode()).hexdigest()[:DIGITS]
    digest = sha256(listed.encode()).hexdigest()[:DIGITS]
    filled = compact_json({"edition": edition, "list": digest,
                           "files": [f.as_json for f in fixed], "groups": groups})
    _write(site / "sw.js", source.replace(EMPTY, f"const EDITION = {filled};"))
    _write(site / "edition.json", compact_json({"edition": edition}))
    return edition


def _write(path: Path, text: str) -> None:
    beside = path.with_name(f"{path.name}.part")
    beside.write_text(text, encoding="utf-8")
    beside.replace(path)


def _listed(fixed: Iterable[BuiltFile], groups: Mapping[str, KeptGroup]) -> str:
    """The list as one text, as the worker writes it too to see that nothing of it is missing."""
    lines = ["\t".join(map(str, file.as_json)) for file in fixed]
    for name in sorted(groups):
        title, version, *what = groups[name].values()
        lines.append("\t".join((name, title, version, *map(_joined, what))))
    return "".join(f"{line}\n" for line in lines)


def _joined(value: object) -> str:
    return ",".join(map(str, value)) if isinstance(value, list) else str(value)


def _files(site: Path) -> list[BuiltFile]:
    """Every file that is kept on devices, in the order of their paths."""
    paths = sorted(p.relative_to(site).as_posix() for p in site.rglob("*") if p.is_file())
    return [_built(site, path) for path in paths
            if not _ALONE.fullmatch(path) and not _is_former(site, path)]


def _is_former(site: Path, path: str) -> bool:
    """True for a page that says what became of a pattern or size: what a reader saved of that
    stands at its address, and never makes room for it."""
    return bool(_PATTERN.fullmatch(path)) and path.endswith(".html") \
        and page_names.FORMER in page_at(site, path).html


def _built(site: Path, path: str) -> BuiltFile:
    data = (site / path).read_bytes()
    return BuiltFile(path, sha256(data).hexdigest()[:DIGITS], len(data))


def _parted(files: Iterable[BuiltFile]) -> tuple[dict[str, list[BuiltFile]], list[BuiltFile]]:
    """The files of each pattern, by its name, and all others. A pattern has a first page."""
    by_owner: dict[str, list[BuiltFile]] = {}
    for file in files:
        found = _PATTERN.fullmatch(file.path)
        by_owner.setdefault(found[1] if found else "", []).append(file)
    patterns = {slug: own for slug, own in by_owner.items() if slug and any(
        file.path == f"patterns/{slug}/index.html" for file in own)}
    others = [file for slug, own in by_owner.items() if slug not in patterns for file in own]
    return patterns, sorted(others, key=lambda file: file.path)


def _fixed_groups(fixed: Iterable[BuiltFile]) -> dict[str, KeptGroup]:
    """What is kept together beside patterns: the frame of the site, and all its reading.

    `files` has their places in the list of files.
    """
    places = {file.path: place for place, file in enumerate(fixed)}
    runtime = _matching(_RUNTIME, places)
    gauge = {"title": words.MY_GAUGE, "version": "",
             "files": runtime}
    tried = {"title": words.TRY_IT, "version": "",
             "files": _matching(_TRY_IT, places)}
    return {"frame": {"title": words.FRAME, "version": "",
                      "files": _matching(_FRAME, places)},
            "reading": {"title": words.READING,
                        "version": "", "files": _matching(_READING, places)},
            **({"runtime": gauge} if runtime else {}),
            **({"try-it": tried} if "try-it.html" in places else {})}


def _pattern_group(site: Path, slug: str, own: Iterable[BuiltFile], fixed: Iterable[BuiltFile]
                   ) -> KeptGroup:
    """Write the list of a pattern's files; return where it lies, and what it comes to [bytes].

    A pattern brings the pages that its own pages link to, so that these open as well.
    """
    wanted = {goal for file in own if file.path.endswith(".html")
              for goal in linked(page_at(site, file.path))}
    files = sorted((*own, *(file for file in fixed if file.path in wanted)),
                   key=lambda file: file.path)
    path = f"patterns/{slug}/{_LIST}"
    _write(site / path, compact_json([file.as_json for file in files]))
    listed, first = _built(site, path), page_at(site, f"patterns/{slug}/index.html")
    return {"title": first.title, "version": first.facts.version if first.facts else "",
            "list": listed.as_json, "bytes": listed.length + sum(file.length for file in files)}


def _matching(kind: re.Pattern[str], places: Mapping[str, int]) -> list[int]:
    return [place for path, place in places.items() if kind.fullmatch(path)]


def compact_json(value: object) -> str:
    """Return a value as JSON without spaces."""
    return json.dumps(value, ensure_ascii=False, separators=(",", ":"))
