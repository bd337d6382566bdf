"""Sources that schedule slopes: what a sound one comes to, and what is said of others.

Counts are worked out from the swatch, 30 stitches and 42 rows to 10 cm: a sleeve 20 cm wide at its
cuff and 30 cm at the underarm has 62 and 92 stitches with its seams, 15 increases at each side, and
168 rows in 40 cm; 4 cm are 16.8 rows.
"""

from __future__ import annotations

import pytest
from reading import FILE
from test_garment_sources import SMALLEST, messages, read
from walebook.proof.proof import SizeProof, prove
from walebook.shape.profile import How
from walebook.words.terms.working import working_of

RAGLAN = SMALLEST.replace("set-in cardigan", "raglan pullover") + (
    "  neck: v\n  measures: {cuff_width: 20 cm, upper_arm_width: 30 cm, sleeve_length: 40 cm}\n")
FRONTS = (("set-in pullover", "front"), ("set-in cardigan", "right_front"),
          ("raglan cardigan", "right_front"), ("saddle raglan cardigan", "right_front"))
LINE = RAGLAN.count("\n") + 1


def asked(slopes: str, text: str = RAGLAN) -> str:
    return text + f"  slopes: {slopes}\n"


def found(text: str, *severities: str) -> list[str]:
    """What is found of a source that is read, as shown."""
    pattern, problems = read(text)
    assert pattern is not None, [str(p) for p in problems]
    return [str(p).removeprefix(f"{FILE}:") for p in prove(pattern)[1]
            if p.severity.value in (severities or ("error",))]


def sizes(text: str) -> tuple[SizeProof, ...]:
    pattern, problems = read(text)
    assert pattern is not None, [str(p) for p in problems]
    proof, wrong = prove(pattern)
    assert proof is not None, [str(p) for p in wrong]
    return proof.sizes


def increases(size: SizeProof) -> list[int]:
    """The rows on which the sleeve of a size is increased."""
    edge = next(p.piece.left for p in size.pieces if p.piece.key == "sleeve")
    return [c.row for c in edge.changes if c.how is How.INCREASE]


def counts(size: SizeProof, piece: str) -> dict[str, str]:
    assert size.assembled is not None
    return {name: working_of(count) for key, name, count in size.assembled.garment.counts
            if key == piece}


def test_rates_are_followed_and_the_last_one_takes_the_rest() -> None:
    for size in sizes(asked("{sleeve: {rates: every 6th row 5 times then every 12th row}}")):
        assert increases(size) == [*range(6, 31, 6), *range(42, 151, 12)]
        assert counts(size, "sleeve")["rows_shaped"] == \
            "(5 × 6) + (10 × 12) + 18 after the last = 168 rows"


def test_every_row_is_a_rate() -> None:
    """An increase on each of the first five rows, and the other ten 12 rows apart."""
    for size in sizes(asked("{sleeve: {rates: every row 5 times then every 12th row}}")):
        assert increases(size) == [*range(1, 6), *range(17, 126, 12)]


def test_every_row_among_several_figures_is_the_first() -> None:
    """As the refusal of "every row and 2nd row" says; three figures come over and over."""
    for size in sizes(asked("{sleeve: {rates: every 1st and 1st and 2nd row in turn}}")):
        assert increases(size) == [4 * n + at for n in range(5) for at in (1, 2, 4)]
    _, faults = read(asked("{sleeve: {rates: every row and 2nd row mixed}}"))
    (remedy,) = [fault.remedy for fault in faults if fault.code == "bad-rates"]
    rates = remedy.rpartition("write every row as 1st: ")[2].removesuffix(".")
    assert not found(asked(f"{{sleeve: {{rates: {rates}}}}}"), "error")


def test_the_rows_of_rates_in_turn_are_computed() -> None:
    """Of 15 increases five come as each figure of the list: 5 + 5 + 10 rows."""
    for size in sizes(asked("{sleeve: {rates: every 1st and 1st and 2nd row in turn, plain_end: "
                            "90 rows}}")):
        assert increases(size) == [1, 2, 4, 5, 6, 8, 9, 10, 12, 13, 14, 16, 17, 18, 20]
        assert counts(size, "sleeve")["rows_shaped"] == \
            "(5 × 1) + (5 × 1) + (5 × 2) + 148 after the last = 168 rows"


