"""What a garment measures, whom it fits, and the yarn it takes, in one size."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from fractions import Fraction

from ..catalogue.bands import KINDS
from ..catalogue.edge_roles import EdgeRole, role_of
from ..core.counted import Reckoned
from ..core.expression import Expression, Operand
from ..core.operands import Role
from ..core.units import Length
from ..core.yarn_parts import Beside
from ..drawings.dimensions import both
from ..fabric.gauge import measure
from ..fabric.piece_fabrics import piece_fabric
from ..markup.html import details, esc, items
from ..pattern.edges import Offer
from ..pattern.fabrics import Fabric
from ..pattern.model import Band, GarmentSpec
from ..plan.over_head import NECK, closed_neck, largest_head, stretched
from ..plan.sense import rolls
from ..plan.worked_measures import own_chart
from ..proof.advice import SizeAdvice
from ..proof.proof import SizeProof
from ..proof.yarn_requirement import YarnRequirement
from ..shape.garment import Extent, OwnLength
from ..shape.ribs import Rib
from ..sizing.charts import SizeCell
from ..words import garment_text as words
from ..words.joins import join_title
from ..words.terms.working import working_of
from ..words.workings import JOINED_EDGES, MEASURES, SUMS, all_counts, measure_label, working_label
from .band_lengths import finished as lengths_of
from .measures_used import used_measures
from .rings import rings

# The measures that end at a lower edge on which a band can be hung.
LOWER: Mapping[str, tuple[str, ...]] = {"hem": ("length",), "brim": ("depth", "length")}


def garment_facts(spec: GarmentSpec | None, fabrics: Mapping[str, Fabric],
                  bands: Mapping[str, Band], size: SizeProof, advice: SizeAdvice | None
                 ) -> Iterator[tuple[str, str]]:
    """Return finished measures, each with the body it is worn on and the ease."""
    if size.assembled is None:
        return
    fits = {fit.name: fit for fit in advice.fits} if advice else {}
    beside = ((words.fits_body(label), esc(cell_text(cell)))
              for label, cell in (advice.beside if advice else ()))
    own = size.assembled.garment.as_knitted
    for name in named_once(size.assembled.garment.finished):
        text, band, made = measured(spec, fabrics, bands, size, name)
        yield words.finished(text, band, own=own), both(made.length)
        if fit := fits.get(name):
            yield words.fits_body(fit.label), esc(cell_text(fit.body))
            yield words.ease_of(text), esc(fit.ease_text)
            yield from beside
    yield from beside
    yield from ((text, both(made.length))
                for text, made in rings(spec, fabrics, size))
    if over := _over_head(spec, size):
        yield words.NECK_STRETCHED, both(over[0].length)
        yield words.fits_body(words.HEAD), esc(cell_text(over[1]))


def _over_head(spec: GarmentSpec | None, size: SizeProof) -> tuple[Reckoned, SizeCell] | None:
    """How far a closed neck stretches, and the head that it goes over; None where no chart has a
    head, or the neck opens."""
    if size.assembled is None or spec is None:
        return None
    edge = closed_neck(size.assembled.garment)
    head = largest_head(own_chart(spec), size.size)
    if edge is None or head is None:
        return None
    bands = [lengths_of(plan).length.made for plan in size.plans if plan.band.garment_edge == NECK]
    return stretched(edge, bands), head


def named_once(finished: Mapping[str, Length]) -> Mapping[str, Length]:
    """Finished measures without the depth of a hat that is its length: nothing turns up."""
    alike = finished.get("depth") == finished.get("length")
    return {name: long for name, long in finished.items() if name != "depth" or not alike}


def measured(spec: GarmentSpec | None, fabrics: Mapping[str, Fabric], bands: Mapping[str, Band],
             size: SizeProof, name: str) -> tuple[str, str, Reckoned]:
    """Return a finished measure as a reader knows it, with the band that it ends at (both HTML),
    and how long it is."""
    assert size.assembled is not None
    garment = size.assembled.garment
    text = esc(words.measure_text(name, short_sleeve=size.assembled.short_sleeve,
                                  own=garment.own_lengths.get(name)))
    if name == "length" and any(
            short.grows for piece in garment.pieces for short in piece.short_rows):
        text += words.AT_SIDES  # a shirt tail hangs lower
    if name in ("length", "thumb length") and "thumb length" in garment.lengths:
        text += words.BEFORE_DRAWN  # over the fingertips the rows do not stand straight
    if (own := garment.own_lengths.get(name)) and _is_banded(size, own):
        text += words.BEFORE_BANDS
    if name == "across" and any(b.garment_edge == "armhole" for b in bands.values()):
        text += words.BESIDE_BANDS
    if name == "chest" and any(role_of(band.garment_edge) is EdgeRole.FRONT
                               and rolls(fabrics, band) for band in bands.values()):
        text += words.FRONTS_FLAT
    return text, *_to_band(spec, fabrics, size, name, garment.lengths[name])


def _is_banded(size: SizeProof, own: OwnLength) -> bool:
    """True where a band makes an own piece wider (on its sides) or longer than it is as knitted."""
    return own.extent is not Extent.DEPTH and any(
        (section.offer is Offer.ROWS) == (own.extent is Extent.WIDTH)
        for plan in size.plans if plan.band.garment_edge.partition(".")[0] == own.piece
        for section in plan.edge_path.sections)


def _to_band(spec: GarmentSpec | None, fabrics: Mapping[str, Fabric], size: SizeProof, name: str,
             made: Reckoned) -> tuple[str, Reckoned]:
    """Return a finished measure down to where a band is hung on the edge that it ends at, with
    the words that say so; else the measure, and no words.

    A band hung on a side of rows is hung so many stitches in from it.
    """
    if spec is None:
        return "", made
    stitch = measure(piece_fabric(spec, fabrics, "back").swatches).stitch
    for plan in size.plans:
        if name in LOWER.get(plan.band.garment_edge, ()) and KINDS[plan.band.kind].stands:
            on_rows = plan.meetings[0].section.offer is Offer.ROWS
            hidden = Operand(Fraction(plan.band.stitches_in), Role.INSIDE) * Operand(
                stitch, Role.STITCH_WIDTH)
            return words.to_the_band(plan.band), Reckoned(made.made - hidden) if on_rows else made
    return "", made


def cell_text(cell: SizeCell) -> str:
    """A chart's figure as printed, else what holds, in both units: inches that the chart does not
    print are worked out."""
    if cell.inches and not cell.mended:
        return cell.printed
    return words.in_inches_too(cell.span, cell.low, cell.high)


def required_yarns(size: SizeProof, requirements: Sequence[YarnRequirement]) -> str:
    """Return what a size needs of each yarn, with the share of every piece and band."""
    seams = bool(size.assembled and size.assembled.garment.joins)
    several = any(extra.part.what is Beside.SWATCH for requirement in requirements
                  for extra in requirement.extras)
    lead = words.yarn_lead(seams=seams, swatches=several,
                           pieces=size.assembled is not None)
    return lead + items((words.yarn_text(one) for one in requirements), "wb-list") + "".join(
        map(_shares, requirements))


def _shares(requirement: YarnRequirement) -> str:
    working = esc(words.yarn_worked(requirement))
    return details(working_label(esc(requirement.yarn.called)), working) if working else ""


def garment_workings(spec: GarmentSpec | None, fabrics: Mapping[str, Fabric],
                     bands: Mapping[str, Band], size: SizeProof, of_bands: Iterable[Expression]
                    ) -> list[str]:
    """Return the working of every count of the pieces, of every join and of every measure that
    these or what is counted `of_bands` come from."""
    if size.assembled is None:
        return []
    garment = size.assembled.garment
    titles = {piece.key: piece.title for piece in garment.pieces}
    ribbed = {piece.key for piece in garment.pieces if isinstance(piece.hem, Rib)}
    at_corners = words.corner_counts(garment.own_corners)
    out = []
    for key in dict.fromkeys(key for key, _, _ in (*garment.counts, *garment.workings)):
        lines = (f"<b>{esc(text.capitalize())}, {count}:</b> {esc(working_of(count))}"
                 for own, name, count in (*garment.counts, *garment.workings) if own == key
                 for text in (at_corners.get(name) or words.count_text(
                     name, ribbed=key in ribbed),))
        out.append(worked(all_counts(titles.get(key, key)), lines))
    if garment.joins:
        out.append(worked(JOINED_EDGES, (
            f"<b>{join_title(join)}:</b> {esc(join.working)}"
            for join in garment.joins)))
    out.append(worked(SUMS, (f"<b>{text}, {made}:</b> {esc(working_of(made))}"
                             for text, made in _finished(spec, fabrics, bands, size))))
    out.append(worked(MEASURES, (
        f"<b>{measure_label(esc(name.replace('_', ' ').capitalize()), quantity)}:</b> "
        f"{esc(quantity.working)}"
        for name, quantity in used_measures(size, of_bands).items())))
    return out


def _finished(spec: GarmentSpec | None, fabrics: Mapping[str, Fabric], bands: Mapping[str, Band],
              size: SizeProof) -> Iterator[tuple[str, Reckoned]]:
    """Every finished measure with its label (HTML); then how far a closed neck stretches."""
    assert size.assembled is not None
    garment = size.assembled.garment
    for name in named_once(garment.finished):
        text, band, made = measured(spec, fabrics, bands, size, name)
        yield words.finished(text, band, own=garment.as_knitted), made
    yield from rings(spec, fabrics, size)
    if over := _over_head(spec, size):
        yield words.NECK_STRETCHED, over[0]


def worked(summary: str, lines: Iterable[str]) -> str:
    """Several workings that open together."""
    return (f'<details class="wb-working"><summary>{esc(summary)}</summary>'
            f'{items(lines, "wb-list")}</details>')
