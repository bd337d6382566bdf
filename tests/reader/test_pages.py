"""The published pages of the whole collection, read and knitted from their visible words alone."""

from __future__ import annotations

import ast
import re
from collections.abc import Mapping
from difflib import get_close_matches
from functools import cache
from pathlib import Path

import pytest

from tests.reader import cautions, grammar, page, trial_pieces, ways
from tests.reader.conftest import made_alone, with_others
from tests.reader.knitter import ACTS


def unread(readings: Mapping[str, page.Reading]) -> dict[str, str]:
    """Each sentence that the table does not know, and the first page that says it."""
    found: dict[str, str] = {}
    for name, reading in readings.items():
        for fault in reading.faults:
            if fault.kind == "unknown-sentence":
                found.setdefault(fault.sentence, name)
    return found


def said(readings: Mapping[str, page.Reading]) -> set[int]:
    """The places of the lines of the table that some page says."""
    return set().union(*(reading.met for reading in readings.values()))


def test_every_sentence_has_its_line_in_the_table(readings: Mapping[str, page.Reading]) -> None:
    """A reworded sentence is named here once, with the line that is most like it: of those that no
    page says any more, if any is."""
    met = said(readings)
    lines = {line.pattern: line.place for line in grammar.table()}
    idle = [pattern for pattern, place in lines.items() if place not in met]
    found = []
    for sentence, name in unread(readings).items():
        near = next((near for some in (idle, lines)
                     for near in get_close_matches(sentence, some, n=1, cutoff=0.4)), "")
        like = f"; line {lines[near]} is most like it: {near}" if near else ""
        found.append(f"{name}: {grammar.TABLE.name} has no line for: {sentence}{like}")
    assert not found, "\n".join(found[:40])


def test_every_page_can_be_knitted_from_its_words(readings: Mapping[str, page.Reading]) -> None:
    found = [f"{name}: {fault}" for name, reading in readings.items()
             for fault in reading.faults]
    assert not found, "\n".join(found[:40])


def test_a_setting_for_two_yarns_that_is_left_out_is_missed(pages: dict[str, str]) -> None:
    """Without it the carriage lays one yarn alone, or drops stitches of the plain rows after."""
    text = pages["lamplighter-hat/child"]
    again = " Set the carriage to knit one yarn again."
    for before, sentence in (("", " Set the carriage to knit two yarns in a row."),
                             (" Leave it hanging.", again),
                             (" and take the yarn out of the second feeder.", again)):
        assert text.count(before + sentence) == 1
        faults = page.read(text.replace(before + sentence, before)).faults
        assert faults and "two yarns in a row" in faults[0].message, before + sentence


def test_needles_just_put_back_are_not_slipped_in_the_slip_setting(pages: dict[str, str]) -> None:
    """There the carriage knits them, for they stand in upper working position. The
    chart's first row of that half slips every sixth needle, of those from L43 to L28."""
    text = pages["salt-marsh-pullover/l"]
    told = re.search(r" <b>Slip L42, L36 and L30 by holding</b> in the next row, .*?them\.", text)
    assert told
    assert any("(slip_held)" in str(one) for one in page.read(text.replace(told[0], "")).faults)
    for wrong in ("L42 and L30", "L41, L36 and L30", "L42, L36, L33 and L30"):
        spoiled = told[0].replace("L42, L36 and L30", wrong)
        faults = page.read(text.replace(told[0], spoiled)).faults
        assert [one.kind for one in faults] == ["upper-slip"], wrong


@pytest.mark.parametrize(("slug", "title"), [
    ("harbour-light-mittens", "Hand, knitted twice"),  # a rib on two beds
    ("mudlark-pullover", "Back"), ("capstan-pullover", "Back")])  # a hung rib; a hung hem
def test_weights_hung_again_below_a_long_piece_are_moved_up(slug: str, title: str) -> None:
    """Left where they hang, they pull at the needles no longer (common practice, no source)."""
    text = made_alone(slug)
    assert not page.read(text).faults
    spoiled = re.sub(r"(<b>Hang the weights on again,</b>[^.]*), and move them up as the work "
                     r"grows\.", r"\1.", text)
    faults = page.read(spoiled).faults
    assert title in {one.section for one in faults if one.kind == "weights-still"}


