"""Where the entries of a pattern stand in its source: what a finding points at."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field

from ..core.problems import Place
from ..machine.records import dataclass


@dataclass(frozen=True, slots=True)
class Places:
    """The places of a source's entries, by their dotted paths.

    A path is "bands.front.depth", or "bands.front.depth.M" for one size's entry; "" is the source
    as a whole. `file` is the source's name, for a pattern that was made without one.
    """

    entries: Mapping[str, Place] = field(default_factory=dict)
    file: str = "pattern.yaml"

    def __contains__(self, path: str) -> bool:
        """True where the source has an entry with that path."""
        return path in self.entries

    def of(self, path: str, size: str = "") -> Place:
        """Where `path` stands in the source: its entry for `size` if there is one, else itself,
        else the nearest thing that holds it."""
        steps = f"{path}.{size}" if size else path
        while steps:
            if steps in self.entries:
                return self.entries[steps]
            steps = steps.rpartition(".")[0]
        return self.entries.get("", Place(self.file, 1, 1))
