"""What the regions of a page are called. Every commit looks: this file takes no turns.

Who reads with her ears goes from one region or landmark to the next, and hears its role and its
name alone. So no two of a page share both (axe-core: `landmark-unique`; WAI-ARIA Authoring
Practices, "Landmark Regions"). axe is asked of a few pages only (`test_every_view.py`).
"""

from __future__ import annotations

import re
from collections import Counter
from pathlib import Path

from tests import turns

TAG = re.compile(r"<(nav|section|aside|form|[a-z]+(?=[^>]*\srole=))\b([^>]*)>")
GIVEN = re.compile(r"""\s(role|aria-label|aria-labelledby)=("[^"]*"|'[^']*'|[^\s>]+)""")
LANDMARKS = {"nav": "navigation", "section": "region", "aside": "complementary", "form": "form"}
ROLES = {*LANDMARKS.values(), "search", "banner", "contentinfo", "main"}


def regions(page: str) -> Counter[tuple[str, str]]:
    """The role and the name of every region and landmark that has a name."""
    out: Counter[tuple[str, str]] = Counter()
    for tag, attributes in TAG.findall(page):
        given = {name: value.strip("\"'") for name, value in GIVEN.findall(attributes)}
        role = given.get("role", LANDMARKS.get(tag, ""))
        name = given.get("aria-labelledby", given.get("aria-label", ""))
        if role in ROLES and name:
            out[role, name] += 1
    return out


def test_no_two_regions_of_a_page_have_one_name(site: Path) -> None:
    found = {path.relative_to(site).as_posix(): regions(path.read_text(encoding="utf-8"))
             for path in site.rglob("*.html") if not path.stem.endswith("-single-file")}
    sizes = [each for name, each in found.items()
             if name.startswith("patterns/") and not name.endswith("index.html")]
    assert len(sizes) > 100 and sum(map(Counter.total, sizes)) > 900
    assert {name: twice for name, each in found.items()
            if (twice := [region for region, times in each.items() if times > 1])} == {}


def test_no_commit_leaves_it_out() -> None:
    here = Path(__file__).relative_to(Path(__file__).parents[2]).as_posix()
    assert here not in turns.FILES