@pytest.fixture(scope="module")
def slipped_first() -> str:
    """A rug cast on by hand, one stitch in each repeat slipped in the first row of its chart."""
    return with_others("rope-ladder-rug", {
        "||||||||.|\n    edge": "|v||||||.|\n    edge",
        "cast_on: chain over the gate pegs": "cast_on: by hand"})


def test_needles_cast_on_by_hand_are_put_back_before_some_are_slipped(slipped_first: str) -> None:
    """They stand fully forward, where every setting of the carriage knits them (site:
    techniques/cast-on-by-hand). The last row that slips is not the one after it: no "and on"."""
    told = re.search(r"<li[^>]*><p>(<b>Put all needles back in upper working position</b>, every "
                     r"latch open\.) (<b>Slip every tenth needle from L37 to R44 .*?knit them\.)",
                     slipped_first)
    assert told and not page.read(slipped_first).faults
    put, slip = told[1], told[2]
    for spoiled, kind in ((told[0].partition("<p>")[2], "slip-forward"), (" " + slip, "left-out")):
        assert kind in {one.kind for one in page.read(slipped_first.replace(spoiled, "", 1)).faults}
    for was, other in (("L37 to R44", "L27 to R44"), (put, put.replace("all needles", "needles"))):
        assert page.read(slipped_first.replace(was, other, 1)).faults, other


@cache
def second_colour() -> page.Reading:
    """The first page of a pullover whose chart takes a second colour in the first row of a half,
    and what a reader finds there; no pattern of the collection has such a row."""
    return page.read(in_two_colours())


@cache
def in_two_colours() -> str:
    return with_others("salt-marsh-pullover", {
        "v|": "x|", "v\n": "x\n", "chart: reeds": "chart: reeds\n    contrast: lamp",
        "length: 115 m}": "length: 115 m}\n  lamp: {name: Lamp}"})


def test_needles_just_put_back_take_the_second_colour_only_where_the_chart_has_it() -> None:
    """In upper working position all would take it (site: techniques/stitch-chart). The row named
    is the chart's first of that half, and every sixth needle takes it, of those from L38 to L24."""
    text = in_two_colours()
    told = re.search(r" <b>Lift every stitch except those on L32 and L26 .*? next row\.", text)
    assert told and not {f.kind for f in second_colour().faults} & {"upper-pick", "left-out"}
    left = page.read(text.replace(told[0], "")).faults
    assert any("(lower)" in str(one) for one in left)
    for wrong in ("L26", "L31 and L26", "L38 and L26", "L32, L28 and L26"):
        faults = page.read(text.replace(told[0], told[0].replace("L32 and L26", wrong))).faults
        assert "upper-pick" in {one.kind for one in faults}, wrong


def test_a_second_bed_that_is_not_racked_keeps_its_pitch(pages: dict[str, str]) -> None:
    """Set at half pitch for the rib, its needles face none of the main bed until it is racked."""
    text = pages["watchkeeper-pullover/s"]
    told = "<b>Rack the second bed</b> so that needle faces needle. "
    assert text.count(told) == 3
    faults = page.read(text.replace(told, "", 1)).faults
    assert any("still stands at half pitch" in str(one) for one in faults)


@pytest.mark.parametrize(("told", "kind"), [
    (r"Bring L67 to L62 and R61 to R67 to working position too\. ", "needle-out"),
    (r"Push the main bed's carriage further out to the right, clear of R67 and of the bar; it "
     r"stays on the right\. ", "carriage"),
    (r"Push the second bed's carriage to the right, clear of the work\. ", "carriage"),
    (r" The two loops of a needle, [^.]*\.", "left-out"),
    (r" Count the stitches, then draw the waste yarn out if you used it\.", "left-out"),
    (r" Knit the next row slowly: both loops must go off together\.", "left-out"),
    (r"<b>Bring all needles that hold two loops fully forward,</b> latches open\. Knit the next "
     r"row slowly: both loops must go off together\.", "slowly"),
    (r" <em>Support the work with one hand\.</em>", "left-out"),
    (r" On the needle to the left of each find the main bed's stitch\.", "left-out"),
    (r"\. On the needle to the left of each find the main bed's stitch\. Lift the purl bump just "
     r"below this stitch onto the empty needle\.", "loop")])
