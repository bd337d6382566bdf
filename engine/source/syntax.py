"""What a YAML parser could not read, said in words a designer can act on."""

from __future__ import annotations

import itertools
import re

from ..core.problems import Place, Problem, error
from ..core.text import clip

# What the two parsers say (their words differ), what we say, and the way out.
_SYNTAX = (
    ("mapping values are not allowed", 'a second ": " in one line',
     "Put the text in quotes, or write the second key on a separate line."),
    ("sequence entries are not allowed", "a list that begins in the line of its key",
     "Write each item on a separate line."),
    ("cannot start any token", "{character} at the beginning of a value",
     "Put the text in quotes."),
    ("alphabetic or numeric", "{character} at the beginning of a value",
     "Put the text in quotes."),
    ("unexpected end of stream", "a quote that is never closed", "Close the quote."),
    ("unexpected document", "a quote that is never closed", "Close the quote."),
    ("unknown escape", "a backslash that escapes nothing", "Use single quotes, or no backslash."),
    ("node content", "nothing where a value is due", "Close every [ with ] and every { with }."),
    ("',' or ']'", "a list that is not closed", "Add the comma or the ] that is missing."),
    ("',' or '}'", "a mapping that is not closed", "Add the comma or the } that is missing."),
    ("expected ':'", "a line that is no key with a value",
     "Write key: value; a text that goes on below its key begins with two spaces more."),
    ("expected key", "a line out of line with those above", "Line it up with spaces."),
    ("expected '-' indicator", "a line out of line with those above", "Line it up with spaces."),
    ("expected <block end>", "a line out of line with those above", "Line it up with spaces."),
    ("<document start>", "text behind the end of the pattern", "Delete it."),
)
_POINT_AT_BEGINNING = re.compile("quoted|flow sequence|flow mapping|simple key|alias|anchor")
# A value in quotes with what stands before it; what may follow it in a line, and in braces; a brace
# that was opened before it; a whole value in braces or brackets with text behind it.
_QUOTED = re.compile(r"""(?:(?<=[:,\-] )|(?<=[\[{])) *(?:"(?:[^"\\]|\\.)*"|'(?:[^']|'')*')""")
_ALONE = re.compile(r"\s*(?:$|:(?:\s|$)|\s#)")
_ENDED = re.compile(r"\s*(?:$|[,:}\]]|\s#)")
_OPENED = re.compile(r"[\[{]")
_BRACED = re.compile(r"[ -]*[\w -]+: +(\{[^{}]*\}|\[[^\[\]]*\])\s*[^\s#,}\]]")
_CUT = re.compile(r":[ \t]+(#[^\s,{}\[\]]+)")


def read_fault(fault: Exception, text: str, name: str) -> Problem:
    """The finding for a parser's `fault` in `text`, pointing at where the mistake begins."""
    for find in (_formatted, _tab, _cut, _behind, _closing, _second, _deep, _uncoloned, _unspaced):
        if problem := find(fault, text, name):
            return problem
    mark = getattr(fault, "problem_mark", None)
    if mark is None or _POINT_AT_BEGINNING.search(_context(fault)):
        mark = getattr(fault, "context_mark", None) or mark
    line, column = (mark.line + 1, mark.column + 1) if mark else (1, 1)
    fault_text = _fault_text(fault)
    found, remedy = next(((f, r) for words, f, r in _SYNTAX if words in fault_text),
                         ("text that is not YAML", "Compare it with a pattern that is read."))
    character = _line(text, line)[column - 1:column] or "the end of the line"
    return error("syntax", Place(name, line, column), remedy=remedy,
                 found=found.replace("{character}", f'"{character}"'))


def _formatted(_: Exception, text: str, name: str) -> Problem | None:
    """A file of a word processor, which begins with its own marks."""
    if not text.startswith("{\\rtf"):
        return None
    return error("syntax", Place(name, 1, 1),
                 found="a text that was saved with its formatting (RTF)",
                 remedy="Save it as plain text, or write it in a plain text editor.")


def _tab(fault: Exception, text: str, name: str) -> Problem | None:
    """A tab where a value or a key is due."""
    mark = getattr(fault, "problem_mark", None)
    if mark is None or _line(text, mark.line + 1)[mark.column:mark.column + 1] != "\t":
        return None
    return tab_found(Place(name, mark.line + 1, mark.column + 1))


def tab_found(place: Place) -> Problem:
    """Return the finding for a tab."""
    return error("tab", place, found="a tab", expected="spaces",
                 remedy="Replace every tab by spaces.")


def _closing(fault: Exception, text: str, name: str) -> Problem | None:
    """A bracket or brace more than were opened."""
    mark = getattr(fault, "problem_mark", None)
    if mark is None or "flow" in _context(fault):
        return None
    at = _line(text, mark.line + 1)[mark.column:mark.column + 1]
    if not at or at not in "]}":
        return None
    return error("syntax", Place(name, mark.line + 1, mark.column + 1),
                 found=f'a "{at}" that closes nothing', remedy="Delete it.")


