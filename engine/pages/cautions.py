"""The cautions of a size: those that its steps call for, and for children those on what it has."""

from __future__ import annotations

from ..machine import steps
from ..machine.tools import Tool
from ..markup.html import items, link
from ..pattern.model import Pattern, Wearer
from ..proof.proof import SizeProof
from ..words.told import works
from .has import Has, what_it_has
from .materials import used_tools

CAUTIONS = "../../cautions.html"
# What is left to say of a child's garment that has neither, without a word of them.
NOTHING_ELSE = ("Add nothing that the steps do not name: nothing small that can come off, and "
                "nothing that can tie, catch or strangle.")


def cautions(pattern: Pattern, size: SizeProof) -> str:
    """Return the cautions that the steps call for; for children's clothes those on what it has."""
    used, tools = [s for work in works(size) for s in work.program.steps], used_tools(size)
    said = ["<strong>Hooks and latches are sharp.</strong> Keep fingers clear when needles are "
            "forward, and keep children away from the machine."]
    if tools.keys() & {Tool.EVEN, Tool.COMB, Tool.CLAWS}:
        said.append("<strong>Weights drop</strong> when stitches come off. Keep your feet clear, "
                    "and take them off wherever a step says so.")
    if tools.keys() & {Tool.GARTER_BAR, Tool.LIFT}:
        said.append("<strong>A full garter bar is heavy,</strong> and the latches are open. Take "
                    "the weights off before the work is lifted.")
    if any(isinstance(step, steps.HandKnit) and step.cord for step in used):
        clips = " and clips" if Tool.CLIPS in tools else ""
        said.append(f"<strong>Count cords{clips}</strong> before you put the work away, so that "
                    "none stays in the garment.")
    said.append(link(f"{CAUTIONS}#at-the-machine", "All cautions at the machine"))
    for_child = _children(pattern, what_it_has(pattern, size)) if pattern.wearer.is_child else ""
    return items(said, "wb-cautions") + for_child


def _children(pattern: Pattern, has: Has) -> str:
    whose = "a baby" if pattern.wearer is Wearer.BABIES else "a child"
    parts = []
    if has.buttons:
        parts.append(
            "Buttons can come off and choke: sew them on firmly and check them after every wash. "
            "Standards to ask for: EN 17394-2:2020 with CEN/TS 17394-1:2021. In the USA, 16 CFR "
            "1501 on small parts exempts buttons on clothes, which makes a loose one no less "
            "dangerous. " + link(f"{CAUTIONS}#buttons", "Cautions on buttons and small parts"))
    if has.worn_cord:
        parts.append(
            f"Cords can strangle: {_cords(pattern)}. Standards to ask for: EN 14682, ASTM F1816-18 "
            f"and 16 CFR Part 1120. {link(f'{CAUTIONS}#cords', 'Cautions on cords')}")
    if has.making_cords:
        parts.append("Leave none of the cords that were used in making in the garment.")
    if has.marks:
        parts.append("A pin or a thread left in can hurt or choke: count out what marks rows and "
                     "edges, and count it in again before the garment is worn.")
    parts.append(f"{NOTHING_ELSE} "
                 + link(f"{CAUTIONS}#childrens-clothes", "All cautions on children's clothes"))
    return (f'<div class="wb-children"><p><strong>This garment is for {whose}.</strong> The rules '
            "in force where it is made, sold or worn come first. This pattern does not claim to "
            f"meet any standard.</p>{items(parts)}</div>")


def _cords(pattern: Pattern) -> str:
    """What cords a child's garment may have, where it has one."""
    if any(band.cord for band in pattern.bands.values()):
        which, fast = "those that the steps name", "sew each fast half-way round"
    else:
        which, fast = "the one in the hem", "sew it fast at the middle of the back"
    return (f"add none at neck or hood and none but {which}, let no more hang out than the steps "
            "say, at most 7.5 cm (3 in) at full width, without knots or toggles, and "
            f"{fast}")
