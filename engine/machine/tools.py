"""The tools that a program uses, as the bed notes them step by step."""

from __future__ import annotations

from typing import NamedTuple

from .members import Members


class Tool(Members):
    """What a knitter has at hand besides the machine and its yarn."""

    TRANSFER = "transfer tool"
    CROSSING = "two transfer tools"
    LATCH = "latch tool"
    GARTER_BAR = "garter bar"
    LIFT = "garter bar, or transfer tool in goes"
    OFF_ALL = "garter bar, or waste yarn and a sewing needle"
    PEGS = "gate pegs"
    COMB = "cast-on comb"
    EVEN = "weights"
    CLAWS = "claw weights"
    SECOND_FEEDER = "second feeder"
    ROW_PINS = "pins that mark the rows of an edge"
    MARKS = "marking thread"
    CLIPS = "clips"
    CLOTH = "cloth"
    BLUNT_NEEDLE = "blunt sewing needle"
    SEWING_NEEDLE = "sewing needle and strong thread"


class Use(NamedTuple):
    """A tool and its size: the stitches side by side that a transfer tool moves, else 1."""

    tool: Tool
    size: int = 1
