"""What is cut, where it begins, and what is left for later: as a knitter asks it of each page.

What is asked here is common practice in editing patterns, no source, where none is named.
"""

from __future__ import annotations

import re
from collections.abc import Mapping

import pytest

from tests.reader import page
from tests.reader.conftest import with_others

TAG = re.compile(r"<[^>]+>")


@pytest.fixture(scope="module")
def texts(pages: dict[str, str]) -> dict[str, str]:
    """Every page without its tags, a blank between words."""
    return {name: re.sub(r"\s+([,.])", r"\1", re.sub(r"\s+", " ", TAG.sub(" ", text)))
            for name, text in pages.items()}


def refused(text: str, told: str, instead: str) -> set[str]:
    """The kinds of fault that the reader finds where a page says something else."""
    assert told in text, told
    return {fault.kind for fault in page.read(text.replace(told, instead)).faults}


def test_an_end_for_a_lower_edge_has_a_hand_to_hold_and_a_beginning(pages: dict[str, str]) -> None:
    """129 stitches of 4.5 mm, three times and 15 cm: 189.15 cm; 175 has no hand in it."""
    text = pages["tide-pool-top/s"]
    assert refused(text, "about 190 cm (74¾ in) long. Begin", "about 175 cm (68⅞ in) long. Begin"
                   ) == {"end"}
    assert refused(text, " Begin at either end of the edge, and leave a hand's length hanging "
                   "there.", "") == {"out-of-place"}
    assert refused(text, "row 1 ended at the left", "row 1 ended at the right"
                   ) == {"half-loop-end"}


def test_two_ends_of_yarn_in_one_step_are_two(texts: dict[str, str]) -> None:
    """A shoulder "in the same way" and the band's ends, "with about 45 cm": for both?"""
    told = {name: said for name, text in texts.items()
            for said in re.findall(r"in the same way.{0,200}?ends together.{0,60}", text)}
    own = {name for name, said in told.items() if "with a new end " in said}
    assert own
    assert not {name for name in told if ("with another end of" in told[name]) != (name in own)}
    assert not {name for name in told.keys() - own
                if "sew the" in told[name] or "off the waste yarn" in texts[name].split(
                    "in the same way")[0].split("Leave the left")[0][-300:]}


def test_what_is_left_for_later_is_said_before_all_is_sewn(pages: dict[str, str]) -> None:
    """ "Sew its 182 stitches down", and three sentences later: but not the last 3."""
    faced = [name for name, text in pages.items()
             if "stay on the waste yarn: sew them down when" in text]
    assert len(faced) == 7
    assert refused(pages["tide-pool-top/s"], "each open end, 176 now", "each open end, 182 now"
                   ) == {"count"}
    assert not {name for name, text in pages.items() if re.search(r"\ball (?:its|2) parts", text)}


def test_a_mitre_and_its_working_have_one_figure(texts: dict[str, str]) -> None:
    """ "2 of about 4 pairs", and in the calculations "= 3.69, rounded down: 3"."""
    found = {name: (re.search(r"mitre takes (\d+) of (?:about|the) (\d+)", text),
                    re.search(r"each corner is mitred: [^;]*, rounded down: (\d+)[^;]*; (\d+)",
                              text))
             for name, text in texts.items() if "mitre takes" in text}
    assert found
    assert not {name: (step and step.groups(), sum_ and sum_.groups())
                for name, (step, sum_) in found.items()
                if not (step and sum_ and step.groups() == sum_.groups()[::-1])}


def test_the_tools_name_the_widest_row_that_a_mitre_moves(texts: dict[str, str]) -> None:
    """Twelve in four goes were listed, and the steps move 58 side by side."""
    mitred = {name: max(map(int, moved)) for name, text in texts.items() if "for the mitre" in text
              if (moved := re.findall(r"\((\d+) stitch(?:es)?\): \d needles? to", text))}
    assert mitred
    listed = {name: re.search(r"with \d prongs, three at a time; up to (\d+) stitches", texts[name])
              for name in mitred}
    assert {name: one and int(one[1]) for name, one in listed.items()} == mitred
    assert not [name for name in mitred if re.search("are moved in [0-9]+ goes", texts[name])]


def test_waste_yarn_is_for_all_that_it_is_used_for(texts: dict[str, str]) -> None:
    """ "8 rows at each start on waste yarn" only, where shoulders are taken off on it too."""
    both = {name for name, text in texts.items()
            if "at each start on waste yarn" in text and "Labels for the edges that wait" in text}
    assert both
    assert not {name for name in both if "at each start on waste yarn and for stitches that wait"
                not in texts[name]}


