"""Buttonholes at a reader's own figures, moved off a join on which one would lie."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from ..core.problems import Problem, Severity
from ..core.units import Length
from ..fabric.gauge import measure
from ..pattern.fabrics import Fabric
from ..pattern.holes import Distance
from ..pattern.model import Band, Pattern
from .proof import Proof, prove_alone

FURTHEST = 8  # stitches by which holes are moved, the fewest first
_AT_JOIN = "hole-at-join"


def with_holes_moved(pattern: Pattern, size: str, found: tuple[Problem, ...]
                     ) -> tuple[Proof | None, tuple[Problem, ...], int]:
    """Return a size that was refused for holes at a join, with holes that keep clear of it.

    The uppermost hole of each band lies further from its end, and the others are spread anew: the
    proof, its findings, and how much further [stitches]. Without such a refusal, and where nothing
    helps, there is no proof, and the findings are those given.
    """
    if {p.code for p in found if p.severity is Severity.ERROR} == {_AT_JOIN}:
        for stitches in range(1, FURTHEST + 1):
            bands = {key: _moved(pattern.fabrics, band,
                                 stitches) for key, band in pattern.bands.items()}
            proof, more = prove_alone(replace(pattern, bands=bands), size)
            if proof is not None:
                return proof, more, stitches
    return None, found, 0


def _moved(fabrics: Mapping[str, Fabric], band: Band, stitches: int) -> Band:
    holes, fabric = band.buttonholes, fabrics.get(band.fabric or "")
    if holes is None or fabric is None or holes.at or holes.through or holes.in_hem:
        return band
    if holes.upper.stitches is not None:
        upper = Distance(stitches=holes.upper.stitches + stitches)
    else:
        mm = holes.upper.length.mm if holes.upper.length else 0
        upper = Distance(length=Length(mm + stitches * measure(fabric.swatches).stitch))
    return replace(band, buttonholes=replace(holes, upper=upper))
