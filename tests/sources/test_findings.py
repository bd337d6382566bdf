"""How findings are shown: the place, the words, the author's own line, sizes told together."""

from __future__ import annotations

from dataclasses import replace

from walebook.core.problems import (
    Place,
    Problem,
    Severity,
    error,
    fold_sizes,
    in_order,
    note,
    render,
)
from walebook_site.results import as_json, from_json

PLACE = Place("patterns/slack-tide/pattern.yaml", 12, 8)


def short(size: str, needles: int = 200) -> Problem:
    return error("bed-too-short", PLACE, found=f"a bed of {needles} needles", size=size)


def test_a_finding_is_shown_with_its_line_and_a_mark_under_the_place() -> None:
    lines = ["#"] * 11 + ["chest: 32\n"]
    assert render(error("bad-length", PLACE, found='"32"', expected="a length",
                        remedy="Write the unit after the number."), lines) == (
        'patterns/slack-tide/pattern.yaml:12:8: error, bad-length: found "32"; expected a length. '
        "Write the unit after the number.\n"
        "    chest: 32\n"
        "           ^")


def test_a_tab_takes_one_column_so_that_the_mark_stands_under_its_place() -> None:
    assert render(short(""), ["#"] * 11 + ["chest:\t32"]).splitlines()[1:] == [
        "    chest: 32", "           ^"]


def test_a_finding_without_its_line_is_shown_by_its_words() -> None:
    assert render(note(Severity.WARNING, "unused", PLACE, found="a yarn")) == (
        "patterns/slack-tide/pattern.yaml:12:8: warning, unused: found a yarn.")


def test_sizes_with_the_same_finding_are_told_together_in_their_own_order() -> None:
    folded = fold_sizes(in_order([short("S"), short("M"), short("L")]))
    assert [p.message for p in folded] == ["sizes S, M and L: found a bed of 200 needles."]


def test_one_fault_with_other_figures_in_each_size_is_told_once() -> None:
    folded = fold_sizes(in_order([short("S"), short("M"), short("L"), short("XL", 110)]))
    assert [p.message for p in folded] == [
        "sizes S, M, L and XL, with the figures of S: found a bed of 200 needles."]
    assert fold_sizes(folded) == folded and from_json(as_json(folded[0])) == folded[0]


def test_two_faults_of_a_size_at_one_place_are_told_apart() -> None:
    folded = fold_sizes([short("S"), short("S", 110), short("M"), short("M", 110)])
    assert [p.message for p in folded] == ["sizes S and M: found a bed of 200 needles.",
                                           "sizes S and M: found a bed of 110 needles."]


def test_a_size_with_more_faults_at_a_place_is_not_told_together_with_one_that_has_fewer() -> None:
    """Which of the two of S is that of M, nothing says, unless they are alike."""
    folded = fold_sizes([short("S"), short("S", 110), short("M", 108), short("L", 110)])
    assert [p.message for p in folded] == ["size S: found a bed of 200 needles.",
                                           "sizes S and L: found a bed of 110 needles.",
                                           "size M: found a bed of 108 needles."]


def test_a_fault_with_other_words_in_a_size_is_told_once_by_its_code_and_place() -> None:
    """No text is read for it: the words may differ by more than their figures."""
    other = replace(short("M"), found="a short bed")
    assert [p.message for p in fold_sizes([short("S"), other])] == [
        "sizes S and M, with the figures of S: found a bed of 200 needles."]


def test_a_fault_with_a_way_out_in_one_size_alone_is_told_apart() -> None:
    other = replace(short("M"), remedy="Write another bed.")
    assert len(fold_sizes([short("S"), other])) == 2


def test_a_finding_of_all_sizes_is_not_told_together_with_that_of_one() -> None:
    assert [p.message for p in fold_sizes([short(""), short("S"), short("M")])] == [
        "found a bed of 200 needles.", "sizes S and M: found a bed of 200 needles."]


def test_folding_twice_is_folding_once() -> None:
    once = fold_sizes([short("S"), short("M")])
    assert fold_sizes(once) == once
