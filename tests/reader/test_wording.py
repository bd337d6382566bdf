"""Wording of the size pages that a reader would trip over, each kind looked for on every page.

What is asked here is common practice in editing patterns, no source.
"""

from __future__ import annotations

import re
from collections import Counter
from itertools import pairwise

import pytest

from tests.reader.needles import place

TAG = re.compile(r"<[^>]+>")
LISTED = re.compile(r"(?:\b[LR]\d+(?:, | and )){6,}[LR]\d+")
DECIMAL_INCHES = re.compile(r"\d*\.\d+(?:–\d+(?:\.\d+)?)? in\b|\d+–\d+\.\d+ in\b")
PLURALS = re.compile(r"\b[a-z]+(?:tch|nch|sh|ss|[aeiou]x)s\b")


@pytest.fixture(scope="module")
def texts(pages: dict[str, str]) -> dict[str, str]:
    """Every page without its tags."""
    return {name: TAG.sub(" ", page) for name, page in pages.items()}


def evenly(listed: str) -> bool:
    """True where seven needles that are listed one after the other lie at even distances."""
    spots = [place(name) for name in re.findall(r"[LR]\d+", listed)]
    gaps = [b - a for a, b in pairwise(spots)]
    return any(len(set(gaps[at:at + 6])) == 1 for at in range(len(gaps) - 5))


def test_needles_at_even_distances_are_not_listed_one_by_one(texts: dict[str, str]) -> None:
    found = {(name, told) for name, text in texts.items() for told in LISTED.findall(text)
             if evenly(told)}
    assert not found


def test_one_prong_moves_one_stitch_at_a_time(texts: dict[str, str]) -> None:
    """A chart's stitches that move lie apart, and the page lists a tool of one prong for them."""
    one = [name for name, text in texts.items() if "Transfer tool with one prong" in running(text)]
    told = [name for name in one if "onto the needle beside it" in texts[name]]
    assert told and not [name for name in told if "move one way move together" in texts[name]]


def test_what_is_left_plain_in_a_chart_is_said_in_whole_sentences(texts: dict[str, str]) -> None:
    """ "Instead of a tuck or slip, the stitches that are moved" has no verb."""
    assert not [name for name, text in texts.items() if "Instead of a tuck" in text]


def test_inches_are_written_in_one_way(texts: dict[str, str]) -> None:
    """As fractions, which rules and tapes are marked in: never 16.5 beside 16¼."""
    found = {(name, told) for name, text in texts.items() for told in DECIMAL_INCHES.findall(text)}
    assert not found


def test_no_line_ends_within_a_fraction(texts: dict[str, str]) -> None:
    """Halves, quarters and eighths are one sign, and sixteenths stand behind a no-break space."""
    found = {(name, told) for name, text in texts.items()
             for told in re.findall(r"\d+ \d/\d+|\b\d/[248](?:–\S+)? in\b", text)}
    assert not found


def test_nouns_have_their_plurals(texts: dict[str, str]) -> None:
    found = {(name, told) for name, text in texts.items() for told in PLURALS.findall(text)}
    assert not found


def test_numbers_of_rows_are_not_taken_for_rows(texts: dict[str, str]) -> None:
    """ "Take rows in this order: 2, 3, 3, 4" reads as row 2, row 3, row 3."""
    found = {name for name, text in texts.items()
             if re.search(r"\brows in this order\b[^.]*: \d", text)}
    assert not found


def test_a_carriage_that_is_set_to_hold_for_a_chart_is_set_to_knit_again(
        texts: dict[str, str]) -> None:
    """Needles in holding position are knitted back by a carriage that is set to knit; pieces begin
    with it set to knit."""
    ways = {(name, way) for name, text in texts.items()
            for way in re.findall(r"To (?:tuck|slip),[^\n]*", text) if "holding position" in way}
    assert ways
    for name, way in ways:
        said = [way.find(words) for words in ("set the carriage to hold", "to holding position",
                                              "every latch open", "set the carriage to knit")]
        assert -1 not in said and said == sorted(said), (name, way)


def test_needles_of_moved_stitches_are_put_where_a_carriage_set_to_hold_knits_them(
        pages: dict[str, str]) -> None:
    """It passes by what is fully forward, where a transfer leaves needles (common practice)."""
    holding = 0
    for name, page in pages.items():
        holds = "A carriage that can be set to hold" in page
        for way in re.findall(r'<dt id="way-(?:decrease|increase)">.*?</dd>', page):
            holding += holds
            assert not holds or "back to upper working position, latch" in way, (name, way)
    assert holding > 100


