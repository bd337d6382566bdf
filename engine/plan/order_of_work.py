"""The order of all the work on a garment: its pieces, its bands, and how it is made up."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import chain

from ..catalogue.bands import KINDS
from ..catalogue.edge_roles import EdgeRole, role_of
from ..catalogue.pocket_edges import LINING
from ..core.text_kinds import TaskKey
from ..machine.steps import Side
from ..pattern.fabrics import Fabric
from ..pattern.model import Band, GarmentSpec, Pattern
from ..shape.garment import Garment
from ..shape.openings import Ending
from ..shape.piece import FRONTS
from ..shape.tasks import NamedBand, Seam, Sewn, Task, TaskKind, in_order, renamed
from ..shape.worn import shoulder_of
from .band_order import NECK, ends_at_tops, in_working_order, upper_front
from .bare_edges import Rolls, rolls_below
from .sense import rolls

Bands = Mapping[EdgeRole | None, Sequence[Band]]
Names = dict[str, tuple[str, ...]]


def order_of_work(pattern: Pattern, garment: Garment) -> Garment:
    """Return the garment with all the work on it in order, each task after what it needs.

    A form's tasks name the bands that its edges can take; those that the pattern has take their
    place, and no others. Stitches that wait for a neckband which is not there are sewn off.
    """
    bands = by_role(pattern.bands)
    names: Names = {}
    made = list(chain.from_iterable(_with_bands(pattern, garment, bands, task, names)
                                    for task in garment.tasks))
    made = [replace(task, takes=takes(pattern.bands, garment, task))
            for task in _with_own(pattern.fabrics, list(renamed(made, names)), bands)]
    knitted = list(_knitted(garment))
    return replace(garment, tasks=in_order([*knitted, *_after(made, knitted)]))


def by_role(bands: Mapping[str, Band]) -> Bands:
    """Return the bands of a pattern by what their edges are, each in its working order."""
    found: dict[EdgeRole | None, list[Band]] = {}
    for band in in_working_order(bands.values()):
        found.setdefault(role_of(band.garment_edge), []).append(band)
    return found


def band_task(key: str) -> TaskKey:
    """Return the name of the task of working a band."""
    return f"band {key}"


def piece_task(key: str) -> TaskKey:
    """Return the name of the task of knitting a piece."""
    return f"piece {key}"


def _with_bands(pattern: Pattern, garment: Garment, bands: Bands, task: Task, names: Names
                ) -> Iterator[Task]:
    """A form's task, one for each band that there is; `names` gets what stands for its own."""
    if task.kind is TaskKind.BAND:
        yield from _worked(pattern.garment, pattern.fabrics, garment, bands, task, names)
        return
    if task.kind is TaskKind.FOOT:
        slit = next(iter(bands.get(EdgeRole.PLACKET, ())), None)
        upper = upper_front(pattern.wearer) if slit and slit.buttonholes is None else None
        task = replace(task, upper=upper, stitches=_bound_off(garment),
                       beside=slit.stitches_in if slit else 0)
    if task.meet:
        alike = garment.edges[task.meet[0]].times > 1 if task.meet[0] in garment.edges else False
        yield replace(task, each=alike, bands=tuple(
            _name_of(pattern.fabrics, band) for band in bands.get(EdgeRole.OUTLINE, ())
            if band.garment_edge in task.meet))
        return
    curled = task.sews_any(Seam.SIDE) and any(
        rolls_below(pattern.bands, garment, piece) is Rolls.KNIT for piece in garment.pieces)
    yield replace(task, bands=_named(pattern.fabrics, bands, *task.roles), curled=curled)


def _bound_off(garment: Garment) -> int:
    """The stitches bound off at the foot of a front's slit."""
    return next(opening.centre for piece in garment.pieces if (opening := piece.opening)
                and opening.centre_ends is Ending.BIND_OFF)


def _worked(spec: GarmentSpec | None, fabrics: Mapping[str, Fabric], garment: Garment, bands: Bands,
            task: Task, names: Names) -> Iterator[Task]:
    there = [band for role in task.roles for band in bands.get(role, ())]
    if not there and task.waits and EdgeRole.NECK in task.roles:
        yield replace(task, kind=TaskKind.SEW_NECK)
        return
    own = [replace(task, name=band_task(band.key), bands=(_name_of(fabrics, band),),
                   half=KINDS[band.kind].meets, tops=_tops(fabrics, bands, band),
                   needs=(*task.needs, *_ends_taken(spec, bands,
                                                    band))) for band in there]
    own += _at_fronts(spec, fabrics, garment, bands, task)
    names[task.name] = tuple(one.name for one in own) or task.needs
    yield from own


def _named(fabrics: Mapping[str, Fabric], bands: Bands, *roles: EdgeRole | None
          ) -> tuple[NamedBand, ...]:
    return tuple(_name_of(fabrics, band) for role in roles for band in bands.get(role, ()))


def _name_of(fabrics: Mapping[str, Fabric], band: Band) -> NamedBand:
    kind = KINDS[band.kind]
    return NamedBand(band.key, band.title, role_of(band.garment_edge),
                     hides=band.stitches_in * (kind.doubled or kind.faces),
                     stitches_in=band.stitches_in, faces=bool(kind.faces), layers=kind.layers,
                     rolls=rolls(fabrics, band), lengthwise=kind.lengthwise)


def _tops(fabrics: Mapping[str, Fabric], bands: Bands, band: Band) -> tuple[NamedBand, ...]:
    """The bands over whose tops a neckband runs."""
    if role_of(band.garment_edge) is not EdgeRole.NECK:
        return ()
    fronts = (EdgeRole.FRONT,) * KINDS[band.kind].meets
    return _named(fabrics, bands, EdgeRole.PLACKET, *fronts)