def test_the_head_says_which_measure_is_of_the_body(pages: dict[str, str]) -> None:
    """ "Chest" stood there twice, of the body and of the garment."""
    heads = {name: re.findall(r"<dt>(.*?)</dt>", text.split('<dl class="wb-facts">')[1]
                              .split("</dl>")[0]) for name, text in pages.items()
             if '<dl class="wb-facts">' in text}
    assert heads
    assert not {name: said for name, said in heads.items() if len(set(said)) < len(said)}
    bare = {name for name, said in heads.items() if {"Chest", "Bust", "Head", "Length"} & {*said}}
    assert not bare


def test_a_corner_is_hung_in_the_order_of_its_section(pages: dict[str, str]) -> None:
    """The loop at the edge is the last one before the corner, or the first one from it."""
    text = pages["tide-pool-top/s"]
    assert refused(text, "With the last 3 loops, up to the corner, come out to the edge: go in 2 "
                   "stitches, then 1, then none.", "With the first 3 loops, from the corner, go in "
                   "from the edge: none, then 1, then 2 stitches.") == {"end"}


def test_a_table_with_bound_off_stitches_says_so_in_its_head(pages: dict[str, str]) -> None:
    """ "Row" numbered both, and "Take 3 rows" took three of either."""
    text = pages["tide-pool-top/s"]
    assert "table" in refused(text, "<th>Edge place</th>", "<th>Edge row</th>")
    assert "left-out" in refused(text, " Each row and each bound-off stitch is a place.", "")
    told = re.search(r"take places in groups and miss one place between groups; places in", text)
    assert told
    assert "hanging" in refused(text, told[0], told[0].replace("place", "row"))


def test_rows_and_bound_off_stitches_lie_as_they_were_knitted(pages: dict[str, str]) -> None:
    """A section that comes down from the shoulder begins with the rows that were knitted last."""
    text = pages["day-mark-pullover/10"]
    lists = re.findall(r" \((\d+ (?:rows?|bound-off stitch(?:es)?), [^()]*)\), ", text)
    assert len(lists) == 4
    for told in lists[:2]:
        turned = ", ".join(told.split(", ")[::-1])
        assert turned != told
        assert refused(text, told, turned) == {"order"}
    assert "unknown-sentence" in refused(text, f" ({lists[0]})", "")


def test_no_step_hangs_weights_on_rows_of_the_next(texts: dict[str, str]) -> None:
    """A separate step said to hang them when the first rows hold, and knitted none."""
    pages_with = [name for name, text in texts.items() if "After two or three rows" in text]
    assert pages_with
    alone = {name for name in pages_with for rest in re.findall(
        "hang the weights(?:</b>)? evenly, and move them up as the work grows\\. ?(.{60})",
        texts[name])
        if not re.match("Knit|Increase|Decrease|Work rows", rest)}
    assert not alone


def test_a_hat_has_one_name_for_one_length(texts: dict[str, str]) -> None:
    """Its depth is its length while nothing turns up."""
    both = {name: re.findall(r"Finished (?:depth|length) +(\S+ cm)", text.split("Schematic")[0])
            for name, text in texts.items() if "Finished circumference" in text}
    assert both
    assert not {name: said for name, said in both.items()
                if "Finished depth" in texts[name].split("Schematic")[0] and len(set(said)) < 2}


def test_what_drops_stitches_from_the_needles_is_said(texts: dict[str, str]) -> None:
    dropped = {name for name, text in texts.items() if "without yarn: the stitches drop off" in text
               and "Put stitches on waste yarn" in text}
    assert dropped
    assert not {name for name in dropped
                if "carriage across once with no yarn: these stitches drop" not in texts[name]}


def test_a_stitch_that_waits_in_no_seam_yet_is_named_so(texts: dict[str, str]) -> None:
    told = {(name, said) for name, text in texts.items()
            for said in re.findall(r"One stitch more waits at either end, in a seam[^:]*:", text)}
    assert told
    assert not {(name, said) for name, said in told if "where one will be" not in said}


def test_claw_weights_hang_where_a_front_runs_out_in_a_stitch(
        pages: dict[str, str], texts: dict[str, str]) -> None:
    """The weights of a wide piece have no hold under five stitches, then three, then one."""
    narrow = {(name, step) for name, text in pages.items()
              for step in re.findall(r'<li id="[^"]+"><p>.*?</li>\n', text, re.DOTALL)
              if "ecrease 1" in step and re.search(r"<i><b>1</b> stitch, \d loops", step)}
    assert narrow
    told = {name: text.count("hang claw weights under them") + text.count(
        "Hang claw weights under the stitches in work,") + text.count(
        "Hang the claw weights again under the stitches in work,") for name, text in texts.items()}
    assert not {name for name, _ in narrow if told[name] < 2}, "one for each half or front"


def test_ends_are_secured_before_what_is_sewn_up_is_washed(texts: dict[str, str]) -> None:
    """As the page on blocking asks: they are darned in last, but where a seam shuts them in."""
    washed = {name for name, text in texts.items() if "as the swatch was washed, and lay" in text}
    assert washed
    assert not {name for name in washed if "Secure the ends, then wash" not in texts[name]
                and "Darn in all ends" not in texts[name].partition("as the swatch was washed")[0]}


