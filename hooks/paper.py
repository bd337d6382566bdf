"""Makes a PDF of a page for printing: tagged, with bookmarks, a running head and page numbers."""

from __future__ import annotations

import logging
import re
from collections.abc import Sequence
from html import escape

from walebook_site.printed_sketch import inked
from walebook_site.running_head import running_head
from walebook_site.single_file import FileReader, Page, article_within, section_id, styles

MISSING = ("a PDF of each size is asked for (pdf in mkdocs.yml), but the library that makes "
           "them cannot be used: {why}. Install it with: pip install 'walebook[pdf]'; on Debian "
           "it needs libpango-1.0-0 and libpangoft2-1.0-0")
_SCREEN_ONLY = re.compile(r"<script\b.*?</script>", re.DOTALL)
_SIGN = re.compile(r'(<svg\b[^>]*aria-hidden="true"[^>]*>)(.*?</svg>)([^<]*)', re.DOTALL)
# The style sheets of the library reach no drawing: labels get the page's typeface, and those of a
# schematic a ground that lines do not cross.
_LABELLED = re.compile(r"<svg\b(?=[^>]*>(?:(?!</svg>).)*<text\b)", re.DOTALL)
_SCHEMATIC = re.compile(r'(?<=<figure class="wb-drawing wb-schematic">).*?</svg>', re.DOTALL)
_ANCHORED = re.compile(r'<g text-anchor="?(\w+)"?>(.*?)</g>', re.DOTALL)
_LABEL = re.compile(r'<text x="?([\d.]+)"? y="?([\d.]+)"?[^>]*>([^<]+)</text>')
_LAST = re.compile(r"(<h1\b[^>]*>[^<]*) (?=[^< ]+</h1>)")  # a title's last word is not left alone
_BEFORE = {"start": 0.0, "middle": 0.5, "end": 1.0}  # how much of a label lies left of its place
WIDE, HIGH, LOW = 5.5, 12, 2.5  # a character, a line, what of it is below the letters [px]
OUTLINE = '<svg class="wb-small" fill="none" stroke="#000"'
_START = re.compile(r'(<ol\b[^>]*?)\sstart="?(\d+)"?')
_FLAT = r"(?:(?!</?g\b).)*"  # drawn, without a group in it
_DRAWN = re.compile(rf'(<g id="([^"]+)"[^>]*>{_FLAT}(?:<g\b[^>]*>{_FLAT}</g>{_FLAT})*</g>)',
                    re.DOTALL)
_ID = re.compile(r' id="[^"]*"')
_USE = re.compile(r'<use href="#([^"]+)"( transform="[^"]*")?\s*/>')


class NoPaper(Exception):
    """The library that makes PDFs, or one that it needs, is not there; says what to install."""


def paper(pages: Sequence[Page], read: FileReader, language: str = "en") -> bytes:
    """Return pages of the site as one PDF, each page's headings its bookmarks.

    Tagged as PDF/UA-1 asks, so that a screen reader reads the steps in order. Links between the
    pages lead within it; others are left as their text. `language` is that of the collection.
    Raises NoPaper when it cannot be made.
    """
    html = _document(pages, read, language)
    try:
        from weasyprint import HTML
    except (ImportError, OSError) as fault:
        raise NoPaper(MISSING.format(why=str(fault).splitlines()[0])) from fault
    # What a browser knows and the library does not is no fault of the page.
    logging.getLogger("weasyprint").setLevel(logging.ERROR)
    logging.getLogger("fontTools").setLevel(logging.ERROR)
    made: bytes = HTML(string=html).write_pdf(pdf_variant="pdf/ua-1")
    return made


def _document(pages: Sequence[Page], read: FileReader, language: str) -> str:
    first = pages[0]
    prefixes = {page.path: f"{section_id(page.path)}--" for page in pages}
    sections = "\n".join(f'<section class="wb-part" id="{section_id(page.path)}">\n'
                         f"{_printable(article_within(page, prefixes, read))}\n</section>"
                         for page in pages)
    return (f'<!doctype html>\n<html lang="{language}" class="wb-paper">\n'
            '<head><meta charset="utf-8">\n'
            f"<title>{escape(first.title, quote=False)}</title>\n"
            f"<style>{styles(pages, read)}</style>{running_head(first.facts)}\n</head>\n"
            '<body dir="ltr" data-md-color-scheme="default">\n'
            f'<main class="md-typeset">\n{sections}\n'
            "</main>\n</body>\n</html>\n")


def _printable(article: str) -> str:
    """Without scripts, and with what the library does not read written out.

    It reads neither the start of a list nor what another drawing of the page defines. A sign in
    a key is named by the words beside it: PDF/UA-1, 7.3, asks for a name of every figure.
    """
    drawn = {name: whole for whole, name in _DRAWN.findall(article)}
    article = _USE.sub(lambda use: _ID.sub(use[2] or "", drawn.get(use[1], ""), count=1), article)
    article = inked(article.replace('<svg class="wb-small"', OUTLINE))
    article = _LAST.sub("\\1\u00a0", article)
    article = _LABELLED.sub('<svg font-family="Source Sans 3"', article)
    article = _SCHEMATIC.sub(lambda drawn: _ANCHORED.sub(_on_ground, drawn[0]), article)
    article = _SIGN.sub(r"\1<title>Sign: \3</title>\2\3", article)
    return _START.sub(lambda ol: f'{ol[1]} style="counter-reset: list-item {int(ol[2]) - 1}"',
                      _SCREEN_ONLY.sub("", article))


def _on_ground(group: re.Match[str]) -> str:
    """The labels of a group, each with a white ground as large as it is."""
    anchor, labels = group[1], group[2]
    grounds = "".join(
        f'<rect x="{float(x) - _BEFORE[anchor] * WIDE * len(label):.1f}" '
        f'y="{float(y) - HIGH + LOW:.1f}" width="{WIDE * len(label):.1f}" height="{HIGH}" '
        'fill="#fff"/>' for x, y, label in _LABEL.findall(labels))
    return f"{grounds}{group[0]}"
