"""The feed of a site: its patterns, what was put right in them and withdrawn (Atom, RFC 4287).

Its only clock is the dates in the sources. An entry is named by an address, so there is a feed only
where the settings say at which address the site stands.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Any
from xml.etree.ElementTree import Element, SubElement, indent, tostring

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import File, Files
from walebook.pattern.collection import CollectionSettings
from walebook.pattern.corrections import WithdrawnSize
from walebook.pattern.former_patterns import FormerPattern
from walebook.source.fabric_reading import size_slug
from walebook.words.former_text import gone_plain, size_summary, size_withdrawn, summary
from walebook.words.site_files import corrected_entry
from walebook_site.results import Results, names_before

FEED = "corrections.xml"
_ATOM = "http://www.w3.org/2005/Atom"
_PLAIN = CollectionSettings()
_MOST = 200  # entries, the newest first: a reader of feeds has the older ones


def add_feed(files: Files, config: MkDocsConfig, results: Results, settings: CollectionSettings
             ) -> None:
    """Add the feed to the site's files, where the site has an address and a pattern."""
    if config.site_url and (results.patterns or settings.former):
        content = feed(config.site_name, config.site_url,
                       ((each.slug, each.date, each.news) for each in results.patterns), settings)
        files.append(File.generated(config, FEED, content=content))


def feed(name: str, address: str, patterns: Iterable[tuple[str, str, Mapping[str, Any]]],
         settings: CollectionSettings = _PLAIN) -> str:
    """Return the feed; `patterns` are each a folder, the version's date, and its news.

    The `settings` name those that were renamed or withdrawn, each an entry.
    """
    base = address.rstrip("/") + "/"
    found = [entry for slug, date, news in patterns for entry in _entries(
        base, slug, date, news, (*names_before(settings.former, slug), slug)[0])]
    found += [_former(base, one, settings.designer or name) for one in settings.former_patterns]
    entries = sorted(found, key=lambda entry: (entry["updated"], entry["id"]), reverse=True)[:_MOST]
    made = Element("feed", {"xmlns": _ATOM})
    _add_texts(made, {"id": f"{base}{FEED}", "title": name, "updated": entries[0]["updated"]})
    SubElement(made, "link", {"rel": "self", "href": f"{base}{FEED}"})
    SubElement(made, "link", {"href": base})
    for entry in entries:
        one = SubElement(made, "entry")
        _add_texts(one, {key: entry[key] for key in ("id", "title", "updated")})
        SubElement(one, "link", {"href": entry["link"]})
        _add_texts(SubElement(one, "author"), {"name": entry["author"]})
        _add_texts(one, {"summary": entry["summary"]})
    indent(made)
    return f'<?xml version="1.0" encoding="utf-8"?>\n{tostring(made, encoding="unicode")}\n'


def _add_texts(into: Element, texts: Mapping[str, str]) -> None:
    for name, text in texts.items():
        SubElement(into, name).text = text


def _former(base: str, one: FormerPattern, author: str) -> dict[str, str]:
    """That a pattern was renamed or withdrawn; the page that says so stays where it stood."""
    page = f"{base}patterns/{one.folder}/index.html"
    return {"id": f"{page}#former", "title": summary(one).rstrip("."), "updated": _at(one.date),
            "link": page, "author": author, "summary": gone_plain(one)}


def _entries(base: str, slug: str, date: str, news: Mapping[str, Any], first_slug: str
             ) -> Iterator[dict[str, str]]:
    """The pattern, dated by its first correction or else its version; each correction and each
    size that was withdrawn, with a link to the page that says so.

    A pattern that was renamed keeps the names of its entries (RFC 4287, 4.2.6).
    """
    page, name = (f"{base}patterns/{each}/index.html" for each in (slug, first_slug))
    withdrawn = [WithdrawnSize(*each) for each in news["withdrawn"]]
    first = min([date, *(when for when, *_ in news["corrections"]),
                 *(one.date for one in withdrawn)])
    same = {"link": page, "author": news["designer"]}
    yield {**same, "id": name, "title": news["title"], "updated": _at(first),
           "summary": news["summary"]}
    for one in withdrawn:
        where = size_slug(one.label)
        yield {**same, "link": f"{base}patterns/{slug}/{where}.html", "updated": _at(one.date),
               "id": f"{name}#withdrawn-{where}", "summary": size_withdrawn(one),
               "title": size_summary(news["title"], one.label, withdrawn=True).rstrip(".")}
    count_on: dict[str, int] = {}
    for when, text, release, sizes in reversed(news["corrections"]):
        count_on[when] = count_on.get(when, 0) + 1
        yield {**same, "link": f"{page}#corrections", "updated": _at(when),
               "id": f"{name}#correction-{when}-{count_on[when]}",
               "title": corrected_entry(news["title"], release, sizes), "summary": text}


def _at(date: str) -> str:
    return f"{date}T00:00:00Z"
