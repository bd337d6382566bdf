"""What a technique page teaches and what a size page's steps do are in one order, in one manner.

For hanging, turning, casting on and binding off; joining is in test_joining_order. Common practice
in editing, no source.
"""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction
from html import unescape
from pathlib import Path

import pytest
from walebook.catalogue.methods import LATCH_ON
from walebook.core.expression import plain as number
from walebook.pages.shaping_explained import methods
from walebook.pattern.model import Pattern
from walebook.shape.garment import Join, Kindred
from walebook.shape.tasks import Seam
from walebook.words.edge_methods import edge_methods
from walebook.words.joins import join_text

from tests.against import wardrobe
from tests.site.garments import assembled
from tests.site.quay_lamp import PATTERNS, built, proved, steps_of, where, with_band, worked
from tests.whole_collection import collection, files_of

TECHNIQUES = Path(__file__).parents[2] / "site_src" / "techniques"
TURN = (r"take the (?:main )?yarn out of the feeder", r"free pass", r"counter back",
        r"take all weights off", r"garter bar|bring every needle", r"end for end",
        r"hang the weights on again", r"thread the yarn|back into the feeder",
        r"knit (?:one|1) row")
ON_EDGE = (r"(?:bring|to working position)", r"hangs? down in front of the bed",
           r"wrong side towards you", r"both ends first", r"weights")


def taught(page: str, *sections: str) -> str:
    """The text of sections of a technique page, by their ids, without marks, in small letters."""
    told = (TECHNIQUES / page).read_text(encoding="utf-8").replace("**", "")
    told = re.sub(r"\[([^\]]*)\]\([^)]*\)", r"\1", told)
    parts = re.split(r"^#{2,3} .*\{ #([\w-]+) \}$", told, flags=re.M)
    by_id = dict(zip(parts[1::2], parts[2::2], strict=True))
    return " ".join(" ".join(by_id[s] for s in sections).split()).lower()


def plain(html: str) -> str:
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", html)).split()).lower()


def in_order(text: str, stages: tuple[str, ...]) -> bool:
    """True where each stage is told after the one before it."""
    at = 0
    for stage in stages:
        found = re.search(stage, text[at:])
        if found is None:
            return False
        at += found.end()
    return True


def test_work_is_turned_in_one_order() -> None:
    assert in_order(taught("fold-turned.md", "first-turn", "fold-row"), TURN)
    told = [step.lower() for step in steps_of(proved(worked()))]
    for start in where(told, "take the main yarn out of the feeder. do not cut it")[::2]:
        assert in_order(" ".join(told[start:start + 8]), TURN)


@pytest.mark.parametrize("stage", range(len(TURN)))
def test_a_stage_left_out_of_a_turn_is_seen(stage: int) -> None:
    text = taught("fold-turned.md", "first-turn", "fold-row")
    assert not in_order(re.sub(TURN[stage], "…", text), TURN)


def test_folded_up_the_first_row_lies_below_its_cord() -> None:
    """The lower edge is uppermost then: waste yarn, cord, first row, from above (geometry)."""
    order = ("up towards you", "waste yarn uppermost", "first", "just below")
    for learned in (taught("hanging-first-row.md", "steps"), taught("hung-hem.md", "steps")):
        assert in_order(learned, order)
        assert "above the ravel cord" not in learned


def test_an_edge_is_hung_in_one_manner() -> None:
    """Back over the bed, right side up, for a band that closes around it; else in front of it,
    wrong side towards the knitter, on empty needles."""
    around = taught("hanging-an-edge.md", "steps")
    assert "lay the garment back over the bed" in around and "right side up" in around
    assert "two loops on each needle" in around
    onto = taught("hanging-an-edge.md", "knitted-on")
    assert in_order(onto, ON_EDGE) and "one loop on each needle" in onto
    closed = " ".join(steps_of(proved(PATTERNS["picot"]))).lower()
    assert "lay the garment back over the bed" in closed and "2 loops on each" in closed
    page = built(proved(with_band(kind="single", buttonholes=None)))["patterns/quay-lamp/m.md"]
    assert "hanging-an-edge.html#knitted-on" in page
    assert in_order(plain(page), ON_EDGE)
    assert "back over the bed" not in page


