"""Takes out of what is published what only its writers read: comments, and space around lines."""

from __future__ import annotations

import re

from walebook.markup.kept_together import kept_together

# A comment on separate lines; one behind code stays, for its signs may be within a string.
_COMMENT = re.compile(r"^[ \t]*/\*.*?\*/[ \t]*\n|^[ \t]*//[^\n]*\n", re.DOTALL | re.MULTILINE)
_VERBATIM = re.compile(r"(<(pre|textarea|script|style)\b.*?</\2>)", re.DOTALL)


# End tags that HTML leaves out (HTML, 13.1.2.4), where the next tag follows at once or on a new
# line: the line's end, which shows as nothing between blocks, goes with them.
_ENDS = re.compile(
    r"</p>\n?(?=<(?:p[> ]|[uod]l[> ]|h[1-6][> ]|table|figure[> ]|details|div"
    r"|/li>|/div>|/td>|/figure>|/details>))"
    r"|</dt>(?=<dd)|</dd>(?=</div>|<dt|</dl>)|</t[hd]>(?=<)|</tr>(?=<tr>|</tbody>|</thead>)"
    r"|</thead>(?=<tbody)|</tbody>(?=</table>)|</li>\n?(?=<li[ >]|</[uo]l>)")
# Quotes that HTML leaves out (HTML, 13.1.2.3), where a drawing or a page has many of one kind.
_DRAWN = re.compile(r"<(?:svg|g|path|circle|rect|text)\b[^<>]*>")
_QUOTED = re.compile(r'(?<= )(x|y|r|cx|cy|width|height|fill|role|font-size|text-anchor'
                     r'|stroke(?:-width)?)="([\w.]+)"(?=[ >])')
_NAMED = re.compile(r'<(p|figure|[uod]l|table|div|span|details|a) class="'
                    r'(wb-(?:check|needles|holes|list|table|scroll|pic|working|how|steps|fold|task'
                    r'|facts|measures|rows))"(?=[ >])')
_SCROLLED = ' tabindex="0" role="region"'  # of each table that can be scrolled
_LOOKS = re.compile(r'(<(?:path|circle|text|g)\b[^<>]*?) class="([\w-]+)"(?=[ >])')
_STEP = re.compile(r'<li id="([\w-]+)"(?=[ >])')
_START = re.compile(r'(<ol\b[^<>]*?) start="(\d+)"(?=[ >])')
# Which part of a garment is drawn: what looks at a drawing by itself reads it, no page does.
_PART = re.compile(r'(<[ag]\b[^<>]*?) data-part="[^"]*"')
# The first title of a drawing names it by itself (SVG-AAM 1.0, 8.1): nothing has to lead to it.
_TITLED = re.compile(r'(<svg\b[^<>]*?) aria-labelledby="([^"]+)"([^<>]*><title) id="\2">')
_BARE = re.compile(r"<g>((?:(?!</?g\b).)*)</g>", re.DOTALL)  # a group that says nothing


def slim_code(text: str) -> str:
    """Return a script or style without the comments that stand on lines of their own.

    No line of a text within a script may begin as a comment does.
    """
    return _COMMENT.sub("", text)


def slim_html(html: str) -> str:
    """Return a page without empty lines and indents, which a browser shows as one space at most.

    End tags in tables and lists, the quotes in a drawing and those around the classes of which a
    page has many are left out, as HTML lets them be: a browser reads the same page. So are the
    name of each part of a sketch, and the id of a drawing's title.
    What is shown or run as it is written stays. The engine says what stays on one line.
    """
    parts = _VERBATIM.split(html)
    return "".join(_slim_text(parts[at])
                   + (parts[at + 1] if at + 1 < len(parts) else "")
                   for at in range(0, len(parts), 3))


def _slim_text(text: str) -> str:
    whole = kept_together(_slim_lines(text))
    whole = whole.replace(_SCROLLED, _SCROLLED.replace('"', ""))
    named = _TITLED.sub(r"\1\3>", _PART.sub(r"\1", _ENDS.sub("", whole)))
    drawn = _DRAWN.sub(lambda tag: _QUOTED.sub(r"\1=\2", tag[0]), _BARE.sub(r"\1", named))
    return _START.sub(r"\1 start=\2", _STEP.sub(
        r"<li id=\1", _NAMED.sub(r"<\1 class=\2", _LOOKS.sub(r"\1 class=\2", drawn))))


def _slim_lines(text: str) -> str:
    first, *between = text.split("\n")
    if not between:
        return text
    last = between.pop().lstrip()
    within = (line.lstrip().rstrip(" \t") for line in between)
    return "\n".join((first.rstrip(" \t"), *filter(None, within), last))
