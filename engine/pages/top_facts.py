"""The few facts at the head of a size's page: whom it fits, what it measures, yarn and gauge."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from ..drawings.dimensions import both
from ..fabric.gauge import measure
from ..fabric.piece_fabrics import piece_fabrics
from ..markup.html import esc
from ..pattern.fabrics import Fabric
from ..pattern.model import Band, GarmentSpec, Pattern
from ..proof.advice import Fit, SizeAdvice
from ..proof.parts_of_fabrics import parts_of_fabrics
from ..proof.proof import SizeProof
from ..proof.yarn_requirement import YarnRequirement
from ..shape.garment import Garment
from ..words import garment_text, gauges
from ..words import size_page_text as words
from ..words.fabric_names import fabric_names
from ..words.garment_text import amount_text
from .band_lengths import finished
from .garment_facts import cell_text, measured
from .rings import rings

LENGTHS = ("length", "depth", "height")
"""The measures that say how long a garment is, the first that it has."""


def top_facts(pattern: Pattern, size: SizeProof, requirements: Sequence[YarnRequirement],
              advice: SizeAdvice | None) -> Iterator[tuple[str, str]]:
    """Return the facts as name and value, both HTML."""
    fits = {fit.name: fit for fit in advice.fits} if advice else {}
    if size.assembled:
        yield from _garment(pattern.garment, pattern.fabrics, pattern.bands, size,
                            size.assembled.garment, fits)
    else:
        for plan in size.plans:
            done = finished(plan)
            yield esc(plan.band.title), words.band_lies(f"{done.length}", f"{done.depth}")
    for requirement in requirements:
        name = f"{words.YARN}: {requirement.yarn.called}" if len(requirements) > 1 else words.YARN
        yield esc(name), esc(amount_text(requirement))
    if pattern.garment:
        names = fabric_names(parts_of_fabrics(pattern))
        fabrics = piece_fabrics(pattern.garment, pattern.fabrics)
        for fabric in fabrics:
            name = words.gauge_of(names[fabric.key]) if len(fabrics) > 1 else words.GAUGE
            yield esc(name), gauges.gauge_short(measure(fabric.swatches), fabric.dial)


def _garment(spec: GarmentSpec | None, fabrics: Mapping[str, Fabric], bands: Mapping[str, Band],
             size: SizeProof, garment: Garment, fits: Mapping[str, Fit]
            ) -> Iterator[tuple[str, str]]:
    """The body, the first measure with its ease, the length; of an own outline how far it goes
    round and how high it is then, where its edges close a ring, else its first two measures."""
    done, own = garment.finished, garment.as_knitted
    if own and (closed := list(rings(spec, fabrics, size))):
        yield from ((text, both(made.length)) for text, made in closed)
        return
    first = next((name for name in done if name in fits), next(iter(done), ""))
    long = next((name for name in (*(done if own else ()), *LENGTHS)
                 if name in done and name != first), "")
    if fit := fits.get(first):
        yield garment_text.fits_body(fit.label), esc(cell_text(fit.body))
    for name in filter(None, (first, long)):
        plain, band, made = measured(spec, fabrics, bands, size, name)
        text, shown = garment_text.finished(plain, band, own=own), both(made.length)
        fit = fits.get(name)
        yield text, words.with_ease(shown, esc(fit.ease_text)) if fit else shown
