"""A source with another value at one of its keys, all else letter for letter as it was."""

from __future__ import annotations

import json
import re

from ..core.problems import Place, Problem, error
from ..core.text import clip
from ..machine.records import dataclass
from .page_names import SHARED
from .source import Keyed, Listing, Node, Scalar, Table, parse_source, plain

_SHARED = re.compile(r"shared(?: +\S.*)?")
_LINE_ENDS = re.compile("\r\n|\r|\n")
_QUOTED = re.compile(r""" "(?:[^"\\\n\r]|\\.)*" | '(?:[^'\n\r]|'')*' """, re.VERBOSE)
_IN_FILE = "Change it in the file."


class NotSet(Exception):
    """Why a value cannot be put into a source."""

    def __init__(self, problem: Problem) -> None:
        super().__init__(problem.message)
        self.problem = problem


def with_value(text: str, key: str, value: str, *, name: str) -> str:
    """Return a source called `name` with this value at a key such as "garment.measures.ease".

    Places of a list are counted from 1. A key that is not written yet is added to the mapping that
    is there; whether it is a known one is not looked at. Raises NotSet where there is nothing to
    put the value into, where the source cannot be read, or where a value of several lines stands.
    """
    node, problems = parse_source(text, name=name)
    if node is None:
        raise NotSet(problems[0])
    parts = key.split(".")
    here, above, depth = _descend(node, parts)
    if depth == len(parts):
        start, end = _extent(text, here, key)
        made = (f"{text[:start]}{spelt}{text[end:]}" for spelt in _spellings(value))
    else:
        if not isinstance(above, Table):
            raise _no_key(above, parts, depth)
        made = (_added(text, above, parts[depth:], spelt) for spelt in _spellings(value))
    for new in made:
        if _has(new, parts, value, name):
            return new
    raise NotSet(error("wrong-shape", here.place,
                       found=f'the value "{clip(value)}" for {clip(key)}',
                       expected="a value that YAML can hold there", remedy=_IN_FILE))


def _descend(node: Node, parts: list[str]) -> tuple[Node, Node, int]:
    """The node that a key leads to, the one that it was looked for in, and how far it led.

    A key may have a point in its own name.
    """
    above, depth = node, 0
    while depth < len(parts):
        for end in range(depth + 1, len(parts) + 1):
            below = _below(node, ".".join(parts[depth:end]))
            if below is not None:
                above, node, depth = node, below, end
                break
        else:
            return node, node, depth
    return node, above, depth


def _below(node: Node, part: str) -> Node | None:
    if isinstance(node, Table) and part in node.entries:
        return node.entries[part].node
    if isinstance(node, Listing) and part.isdecimal() and 0 < int(part) <= len(node.items):
        return node.items[int(part) - 1]
    return None


def _no_key(node: Node, parts: list[str], depth: int) -> NotSet:
    above, part = clip(".".join(parts[:depth])), clip(parts[depth])
    if isinstance(node, Listing):
        return NotSet(error("unknown-key", node.place, found=f'no entry "{part}" of {above}',
                            expected=f"a number from 1 to {len(node.items)}",
                            remedy="Write which entry of the list it is."))
    if isinstance(node, Scalar) and _SHARED.fullmatch(node.text):
        return NotSet(error("unknown-key", node.place, found=f"{above}, whose {part} stands in "
                            f"{SHARED}", expected="a value of this source",
                            remedy=f"Change it in {SHARED}, and run walebook compare; or write "
                                   f"the entry out here in place of {clip(node.text)}."))
    return NotSet(error("unknown-key", node.place, remedy=f"Set {above} itself.",
                        found=f'the key "{part}" under {above}, which is a single value'))


def _spellings(value: str) -> tuple[str, ...]:
    """The value as it was given, and in quotes."""
    return value, json.dumps(value, ensure_ascii=False)


@dataclass(frozen=True, slots=True)
class _LineStarts:
    """Where the lines of a text begin, from 0."""

    starts: tuple[int, ...]

    @classmethod
    def of(cls, text: str) -> _LineStarts:
        mark = len(text) - len(text.removeprefix("\ufeff"))
        return cls((mark, *(found.end() for found in _LINE_ENDS.finditer(text))))

    def at(self, place: Place) -> int:
        """The character of a place, from 0."""
        return self.starts[place.line - 1] + place.column - 1


def _extent(text: str, node: Node, key: str) -> tuple[int, int]:
    """Where a value begins and ends. Raises NotSet for one that is no text on one line."""
    start = _LineStarts.of(text).at(node.place)
    if isinstance(node, Scalar):
        if text.startswith(node.text, start) and not node.quoted and node.text:
            return start, start + len(node.text)
        if node.quoted and (found := _QUOTED.match(text, start)):
            return found.span()
    raise NotSet(error("wrong-shape", node.place,
                       found=f"{clip(key)}, which is no value on one line",
                       expected="the key of a single value", remedy=_IN_FILE))


def _added(text: str, table: Table, parts: list[str], value: str) -> str:
    """The source with a new key in a mapping, and under it what the other parts name."""
    line = value
    for part in reversed(parts[1:]):
        line = f"{{{part}: {line}}}"
    line = f"{parts[0]}: {line}"
    ends = _LineStarts.of(text)
    start = ends.at(table.place)
    if text[start:start + 1] == "{":
        comma = ", " if table.entries else ""
        return f"{text[:start + 1]}{line}{comma}{text[start + 1:]}"
    first: Keyed = next(iter(table.entries.values()))
    at = ends.at(first.place)
    return f"{text[:at]}{line}\n{' ' * (first.place.column - 1)}{text[at:]}"


def _has(text: str, parts: list[str], value: str, name: str) -> bool:
    """True where the source now has this value at the key: as a text, or as what YAML makes of it.
    """
    node, _ = parse_source(text, name=name)
    found, _, depth = _descend(node, parts) if node is not None else (None, None, 0)
    if found is None or depth < len(parts):
        return False
    if isinstance(found, Scalar):
        return found.text == value
    wanted, _ = parse_source(value, name=name)
    return plain(found) == plain(wanted)

