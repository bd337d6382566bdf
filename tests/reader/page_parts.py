"""What a page consists of once it is read: groups of sections, and the reading of all of it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from tests.reader.knitter import Fault, Knitter
from tests.reader.visible import Block, Section


@dataclass(slots=True)
class Group:
    """A section of the second level with the parts under it."""

    title: str
    parts: list[Section]

    def blocks(self) -> Iterator[Block]:
        """Every block of its parts, steps left out."""
        for part in self.parts:
            yield from part.blocks


@dataclass(slots=True)
class Reading:
    """A page as it was read: its groups, who knitted what, and everything found wrong; `met` are
    the places of the lines of the table by which its sentences were read."""

    title: str
    groups: list[Group]
    met: set[int] = field(default_factory=set)
    knitters: list[Knitter] = field(default_factory=list)
    making_up: Knitter | None = None
    unswatched: dict[str, str] = field(default_factory=dict)
    faults: list[Fault] = field(default_factory=list)

    def group(self, title: str) -> Group | None:
        """The group with this title, if the page has it."""
        return next((one for one in self.groups if one.title == title), None)

    def fault(self, kind: str, section: str, words: str, message: str) -> None:
        """Put down what is wrong outside the steps."""
        self.faults.append(Fault(kind, section, 0, words, message))