def test_a_thread_marks_where_a_front_edge_ends_at_a_v(
        pages: dict[str, str], readings: Mapping[str, page.Reading]) -> None:
    """On the row after which the hanging table begins the neck: its rows are the front edge's,
    the row that joins the hem among them."""
    marked = {}
    for name, text in pages.items():
        rows = {int(one) for one in re.findall(
            r"front edge:</strong>[^.]*?, from (\d+) rows", text)}
        fronts = [k for k in readings[name].knitters
                  if k.title in ("Right front", "Left front")] if rows else []
        slopes = [k for k in fronts if "neck begins" in k.notes]
        if slopes:
            marked[name] = {k.notes["neck begins"] for k in slopes}, rows
            assert len(slopes) == len(fronts) == 2, name
            assert "<strong>Marking thread</strong>" in text, name
    assert {name.split("/")[0] for name in marked} >= {
        "pilot-boat-waistcoat", "tide-watch-jacket", "watch-below-robe"}
    assert not {name: (at, rows) for name, (at, rows) in marked.items()
                if {one + 1 for one in at} != rows}


def test_ends_of_an_armhole_band_are_sewn_in_one_with_the_side_seam(texts: dict[str, str]) -> None:
    """The making up sews them so, and the band's finishing said "when that is joined"."""
    meet = re.compile("They meet at the side seam: sew them to each other, both layers, (.*?)[.]")
    found = {name: meet.findall(text) for name, text in texts.items()
             if "in one with each, the ends of its armhole band, edge to edge" in text
             and meet.search(text)}
    assert found
    assert {said for all_ in found.values() for said in all_} == {"in one with it"}


def test_depths_and_darts_told_otherwise_are_found(pages: dict[str, str]) -> None:
    text = pages["harbour-bell-slipover/m"]
    assert "depth" in refused(text, "from the second row below the chain",
                              "from the third row below the chain")
    assert "fills" in refused(text, "fill L23 from L22", "fill L23 from L24")


def test_a_new_end_at_a_shoulders_turn_goes_round_the_held_needle(pages: dict[str, str]) -> None:
    """A yarn that hangs there would go round it by itself; a new one leaves a hole."""
    text = pages["day-mark-pullover/10"]
    told = " Lay it by hand under the held needle R35, so that no hole is left."
    assert text.count(told) == 2
    assert any(fault.kind == "no-wrap" for fault in page.read(text.replace(told, "", 1)).faults)
    other = text.replace(told, told.replace("R35", "R36"), 1)
    assert any(fault.kind == "range" for fault in page.read(other).faults)


def test_a_piece_that_is_sewn_to_itself_is_folded_at_its_marks(texts: dict[str, str]) -> None:
    """Where, which side is outside, which part ends at which marks, and where the seam begins."""
    for name in ("pursers-bag/purse", "pursers-bag/satchel"):
        text = texts[name]
        tied = re.findall(r"until the row counter shows (\d+)[^.]*\. Tie a thread into both", text)
        fold = re.search(r"Fold the bag across at the fold marks of row counter (\d+), the knit "
                         r"side outside\. Sew the left lower edge of the bag to the left upper ",
                         text)
        assert fold and fold[1] == tied[0], name
        ends = re.search(r"from the lower edge to the fold, the hem's rows with it; the left upper "
                         r"edge of the bag from the fold to the upper marks of row counter (\d+)",
                         text)
        assert ends and ends[1] == tied[1], name
        assert text.count("Begin at the fold.") == 2, name


def test_a_hem_in_a_seam_from_a_fold_is_sewn_as_one(texts: dict[str, str]) -> None:
    """In either seam: its rows count the hem's once, and not down one layer and up the other."""
    told = "Begin at the fold. At the hem sew both layers together, as one."
    for name in ("pursers-bag/purse", "pursers-bag/satchel"):
        assert texts[name].count(told) == 2, name


def test_the_sides_of_a_piece_are_named_as_the_wearer_has_them(pages: dict[str, str]) -> None:
    """Beside how they lay on the bed: on the knit side, and worn, left and right change places."""
    spar, bag, gull = (pages[name] for name in ("spar-pullover/m", "pursers-bag/purse",
                                                "gull-wing-pullover/m"))
    assert refused(spar, "you the left edge is at the right", "you the left edge is at the left"
                   ) == {"side"}
    worn = ("the wearer's left on a piece worn in front", "the wearer's right on a piece worn at")
    for told in worn:
        assert refused(spar, told, told.replace("left", "*").replace("right", "left").replace(
            "*", "right")) == {"side"}
        assert told not in bag
    lie = " With the knit side towards you the left edge is at the right."
    assert refused(bag, lie, "") == {"side"}
    assert refused(gull, "wearer's right on the front", "wearer's left on the front") == {"lies"}


