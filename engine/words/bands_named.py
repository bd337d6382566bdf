"""What bands are called in the making up, and how the ends of one that goes round are sewn."""

from __future__ import annotations

from collections.abc import Sequence

from ..catalogue.edge_roles import EdgeRole
from ..markup.html import esc
from ..plan.band import UNSEWN
from ..shape.tasks import NamedBand, Sewing, Task, TaskKind
from .cut_lengths import to_sew
from .words import stitches

LOWER = (EdgeRole.HEM, EdgeRole.BRIM, EdgeRole.CUFF)
# Seams that close a piece to a ring, and with it a band on its lower edge.
RINGS = (TaskKind.SIDES, TaskKind.HAND_SIDES, TaskKind.CROWN_SEAM)


def named(bands: Sequence[NamedBand], several: bool = False) -> str:
    """What bands on one kind of edge are called: by their titles, which their sections have."""
    titles = [esc(_inside(band.title)) for band in bands]
    if not several:
        return " or ".join(titles)
    return f"{titles[0]}s" if len(titles) == 1 else " and the ".join(titles)


def _inside(title: str) -> str:
    """A title as it stands inside a sentence: "front band", but "V-neck band"."""
    return title if title[1:2].isupper() or title[1:2] == "-" else title[:1].lower() + title[1:]


def like_first_text(task: Task) -> str:
    """How a second side is joined, as HTML: like the first, with as long an end. Then what closes
    the ring of a neckband, where there is one, with another, and what waited for that."""
    text = "in the same way"
    if task.end:
        text += f", with a new end {task.end} long"
    if not task.bands:
        return f"{text}."
    cut = [band.end for band in task.bands if band.end]
    which = "another end" if task.end else "an end"
    long = to_sew(max(cut, key=lambda one: one.mm)) if cut else ""
    end = f", with {which} of the band's yarn about {long} long" if cut else ""
    last = (f" Then sew down the last {stitches(UNSEWN)} of either end with the rest of it, and "
            "take out their waste yarn." if any(band.faces for band in task.bands) else "")
    return (f"{text}. <b>Sew the {named(task.bands)}'s ends together,</b> "
            f"{ends_how(task.bands)}{end}.{rolled(task.bands)}{last}")


def rolled(bands: Sequence[NamedBand]) -> str:
    """From which side rows are sewn that roll: the purl side shows (bands/rolled.md)."""
    return (" The band rolls: sew its rows with the purl side towards you."
            ) * any(band.rolls for band in bands)


def ends_sewing(bands: Sequence[NamedBand]) -> Sewing:
    """How ends of bands are sewn to each other: sides of rows by their outermost loops, which takes
    no stitch; cast-on and bound-off edges stitch to stitch (common practice, no source)."""
    along = {band.lengthwise for band in bands}
    return Sewing.MIXED if len(along) > 1 else Sewing.STITCHES if along == {True} else Sewing.ENDS


def ends_how(bands: Sequence[NamedBand]) -> str:
    """The words for how ends of bands are sewn to each other: "edge to edge"."""
    return ends_sewing(bands).value


def ends_met(task: Task) -> tuple[NamedBand, ...]:
    """The bands whose ends a task sews: to each other, or to another of them."""
    if task.kind in (TaskKind.ENDS_TO_TOPS, TaskKind.DECLARED) or is_second(task):
        return task.bands
    if task.kind is TaskKind.SIDES and any(band.role is EdgeRole.ARMHOLE for band in task.bands):
        return task.bands
    return tuple(band for band in task.bands if band.role in LOWER) if task.kind in RINGS else ()


def is_second(task: Task) -> bool:
    """Return True where the other side was sewn before a task, in the same way."""
    return task.leaves is None and any(part.side for part in task.sews)


def ends_in_seam(bands: Sequence[NamedBand]) -> str:
    """How the seam that closes a ring takes the bands on its lower edge, as HTML, "" for none.

    A band that is hung on rows covers stitches of that edge, which the seam takes too (common
    practice, no source).
    """
    bands = [band for band in bands if band.role in LOWER]
    inside = max((band.stitches_in for band in bands if band.role is EdgeRole.HEM), default=0)
    covered = (f" Take the {stitches(inside)} of each edge that the band covers into it "
               "too.") * bool(inside)
    return (f" <b>In this seam sew the ends of the {named(bands)} to each other,</b> "
            f"{ends_how(bands)}."
            f"{rolled(bands)}{covered}") * bool(bands)


def pulled_clear(task: Task) -> str:
    """Where a band was hung some stitches in from a shoulder's end (common practice, no source)."""
    if not any(band.hides for band in task.bands):
        return ""
    clear = stitches(max(band.hides for band in task.bands))
    return (f"<b>First draw the {clear} next to the neck out</b> from under the "
            f"{named(task.bands)}'s open ends, at both edges of this seam. Leave them on their "
            "waste yarn: they are joined too. ")
