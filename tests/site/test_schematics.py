"""Drawings of pieces, read back from their SVG and held against the outlines they are drawn from.

Text is at least 12 pixels high on a page 360 pixels wide (common practice, no source). Widths of
text are taken as 6.2 pixels a character at 13 pixels, a little under a sans-serif's mean.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from html import unescape
from itertools import combinations
from xml.etree import ElementTree

import pytest
from walebook.drawings.piece_frame import best_scale
from walebook.drawings.schematic import (
    Graded,
    garment_schematic,
    graded_schematic,
    outlines,
    schematic,
)
from walebook.fabric.gauge import measure
from walebook.forms.registry import FORMS
from walebook.pages.overview_tables import measures_table
from walebook.pattern.model import Fold, Neck
from walebook.proof.proof import Proof, SizeProof
from walebook.shape.outline import Outline, outline
from walebook.words.schematic_text import dimension_text

from tests.against.wardrobe import BODIES, BODY, SIZES, pattern, proved
from tests.whole_collection import collection

GAUGE = measure([BODY])
ALL = [(form, Neck.ROUND) for form in FORMS] + [(form, Neck.V) for form in BODIES]
CHAR = 6.2


@cache
def proof(form: str, neck: Neck = Neck.ROUND, of: str = "women",
          sizes: tuple[str, ...] = SIZES) -> Proof:
    fold = None if "shawl" in form else Fold.LOOSE
    return proved(pattern(form, of=of, sizes=sizes, neck=neck, fold=fold))


def of_size(made: Proof, size: SizeProof) -> str:
    return garment_schematic(size, outlines(made.pattern.garment, made.pattern.fabrics, size))


def graded(made: Proof) -> Graded | None:
    return graded_schematic(made, {s.size: outlines(made.pattern.garment, made.pattern.fabrics, s)
                                   for s in made.sizes})


def of_all_sizes(made: Proof) -> str:
    found = graded(made)
    return found.figures if found else ""


def figures(text: str) -> list[ElementTree.Element]:
    """The figures; a text has its group's anchor."""
    found = [ElementTree.fromstring(f) for f in re.findall(r"<figure.*?</figure>", text, re.S)]
    for figure in found:
        for group in figure.findall(".//g[@text-anchor]"):
            for label in group:
                label.set("text-anchor", group.get("text-anchor"))
    return found


def _first_of(title: str) -> str:
    """The piece that a figure is of, without those that are as it is, or mirror it."""
    return re.split(r" \(| and |, knitted", title)[0]


def drawn(form: str, neck: Neck, at: int = 1) -> list[tuple[Outline, ElementTree.Element]]:
    made = proof(form, neck)
    size = made.sizes[at]
    by_name = {_first_of(f.find("figcaption/strong").text): f
               for f in figures(of_size(made, size))}
    shown = [(piece, by_name.pop(piece.title))
             for piece in outlines(made.pattern.garment, made.pattern.fabrics, size)
             if piece.title in by_name]
    assert not by_name
    return shown


@dataclass(frozen=True)
class Box:
    """About where a text stands."""

    said: str
    left: float
    top: float
    right: float
    bottom: float

    def meets(self, other: Box) -> bool:
        return (self.left < other.right and other.left < self.right
                and self.top < other.bottom and other.top < self.bottom)


def box(text: ElementTree.Element) -> Box:
    said = "".join(text.itertext())
    wide = CHAR * len(said)
    x, y = float(text.get("x")), float(text.get("y"))
    left = x - {"start": 0, "middle": wide / 2, "end": wide}[text.get("text-anchor")]
    return Box(said, left, y - 9, left + wide, y)


def corners(figure: ElementTree.Element) -> list[tuple[float, float]]:
    path = next(p for p in figure.iter("path") if p.get("class") == "wb-piece").get("d")
    spots, x, y = [], 0.0, 0.0
    for way, one, other in re.findall(r"([Mlhv])(-?[\d.]+)(?: ?(-?[\d.]+))?", path):
        x += 0 if way == "v" else float(one)
        y += 0 if way == "h" else float(one if way == "v" else other)
        spots.append((round(x, 1), round(y, 1)))
    turned = figure.find(".//g[@transform]")
    if turned is None:
        return spots
    width = float(re.fullmatch(r"matrix\(-1 0 0 1 ([\d.]+) 0\)", turned.get("transform"))[1])
    return [(width - x, y) for x, y in spots]