def test_every_finished_measure_has_its_calculation(pages: dict[str, str]) -> None:
    """A shawl's are no sum of parts, and are calculated all the same."""
    shawl = pages["fog-bank-shawl/2x"]
    told = re.findall(r"<li><b>Finished [^:]*:</b> [^<]*</li>", shawl)
    assert len(told) == 3
    for line in told:
        assert refused(shawl, line, "") == {"working"}


def test_one_label_stands_for_one_thing(pages: dict[str, str]) -> None:
    """ "Across" was a measure of the body and a count of stitches; "Front edge" two counts."""
    robe = pages["watch-below-robe/s"]
    for told, instead in (("<b>Across the back,", "<b>Across,"),
                          ("Band stitches along the front edge:", "Rows of the front edge:")):
        assert refused(robe, told, instead) == {"label"}


def test_every_part_of_the_order_of_work_says_what_is_done(pages: dict[str, str]) -> None:
    text = pages["pilot-boat-waistcoat/m"]
    assert "order" in refused(text, "<p>work the armhole bands</p>", "")


def test_a_width_that_bands_add_to_says_so_in_every_list(every_page: dict[str, str]) -> None:
    """Also where all sizes stand side by side, and of the ease."""
    without = "idth across the back, without the armhole bands"
    banded = {name.split("/")[0] for name, text in every_page.items() if without in text}
    assert len(banded) >= 7
    for name in banded:
        overview = TAG.sub("|", every_page[f"{name}/index"])
        told = re.findall(r"idth across the back\b[^<\[|]*", overview)
        assert len(told) >= 4
        assert {one.strip() for one in told} == {without}, name


def test_a_width_across_with_what_its_bands_cover_is_refused(pages: dict[str, str]) -> None:
    """Of the 88 stitches of a back 2 lie under a band at each side: 84 of 15.2 cm for 30 are 42.6
    cm. With one for a seam at each side, as the pages once had it, they would be 43.6."""
    text = pages["pilot-boat-waistcoat/l"]
    assert "across" in refused(text, "42.6 cm (16¾ in)", "43.6 cm (17⅛ in)")
    assert "across" in refused(text, "Go in about 2 stitches", "Go in about 1 stitch")


def test_a_stitch_of_the_side_seam_is_not_hung(pages: dict[str, str]) -> None:
    """Of 4 stitches bound off at the underarm the side seam takes the outermost one."""
    text = pages["pilot-boat-waistcoat/l"]
    assert "seam" in refused(text, "Leave the outermost stitch bound off there for the side seam. ",
                             "")
    lengthwise = pages["bowline-waistcoat/4"]
    assert "seam" in refused(lengthwise, "leave the outermost stitch for the side seam. Take each "
                             "other stitch", "take each stitch")


def test_a_band_on_an_own_edge_says_where_it_begins(pages: dict[str, str]) -> None:
    """ "The first end at the left" is not to be found on the piece. A right edge that hangs with
    its wrong side towards the knitter has its lower end at the right."""
    cowl = pages["foghorn-cowl/adult"]
    left, right = (f"The lower end is at the {side}." for side in ("left", "right"))
    assert cowl.count(left) == cowl.count(right) == 1
    swapped = re.sub("lower end (is at|on) the right", r"lower end \1 the left", cowl)
    assert "lies" in refused(swapped, "which lies on the right", "which lies on the left")
    assert "end" in refused(cowl, left, "The first end is at the left.")


def test_buttons_are_sewn_on_when_their_holes_are_made(pages: dict[str, str]) -> None:
    """The plain band is knitted first: "sew on 7 buttons" stood there, before any hole."""
    text = pages["slack-tide-cardigan/m"]
    step = re.search(r"<b>Sew 7 buttons to the other band,</b>.*?listed below</a>\.", text)
    assert step is not None and text.index("with buttonholes</h2>") < step.start()
    darn = "Draw each in between the layers."
    early = text.replace(step[0], "").rsplit(darn, 2)
    assert len(early) == 3
    moved = f"{early[0]}{darn} {step[0]}{early[1]}{darn}{early[2]}"
    assert "order" in {fault.kind for fault in page.read(moved).faults}


def test_the_garment_is_laid_before_its_edge_is_hung(pages: dict[str, str]) -> None:
    """ "Hang section 1" stood before "The garment lies back over the bed": in the wrong order."""
    text = pages["slack-tide-cardigan/m"]
    laid = re.search(r"<b>Lay the garment back over the bed,</b>.*?towards you\. (?=<b>Hang)", text)
    assert laid is not None
    hung = re.search(r"<b>Hang section 1.*?one loop on each\. ", text[laid.end():])
    assert hung is not None
    assert "lies" in refused(text, laid[0] + hung[0], hung[0] + laid[0])


