"""Needles left out of work, wherever a source can name a fabric: laid out on the bed, or refused.

The arrangement is worked out here from its own text, and held against the needles that the bed's
trace has loaded at every row; nothing is taken from a plan.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import product
from random import Random
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from walebook.catalogue.bands import KINDS
from walebook.core.problems import Severity
from walebook.forms.registry import FORMS
from walebook.machine.headings import Heading
from walebook.machine.needles import Needles
from walebook.machine.programs import ProgramSection
from walebook.machine.step_keys import StepYarn
from walebook.machine.steps import Increase, Knit, Transfer
from walebook.pages import write_pages
from walebook.pattern.rib_specs import RibMake
from walebook.proof.proof import Proof

from tests.laws.random_sources import BandSpec, written
from tests.laws.test_any_source import faults_of_words, judged
from tests.scale import examples

ARRANGEMENTS = ("1 in 1 out", "2 in 1 out", "3 in 1 out, 1 in 1 out", "2 in 2 out", "1 in 3 out",
                "3 in 1 out, 1 in 2 out")
KNITTED = {StepYarn.MAIN, StepYarn.FACING, StepYarn.CONTRAST}
FRONTED = {"front_edge", "front_and_neck", "placket"}


def flags(text: str) -> list[bool]:
    """The needles of one repeat: True in work."""
    return [kind == "in" for number, kind in re.findall(r"(\d+) (in|out)", text)
            for _ in range(int(number))]


def lies(needles: Needles) -> list[bool]:
    """Which needles are taken, from the leftmost to the rightmost."""
    places = {needle.place for needle in needles}
    return [place in places for place in range(min(places), max(places) + 1)]


def is_laid(found: list[bool], text: str, edge: int, *, closed: bool = False) -> bool:
    """Whole repeats, their beginning once more, the edge stitches: read from the left or right.

    Without that beginning where one seam, `closed`, takes the only edge stitch at either end.
    """
    repeat = flags(text)
    opening = [] if closed and edge == 1 else repeat[:repeat.index(False)]
    over = len(found) - 2 * edge - len(opening)
    times, rest = divmod(over, len(repeat))
    whole = [True] * edge + repeat * max(times, 0) + opening + [True] * edge
    return not rest and times >= 0 and found in (whole, whole[::-1])


def follows(found: list[bool], text: str) -> bool:
    """What the seams leave, laid in a ring: whole repeats, wherever the ring begins."""
    repeat = flags(text)
    times, rest = divmod(len(found), len(repeat))
    return not rest and any(found == (repeat[at:] + repeat[:at]) * times
                            for at in range(len(repeat)))


def is_rib(found: list[bool], text: str) -> bool:
    """A rib runs on across the seams, and both its edge stitches are in work."""
    repeat = flags(text)
    return found[0] and found[-1] and any(
        inner == [repeat[(at + shift) % len(repeat)] for at in range(len(inner))]
        for shift in range(len(repeat)) for inner in (found[1:-1], found[-2:0:-1]))


def rows(sections: tuple[ProgramSection, ...], states: tuple[Any, ...]
         ) -> Iterator[tuple[Heading, Needles]]:
    """Each row of the work's own yarn, by its section, up to where a rib is filled or a top
    gathered."""
    at = 0
    for section in sections:
        for step in section.steps:
            if isinstance(step, Increase) or (isinstance(step, Transfer) and step.rest):
                return
            if isinstance(step, Knit) and step.yarn in KNITTED:
                yield section.heading, states[at].loaded
            at += 1


def fabric(
    draw: Random, arranged: str = "", edge: int = 1, dial: int = 6, wide: int = 1
) -> BandSpec:
    stitches = draw.randint(14, 24)
    made = {"yarn": "wool", "dial": str(dial), "swatch": {
        "stitches": str(stitches), "width": f"{10 * wide} cm",
        "rows": str(stitches * draw.randint(120, 160) // 100), "height": "10 cm", "mass": "7 g"}}
    if arranged:
        made |= {"needles": arranged, "edge_stitches": str(edge)}
    return made


def source(draw: Random, body: BandSpec, other: BandSpec, **more: Any) -> str:
    return written({
        "title": "Lantern", "version": "1", "date": "2026-11-20", "designer": "Isolde Penhallow",
        "licence": "CC BY-NC 4.0", "summary": "A garment.", "wearer": "women",
        "bed": {"pitch": "4.5 mm", "needles": "400", "second_bed": "yes"},
        "yarns": {"wool": {"name": "Quay"}},
        "fabrics": {"body": body, "other": other, "plain": fabric(draw, dial=4)},
        "sizes": ["woman" if more.get("garment", {}).get("form") == "hat" else "S"], **more})


def garment(form: str, **more: Any) -> BandSpec:
    chart = {"chart": "heads" if form == "hat" else "women"} if FORMS[form].is_worn else {}
    return {"form": form, "fabric": "body", **chart, **more}


BAG: BandSpec = {  # a rectangle of the designer's, whose sides are sewn together
    "measures": {"wide": "30 cm", "high": "40 cm"},
    "pieces": {"bag": {"width": "wide", "height": "high"}},
    "joins": [{"sew": "bag.left", "to": "bag.right"}]}


def of_form(form: str, **more: Any) -> BandSpec:
    """A garment of a form; of the designer's outlines a bag."""
    return garment(form, **(BAG if form == "own outline" else {}), **more)


