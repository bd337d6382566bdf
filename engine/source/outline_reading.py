"""The pieces of an own outline, described by points in measures, and the joins of their edges.

    pieces:
      bag:
        width: bag_width
        height: bag_height
        sides: [{height: bag_height, width: bag_top}]
    joins:
      - {sew: bag.left, to: bag.right}
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from typing import Any

from ..catalogue.forms import Construction
from ..core.text import clip, series, suggest
from ..forms.registry import FORMS, Form, outlined
from ..pattern.outlines import (
    NO_OUTLINE,
    EdgeOf,
    Going,
    OutlineJoin,
    OutlinePiece,
    OutlinePoint,
    OutlineSpec,
    OwnShortRows,
)
from ..pattern.short_rows import Turning
from ..sizing.charts import Chart
from .fields import Fields, open_fields
from .keys.garment_keys import GarmentKeys
from .keys.key import Key
from .keys.outline_keys import TAKEN, OwnJoinKeys, OwnPieceKeys, OwnShortRowKeys, PointKeys
from .measure_reading import plain
from .slope_reading import slope_spec
from .values import Entry


def read_outline(garment: Fields, form: Form | None, chart: Chart | None,
                 measures: Collection[str], sizes: tuple[str, ...]
                 ) -> tuple[Form | None, OutlineSpec]:
    """The form with the counts of the pieces given, which stand under `pieces`, and these with the
    joins under `joins`; their measures are the chart's, or the designer's `measures`."""
    if form is None or form.construction is not Construction.OUTLINE:
        _refuse_elsewhere(garment, form)
        return form, NO_OUTLINE
    spec = _outline(garment, {*measures, *(plain(row) for row in chart.rows)}
                    if chart else measures, sizes)
    return outlined(form, spec), spec


def _outline(garment: Fields, known: Collection[str], sizes: tuple[str, ...]) -> OutlineSpec:
    """The pieces and joins; nothing where one has a fault."""
    given = list(garment.each(GarmentKeys.pieces, needed=True))
    pieces = [_piece(garment, entry, known, sizes) for entry in given]
    whole = tuple(piece for piece in pieces if piece is not None)
    labels = [plain(entry.label) for entry in given]
    joins = [_join(garment, entry, labels, whole) for entry in garment.each(GarmentKeys.joins)]
    found = tuple(join for join in joins if join is not None)
    if not given or len(whole) < len(given) or len(found) < len(joins):
        return NO_OUTLINE
    _place_by_key(garment, given)
    _check_once(garment, found, {piece.key: piece.times for piece in whole})
    return OutlineSpec(whole, found)


def _place_by_key(garment: Fields, given: Iterable[Entry]) -> None:
    """Note where each piece stands under its key too, where that is not as its name is written."""
    places = garment.findings.places
    for entry in given:
        if (key := plain(entry.label)) != entry.label:
            path = entry.path.removesuffix(entry.label) + key
            places |= {path + one.removeprefix(entry.path): place for one, place in places.items()
                       if one == entry.path or one.startswith(f"{entry.path}.")}


def _refuse_elsewhere(garment: Fields, form: Form | None) -> None:
    able = ", ".join(name for name, one in FORMS.items()
                     if one.construction is Construction.OUTLINE)
    for key in (GarmentKeys.pieces, GarmentKeys.joins) if form else ():
        if key.name in garment:
            garment.findings.fault("not-of-form", garment.table.entries[key.name].place,
                                   f"{key.name} in a {form.name if form else ''}",
                                   f"them in an {able}", "Delete them, or choose that form.")


def _piece(garment: Fields, entry: Entry, known: Collection[str], sizes: tuple[str, ...]
           ) -> OutlinePiece | None:
    own = open_fields(garment.findings, entry, f'the piece "{clip(entry.label)}"', OwnPieceKeys)
    if own is None:
        return None
    if entry.label.replace("_", " ").replace("-", " ") in TAKEN:
        own.findings.fault("bad-name", entry.place, f'a piece called "{clip(entry.label)}"',
                           f"any name but {series(TAKEN)}: Walebook has these for parts of other "
                           "garments", "Write another, such as front right. Its title can be any.")
        return None
    width, height = (_measure(own, key, known) for key in (OwnPieceKeys.width,
                                                           OwnPieceKeys.height))
    alike = not ("left" in own or "right" in own)
    if not alike and "sides" in own:
        other = OwnPieceKeys.left if "left" in own else OwnPieceKeys.right
        own.refuse_both(OwnPieceKeys.sides, other, "sides, or left and right")
        return None
    first = OwnPieceKeys.sides if alike else OwnPieceKeys.left
    left, right = (_points(own, key, known, sizes) for key in (first, OwnPieceKeys.right))
    short = _short_rows(own, known)
    if width is None or height is None or left is None or right is None or short is None:
        return None
    title = own.get(OwnPieceKeys.title) or entry.label[:1].upper() + entry.label[1:]
    return OutlinePiece(key=plain(entry.label), title=title, width=width, height=height, left=left,
                        right=right, alike=alike, top=own.get(OwnPieceKeys.top),
                        times=own.get(OwnPieceKeys.times), short_rows=short)


def _short_rows(piece: Fields, known: Collection[str]) -> tuple[OwnShortRows, ...] | None:
    """The short rows of a piece; None where one of them has a fault."""
    found: list[OwnShortRows | None] = []
    for entry in piece.each(OwnPieceKeys.short_rows):
        own = open_fields(piece.findings, entry, "short rows", OwnShortRowKeys)
        if own is None:
            return None
        height, middle = (_measure(own, key, known) for key in (OwnShortRowKeys.height,
                                                                OwnShortRowKeys.middle))
        turning, extra = own.get(OwnShortRowKeys.rows), own.get(OwnShortRowKeys.extra)
        whole = _has_extra(own, turning, known) and _has_part(own, turning, known)
        found.append(OwnShortRows(height=height, middle=middle, turning=turning, extra=plain(extra),
                                  times=own.get(OwnShortRowKeys.times),
                                  over=plain(own.get(OwnShortRowKeys.over)),
                                  beside=own.get(OwnShortRowKeys.beside))
                     if height and middle and whole else None)
    sound = tuple(one for one in found if one is not None)
    return sound if len(sound) == len(found) else None


def _has_part(own: Fields, turning: Turning, known: Collection[str]) -> bool:
    """True where short rows have `over` as they need it, or not; what is wrong is recorded."""
    if "over" not in own:
        return True
    if turning is not Turning.BOTH:
        own.findings.fault("two-answers", own.at(OwnShortRowKeys.over),
                           f"over beside rows: {turning.value}",
                           f"over with rows: {Turning.BOTH.value} alone",
                           "Delete over: they are then held at both edges. Or delete rows and "
                           "extra.")
        return False
    return _measure(own, OwnShortRowKeys.over, known) is not None


def _has_extra(own: Fields, turning: Turning, known: Collection[str]) -> bool:
    """True where short rows have `extra` as they need it; what is wrong is recorded."""
    given = "extra" in own
    if turning is Turning.BOTH and given:
        own.findings.fault("two-answers", own.at(OwnShortRowKeys.extra),
                           f"extra beside rows: {Turning.BOTH.value}",
                           "no extra: a needle goes every row there, so that middle says how many "
                           "rows there are", "Delete extra, or write rows: shorter.")
        return False
    return turning is Turning.BOTH or _measure(own, OwnShortRowKeys.extra, known) is not None


def _points(piece: Fields, key: Key[Any], known: Collection[str], sizes: tuple[str, ...]
            ) -> tuple[OutlinePoint, ...] | None:
    """The corners under a key; None where one has a fault."""
    found, seen = list[OutlinePoint | None](), set[str]()
    for entry in piece.each(key):
        own = open_fields(piece.findings, entry, "a corner", PointKeys)
        if own is None:
            return None
        height, width = (_measure(own, each, known) for each in (PointKeys.height,
                                                                 PointKeys.width))
        name = plain(own.get(PointKeys.name_))
        if name in seen:
            own.findings.fault("duplicate-key", own.at(PointKeys.name_),
                               f'a second part of the edge called "{clip(name)}"',
                               "a name for each", "Rename one of the two.")
        seen |= {name} - {""}
        if "by" in own and "slope" in own and own.get(PointKeys.by) is Going.STEPS:
            own.refuse_both(PointKeys.by, PointKeys.slope, "steps, or a slope with its rows")
        slope = own.opened(PointKeys.slope, "the slope of a corner")
        found.append(OutlinePoint(
            height=height, width=width, stretch=name, by=own.get(PointKeys.by),
            slope=slope_spec(slope, sizes) if slope else None) if height and width else None)
    whole = tuple(point for point in found if point is not None)
    return whole if len(whole) == len(found) else None


def _measure(own: Fields, key: Key[str], known: Collection[str]) -> str | None:
    """The name of a measure that there is, as sums write it."""
    name = own.need(key)
    if name is None or plain(name) in known:
        return plain(name) if name else None
    expected, remedy = suggest(plain(name), dict.fromkeys(known),
                               "Give it under measures, or use one of these.")
    own.findings.fault("unknown-measure", own.at(key), f'no measure called "{clip(name)}"',
                       expected, remedy)
    return None


def _join(garment: Fields, entry: Entry, labels: Collection[str],
          pieces: tuple[OutlinePiece, ...]) -> OutlineJoin | None:
    own = open_fields(garment.findings, entry, "a join", OwnJoinKeys)
    if own is None:
        return None
    sides = [(key, own.need(key)) for key in (OwnJoinKeys.sew, OwnJoinKeys.to)]
    wrong = [fault for key, edges in sides for edge in edges or ()
             for fault in _unknown(edge, labels, pieces, own, key)]
    (_, one), (_, other) = sides
    if wrong or one is None or other is None:
        return None
    return OutlineJoin(one=one, other=other, ease=own.get(OwnJoinKeys.ease))


def _unknown(edge: EdgeOf, labels: Collection[str], pieces: tuple[OutlinePiece, ...], own: Fields,
             key: Key[Any]) -> Iterator[str]:
    """Yield an edge that there is not, once it is recorded."""
    named = {piece.key: piece for piece in pieces}
    if edge.piece not in labels:
        found, known, remedy = f'no piece called "{clip(edge.piece)}"', labels, "Use one of these."
    elif edge.stretch and edge.piece in named:
        points = named[edge.piece].points(edge.side) if edge.side.is_upright else ()
        known = [point.stretch for point in points if point.stretch]
        if edge.stretch in known:
            return
        found = f'no part "{clip(edge.stretch)}" of {edge.piece}.{edge.side.value}'
        remedy = "Name a corner so, or leave it out for the whole edge."
    else:
        return
    expected, mending = suggest(edge.stretch or edge.piece, dict.fromkeys(known), remedy)
    own.findings.fault("unknown-name", own.at(key), found, expected, mending)
    yield edge.key


def _check_once(garment: Fields, joins: tuple[OutlineJoin, ...], times: Mapping[str, int]) -> None:
    """Record an edge that more joins take than there are of its piece, whole or in parts."""
    seen: list[EdgeOf] = []
    for number, join in enumerate(joins):
        for edge in join.edges:
            twins = [one for one in seen if (one.piece, one.side) == (edge.piece, edge.side)
                     and (one.stretch == edge.stretch or "" in (one.stretch, edge.stretch))]
            if len(twins) >= times[edge.piece]:
                garment.findings.fault(
                    "joined-twice", garment.findings.places[f"{garment.path}.joins.{number}"],
                    f"{edge.key}, where {twins[-1].key} is sewn already", "each edge in one join",
                    "Name parts of the edge by their corners, or delete one of the joins.")
            seen.append(edge)
