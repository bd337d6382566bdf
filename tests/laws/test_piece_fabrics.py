"""Pieces of one garment in several fabrics: each by its own swatch, edges that meet by length.

What a piece has by itself is held to a garment that is knitted in its fabric from end to end; an
edge is measured by the geometry library, along corners that this file finds.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from functools import cache
from pathlib import Path
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString
from walebook.fabric.gauge import Gauge
from walebook.forms.registry import FORMS
from walebook.machine.step_keys import StepYarn
from walebook.machine.steps import Dial, Knit
from walebook.pages.from_texts import read_beds, read_charts
from walebook.pattern.model import Fold
from walebook.proof.proof import Proof, SizeProof
from walebook.proof.texts import Site, Texts, prove_texts
from walebook.proof.yarn_requirement import yarn_requirements
from walebook.shape.cloth import Cloth
from walebook.shape.garment import CannotShape, Garment
from walebook.shape.piece import Piece
from walebook.shape.profile import Change

from tests.laws import pieces
from tests.laws.texts import read_folder
from tests.scale import examples
from tests.small_sources import head

ROOT = Path(__file__).parents[2]
SLEEVED = [name for name, form in FORMS.items() if "sleeve" in form.apart]
RAGLANS = [name for name in SLEEVED if "raglan" in name]
SET_ON = [name for name in SLEEVED if "raglan" not in name]
SIZES = ("S", "L")
HEAD = head(more_yarns=", mohair: {name: Harbour mohair}")
SOURCE = """fabrics:
{fabrics}sizes: [S, L]
garment:
  form: {form}
{chart}  fabric: {main}
{more}"""
WORN = "  chart: women\n  measures: {ease: 10 cm}\n"

FABRIC = "  {name}: {{yarn: {yarn}, dial: {dial}, swatch: {{stitches: {stitches}, width: 20 cm, " \
    "rows: {rows}, height: 20 cm, mass: {mass} g}}}}\n"


def fabric(name: str, stitches: int, rows: int, *, dial: int = 6, yarn: str = "wool",
           mass: int = 20) -> str:
    """A fabric of so many stitches and rows to 20 cm."""
    return FABRIC.format(name=name, yarn=yarn, dial=dial, stitches=stitches, rows=rows, mass=mass)


@cache
def proved(form: str, main: str, more: str, *fabrics: str) -> tuple[Proof | None, tuple[str, ...]]:
    """What comes of a source, and its findings from a caution upward."""
    worn = "" if form == "mitten" else WORN.replace("ease: 10", "hat_width: 50") \
        if form == "hat" else WORN
    source = SOURCE.format(form=form, main=main, more=more, chart=worn, fabrics="".join(fabrics))
    texts = Texts(slug="trial", source=HEAD + source)
    shelf = read_folder(ROOT)
    proof, found = prove_texts(
        texts, beds=read_beds(shelf["beds"], []), charts=read_charts(shelf["charts"], texts, []),
        site=Site(lambda path: True, lambda proof, name: True))
    return proof, tuple(str(each) for each in found if each.severity.value != "remark")


def sizes(form: str, main: str, more: str, *fabrics: str) -> tuple[SizeProof, ...]:
    proof, found = proved(form, main, more, *fabrics)
    assert proof is not None, found
    return proof.sizes


def garment(size: SizeProof) -> Garment:
    assert size.assembled is not None
    return size.assembled.garment


def counted(size: SizeProof, *keys: str) -> dict[str, int]:
    """The counts of some pieces by their names."""
    return {f"{key} {name}": count.value for key, name, count in garment(size).counts
            if key in keys}


def knitted(size: SizeProof, key: str) -> Piece:
    return next(one.piece for one in size.pieces if one.piece.key == key)


def along(changes: tuple[Change, ...], first: int, last: int, gauge: Gauge) -> float:
    """How long a side is from one row to another, by its corners [mm]: a slope from each decrease
    to the next, level where stitches are bound off."""
    path = [(0.0, first * float(gauge.row))]
    for change in changes:
        x, up = path[-1][0] - change.stitches * float(gauge.stitch), change.row * float(gauge.row)
        if change.how.is_level:
            path.append((path[-1][0], up))
        path.append((x, up))
    path.append((path[-1][0], last * float(gauge.row)))
    return float(LineString(path).length)


def from_underarm(piece: Piece, above: int) -> Iterator[tuple[Change, ...]]:
    """The changes of both sides from a row on, without what is held for the shoulders."""
    for edge in (piece.left, piece.right):
        outer = piece.opening.outer.changes if piece.opening else ()
        shift = piece.opening.row if piece.opening else 0
        yield tuple(c for c in (*edge.changes, *(c._replace(row=c.row + shift) for c in outer))
                    if c.row >= above and c.how.value != "hold")


drawn = st.builds(pieces.gauge, st.integers(14, 40), st.integers(20, 60))


@pytest.mark.parametrize("form", SLEEVED)
@given(body=drawn, arm=drawn, size=st.sampled_from(pieces.chart("women").sizes),
       hem=st.sampled_from((0, 40)))
@settings(max_examples=examples(13), deadline=None)
def test_two_fabrics_are_refused_with_figures_or_knitted_with_every_join_closed(
        form: str, body: Gauge, arm: Gauge, size: str, hem: int) -> None:
    cloths = {"": Cloth(key="body", gauge=body, dial=Dial(18)),
              "sleeve": Cloth(key="arm", gauge=arm, dial=Dial(15))}
    made = pieces.cut(form, dict(pieces.chart("women").measurements(size)), body, band=24,
                      hem=pieces.hem(hem, Fold.LOOSE) if hem else None)
    try:
        shaped = FORMS[form].shape(replace(made, cloths=cloths))
    except CannotShape as fault:
        assert any(mark.isdigit() for mark in fault.found) and fault.remedy
        return
    assert pieces.faults(shaped) == []
    try:
        alone = FORMS[form].shape(made)
    except CannotShape:  # a cap that the sleeve's own fabric has stitches and rows for
        return
    both = {key for key, _, _ in alone.counts} - {"sleeve"}
    assert [each for each in shaped.counts if each[0] in both] == [
        each for each in alone.counts if each[0] in both]


@pytest.mark.parametrize("form", SLEEVED)
@pytest.mark.parametrize("seed", range(3))
def test_each_piece_is_counted_as_if_all_were_of_its_fabric(form: str, seed: int) -> None:
    """What sleeve and body have for themselves does not know of the other's fabric."""
    draw = Random(f"{form} {seed}")
    body = fabric("body", draw.randint(36, 64), draw.randint(50, 90))
    arm = fabric("arm", draw.randint(36, 64), draw.randint(50, 90), dial=5)
    hem = draw.choice(("", "  hem: {depth: 4 cm}\n"))
    both = sizes(form, "body", f"{hem}  piece_fabrics: {{sleeve: arm}}\n", body, arm)
    dropped = form.startswith("drop")
    up = "sleeve rows_to_raglan" if form in RAGLANS else "sleeve rows_to_underarm"
    for size, of_body, of_arm in zip(both, sizes(form, "body", hem, body),
                                     sizes(form, "arm", hem, arm), strict=True):
        others = {piece.key for piece in garment(size).pieces} - {"sleeve"}
        assert counted(size, *others) == counted(of_body, *others)
        free = {"sleeve cast_on", up, *([] if dropped else ["sleeve upper_arm"])}
        mine, theirs = counted(size, "sleeve"), counted(of_arm, "sleeve")
        assert {name: mine[name] for name in free} == {name: theirs[name] for name in free}
        if hem:  # the body's hem is counted with the body, the sleeve's with the sleeve
            assert mine["sleeve hem_rows"] == counted(of_arm, "back")["back hem_rows"]