def band(draw: Random, kind: str, edge: str, fabric: BandSpec) -> BandSpec:
    made = {"edge": edge, "kind": kind, "depth": "3 cm", **fabric,
            **({"back_depth": "8 cm"} if "back_depth" in KINDS[kind].needs else {})}
    suits = draw.random() < 0.6
    if suits or draw.random() < 0.5:
        made["fold"] = "loose" if suits else draw.choice(("turned", "loose", "picot"))
    if (suits or draw.random() < 0.6) and KINDS[kind].bind_offs:
        made["bind_off"] = "back-stitched" if suits else draw.choice(
            [way.name for way in KINDS[kind].bind_offs])
    if not suits and draw.random() < 0.5 and KINDS[kind].buttonhole_kinds and edge != "pocket":
        made["buttonholes"] = {"button": "15 mm", "every": "6 cm", "closing": draw.choice(
            [closing.value for closing in KINDS[kind].buttonhole_kinds])}
    return made


def extras(draw: Random, kind: str) -> BandSpec:
    """What else such a band may ask for."""
    own = {"points": "1 cm", "outer_dial": "7", "rib": "1x1", "facing_fabric": "plain",
           "cord": {"width": "5 mm"}}
    asked = {key: own[key] for key in KINDS[kind].asks if key in own and draw.random() < 0.2}
    if KINDS[kind].mitres and draw.random() < 0.2:
        asked["mitre"] = "yes"
    return asked


Place = tuple[str, str]


def places() -> list[Place]:
    """Every place that takes a fabric: what it is, and of which form, kind or rib."""
    pieces = [("pieces", form) for form in FORMS]
    hems = [("pieces above a hem", form) for form in ("hat", "mitten", "panelled blanket",
                                                      "own outline")]
    ribs = [("rib", make.value) for make in RibMake]
    edges = ("own", "own in sections", "neck", "front_edge", "front_and_neck", "placket", "armhole",
             "brim", "cuff", "pocket", "hem")
    of_bands = [("band", f"{kind} on {edge}") for kind in KINDS for edge in edges]
    by_rule = [("rule", f"{kind} on {edge}") for kind in KINDS
               for edge in ("own", "own in sections", "brim", "cuff")]
    both = [("both", f"{kind} on {edge}") for kind in ("single", "folded", "facing", "enclosing")
            for edge in ("own", "own in sections", "brim", "cuff")]
    facings = [("facing", kind) for kind in ("folded", "facing")]
    return pieces + hems + ribs + of_bands + by_rule + both + facings


WORN_ON = {"neck": "set-in cardigan", "front_edge": "set-in cardigan", "brim": "hat",
           "front_and_neck": "drop-shoulder cardigan", "placket": "set-in pullover",
           "armhole": "set-in waistcoat", "cuff": "mitten", "pocket": "drop-shoulder cardigan",
           "hem": "sideways pullover"}


