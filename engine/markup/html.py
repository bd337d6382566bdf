"""Small pieces of page text: escaping, headings, lists, tables; nothing here knows knitting.

Every text that comes from a pattern source passes `esc` or `heading` before it is on a page.
"""

from __future__ import annotations

import html
import json
import re
from collections.abc import Iterable, Sequence
from functools import lru_cache

from ..machine.records import dataclass

_UNSEEN = re.compile(r"[\x00-\x20\x7f-\x9f\u2028\u2029\ufeff]+")
_MARKUP = re.compile(r"[^A-Za-z0-9 ,.:;/()'\u00a0-\U0010ffff-]")
_PLAIN = frozenset("ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-._~")
_QUOTED = re.compile(rb"%([0-9A-Fa-f]{2})")
_UNPRINTABLE = re.compile(r"[\x7f-\x9f\u2028\u2029\ufeff\ufffe\uffff]")


@lru_cache(maxsize=4096)
def esc(text: str) -> str:
    """`text` as HTML, safe in an element and in an attribute in double quotes; on one line."""
    return html.escape(_UNSEEN.sub(" ", text), quote=False).replace('"', "&quot;")


def anchor(name: str) -> str:
    """The id of what a source calls `name`; no two names there differ in their spaces alone."""
    return name.replace(" ", "-")


def address(file: str) -> str:
    """The address of a file called `file`, in the same folder (RFC 3986): every sign that means
    something there is given by its number."""
    return "".join(chr(byte) if chr(byte) in _PLAIN else f"%{byte:02X}" for byte in file.encode())


def file_at(address: str) -> str:
    """The file name that an `address` gives; what is no name as UTF-8 stands for no file."""
    data = _QUOTED.sub(lambda m: bytes([int(m[1], 16)]), address.encode())
    return data.decode("utf-8", "replace")


def heading(level: int, text: str, anchor: str) -> str:
    """A Markdown heading of plain `text`; whatever Markdown or HTML could read is a reference."""
    plain = _MARKUP.sub(lambda m: f"&#{ord(m[0])};", _UNSEEN.sub(" ", text).strip())
    return f"{'#' * level} {plain} {{ #{anchor} }}\n\n"


def part(text: str, anchor: str) -> str:
    """A heading below a section's own, as HTML: the theme's contents list has no room for it."""
    return f'<h3 id="{anchor}">{esc(text)}</h3>\n\n'


def headed(text: str, anchor: str) -> str:
    """A heading of the second level as HTML, for what stands within an element."""
    return f'<h2 id="{anchor}">{esc(text)}</h2>\n'


def fold(title: str, anchor: str, body: str, *, css: str = "wb-fold", inside: str = "",
         before: str = "", after: str = "") -> str:
    """A section that is closed until its reader opens it, or goes to a place within it.

    One presses its heading, with what stands `before` and `after` it there; `inside` is the
    id of what it closes.
    """
    within = f' id="{inside}"' if inside else ""
    return (f'<details class="{css}"><summary>{before}<h2 id="{anchor}">{esc(title)}</h2>{after}'
            f"</summary><div{within}>\n{body}</div></details>\n")


def block(body: str) -> str:
    """A stretch of HTML that Markdown passes untouched."""
    return f'<div class="wb">\n{body}\n</div>\n\n'


def front_matter(title: str, description: str, *, searchable: bool) -> str:
    """A page's front matter. The theme prints title and description unescaped, so both are HTML."""
    lines = [f"title: {_quoted(title)}", f"description: {_quoted(description)}"]
    if not searchable:
        lines += ["hide:", "  - navigation", "search:", "  exclude: true"]
    return "\n".join(("---", *lines, "---", "", ""))


def _quoted(text: str) -> str:
    """`text` as HTML in YAML's double quotes, which are JSON's but for a few unseen characters."""
    dumped = json.dumps(esc(text), ensure_ascii=False)
    return _UNPRINTABLE.sub(lambda m: f"\\u{ord(m[0]):04x}", dumped)


def link(href: str, label: str, css: str = "") -> str:
    """A link to a page of the site; `href` is ours, `label` is HTML."""
    return f'<a{_css(css)} href="{href}">{label}</a>'


def aside_link(href: str, label: str) -> str:
    """A link in brackets that only names how a thing is done: none of the step's words at the
    bench, and nothing on paper."""
    return link(href, f"({label})", "wb-way")


_TAGS = re.compile(r"<[^>]*>")
_SHOWS = re.compile(r'<a class="wb-how" href="([^"]+)">[^<]*</a>')
_EXPLAINS = re.compile(r' <small class="wb-why">(.*?)</small>')