def drawn_sizes(form: str, draw: Random) -> Iterator[tuple[SizeProof, Gauge, Gauge]]:
    """The sizes of a form in two drawn fabrics, with the gauges of the body and of the sleeve."""
    body, arm = ((draw.randint(36, 64), draw.randint(50, 90)) for _ in range(2))
    below, own = (pieces.gauge(Fraction(s, 2), Fraction(r, 2)) for s, r in (body, arm))
    for size in sizes(form, "body", "  piece_fabrics: {sleeve: arm}\n",
                      fabric("body", *body), fabric("arm", *arm, dial=5)):
        yield size, below, own


@pytest.mark.parametrize("form", SET_ON)
@pytest.mark.parametrize("seed", range(3))
def test_sleeve_and_armhole_meet_by_length(form: str, seed: int) -> None:
    for size, below, own in drawn_sizes(form, Random(f"meet {form} {seed}")):
        counts, sleeve, back = counted(size, "back", "sleeve"), knitted(size, "sleeve"), \
            knitted(size, "back")
        up, rows = counts["back rows_to_armhole"], counts["back armhole_rows"]
        if form.startswith("drop"):
            high = 2 * rows * below.row
            wide = (counts["sleeve upper_arm"] - 2) * own.stitch
            assert abs(high - wide) <= own.stitch
            continue
        armhole = sum(along(changes, up, up + rows, below)
                      for changes in from_underarm(back, up))
        under = counts["sleeve rows_to_underarm"]
        cap = sum(along(changes, under, sleeve.rows, own)
                  for changes in from_underarm(sleeve, under)) + float(sleeve.top * own.stitch)
        assert size.assembled is not None
        ease = float(size.assembled.measures["cap_ease"].value)
        assert abs(cap - armhole - ease) <= max(5.0, float(own.row)) + 0.1, (cap, armhole)


