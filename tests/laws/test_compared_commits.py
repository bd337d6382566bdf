"""What `.ci/compare.py` says of two makings: it never calls nothing the same."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parents[2] / ".ci"))

import compare


def made(**kinds: str) -> compare.Made:
    return {kind: {"a.html": kinds[kind]} if kind in kinds else {} for kind in compare.KINDS}


@pytest.mark.parametrize(("before", "after", "says"), [
    (made(), made(), 2),
    (made(findings="none"), made(findings="none"), 2),
    (made(sentences="Knit 4 rows."), made(sentences="Knit 4 rows."), 0),
    (made(sentences="Knit 4 rows."), made(sentences="Knit 6 rows."), 1),
    (made(sentences="Knit 4 rows."), made(), 1),
])
def test_two_makings(before: compare.Made, after: compare.Made, says: int) -> None:
    assert compare.report(before, after, 0) == says


def test_an_engine_that_makes_no_page_is_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch
                                                 ) -> None:
    (tmp_path / "place").mkdir()
    (tmp_path / "store" / "patterns").mkdir(parents=True)
    monkeypatch.setattr(compare, "lay_out", lambda place, commit: None)
    monkeypatch.setattr(compare, "call", lambda place, *words: f"{words[0]}: refused")
    with pytest.raises(SystemExit, match="pages: refused"):
        compare.made(tmp_path / "place", None, tmp_path / "store")
