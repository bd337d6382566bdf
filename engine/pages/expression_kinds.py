"""The kinds of calculation there are: what JSON calls each, how it is made, and its formula.

`expression_json.py` writes by this table, `expression_read.py` reads by it, and `sheet_formulas.py`
computes by it: a new kind of calculation is one line here.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from ..core.expression import (
    Difference,
    Expression,
    Opposite,
    Product,
    Quotient,
    Stepped,
    Sum,
)
from ..core.roots import Along, Hypotenuse, NearestRoot, Root
from ..machine.records import dataclass

PLACES = 9  # to which a figure is rounded before a half is decided: binary fractions are not exact
ANY = 0  # number of parts


@dataclass(frozen=True, slots=True)
class CalculationKind:
    """A kind of calculation: its name in JSON, of how many parts it is made (`ANY` of one or more),
    and the formula over the texts of their cells."""

    name: str
    parts: int
    formula: Callable[[Sequence[str]], str]


CALCULATIONS: Mapping[type[Expression], CalculationKind] = {
    Sum: CalculationKind("sum", ANY, lambda texts: f"({'+'.join(texts)})"),
    Product: CalculationKind("product", ANY, lambda texts: f"({'*'.join(texts)})"),
    Difference: CalculationKind("difference", 2, lambda texts: f"({texts[0]}-{texts[1]})"),
    Quotient: CalculationKind("quotient", 2, lambda texts: f"({texts[0]}/{texts[1]})"),
    Opposite: CalculationKind("opposite", 1, lambda texts: f"(-{texts[0]})"),
    Stepped: CalculationKind("to a step", 2, lambda texts:
                             f"(INT(ROUND({texts[0]}/{texts[1]}+0.5,{PLACES}))*{texts[1]})"),
    Hypotenuse: CalculationKind("slope", 2,
                                lambda texts: f"ROUND(SQRT({texts[0]}^2+{texts[1]}^2),3)"),
    Along: CalculationKind("along", ANY, lambda texts: "ROUND(" + "+".join(
        f"{texts[at]}*SQRT({texts[at + 1]}^2+{texts[at + 2]}^2)"
        for at in range(0, len(texts), 3)) + ",3)"),
    NearestRoot: CalculationKind("nearest root", 1, lambda texts:
                                 f"INT(ROUND(SQRT({texts[0]})+0.5,{PLACES}))"),
    Root: CalculationKind("root", 1, lambda texts: f"ROUND(SQRT({texts[0]}),3)"),
}
_BY_NAME: Mapping[str, type[Expression]] = {
    kind.name: made for made, kind in CALCULATIONS.items()}


def calculation(name: str, parts: Sequence[Expression]) -> Expression | None:
    """Return the calculation that JSON calls so, of its parts; None where there is none so called.

    Raises TypeError for another number of parts than it has.
    """
    made: Callable[..., Expression] | None = _BY_NAME.get(name)
    if made is None:
        return None
    if CALCULATIONS[_BY_NAME[name]].parts == ANY:
        return made(tuple(parts))
    return made(*parts)
