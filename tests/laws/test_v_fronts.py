"""Front bands below a V: they end where the neckband's ends meet their tops, and are sewn there."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from walebook.fabric.gauge import Gauge
from walebook.pattern.edges import Offer
from walebook.pattern.model import CollarSpec, Neck, Pattern
from walebook.proof.proof import prove
from walebook.shape.dimension_names import NECK_DEPTH
from walebook.shape.outline import outline

from tests.against import wardrobe
from tests.site.garments import made_up
from tests.site.quay_lamp import built

OPEN = [form for form in wardrobe.BODIES if "cardigan" in form or form.endswith("waistcoat")]


def banded(form: str, neck: Neck, kind: str) -> Pattern:
    """A garment with a neckband of that kind and enclosing front bands."""
    source = wardrobe.pattern(form, neck=neck)
    band = source.bands["neck"]
    return replace(source, bands={
        "neck": replace(band, kind=kind, collar=CollarSpec()),
        "front": replace(band, key="front", title="Front band", edge="front_edge")})


@pytest.mark.sampled(5, each=("form", "kind"))
@pytest.mark.parametrize("form", OPEN)
@pytest.mark.parametrize("kind", ["enclosing", "folded"])
def test_a_front_band_runs_over_the_end_of_a_round_neckband_only(form: str, kind: str) -> None:
    """A neckband's end lies on along the front edge at a level neck, across it at a V (geometry).

    P05: the neckband first, then the front bands over its ends; its example has a round neck.
    """
    for neck in (Neck.ROUND, Neck.V):
        proof, problems = prove(banded(form, neck, kind))
        assert proof is not None, [str(p) for p in problems]
        for size in proof.sizes:
            front = next(plan for plan in size.plans if plan.band.key == "front")
            titles = [section.title for section in front.edge_path.sections]
            end = [] if neck is Neck.V else ["end of the neckband"]
            assert titles == ["hem", "front edge", *end]
            assert size.assembled is not None
            sewn = [s for s in made_up(size.assembled.garment) if "foot of the V" in s]
            assert len(sewn) == (neck is Neck.V)


@pytest.mark.parametrize("kind", ["enclosing", "folded"])
def test_the_end_of_a_neckband_is_hung_through_its_layers(kind: str) -> None:
    proof, _ = prove(banded("set-in cardigan", Neck.ROUND, kind))
    assert proof is not None
    (text,) = [page for path, page in built(proof).items() if path.endswith("/m.md")]
    ends, hems = (text.count(f"{title},</b>") for title in ("end of the neckband", ", hem"))
    assert ends == hems == 2
    assert text.count("through all its layers") == ends + hems


def test_a_slope_that_begins_with_a_decrease_offers_its_rows_alone() -> None:
    """A decrease leaves no bound-off stitch to hang: a V has as many places as rows."""
    proof, _ = prove(banded("set-in cardigan", Neck.V, "folded"))
    assert proof is not None
    for size in proof.sizes:
        neck = next(plan for plan in size.plans if plan.band.key == "neck")
        right = next(p.piece for p in size.pieces if p.piece.key == "right_front")
        first = neck.edge_path.sections[0]
        drawn = outline(right, Gauge(Fraction(1), Fraction(1))).dimension(NECK_DEPTH)
        assert drawn is not None
        rows = drawn.length.mm
        assert first.offer is Offer.ROWS and first.places == rows
