"""Rows sewn to stitches: how many stitches take how many bars, as published examples have it.

Holli Yeoh, "Mattress Graft", 2009: 60 stitches and 84 rows, in each five stitches three take one
row and two take two. "Grafting head to side" (knittingmagic.biz): of 5 stitches and 7 rows one,
two, one, two, one.
"""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st
from walebook.core.expression import plain
from walebook.shape.bars import Bars
from walebook.shape.garment import Join, Kindred
from walebook.shape.tasks import Seam
from walebook.words.joins import join_text

COUNT = st.integers(min_value=1, max_value=200)


def bars(stitches: int, rows: int) -> Bars:
    return Bars(rows=rows, row_edge="slit", stitches=stitches, stitch_edge="thumb")


def said(stitches: int, rows: int) -> str:
    join = Join(title="thumb", seam=Seam.SLIT, kindred=Kindred.LENGTH,
                sewn=(plain(1), plain(1)), bars=bars(stitches, rows))
    return re.sub(r"<[^>]*>", "", join_text(join))


@pytest.mark.parametrize(("stitches", "rows", "shares"), [
    (60, 84, ((36, 1), (24, 2))), (5, 7, ((3, 1), (2, 2)))])
def test_published_examples(stitches: int, rows: int, shares: tuple[tuple[int, int], ...]) -> None:
    assert bars(stitches, rows).shares == shares


@given(COUNT, COUNT)
def test_the_shares_come_to_all_of_both_edges(stitches: int, rows: int) -> None:
    shares = bars(stitches, rows).shares
    assert sum(n for n, _ in shares) == min(stitches, rows)
    assert sum(n * each for n, each in shares) == max(stitches, rows)
    assert max(each for _, each in shares) - min(each for _, each in shares) <= 1


@pytest.mark.parametrize(("stitches", "rows", "words"), [
    (16, 22, "join 10 stitches to one bar each, 6 to two each, spread evenly"),
    (16, 17, "join 15 stitches to one bar each, 1 to two, spread evenly"),
    (2, 3, "join 1 stitch to one bar, 1 to two, spread evenly"),
    (20, 20, "one bar to each stitch"), (20, 40, "join each stitch to two bars"),
    (22, 20, "join 18 bars to one stitch each, 2 to two each, spread evenly")])
def test_it_is_said_in_plain_words(stitches: int, rows: int, words: str) -> None:
    assert said(stitches, rows).endswith(f"{stitches} stitches of the thumb to {rows} rows of the "
                                         f"slit: {words}")
