"""The tables that say which garment row meets which needle, for one front, armhole or neck."""

from __future__ import annotations

from ..core.units import Length
from ..drawings.dimensions import both
from ..machine.needles import Needle, Needles
from ..machine.steps import Side
from ..markup.html import details, esc, part, table
from ..pattern.edges import OPEN, Offer
from ..plan.meeting import Meeting
from ..plan.pickup import marks
from ..program.layout import corner_loops, sections
from ..program.waiting import beside_missed, gap_needles, seam_needles
from ..proof.proof import Strip
from ..shape.edging import Section, Stretch
from ..words import hanging_text as words
from ..words.band_ends import BandEnds, band_ends, is_taken_by_rows, part_title
from ..words.edge_instructions import hanging_anchor


def hanging_table(strip: Strip) -> str:
    """Return heading and tables; two HTML blocks."""
    ends = band_ends(strip.plan, strip.front)
    anchor = hanging_anchor(strip)
    body = _whole(strip, ends) if is_taken_by_rows(strip.plan) else _by_sections(strip, ends)
    return (part(words.table_title(ends.edge), anchor)
            + f'<div class="wb wb-hanging">\n{body}\n</div>\n\n')


def _whole(strip: Strip, ends: BandEnds) -> str:
    """An edge of one section."""
    (meeting,) = strip.plan.meetings
    lead = words.whole_lead(meeting, strip.layout.hem, ends, _long(meeting.section), _under(strip))
    label = words.table_of(part_title(strip.plan), ends.edge)
    return f"{lead}\n" + _table(strip, meeting, ends, label, strip.plan.joins[0])


def _by_sections(strip: Strip, ends: BandEnds) -> str:
    """A block a section, in the order in which they lie along the band."""
    out = [words.sections_lead(strip.layout.hem, ends, _under(strip))]
    at, loops = strip.plan.joins[0], corner_loops(strip.plan, strip.layout)
    for number, (_, meeting, needles) in enumerate(sections(strip.plan, strip.layout), 1):
        corners = [loop.needle for loop in loops if loop.section == number]
        out.append(_section(strip, number, meeting, needles, at, ends.edge, corners))
        at += len(needles)
    return "\n".join(out)


def _under(strip: Strip) -> str:
    sections = [meeting.section for meeting in strip.plan.meetings]
    return words.under_chain(sections, strip.plan.band.stitches_in)


def _section(strip: Strip, number: int, meeting: Meeting, needles: Needles, at: int, edge: str,
             corners: list[Needle]) -> str:
    section, pick = meeting.section, meeting.pick_up
    span = words.from_first(needles, strip.layout.hem)
    lead = words.section_title(number, section, len(needles), span)
    seams = words.in_seams(meeting, _seams(strip, meeting, needles)) + \
        words.corner_loops(corners)
    if section.offer is not Offer.ROWS and pick.stitches == pick.edge_rows:
        return f"<p>{lead}{words.one_for_one(section, _long(section))}{seams}</p>"
    if section.offer in OPEN:
        other = words.other_count(section, _long(section), *_changed(strip, meeting, needles))
        return f"<p>{lead}{other}{seams}</p>"
    label = words.section_table(part_title(strip.plan), edge, number)
    before = strip.plan.meetings[number - 2].section if number > 1 else None
    text = words.section_taken(meeting, _long(section)) + words.hem_joined(
        section, begins=before is not None and before.stretch is Stretch.HEM)
    return (f"<p>{lead}{text}{seams}</p>\n"
            + _table(strip, meeting, words.SECTION_ENDS, label, at))


def _changed(strip: Strip, meeting: Meeting, needles: Needles) -> tuple[Needles, Needles]:
    """The needles without a stitch, and those with two, where not as many wait as are wanted."""
    hem = strip.layout.hem
    return gap_needles(meeting, needles, hem), beside_missed(meeting, needles, hem)


def _seams(strip: Strip, meeting: Meeting, needles: Needles) -> list[Needle]:
    """The needles with stitches that lie in a seam, as they follow along the band."""
    seams = seam_needles(meeting, needles, strip.layout.hem)
    return list(seams) if strip.layout.hem is Side.LEFT else list(seams)[::-1]


def _long(section: Section) -> str:
    """How long a section is, in both units as HTML."""
    return both(Length(section.length))


def _table(strip: Strip, meeting: Meeting, ends: BandEnds, label: str, at: int) -> str:
    """The needles that matter, of a section that begins after `at` stitches of the band."""
    pick = meeting.pick_up
    where = words.marked(pick.stitches, ends)
    rows = [(strip.layout.at(at + stitch).name, where.get(stitch, words.BETWEEN),
             str(pick.rows[stitch - 1]), str(stitch)) for stitch in marks(pick.stitches)]
    return table(esc(label), words.head(meeting.section), rows) + \
        _every_needle(strip, meeting, at)


def _every_needle(strip: Strip, meeting: Meeting, at: int) -> str:
    """Every needle's row, where no sentence can tell them all."""
    pick = meeting.pick_up
    if words.in_runs(pick) or pick.stitches == pick.edge_rows:
        return ""
    return details(words.every_needle(meeting.section), ", ".join(
        f"{strip.layout.at(at + stitch).name}: {row}" for stitch, row in enumerate(pick.rows, 1)))
