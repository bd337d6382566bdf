"""Sources that ask for pockets: what a sound one comes to, and what is said of others.

Counts are worked out beside each from the swatch: 30 stitches and 42 rows to 10 cm.
"""

from __future__ import annotations

import pytest
from reading import FILE
from test_garment_sources import GARMENT, messages, read
from walebook.machine.edge_steps import lower, upper
from walebook.machine.steps import HandKnit
from walebook.proof.proof import Proof, SizeProof, prove

START = GARMENT[:GARMENT.index("  moved: 2\n")]
TOP = "bands:\n  tops: {edge: pocket, pick_up: 3/4, depth: 2 cm, kind: single}\n"
SOUND = START + "  pockets: {width: 12 cm, height: 20 cm}\n" + TOP


def proved(text: str) -> tuple[Proof | None, list[str]]:
    """The proof, and the errors as shown."""
    pattern, problems = read(text)
    assert pattern is not None, [str(p) for p in problems]
    proof, found = prove(pattern)
    return proof, [str(p).removeprefix(f"{FILE}:") for p in found if p.severity.value == "error"]


def size(text: str) -> SizeProof:
    """The first size of a sound source."""
    proof, found = proved(text)
    assert proof is not None, found
    return proof.sizes[0]


def test_a_pocket_in_each_front_a_top_on_either_and_linings() -> None:
    """12 cm are 36 stitches. 20 cm less a hem of 12 rows and 2 more: at its dial not swatched,
    14 rows of 10/4.2 mm, 33.3 mm; 166.7 mm left are 70 rows."""
    made = size(SOUND)
    fronts = [p for p in made.pieces if p.piece.key in ("right_front", "left_front")]
    for knitted in fronts:
        (slot,) = knitted.piece.pockets
        assert (slot.stitches, slot.row) == (36, 70)
        name = f"{knitted.piece.key.partition('_')[0]} pocket"
        waits = dict(knitted.trace.states[-1].waiting)
        assert (waits[lower(name)], waits[upper(name)]) == (36, 37)
    (lining,) = [p for p in made.pieces if p.piece.key == "pocket_lining"]
    assert (lining.piece.stitches.value, lining.piece.rows) == (37, 70)
    assert made.assembled is not None
    assert made.assembled.garment.times["pocket_lining"] == 2
    assert [s.plan.stitches.value for s in made.strips] == [38, 38]  # one more at either end


def test_a_pocket_stands_in_the_middle_of_its_front_or_where_it_is_put() -> None:
    """5 cm from the side seam are 15 stitches, and 1 for the seam."""
    front = next(p.piece for p in size(SOUND).pieces if p.piece.key == "right_front")
    (slot,) = front.pockets
    assert slot.start - (front.stitches.value - slot.start - 36) in (-1, 0)
    text = SOUND.replace("height: 20 cm", "height: 20 cm, from_side: 5 cm")
    front = next(p.piece for p in size(text).pieces if p.piece.key == "right_front")
    assert front.stitches.value - front.pockets[0].start - 36 == 16


def test_a_single_pocket_is_on_the_left_front() -> None:
    text = SOUND.replace("20 cm}", "20 cm, number: 1}").replace("edge: pocket", "edge: left_pocket")
    made = size(text)
    opened = [p.piece.key for p in made.pieces if p.piece.pockets]
    assert opened == ["left_front"]
    assert [s.front.value for s in made.strips] == ["left"]


def test_a_whole_front_has_both_pockets_or_one_in_its_middle() -> None:
    text = SOUND.replace("set-in cardigan", "set-in pullover")
    made = size(text)
    (front,) = [p for p in made.pieces if p.piece.pockets]
    cords = [s for s in front.program.steps if isinstance(s, HandKnit) and s.cord]
    assert [s.cord for s in cords] == ["right pocket", "left pocket"]
    assert cords[0].needles == cords[1].needles.mirrored()
    assert cords[0].needles.first > cords[1].needles.last  # the wearer's right is the bed's
    one = size(text.replace("20 cm}", "20 cm, number: 1}").replace("edge: pocket",
                                                                   "edge: front_pocket"))
    assert [s.plan.stitches.value for s in one.strips] == [38]


CASES: dict[str, tuple[str, str, list[str]]] = {
    "wider than its front": ("width: 12 cm", "width: 40 cm", [
        "23:20: error, pocket-too-wide: sizes S, M and L: "]),
    "in the hem": ("height: 20 cm", "height: 3.5 cm", ["23:35: error, pocket-too-low: "]),
    "above the neck": ("height: 20 cm", "height: 80 cm", ["23:35: error, pocket-too-high: "]),
    "a lining longer than the garment": ("height: 20 cm", "height: 20 cm, depth: 30 cm", [
        "23:49: error, pocket-too-deep: "]),
    "no band": ("edge: pocket, ", "edge: neck, ", ["23:3: error, pocket-open: "]),
}


def first(found: list[str], start: str) -> bool:
    return bool(found) and found[0].startswith(start.partition("sizes")[0])


@pytest.mark.parametrize("name", CASES)
def test_pockets_that_cannot_be_had(name: str) -> None:
    old, new, (start,) = CASES[name]
    proof, found = proved(SOUND.replace(old, new))
    assert proof is None and first(found, start), found


def test_a_pocket_too_wide_says_how_many_stitches_there_are() -> None:
    _, found = proved(SOUND.replace("width: 12 cm", "width: 40 cm"))
    assert "found a pocket of 120 stitches on the right front at row 70, where " in found[0]
    assert found[0].endswith("Make the pocket narrower or lower.")


def test_a_pocket_top_has_no_buttonholes() -> None:
    text = SOUND.replace("kind: single", "kind: single, buttonholes: {button: 10 mm, number: 1}")
    assert proved(text)[1] == [
        "25:65: error, pocket-with-holes: found buttonholes in a pocket top; expected a band "
        "without. Leave them out, or sew a loop to the pocket top."]


def test_pockets_on_a_form_without_fronts() -> None:
    text = SOUND.replace("form: set-in cardigan", "form: mitten").replace("  neck: v\n", "")
    text = text.replace("  hem: {depth: 3 cm, fold: picot, dial: 3.1}\n", "")
    text = text.replace("edge: pocket", "edge: cuff")
    assert [m.partition(":")[0] for m in proved(text)[1]]
    assert any("pocket-" in m for m in proved(text)[1])


def test_a_pocket_without_its_width() -> None:
    assert messages(SOUND.replace("width: 12 cm, ", "")) == [
        '23:3: error, missing-key: found no "width" in the pockets. Add a line such as '
        '"width: 13 cm".']


def test_an_edge_that_the_pockets_do_not_have() -> None:
    found = messages(SOUND.replace("edge: pocket,", "edge: front_pocket,"))
    assert len(found) == 1 and "unknown-name" in found[0]
