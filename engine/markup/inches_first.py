"""Pages with inches before centimetres: each pair of figures, row or label turned round.

Pages are written with centimetres first. What a page has in one unit alone, such as a calculation,
stays as it is, but for elements that say themselves what they are in inches (`data-in`).
"""

from __future__ import annotations

import re

_SPACE = "[ \u00a0]"
_CM = rf"(?:[−\d.–]+(?:{_SPACE}cm)? to )?[−\d.–]+{_SPACE}cm"
_PART = "[−\\d¼½¾⅛⅜⅝⅞][−\\d \u00a0/–¼½¾⅛⅜⅝⅞]*"
_IN = rf"(?:{_PART}(?:{_SPACE}in)? to )?{_PART}(?<! ){_SPACE}in"
PAIR = re.compile(rf"({_CM}) \(({_IN})\)")
SPANS = re.compile(r'(<span class="wb-cm">[^<]*</span>)(<span class="wb-or"> \(</span>)'
                   r'(<span class="wb-in">[^<]*</span>)')
ROWS = re.compile(r'(<tr class="wb-cm">(?:(?!</tr>).)*</tr>)(<tr class="wb-in">(?:(?!</tr>).)*'
                   r"</tr>)")
LABELS = re.compile(r'(<text [^>]*class=")(wb-cm)("[^>]*>)([^<]*)(</text><text [^>]*class=")'
                     r'(wb-in)("[^>]*>)([^<]*)(</text>)')
_CHOICE = re.compile(r'(<label><input [^>]*id="wb-unit-cm") checked(>[^<]*</label>)'
                     r'(<label><input [^>]*id="wb-unit-in")(>[^<]*</label>)')
_IN_INCHES = re.compile(r'(<[a-z]+) data-in="([^"]*)">([^<]*)<')


def inches_first(page: str) -> str:
    """Return a page, as it is written, with inches first. To do it twice turns rows back."""
    page = PAIR.sub(r"\2 (\1)", page)
    page = SPANS.sub(r"\3\2\1", page)
    page = ROWS.sub(r"\2\1", page)
    page = LABELS.sub(r"\1\6\3\8\5\2\7\4\9", page)
    page = _CHOICE.sub(r"\3 checked\4\1\2", page)
    return _IN_INCHES.sub(r'\1 data-cm="\3">\2<', page)
