"""What is said about a calculation, and why a choice in it fell as it did."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from ...core.counts import decimal
from ...core.note_arguments import (
    NoteArgument,
    NotedAmount,
    NotedFigures,
    NotedLength,
    NotedParts,
    NotedRuns,
    NotedSchedule,
    NoteWord,
)
from ...core.operands import ChoiceReason, Note
from ...core.units import Length
from .schedules import schedule_text

_CAP = "{3}{4:, beside #}; edge {5} for an armhole of {6} and {7} ease ({8} off)"
_ABOVE = "{0:# above the bind-offs; }"
NOTES: Mapping[Note, str] = {
    Note.SECTION: "{0}: {of}",
    Note.RULE: "{0}, {1} for every {2}: {of}",
    Note.BAND_TOP: "{0} of the band's {1} rows{2}",
    Note.HOLE_OFFERS: "a hole of {0} offers {of} from its other side",
    Note.A_LAYER: "{of} a layer, as the designer gives it",
    Note.NO_LOOPS: "no buttonholes whose edges are hung",
    Note.AND_STITCHES: "{of} and stitches, by sections",
    Note.PART: "{0} of the band's {1} stitches + {2} for the join{2:s} = {3}",
    Note.FOR_CHART: '{of}, {0} for the chart "{1}"',
    Note.ARRANGED: "{of}, {0} of work",
    Note.AS_BODY: "as the body: {of}",
    Note.BETWEEN: "{of}, one of them between the two bind-offs",
    Note.OVER_LAST: "{0} over the last decreases",
    Note.NEVER_HELD: "{0} are never held",
    Note.AND_MORE: "{of}, and {0} more",
    Note.EVERY_SECOND: "{0} − {1} moved onto the stitches beside them: {2}",
    Note.TOP_ROW: "what the row counter shows at the top, as knitted",
    Note.WIDEST: "from the first to the last needle ever in work",
    Note.PAIRS: "{0}; 2 rows a pair: {of}",
    Note.NO_HOLES: "no buttonholes",
    Note.AFTER_ROWS: "{of}; after rows {0}",
    Note.STRETCHES: "{of}, which stretch to about {0} mm",
    Note.HALF_GIRTH: "half the girth: {of}",
    Note.LOOPS_ABOVE: "the {0} loops above an opening of {1} stitches",
    Note.ZIP_CUT: "{of}, a zip cut down to a whole centimetre",
    Note.ZIP_SOLD: "{of}, a zip sold every {0} cm",
    Note.BED: "{of}, as the bed counted",
    Note.BED_HEM: "{of}, as the bed counted, {0} of them in the hem",
    Note.CAP: f"{_ABOVE}top {{1}}; {{2}} rows; {_CAP}",
    Note.CAP_GIVEN: f"{_ABOVE}top {{1}}; {{of}}; {_CAP}",
    Note.BY_SECTIONS: "{of}, by sections",
    Note.BOUND_OFF: "{0} rows and {1} stitches bound off",
    Note.AS_SOURCE: "{of}, as the designer gives it",
    Note.IN_HEM: "{0} in the hem and {1} above it, the last at the upper end: {value}",
    Note.THROUGH:
        "one of them at {0} from the lower end, the others shared out below it and above "
        "it: {of}",
    Note.PUT: "{of}, each where the designer puts it",
    Note.EVERY:
        "about {0} asked for from the start of one hole to the start of the next{1}: "
        "{value} buttonholes{2:, # apart}",
    Note.NOT_SWATCHED: "{of}, at the gauge of the pieces: the {0}'s own {1} was not swatched",
}
"""What is said of a calculation, {of}, before it or after it; {value} is its result."""

REASONS: Mapping[ChoiceReason, str] = {
    ChoiceReason.LEAST_ONE: "{value}, the least there is",
    ChoiceReason.ROW_EACH: "{value}, a row for each",
    ChoiceReason.STITCH_EACH: "{value}, a stitch for each",
    ChoiceReason.LEAST_STEP: "{value}, for the steps that there are",
    ChoiceReason.LEAST_HOLE: "{value}, the least a hole may have",
    ChoiceReason.MITRE: "{value}, at most one after every second row; the fabric gives the rest",
    ChoiceReason.NO_WIDER: "no more than the width, {value}",
    ChoiceReason.NECK: "{value} so that the neck is nearer to the width asked for",
    ChoiceReason.SIDES_MEET: "{value} so that the sides meet",
    ChoiceReason.SHAPED: "{value} so that it can be shaped",
    ChoiceReason.ABOVE_UNDERARM: "{value} so that it begins {total} rows above the underarm",
    ChoiceReason.EVEN_ROW: "{value} so that it begins on an even row",
    ChoiceReason.BEFORE_SHOULDERS: "{value} so that it opens before the shoulders begin",
    ChoiceReason.EVEN_BEFORE_SHOULDERS:
        "{value} so that it opens on an even row before the shoulders begin",
    ChoiceReason.CLEAR_ROWS: "{value} so that no side is shaped there",
    ChoiceReason.TOO_FEW: "{value}, as fewer do not stretch so far",
    ChoiceReason.LEAST_SLIT: "{value}, the least a slit may have",
    ChoiceReason.LEAST_LOOP: "{value}, the least a loop may have",
    ChoiceReason.NECK_SIDES: "{value}, as many as its rows have room for",
    ChoiceReason.CUT: "{value}, cut where it comes out best",
    ChoiceReason.RATIO: "{value}, the nearest ratio that is easy to count",
    ChoiceReason.LEAST_GIVEN_UP: "{value}, by which the least is given up",
    ChoiceReason.CLEAR_OF_JOIN: "{value} so that no buttonhole lies on a join",
    ChoiceReason.SECTIONS: "{value} so that these {others} sections have {total} {unit}",
    ChoiceReason.BAND: "{value} is taken, so that the band has {total} {unit}",
    ChoiceReason.BUTTONHOLES: "{value} so that the buttonholes divide, clear of ends and joins",
    ChoiceReason.NO_ROOM: "{value}, as there is no room for one",
    ChoiceReason.CAP_FITS:
        "{value}, the cap whose edge comes nearest to the armhole's and its ease",
    ChoiceReason.SMALLEST_NAMED: "{value}, the smallest of the figures that the measure names",
    ChoiceReason.LARGEST_NAMED: "{value}, the largest of the figures that the measure names",
}
REASON_ENDS: Mapping[ChoiceReason, str] = {
    ChoiceReason.NECK: " ({off} {side})",
    ChoiceReason.SIDES_MEET: " ({off} more)",
    ChoiceReason.SHAPED: " ({off} more)",
    ChoiceReason.ABOVE_UNDERARM: " ({off} {more})",
    ChoiceReason.EVEN_ROW: " ({off} {more})",
    ChoiceReason.BEFORE_SHOULDERS: " ({off} more)",
    ChoiceReason.EVEN_BEFORE_SHOULDERS: " ({off} more)",
    ChoiceReason.CLEAR_ROWS: " ({off} more)",
    ChoiceReason.BUTTONHOLES: ": {chosen} ({off} from the edge)",
}
"""Why a choice fell as it did, and what stands behind some reasons where the count is computed.

