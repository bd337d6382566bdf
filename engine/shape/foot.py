"""What a piece begins with, other than a plain cast-on: a hem or a rib."""

from __future__ import annotations

from dataclasses import field
from fractions import Fraction

from ..core.expression import Expression, Operand, Term
from ..core.operands import Role
from ..machine.records import dataclass
from ..machine.steps import Dial
from ..pattern.model import Fold
from .ribs import Rib


@dataclass(frozen=True, slots=True, kw_only=True)
class Hem:
    """A hem hung on the bed: `rows` a layer [rows] at `dial`, folded by `fold`.

    `row` is the height of its rows [mm] where the hem's dial was swatched, else the piece's;
    `joining` the dial of the row that joins it, None for one number looser than the piece's.
    `eyelets` lie on the middle row of the outer layer, so many stitches from the left end of a
    piece that is not mirrored. `made` is how its rows are counted.
    """

    rows: int
    dial: Dial
    fold: Fold
    row: Fraction | None = None
    joining: Dial | None = None
    eyelets: tuple[int, ...] = ()
    made: Expression | None = field(default=None, compare=False)

    @property
    def height(self) -> int:
        """Rows of the finished hem: one layer, and what closes it, with picots a row more."""
        return self.rows + self.rows_to_join

    @property
    def rows_to_join(self) -> int:
        """The rows between the hem and row 0: the one that closes it, with picots one more."""
        return 2 if self.fold is Fold.PICOT else 1

    def depth(self, row: Fraction) -> Fraction:
        """The finished height [mm], where a row of the piece is `row` high."""
        return self.rows * (self.row or row) + self.rows_to_join * row

    def tried(self, row: Fraction) -> Fraction:
        """The height from the fold to the top of the joining row [mm], as a trial measures it."""
        return self.rows * (self.row or row) + row

    @property
    def turns_carriage(self) -> bool:
        """True where an odd number of rows is knitted before row 0: of every hem, both folds."""
        return True

    def knitted(self, across: int) -> int:
        """Return the stitches knitted at its dial below a piece of so many [stitches]."""
        return across * (2 * self.rows + (0 if self.fold is Fold.PICOT else 1))


Foot = Hem | Rib  # what a piece begins with, other than a plain cast-on


def layer_of(foot: Foot, role: Role, name: str = "") -> Operand | Term:
    """Return the rows of a layer of a hem or rib as an operand: the count of them."""
    if foot.made is None:
        return Operand(Fraction(foot.rows), role, name)
    return Term(foot.made, role, name)


def height_of(foot: Foot, name: str) -> Term:
    """Return the rows that a hem or rib adds to an edge: a layer, and what closes it."""
    what = "rib" if isinstance(foot, Rib) else "hem"
    made: Expression = layer_of(foot, Role.HEM_ROWS, what)
    if foot.rows_to_join:
        made += Operand(Fraction(foot.rows_to_join), Role.JOINING, what)
    return Term(made, Role.HEM_ROWS, name)