def shown_once(texts: Iterable[str]) -> list[str]:
    """The texts with every link that shows how something is done kept where it comes first."""
    return [text.replace(" </p>", "</p>").replace("<p></p>", "")
            for text in _first_of_each(_SHOWS, texts)]


def explained_once(texts: Iterable[str]) -> list[str]:
    """The texts with every explanation kept where it comes first, without its mark."""
    return [text.replace('<small class="wb-why">', "<small>")
            for text in _first_of_each(_EXPLAINS, texts)]


def _first_of_each(pattern: re.Pattern[str], texts: Iterable[str]) -> list[str]:
    """The texts without a match whose first group, as it is read, has stood before in any."""
    seen: set[str] = set()

    def first_only(found: re.Match[str]) -> str:
        content = _TAGS.sub("", found[1])
        if content in seen:
            return ""
        seen.add(content)
        return found[0]

    return [pattern.sub(first_only, text) for text in texts]


def data(name: str, value: object) -> str:
    """JSON in an element with the id `name` that no browser runs or shows; no text closes it."""
    text = json.dumps(value, ensure_ascii=False, separators=(",", ":"))
    for sign in "<>&\u2028\u2029":  # JSON has all of them in strings alone
        text = text.replace(sign, f"\\u{ord(sign):04x}")
    return f'<script type="application/json" id="{name}">{text}</script>'


def items(entries: Iterable[str], css: str = "", kind: str = "ul") -> str:
    """A list of HTML entries, or nothing for no entries."""
    body = "".join(f"<li>{entry}</li>" for entry in entries)
    return f"<{kind}{_css(css)}>{body}</{kind}>" if body else ""


def facts(pairs: Iterable[tuple[str, str]]) -> str:
    """Name and value pairs (HTML)."""
    body = "".join(f"<div><dt>{name}</dt><dd>{value}</dd></div>" for name, value in pairs)
    return f'<dl class="wb-facts">{body}</dl>'


def details(summary: str, body: str) -> str:
    """Something that is closed until its reader opens it."""
    return f'<details class="wb-working"><summary>{summary}</summary><p>{body}</p></details>'


def table(label: str, head: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    """A table that scrolls inside itself, its first column staying; all cells are HTML.

    A header in a row of headers alone is its column's, and one in such a column its row's, without
    a `scope` (HTML, 4.9.12.2): a page of a size has some hundred and fifty.
    """
    top = "".join(f"<th>{cell}</th>" for cell in head)
    body = "".join(
        f"<tr><th>{first}</th>{''.join(f'<td>{cell}</td>' for cell in rest)}</tr>"
        for first, *rest in rows)
    return (f'<div class="wb-scroll" tabindex="0" role="region" aria-label="{label}">'
            f'<table class="wb-table"><thead><tr>{top}</tr></thead><tbody>{body}</tbody></table>'
            "</div>")


@dataclass(frozen=True, slots=True)
class TableRow:
    """A row of a table over several columns, as HTML; with a `unit` ("cm", "in") it is one of two
    that a reader has in turn."""

    first: str
    cells: Sequence[str]
    unit: str = ""


def groups_table(label: str, head: Sequence[str], groups: Iterable[tuple[str, Iterable[TableRow]]]
                 ) -> str:
    """A table as `table` writes it, in groups with a title each; a group without rows is left out.
    """
    top = "".join(f"<th>{cell}</th>" for cell in head)
    body = "".join(_group(title, list(rows), len(head)) for title, rows in groups)
    return (f'<div class="wb-scroll" tabindex="0" role="region" aria-label="{label}">'
            f'<table class="wb-table wb-units-table"><thead><tr>{top}</tr></thead>{body}</table>'
            "</div>")


def _group(title: str, rows: Sequence[TableRow], columns: int) -> str:
    if not rows:
        return ""
    named = (f'<tr class="wb-group"><th colspan="{columns}" scope="rowgroup"><span>{title}</span>'
             "</th></tr>" if title else "")
    return f"<tbody>{named}{''.join(map(_row, rows))}</tbody>"


def _row(row: TableRow) -> str:
    unit = f'<span class="wb-unit"> [{row.unit}]</span>' if row.unit else ""
    css = f' class="wb-{row.unit}"' if row.unit else ""
    cells = "".join(f"<td>{cell}</td>" for cell in row.cells)
    return f"<tr{css}><th>{row.first}{unit}</th>{cells}</tr>"


def _css(css: str) -> str:
    return f' class="{css}"' if css else ""


def svg_text(x: int | str, y: int, text: str, anchor: str) -> str:
    """Text in a drawing, that begins, ends or has its middle at `x` as `anchor` says."""
    return f'<text x="{x}" y="{y}" text-anchor="{anchor}">{text}</text>'
