"""Sizes by a designer's own name, and sizes that a chart does not have, in all that follows.

What a size is called changes no stitch: a label of the chart's XL has the counts of XL, and a size
whose measurements are those that the chart prints for XL has them too. The printed figures are read
from the chart's file here, by YAML and the rule of that page, the middle of a range.
"""

from __future__ import annotations

import json
import re
import shutil
from fractions import Fraction
from pathlib import Path
from typing import Any

import jsonschema
import pytest
import yaml
from reading import HERE
from walebook.pages import SCHEMAS, write_pages
from walebook_site.command import main
from walebook_site.sources import collect

SHELF = Path(__file__).parents[2] / "patterns"
WOMEN = yaml.load((SHELF / "_sizes" / "women.yaml").read_text(encoding="utf-8"), yaml.BaseLoader)
COLUMN = WOMEN["authority"]
SOURCE = """\
title: Ferry cardigan
version: 1.0.0
date: 2026-11-25
designer: Wren Ashdown
licence: CC BY-NC 4.0
summary: A cardigan in sizes that no chart has.
wearer: women
bed: mid
yarns: {wool: {name: Harbour Wool}}
fabrics:
  body: {yarn: wool, dial: 7, swatch: {stitches: 30, width: 20 cm, rows: 40, height: 20 cm}}
sizes: SIZES
garment:
  form: set-in cardigan
  chart: women
  fabric: body
  measures: {ease: 8 cm, body_length: LENGTH}
"""