def test_what_is_left_out_where_stitches_are_spread_above_a_rib_is_missed(
        told: str, kind: str) -> None:
    """New needles come out, the carriages go out of the way, both loops of a needle stay together,
    the waste yarn is drawn out, and the first row over two loops is knitted slowly."""
    text = made_alone("watchkeeper-pullover")
    assert not page.read(text).faults
    instead = ", each with the loop just below the stitch on its left." \
        if told.startswith(r"\. On") else ""
    spoiled, times = re.subn(told, instead, text, count=1)
    assert times and kind in {fault.kind for fault in page.read(spoiled).faults}


@pytest.mark.parametrize(("slug", "told", "instead"), [
    ("shingle-pullover", "ends: alike, fabric: welt}",
     "fabric: welt, ends: any, stitches: {back: 90 %, sleeve: 110 %}}"),
    ("harbour-light-mittens", "fabric: cuff}",
     "fabric: cuff, ends: any, stitches: {hand: 90 %}}"),
    ("capstan-pullover", "fabric: cuff}",
     "fabric: cuff, ends: any, stitches: {sleeve: 110 %}}")])
def test_a_rib_of_another_count_can_be_knitted_from_its_words(
        slug: str, told: str, instead: str) -> None:
    """Left out needles, columns that are latched and two beds; more stitches and fewer."""
    assert not page.read(with_others(slug, {told: instead})).faults


def test_what_a_full_needle_rib_is_rounded_by_is_worth_two_stitches_a_needle() -> None:
    """60 stitches, counted on both beds, are 11.6 cm wide; 134 times 0.9 are 120.6, and 0.4 of a
    needle with two of them are 1.5 mm."""
    text = made_alone("watchkeeper-pullover")
    assert "134 stitches × 0.9 = 120.6, rounded: 121 (1.5 mm more)" in text


@pytest.mark.parametrize("wrong", [f"{one} of the main bed and 29"
                                   for one in ("60 are 30", "60 are 31", "58 are 29")])
def test_the_swatch_of_a_full_needle_rib_has_half_its_stitches_on_either_bed(wrong: str) -> None:
    text, right = made_alone("watchkeeper-pullover"), "60 are 30 of the main bed and 30"
    assert text.count(right) == 1
    assert "gauge" in {fault.kind for fault in page.read(text.replace(right, wrong)).faults}


def test_one_part_of_an_edge_has_one_number_of_places_and_two_threads_mark_two_edges(
        pages: dict[str, str]) -> None:
    for name, told, instead, fault in (
            ("bowline-waistcoat/4", "row 18 of 70", "row 18 of 71", "has other places before"),
            ("spar-pullover/s", "the end of the underside.",
             "the end of the left underside and the end of the left underside.",
             "mark one of them twice")):
        assert told in pages[name]
        faults = page.read(pages[name].replace(told, instead, 1)).faults
        assert any(fault in str(one) for one in faults)


def test_a_mark_has_one_name_where_it_is_tied_and_where_it_is_sewn(pages: dict[str, str]) -> None:
    """A name that no step ties, a mark without its name, one of another seam, two exchanged."""
    lower, upper = ("This is the lower mark, where the thumb's slit begins.",
                    "This is the upper mark, where the slit ends.")
    for name, told, instead, fault in (
            ("day-mark-pullover/10", "between the armhole marks", "between the upper marks",
             "it names the marks ['upper'], and ['armhole']"),
            ("day-mark-pullover/10", " This is the armhole mark, where the armhole begins.", "",
             "what the threads mark is not said"),
            ("gull-wing-pullover/m", "with the neck marks", "with the armhole marks",
             "it names the marks ['armhole', 'neck']"),
            ("harbour-light-mittens/m", lower, upper, "it comes after []"),
            ("pursers-bag/satchel", "at the fold marks", "at the lower marks",
             "it names the marks ['lower', 'upper']")):
        text = pages[name]
        assert told in text, told
        faults = page.read(text.replace(told, instead, 1)).faults
        assert any(fault in str(one) for one in faults), (name, told)


def test_sleeve_tops_and_sides_are_two_steps(pages: dict[str, str]) -> None:
    """Both in one step: four seams and their counts under it."""
    for name in ("day-mark-pullover/10", "gull-wing-pullover/m"):
        one = re.sub(r"</li>\n<li id=[^>]*>(?=<p><b>Sew the (?:side|right side))", "", pages[name])
        assert one != pages[name]
        assert any("the sides in" in str(fault) for fault in page.read(one).faults), name


