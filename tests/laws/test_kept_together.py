"""A figure and its unit stay on one line, and so do the needles of a range.

International System of Units, brochure of the BIPM, 9th edition, 5.4.3 (from memory): a space
stands between a number and its unit, which are one quantity.
"""

from __future__ import annotations

import pytest
from walebook.markup.kept_together import kept_together

_ = "\u00a0"


@pytest.mark.parametrize(("text", "kept"), [
    ("Buttons: 18 mm (about 28 ligne).", f"Buttons: 18{_}mm (about 28{_}ligne)."),
    ("986 yd in all, 10 × 100 g", f"986{_}yd in all, 10 × 100{_}g"),
    ("240 m to 100 g", f"240{_}m to 100{_}g"),
    ("5.4 cm (2⅛ in)", f"5.4{_}cm (2⅛{_}in)"),
    ("at dial 7, then Dial 4", f"at dial{_}7, then Dial{_}4"),
    ("from L20 to R19", f"from L20{_}to{_}R19"),
    # no unit, or no figure before it
    ("18 more rows, 3 glass buttons", "18 more rows, 3 glass buttons"),
    ("the yd and the g", "the yd and the g"),
    ('<a title="986 yd">986 yd</a>', f'<a title="986 yd">986{_}yd</a>')])
def test_no_line_ends_between_a_figure_and_its_unit(text: str, kept: str) -> None:
    assert kept_together(text) == kept
