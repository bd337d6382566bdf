"""Words for the tables that say which row or stitch of an edge meets which needle."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..core.counts import Unit
from ..machine.needles import Needle, Needles
from ..machine.steps import Side
from ..markup.html import esc
from ..pattern.edges import Offer
from ..plan.meeting import Meeting
from ..plan.pickup import PickUp
from ..shape.edging import Section
from .band_ends import BandEnds
from .terms.section_names import ENDED_BANDS
from .words import counted, joined, needles_text, plural, stitches
from .workings import rows_taken

BETWEEN = "between"  # a tenth stitch: its needle is named, and nobody counts to it
SECTION_ENDS = BandEnds("", "start", "end")


def table_title(edge: str) -> str:
    """The heading of a band's tables."""
    return f"Hanging table, {edge}"


def table_of(band: str, edge: str) -> str:
    """The name of the table of an edge of one section."""
    return f"Hanging table, {band}, {edge}"


def section_table(band: str, edge: str, number: int) -> str:
    """The name of the table of one of several sections."""
    return f"{table_of(band, edge)}, section {number}"


def row_below(stitches_in: int) -> str:
    """Which row under stitches bound off is taken: as far in as beside rows (common practice, no
    source)."""
    row = {1: "first", 2: "second", 3: "third"}.get(stitches_in, f"{stitches_in}th")
    return f"the {row} row below"


def under_chain(sections: Sequence[Section], stitches_in: int) -> str:
    """How deep to go under stitches bound off among an edge's rows: as far in as beside its rows,
    a row for each stitch (common practice, no source)."""
    if not any(section.level for section in sections if section.offer is Offer.ROWS):
        return ""
    return (" Each row and each bound-off stitch is a place. Places are numbered together, in the "
            f"order in brackets. At a bound-off stitch take a loop of {row_below(stitches_in)} the "
            "chain. Leave out a stitch where the table misses its place.")


def whole_lead(meeting: Meeting, side: Side, ends: BandEnds, long: str, under: str) -> str:
    """How an edge of one section, so `long`, is counted and taken, as HTML."""
    return (f"<p>Rows of the edge and stitches of the band are counted from the "
            f"{ends.first}, which lies on the {side.value} of the bed. "
            f"{_whole_taken(meeting, long)} "
            f"{_taken(meeting.pick_up, ends.first, place_name(meeting.section))}{under}</p>")


def _whole_taken(meeting: Meeting, long: str) -> str:
    """How many of the edge's places its needles take; a wide rate takes some of them twice."""
    pick, places = meeting.pick_up, f"{places_of(meeting)}{_through(meeting.section)}"
    if pick.stitches > pick.edge_rows:
        return (f"The edge has {places}, and is {long} long; {pick.stitches} needles take a loop "
                "each, more than one from some of them.")
    return (f"The edge has {places}, and is {long} long; {pick.stitches} needles take "
            f"{pick.stitches} of them.")


def places_of(meeting: Meeting) -> str:
    """How many rows or stitches a section has; where it has both, in what order they lie."""
    places, section = meeting.pick_up.edge_rows, meeting.section
    if section.offer is not Offer.ROWS:
        return stitches(places)
    if not section.level:
        return counted(places, "row")
    order = ", ".join(_stretch_text(count, unit) for count, unit in section.order)
    return f"{places} places ({order})"


def _stretch_text(count: int, unit: Unit) -> str:
    """Some rows of an edge, or stitches bound off between them: "3 bound-off stitches"."""
    return unit.of(count) if unit is Unit.ROWS else f"{count} bound-off {unit.name_of(count)}"


def section_names(section: Section, side: Side | None) -> tuple[str, str, str]:
    """What a section is called where its stitches are counted: plainly, as no other of its edge
    is called, and as none of either band of a pair, with the `side` that its band is worn on."""
    both = f"{side.value} {section.called}" if side else section.called
    return section.title, section.called, both


def _through(section: Section) -> str:
    """Through how many layers a section is hung."""
    return ", through both layers" if section.layers > 1 else ""


def sections_lead(side: Side, ends: BandEnds, under: str) -> str:
    """How the sections of an edge are numbered, and what lies in them counted, as HTML."""
    return (f"<p>The sections are numbered from the {side.value} of the bed, where the "
            f"{ends.first} lies, to the {ends.last}. Within a section its rows are counted from "
            f"the end on the {side.value}.{under}</p>")


def head(section: Section) -> tuple[str, str, str, str]:
    """The columns of a section's table."""
    return "Needle", "Where", f"Edge {place_name(section)}", "Band stitch"


def every_needle(section: Section) -> str:
    """The title of the list of what each needle takes."""
    return f"Every needle and its {place_name(section)}"


