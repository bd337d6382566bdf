"""Fabrics with needles left out of work in a repeat: stitches that close alike, where they lie.

A repeat of "2 in 1 out" over 8 stitches with an edge stitch at either end lies as

    I II. II. II I        I in work, . out of work

so that both ends are alike: after the last whole repeat its beginning comes once more, up to the
first needle left out (common practice, no source). Where one seam joins the two sides of a piece
and takes the only edge stitch of either, the beginning does not come once more,

    I II. II. II. I

so that the columns run on across the seam. Stitches are needles in work; the bed must have room
for the others too.
"""

from __future__ import annotations

import re
from fractions import Fraction
from itertools import groupby

from ..core.counts import NEAREST, Rounding
from ..core.note_arguments import NotedRuns, NoteWord
from ..machine.needles import Needle, Needles, centred, of
from ..pattern.fabrics import Repeat

_GROUP = re.compile(r"\s*(\d{1,2})\s+in\s*,?\s*(\d{1,2})\s+out\s*(?:,|\Z)?")
LONGEST = 24  # needles in a repeat


def read_repeat(text: str, *, edge: int = 1) -> Repeat:
    """Return the repeat that `text` says, such as "2 in 1 out" or "3 in 1 out, 1 in 1 out".

    `edge` stitches stand at both ends. Raises ValueError, saying why, for any other text.
    """
    works: list[bool] = []
    at = 0
    while at < len(text.rstrip()):
        group = _GROUP.match(text, at)
        if group is None or not int(group[1]) or not int(group[2]):
            raise ValueError("needles in and out of work, such as 2 in 1 out")
        works += [True] * int(group[1]) + [False] * int(group[2])
        at = group.end()
    if not works or len(works) > LONGEST:
        raise ValueError(f"a repeat of 2 to {LONGEST} needles, such as 2 in 1 out")
    return Repeat(works=tuple(works), edge=edge)


def repeat_text(repeat: Repeat) -> str:
    """The repeat in words: "2 in, 1 out"."""
    return ", ".join(f"{len(list(run))} {'in' if works else 'out'}"
                     for works, run in groupby(repeat.works))


def runs_of(repeat: Repeat) -> NotedRuns:
    """The repeat as runs of needles in work and out of work."""
    return NotedRuns(tuple((len(list(run)), NoteWord.IN_WORK if works else NoteWord.OUT_OF_WORK)
                      for works, run in groupby(repeat.works)))


def allowed_counts(repeat: Repeat | None) -> Rounding:
    """Return the stitch counts that the repeat allows: whole repeats, one beginning, the edges.

    Without the beginning where the repeat runs on across a seam; without a repeat, every count.
    """
    if repeat is None:
        return NEAREST
    return Rounding("multiple", of=sum(repeat.works), plus=repeat.opening + 2 * repeat.edge)


def arrangement(stitches: int, repeat: Repeat | None) -> tuple[bool, ...]:
    """Return for each needle from the piece's left, whether it is in work.

    Raises ValueError where so many `stitches` do not fit the repeat.
    """
    if repeat is None:
        return (True,) * stitches
    over = stitches - repeat.opening - 2 * repeat.edge
    times, rest = divmod(over, sum(repeat.works))
    if rest or times < 0:
        raise ValueError(
            f"{stitches} stitches are not {allowed_counts(repeat)} of {repeat_text(repeat)}")
    ends = (True,) * repeat.edge
    return ends + repeat.works * times + (True,) * repeat.opening + ends


def needles_taken(stitches: int, repeat: Repeat | None) -> int:
    """Return the needles that so many stitches take up, those left out included [needles]."""
    return len(arrangement(stitches, repeat)) if repeat else stitches


def lay(stitches: int, repeat: Repeat | None, *, mirrored: bool = False) -> Needles:
    """Return the needles in work, all that are taken up lying centred on the bed.

    The odd one goes to the left, to the right where `mirrored`; so does the repeat's beginning.
    """
    taken = centred(needles_taken(stitches, repeat), extra="right" if mirrored else "left")
    if repeat is None:
        return taken
    works = arrangement(stitches, repeat)
    works = works[::-1] if mirrored else works
    start = taken.first.place
    return of(*(Needle(start + i) for i, on in enumerate(works) if on))


def onto_neighbours(stay: list[Needle], move: list[Needle]) -> list[tuple[int, Needles]]:
    """Return the moves that bring each of `move` onto its partner in `stay`, by distance.

    Needles left out of work make some distances longer: (needles to the right, from where).
    """
    moves: dict[int, list[Needle]] = {}
    for to, away in zip(stay, move, strict=False):
        moves.setdefault(to.place - away.place, []).append(away)
    return [(by, of(*needles)) for by, needles in moves.items()]


def gathering(needles: Needles, *, mirrored: bool = False
              ) -> tuple[Needles, list[tuple[int, Needles]]]:
    """Return the needles that keep stitches when every second one goes onto its neighbour, and
    the moves.

    From the left, from the right where `mirrored`; the first stitch stays alone where that
    leaves fewer distances to move by, or shorter ones, between needles left out of work.
    """
    places = list(needles)[::-1] if mirrored else list(needles)
    moves = min((onto_neighbours(places[alone::2], places[alone + 1::2]) for alone in (0, 1)),
                key=_trouble)
    gone = Needles(0)
    for _, moved in moves:
        gone |= moved
    return needles - gone, moves


def _trouble(moves: list[tuple[int, Needles]]) -> tuple[bool, int, Fraction]:
    """How little a gathering suits the hand: no moves, many distances, long ones."""
    stitches = sum(len(moved) for _, moved in moves)
    far = sum(abs(by) * len(moved) for by, moved in moves)
    return not stitches, len(moves), Fraction(far, stitches or 1)