def test_needles_of_crossed_stitches_are_put_where_a_carriage_set_to_hold_knits_them(
        texts: dict[str, str]) -> None:
    """As those of decreases (common practice): a row would be lost on what is fully forward."""
    crossed = {name: told for name, text in texts.items()
               for told in re.findall(r"To cross, take[^\n]*", text)
               if re.search(r"the carriage to hold", text)}
    assert crossed
    assert not {name for name, told in crossed.items() if "upper working position" not in told}


def test_no_sentence_says_a_word_of_its_way_twice(texts: dict[str, str]) -> None:
    """ "Sew them off the waste yarn, back-stitched off waste yarn"."""
    phrase = re.compile(r"\boff (?:the |its )?waste yarn\b")
    found = {(name, told) for name, text in texts.items() for told in re.split(r"[.:]\s", text)
             if len(phrase.findall(told)) > 1}
    assert not found


def test_a_seam_that_begins_inside_a_hem_has_one_hem_to_begin_at(texts: dict[str, str]) -> None:
    """Sewn in one, the side and sleeve seams come to the second hem last, and from its top."""
    assert not [name for name, text in texts.items()
                if re.search(r"side and sleeve seams\W+in one\b", text)]


def test_waste_yarn_stays_until_all_stitches_are_sewn(texts: dict[str, str]) -> None:
    """A back stitch enters each stitch twice, the second time two stitches on."""
    assert not [name for name, text in texts.items() if "waste yarn out as you go" in text]


def test_that_seam_is_the_seam_named_just_before(texts: dict[str, str]) -> None:
    """ "Leave the strap's seam open. The stitch at the raglan lies in that seam." is wrong."""
    found = set()
    for name, text in texts.items():
        told = re.split(r"(?<=[.:])\s+", text)
        found |= {(name, after) for before, after in pairwise(told) if "in that seam" in after
                  and ("raglan" in after or not re.search(r"\b(?:seam|side)\b", before + after))}
    assert not found


def test_a_body_is_given_in_both_units(texts: dict[str, str]) -> None:
    """Some charts print centimetres alone."""
    found = {(name, what) for name, text in texts.items()
             for what in re.findall(r"Fits [a-z -]+\s+\d[\d.–]* cm(?! \()", text)}
    assert not found


def test_a_chart_is_not_for_every_row_where_some_are_plain(pages: dict[str, str]) -> None:
    """Waste rows, a hem and the row that joins it are plain, and set the counter to 0 too."""
    found = {name for name, page in pages.items() for part in re.split("<h2", page)
             if re.search(r"very row (?:of this piece )?is knitted from (?:this|the) chart\.", part)
             and re.search(r"Knit \d+ rows?</b> (?:of waste|to|of the rib)", part)}
    assert not found


def test_a_step_that_sews_waiting_stitches_shows_how(pages: dict[str, str]) -> None:
    """ "Sew them down, stitch by stitch": overcast, they would not go over a head."""
    told = {(name, step) for name, page in pages.items()
            for step in re.findall(r"<li\b.*?</li>", page, re.DOTALL)
            if re.search(r"(?:waiting stitches|that wait) down", step)}
    assert told
    linked = {(name, "facing" in step) for name, step in told if "<a " in step}
    assert not {name for name, step in told if (name, "facing" in step) not in linked}
    assert not {(name, step) for name, step in told
                if "stitch by stitch" in step and "ack-stitch" not in step}


def test_a_table_says_where_the_rows_above_a_hem_begin(texts: dict[str, str]) -> None:
    """Who counts from the first row of the body is one out at every mark. A sewing table begins at
    the hem itself, so there the part is named."""
    joined = {name for name, text in texts.items()
              if re.search(r"rows above the hem \+ \d+ rows? to join the hem", text)}
    assert joined
    said = r"Row 1 (?:of the [a-z ]+ )?is the row that joined the hem"
    assert not {name for name in joined if not re.search(said, texts[name])}
    assert not {name for name, text in texts.items()
                if re.search(r"counted the same way[^.]*\. Row 1 is", text)}


@pytest.mark.parametrize("stumble", [
    r"miss 1, 1 time\b", r"lies? within a band\b", r"beside one that is added",
    r"every second one moved", r"\bGiven up\b", r"given up: ", r"half of the edge's loop",
    r"\bHang the line\b", r"Darn in the ends\.\s+Both", r"as those of fabric [a-z]+\b",
    r"(?:Join|Back-stitch|Graft) the shoulders,[^.]*(?<!each) with an end",
    r"in the seam that they end at", r"after a decrease stands at",
    r"As around the gate pegs, but", r"\(1 stitch\) onto", r"1 stitch on needles",
    r"after (\d+) rows, then once after \1 rows", r"They wait as", r"top of the shawl",
    r"loop from beside", r"the stitch beside\. Along", r"a multiple of 1\b", r"leave it there: the",
    r"About ribs on two beds\s+Take "])