def test_the_carriage_comes_over_where_the_next_piece_begins_on_the_other_side(
        pages: dict[str, str]) -> None:
    """The back ends on the right, and "the carriage on the left" began the next without a word."""
    text = pages["slack-tide-cardigan/m"]
    over = re.compile(r"\. Take the carriage, set to knit, over the bed to the (left|right)\.")
    assert len(over.findall(text)) == 5
    spoiled = over.sub(r", and the carriage on the \1, set to knit.", text)
    assert "carriage" in {fault.kind for fault in page.read(spoiled).faults}


def test_the_head_of_a_ring_says_how_far_it_goes_round(pages: dict[str, str]) -> None:
    """What a wearer asks of a cowl first; the width of its strip says little (common practice)."""
    head = re.findall("<dt>(.*?)</dt>", pages["foghorn-cowl/adult"])[:2]
    assert head == ["Cowl, all round", "Cowl, height with its bands"]
    bag = re.findall("<dt>(.*?)</dt>", pages["pursers-bag/purse"])[:2]
    assert bag[0].startswith("Bag, width") and bag[1].startswith("Bag, length")


def test_a_band_is_not_called_as_the_edges_that_a_seam_joins(pages: dict[str, str]) -> None:
    """ "Sew the upper edge to the lower edge": were those the edges with the upper and the lower
    band, or the bound-off and the cast-on edge?"""
    told = pages["foghorn-cowl/adult"].replace("Right band", "Lower band")
    assert refused(told, "right band", "lower band") == {"join"}


def test_an_edge_round_pegs_and_the_ends_of_a_hole_told_otherwise_are_found(
        pages: dict[str, str]) -> None:
    """16 stitches of 30 over 13.4 cm lie 7.15 cm wide; by the rows of that swatch it was 5.3."""
    text = pages["bowline-waistcoat/4"]
    assert "length" in refused(text, "is to measure about 7.1 cm (2¾ in)",
                               "is to measure about 5.3 cm (2 in)")
    assert "ends" in refused(text, "Take two spare ends of main yarn, each about 50 cm (19⅝ in) "
                             "long, one for either layer", "Take a spare end of main yarn about "
                             "50 cm (19⅝ in) long for each hole")


def test_a_collar_that_ends_at_the_foot_of_a_v_says_at_which_row(pages: dict[str, str]) -> None:
    robe = pages["watch-below-robe/s"]
    told = " They meet at the foot of the V, where the front's row counter showed 123."
    assert "left-out" in refused(robe, told, "")
    assert refused(robe, told, told.replace("123", "128")) == {"count"}


def test_a_closed_neck_is_held_to_the_head_that_it_goes_over(pages: dict[str, str]) -> None:
    text = pages["dinghy-slipover/4"]
    shown = re.search(r"<div><dt>Neck opening, stretched by a third</dt>.*?</div>", text)
    assert shown
    assert "fact" in refused(text, shown[0], "")
    assert "fact" in refused(text, "<dt>Fits head</dt><dd>45.5–51 cm (18–20 in)",
                             "<dt>Fits head</dt><dd>53–58.5 cm (21–23 in)")


def test_what_marks_an_edge_is_out_before_a_fold_shuts_it_in(pages: dict[str, str]) -> None:
    """Round an edge, inside a garment, along a band sewn on, and at slits: geometry."""
    out = " Take the threads or pins out again, and count them."
    for name in ("little-lamp-cardigan/12-mo", "shingle-pullover/m", "chandlery-closings/trial"):
        assert "shut in" in refused(pages[name], out, "")
    bowline = pages["bowline-waistcoat/4"]
    assert "shut in" in refused(
        bowline, " Take the pins and the threads of the edge out again, and count them.", "")
    assert "range" in refused(bowline, "round the stitch on L4", "round the stitch on L8")
    assert "left-out" in refused(pages["chandlery-closings/trial"],
                                 " Take the threads out again, and count them.", "")


def test_threads_that_mark_an_armhole_are_named_at_its_band_and_at_the_side_seam(
        pages: dict[str, str]) -> None:
    """Where nothing is bound off or decreased the threads alone show where it begins."""
    text = pages["lock-keeper-gilet/2x"]
    under = (" The armhole marks show the underarms: section 1 begins just above the back's, "
             "section 2 ends just above the front's.")
    assert text.count(under) == 2
    assert refused(text, under, "") == {"marks"}
    assert refused(text, under, under.replace("section 2 ends", "section 3 ends")) == {"marks"}
    assert refused(text, " Then take the threads out.", "") == {"marks"}


