"""Published armholes, caps, necks and shoulders, chosen by the keys of a pattern source.

A published width that is sewn has two stitches more here, one for each seam (G05, C09); an armhole
with neither sleeve nor band has none in a seam. What of a garment a case does not say, such as the
height of the armhole of a published cap, is ours.
"""

import re
from fractions import Fraction
from itertools import accumulate, pairwise

from published_more import against
from sourced import counts, gaps, garment, held, piece, read, swatch
from walebook.core.problems import has_errors
from walebook.proof.proof import prove
from walebook.shape.profile import Change, How

SEAMS = 2
PLAIN = swatch(20, 25)  # a stitch is 5 mm wide and a row 4 mm high


def across(stitches: int, seams: int = SEAMS) -> str:
    """The width of so many stitches of the plain gauge, with those that seams take."""
    return f"{(stitches - seams) * 5} mm"


def high(rows: int) -> str:
    """The height of so many rows of the plain gauge."""
    return f"{rows * 4} mm"


def bound(changes: tuple[Change, ...], rows: int) -> list[int]:
    """What goes from an edge in the first rows of its shaping."""
    return [c.stitches for c in changes if c.row < changes[0].row + rows]


def eased(form: str, shown: str, measures: dict[str, object], **more: str) -> str:
    """A garment whose cap has the ease that its finding proposes, where it fits no other."""
    text = garment(form, shown, measures, **more)
    _, found = prove(read(text))
    if not has_errors(found):
        return text
    proposed = re.search(r"cap_ease: ([−\d.]+ cm)", " ".join(map(str, found)))
    assert proposed, [str(each) for each in found]
    ease = proposed[1].replace("−", "-")
    return garment(form, shown, {**measures, "cap_ease": ease}, **more)


@against("C02")
def test_a_cap_begins_with_the_armholes_bind_offs(case):
    said, wanted = case["inputs"], case["outputs"]
    foot = said["armhole_bind_offs"]
    per = said["gauge_per_10cm"]
    text = eased("set-in pullover", swatch(per["sts"], per["rows"]), {
        "chest_width": "52 cm", "across": f"52 cm - {2 * sum(foot)} / {per['sts']} * 10 cm",
        "armhole": "18 cm",
        "upper_arm_width": f"{said['sleeve_cm']} cm - {SEAMS} / {per['sts']} * 10 cm",
        "cap_height": f"{said['cap_cm']} cm", "cap_top": f"{said['top_cm']} cm"},
        armhole=f"{{bind_off: {foot}}}", round="{sleeve upper arm: odd}")
    made, edge = counts(text)["sleeve"], piece(text, "sleeve").right.changes
    assert (made["upper_arm"], made["cap_rows"]) == (wanted["sts"], wanted["rows"])
    assert made["cap_top"] == wanted["top_sts"]
    up = made["rows_to_underarm"]
    cap = [c for c in edge if c.row >= up]
    assert bound(tuple(cap), wanted["rows_used"]) == foot
    assert [c.row - up for c in cap[:4]] == [0, 2, 4, 6]
    assert 2 * sum(foot) == wanted["bound_off"]
    assert wanted["sts"] - wanted["bound_off"] == wanted["left"]
    assert 2 * sum(c.stitches for c in cap[4:]) == wanted["still_to_remove"]


@against("C03")
def test_a_part_of_the_armhole_at_once_then_a_slope(case):
    """The author takes 26 stitches for 25.2 and 8 for 8.4; 34 go here, of which 8 are asked for."""
    said, wanted = case["inputs"], case["outputs"]
    per = said["gauge_per_10cm"]
    text = garment("set-in slipover", swatch(per["sts"], per["rows"]), {
        "chest_width": f"{said['width_cm']} cm",
        "across": f"{said['shoulder_width_cm']} cm + {SEAMS} / {per['sts']} * 10 cm",
        "armhole": f"{said['armhole_cm']} cm", "armhole_straight": f"{said['straight_top_cm']} cm",
        "body_length": f"{said['length_cm'] + 3} cm"},
        armhole=f"{{curve: quarter at once, bind_off: {wanted['first_cast_off_sts']}}}")
    made, edge = counts(text)["back"], piece(text, "back").right.changes
    assert made["armhole_bind_off"] == wanted["first_cast_off_sts"]
    assert made["armhole_slope_rows"] == wanted["slope_rows"]
    assert edge[0].stitches == wanted["first_cast_off_sts"]
    slope = tuple(c._replace(row=c.row - edge[0].row - 1) for c in edge[1:])
    used = wanted["slope_sts_used"]
    rest = wanted["slope_rows"] % used
    assert wanted["division"] == f"{wanted['slope_rows']} / {used} = 2 r {rest}"
    assert gaps(slope, How.DECREASE) == [(2, used - rest), (3, rest)]