def test_stitches_come_off_the_bar_so_that_no_needle_takes_three() -> None:
    """The bar holds stitches a needle apart: where a needle takes two, the second of them stands
    beyond it until the bar moves, so a group ends with the first (arithmetic)."""
    told = taught("closing-up-a-crown.md", "from-the-bar")
    assert in_order(told, ("up to the first needle that takes two", "one on each", "move the bar",
                           "by one needle towards them", "over that same needle",
                           "that needle's second stitch", "up to the next needle that takes two"))
    assert "where every needle takes two" in told
    steps = taught("closing-up-a-crown.md", "steps")
    assert in_order(steps, ("do not turn it", "needles that have two stitches forward",
                            "latches open", "knit the first row slowly"))


def garment(form: str) -> Pattern:
    return wardrobe.pattern(form, fold=None)


def test_stitches_are_bound_off_at_a_side_in_one_manner() -> None:
    """Stitch over stitch, the last loop alone on its needle: what the bed finds, one loop."""
    size = assembled("set-in pullover").sizes[0]
    at_side = plain(methods(size)).split("bind off at an edge")[1]
    learned = taught("bind-off-at-the-side.md", "steps")
    for said in ("end stitch onto the needle beside it", "the last loop stays on its needle"):
        assert said in at_side and said in learned
    assert "peg" not in learned and "knit both" not in learned


def test_pieces_are_cast_on_by_hand_in_one_manner() -> None:
    """The yarn is threaded first, and the loops end at the carriage."""
    learned = taught("cast-on-by-hand.md", "steps")
    assert in_order(learned, ("thread the yarn", "farthest from the carriage",
                              "beside the carriage", "knit one row"))
    proof = wardrobe.proved(garment("triangular shawl"))
    told = plain(edge_methods(proof.sizes[0]))
    assert in_order(told, ("farthest from the carriage", "beside the carriage",
                           "knit the first row"))
    page = plain(next(text for path, text in built(proof).items() if path.endswith("/m.md")))
    assert in_order(page, ("thread the main yarn", "cast on by hand"))


@pytest.mark.parametrize("step", [1, -1])
def test_yarn_is_wound_round_a_needle_as_the_turn_that_is_named(step: int) -> None:
    """Towards either side: one turn was named for both. Plane geometry, the needles seen end on."""
    path = [(0, -1), (step, 0), (0, 1), (-step, 0)]  # under it, past it, over it, down
    area = sum(x * v - y * u for (x, y), (u, v) in zip(path, path[1:] + path[:1], strict=True))
    turn = "anticlockwise" if area > 0 else "clockwise"
    way = "left to right" if step > 0 else "right to left"
    learned = taught("cast-on-by-hand.md", "steps")
    assert in_order(learned, ("under the needle", "the one after it", "back over it", "down"))
    assert re.search(rf"from {way} (?:that|it) is {turn}\b", learned)
    told = plain(edge_methods(wardrobe.proved(garment("triangular shawl")).sizes[0]))
    assert in_order(told, ("under it", "the one after it", "back over it", "down"))
    assert "clock" not in told


def test_a_chain_is_cast_on_in_one_manner() -> None:
    """Each needle's loop is drawn through the one on the tool: without that there is no chain."""
    order = ("farthest from the carriage", "slip loop", "its hook up",
             "between the first needle and the next", "lay the yarn over",
             "catch it", "draw it through the loop on the tool", "between the next two needles",
             "hang the last loop", "push the chain back")
    assert in_order(taught("latch-tool-chain.md", "steps"), order)
    made = garment("drop-shoulder pullover")
    assert made.garment is not None
    chained = replace(made, garment=replace(made.garment, cast_on={"": LATCH_ON.name}))
    assert in_order(plain(edge_methods(wardrobe.proved(chained).sizes[0])), order)


