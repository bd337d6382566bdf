"""What holds for the holes of any band: they add up, keep their bounds, and mirror."""

from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

from hypothesis import assume, example, given
from hypothesis import strategies as st
from walebook.core.expression import Chosen, Expression, Operand, plain
from walebook.core.expression_parts import inside
from walebook.core.operands import Role
from walebook.core.units import Length
from walebook.pattern.holes import Gaps, OddGap
from walebook.plan.buttonholes import BandSpec, Placing, number_every, place, place_at, sound
from walebook.plan.hole_sums import buttonhole_count, hole_ends
from walebook.proof.proof import prove
from walebook.words.figure_text import given_up

from tests.laws.bands import pattern
from tests.small_patterns import cost_of

ANY_NUMBER, SEVERAL = st.integers(1, 12), st.integers(2, 12)
ANY_RULE = st.sampled_from(OddGap)
SPREAD, LOWEST = st.just(OddGap.SPREAD), st.just(OddGap.LOWEST)


@st.composite
def specs(draw, *, holes=ANY_NUMBER, odd_gap=ANY_RULE):
    """A specification near enough to what can be met that most of them are."""
    number, hole = draw(holes), draw(st.integers(2, 6))
    lower, upper = draw(st.integers(1, 9)), draw(st.integers(1, 9))
    gap, over = draw(st.integers(hole - 1, 20)), draw(st.integers(-4, 14))
    stitches = lower + upper + number * hole + (number - 1) * gap + over
    return BandSpec(
        stitches=max(1, stitches),
        buttonhole_count=number,
        hole=hole,
        lower=lower,
        upper=upper,
        end_give=draw(st.integers(0, 4)),
        band_give=draw(st.integers(0, 2)),
        odd_gap=draw(odd_gap),
    )


def placed(spec: BandSpec) -> Placing:
    """The placing of a specification that can be met; any other is passed over."""
    placing = place(spec)
    assume(placing is not None)
    assert placing is not None
    return placing


THE_WORKED_BAND = BandSpec(stitches=39, buttonhole_count=5, hole=3, lower=2, upper=2)


@given(specs())
@example(THE_WORKED_BAND)
def test_ends_holes_and_gaps_add_up_to_the_band(spec):
    placing = placed(spec)
    assert placing.buttonhole_count == spec.buttonhole_count and placing.hole == spec.hole
    assert len(placing.gaps) == spec.buttonhole_count - 1
    filled = placing.lower + spec.buttonhole_count * spec.hole + sum(placing.gaps) + placing.upper
    assert filled == placing.stitches


@given(specs())
def test_the_starts_follow_from_the_gaps(spec):
    placing = placed(spec)
    assert placing.starts[0] == placing.lower + 1
    assert placing.starts[-1] + placing.hole - 1 == placing.stitches - placing.upper
    between = pairwise(placing.starts)
    gaps = tuple(later - sooner - placing.hole for sooner, later in between)
    assert gaps == placing.gaps


@given(specs(holes=SEVERAL))
def test_ends_and_band_stay_within_what_they_may_give(spec):
    placing = placed(spec)
    assert abs(placing.lower - spec.lower) <= spec.end_give and placing.lower >= 1
    assert abs(placing.upper - spec.upper) <= spec.end_give and placing.upper >= 1
    assert abs(placing.stitches - spec.stitches) <= spec.band_give


@given(specs(holes=SEVERAL))
def test_gaps_differ_by_one_at_most_and_no_hole_is_wider_than_its_gap(spec):
    gaps = placed(spec).gaps
    assert max(gaps) - min(gaps) <= 1
    assert min(gaps) >= max(2, spec.hole)


@given(specs(holes=SEVERAL.map(lambda number: number - number % 2), odd_gap=SPREAD))
def test_an_even_number_of_holes_with_equal_ends_mirrors(spec):
    """The designer wants equal ends and gives nothing; the gap in the middle is its own mirror,
    so that any number of larger gaps can be laid out the same from both ends."""
    even = replace(spec, upper=spec.lower, end_give=0, band_give=0)
    placing = placed(even)
    assert placing.lower == placing.upper
    assert placing.gaps == placing.gaps[::-1]
    assert placing.starts == tuple(
        placing.stitches + 2 - placing.hole - start for start in reversed(placing.starts)
    )


@given(specs(holes=SEVERAL))
def test_nothing_is_given_up_just_when_the_numbers_divide(spec):
    placing = placed(spec)
    spaces = spec.buttonhole_count - 1
    left = spec.stitches - spec.lower - spec.upper - spec.buttonhole_count * spec.hole
    narrowest = max(2, spec.hole)
    divides = left % spaces == 0 and left // spaces >= narrowest
    assert (cost_of(placing) == 0) == divides
    if divides:
        assert (placing.lower, placing.upper) == (spec.lower, spec.upper)
        assert placing.stitches == spec.stitches and given_up(placing).startswith("nothing")


