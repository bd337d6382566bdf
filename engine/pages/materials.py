"""Tools, yarns and gauges of a size, taken from the steps that use them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from functools import lru_cache

from ..catalogue.ways import TOGETHER
from ..core.counts import decimal, whole
from ..core.units import Length
from ..machine import edge_steps, steps, two_yarn_steps
from ..machine.needles import Needles
from ..machine.prongs import MOST, goes
from ..machine.reasons import Reason
from ..machine.set_up_steps import Carriage, SetCarriage
from ..machine.tools import Tool
from ..markup.html import esc, items
from ..pattern.fabrics import Yarn
from ..pattern.model import Pattern, RibMake, RibWish
from ..program.band import FACING, MAIN, WASTE
from ..program.chart_actions import CONTRAST
from ..proof.proof import SizeProof, Strip
from ..proof.yarn_ends import HOLE, RAVEL
from ..proof.yarn_extras import band_yarn, piece_yarn
from ..proof.yarn_need import waste_metres
from ..words.lengths import to_cut
from ..words.told import Work, works
from ..words.words import counted, joined, stitches
from .casing_section import casing_notions
from .has import what_it_has
from .hung_on import listed
from .ravel_cords import cords_at_once
from .zip_section import zip_notions

MAIN_YARN = "Main yarn"
_OWN = {MAIN: MAIN_YARN, CONTRAST: "Contrast yarn", FACING: "Facing yarn"}


def materials(pattern: Pattern, size: SizeProof) -> str:
    """Return the list of yarns, notions and tools that the strips of one size use."""
    seams = what_it_has(pattern, size).seams
    return items([*listed(pattern, size), *_yarns(pattern, size), *_notions(pattern, size),
                  *_tools(size, seams)], "wb-list")


def _yarns(pattern: Pattern, size: SizeProof) -> Iterator[str]:
    roles = _roles(pattern, size)
    several = len({key for called, key in roles if called == MAIN_YARN}) > 1
    for (called, key), used in roles.items():
        yarn = pattern.yarns[key]
        fibre = f", {esc(yarn.fibre)}" if yarn.fibre else ""
        whose = f" for the {esc(joined(used))}" if called == MAIN_YARN and several else ""
        yield f"<strong>{called}{whose}:</strong> {esc(yarn.name)}{fibre}{_package(yarn)}"
    metres = waste_metres(pattern, size)
    waste = max((n for work in works(size) for name, n in work.run.rows if name == WASTE),
                default=0)
    if waste:
        what = "piece and band" if size.pieces else "band"
        yield (f"<strong>Waste yarn</strong> for {counted(waste, 'row')} a {what}, about "
               f"{metres} m in all: smooth, of another colour, about as thick as the main yarn")
    elif _waits(size):
        about = f"about {metres} m" if metres else "a length for each"
        yield (f"<strong>Waste yarn</strong> for stitches that wait, {about}: smooth, of "
               "another colour, about as thick as the main yarn")


def _waits(size: SizeProof) -> bool:
    """True where stitches wait on waste yarn, under the name that a step gives them."""
    return any(isinstance(step, edge_steps.TakeOff) and step.reason is not Reason.DRAWN_UP
               for work in works(size) for step in work.program.steps)


def _roles(pattern: Pattern, size: SizeProof) -> Mapping[tuple[str, str], Sequence[str]]:
    """What the steps call each yarn that they thread, its key, and what is knitted with it."""
    found: dict[tuple[str, str], dict[str, None]] = {}
    for work in works(size):
        whose = work.plan.band.title.lower() if isinstance(work, Strip) else "pieces"
        for step in work.program.steps:
            if isinstance(step, steps.Thread | two_yarn_steps.ThreadContrast) and \
                    step.yarn in _OWN:
                key = band_yarn(work.plan, step.yarn) if isinstance(work, Strip) else \
                    piece_yarn(pattern, step.yarn)
                found.setdefault((_OWN[step.yarn], key), {})[whose] = None
    order = list(_OWN.values())
    return {role: tuple(found[role]) for role in sorted(found, key=lambda r: order.index(r[0]))}


def _package(yarn: Yarn) -> str:
    if yarn.package_g is None:
        return ""
    long = f", {decimal(yarn.package_length.mm / 1000, 0)} m" if yarn.package_length else ""
    return f" (ball or cone of {decimal(yarn.package_g, 0)} g{long})"


def _notions(pattern: Pattern, size: SizeProof) -> Iterator[str]:
    corded = [needles_of(work) for work in works(size) if work.program.cord_yarn]
    if corded:
        what = "piece and band" if size.pieces else "band"
        long = to_cut(max(corded), pattern.bed.pitch, RAVEL)
        many = cords_at_once(size)
        yield (f"<strong>Ravel cord:</strong> about {long}, smooth and slippery, used again for "
               f"each {what}" if many == 1 else
               f"<strong>Ravel cord:</strong> {many} lengths of about {long}, smooth and slippery: "
               "a cord stays in its piece until the edge above it is closed")
    if _waits(size):
        yield "<strong>Labels</strong> for the edges that wait"
    cords = [step for s in size.strips for step in s.program.steps
             if isinstance(step, steps.HandKnit) and step.cord]
    if cords:
        long = to_cut(max(len(step.needles) for step in cords), pattern.bed.pitch, HOLE, tails=2)
        yield (f"<strong>Buttonhole cord:</strong> {counted(len(cords), 'length')} of about "
               f"{long}, smooth, of another colour")
        yield f"<strong>Clips:</strong> {2 * len(cords)}, two for each cord"
    if slots := [slot for p in size.pieces for slot in p.piece.pockets]:
        long = to_cut(max(slot.stitches for slot in slots), pattern.bed.pitch, HOLE, tails=2)
        yield (f"<strong>Pocket cord:</strong> {counted(len(slots), 'length')} of about {long}, "
               "smooth and strong, of another colour")
    yield from zip_notions(size.plans)
    yield from casing_notions(size.plans)
    yield from _cord(pattern, size)
    for plan in size.plans:
        if plan.band.buttonholes and plan.placing:
            yield (f"<strong>Buttons:</strong> {plan.placing.holes}, "
                   f"{button_said(plan.band.buttonholes.button)} across")


def _cord(pattern: Pattern, size: SizeProof) -> Iterator[str]:
    wish = pattern.garment.cord if pattern.garment else None
    found = [c for _, name, c in size.dressed.garment.counts if name == "cord"] \
        if size.dressed else []
    if wish and found:
        yield (f"<strong>Cord for the hem:</strong> {found[0].value} cm, "
               f"{wish.width.in_mm()} wide; a bodkin")


@lru_cache(maxsize=256)
def button_said(button: Length) -> str:
    """A button's diameter in millimetres and in the button trade's lignes (40 to the inch)."""
    return f"{button.in_mm()} (about {whole(button.inches * 40)} ligne)"


# What a list calls a tool that the bed used; {} is its size.
_TOOLS: Mapping[Tool, str] = {
    Tool.TRANSFER: "<strong>Transfer tool</strong> with {}",
    Tool.CROSSING: "<strong>Two transfer tools</strong> with {} each, for the crossings",
    Tool.LATCH: "<strong>Latch tool</strong>",
    Tool.GARTER_BAR: "<strong>Garter bar</strong> of the bed's pitch, as wide as the work",
    Tool.LIFT: f"<strong>Garter bar</strong> of the bed's pitch for the mitre, or a transfer tool "
               f"with {MOST} prongs",
    Tool.PEGS: "<strong>Gate pegs</strong> along the front of the bed",
    Tool.COMB: "<strong>Cast-on comb</strong> with its wire and weights",
    Tool.EVEN: "<strong>Weights</strong>",
    Tool.CLAWS: "<strong>Claw weights</strong>, to hang under a few stitches",
    Tool.SECOND_FEEDER: "<strong>A carriage with two feeders</strong> that knits two yarns in one "
                        "row",
    Tool.ROW_PINS: "<strong>Threads or pins</strong> to mark the rows of the garment's edge",
    Tool.MARKS: "<strong>Marking thread</strong> of another colour, tied in beside the work",
    Tool.CLOTH: "<strong>Clean cloth</strong> to lay over the bed",
    Tool.SEWING_NEEDLE: "<strong>Sewing needle and strong thread</strong> for the buttons",
}


def used_tools(size: SizeProof) -> dict[Tool, int]:
    """What the bed used for a size, with the largest size of each. Pieces that are bound off
    together come back to the bed, to a transfer tool and a latch tool."""
    most: dict[Tool, int] = {}
    for use in (use for work in works(size) for use in work.run.tools):
        most[use.tool] = max(use.size, most.get(use.tool, 0))
    joins = size.dressed.garment.joins if size.dressed else ()
    if any(join.way == TOGETHER.name for join in joins):
        most = {Tool.TRANSFER: 1, Tool.LATCH: 1, **most}
    return most


def _tools(size: SizeProof, seams: bool) -> Iterator[str]:
    used = used_tools(size)
    if Tool.GARTER_BAR in used:
        used.pop(Tool.LIFT, None)
    for tool, said in _TOOLS.items():
        if tool is Tool.TRANSFER and used.get(tool, 0) > 1:
            yield said.format("one prong")
            yield _several(used[tool])
        elif tool in used:
            yield said.format("one prong" if tool is Tool.TRANSFER else
                              counted(used[tool], "prong"))
    if size.dressed and any("block" in said.lower() for said in size.dressed.garment.making_up):
        yield "<strong>Pins and a flat board</strong> for blocking"
    yield f"<strong>Blunt sewing needle</strong> for ends{' and seams' if seams else ''}"


def _several(moved: int) -> str:
    """The tool that moves so many neighbours, as such tools are made."""
    tool = f"<strong>Transfer tool</strong> with {min(moved, MOST)} prongs"
    if moved <= MOST:
        return tool
    return f"{tool}: {stitches(moved)} side by side are moved in {len(goes(moved))} goes"


def machine(pattern: Pattern, widest: int, *, holds: bool = False, slips: bool = False
            ) -> str:
    """The machine in one sentence: pitch, needles, what it must have."""
    bed = pattern.bed
    name = bed.name if "bed" in bed.name.lower() else f"{bed.name} bed"
    levers = [*["be set to hold"] * holds, *["pass every needle by (slip levers)"] * slips]
    holding = f" A carriage that can {joined(levers)}." if levers else ""
    return (f"<p>{esc(name[:1].upper() + name[1:])}, {bed.pitch.in_mm()} from needle to needle, "
            f"with at least {widest} needles; the pattern is written for {bed.needles}. A row "
            f"counter that the carriage trips.{holding}{_second_bed(pattern)}</p>")


def _second_bed(pattern: Pattern) -> str:
    """That a second bed is needed, where the pieces begin with a rib of two."""
    hem = pattern.garment.hem if pattern.garment else None
    if not isinstance(hem, RibWish) or hem.make is not RibMake.TWO_BED:
        return ""
    racks = " It must rack by half a needle." if all(hem.works) else ""
    return (" A second bed that is set facing it, needle to needle, with its carriage, "
            "the connecting arm and its comb."
            f"{racks}")



def holds(size: SizeProof) -> bool:
    """True where needles are held in any piece or band of the size."""
    kinds = steps.Hold | steps.Tuck | steps.Slip
    return any(isinstance(s, kinds) for work in works(size) for s in work.program.steps)


def slips(size: SizeProof) -> bool:
    """True where the slip levers of a carriage are set, for a free pass or a row of one bed."""
    return any(isinstance(s, SetCarriage) and s.to is Carriage.SLIP for work in works(size)
               for s in work.program.steps)


def needles_wanted(size: SizeProof) -> int:
    """The most needles any piece or strip of the size needs [needles]."""
    return max(needles_of(work) for work in works(size))


def needles_of(work: Work) -> int:
    """The needles from the first to the last that a piece or strip ever has in work [needles]."""
    if isinstance(work, Strip):
        return work.plan.widest
    mask = work.piece.needles.mask
    for step in work.program.steps:
        if isinstance(step, steps.CastOn | steps.Increase) or (
                isinstance(step, edge_steps.Hang) and step.onto_empty):
            mask |= step.needles.mask
    ever = Needles(mask)
    return ever.last.place - ever.first.place + 1
