"""Writes the table of units from pint's own values: `python -m tests.against.units_from_pint`.

Pint has no buttonmaker's ligne (40 to the inch, worked example L01; its own is the watchmaker's),
and neither the worsted count nor the linen lea (hanks of 560 and 300 yards to the pound, worked
examples W04 to W06): these three are defined here from what pint has.
"""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pint

TABLE = Path(__file__).parents[2] / "engine" / "core" / "unit_table.py"
# What each table says, its base unit, whether it is one by the unit, and the units by the names
# that sources and messages give them.
TABLES = (
    ("LENGTHS", "The length of each unit [mm].", "millimeter", False, {
        "millimeter": ("mm",), "centimeter": ("cm",), "meter": ("m",),
        "inch": ("in", "inch", "inches", '"', "″", "”"), "yard": ("yd", "yard", "yards"),
        "button_ligne": ("ligne", "lignes")}),
    ("MASSES", "The mass of each unit [g].", "gram", False, {
        "gram": ("g",), "kilogram": ("kg",), "ounce": ("oz",), "pound": ("lb",)}),
    ("DENSITIES", "What a count of 1 is [tex, g/km], for counts that are mass by length.", "tex",
     False, {"tex": ("tex",), "dtex": ("dtex",), "denier": ("den", "denier")}),
    ("YIELDS", "What a count of 1 is [tex, g/km], for counts that are length by mass.", "tex",
     True, {"number_meter": ("Nm",), "number_english": ("Ne", "cotton"),
            "linen_lea": ("NeL", "linen"), "worsted_count": ("worsted",),
            "yard / pound": ("yards per pound",), "meter / gram": ("metres per gram",)}),
)


def registry() -> pint.UnitRegistry:
    """Pint's units as exact fractions, with the three that it lacks."""
    units = pint.UnitRegistry(non_int_type=Fraction)
    units.define("button_ligne = inch / 40")
    units.define("worsted_count = 560 * yard / pound")
    units.define("linen_lea = 300 * yard / pound")
    return units


def values() -> dict[str, dict[str, Fraction]]:
    """Return each table of the module: the value of every name, by pint."""
    units, found = registry(), {}
    for table, _, base, inverse, names in TABLES:
        found[table] = {}
        for unit, aliases in names.items():
            one = units.Quantity(Fraction(1), unit)
            exact = Fraction((1 / one if inverse else one).to(base).magnitude)
            found[table] |= dict.fromkeys(aliases, exact)
    return found


def module() -> str:
    """Return the text of the module that holds the tables."""
    lines = ['"""The trade\'s units as exact fractions, written by `python -m '
             'tests.against.units_from_pint`."""', "", "from fractions import Fraction as _F"]
    found = values()
    for table, said, *_ in TABLES:
        rows = (f"    {_quoted(name)}: _F({value.numerator}, {value.denominator}),"
                for name, value in found[table].items())
        lines += ["", f"{table} = {{", *rows, "}", f'"""{said}"""']
    return "\n".join(lines) + "\n"


def _quoted(name: str) -> str:
    return "'\"'" if name == '"' else f'"{name}"'


if __name__ == "__main__":
    TABLE.write_text(module(), encoding="utf-8")
