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
    head = (words.SHAPED_EDGE, "", "", *sizes)
    found: dict[str, dict[str, str]] = {}
    for size in proof.sizes:
        for name, shaped in _shaped(size):
            found.setdefault(name, {})[size.size] = shaped
    rows = [tuple(SheetCell(text, Look.HEAD) for text in head)]
    for name, by_size in found.items():
        rows.append((SheetCell(name), SheetCell(), SheetCell(),
                     *(SheetCell(by_size.get(size, "")) for size in sizes)))
    return with_remarks(Sheet(words.SHAPING, tuple(rows)), remarks)


def _shaped(size: SizeProof) -> Iterator[tuple[str, str]]:
    for knitted in size.pieces:
        for name, edge in edges_of(knitted.piece).items():
            if edge.changes:
                yield f"{knitted.piece.title}, {name}", edge_shaped(edge)
    for plan in size.plans:
        yield f"{plan.band.title}, {ROWS_TAKEN}", rows_taken_shown(plan.pick_up)