WIDER = {  # two stitches more in each piece: in the sum, in the facts and in the ease
    "chest": (("(80 stitches of the back", "(82 stitches of the back"),
              ("(80 stitches of the front", "(82 stitches of the front"),
              ("= 746.2 mm", "= 765.3 mm"), ("74.6 cm (29⅜ in)", "76.5 cm (30⅛ in)"),
              ("7.6 cm (2⅞ in)", "9.5 cm (3⅝ in)")),
    "upper arm": (("(57 stitches − 2", "(59 stitches − 2"), ("= 263.1 mm", "= 272.6 mm"),
                  ("26.3 cm (10⅜ in)", "27.3 cm (10¾ in)"), ("4.8 cm (1⅞ in)", "5.8 cm (2¼ in)"))}


@pytest.mark.parametrize("what", WIDER)
def test_a_finished_measure_that_is_wrong_everywhere_alike_is_not_what_was_knitted(
        pages: dict[str, str], what: str) -> None:
    text = pages["mudlark-pullover/8"]
    for told, instead in WIDER[what]:
        assert told in text
        text = text.replace(told, instead)
    faults = page.read(text).faults
    assert faults and all("are knitted" in str(one) for one in faults)


def test_what_lies_above_the_cord_of_a_folded_hem_or_band_is_not_hung(
        pages: dict[str, str]) -> None:
    """It is waste yarn there: the lower edge is uppermost once it is folded up."""
    text = pages["ropewalk-cardigan/8"]
    below = "first row, now just below the ravel cord"
    for start in ("Fold the hem up towards you", "Fold the band up towards you"):
        told = re.search(rf"<b>{start}</b>.*?{below}", text)
        assert told, start
        spoiled = text.replace(told[0], told[0].replace("below", "above"))
        assert any("above the cord now is waste" in str(one) for one in page.read(spoiled).faults)


def test_weights_that_hung_before_the_work_was_divided_come_off_with_the_first_part(
        pages: dict[str, str]) -> None:
    """The claw weights alone are not all that hangs under its last stitch (common practice)."""
    text = pages["flood-tide-pullover/l"]
    told = "Take all weights off except those under the held stitches."
    assert text.count(told) == 1
    faults = page.read(text.replace(told, told.replace("all", "the claw"))).faults
    assert any("other weights hang under this part too" in str(one) for one in faults)


def test_ends_between_the_layers_are_darned_in_before_the_short_ends_are_shut(
        pages: dict[str, str]) -> None:
    text = pages["ropewalk-cardigan/8"]
    told = re.search(r"<b>Darn in both ends of the bind-off across the holes,</b>.*?\. ", text)
    assert told
    faults = page.read(text.replace(told[0], "")).faults
    assert any("ends between the layers are shut in" in str(one) for one in faults)


def test_a_band_out_of_its_place_in_the_making_up_is_found(pages: dict[str, str]) -> None:
    text = pages["slack-tide-cardigan/s"]
    for told, instead, fault in (
            ("Making up, steps 1 to 3", "Making up, steps 1 to 4", "other numbers"),
            ("Work the neckband, then", "Work the collar, then", "tells to work it")):
        assert told in text
        assert any(fault in str(one) for one in page.read(text.replace(told, instead)).faults)


def test_what_belongs_to_a_later_seam_is_wanted_where_that_is_sewn(pages: dict[str, str]) -> None:
    """The waistband's ends, told where the band is worked, are 25 steps too early."""
    text = pages["gull-wing-pullover/l"]
    told = re.search(r" <b>In this seam sew the ends of the w.*? into it too\.", text)
    assert told
    worked, without = "while the left side is open.", text.replace(told[0], "")
    assert worked in without
    for spoiled in (without, without.replace(worked, worked + told[0])):
        assert any("worked while a side is open" in str(one) for one in page.read(spoiled).faults)


def test_of_two_bands_the_page_says_which_comes_first(pages: dict[str, str]) -> None:
    """The one without buttonholes is first: it proves the count."""
    for name in ("slack-tide-cardigan/s", "bowline-waistcoat/4"):
        told = re.search(r" Both bands have the same stitches and rows\. .*? before you make "
                         r"buttonholes in the other\.", pages[name])
        assert told
        assert any("left open" in str(one) for one in
                   page.read(pages[name].replace(told[0], "")).faults)


