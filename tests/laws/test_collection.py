"""The Lantern Quay collection shows everything a source can name, and a page tells of each.

What a source can name is taken from the tables that it is read with: whatever is added there is
missed here until a pattern shows it in every one of its sizes, and a page under site_src/ tells
what it is for, what it costs, its rule with its source, and draws it.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator
from itertools import pairwise
from pathlib import Path

import pytest
from walebook.catalogue.bands import KINDS
from walebook.catalogue.methods import (
    BIND_OFF_METHODS,
    BIND_OFFS,
    CAST_ON_METHODS,
    CAST_ONS,
    DRAWN,
    TOGETHER,
)
from walebook.core.counts import GIVEN, RULES, ParityOf
from walebook.forms.registry import FORMS
from walebook.machine.edge_steps import BindOff
from walebook.machine.steps import CastOn
from walebook.pattern.cells import Cell
from walebook.pattern.conventions import ArmholeCurve, CapCurve, Larger, NeckCurve
from walebook.pattern.holes import ButtonholeKind, Buttonholes, OddGap
from walebook.pattern.model import (
    Alignment,
    Band,
    Fold,
    GarmentSpec,
    HemSpec,
    Neck,
    Pattern,
    Shown,
    Wearer,
)
from walebook.pattern.rib_specs import RibEnds, RibMake, RibSpec
from walebook.pattern.slope_specs import Order, Slope
from walebook.plan.buttonholes import reach
from walebook.plan.hole_fit import STITCHES_GIVEN
from walebook.proof.proof import Proof, SizeProof
from walebook.shape.piece import Ending
from walebook.shape.ribs import RIBS
from walebook.words.buttonhole_text import PAGES as CLOSING_PAGES

from tests.whole_collection import collection

ROOT = Path(__file__).parents[2]
SITE = ROOT / "site_src"
NAV = (SITE / ".site.yml").read_text(encoding="utf-8")


# What one size of one pattern shows, by what a source can name


def in_garment(named: Callable[[GarmentSpec], Iterable[str]]) -> Callable[
        [Pattern, SizeProof], Iterable[str]]:
    return lambda pattern, size: named(pattern.garment) if pattern.garment else ()


def in_bands(named: Callable[[Band], Iterable[str]]) -> Callable[
        [Pattern, SizeProof], Iterable[str]]:
    return lambda pattern, size: [said for plan in size.plans for said in named(plan.band)]


def in_holes(named: Callable[[Buttonholes], Iterable[str]]) -> Callable[
        [Pattern, SizeProof], Iterable[str]]:
    return in_bands(lambda band: named(band.buttonholes) if band.buttonholes else ())


def hems(spec: GarmentSpec) -> Iterator[str]:
    match spec.hem:
        case HemSpec(fold=fold):
            yield f"hung, {fold.value}"
        case RibSpec(make=make):
            yield make.value


def ribs(pattern: Pattern, size: SizeProof) -> Iterator[str]:
    """The repeats of ribs that pieces begin with, and of ribbed bands."""
    works = [plan.band.rib for plan in size.plans if plan.band.kind == "ribbed"]
    if pattern.garment and isinstance(pattern.garment.hem, RibSpec):
        works.append(pattern.garment.hem.works)
    yield from (name for name, repeat in RIBS.items() if repeat in works)


def necks(spec: GarmentSpec) -> Iterator[str]:
    if "neck" in FORMS[spec.form].edges:
        yield spec.neck.value


def folds(band: Band) -> Iterator[str]:
    if KINDS[band.kind].layers == 2:
        yield band.fold.value


def cast_ons(pattern: Pattern, size: SizeProof) -> Iterator[str]:
    yield from (CAST_ON_METHODS[step.method].name for piece in size.pieces
                for step in piece.program.steps if isinstance(step, CastOn))
    if pattern.garment:
        yield from pattern.garment.cast_on.values()


def bind_offs(pattern: Pattern, size: SizeProof) -> Iterator[str]:
    yield from (BIND_OFF_METHODS[step.method].name for work in (*size.pieces, *size.strips)
                for step in work.program.steps if isinstance(step, BindOff))
    yield from (plan.band.bind_off for plan in size.plans)
    if size.assembled:
        yield from (join.method or TOGETHER.name for join in size.assembled.garment.joins
                    if join.title.startswith("shoulder"))
    if any(piece.piece.ends is Ending.DRAWN_UP for piece in size.pieces):
        yield DRAWN.name


PLACES = ("number", "every", "at", "in_hem", "through", "centre_hole")


def placed(holes: Buttonholes) -> Iterator[str]:
    yield from (key for key in PLACES
                if getattr(holes, "buttonhole_count" if key == "number" else key))


def roundings(pattern: Pattern, size: SizeProof) -> Iterator[str]:
    asked = [plan.band.rounding for plan in size.plans]
    if pattern.garment:
        asked += pattern.garment.rounding.values()
    yield from ("parity of" if isinstance(one, ParityOf) else one.rule for one in asked)


def marks(pattern: Pattern, size: SizeProof) -> Iterator[str]:
    yield from (cell.value for chart in pattern.stitch_charts.values() for row in chart.rows
                for cell in row)


def pairs(spec: GarmentSpec) -> Iterator[str]:
    for name, pieces in FORMS[spec.form].pairs.items():
        if pieces in spec.side_by_side:
            yield name


def around(pattern: Pattern, size: SizeProof) -> Iterator[str]:
    if pattern.garment and any(p.band.edge == "front_and_neck" for p in size.plans):
        yield pattern.garment.neck.value


SCHEDULED = ("rates", "first_row", "plain_start", "plain_end")


def scheduled(spec: GarmentSpec) -> Iterator[str]:
    yield from (key for slope in spec.slopes for key in SCHEDULED if getattr(slope, key))


def orders(spec: GarmentSpec) -> Iterator[str]:
    yield from (slope.order.value for slope in spec.slopes if slope.order)


def extras(pattern: Pattern, size: SizeProof) -> Iterator[str]:
    """What is a yes or no of a garment or band."""
    for plan in size.plans:
        yield from (name for name, has in (
            ("graded tension", plan.band.dials), ("mitre", plan.mitre),
            ("corners", plan.mitre and len(plan.mitre.turns.corners) > 1), ("parts", plan.parts),
            ("zip", plan.band.zip), ("points", plan.band.collar.points),
            ("outer dial", plan.band.collar.outer_dial)) if has)
    if spec := pattern.garment:
        yield from (name for name, has in (
            ("placket", spec.placket), ("pockets", spec.pockets), ("cord", spec.cord),
            ("cuff apart", spec.cuffs),
            ("ends of a rib", any(isinstance(hem, RibSpec) and hem.ends is not RibEnds.RUN_ON
                                  for hem in (*spec.hems.values(), *spec.cuffs.values()))),
            ("hem by size", len({str(hem.depth) for hem in spec.hems.values()}) > 1),
            ("pockets in counts", spec.pockets and isinstance(spec.pockets.width[size.size], int)
             and isinstance(spec.pockets.height[size.size], int)),
            ("placket in rows", spec.placket and isinstance(spec.placket[size.size], int)),
            ("name of a piece", spec.names), ("note", pattern.designer_notes),
            ("technique page", pattern.techniques)) if has)


def shapings(pattern: Pattern, size: SizeProof) -> Iterator[str]:
    """How armholes, caps, necks and shoulders are shaped, as far as the source says it."""
    spec = pattern.garment
    if spec is None or size.size not in spec.conventions:
        return
    own, asked = spec.conventions[size.size], spec.measures
    yield from (curve.value for curve in (own.armhole.curve, own.cap.curve, own.front_neck.curve))
    yield own.shoulders.remainder.value
    yield from (name for name, has in (
        ("bind_off", own.armhole.bind_off), ("top_bind_offs", own.cap.top_bind_offs),
        ("every_row", own.cap.every_row), ("front_centre", own.front_neck.centre),
        ("front_steps", own.front_neck.steps), ("back_centre", own.back_neck.centre),
        ("back_steps", own.back_neck.steps), ("steps", own.shoulders.steps)) if has)
    yield from asked.keys() & set(SHAPED)


SHAPED = ("armhole_straight", "cap_height", "cap_top")
WORDS = (ArmholeCurve, CapCurve, NeckCurve, Larger)
SHAPINGS = (*(word.value for words in WORDS for word in words), "bind_off", "top_bind_offs",
            "every_row", "front_centre", "front_steps", "back_centre", "back_steps", "steps",
            *SHAPED)
EXTRAS = ("graded tension", "mitre", "corners", "parts", "zip", "points", "outer dial", "placket",
          "pockets", "cord", "cuff apart", "ends of a rib", "hem by size", "pockets in counts",
          "placket in rows", "name of a piece", "note", "technique page")
NAMED: dict[str, tuple[Iterable[str], Callable[[Pattern, SizeProof], Iterable[str]]]] = {
    "kind of band": (KINDS, in_bands(lambda band: [band.kind])),
    "closing": ((c.value for c in ButtonholeKind), in_holes(lambda holes: [holes.kind.value])),
    "fold": ((f.value for f in Fold), in_bands(folds)),
    "hem": (("hung, loose", "hung, picot", *(make.value for make in RibMake)), in_garment(hems)),
    "rib": (RIBS, ribs),
    "form": (FORMS, in_garment(lambda spec: [spec.form])),
    "neck": ((n.value for n in Neck), in_garment(necks)),
    "way on": (CAST_ONS, cast_ons),
    "way off": (BIND_OFFS, bind_offs),
    "way of placing holes": (PLACES, in_holes(placed)),
    "place of an odd gap": ((o.value for o in OddGap), in_holes(lambda h: [h.odd_gap.value])),
    "rounding": ((*(rule for rule in RULES if rule != GIVEN), "parity of"), roundings),
    "mark of a chart": ((c.value for c in Cell), marks),
    "line to lay repeats from": ((a.value for a in Alignment),
                                 in_garment(lambda spec: [spec.align.value])),
    "slope": ((s.value for s in Slope), in_garment(lambda spec: [
        slope.slope.value for slope in spec.slopes])),
    "order of rates": ((o.value for o in Order), in_garment(orders)),
    "way of scheduling a slope": (SCHEDULED, in_garment(scheduled)),
    "side of a collar": ((s.value for s in Shown), in_bands(
        lambda band: [band.collar.shows.value] if band.collar.shows else [])),
    # Round a round neck it has square corners, which want a mitre: band-corner.
    "neck with one band from hem to hem": (("v",), around),
    "pieces side by side": (("fronts", "sleeves"), in_garment(pairs)),
    "other key": (EXTRAS, extras),
    "way of shaping": (SHAPINGS, shapings),
}


def shown_in_every_size(proof: Proof, shown: Callable[[Pattern, SizeProof], Iterable[str]]
                        ) -> set[str]:
    return set.intersection(*(set(shown(proof.pattern, size)) for size in proof.sizes))


def test_every_pattern_of_the_collection_is_knitted_without_a_warning() -> None:
    found = collection()
    assert found.unproved == ()
    assert [str(p) for p in found.problems if p.severity.value != "remark"] == []


@pytest.mark.parametrize("what", NAMED)
def test_the_collection_shows_every(what: str) -> None:
    named, shown = NAMED[what]
    seen = {said for proof in collection().proofs for said in shown_in_every_size(proof, shown)}
    missing = sorted(set(named) - seen)
    assert not missing, f"no pattern shows the {what}: {', '.join(missing)}"


def test_the_buttonholes_of_a_garment_lie_evenly() -> None:
    """A gap that is much shorter or longer than its neighbours looks like a slip (common practice,
    no source). The samplers place each hole by itself, to show how; a hole asked for in a hem lies
    where the hem does."""
    uneven = [(proof.pattern.slug, size.size, gaps) for proof in collection().proofs
              for size in proof.sizes if size.pieces for strip in size.strips
              if (holes := strip.plan.placing) and len(holes.starts) > 1
              and (asked := strip.plan.band.buttonholes) and not asked.in_hem
              for gaps in [[b - a for a, b in pairwise(holes.starts)]]
              if max(gaps) - min(gaps) > 1]
    assert not uneven


def test_a_childs_buttonholes_leave_its_fingers_room() -> None:
    """A hole that only just stretches over its button is hard to do up: a millimetre more at least
    (common practice, no source)."""
    tight = [(proof.pattern.slug, size.size, far.in_mm()) for proof in collection().proofs
             if proof.pattern.wearer is Wearer.CHILDREN for size in proof.sizes
             for strip in size.strips if strip.plan.placing and strip.plan.hole
             and (asked := strip.plan.band.buttonholes) and asked.kind in STITCHES_GIVEN
             for own in [strip.plan.gauge.turned if strip.plan.is_lengthwise else strip.plan.gauge]
             for far in [reach(strip.plan.hole.value, own.stitch)]
             if far.mm < asked.button.mm + 1]
    assert not tight


# The pages that tell of them

BAND_PAGES = sorted(path.name for path in (SITE / "bands").glob("*.md") if path.stem != "index")
FOLD_PAGES = {Fold.TURNED: "fold-turned", Fold.LOOSE: "fold-loose", Fold.PICOT: "fold-picot"}
EDGE_PAGES = sorted(
    {method.page.partition(".html")[0] for method in (*CAST_ONS.values(), *BIND_OFFS.values())}
    | {*FOLD_PAGES.values()}
)
ASKED = {"bands": ("for", "cost", "rule", "steps", "wrong", "sources"),
         "closings": ("for", "size", "steps", "strength", "wrong", "sources"),
         "techniques": ("when", "wrong", "sources")}
PAGES = [f"bands/{name}" for name in BAND_PAGES]
PAGES += [f"closings/{page}.md" for page, _ in CLOSING_PAGES.values()]
PAGES += [f"techniques/{page}.md" for page in EDGE_PAGES]


def flaws(page: str) -> Iterator[str]:
    """What a reference page lacks, in words."""
    path, folder = SITE / page, page.partition("/")[0]
    if not path.is_file():
        yield "the page itself"
        return
    text, index = path.read_text(encoding="utf-8"), SITE / folder / "index.md"
    if f"]({path.name}" not in index.read_text(encoding="utf-8"):
        yield f"a link in {folder}/index.md"
    if f"- {page}\n" not in NAV:
        yield "its line in site_src/.site.yml"
    yield from (f"a section #{name}" for name in ASKED[folder]
                if not re.search(rf"^## .*\{{ #{name}", text, re.MULTILINE))
    drawn = re.search(r"<svg [^>]*role=\"img\" aria-label=\"[^\"]+\"", text)
    if not drawn or "<figcaption>" not in text:
        yield "a drawing told in words"
    if not re.search(r"^1\. \S", text.partition("{ #sources }")[2], re.MULTILINE):
        yield "a source"


def test_every_kind_of_band_and_closing_has_a_page_among_those() -> None:
    lacking = {kind.page.replace(".html", ".md") for kind in KINDS.values()} - set(PAGES)
    assert not lacking, "\n".join(f"site_src/{page} lacks {', '.join(flaws(page))}"
                                  for page in sorted(lacking))
    assert set(CLOSING_PAGES) == set(ButtonholeKind)


@pytest.mark.parametrize("page", PAGES)
def test_its_page_tells_what_it_is_for_what_it_costs_and_its_rule_and_draws_it(page: str) -> None:
    assert list(flaws(page)) == []


def test_every_rolled_edge_has_the_rows_that_its_page_asks_for() -> None:
    """8 to 12 in most yarns (site_src/bands/rolled.md, common practice): fewer lie flat."""
    page = (SITE / "bands/rolled.md").read_text(encoding="utf-8")
    least = re.search(r"about three times the height of the roll: (\d+) to 12 in most yarns", page)
    assert least
    rows = {f"{proof.pattern.title}, {size.size}, {plan.band.title}": plan.depth.value
            for proof in collection().proofs for size in proof.sizes for plan in size.plans
            if plan.band.kind == "rolled"}
    assert rows and {name: n for name, n in rows.items() if n < int(least[1])} == {}


def headed(nav: str) -> dict[str, tuple[str, ...]]:
    """Each folder of pages of a navigation: its name there, and the title of its first page."""
    title = re.compile(r"^# ([\w ]+) \{", re.MULTILINE)
    return {folder: (name, *title.findall((SITE / folder / "index.md").read_text("utf-8")))
            for name, folder in re.findall(r"- ([\w ]+):\n +- (\w+)/index\.md", nav)}


def test_a_folder_of_pages_has_one_name():
    found = headed(NAV)
    assert {"bands", "closings", "techniques"} <= found.keys()
    assert all(name == title for name, title in found.values())
    spoiled = headed(NAV.replace("- Fastenings:", "- Closings:"))
    assert spoiled["closings"] == ("Closings", "Fastenings")