def test_a_quarter_of_what_goes_is_bound_off_at_once():
    """C03 takes 3 of 12 cm; a stitch a centimetre, and a row."""
    text = garment("set-in slipover", swatch(1, 1, "1 cm"), {
        "chest_width": "62 cm", "across": "40 cm", "neck_width": "16 cm", "armhole": "40 cm",
        "armhole_straight": "12 cm", "body_length": "90 cm"}, armhole="{curve: quarter at once}")
    made = counts(text)["back"]
    assert (made["cast_on"] - made["across"]) // 2 == 12
    assert made["armhole_bind_off"] == 3
    share = text.replace("curve: quarter at once", "bind_off: 25 %")
    assert piece(share, "back").right == piece(text, "back").right


@against("C04")
def test_a_cap_as_the_armhole(case):
    """At the gauge of C03, by the same author; its 3 cm are 8 stitches there."""
    said, wanted = case["inputs"], case["outputs"]
    shaping = Fraction(said["body_armhole_shaping_rows"] * 10, said["rows_per_10cm"])
    text = eased("set-in pullover", swatch(28, said["rows_per_10cm"]), {
        "chest_width": "62 cm", "across": "38 cm", "body_length": "67 cm",
        "armhole": f"{shaping + said['straight_top_cm']} cm",
        "armhole_straight": f"{said['straight_top_cm']} cm",
        "upper_arm_width": f"{said['wide_cm']} cm - {SEAMS} / 28 * 10 cm",
        "sleeve_length": f"{wanted['knit_then_cast_off']} / {said['rows_per_10cm']} * 10 cm"},
        armhole="{bind_off: 8}", cap="{curve: as the armhole}")
    made = counts(text)["sleeve"]
    assert made["rows_to_underarm"] == wanted["knit_then_cast_off"]
    # the two sides are cast off in 2 rows, then the head has the rows of the armhole's slope
    assert made["rows_to_underarm"] + 2 == wanted["rows_before_head"]
    assert made["rows_to_underarm"] + made["cap_rows"] == wanted["total_rows"]
    assert Fraction((made["upper_arm"] - 16) * 10, 28) == wanted["head_start_width_cm"]
    assert Fraction(made["cap_top"] * 10, 28) == wanted["head_end_width_cm"]


@against("C05")
def test_an_armhole_by_thirds(case):
    """9 and 9 and 9 as written leave 2 of the 29 over: one is bound off here, one goes on the
    rows."""
    said, wanted = case["inputs"], case["outputs"]
    per = said["gauge_per_10cm"]
    text = garment("set-in slipover", swatch(per["sts"], per["rows"]), {
        "chest_width": f"{said['bodice_cm']} cm",
        "across": f"{said['bodice_cm']} cm - {said['remove_total'] - SEAMS} / {per['sts']} * 10 cm",
        "neck_width": "8 cm", "armhole": f"{said['armhole_drop_cm']} cm"},
        armhole="{curve: by thirds}")
    made, edge = counts(text)["back"], piece(text, "back").right.changes
    assert made["cast_on"] - SEAMS == wanted["bodice_sts"]
    assert made["armhole_rows"] == wanted["drop_rows"]
    at_once, *slope = edge
    assert sum(c.stitches for c in edge) == wanted["each_side"]
    blocks = gaps(tuple(c._replace(row=c.row - at_once.row - 1) for c in slope), How.DECREASE)
    assert at_once.stitches in (9, 10)
    assert blocks in ([(1, 9), (2, 9)], [(1, 10), (2, 9)])
    assert slope[-1].row - at_once.row <= wanted["third_rows"]