def place_name(section: Section) -> str:
    """What one of a section's places is called: a place where stitches lie among its rows."""
    if section.offer is not Offer.ROWS:
        return "stitch"
    return "place" if section.level else "row"


def section_title(number: int, section: Section, taken: int, span: str) -> str:
    """A section with the stitches that it gives and their needles, as HTML."""
    return (f"<strong>Section {number}, {esc(section.called)}:</strong> {stitches(taken)} "
            f"on needle{'s' * (taken > 1)} {span}")


def one_for_one(section: Section, long: str) -> str:
    """That every stitch of a section so `long` goes onto a needle, and where it waits."""
    waits = {Offer.WAITING: ", from the waste yarn",
             Offer.ABOVE_CORD: ", from along the ravel cord"}.get(section.offer, "")
    return f", one on each{waits}{_through(section)}; the section is {long} long."


def other_count(section: Section, long: str, gaps: Needles, doubled: Needles) -> str:
    """From how many stitches that wait a section so `long` is taken, and which needles differ."""
    how = (f"leave {needles_text(gaps)} empty for the loops that the step names" if gaps else
           f"hang two on each of {needles_text(doubled)}")
    return f", from {stitches(section.places)}{_through(section)}, {long} long; {how}."


def section_taken(meeting: Meeting, long: str) -> str:
    """From how many places a section so `long` is taken, and by which rule."""
    section = meeting.section
    taken = _taken(meeting.pick_up, SECTION_START, place_name(section))
    return (f", from {places_of(meeting)}{_through(section)}, {long} long. {taken}"
            f"{_covered(section)}")


def hem_joined(section: Section, *, begins: bool, named: bool = False) -> str:
    """Which row of a side joined the hem: the first, where the side `begins` at the hem. The side
    is `named` where other sections were spoken of before."""
    if not section.joins_hem:
        return ""
    of, last = (f" of the {esc(section.called)}", "The") if named else ("", "Its")
    return f" {'Row 1' if begins else f'{last} last row'}{of} is the row that joined the hem."


SECTION_START = "section's start"


def in_seams(meeting: Meeting, seams: Sequence[Needle]) -> str:
    """The stitches that wait beside those of the section: each lies in a seam."""
    if not seams:
        return ""
    whole = meeting.section.places + len(seams)
    lie, hang = ("lies in a seam", "hangs with its neighbour") if len(seams) == 1 else \
        ("lie in seams", "hang with their neighbours")
    return (f" {stitches(whole)} wait: {len(seams)} of them {lie}, and {hang} on "
            f"{joined([needle.name for needle in seams])}.")


def corner_loops(needles: Sequence[Needle]) -> str:
    """Which of a section's needles take a loop of the corner beside it, too."""
    return f" A loop of the corner hangs on {joined([n.name for n in needles])} too." \
        if needles else ""


def _covered(section: Section) -> str:
    """What of the piece's own edge is not there to be hung."""
    if not section.covered:
        return ""
    one = section.covered == 1
    what = f"{stitches(section.covered)} more that {'was' if one else 'were'} bound off there" \
        if section.segments else f"{counted(section.covered, 'row')} above these"
    within = f": {'it lies' if one else 'they lie'} within the {ENDED_BANDS[section.within]}" \
        if section.within else ""
    return f" Leave the {what}{within}."


def from_first(needles: Needles, side: Side) -> str:
    """The needles of a section from the end of the band that lies at a side of the bed, as its
    table goes; with gaps among them from left to right."""
    if side is Side.LEFT or len(needles) == 1 or len(needles.spans()) > 1:
        return needles_text(needles)
    return f"{needles.last} to {needles.first}"


def _taken(pick: PickUp, first: str, place: str) -> str:
    """The rule in words; where runs are of more than one length, as they follow each other."""
    if not in_runs(pick) or len(set(pick.runs[1:-1])) < 2:
        return esc(rows_taken(pick, place))
    many = plural(place)
    return (f"From the {first} take {many} in groups and miss one {place} between groups; {many} "
            f"in each group: {', '.join(_gathered(pick.runs))}.")


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


def in_runs(pick: PickUp) -> bool:
    """True where single rows are missed between rows that are taken once."""
    return pick.stitches < pick.edge_rows and 0 not in pick.runs


def marked(count: int, ends: BandEnds) -> dict[int, str]:
    """Names of the marked stitches: ends, quarters and middle."""
    hem = ends.first == "hem"
    first, last = ("hem end", "top end") if hem else (ends.first, ends.last)
    found: dict[int, list[str]] = {}
    for k, name in enumerate((first, "¼", "middle", "¾", last)):
        found.setdefault(1 + (2 * k * (count - 1) + 4) // 8, []).append(name)
    return {stitch: joined(names) for stitch, names in found.items()}
