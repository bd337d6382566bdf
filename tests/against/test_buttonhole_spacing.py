"""Where the holes of a band go, against published examples."""

from collections import Counter
from fractions import Fraction

from one_band import proved
from published import CASES, account_for, against
from walebook.pattern.holes import ButtonholeKind, OddGap
from walebook.plan.buttonholes import BandSpec, Placing, place
from walebook.plan.hole_sizes import fixed_stitches

from tests.small_patterns import cost_of

# The topic holds spacing and size together; B09 is in the file on size.
DIRECT = ("B02", "B04", "B06", "B09", "B10", "B11")
ELSEWHERE = {"B09 hole_sts": "asserted in the file on buttonhole size; here for the ends alone"}

NOT_FOLLOWED = {
    "B04 picked_up": "the author picks up 139 stitches and takes five away in the first row; "
    "here a remedy changes a band by two stitches at most, within a tolerance of the edge",
    "B06 first size": "its lead of no stitches puts a hole at the very end of the band; a folded "
    "band keeps at least one stitch there, so that size is refused",
}


def just(stitches: int, holes: int, hole: int, ends: tuple[int, int], **more: object) -> Placing:
    """The placing with these ends and this band, nothing given."""
    lower, upper = ends
    asked = {"stitches": stitches, "buttonhole_count": holes, "hole": hole,
             "lower": lower, "upper": upper}
    placing = place(BandSpec(**{**asked, "end_give": 0, "band_give": 0, **more}))
    assert placing is not None
    return placing


def test_every_direct_case_is_accounted_for():
    account_for(
        globals(),
        topics={"buttonhole spacing and size"},
        direct=DIRECT,
        not_followed=NOT_FOLLOWED | ELSEWHERE,
    )


def test_the_worked_example_comes_out_exactly():
    """Common practice, no source: 2 + 5 × 3 + 4 × 5 + 2 = 39."""
    placing = place(BandSpec(stitches=39, buttonhole_count=5, hole=3, lower=2, upper=2))
    assert placing is not None
    assert (placing.stitches, placing.buttonhole_count, placing.hole) == (39, 5, 3)
    assert (placing.lower, placing.gaps, placing.upper) == (2, (5, 5, 5, 5), 2)
    assert placing.starts == (3, 11, 19, 27, 35)
    assert cost_of(placing) == 0


@against("B02")
def test_spaces_may_differ_by_one(case):
    said, wanted = case["inputs"], case["outputs"]
    size = (said["band_sts"], said["buttonholes"], said["hole_sts"])
    placing = just(*size, tuple(said["ends"]))
    assert Counter(placing.gaps) == Counter(wanted["spaces_used"])  # "may sit anywhere"
    assert (placing.lower, placing.upper) == tuple(said["ends"])
    assert placing.stitches - placing.lower - placing.upper == wanted["after_ends"]
    assert placing.buttonhole_count * placing.hole == wanted["hole_total"]
    assert sum(placing.gaps) == wanted["to_share"]
    assert len(placing.gaps) == wanted["spaces"]


@against("B04")
def test_the_odd_space_goes_lowest_where_the_designer_says_so(case):
    said, wanted = case["inputs"], case["outputs"]
    size = (said["band_sts"], said["buttonholes"], said["hole_sts"])
    placing = just(*size, tuple(said["ends"]), odd_gap=OddGap.LOWEST)
    assert list(placing.gaps) == wanted["spaces_used"]
    assert placing.buttonhole_count * placing.hole == wanted["hole_total"]
    assert placing.stitches - sum(placing.gaps) == wanted["with_ends"]
    assert sum(placing.gaps) == wanted["to_share"]


@against("B06")
def test_unequal_ends_when_the_holes_stay_in_the_front_section(case):
    said, wanted = case["inputs"], case["outputs"]
    sizes = list(
        zip(
            said["front_section_sts"],
            said["lead"],
            said["between"],
            wanted["band_total"],
            strict=True,
        )
    )
    holes, hole = wanted["buttonholes"], said["hole_sts"]
    eyelet = fixed_stitches(ButtonholeKind.EYELET)
    assert eyelet is not None and eyelet.value == hole
    for front, lead, between, band in sizes[1:]:
        placing = place(
            BandSpec(stitches=band, buttonhole_count=holes, hole=hole, lower=lead,
                     upper=band - front)
        )
        assert placing is not None and cost_of(placing) == 0
        assert placing.gaps == (between,) * said["repeats_of_between_plus_hole"]
        assert placing.starts[-1] + hole - 1 == front  # the top hole ends where the neck begins
    front, lead, _, band = sizes[0]
    refused = BandSpec(
        stitches=band,
        buttonhole_count=holes,
        hole=hole,
        lower=lead,
        upper=band - front,
        end_give=0,
        band_give=0,
    )
    assert place(refused) is None