@pytest.mark.parametrize(("form", "neck"), ALL)
def test_a_drawing_fits_a_phone_and_can_be_read_there(form, neck):
    for at in range(len(SIZES)):
        for piece, figure in drawn(form, neck, at):
            svg = figure.find("svg")
            left, top, wide, high = map(float, svg.get("viewBox").split())
            assert (left, top) == (0, 0)
            assert (svg.get("width"), svg.get("height")) == tuple(svg.get("viewBox").split()[2:])
            assert wide <= 328.5
            sizes = [float(e.get("font-size")) for e in svg.iter() if e.get("font-size")]
            assert sizes
            assert min(sizes) >= 12
            for text in svg.iter("text"):
                spot = box(text)
                assert spot.left >= -1, (piece.title, spot)
                assert spot.right <= wide + 1, (piece.title, spot)
                assert 0 <= spot.top < spot.bottom <= high + 1, (piece.title, spot)


@pytest.mark.parametrize(("form", "neck"), ALL)
def test_no_label_stands_on_another(form, neck):
    for at in range(len(SIZES)):
        for piece, figure in drawn(form, neck, at):
            for a, b in combinations([box(t) for t in figure.iter("text")], 2):
                assert not a.meets(b), (piece.title, a, b)


def upright_lines(figure: ElementTree.Element) -> list[tuple[float, float, float]]:
    """Where each upright line of a figure is: its x, its top and its foot."""
    path = next(p for p in figure.iter("path") if p.get("class") == "wb-lines").get("d")
    turned = figure.find(".//g[@transform]")
    wide = float(figure.find("svg").get("width"))
    return [(float(x) if turned is None else wide - float(x), float(y), float(end))
            for x, y, end in re.findall(r"M([\d.]+) ([\d.]+)V([\d.]+)", path)]


def out_of_order(figure: ElementTree.Element, scale: float) -> list[str]:
    """The labels beside a figure that stand, from the top, in another order than their lines.

    Two lines differ in how long they are drawn. Lines with one middle have no order.
    """
    spots = [x for x, _ in corners(figure)]
    found = []
    for anchor, lines in (("end", [line for line in upright_lines(figure) if line[0] < min(spots)]),
                          ("start", [line for line in upright_lines(figure)
                                     if line[0] > max(spots)])):
        labels = [t for t in figure.iter("text") if t.get("text-anchor") == anchor
                  and t.get("class") == "wb-cm"]
        said = ["".join(t.itertext()) for t in sorted(labels, key=lambda t: float(t.get("y")))]
        assert len(said) == len(lines)
        by_middle: dict[float, list[float]] = {}
        for _, top, foot in lines:
            by_middle.setdefault(round(top + foot), []).append(foot - top)
        drawn = [sorted(by_middle[middle]) for middle in sorted(by_middle)]
        for long in drawn:
            here, said = sorted(said[:len(long)], key=centimetres), said[len(long):]
            found += [text for text, one in zip(here, long, strict=True)
                      if abs(centimetres(text) * 10 * scale - one) > 0.5 * scale + 0.25]
    return found


def centimetres(label: str) -> float:
    """The figure of a label such as "17.3 cm"."""
    return float(label.removesuffix(" cm"))


def collected() -> Iterator[tuple[str, list[Outline], list[ElementTree.Element]]]:
    """Each garment of the collection in each size: its name, its outlines, its figures."""
    for made in collection().proofs:
        for size in made.sizes:
            pieces = list(outlines(made.pattern.garment, made.pattern.fabrics, size))
            if pieces:
                yield f"{made.pattern.slug} {size.size}", pieces, figures(of_size(made, size))


def test_labels_stand_in_the_order_of_their_lines():
    """A label that is moved for room stays above the labels of lower lines: common practice, no
    source."""
    seen = 0
    worn = [(f"{form} {neck}", *map(list, zip(*drawn(form, neck, at), strict=True)))
            for form, neck in ALL for at in range(len(SIZES))]
    for name, pieces, made in [*collected(), *worn]:
        scale = float(best_scale(pieces))
        for figure in made:
            assert out_of_order(figure, scale) == [], (name, "".join(figure.itertext())[:60])
            seen += len(upright_lines(figure))
    assert seen > 1000
    # Two labels that change places are seen.
    labels = [t for t in figure.iter("text") if t.get("class") == "wb-cm"
              and t.get("text-anchor") == "start"]
    first, last = labels[0], labels[-1]
    assert first.text != last.text
    first.text, last.text = last.text, first.text
    assert out_of_order(figure, scale)