def test_weights_come_off_before_a_whole_edge_is_bound_off() -> None:
    learned = taught("gate-pegs.md", "steps")
    assert in_order(learned, ("take the weights off", "begin on the side where the yarn hangs",
                              "move the first stitch"))
    page = plain("".join(text for path, text in built(assembled("drop-shoulder pullover")).items()
                         if path.endswith("/s.md")))
    off = r"take (?:the|all) weights off\W.{0,160}bind off"
    assert re.search(off, page), f"no sentence is {off!r}: a reworded one is to be named so here"


def pages_of(slug: str) -> list[str]:
    """The size pages of a pattern of the collection, in small letters."""
    return [plain(text) for path, text in files_of(slug).items()
            if path.endswith(".md") and not path.endswith("index.md")]


def test_a_crown_is_drawn_up_in_one_order() -> None:
    """What is on the needles could fall with its weights: they come off first."""
    order = ("(hold|support) the work with one hand", "take all weights off",
             "draw the yarn('s end)? through all", "off the(ir)? needles")
    assert in_order(taught("gathering-a-crown.md", "steps"), order)
    assert all(in_order(page, order) for page in pages_of("tideline-hat"))


def test_a_chain_passes_needles_that_are_out_of_work_where_there_are_any() -> None:
    said = "make no stitch of the chain: take the loop past it"
    assert said in " ".join(taught("latch-tool-chain.md", "over-the-pegs").split())
    pegged = {p.pattern.slug for p in collection().proofs if p.pattern.garment
              and "chain over the gate pegs" in p.pattern.garment.cast_on.values()}
    gaps = {slug: any(said in page for page in pages_of(slug)) for slug in pegged}
    assert [slug for slug, found in gaps.items() if found] == ["rope-ladder-rug"]


def test_a_collar_that_turns_over_says_which_side_then_shows() -> None:
    """A single layer hung wrong side towards the knitter shows its purl side; two have none."""
    for slug, purl in (("watch-below-robe", True), ("tide-watch-jacket", False)):
        assert all(("its purl side shows" in page) == purl for page in pages_of(slug))


@pytest.mark.parametrize(("page", "section", "needle", "place"), [
    ("fully-fashioned-decrease.md", "wrong", "bring its needle", "upper working position"),
    ("bind-off-at-the-side.md", "steps", "stays on its needle", "back in working position"),
    ("fold-picot.md", "steps", "alternate", "two full needles")])
def test_a_needle_that_the_next_row_knits_is_left_where_it_knits(
        page: str, section: str, needle: str, place: str) -> None:
    """In a half the carriage is set to hold: it passes by a needle that is left fully forward."""
    told = [one for one in re.split(r"\s\d\. ", taught(page, section)) if needle in one]
    assert told and all(place in one for one in told)


def test_a_folded_band_is_closed_on_the_same_loops_everywhere() -> None:
    """The step, the page of that band, and the page of first rows, which sends such a band there.

    A row hung from stitches shows a purl bump for each of them, so that no half loop makes up the
    count: common practice, no source.
    """
    folded = (TECHNIQUES.parent / "bands" / "folded.md").read_text(encoding="utf-8")
    steps = " ".join(folded.split("{ #steps }")[1].split("\n## ")[0].split())
    bump = "purl bump of each stitch of the band's first row"
    told = " ".join(steps_of(proved(with_band(kind="folded")))).lower()
    assert bump in told
    assert bump in steps and "half loop" in steps
    assert "purl bump" in taught("hanging-first-row.md", "when")


def test_a_row_more_in_a_seam_is_taken_in_as_the_size_page_says() -> None:
    """A page that took a bar less "twice over, far apart" stood against steps that take it once."""
    told = taught("mattress-seam-by-rows.md", "steps")
    row_more = Join(title="side seam", seam=Seam.SIDE, kindred=Kindred.ROWS,
                    sewn=(number(60), number(59)), tolerance=Fraction(1))
    (said,) = re.findall(r"take two bars of this longer edge together once", join_text(row_more))
    assert said in told
    assert "twice over" not in told


CLOSED = (r"knit side of its inner layer faces you", r"begin at the end where the yarn hangs",
          r"purl bump behind", r"row where the band began", r"waste yarn out")


