"""The table of units against pint, and what is said of units that the trade does not use."""

from __future__ import annotations

from fractions import Fraction

import pytest
from walebook.core import unit_table
from walebook.core.foreign_units import dimension_of
from walebook.core.units import (
    UnitError,
    read_length,
    read_mass,
    read_yarn_count,
    yarn_count_in,
)

from tests.against.units_from_pint import TABLE, TABLES, module, registry, values

PINT = registry()
NAMED = [(table, unit, alias, inverse) for table, _, _, inverse, names in TABLES
         for unit, aliases in names.items() for alias in aliases]


def test_the_table_is_as_it_was_written():
    assert TABLE.read_text(encoding="utf-8") == module()
    assert {table: getattr(unit_table, table) for table in values()} == values()


@pytest.mark.parametrize(("table", "unit", "alias", "inverse"), NAMED)
def test_every_name_has_pints_value(table, unit, alias, inverse):
    """Read as an author writes it, three halves of it are what pint makes of them."""
    one = PINT.Quantity(Fraction(3, 2), unit)
    if table == "LENGTHS":
        assert read_length(f"1.5 {alias}").mm == one.to("millimeter").magnitude
    elif table == "MASSES":
        assert read_mass(f"1.5 {alias}") == one.to("gram").magnitude
    else:
        tex = (1 / one if inverse else one).to("tex").magnitude
        assert yarn_count_in(tex, alias) == Fraction(3, 2)
        if " " not in alias:
            assert read_yarn_count(f"1.5 {alias}") == tex


@pytest.mark.parametrize(("text", "found", "remedy"), [
    ("3 month", '"3 month", which is time', ""),
    ("3 oz", '"3 oz", which is mass', ""),
    ("3 centimetre", '"3 centimetre"', "Write cm."),
    ("3 milimeters", '"3 milimeters"', "Write mm."),
    ("3 wibble", '"3 wibble"', ""),
])
def test_a_unit_that_is_not_in_the_table_is_told_by_what_it_measures(text, found, remedy):
    with pytest.raises(UnitError) as told:
        read_length(text)
    assert (told.value.found, told.value.remedy) == (found, remedy)


@pytest.mark.parametrize("unit", ["month", "ounce", "km", "button_ligne", "worsted_count"])
def test_a_foreign_units_dimension_is_pints(unit):
    assert dimension_of(unit) == str(PINT.Unit(unit).dimensionality)
