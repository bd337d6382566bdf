"""The pages and files of a preview as a browser gets them: with findings, and with its script."""

from __future__ import annotations

import json
import re
from base64 import b64decode
from collections.abc import Callable
from dataclasses import dataclass, replace
from hashlib import sha256
from html import escape
from mimetypes import guess_type
from pathlib import Path

from walebook.markup.units_shown import in_units
from walebook.pages import BINARY, Card, first_list, further_lists
from walebook.source.page_names import CHARTS
from walebook_site.compared_page import PAGE as COMPARED
from walebook_site.compared_page import TITLE as COMPARED_TITLE
from walebook_site.compared_page import ComparedPage, link_from
from walebook_site.finishing import BESIDE
from walebook_site.frame import SiteFrame
from walebook_site.notices import errors_above, other_findings, remainder
from walebook_site.page_texts import title_of
from walebook_site.photographs import published
from walebook_site.previewing import Patterns, findings_of, slug_of, source_of
from walebook_site.search import with_patterns
from walebook_site.shown import ShownPattern
from walebook_site.text_files import PICTURES

OWN = ".preview"  # in the folder of the site's sources: the preview's script and style
LIST_MARKER = "<!-- walebook:pattern-list -->"
DRAFT = '<p class="wb-draft">Draft: this pattern is not published.</p>'
FILES_ONLY = "Files only: this page is published, and these are not."
_ARTICLE = re.compile(r"<article\b[^>]*>")
_DIGITS = 16
_NO_NAME = re.compile(r"[^a-z0-9-]+")  # a folder's name that is at fault is no Markdown either
_MOST = 64  # pages that are kept as they were rendered


@dataclass(frozen=True, slots=True)
class Answer:
    """What a browser gets: the bytes, what they are, and whether there is such a page."""

    body: bytes
    kind: str
    found: bool = True

    @property
    def mark(self) -> str:
        """The first digits of the bytes' digest."""
        return _mark(self.body)


class Preview:
    """The site as it is shown while it is written; `base` is the path that it is served under."""

    def __init__(self, frame: SiteFrame, patterns: Patterns, base: str) -> None:
        self.frame, self.patterns, self.base = frame, patterns, base
        self.notice = ""
        self._kept: dict[str, tuple[object, str]] = {}
        self._compared = ComparedPage(patterns.root)

    def answer(self, path: str) -> Answer:
        """Return the page or file at a path of the site; a pattern's is waited for."""
        if path.startswith(f"{OWN}/"):
            return _file(Path(self.frame.config.docs_dir) / path)
        if not path.endswith(".html") or path.endswith(BESIDE):
            return self._other(path)
        html = self.html(path)
        if html is None:
            return Answer(self._with_script(path, self._missing()).encode(), "text/html", False)
        return Answer(self._with_script(path, html).encode(), "text/html")

    def seen(self, path: str) -> str:
        """Return the mark of a page, by which a browser knows whether it has this one."""
        html = self.html(path)
        pictures = _pictures(self.patterns.root, slug_of(path))
        return _mark(f"{html or self._missing()}{pictures}".encode())

    def is_ready(self, path: str) -> bool:
        """True when a page is as new as all that it shows; a list waits for the last pattern."""
        slug = slug_of(path)
        known = self.patterns.known().get(slug)
        if known is not None:
            return known.is_as_new(source_of(path))
        return bool(slug) or self.patterns.is_idle

    def others(self, path: str) -> str:
        """Return what there is to say beside the page itself, as HTML."""
        texts = [each for each in (self.notice, self.patterns.fault) if each]
        texts += [each.fault for each in self.patterns.known().values() if each.fault]
        own = self.patterns.known().get(slug_of(path))
        first = remainder("This pattern", own.now.problems, own.now.lines) if own else ""
        first += remainder("Shared files", *self.patterns.shared())
        return first + other_findings(
            findings_of(self.patterns.known(), slug_of(path)), self.base, self.patterns.left, texts,
            of_one=own is not None) + link_from(self.base, path)

    def html(self, path: str) -> str | None:
        """Return a page of the site, None where there is none."""
        if slug_of(path) and (made := self._pattern_page(path)) is not None:
            return made
        html: str | None
        if path == COMPARED:
            return self._compared_page()
        try:
            html = _inside(self.frame.site, path).read_text(encoding="utf-8")
        except (OSError, ValueError):
            html = self._further_list(path)
        if html is None:
            return None
        if LIST_MARKER in html:
            html = html.replace(LIST_MARKER, self._list())
        return _on_top(html, errors_above((), {}, self.patterns.shared(), older=False))

    def _list(self) -> str:
        """The list of patterns as far as they are knitted, or how many are still to be."""
        cards, left = self._cards(), self.patterns.left
        if cards or not left:
            return first_list(cards)
        return f"<p>Knitting {left} pattern{'s' * (left > 1)}. The list comes by itself.</p>"

    def _pattern_page(self, path: str) -> str | None:
        slug, source = slug_of(path), source_of(path)
        known = self.patterns.shown(slug, source)
        if known is None:
            return None
        shared = self.patterns.shared()
        state = (id(self.frame), known.version, shared)
        kept = self._kept.get(path)
        if kept is not None and kept[0] == state:
            return kept[1]
        page = known.page(source)
        if page is None and (known.good or not known.now.has_errors):
            return None
        name = _NO_NAME.sub(" ", slug)
        title, text = page or (name, f"# {name}\n")
        above = errors_above(known.now.problems, known.now.lines, shared, older=page is not None)
        text = in_units(text, self.frame.units)
        html = self.frame.render(source, title, text)
        above += DRAFT if known.now.draft else ""
        html = _on_top(html, above + sold_notice(known, source))
        while len(self._kept) >= _MOST:
            self._kept.pop(next(iter(self._kept)), None)
        self._kept[path] = state, html
        return html

    def _compared_page(self) -> str:
        """What changed since the last commit, as the patterns are now."""
        now = tuple((slug, each.version) for slug, each in self.patterns.known().items())
        text = self._compared.text(now)
        if self._kept.get(COMPARED, (None, ""))[0] != (state := (id(self.frame), text)):
            html = self.frame.render(source_of(COMPARED), COMPARED_TITLE, text)
            self._kept[COMPARED] = state, html
        return self._kept[COMPARED][1]

    def _further_list(self, path: str) -> str | None:
        """A further page of the list of patterns, where it has one at this path."""
        for page in further_lists(self._cards()) if path.startswith("patterns-") else ():
            if page.path == source_of(path):
                return self.frame.render(page.path, title_of(page.text), page.text)
        return None

    def _cards(self) -> tuple[Card, ...]:
        known = ((each, Card.from_json(each.good.found["pattern"]["card"]))
                 for each in self.patterns.known().values() if each.good is not None)
        return tuple(replace(card, html=f"{DRAFT}{card.html}") if each.now.draft else card
                     for each, card in known)

    def _other(self, path: str) -> Answer:
        """A file: of a pattern, its counts or a picture; or one of the site's."""
        slug = slug_of(path)
        if slug and not path.endswith((BESIDE, ".pdf")):
            if Path(path).suffix.lower() in PICTURES and \
                    not path.rpartition("/")[2].startswith(CHARTS):
                return _file(_inside(self.patterns.root / "patterns" / slug,
                                     path.rpartition("/")[2]), published)
            known = self.patterns.shown(slug, path)
            page = known.page(path) if known else None
            if page is not None:
                body = b64decode(page[1]) if path.endswith(BINARY) else page[1].encode()
                return Answer(body, _kind(path))
        if path.startswith("search/search_index."):
            return self._index(_file(_inside(self.frame.site, path)))
        beside = self.frame.beside(path, self.html, self._read)
        return Answer(beside, _kind(path)) if beside else _file(_inside(self.frame.site, path))

    def _index(self, built: Answer) -> Answer:
        """The index of the search, with the patterns as far as they are known."""
        if not built.found:
            return built
        entries = {slug: each.good.found["pattern"]["search"]
                   for slug, each in self.patterns.known().items() if each.good is not None}
        return Answer(with_patterns(built.body.decode(), entries).encode(), built.kind)

    def _read(self, path: str) -> bytes:
        answer = self._other(path)
        if not answer.found:
            raise FileNotFoundError(path)
        return answer.body

    def _missing(self) -> str:
        try:
            return (self.frame.site / "404.html").read_text(encoding="utf-8")
        except OSError:
            return "<!doctype html><html><head></head><body>There is no such page.</body></html>"

    def _with_script(self, path: str, html: str) -> str:
        own = f"{self.base}{OWN}"
        head = (f'<link rel="stylesheet" href="{own}/preview.css">'
                f'<script defer src="{own}/preview.js" data-base="{escape(self.base)}" '
                f'data-page="{escape(path)}" data-seen="{self.seen(path)}"></script></head>')
        return html.replace("</head>", head, 1)