def with_edge(draw: Random, edge: str) -> tuple[str, BandSpec]:
    """The name of an edge, and what there must be for a band to take it."""
    if edge == "own":
        return "rail", {"edges": {"rail": {
            "kind": draw.choice(("pair of fronts", "one edge", "closed round")), "fabric": "body",
            "rows": str(draw.randint(40, 160))}}}
    if edge == "own in sections":
        return "rail", {"edges": {"rail": {"kind": "one edge", "fabric": "body", "sections": [
            {"title": "front", "rows": str(draw.randint(30, 90))},
            {"title": "neck", "stitches": str(draw.randint(9, 40)),
             "stitches_are": draw.choice(("on waste yarn", "bound off"))}]}}}
    more: BandSpec = {"placket": "10 cm"} if edge == "placket" else {}
    if edge == "pocket":
        more["pockets"] = {"width": "11 cm", "height": "16 cm"}
    if edge == "front_and_neck":
        more["neck"] = draw.choice(("round", "v"))
    return edge, {"garment": garment(WORN_ON[edge], **more)}


def spec(place: Place, text: str, edge: int, draw: Random) -> str:
    """A source with the arrangement in that place alone."""
    what, which = place
    arranged = fabric(draw, text, edge, wide=2 if "3 out" in text else 1)
    plain = fabric(draw)
    if what == "pieces":
        return source(draw, arranged, plain, garment=of_form(which))
    if what == "pieces above a hem":
        hem = {"depth": "3 cm", "fold": draw.choice(("loose", "picot")), "dial": "4"}
        return source(draw, arranged, plain, garment=of_form(which, hem=hem))
    if what == "rib":
        own = {"needles": text} if "mock" in which and draw.random() < 0.8 else {"rib": "2x1"}
        form = draw.choice(("set-in cardigan", "hat", "own outline"))
        return source(draw, plain, arranged, garment=of_form(form, hem={
            "kind": which, "depth": "4 cm", "fabric": "other", **own}))
    if what == "facing":
        return source(draw, plain, arranged, edges={"rail": {
            "kind": "one edge", "fabric": "body", "rows": "90"}},
                      bands={"rail": {**band(draw, which, "rail", {"fabric": "plain"}),
                                      "facing_fabric": "other"}})
    kind, _, on = which.partition(" on ")
    name, more = with_edge(draw, on)
    if what == "rule":
        rule = {"pick_up": "3/4"} if draw.random() < 0.7 else {"fabric": "plain"}
        return source(draw, arranged, plain, **more, bands={"rail": band(draw, kind, name, rule)})
    made = {**band(draw, kind, name, {"fabric": "other"}), **extras(draw, kind)}
    plain = arranged if what == "both" else plain
    return source(draw, plain, arranged, **more, bands={"rail": made})


def misplaced(proof: Proof, place: Place, text: str, edge: int) -> list[str]:
    """The rows that should be knitted on the arranged needles and are not."""
    what, which = place
    wrong = []
    for size in proof.sizes:
        if what.startswith("pieces") or what == "rib":
            for piece in size.pieces:
                for heading, on in rows(piece.program.sections, piece.trace.states):
                    if what == "rib" and heading is not Heading.RIB:
                        continue
                    sound = is_rib(lies(on), text) if what == "rib" else \
                        is_laid(lies(on), text, edge, closed=which in ("hat", "mitten"))
                    if not sound:
                        wrong.append(f"{piece.piece.key}, {heading.name}: {on}")
        for strip in size.strips:
            if what == "rule" and strip.plan.band.fabric == "plain":
                continue
            for heading, on in rows(strip.program.sections, strip.trace.states):
                closed = strip.plan.band.edge in ("brim", "cuff")
                if not is_laid(lies(on), text, edge, closed=closed):
                    wrong.append(f"{which}, {heading.name}: {on}")
    return wrong


