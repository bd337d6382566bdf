"""Lists of patterns: each pattern stands on one page, and every page can be reached."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from walebook.catalogue.forms import Sort
from walebook.forms.registry import FORMS
from walebook.pages.card import Card, CardGroup
from walebook.pages.lists import ON_A_PAGE, first_list, further_lists
from walebook.pages.sketch import _STYLE as STYLE
from walebook.words.list_text import BANDS, garments_called

ROOT = Path(__file__).parents[2]

LINK = re.compile(r'<a href="([^"#]+)(?:#choose)?" aria-label="Page (\d+) of the patterns">\2</a>')


@pytest.mark.parametrize("many", [0, 1, ON_A_PAGE, ON_A_PAGE + 1, 20 * ON_A_PAGE - 1])
def test_each_pattern_stands_on_one_page_and_pages_lead_to_all(many: int) -> None:
    cards = [Card(f"<p>number {n}.</p>") for n in range(many)]
    pages = {"index.html": first_list(cards)} | {
        page.path.replace(".md", ".html"): page.text for page in further_lists(cards)}
    found = re.findall(r"number (\d+)\.", "".join(pages.values()))
    assert found == [str(n) for n in range(many)]
    assert len(pages) == max(1, -(-many // 60)), "at most 60 on a page (the project's own limit)"
    leads = {path: dict(LINK.findall(text)) for path, text in pages.items()}
    reached, left = set(), ["index.html"]
    while left:
        path = left.pop()
        reached.add(path)
        left += [to for to in leads[path] if to in pages and to not in reached]
        assert leads[path].keys() <= pages.keys()
        assert path not in leads[path]
        assert len(leads[path]) <= 6
    assert reached == pages.keys()
    assert ("wb-pages" in pages["index.html"]) == (many > ON_A_PAGE)


HATS, COATS = CardGroup("Garment", "hats", "hats"), CardGroup("Garment", "coats", "coats")
MEN, MID = CardGroup("For", "for-men", "men"), CardGroup("Bed", "on-mid-bed", "mid bed")
CHOICE = re.compile(r'<a href="([^"]+)"(?: aria-current="true")?>([^<]+)</a> <span>(\d+)</span>')


@pytest.mark.parametrize("hats", [1, ON_A_PAGE - 1, 2 * ON_A_PAGE + 1])
def test_a_group_has_all_of_its_patterns_and_the_lists_say_how_many(hats: int) -> None:
    """Every third card is a coat, and stands on no page of the hats."""
    cards = [Card(f"<p>number {n}.</p>", (COATS if n % 3 == 2 else HATS, MEN, MID), bands=n == 0)
             for n in range(hats + hats // 2)]
    pages = {page.path.replace(".md", ".html"): page.text for page in further_lists(cards)}
    home = first_list(cards)
    coats = sum(COATS in card.groups for card in cards)
    choices = {label: (to, int(many)) for to, label, many in CHOICE.findall(home)}
    if not coats:  # what all have in common is nothing to choose by
        assert choices == {} and not any("hats" in path for path in pages)
        return
    assert choices == {"all": ("index.html#choose", len(cards)),
                       "hats": ("patterns-hats.html", hats),
                       "coats": ("patterns-coats.html", coats)}
    shown = [text for path, text in sorted(pages.items()) if path.startswith("patterns-hats")]
    found = [int(n) for text in shown for n in re.findall(r"number (\d+)\.", text)]
    assert sorted(found) == [n for n, card in enumerate(cards) if HATS in card.groups]
    assert len(shown) == -(-hats // ON_A_PAGE)
    assert all(CHOICE.findall(text) for text in shown)
    assert all(to in pages for to in re.findall(r'href="(patterns-hats[^"]*)"', "".join(shown)))


def test_bands_to_try_stand_last() -> None:
    cards = [Card("<p>number 0.</p>", bands=True), Card("<p>number 1.</p>")]
    assert re.findall(r"number (\d+)\.", first_list(cards)) == ["1", "0"]


def test_every_form_has_a_group_to_be_found_in() -> None:
    """Each group has a form, and no two share an address or a name."""
    assert {form.sort for form in FORMS.values()} == set(Sort)
    groups = [*map(garments_called, Sort), BANDS]
    assert all(len(set(part)) == len(groups) for part in zip(*groups, strict=True))
    for name, form in FORMS.items():
        assert form.sort.value in (f"{name.split()[-1]}s", "accessories", "waistcoats"), name


def test_the_sketch_as_a_file_is_drawn_as_on_the_page() -> None:
    """Its own style names every class of a drawing that the site's style names."""
    named = [set(re.findall(r"\.(wb-[a-z]+)", text)) - {"wb-garment"} for text in (
        STYLE, (ROOT / "site_src" / "assets" / "garment.css").read_text(encoding="utf-8"))]
    assert named[0] == named[1]
