"""What a size has and what it has not: the facts from which its general sentences are said."""

from __future__ import annotations

from ..machine import steps
from ..machine.records import dataclass
from ..machine.step_keys import Topic
from ..pattern.model import GarmentSpec
from ..proof.proof import SizeProof
from ..words.instruction import works


@dataclass(frozen=True, slots=True, kw_only=True)
class Has:
    """Facts of one size. A `worn_cord` stays in the garment; `making_cords` are drawn out again,
    and what `marks` rows and edges is taken out."""

    buttons: bool
    seams: bool
    bands: bool
    worn_cord: bool
    making_cords: bool
    marks: bool


def what_it_has(spec: GarmentSpec | None, size: SizeProof) -> Has:
    """Return the facts of a size, from its bands, its joins and its programs."""
    bands = [plan.band for plan in size.plans]
    programs = [work.program for work in works(size)]
    hand_made = (step for p in programs for step in p.of(steps.HandKnit))
    own_cord = spec is not None and spec.cord is not None
    return Has(
        buttons=any(band.buttonholes is not None for band in bands),
        seams=bool(size.assembled and size.assembled.garment.joins),
        bands=bool(bands),
        worn_cord=own_cord or any(band.cord is not None for band in bands),
        making_cords=any(p.cord_yarn for p in programs) or any(s.cord for s in hand_made),
        marks=any(s.marks or (isinstance(s, steps.Attend)
                              and s.to in (Topic.MARK_EDGES, Topic.MARK_NECK))
                  for p in programs for s in p.steps))