def judge(place: Place, text: str, edge: int, seed: int) -> str:
    """"laid", "refused", or what is wrong."""
    said = spec(place, text, edge, Random(seed))
    proof, found = judged(said)
    if proof is None:
        errors = tuple(p for p in found if p.severity is Severity.ERROR)
        assert errors and not faults_of_words(said, errors), faults_of_words(said, errors)
        assert all(p.remedy for p in errors)
        assert not any(p.code == "bed-refuses" for p in found), [str(p) for p in found]
        return "refused"
    wrong = misplaced(proof, place, text, edge)
    return f"{len(wrong)} rows: {wrong[0]}" if wrong else "laid"


@settings(max_examples=examples(60))
@given(st.sampled_from(places()), st.sampled_from(ARRANGEMENTS), st.integers(0, 3),
       st.integers(0, 10**6))
def test_an_arrangement_is_laid_out_or_refused(place: Place, text: str, edge: int, seed: int
                                               ) -> None:
    assert judge(place, text, edge, seed) in ("laid", "refused"), (place, text, edge, seed)


@pytest.mark.parametrize("place", [
    ("pieces", "hat"), ("pieces", "own outline"), ("pieces above a hem", "panelled blanket"),
    ("pieces above a hem", "own outline"), ("band", "single on hem"), ("rib", "mock rib"),
    ("rib", "hung mock rib"), ("band", "single on own"), ("band", "folded on front_edge"),
    ("band", "facing on own"), ("both", "single on brim"), ("both", "folded on cuff")],
    ids=" ".join)
def test_what_can_be_laid_out_is(place: Place) -> None:
    """Else the law above would hold where all is refused."""
    assert any(judge(place, "2 in 1 out", 1, seed) == "laid" for seed in range(30))


def rings(proof: Proof, keys: tuple[str, ...]) -> list[list[bool]]:
    """The first rows of these pieces and of bands on a ring, a seam stitch off either end."""
    (size,) = proof.sizes
    found = {piece.piece.key: next(lies(on) for _, on in rows(piece.program.sections,
                                                              piece.trace.states))
             for piece in size.pieces}
    strips = [next(lies(on) for _, on in rows(strip.program.sections, strip.trace.states))
              for strip in size.strips]
    whole = [needle for key in keys for needle in found[key][1:-1]]
    return [whole, *(strip[1:-1] for strip in strips)]


RINGS: dict[str, tuple[tuple[str, ...], ...]] = {  # the pieces that seams close to a ring
    "hat": (("hat",),), "mitten": (("hand",), ("thumb",)),
    "drop-shoulder pullover": (("back", "front"), ("sleeve",)),
    "set-in pullover": (("back", "front"), ("sleeve",))}


@pytest.mark.parametrize("form", RINGS)
@pytest.mark.parametrize("text", ARRANGEMENTS)
def test_columns_follow_the_repeat_across_a_seam(form: str, text: str) -> None:
    """A seam a stitch in takes the edge stitch of either side; what is left lies in a ring
    (common practice, no source)."""
    draw, wide = Random(5), 2 if "3 out" in text else 1
    arranged, plain = fabric(draw, text, wide=wide), fabric(draw)
    made = []
    if form in ("hat", "mitten"):
        made.append(source(draw, arranged, plain, garment=garment(form)))
        edge = {"hat": "brim", "mitten": "cuff"}[form]
        made.append(source(draw, arranged, arranged, garment=garment(form), bands={"rail": {
            "edge": edge, "kind": "single", "fabric": "other", "depth": "3 cm",
            "bind_off": "back-stitched"}}))
    if "3 out" not in text:  # a rib fills at most two empty needles side by side
        made += [source(draw, plain, plain, garment=garment(form, hem={
            "kind": kind, "needles": text, "depth": "4 cm"})) for kind in (
                "mock rib", "hung mock rib")]
    for said in made:
        proof, found = judged(said)
        assert proof is not None, [str(p) for p in found]
        for keys in RINGS[form]:
            if keys == ("thumb",) and "hem:" in said:
                continue  # a thumb has no hem
            for ring in rings(proof, keys):
                assert follows(ring, text), (keys, ring)


