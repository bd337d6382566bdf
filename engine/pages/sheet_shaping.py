"""The workbook's sheet of shaping: every edge of every piece in words, all sizes side by side."""

from __future__ import annotations

from collections.abc import Iterator

from ..proof.proof import Proof, SizeProof
from ..words import sheet_text as words
from ..words.moved import ROWS_TAKEN, edge_shaped, rows_taken_shown
from .sheet_remarks import Remarks, with_remarks
from .sheet_values import Look, Sheet, SheetCell
from .shown_counts import edges_of


def shaping(proof: Proof, remarks: Remarks) -> Sheet:
    """Return the sheet: each edge that is shaped in some size, and which rows each band takes."""
    sizes = proof.pattern.sizes
    head = (words.SHAPED_EDGE, "", words.PLACE, *sizes)
    found: dict[str, dict[str, str]] = {}
    homes: dict[str, str] = {}
    for size in proof.sizes:
        for path, name, shaped in _shaped(size):
            found.setdefault(name, {})[size.size] = shaped
            homes[name] = str(proof.pattern.places.of(path))
    rows = [tuple(SheetCell(text, Look.HEAD) for text in head)]
    for name, by_size in found.items():
        rows.append((SheetCell(name), SheetCell(), SheetCell(homes[name]),
                     *(SheetCell(by_size.get(size, "")) for size in sizes)))
    return with_remarks(Sheet(words.SHAPING, tuple(rows)), remarks)


def piece_path(key: str) -> str:
    """Return where the source has a piece: its entry, where the designer outlines it herself."""
    return f"garment.pieces.{key}"


def _shaped(size: SizeProof) -> Iterator[tuple[str, str, str]]:
    """The path in the source of what is shaped, its name and how."""
    for knitted in size.pieces:
        for name, edge in edges_of(knitted.piece).items():
            if edge.changes:
                yield (piece_path(knitted.piece.key), f"{knitted.piece.title}, {name}",
                       edge_shaped(edge))
    for plan in size.plans:
        yield (f"bands.{plan.band.key}", f"{plan.band.title}, {ROWS_TAKEN}",
               rows_taken_shown(plan.pick_up))
