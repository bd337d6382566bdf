"""How many stitches an edge wants, and which rows they take, against published examples."""

from collections import Counter
from fractions import Fraction
from itertools import pairwise

from one_band import ONLY, pattern, proved
from published import account_for, against
from walebook.core.counted import stated
from walebook.core.counts import EVEN, ODD, Unit, decimal
from walebook.core.spread import shares
from walebook.core.units import Length, read_length
from walebook.fabric.gauge import Gauge, rows_along, stitches_across
from walebook.machine.edge_steps import Hang
from walebook.pattern.edges import EdgeShape
from walebook.pattern.fabrics import Swatch
from walebook.pattern.model import EdgeSpec, Fold
from walebook.plan.pickup import (
    edge_rows,
    pick_up,
    small_ratio,
    stitches_by_gauge,
    stitches_by_rule,
)
from walebook.proof.proof import Proof, prove

from tests import small_patterns as small

DIRECT = ("P04", "P06", "P08", "P09", "P11", "P13", "P14")

NOT_FOLLOWED: dict[str, str] = {}

INCH = Fraction(254, 10)  # mm, by definition


def per_inch(stitches: Fraction | int, rows: Fraction | int) -> Gauge:
    """A gauge given in stitches and rows to the inch."""
    return Gauge(stitch=INCH / stitches, row=INCH / rows)


def rows(number: int):
    """A count of rows as it was given."""
    return stated(number, Unit.ROWS)


SQUARE = per_inch(5, 7)  # of no account where a rule in stitches per row is asked


def test_every_direct_case_is_accounted_for():
    account_for(
        globals(),
        topics={"pick-up along row edges, slopes, curves"},
        direct=DIRECT,
        not_followed=NOT_FOLLOWED,
    )


def test_the_band_of_the_worked_example_has_39_stitches():
    """Common practice, no source: 52 rows, three stitches for every four rows, 39 stitches."""
    count = stitches_by_rule(rows(52), Fraction(3, 4), SQUARE)
    assert (count.value, count.exact, count.unit) == (39, 39, Unit.STITCHES)
    plan = pick_up(39, 52)
    missed = sorted(set(range(1, 53)) - set(plan.rows))
    assert plan.ratio == Fraction(3, 4)
    assert len(missed) == 13
    assert {later - sooner for sooner, later in pairwise(missed)} == {4}


@against("P04")
def test_a_quarter_fewer_stitches_than_rows_in_the_parity_the_rib_asks(case):
    factor = Fraction(case["outputs"]["factor"])  # exact: 0.75 is a binary fraction
    knitted, gone = 4, 1  # "K2, k2tog repeated": of every four stitches three are left
    assert factor == Fraction(knitted - gone, knitted)
    for number in range(4, 200):
        even = stitches_by_rule(rows(number), factor, SQUARE, rounding=EVEN).value
        odd = stitches_by_rule(rows(number), factor, SQUARE, rounding=ODD).value
        assert even % 2 == 0 and abs(even - factor * number) <= 1
        assert odd % 2 == 1 and abs(odd - factor * number) <= 1
    assert stitches_by_rule(rows(100), factor, SQUARE).value == 75


@against("P06")
def test_the_edge_by_both_gauges_gives_rows_stitches_and_the_row_to_skip(case):
    said, wanted = case["inputs"], case["outputs"]
    length = read_length(f"{said['length_in']} in")
    gauge = per_inch(Fraction(said["sts_per_4in"], 4), Fraction(said["rows_per_4in"], 4))
    edge = EdgeSpec(key="front", fabric="garment", shape=EdgeShape.FRONT,
                    length={ONLY: length})
    counted = edge_rows(edge, ONLY, gauge)
    assert counted.value == rows_along(length, gauge).value == wanted["rows"]
    assert stitches_across(length, gauge).value == wanted["sts"]
    assert stitches_by_gauge(counted, gauge, gauge).value == wanted["sts"]
    plan = pick_up(wanted["sts"], wanted["rows"])
    missed = sorted(set(range(1, wanted["rows"] + 1)) - set(plan.rows))
    assert plan.ratio == Fraction(2, 3)
    assert {later - sooner for sooner, later in pairwise(missed)} == {3}


@against("P08")
def test_the_rate_is_rows_over_stitches(case):
    said, wanted = case["inputs"], case["outputs"]
    plan = pick_up(said["sts"], said["rows"])
    assert decimal(Fraction(plan.edge_rows, plan.stitches), 8) == str(wanted["rows_per_st"])
    assert len(set(plan.rows)) == said["sts"]
    published = 1 / Fraction(str(wanted["rows_per_st"]))
    assert abs(plan.ratio - published) < abs(Fraction(3, 4) - published)  # "compares with 3/4"


@against("P09")
def test_the_rate_is_the_band_s_gauge_and_not_the_body_s(case):
    band = per_inch(case["inputs"]["rib_sts_per_in"], 7)
    assert case["outputs"]["pick_up"] == "5 of every 6 or 7 rows"
    for per_row in (6, 7):
        body = per_inch(4, per_row)
        taken = stitches_by_gauge(rows(per_row), body, band)
        assert (taken.value, taken.exact) == (5, 5)
        assert small_ratio(taken.value, per_row).value == Fraction(5, per_row)