def test_a_page_says_which_needles_of_a_band_work() -> None:
    draw = Random(1)
    text = source(draw, fabric(draw), fabric(draw, "2 in 1 out"),
                  edges={"rail": {"kind": "one edge", "fabric": "body", "rows": "60"}},
                  bands={"rail": {"edge": "rail", "kind": "single", "fabric": "other",
                                  "depth": "3 cm", "bind_off": "back-stitched"}})
    proof, _ = judged(text)
    assert proof is not None
    page = next(page.text for page in write_pages(proof) if page.path.endswith("/s.md"))
    strip = proof.sizes[0].strips[0]
    on = strip.layout.needles
    assert f"on needles <strong>{on.first} to {on.last}</strong>, 2 in, 1 out of work. " in page
    named = [step for step in re.findall(r"<li id.*?</li>\n", page, re.DOTALL)
             if "those that the diagram shows" in step]
    assert named and all("<svg" in step for step in named)
    assert f"{len(on)} stitches on {on.last.place - on.first.place + 1} needles" in page


def ladder(draw: Random) -> BandSpec:
    """A fabric from a chart that leaves every fourth needle out."""
    return fabric(draw) | {"chart": "ladder"}


CHART = {"ladder": {"repeat": "|||.\n"}}


@pytest.mark.parametrize("hem", ({}, {"hem": {"depth": "3 cm", "dial": "4"}}),
                         ids=("plain", "hemmed"))
def test_a_chart_that_leaves_needles_out_is_laid_out_from_the_first_row(hem: BandSpec) -> None:
    """Three in, one out, seen from the knit side; an edge stitch at either end."""
    draw = Random(3)
    proof, found = judged(source(draw, ladder(draw), fabric(draw), charts=CHART,
                                 garment=garment("panelled blanket", **hem)))
    assert proof is not None, [str(p) for p in found]
    panel, = proof.sizes[0].pieces
    laid = {tuple(lies(on)) for _, on in rows(panel.program.sections, panel.trace.states)}
    (one,) = laid
    assert one[0] and one[-1] and not (len(one) - 2) % 4
    assert all(on == bool(at % 4) for at, on in enumerate(one[1:-1]))


@pytest.mark.parametrize("edge", ({"rows": "90"}, {"sections": [
    {"title": "neck", "stitches": "30", "stitches_are": "bound off"}]}), ids=("rows", "stitches"))
@pytest.mark.parametrize("band", ({"pick_up": "3/4"}, {"fabric": "other"}), ids=("rule", "swatch"))
def test_a_band_on_such_a_chart_is_counted_by_its_own_swatch_along_rows(
    edge: BandSpec, band: BandSpec
) -> None:
    draw = Random(3)
    proof, found = judged(source(
        draw, ladder(draw), fabric(draw), charts=CHART,
        edges={"rail": {"kind": "one edge", "fabric": "body", **edge}},
        bands={"rail": {"edge": "rail", "kind": "single", "depth": "3 cm", **band}}))
    if "rows" in edge and "fabric" in band:
        assert proof is not None
    else:
        assert {p.code for p in found if p.severity is Severity.ERROR} == {"needles-at-edge"}


@pytest.mark.parametrize(("needles", "counted"), (("", False), ("2 in 1 out", True)))
def test_a_hem_is_counted_from_a_swatch_on_its_own_needles(needles: str, counted: bool) -> None:
    """A hem below needles left out of work is knitted on those: a plain swatch is none of it."""
    draw = Random(2)
    text = source(draw, fabric(draw, "2 in 1 out"), fabric(draw, needles, dial=3),
                  garment=garment("mitten", hem={"depth": "3 cm", "dial": "3"}))
    proof, found = judged(text)
    assert proof is not None
    codes = {p.code for p in found}
    assert ("hem-not-swatched" not in codes) is counted
    unused = {p.found for p in found if p.code == "unused"}
    assert ('fabric "other", which nothing uses' not in unused) is counted
    hem = proof.sizes[0].pieces[0].piece.hem
    assert hem is not None and (hem.row is not None) is counted


@pytest.mark.long
@pytest.mark.parametrize("text", ARRANGEMENTS)
def test_every_arrangement_in_every_place(text: str) -> None:
    for number, (place, edge) in enumerate(product(places(), (0, 1, 2))):
        assert judge(place, text, edge, number) in ("laid", "refused"), (place, edge, number)