{value} is what was chosen, {off} what that is worth, {more} and {side} to which side, {chosen} the
sum that was chosen, {total} and {others} what it must add up to, {unit} what is counted.
"""

_WORDS: Mapping[NoteWord, str] = {
    NoteWord.BOTH_LAYERS: ", through both layers",
    NoteWord.ONE_IN_MIDDLE: ", an odd number so that one lies in the middle",
    NoteWord.IN_WORK: "in", NoteWord.OUT_OF_WORK: "out",
    NoteWord.RIB: "rib", NoteWord.HEM: "hem", NoteWord.FABRIC: "fabric", NoteWord.DIAL: "dial",
    NoteWord.OF_BIND_OFFS: "of bind-offs", NoteWord.PLAIN_BELOW_TOP: "plain below the top",
}


class _PrintedArgument:
    """An argument as a note prints it: in a template "{2:, # apart}" is nothing where there is
    none, and "{2:s}" the ending of a plural."""

    def __init__(self, of: NoteArgument) -> None:
        self.of = of

    def __format__(self, spec: str) -> str:
        if spec == "s":
            return "s" if isinstance(self.of, int) and self.of > 1 else ""
        text = argument_text(self.of)
        return spec.replace("#", text) if spec and text else text


def note_text(note: Note, arguments: Sequence[NoteArgument], of: object, value: object) -> str:
    """Return the sentence of a note about a calculation, `of`, whose result is `value`."""
    return NOTES[note].format(*map(_PrintedArgument, arguments), of=of, value=value)


def argument_text(one: NoteArgument) -> str:
    """Return what a note says besides its calculation as text; another calculation has none."""
    match one:
        case None:
            return ""
        case NoteWord():
            return _WORDS[one]
        case NotedAmount(value, unit):
            return unit.of(value)
        case NotedLength(mm, is_exact):
            return f"{decimal(mm, 1)} mm" if is_exact else str(Length(mm))
        case NotedFigures(figures):
            return ", ".join(map(str, figures))
        case NotedRuns(runs):
            return ", ".join(f"{many} {_WORDS[how]}" for many, how in runs)
        case NotedParts(parts):
            return " and ".join(f"{argument_text(one)} {_WORDS[what]}" for one, what in parts)
        case NotedSchedule():
            return schedule_text(one)
    return str(one)
