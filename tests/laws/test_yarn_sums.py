"""What a size needs of every yarn is the sum of what its page prints, and nothing is left out.

Stitches are counted again from the bed's runs, swatches again from the source's own text; the sums
are read off the printed working. That a swatch has half as much again round it, and that a tenth
is allowed on what is knitted, are common practice, no source.
"""

from __future__ import annotations

import re
from collections import Counter
from fractions import Fraction
from typing import Any

import pytest
import yaml
from hypothesis import given, settings
from walebook.core.yarn_parts import Beside
from walebook.machine.step_keys import StepYarn
from walebook.machine.steps import Thread
from walebook.machine.two_yarn_steps import ThreadContrast
from walebook.pages.materials import materials
from walebook.pattern.model import Pattern
from walebook.proof.proof import KnittedPiece, SizeProof, Strip
from walebook.proof.yarn_requirement import yarn_requirements
from walebook.words.instruction import works
from walebook.words.terms.working import working_of
from walebook.words.terms.yarn_shares_named import extra_title

from tests.laws.random_sources import BandSpec, sources, written
from tests.laws.test_any_source import judged
from tests.laws.test_need import cut_for
from tests.scale import examples

FIGURE = re.compile(r"([^+;:]+?) ([0-9.]+) g")
LADDER = "||||||\n|x||||\nxxx|||\n|x||||\n"


def swatch(mass: str, wide: str = "15 cm") -> BandSpec:
    return {"stitches": "30", "width": wide, "rows": "40", "height": "14 cm", "mass": mass}


def source(**more: Any) -> BandSpec:
    """A pattern with a fabric for everything, each weighed otherwise, and two yarns."""
    package = {"mass": "50 g", "length": "120 m"}
    return {
        "title": "Lantern", "version": "1", "date": "2026-11-20", "designer": "Isolde Penhallow",
        "licence": "CC BY-NC 4.0", "summary": "A garment.", "wearer": "women", "bed": "mid",
        "yarns": {"wool": {"name": "Quay", "package": package},
                  "silk": {"name": "Lamp", "package": package}},
        "fabrics": {
            "body": {"yarn": "wool", "dial": "6", "swatch": swatch("8.1 g")},
            "tight": {"yarn": "wool", "dial": "4", "swatch": swatch("7.3 g", "14 cm")},
            "band": {"yarn": "wool", "dial": "5", "swatch": swatch("7.7 g", "14.4 cm")},
            "lining": {"yarn": "silk", "dial": "4", "swatch": swatch("6.9 g", "14 cm")}},
        "sizes": ["S", "M"], **more}


def worn(form: str, **more: Any) -> BandSpec:
    return {"form": form, "chart": "women", "fabric": "body", **more}


def two_coloured() -> BandSpec:
    made = source(garment=worn("drop-shoulder pullover"), charts={"lamps": {"repeat": LADDER}})
    made["fabrics"]["body"] |= {"chart": "lamps", "contrast": "silk"}
    return made


HEM = {"depth": "4 cm", "dial": "4"}
CASES: dict[str, BandSpec] = {
    "a hem in a fabric of its own": source(garment=worn("set-in cardigan", hem=HEM)),
    "a rib in a fabric of its own": source(garment=worn("set-in cardigan", hem={
        "kind": "latched rib", "rib": "1x1", "depth": "4 cm", "fabric": "tight"})),
    "a band in parts": source(garment=worn("set-in cardigan", neck="v"), bands={
        "whole": {"edge": "front_and_neck", "fabric": "band", "depth": "4 cm"}}),
    "a band for each of a pair": source(garment={"form": "mitten", "fabric": "body"}, bands={
        "cuff": {"edge": "cuff", "kind": "single", "fabric": "band", "depth": "4 cm"}}),
    "a facing in another yarn": source(garment=worn("set-in cardigan"), bands={
        "neck": {"edge": "neck", "kind": "facing", "fabric": "band", "depth": "4 cm",
                 "facing_fabric": "lining"}}),
    "a band in another yarn than its fabric": source(garment=worn("set-in cardigan"), bands={
        "neck": {"edge": "neck", "kind": "folded", "fabric": "band", "depth": "4 cm",
                 "yarn": "silk"}}),
    "pockets with their linings": source(garment=worn("set-in cardigan", pockets={
        "width": "12 cm", "height": "18 cm"}), bands={
            "pocket": {"edge": "pocket", "kind": "single", "fabric": "tight", "depth": "2 cm"}}),
    "two colours": two_coloured(),
    "a band in the second colour": two_coloured() | {"bands": {
        "neck": {"edge": "neck", "kind": "single", "fabric": "lining", "depth": "3 cm"}}},
}


def times(size: SizeProof, work: object) -> int:
    """How often a piece or band is knitted."""
    if isinstance(work, KnittedPiece):
        assert size.assembled is not None
        return size.assembled.garment.times.get(work.piece.key, 1)
    return work.plan.edge_path.times  # type: ignore[attr-defined]


