"""Lists of patterns: each pattern stands on one page, and every page can be reached."""

from __future__ import annotations

import re

import pytest
from walebook.pages.lists import ON_A_PAGE, first_list, further_lists

LINK = re.compile(r'<a href="([^"#]+)(?:#choose)?" aria-label="Page (\d+) of the patterns">\2</a>')


@pytest.mark.parametrize("many", [0, 1, ON_A_PAGE, ON_A_PAGE + 1, 20 * ON_A_PAGE - 1])
def test_each_pattern_stands_on_one_page_and_pages_lead_to_all(many: int) -> None:
    cards = [f"<p>number {n}.</p>" for n in range(many)]
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