@against("R03")
def test_a_straight_part_follows_the_slope_anyway(case):
    """The bind-off takes a row before the slope."""
    said, wanted = case["inputs"], case["outputs"]
    after = wanted["straight_rows_after"]
    text = garment("set-in slipover", PLAIN, {
        "chest_width": across(90), "across": across(90 - 2 * (3 + said["events"]), 0),
        "armhole": high(said["rows"] + after + 1), "armhole_straight": high(after + 1),
        "neck_width": across(30, 0), "body_length": "40 cm"}, armhole="{bind_off: 3}")
    edge = piece(text, "back").right.changes
    slope = tuple(c._replace(row=c.row - edge[0].row - 1) for c in edge[1:])
    assert gaps(slope, How.DECREASE) == [(wanted["interval_rows"], wanted["times"])]
    assert slope[0].row == wanted["first_event_row"]
    assert slope[-1].row == said["rows"]
    assert counts(text)["back"]["armhole_rows"] - (edge[-1].row - edge[0].row) == after


@against("C10")
def test_bind_offs_fall_by_one_every_two_rows(case):
    steps = case["inputs"]["bind_offs_each_side"]
    text = garment("set-in slipover", PLAIN, {
        "chest_width": across(90), "across": across(90 - 2 * sum(steps), 0)},
        armhole=f"{{bind_off: {steps}}}")
    for parity, edge in enumerate((piece(text, "back").right, piece(text, "back").left)):
        first = edge.changes[0].row - parity
        assert [c.stitches for c in edge.changes] == steps
        assert [c.row - first - parity for c in edge.changes] == [0, 2, 4, 6]
        assert edge.changes[-1].row - parity + 2 - first == case["outputs"]["rows"]


@against("N01")
def test_a_centre_and_falling_steps_at_either_side(case):
    stitches, wanted = case["inputs"]["neck_sts"], case["outputs"]
    text = garment("set-in slipover", PLAIN, {
        "neck_width": across(stitches, 0), "front_neck": high(24)},
        neckline=f"{{front_steps: {wanted['front_steps_each_side']}, "
                 f"back_centre: {wanted['back_centre']}, "
                 f"back_steps: {wanted['back_steps_each_side']}}}")
    assert counts(text)["back"]["neck_stitches"] == stitches
    for key in ("front", "back"):
        opening = piece(text, key).opening
        assert opening is not None and opening.centre == wanted[f"{key}_centre"]
        assert [c.stitches for c in opening.inner.changes] == wanted[f"{key}_steps_each_side"]


@against("N02")
def test_a_step_every_second_row_and_the_last_one_straight(case):
    said, wanted = case["inputs"], case["outputs"]
    per = said["gauge_per_10cm"]
    *steps, straight = wanted["front_steps_every_2nd_row"]
    text = garment("set-in slipover", swatch(per["sts"], per["rows"]), {
        "neck_width": f"{said['neck_width_cm']} cm", "front_neck": f"{said['neck_depth_cm']} cm",
        "shoulder_drop": "1.5 cm"},
        neckline=f"{{front_centre: {wanted['front_centre']}, front_steps: {steps}, "
                 f"back_steps: {wanted['back_steps']}}}",
        round="{back cast on: even, back neck stitches: down}")
    made = counts(text)
    assert made["back"]["neck_stitches"] == wanted["neck_sts"]
    assert made["front"]["neck_rows"] == wanted["neck_rows"]
    front, back = piece(text, "front").opening, piece(text, "back").opening
    assert front is not None and back is not None and straight == 0
    assert (front.centre, back.centre) == (wanted["front_centre"], wanted["back_centre"])
    assert [c.stitches for c in front.inner.changes] == steps
    assert {b.row - a.row for a, b in pairwise(front.inner.changes)} == {2}
    # the centre and each step take 2 rows, the straight step the last 2
    assert made["front"]["neck_rows"] == 2 * (1 + len(steps) + 1)
    assert [c.stitches for c in back.inner.changes] == wanted["back_steps"]


