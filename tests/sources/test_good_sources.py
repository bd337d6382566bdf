"""What a sound source comes to: every value typed, every default filled in, every place known.

Defaults are those the source format states. Buttons: 40 ligne to the inch (L01 in the worked
examples, Workroom Buttons, International standard), the inch of exactly 25.4 mm.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest
from reading import BASE, FILE, SMALLEST, changed, read
from walebook.core.counts import NEAREST, ODD, Rounding
from walebook.core.problems import Place
from walebook.core.units import Length
from walebook.machine.steps import Dial, Side
from walebook.pattern.corrections import Correction
from walebook.pattern.edges import EdgeShape, EdgeSpec
from walebook.pattern.fabrics import Fabric, NeedleBed, Swatch, Yarn
from walebook.pattern.holes import Buttonholes, Distance, Lean, OddGap
from walebook.pattern.model import Band, BandRows, Fold, Pattern, Wearer
from walebook.pattern.pictures import Picture
from walebook.source.fabric_reading import size_slug
from walebook.source.pattern import read_bed
from walebook.source.source import parse_source

BEDS = Path(__file__).parents[2] / "patterns" / "_beds"


def mm(figure: int | str) -> Length:
    return Length(Fraction(figure))


def sound(text: str) -> Pattern:
    pattern, findings = read(text)
    assert findings == ()
    assert pattern is not None
    return pattern


def holes(text: str) -> Buttonholes:
    asked = next(iter(sound(text).bands.values())).buttonholes
    assert asked is not None
    return asked


def test_the_head_of_a_pattern() -> None:
    p = sound(BASE)
    assert (p.slug, p.title, p.version, p.date) == (
        "slack-tide", "Slack Tide cardigan bands", "1.2.0", "2026-10-30")
    assert (p.designer, p.licence) == ("Wren Ashdown", "CC BY-NC 4.0")
    assert (p.summary, p.wearer) == ("Folded bands for a bulky cardigan.", Wearer.WOMEN)
    assert p.bed == NeedleBed(name="bulky", pitch=mm(9), needles=110)
    assert p.skills == ("knit rows", "hang an edge")
    assert p.pictures == (Picture(file="front.png", alt="The front band"),)
    assert p.corrections == (Correction(date="2026-10-29", text="Rows of size M put right."),)


def unplaced(fabric: Fabric) -> Fabric:
    """The fabric without the lines where its swatches are stated."""
    assert all(swatch.place for swatch in fabric.swatches)
    return replace(fabric, swatches=tuple(replace(s, place=None) for s in fabric.swatches))


def test_the_materials_of_a_pattern() -> None:
    p = sound(BASE)
    assert p.yarns == {"main": Yarn(key="main", name="Harbour Bulky", fibre="100 % wool",
                                    package_g=Fraction(100), package_length=mm(120_000))}
    assert unplaced(p.fabrics["body"]) == Fabric(key="body", yarn="main", dial=Dial(18), swatches=(
        Swatch(stitches=20, width=mm(142), rows=30, height=mm(150), mass_g=Fraction(13)),
        Swatch(stitches=20, width=mm(141), rows=30, height=mm(151))))
    assert unplaced(p.fabrics["band"]) == Fabric(key="band", yarn="main", dial=Dial(13), swatches=(
        Swatch(stitches=20, width=mm(132), rows=30, height=mm(141)),))
    assert p.sizes == ("XS", "S", "M")
    assert p.edges == {
        "front": EdgeSpec(key="front", fabric="body", shape=EdgeShape.FRONT,
                          length={"XS": mm(500), "S": mm(510), "M": mm(520)}),
        "neck": EdgeSpec(key="neck", fabric="body", shape=EdgeShape.OPEN,
                         rows={"XS": 52, "S": 52, "M": 52})}


def test_a_band_with_everything_said() -> None:
    assert sound(BASE).bands["front"] == Band(own_edge=True, kind="enclosing",
        key="front", title="Front band", edge="front", yarn="main", dial=Dial(12), fabric="band",
        pick_up=None, depth=dict.fromkeys(("XS", "S", "M"), mm(30)), rows=None, fold=Fold.TURNED,
        ease=Fraction(-2, 100), rounding=Rounding("multiple", 4, 1), waste_rows=8, stitches_in=2,
        buttonholes=Buttonholes(
            button=mm(22), stitches=dict.fromkeys(("XS", "S", "M"), 3),
            buttonhole_count={"XS": 5, "S": 5, "M": 6}, every=None, lower=Distance(stitches=2),
            upper=Distance(length=mm(15)), front=Side.RIGHT, odd_gap=OddGap.SPREAD,
            lean=Lean.NECK, end_give=2, band_give=2, tolerance=Fraction(2, 100)))


def test_a_band_by_rule_and_rows() -> None:
    band = sound(BASE).bands["neck"]
    assert (band.fabric, band.pick_up, band.depth) == (None, Fraction(3, 4), None)
    assert band.rows == BandRows(to_holes=4, holes_to_fold=4, fold_to_holes=4, to_finish=4)
    assert band.dial == Dial(18)  # the body's 6, by whose gauge it is counted
    assert band.buttonholes is None


def test_everything_that_may_be_left_out_has_its_default() -> None:
    p = sound(SMALLEST)
    assert p.bed == NeedleBed(name="9 mm bed", pitch=mm(9), needles=110)
    assert (p.skills, p.pictures, p.corrections, p.notes) == ((), (), (), "")
    assert p.yarns["main"] == Yarn(key="main", name="Harbour Bulky")
    assert p.fabrics["body"].swatches[0].mass_g is None
    assert p.bands["left_front"] == Band(own_edge=True, kind="enclosing",
        key="left_front", title="Left front band", edge="front", yarn="main",
        dial=Dial(19),  # 6.1, that of the edge's fabric
        fabric=None, pick_up=Fraction(3, 4), depth={"one size": mm(30)}, rows=None,
        fold=Fold.TURNED, ease=Fraction(0), rounding=NEAREST, waste_rows=8, stitches_in=2,
        buttonholes=Buttonholes(
            button=mm(11), stitches=None, buttonhole_count=None, every=mm(80),
            lower=Distance(length=mm("12.5")), upper=Distance(length=mm("12.5")),
            front=Side.LEFT, ends_by_default=True, odd_gap=OddGap.SPREAD, lean=Lean.NECK,
            end_give=2, band_give=2, tolerance=Fraction(1, 50)))


def test_a_band_of_swatched_fabric_takes_its_dial_and_yarn() -> None:
    text = changed("    dial: 4\n    yarn: main\n    depth", "    depth")
    assert (sound(text).bands["front"].dial, sound(text).bands["front"].yarn) == (Dial(13), "main")


@pytest.mark.parametrize(("wearer", "front"), [
    ("women", Side.RIGHT), ("men", Side.LEFT),  # B09, The Naked Sheep, The One-Row Buttonhole
    ("children", Side.RIGHT), ("babies", Side.RIGHT),  # common practice, no source
])
def test_the_side_of_the_buttonholes_by_wearer(wearer: str, front: Side) -> None:
    assert holes(SMALLEST.replace("wearer: men", f"wearer: {wearer}")).front is front


def test_an_end_is_at_least_the_width_of_the_button() -> None:
    assert holes(SMALLEST.replace("11 mm", "22 mm")).lower == Distance(length=mm(22))


@pytest.mark.parametrize(("written", "read_as"), [
    ("22 mm", mm(22)), ("24 ligne", mm("15.24")), ("24L", mm("15.24")),
    ("7/8 in", mm("22.225")), ('"7/8\\""', mm("22.225")), ("1.5 cm", mm(15)),
])
def test_buttons_as_people_write_them(written: str, read_as: Length) -> None:
    assert holes(SMALLEST.replace("11 mm", written)).button == read_as


@pytest.mark.parametrize(("written", "read_as"), [
    ("2 stitches", Distance(stitches=2)), ("1 stitch", Distance(stitches=1)),
    ("3 sts", Distance(stitches=3)), ("2 cm", Distance(length=mm(20))),
])
def test_one_distance_for_both_ends(written: str, read_as: Distance) -> None:
    asked = holes(changed("{lower: 2 stitches, upper: 1.5 cm}", written))
    assert (asked.lower, asked.upper) == (read_as, read_as)


def test_a_rounding_by_its_word() -> None:
    assert sound(changed("{multiple: 4, plus: 1}", "odd")).bands["front"].rounding == ODD


def test_words_that_yaml_would_change_stay_words() -> None:
    text = SMALLEST.replace("title: A plain band", "title: no").replace("Wren Ashdown", "010")
    p = sound(text.replace("CC BY-NC 4.0", "1:20"))
    assert (p.title, p.designer, p.licence) == ("no", "010", "1:20")


def test_a_folded_summary_is_one_line() -> None:
    text = SMALLEST.replace("summary: Everything that", "summary: |\n  Everything\n  that")
    assert sound(text).summary == "Everything that may be left out is left out."


def test_places_of_values_sizes_items_and_sections() -> None:
    p = sound(BASE)
    assert p.places.of("edges.front.length", "M") == Place(FILE, 34, 38)
    assert p.places.of("edges.neck.rows", "M") == Place(FILE, 37, 11)
    assert p.places.of("fabrics.body.swatches.1") == Place(FILE, 25, 9)
    assert p.places.of("fabrics.body.swatches.1.width") == Place(FILE, 25, 31)
    assert p.places.of("bands.front.buttonholes") == Place(FILE, 51, 5)
    assert p.places.of("bands.front.buttonholes.ends.upper") == Place(FILE, 55, 40)
    assert p.places.of("bands.neck.fold") == Place(FILE, 62, 3)
    assert p.places.of("pictures.0.file") == Place(FILE, 11, 12)


def test_every_entry_of_the_source_has_a_place() -> None:
    lines = {place.line for place in sound(BASE).places.entries.values()}
    assert lines == set(range(1, len(BASE.splitlines()) + 1))


def test_sizes_name_their_pages() -> None:
    assert [size_slug(s) for s in ("XS", "2X", "36/38", "0-3 m", "one size", "2.5")] == [
        "xs", "2x", "36-38", "0-3-m", "one-size", "2-5"]


@pytest.mark.parametrize(("name", "pitch", "needles"), [
    ("standard", "4.5", 200), ("mid", "6.5", 150), ("chunky", "8", 100),  # M04, tracykm, 2007
    ("fine", "3.6", 250), ("bulky", "9", 110),  # pitch M02, Back to Back Knits; needles: no source
])
def test_the_usual_beds(name: str, pitch: str, needles: int) -> None:
    text = (BEDS / f"{name}.yaml").read_text(encoding="utf-8")
    node, problems = parse_source(text, name=f"{name}.yaml")
    assert node is not None
    assert problems == ()
    assert read_bed(node, name=name) == (NeedleBed(name=name, pitch=mm(pitch), needles=needles), ())
    assert ("not verified" in text) == (name in ("fine", "bulky"))


def test_a_bed_file_with_faults() -> None:
    node, _ = parse_source("pitch: 9\nneedle: 110\nsource: mine\n", name="wide.yaml")
    assert node is not None
    bed, problems = read_bed(node, name="wide")
    assert bed is None
    assert [str(problem) for problem in problems] == [
        'wide.yaml:1:8: error, bad-length: found "9"; expected a length such as 32 cm or 12.5 in. '
        "Write the unit after the number.",
        'wide.yaml:2:1: error, unknown-key: found the unknown key "needle" in the bed; '
        'expected "needles". Write needles.']


def test_a_correction_names_its_version_and_sizes() -> None:
    (one,) = sound(BASE.replace("- {date: 2026-10-29,", "- {date: 2026-10-29, version: 1.1.0, "
                                "sizes: [M],")).corrections
    assert (one.version, one.sizes) == ("1.1.0", ("M",))
    assert one.concerns("M") and not one.concerns("S")
