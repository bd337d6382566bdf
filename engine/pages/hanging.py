"""The tables that say which garment row meets which needle, for one front, armhole or neck."""

from __future__ import annotations

from collections.abc import Iterator

from ..core.units import Length
from ..drawings.dimensions import both
from ..machine.needles import Needles
from ..machine.steps import Side
from ..markup.html import details, esc, part, table
from ..pattern.edges import Offer
from ..plan.meeting import Meeting
from ..plan.pickup import PickUp, marks
from ..program.layout import sections
from ..program.waiting import seam_needles
from ..proof.proof import Strip
from ..shape.edging import Section
from ..words.band_ends import BandEnds, band_ends
from ..words.edges import hanging_anchor
from ..words.words import counted, joined, needles_said, stitches


def hanging_table(strip: Strip) -> str:
    """Return heading and tables; two HTML blocks."""
    ends = band_ends(strip.plan, strip.front)
    anchor = hanging_anchor(strip)
    body = _whole(strip, ends) if len(strip.plan.meetings) == 1 else _by_sections(strip, ends)
    return (part(f"Hanging table, {ends.edge}", anchor)
            + f'<div class="wb wb-hanging">\n{body}\n</div>\n\n')


def _whole(strip: Strip, ends: BandEnds) -> str:
    """An edge of one section."""
    pick, side = strip.plan.pick_up, strip.layout.hem.value
    return (f"<p>Rows of the garment's edge and stitches of the band are counted from the "
            f"{ends.first}, which lies on the {side} of the bed. {_whole_taken(strip)} "
            f"{_taken(pick, ends.first)}</p>\n"
            + _table(strip, pick, ends, f"Hanging table, {strip.plan.band.title}, {ends.edge}",
                     strip.plan.joins[0]))


def _whole_taken(strip: Strip) -> str:
    """How many of the edge's places its needles take; a wide rate takes some of them twice."""
    (meeting,) = strip.plan.meetings
    pick, places, long = strip.plan.pick_up, _places(meeting), _long(meeting.section)
    if pick.stitches > pick.edge_rows:
        return (f"{pick.stitches} needles take a loop each from the edge's {places}{long}, more "
                "than one from some.")
    return f"{pick.stitches} needles take {pick.stitches} of the edge's {places}{long}."


def _places(meeting: Meeting) -> str:
    """How many rows or stitches a section has."""
    places = meeting.pick_up.edge_rows
    if meeting.section.offer is not Offer.ROWS:
        return stitches(places)
    return f"{places} rows and stitches" if meeting.section.level else counted(places, "row")


def _by_sections(strip: Strip, ends: BandEnds) -> str:
    """A block a section, in the order in which they lie along the band."""
    side = strip.layout.hem.value
    out = [f"<p>The sections are numbered from the {ends.first}, which lies on the {side} of the "
           f"bed, to the {ends.last}. Within a section its rows, and the stitches bound off in it, "
           f"are counted from the end that lies on the {side}.</p>"]
    at = strip.plan.joins[0]
    for number, (_, meeting, needles) in enumerate(sections(strip.plan, strip.layout), 1):
        out.append(_section(strip, number, meeting, needles, at, ends.edge))
        at += len(needles)
    return "\n".join(out)


def _section(strip: Strip, number: int, meeting: Meeting, needles: Needles, at: int, edge: str
             ) -> str:
    section, pick = meeting.section, meeting.pick_up
    span = _from_first(needles, strip.layout.hem)
    lead = (f"<p><strong>Section {number}, {esc(section.title)}:</strong> {stitches(len(needles))} "
            f"on needles {span}")
    if section.offer is not Offer.ROWS and pick.stitches == pick.edge_rows:
        waits = {Offer.WAITING: ", from the waste yarn",
                 Offer.ABOVE_CORD: ", from above the ravel cord"}.get(section.offer, "")
        return f"{lead}, one for one{waits}{_long(section)}.{_seams(strip, meeting, needles)}</p>"
    ends, start = BandEnds("", "start", "end"), "section's start"
    label = f"Hanging table, {strip.plan.band.title}, {edge}, section {number}"
    taken = f"{_taken(pick, start)}{_covered(section)}{_seams(strip, meeting, needles)}"
    return (f"{lead}, from {_places(meeting)}{_long(section)}. {taken}</p>\n"
            + _table(strip, pick, ends, label, at))


