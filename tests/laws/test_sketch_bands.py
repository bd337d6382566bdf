"""Bands, pockets and collars are drawn as deep, as long and where their plans have them.

Every band of the collection in its smallest and its largest size, read out of the SVG and held
against the counts of its plan times its gauge.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import dist

import pytest
from walebook.catalogue.bands import KINDS
from walebook.catalogue.pocket_edges import EDGES as POCKETS
from walebook.drawings.garment_conventions import COLLAR_STANDS, ROLL
from walebook.drawings.garment_sketch import View, garment
from walebook.drawings.schematic import outlines
from walebook.fabric.gauge import measure
from walebook.pattern.holes import ButtonholeKind
from walebook.plan.band import BandPlan, depth_mm
from walebook.plan.band_order import AROUND, FRONT_EDGES, NECK, PLACKET
from walebook.proof.proof import Proof, SizeProof, prove

from tests.laws.bands import pattern
from tests.laws.sketches import Drawn, drawn, sketches
from tests.whole_collection import collection

NEAR = 1.5  # [mm]


def planned(*edges: str, falls: bool = False, stands: bool = True
            ) -> Iterator[tuple[Proof, SizeProof, BandPlan]]:
    for proof in collection().proofs:
        for size in (proof.sizes[0], proof.sizes[-1]):
            for plan in size.plans:
                kind = KINDS[plan.band.kind]
                if plan.band.garment_edge in edges and kind.falls is falls \
                        and kind.stands is stands:
                    yield proof, size, plan


def depth(plan: BandPlan) -> float:
    """How deep a band is; on needles left out `test_lengthwise_sources` holds that to them."""
    deep = float(depth_mm(plan) if plan.repeat else plan.depth.value * plan.gauge.row)
    return deep * float(ROLL) if KINDS[plan.band.kind].rolls else deep


def band(proof: Proof, size: SizeProof, plan: BandPlan, seen: View = View.FRONT) -> list[Drawn]:
    (svg,) = sketches(garment(proof.pattern, size,
                              outlines(proof.pattern.garment, proof.pattern.fabrics, size),
                              views=(seen,)))
    found = [one for one in drawn(svg) if one.part == f"band {plan.band.key}"
             and {"wb-fill", "wb-outline"} <= set(one.looks)]
    assert found, (proof.pattern.slug, size.size, plan.band.key)
    return found


def extent(values: list[float]) -> float:
    return max(values) - min(values)


@pytest.mark.parametrize("edge", [*FRONT_EDGES[:1], PLACKET])
def test_an_upright_band_is_as_deep_and_as_long_as_planned(edge: str) -> None:
    seen = 0
    for proof, size, plan in planned(edge):
        lines, seen = band(proof, size, plan), seen + 1
        across = extent([x for line in lines for x in line.xs])
        fronts = 2 if plan.band.zip else 1  # two meet at a zip, else one laps over the other
        assert across == pytest.approx(fronts * depth(plan), abs=NEAR)
        assert extent(lines[0].ys) == pytest.approx(float(plan.edge_path.length), abs=NEAR)
        assert plan.band.zip or max(lines[0].xs) == pytest.approx(-min(lines[0].xs), abs=NEAR)
    assert seen


def test_a_band_round_the_neck_is_as_deep_beside_it_as_planned() -> None:
    seen = 0
    for proof, size, plan in planned(NECK):
        (line, *_), seen = band(proof, size, plan, View.BACK), seen + 1
        # From the shoulder round the seam to the other one, and back along the free edge.
        points = line.points
        assert dist(points[0], points[-2]) == pytest.approx(depth(plan), abs=NEAR), \
            (proof.pattern.slug, size.size)
    assert seen > 5


def test_a_band_from_hem_to_hem_laps_over_the_middle_by_its_depth() -> None:
    for proof, size, plan in planned(AROUND):
        low = [x for line in band(proof, size, plan) for x, y in line.points if y == 0]
        assert extent(low) == pytest.approx(depth(plan), abs=NEAR)
        assert max(low) == pytest.approx(-min(low), abs=NEAR)


def test_bands_of_armholes_stand_out_by_their_depth() -> None:
    seen = 0
    for proof, size, plan in planned("armhole"):
        lines, seen = band(proof, size, plan), seen + 1
        right = max(lines, key=lambda line: max(line.xs))
        top = max(right.ys)
        ends = sorted(x for x, y in set(right.points) if top - y < NEAR)
        assert ends[-1] - ends[0] == pytest.approx(depth(plan), abs=NEAR), proof.pattern.slug
    assert seen


def test_pockets_are_as_wide_and_as_high_up_as_their_openings() -> None:
    seen = 0
    for proof, size, plan in planned(*POCKETS):
        assert size.assembled is not None and proof.pattern.garment is not None
        gauge = measure(proof.pattern.fabrics[proof.pattern.garment.fabric].swatches)
        slots = [(piece, slot) for piece in size.assembled.garment.pieces
                 for slot in piece.pockets]
        lines, seen = band(proof, size, plan), seen + 1
        assert len(lines) == len(slots)
        for line, (piece, slot) in zip(lines, slots, strict=True):
            assert extent(line.xs) == pytest.approx(float(slot.stitches * gauge.stitch), abs=NEAR)
            foot = float(piece.hem.depth(gauge.row)) if piece.hem else 0
            assert min(line.ys) == pytest.approx(foot + float(slot.row * gauge.row), abs=NEAR)
            assert extent(line.ys) == pytest.approx(depth(plan), abs=NEAR)
    assert seen


def test_a_collar_falls_as_far_behind_as_it_is_deep() -> None:
    """All of it but what stands: a third of its depth behind the neck."""
    seen = 0
    for proof, size, plan in planned(NECK, falls=True, stands=True):
        seen += _falls(proof, size, plan)
    for proof, size, plan in planned(NECK, falls=True, stands=False):
        seen += _falls(proof, size, plan)
    assert seen > 3


def _falls(proof: Proof, size: SizeProof, plan: BandPlan) -> int:
    (line,) = band(proof, size, plan, View.BACK)
    short = plan.collar.short_rows
    deep = float((plan.depth.value + (short.extra.value if short else 0)) * plan.gauge.row)
    middle = [y for x, y in line.points if abs(x) < 0.6]
    assert extent(middle) == pytest.approx(deep * (1 - float(COLLAR_STANDS)), abs=NEAR)
    return 1


def test_every_hole_of_a_band_by_itself_is_drawn_as_a_hole() -> None:
    """Of a pattern without a garment: round or level, as many as its plan has, all of one look."""
    seen = set()
    for proof in collection().proofs:
        if proof.pattern.garment is not None:
            continue
        size = proof.sizes[0]
        (svg,) = sketches(garment(proof.pattern, size, ()))
        for plan in size.plans:
            asked = plan.band.buttonholes
            if asked is None or plan.placing is None or asked.kind is ButtonholeKind.LOOPS:
                continue
            holes = [one for one in drawn(svg) if one.part == f"band {plan.band.key}"
                     and "wb-hole" in one.looks]
            assert len(holes) == plan.placing.buttonhole_count, (proof.pattern.slug, plan.band.key)
            for hole in holes:  # round or level, it is as far to either side of its middle
                across, up = ({at[way] for at in hole.points} for way in (0, 1))
                for places in (across, up):
                    middle = (min(places) + max(places)) / 2
                    assert all(any(abs(2 * middle - one - other) <= .25 for other in places)
                               for one in places), (proof.pattern.slug, plan.band.key)
            seen.add(asked.kind)
    assert {ButtonholeKind.EYELET, ButtonholeKind.ONE_STITCH, ButtonholeKind.BOUND_OFF} <= seen


def test_the_line_round_a_buttonhole_ends_where_it_begins() -> None:
    """A hole that is bound off is drawn as a ring; an open line would leave out a side of it."""
    proof, _ = prove(pattern(holes=3))
    assert proof is not None
    (svg,) = sketches(garment(proof.pattern, proof.sizes[0], ()))
    holes = [one.points for one in drawn(svg) if "wb-hole" in one.looks]
    assert len(holes) == 3
    assert all(points[0] == points[-1] and len(set(points)) > 4 for points in holes)
