"""Outlines with the lines along which measures are taken: a body, and the pieces of garments.

They are drawn by eye and to no scale: what counts is between which points a line runs. Each line
has the letter or number under which the list beside the drawing explains it.
"""

from __future__ import annotations

from collections.abc import Mapping

from ..machine.records import dataclass
from ..markup.html import esc
from ..words import measure_names as words
from ..words.measure_names import BODY, MEASURES, NOT_DRAWN

LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"  # without I and O, which look like figures
BAR = 4  # half the bar at the end of a line [px]


@dataclass(frozen=True, slots=True)
class MeasuredLine:
    """A measured line: `path` of a girth or a bent line, or straight between two points.

    `label` is where its mark stands, in the middle of the text.
    """

    label: tuple[int, int]
    ends: tuple[int, int, int, int] | None = None
    path: str = ""


@dataclass(frozen=True, slots=True)
class FlatOutline:
    """A thing seen flat: its `box`, its edge, thinner lines within it, and what is measured."""

    box: tuple[int, int, int, int]
    edge: str
    lines: Mapping[str, MeasuredLine]
    within: str = ""


def _level(x: int, other: int, y: int, above: int = 5) -> MeasuredLine:
    return MeasuredLine(((x + other) // 2, y - above), (x, y, other, y))


def _upright(x: int, y: int, other: int, side: int = 11) -> MeasuredLine:
    return MeasuredLine((x + side, (y + other) // 2 + 5), (x, y, x, other))


def _round(x: int, other: int, y: int, deep: int, label: tuple[int, int]) -> MeasuredLine:
    """The half of a girth that is seen."""
    half = (other - x) // 2
    return MeasuredLine(label, path=f"M{x} {y}a{half} {deep} 0 0 0 {2 * half} 0")


MIDDLE = 150
# Half a body: straight and curved lines by their points, as far to the side as x says.
_HALF = ((0, 14), (18, 14, 27, 30, 27, 48), (27, 68, 16, 82, 11, 88), (12, 104),
         (28, 112, 50, 112, 62, 120), (76, 128, 80, 150, 84, 180), (104, 300), (106, 330),
         (92, 330), (91, 302), (66, 200), (54, 168), (54, 200, 42, 226, 42, 250),
         (42, 276, 62, 296, 62, 322),
         (58, 440), (8, 440), (4, 346), (0, 340))


def _figure() -> str:
    """The edge of a body: its half to either side."""
    return "".join(
        ("M" if not number else "C" if len(points) > 2 else "L") + " ".join(
            str(MIDDLE + side * place if at % 2 == 0 else place)
            for at, place in enumerate(points))
        for side in (1, -1) for number, points in enumerate(_HALF))


_BODY: Mapping[str, FlatOutline] = {
    words.FRONT: FlatOutline((20, 0, 260, 450), _figure(), {
        "head": _round(123, 177, 44, 8, (190, 48)),
        "head_by_age": MeasuredLine((206, 48)),
        "neck": _round(137, 163, 102, 6, (176, 104)),
        "chest": _round(97, 203, 176, 11, (150, 174)),
        "waist": _round(108, 192, 250, 10, (150, 247)),
        "hips": _round(88, 212, 322, 12, (150, 319)),
        "upper_arm": _round(218, 240, 210, 6, (252, 214)),
        "wrist": _round(241, 254, 300, 5, (267, 304)),
        "arm_length": MeasuredLine((88, 238), (100, 174, 68, 300)),
    }),
    words.BACK: FlatOutline((20, 0, 260, 450), _figure(), {
        "shoulder": MeasuredLine((112, 92), (138, 99, 90, 113)),
        "cross_back": MeasuredLine((108, 130), (88, 134, 212, 134)),
        "armhole_depth": _upright(206, 122, 168, -10),
        "back_waist_length": _upright(150, 104, 250),
        "back_hip_length": _upright(132, 104, 322, -10),
        "neck_to_wrist": MeasuredLine((262, 220),
                                      path="M150 100C178 106 202 106 216 114C232 124 236 150 "
                                      "240 180L260 300"),
    }),
}

_PIECES: Mapping[str, FlatOutline] = {
    "body": FlatOutline((0, 18, 230, 242),
                        "M30 250V130C40 130 52 122 54 108V66L86 44C88 62 132 62 134 "
                        "44L166 66V108C168 122 180 130 190 130V250Z", {
        "chest_width": _level(30, 190, 154),
        "across": MeasuredLine((70, 104), (54, 108, 166, 108)),
        "body_length": _upright(14, 44, 250),
        "shoulder_drop": _upright(176, 44, 66),
        "neck_width": _level(86, 134, 36),
        "back_neck": _upright(121, 44, 57, 16),
        "front_neck": _upright(104, 44, 97, -10),
        "armhole": _upright(204, 66, 130),
        "armhole_straight": _upright(46, 66, 108, -11),
    }, "M86 44C88 88 104 98 110 98C116 98 132 88 134 44"),
    "sides": FlatOutline((530, 268, 230, 212),
                         "M600 470L592 440C608 410 612 396 612 380V366C612 350 "
                         "600 330 596 306C606 304 612 296 614 284H686C688 296 694 304 704 306C700 "
                         "330 688 350 688 366V380C688 396 692 410 708 440L700 470Z", {
        "hem_width": _level(600, 700, 466),
        "hip_width": _level(592, 708, 440),
        "hip_height": _upright(578, 440, 470, -11),
        "waist_width": _level(612, 688, 380, -14),
        "waist_height": _upright(724, 380, 470),
        "waist_straight": _upright(704, 366, 380),
        "chest_height": _upright(748, 306, 470, -11),
    }),
    "sleeve": FlatOutline((240, 18, 190, 242),
                          "M280 250L250 110C262 108 274 96 282 74C290 54 305 48 "
                          "315 48C325 48 340 54 348 74C356 96 368 108 380 110L350 250Z", {
        "upper_arm_width": _level(250, 380, 118, -14),
        "cuff_width": _level(280, 350, 242),
        "sleeve_length": _upright(398, 110, 250),
        "cap_height": _upright(398, 48, 110),
        "cap_top": _level(306, 324, 42),
    }),
    "raglan": FlatOutline((430, 18, 344, 242),
                          "M450 250V150H466L500 50C510 64 540 64 550 50L584 150"
                          "H600V250ZM660 250L640 150H656L686 50H714L744 150H760L740 250Z", {
        "raglan_depth": _upright(614, 50, 150),
        "underarm": _level(450, 466, 160, -16),
        "sleeve_top": _level(686, 714, 42),
    }),
    "saddle": FlatOutline((0, 268, 130, 210), "M40 470L20 390H34L58 330V300H82V330L106 390H120"
                          "L100 470Z", {
        "saddle_width": _level(58, 82, 292),
        "saddle_length": _upright(94, 300, 330),
    }),
    "hat": FlatOutline((244, 306, 184, 172), "M275 470V320H365V470Z", {
        "hat_width": _level(275, 365, 400),
        "hat_depth": _upright(379, 320, 440),
        "turn_up": _upright(379, 440, 470),
        "hat_length": _upright(403, 320, 470),
        "crown": _upright(263, 320, 345, -9),
    }, "M275 440H365M275 345H365"),
    "mitten": FlatOutline((404, 286, 232, 192), "M455 470V300H525V470ZM570 400V340H600V400Z", {
        "hand_length": _upright(444, 300, 440, -11),
        "cuff_depth": _upright(444, 440, 470, -11),
        "mitten_width": _level(455, 525, 350),
        "mitten_length": _upright(548, 300, 470, 12),
        "to_thumb": _upright(534, 400, 470, -16),
        "thumb_width": _level(570, 600, 332),
        "thumb_length": _upright(612, 340, 400, 12),
        "tip": _upright(424, 300, 318, -11),
    }, "M455 440H525M455 318H525M525 370V400"),
    "shawl": FlatOutline((20, 494, 220, 124), "M30 520H230L130 612Z", {
        "wingspan": _level(30, 230, 512),
        "depth": _upright(130, 520, 612),
    }),
    "blanket": FlatOutline((290, 494, 226, 124), "M300 520H480V612H300Z", {
        "blanket_width": _level(300, 480, 512),
        "blanket_length": _upright(492, 520, 612),
    }, "M345 520V612M390 520V612M435 520V612"),
}


def marks(names: Mapping[str, str]) -> dict[str, str]:
    """Return the letter of each measurement of a body, or the number of each measure drawn."""
    if names is BODY:
        return dict(zip(names, LETTERS, strict=False))
    drawn = [name for name in names if name not in NOT_DRAWN]
    return {name: str(number) for number, name in enumerate(drawn, 1)}


def body_drawings() -> str:
    """Return the two drawings of a body."""
    return _figures(_BODY, marks(BODY), {title: title for title in _BODY})


def piece_drawings() -> str:
    """Return the drawings of the pieces that garments are cut from."""
    return _figures(_PIECES, marks(MEASURES), words.PIECES)


def _figures(outlines: Mapping[str, FlatOutline], known: Mapping[str, str],
             titles: Mapping[str, str]
             ) -> str:
    return "\n".join(
        f'<figure class="wb-drawing">{_svg(outline, known, titles[name])}'
        f"<figcaption>{esc(titles[name])}</figcaption></figure>" for name, outline in
        outlines.items())


def _svg(outline: FlatOutline, known: Mapping[str, str], title: str) -> str:
    x, y, wide, high = outline.box
    lines = "".join(f'<path d="{_path(line)}"/>' for line in outline.lines.values() if _path(line))
    texts = "".join(f'<text x="{line.label[0]}" y="{line.label[1]}">{known[name]}</text>'
                    for name, line in outline.lines.items())
    named = ", ".join(f"{known[name]} {name}" for name in outline.lines)
    within = f'<path d="{outline.within}" stroke-width="1" stroke-dasharray="4 3"/>' if (
        outline.within) else ""
    return (f'<svg viewBox="{x} {y} {wide} {high}" width="{wide}" height="{high}" fill="none" '
            f'stroke="currentColor" role="img" aria-label="{esc(title)}: {esc(named)}">'
            f'<path d="{outline.edge}" stroke-width="1"/>{within}<g stroke-width="2">{lines}</g>'
            f'<g stroke="none" fill="currentColor" font-size="14" text-anchor="middle">{texts}</g>'
            "</svg>")


def _path(line: MeasuredLine) -> str:
    """The line, a straight one with a bar at each end."""
    if line.ends is None:
        return line.path
    x, y, other_x, other_y = line.ends
    bar = f"m0 {-BAR}v{2 * BAR}" if y == other_y else f"m{-BAR} 0h{2 * BAR}"
    return f"M{x} {y}L{other_x} {other_y}M{x} {y}{bar}M{other_x} {other_y}{bar}"