def test_the_thread_at_the_foot_of_a_v_is_out_before_a_fold_shuts_it_in(
        pages: dict[str, str]) -> None:
    """It lies at the end of the edge that a band is closed around: geometry."""
    pilot = pages["pilot-boat-waistcoat/l"]
    assert "shut in" in refused(pilot, ", the tied-in thread too", "")
    told = " The thread tied in where the neck begins marks the upper end of section 2."
    assert "shut in" in refused(pilot, told, "")
    assert "shut in" in refused(pilot, told, told.replace("2", "1"))


def test_either_armhole_of_a_cardigan_has_its_length(pages: dict[str, str]) -> None:
    """Both edges of the left one are bound off in one row, those of the right one a row apart."""
    jacket = pages["tide-watch-jacket/l"]
    left = next(line for line in re.findall(r"<li>(Left sleeve cap.*?)</li>", jacket))
    right = next(line for line in re.findall(r"<li>(Right sleeve cap.*?)</li>", jacket))
    assert "join" in refused(jacket, f"<li>{left}</li>", "")
    assert "join" in refused(jacket, left, right.replace("Right", "Left"))


def test_threads_that_front_bands_need_stay_when_a_collar_hangs(pages: dict[str, str]) -> None:
    """It lies between them: the front edges, hung later, end there."""
    jacket, ties = pages["tide-watch-jacket/l"], "the two threads tied in where the neck begins"
    assert "marks" in refused(jacket, f" Its ends lie just above {ties}.", "")
    assert "marks" in refused(jacket, f"out again, but not {ties},", "out again,")
    assert "marks" in refused(jacket, f"of this edge, but not {ties}. Nothing else",
                              "of this edge. Nothing")


def test_a_top_row_that_is_the_seams_says_what_is_hung_there(pages: dict[str, str]) -> None:
    """ "As far as you can without taking the seam's stitch", and there is no other."""
    told = (" Where only the seam's stitch is left, take its leg at this edge, and leave the other "
            "for the seam.")
    assert refused(pages["flood-tide-pullover/s"], told, "") == {"left-out"}


def test_a_seam_says_what_it_takes_of_a_top_of_one_stitch_and_of_open_stitches(
        pages: dict[str, str]) -> None:
    """Common practice, no source: half a stitch to each edge; an open stitch runs unless held."""
    leg = (" Where one stitch is left at the top, take its leg at this edge, and leave the other "
           "for the neck.")
    assert refused(pages["groyne-pullover/m"], leg, "") == {"left-out"}
    held = ": pass the end through it too, with the stitch beside it."
    assert refused(pages["storm-lantern-cardigan/m"],
                   f" One stitch of each shoulder lies in a raglan seam{held}", "") == {"left-out"}
    assert "unknown-sentence" in refused(pages["storm-lantern-cardigan/m"], held, ".")


@pytest.mark.parametrize(("page", "place", "began"), [
    ("tide-pool-top/m", 0, "right"),  # the first half of the back
    ("watchkeeper-pullover/s", 0, "left"),  # the same, the carriage on the other side
    ("fairlead-pullover/s", 1, "left")])  # the second half beside a neck that is held
def test_the_carriage_stands_where_the_pass_that_drops_stitches_took_it(
        pages: dict[str, str], page: str, place: int, began: str) -> None:
    """Eight rows end where they began, the pass goes across, and the row counter counts all nine:
    what a machine does, whatever a page would like (common practice, no source)."""
    text, over = pages[page], {"left": "right", "right": "left"}[began]
    (step,) = [re.search(r"<li.*? off on waste yarn:.*?</li>", line)[0]  # type: ignore[index]
               for line in text.split("\n") if " off on waste yarn:" in line
               and "row counter" in line][place:place + 1]
    across = re.search(rf"Take the carriage across to the {over} of ([LR]\d+) without", step)
    assert across
    counts = " The row counter counts the 8 rows and this pass too."
    for told, instead, kind in (
            (across[0], across[0].replace(over, began), "side"),
            (f" of {across[1]} without", " without", "side"),
            (f"carriage on the <b>{over}", f"carriage on the <b>{began}", "check-side"),
            ("knit 8 rows", "knit 7 rows", "rows"),
            (counts, "", "left-out")):
        assert step.count(told) == 1, told
        assert kind in refused(text, step, step.replace(told, instead)), told
    (shown,) = re.findall(r"row counter <b>(\d+)</b>", step)
    for wrong in (int(shown) - 1, int(shown) - 9):  # the pass left out, all nine
        assert "check-counter" in refused(text, step, step.replace(
            f"counter <b>{shown}<", f"counter <b>{wrong}<"))


@pytest.mark.parametrize(("slug", "told", "instead"), [
    ("chandlery-closings", "    yarn: thread", "    yarn: twine")])
def test_the_carriage_comes_back_to_a_yarn_that_hangs_where_the_waste_yarn_began(
        with_another: str) -> None:
    """A facing of the band's own yarn: its end hangs from the work on the side that the pass left,
    and the free pass to it meets no stitch (common practice, no source)."""
    back = re.search(r"<b>Make a free pass to the (?:left|right):</b> with the feeder empty and no "
                     r"stitch on the needles, .*?where the yarn hangs\. ", with_another)
    assert back and not page.read(with_another).faults
    assert "side" in refused(with_another, back[0], "")