@pytest.mark.parametrize("form", RAGLANS)
@pytest.mark.parametrize("seed", range(3))
def test_raglan_lines_in_two_fabrics_are_as_high(form: str, seed: int) -> None:
    """By the rows that the bed knits from the first bind-off of either piece to its top."""
    for size, below, own in drawn_sizes(form, Random(f"lines {form} {seed}")):
        counts = counted(size, "back", "sleeve")
        back, sleeve = knitted(size, "back"), knitted(size, "sleeve")
        over = counts.get("sleeve strap_rows", 0)
        high = (back.rows - counts["back rows_to_raglan"]) * below.row
        line = (sleeve.rows - counts["sleeve rows_to_raglan"] - over) * own.row
        assert abs(high - line) <= below.row + own.row
        first = [next(c for c in piece.right.changes if c.how.is_level) for piece in (back, sleeve)]
        assert abs(first[0].stitches * below.stitch - first[1].stitches * own.stitch) <= (
            below.stitch + own.stitch) / 2
        if over:  # the strap lies along the shoulder's stitches, one of which is in a seam
            along = (counts["back shoulder"] - 1) * below.stitch
            assert abs(over * own.row - along) <= own.row / 2


@pytest.mark.parametrize("seed", range(3))
def test_a_thumb_in_another_fabric_fits_its_slit(seed: int) -> None:
    draw = Random(seed)
    hand, thumb = ((draw.randint(36, 64), draw.randint(50, 90)) for _ in range(2))
    alone = fabric("thin", *thumb, dial=5)
    both = sizes("mitten", "body", "  piece_fabrics: {thumb: thin}\n", fabric("body", *hand), alone)
    for size, of_hand, of_thumb in zip(both, sizes("mitten", "body", "", fabric("body", *hand)),
                                       sizes("mitten", "thin", "", alone), strict=True):
        assert counted(size, "thumb") == counted(of_thumb, "thumb")
        mine, theirs = counted(size, "hand"), counted(of_hand, "hand")
        assert {name: mine[name] for name in mine if "slit" not in name} == {
            name: theirs[name] for name in theirs if "slit" not in name}
        around = (counted(size, "thumb")["thumb cast_on"] - 2) * Fraction(200, thumb[0])
        row = Fraction(200, hand[1])
        assert abs(2 * mine["hand slit_rows"] * row - around) <= row


CHARTED = "  patterned: {yarn: wool, dial: 6, chart: dots, swatch: {stitches: 40, width: 20 cm, " \
    "rows: 60, height: 20 cm}}\ncharts: {dots: {repeat: \"||||\\n|||v\"}}\n"
MESH = "  mesh: {yarn: wool, dial: 6, needles: 2 in 1 out, swatch: {stitches: 40, width: 20 cm, " \
    "rows: 60, height: 20 cm}}\n"


@pytest.mark.parametrize(("form", "more", "expected"), [
    ("hat", "  piece_fabrics: {hat: arm}\n", "not-of-form: found fabrics of pieces in a hat; "
     "expected them in one of drop-shoulder pullover, "),
    ("set-in slipover", "  piece_fabrics: {back: arm}\n", "not-of-form: found fabrics of pieces in "
     "a set-in slipover; "),
    ("raglan pullover", "  piece_fabrics: {back: arm}\n", "unknown-name: found no piece called "
     '"back" that can be of a fabric apart; expected '),
    ("mitten", "  piece_fabrics: {thumb: patterned}\n", 'found a thumb of a fabric with the chart '
     '"dots" of 2 rows: thumbs are plain; '),
    ("set-in pullover", "  piece_fabrics: {sleve: arm}\n", 'unknown-name: found no piece called '
     '"sleve" that can be of a fabric apart; expected '),
    ("set-in pullover", "  piece_fabrics: {sleeve: mohair}\n", 'found no fabric called "mohair"'),
    ("set-in pullover", "  piece_fabrics: {sleeve: body}\n", 'warning, unused: found the fabric '
     '"body" of the sleeve, which all pieces are knitted in. Delete it.'),
    ("set-in pullover", "  piece_fabrics: {sleeve: mesh}\n", "found sleeve, shaped "
     "with 72 stitches that come and go at its edges, of a fabric with needles 2 in, 1 out of "
     "work"),
    ("set-in pullover", "  piece_fabrics: {sleeve: soft}\n"
     "  hem: {kind: latched rib, rib: 1x1, depth: 5 cm, fabric: arm}\n",
     'rib-yarn: found a rib of the yarn "wool" below a sleeve of "mohair"; expected the same yarn. '
     "Give the sleeves a cuff that was swatched in their yarn."),
    ("set-in pullover", "  piece_fabrics: {sleeve: soft}\n  stripes: {sequence: [{yarn: wool, "
     "rows: 4}, {yarn: mohair, rows: 4}]}\n", 'stripes-not-here: found stripes on the sleeve in '
     'the fabric "soft" of the yarn "mohair"; expected a fabric of the yarn "wool", '),
    ("set-in pullover", "  piece_fabrics: {sleeve: patterned}\n  stripes: {sequence: [{yarn: "
     "mohair, rows: 4}, {yarn: wool, rows: 4}]}\n", 'stripes-not-here: found stripes on the sleeve '
     'in the fabric "patterned", which is knitted from a stitch chart; '),
    ("set-in pullover", "  piece_fabrics: {sleeve: arm}\n  align: side seam\n",
     "align-without-chart: found ")])
