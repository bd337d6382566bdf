"""The labels that sizes had before: each leads to one size, and none is a size's now."""

from __future__ import annotations

from collections.abc import Sequence

from ..sizing.own_sizes import OwnSize
from .fabric_reading import size_slug
from .fields import Findings


def hold_former(findings: Findings, sizes: Sequence[OwnSize]) -> None:
    """Record former labels that a size has now, or whose page one has, and those of two sizes.

    What a knitter keeps on her device is under the name of the page: it can be taken over where
    that page was of this size alone. The others are kept as `findings.former`.
    """
    pages = {size_slug(size.name): size.name for size in sizes}
    taken: dict[str, str] = {}  # the page of a former label, and the size that has it
    for size in sizes:
        for number, label in enumerate(size.former):
            place = findings.places.get(f"{size.path}.former.{number}", findings.places[size.path])
            page = size_slug(label)
            now = pages.get(page, "")
            if label == size.name or now not in ("", size.name):
                findings.fault("same-page", place, f'the former label "{label}", whose page was '
                               f'called "{page}" like that of "{now}"',
                               "a label that no size has now", "Delete it, or rename the size.")
            elif page in taken:
                findings.fault("same-page", place, f'the former label "{label}" again, which '
                               f'"{taken[page]}" has', "each former label once", "Delete it.")
            else:
                taken[page] = size.name
                findings.former[label] = size.name
