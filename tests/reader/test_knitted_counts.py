"""A count of a piece that is one off in every place of its calculations is not what was knitted."""

from __future__ import annotations

import re

import pytest

from tests.reader import page

# A pattern whose first size has each count.
FOUND_IN = {
    "Cast on": "capstan-hat", "Hem rows": "capstan-hat", "Crown rows": "capstan-hat",
    "Drawn up": "capstan-hat", "Rib rows": "capstan-pullover", "Cap rows": "capstan-pullover",
    "Stitches above the rib": "capstan-pullover", "Neck centre": "capstan-pullover",
    "Armhole bind off": "cutwater-pullover", "Neck side": "lock-keeper-gilet",
    "Neck bind off": "lock-keeper-gilet", "Pocket stitches": "lock-keeper-gilet",
    "Pocket row": "lock-keeper-gilet", "Lining rows": "lock-keeper-gilet",
    "Stitches": "lock-keeper-gilet", "Strap": "storm-lantern-cardigan",
    "Strap rows": "storm-lantern-cardigan", "Underarm stitches": "storm-lantern-cardigan",
    "Rows to crown": "capstan-hat", "Neck rows": "lock-keeper-gilet",
    "Raglan rows": "storm-lantern-cardigan", "Top rows": "storm-lantern-cardigan"}
ON_OTHER_WAYS = {"little-lamp-cardigan": "Hem rows", "watchkeeper-pullover": "Rib rows",
                 "harbour-master-pullover": "Neck side", "fairlead-pullover": "Neck side",
                 "bollard-slipover": "Neck rows", "flood-tide-pullover": "Neck stitches",
                 "compass-hat": "Drawn up", "halyard-hat": "Crown rows"}


def one_off(text: str, label: str, more: int) -> str:
    """The page with the figure of that count changed wherever its calculations have it."""
    head, mark, counted = text.partition('id="counted"')
    told = re.search(rf"{label}, (\d+) (?:rows?|stitch(?:es)?)", counted)
    assert mark and told, label
    figure, other = re.compile(rf"(?<![\d.,]){told[1]}(?![\d,]|\.\d)"), str(int(told[1]) + more)
    return head + mark + "".join(part if part.startswith("<") else figure.sub(other, part)
                                 for part in re.split(r"(<[^>]*>)", counted))


@pytest.mark.parametrize("more", [1, -1], ids=["one more", "one less"])
@pytest.mark.parametrize(("slug", "label"), [
    *((slug, label) for label, slug in FOUND_IN.items()), *ON_OTHER_WAYS.items()])
def test_a_count_that_is_one_off_everywhere_alike_is_refused(
        one_page: str, label: str, more: int) -> None:
    found = [str(one) for one in page.read(one_off(one_page, label, more)).faults]
    assert any(f"{label}: [" in one and "are knitted" in one for one in found), found
