"""What is done to the pieces of each form after knitting: its tasks, and what each needs."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from fractions import Fraction

from ..catalogue.edge_roles import EdgeRole
from ..catalogue.methods import GRAFT, HAND, end_of
from ..core.text_kinds import TaskKey
from ..core.units import Length
from ..machine.steps import Side
from ..shape.garment import Join
from ..shape.piece_folds import Folded
from ..shape.tasks import (
    Blocked,
    CapFoot,
    Seam,
    Sewing,
    Sewn,
    Task,
    TaskKind,
    block,
    darn,
    wash,
)

Tasks = tuple[Task, ...]
# At the neck a pullover's band is worked flat: one seam stays open until it is on.
LEFT = Side.LEFT
SIDES = (Sewn(Seam.SIDE), Sewn(Seam.SLEEVE))


def _band(name: TaskKey, *roles: EdgeRole, needs: tuple[TaskKey, ...], waits: bool = False,
          first: bool = False) -> Task:
    return Task(kind=TaskKind.BAND, name=name, roles=roles, needs=needs, waits=waits, first=first)


def _open_fronts(seams: tuple[str, ...], *, first: bool = False) -> Tasks:
    """The bands of a garment that opens at the front, once the `seams` at its neck are sewn."""
    return (_band("neck", EdgeRole.NECK, EdgeRole.AROUND, needs=seams, waits=True, first=first),
            _band("fronts", EdgeRole.FRONT, needs=("block",), first=first))


def _placket(seams: tuple[str, ...]) -> Tasks:
    """The bands of a slit and of the neck above it."""
    return (_band("placket", EdgeRole.PLACKET, needs=("block",)),
            Task(kind=TaskKind.FOOT, name="foot", needs=("placket",), roles=(EdgeRole.PLACKET,),
                 sews=(Sewn(Seam.PLACKET),)),
            _band("neck", EdgeRole.NECK, needs=(*seams, "foot"), waits=True))


def _closed_neck(seams: tuple[str, ...], last: Task) -> Tasks:
    """The band of a neck without an opening, and the seam that closes it."""
    return (_band("neck", EdgeRole.NECK, needs=seams, waits=True), last)


def _at_neck(opens: bool, slit: bool, seams: tuple[str, ...], last: Task, *, first: bool = False
             ) -> Tasks:
    if opens:
        return _open_fronts(seams, first=first)
    return _placket(seams) if slit else _closed_neck(seams, last)


def _names(tasks: Tasks) -> tuple[str, ...]:
    return tuple(task.name for task in tasks)


def _sides(needs: tuple[str, ...]) -> Task:
    return Task(kind=TaskKind.SIDES, name="sides", needs=needs, sews=SIDES)


def fitted(foot: CapFoot | None, *, opens: bool, sleeves: bool, slit: bool) -> Tasks:
    """Return the tasks of a drop-shoulder or set-in garment; without a `foot` sleeves have no cap.

    Where the neck is closed the left shoulder stays open until its band is worked.
    """
    closed = not (opens or slit)
    shoulders = Task(
        kind=TaskKind.SHOULDERS, name="shoulders", needs=("block",),
        sews=(Sewn(Seam.SHOULDER, Side.RIGHT if closed else None),),
        leaves=Sewn(Seam.SHOULDER, LEFT) if closed else None)
    left = Task(kind=TaskKind.SHOULDERS, name="left shoulder", needs=("shoulders", "neck"),
                sews=(Sewn(Seam.SHOULDER, LEFT),), roles=(EdgeRole.NECK,))
    neck = _at_neck(opens, slit, ("shoulders",), left, first=True)
    return (block(), shoulders, *neck, *_to_the_sides(foot, sleeves, _names(neck)), darn())


def _to_the_sides(foot: CapFoot | None, sleeves: bool, needs: tuple[str, ...]) -> Iterator[Task]:
    """Sleeves and sides: what is worked at neck and fronts comes before, while all lies flat."""
    if sleeves:
        yield Task(kind=TaskKind.CAPS if foot else TaskKind.TOPS, name="sleeves", needs=needs,
                   cap_foot=foot, sews=(Sewn(Seam.ARMHOLE),))
        yield _sides(("sleeves",))
    else:
        joined = tuple(name for name in needs if name == "left shoulder")
        yield _band("armholes", EdgeRole.ARMHOLE, needs=joined or ("shoulders",))
        yield Task(kind=TaskKind.SIDES, name="sides", needs=("armholes", *needs),
                   roles=(EdgeRole.ARMHOLE,), sews=(Sewn(Seam.SIDE),),
                   tied=foot in (None, CapFoot.SEAM_END))


def raglan(*, opens: bool, slit: bool, apart: bool) -> Tasks:
    """Return the tasks of a raglan; a closed neck's left back seam stays open for its band.
    `apart`: the sleeves are in another fabric."""
    last = Sewn(Seam.RAGLAN, LEFT, "back")
    seams = Task(kind=TaskKind.RAGLANS, name="raglans", needs=("block",),
                 sews=(Sewn(Seam.RAGLAN), Sewn(Seam.UNDERARM)), uneven=apart,
                 leaves=None if opens or slit else last)
    left = Task(kind=TaskKind.RAGLANS, name="left raglan", needs=("raglans", "neck"),
                sews=(last,), roles=(EdgeRole.NECK,))
    neck = _at_neck(opens, slit, ("raglans",), left)
    return (block(), seams, *neck, _sides(_names(neck)), darn())


def saddle(strap: Fraction, *, opens: bool, apart: bool) -> Tasks:
    """Return the tasks of a saddle raglan; a closed neck's left strap stays open at the back.
    `apart`: the sleeves are in another fabric.

    A `strap` is so long over the shoulder [mm]: its end is three times that, as for a sewn row,
    and a hand's length at each end (common practice, no source).
    """
    last = Sewn(Seam.STRAP, LEFT, "back")
    seams = Task(kind=TaskKind.RAGLANS, name="raglans", needs=("block",), uneven=apart,
                 sews=(Sewn(Seam.RAGLAN), Sewn(Seam.UNDERARM)))
    end = Length(end_of(GRAFT, Length(strap)).mm + 2 * HAND.mm)
    straps = Task(kind=TaskKind.STRAPS, name="straps", needs=("raglans",), end=end,
                  sews=(Sewn(Seam.STRAP),), leaves=None if opens else last)
    left = Task(kind=TaskKind.STRAPS, name="left strap", needs=("straps", "neck"), end=end,
                sews=(last,), roles=(EdgeRole.NECK,))
    neck = _at_neck(opens, False, ("straps",), left)
    return (block(), seams, straps, *neck, _sides(_names(neck)), darn())


def sideways(armhole: int) -> Tasks:
    """Return the tasks of a pullover knitted sideways, `armhole` stitches at each side of the
    shoulder."""
    right = Task(kind=TaskKind.SHOULDER_ROWS, name="shoulders", needs=("turn",),
                 sews=(Sewn(Seam.SHOULDER, Side.RIGHT),), leaves=Sewn(Seam.SHOULDER, LEFT))
    left = Task(kind=TaskKind.SHOULDER_ROWS, name="left shoulder", needs=("shoulders", "neck"),
                sews=(Sewn(Seam.SHOULDER, LEFT),), roles=(EdgeRole.NECK,))
    tops = Task(kind=TaskKind.TOPS_TO_SIDES, name="sleeves", needs=("left shoulder",),
                stitches=armhole, sews=(Sewn(Seam.ARMHOLE),))
    first = Task(kind=TaskKind.SIDES, name="right side", needs=("sleeves",),
                 sews=(Sewn(Seam.SIDE, Side.RIGHT), Sewn(Seam.SLEEVE, Side.RIGHT)),
                 leaves=Sewn(Seam.SIDE, LEFT))
    side = Task(kind=TaskKind.SIDES, name="sides", needs=("right side", "hem"),
                sews=(Sewn(Seam.SIDE, LEFT), Sewn(Seam.SLEEVE, LEFT)), roles=(EdgeRole.HEM,))
    return (block(), Task(kind=TaskKind.TURN, name="turn", needs=("block",)), right,
            _band("neck", EdgeRole.NECK, needs=("shoulders",)), left, tops, first,
            _band("hem", EdgeRole.HEM, needs=("right side",)), side, darn())


STRIP = Length(Fraction(5))  # less of the purl side is no part of a brim: common practice


def hat(turn_up: Length, *, double: bool, quarters: bool, hem: Length) -> Tasks:
    """Return the tasks of a hat whose brim turns up so far from its lower edge, 0 for not.

    One that is `double` is drawn up at both ends, and pushed into itself once it is sewn: its seam
    shuts the ends in. One with `quarters` has seams between them, one with a `hem` so deep, 0 for
    none, two layers at its lower edge.
    """
    first: Tasks = (Task(kind=TaskKind.DRAW_UP, name="crown", pieces=("hat",), each=quarters),)
    needs = ["crown"]
    if quarters:
        first += (Task(kind=TaskKind.QUARTER_SEAMS, name="quarters", needs=("crown",),
                       sews=(Sewn(Seam.QUARTERS),)),)
        needs.append("quarters")
    seam = Task(kind=TaskKind.CROWN_SEAM, name="back", sews=(Sewn(Seam.BACK),))
    if double:
        drawn: TaskKey = "lower crown"
        return (*first, Task(kind=TaskKind.DRAW_LOWER, name=drawn, pieces=("hat",),
                             lower=True),
                replace(seam, needs=(*needs, drawn), leaves=Sewn(Seam.BACK), inside=True),
                replace(darn(), inside=True),
                Task(kind=TaskKind.SEAM_REST, name="rest", needs=("darn",), sews=seam.sews),
                Task(kind=TaskKind.FOLD_IN, name="fold", needs=("rest",)),
                replace(wash("fold"), inside=True), *_turned_up(turn_up))
    return (*first, _band("brim", EdgeRole.BRIM, needs=()),
            replace(seam, needs=(*needs, "brim"), roles=(EdgeRole.BRIM,), turn_up=turn_up,
                    hemmed=hem.mm > 0, all_hem=hem + STRIP > turn_up), wash("back"),
            darn(), *_turned_up(turn_up))


def _turned_up(turn_up: Length) -> Tasks:
    """A brim turned up so far, last of all; none for 0."""
    return (Task(kind=TaskKind.TURN_UP, name="turn up", turn_up=turn_up),) if turn_up.mm else ()


def mitten() -> Tasks:
    """Return the tasks of a pair of mittens."""
    return (Task(kind=TaskKind.DRAW_UP, name="tips", pieces=("hand", "thumb"), each=True),
            Task(kind=TaskKind.THUMBS, name="thumbs", needs=("tips",), sews=(Sewn(Seam.THUMB),)),
            _band("cuff", EdgeRole.CUFF, needs=()),
            Task(kind=TaskKind.HAND_SIDES, name="sides", needs=("tips", "cuff"),
                 sews=(Sewn(Seam.SIDE),), roles=(EdgeRole.CUFF,)),
            Task(kind=TaskKind.THUMB_SLIT, name="slit", needs=("thumbs", "sides"),
                 sews=(Sewn(Seam.SLIT),)),
            replace(wash("slit"), each=True), Task(kind=TaskKind.DARN, name="darn", each=True))


def blanket(panels: int) -> Tasks:
    """Return the tasks of a blanket of so many panels."""
    if panels == 1:
        return (block(Blocked.ONE), darn())
    return (block(Blocked.PANELS),
            Task(kind=TaskKind.PANELS, name="panels", needs=("block",), sews=(Sewn(Seam.PANELS),)),
            darn())


def shawl() -> Tasks:
    """Return the tasks of a triangular shawl."""
    return (block(Blocked.TRIANGLE), darn())


def outlined(joins: Sequence[tuple[Join, Sewing]], rings: Sequence[tuple[int, str]],
             folds: Mapping[int, Folded], *, several: bool) -> Tasks:
    """Return the tasks of own pieces, of which there may be `several`: the bands on their edges
    while they lie flat, then the joins as they are declared.

    `rings` are numbers of joins, each with an edge whose two ends meet in it; `folds` say by a
    join's number where a piece is folded for it.
    """
    before, sewn, made = "bands", [], set()
    for join, sewing in joins:
        name: TaskKey = f"join {join.number}"
        fold = folds.get(join.number)
        if fold is not None:
            fold = replace(fold, again=(fold.piece, fold.row) in made)
            made.add((fold.piece, fold.row))
        sewn.append(Task(kind=TaskKind.DECLARED, name=name, needs=(before,), edges=join.sides,
                         sews=(Sewn(Seam.DECLARED),), sewing=sewing, number=join.number,
                         folded=fold,
                         meet=tuple(key for number, key in rings if number == join.number)))
        before = name
    return (block(Blocked.PIECES if several else Blocked.ONE),
            _band("bands", EdgeRole.OUTLINE, needs=("block",)), *sewn, darn())
