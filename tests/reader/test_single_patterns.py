"""One page of each pattern, made and read by itself.

The other tests of this folder read every page of the collection, so a whole run needs none of
these. They are for .ci/mutants.py, which tries each change of the engine by the quickest tests.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.reader import page

ROOT = Path(__file__).parents[2]
pytestmark = pytest.mark.single

SLUGS = sorted(path.parent.name for path in ROOT.glob("patterns/*/pattern.yaml"))


@pytest.mark.parametrize("slug", SLUGS)
def test_a_page_can_be_knitted_from_its_words(one_page: str) -> None:
    assert not page.read(one_page).faults
