"""What is done to a garment, task by task, and what each task needs to have been done before it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from enum import Enum

from ..catalogue.edge_roles import EdgeRole
from ..core.text_kinds import TaskKey
from ..core.units import Length
from ..machine.records import dataclass
from ..machine.steps import Side
from .piece_folds import Folded


class Seam(Enum):
    """What a join is of a garment."""

    SIDE = "side"
    SHOULDER = "shoulder"
    SLEEVE = "sleeve"
    ARMHOLE = "armhole"
    RAGLAN = "raglan"
    UNDERARM = "underarm"
    STRAP = "strap"
    BACK = "back"
    QUARTERS = "quarters"
    PANELS = "panels"
    THUMB = "thumb"
    SLIT = "slit"
    PLACKET = "placket"
    DECLARED = "declared"  # which edges it joins stands in the source


class TaskKind(Enum):
    """What is done in a task."""

    KNIT = "knit a piece"
    SEW_OFF = "sew an edge of one piece off its waste yarn"
    DRAW_UP = "draw an end through the last stitches"
    DRAW_LOWER = "draw an end through the first stitches"
    FOLD_IN = "push one half of a tube into the other"
    BLOCK = "block the pieces"
    WASH = "wash what is sewn up"
    TURN = "turn the pieces"
    BAND = "work a band"
    LININGS = "sew the pocket linings round"
    SEW_NECK = "sew the neck's stitches off their waste yarn"
    SHOULDERS = "join shoulders stitch to stitch"
    SHOULDER_ROWS = "sew a shoulder row to row"
    RAGLANS = "sew raglan seams"
    STRAPS = "sew straps to shoulders"
    FOOT = "sew placket bands to the foot of the slit"
    ENDS_TO_TOPS = "sew the neckband's ends to the tops of the front bands"
    ZIP = "set in a zip"
    CAPS = "set in sleeves"
    TOPS = "sew sleeve tops between marks"
    TOPS_TO_SIDES = "sew sleeve tops to the sides"
    SIDES = "sew the sides"
    QUARTER_SEAMS = "sew the quarters of a crown to each other"
    CROWN_SEAM = "sew the seam from a crown down"
    SEAM_REST = "close what a seam left open"
    TURN_UP = "turn a brim up"
    THUMBS = "sew thumbs"
    HAND_SIDES = "sew the sides of hands"
    THUMB_SLIT = "sew thumbs into their slits"
    PANELS = "sew panels together"
    DECLARED = "sew edges as the source declares"
    CORD = "draw in a cord"
    DARN = "darn in the ends"


class Blocked(Enum):
    """What is blocked: the shape decides how it is pinned."""

    PIECES = "pieces"
    PANELS = "panels"
    ONE = "one piece"
    TRIANGLE = "triangle"


class CapFoot(Enum):
    """What meets at the underarm where a sleeve is set in."""

    BOUND_OFF = "bound-off stitches"
    DECREASES = "first decreases"
    SEAM_END = "end of the side seam"


class Sewing(Enum):
    """What is sewn to what where two edges meet."""

    ROWS = "row to row"
    STITCHES = "stitch to stitch"
    MIXED = "rows to stitches"
    ENDS = "edge to edge"  # sides of rows by their outermost loops, which takes no stitch


@dataclass(frozen=True, slots=True)
class Sewn:
    """The part of a seam that a task sews: on one `side` as worn, or on both, to one piece or all.

    A seam's parts differ by the piece of the body that they are on, "" for all of them.
    """

    seam: Seam
    side: Side | None = None
    piece: str = ""

    def has(self, other: Sewn) -> bool:
        """True where all of `other` lies in this."""
        return self.seam is other.seam and self.side in (None, other.side) \
            and self.piece in ("", other.piece)


@dataclass(frozen=True, slots=True)
class NamedBand:
    """A band of the garment: its key, its title, and what the edge is that it is worked on.

    It `hides` so many stitches of the edge over which it closes, or behind which it is turned as a
    facing, which `faces` the inside. It has so many `layers`. On an edge of rows it is hung so many
    `stitches_in` from the edge. With an `end` of yarn, without its tails, its two ends are sewn to
    each other, where it goes round a neck or an own piece; of a pocket's top each is sewn down with
    as much. It `rolls` where its one layer is worn rolled. Its layers have so many `rows`, 0 where
    that is not asked. The ends of a `lengthwise` one are cast on and bound off.
    """

    key: str
    title: str
    role: EdgeRole | None
    hides: int = 0
    stitches_in: int = 0
    faces: bool = False
    layers: int = 1
    end: Length | None = None
    rolls: bool = False
    rows: int = 0
    lengthwise: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Task:
    """One thing that is done: its `kind`, what it takes, and by `name` what it needs before it.

    `pieces` are keys of pieces, `roles` those of the edges whose bands are worked, or have their
    ends sewn; `bands` are these bands, once it is known which there are. `sews` is what becomes
    one, less what it `leaves` open. `takes` names the edges whose stitches it takes off their
    waste yarn.

    `waits`: stitches wait for a band on waste yarn. `first`: a band is worked before all seams but
    the shoulders'. `tops` are bands over whose tops it runs, over `half` of each. `each`: it is
    done to several alike. `opened`: to both sides of an opening. `lower`: to the lower edge, not
    the top; its half loop lies `half_at` that side, as the piece hung on the bed. `open_hem`: a
    hem's channel stays open in the seam. `child`: a child wears it. `hemmed`: a seam runs over a
    hem's two layers. `all_hem`: no more than the hem is turned up. `inside`: a seam shuts all ends
    in, so that they are darned in before it is closed. `uneven`: the edges are in two fabrics, and
    have not as many rows or stitches. `ladders`: the edge has needles left out. `pointed`: a
    piece's top row is as narrow as its seam takes. `tied`: threads mark where armholes begin.
    `curled`: its seams end at lower edges that roll.

    Figures: `stitches`, and of a slit's foot so many more `beside` them, under either band; `end`
    and `cord` are lengths of yarn and cord, `until` how long an edge is to come out, `turn_up`
    where a seam changes its side, `ties` how far a cord hangs out, `row` what the counter showed.
    `sewing`, `number` and `edges` are of a join that the source declares: how, which, and what; the
    bands on the edges that `meet` in it have their ends sewn; a piece is `folded` for it. `method`
    names how stitches are joined, `upper` the front that lies on top where no buttonholes say so.
    """

    kind: TaskKind
    name: TaskKey
    needs: tuple[TaskKey, ...] = ()
    pieces: tuple[str, ...] = ()
    roles: tuple[EdgeRole, ...] = ()
    bands: tuple[NamedBand, ...] = ()
    tops: tuple[NamedBand, ...] = ()
    sews: tuple[Sewn, ...] = ()
    leaves: Sewn | None = None
    takes: tuple[str, ...] = ()
    blocked: Blocked | None = None
    cap_foot: CapFoot | None = None
    waits: bool = False
    half: bool = False
    first: bool = False
    each: bool = False
    opened: bool = False
    lower: bool = False
    half_at: Side | None = None
    open_hem: bool = False
    tied: bool = False
    child: bool = False
    hemmed: bool = False
    all_hem: bool = False
    inside: bool = False
    uneven: bool = False
    ladders: bool = False
    pointed: bool = False
    curled: bool = False
    title: str = ""
    method: str = ""
    upper: Side | None = None
    stitches: int = 0
    beside: int = 0
    row: int = 0
    end: Length | None = None
    cord: Length | None = None
    ties: Length | None = None
    until: Length | None = None
    turn_up: Length | None = None
    sewing: Sewing | None = None
    number: int = 0
    edges: tuple[str, str] = ("", "")
    meet: tuple[str, ...] = ()
    folded: Folded | None = None

    def sews_any(self, seam: Seam, side: Side | None = None) -> bool:
        """True where it sews some of a `seam`, on one `side` or at all."""
        return any(part.seam is seam and (side is None or part.side in (None, side))
                   for part in self.sews)

    def closes(self, part: Sewn) -> bool:
        """True where it sews a `part` whole."""
        return any(sewn.has(part) for sewn in self.sews) \
            and not (self.leaves is not None and self.leaves.has(part))


def block(blocked: Blocked = Blocked.PIECES) -> Task:
    """Return the blocking, before all seams."""
    return Task(kind=TaskKind.BLOCK, name="block", blocked=blocked)


def wash(needs: str) -> Task:
    """Return the washing of what is sewn up before it is blocked: gauges are of washed swatches."""
    return Task(kind=TaskKind.WASH, name="wash", needs=(needs,))


def darn() -> Task:
    """Return what comes after all knitting and sewing, and after the washing."""
    return Task(kind=TaskKind.DARN, name="darn")


def needing(tasks: Iterable[Task], names: Iterable[str], seams: Iterable[Seam]
            ) -> tuple[Task, ...]:
    """Return the tasks; each that sews one of the `seams` needs those called `names` too."""
    names, seams = tuple(names), tuple(seams)
    return tuple(replace(task, needs=(*task.needs, *names))
                 if any(map(task.sews_any, seams)) else task for task in tasks)


def renamed(tasks: Iterable[Task], names: Mapping[str, tuple[str, ...]]) -> tuple[Task, ...]:
    """Return the tasks, each need of a name in `names` replaced by what stands for it, and so on.

    No name may stand for itself.
    """
    def meant(name: str) -> Iterator[str]:
        if name in names:
            yield from (each for one in names[name] for each in meant(one))
        else:
            yield name
    return tuple(replace(task, needs=tuple(dict.fromkeys(
        each for need in task.needs for each in meant(need)))) for task in tasks)


def in_order(tasks: Sequence[Task]) -> tuple[Task, ...]:
    """Return the tasks, each after all that it needs, and otherwise in the order in which they are.

    Raises ValueError for a need that no task meets, for a name that two tasks have, and where
    tasks need each other in a circle.
    """
    names = [task.name for task in tasks]
    if len(set(names)) < len(names):
        raise ValueError(f"two tasks have one name: {names}")
    if unmet := {need for task in tasks for need in task.needs} - set(names):
        raise ValueError(f"no task is called {sorted(unmet)}")
    return tuple(_taken(list(tasks)))


def _taken(left: list[Task]) -> Iterator[Task]:
    """The first task that lacks nothing, again and again."""
    done: set[str] = set()
    while left:
        ready = next((task for task in left if done.issuperset(task.needs)), None)
        if ready is None:
            raise ValueError(f"tasks need each other: {[task.name for task in left]}")
        left.remove(ready)
        done.add(ready.name)
        yield ready