def _ends_taken(spec: GarmentSpec | None, bands: Bands, band: Band) -> Iterator[str]:
    """The tasks of the bands over whose ends or tops a band runs: `band_order.whole_edge`."""
    role = role_of(band.garment_edge)
    if role is EdgeRole.NECK and KINDS[band.kind].meets:
        yield from (band_task(front.key) for front in bands.get(EdgeRole.FRONT, ()))
    if role is EdgeRole.FRONT and not ends_at_tops(spec):
        yield from (band_task(neck.key) for neck in bands.get(EdgeRole.NECK, ())
                    if KINDS[neck.kind].stands and not KINDS[neck.kind].meets)


def _at_fronts(spec: GarmentSpec | None, fabrics: Mapping[str, Fabric], garment: Garment,
               bands: Bands, task: Task) -> Iterator[Task]:
    """What is sewn to the bands of two fronts once they are worked."""
    if EdgeRole.FRONT not in task.roles:
        return
    fronts = bands.get(EdgeRole.FRONT, ())
    both = tuple(band_task(band.key) for band in (*bands.get(EdgeRole.NECK, ()), *fronts))
    if fronts and ends_at_tops(spec) and any(
            KINDS[neck.kind].stands and not KINDS[neck.kind].meets
            for neck in bands.get(EdgeRole.NECK, ())):
        yield Task(kind=TaskKind.ENDS_TO_TOPS, name="ends to tops", needs=both,
                   bands=_named(fabrics, bands, EdgeRole.NECK, EdgeRole.FRONT),
                   row=_neck_begins(garment))
    zipped = [band for band in chain.from_iterable(bands.values()) if band.zip]
    if zipped:
        yield Task(kind=TaskKind.ZIP, name="zip",
                   bands=tuple(_name_of(fabrics, band) for band in zipped),
                   needs=tuple(dict.fromkeys((*(band_task(band.key) for band in zipped), *both))))


def _neck_begins(garment: Garment) -> int:
    """What the row counter showed where the neck of two fronts begins: their rows above the hem."""
    hem = next(piece.hem for piece in garment.pieces if FRONTS.get(piece.key))
    edge = next(edge for key, edge in garment.edges.items() if role_of(key) is EdgeRole.FRONT)
    return edge.sections[-1].places - (hem.rows_to_join if hem else 0)


def _with_own(fabrics: Mapping[str, Fabric], tasks: list[Task], bands: Bands) -> list[Task]:
    """The tasks, before the darning the bands on edges that the source describes."""
    own = [Task(kind=TaskKind.BAND, name=band_task(band.key), needs=(tasks[0].name,),
                bands=(_name_of(fabrics, band),)) for band in bands.get(None, ())]
    at = next(n for n, task in enumerate(tasks) if task.kind is TaskKind.DARN)
    return [*tasks[:at], *own, *tasks[at:]]


def takes(bands: Mapping[str, Band], garment: Garment, task: Task) -> tuple[str, ...]:
    """Return the names of what a task takes off waste yarn, each once."""
    match task.kind:
        case TaskKind.BAND:
            edges = [bands[band.key].garment_edge for band in task.bands]
        case TaskKind.SEW_NECK:
            edges = [NECK]
        case TaskKind.SHOULDERS:
            return tuple(_shoulders(garment, task, Seam.SHOULDER))
        case TaskKind.STRAPS:
            return tuple(_shoulders(garment, task, Seam.STRAP))
        case TaskKind.SEW_OFF | TaskKind.DRAW_UP | TaskKind.DRAW_LOWER:
            return tuple(name for piece in garment.pieces if piece.key in task.pieces
                         for name in ((piece.lower_edge,) if task.lower else piece.waits))
        case _:
            return ()
    return tuple(dict.fromkeys(section.waits for edge in edges if edge in garment.edges
                               for section in garment.edges[edge].sections if section.waits))


def _shoulders(garment: Garment, task: Task, seam: Seam) -> Iterator[str]:
    """The shoulders of back and fronts that wait for the seams of a task."""
    for piece in garment.pieces:
        half = FRONTS.get(piece.key)
        for side in (half,) if half else (Side.RIGHT, Side.LEFT):
            if task.closes(Sewn(seam, side, piece.key)):
                named = shoulder_of(piece.key, side)
                yield from (name for name in piece.waits if name == named)


def _knitted(garment: Garment) -> Iterator[Task]:
    """Every piece; a pocket's lining is hung on the fronts that have the pockets."""
    fronts = tuple(piece_task(piece.key) for piece in garment.pieces if piece.pockets)
    for piece in garment.pieces:
        yield Task(kind=TaskKind.KNIT, name=piece_task(piece.key), pieces=(piece.key,),
                   needs=fronts if piece.key == LINING else ())


def _after(tasks: Sequence[Task], knitted: Sequence[Task]) -> Iterator[Task]:
    """The tasks: what needs no other needs the pieces; the last one and the darning need all that
    stand before them.

    An edge is sewn off its waste yarn before the piece is blocked.
    """
    sewn_off = tuple(task.name for task in tasks if task.kind is TaskKind.SEW_OFF)
    pieces = tuple(task.name for task in knitted)
    for n, task in enumerate(tasks):
        if task is tasks[-1] or task.kind is TaskKind.DARN:
            needs = tuple(other.name for other in tasks[:n])
        elif task.kind is TaskKind.BLOCK:
            needs = (*pieces, *sewn_off)
        else:
            needs = task.needs or (tuple(map(piece_task, task.pieces)) or pieces)
        yield replace(task, needs=needs)