def test_each_size_has_its_rates() -> None:
    rates = "{S: every 8th row, M: every 10th row, L: every 10 rows 3 times then evenly}"
    small, middle, large = map(increases, sizes(asked(f"{{sleeve: {{rates: {rates}}}}}")))
    assert small == list(range(8, 121, 8))
    assert middle == list(range(10, 151, 10))
    assert large == [*range(10, 31, 10), *range(41, 163, 11)]  # 137 rows for 12, one left plain


def test_plain_stretches_are_counted_in_rows() -> None:
    """16.8 rows are 17; 15 increases in the 134 rows between two such stretches: 14 gaps of 9 and
    one of 8 rows, the shorter first."""
    for size in sizes(asked("{sleeve: {plain_start: 4 cm, plain_end: 17 rows}}")):
        assert increases(size) == [25, *range(34, 152, 9)]
        made = counts(size, "sleeve")
        assert made["plain_rows_first"] == ("plain start 4 cm × 42 rows to 10 cm = 16.8, "
                                            "rounded: 17 (0.5 mm more)")
        assert "plain_rows_last" not in made  # said in rows: nothing is counted


def test_a_v_neck_is_counted_from_where_it_opens() -> None:
    """16 cm are 67.2 rows: 66 or 67, but for one at a front edge, where a bind-off would be a row
    later, and one that is knitted over the held shoulders."""
    for form, key in FRONTS:
        text = SMALLEST.replace("set-in cardigan", form) + (
            "  neck: v\n  measures: {front_neck: 16 cm}\n")
        for size in sizes(asked("{v_neck: {rates: every 2nd row, first_row: 3}}", text)):
            made = counts(size, key)["neck_rows_shaped"]
            front = next(p.piece for p in size.pieces if p.piece.key == key)
            inner = front.opening.inner if front.opening else front.left
            assert made.startswith(f"({len(inner.changes) - 1} × 2) + 3 before the first + "), form
            assert 64 <= int(made.removesuffix(" rows").rpartition(" ")[2]) <= 67


def test_a_v_in_a_raglan_keeps_a_row_below_its_top() -> None:
    """Asked for no plain row, its last decrease lies below the last row, as it does unasked."""
    slopes = "{v_neck: {order: fast first, plain_end: 0 rows}}"
    for text in (RAGLAN, RAGLAN.replace("pullover", "cardigan")):
        for size in sizes(asked(slopes, text)):
            front = next(p.piece for p in size.pieces if p.piece.key in ("front", "right_front"))
            inner = front.opening.inner if front.opening else front.left
            assert inner.changes[-1].row == inner.rows - 1


SIDES = SMALLEST.replace("set-in cardigan", "set-in slipover") + (
    "  measures: {chest_width: 50 cm, hip_width: 54 cm, hip_height: 4 cm, waist_width: 44 cm,\n"
    "    waist_height: 24 cm, body_length: 60 cm, sleeve_length: 40 cm}\n")
SIDED = tuple(form for form in ("drop-shoulder pullover", "drop-shoulder waistcoat",
                                "set-in cardigan", "raglan pullover", "saddle raglan cardigan"))


def side(size: SizeProof, piece: str = "back") -> list[tuple[int, How]]:
    """What is shaped at the right edge of a piece below its underarm: the row and how."""
    made = next(p.piece for p in size.pieces if p.piece.key == piece)
    return [(c.row, c.how) for c in made.right.changes if c.row < made.levels[-1][1]]


def test_each_stretch_of_a_side_has_its_schedule() -> None:
    """54 cm are 162 stitches and 2 for the seams, 44 cm are 132 and 2, 50 cm are 150 and 2: 15 go
    at each side in the 84 rows from row 17 to row 101, and 9 come above the 11 rows of 2.5 cm."""
    slopes = ("{side_to_waist: {rates: every 4th row 5 times then every 6th row, first_row: 3}, "
              "side_to_chest: {rates: every 3 rows, plain_start: 4 rows, plain_end: 2 cm}}")
    for size in sizes(asked(slopes, SIDES)):
        for piece in ("back", "front"):
            made = side(size, piece)
            assert [row - 17 for row, how in made if how is How.DECREASE] == [
                3, *range(7, 24, 4), *range(29, 78, 6)]
            assert [row - 112 for row, how in made if how is How.INCREASE] == [*range(7, 32, 3)]
        assert counts(size, "back")["side_to_waist_rows_shaped"] == \
            "(5 × 4) + (9 × 6) + 3 before the first + 7 after the last = 84 rows"
        assert counts(size, "back")["side_to_chest_plain_rows_last"] == (
            "plain end 2 cm × 42 rows to 10 cm = 8.4, rounded: 8 (1 mm less)")


