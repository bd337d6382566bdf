"""The page about measures names every measure and body measurement, and its drawings show them.

What there is comes from the forms and from the size charts of the collection. The drawings are read
as XML; where a line must run is said here by hand.
"""

from __future__ import annotations

import re
from pathlib import Path
from xml.etree import ElementTree

import pytest
import yaml
from walebook.catalogue.body_measurements import BODY_MEASUREMENTS
from walebook.core.ranges import MEASURES as RANGES
from walebook.drawings.body_measures import body_drawings, marks, piece_drawings
from walebook.forms.registry import FORMS
from walebook.pages.source_page import fill_lists
from walebook.words.measure_names import BODY, MEASURES, NOT_DRAWN

ROOT = Path(__file__).parents[2]
PAGE = (ROOT / "site_src" / "guides" / "measures.md").read_text(encoding="utf-8")
PATHS = sorted((ROOT / "patterns" / "_sizes").glob("*.yaml"))
CHARTS = [yaml.load(path.read_text(encoding="utf-8"), yaml.CBaseLoader) for path in PATHS]


def entry(name: str) -> str:
    found = re.findall(rf"^`{name}`\n:   (.*)$", fill_lists(PAGE), re.MULTILINE)
    assert len(found) == 1, name
    return str(found[0])


def test_every_measurement_of_a_chart_and_measure_of_a_form_has_its_entry() -> None:
    assert set(BODY) == set(BODY_MEASUREMENTS) == {
        name for chart in CHARTS for name in chart["measurements"]}
    assert set(MEASURES) == set(RANGES) == {
        name for form in FORMS.values() for name in form.names}
    for name in (*BODY, *MEASURES):
        assert entry(name)


def test_the_guide_lists_the_sizes_and_measurements_of_each_chart() -> None:
    text = (ROOT / "site_src" / "guides" / "own-chart.md").read_text(encoding="utf-8")
    rows = {name: (sizes, names) for name, sizes, names in re.findall(
        r"^`([a-z-]+)`\n:   Sizes: (.+)\. Measurements: (`.+`)\.$", text, re.MULTILINE)}
    assert rows == {path.stem: (", ".join(chart["sizes"]),
                                ", ".join(f"`{name}`" for name in chart["measurements"]))
                    for path, chart in zip(PATHS, CHARTS, strict=True)}


@pytest.mark.parametrize(("name", "said"), [
    ("hat_width", "Used by: hat."), ("cap_ease", "Used by: set-in pullover, set-in cardigan."),
    ("chest", "Used by: every form with a body."), ("wrist", "No form uses it by itself"),
    ("upper_arm_width", "Used by: every form with sleeves."),
    ("hips", "No form uses it by itself")])
def test_an_entry_says_which_forms_use_it(name: str, said: str) -> None:
    assert said in entry(name)


def drawn(html: str) -> list[ElementTree.Element]:
    return list(ElementTree.fromstring(f"<div>{html}</div>").iter("svg"))


def test_every_mark_stands_in_one_drawing_and_inside_it() -> None:
    for names, html in ((BODY, body_drawings()), (MEASURES, piece_drawings())):
        known = marks(names)
        assert len(set(known.values())) == len(known)
        seen = []
        for svg in drawn(html):
            x, y, wide, high = map(int, svg.attrib["viewBox"].split())
            for text in svg.iter("text"):
                at_x, at_y = int(text.attrib["x"]), int(text.attrib["y"])
                assert x + 6 <= at_x <= x + wide - 6 and y + 10 <= at_y <= y + high, text.text
                seen.append(text.text)
                name = next(each for each in known if known[each] == text.text)
                assert f"{text.text} {name}" in svg.attrib["aria-label"]
        assert sorted(seen) == sorted(known.values())
    assert set(MEASURES) - set(marks(MEASURES)) == set(NOT_DRAWN)


def ends(name: str) -> tuple[int, int, int, int]:
    """The two ends of a straight line of the drawings: its place among them is that of its name."""
    for svg in drawn(body_drawings() + piece_drawings()):
        names = [part.split()[1] for part in svg.attrib["aria-label"].split(": ")[1].split(", ")
                 if not part.endswith("head_by_age")]  # which is taken where the head is
        if name in names:
            lines = next(svg.iter("g")).findall("path")
            x, y, other_x, other_y = re.findall(r"-?\d+", lines[names.index(name)].attrib["d"])[:4]
            return int(x), int(y), int(other_x), int(other_y)
    raise AssertionError(name)


def test_lines_run_between_the_points_that_the_words_name() -> None:
    """A whole is as long as its parts, and lines that begin at one place do so."""
    def high(name: str) -> int:
        _, one, _, other = ends(name)
        return abs(other - one)

    assert high("hat_length") == high("hat_depth") + high("turn_up")
    assert high("mitten_length") == high("cuff_depth") + high("hand_length")
    assert ends("mitten_length")[3] == ends("to_thumb")[3] == ends("cuff_depth")[3]
    assert ends("body_length")[1] == ends("shoulder_drop")[1] == ends("front_neck")[1]
    assert ends("armhole")[1] == ends("shoulder_drop")[3]
    assert ends("back_waist_length")[1] == ends("back_hip_length")[1]
    assert high("back_waist_length") < high("back_hip_length")
    left, _, right, _ = ends("across")
    assert ends("chest_width")[0] < left < ends("neck_width")[0] < ends("neck_width")[2] < right