def test_what_hangs_and_what_is_sewn_must_have_been_knitted(pages: dict[str, str]) -> None:
    """Size XS has a decrease where the others bind off; its front bands have no waste yarn."""
    text = pages["tide-watch-jacket/xs"]
    for told, instead, fault in (
            ("the first decreases of armhole", "the bound-off stitches of armhole", "begin with"),
            ("Let the garment hang down",
             "Let the strip of waste yarn with the ravel cord hang down", "has no waste yarn"),
            ("Sew the side and sleeve seams</b>, each from the lower edge up",
             "Work the collar</b>", "is not sewn in")):
        assert told in text
        assert any(fault in str(one) for one in page.read(text.replace(told, instead)).faults)
    rug = pages["rope-ladder-rug/lap"]
    assert "Back-stitch the top of each panel" in rug
    faults = page.read(rug.replace("the top of each panel", "the lower edge of each panel")).faults
    assert any("nothing closes the 87 stitches" in str(one) for one in faults)
    other = pages["slack-tide-cardigan/s"].replace("the bound-off stitches of armhole",
                                                   "the first decreases of armhole")
    assert any("begin with ['bind off']" in str(one) for one in page.read(other).faults)


def test_gaps_told_in_turn_or_one_by_one_are_counted(pages: dict[str, str]) -> None:
    for size, told, instead in (
            ("m", "16 times, after", "15 times, after"),
            ("m", "after 5 rows and after 6 rows in turn", "after 6 rows and after 5 rows in turn"),
            ("l", "after 5, 5, 5, 6, 5", "after 5, 5, 6, 5, 5")):
        text = pages[f"gull-wing-pullover/{size}"]
        assert text.count(told) == 1
        kinds = {fault.kind for fault in page.read(text.replace(told, instead)).faults}
        assert kinds & {"schedule", "list"}, told


def test_the_whole_collection_is_read(readings: Mapping[str, page.Reading]) -> None:
    """The reader is no blind one: of each page it knits steps and holds checkpoints."""
    assert len(readings) >= 105
    checks = {name: sum(k.checks for k in one.knitters) for name, one in readings.items()}
    parts = [part for one in readings.values() for g in one.groups for part in g.parts]
    assert all(checks.values())
    assert sum(checks.values()) > 6000
    assert sum(len(part.steps) for part in parts) > 12000


def test_the_reader_knows_no_module_that_writes_pages() -> None:
    """Its agreement is evidence because it shares nothing with what it reads."""
    for path in Path(__file__).parent.glob("*.py"):
        if path.name == "conftest.py":  # the door through which the pages come
            continue
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            names = [alias.name for alias in node.names] if isinstance(node, ast.Import) else (
                [node.module or ""] if isinstance(node, ast.ImportFrom) else [])
            assert not [name for name in names if name.startswith("walebook")], path.name


def test_every_line_of_the_table_is_said_on_some_page(readings: Mapping[str, page.Reading]) -> None:
    """A sentence that no page says any more leaves the table, and each act is one that is done."""
    assert readings
    met = said(readings) | second_colour().met
    unsaid = [line for line in grammar.table() if line.place not in met]
    assert not unsaid, "\n".join(f"{line.place}: {line.pattern}" for line in unsaid)
    acts = {line.act for line in grammar.table()} - {"explain", "how", "measured"}
    beside = trial_pieces.ACTS | ways.ACTS | cautions.ACTS
    assert acts <= set(ACTS) | beside
    assert (set(ACTS) | beside) - acts <= {"check", "diagram"}


def test_only_what_a_page_says_counts_as_said() -> None:
    """Not what a spoiled page said before; and a sentence counts for each page that says it."""
    sentence = next(line.pattern for line in grammar.table()
                    if not line.slots and "[" not in line.pattern)
    for _ in range(2):
        grammar.read(sentence)
        with grammar.noting() as met:
            pass
        assert not met
        with grammar.noting() as met:
            grammar.read(sentence)
        assert len(met) == 1