def role_of(pattern: Pattern, work: object, name: str) -> str:
    """The key of the yarn that a step's name stands for; "" for waste yarn and cords."""
    if isinstance(work, KnittedPiece):
        assert pattern.garment is not None
        body = pattern.fabrics[pattern.garment.fabric]
        stripes = pattern.garment.stripes.yarns if pattern.garment.stripes else ()
        others = [yarn for yarn in dict.fromkeys(stripes) if yarn != body.yarn]
        return {StepYarn.MAIN: body.yarn, StepYarn.CONTRAST: body.contrast,
                **dict(zip((StepYarn.SECOND, StepYarn.THIRD, StepYarn.FOURTH), others,
                           strict=False))}.get(name, "")
    plan = work.plan  # type: ignore[attr-defined]
    return {StepYarn.MAIN: plan.band.yarn,
            StepYarn.FACING: plan.facing.yarn if plan.facing else ""}.get(name, "")


def stitches_by_yarn(pattern: Pattern, size: SizeProof) -> Counter[str]:
    """Every stitch that the bed knitted, by the yarn of the source."""
    found: Counter[str] = Counter()
    for work in works(size):
        for name, stitches in work.trace.stitches:
            if key := role_of(pattern, work, name):
                found[key] += stitches * times(size, work)
    return found


def swatched(text: BandSpec, size: SizeProof) -> set[tuple[str, str]]:
    """The fabrics that anything of a size is knitted in, each with its yarn, from the source's
    own text."""
    found = set()
    own = {key: one["yarn"] for key, one in text["fabrics"].items()}
    garment = text.get("garment")
    if garment:
        body = text["fabrics"][garment["fabric"]]
        found.add((garment["fabric"], body["yarn"]))
        if "contrast" in body:
            found.add((garment["fabric"], body["contrast"]))
        hem = garment.get("hem", {})
        if "fabric" in hem:
            found.add((hem["fabric"], own[hem["fabric"]]))
        elif hem and hem.get("kind", "hung") == "hung" and any(p.piece.hem for p in size.pieces):
            dial = hem.get("dial", str(int(body["dial"].partition(".")[0]) - 2)
                           + body["dial"][len(body["dial"].partition(".")[0]):])
            same = [key for key, one in text["fabrics"].items() if one["yarn"] == body["yarn"]
                    and one["dial"].removesuffix(".0") == dial.removesuffix(".0")
                    and one.get("needles") == body.get("needles") and "chart" not in one]
            if same and not charts_leave_out(text, body):
                found.add((same[0], own[same[0]]))
    for band in text.get("bands", {}).values():
        if "fabric" in band:
            found.add((band["fabric"], band.get("yarn", own[band["fabric"]])))
        if "facing_fabric" in band:
            found.add((band["facing_fabric"], own[band["facing_fabric"]]))
    return found


def charts_leave_out(text: BandSpec, fabric: BandSpec) -> bool:
    return "chart" in fabric and "." in text["charts"][fabric["chart"]]["repeat"]


def mass_of(fabric: BandSpec) -> Fraction:
    """The stated mass of the swatch [g]."""
    one = fabric.get("swatch") or fabric["swatches"][0]
    return Fraction(one["mass"].removesuffix(" g"))


