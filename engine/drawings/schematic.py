"""Figures of pieces with their measures: of one size, or of all sizes by letters."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from fractions import Fraction
from string import ascii_uppercase

from ..catalogue.bands import KINDS
from ..core.units import Length
from ..fabric.gauge import measure
from ..fabric.piece_fabrics import piece_fabric
from ..machine.records import dataclass
from ..markup.html import esc, items
from ..pattern.fabrics import Fabric
from ..pattern.model import GarmentSpec
from ..proof.proof import Proof, SizeProof
from ..shape.dimension_names import DimensionKind, DimensionName
from ..shape.outline import outline
from ..shape.polygon import Outline
from ..words import schematic_text as words
from ..words.terms.schedules import times_text
from .dart_drawing import bust_text, darts_text, short_rows_texts
from .dimensions import both, labels_svg, px
from .piece_drawing import Drawing, draw
from .piece_frame import Letters, all_drawn, best_scale, frame_of, tenths
from .pocket_slot_drawing import slot_text

Outlines = Mapping[str, tuple[Outline, ...]]
"""The outlines of a garment's pieces by size."""


def outlines(spec: GarmentSpec | None, fabrics: Mapping[str, Fabric], size: SizeProof
            ) -> tuple[Outline, ...]:
    """Return the outlines of a garment's pieces in one size; none where there is no garment."""
    if size.assembled is None or spec is None:
        return ()
    return tuple(outline(piece, measure(piece_fabric(spec, fabrics, piece.key).swatches))
                 for piece in size.assembled.garment.pieces)


def schematic(piece: Outline, *, prefix: str, scale: Fraction | None = None, times: int = 1,
              letters: Letters | None = None) -> str:
    """Return the figure of one piece with all its measures, `scale` in pixels to the mm.

    Ids begin with `prefix`. With `letters` (by a measure's name) they stand at the lines, and
    the caption says what they mean.
    """
    letters = letters or {}
    drawing = draw(frame_of(piece, 10 * (scale or best_scale([piece], letters)), letters), letters)
    return _figure(piece, drawing, prefix, times, letters)


def _figure(piece: Outline, drawing: Drawing, prefix: str, times: int, letters: Letters) -> str:
    name = esc(piece.title) + (f", knitted {times_text(times)}" if times > 1 else "")
    width, height = px(drawing.width), px(drawing.height)
    return (
        f'<figure class="wb-drawing wb-schematic"><svg viewBox="0 0 {width} {height}" '
        f'width="{width}" height="{height}" role="img" '
        f'aria-labelledby="{prefix}-t" aria-describedby="{prefix}-d">'
        f'<title id="{prefix}-t">{name}, to scale</title>'
        f'<g fill="none" stroke="currentColor">{drawing.lines}</g>'
        f'{labels_svg(drawing.labels)}</svg>'
        f'<figcaption id="{prefix}-d">{_caption(piece, name, letters)}</figcaption></figure>')


def garment_schematic(size: SizeProof, pieces: Sequence[Outline], prefix: str = "schematic"
                      ) -> str:
    """Return the figures of all `pieces` of a garment in one size, all to one scale.

    Nothing where the pattern has no garment.
    """
    if size.assembled is None:
        return ""
    scale = best_scale(pieces)
    drawn = "\n".join(_pieces(pieces, scale, prefix, size.assembled.garment.times))
    return f'{_legend(size)}\n{_on_paper(scale)}\n<div class="wb-schematics">\n{drawn}\n</div>'


def _pieces(pieces: Sequence[Outline], scale: Fraction, prefix: str, times: Mapping[str, int]
            ) -> Iterator[str]:
    """The figures of pieces; one that mirrors another is named with it."""
    shown, names = _without_mirrored(pieces)
    for piece in shown:
        drawing, own = draw(frame_of(piece, 10 * scale, {}), {}), f"{prefix}-{piece.key}"
        yield _figure(replace(piece, title=names[piece.key]), drawing, own,
                      times.get(piece.key, 1), {})


def _mirrors(one: Outline, other: Outline) -> bool:
    """True where one piece is the other as a mirror shows it, with the same measures and short
    rows."""
    return _measures(one) == _measures(other) and list(short_rows_texts(one)) == list(
        short_rows_texts(other)) and \
        {(-x, y) for x, y in one.corners} == set(other.corners)


def _on_paper(scale: Fraction) -> str:
    """How much smaller than the piece a drawing is when printed; `scale` in pixels to the mm.

    A pixel of a style sheet is the 96th part of an inch (CSS Values and Units 3, 5.2).
    """
    ones, tenth = divmod(tenths(Fraction(96) / (Fraction(254, 10) * scale), Fraction(10)), 10)
    smaller = f"{ones}.{tenth}"
    return words.on_paper(smaller)


