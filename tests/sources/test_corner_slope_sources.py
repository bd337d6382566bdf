"""Own pieces whose edges go to a corner on rows that the designer schedules.

Counts are worked out from the swatch, 20 stitches and 30 rows to 10 cm: a piece 20 cm wide has 40
stitches, one of 12 cm 24, so that 8 go at each side; 20 cm are 60 rows.
"""

from __future__ import annotations

from typing import Any

import pytest
import yaml
from reading import FILE, read
from walebook.proof.proof import SizeProof, prove
from walebook.words.terms.working import working_of

HEAD = {"title": "Net bag", "version": "1.0.0", "date": "2026-12-01", "designer": "Wren Ashdown",
        "licence": "CC BY-NC 4.0", "summary": "Own pieces.", "wearer": "anyone", "bed": "standard",
        "yarns": {"main": {"name": "Pier Fingering"}},
        "fabrics": {"body": {"yarn": "main", "dial": 6, "swatch": {
            "stitches": 20, "width": "10 cm", "rows": 30, "height": "10 cm"}}}}
MEASURES = {"wide": "20 cm", "narrow": "12 cm", "half": "10 cm", "tip": "6 cm", "high": "20 cm",
            "top": "24 cm"}


def text(slope: dict[str, Any], *, by: str = "", side: str = "sides",
         sizes: tuple[str, ...] = ("one",)) -> str:
    """A piece of which one edge or both narrow to a corner below its top."""
    corner = {"height": "high", "width": "narrow" if side == "sides" else "tip", "slope": slope}
    corner |= {"by": by} if by else {}
    garment = {"form": "own outline", "fabric": "body", "measures": MEASURES,
               "pieces": {"bag": {"width": "wide", "height": "top", side: [corner]}}}
    return yaml.safe_dump({**HEAD, "sizes": list(sizes), "garment": garment}, sort_keys=False)


def sizes(source: str) -> tuple[SizeProof, ...]:
    pattern, problems = read(source)
    assert pattern is not None, [str(p) for p in problems]
    proof, wrong = prove(pattern)
    assert proof is not None, [str(p) for p in wrong]
    return proof.sizes


def errors(source: str) -> list[str]:
    """What is found of a source, without its file and place."""
    pattern, problems = read(source)
    problems = problems if pattern is None else prove(pattern)[1]
    return [str(p).removeprefix(f"{FILE}:").partition(": ")[2] for p in problems
            if p.severity.value == "error"]


def rows(size: SizeProof, side: str = "right") -> list[int]:
    return [c.row for c in getattr(size.pieces[0].piece, side).changes]


def test_rates_lead_to_a_corner() -> None:
    (size,) = sizes(text({"rates": "every 4th row 3 times then every 8th row"}))
    assert rows(size) == rows(size, "left") == [4, 8, 12, 20, 28, 36, 44, 52]
    assert size.assembled is not None
    found = {name: working_of(count) for _, name, count in size.assembled.garment.counts}
    assert found["edge_to_corner_1_rows_shaped"] == \
        "(3 × 4) + (5 × 8) + 8 after the last = 60 rows"


def test_one_edge_alone_has_its_order_and_its_plain_rows() -> None:
    """8 gaps in 60 rows less 11: one of 7 rows, seven of 6, the longer one first."""
    (size,) = sizes(text({"order": "slow first", "plain_start": "9 rows", "plain_end": "2 rows"},
                         side="left"))
    assert rows(size, "left") == [16, *range(22, 59, 6)] and rows(size) == []


def test_each_size_has_its_rates_and_its_first_row() -> None:
    small, large = sizes(text({"rates": {"S": "every 5th row", "L": "every 7th row"},
                               "first_row": {"S": 3, "L": 9}}, sizes=("S", "L")))
    assert rows(small) == [*range(3, 39, 5)]
    assert rows(large) == [*range(9, 59, 7)]


REFUSED: dict[str, tuple[dict[str, Any], str]] = {
    "too many rows": ({"rates": "every 9th row"}, (
        "error, slope-does-not-fit: size one: found rates that take 72 rows for 8 decreases "
        "(bag, corner 1 of sides); expected at most 60 rows. Write every 7th row in the last rate, "
        'or leave its rows out: "then 8 times" takes as many as fit.')),
    "too few times": ({"rates": "every 4th row 7 times"}, (
        "error, slope-does-not-fit: size one: found rates of 7 decreases (bag, corner 1 of "
        "sides); expected 8 decreases, as the measures make. Write 8 times in the last rate, "
        "or leave its times out: they then follow from the measures in every size.")),
    "two answers": ({"rates": "every 4th row", "order": "slow first"}, (
        'error, two-answers: found both "order" and "rates" in the slope of a corner; expected one '
        "of the two. Delete one of them.")),
}


@pytest.mark.parametrize("what", REFUSED)
def test_what_does_not_come_out_is_refused_at_its_corner(what: str) -> None:
    slope, said = REFUSED[what]
    assert [one.partition("error")[1] + one.partition("error")[2]
            for one in errors(text(slope))] == [said]


def test_steps_have_no_slope() -> None:
    (found,) = errors(text({"rates": "every 4th row"}, by="steps"))
    assert "two-answers" in found and '"by"' in found and '"slope"' in found