@given(specs(holes=SEVERAL, odd_gap=LOWEST))
def test_where_the_odd_gaps_go_is_the_designer_s(spec):
    """Lowest is published (B04: Carpe Lanam, More finishing techniques, carpelanam.blogspot.com,
    2011-04-20); highest and centre are common practice, no source."""
    lowest = placed(spec)
    highest = placed(replace(spec, odd_gap=OddGap.HIGHEST))
    assert highest.gaps == lowest.gaps[::-1]
    assert cost_of(highest) == cost_of(lowest)
    for rule in OddGap:
        assert sorted(placed(replace(spec, odd_gap=rule)).gaps) == sorted(lowest.gaps)


@given(specs())
def test_more_give_never_costs_more(spec):
    placing = placed(spec)
    assert cost_of(placed(replace(spec, end_give=spec.end_give + 1))) <= cost_of(placing)
    assert cost_of(placed(replace(spec, band_give=spec.band_give + 1))) <= cost_of(placing)


@given(st.integers(2, 6), st.integers(1, 15), st.fractions(2, 40, max_denominator=8))
def test_holes_about_so_far_apart(hole, spaces, every):
    assume(every >= hole + 2)
    span = int(spaces * every) + hole
    number = number_every(span, hole, every)
    assert number >= 1
    apart = (span - hole) / every  # spaces, not yet whole
    assert abs(number - 1 - apart) * 2 <= 1


@given(specs(holes=SEVERAL, odd_gap=SPREAD))
def test_equal_ends_mirror_wherever_numbers_allow(spec: BandSpec) -> None:
    gaps = placed(replace(spec, upper=spec.lower, end_give=0, band_give=0)).gaps
    if len(gaps) % 2 or gaps.count(max(gaps, default=0)) % 2 == 0:
        assert gaps == gaps[::-1]


@given(st.integers(1, 5), st.lists(st.integers(0, 40), min_size=1, max_size=8, unique=True),
       st.integers(0, 12))
def test_holes_put_at_fixed_points_lie_there_or_are_refused(hole, steps, spare):
    """A middle is never more than half a stitch away from where it was put."""
    middles = [Fraction(7 * step) / 2 + 4 for step in steps]
    stitches = int(max(middles)) + hole + spare
    placing = place_at(stitches, hole, tuple(map(plain, middles)))
    if placing is None:
        ordered = sorted(middles)
        apart = min((b - a for a, b in pairwise(ordered)), default=Fraction(100))
        ends = ordered[0] - Fraction(hole, 2) < Fraction(3, 2) or \
            stitches - ordered[-1] - Fraction(hole, 2) < Fraction(3, 2)
        assert apart < hole + max(2, hole) + 1 or ends
        return
    assert [one.value + 1 for one in placing.before] == list(placing.starts)
    found = [start - 1 + Fraction(hole, 2) for start in placing.starts]
    assert all(abs(a - b) <= Fraction(1, 2) for a, b in zip(found, sorted(middles), strict=True))
    filled = hole * placing.buttonhole_count
    assert sum(placing.gaps) + placing.lower + placing.upper + filled == stitches


@given(specs(holes=SEVERAL))
def test_an_end_that_was_moved_is_published_with_what_was_rejected(spec):
    """Whatever end is tried in its place costs as much at least."""
    placing = placed(spec)
    for made, name in zip(hole_ends(placing), ("lower", "upper"), strict=True):
        assert made.value == getattr(placing, name)
        if not isinstance(made, Chosen):
            assert made.value == getattr(spec, name)
            continue
        assert made.candidates[0].value == getattr(spec, name) != made.value
        for candidate, price in zip(made.candidates[1:], made.given, strict=True):
            costs = [one.cost for one in sound(spec) if getattr(one, name) == candidate.value]
            assert price.value == min(costs) >= cost_of(placing)
        assert {int(one.value) for one in made.candidates[1:]} == {
            getattr(one, name) for one in sound(spec)}


@given(specs(holes=st.just(1)), st.sampled_from(Gaps))
def test_one_hole_lies_alike_whatever_is_asked_of_gaps(spec, gaps):
    """It has no gap beside it."""
    one, other = placed(spec), place(replace(spec, gaps=gaps))
    assert other is not None
    assert (one.stitches, one.starts, one.gaps) == (other.stitches, other.starts, other.gaps)


def operands(made: Expression) -> set[tuple[Role, Fraction]]:
    """The figures that an expression is made from, each with its role."""
    here = {(made.role, made.figure)} if isinstance(made, Operand) else set()
    return here.union(*map(operands, inside(made)))


def test_the_number_of_holes_so_far_apart_follows_from_the_rows_of_the_edge():
    """66 rows at 3 stitches for 4 rows are 49.5, so 50 stitches, of which the band gives one up for
    the holes. They were counted before that: (50 - 2 - 2 - 3) stitches divided by 47 mm, a stitch
    of 10/3 mm, are 3.05 spaces; so there are 4 holes."""
    source = pattern(rows=66, end_give=0, band_give=2)
    front = source.bands["front"]
    spec = replace(front.buttonholes, buttonhole_count=None, every=Length(Fraction(47)))
    proof, _ = prove(replace(source, bands={"front": replace(front, buttonholes=spec)}))
    (plan,) = proof.sizes[0].plans
    assert plan.stitches.value != 50 == plan.placing.spec.stitches
    made = buttonhole_count(plan, plan.placing)
    assert made.value == 4
    assert {(Role.SOURCE, Fraction(66)), (Role.RULE, Fraction(3, 4))} <= operands(made)
