"""Where the bound-off top of a sleeve cap lies along the armhole, computed again from the page.

What the cap is longer lies in the upper third of its edge: the top is shorter there in that share.
"""

from __future__ import annotations

import re

from tests.reader.bed import need
from tests.reader.garment_parts import attempt
from tests.reader.gauges import Gauge, of_piece
from tests.reader.joins import rows_to_stitches
from tests.reader.measures import PAIR
from tests.reader.page_parts import Reading
from tests.reader.silhouettes import LESS, Silhouette

TOP = re.compile(r"Top of the cap: (\d+) stitches to (\d+) rows of the armhole: "
                 r"(.+?)\.(?: (\d+(?:\.\d+)?) cm \([^)]* in\) of the ease goes in here"
                 r"(?:, at the left armhole all of it"
                 r"|, the rest just below)?\.)? "
                 r"Pin both ends (\d+) rows? from the shoulder seam, "
                 rf"{PAIR.pattern}")
CAP = re.compile(r"(Right s|Left s|S)leeve cap and armhole: ")
EASED = re.compile(rf"{CAP.pattern}{PAIR.pattern} on the armhole and {PAIR.pattern} on "
                   r"the sleeve cap, the longer side; ease the .* of the cap's edge")
LENGTHS = re.compile(rf"{CAP.pattern}{PAIR.pattern} (?:on .* and|on either)")


def cap_tops(reading: Reading, gauge: dict[str, Gauge]) -> None:
    """Every cap says once where its top lies, with the stitches that the sleeve bound off last."""
    lines = list(reading.making_up.joins if reading.making_up else ())
    caps = [text for _, text in lines if CAP.match(text)]
    tops = [(step, text) for step, text in lines if text.startswith("Top of the cap")]
    if not caps:
        attempt(reading, "Making up", "", need, not tops, "join", "no cap is sewn in")
        return
    attempt(reading, "Making up", caps[0], either_armhole, reading, caps, gauge)
    attempt(reading, "Making up", caps[0], need, len(tops) == 1, "join",
            "where the top of the cap lies is said once")
    for step, text in tops:
        attempt(reading, f"Making up, step {step}", text, one_top, reading, caps, text, gauge)


def begun_at(reading: Reading, title: str, side: str) -> int:
    """After which row the armhole of a piece begins at a side; 0 where it has none."""
    rows = [row for k in reading.knitters if k.title == title
            for foot in [min(Silhouette(k).underarm(), default=0)]
            for row in Silhouette(k).changes(*LESS, side=side) if row >= foot]
    return min(rows, default=0)


def either_armhole(reading: Reading, caps: list[str], gauges: dict[str, Gauge]) -> None:
    """The cap has a line for each armhole where one has a row more than the other: a piece lies
    with its inside up, so that its left is the wearer's right at the back alone (geometry)."""
    first = {"Right": (begun_at(reading, "Back", "left"),
                       begun_at(reading, "Right front", "right")),
             "Left": (begun_at(reading, "Back", "right"), begun_at(reading, "Left front", "left"))}
    apart = sum(first["Right"]) - sum(first["Left"]) if all(map(all, first.values())) else 0
    found = [LENGTHS.match(text) for text in caps]
    names = ["Right s", "Left s"] if apart else ["S"]
    need(all(found) and [one[1] for one in found] == names, "join",  # type: ignore[index]
         f"the armholes begin {apart} rows apart")
    body = of_piece(gauges, "Back")
    if apart and body:
        right, left = (float(one[2]) for one in found)  # type: ignore[index]
        slant = (left - right) / (apart * body.height(1))  # an edge that slants is longer
        need(0.6 - 0.2 <= slant <= 1.2 + 0.2, "join", "the left armhole has another length")


def one_top(reading: Reading, caps: list[str], text: str, gauges: dict[str, Gauge]) -> None:
    body, own = of_piece(gauges, "Back"), of_piece(gauges, "Sleeve")
    need(body and own, "join", "no gauge of the sleeve or the body is printed")
    match, eased = TOP.fullmatch(text), EASED.fullmatch(caps[0])
    need(match and eased, "join", "this cannot be read")
    stitches, rows, each = int(match[1]), int(match[2]), int(match[5])  # type: ignore[index]
    rows_to_stitches(reading, "Top of the cap", stitches, rows, match[3])  # type: ignore[index]
    need(rows == 2 * each, "join", f"on both sides of the shoulder are {2 * each} rows")
    armhole, edge = float(eased[2]), float(eased[6])  # type: ignore[index]
    half = own.width(stitches) / 2  # type: ignore[union-attr]
    reach = half - min(1.0, half / (edge / 6)) * (edge - armhole) / 2
    high = body.height(each)  # type: ignore[union-attr]
    need(abs(high - reach) <= high / each * 0.6, "join", f"the top reaches {reach:.1f} cm")
    need(abs(high - float(match[6])) <= 0.06, "join",  # type: ignore[index]
         f"{each} rows are {high:.1f} cm")
    more = 2 * half - 2 * high  # than the rows to which they are sewn
    ways = [float(one[6]) - float(one[2]) for one in map(EASED.fullmatch, caps) if one]
    told = float(match[4] or 0)  # type: ignore[index]
    need(abs(told - max(0, more)) <= 0.06, "join",
         f"{more:.2f} cm of the ease goes in at the top")
    left = min(ways) - told if told else 0.0
    need(("all of it" in text) <= (left <= 0.11) and (left >= -0.11 or "all of it" in text),
         "join", f"{told} cm of {min(ways):.2f} go in there")
    need("the rest" in text or "all of it" in text or left <= 0.11, "join",
         f"where {left:.1f} cm of the ease goes is not said")
    last = [[said["stitches"] for act, said in k.log if act == "bind_all"][-1]
            for k in reading.knitters if k.title.startswith("Sleeve")]
    need(last and set(last) == {stitches}, "join", f"{last} stitches are bound off at the top")
