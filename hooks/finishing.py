"""Finishes the built pages: what may be loaded, what lies beside a size's page, what is kept."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from collections.abc import Collection as Group
from dataclasses import dataclass, fields
from functools import cache, partial
from pathlib import Path
from posixpath import dirname

from walebook.pages.sketch import FILE as SKETCH
from walebook.source import page_names
from walebook.words import site_files as words
from walebook_site.facts import behind_facts, facts_in
from walebook_site.paper import paper
from walebook_site.policy import guard
from walebook_site.preview_picture import preview_picture
from walebook_site.progress import Progress
from walebook_site.running_head import running_head
from walebook_site.single_file import FileReader, Page, one_file, page_at
from walebook_site.slimming import slim_html

BESIDE = f"{page_names.BESIDE}.html"
WHOLE = page_names.WHOLE
FIRST_PAGES = "patterns/*/index.html"


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings:
    """What is published beside the pages: set under `extra: walebook:`.

    With `my_gauge` the site has the runtime of "My gauge", with `try_it` the page "Try it".
    """

    single_files: bool = True
    whole_pattern: bool = False
    pdf: bool = False
    preview_picture: bool = False
    my_gauge: bool = False
    try_it: bool = False

    @classmethod
    def read(cls, extra: Mapping[str, object]) -> Settings:
        """Return the settings of a site; raises ValueError, saying what is wrong with them."""
        given = extra.get("walebook") or {}
        known = [field.name for field in fields(cls)]
        if not isinstance(given, Mapping) or not all(
                name in known and isinstance(value, bool) for name, value in given.items()):
            raise ValueError(f"extra: walebook: takes {', '.join(known)}, each true or false")
        return cls(**given)


def finish(html: str, settings: Settings, *, files_only: bool = False, further: str = "") -> str:
    """Return a page as it is published: with its running head, its files to keep, its policy.

    With `files_only` nothing lies beside it. `further` is HTML that a size's page has besides.
    """
    facts = facts_in(html)
    if facts and facts.page:
        html = html.replace("</head>", f"{running_head(facts)}</head>", 1)
    if facts and facts.page and not files_only:
        html = behind_facts(html, _files(facts.page, settings) + further)
    elif facts and settings.whole_pattern and not files_only:
        html = behind_facts(html, _files(WHOLE, settings))
    return guard(slim_html(html))


def as_preview(html: str) -> str:
    """Return a page that says that it is of a preview: it saves nothing on the reader's device."""
    return html.replace("</head>", '<meta name="walebook-preview" content="yes"></head>', 1)


def _files(name: str, settings: Settings) -> str:
    """The links to what lies beside a page; nothing where nothing does."""
    links = []
    if settings.single_files:
        links.append(words.download_one_file(f"{name}{BESIDE}", whole=name == WHOLE))
    if settings.pdf:
        links.append(words.download_pdf(f"{name}.pdf"))
    return f'<p class="wb-hand-over">{" ".join(links)}</p>' if links else ""


def publish_beside(site: Path, settings: Settings, progress: Progress,
                   files_only: Group[str] = (), language: str = "en") -> None:
    """Write one file, and a PDF, beside the page of each size, where the settings ask for them, and
    the picture that a link to a pattern shows.

    The patterns in the folders `files_only` have no page of a size. `language` is that of the
    collection. Raises NoPaper or NoPicture
    when what is asked for cannot be made.
    """
    read = reader(site)
    page = pages_of(site)
    progress.expect(_to_publish(site, settings, files_only), "pages published as files")
    for folder, names in _by_pattern(site, page):
        if settings.preview_picture and (sketch := site / folder / SKETCH).is_file():
            drawn = preview_picture(sketch.read_text(encoding="utf-8"))
            (site / folder / page_names.PREVIEW).write_bytes(drawn)
        if folder.rpartition("/")[2] in files_only:
            continue
        sizes = {name: [page(f"{folder}/{name}.html")] for name in names}
        if settings.whole_pattern:
            sizes[WHOLE] = [page(f"{folder}/index.html"), *(p for (p,) in sizes.values())]
        for name, pages in sizes.items():
            if settings.single_files:
                (site / folder / f"{name}{BESIDE}").write_text(
                    one_file(pages, page, read, language), encoding="utf-8")
            if settings.pdf:
                if len(pages) > 1:
                    progress.begin(f"{folder.rpartition('/')[2]}/{name}.pdf")
                (site / folder / f"{name}.pdf").write_bytes(paper(pages, read, language))
            progress.step(len(pages))


def _to_publish(site: Path, settings: Settings, files_only: Group[str]) -> int:
    """How many pages are published as files: those of sizes, and where that is asked for each
    overview and all of its sizes once more, in one file."""
    firsts = [path.parent.name for path in site.glob(FIRST_PAGES)]
    sizes = len(list(site.glob("patterns/*/*.html"))) - len(firsts)
    overviews = sum(slug not in files_only for slug in firsts)
    return sizes + (overviews + sizes) * settings.whole_pattern


def reader(site: Path) -> FileReader:
    """Return what reads files of the site; what all pages share is kept, and no pattern's own."""
    kept = cache(lambda path: (site / path).read_bytes())
    return lambda path: (site / path).read_bytes() if _is_own(path) else kept(path)


def pages_of(site: Path) -> Callable[[str], Page]:
    """Return what reads pages of the site; the reading is kept, and no pattern's own."""
    fresh = partial(page_at, site)
    kept = cache(fresh)
    return lambda path: fresh(path) if _is_own(path) else kept(path)


def _is_own(path: str) -> bool:
    return path.startswith("patterns/")


def _by_pattern(site: Path, page: Callable[[str], Page]) -> Iterator[tuple[str, list[str]]]:
    """Each pattern's folder in the site, and the names of its sizes' pages in their order."""
    for path in sorted(site.glob(FIRST_PAGES)):
        first = page(path.relative_to(site).as_posix())
        if first.facts:
            yield dirname(first.path), list(first.facts.sizes.values())