def _seams(strip: Strip, meeting: Meeting, needles: Needles) -> str:
    """The stitches that wait beside those of the section: each lies in a seam."""
    seams = seam_needles(meeting, needles, strip.layout.hem)
    if not seams:
        return ""
    whole = meeting.section.places + len(seams)
    along = list(seams) if strip.layout.hem is Side.LEFT else list(seams)[::-1]
    lie, hang = ("lies in a seam", "hangs with its neighbour") if len(seams) == 1 else \
        ("lie in seams", "hang with their neighbours")
    return (f" {stitches(whole)} wait: {len(seams)} of them {lie}, and {hang} on "
            f"{joined([needle.name for needle in along])}.")


def _covered(section: Section) -> str:
    """What of the piece's own edge is not there to be hung."""
    if not section.covered:
        return ""
    one = section.covered == 1
    what = f"{stitches(section.covered)} more that {'was' if one else 'were'} bound off there" \
        if section.runs else f"{counted(section.covered, 'row')} more above them"
    return f" {what} {'lies' if one else 'lie'} within a band, and cannot be hung."


def _long(section: Section) -> str:
    """How long a section is, and through how many layers it is hung."""
    through = ", through both layers" if section.layers > 1 else ""
    return f"{through}, {both(Length(section.length))}"


def _from_first(needles: Needles, side: Side) -> str:
    if side is Side.LEFT or len(needles) == 1:
        return needles_said(needles)
    return f"{needles.last} to {needles.first}"


def _table(strip: Strip, pick: PickUp, ends: BandEnds, label: str, at: int) -> str:
    """The needles that matter, of a section that begins after `at` stitches of the band."""
    where = _named(pick.stitches, ends)
    rows = [(strip.layout.at(at + stitch).name, where.get(stitch, "10th"),
             str(pick.rows[stitch - 1]), str(stitch)) for stitch in marks(pick.stitches)]
    return table(esc(label), ("Needle", "Where", "Row", "Stitch"), rows) + \
        _every_needle(strip, pick, at)


def _taken(pick: PickUp, first: str) -> str:
    """The rule in words; where runs are of more than one length, as they follow each other."""
    if not _in_runs(pick) or len(set(pick.runs[1:-1])) < 2:
        return esc(pick.said)
    return (f"Take rows in this order from the {first}, always with one missed between: "
            f"{', '.join(_gathered(pick.runs))}.")


def _gathered(runs: tuple[int, ...]) -> Iterator[str]:
    """Runs in their order: three alike or more as one, and two that take turns four times."""
    at = 0
    while at < len(runs):
        alike, turns = _times(runs, at, 1), _times(runs, at, 2)
        if alike > 2:
            yield f"{runs[at]} ({alike} times)"
        elif turns > 3:
            yield f"({runs[at]}, {runs[at + 1]}) {turns} times"
        else:
            yield str(runs[at])
        at += alike if alike > 2 else 2 * turns if turns > 3 else 1


def _times(runs: tuple[int, ...], at: int, size: int) -> int:
    """How often the `size` runs at a place follow each other there."""
    times = 1
    while runs[at + times * size:at + (times + 1) * size] == runs[at:at + size]:
        times += 1
    return times


def _in_runs(pick: PickUp) -> bool:
    """True where single rows are missed between rows that are taken once."""
    return pick.stitches < pick.edge_rows and 0 not in pick.runs


def _every_needle(strip: Strip, pick: PickUp, at: int) -> str:
    """Every needle's row, where no sentence can tell them all."""
    if _in_runs(pick) or pick.stitches == pick.edge_rows:
        return ""
    return details("Every needle and its row", ", ".join(
        f"{strip.layout.at(at + stitch).name}: {row}" for stitch, row in enumerate(pick.rows, 1)))


def _named(count: int, ends: BandEnds) -> dict[int, str]:
    """Names of the marked stitches: ends, quarters and middle."""
    hem = ends.first == "hem"
    first, last = ("hem end", "top end") if hem else (ends.first, ends.last)
    found: dict[int, list[str]] = {}
    for k, name in enumerate((first, "1/4", "middle", "3/4", last)):
        found.setdefault(1 + (2 * k * (count - 1) + 4) // 8, []).append(name)
    return {stitch: joined(names) for stitch, names in found.items()}