@against("P09")
def test_at_the_turning_row_six_stitches_become_five(case):
    """Four stitches alone and two as one, over and over, in a facing of 5/6 of the stitches."""
    assert case["outputs"]["facing_row"] == "P4, P2tog repeated"
    rib = Fraction(case["inputs"]["rib_sts_per_in"])
    fabrics = tuple(small.fabric(key, "4", Swatch(
        stitches=60, width=Length(60 * INCH / per_in), rows=70, height=Length(10 * INCH)))
        for key, per_in in (("rib", rib), ("lining", rib * 5 / 6)))
    for kind in ("facing", "folded"):
        one = small.band(kind=kind, fabric="rib", facing_fabric="lining", rows=None,
                         depth={ONLY: read_length("1 in")}, fold=Fold.TURNED)
        proof, found = prove(pattern(one, 152, fabrics))  # 608 mm of edge: 120 stitches of rib
        assert proof is not None, found
        strip = proof.sizes[0].strips[0]
        hung, = (s for s in strip.program.steps if isinstance(s, Hang) and s.doubled)
        places = [n.place for n in hung.doubled]
        assert strip.plan.stitches.value == 120 and len(hung.needles) == 100
        assert [b - a - 1 for a, b in pairwise(places)] == [4] * 19
        assert strip.trace.refusal is None


@against("P11")
def test_an_awkward_count_over_equal_sections(case):
    said, wanted = case["inputs"], case["outputs"]
    assert Counter(shares(said["sts"], said["sections"])) == Counter(wanted["section_counts"])
    length = read_length(f"{said['length_in']} in").inches / said["sections"]
    assert decimal(length, 2) == str(wanted["section_len_in"])
    assert small_ratio(said["section_sts"], said["section_rows"]).value == Fraction(1, 2)
    plan = pick_up(said["sts"], said["sections"] * said["section_rows"])
    by_section = Counter((row - 1) // said["section_rows"] for row in plan.rows)
    assert Counter(by_section.values()) == Counter(wanted["section_counts"])


def round_the_opening(given: dict[str, list[int]], waits: str) -> Proof:
    """One band over five sections; the stitches of the section `waits` are on hold.

    The others are given in rows, of which every one is taken, so that rows are stitches.
    """
    sizes = [f"size {n}" for n, _ in enumerate(given[waits], 1)]
    sections = "".join(
        f"      - {{title: {title.replace('_', ' ')}, {'stitches' if title == waits else 'rows'}: "
        f"{{{', '.join(f'{s}: {n}' for s, n in zip(sizes, numbers, strict=True))}}}"
        f"{', stitches_are: on waste yarn' if title == waits else ''}}}\n"
        for title, numbers in given.items())
    return proved(f"sizes: [{', '.join(sizes)}]\nedges:\n  opening:\n    kind: hem to hem\n"
                  f"    fabric: garment\n    sections:\n{sections}bands:\n  opening: "
                  "{edge: opening, pick_up: 1/1, depth: 3 cm, kind: single}\n")


def assert_sections(proof: Proof, given: dict[str, list[int]], totals: list[int]) -> None:
    """Every section has its stitches and the strips, joins apart, come to the total."""
    for place, (size, total) in enumerate(zip(proof.sizes, totals, strict=True)):
        (plan,) = size.plans
        taken = [m.stitches.value for m in plan.meetings]
        assert taken == [numbers[place] for numbers in given.values()]
        assert plan.stitches.value == total
        assert taken == taken[::-1]  # the left mirrors the right
        assert sum(len(strip.layout.needles) - sum(strip.plan.joins)
                   for strip in size.strips) == total
        assert all(strip.trace.refusal is None for strip in size.strips)


@against("P13")
def test_a_band_is_the_sum_of_its_sections(case):
    given = {title: [number] for title, number in case["inputs"]["sections"].items()}
    proof = round_the_opening(given, "back_neck")
    assert_sections(proof, given, [case["outputs"]["total"]])
    assert len(proof.sizes[0].strips) == 2  # 238 stitches, 200 needles: cut at the centre back


@against("P14")
def test_a_graded_band_in_one_piece(case):
    assert_sections(round_the_opening(case["inputs"], "back_neck_on_holder"), case["inputs"],
                    case["outputs"]["total"])


def test_the_published_rules_in_stitches_per_row():
    """3 for 5 (P05, Yateley Machine Knitting Club, yateleymkclub.blogspot.com, February 2013);
    3:4, 4:5, 5:6 and 1:1 as the edge leans (P12, StudioKnits, How to Become an Expert Knitter,
    ch. 23, studioknits.com/bookpage80.htm)."""
    for stitches, of_rows in ((3, 5), (3, 4), (4, 5), (5, 6), (1, 1)):
        rule = Fraction(stitches, of_rows)
        assert stitches_by_rule(rows(60), rule, SQUARE).value == 60 * stitches // of_rows
        assert small_ratio(60 * stitches // of_rows, 60).value == rule
