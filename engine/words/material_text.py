"""Words for the list of tools and materials, and for the machine that a page needs."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from fractions import Fraction
from functools import lru_cache

from ..core.counted import Count
from ..core.counts import UP, decimal, whole
from ..core.units import Length, length_cm
from ..machine.prongs import MOST, goes
from ..machine.tools import Tool
from ..markup.html import esc
from ..pattern.fabrics import NeedleBed, Yarn
from .words import counted, joined, stitches

MAIN_YARN, CONTRAST_YARN, FACING_YARN = "Main yarn", "Contrast yarn", "Facing yarn"
STRIPE_YARNS = ("Second yarn", "Third yarn", "Fourth yarn", "Fifth yarn", "Sixth yarn")
LABELS = "<strong>Labels</strong> for the edges that wait"
CUT_AND_MEASURE = "<strong>Scissors and tape measure</strong>"
BLOCKING = "<strong>Pins and a flat board</strong> for blocking"
STEAMER = "<strong>Steam iron or steamer</strong>, if the yarn's label allows steam"
PRESS_CLOTH = "<strong>Damp cloth</strong> to press under"


def yarn_listed(called: str, yarn: Yarn, used: Sequence[str], grams: int | None) -> str:
    """A yarn as the steps call it; what it is `used` for where that must be said; of several ends
    what each takes of all its `grams`."""
    details = "".join(f", {esc(text)}" for text in (yarn.fibre, yarn.written) if text)
    whose = f" for the {esc(joined(used))}" if used else ""
    return (f"<strong>{called}{whose}:</strong> {esc(yarn.called)}{details}{_package(yarn)}"
            f"{_ends(yarn, grams)}")


def _ends(yarn: Yarn, grams: int | None) -> str:
    """How many ends go through the feeder together, and how much is wound for one of them."""
    if yarn.ends == 1:
        return ""
    each = f" of about {whole(Fraction(grams, yarn.ends), UP)} g" if grams else ""
    return f"; {yarn.ends} ends knitted as one: wind a ball{each} for each end that has no cone"


def _package(yarn: Yarn) -> str:
    if yarn.package_g is None:
        return ""
    long = f", {decimal(yarn.package_length.mm / 1000, 0)} m" if yarn.package_length else ""
    return f" (ball or cone of {decimal(yarn.package_g, 0)} g{long})"


def waste_yarn(rows: int, metres: int, *, waits: bool, once: bool) -> str:
    """Waste yarn for so many rows wherever a piece or a band begins on it, and for what waits."""
    also = " and for stitches that wait" if waits else ""
    start = "the start" if once else "each start on waste yarn"
    return (f"<strong>Waste yarn</strong> for {counted(rows, 'row')} at {start}{also}, "
            f"about {metres} m in all: smooth, of another colour, about as thick as the main yarn")


def waste_for_waiting(metres: int) -> str:
    """Waste yarn that only holds stitches."""
    about = f"about {metres} m" if metres else "a length for each"
    return (f"<strong>Waste yarn</strong> for stitches that wait, {about}: smooth, of "
            "another colour, about as thick as the main yarn")


def ravel_cords(number: int, long: str, *, again: bool) -> str:
    """The ravel cords in use at a time; one is used `again` where there are more starts."""
    if number == 1:
        return (f"<strong>Ravel cord:</strong> about {long}, smooth and slippery"
                f"{'. Use it again at each start on waste yarn' * again}")
    return (f"<strong>Ravel cord:</strong> {number} lengths of about {long}, smooth and slippery: "
            "a cord stays in its piece until the edge above it is closed")


def buttonhole_cord(lengths: int, long: str) -> str:
    """The cords that hold the stitches of buttonholes."""
    return (f"<strong>Buttonhole cord:</strong> {counted(lengths, 'length')} of about "
            f"{long}, smooth, of another colour")


def clips(number: int) -> str:
    """The clips at the ends of cords."""
    return f"<strong>Clips:</strong> {number}, two for each cord"


def pocket_cord(lengths: int, long: str) -> str:
    """The cords that hold the stitches of pockets."""
    return (f"<strong>Pocket cord:</strong> {counted(lengths, 'length')} of about {long}, "
            "smooth and strong, of another colour")


def buttons(number: int, button: Length) -> str:
    """The buttons of a band, with their width."""
    return f"<strong>Buttons:</strong> {number}, {button_text(button)} across"


def hem_cord(long: Count, width: Length) -> str:
    """The cord that stays in a hem."""
    return (f"<strong>Cord for the hem:</strong> {length_cm(long.value)}, "
            f"{width.in_mm()} wide; a bodkin")


def sewing_needle(*, seams: bool, edge: bool) -> str:
    """What ends are darned in with, and seams sewn, or an `edge` off its waste yarn."""
    also = " and seams" if seams else " and the edge that is sewn off" if edge else ""
    return f"<strong>Blunt sewing needle</strong> for ends{also}"


@lru_cache(maxsize=256)
def button_text(button: Length) -> str:
    """A button's diameter in millimetres and in the button trade's lignes (40 to the inch)."""
    return f"{button.in_mm()} (about {whole(button.inches * 40)} ligne)"


# What a list calls a tool that the bed used; {} is its size.
TOOLS: Mapping[Tool, str] = {
    Tool.TRANSFER: "<strong>Transfer tool</strong> with {}",
    Tool.CROSSING: "<strong>Two transfer tools</strong> with {} each, for the crossings",
    Tool.LATCH: "<strong>Latch tool</strong>",
    Tool.GARTER_BAR: "<strong>Garter bar</strong> of the bed's pitch, for at least {} needles",
    Tool.LIFT: f"<strong>Garter bar</strong> of the bed's pitch for the mitre, or a transfer tool "
               f"with {MOST} prongs, three at a time; up to {{}} are moved side by side",
    Tool.OFF_ALL: "<strong>Garter bar</strong> of the bed's pitch, as wide as the work; or smooth "
                  "waste yarn, a hand longer than the work is wide, to draw through all stitches "
                  "with the sewing needle",
    Tool.PEGS: "<strong>Gate pegs,</strong> a part of the bed, along its front",
    Tool.COMB: "<strong>Cast-on comb</strong> with its wire and weights",
    Tool.EVEN: "<strong>Weights</strong>",
    Tool.CLAWS: "<strong>Claw weights</strong>, to hang under a few stitches",
    Tool.SECOND_FEEDER: "<strong>A carriage with two feeders</strong> that knits two yarns in one "
                        "row",
    Tool.ROW_PINS: "<strong>Threads or pins</strong> to mark rows of the edge",
    Tool.MARKS: "<strong>Marking thread</strong> of another colour, tied in where a step says so",
    Tool.CLOTH: "<strong>Clean cloth</strong> to lay over the bed",
    Tool.SEWING_NEEDLE: "<strong>Sewing needle and strong thread</strong> for the buttons",
}


def tool_listed(tool: Tool, size: int, prongs: Collection[int] = ()) -> Iterator[str]:
    """A tool of TOOLS as the list has it, at the largest `size` that is used [stitches].

    Of transfer tools one for each number of `prongs` that a go takes, besides that with one.
    """
    text = TOOLS[tool]
    if tool is not Tool.TRANSFER:
        yield text.format(stitches(size) if tool is Tool.LIFT else size
                          if tool is Tool.GARTER_BAR else counted(size, "prong"))
        return
    yield text.format("one prong")
    several = sorted(number for number in prongs if number > 1)
    for number in several:
        wider = size > MOST and number == several[-1]
        yield text.format(f"{number} prongs") + (
            f": {stitches(size)} side by side are moved in {len(goes(size))} goes" if wider else "")


def bed_called(bed: NeedleBed) -> str:
    """What a needle bed is called behind "a"."""
    name = bed.name.replace("-", " ")
    return name if "bed" in name.lower() else f"{name} bed"


def machine(bed: NeedleBed, widest: int, *, holds: bool, slips: bool, second: bool,
            racks: bool) -> str:
    """The machine in one sentence, as HTML: pitch, needles, what its carriage can do, and the
    `second` bed where one is needed."""
    name = bed_called(bed)
    levers = [*["be set to hold"] * holds, *["pass every needle by (slip levers)"] * slips]
    holding = f" A carriage that can {joined(levers)}." if levers else ""
    return (f"<p>{esc(name[:1].upper() + name[1:])}, {bed.pitch.in_mm()} from needle to needle, "
            f"with at least {widest} needles; the pattern is written for {bed.needles}. A row "
            f"counter that the carriage trips.{holding}{_second_bed(racks) if second else ''}</p>")


def _second_bed(racks: bool) -> str:
    by_half = " The second bed must rack by half the needle pitch." if racks else ""
    return (" A second bed that is set facing it, needle to needle, with its carriage, "
            f"the connecting arm and its comb.{by_half}")
