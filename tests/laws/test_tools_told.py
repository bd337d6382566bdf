"""The list of tools has what the steps use, each once, and nothing that no step uses."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from walebook.core.units import read_dial, read_length
from walebook.machine.step_keys import StepYarn
from walebook.machine.steps import Side
from walebook.pages.materials import machine, materials
from walebook.pages.ravel_cords import cords_at_once
from walebook.pages.shared_by_pages import shared
from walebook.pages.size_page import size_page
from walebook.pattern.holes import ButtonholeKind
from walebook.pattern.model import Fold, Neck, Pattern
from walebook.pattern.rib_specs import RibMake, RibSpec
from walebook.proof.advice import advise_all
from walebook.proof.proof import SizeProof, prove
from walebook.shape.ribs import RIBS

from tests import small_patterns as small
from tests.against import wardrobe
from tests.against.wardrobe import chart
from tests.laws.random_sources import written
from tests.laws.test_any_source import judged
from tests.laws.test_band_kinds import ASKED, banded
from tests.laws.test_yarn_sums import source
from tests.site.garments import SIZES, assembled, garment


def hat(rib: str = "2x1", make: RibMake = RibMake.LATCHED) -> Pattern:
    """A hat that begins with a rib."""
    return small.pattern(
        **small.DESIGNED, slug="quay", title="Quay", sizes=("woman",),
        bed=replace(small.bed("mid", "6.5 mm", 200), second=True),
        yarns=small.wool("Wool", 50, "80 m"),
        fabrics=(small.fabric("body", "6", small.swatch(30, "15 cm", 40, "14 cm", grams=8)),),
        garment=small.spec("hat", chart=chart("heads"), hem=RibSpec(
            make=make, works=RIBS[rib], depth=read_length("5 cm"), dial=read_dial("4"))))


def proved(pattern: Pattern) -> SizeProof:
    """The first size, knitted."""
    proof, problems = prove(pattern)
    assert proof is not None, [str(p) for p in problems]
    return proof.sizes[0]


def listed(pattern: Pattern) -> list[str]:
    """The tools and notions of the first size, without their markup."""
    told = re.findall(r"<li>(.*?)</li>", materials(pattern, proved(pattern)))
    return [re.sub(r"<[^>]*>", "", item) for item in told]


# What a list begins an entry with, and the words by which steps and ways of working name the tool.
NAMED = {
    "Latch tool": "latch tool|bind them off as one", "Transfer tool": r"(?<!two )transfer tools?",
    "Two transfer tools": "two transfer tools", "Garter bar": "garter bar",
    "Gate pegs": "gate pegs?", "Cast-on comb": r"\bcomb\b",
    "Weights": r"(?<!claw )\bweights\b", "Claw weights": "claw weights?",
    "A carriage with two feeders": "second feeder", "Marking thread": "(?:tie|lay) a thread",
    "Threads or pins": "threads or pins", "Clips": r"\bclips?\b",
    "Clean cloth": r"(?<!damp )\bcloth\b", "Damp cloth": r"\bdamp cloth\b",
    "Sewing needle and strong thread": r"sew (?:on )?\d+ button",
    "Blunt sewing needle": "sewing needle|darn", "Waste yarn": "waste yarn", "Labels": "label them",
    "Ravel cord": "ravel cord", "Buttonhole cord": "buttonhole cord",
    "Pocket cord": "pocket cord", "Scissors and tape measure": r"\bcut\b|\d cm\b",
    "Pins and a flat board": r"\bblock\b", "Steam iron or steamer": r"\bsteam them\b|allows steam"}


def unlike(page: str) -> dict[str, bool]:
    """The tools that a size's page lists and never names (True), or names and never lists."""
    materials_at, start, end = (
        next(found.start() for found in re.finditer(rf'{{ #{name} }}|id="{name}"', page))
        for name in ("materials", "gauge", "counted"))
    entries = re.findall(r"<strong>(.*?)</strong>", page[materials_at:start])
    drawn = r"<svg.*?</svg>|<(?:li|p|td|tr|div|dt|dd)\b[^>]*>"  # a block ends the words before it
    said = re.sub(r"<[^>]*>", "", re.sub(drawn, " ", page[start:end], flags=re.S))
    found = {}
    for tool, words in NAMED.items():
        listed = any(entry.startswith(tool) for entry in entries)
        if listed != bool(re.search(words, said, re.IGNORECASE)):
            found[tool] = listed
    return found


@pytest.mark.parametrize("form", ["set-in cardigan", "raglan pullover", "saddle raglan cardigan",
                                  "sideways pullover"])
def test_every_tool_named_is_listed_and_every_tool_listed_is_named(form: str) -> None:
    proof = assembled(form)
    common, advice = shared(proof), advise_all(proof).sizes
    for size, advised in zip(proof.sizes, advice, strict=True):
        assert unlike(size_page(proof.pattern, size, common, advised)) == {}, size.size


@pytest.mark.parametrize(("kind", "closing"), ASKED)
def test_tools_of_any_band_are_named_and_listed(kind: str, closing: ButtonholeKind | None) -> None:
    fold = tuple(Fold)[len(kind) % len(Fold)]
    proof, problems = prove(banded(kind, closing, rows=90, fold=fold, front=Side.LEFT,
                                   split=(4, 5)))
    assert proof is not None, [str(p) for p in problems]
    page = size_page(proof.pattern, proof.sizes[0], shared(proof), None)
    assert unlike(page) == {}


def test_a_hat_that_is_drawn_up_needs_no_waste_yarn_and_no_prongs() -> None:
    tools = " | ".join(listed(hat()))
    assert "Waste yarn" not in tools and "prongs" not in tools
    assert tools.count("Latch tool") == tools.count("lunt sewing needle") == 1