def test_a_side_follows_its_order_in_every_form() -> None:
    """15 decreases in 84 rows: 9 gaps of 6 rows and 6 of 5, the longer first, or one of 5 rows."""
    for form in SIDED:
        text = SIDES.replace("set-in slipover", form)
        slow, one = (side(sizes(asked(f"{{side_to_waist: {{order: {order}}}}}", text))[0])
                     for order in ("slow first", "one rate"))
        down = [row - 17 for row, how in slow if how is How.DECREASE]
        assert down == [*range(6, 55, 6), *range(59, 85, 5)], form
        assert [row - 17 for row, how in one if how is How.DECREASE] == [*range(5, 76, 5)], form


def test_a_side_takes_what_its_darts_leave() -> None:
    """Of the 15 stitches 8 go at the dart, two at a time; 7 decreases are left for the side."""
    text = SIDES + "  darts: {share: 60 %}\n"
    for size in sizes(asked("{side_to_waist: {rates: every 10th row}}", text)):
        made = [row - 17 for row, how in side(size) if how is How.DECREASE]
        assert made == [*range(10, 71, 10)]


UNFIT_SIDES: dict[str, tuple[str, str]] = {
    "too many rows": ("{side_to_waist: {rates: every 6th row}}", (
        "35: error, slope-does-not-fit: size S: found rates that take 90 rows for 15 decreases "
        "(side up to the waist); expected at most 84 rows. Write every 5th row in the last rate, "
        'or leave its rows out: "then 15 times" takes as many as fit.')),
    "an increase in the bind-off of the underarm": (
        "{side_to_chest: {rates: 8 times}}", (
            "35: error, slope-does-not-fit: size S: found rates of 8 increases (side up to the "
            "chest); expected 9 increases, as the measures make. Write 9 times in the last rate, "
            "or leave its times out: they then follow from the measures in every size.")),
    "nothing to shape below the hip": ("{side_to_hip: {rates: every row twice}}", (
        "33: error, slope-does-not-fit: size S: found rates of 2 shaped rows (side up to the "
        "hip); expected 0 shaped rows, as the measures make. Leave its times out: they then "
        "follow from the measures in every size.")),
}


@pytest.mark.parametrize("what", UNFIT_SIDES)
def test_a_side_that_does_not_fit_says_what_would(what: str) -> None:
    slopes, said = UNFIT_SIDES[what]
    line = SIDES.count("\n") + 1
    assert found(asked(slopes, SIDES))[0] == f"{line}:{said}"


def test_a_side_up_to_a_width_that_is_not_there() -> None:
    line = RAGLAN.count("\n") + 1
    assert found(asked("{side_to_waist: {order: slow first}}"))[0] == (
        f"{line}:12: error, slope-does-not-fit: size S: found side_to_waist without waist_width; "
        "expected waist_width as well. Give waist_width with its height, or delete "
        "side_to_waist.")
    assert found(asked("{side_to_chest: {order: slow first}}"))[0] == (
        f"{line}:12: error, slope-does-not-fit: size S: found side_to_chest without hem_width or "
        "hip_width or waist_width; expected hem_width or hip_width or waist_width as well. Give "
        "hem_width, or delete side_to_chest.")
    sideways = SMALLEST.replace("set-in cardigan", "sideways pullover")
    assert any("no-such-slope" in one for one in messages(asked(
        "{side_to_hip: {order: slow first}}", sideways)))


def test_a_schedule_in_quotes_and_in_lines_is_the_same() -> None:
    texts = ("{sleeve: {rates: every other row twice then every 11th row}}",
             '{sleeve: {rates: "every 2 rows twice, then every 11 rows 13 times"}}',
             "\n    sleeve:\n      rates: every 2nd row 2 times, then every 11th row 13 times")
    assert len({tuple(increases(sizes(asked(text))[0])) for text in texts}) == 1