def test_a_point_is_pinned_when_the_band_is_off_the_bed(pages: dict[str, str]) -> None:
    text, pin = pages["flood-tide-pullover/s"], " Pin the point flat, damp it and let it dry."
    assert "left-out" in refused(text, pin, "")
    moved = "its latch open: the next row knits them as one."
    assert "not-empty" in refused(text, moved, f"{moved}{pin}")


def test_a_seam_has_a_yarn_a_length_and_an_order_at_a_hem(pages: dict[str, str]) -> None:
    """Which yarn, how long an end, and whether a seam begins at the fold or inside."""
    text = pages["flood-tide-pullover/s"]
    assert refused(text, "Where a step names no yarn, sew with the pieces' yarn. ", "") >= {
        "left-out", "out-of-place"}
    assert refused(text, "three times as long as the seam", "two times as long as the seam"
                   ) >= {"end"}
    inside = re.search(r"Where a hem is folded, begin inside: [^.]*[.] ", text)
    assert inside
    assert "left-out" in refused(text, inside[0], "")
    assert "left-out" in refused(pages["pennant-cap/woman"], " At the hem sew the outer layers "
                                 "down to the fold, then the inner ones up.", "")
    assert "left-out" in refused(pages["bowline-waistcoat/4"], " of the same yarn.", ".")


def test_a_half_that_begins_where_the_carriage_stands_says_so(pages: dict[str, str]) -> None:
    """A knitter looks for the free pass that other halves have."""
    text = pages["flood-tide-pullover/s"]
    found = re.search("The carriage is now to the left of (L[0-9]+), where this half "
                      "begins: make no free pass. ", text)
    assert found
    here = found[0]
    assert refused(text, here, "") == {"carriage"}
    assert "side" in refused(text, here, here.replace("left", "right"))
    assert "range" in refused(text, here, here.replace(found[1], "L2"))


def test_the_rows_of_a_raglan_in_two_fabrics_are_those_of_its_edges(pages: dict[str, str]) -> None:
    """A left edge is bound off a row later, and so has a row less; it meets a right one."""
    text = pages["groyne-pullover/m"]
    right = "where the back lay at the right of the bed: <b>75 rows</b>"
    for told, instead in (
            (right, right.replace("right", "left")), (right, right.replace("75", "74")),
            ("back and sleeve, where the back lay at the right of the bed: ", "back and sleeve: "),
            ("<b>80 rows</b> of the sleeve: join 70 bars to one bar each, 5 to two",
             "<b>81 rows</b> of the sleeve: join 69 bars to one bar each, 6 to two")):
        assert told in text
        kinds = {one.kind for one in page.read(text.replace(told, instead, 1)).faults}
        assert "join" in kinds, told


def test_claw_weights_come_off_where_none_is_held_any_more(pages: dict[str, str]) -> None:
    """Between slits they moved from part to part, and hung under the last for all that followed."""
    told = r"<em>Keep your feet clear\.</em> <b>Take the claw weights off\.</b>"
    for name, times in (("chandlery-closings/trial", 2), ("tide-watch-jacket/m", 2)):
        places = list(re.finditer(told, pages[name]))
        assert len(places) == times
        for place in places:
            spoiled = pages[name][:place.start()] + pages[name][place.end():]
            assert "claws" in {fault.kind for fault in page.read(spoiled).faults}


def test_of_a_half_that_runs_out_not_only_the_claw_weights_come_off(pages: dict[str, str]) -> None:
    """Below them hang those that hung there before the work was divided."""
    assert refused(pages["groyne-pullover/l"], "Take all weights off except those under the held "
                   "stitches.", "Take the claw weights off.") == {"weights-on"}


def with_the_sentence_before(text: str, found: re.Match[str]) -> str:
    """What is found, from the beginning of the sentence before its own."""
    own = text.rfind(".", 0, found.start())
    return text[text.rfind(".", 0, max(own, 0)) + 1:found.end()]


def test_wherever_weights_come_off_feet_are_kept_clear(texts: dict[str, str]) -> None:
    """Weights drop when stitches come off: the caution stands in every step that it concerns."""
    told = {(name, with_the_sentence_before(text, found)) for name, text in texts.items()
            for found in re.finditer(r"[Tt]ake (?:all |the )?(?:claw )?weights off\b"
                                     r"(?! before you lift it)", text)}
    assert told
    assert not {(name, said) for name, said in told if "feet clear" not in said}


