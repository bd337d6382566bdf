"""What edges and their sections are called, in findings and on pages."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from ...core.edge_parts import (
    EndedBand,
    PathName,
    PathSpan,
    RingSeam,
    SectionDetail,
    SectionRole,
    Worn,
)

SECTIONS: Mapping[SectionRole, str] = {
    SectionRole.ARMHOLE: "armhole",
    SectionRole.BACK: "back",
    SectionRole.BACK_NECK: "back neck",
    SectionRole.BESIDE_POCKET: "stitch beside the pocket",
    SectionRole.COLLAR_END: "end of the collar",
    SectionRole.FACING_END: "end of the facing",
    SectionRole.FRONT: "front",
    SectionRole.FRONT_EDGE: "front edge",
    SectionRole.FRONT_NECK: "front neck",
    SectionRole.HEM: "hem",
    SectionRole.LEFT_BAND_TOP: "top of the left band",
    SectionRole.LOWER_EDGE: "lower edge",
    SectionRole.NECKBAND_END: "end of the neckband",
    SectionRole.PLACKET: "placket edge",
    SectionRole.POCKET: "pocket's stitches",
    SectionRole.RIB: "rib",
    SectionRole.RIGHT_BAND_TOP: "top of the right band",
    SectionRole.SLEEVE_TOP: "sleeve top",
    SectionRole.STRAP: "strap",
    SectionRole.UNDERARM: "underarm",
}
CENTRE_BACK = "centre back"
CAP_TOP = "cap's top"
POCKET_LINING = "Pocket lining"
DETAILS: Mapping[SectionDetail, str] = {
    SectionDetail.ALONG_CORD: "waiting along the ravel cord",
    SectionDetail.FROM_CENTRE_BACK: f"from the {CENTRE_BACK}",
    SectionDetail.HALF_TOP: "the half next to the neck",
    SectionDetail.LOWER: "lower edge",
    SectionDetail.ON_CORD: "on their cord",
    SectionDetail.SIDE: "side",
    SectionDetail.TO_CENTRE_BACK: f"to the {CENTRE_BACK}",
    SectionDetail.WAITING: "waiting stitches",
}
WORN: Mapping[Worn, str] = {
    Worn.BACK: "back", Worn.FRONT: "front", Worn.INNER: "inner", Worn.LEFT: "left",
    Worn.OUTER: "outer", Worn.RIGHT: "right"}
ENDED_BANDS: Mapping[EndedBand, str] = {
    EndedBand.COLLAR: "collar",
    EndedBand.CORNER: "corner",
    EndedBand.FACING: "facing",
    EndedBand.FRONT_BAND: "front band",
    EndedBand.NECKBAND: "neckband",
    EndedBand.PLACKET_BAND: "placket band",
}
PATHS: Mapping[PathName, str] = {
    PathName.AROUND: "From one hem round the neck to the other",
    PathName.BRIM: "Brim",
    PathName.CUFF: "Cuff",
    PathName.HEM: "Lower edge",
    PathName.LEFT_ARMHOLE: "Left armhole",
    PathName.LEFT_FRONT: "Left front edge",
    PathName.LEFT_PLACKET: "Left edge of the placket",
    PathName.NECK: "Neck",
    PathName.RIGHT_ARMHOLE: "Right armhole",
    PathName.RIGHT_FRONT: "Right front edge",
    PathName.RIGHT_PLACKET: "Right edge of the placket",
}
SPANS: Mapping[PathSpan, str] = {
    PathSpan.FRONT_TO_FRONT: "from front edge to front edge",
    PathSpan.FRONTS_OF_PLACKET: "from front edge to front edge of the placket",
    PathSpan.FROM_FOOT: "from its foot",
    PathSpan.FROM_HEM: "from the hem",
    PathSpan.FROM_UNDERARM: "from the underarm",
    PathSpan.ROUND_FROM_LEFT_SHOULDER: "from the left shoulder round the front",
    PathSpan.ROUND_FROM_LEFT_SIDE: "from the left side seam round the back",
    PathSpan.ROUND_FROM_LEFT_SLEEVE: "from the left sleeve round the front",
    PathSpan.ROUND_FROM_LEFT_STRAP: "from the left strap round the front",
    PathSpan.SEAM_TO_SEAM: "from seam to seam",
}
RING_SEAMS: Mapping[RingSeam, str] = {
    RingSeam.BACK: "back seam",
    RingSeam.LEFT_BACK_RAGLAN: "left back raglan seam",
    RingSeam.LEFT_SHOULDER: "left shoulder",
    RingSeam.LEFT_SIDE: "left side seam",
    RingSeam.LEFT_STRAP: "left strap's seam with the back",
    RingSeam.OWN_ENDS: "seam of the upper and the lower edge",
    RingSeam.OWN_SIDES: "seam of the left and the right edge",
    RingSeam.SIDE: "side seam",
}
THROUGH_BOTH = ", through both layers"


def section_name(role: SectionRole, own: str) -> str:
    """Return what a section is called; one that is not the garment's has its `own` title."""
    return own if role is SectionRole.OWN else SECTIONS[role]


