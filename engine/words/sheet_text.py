"""Words of the tech editor's workbook: its sheets, its columns, and what a row is."""

from __future__ import annotations

from collections.abc import Sequence

from ..core.body_figures import BodyOperand
from ..core.expression import Operand
from ..core.operands import Role
from ..core.problems import Place
from .role_names import ROLES

ABOUT, INPUTS, GAUGES, MEASURES = "About", "Inputs", "Gauges", "Measures"
YARN, JOINS, FINDINGS, ONE_LINE, STEPS = "Yarn", "Joins", "Findings", "One line", "Steps between"
LENGTHS, SHAPING = "Finished lengths", "Shaping"
SHEETS = (ABOUT, INPUTS, GAUGES, MEASURES, LENGTHS, YARN, JOINS, SHAPING, FINDINGS, ONE_LINE, STEPS)
SHAPED_EDGE = "Edge"
INPUT_COLUMNS = ("Input", "Unit", "Place in the source")
GAUGE_COLUMNS = ("Fabric", "Stitches", "Width [mm]", "Rows", "Height [mm]", "Stitch [mm]",
                 "Row [mm]", "Stitches per mm", "Rows per mm", "Mass [g]", "Yarn [m]", "Check",
                 "Place in the source")
COUNT_COLUMNS = ("Count", "Unit", "Place in the source")
CHECK, KIND, REMARK, STATUS, ANSWER = "Check", "Kind", "Remark", "Status", "Answer"
FOLDER = "The pattern's folder:"
REMARK_COLUMNS = (REMARK, STATUS, ANSWER)
LAST_COLUMNS = (CHECK, KIND)
PLACE = "Place in the source"
JOIN_COLUMNS = ("Size", "Join", "Unit", "One side", "The other", "Ease", "Difference", "Allowed",
                "Check", PLACE)
FINDING_COLUMNS = ("Weight", "Code", "Place", "Found", "Expected", "What to write", "Sizes")
PLACES = (COUNT_COLUMNS[2], FINDING_COLUMNS[2])  # how columns with a place are headed
LINE_COLUMNS = ("Of", "Count", "Unit")
STEP_COLUMNS = ("A part of a long formula", "", "")
TIMES = "times"
SPREAD = ("rows apart at first", "so many at first", "rows apart then", "so many then")
MIXED = ("rows apart, shorter", "so many shorter", "rows apart, longer", "so many longer")
GOOD, OTHER = "same", "differs"
CHANGED, STALE = "changed", "planned figure: run walebook"
CHANGED_INPUTS = "Rows of inputs that differ from the source:"
FORMULA, PARTLY, VALUE = "formula", "formula with planned figures", "value"
ON_BED = "counted on the bed"


def about(slug: str, title: str, version: str, date: str, *, counted: int, live: int, on_bed: int
          ) -> tuple[str, ...]:
    """What the workbook is, and how it is read."""
    return (
        f"{title}, version {version} of {date}",
        f"{FOLDER} {slug}",
        CHANGED_INPUTS,
        f"{live} of {counted} figures are formulas that follow the inputs. {on_bed} figures were "
        f"{ON_BED}, and {counted - live - on_bed} are values.",
        "The sheets Inputs and Gauges have what the source, its charts and its rules give. Change "
        "a coloured cell there, and every sheet follows.",
        "A figure that is the same in every size is changed in the column of the first size. A "
        "figure of the source can stand in two rows with its place, such as the stitches inside a "
        "band: change both.",
        "The columns called published have what the pattern has now. Check compares: same, or "
        f"differs. Once an input is changed, a figure that does not follow all its inputs is not "
        f"compared: its check is {STALE}. Beside an input that you changed, Check is {CHANGED}.",
        f"Kind: {FORMULA}, which follows all its inputs; {PARTLY}, which follows as far as the "
        f"engine does not choose anew; {VALUE}, which follows nothing; {ON_BED}, which the virtual "
        "needle bed has counted.",
        f"The sheet {SHAPING} says how each edge is shaped in each size, as it is knitted. It has "
        "texts, which no input changes.",
        "Write into Remark and Status. The designer reads them with: walebook sheet --read FILE. "
        "Her answers stand in the next workbook. The status done closes a remark that she has "
        "answered.",
        "Nothing in this workbook changes the pattern.")


def published(size: str) -> str:
    """The head of a column with the published figures of a size."""
    return f"{size}, published"


def whose(place: Place | None, *, given: bool) -> str:
    """Where an input comes from that has no place in the source; `place` is that of the figure that
    is calculated from it."""
    what = "a rule of Walebook, see the calculations of a size page" if given else \
        "planned by the engine; no formula follows"
    return f"{what} (for {place})" if place else what


def of_chart(chart: str, place: Place | None) -> str:
    """From which size chart a figure comes."""
    return f"{place} (size chart {chart})" if place else f"size chart {chart}"


def range_end(label: str, *, higher: bool) -> str:
    """A figure of a chart that is an end of a range: "bust, the lower figure"."""
    return f"{label}, the {'higher' if higher else 'lower'} figure"


def used_for(label: str, title: str, name: str) -> str:
    """An input by the figure that is calculated from it: "pick-up rule, for neck: band rows"."""
    return f"{label}, for {title}: {count_text(name)}" if name else f"{label}, for {title}"


def nth_of_name(label: str, number: int) -> str:
    """One of several inputs of one name, by its number from 2."""
    return f"{label}, {number}"


def input_text(owner: str, operand: Operand) -> str:
    """What an input is: "ease: 10 cm", "stitches for the seams"; of a body, which measurement."""
    role, name = operand.role, operand.name
    if isinstance(operand, BodyOperand):
        what = operand.of.label
    elif role in (Role.WRITTEN, Role.WRITTEN_LENGTH):
        what = "as written"
    elif owner and role is Role.SOURCE:
        what = "as the designer gives it"
    else:
        what = " ".join(filter(None, (ROLES[role], name.strip(" ,")))).rstrip(":")
    return f"{owner}: {what}" if owner else what


def mean_of(fabric: str) -> str:
    """The row with what a fabric's swatches come to."""
    return f"{fabric}, the mean"


def count_text(name: str, number: int | None = None) -> str:
    """A count by its key as a reader says it; `number` from 1 of several: "gaps, 2"."""
    plain = name.replace("_", " ")
    return plain if number is None else f"{plain}, {number}"


def spread_text(name: str, what: str) -> str:
    """A figure of an even slope: "increases, rows apart at first"."""
    return f"{name}, {what}"


def step_text(number: int) -> str:
    """One of the steps in which stitches go, from 1."""
    return f"step {number}"


def of_sheet(title: str, name: str) -> str:
    """A count with the sheet that it stands on: "sleeve, upper arm"."""
    return f"{title}, {count_text(name)}"


def all_sizes(values: Sequence[str]) -> str:
    """A count of all sizes in one line: "96 (102, 108)"; one size, or one value, by itself."""
    first, *rest = values
    return first if not rest or set(values) == {first} else f"{first} ({', '.join(rest)})"