def _cut(fault: Exception, text: str, name: str) -> Problem | None:
    """A value in brackets or braces that begins with #: YAML takes the rest for a remark, and
    misses the bracket."""
    if "flow" not in _context(fault):
        return None
    mark, last = getattr(fault, "context_mark", None), getattr(fault, "problem_mark", None)
    for number in range(mark.line + 1, last.line + 1) if mark and last else ():
        if cut := _CUT.search(_line(text, number)):
            value = clip(cut[1])
            return error("syntax", Place(name, number, cut.start(1) + 1),
                         found=f'"{value}" without quotes: YAML takes it, and the rest of the '
                               "line, for a remark", remedy=f'Write "{value}" in quotes.')
    return None


def _behind(fault: Exception, text: str, name: str) -> Problem | None:
    """Text behind a closing quote or brace, where a value has ended: a quote within quotes."""
    first, last = (getattr(fault, each, None) for each in ("context_mark", "problem_mark"))
    if last is None:
        return None
    flow = "flow" in _context(fault)
    for number in dict.fromkeys((last.line + 1, *range(
            first.line + 1 if flow and first else last.line + 1, last.line + 1))):
        line = _line(text, number)
        for quoted in _QUOTED.finditer(line):
            rest = line[quoted.end():]
            if not (_ENDED if flow or _OPENED.search(line[:quoted.start()]) else
                    _ALONE).match(rest):
                return _text_behind(Place(name, number, quoted.end()), quoted[0][0])
        if braced := _BRACED.match(line):
            return error("syntax", Place(name, number, braced.end(1)),
                         found=f'text behind the closing "{braced[1][-1]}"',
                         remedy="Put the whole text in quotes.")
    return None


def _text_behind(place: Place, quote: str) -> Problem:
    remedy = 'Write \\" for a quote inside "...", or put the whole text in single quotes.' \
        if quote == '"' else "Write '' for an apostrophe inside '...', or put the whole text in " \
        "double quotes."
    return error("syntax", place, found="text behind the closing quote", remedy=remedy)


def _second(fault: Exception, text: str, name: str) -> Problem | None:
    """A colon in the text of an entry in brackets or braces."""
    mark = getattr(fault, "problem_mark", None)
    if mark is None or "flow" not in _context(fault):
        return None
    line = _line(text, mark.line + 1)
    entry = re.split(r"[,{\[]", line[:mark.column])[-1]
    if line[mark.column:mark.column + 1] != ":" or ": " not in entry:
        return None
    return error("syntax", Place(name, mark.line + 1, mark.column + 1),
                 found='a second ": " in one entry', remedy="Put the text in quotes, or write a "
                 "comma before the next key.")


def _deep(fault: Exception, text: str, name: str) -> Problem | None:
    """A key that is farther in than the line above, whose value has ended."""
    mark = getattr(fault, "problem_mark", None)
    if mark is None or "mapping values are not allowed" not in _fault_text(fault):
        return None
    line = _line(text, mark.line + 1)
    first = len(line) - len(line.lstrip())
    above = next((each for each in reversed(text.splitlines()[:mark.line]) if each.strip()), "")
    out = len(above) - len(above.lstrip())
    if ":" in line[:mark.column] or first <= out:
        return None
    before = [each for each in text.splitlines()[:mark.line] if each.strip()][-2:-1]
    stands_out = before and ":" in above and len(before[0]) - len(before[0].lstrip()) > out
    return error("syntax", Place(name, mark.line + 1, first + 1),
                 found="a line farther in than the one above",
                 remedy="Put the line above farther in, or line this one up with it." if stands_out
                 else "Line it up with the key above.")


def _uncoloned(fault: Exception, text: str, name: str) -> Problem | None:
    """A key without its colon, or the space behind it, just above one that has both: YAML takes
    the two lines for one text."""
    mark = getattr(fault, "problem_mark", None)
    if not mark or not mark.line or "mapping values are not allowed" not in _fault_text(fault):
        return None
    line, above = _line(text, mark.line + 1), _line(text, mark.line)
    first = len(above) - len(above.lstrip())
    if above.lstrip()[:1] in ("", "#"):
        return None
    if re.search(r":( |$)", above) or first != len(line) - len(line.lstrip()):
        return None
    return error("syntax", Place(name, mark.line, first + 1), remedy="Write key: value.",
                 found="a line without a colon and a space behind its key")


def _unspaced(fault: Exception, text: str, name: str) -> Problem | None:
    """A key whose colon has no space behind it, where a key with its value is due."""
    mark = getattr(fault, "context_mark", None)
    if mark is None or "expected ':'" not in _fault_text(fault):
        return None
    colon = re.match(r"[ -]*[\w-]+(:)[^\s:]", _line(text, mark.line + 1))
    if not colon:
        return None
    line = _line(text, mark.line + 1)
    key, value = line[:colon.start(1)].strip(" -"), line[colon.end(1):].strip()
    return error("syntax", Place(name, mark.line + 1, colon.start(1) + 1),
                 found="a colon without a space behind it", remedy=f"Write {key}: {clip(value)}.")


def _context(fault: Exception) -> str:
    return str(getattr(fault, "context", ""))


def beyond_depth(fault: Exception) -> bool:
    """True when the parser stopped at its own limit on nesting."""
    return "nesting depth" in _fault_text(fault)


def _fault_text(fault: Exception) -> str:
    return str(getattr(fault, "problem", None) or "")


def _line(text: str, number: int) -> str:
    return next(itertools.islice(text.splitlines(), number - 1, None), "")