def test_a_band_is_closed_off_waste_yarn_as_its_technique_teaches() -> None:
    """A band turned in along its fold shows the knit side of its inner layer to who sews it down
    (geometry); each step that sews one down so leads to that list."""
    assert in_order(taught("back-stitched.md", "close"), CLOSED)
    page = proved_page("bowline-waistcoat")
    step = next(re.finditer(r"back-stitch its waiting stitches down.*?</a>", page, re.DOTALL))[0]
    assert "back-stitched.html#close" in step


def test_a_hole_in_both_layers_is_taught_where_its_step_leads() -> None:
    """A page on holes of one layer sent who knits a folded lengthwise band elsewhere."""
    page = proved_page("bowline-waistcoat")
    assert "stitches in each layer" in " ".join(page.split()) and "many-stitch.html" in page
    said = taught("../closings/many-stitch.md", "lengthwise")
    assert in_order(said, ("in each layer", "same distance from the fold", "cast on over both",
                           "fold the band", "sew their edges together"))
    elsewhere = re.findall(r"On a\s+folded band([^.]*) take the\s+\[enclosed\]", (
        TECHNIQUES.parent / "closings" / "many-stitch.md").read_text("utf-8"))
    assert [" ".join(one.split()) for one in elsewhere] == ["that is hung on an edge"]


@pytest.mark.parametrize("section", ["steps", "several"])
def test_no_free_pass_of_a_slit_drops_the_part_that_was_knitted(section: str) -> None:
    """With several slits the part just knitted was in work while a carriage passed without yarn."""
    said = taught("../closings/vertical-slit.md", section)
    assert in_order(said, ("cut the yarn", "out of the feeder", "into hold too",
                           "all needles are held", "free pass", "upper working position"))


def proved_page(slug: str) -> str:
    """The page of the first size of a pattern of the collection."""
    return next(text for path, text in files_of(slug).items() if path.endswith(".md")
                and not path.endswith("index.md"))


def test_an_edge_is_hung_by_a_rule_where_its_column_has_no_stitch_for_a_row() -> None:
    """Slipped columns and ladders: of charts whose pieces have bands the page said nothing."""
    charted = pages_of("watch-below-robe") + pages_of("quayside-waistcoat")
    assert any("hang" in page and re.search("do not (?:tuck|slip)", page) for page in charted)
    learned = " ".join(taught("hanging-an-edge.md", "steps").split())
    assert in_order(learned, ("slipped or tucked the column", "strand that lies across the column",
                              "a ladder", "take no strand of a ladder"))


def test_the_end_of_the_half_loop_names_both_works_that_it_is_derived_from() -> None:
    """No work on machine knitting names that end: the rule stands on two on knitting by hand."""
    lists = (TECHNIQUES / "hanging-first-row.md").read_text(encoding="utf-8").split("{ #sources }")
    works = {number: " ".join(text.split()) for number, text in re.findall(
        r"^(\d)\. (.*?)(?=^\d\. |\n\n|\Z)", lists[1].strip(), flags=re.M | re.S)}
    (half,) = re.findall(r"Take one of the two half loops.*?\{: #half-loop \}", lists[0], re.S)
    cited = re.findall(r"\[(\d)\]", half)
    assert [works[each].partition(",")[0] for each in cited] == ["Lizzie", "Fiona"]
    assert all(re.search(r'^\w+, "[^"]+", \d{4}: <https?://\S+>', works[each]) for each in cited)
    assert re.search(rf"Both \[{cited[0]}\] and \[{cited[1]}\].*from these\s+two", lists[1], re.S)


@pytest.mark.parametrize("page", sorted(
    path.relative_to(TECHNIQUES.parent).as_posix()
    for folder in ("techniques", "bands", "closings")
    for path in (TECHNIQUES.parent / folder).glob("*.md")))
def test_a_source_stands_where_designers_read_it(page: str) -> None:
    """A single file leaves that section out; a line of a pattern's source stood in a knitter's."""
    text = (TECHNIQUES.parent / page).read_text(encoding="utf-8")
    parts = re.split(r"^## .*\{ #([\w-]+) \}$", text, flags=re.M)
    assert not [name for name, part in zip(["", *parts[1::2]], parts[0::2], strict=True)
                if "```" in part and name != "source"]