def test_two_fronts_whose_ribs_are_no_mirror_images_say_so(pages: dict[str, str]) -> None:
    """From left to right in both, a rib has another column beside each band."""
    met = 0
    for name, text in pages.items():
        told = re.search(r" Beside its band this front begins with a latched column, the right fr"
                         r"ont with a plain one\. So the rib runs on over both side seams\.", text)
        if not told or (met := met + 1) > 1:
            continue
        other = told[0].replace("plain one", "latched one").replace("a latched c", "a plain c")
        for spoiled in ("", other):
            assert refused(text, told[0], spoiled) == {"rib"}, name
        assert "left-out" in refused(text, told[0], told[0].partition(" So ")[0])
    assert met


def test_two_bands_of_one_layer_are_all_that_is_on_a_page() -> None:
    """The calculations name no band then, and the second explains nothing again (our own rule)."""
    text = with_others("practice-band", {
        "    rows: {to_holes: 4, holes_to_fold: 4, fold_to_holes: 4, to_finish: 4}\n":
            "    kind: single\n    depth: 3 cm\n",
        "    fold: picot\n    buttonholes:\n      button: 13 mm\n      number: 5\n"
        "      ends: 2 stitches\n": ""})
    assert not page.read(text).faults
    rolls = (" One layer of stocking stitch rolls towards its knit side: the depth is that of the "
             "band laid flat.")
    assert text.count(rolls) == 2 and refused(text, rolls, "") >= {"rolls"}
    left = text.index('<li id="front-left-1"')
    spoiled = text[:left] + text[left:].replace("Go in about 2 stitches", "Go in about 3 stitches")
    assert spoiled != text
    assert {fault.kind for fault in page.read(spoiled).faults} == {"mirror"}


def test_a_hem_of_plain_rows_is_knitted_at_the_dial_that_its_gauge_names() -> None:
    """Nothing else on a page of one piece is set as the first layer of its hem is."""
    text = with_others("net-loft-blanket", {})
    assert re.search(r"Hem: not swatched\..* at dial 6, and may come out shallower", text)
    assert refused(text, "Set the dial to 6", "Set the dial to 16") == {"dial"}


def test_the_last_loop_is_closed_before_its_needles_are_pushed_back(pages: dict[str, str]) -> None:
    """ "The tail goes through it" stood before the tail was cut, and twelve needles went back with
    the loop loose on the tool."""
    text = pages["slack-tide-cardigan/m"]
    last = re.search(r" <b>Cut the main yarn,</b> [^.]*feeder\. Draw the tail through the last "
                     r"loop\. (Push the empty needles back to non-working position\.)", text)
    assert last is not None
    kept, cut = " Keep the last loop on the tool.", last[0].replace(f" {last[1]}", "")
    assert "loop-open" in refused(text, kept + last[0], f"{kept} {last[1]}{cut}")
    tail = " Draw the tail through the last loop."
    assert "left-out" in refused(text, kept + last[0], kept + tail + last[0].replace(tail, ""))


def test_stitches_come_off_above_a_rib_before_more_needles_do(pages: dict[str, str]) -> None:
    """The step and its technique page had the two acts in different orders."""
    text = pages["watchkeeper-pullover/m"]
    off = re.search(r"<b>Take all 133 stitches off</b>.*?on one needle\.", text)
    more = " Bring L74 to L68 and R67 to R74 to working position too."
    assert off is not None and off[0] + more in text
    assert "order" in refused(text, off[0] + more, f"{more[1:]} {off[0]}")


def test_needles_of_moved_stitches_come_back_where_the_carriage_is_set_to_hold(
        pages: dict[str, str]) -> None:
    """It stood in the ways alone: in the first half of a divided front three stitches of a row
    would be passed by."""
    text = pages["watchkeeper-pullover/m"]
    told = (" <em>The carriage is set to hold:</em> push the needles of the moved stitches back to "
            "upper working position.")
    assert "hold-forward" in refused(text, told, "")


def test_needles_that_stay_empty_are_named_before_the_others_are_filled(
        pages: dict[str, str]) -> None:
    """The exception came after the act, in a sentence of forty words."""
    text = pages["salt-marsh-pullover/xl"]
    step = re.search(r"(These needles stay empty for the next step: [^.]*\. )(Take the stitches "
                     r"labelled “[^”]*” off the waste yarn\. Hang one on each of the other needles"
                     r"\.)", text)
    assert step is not None
    assert "out-of-place" in refused(text, step[0], f"{step[2]} {step[1].rstrip()}")


def test_a_line_of_two_acts_says_which_comes_first_and_claw_weights_stay_with_the_work(
        pages: dict[str, str]) -> None:
    """ "95, left: bind off 3 / hold 3": which first? And under twenty stitches, then under five."""
    text = pages["slack-tide-cardigan/l"]
    assert "left-out" in refused(text, " In a line with two acts do the left one first.", "")
    assert "claws" in refused(text, " As you hold more needles, keep the claw weights under the "
                              "stitches in work.", "")