def section_title(name: str, details: Sequence[SectionDetail]) -> str:
    """Return the name of a section with what more there is to it."""
    return ", ".join((name, *(DETAILS[each] for each in details)))


def worn_title(worn: Worn | None, title: str) -> str:
    """Return the title of a section as no other section of its edge has it."""
    return f"{WORN[worn]} {title}" if worn else title


def rows_of_band(band: EndedBand, layers: int) -> str:
    """Return of which band rows are, behind their number: those of one of its `layers`."""
    return f" of the {ENDED_BANDS[band]}{THROUGH_BOTH if layers > 1 else ''}"


def meeting_of(one: str, other: str) -> str:
    """Return what the place is called at which two sections meet."""
    return f"meeting of {one} and {other}"


def path_name(what: PathName | str) -> str:
    """Return what an edge is called: by what it is of the garment, or as the source has it."""
    return what if isinstance(what, str) else PATHS[what]


def path_title(what: PathName | str, span: PathSpan | tuple[str, str] | None) -> str:
    """Return the name of an edge with where it begins: the garment's, or from one section of the
    source's to another."""
    if span is None:
        return path_name(what)
    if isinstance(span, PathSpan):
        return f"{path_name(what)}, {SPANS[span]}"
    first, last = span
    return f"{path_name(what)}, from {first} to {last}"


def slope_of(edge: str) -> str:
    """Return what the length of an edge is called that slopes, by its stitches and rows."""
    return f"the slope of {edge}"


def steps_of(edge: str) -> str:
    """Return what the length of an edge is called that goes in steps."""
    return f"the steps of {edge}"


# Names of parts of an edge that are no nouns.
_NO_NOUNS = {"bottom", "inner", "inside", "lower", "lowest", "middle", "outer", "outside", "top",
             "upper", "uppermost"}


def stretch_name(stretch: str) -> str:
    """Return what a part of an edge is called, by the designer's name of it: "armhole", and "lower
    edge" where the name has no noun."""
    parts = stretch.replace("_", " ").split(" ")
    return " ".join(parts + ["edge"] * (parts[-1] in _NO_NOUNS))


def end_of_stretch(stretch: str) -> str:
    """Return what the corner is called at which a part of an edge ends."""
    return f"the end of the {stretch}"


def side_called(side: str) -> str:
    """Return what a side of an own piece is called, by the source's word for it."""
    return {"top": "upper", "bottom": "lower"}.get(side, side)


def corner_name(number: int, side: str) -> str:
    """Return what a corner of an own piece is called that has no name, by its number on an edge."""
    return on_side(f"corner {number}", side)


def on_side(name: str, side: str) -> str:
    """Return what a corner is called that is on one `side` alone; "" is both."""
    return f"{side} {name}" if side else name


def named_edge(key: str) -> str:
    """Return what an edge of the source is called that is one section, which has its name too."""
    return f"{key} edge"


def sectioned_edge(key: str) -> str:
    """Return what an edge of the source is called that is given by its sections."""
    return named_edge(key.replace("_", " ").replace("-", " ").capitalize())


def pocket_edge(slot: str) -> str:
    """Return what the edge of a pocket's opening is called, by what the opening is called."""
    return slot.capitalize()