def test_sections_whose_sides_are_exchanged_are_refused(pages: dict[str, str]) -> None:
    gilet = pages["lock-keeper-gilet/m"]
    for one, other in (("right back neck", "left back neck"), ("back armhole", "front armhole"),
                       ("inner stitch", "outer stitch")):
        spoiled = gilet.replace(one, "@").replace(other, one).replace("@", other)
        assert {fault.kind for fault in page.read(spoiled).faults} == {"lies"}, one


def test_a_roll_is_sewn_and_its_ends_are_hidden_inside_it(pages: dict[str, str]) -> None:
    """A roll shows the purl side, so a ridge or an end there is seen (common practice). The neck
    and the hem of the pullover that is knitted sideways are closed, the hem's band in two parts."""
    text = pages["gull-wing-pullover/m"]
    rows = (" The band rolls: sew its rows with the purl side towards you, so that the seam lies "
            "inside the roll.")
    meets = " The band rolls: sew its rows with the purl side towards you."
    inside = ("Hide those at the bound-off edge on the knit side, inside the roll. Hide the others "
              "on the wrong side, along the edge.")
    assert text.count(meets) == 2
    for told, instead in ((rows, ""), (meets, ""), (
            inside, "Hide them on the wrong side, along the edge.")):
        assert told in text
        assert {one.kind for one in page.read(text.replace(told, instead)).faults} == {"rolls"}


def test_a_facing_is_not_sewn_down_over_stitches_that_are_joined_later(pages: dict[str, str]
                                                                       ) -> None:
    """Its open ends hide stitches of the shoulder, which the making up pulls clear of them."""
    pulled = {name for name, text in pages.items()
              if re.search(r"out</b> from under the [a-z ]*facing's open ends", text)}
    unsewn = {name for name, text in pages.items()
              if "stay on the waste yarn: sew them down when" in text}
    later = {name for name, text in pages.items()
             if "Then sew down the last 3 stitches of either end" in text}
    assert pulled
    led = {name for name, text in pages.items() if re.search(
        r"lead (?:this|the) end loosely behind (?:the last 3 stitches|them), and begin to sew at "
        r"the first stitch after them\. (?:Sew|With the end that was left, sew) down", text)}
    assert pulled == unsewn == later == led


def test_marking_the_rows_of_an_edge_is_an_act(pages: dict[str, str]) -> None:
    """An act stands in bold, so that it is seen at the bench: each step that begins with it."""
    said = [name for name, text in pages.items() if "Mark the rows of the edge" in text]
    plain = [name for name in said if re.search("(?<!<b>)Mark the rows of the edge", pages[name])]
    assert said
    assert not plain, plain


def test_one_stitch_has_its_loops_on_it(pages: dict[str, str]) -> None:
    wrong = [name for name, text in pages.items()
             if re.search(r"<b>1</b> stitch, \d loops on each", text)]
    assert not wrong


def test_a_page_with_two_fronts_says_whose_right_is_meant(pages: dict[str, str]) -> None:
    wrong = [name for name, text in pages.items()
             if "Right front" in text and "wearer's right" not in text]
    assert not wrong


def test_a_cowl_says_how_far_it_goes_round_and_how_high_it_is_with_its_bands(
        pages: dict[str, str]) -> None:
    """Two stitches lie inside either band, each as deep as the rows of a layer; the seam of both
    ends takes no row (worked out by hand from the swatches of 15.2 by 14.4 cm and 13.4 cm)."""
    for size in ("child", "adult"):
        text = re.sub(r"<[^>]+>", "", pages[f"foghorn-cowl/{size}"])
        wide, rows, deep = (int(re.search(said, text)[1]) for said in (  # type: ignore[index]
            r"Cast on, (\d+) stitches", r"Rows, (\d+) rows", r"Rows of one layer: (\d+) rows"))
        high = (wide - 4) * 15.2 / 30 + 2 * deep * 13.4 / 40
        for said, cm in (("all round", rows * 14.4 / 40), ("height with its bands", high)):
            assert f"Cowl, {said}{f'{cm:.1f}'.removesuffix('.0')} cm" in text


def test_a_part_is_joined_where_its_first_end_hangs(pages: dict[str, str]) -> None:
    joined = re.compile(r"(Join this part to part \d+</b> at the )[^,]+,")
    text = next(text for text in pages.values() if joined.search(text))
    elsewhere = joined.sub(r"\1foot of the sleeve,", text)
    assert {one.kind for one in page.read(elsewhere).faults} == {"end"}
