"""How the value of a key is spelt, as a JSON Schema: what an editor can say of it as one types.

A shape takes every text that the key's reader takes (`tests/sources/test_source_schema.py`), and
refuses most that it refuses. What a regular expression cannot say, such as how long a length is,
is left to `walebook check`. `patternErrorMessage` and `errorMessage` are words of language servers
for YAML and JSON; other readers of a schema pass them over.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping
from typing import Any

from ..core.codes import REMARK_CODES
from ..core.colours import NAMED
from ..core.ranges import Measured, Range
from ..core.unit_table import LENGTHS, MASSES
from ..source.depths import band_depth, depth_or_rows
from ..source.outright_sizes import CountOrShare, LengthOrCount
from ..source.spellings import (
    NeedleRepeat,
    Span,
    accepted,
    bind_offs,
    colour,
    distance,
    even_needles,
    every_row,
    middles,
    reader_change,
    rib_needles,
    steps,
    version,
    zip_sold,
)
from ..source.values import Figure, Text, Word
from ..words import value_hints as words

Schema = dict[str, Any]

# YAML has 4 and 7.5 as numbers, 2026-11-20 as a text, and yes and no, by its version, as either.
SCALAR: Schema = {"type": ["string", "number"]}
NAME = r"^[a-z][a-z0-9]*(?:[ _-][a-z0-9]+)*$"
_YES_NO = {"yes": True, "no": False}
_GLYPH = "[¼½¾⅛⅜⅝⅞⅓⅔]"
_DIGITS = r"[0-9]{1,12}"
_FRACTION = rf"(?:{_DIGITS}[ -]+)?[0-9]{{1,4}}\s*/\s*0*[1-9][0-9]{{0,3}}"
_NUMBER = rf"(?:{_FRACTION}|(?:{_DIGITS}[ -]*)?{_GLYPH}|{_DIGITS}(?:\.[0-9]{{1,30}})?)"
_DAYS = ("(?:(?:0[13578]|1[02])-(?:0[1-9]|[12][0-9]|3[01])|(?:0[469]|11)-(?:0[1-9]|[12][0-9]|30)"
         "|02-(?:0[1-9]|[12][0-9]))")
# Marks that `core.text.UNSEEN` refuses, and the tab, as both kinds of regular expression know them.
_UNSEEN = (r"\x00-\x09\x0b\x0c\x0e-\x1f\x7f-\x9f\u2028\u2029\u202a-\u202e\u2066-\u2069"
           r"\ufeff\ufffe\uffff")
_LENGTH_UNITS = "|".join(map(re.escape, [*LENGTHS, "L", "l"]))
_MASS_UNITS = "|".join(MASSES)


def value_shape(read: object) -> Schema:
    """Return the shape of the value that `read` reads: a scalar, or a list of distances."""
    if isinstance(read, Word):
        choices = list(read.choices)
        return {"enum": [*choices, *(_YES_NO[word] for word in choices if word in _YES_NO),
                         *(int(word) for word in choices if word.isdecimal())]}
    if isinstance(read, Text):
        return _text(read)
    if isinstance(read, Figure):
        return _FIGURES[read.range.measured](read.range)
    if isinstance(read, LengthOrCount):
        return _spelt(rf"{read.spelt}|{_ONE}", words.or_count(read))
    if isinstance(read, CountOrShare):
        row = read.number.range
        return _spelt(rf"[1-9][0-9]{{0,3}}|{_NUMBER}\s*%", words.or_count(read),
                      ["integer", "string"], minimum=int(row.least), maximum=int(row.most))
    if isinstance(read, NeedleRepeat):
        return dict(_REPEAT)
    if isinstance(read, Span):
        return dict(_SPAN)
    return dict(_SPELT.get(read, SCALAR))


def _spelt(pattern: str, expected: str, kind: str | list[str] = "string", **more: Any) -> Schema:
    return {"type": kind, "pattern": f"^\\s*(?:{pattern})\\s*$", **more,
            "patternErrorMessage": expected, "errorMessage": expected}


def _text(read: Text) -> Schema:
    """A text that is not empty, with nothing unseen in it; on one line, at most so long."""
    line = rf"[^\n\r{_UNSEEN}]{{1,{read.most}}}"
    lines = rf"[^{_UNSEEN}]*[\n\r][^{_UNSEEN}]*"
    spelt = read.spelt or rf"(?=\S)(?:{line}|{lines})"
    return {**SCALAR, "pattern": rf"^\s*(?:{spelt})\s*$",
            "patternErrorMessage": words.text(read)}


def _length(row: Range) -> Schema:
    return _spelt(_signed(row, rf"{_NUMBER}\s*(?:{_LENGTH_UNITS})"), words.figure(row))


def _mass(row: Range) -> Schema:
    return _spelt(rf"{_NUMBER}\s*(?:{_MASS_UNITS})", words.figure(row))


def _share(row: Range) -> Schema:
    return _spelt(_signed(row, rf"{_NUMBER}\s*%"), words.figure(row))


def _number(row: Range) -> Schema:
    return _spelt(_NUMBER, words.figure(row), ["string", "number"], exclusiveMinimum=0)


def _count(row: Range) -> Schema:
    return _spelt("0|[1-9][0-9]{0,8}", words.figure(row), ["integer", "string"],
                  minimum=int(row.least), maximum=int(row.most))


def _dial(row: Range) -> Schema:
    """A setting; of the decimals only those of the two dots, which 0.1 and 0.2 stand for."""
    between = [(10 * whole + part) / 10 for whole in range(16) for part in range(3, 10)]
    return _spelt(r"(?:[0-9]|0[0-9]|1[0-5])(?:\.[012])?", words.figure(row), ["string", "number"],
                  minimum=0, maximum=15, **{"not": {"enum": between}})


def _date(row: Range) -> Schema:
    return _spelt(f"(?:19|20|21)[0-9]{{2}}-{_DAYS}", words.figure(row))


def _signed(row: Range, figure: str) -> str:
    return rf"[-−]?\s*(?:{figure})" if row.is_allowed_below_nothing else figure


_FIGURES: Mapping[Measured, Callable[[Range], Schema]] = {
    Measured.LENGTH: _length, Measured.MASS: _mass, Measured.SHARE: _share,
    Measured.NUMBER: _number, Measured.COUNT: _count, Measured.DIAL: _dial, Measured.DATE: _date}



def _in_any_capitals(names: Iterable[str]) -> str:
    """A pattern for any of the names, each letter large or small: colours are read so."""
    return "|".join("".join(f"[{letter.upper()}{letter}]" for letter in name)
                    for name in sorted(names))


def _repeat(out: str, expected: str) -> Schema:
    group = rf"0?[1-9][0-9]?\s+in\s*,?\s*{out}\s+out"
    return _spelt(rf"{group}(?:\s*,?\s*{group})*\s*,?", expected)


_REPEAT = _repeat("0?[1-9][0-9]?", words.REPEAT)
_ONE = rf"{_NUMBER}\s*(?:{_LENGTH_UNITS})"
_SPAN = _spelt(rf"{_NUMBER}\s*(?:[–-]\s*{_NUMBER})?", words.SPAN, ["string", "number"],
               exclusiveMinimum=0)
_STITCHES = _spelt("[1-9][0-9]{0,2}", words.STEP, ["integer", "string"], minimum=1, maximum=200)
_GAUGE = r"gauge(?:\s+within\s+0*(?:[1-9]|[1-4][0-9]|50)\s*%)?"
_MEASURES = rf"measures(?:\s+within\s+{_ONE})?"
_STEPS: Schema = {"type": "array", "minItems": 1, "maxItems": 40, "items": _STITCHES}
_SPELT: Mapping[object, Schema] = {
    version: _spelt(r"[0-9]{1,4}(?:\.[0-9]{1,4}){0,2}", words.VERSION, ["string", "number"],
                    minimum=0),
    even_needles: _spelt("[1-9][0-9]{0,2}", words.NEEDLES, ["integer", "string"], minimum=10,
                         maximum=400, multipleOf=2),
    accepted: _spelt(f"(?:{'|'.join(sorted(REMARK_CODES))}) [0-9a-f]{{8}}", words.ACCEPTED),
    colour: {"anyOf": [{"enum": sorted(NAMED)},
                       _spelt(f"#[0-9A-Fa-f]{{6}}|{_in_any_capitals(NAMED)}", words.COLOUR)]},
    reader_change: _spelt(rf"nothing|{_GAUGE}(?:\s*,\s*{_MEASURES})?|"
                          rf"{_MEASURES}(?:\s*,\s*{_GAUGE})?", words.READER_CHANGE),
    rib_needles: _repeat("0?[12]", words.RIB_REPEAT),
    middles: {"type": "array", "minItems": 1, "items": _spelt(rf"[-−]?\s*{_ONE}", words.PLACE)},
    depth_or_rows: _spelt(rf"[1-9][0-9]{{0,2}}\s*rows?|{_ONE}", words.DEPTH),
    band_depth: _spelt(rf"[1-9][0-9]{{0,2}}\s*(?:rows?|stitch|stitches)|{_ONE}",
                       words.BAND_DEPTH),
    distance: _spelt(rf"[1-9][0-9]{{0,2}}\s*(?:stitches|stitch|sts|st|rows?)|{_ONE}",
                     words.DISTANCE),
    steps: _STEPS,
    bind_offs: {"anyOf": [_STITCHES, _STEPS, _spelt(rf"{_NUMBER}\s*%", words.BIND_OFFS)]},
    every_row: {"type": "array", "minItems": 2, "maxItems": 2, "items": _spelt(
        "0|[1-9][0-9]?", words.EVERY_ROW, ["integer", "string"], minimum=0, maximum=99)},
    zip_sold: _spelt(f"cut|{_ONE}", words.ZIP),
}