RATES = "rates such as every 6th row 5 times then every 8th row"
BAD: dict[str, tuple[str, str]] = {
    "no rates": ("{v_neck: {rates: every sixth row}}", (
        f'28: error, bad-rates: found "every sixth row"; expected {RATES}. Write each rate as '
        "every 6th row 5 times, with then between two. Of several figures write every row as 1st: "
        "every 1st and 2nd row mixed.")),
    "an open rate that is not the last": (
        "{sleeve: {rates: every 6th row then every 8th row}}", (
            f"28: error, bad-rates: found rate 1 of 2 without its times; expected {RATES}. Only "
            "the last rate may leave its rows or its times out.")),
    "times alone that are not the last": (
        "{sleeve: {rates: 3 times then every 8th row}}", (
            f"28: error, bad-rates: found rate 1 of 2 without its rows; expected {RATES}. Only "
            "the last rate may leave its rows or its times out.")),
    "a mixed rate that is not the last": (
        "{sleeve: {rates: every 6th and 8th row mixed 3 times then every 9th row}}", (
            f"28: error, bad-rates: found a mixed rate that is not the last, or not of two "
            f"figures; expected {RATES}. Write it last, as every 2nd and 4th row mixed.")),
    "a mixed rate of one figure": ("{sleeve: {rates: every 6th row mixed}}", (
        f"28: error, bad-rates: found a mixed rate that is not the last, or not of two figures; "
        f"expected {RATES}. Write it last, as every 2nd and 4th row mixed.")),
    "a comma in braces": ("{sleeve: {rates: every 6th row 5 times, then every 8th row}}", (
        '51: error, unknown-key: found the unknown key "then every 8th row" in the slope sleeve, '
        "behind a comma; expected all rates of a slope in one value. Leave the comma before then "
        "out, or put the rates in quotes: in braces a comma begins the next entry.")),
    "an order and rates": ("{sleeve: {order: slow first, rates: every 6th row}}", (
        '40: error, two-answers: found both "order" and "rates" in the slope sleeve; expected one '
        "of the two. Delete one of them.")),
    "a first row and a plain start": ("{sleeve: {first_row: 3, plain_start: 2 cm}}", (
        '35: error, two-answers: found both "first_row" and "plain_start" in the slope sleeve; '
        "expected one of the two. Delete one of them.")),
    "a size too few": ("{sleeve: {rates: {S: every 6th row, M: every 6th row}}}", (
        "21: error, missing-size: found no rates for L; expected a value for each of S, M, L. "
        "Add L.")),
    "no slope of that name": ("{sleeves: {order: slow first}}", (
        '12: error, unknown-key: found the unknown key "sleeves" in the slopes; expected '
        '"sleeve". Write sleeve.')),
}


@pytest.mark.parametrize("what", BAD)
def test_what_cannot_be_read(what: str) -> None:
    slopes, said = BAD[what]
    assert messages(asked(slopes)) == [f"{LINE}:{said}"]


def test_a_slope_that_the_garment_has_not() -> None:
    cardigan = RAGLAN.replace("raglan pullover", "set-in cardigan")
    assert messages(asked("{raglan_body: {order: slow first}}", cardigan)) == [
        f'{LINE}:12: error, no-such-slope: found the slope "raglan_body" in a set-in cardigan; '
        "expected one of sleeve, v_neck, side_to_hip, side_to_waist, side_to_chest. Delete it, or "
        "use one of raglan pullover, raglan cardigan, saddle raglan pullover, saddle raglan "
        "cardigan."]
    high = RAGLAN.replace("neck: v", "neck: round")
    assert messages(asked("{v_neck: {order: slow first}}", high)) == [
        f'{LINE}:12: error, no-such-slope: found the slope "v_neck" in a raglan pullover with a '
        "round neck; expected one of sleeve, raglan_body, raglan_sleeve, side_to_hip, "
        "side_to_waist, side_to_chest. Write neck: v, or delete it."]


