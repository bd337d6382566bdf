"""A reader with a pocket calculator gets each printed result from the figures printed beside it."""

from __future__ import annotations

import re
from collections.abc import Mapping
from fractions import Fraction
from pathlib import Path

import pytest

from tests.reader import counted, exact_sums, page
from tests.reader.bed import Wrong
from tests.reader.visible import Section

ROOT = Path(__file__).parents[2]

# What is no sum in one line: a slope, which needs a root.
NO_SUM = ("the slope over ",)


def lines(parted: Mapping[str, list[Section]]) -> dict[str, str]:
    """Every line of the calculations and of the yarn with a result, and the first page of it."""
    found: dict[str, str] = {}
    for name, sections in parted.items():
        for section in sections:
            for block in section.blocks:
                if " = " in block.text and not any(words in block.text for words in NO_SUM):
                    found.setdefault(block.text, name)
    return found


def test_each_result_is_what_its_printed_figures_come_to(
        parted: Mapping[str, list[Section]]) -> None:
    """Arithmetic: at the digits that are printed, a half up. So of what rounding is worth, of the
    grams from which metres and packages are computed, and of the length beside its sum.
    """
    told = lines(parted)
    found = [f"{name}: {fault}" for text, name in told.items()
             for fault in exact_sums.faults(text)]
    assert len(told) > 2000
    assert not found, f"{len(found)}\n" + "\n".join(found[:40])


def test_the_calculator_finds_a_last_digit_that_is_off() -> None:
    """Each of these was on a page, by arithmetic one off in its last digit."""
    for line in (
            "109.2 mm (along the slope of 16 rows and 5 stitches bound off) × 0.97 for the band's "
            "ease ÷ 6.6 mm a band stitch = 16.05, rounded: 16 (0.4 mm less)",
            "Hat 41.3 g × 1.1 (10 % more) + ends 0.9 g = 46.3, rounded up: 47. Metres: 46.33 g × "
            "120 m a ball or cone ÷ 50 g a ball or cone = 111.2, rounded up: 112",
            "Finished chest, 92.8 cm (36½ in): 120.5844 stitches × 7.7 mm a stitch = 928.5 mm",
            "button 15 mm ÷ 3.475 mm a stitch = 4.32, rounded: 4, less one: 3, which stretch to "
            "about 17 mm"):
        assert len(list(exact_sums.faults(line))) == 1, line


def test_what_a_figure_is_changed_to_is_held_to_the_figure() -> None:
    """(8 − 5.42) × 100 mm ÷ 18.07 = 14.3 mm (arithmetic)."""
    line = ("Neck rows, 8 rows: back neck 3 cm × 18.07 rows to 10 cm = 5.42, nearest even number: "
            "6 (3.2 mm more); 8 so that it opens on an even row (14.3 mm more)")
    counted.working(line)
    for wrong in ("15.3 mm more", "14.3 mm less"):
        with pytest.raises(Wrong):
            counted.working(line.replace("14.3 mm more", wrong))


HEIGHT = re.compile(
    r"<figcaption[^>]*><strong>([^<]*)</strong>.*?<li>Whole height: (\d+(?:\.\d)?) cm")
TIMES = {"": 1, "twice": 2, "three times": 3, "four times": 4, "5 times": 5, "6 times": 6}
SEAMS = re.compile(r"\+ seams (\d+(?:\.\d+)?) g\b")
PACKAGE = re.compile(r"g × (\d+) m a ball or cone ÷ (\d+) g a ball or cone")
SEWN_ACROSS = re.compile(r"<b>(\d+) stitches</b> on either side")
GAUGE = re.compile(r"(\d+(?:\.\d)?) stitches and ")
# Where more is sewn than sides of pieces, and stitches to stitches: a band, shoulders, a lining.
MORE = re.compile(r"Work the |Join the |Graft the |lining|quarters together|Back-stitch")