def test_labels_of_the_collection_stand_clear_and_within_their_drawings():
    for name, _, made in collected():
        for figure in made:
            spots = [box(text) for text in figure.iter("text")]
            high = float(figure.find("svg").get("height"))
            assert all(0 <= spot.top < spot.bottom <= high + 1 for spot in spots), name
            for a, b in combinations(spots, 2):
                assert not a.meets(b), (name, a, b)


def from_lowest_left(spots: list, *, down: bool) -> list:
    """The corners from the left end of the lowest edge on, along that edge; `down`: y grows so."""
    foot = (max if down else min)(y for _, y in spots)
    at = min((x, n) for n, (x, y) in enumerate(spots) if y == foot)[1]
    round_ = spots[at:] + spots[:at]
    return round_ if len(spots) < 2 or round_[1][1] == foot else [round_[0], *reversed(round_[1:])]


@pytest.mark.parametrize(("form", "neck"), ALL)
def test_a_drawing_is_to_scale(form, neck):
    made = drawn(form, neck)
    scale = float(best_scale([piece for piece, _ in made]))
    for piece, figure in made:
        # From the same corner and the same way round, for a mirrored piece is drawn backwards.
        spots = from_lowest_left(corners(figure), down=True)
        corners_mm = from_lowest_left(list(piece.corners), down=False)
        assert len(spots) == len(corners_mm)
        (x0, y0), (mm_x, mm_y) = spots[0], corners_mm[0]
        for (x, y), (u, v) in zip(spots, corners_mm, strict=True):
            assert x - x0 == pytest.approx(float(u - mm_x) * scale, abs=0.11)
            assert y0 - y == pytest.approx(float(v - mm_y) * scale, abs=0.11)


@pytest.mark.parametrize(("form", "neck"), ALL)
def test_every_label_and_line_is_a_measure_of_the_outline(form, neck):
    made = drawn(form, neck)
    scale = float(best_scale([piece for piece, _ in made]))
    for piece, figure in made:
        said = Counter(unescape("".join(t.itertext())) for t in figure.iter("text"))
        level = {f"{d.length}" for d in piece.dimensions if d.is_level}
        upright = {d.length.in_cm() for d in piece.dimensions if not d.is_level}
        inches = {d.length.in_inches() for d in piece.dimensions if not d.is_level}
        assert set(said) <= level | upright | inches
        assert level <= set(said)
        lines = next(p for p in figure.iter("path") if p.get("class") == "wb-lines").get("d")
        long = [abs(float(end) - float(x if way == "H" else y))
                for x, y, way, end in re.findall(r"M([\d.]+) ([\d.]+)([HV])([\d.]+)", lines)]
        for one in long:
            assert any(one == pytest.approx(float(d.length.mm) * scale, abs=0.11)
                       for d in piece.dimensions), (piece.title, one)
        assert len(long) >= len(piece.dimensions) - 1  # a front's whole height is two others


@pytest.mark.parametrize(("form", "neck"), ALL)
def test_a_caption_says_every_measure_in_words_and_in_both_units(form, neck):
    for piece, figure in drawn(form, neck):
        caption = figure.find("figcaption")
        text = "".join(caption.itertext())
        for d in piece.dimensions:
            assert f"{dimension_text(d.name)[1:]}: {d.length}" in text
        assert caption.findall(".//li") and len(caption.findall(".//li")) == len(piece.dimensions)


@pytest.mark.parametrize("form", FORMS)
def test_ids_are_unique_and_every_drawing_has_title_and_description(form):
    made = proof(form)
    page = of_size(made, made.sizes[0]) + of_all_sizes(made)
    ids = re.findall(r' id="([^"]+)"', page)
    assert len(set(ids)) == len(ids)
    for figure in figures(page):
        svg = figure.find("svg")
        assert svg.get("role") == "img"
        assert svg.find("title").get("id") == svg.get("aria-labelledby")
        assert figure.find("figcaption").get("id") == svg.get("aria-describedby")


@pytest.mark.parametrize("form", FORMS)
def test_a_drawing_has_no_colour_of_its_own(form):
    made = proof(form)
    page = of_size(made, made.sizes[0]) + of_all_sizes(made)
    assert set(re.findall(r'(?:fill|stroke)="([^"]*)"', page)) == {"none", "currentColor"}
    assert "style=" not in page