UNFIT: dict[str, tuple[str, str]] = {
    "too many rows": ("{sleeve: {rates: every 12th row}}", (
        "28: error, slope-does-not-fit: size S: found rates that take 180 rows for 15 increases "
        "(sleeve); expected at most 167 rows. Write every 11th row in the last rate, or leave its "
        'rows out: "then 15 times" takes as many as fit.')),
    "too many rows after a faster rate": (
        "{sleeve: {rates: every 6th row twice then every 14th row}}", (
            "28: error, slope-does-not-fit: size S: found rates that take 194 rows for 15 "
            "increases (sleeve); expected at most 167 rows. Write every 6th row 6 times.")),
    "too many rows, so that the faster rate takes all": (
        "{sleeve: {rates: every 11th row 5 times then every 30th row}}", (
            "28: error, slope-does-not-fit: size S: found rates that take 355 rows for 15 "
            "increases (sleeve); expected at most 167 rows. Write every 11th row 15 times.")),
    "too few times": ("{sleeve: {rates: every 6th row 5 times then every 8th row 9 times}}", (
        "28: error, slope-does-not-fit: size S: found rates of 14 increases (sleeve); expected 15 "
        "increases, as the measures make. Write 10 times in the last rate, or leave its times "
        "out: they then follow from the measures in every size.")),
    "too many times": ("{sleeve: {rates: every 6th row 17 times then every 8th row}}", (
        "28: error, slope-does-not-fit: size S: found rates of 17 increases (sleeve); expected 15 "
        "increases, as the measures make. Write the rates before the last fewer times, by 3 in "
        "all, or change the measures.")),
    "no rows left": ("{sleeve: {rates: every 12th row 14 times then evenly}}", (
        "28: error, slope-does-not-fit: size S: found 1 increase in the 0 rows that are left for "
        "the last rate (sleeve); expected a row for each. Write fewer rows or fewer times before "
        "it.")),
    "too many plain rows": ("{sleeve: {plain_end: 38 cm}}", (
        "32: error, slope-does-not-fit: size S: found 15 increases in 8 of 168 rows (sleeve); "
        "expected a row for each increase. Leave fewer rows plain, or begin earlier.")),
    "more plain rows than rows": ("{sleeve: {plain_start: 42 cm}}", (
        "34: error, slope-does-not-fit: size S: found 176 rows of a slope of 168 that are to stay "
        "plain (sleeve); expected fewer than 168. Leave fewer rows plain.")),
    "an increase in the cast-on edge": ("{sleeve: {first_row: 0}}", (
        "32: error, slope-does-not-fit: size S: found the first increase on row 0 (sleeve); "
        "expected row 1 or a later one. Write first_row: 1.")),
    "a neck that narrows before its first row": ("{v_neck: {first_row: 0}}", (
        "32: error, slope-does-not-fit: size S: found the first decrease on row 0 (V neck); "
        "expected row 1 or a later one. Write first_row: 1.")),
}


@pytest.mark.parametrize("what", UNFIT)
def test_what_does_not_fit_says_what_would(what: str) -> None:
    slopes, said = UNFIT[what]
    first, *others = found(asked(slopes))
    assert first == f"{LINE}:{said}"
    assert len(others) == 2  # the other sizes, in the same words


def test_what_would_fit_fits() -> None:
    """The remedies above, each taken."""
    for slopes in ("{sleeve: {rates: every 11th row}}", "{sleeve: {rates: 15 times}}",
                   "{sleeve: {rates: every 6th row 6 times then every 14th row}}",
                   "{sleeve: {rates: every 6th row 5 times then every 8th row 10 times}}"):
        assert all(len(increases(size)) == 15 for size in sizes(asked(slopes)))


def test_a_slope_that_ends_early_is_warned_of_unless_it_is_meant() -> None:
    """15 increases every 4th row take 60 of 168 rows."""
    early = asked("{sleeve: {rates: every 4th row}}")
    assert found(early, "warning")[:1] == [
        f"{LINE}:28: warning, slope-ends-early: size S: found 108 of 168 rows plain after the last "
        "increase; expected at most a third of them, so that the edge keeps near to a straight "
        "line. Write slower rates, or plain_end where the plain rows are meant."]
    meant = asked("{sleeve: {rates: every 4th row, plain_end: 100 rows}}")
    assert [one for one in found(meant, "warning") if "slope-ends-early" in one] == []
    assert found(asked("{sleeve: {rates: every 8th row}}"), "warning") == found(
        RAGLAN, "warning")