def test_the_yarn_of_seams_comes_to_what_its_rule_says(pages: dict[str, str]) -> None:
    """reading.md: "three times its height" for each piece, and three times the width of stitches
    that are sewn to stitches. The seams alone, three times each, come to another figure."""
    rule = " ".join((ROOT / "site_src" / "reading.md").read_text("utf-8").split())
    assert "Each piece takes three times its height" in rule
    held = set()
    for name, text in pages.items():
        found, making = SEAMS.search(text), text[text.find('id="making-up"'):]
        making = making[:making.find('id="counted"')]
        if not found or MORE.search(making):
            continue
        pieces = [(TIMES[title.partition(", knitted ")[2]], Fraction(high))
                  for title, high in HEIGHT.findall(text)]
        across = sum(map(int, SEWN_ACROSS.findall(making))) * 30 / Fraction(GAUGE.search(text)[1])
        metres, grams = map(int, PACKAGE.search(text).groups())
        need = (sum(3 * times * high for times, high in pieces) + across) / 100 * grams / metres
        # Half a millimetre of each height, and the digits of the grams.
        least = Fraction(3 * sum(times for times, _ in pieces) * grams, 2000 * metres)
        digits = len(found[1].partition(".")[2])
        off = least + Fraction(6, 10 ** (digits + 1))
        assert abs(need - Fraction(found[1])) <= off, (name, float(need), found[1])
        held.add(name.partition("/")[0])
    assert held >= {"spar-pullover", "net-loft-blanket", "capstan-hat"}


BY_RATE = re.compile(r"<p>([^<:]*): (?:not swatched|no separate swatch)\b[^.<]*\. Its stitches "
                     r"come from a rule, (\d+) stitch(?:es)? for every (\d+) rows? of the edge")
SLOPE = re.compile(r"along the slope of [^÷]*÷ (\d+(?:\.\d+)?) mm a band stitch")
ROW_HIGH = re.compile(r"rows × (\d+(?:\.\d+)?) mm a row")


AMOUNTS = re.compile(r"<p>(The amounts cover all stitches[^<]*):</p>")
ESTIMATED = "the seams (estimated from the sizes of the pieces)"


def test_the_amounts_say_that_the_yarn_of_seams_is_an_estimate(pages: dict[str, str]) -> None:
    """It follows from heights and widths, not seam by seam: said where the metres stand."""
    said = 0
    for name, text in pages.items():
        lead = AMOUNTS.search(text)
        assert lead and lead.start() < text.find("Metres: "), name
        assert bool(SEAMS.search(text)) == (ESTIMATED in lead[1]) == ("seams" in lead[1]), name
        said += ESTIMATED in lead[1]
    assert said > 100


def test_a_band_by_the_common_rate_is_counted_by_it_along_slopes_too(pages: dict[str, str]) -> None:
    """hanging-an-edge.md: a band stitch is then as wide as 4/3 of a row are high, at 3 to 4."""
    page = " ".join((ROOT / "site_src/techniques/hanging-an-edge.md").read_text("utf-8").split())
    assert "a band stitch is as wide as four thirds of a row are high" in page
    held = 0
    for name, text in pages.items():
        for title, few, many in BY_RATE.findall(text):
            at = text.find(f"{title}: all its counts")
            part = text[at:text.find("</details>", at)] if at >= 0 else ""
            for wide in SLOPE.findall(part):
                high = Fraction(ROW_HIGH.search(part)[1]) * int(many) / int(few)
                assert abs(high - Fraction(wide)) < Fraction(1, 100), (name, title)
                held += 1
    assert held


def test_a_measure_in_a_sum_has_a_name_of_plain_words_and_its_value(pages: dict[str, str]) -> None:
    """ "neck_width" stood there: the source's key, no word for who knits."""
    text = pages["slack-tide-cardigan/s"]
    told = "neck width 15.75 cm ×"
    assert told in text and not page.read(text).faults
    for instead in ("neck_width 15.75 cm ×", "15.75 cm × neck width ×"):
        assert "working" in {fault.kind for fault in page.read(text.replace(told, instead)).faults}


def test_what_is_halved_in_a_sum_has_its_number(pages: dict[str, str]) -> None:
    """Of a sum that took the length alone the count beside it could be left out."""
    text = pages["watchkeeper-pullover/s"]
    told = re.search(r"half of (\d+ )stitches of back neck", text)
    assert told
    spoiled = text[:told.start(1)] + text[told.end(1):]
    assert "working" in {fault.kind for fault in page.read(spoiled).faults}