def test_a_reader_does_not_stumble(texts: dict[str, str], stumble: str) -> None:
    """Turns that a knitter read twice, and half of a number that was not its half."""
    assert not {name for name, text in texts.items() if re.search(stumble, text)}


def test_a_length_along_a_slope_says_so(texts: dict[str, str]) -> None:
    """Rows and stitches bound off do not add up to it, as each other's sides they do."""
    found = {(name, told) for name, text in texts.items() for told in re.findall(
        r"mm \(along [^×÷;]*? bound off[^×÷;]{0,20}", text) if "slope" not in told}
    assert not found


@pytest.mark.parametrize(("listed", "even"), [
    ("L30, L24, L18, L12, L6, R1 and R7", True), ("L30, L25, L18, L12, L2, R1 and R9", False)])
def test_even_distances_are_seen(listed: str, even: bool) -> None:
    assert LISTED.fullmatch(listed) and evenly(listed) is even


def test_a_chart_names_as_many_last_rows_as_put_held_stitches_back(texts: dict[str, str]) -> None:
    """ "The last row of each half, or the last two" leaves open which; and the one row before them,
    in which nothing is tucked, is not told as one of the pattern."""
    rule = re.compile(r"The last (row|two rows) of [^.]*for which held stitches go back in work")
    found = {name: rows for name, text in texts.items() for rows in rule.findall(text)}
    assert found and not [name for name, text in texts.items() if "or the last two, for" in text]
    for name, rows in found.items():
        told = running(texts[name])
        assert (rows == "two rows") == ("For the last row but one" in told), name
        assert not re.search(r"Knit 1 row of the stitch pattern, until the row counter shows \d+\."
                             r" (?:(?!Check ).)*Check [^.]*? For the last row(?: but one)? "
                             "put needles", told), name


LAST_OF_CHART = re.compile(
    r"Knit (?:1 row|\d+ rows) of the stitch pattern, until the row counter shows (\d+)\."
    r" (?:(?!Check ).)*Check (?:(?!Check ).)*?(?:all but the half that you knit first|Bind off all"
    r"|off on waste yarn|to gather)")

NEXT_ROW = re.compile(r"When the row counter shows (\d+).{,600}?, knit row (\d+) of the chart "
                      r"next\..{,80}?(?:it has|one of the) (\d+)")


def running(page: str) -> str:
    """The text of a page without tags, each space once and none before a stop."""
    return re.sub(r" (?=[.,;:])", "", " ".join(TAG.sub(" ", page).split()))


def chosen_rows(piece: str) -> set[int]:
    """The rows of a piece's chart in which stitches are tucked or slipped."""
    rows: set[int] = set()
    for numbers, _ in re.findall(r"Rows? (\d[\d, and to]*): (tuck|slip) on", piece):
        for part in re.split(r", | and ", numbers):
            a, _, b = part.partition(" to ")
            rows |= set(range(int(a), int(b or a) + 1))
    return rows


def test_a_row_in_which_nothing_may_be_slipped_is_told_as_plain(pages: dict[str, str]) -> None:
    """The row before the work is divided, or taken off the needles, lies plain whatever the chart
    shows: where the chart slips or tucks in it, the step says so. The pages' own rule."""
    plain = 0
    for name, page in pages.items():
        if "any stitch in the last row before" not in page:
            continue
        for piece in page.split("<h2")[1:]:
            told = running(piece)
            first = NEXT_ROW.search(told)
            for counter in LAST_OF_CHART.findall(told) if first else ():
                assert first
                next_at, row, height = map(int, first.groups())
                assert (int(counter) - 1 - next_at + row - 1) % height + 1 not in chosen_rows(
                    told), (name, told[:40], counter)
            plain += told.count("1 row plain, until")
    assert plain


# What the notes of a chart speak of, and what a step of the piece says where there is one.
SPOKEN = {"a neck opening": "Neck opening", "a decrease": r"[Dd]ecrease",
          "a bind-off": r"[Bb]ind off", "an increase": r"[Ii]ncrease",
          r"\bheld\b": r"hold\b|holding", "gathered": "gather",
          r"work is (?:divided|.*? or )": "Neck opening"}


def test_the_notes_of_a_chart_speak_of_what_its_piece_does(pages: dict[str, str]) -> None:
    """A sleeve's chart told what is plain at a neck opening and beside held stitches."""
    met = 0
    for name, text in pages.items():
        for piece in text.split("<h2")[1:]:
            notes = re.search(r"<b>Knitted plain, whatever the chart shows</b>.*?<ul>(.*?)</ul>",
                              piece, re.DOTALL)
            if not notes:
                continue
            met += 1
            steps = running("".join(re.findall(r"<h3.*", piece[notes.end():], re.DOTALL)))
            said = running(notes[1])
            assert not {words for words, step in SPOKEN.items()
                        if re.search(words, said) and not re.search(step, steps)}, (name, said)
    assert met


