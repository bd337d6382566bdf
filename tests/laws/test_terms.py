"""The page of abbreviations holds the terms and the short forms that a knitter's pages use."""

from __future__ import annotations

import re
from functools import cache
from html import unescape

from walebook.source.fabric_reading import size_slug

from tests.whole_collection import ROOT, collection, files

PAGE = (ROOT / "site_src" / "abbreviations.md").read_text(encoding="utf-8")
TERMS = {re.sub(r" \(.*", "", term) for term in re.findall(
    r"^\| ([^|]+?) \|", PAGE.partition("{ #key }")[0], re.MULTILINE)}
SHORT = {word for cell in re.findall(r"^\| ([A-Z][^|]*?) \|", PAGE, re.MULTILINE)
         for word in cell.split(", ")}
# Names of standards, of those who publish them, of licences, persons and places: no trade terms.
NAMES = {
    "AA", "ANSI", "ANSUR", "ASTM", "BMJ", "BY", "CC", "CEN", "CFR", "DH", "EN", "II", "NC", "ND",
    "SA", "TR", "TS", "UK", "UL", "US", "USA", "WHO"}
SIZE = re.compile(r"\d?X*[SL]|\d?XL?")
# Names of tools in a list of materials that everyone knows.
PLAIN = {"Pins and a flat board", "Labels", "Clean cloth", "Threads or pins",
         "Scissors and tape measure", "Marking thread", "Sewing needle and strong thread",
         "Steam iron or steamer", "Damp cloth"}


def test_every_tool_and_position_of_a_page_is_a_term() -> None:
    """Of one size of each pattern: what its materials name, and positions of needles."""
    missing: set[str] = set()
    for page in pages():
        tools = re.findall(r"<li><strong>([^<:]+)</strong>(?! about)", page)
        met = {tool.lower().removeprefix("two ").removesuffix("s") for tool in tools
               if tool not in PLAIN and not tool.endswith((".", ",")) and "eights drop" not in tool
               and not re.match(r"Count |A carriage|\d", tool)}
        met |= set(re.findall(r"(?:non-working|upper working|holding|working) position", page))
        missing |= {each for each in met if not {each, f"{each}s"} & TERMS}
    assert missing == set()


def test_every_short_form_of_a_page_is_in_the_key() -> None:
    used = {word for page in pages() for word in re.findall(r"\b[A-Z]{2,5}\b", plain(page))}
    used |= {word for folder in ("techniques", "bands", "closings")
             for path in (ROOT / "site_src" / folder).glob("*.md")
             for word in re.findall(r"\b[A-Z]{2,5}\b", re.sub(
                 r"```.*?```|`[^`]*`|<!--.*?-->|<svg.*?</svg>|\]\([^)]*\)", "",
                 path.read_text(encoding="utf-8"), flags=re.DOTALL))}
    assert {word for word in used - SHORT - NAMES if not SIZE.fullmatch(word)} == set()


@cache
def pages() -> tuple[str, ...]:
    """The page of the middle size of every pattern."""
    return tuple(files()[f"patterns/{proof.pattern.slug}/{size_slug(size.size)}.md"]
                 for proof in collection().proofs
                 for size in [proof.sizes[len(proof.sizes) // 2]])


def plain(page: str) -> str:
    """What a reader sees of a page."""
    shown = re.sub(r"<(script|style|svg|code)\b.*?</\1>|^---.*?^---", "", page,
                   flags=re.DOTALL | re.MULTILINE)
    return unescape(re.sub(r"<[^>]+>", " ", shown))