def test_what_an_own_chart_lacks_is_told_where_it_would_stand(
        tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """At the figures of the measurement, or at the measurements where there is none of it."""
    folder = tmp_path / "patterns" / "ferry"
    folder.mkdir(parents=True)
    (tmp_path / "mkdocs.yml").write_text("site_name: Lane\nplugins: [walebook]\n")
    (folder / "pattern.yaml").write_text(SOURCE.replace("SIZES", "[S, M, L]").replace(
        "chart: women", "chart: own").replace("LENGTH", "60 cm"), encoding="utf-8")
    own = (HERE / "own-sizes.yaml").read_text(encoding="utf-8")
    (folder / "chart.yaml").write_text(own.replace(
        "    filled:\n      cm: {L: 30.5}\n      how: from the inches\n", ""), encoding="utf-8")
    assert main(["check", "--root", str(tmp_path)]) == 1
    said = capsys.readouterr().out
    assert ("patterns/ferry/chart.yaml:12:5: error, missing-measurement: found no upper_arm in the "
            'chart "own" for L; expected what the form\'s upper_arm_width is worked out') in said
    assert "Add it there, measured or under filled; or give upper_arm_width" in said
    assert "        cm: {S: 26, M: 28}\n        ^" in said
    assert ('patterns/ferry/chart.yaml:6:1: error, missing-measurement: found no arm_length in the '
            'chart "own"') in said
    assert "If the chart is yours" not in said


def printed(size: str) -> dict[str, str]:
    """The chart's measurements of a size, each as a length."""
    found = {}
    for name, row in WOMEN["measurements"].items():
        said = row.get("mended", {}).get(size, {}).get(COLUMN) or row.get(COLUMN, {}).get(size) \
            or row.get("filled", {}).get(COLUMN, {}).get(size)
        if said:
            ends = [Fraction(end) for end in re.split("[–-]", said)]
            mm = sum(ends) / len(ends) * {"cm": Fraction(10), "in": Fraction(254, 10)}[COLUMN]
            found[name] = f"{float(mm):g} mm"
    return found


def written(root: Path, sizes: Any, length: Any = "56 cm") -> Path:
    """A root with the cardigan in these sizes."""
    for folder in ("_beds", "_sizes"):
        (root / "patterns").mkdir(parents=True, exist_ok=True)
        if not (root / "patterns" / folder).exists():
            (root / "patterns" / folder).symlink_to(SHELF / folder)
    folder = root / "patterns" / "ferry"
    folder.mkdir(exist_ok=True)
    text = SOURCE.replace("SIZES", json.dumps(sizes)).replace("LENGTH", json.dumps(length))
    (folder / "pattern.yaml").write_text(text, encoding="utf-8")
    return root


def pages(root: Path) -> dict[str, str]:
    (proof,) = collect(root).proofs
    return {page.path.rpartition("/")[2]: page.text for page in write_pages(proof)}




@pytest.fixture(scope="module")
def named(tmp_path_factory: pytest.TempPathFactory) -> dict[str, str]:
    """XL by its own name, by the designer's, and as a size outside of the chart."""
    sizes = [{"label": "XL"}, {"label": "Ferry 1X", "as": "XL"},
             {"label": "Quay", "body": printed("XL")}]
    return pages(written(tmp_path_factory.mktemp("named"), sizes))


def without(text: str, *names: str) -> str:
    """A text with the name of a size, and how its body's figures are called, left out."""
    for name in names:
        text = text.replace(name, "·")
    return text


def steps(html: str) -> str:
    return re.sub(r"<[^>]+>", " ", "".join(
        re.findall(r'<ol class="wb-steps".*?</ol>', html, re.DOTALL)))


def test_a_size_is_knitted_alike_whatever_it_is_called(named: dict[str, str]) -> None:
    told = {name: steps(named[f"{name}.md"]) for name in ("xl", "ferry-1x", "quay")}
    assert len(told["xl"]) > 2000
    assert without(told["ferry-1x"], "Ferry 1X") == without(told["xl"], "XL")
    assert without(told["quay"], "Quay") == without(told["xl"], "XL")


def test_pages_counts_and_overview_call_it_by_its_label(named: dict[str, str]) -> None:
    assert [path for path in named if path.endswith(".md")] == [
        "index.md", "xl.md", "ferry-1x.md", "quay.md"]
    said = json.loads(named["counts.json"])
    assert said["sizes"] == ["XL", "Ferry 1X", "Quay"]
    assert 'href="ferry-1x.html"' in named["index.md"]
    assert "Size Ferry 1X is the chart's XL." in named["index.md"]
    assert "The body of size Quay is the designer's." in named["index.md"]
    assert "Size XL is the chart's" not in named["index.md"]


def test_a_working_names_the_chart_s_column_and_none_that_it_has_not(named: dict[str, str]
                                                                     ) -> None:
    assert "women XL, " in named["ferry-1x.md"] and "women Ferry" not in named["ferry-1x.md"]
    assert "the designer's own figure for Quay, " in named["quay.md"]
    assert "women Quay" not in named["quay.md"] and "women XL" not in named["quay.md"]


def test_its_own_body_holds_before_the_chart_s_and_the_garment_s(tmp_path: Path) -> None:
    chest = [{"label": "A", "as": "M"}, {"label": "B", "as": "M", "body": {"chest": "100 cm"}}]
    root = written(tmp_path, chest, {"A": "56 cm", "B": "57 cm"})
    source = root / "patterns" / "ferry" / "pattern.yaml"
    source.write_text(source.read_text() + "  body: {chest: 96 cm, upper_arm: 31 cm}\n")
    found = pages(root)
    assert "(chest 96 cm [women M, " in found["a.md"]
    assert "(chest 100 cm [women M, " in found["b.md"]


WRONG: dict[str, tuple[Any, str]] = {
    "no such column": (["M", {"label": "1X", "as": "XLL"}],
                       '12:36: error, size-not-in-chart: found the size "XLL", which is not in the '
                       'chart "women"'),
    "a size by another name": (["M", "XXL"],
                               "expected sizes among XS, S, M, L, XL, 2X, 3X, 4X, 5X. Write 2X, or "
                               "{label: XXL, as: 2X}."),
    "a size that the chart has not": (["XXS", "M"], "Use one of these, or write {label: XXS, as: "
                                      "SIZE} with the chart's size that it is for, or take another "
                                      "chart."),
    "a size in small letters": (["M", "xl"], "Write XL."),
    "no such measurement": ([{"label": "1X", "as": "XL", "body": {"chset": "120 cm"}}],
                            '12:55: error, unknown-name: found no measurement called "chset" in '
                            'the chart "women"; expected "chest".'),
    "in another order": ([{"label": "1X", "as": "XL"}, "M"],
                         '12:1: error, size-order: found the sizes 1X, M; expected the order of '
                         'the chart "women". Write [M, 1X].'),
    "one page for two": (["M", {"label": "m", "as": "L"}],
                         '12:14: error, same-page: found the size "m", whose page would be called '
                         '"m" like that of "M"'),
    "a measurement left out": ([{"label": "1X", "body": {"chest": "120 cm"}}],
                               "12:9: error, missing-measurement: found no cross_back in the "
                               "body of the size 1X; expected a length, from which the form's "
                               "across is worked out: cross_back. Write cross_back and its length "
                               "under body of this size."),
    "far from its column": ([{"label": "1X", "as": "XL", "body": {"chest": "12 cm"}}],
                            "12:55: warning, unlikely-value: found bust 12 cm in size XL, 0.11 "
                            "times the chart's "),
    "no label": ([{"as": "XL"}], 'error, missing-key: found no "label" in a size'),
}


@pytest.mark.parametrize("case", WRONG)
def test_a_fault_is_told_at_its_place(tmp_path: Path, case: str,
                                      capsys: pytest.CaptureFixture[str]) -> None:
    sizes, expected = WRONG[case]
    main(["check", "--form", "lines", "--root", str(written(tmp_path, sizes))])
    lines = capsys.readouterr().out
    assert expected in lines, lines


def test_a_value_by_size_goes_by_its_label(tmp_path: Path, capsys: pytest.CaptureFixture[str]
                                           ) -> None:
    root = written(tmp_path, ["M", {"label": "1X", "as": "XL"}], {"M": "56 cm", "XL": "58 cm"})
    main(["check", "--form", "lines", "--root", str(root)])
    said = capsys.readouterr().out
    assert 'unknown-size: found the unknown size "XL"' in said and "no body_length for 1X" in said


def test_without_a_chart_a_body_does_nothing(tmp_path: Path, capsys: pytest.CaptureFixture[str]
                                             ) -> None:
    smallest = (HERE / "smallest.yaml").read_text(encoding="utf-8")
    root = written(tmp_path, ["M"])
    (root / "patterns" / "ferry" / "pattern.yaml").write_text(smallest.replace(
        "[one size]", "[{label: Trial, as: M}]"), encoding="utf-8")
    main(["check", "--form", "lines", "--root", str(root)])
    assert ('16:9: warning, unused: found "as" of the size "Trial" in a pattern without a size '
            "chart. Delete it.") in capsys.readouterr().out


def test_an_editor_takes_a_size_of_either_kind() -> None:
    check = jsonschema.Draft202012Validator(SCHEMAS["pattern"]()["properties"]["sizes"] | {
        "$defs": SCHEMAS["pattern"]()["$defs"]})
    sizes = ["M", {"label": "1X", "as": "XL"}, {"label": "6X", "body": {"chest": "150 cm"}}]
    assert not list(check.iter_errors(sizes))
    assert list(check.iter_errors([{"as": "XL"}])) and list(check.iter_errors([{"labl": "1X"}]))


def test_the_collection_has_a_pattern_whose_sizes_have_labels() -> None:
    sources = [yaml.load(path.read_text(encoding="utf-8"), yaml.CBaseLoader)
               for path in sorted(HERE.parents[1].glob("patterns/*/pattern.yaml"))]
    assert any(isinstance(size, dict) and size.keys() == {"label", "as"}
               for source in sources for size in source["sizes"])


def test_two_sizes_without_a_measure_by_size_are_warned_of(tmp_path: Path) -> None:
    folder = tmp_path / "patterns" / "two-alike"
    folder.mkdir(parents=True)
    shutil.copy(HERE / "codes" / "sizes-alike.yaml", folder / "pattern.yaml")
    (warned,) = (one for one in collect(tmp_path).problems if one.code == "sizes-alike")
    assert warned.message.startswith("found the same measures in the sizes small and large, so "
                                     "that all pieces are alike; expected sizes that differ. "
                                     "Write a measure by size, such as ")