def test_a_list_elsewhere_speaks_of_what_its_piece_does(pages: dict[str, str]) -> None:
    """The fronts of a robe led to the list of its back, which has no decreases: nothing said that
    what is moved with one is knitted plain."""
    lists = r"<b>Knitted plain, whatever the chart shows</b>.*?<ul>(.*?)</ul>"
    met = 0
    for name, text in pages.items():
        pieces = {running(piece.partition("</h2>")[0].partition(">")[2]).lower(): piece
                  for piece in text.split("<h2")[1:]}
        for piece in pieces.values():
            of = re.search(r"stands at <a[^>]*>the chart of the ([^<]+)</a>", piece)
            if not of:
                continue
            met += 1
            there = re.search(lists, pieces[of[1]], re.DOTALL)
            steps = running("".join(re.findall(r"<h3.*", piece[of.end():], re.DOTALL)))
            assert there
            assert not {words for words in ("a decrease", "a bind-off") if re.search(
                SPOKEN[words], steps) and words not in running(there[1])}, (name, of[1])
    assert met


def test_a_chart_says_that_nothing_is_tucked_before_held_stitches_go_back(
        texts: dict[str, str]) -> None:
    """A needle that tucked stands forward too: put back by the step's list alone, it is passed by
    and its stitch runs when the strip is dropped."""
    held = {name for name, text in texts.items() if "For the last row put" in text.replace(
        "  ", " ") and re.search(r"Do not (?:tuck|slip) any stitch in the last row", text)}
    assert held
    assert not {name for name in held if "before held stitches go back for the last row"
                not in texts[name]}


def test_what_is_plain_is_named_before_what_is_not_to_be_done(texts: dict[str, str]) -> None:
    """ "Do not tuck ...", then a rule of plain rows went on from a line above."""
    found = {name for name, text in texts.items() for after in re.findall(
        r"Do not (?:tuck|slip)(.{0,900})", text, re.DOTALL) if "for which held stitches" in after
        or "of a crossing of which" in after}
    assert not found


def test_a_carriage_that_a_step_sets_to_hold_is_not_set_back_after_every_row(
        texts: dict[str, str]) -> None:
    """A step sets it to hold "for the rows that tuck" once, and another to knit when all are done:
    who sets it to knit after each plain row stands wrong at the next step that holds needles."""
    once = {name for name, text in texts.items() if "for the rows that tuck" in text}
    assert once
    assert not {name for name in once if "Once no needle is held" in texts[name]}


def test_a_latched_band_that_is_counted_as_plain_knitting_asks_for_its_swatch(
        texts: dict[str, str]) -> None:
    """A rib draws in: the width of so many plain stitches is not that of the band."""
    plain = {name for name, text in texts.items() if re.search(
        r"[a-z] bands?: knit the swatch in stocking stitch", text)
        and re.search(r"Latch up \d+ columns", text) and "latched rib. Every stitch" not in text}
    assert plain
    assert not {name for name in plain if "draws in: latch up a part of the swatch" not in
                texts[name]}


LINK = re.compile(r'<a class="wb-how"[^>]*>([^<]*)</a>')


def test_a_fabric_is_called_what_the_page_calls_it(texts: dict[str, str]) -> None:
    """ "The swatch of body": the page has a garment, a hem, a collar, and no body."""
    found = {(name, told) for name, text in texts.items() for told in re.findall(
        r"\b(?:swatch|fabric) of (?!(?:the|every|a|another|it) )[a-z_]+|\bof fabric [a-z_]+", text)}
    assert not found


def test_what_was_not_swatched_is_swatched_or_tried_first(texts: dict[str, str]) -> None:
    """The advice stands under Gauge on the page that is knitted from, not on the first page only.
    A hem that is first measured on a piece may be knitted again over all its stitches. The hem's
    rows by the garment's gauge are named in the working of its rows."""
    bands = [(name, told) for name, text in texts.items() for told in re.findall(
        r": (?:not swatched|no separate swatch)\b[^.]*\. Its stitches come.*?Measured after", text,
        re.DOTALL)]
    hem = {name for name, text in texts.items() if "hem's own dial was not swatched" in text}
    assert bands and hem
    assert not {name for name, told in bands if not told.startswith(": no separate swatch, for")
                and "Knit a swatch of it first" not in told}
    assert not {name for name in hem if not re.search(
        r"Try it first: knit the hem and \d+ rows above it over about \d+ stitches\. This is not "
        r"in the amounts of yarn\. Measure it after washing and rest: it should be (?:about|[\d.]+ "
        r"cm[^.]* to) [\d.]+ cm[^.]* deep, from the fold to the top of the joining row\.",
        texts[name])}


