"""The sizes of a pattern that were called otherwise, and those that were withdrawn."""

from __future__ import annotations

from collections.abc import Mapping

from ..pattern.corrections import WithdrawnSize
from ..source.fabric_reading import size_slug
from ..words.former_text import size_withdrawn

GoneSize = tuple[str, str, str, str]
"""The label of a size, the name of its page, and what it is called now, or else why it is gone."""


def former_sizes(sizes: tuple[str, ...], former: Mapping[str, tuple[str, ...]]
                ) -> tuple[tuple[str, str, str], ...]:
    """Return each label that a size had, the name of its page then, and the label it has now.

    One whose page is called as it was is left out: its address is the same, and so is the name
    under which a knitter's device keeps her place.
    """
    pages = {size_slug(size) for size in sizes}
    return tuple((label, size_slug(label), now) for now, labels in former.items()
                 for label in labels if size_slug(label) not in pages)


def gone_sizes(sizes: tuple[str, ...], former: Mapping[str, tuple[str, ...]],
               withdrawn: tuple[WithdrawnSize, ...]) -> tuple[GoneSize, ...]:
    """Return every size whose page stood where none stands now, renamed or withdrawn."""
    return (*((*renamed, "") for renamed in former_sizes(sizes, former)),
            *((one.label, size_slug(one.label), "", size_withdrawn(one))
              for one in withdrawn))