@against("S04")
def test_the_last_step_takes_what_the_others_leave(case):
    said = case["inputs"]
    published_last = (9, 8, 10, 9, 12)  # the trade notes on S04
    for stitches, first, following, times, number, last in zip(
            said["shoulder_sts"], said["first_step"], said["next_steps"],
            said["number_of_next_steps"], case["outputs"]["steps_incl_last"], published_last,
            strict=True):
        listed = [first, *[following] * times]
        text = garment("set-in slipover", PLAIN, {
            "chest_width": across(2 * stitches + 60), "across": across(2 * stitches + 40),
            "neck_width": across(40, 0)}, shoulders=f"{{steps: {listed}}}")
        assert counts(text)["back"]["shoulder_rows"] == 2 * (number - 1)
        opening = piece(text, "back").opening
        assert opening is not None
        steps = held(opening.outer.changes)
        assert steps in (listed, [*listed, last])
        assert sum(listed) + last == stitches


@against("W3-065")
def test_a_cap_as_high_as_the_armhole_less_two_halves(case):
    """The bind-offs of 10, 8 and 16: 5 and 4 at each side, then the top; its armhole is ours."""
    said, wanted = case["inputs"], case["outputs"]
    foot, crown, top = said["bound_off_parts"]
    stitch = "1 in / 5.5"
    text = eased("set-in pullover", swatch(Fraction("5.5"), said["rows_per_in"], "1 in"), {
        "chest_width": "21 in", "across": f"21 in - 16 * {stitch}",
        "armhole": f"{said['armhole_depth_in']} in",
        "upper_arm_width": f"{said['upper_arm_sts'] - SEAMS} * {stitch}",
        "cap_height": f"armhole - {said['final_bind_off_in']} in / 2 "
                      f"- {said['estimated_cap_length_in']} in / 2",
        "cap_top": f"{top} * {stitch}"},
        armhole=f"{{bind_off: {foot // 2}}}", cap=f"{{top_bind_offs: [{crown // 2}]}}")
    made, sleeve = counts(text)["sleeve"], piece(text, "sleeve")
    assert (made["upper_arm"], made["cap_rows"]) == (said["upper_arm_sts"], wanted["rows"])
    assert made["cap_top"] == top
    slope = [c for c in sleeve.right.changes if c.how is How.DECREASE]
    assert sum(c.stitches for c in slope) == wanted["each_side"]
    assert 2 * wanted["each_side"] == wanted["part2_decrease_sts"]


@against("W3-073")
def test_a_bell_shaped_cap(case):
    """Its armhole is ours, and its ease what is then left."""
    said, wanted = case["inputs"], case["outputs"]
    first, last = said["every_row_first"], said["every_row_last"]
    for n, (stitches, at_once) in enumerate(zip(said["top_sts"], said["cast_off_each"],
                                                strict=True)):
        text = eased("set-in pullover", swatch(30, 40), {
            "chest_width": "52 cm", "across": f"52 cm - {4 * at_once} / 30 * 10 cm",
            "neck_width": "16 cm", "armhole": f"20 cm + {n} * 5 mm",
            "upper_arm_width": f"{stitches - SEAMS} / 30 * 10 cm",
            "cap_top": f"{wanted['final_cast_off']} / 30 * 10 cm"},
            armhole=f"{{bind_off: {at_once}}}", round="{sleeve upper arm: odd}",
            cap=f"{{curve: bell, every_row: [{first}, {last}], top_bind_offs: [4, 4]}}")
        made, sleeve = counts(text)["sleeve"], piece(text, "sleeve")
        assert (made["upper_arm"], made["cap_rows"]) == (stitches, wanted["cap_rows"][n])
        edge = [c for c in sleeve.right.changes if c.row >= made["rows_to_underarm"]]
        left = list(accumulate((2 * c.stitches for c in edge), lambda a, b: a - b,
                               initial=stitches))
        middle = wanted["every_2nd"][n]
        assert left[1] == wanted["after_cast_off"][n]
        assert left[1 + first] == wanted["after_first"][n]
        assert left[1 + first + middle] == said["until_sts"]
        assert left[1 + first + middle + last] == wanted["after_last"]
        assert left[-1] == wanted["final_cast_off"]
        rows = [b.row - a.row for a, b in pairwise(edge[1:])]
        assert rows == [*[1] * (first - 1), *[2] * middle, *[1] * last, 1, 2][:len(rows)]
