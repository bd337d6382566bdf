"""Published crowns of hats, from the text of a pattern source to what the bed knits.

A stitch of 1 cm and a row of half that; what a seam takes is in the published stitches.
"""

from itertools import pairwise

from published_more import against
from sourced import counts, garment, proved, swatch
from walebook.machine.edge_steps import CloseUp, TakeOff
from walebook.machine.steps import Hold, Knit, Resume, Transfer

SEAMS = 2


def hat(stitches: int, rows: int, crown: str, **more: str) -> str:
    """A hat of so many stitches and rows with this crown."""
    return garment("hat", swatch(1, 2, "1 cm"), {
        "hat_width": f"{stitches - SEAMS} cm", "hat_length": f"{rows * 5} mm"},
        crown=crown, **more)


def closed(text: str) -> list[int]:
    """The stitches on the needles each time that all were taken off and hung again."""
    (made,) = proved(text).sizes[0].pieces
    return [len(state.loaded) for step, state in zip(
        made.program.steps, made.trace.states, strict=True) if isinstance(step, CloseUp)]


def rows_after_closing(text: str) -> list[int]:
    """The rows knitted after each time, up to the next."""
    (made,) = proved(text).sizes[0].pieces
    after: list[int] = []
    for step in made.program.steps:
        if isinstance(step, CloseUp):
            after.append(0)
        elif after and isinstance(step, Knit):
            after[-1] += step.rows
    return after


@against("W3-015")
def test_a_crown_halved_three_times(case):
    """A row that works two together is one row here, and the plain rows come after it."""
    said, wanted = case["inputs"], case["outputs"]
    after = [1 + plain for plain in (*wanted["plain_rows_between"], 0)]
    text = hat(said["cast_on_sts"], said["rows"] + sum(after),
               f"{{shape: halvings, halvings: {after}}}")
    made = counts(text)["hat"]
    assert [made["cast_on"], *closed(text)] == wanted["crown_sts"]
    assert rows_after_closing(text) == after
    assert made["rows_to_crown"] == said["rows"]
    assert made["drawn_up"] == wanted["crown_sts"][-1]


@against("W3-015")
def test_a_hat_by_the_gauge_of_its_yarn(case):
    """Its published width has no seam stitches."""
    said, wanted = case["inputs"], case["outputs"]
    text = garment("hat", swatch(said["sts_per_10cm"], said["rows_per_10cm"]), {
        "hat_width": f"{wanted['width_cm']} cm", "hat_length": f"{wanted['length_cm']} cm"},
        crown="{shape: halvings}")
    made = counts(text)["hat"]
    assert (made["cast_on"] - SEAMS, made["rows"]) == (said["cast_on_sts"], said["rows"])


@against("W3-017")
def test_a_crown_of_ten_wedges(case):
    """A decrease and a plain row by turns: every two rows."""
    said, wanted = case["inputs"], case["outputs"]
    text = hat(said["sts"], 40, f"{{shape: wedges, wedges: {said['wedges']}, beside: 0, "
               "every: 2, remain: 2}")
    assert closed(text) == wanted["sts_after"]
    assert counts(text)["hat"]["crown_rows"] == wanted["rows"]
    (made,) = proved(text).sizes[0].pieces
    first = next(step for step in made.program.steps if isinstance(step, CloseUp))
    assert len(first.needles) == said["sts"] == said["wedges"] * said["divisor"]
    singles = [n.place for n in first.onto - first.doubled]
    assert len(singles) == said["wedges"] * (said["divisor"] - 2)  # six, and two together


@against("W3-020")
def test_a_crown_of_ten_wedges_and_an_edge_stitch_in_two_sizes(case):
    said, wanted = case["inputs"], case["outputs"]
    for n, name in enumerate(("small", "large")):
        body, after = wanted["body_sts"][n], wanted[name]
        rows = said["body_rows"][n] + wanted[f"rows_{name}"]
        text = hat(body, rows, f"{{shape: wedges, wedges: {wanted['wedges']}, beside: "
                   f"{said['add']}, every: 2, remain: 1}}")
        made = counts(text)["hat"]
        assert made["cast_on"] == body and closed(text) == after
        assert made["crown_rows"] == wanted[f"rows_{name}"]
        assert made["rows_to_crown"] == said["body_rows"][n]
        assert made["drawn_up"] == after[-1]


@against("W3-014")
def test_a_crown_in_quarters(case):
    """The published count is made a multiple of four by decreasing: rounded down here."""
    said, wanted = case["inputs"], case["outputs"]
    crown = f"{{shape: quarters, every: 2, remain: {wanted['until_sts']}}}"
    text = hat(said["body_sts"], 40, crown, round="{hat cast on: down}")
    made = counts(text)["hat"]
    assert made["cast_on"] == wanted["rounded_down_to"] and made["cast_on"] % said["multiple"] == 0
    assert made["crown_rows"] == wanted["rows_per_quarter"]
    (knitted,) = proved(text).sizes[0].pieces
    steps, states = knitted.program.steps, knitted.trace.states
    held = next(step for step in steps if isinstance(step, Hold))
    assert len(held.needles) == wanted["in_hold"]
    quarters = [len(step.needles) for step in steps if isinstance(step, Resume)]
    assert quarters == [wanted["quarter"]] * 3
    gone = [step for step in steps if isinstance(step, Transfer)]
    assert len(gone) == 4 * 2 * wanted["decrease_events"]  # at each end of each quarter
    drawn = [step for step in steps if isinstance(step, TakeOff)]
    assert [len(step.needles) for step in drawn] == [wanted["until_sts"]] * 4
    first = [state.counter for step, state in zip(steps, states, strict=True)
             if isinstance(step, Transfer)][:2 * wanted["decrease_events"]]
    assert {b - a for a, b in pairwise(sorted(set(first)))} == {2}  # every second row