def groups(page: str) -> dict[str, list[tuple[str, list[str]]]]:
    """The rows of each group of the one table of measures: the unit of a row, and its cells."""
    found = {}
    for body in re.findall(r"<tbody>(.*?)</tbody>", page, re.S):
        title = re.search(r'<tr class="wb-group"><th[^>]*><span>(.*?)</span></th>', body)
        rows = re.findall(r'<tr class="wb-(cm|in)">(.*?)</tr>', body)
        found[title[1] if title else ""] = [
            (unit, [re.sub("<[^>]+>", "", cell) for cell in re.findall(r"<t[hd].*?</t[hd]>", row)])
            for unit, row in rows]
    return found


@pytest.mark.parametrize(("form", "neck"), ALL)
def test_letters_of_the_graded_drawing_have_a_row_with_every_size(form, neck):
    made = proof(form, neck)
    drawn = graded(made)
    by_size = [{o.title: o for o in outlines(made.pattern.garment, made.pattern.fabrics, size)}
               for size in made.sizes]
    table = groups(measures_table(made, drawn, None))
    letters = []
    for figure in figures(drawn.figures):
        caption = "".join(figure.find("figcaption").itertext()).replace("\u00a0", " ")
        title, rows = next((title, rows) for title, rows in table.items()
                           if caption.startswith(f"{unescape(title)}:"))
        here = {unit: [cells[0].partition(" ")[0] for each, cells in rows if each == unit]
                for unit in ("cm", "in")}
        assert here["cm"] == here["in"]
        assert sorted(here["cm"]) == sorted(
            unescape("".join(t.itertext())) for t in figure.iter("text"))
        letters += here["cm"]
        for unit, (what, *values) in rows:
            said = what.removesuffix(f" [{unit}]")
            for pieces, value in zip(by_size, values, strict=True):
                length = next(d.length for d in pieces[_first_of(title)].dimensions
                              if dimension_text(d.name) == said.partition(" ")[2])
                printed = length.in_cm() if unit == "cm" else length.in_inches()
                assert value == printed.rpartition(" ")[0]
            assert said in caption
    assert letters[:2] == ["A", "B"]
    assert len(set(letters)) == len(letters)


def test_a_front_that_mirrors_the_other_is_named_with_it_in_a_size_too():
    made = proof("set-in cardigan")
    page = of_size(made, made.sizes[0])
    names = [f.find("figcaption/strong").text for f in figures(page)]
    assert names == ["Back", "Right front (left front mirrored)", "Sleeve, knitted twice"]


def test_mirrored_fronts_are_drawn_once_in_the_graded_drawing():
    page = of_all_sizes(proof("set-in cardigan"))
    assert len(figures(page)) == 3
    assert "Right front (left front mirrored)" in page


@pytest.mark.parametrize("form", FORMS)
def test_no_letter_stands_on_another(form):
    for figure in figures(of_all_sizes(proof(form))):
        for a, b in combinations([box(t) for t in figure.iter("text")], 2):
            assert not a.meets(b), (a, b)


def test_the_smallest_and_the_largest_fit_too():
    for of, sizes in (("babies", ("3 mo", "24 mo")), ("women", ("XS", "5X"))):
        for form in ("drop-shoulder cardigan", "raglan pullover"):
            made = proof(form, of=of, sizes=sizes)
            for size in made.sizes:
                for figure in figures(of_size(made, size)):
                    assert float(figure.find("svg").get("width")) <= 328.5
                    for a, b in combinations([box(t) for t in figure.iter("text")], 2):
                        assert not a.meets(b), (of, size.size, a, b)


def test_a_pattern_of_bands_only_has_no_drawing():
    from tests.site.quay_lamp import proved as bands
    from tests.site.quay_lamp import worked
    made = bands(worked())
    assert of_size(made, made.sizes[0]) == ""
    assert of_all_sizes(made) == ""


def test_a_size_name_cannot_become_markup():
    made = proof("hat")
    nasty = made.sizes[0].__class__(**{
        name: getattr(made.sizes[0], name) for name in made.sizes[0].__slots__} | {
        "size": "<script>x</script>"})
    page = of_all_sizes(Proof(pattern=made.pattern, sizes=(nasty,), findings=()))
    assert "<script" not in page


def test_a_scale_can_be_given():
    piece = outline(proof("hat").sizes[0].pieces[0].piece, GAUGE)
    scale = best_scale([piece]) / 2
    (figure,) = figures(schematic(piece, prefix="p", scale=scale, times=3))
    spots = corners(figure)
    assert spots[1][0] - spots[0][0] == pytest.approx(float(piece.width * scale), abs=0.11)
    assert "Hat, knitted three times" in "".join(figure.find("figcaption").itertext())
