"""The stitches of yarn as products, for the workbook: of pieces and bands that are straight.

The bed counts them stitch by stitch. Where a piece or band is as wide in every row, its stitches
times its rows are another way to the same figure, which follows the inputs.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator

from ..core.branched import Branched
from ..core.expression import Expression, Sum, Term, plain
from ..core.operands import Role
from ..core.yarn_parts import ShareRole
from ..proof.proof import SizeProof
from ..proof.rows_counted import counts_like, summed_rows
from ..proof.yarn_requirement import YarnRequirement
from ..proof.yarn_shares import YarnShare, free_key
from .sheet_pieces import Named
from .shown_counts import edges_of

_LAST = 1  # row of a band beside those of its depth: the one that closes it


def yarn_counts(requirements: Iterable[YarnRequirement], bands: Collection[str], size: SizeProof
                ) -> Iterator[Named]:
    """Yield the counts of each yarn that a size takes: name, unit, expression; `bands` are the keys
    of the pattern's."""
    straight = dict(_pieces(bands, size)) | dict(_bands(size))
    for needed in requirements:
        for n, (name, count) in enumerate(needed.counts):
            made = count.made
            one = _whole_share(needed, n)
            if one and (product := straight.get(one.key)) and product.value == made.value:
                made = Branched(made, product)
            yield f"{needed.yarn.key} {name}", count.unit.value, made


def _whole_share(needed: YarnRequirement, n: int) -> YarnShare | None:
    """The share that a count is the stitches of, where it is all of its piece or band."""
    one = needed.parts[n] if n < len(needed.parts) else None
    return one if one and one.part.role is ShareRole.ALL else None


def _pieces(bands: Collection[str], size: SizeProof) -> Iterator[tuple[str, Expression]]:
    """The stitches of the pieces whose edges nothing shapes, all times they are knitted."""
    garment = size.assembled.garment if size.assembled else None
    for knitted in size.pieces if garment else ():
        piece = knitted.piece
        assert garment is not None
        made = summed_rows(garment.form, piece.key, counts_like(garment, piece.key))
        if not made or any(edge.changes for edge in edges_of(piece).values()):
            continue
        rows = Sum(tuple(made)) if len(made) > 1 else made[0]
        product = Term(piece.stitches.made, Role.STITCHES) * rows
        times = garment.times.get(piece.key, 1)
        yield free_key(piece.key, "piece", bands), \
            plain(times) * product if times > 1 else product


def _bands(size: SizeProof) -> Iterator[tuple[str, Expression]]:
    """The stitches of the bands, of a single layer without a mitre: those of all strips in each
    row."""
    for plan in size.plans:
        strips = [strip.plan for strip in size.strips if plan.knits(strip.plan)]
        rows = Term(plan.depth.made, Role.ROWS) + plain(_LAST)
        wide = tuple(Term(strip.stitches.made, Role.STITCHES) for strip in strips)
        if not wide:
            continue
        product = (wide[0] if len(wide) == 1 else Sum(wide)) * rows
        times = plan.edge_path.times
        yield plan.band.key, plain(times) * product if times > 1 else product
