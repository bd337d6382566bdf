"""The ways of a garment's pieces: the designer's where they fit, and what they add by hand."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from ..catalogue.methods import (
    BIND_OFFS,
    BY_HAND,
    CAST_ONS,
    DRAWN,
    SEWN,
    SHOULDERS,
    SPREAD_TOPS,
    TOPS,
    WASTE_ON,
    Give,
    Method,
    separate_end,
)
from ..core.edge_parts import SectionDetail
from ..core.problems import Problem, Severity, error, note
from ..core.text import clip, suggest
from ..core.text_kinds import FindingText, TaskKey
from ..core.units import Length
from ..forms.registry import FORMS
from ..machine.records import dataclass
from ..pattern.edges import Offer
from ..pattern.fabrics import NeedleBed
from ..pattern.model import Band, GarmentSpec, Pattern
from ..pattern.places import Places
from ..shape.edge_path import EdgePath
from ..shape.garment import Garment, Join, Kindred
from ..shape.openings import Ending
from ..shape.piece import Piece
from ..shape.ribs import Rib
from ..shape.tasks import Seam, Task, TaskKind
from ..words.terms.waiting_names import HALF_TOPS, tops_of
from .edge_reach import idle_stretch, sewing_end, too_long, too_narrow, too_short

JOINS = "shoulders"  # what a source calls the joins of edges that wait with as many stitches
LOWER_EDGES: Mapping[str, str] = {"brim": "hat", "cuff": "hand"}  # edges that are a piece's first


@dataclass(frozen=True, slots=True)
class _Place:
    """Somewhere a way can be chosen: for the piece `key`, among the ways that it `takes`."""

    key: str
    takes: tuple[Method, ...]
    why: FindingText = ""


def with_methods(pattern: Pattern, spec: GarmentSpec, garment: Garment
             ) -> tuple[Garment, tuple[Problem, ...]]:
    """Return the garment with the ways that were asked for, and every request that does not fit.

    What a way leaves on waste yarn is closed by hand, a task that counts it.
    """
    on, faults = _chosen(pattern.places, "cast_on", spec.cast_on,
                         [_beginning(p) for p in garment.pieces])
    off, more = _chosen(pattern.places, "bind_off", spec.bind_off, _endings(garment))
    if faults or more:
        return garment, (*faults, *more)
    off |= {p.key: SPREAD_TOPS[0].name for p in garment.pieces
            if p.bound_off_to and p.key not in off}
    chosen = {key: BIND_OFFS[method] for key, method in off.items()}
    unfit = (*too_short(pattern, spec, garment, chosen), *too_long(pattern, garment, chosen),
             *idle_stretch(pattern.places, spec, garment, chosen))
    pieces = tuple(_piece_with_methods(p, on, off) for p in garment.pieces)
    garment = replace(garment,
                      tasks=tuple(_with_end(pattern.bed, pieces, t) for t in garment.tasks))
    by_hand = [task for p in pieces for task in _by_hand(pattern.bands, pattern.bed, garment, p)]
    garment = replace(garment, pieces=pieces, tasks=(*by_hand, *garment.tasks),
                      edges={key: _open(key, edge_path, on) for key,
                             edge_path in garment.edges.items()})
    if any(map(_is_shoulder, garment.joins)):
        method = off.get(JOINS, SHOULDERS[0].name)
        garment = _joined(garment, BIND_OFFS[method], pattern.bed.pitch)
    return garment, (*unfit, *too_narrow(pattern, garment))


def _beginning(piece: Piece) -> _Place:
    if piece.drawn_below:
        return _Place(piece.key, (), "its first stitches are drawn up, off waste yarn")
    if isinstance(piece.hem, Rib) and not piece.hem.turns_carriage:
        return _Place(piece.key, tuple(method for method in CAST_ONS.values() if not method.waits))
    if piece.hem:
        return _Place(piece.key, (), "a rib on two beds begins with its zigzag row"
                      if piece.hem.fold is None else "a hung hem begins on its waste yarn")
    return _Place(piece.key, tuple(CAST_ONS.values()))


def _endings(garment: Garment) -> list[_Place]:
    shoulders = any(map(_is_shoulder, garment.joins))
    places = [_ending(piece, shoulders) for piece in garment.pieces]
    if shoulders:
        places.append(_Place(JOINS, SHOULDERS))
    return places


def _ending(piece: Piece, shoulders: bool) -> _Place:
    if piece.ends is Ending.BIND_OFF:
        return _Place(piece.key, SPREAD_TOPS if piece.bound_off_to else TOPS)
    if piece.ends is Ending.DRAWN_UP:
        return _Place(piece.key, (), "its last stitches are drawn up")
    where: FindingText = f": write {JOINS} for the way they are joined" if shoulders else ""
    return _Place(piece.key, (), f"its last stitches wait on waste yarn{where}")


def _is_shoulder(join: Join) -> bool:
    return join.kindred is Kindred.STITCHES and join.seam is Seam.SHOULDER \
        and join.one == join.other


# Which way each piece gets


def _chosen(source_places: Places, key: str, written: Mapping[str, str],
            places: Sequence[_Place]) -> tuple[dict[str, str], list[Problem]]:
    """The way of every place that has one, its own before that for all; and what fits nowhere."""
    methods = CAST_ONS if key == "cast_on" else BIND_OFFS
    chosen: dict[str, str] = {}
    faults = []
    if everywhere := written.get(""):
        chosen = {p.key: everywhere for p in places if methods[everywhere] in p.takes}
        if not chosen:
            faults.append(_nowhere(source_places, key, everywhere, places))
    by_key = {p.key: p for p in places}
    for name, method in written.items():
        if not name:
            continue
        if name not in by_key:
            faults.append(_no_piece(source_places, key, name, by_key))
        elif methods[method] not in by_key[name].takes:
            faults.append(_unsuited(source_places, key, method, by_key[name]))
        else:
            chosen[name] = method
    return chosen, faults


def _no_piece(places: Places, key: str, name: str, known: Mapping[str, _Place]
              ) -> Problem:
    expected, remedy = suggest(name, known, "Use one of these.")
    return error("unknown-name", places.of(f"garment.{key}.{name}"),
                 found=f'no piece called "{clip(name)}"', expected=expected, remedy=remedy)


def _unsuited(places: Places, key: str, method: str, place: _Place) -> Problem:
    if not place.takes:
        return error("no-such-way", places.of(f"garment.{key}.{place.key}"),
                     found=f"{method} for the {_plain(place.key)}, where {place.why}",
                     remedy="Leave the line out.")
    return error("no-such-way", places.of(f"garment.{key}.{place.key}"),
                 found=f"{method} for the {_plain(place.key)}",
                 expected=_named(place.takes), remedy="Write one of these.")


def _nowhere(source_places: Places, key: str, method: str, places: Sequence[_Place]
             ) -> Problem:
    taken = tuple(dict.fromkeys(w for p in places for w in p.takes))
    why = "; ".join(f"{_plain(p.key)}: {p.why}" for p in places if p.why)
    return error("no-such-way", source_places.of(f"garment.{key}"),
                 found=f"{method} for all pieces, of which none can have it",
                 expected=_named(taken) if taken else why,
                 remedy="Write one of these." if taken else "Leave the line out.")


def _named(methods: Sequence[Method]) -> str:
    return " or ".join(method.name for method in methods)


def _plain(key: str) -> str:
    return key.replace("_", " ")


def _piece_with_methods(piece: Piece, on: Mapping[str, str], off: Mapping[str, str]) -> Piece:
    """The piece with its ways; a top to be sewn off waits, under a separate name."""
    if method := on.get(piece.key):
        piece = replace(piece, cast_on_method=method)
    if method := off.get(piece.key):
        piece = replace(piece, bind_off_method=method)
        if BIND_OFFS[method].waits:
            tops = tops_of(piece.title, opened=piece.opening is not None,
                           spread=piece.bound_off_to is not None)
            piece = replace(piece, ends=Ending.WASTE, waits=tops, shares=(),
                            halves_worn=HALF_TOPS if piece.opening else None)
    return piece



def _open(key: str, edge_path: EdgePath, on: Mapping[str, str]) -> EdgePath:
    """An edge that a piece began, told as waiting where it began on waste yarn."""
    if on.get(LOWER_EDGES.get(key, "")) != WASTE_ON.name:
        return edge_path
    return replace(edge_path, sections=tuple(
        replace(s, details=(SectionDetail.ALONG_CORD,), offer=Offer.ABOVE_CORD)
        for s in edge_path.sections))


# What is left to be done by hand


def _by_hand(bands: Mapping[str, Band], bed: NeedleBed, garment: Garment, piece: Piece
            ) -> Iterator[Task]:
    """A task for every edge that a way leaves on waste yarn and no band takes.

    The step before the waste yarn left the end that sews a top off. A very wide edge takes
    several ("Swag blanket 3", brunsmachknit.blogspot.com, 2015).
    """
    pitch = bed.pitch
    taken = {LOWER_EDGES.get(b.garment_edge) for b in bands.values()}
    edge = Task(kind=TaskKind.SEW_OFF, name=f"top of {piece.key}", pieces=(piece.key,),
                title=piece.title, each=garment.times.get(piece.key, 1) > 1,
                ladders=piece.leaves_out)
    if piece.bind_off_method == SEWN.name:
        last = top_stitches(piece)
        wide = piece.bound_off_to is not None
        yield replace(edge, stitches=last, opened=bool(piece.opening),
                      until=piece.bound_off_to.length if piece.bound_off_to else None,
                      end=sewing_end(piece, last, pitch) if wide else None)
    waits = CAST_ONS[piece.cast_on_method] is WASTE_ON and not piece.drawn_below
    if waits and piece.key not in taken:
        first = piece.stitches.value
        below: TaskKey = f"lower edge of {piece.key}"
        yield replace(edge, name=below, lower=True, stitches=first,
                      half_at=piece.row_one_ends,
                      end=separate_end(SEWN, pitch.times(first)))


def _with_end(bed: NeedleBed, pieces: Sequence[Piece], task: Task) -> Task:
    """The task of drawing up a lower edge, with its stitches and the separate end that it takes."""
    if task.kind is not TaskKind.DRAW_LOWER:
        return task
    first = next(piece for piece in pieces if piece.key in task.pieces).stitches.value
    return replace(task, stitches=first, end=separate_end(DRAWN, bed.pitch.times(first)))


def top_stitches(piece: Piece) -> int:
    """The stitches at a piece's top, or that of a half above its opening, held ones too."""
    if piece.opening:
        outer, inner = piece.opening.outer, piece.opening.inner
        return piece.half + outer.net + outer.held + inner.net
    return piece.top + piece.left.held + piece.right.held


