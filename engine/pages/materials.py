"""Tools, yarns and gauges of a size, taken from the steps that use them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import groupby

from ..catalogue.methods import TOGETHER
from ..fabric.piece_fabrics import feet_of, piece_fabrics
from ..machine import edge_steps, steps, two_yarn_steps
from ..machine.needles import NONE, Needles
from ..machine.prongs import MOST, goes
from ..machine.reasons import Reason
from ..machine.set_up_steps import Carriage, SetCarriage
from ..machine.step_keys import STRIPE_YARNS, StepYarn
from ..machine.steps import Step
from ..machine.tools import Tool
from ..markup.html import items
from ..pattern.fabrics import Fabric, Materials, NeedleBed
from ..pattern.model import GarmentSpec, Pattern
from ..pattern.rib_specs import RibMake, RibSpec
from ..proof.needles_used import bed_for
from ..proof.proof import SizeProof, Strip, Work
from ..proof.yarn_ends import HOLE, RAVEL
from ..proof.yarn_extras import band_yarn, piece_yarn
from ..proof.yarn_requirement import YarnRequirement, waste_metres
from ..shape.tasks import TaskKind
from ..words import material_text as words
from ..words.cut_lengths import to_cut
from ..words.instruction import works
from ..words.rolling import curls_at_points, pressed_over
from .casing_section import casing_notions
from .has import what_it_has
from .hung_on import listed
from .ravel_cords import cord_starts, cords_at_once
from .zip_section import zip_notions

_OWN = {StepYarn.MAIN: words.MAIN_YARN, **dict(zip(STRIPE_YARNS, words.STRIPE_YARNS, strict=True)),
        StepYarn.CONTRAST: words.CONTRAST_YARN, StepYarn.FACING: words.FACING_YARN}


def materials(pattern: Pattern, size: SizeProof, requirements: Sequence[YarnRequirement] = (), *,
              pieces: bool = True) -> str:
    """Return the list of yarns, notions and tools that the strips of one size use, with what is
    `required` of each yarn.

    With `pieces`, it begins with those that bands are hung on and that are knitted first.
    """
    seams = what_it_has(pattern.garment, size).seams
    first = listed(pattern.garment, size) if pieces else ()
    return items([*first, *_yarns(pattern.garment, pattern.materials, size,
                                  requirements), *_notions(pattern.garment, pattern.bed, size),
                  *_tools(pattern.fabrics, size, seams)], "wb-list")


def _yarns(spec: GarmentSpec | None, materials: Materials, size: SizeProof,
           requirements: Sequence[YarnRequirement]) -> Iterator[str]:
    roles = _roles(spec, materials.fabrics, size)
    grams = {one.yarn: one.grams.value for one in requirements if one.grams}
    several = len({key for called, key in roles if called == words.MAIN_YARN}) > 1
    for (called, key), used in roles.items():
        yarn = materials.yarns[key]
        whose = used if called == words.MAIN_YARN and several else ()
        yield words.yarn_listed(called, yarn, whose, grams.get(yarn))
    metres = waste_metres(spec, materials.fabrics, size)
    waste = max((n for work in works(size) for name, n in work.trace.rows
                 if name == StepYarn.WASTE), default=0)
    if waste:
        yield words.waste_yarn(waste, metres.value, waits=_waits(size),
                               once=cord_starts(size) == 1)
    elif _waits(size):
        yield words.waste_for_waiting(metres.value)


def _waits(size: SizeProof) -> bool:
    """True where stitches wait on waste yarn, under the name that a step gives them."""
    return any(step.reason is not Reason.DRAWN_UP
               for work in works(size) for step in work.program.of(edge_steps.TakeOff))


def _roles(spec: GarmentSpec | None, fabrics: Mapping[str, Fabric], size: SizeProof
          ) -> Mapping[tuple[str, str], Sequence[str]]:
    """What the steps call each yarn that they thread, its key, and what is knitted with it."""
    found: dict[tuple[str, str], dict[str, None]] = {}
    apart = len({fabric.yarn for fabric in piece_fabrics(spec, fabrics)}) > 1
    for work in works(size):
        whose = work.plan.band.title.lower() if isinstance(work, Strip) else \
            work.piece.title.lower() if apart else "pieces"
        threads: tuple[steps.Thread | two_yarn_steps.ThreadContrast, ...] = (
            *work.program.of(steps.Thread), *work.program.of(two_yarn_steps.ThreadContrast))
        for step in threads:
            if step.yarn in _OWN:
                key = band_yarn(work.plan, step.yarn) if isinstance(work, Strip) else \
                    piece_yarn(spec, fabrics, work.piece.key, step.yarn)
                found.setdefault((_OWN[step.yarn], key), {})[whose] = None
    order = list(_OWN.values())
    return {role: tuple(found[role]) for role in sorted(found, key=lambda r: order.index(r[0]))}


def _notions(spec: GarmentSpec | None, bed: NeedleBed, size: SizeProof) -> Iterator[str]:
    corded = [work.program.of(steps.CastOn)[0].needles.across
              for work in works(size) if work.program.cord_yarn]
    if corded:
        long = to_cut(max(corded), bed.pitch, RAVEL)
        yield words.ravel_cords(cords_at_once(size), long, again=cord_starts(size) > 1)
    if _waits(size):
        yield words.LABELS
    cords = [step for s in size.strips for step in s.program.of(steps.HandKnit) if step.cord]
    if cords:
        long = to_cut(max(len(step.needles) for step in cords), bed.pitch, HOLE, tails=2)
        yield words.buttonhole_cord(len(cords), long)
        yield words.clips(2 * len(cords))
    if slots := [slot for p in size.pieces for slot in p.piece.pockets]:
        long = to_cut(max(slot.stitches for slot in slots), bed.pitch, HOLE, tails=2)
        yield words.pocket_cord(len(slots), long)
    yield from zip_notions(size.plans)
    yield from casing_notions(size.plans)
    yield from _cord(spec, size)
    for plan in size.plans:
        if plan.band.buttonholes and plan.placing:
            yield words.buttons(plan.placing.buttonhole_count, plan.band.buttonholes.button)


def _cord(garment_spec: GarmentSpec | None, size: SizeProof) -> Iterator[str]:
    spec = garment_spec.cord if garment_spec else None
    found = [c for _, name, c in size.assembled.garment.counts if name == "cord"] \
        if size.assembled else []
    if spec and found:
        yield words.hem_cord(found[0], spec.width)


def used_tools(size: SizeProof) -> dict[Tool, int]:
    """What the bed used for a size, with the largest size of each. Pieces that are bound off
    together come back to the bed, to a transfer tool and a latch tool."""
    most: dict[Tool, int] = {}
    for use in (use for work in works(size) for use in work.trace.tools):
        most[use.tool] = max(use.size, most.get(use.tool, 0))
    if darts := max((_moved_at_darts(work) for work in works(size)), default=0):
        most[Tool.TRANSFER] = max(darts, most.get(Tool.TRANSFER, 0))
    joins = size.assembled.garment.joins if size.assembled else ()
    if any(join.method == TOGETHER.name for join in joins):
        most = {Tool.TRANSFER: 1, Tool.LATCH: 1, **most}
    return most


def _moved_at_darts(work: Work) -> int:
    """The most stitches that a line of a table tells to move at a dart [stitches]: the program
    moves them in goes, one after the other."""
    if not any(map(_outside_dart, work.program.of(steps.Transfer))):
        return 0  # as most
    return max((sum(len(needles) for needles in run)
                for together, run in groupby(map(_outside_dart, work.program.steps), bool)
                if together), default=0)


def _outside_dart(step: Step) -> Needles:
    """The needles outside a dart that a step moves; none of any other step."""
    if isinstance(step, steps.Transfer) and abs(step.by) > 1 and \
            step.reason in (Reason.DART_LESS, Reason.DART_MORE):
        return step.needles
    return NONE


def _prongs(size: SizeProof) -> set[int]:
    """How many stitches a transfer tool takes at once, each number once."""
    return {number for work in works(size) for use in work.trace.tools
            if use.tool is Tool.TRANSFER for number in goes(use.size)}


def _tools(fabrics: Mapping[str, Fabric], size: SizeProof, seams: bool) -> Iterator[str]:
    used = used_tools(size)
    if Tool.LIFT in used:  # says how a wider row of stitches is moved
        used[Tool.TRANSFER] = min(used.get(Tool.TRANSFER, 1), MOST)
    if Tool.GARTER_BAR in used:
        used[Tool.GARTER_BAR] = max(used[Tool.GARTER_BAR], used.pop(Tool.LIFT, 0))
    prongs = _prongs(size)
    for tool in words.TOOLS:
        if tool in used:
            yield from words.tool_listed(tool, used[tool], prongs)
    tasks = size.assembled.garment.tasks if size.assembled else ()
    if any(task.kind is TaskKind.BLOCK for task in tasks):
        yield words.BLOCKING
    if any(curls_at_points(fabrics, plan) or pressed_over(plan) for plan in size.plans):
        yield words.STEAMER
    if any(map(pressed_over, size.plans)):
        yield words.PRESS_CLOTH
    yield words.CUT_AND_MEASURE  # every strip's yarn is cut, and its ends have a length
    yield words.sewing_needle(seams=seams, edge=any(task.kind is TaskKind.SEW_OFF
                                                    for task in tasks))


def machine(spec: GarmentSpec | None, bed: NeedleBed, widest: int, *, holds: bool = False,
            slips: bool = False) -> str:
    """The machine in one sentence: pitch, needles, what it must have."""
    second, racks = _second_bed(spec)
    return words.machine(bed, widest, holds=holds, slips=slips, second=second, racks=racks)


def second_bed(spec: GarmentSpec | None) -> bool:
    """True where a second bed is needed."""
    return _second_bed(spec)[0]


def _second_bed(spec: GarmentSpec | None) -> tuple[bool, bool]:
    """Whether a second bed is needed, as the pieces begin with a rib of two; whether it racks."""
    two = [foot for foot in feet_of(spec)
           if isinstance(foot, RibSpec) and foot.make is RibMake.TWO_BED]
    return bool(two), any(all(foot.works) for foot in two)


def holds(size: SizeProof) -> bool:
    """True where needles are held in any piece or band of the size."""
    return any(work.program.of(kind) for work in works(size)
               for kind in (steps.Hold, steps.Tuck, steps.Slip))


def slips(size: SizeProof) -> bool:
    """True where the slip levers of a carriage are set, for a free pass or a row of one bed."""
    return any(step.to is Carriage.SLIP for work in works(size)
               for step in work.program.of(SetCarriage))


def needles_wanted(size: SizeProof) -> int:
    """The needles of the shortest bed for every piece and strip of the size [needles]."""
    return max(bed_for(work) for work in works(size))
