"""The trade's units as exact fractions, written by `python -m tests.against.units_from_pint`."""

from fractions import Fraction as _F

LENGTHS = {
    "mm": _F(1, 1),
    "cm": _F(10, 1),
    "m": _F(1000, 1),
    "in": _F(127, 5),
    "inch": _F(127, 5),
    "inches": _F(127, 5),
    '"': _F(127, 5),
    "″": _F(127, 5),
    "”": _F(127, 5),
    "yd": _F(4572, 5),
    "yard": _F(4572, 5),
    "yards": _F(4572, 5),
    "ligne": _F(127, 200),
    "lignes": _F(127, 200),
}
"""The length of each unit [mm]."""

MASSES = {
    "g": _F(1, 1),
    "kg": _F(1000, 1),
    "oz": _F(45359237, 1600000),
    "lb": _F(45359237, 100000),
}
"""The mass of each unit [g]."""

DENSITIES = {
    "tex": _F(1, 1),
    "dtex": _F(1, 10),
    "den": _F(1, 9),
    "denier": _F(1, 9),
}
"""What a count of 1 is [tex, g/km], for counts that are mass by length."""

YIELDS = {
    "Nm": _F(1000, 1),
    "Ne": _F(32399455, 54864),
    "cotton": _F(32399455, 54864),
    "NeL": _F(45359237, 27432),
    "linen": _F(45359237, 27432),
    "worsted": _F(32399455, 36576),
    "yards per pound": _F(1133980925, 2286),
    "metres per gram": _F(1000, 1),
}
"""What a count of 1 is [tex, g/km], for counts that are length by mass."""