def test_an_end_that_sews_names_its_yarn(texts: dict[str, str]) -> None:
    """Two main yarns, and "with an end about 85 cm long": of either?"""
    told = [said for text in texts.values() for said in re.findall(
        r"off the waste yarn, (?:each )?with an(?:other)? end\b[^.\d]*about \d|"
        r"edge to edge, with an(?:other)? end\b[^.\d]*about \d", text)]
    assert told
    assert not [said for said in told if not re.search("(?:pieces'|band's) yarn", said)]


def test_links_that_stand_side_by_side_say_what_each_is_for(pages: dict[str, str]) -> None:
    """ "How to sew rows to stitches How to sew row to row"."""
    found = {(name, told) for name, page in pages.items() for told in re.findall(
        r'<a class="wb-how"[^>]*>([^<]*)</a> <a class="wb-how"', page)
        if not re.fullmatch(r"About [a-z ]+\.|How to [a-z ]+, for the [a-z]+\.", told)}
    assert not found


def test_no_two_sections_of_an_edge_have_one_name(texts: dict[str, str]) -> None:
    """Two called "front neck, side" cannot be told apart on the bed."""
    sections = {name: re.split(r"Hanging table, ", text)[1:] for name, text in texts.items()}
    found = set()
    for name, tables in sections.items():
        for told in tables:
            names = re.findall(r"Section \d+, ([^:]+):", told)
            found |= {(name, one) for one in names if names.count(one) > 1}
    assert any(len(re.findall(r"Section \d+, ", t)) > 4 for ts in sections.values() for t in ts)
    assert not found


def test_a_check_names_the_needles_where_they_are_no_longer_those_of_the_band(
        texts: dict[str, str]) -> None:
    """Each pair of a mitre takes a needle at both ends out of work, or brings it back."""
    steps = [(name, told) for name, text in texts.items() for told in re.findall(
        r"(?:Close in|Open out) the mitre by a pair.*?Check.*?row counter", text, re.DOTALL)]
    assert steps
    last = [told for name, told in steps if "Open out" in told and not re.search(
        r"Check.* stitches[^.]*, [LR]\d+ to [LR]\d+\s", told, re.DOTALL)]
    mitred = {name for name, _ in steps}
    assert len(last) <= len(mitred), "of each only the last pair may bring back all needles"


def test_a_chart_without_slips_speaks_of_none(texts: dict[str, str]) -> None:
    """And one without tucks of no tuck."""
    found = set()
    for name, told in texts.items():
        for what in ("tuck", "slip"):
            if f"{what} on " not in told and re.search(rf"\b{what} (?:or|any|the)|or {what}", told):
                found.add((name, what))
    assert not found


def test_a_rule_that_stands_elsewhere_on_the_page_is_linked(pages: dict[str, str]) -> None:
    """ "Stands at the first chart": where is that, among 27 screens?"""
    told = {(name, one) for name, page in pages.items()
            for one in re.findall(r"stands at (?:the )?(?:<a [^>]*>)?[^.]*", page)}
    assert told
    assert not {(name, one) for name, one in told if "<a " not in one}
    assert not {(name, to) for name, one in told for to in re.findall('href="#([^"]+)"', one)
                if f'id="{to}"' not in pages[name]}


def test_a_diagram_is_not_drawn_again_while_nothing_changes(pages: dict[str, str]) -> None:
    """As reading.md says of it."""
    found = set()
    for name, page in pages.items():
        for one, other in pairwise(re.findall(
                r'<figure[^>]*>(?:(?!</figure>).)*The needles after step.*?</figure>', page,
                re.DOTALL)):
            numbers = [int(re.findall(r"after step (\d+)", told)[0]) for told in (one, other)]
            if numbers[0] + 1 != numbers[1]:
                continue
            first, then = (re.sub(r"\s+", " ", TAG.sub(" ", re.sub("<title.*?</title>|after step "
                                  r"\d+", "", told, flags=re.DOTALL))) for told in (one, other))
            if first == then:
                found.add((name, first[:120]))
    assert not found


def test_a_part_draws_the_same_needles_once(pages: dict[str, str]) -> None:
    """The words under a diagram name every needle: where they are the same, so is the drawing."""
    found = set()
    for name, page in pages.items():
        for part in page.split('class="wb-task"'):
            drawn = Counter(TAG.sub("", said) for said in re.findall(
                r'<figure class="wb-needles"><svg.*?<figcaption[^>]*>(.*?)</figcaption>', part,
                re.DOTALL))
            found |= {(name, said[:120]) for said, often in drawn.items() if often > 1}
    assert not found


def test_a_front_that_nothing_fastens_says_so(texts: dict[str, str]) -> None:
    """That the wearer brings a belt stands on the first page alone."""
    opened = {name for name, text in texts.items() if re.search(r"\d of \d+\s+Left front", text)}
    bare = {name for name in opened if not re.search(
        r"[Ss]ew (?:on )?\d+ buttons?\b|\bSet in the zip\b|Cut a cord", texts[name])}
    assert bare and bare < opened
    assert bare == {name for name, text in texts.items() if "Nothing fastens the fronts" in text}


