"""Pages with inches first: the same lengths, each pair the other way round, and nothing else moved.

The pairs are read here from the visible text of pages by a pattern of their own.
"""

from __future__ import annotations

import re
from fractions import Fraction
from html.parser import HTMLParser
from pathlib import Path

import pytest
from reading import SMALLEST
from walebook.markup.inches_first import inches_first
from walebook.pages import write_pages
from walebook.pages.from_texts import make
from walebook.proof.texts import Texts
from walebook_site.command import main
from walebook_site.proving import prove_all
from walebook_site.sources import collect

ROOT = Path(__file__).parents[2]
NUMBER = r"[−-]?(?:(?:\d+ )?\d+/16|\d*[¼½¾⅛⅜⅝⅞]|\d[\d.]*)"
CM_FIRST = re.compile(rf"({NUMBER}) cm \(({NUMBER}) in\)")
INCHES_FIRST = re.compile(rf"({NUMBER}) in \(({NUMBER}) cm\)")


class _Seen(HTMLParser):
    """The rows of tables with a unit, the labels of drawings, and the chosen unit, in their order.
    """

    def __init__(self, html: str) -> None:
        super().__init__()
        self.rows: list[str] = []
        self.chosen: list[tuple[str, bool]] = []
        self.labels: list[tuple[str, float, str]] = []
        self._label: tuple[str, float] | None = None
        self.feed(html)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        said = dict(attrs)
        if tag == "tr" and said.get("class") in ("wb-cm", "wb-in"):
            self.rows.append(str(said["class"]))
        if tag == "input" and str(said.get("id", "")).startswith("wb-unit-"):
            self.chosen.append((str(said["id"]), "checked" in said))
        if tag == "text" and said.get("class") in ("wb-cm", "wb-in"):
            self._label = str(said["class"]), float(said["y"] or 0)

    def handle_data(self, data: str) -> None:
        if self._label:
            self.labels.append((*self._label, data))
            self._label = None


@pytest.fixture(scope="module")
def page_texts() -> dict[str, tuple[str, str]]:
    """Pages of a cardigan and of a shawl in one size each, with centimetres and inches first."""
    found = {}
    for slug, sizes in (("slack-tide-cardigan", "[M]"), ("fog-bank-shawl", "[M]")):
        for page in pages_of(slug, source_of(slug, sizes)):
            found[page[0]] = page[1], inches_first(page[1])
    return found


def source_of(slug: str, sizes: str) -> str:
    """The source of a pattern in other sizes; its corrections then name none."""
    source = (ROOT / "patterns" / slug / "pattern.yaml").read_text(encoding="utf-8")
    source = re.sub(r"^    sizes: .*\n", "", source, flags=re.M)
    return re.sub(r"^sizes: .*$", f"sizes: {sizes}", source, flags=re.M)


def pages_of(slug: str, source: str) -> list[tuple[str, str]]:
    beds, charts = ({path.stem: path.read_text(encoding="utf-8") for path in
                     (ROOT / "patterns" / folder).glob("*.yaml")} for folder in ("_beds", "_sizes"))
    made = make(Texts(slug=slug, source=source), beds=beds, charts=charts)
    return [(page.path, page.text) for page in made.pages if page.path.endswith(".md")]


def text(html: str) -> str:
    html = re.sub(r"<script.*?</script>", "", html, flags=re.DOTALL)
    return re.sub(r"<[^>]+>", "", html).replace("\u00a0", " ")


def test_every_pair_of_a_sentence_is_turned_round(page_texts: dict[str, tuple[str, str]]) -> None:
    pairs = 0
    for path, (before, after) in page_texts.items():
        there = CM_FIRST.findall(text(before))
        pairs += len(there)
        assert [(cm, inches) for inches, cm in INCHES_FIRST.findall(text(after))] == there, path
        assert not CM_FIRST.findall(text(after))
    assert pairs > 30


def test_nothing_else_is_changed(page_texts: dict[str, tuple[str, str]]) -> None:
    """The same words and signs, but for the bodies that an overview has in one unit."""
    for path, (before, after) in page_texts.items():
        same = [sorted(re.findall(r"\S", html)) for html in (before, after)]
        assert path.endswith("index.md") or same[0] == same[1], path
        assert before.count("<") == after.count("<")


def test_tables_the_choice_and_drawings_follow(page_texts: dict[str, tuple[str, str]]) -> None:
    before, after = map(_Seen, page_texts["patterns/slack-tide-cardigan/index.md"])
    assert before.rows[:2] == ["wb-cm", "wb-in"] and after.rows[:2] == ["wb-in", "wb-cm"]
    assert after.rows == [{"wb-cm": "wb-in", "wb-in": "wb-cm"}[row] for row in before.rows]
    assert before.chosen == [("wb-unit-cm", True), ("wb-unit-in", False)]
    assert after.chosen == [("wb-unit-in", True), ("wb-unit-cm", False)]
    drawn = [_Seen(each) for each in page_texts["patterns/slack-tide-cardigan/m.md"]]
    assert len(drawn[0].labels) > 10
    assert [y for _, y, _ in drawn[0].labels] == [y for _, y, _ in drawn[1].labels]
    for one, other in zip(*(zip(each.labels[::2], each.labels[1::2], strict=True)
                            for each in drawn), strict=True):
        assert (one[0][0], one[0][2]) == (other[1][0], other[1][2])  # centimetres below
        assert (one[1][0], one[1][2]) == (other[0][0], other[0][2])