def test_one_comb_serves_a_rib_on_two_beds() -> None:
    assert sum("comb" in tool for tool in listed(hat("2x2", RibMake.TWO_BED))) == 1


@pytest.mark.parametrize("rib", sorted(RIBS))
def test_a_second_bed_must_rack_where_every_needle_works(rib: str) -> None:
    made = hat(rib, RibMake.TWO_BED)
    said = machine(made.garment, made.bed, 100)
    assert "second bed" in said and ("rack" in said) == (rib == "full needle")


def test_decreases_ask_for_as_many_prongs_as_stitches_move() -> None:
    assert any("with 3 prongs" in tool for tool in listed(garment("raglan pullover")))


@pytest.mark.parametrize("moved", range(1, 8))
def test_no_tool_has_more_prongs_than_such_tools_have(moved: int) -> None:
    """Tools with 1, 2 and 3 prongs come with hand-flat machines: common practice, no source."""
    made = garment("raglan pullover")
    assert made.garment is not None
    tools = listed(replace(made, garment=replace(made.garment, moved=moved)))
    prongs = {int(n) for tool in tools for n in re.findall(r"with (\d+) prong", tool)}
    in_goes = {3 for _ in range(moved // 3)} | {moved % 3}
    # three at a time, then what is left; and fewer where few stitches are left
    assert in_goes - {0, 1} <= prongs <= {*range(2, min(moved, 3) + 1)}
    several = [tool for tool in tools if "goes" in tool]
    assert bool(several) == (moved > 3)
    assert all(f"{moved} stitches" in tool and f"in {-(-moved // 3)} goes" in tool
               for tool in several)


def test_a_mitre_takes_a_garter_bar_or_a_tool_there_is() -> None:
    """A pullover's page asked for a transfer tool with 120 prongs."""
    band = small.band(key="neck", title="Neckband", edge="neck", fabric="band", mitre=True,
                      fold=Fold.LOOSE,
                      depth=dict.fromkeys(SIZES, read_length("3 cm")))
    made = garment("drop-shoulder pullover", neck=Neck.V, bands=False)
    tools = listed(replace(made, bands={"neck": band}))
    (told,) = [tool for tool in tools if "mitre" in tool]
    wide = re.fullmatch(r"Garter bar of the bed's pitch for the mitre, or a transfer tool with 3 "
                        r"prongs, three at a time; up to (\d+) stitches are moved side by side",
                        told)
    assert wide and int(wide[1]) > 12  # fewer are moved with the transfer tool alone
    assert not [tool for tool in tools if re.search(r"\d\d prongs", tool)]


def test_a_back_seam_has_the_rows_that_the_bed_knitted() -> None:
    size = proved(hat())
    assert size.assembled is not None
    join, = size.assembled.garment.joins
    assert join.one == join.other == dict(size.pieces[0].trace.rows)[StepYarn.MAIN]


@pytest.mark.parametrize(("hem", "lengths"), [("waste yarn", 4), ("", 1)])
def test_a_ravel_cord_is_listed_for_every_edge_that_waits_at_once(hem: str, lengths: int) -> None:
    """Back, front and two sleeves begin on a cord each, which stays in until the making up draws
    it: four cords, by the order of the steps. That of the neckband alone is drawn on the bed."""
    made = wardrobe.pattern("drop-shoulder pullover", fold=None, sizes=("M",))
    assert made.garment is not None
    ways = {"": hem} if hem else {}
    items = listed(replace(made, garment=replace(made.garment, cast_on=ways)))
    found = [item for item in items if item.startswith("Ravel cord")]
    said = [int(many[1]) if (many := re.search(r"(\d+) lengths", item)) else 1 for item in found]
    assert said == [lengths], found


@pytest.mark.parametrize(("form", "edge", "starts"), [
    ("drop-shoulder pullover", "neck", 1), ("set-in slipover", "armhole", 2)])
def test_a_ravel_cord_is_used_again_where_more_bands_begin_above_one(
        form: str, edge: str, starts: int) -> None:
    """A neckband is one band, and of armhole bands there are two. Each draws its cord on the bed,
    so that one cord will do."""
    made = wardrobe.pattern(form, fold=None, sizes=("M",), edge=edge)
    (item,) = [item for item in listed(made) if item.startswith("Ravel cord")]
    assert "lengths" not in item
    assert ("Use it again at each start" in item) == (starts > 1)


@pytest.mark.parametrize(("kind", "lengths"), [("enclosing", 3), ("single", 2)])
def test_a_band_needs_its_own_cord_beside_those_that_still_wait(kind: str, lengths: int) -> None:
    """Both mittens wait on a cord. Their cuffs are hung above it: an enclosing band begins on a
    cord of its own, which is drawn when the band is closed, and no band of one layer has any."""
    text = source(garment={"form": "mitten", "fabric": "body", "cast_on": {
        "hand": "waste yarn"}}, bands={"cuff": {
            "edge": "cuff", "kind": kind, "fabric": "band", "depth": "4 cm"}})
    proof, found = judged(written(text))
    assert proof is not None, [str(p) for p in found]
    for size in proof.sizes:
        items = [re.sub(r"<[^>]*>", "", item) for item in
                 re.findall(r"<li>(.*?)</li>", materials(proof.pattern, size))]
        item, = (item for item in items if item.startswith("Ravel cord"))
        assert f"{lengths} lengths" in item


def test_no_cord_is_in_use_where_nothing_begins_above_one() -> None:
    """A hat with a rib made on waste yarn has no ravel cord, and no band that could have one."""
    size = proved(garment("hat", hem=None, bands=False))
    assert not any(work.program.cord_yarn for work in size.pieces) and not size.strips
    assert cords_at_once(size) == 0