def test_a_belt_that_is_no_part_of_a_pattern_says_so(texts: dict[str, str]) -> None:
    """A robe was "closed with a belt", and no belt stood among pieces, yarn or tools."""
    belted = {name for name, text in texts.items() if "with a belt" in text}
    assert belted
    assert not {name for name in belted if "a belt, which is not part of the pattern" not in texts[
        name]}


def test_a_chest_with_fronts_that_roll_is_said_to_be_that_of_bands_laid_flat(texts: dict[str, str]
                                                                             ) -> None:
    """It counts the whole depth of a band, of which the knitter sees a part (geometry)."""
    rolled = {name for name, text in texts.items() if re.search(
        r"Finished chest", text) and re.search(r"Front band, (?:right|left) front", text)
        and re.search(
        r"\d+ stitches on needles [^.]*\. The hem is at the (?:left|right)\.(?:(?!Set the row).)*?"
        r"One layer of stocking stitch rolls", text, re.DOTALL)}
    flat = {name for name, text in texts.items()
            if "Finished chest, the front bands laid flat" in text}
    assert rolled and rolled == flat


def test_row_counters_at_even_distances_are_told_in_one_short_form(texts: dict[str, str]) -> None:
    """ "0, 4, 8, 12 ... and 68" stood on the page that said "0, 4, 8 and every 4 rows on"."""
    found = {(name, told) for name, text in texts.items() for told in re.findall(
        r"When the row counter shows\s+((?:\d+, ){5,}\d+ and \d+)", text)}
    assert not found


def test_a_plain_start_that_a_correction_names_is_what_the_page_knits(texts: dict[str, str]
                                                                     ) -> None:
    """A correction said "plain for 4 cm above the hem", and the first increase came after 6.1."""
    named = {name: found[1] for name, text in texts.items() if (found := re.search(
        r"plain for (\d+) cm|At least (\d+) cm above the hem are plain", text))
        and found[1]}
    assert not named
    for name, text in texts.items():
        least = re.search(r"At least (\d+) cm above the\s+hem are plain", text)
        if least:
            rows = int(re.search(r"Increase 1 stitch at each end\s+when the row counter shows\s+"
                                 r"(\d+)", text)[1])  # type: ignore[index]
            per = float(re.search(r"stitches and (\d+(?:\.\d)?) rows to 10", text)[1])  # type: ignore[index]
            assert rows / per * 10 >= int(least[1]), name


def test_a_hand_has_its_measures_on_its_page(texts: dict[str, str]) -> None:
    """Which hand a mitten fits is not to be looked for in the calculations."""
    mittens = {name for name, text in texts.items() if re.search(r"\d of \d+\s+Thumb", text)}
    assert mittens
    assert not {name for name in mittens
                if not all(re.search(rf"Fits hand {way} [a-z ]+\s+\d[\d.]* cm \(", texts[name])
                           for way in ("round", "from"))}


def test_ends_that_meet_in_a_seam_name_the_seam(texts: dict[str, str]) -> None:
    """ "At the seam that was left open": which?"""
    assert not {name for name, text in texts.items() if "the seam that was left open" in text}


def test_stitches_between_a_bands_open_ends_are_hung_too(texts: dict[str, str]) -> None:
    """A band hung two stitches in hides the shoulder's last stitches between its layers."""
    open_ends = {name for name, text in texts.items() if re.search(
        r"short ends open\.|About the\s+facing", text) and re.search(
            "(?:Join|Graft) the left shoulder", text)}
    assert open_ends
    assert open_ends == {name for name, text in texts.items()
                         if re.search(r"First draw the \d stitch\w* next to the neck out", text)}


def test_what_is_cut_or_hangs_out_is_given_in_both_units(texts: dict[str, str]) -> None:
    """A cord of 160 cm, in the hand of who has a tape in inches."""
    found = {(name, told) for name, text in texts.items() for told in re.findall(
        r"(?:[Cc]ord (?:of|for)|hangs out|other side)\b[^.]{0,40}?\d cm\b(?! ?\()[^.]{0,20}",
        text.split("Calculations")[0])}
    assert not found


def test_no_chart_of_bodies_is_named_where_no_body_decides(every_page: dict[str, str]) -> None:
    """ "This garment has no measure that a body decides", and below it a women's size chart."""
    bodiless = {name for name, page in every_page.items() if "no measure that a body" in page}
    assert bodiless
    assert not {name for name in bodiless if "Body measurements:" in every_page[name]}


