"""The cautions of a size: those that its steps call for, and for children those on what it has."""

from __future__ import annotations

from collections.abc import Mapping

from ..machine import steps
from ..machine.tools import Tool
from ..markup.html import items
from ..pattern.model import Band, GarmentSpec, Wearer
from ..proof.proof import SizeProof
from ..sizing.ages import Age
from ..words import caution_text as words
from ..words.instruction import works
from .has import what_it_has
from .materials import used_tools


def cautions(spec: GarmentSpec | None, bands: Mapping[str, Band], wearer: Wearer, size: SizeProof
            ) -> str:
    """Return the cautions that the steps call for; for children's clothes those on what it has."""
    tools = used_tools(size)
    sentences = [words.SHARP]
    if tools.keys() & {Tool.EVEN, Tool.COMB, Tool.CLAWS}:
        sentences.append(words.WEIGHTS)
    if tools.keys() & {Tool.GARTER_BAR, Tool.LIFT, Tool.OFF_ALL}:
        sentences.append(words.GARTER_BAR)
    if any(step.cord for work in works(size) for step in work.program.of(steps.HandKnit)):
        sentences.append(words.count_cords(clips=Tool.CLIPS in tools))
    sentences.append(words.AT_THE_MACHINE)
    anyone = wearer is Wearer.ANYONE and size.assembled is not None
    for_child = _children(spec, bands, wearer, size) if wearer.is_child or anyone else ""
    return items(sentences, "wb-cautions") + for_child


def _children(spec: GarmentSpec | None, bands: Mapping[str, Band], wearer: Wearer, size: SizeProof
             ) -> str:
    has = what_it_has(spec, size)
    in_bands = any(band.cord for band in bands.values())
    parts = [*[words.BUTTONS] * has.buttons,
             *[words.worn_cords(in_bands=in_bands)] * has.worn_cord,
             *[words.DRAW_CORDS_OUT] * has.making_cords,
             *[words.MARKS_OUT] * has.marks,
             words.NOTHING_ELSE]
    chart, anyone = spec and spec.chart, wearer is Wearer.ANYONE
    age = chart.ages.get(size.size) if chart and anyone else None
    if age in (Age.BABY, Age.CHILD):
        lead = words.size_for_child(baby=age is Age.BABY)
    else:
        lead = words.for_child(baby=wearer is Wearer.BABIES, anyone=anyone)
    return f'<div class="wb-children">{lead}{items(parts)}</div>'
