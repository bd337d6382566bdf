"""Pages of the collection read as a knitter does: each thing once, by its name, where it is needed.

What is asked here is common practice in editing patterns, no source.
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tests.laws.test_tools_told import unlike

# A built page leaves out the end of an entry, and of its line, where the next follows.
STEP = re.compile(r'<li id="?[\w-]+"?>(.*?)(?:</li>)?\n?(?=<li id|</ol>)', re.DOTALL)
TAG = re.compile(r"<[^>]+>")


@pytest.fixture(scope="module")
def pages(site: Path) -> dict[str, str]:
    """The size pages of all patterns, by their addresses."""
    return {path.relative_to(site).as_posix(): path.read_text(encoding="utf-8")
            for path in site.glob("patterns/*/*.html")
            if path.name != "index.html" and not path.name.endswith("-single-file.html")}


def test_a_page_with_two_main_yarns_says_which_is_threaded(pages: dict[str, str]) -> None:
    several = {name: page for name, page in pages.items() if page.count("Main yarn for the") > 1}
    assert several
    for name, page in several.items():
        named = re.findall(r"<strong>Main yarn for the [^<]*</strong> ([^,(<]+)", page)
        threaded = re.findall(r"<b>Thread the main yarn</b> \(([^)]+)\)", page)
        assert threaded and set(threaded) <= {each.strip() for each in named}, name


def test_the_last_loop_is_fastened_when_the_yarn_is_cut(pages: dict[str, str]) -> None:
    """A loop that is held is drawn through by the end that is cut next, and cut once."""
    kept = [(name, step) for name, page in pages.items() for step in STEP.findall(page)
            if "Keep the last loop" in step or "keep its loop" in step]
    assert kept
    for name, step in kept:
        assert "Draw the tail through the last loop" in step, name


def test_every_join_is_told_in_the_step_that_makes_it(pages: dict[str, str]) -> None:
    assert [name for name, page in pages.items() if "The edges to be joined have" in page] == []


def test_needles_are_drawn_only_where_they_differ(pages: dict[str, str]) -> None:
    """One stitch on every needle in a row without a gap needs no drawing."""
    for name, page in pages.items():
        for caption in re.findall(r"<figcaption[^>]*-d[^>]*>(One stitch: .*?)</figcaption>", page):
            first, *others = TAG.sub("", caption).split(". ")
            alone = all(each.startswith("In non-working") for each in others)
            assert not (alone and re.fullmatch(r"One stitch: \w+ to \w+", first)), (name, caption)


def test_no_order_of_rows_is_told_twice(pages: dict[str, str]) -> None:
    for name, page in pages.items():
        for told in re.findall(r"<p>[^\n]*take rows in groups[^\n]*</p>", page):
            assert "mixed evenly" not in told, name


def test_a_garment_without_sleeves_lists_no_measures_of_sleeves(pages: dict[str, str]) -> None:
    sleeveless = [page for name, page in pages.items() if "quayside-waistcoat" in name]
    assert sleeveless
    for page in sleeveless:
        assert not re.search(r"<b>(Cuff width|Sleeve length|Cap ease)", page)


def test_one_needle_is_named_once(pages: dict[str, str]) -> None:
    for name, page in pages.items():
        assert re.findall(r"\b([LR]\d+) to \1\b", page) == [], name


def test_the_garter_bar_is_listed_and_cautioned_wherever_it_is_named(pages: dict[str, str]) -> None:
    """A mitre moves all stitches at once, as turning the work does: the weights come off first."""
    named = {name: page for name, page in pages.items() if "garter bar" in page.lower()}
    mitred = [name for name, page in named.items() if "in the mitre by a pair" in page]
    assert mitred
    for name, page in named.items():
        assert "<strong>Garter bar</strong>" in page, name
        assert "A full garter bar is heavy" in page, name
    for name in mitred:
        steps = [step for step in STEP.findall(named[name])
                 if re.search("<b>(?:Close in|Open out) the mitre", step)]
        assert steps
        for step in steps:
            assert step.startswith("<p><em>Keep your feet clear.</em> <b>Take all weights off.</b>"
                                   ), name


def test_every_tool_named_is_listed_and_every_tool_listed_is_named(pages: dict[str, str]) -> None:
    """On every size page: the list comes from what the bed used, the words from the steps."""
    assert len(pages) > 100
    assert {name: wrong for name, page in pages.items() if (wrong := unlike(page))} == {}