def _joined(garment: Garment, method: Method, pitch: Length) -> Garment:
    """The garment with its shoulders joined by a `method`: both sides have the same stitches."""
    joins = tuple(replace(j, method=method.name) if _is_shoulder(j) else j for j in garment.joins)
    end = separate_end(method, pitch.times(max(int(j.one) for j in joins if j.method)))
    return replace(garment, joins=joins, tasks=tuple(
        replace(task, method=method.name, end=end) if task.kind is TaskKind.SHOULDERS else task
        for task in garment.tasks))


# What must stretch: common practice, no source


def too_firm(places: Places, spec: GarmentSpec | None, bands: Mapping[str, Band]
            ) -> Iterator[Problem]:
    """Yield a warning for a firm way at a neck that must go over a head, a brim or a cuff."""
    if spec is None:
        return
    edges = FORMS[spec.form].edges
    for band in bands.values():
        closed = band.garment_edge == "neck" and "front_edge" not in edges
        method = BIND_OFFS.get(band.bind_off)
        if method and method.give is Give.FIRM and (closed or band.garment_edge in LOWER_EDGES):
            over = "the head" if closed or band.garment_edge == "brim" else "the hand"
            yield _firm(places, f"bands.{band.key}.bind_off", method, over, SEWN)
    for edge in (edge for edge in LOWER_EDGES if edge in edges and spec.hem is None):
        key = LOWER_EDGES[edge] if LOWER_EDGES[edge] in spec.cast_on else ""
        method = CAST_ONS.get(spec.cast_on.get(key, ""))
        if method and method.give is Give.FIRM:
            yield _firm(places, f"garment.cast_on{f'.{key}' if key else ''}", method,
                        "the head" if edge == "brim" else "the hand", BY_HAND)


def _firm(places: Places, path: str, method: Method, over: str, instead: Method) -> Problem:
    return note(Severity.WARNING, "way-too-firm", places.of(path),
                found=f"{method.name} at an edge that must go over {over}: {method.look}",
                expected="an edge that gives",
                remedy=f"Write {instead.name}, or stretch such an edge of a swatch over {over}.")
