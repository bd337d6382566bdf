"""What came and what went, packages to buy, whose side is meant, eyelets in their order, and the
words of yarns, feet, scales, corrections and a reader's gauge.
"""

from __future__ import annotations

import re
from fractions import Fraction
from types import SimpleNamespace

import pytest
from walebook.compare.report import Changed
from walebook.fabric.gauge import Gauge
from walebook.machine.needles import NONE, Needle, bed_of, of
from walebook.machine.step_keys import StepYarn
from walebook.machine.steps import Dial, Side
from walebook.machine.trace import State
from walebook.pattern.corrections import Correction
from walebook.pattern.model import Fold
from walebook.pattern.rib_specs import RibMake
from walebook.shape.ribs import RIBS, Rib
from walebook.words.casing_instructions import choose_eyelets
from walebook.words.comparison_text import values_text
from walebook.words.correction_text import CorrectedPlace, in_your_size
from walebook.words.declared import sides_named
from walebook.words.garment_text import amount_text
from walebook.words.list_text import on_a_card
from walebook.words.needle_marks import all_alike
from walebook.words.own_gauge_text import About
from walebook.words.schematic_text import foot_text
from walebook.words.sketch_text import cover_scale

from tests import small_patterns as small


@pytest.mark.parametrize(("before", "after", "said"), [
    ("", "12 rows", "new: 12 rows"), ("12 rows", "", "gone: 12 rows")])
def test_a_fact_of_one_side_alone_is_new_or_gone(before: str, after: str, said: str) -> None:
    """What only the state after has is new (the meaning of the words)."""
    assert values_text(Changed(size="", kind="count", place="front", title="Front", name="rows",
                               before=before, after=after)) == said


@pytest.mark.parametrize(("packages", "said"), [(1, "1 ball or cone"), (2, "2 balls or cones")])
def test_each_number_of_packages_says_of_what(packages: int, said: str) -> None:
    """One is a ball, two are balls (English)."""
    need = SimpleNamespace(grams=None, metres=None, yarn=SimpleNamespace(package_g=None),
                           packages=SimpleNamespace(value=packages))
    assert amount_text(need) == said


def test_sides_of_a_wearer_are_named_on_worn_pieces_alone() -> None:
    """A piece that nobody wears has no wearer's left."""
    assert "wearer" in sides_named(worn=True)
    assert "wearer" not in sides_named(worn=False)
    assert sides_named(worn=True).startswith(sides_named(worn=False))


@pytest.mark.parametrize(("hem", "named"), [(Side.LEFT, ["L9", "L2", "R6"]),
                                            (Side.RIGHT, ["R6", "L2", "L9"])])
def test_eyelets_are_numbered_from_one_in_order_from_the_hem(hem: Side, named: list[str]) -> None:
    """The first is the one nearest to the lower edge, at whichever end of the bed that lies."""
    both = of(*(Needle(at + more) for at in (-9, -2, 5) for more in (0, 1)))
    told = choose_eyelets(SimpleNamespace(strip=SimpleNamespace(layout=SimpleNamespace(hem=hem))),
                          SimpleNamespace(needles=both))
    found = [re.fullmatch(r"Eyelet (\d): <b>(\w+) and \w+</b>", place) for place in told.places]
    assert [(int(each[1]), each[2]) for each in found if each] == list(enumerate(named, 1))


@pytest.mark.parametrize(("package", "said"), [((50, "125 m"), "Yarn: 250 m to 100 g"),
                                               ((), "")])
def test_a_card_says_how_long_100_g_of_the_yarn_are(package: tuple[int, str], said: str) -> None:
    """50 g of 125 m are 100 g of 250 m; without a package and a count nothing is known."""
    made = small.pattern(bed=small.bed("trial", "4.5 mm", 200), yarns=small.wool("Wool", *package),
                         sizes=("one",), fabrics=())
    card = on_a_card(made).replace("\u00a0", " ")
    assert card.rstrip(".").split(". ")[3:] == [said] * bool(said)


def test_the_foot_of_a_piece_is_a_rib_or_a_hem() -> None:
    """A rib is no hem (the words of the source)."""
    hem = small.hem(Fold.TURNED)
    assert hem is not None and foot_text(hem) == "hem"
    assert foot_text(Rib(make=RibMake.TWO_BED, works=RIBS["1x1"], rows=4,
                         dial=Dial(12))) == "rib"


def test_a_correction_of_a_step_says_what_to_do_before_and_after_it() -> None:
    """Who has knitted the step must compare; a correction without a step names no such place."""
    places = [CorrectedPlace("back-3", "Back")]
    text = in_your_size(Correction(date="2026-12-01", text="Knit 4 rows.", step=3),
                        places)
    assert "If you have not reached this step" in text
    assert "If you have passed it, compare your knitting with it." in text
    assert "this step" not in in_your_size(Correction(date="2026-12-01", text="Knit."), places)


def test_the_mark_of_a_readers_page_has_her_gauge_to_a_tenth() -> None:
    """40 stitches over 16 cm are 25 to 10 cm; 65 rows over 20 cm are 32.5 (proportion)."""
    about = About(Gauge(Fraction(160, 40), Fraction(200, 65)), measures=False)
    assert re.search(r"25 stitches, 32\.5 rows to 10 cm$", about.mark)
    assert re.search(r" 25 by 32\.5$", about.short_mark)


@pytest.mark.parametrize(("smaller", "said"), [(1, "life size"), (3, "at a scale of 1 to 3")])
def test_a_sketch_that_is_not_smaller_is_life_size(smaller: int, said: str) -> None:
    assert f" is {said} when printed" in cover_scale(smaller, 1)


def test_needles_that_all_hold_one_stitch_in_work_get_one_mark() -> None:
    """With one of them chosen, or with an empty one beside them, there are two marks."""
    band = bed_of(20).leftmost(8)
    state = State(counter=4, side=Side.RIGHT, dial=Dial(18), feeder=StepYarn.MAIN, working=band,
                  holding=NONE, loops=((StepYarn.MAIN, band),), loaded=band, waiting=())
    assert all_alike(state, band)
    assert not all_alike(state, band, of(band.first))
    assert not all_alike(state, bed_of(20).leftmost(9))
