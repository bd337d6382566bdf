"""The README's pattern source is sound, and what the README says becomes of it is so."""

from __future__ import annotations

import re
from pathlib import Path

from reading import read
from walebook.planning.band import BandPlan
from walebook.proof import Proof, prove
from walebook.reading.sense import check

README = (Path(__file__).parents[2] / "README.md").read_text(encoding="utf-8")
SOURCE = re.findall(r"```yaml\n(.*?)```", README, re.DOTALL)[0]
ROWS = {cells[0]: (cells[1], cells[2]) for line in README.splitlines()
        if len(cells := [cell.strip() for cell in line.strip("|").split("|")]) == 3}


def proved() -> Proof:
    pattern, problems = read(SOURCE)
    assert problems == ()
    assert pattern is not None
    proof, findings = prove(pattern)
    assert [f.code for f in (*check(pattern), *findings)] == ["band-not-swatched"]
    assert proof is not None
    return proof


def plan(size: str) -> BandPlan:
    [found] = next(s.plans for s in proved().sizes if s.size == size)
    return found


def test_the_table_is_what_size_s_becomes() -> None:
    # 200 × 3/4 = 150; 16 / (2.5 ÷ 3/4) = 4.8, so 5 − 1; (150 − 8 − 7 × 4) / 6 = 19.
    s = plan("S")
    assert s.placing is not None
    assert s.hole is not None
    assert ROWS["band stitches"] == (str(s.stitches.value), s.stitches.working)
    assert ROWS["stitches of a hole"] == (str(s.hole.value), s.hole.working)
    assert ROWS["ends and gaps"] == ("4, gaps of 19, 4", s.placing.working)
    assert (s.placing.lower, set(s.placing.gaps), s.placing.upper) == (4, {19}, 4)
    assert ROWS["loops at the closing"] == ("5 a hole", s.closing_loops.working)
    assert ROWS["gaps at the closing"][0] == "18"
    assert set(s.closing_gaps) == {18}


def test_size_m_is_as_it_says() -> None:
    # 208 × 3/4 = 156; (156 − 8 − 7 × 4) / 6 = 20.
    m = plan("M")
    assert m.placing is not None
    assert (m.edge_rows.value, m.stitches.value, set(m.placing.gaps)) == (208, 156, {20})
    assert "208 rows, the band has 156 stitches and gaps of 20" in " ".join(README.split())