def check_sums(text: BandSpec, pattern: Pattern, size: SizeProof) -> None:
    counted = stitches_by_yarn(pattern, size)
    made = yarn_requirements(pattern, size)
    assert {need.yarn.key for need in made} == set(counted)
    printed: list[tuple[str, str]] = []
    masses: dict[str, Fraction] = {}
    for need in made:
        assert need.grams is not None and need.packages is not None
        assert sum(part.stitches.value for part in need.parts) == counted[need.yarn.key]
        shares, _, rest = working_of(need.grams).partition(" × 1.1 (10 % more)")
        figures, _, result = rest.partition(" = ")
        extras = figures.split(" + ")[1:]
        parts = sum(Fraction(mass) for _, mass in FIGURE.findall(shares.strip("()")))
        more = [FIGURE.fullmatch(extra) for extra in extras]
        assert all(more), extras
        end = Fraction(result.split(",")[0].removesuffix(" grams"))
        assert -(-end // 1) == need.grams.value, "the printed sum does not go up to the grams"
        exact = parts * Fraction(11, 10) + sum(Fraction(found[2]) for found in more if found)
        assert abs(exact - end) <= Fraction(1, 20), "the printed parts come to another sum"
        package = Fraction(text["yarns"][need.yarn.key]["package"]["mass"].removesuffix(" g"))
        assert need.packages.value == -(-need.amount.grams // package)
        names = {found[1]: Fraction(found[2]) for found in more if found}
        of = {extra_title(extra.part): extra.fabric for extra in need.extras if extra.fabric}
        assert len(set(of.values())) == len(of)
        whole = {of[name]: mass for name, mass in names.items() if name.startswith("swatch of ")}
        printed += [(key, need.yarn.key) for key in whole]
        for key, mass in whole.items():
            twice = key in masses and not text["fabrics"][key].get("contrast")
            masses[key] = mass if twice else masses.get(key, Fraction(0)) + mass
        if whole:
            margins = names["margins of the swatches, half as much again"]
            assert abs(margins - sum(whole.values()) / 2) <= Fraction(len(whole) + 1, 20)
    assert sorted(printed) == sorted(swatched(text, size))
    for key, mass in masses.items():
        assert abs(mass - mass_of(text["fabrics"][key])) <= Fraction(1, 10), key


@pytest.mark.parametrize("case", CASES)
def test_the_yarn_of_a_size_is_the_sum_of_what_is_printed(case: str) -> None:
    text = CASES[case]
    proof, found = judged(written(text))
    assert proof is not None, [str(p) for p in found]
    for size in proof.sizes:
        check_sums(text, proof.pattern, size)


def test_ends_are_counted_for_every_band_of_a_pair() -> None:
    """Recounted from the steps as tests/laws/test_need.py does, on the bed of its pitch."""
    text = CASES["a band for each of a pair"] | {"bed": {"pitch": "9 mm", "needles": "110"}}
    proof, _ = judged(written(text))
    assert proof is not None
    for size in proof.sizes:
        need, = yarn_requirements(proof.pattern, size)
        # the cuff is of one layer, and its ends meet in the seam
        mm = sum(cut_for(work.program, len(work.layout.needles) if isinstance(work, Strip) else 0)
                 * times(size, work) for work in works(size))
        ends = next(extra for extra in need.extras if extra.part.what is Beside.ENDS)
        assert ends.amount.metres == mm / 1000


def test_a_band_in_parts_is_named_as_all_of_them() -> None:
    proof, _ = judged(written(CASES["a band in parts"]))
    assert proof is not None
    for size in proof.sizes:
        need, = yarn_requirements(proof.pattern, size)
        assert need.grams is not None and len(size.plans[0].parts) == 2
        assert "Whole band, both parts together " in working_of(need.grams)


def weighed(text: BandSpec) -> BandSpec:
    """A source whose every swatch is weighed and whose yarns have packages."""
    for number, fabric in enumerate(text["fabrics"].values()):
        for one in (*fabric.get("swatches", ()), *([fabric["swatch"]] if "swatch" in fabric else
                                                  ())):
            one["mass"] = f"{7 + number} g"
    for yarn in text["yarns"].values():
        yarn["package"] = {"mass": "50 g", "length": "120 m"}
    for band in text.get("bands", {}).values():
        band.pop("pick_up", None)
        band.setdefault("fabric", "band")
    return text


@given(text=sources())
@settings(max_examples=examples(15), deadline=None)
def test_the_yarn_of_any_source_is_the_sum_of_what_is_printed(text: str) -> None:
    spec = weighed(yaml.load(text, yaml.BaseLoader))
    proof, _ = judged(written(spec))
    for size in proof.sizes if proof else ():
        check_sums(spec, proof.pattern, size)
        check_listed(proof.pattern, size)


CALLED = {StepYarn.MAIN: "Main yarn", StepYarn.CONTRAST: "Contrast yarn",
          StepYarn.FACING: "Facing yarn", StepYarn.SECOND: "Second yarn",
          StepYarn.THIRD: "Third yarn", StepYarn.FOURTH: "Fourth yarn",
          StepYarn.WASTE: "Waste yarn", StepYarn.RAVEL_CORD: "Ravel cord"}


def check_listed(pattern: Pattern, size: SizeProof) -> None:
    """Every yarn that a step threads is listed under the name that the step gives it."""
    told = [re.sub(r"<[^>]*>", "", item)
            for item in re.findall(r"<li>(.*?)</li>", materials(pattern, size))]
    wanted = set()
    for work in works(size):
        for step in work.program.steps:
            if isinstance(step, Thread | ThreadContrast):
                key = role_of(pattern, work, step.yarn)
                name = pattern.yarns[key].name if key else ""
                wanted.add((CALLED[step.yarn], name))
    for called, name in wanted:
        assert any(item.startswith(called) and name in item for item in told), (called, name, told)
    for item in told:
        for called in ("Main yarn", "Contrast yarn", "Facing yarn"):
            assert not item.startswith(called) or any(
                called == one and name in item for one, name in wanted), item


@pytest.mark.parametrize("case", CASES)
def test_every_yarn_that_is_threaded_is_listed_by_its_name(case: str) -> None:
    proof, _ = judged(written(CASES[case]))
    assert proof is not None
    for size in proof.sizes:
        check_listed(proof.pattern, size)
