"""What a band's edge and its two ends are called: hem and top at a front, else by the edge."""

from __future__ import annotations

from dataclasses import replace

from ..catalogue.edge_roles import EdgeRole, role_of
from ..catalogue.pocket_edges import EDGES, ONE
from ..machine.records import dataclass
from ..machine.steps import Side
from ..pattern.edges import EdgeShape, Offer
from ..plan.assembled import PAIRS
from ..plan.band import BandPlan
from ..plan.band_order import AROUND, PLACKET
from ..proof.proof import Strip
from ..shape.edging import Section, Stretch
from .buttonhole_text import holes_name
from .terms.schedules import times_text
from .words import counted, stitches

HEM = "hem"  # the key of a lower edge that is rows, called so: "lower edge"
SEAM = 1  # stitch that a seam takes


@dataclass(frozen=True, slots=True)
class BandEnds:
    """Words for a strip: `edge` is what it goes along, `first` and `last` are its ends.

    `first` lies where the layout has its hem. `note` says more of the ends where that is needed.
    `of_it` is put after `edge` where that is hung: "" where it is called an edge already. `at_hem`
    is true where the first end is a front's hem, and the source gives it no other name.
    """

    edge: str
    first: str
    last: str
    note: str = ""
    of_it: str = "'s edge"
    at_hem: bool = False


def band_ends(plan: BandPlan, front: Side) -> BandEnds:
    """Return the words for a band's strip at one `front`, or armhole.

    Common practice, no source: the garment lies right side up, its body away from the knitter,
    so that either armhole is met from the back's underarm.
    """
    ends = _whole_ends(plan, front)
    if plan.part is None:
        return ends
    return replace(ends, at_hem=ends.at_hem and not plan.part.first,
                   first=plan.part.first or ends.first, last=plan.part.last or ends.last,
                   note=ends.note if plan.part.number == 1 else "")


def _whole_ends(plan: BandPlan, front: Side) -> BandEnds:
    key = plan.band.garment_edge
    if is_front(plan):
        first, last = plan.edge_path.ends
        return BandEnds(f"{front.value} front", first or "hem", last or "top", at_hem=not first)
    if key == AROUND:
        return BandEnds("front edges and neck", f"{front.value} front's hem",
                        f"{front.other.value} front's hem", at_hem=True)
    if key == PLACKET:
        return BandEnds(f"{front.value} front", "foot", "neck end",
                        of_it=" edge of the slit, as worn,")
    if key == "armhole":
        return BandEnds(f"{front.value} armhole", "back's underarm", "front's underarm")
    if key in EDGES:
        return _pocket_ends(key, front)
    title = plan.edge_path.title
    note = f"The band goes along the {title[:1].lower()}{title[1:]}."
    if any(m.section.half for m in plan.meetings):
        note += (" The collar begins and ends at the centre front: the half of each band's "
                 "top that is away from the neck, where the bands lap, stays free.")
    first, last = plan.edge_path.ends
    if key == "neck" and not plan.edge_path.ring:
        first, last = first or "right front's end", last or "left front's end"
    return BandEnds(plan.edge_path.name.lower(), first or "first end", last or "other end",
                    note, "" if key == HEM or role_of(key) is EdgeRole.OUTLINE else "'s edge")


def is_taken_by_rows(plan: BandPlan) -> bool:
    """True for an edge of one section of rows, which needs no numbers for its sections."""
    return len(plan.meetings) == 1 and plan.meetings[0].section.offer is Offer.ROWS


def is_band_top(section: Section) -> bool:
    """True for the top of a front band, on which a neckband or collar begins or ends."""
    return section.stretch is Stretch.BAND_TOP


def inward(section: Section, stitches_in: int, then: str = "") -> str:
    """How far in from the edge a section of rows is met: "Go in about 2 stitches from the edge."

    At a narrow top the seam at the other edge lies as near as that (common practice, no source).
    """
    through = ", through all its layers" if section.layers > 1 else ""
    text = f"Go in about {stitches(stitches_in)} from the edge{through}{then}."
    if narrow := section.narrow(stitches_in + SEAM):
        least = f"{min(narrow)} to " if min(narrow) < max(narrow) else ""
        text += (f" In the top {counted(len(narrow), 'row')} the piece is {least}"
                 f"{stitches(max(narrow))} wide: go in there as far as you can without taking the "
                 "seam's stitch.")
        text += (" Where only the seam's stitch is left, take its leg at this edge, and leave the "
                 "other for the seam.") * (min(narrow) == SEAM)
    return text


def _pocket_ends(key: str, front: Side) -> BandEnds:
    if key == ONE:
        return BandEnds("front pocket", "end at the wearer's left", "end at the wearer's right")
    return BandEnds(f"{front.value} pocket", "end towards the middle of the front",
                    "end towards the side seam")


def is_front(plan: BandPlan) -> bool:
    """True for a band along a front from its hem to its top: the garment's, or the source's own."""
    return plan.edge_path.shape is EdgeShape.FRONT


def is_closed(plan: BandPlan) -> bool:
    """True where the band's two ends meet in a seam: round an armhole, a closed neck, a brim."""
    return plan.edge_path.ring


def is_outer(plan: BandPlan) -> bool:
    """True for the first and the last part of a band whose own ends meet in a seam."""
    return plan.part is not None and plan.edge_path.ring and plan.part.number in (1, plan.part.of)


def part_title(plan: BandPlan) -> str:
    """What a band is called, with the number of the part where it has several."""
    part = plan.part
    return f"{plan.band.title}, part {part.number} of {part.of}" if part else plan.band.title


def strip_title(strip: Strip) -> str:
    """The heading of a strip: "Front band, right front, with buttonholes", "Neckband"."""
    band = strip.plan.band
    if strip.plan.part:
        return part_title(strip.plan)
    if not is_front(strip.plan) and band.garment_edge not in PAIRS:
        times = strip.plan.edge_path.times
        return f"{band.title}, worked {times_text(times)}" if times > 1 else band.title
    name = f"{band.title}, {band_ends(strip.plan, strip.front).edge}"
    if band.buttonholes:
        what = holes_name(strip.plan)
        name += f", with {what}" if strip.with_holes else f", without {what}"
    return name