@against("B09")
def test_ends_of_two_or_three_stitches_stand(case):
    assert case["outputs"]["ends"] == "2 to 3 stitches each end"
    for end in (2, 3):
        for hole in case["outputs"]["hole_sts"]:
            placing = place(
                BandSpec(
                    stitches=2 * end + 6 * hole + 5 * 9, buttonhole_count=6, hole=hole, lower=end,
                    upper=end
                )
            )
            assert placing is not None
            assert (placing.lower, placing.upper, placing.gaps) == (end, end, (9,) * 5)


@against("B10")
def test_two_in_the_rib_and_the_rest_above_it(case):
    """The depth is measured from the hem to the topmost button, at the underarm; the band goes on
    above it, so that a hole there has stitches on both its sides."""
    said, wanted = case["inputs"], case["outputs"]
    above = 4  # inches of band above the underarm
    rows = (said["depth_in"] + above) * Fraction(254, 10) / 4  # rows are 4 mm high
    proof = proved(
        f"sizes: [one size]\nedges: {{front: {{kind: pair of fronts, "
        f"fabric: garment, rows: {round(rows)}}}}}\n"
        "bands:\n  front:\n    edge: front\n    fabric: band\n    depth: 6 cm\n"
        "    buttonholes:\n      button: 15 mm\n      stitches: 2\n"
        f"      number: {said['buttons_above']}\n"
        f"      in_hem: {{number: {said['buttons_in_rib']}, depth: {said['rib_in']} in}}\n"
        f"      ends: {{lower: 1 cm, upper: {above} in}}\n")
    plan = proof.sizes[0].plans[0]
    assert plan.placing is not None
    inch = Fraction(254, 10)
    middles = [start * 5 / inch for start in plan.placing.starts]  # of holes of 2 stitches
    near = 5 / inch  # a stitch of 5 mm
    low, high = (Fraction(str(off)) for off in wanted["rib_offsets_in"])
    expected = [low, said["rib_in"] - high] + [
        Fraction(said["rib_in"]) + (k + 1) * wanted["every_in"]
        for k in range(said["buttons_above"])]
    assert expected[-1] == said["depth_in"]
    assert wanted["remaining_in"] == said["buttons_above"] * wanted["every_in"]
    assert all(abs(a - b) <= near for a, b in zip(middles, expected, strict=True))


@against("B11")
def test_an_odd_number_of_holes_has_one_in_the_middle(case):
    holes, side = case["inputs"]["buttons"], case["outputs"]["remaining_per_side"]
    for gap in range(3, 16):
        for end in (2, 3, 5):
            stitches = 2 * end + holes * 3 + (holes - 1) * gap
            placing = just(stitches, holes, 3, (end, end))
            middle = placing.starts[holes // 2] + 1
            assert middle == (stitches + 1) // 2 and stitches % 2 == 1
            between = [start for start in placing.starts[1:-1] if start < middle - 1]
            assert len(between) == side
            mirrored = tuple(stitches - (start + 2) + 1 for start in reversed(placing.starts))
            assert mirrored == placing.starts


def test_the_lower_end_gives_when_one_stitch_will_not_divide():
    """StudioKnits, How to Become an Expert Knitter, ch. 26, studioknits.com/bookpage98.htm (B12):
    if the count does not divide, adjust only the hem-to-first-hole distance. The numbers are
    those of B02, left to the usual give. Where two stitches are wanted our cost shares them
    between the two ends, which this rule does not."""
    said = CASES["B02"]["inputs"]
    lower, upper = said["ends"]
    placing = place(
        BandSpec(
            stitches=said["band_sts"],
            buttonhole_count=said["buttonholes"],
            hole=said["hole_sts"],
            lower=lower,
            upper=upper,
        )
    )
    assert placing is not None
    assert len(set(placing.gaps)) == 1
    assert placing.stitches == said["band_sts"]
    assert placing.upper == upper and placing.lower != lower