def sold_notice(known: ShownPattern, source: str) -> str:
    """Return, on the overview of a pattern that is sold, the way to what the site will not have.
    """
    facts = known.good.found["pattern"] if known.good else {}
    if not facts.get("files_only") or not source.endswith("/index.md"):
        return ""
    sizes = "".join(f'<li><a href="{path.rpartition("/")[2].removesuffix(".md")}.html">'
                    f"{escape(title)}</a></li>" for path, title, _ in facts["pages"]
                    if path.endswith(".md") and path != source)
    return f'<div class="wb-draft">{FILES_ONLY}<ul>{sizes}</ul></div>'


def changes(preview: Preview, path: str, seen: str, shown: str) -> str | None:
    """Return as JSON what is new for a browser that has seen these; None if nothing is."""
    ready = preview.is_ready(path)
    others = preview.others(path)
    mark = _mark(others.encode())
    again = ready and preview.seen(path) != seen
    if not again and mark == shown:
        return None
    return json.dumps({"reload": again, "mark": mark, "html": others})


def _on_top(html: str, above: str) -> str:
    """A page with more HTML where its article begins."""
    found = _ARTICLE.search(html)
    return html[:found.end()] + above + html[found.end():] if found and above else html


def _pictures(root: Path, slug: str) -> str:
    """What tells whether a pattern's pictures are the same: a page only names them."""
    if not slug:
        return ""
    try:
        found = [path for path in (root / "patterns" / slug).iterdir()
                 if path.suffix.lower() in PICTURES]
        return ";".join(f"{path.name} {info.st_mtime_ns} {info.st_size}" for path in sorted(found)
                        for info in [path.stat()])
    except OSError:
        return ""


def _inside(folder: Path, path: str) -> Path:
    """The file at a path in a folder. Raises ValueError for one that leads out of it."""
    found = (folder / path).resolve()
    found.relative_to(folder.resolve())
    return found


def _file(path: Path, read: Callable[[Path], bytes] = Path.read_bytes) -> Answer:
    try:
        return Answer(read(path), _kind(path.name))
    except OSError:
        return Answer(b"There is no such file.", "text/plain", False)


def _kind(name: str) -> str:
    if name.endswith(".js"):
        return "text/javascript"
    return guess_type(name)[0] or "application/octet-stream"


def _mark(data: bytes) -> str:
    return sha256(data).hexdigest()[:_DIGITS]