def _legend(size: SizeProof) -> str:
    """What the drawings show of what the size has."""
    seams = bool(size.assembled and size.assembled.garment.joins)
    feet = [knitted.piece.hem for knitted in size.pieces if knitted.piece.hem]
    return words.legend(seams=seams, bands=bool(size.plans), folded=any(map(words.is_folded, feet)),
                        faced=any(KINDS[plan.band.kind].faces for plan in size.plans),
                        feet=" or ".join(sorted(set(map(words.foot_text, feet)))))


# All sizes at once


@dataclass(frozen=True, slots=True)
class Graded:
    """The pieces of a garment drawn with letters in the middle size, as HTML.

    `measures` are, by the piece's title as HTML, its measures by their letters, each with its
    length in every size; None in a size that has it not.
    """

    figures: str
    measures: Mapping[str, Mapping[tuple[str, str], tuple[Length | None, ...]]]


def graded_schematic(proof: Proof, drawn: Outlines, prefix: str = "graded") -> Graded | None:
    """Return each piece drawn in the middle size, with letters, and what they are in every size.

    `drawn` has the outlines of all sizes. A piece that mirrors another is named with it. None
    where the pattern has no garment.
    """
    middle = proof.sizes[len(proof.sizes) // 2]
    by_size = {size.size: {o.key: o for o in drawn[size.size]} for size in proof.sizes}
    shown, names = _without_mirrored(tuple(by_size[middle.size].values()))
    if not shown:
        return None
    letters = _letters(shown)
    scale = min(best_scale([piece], letters[piece.key]) for piece in shown)
    figures = [schematic(piece, prefix=f"{prefix}-{piece.key}", scale=scale,
                         letters=letters[piece.key])
               for piece in (replace(p, title=names[p.key]) for p in shown)]
    legend = f"{_legend(middle)}\n{words.drawn_in(middle.size)}\n"
    return Graded(
        f'{legend}<div class="wb-schematics">{"".join(figures)}</div>',
        {esc(names[piece.key]): {
            (letter, words.dimension_text(name)): tuple(_length(pieces.get(piece.key), name)
                                  for pieces in by_size.values())
            for name, letter in letters[piece.key].items()} for piece in shown})


def _length(piece: Outline | None, name: DimensionName) -> Length | None:
    found = piece.dimension(name) if piece else None
    return found.length if found else None


def _without_mirrored(pieces: Sequence[Outline]) -> tuple[list[Outline], dict[str, str]]:
    """The pieces to draw, those that another shows left out but named with it."""
    shown: list[Outline] = []
    names: dict[str, str] = {}
    for piece in pieces:
        twin = next((p for p in shown if _mirrors(p, piece)), None)
        if twin is None:
            shown.append(piece)
            names[piece.key] = piece.title
        else:
            same = set(twin.corners) == set(piece.corners)
            names[twin.key] += words.alike(piece) if same else words.mirrored(piece)
    return shown, names


def _measures(piece: Outline) -> tuple[tuple[DimensionName, Length], ...]:
    return tuple((d.name, d.length) for d in piece.dimensions)


def _letters(pieces: Iterable[Outline]) -> dict[str, dict[DimensionName, str]]:
    """A letter for every measure that is drawn, running on from piece to piece."""
    supply = (a + b for a in ("", *ascii_uppercase) for b in ascii_uppercase)
    return {piece.key: {d.name: next(supply) for d in all_drawn(piece)} for piece in pieces}


def _whole(piece: Outline) -> Fraction:
    """The whole height of a piece at its sides [mm]."""
    return next(d.length.mm for d in piece.dimensions if d.name.what is DimensionKind.WHOLE)


# What a caption says


def _caption(piece: Outline, name: str, letters: Letters) -> str:
    """The caption: the piece's name and every measure in words, or what the letters mean."""
    if letters:
        return f"<strong>{name}</strong><span class=\"wb-unseen\">: " + ", ".join(
            f"{letter}\u00a0{words.dimension_text(measure)}"
            for measure, letter in letters.items()) + "</span>"
    named = ((words.dimension_text(d.name), d.length) for d in piece.dimensions)
    measured = [f"{name[0].upper()}{name[1:]}: {both(length)}" for name, length in named]
    if piece.rib:
        measured.append(words.rib_width(both(piece.rib)))
    measured += map(slot_text, piece.slots)
    if piece.darts:
        measured.append(darts_text(piece))
    if piece.bust:
        measured.append(bust_text(piece))
    measured += short_rows_texts(piece)
    if piece.tail:
        measured.append(words.shirt_tail(both(Length(piece.low)), both(Length(
            piece.low + _whole(piece)))))
    return f"<strong>{name}</strong>{items(measured, 'wb-measures')}"