def test_a_check_of_a_band_that_grew_or_shrank_names_its_needles(pages: dict[str, str]) -> None:
    """Only while it lies where its head says are they known."""
    told = []
    for name, page in pages.items():
        for part in re.split(r"<h2 ", page):
            words = re.sub(r"\s+", " ", TAG.sub(" ", part))
            head = re.search(r"(\d+) stitches on needles", words)
            told += [(name, check[0]) for check in re.finditer(
                r"Check (\d+) stitches([^.]*?) row counter", words)
                if head and check[1] != head[1] and "empty" not in check[2]]
    assert told
    assert not {(name, check) for name, check in told if not re.search(r"[LR]\d", check)}


def test_holes_of_a_lengthwise_band_lie_in_rows(texts: dict[str, str]) -> None:
    """A band that has rows along its edge has no stitches to divide there."""
    said = re.compile(r"Where the buttonholes lie:[^=]*= \d+ (\w+):[^.]*\. "
                      r"What had to be changed:([^.]*)\.")
    placed = {(name, *told) for name, text in texts.items()
              if "rows from the hem to the top" in text for told in said.findall(text)}
    assert placed
    assert not {told for told in placed if told[1] != "rows" or "stitch" in told[2]}


def test_what_a_band_has_along_its_edge_is_counted_in_one_unit(texts: dict[str, str]) -> None:
    """ "43 rows: … so that the band has 92 stitches": of a band of which rows lie there."""
    told = {(name, *one) for name, text in texts.items() for one in re.findall(
        r"Band (stitches|rows) along the (?:(?!Band ).)*?so that (?:the band|these \d+ "
        r"sections) ha(?:s|ve) \d+ (\w+)", text)}
    assert {unit for _, unit, _ in told} == {"stitches", "rows"}
    assert not {one for one in told if one[1] != one[2]}


def test_a_hat_a_bag_and_a_rug_are_called_no_garment(texts: dict[str, str]) -> None:
    """ "The garment hangs down in front of the bed" stood on the page of a bag."""
    others = {name: text for name, text in texts.items() if re.search(
        "-(?:bag|blanket|cap|cowl|hat|mittens|rug|shawl)/", name)}
    assert len({name.partition("/")[0] for name in others}) > 10
    assert not {name: told[0] for name, text in others.items()
                if (told := re.search(r".{0,40}\bgarment\b.{0,20}", text, re.IGNORECASE))}


def test_no_working_only_repeats_its_count(texts: dict[str, str]) -> None:
    """ "Rows of the garment's edge: 44 rows: 44 rows." """
    found = {(name, told) for name, text in texts.items()
             for told in re.findall(r": (\d+ (?:rows|stitches)):\s+\1\.", text)}
    assert not found


def test_fewest_plain_rows_are_not_said_to_be_those_that_stay_plain(texts: dict[str, str]) -> None:
    """ "Plain rows last, 6" stood beside "15 after the last" in one list."""
    told = [(name, *one) for name, text in texts.items() for one in re.findall(
        r"([A-Z][a-z ]+), (\d+) rows?:\s+plain (?:start|end) ", text)]
    assert told
    for name, label, rows in told:
        left = re.findall(r"\+ (\d+) (?:before the first|after the last)", texts[name])
        assert rows in left or label.startswith("Fewest"), (name, label, rows, left)


def test_what_is_known_of_a_size_chart_says_what_to_do(texts: dict[str, str]) -> None:
    """ "The arm lengthens by 5 cm to 5X", and nothing that a knitter could do about it."""
    known = {name for name, text in texts.items() if "A note of the size chart:" in text}
    assert known
    assert known == {name for name, text in texts.items() if re.search(
        r"A note of the size chart:[^.]*\.\s+So measure the wearer", text)}


def test_yarn_that_sews_an_edge_with_ladders_crosses_them(texts: dict[str, str]) -> None:
    """Between two stitches beside a needle that was left out it has to be as long as they are
    apart."""
    sewn = {name: re.findall(r"Back-stitch the (?:top|lower edge) of.*?(?:yarn|cord) out\.", text,
                             re.DOTALL) for name, text in texts.items()}
    laddered = {name for name, steps in sewn.items() if steps and "Out of work throughout:" in
                texts[name]}
    assert laddered
    assert laddered == {name for name, steps in sewn.items()
                        if any("loosely across each ladder" in step for step in steps)}


def test_the_ends_of_every_cord_are_finished(texts: dict[str, str]) -> None:
    """A cut cord frays; on a child's garment no knot may hold it (EN 14682, from memory)."""
    cut = {(name, step) for name, text in texts.items() for step in re.findall(
        r"Cut a cord of.{0,700}?(?:finish them flat|do not fray|\Z|Darn|Count)", text, re.DOTALL)}
    assert cut
    assert not {(name, step) for name, step in cut
                if not step.endswith(("finish them flat", "do not fray"))}


