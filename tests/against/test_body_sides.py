"""Published body shaping below the armhole, from the text of a source to its counts and rows.

The published bodies are knitted in the round, two stitches at each of two side seams at once. Here
back and front are two pieces, each half as wide, and each side has a stitch more for its seam: of
every four stitches that go in a round one goes at each side of each piece.
"""

from fractions import Fraction
from itertools import pairwise

from published_more import against
from sourced import counts, garment, piece, swatch
from walebook.shape.profile import How


def events(text: str, how: How) -> list[int]:
    """The rows on which one side of the back is shaped in one way below its underarm."""
    back = piece(text, "back")
    return [c.row for c in back.right.changes if c.how is how and c.row < back.levels[-1][1]]


@against("W3-045", "W3-046")
def test_from_hip_to_waist_to_bust_in_groups_of_four(case):
    """The waist's 38 inches are 133 stitches a piece: an odd number, as the designer asks, gives
    both published differences."""
    said, wanted = case["inputs"], case["outputs"]
    waist = wanted.get("finished_waist_in", said.get("finished_waist_in"))
    hip, bust = Fraction("45.5"), Fraction("42.5")  # W3-044, W3-046
    made = garment("set-in pullover", swatch(said["sts_per_in"], 13, "1 in"), {
        "chest_width": f"{bust} / 2 * 1 in", "hip_width": f"{hip} / 2 * 1 in",
        "hip_height": "2 in", "waist_width": f"{waist} / 2 * 1 in", "waist_height": "9 in",
        "waist_straight": f"{wanted.get('work_even_at_waist_in', 1)} in",
        "body_length": "24 in"}, round="{back waist: odd}")
    if "decrease_sts" in wanted:
        down = events(made, How.DECREASE)
        assert len(down) == wanted["decrease_rounds_of_4"]
        assert 4 * len(down) == wanted["decrease_sts"]
    else:
        assert 4 * len(events(made, How.INCREASE)) == wanted["nearest_multiple_of_4"]
        rows = counts(made)["back"]
        assert rows["waist_rows"] == 13 * wanted["work_even_at_waist_in"]


@against("W3-047")
def test_the_first_row_counted_back_from_the_waist(case):
    """Published from the underarm down: read from below, the last two increases end 38 rows under
    the underarm, 8 rows apart."""
    said, wanted = case["inputs"], case["outputs"]
    per = said["rows_per_in"]
    deep = said["underarm_to_waist_in"]
    slope = 2 * said["decrease_every_rows"]
    wide = Fraction(18)
    taken = Fraction(said["take_in_sts"]) / Fraction(str(said["sts_per_in"]))
    waist = 8  # inches above the cast-on, ours
    armhole, drop = 8, 1
    text = garment("set-in pullover", swatch(said["sts_per_in"], per, "1 in"), {
        "chest_width": f"{wide} in", "waist_width": f"{wide} in - {taken} * 1 in",
        "waist_height": f"{waist} in", "waist_straight": "0 in",
        "chest_height": f"{waist} in + {slope} / {per} * 1 in", "across": "15 in",
        "armhole": f"{armhole} in", "shoulder_drop": f"{drop} in",
        "body_length": f"{waist + deep + armhole + drop} in"})
    made = counts(text)["back"]
    up = made["rows_to_armhole"]
    assert up - made["rows_to_waist"] == wanted["rows_underarm_to_waist"]
    rows = events(text, How.INCREASE)
    assert [b - a for a, b in pairwise(rows)] == [said["decrease_every_rows"]]
    assert up - rows[-1] == wanted["start_row_from_underarm"]
    assert 2 * len(rows) == said["take_in_sts"]


@against("W3-049")
def test_a_vertical_dart_in_each_half_a_quarter_of_the_width_in(case):
    """At 4 stitches to the inch, ours, every published length is whole stitches. The front is as
    wide as published at its lower edge, and narrows to the waist by its darts alone."""
    said, wanted = case["inputs"], case["outputs"]
    wide, less = said["front_width_in"], said["decrease_front_in"]
    made = garment("set-in pullover", swatch(4, 6, "1 in"), {
        "hem_width": f"{wide} in", "chest_width": f"{wide} in",
        "waist_width": f"{wide - less} in", "waist_height": "8 in", "waist_straight": "1 in",
        "body_length": "24 in"}, darts="{share: 100 %}")
    front = piece(made, "front")
    seam = 1
    assert counts(made)["back"]["dart_inset"] - seam == 4 * Fraction(
        str(wanted["dart_from_each_side_in"]))
    for edge in (front.left, front.right):
        darts = [c for c in edge.changes if c.how is How.DART_LESS]
        assert sum(c.stitches for c in darts) == 4 * wanted["width_per_dart_in"]
        assert {c.stitches for c in darts} == {2}  # on either side of one that runs on
        assert not [c for c in edge.changes if c.how is How.DECREASE and c.row < front.levels[0][1]]
    assert front.stitches.value - 2 * seam == 4 * wide


@against("W3-051")
def test_short_rows_over_the_bust_come_in_pairs(case):
    """The rows between the lower end of the darts and the underarm, beside the bust and over it."""
    said, wanted = case["inputs"], case["outputs"]
    made = garment("set-in pullover", swatch(said["sts_per_cm"], said["rows_per_cm"], "1 cm"), {
        "chest_width": "50 cm", "body_length": "60 cm"},
        bust_darts=f"{{extra: {wanted['extra_cm']} cm, below: {said['length_beside_cm']} cm}}")
    rows = counts(made)["front"]
    assert rows["bust_rows"] == wanted["extra_rows"]
    assert rows["bust_rows_below_underarm"] == wanted["rows"]
    (front,) = piece(made, "front").short_rows
    assert wanted["rows"] + front.extra == wanted["rows_over_bust"]


@against("W3-047")
def test_a_published_rate_at_a_side_leaves_the_rest_of_it_plain(case):
    """The same slope by its rate alone: two increases 8 rows apart above the waist, and no height
    at which they end."""
    said, wanted = case["inputs"], case["outputs"]
    taken = Fraction(said["take_in_sts"]) / Fraction(str(said["sts_per_in"]))
    waist, armhole, drop = 8, 8, 1  # inches, ours
    text = garment("set-in pullover", swatch(said["sts_per_in"], said["rows_per_in"], "1 in"), {
        "chest_width": "18 in", "waist_width": f"18 in - {taken} * 1 in",
        "waist_height": f"{waist} in", "waist_straight": "0 in", "across": "15 in",
        "armhole": f"{armhole} in", "shoulder_drop": f"{drop} in",
        "body_length": f"{waist + said['underarm_to_waist_in'] + armhole + drop} in"},
        slopes=f"{{side_to_chest: {{rates: every {said['decrease_every_rows']}th row}}}}")
    made, rows = counts(text)["back"], events(text, How.INCREASE)
    assert [row - made["rows_to_waist"] for row in rows] == [8, 16]
    assert made["rows_to_armhole"] - rows[-1] == wanted["start_row_from_underarm"]
    assert 2 * len(rows) == said["take_in_sts"]
