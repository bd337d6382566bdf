"""An edge the source describes is what it says it is, whatever it is called."""

from __future__ import annotations

import pytest
from reading import HERE
from test_garment_sources import read, sound
from test_hole_sources import OWN
from walebook.core.problems import Problem
from walebook.proof.proof import Proof, prove
from walebook.proof.yarn_requirement import yarn_requirements

from tests.site.quay_lamp import built

NAMES = ("neck", "armhole", "front_edge", "front_and_neck", "placket", "pocket", "brim", "hem",
         "rail")
START = OWN[:OWN.index("edges:\n")]


def proved(name: str, edge: str, band: str = "") -> Proof:
    text = START + (f"edges:\n  {name}: {{{edge}, fabric: body}}\n"
                    f"bands:\n  rim: {{edge: {name}, fabric: body, depth: 4 cm{band}}}\n")
    proof, problems = prove(sound(text))
    assert proof is not None, [str(p) for p in problems]
    return proof


def page(proof: Proof) -> str:
    (text,) = [text for path, text in built(proof).items() if path.endswith("/m.md")]
    return text


def grams(proof: Proof) -> int:
    """The stitches that the rim takes, of which its yarn is counted."""
    (part,) = [part for need in yarn_requirements(proof.pattern, proof.sizes[0])
               for part in need.parts
               if part.key == "rim"]
    return part.stitches.value


@pytest.mark.parametrize("name", NAMES)
def test_a_round_edge_takes_one_band_whose_ends_meet(name: str) -> None:
    proof = proved(name, "kind: closed round, rows: 80")
    text = page(proof)
    assert len(proof.sizes[0].strips) == 1
    assert "right front" not in text and "left front" not in text
    assert "They meet at the seam" in text and "short ends shut" not in text


@pytest.mark.parametrize("name", NAMES)
def test_one_edge_takes_one_band_with_two_ends_of_its_own(name: str) -> None:
    proof = proved(name, "kind: one edge, rows: 80, ends: [waist, strap]")
    text = page(proof)
    assert len(proof.sizes[0].strips) == 1
    assert "right front" not in text and "left front" not in text
    assert "two short ends shut" in text
    assert "counted from the waist" in text and "strap" in text


@pytest.mark.parametrize("name", NAMES)
def test_a_pair_of_fronts_takes_two_bands_and_twice_the_yarn(name: str) -> None:
    pair, one = proved(name, "kind: pair of fronts, rows: 80"), proved(
        name, "kind: one edge, rows: 80")
    assert [strip.front.value for strip in pair.sizes[0].strips] == ["right", "left"]
    assert grams(pair) == 2 * grams(one)
    assert "right front" in page(pair) and "left front" in page(pair)


@pytest.mark.parametrize(("are", "said"), [
    ("on waste yarn", "Take the stitches off the waste yarn, one onto each needle"),
    ("bound off",
     "Take one loop of every stitch bound off there, from the second row below the chain."),
    ("cast on", "Take one loop of every stitch cast on there.")])
def test_stitches_are_hung_as_what_they_are(are: str, said: str) -> None:
    text = page(proved("rail", "kind: one edge, sections: [{title: side, rows: 40}, "
                               f"{{title: top, stitches: 20, stitches_are: {are}}}]"))
    others = {"Take the stitches off the waste yarn, one onto each needle",
              "Take one loop of every stitch bound off there",
              "Take one loop of every stitch cast on there."}
    assert said in text and [one for one in others if one in text] == [
        one for one in others if said.startswith(one)]


def test_a_top_that_waits_is_named_with_its_piece_and_the_edge_to_take_it() -> None:
    """The edge that the finding asks for is the one that a band then takes."""
    def waiting(text: str) -> list[Problem]:
        pattern, problems = read(text)
        assert pattern is not None, problems
        return [p for p in prove(pattern)[1] if p.code == "top-waits"]

    text = (HERE / "codes" / "top-waits.yaml").read_text("utf-8")
    (found,) = waiting(text)
    assert "bag" in found.found and "waste yarn" in found.found
    edge = found.expected.partition("edge: ")[2]
    taken = text + f"bands:\n  top: {{edge: {edge}, kind: single, pick_up: 1, depth: 3 cm}}\n"
    assert edge and not waiting(taken)