def test_what_cannot_be_is_told_in_words(form: str, more: str, expected: str) -> None:
    _, found = proved(form, "body", more,
                      fabric("body", 40, 60), fabric("arm", 40, 60, dial=5), MESH,
                      fabric("soft", 36, 56, yarn="mohair"), CHARTED)
    assert any(expected in each for each in found), found


def test_stripes_of_plain_sleeves_leave_a_patterned_body_alone() -> None:
    stripes = "  stripes: {sequence: [{yarn: mohair, rows: 4}, {yarn: wool, rows: 4}], " \
        "pieces: [sleeve]}\n"
    proof, found = proved("set-in pullover", "patterned", "  piece_fabrics: {sleeve: arm}\n"
                          + stripes, fabric("arm", 40, 60, dial=5), CHARTED)
    assert proof is not None, found
    assert {one.piece.key: bool(one.piece.striped) for one in proof.sizes[0].pieces} == {
        "back": False, "front": False, "sleeve": True}
    assert {one.piece.key: bool(one.piece.chart) for one in proof.sizes[0].pieces} == {
        "back": True, "front": True, "sleeve": False}


def test_counts_outright_are_worth_what_the_fabric_of_their_piece_makes_of_them() -> None:
    """44 stitches of a sleeve, two of them in the seam, are 42 × 20 / 50 = 16.8 cm wide; 100 rows
    of it 100 × 20 / 80 = 25 cm long."""
    more = "  piece_fabrics: {sleeve: arm}\n"
    source = HEAD + SOURCE.format(
        form="set-in pullover", main="body", more=more, chart=WORN.replace(
            "{ease: 10 cm}", "{ease: 10 cm, cuff_width: 44 stitches, sleeve_length: 100 rows}"),
        fabrics=fabric("body", 40, 60) + fabric("arm", 50, 80, dial=5))
    shelf = read_folder(ROOT)
    texts = Texts(slug="trial", source=source)
    made, told = prove_texts(texts, beds={}, charts=read_charts(shelf["charts"], texts, []),
                             site=Site(lambda path: True, lambda proof, name: True))
    assert made is not None, told
    for size in made.sizes:
        assert size.assembled is not None
        measures = size.assembled.measures
        assert (measures["cuff_width"].value, measures["sleeve_length"].value) == (168, 250)
        assert counted(size, "sleeve")["sleeve cast_on"] == 44
        assert counted(size, "sleeve")["sleeve rows_to_underarm"] == 100


def test_each_fabric_has_its_dial_its_yarn_and_its_mass() -> None:
    """A stitch of the body weighs 20 g / (50 × 70), one of the sleeve 30 g / (40 × 60)."""
    proof, found = proved(
        "set-in pullover", "body", "  piece_fabrics: {sleeve: arm}\n",
        fabric("body", 50, 70), fabric("arm", 40, 60, dial=5, yarn="mohair", mass=30))
    assert proof is not None, found
    for size in proof.sizes:
        dials = {one.piece.key: {str(step.dial) for step in one.program.of(Knit)}
                 for one in size.pieces}
        assert dials == {"back": {"6"}, "front": {"6"}, "sleeve": {"5"}}
        of = {need.yarn.key: need for need in yarn_requirements(proof.pattern, size)}
        for yarn, keys, each in (("wool", ("back", "front"), Fraction(20, 50 * 70)),
                                 ("mohair", ("sleeve",), Fraction(30, 40 * 60))):
            stitches = sum(dict(one.trace.stitches)[StepYarn.MAIN] * (2 if one.piece.key == "sleeve"
                                                                  else 1)
                           for one in size.pieces if one.piece.key in keys)
            assert of[yarn].knitted.grams == stitches * each
        swatched = {(extra.yarn, extra.fabric) for need in of.values() for extra in need.extras
                    if extra.fabric}
        assert swatched == {("wool", "body"), ("mohair", "arm")}
