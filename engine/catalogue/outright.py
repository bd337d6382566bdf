"""Which count a measure gives where it is written as one, such as `chest_width: 80 stitches`."""

from __future__ import annotations

from collections.abc import Collection, Mapping

from ..core.text_kinds import CountKey
from ..machine.records import dataclass
from .forms import Construction, FormKind

STITCH, ROW = "stitch", "row"


@dataclass(frozen=True, slots=True)
class Outright:
    """The count that a measure gives: its `name` in the garment, "" where it is only part of one,
    what it counts, how many of its stitches lie in `seams`, and whether its rows are counted from
    a hem or rib (`from_foot`) upward. `left` is the count that is left where it has no name. The
    seams of one `at_armholes` are the sleeves'; without sleeves bands take other stitches there.
    """

    name: CountKey
    of: str = STITCH
    seams: int = 0
    from_foot: bool = False
    left: CountKey = ""
    at_armholes: bool = False

    @property
    def piece(self) -> str:
        """The key of the piece whose count it is."""
        return (self.name or self.left).partition(" ")[0]


def _wide(name: CountKey, seams: int = 2) -> Outright:
    return Outright(name, STITCH, seams)


def _high(name: CountKey, *, from_foot: bool = False) -> Outright:
    return Outright(name, ROW, 0, from_foot)


def _whole(left: CountKey) -> Outright:
    return Outright("", ROW, 0, True, left)


_SIDES = {"hip_height": _high("back rows_to_hip", from_foot=True),
          "waist_width": _wide("back waist"),
          "waist_height": _high("back rows_to_waist", from_foot=True),
          "waist_straight": _high("back waist_rows"),
          "chest_height": _high("back rows_to_chest", from_foot=True)}
_ARM = {"cuff_width": _wide("sleeve cast_on"), "upper_arm_width": _wide("sleeve upper_arm")}
_SHOULDERS = {**_SIDES, **_ARM, "neck_width": _wide("back neck_stitches", 0),
              "armhole": _high("back armhole_rows"), "shoulder_drop": _high("back shoulder_rows"),
              "back_neck": _high("back neck_rows"), "body_length": _whole("back rows_to_armhole"),
              "sleeve_length": _high("sleeve rows_to_underarm", from_foot=True)}
_SLOPED = {**_ARM, "raglan_depth": _high("back raglan_rows"), "underarm": _wide("back underarm", 0),
           "sleeve_length": _high("sleeve rows_to_raglan", from_foot=True)}
BY_CONSTRUCTION: Mapping[Construction, Mapping[str, Outright]] = {
    Construction.DROP_SHOULDER: _SHOULDERS,
    Construction.SET_IN: {**_SHOULDERS,
                          "across": Outright("back across", seams=2, at_armholes=True),
                          "armhole_straight": _high("back armhole_straight_rows"),
                          "cap_height": _high("sleeve cap_rows"),
                          "cap_top": _wide("sleeve cap_top", 0)},
    Construction.RAGLAN: {**_SIDES, **_SLOPED, "neck_width": _wide("back neck_stitches"),
                          "sleeve_top": _wide("sleeve top"),
                          "body_length": _whole("back rows_to_raglan")},
    Construction.SADDLE_RAGLAN: {**_SIDES, **_SLOPED, "neck_width": _wide("back neck_stitches", 0),
                                 "saddle_width": _wide("sleeve strap"),
                                 "saddle_length": _wide("back shoulder", 1)},
    Construction.SIDEWAYS: {**_ARM, "sleeve_length": _high("sleeve rows_to_underarm",
                                                           from_foot=True)},
    Construction.HAT: {"hat_width": _wide("hat cast_on"),
                       "hat_length": _high("hat rows", from_foot=True),
                       "crown": _high("hat crown_rows")},
    Construction.SHAWL: {"wingspan": _wide("shawl cast_on", 0), "depth": _high("shawl rows")},
    Construction.BLANKET: {"blanket_length": _high("panel rows", from_foot=True)},
    Construction.MITTEN: {
        "mitten_width": _wide("hand cast_on"), "thumb_width": _wide("thumb cast_on"),
        "mitten_length": _high("hand rows", from_foot=True),
        "to_thumb": _high("hand rows_to_thumb", from_foot=True),
        "thumb_length": _high("thumb rows"), "tip": _high("hand tip_rows")},
    Construction.OUTLINE: {}}


def outright_of(form: FormKind, given: Collection[str]) -> dict[str, Outright]:
    """Return the count of every measure of a form that can be written as one.

    The lowest of a body's widths is the cast-on, of those that are `given`; its front neck is
    counted in one front or in either.
    """
    found = dict(BY_CONSTRUCTION[form.construction])
    if "chest_width" in form.measures and form.construction is not Construction.SIDEWAYS:
        hem, hip = "hem_width" in given, "hip_width" in given
        found["chest_width"] = _wide("back chest" if hem or hip else "back cast_on")
        if form.optional:
            found["hem_width"] = _wide("back cast_on")
            found["hip_width"] = _wide("back hip" if hem else "back cast_on")
    if "back_neck" in form.measures:
        front = "right_front" if form.opens else "front"
        found["front_neck"] = _high(f"{front} neck_rows")
    return {name: one for name, one in found.items() if name in form.names}