def test_a_swatch_that_is_latched_says_where_it_is_measured(texts: dict[str, str]) -> None:
    """Beside an edge that was cast on or bound off it is as wide as that."""
    told = [part for text in texts.values() for part in re.findall(
        r"latch up a part of the swatch.{0,250}", text, re.DOTALL)]
    assert told
    assert not [part for part in told if "Measure half-way up, away from" not in part]


def test_stitches_that_are_drawn_through_once_more_are_drawn_up_loosely_first(
        texts: dict[str, str]) -> None:
    """Drawn up tight, they leave no way for a second passage (geometry)."""
    twice = {name: text for name, text in texts.items() if "stitches once more" in text}
    assert twice
    assert not {name for name, text in twice.items()
                if re.search(r"off the needles, and draw them up(?! loosely)", text)}


def test_a_latched_swatch_says_how_wide_it_should_be_and_what_to_do_where_it_is_not(
        texts: dict[str, str]) -> None:
    """It has to reach the width that the band is counted by; a looser stitch is wider (common
    practice, no source)."""
    seen = 0
    for name, text in texts.items():
        for band, told in re.findall(r"([A-Z][a-z ]+): counted as stocking stitch\.([^\n]*)", text):
            reach = re.search(r"reach ([\d.]+) cm \(.*?\) over 10 stitches", told)
            assert reach and "a higher number on the dial" in told, name
            counted = re.search(rf"{band[1:]}[a-z ,]*\s+([\d.]+) stitches and", text)
            assert counted and abs(100 / float(counted[1]) - float(reach[1])) < 0.06, name
            seen += 1
    assert seen


def test_a_fold_that_is_sewn_down_at_a_steep_point_names_its_yarn(texts: dict[str, str]) -> None:
    """The ends at hand are those of the closing, at the band's ends."""
    told = [part for text in texts.values()
            for part in re.findall(r"sew the fold down inside[^.]*\.", text)]
    assert told
    assert not [part for part in told if "yarn" not in part]


def test_a_hem_that_was_not_swatched_says_how_it_differs_from_what_it_is_counted_by(
        texts: dict[str, str]) -> None:
    """Its rows were counted by the garment's gauge, and set two numbers tighter without a word."""
    bare = {name: re.search(r"(?:Hem|Rib): not swatched\. Its rows are counted by [^.]*\.(.*?)Try "
                            r"it first", text) for name, text in texts.items()
            if re.search("(?:Hem|Rib): not swatched", text)}
    assert bare
    for name, found in bare.items():
        assert found, name
        told = re.search(r"knitted tighter, at dial (\S+?),? (?:\(.*?\), )?and may come out "
                         "shallower: by how much is not known", found[1])
        own = set(re.findall(r"Set the dial to (\S+?),? (?:\(.*?\), )?for the other layer of the "
                             "(?:hem|rib)", texts[name]))
        main = re.search(r"to 10 cm, [^,]*, dial (\S+)", texts[name])
        assert main, name
        assert told and float(told[1]) < float(main[1].rstrip(".")), name
        assert own <= {told[1]}, name  # a picot fold is knitted at the same dial


def test_a_correction_that_names_other_sizes_says_which_figures_are_this_page_s(
        pages: dict[str, str]) -> None:
    """A page of M told of "113 rows in S, 123 in M", below "Corrections to this size"."""
    met = 0
    for name, text in pages.items():
        mine = name.partition("/")[2].upper()
        listed = re.search(r"Corrections to this size</h2>.*?<ul.*?>(.*?)</ul>", text, re.DOTALL)
        for one in re.split("<li[^>]*>", listed[1])[1:] if listed else ():
            sizes = set(re.findall(r"\b(?:in|to|of|and) (\d?X*[SML]|\d?XL?)\b", one)) - {mine}
            met += bool(sizes)
            assert bool(sizes) <= (f"take those for {mine}." in running(one)), (name, one)
    assert met


def test_a_correction_tells_a_knitter_nothing_of_data_files(pages: dict[str, str]) -> None:
    """ "Whoever reads counts.json finds one row fewer": she looked for what to change."""
    listed = {name: found[1] for name, text in pages.items() if (found := re.search(
        r"Corrections to this size</h2>.*?<ul.*?>(.*?)</ul>", text, re.DOTALL))}
    assert listed
    assert not {name for name, said in listed.items() if ".json" in said}


def test_a_difference_of_nothing_is_not_printed(texts: dict[str, str]) -> None:
    """ "48 (0 mm longer)" stood behind a figure of 47.99."""
    assert any(re.search(r"\(\d[\d.]* mm more\)", text) for text in texts.values())
    assert not {name for name, text in texts.items() if re.search(r"\(0 mm (?!off)|\b0 off,", text)}
