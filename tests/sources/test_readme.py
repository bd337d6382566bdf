"""The README's pattern source is sound, and what the README says becomes of it is so."""

from __future__ import annotations

import re
from pathlib import Path

from reading import read
from walebook.core.counted import Count
from walebook.core.counts import Unit
from walebook.pages.figures import figures
from walebook.pattern.fabrics import NeedleBed
from walebook.plan.band import BandPlan
from walebook.plan.sense import check
from walebook.proof.proof import Proof, SizeProof, prove
from walebook.source.pattern import read_bed, read_pattern
from walebook.source.size_chart import read_chart
from walebook.source.source import Node, parse_source
from walebook.words.figure_text import holes_fill
from walebook.words.terms.working import working_of

from tests.small_patterns import figure_of

ROOT = Path(__file__).parents[2]
README = (ROOT / "README.md").read_text(encoding="utf-8")
SOURCE, CARDIGAN = re.findall(r"```yaml\n(.*?)```", README, re.DOTALL)[:2]
TABLE = [[cell.strip() for cell in line.strip("|").split("|")] for line in README.splitlines()]
ROWS = {cells[0]: (cells[1], cells[2]) for cells in TABLE if len(cells) == 3}
CARDIGAN_ROWS = {cells[0]: cells[1:] for cells in TABLE if len(cells) == 4}


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
    assert ROWS["band stitches"] == (str(s.stitches.value), working_of(s.stitches))
    assert ROWS["stitches of a hole"] == (str(s.hole.value), working_of(s.hole))
    assert ROWS["ends and gaps"] == ("4, gaps of 19, 4", holes_fill(s.placing, Unit.STITCHES))
    assert (s.placing.lower, set(s.placing.gaps), s.placing.upper) == (4, {19}, 4)
    assert ROWS["loops at the closing"] == ("5 a hole", working_of(s.closing_loops))
    assert ROWS["gaps at the closing"][0] == "18"
    assert set(figure_of(s, "closing_gaps")) == {18}
    shown = {figure.name: figure.shown for figure in figures(s)}
    assert shown["closing_gaps"] == "18" and shown["gaps"] == "19"  # as the table has them: once


def test_size_m_is_as_it_says() -> None:
    # 208 × 3/4 = 156; (156 − 8 − 7 × 4) / 6 = 20.
    m = plan("M")
    assert m.placing is not None
    assert (m.edge_rows.value, m.stitches.value, set(m.placing.gaps)) == (208, 156, {20})
    assert "208 rows, the band has 156 stitches and gaps of 20" in " ".join(README.split())


def node_of(name: str) -> Node:
    """A file of the patterns' own, as text."""
    path = ROOT / "patterns" / name
    node, problems = parse_source(path.read_text(encoding="utf-8"), name=f"patterns/{name}")
    assert node is not None
    assert problems == ()
    return node


def cardigan() -> dict[str, SizeProof]:
    """The README's cardigan in all its sizes, with the project's own bed and size chart."""
    bed, _ = read_bed(node_of("_beds/mid.yaml"), name="mid")
    chart, _ = read_chart(node_of("_sizes/women.yaml"), key="women")
    assert isinstance(bed, NeedleBed)
    node, problems = parse_source(CARDIGAN, name="patterns/harbour-cardigan/pattern.yaml")
    assert node is not None
    pattern, more = read_pattern(node, slug="harbour-cardigan", beds={"mid": bed},
                                 charts={"women": chart})
    assert (problems, more) == ((), ())
    assert pattern is not None
    proof, findings = prove(pattern)
    assert proof is not None
    assert {f.code for f in findings} == {"chart-remark"}
    return {size.size: size for size in proof.sizes}


def counted(size: SizeProof) -> dict[str, Count]:
    """Its counts by what the README calls them."""
    assert size.assembled is not None
    found = {(key, name): count for key, name, count in size.assembled.garment.counts}
    [band] = size.plans
    assert band.hole is not None
    return {"back, cast on": found["back", "cast_on"],
            "back, between the armholes": found["back", "across"],
            "armhole, rows": found["back", "armhole_rows"],
            "sleeve at the upper arm": found["sleeve", "upper_arm"],
            "stitches of a buttonhole": band.hole}


def test_the_cardigan_comes_to_what_the_table_says_in_nine_sizes() -> None:
    """The body is the middle of the chart's range (Craft Yarn Council, woman): M and 5X have
    chests of 94 and 155 cm, backs of 40 and 47, armholes of 18.25 and 26, arms of 28 and 49.5."""
    sizes = cardigan()
    assert list(sizes) == ["XS", "S", "M", "L", "XL", "2X", "3X", "4X", "5X"]
    # (94 + 8) / 2 × 1.5 + 2 = 78.5; (155 + 8) / 2 × 1.5 + 2 = 124.25; 40 × 1.5 + 2 = 62;
    # 47 × 1.5 + 2 = 72.5; (18.25 + 2) × 2 = 40.5; (26 + 2) × 2 = 56; (28 + 6) × 1.5 + 2 = 53;
    # (49.5 + 6) × 1.5 + 2 = 85.25, each to the nearest even number; 18 / 6 − 1 = 2.
    worked = {"back, cast on": (78, 124), "back, between the armholes": (62, 72),
              "armhole, rows": (40, 56), "sleeve at the upper arm": (54, 86),
              "stitches of a buttonhole": (2, 2)}
    m, largest = counted(sizes["M"]), counted(sizes["5X"])
    assert {name: (m[name].value, largest[name].value) for name in worked} == worked
    assert {name: CARDIGAN_ROWS[name] for name in worked} == {
        name: [str(one), str(other), working_of(m[name])] for name, (one, other) in worked.items()}