def test_the_body_of_a_size_is_in_inches(page_texts: dict[str, tuple[str, str]]) -> None:
    """women.yaml prints 36–38 in for the bust of M."""
    before, after = map(text, page_texts["patterns/slack-tide-cardigan/index.md"])
    assert "Choose your size by the wearer's bust, in centimetres." in before
    assert "M 91.5–96.5" in before
    assert "Choose your size by the wearer's bust, in inches." in after and "M 36–38" in after
    assert Fraction(38) * Fraction(254, 100) == Fraction("96.52")


SIGNS = {"¼": Fraction(1, 4), "½": Fraction(1, 2), "¾": Fraction(3, 4), "⅛": Fraction(1, 8),
         "⅜": Fraction(3, 8), "⅝": Fraction(5, 8), "⅞": Fraction(7, 8)}


def inch_value(printed: str) -> Fraction:
    """ "25½", "−⅜" or "3/16" as a number."""
    if "/" in printed:
        return sum(map(Fraction, printed.split()), Fraction(0))
    whole = printed.strip("−-").rstrip("".join(SIGNS))
    value = Fraction(whole or 0) + SIGNS.get(printed[-1], Fraction(0))
    return -value if printed[0] in "−-" else value


def test_what_a_calculation_comes_to_is_in_both_units(page_texts: dict[str, tuple[str, str]]
                                                      ) -> None:
    """An inch is 25.4 mm by definition; printed to the quarter it is off by an eighth at most."""
    labels = 0
    for path, (before, after) in page_texts.items():
        for label in re.findall(r"<li>\s*<b>([^<]*\d\s?cm[^<]*):</b>", before):
            pairs = CM_FIRST.findall(text(label))
            assert pairs and not re.search(r"\d\scm(?! \()", text(label)), (path, label)
            for cm, inches in pairs:
                off = inch_value(inches) - Fraction(cm.replace("−", "-")) / Fraction(254, 100)
                assert abs(off) <= Fraction(1, 8), label
            labels += 1
        assert not re.search(r"<b>[^<]*\d\scm \([^<]*</b>", after), path
    assert labels > 20


def test_the_gaps_of_a_chart_are_in_both_units() -> None:
    """women.yaml prints bust M to 96.5 cm (38 in), and L from 101.5 cm (40 in)."""
    slug = "slack-tide-cardigan"
    page = pages_of(slug, source_of(slug, "[M, L]"))[0][1]
    assert "The chart leaves gaps: 96.5–101.5 cm (38–40 in) between M and L." in text(page)
    assert "gaps: 38–40 in (96.5–101.5 cm) between" in text(inches_first(page))


def written(root: Path, settings: str) -> Path:
    (root / "patterns" / "band").mkdir(parents=True)
    (root / "patterns" / "band" / "pattern.yaml").write_text(SMALLEST, encoding="utf-8")
    (root / "patterns" / "collection.yaml").write_text(settings, encoding="utf-8")
    return root


def test_a_collection_says_it_once_for_all_patterns(tmp_path: Path) -> None:
    found = prove_all(written(tmp_path, "title: Quay\nunits: inches first\n"), pages=True)
    (proof,) = collect(tmp_path).proofs
    texts = {page.path: page.text for page in write_pages(proof)}
    published = dict(found.texts())
    assert published["patterns/band/one-size.md"] == inches_first(
        texts["patterns/band/one-size.md"]) != texts["patterns/band/one-size.md"]
    assert published["patterns/band/counts.json"] == texts["patterns/band/counts.json"]
    (tmp_path / "patterns" / "collection.yaml").write_text("title: Quay\nunits: cm first\n")
    again = prove_all(tmp_path, pages=True)  # from the cache
    assert dict(again.texts())["patterns/band/one-size.md"] == texts["patterns/band/one-size.md"]


@pytest.mark.parametrize(("said", "expected"), [
    ("units: inches", 'unknown-word: found "inches"; expected "inches first". Write '
                      "inches first."),
    ("language: de", 'unknown-word: found the language "de"; expected en: the pages are written '
                     "in English, and in no other language. Write language: en, or leave the line "
                     "out."),
    ("language: en", "")])
def test_a_setting_that_cannot_be_is_told(tmp_path: Path, said: str, expected: str,
                                          capsys: pytest.CaptureFixture[str]) -> None:
    main(["check", "--quiet", "--form", "lines", "--root",
          str(written(tmp_path, f"title: Quay\n{said}\n"))])
    told = capsys.readouterr().out
    assert expected in told and bool(told) is bool(expected)
