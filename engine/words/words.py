"""Needles, states and amounts in plain words: what is said under a diagram."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from functools import lru_cache

from ..machine.needles import NONE, Needle, Needles
from ..machine.steps import Dial, Side
from ..machine.trace import State
from ..markup.html import link
from .needle_marks import Mark, sorted_needles

_FEW_GROUPS = 3  # of needles, that are named each
KEY = {
    Mark.ONE: "one stitch",
    Mark.CHOSEN: "one stitch, chosen needle",
    Mark.UPPER: "one stitch, in upper working position",
    Mark.MANY: "so many loops on one needle",
    Mark.LATCHED: "one stitch, its column latched up",
    Mark.CORD: "a loop of cord",
    Mark.HELD: "in holding position",
    Mark.EMPTY: "empty, in working position",
    Mark.OUT: "in non-working position",
}


def needles_after(step: int) -> str:
    """The title of a diagram of the needles."""
    return f"The needles after step {step}"


def needles_as_after(step: int, anchor: str) -> str:
    """What stands in the place of a diagram that an earlier step has already, as HTML."""
    return f"Needles as after {link(f'#{anchor}', f'step {step}')}."


def loops_short(loops: int) -> str:
    """What a bracket says of neighbours with several loops each."""
    return f"with {loops} loops"


def counted(number: int, one: str, many: str = "") -> str:
    """ "1 stitch", "3 stitches", "2 rows": `many` where the plural has neither -s nor -es."""
    return f"{number} {one if number == 1 else many or plural(one)}"


def plural(one: str) -> str:
    """The plural in -s or -es."""
    return one + ("es" if one.endswith(("ch", "sh", "s", "x")) else "s")


def upto_text(counter: int, then: str = "", how: str = "") -> str:
    """To which row counter rows are knitted, as HTML: a clause that the bench sets as a number."""
    return f"<i>,{how} until the row counter shows <b>{counter}</b>{then}</i>"


def stitches(number: int) -> str:
    """A number of stitches."""
    return counted(number, "stitch")


def joined(parts: Iterable[str]) -> str:
    """ "a", "a and b", "a, b and c"."""
    *most, last = parts
    return f"{', '.join(most)} and {last}" if most else last


@lru_cache(maxsize=4096)
def needles_text(needles: Needles) -> str:
    """The needles from left to right: "L20 to L19 and R3", "every other needle from L9 to R8".

    A dozen groups are listed one by one, and half a dozen single needles, unless they are every
    other needle.
    """
    return _groups_text(needles.spans(), MANY_GROUPS)


@lru_cache(maxsize=4096)
def which(needles: Needles) -> str:
    """The needles from left to right, those at even distances as such from four groups on.

    "every fourth needle from L9 to L1 and R3"; "2 of every 3 needles from L4 to R1 (L4–L3,
    L1–R1)", with the groups counted out where they would be hard to count.
    """
    return _groups_text(needles.spans(), FEW_GROUPS)


@lru_cache(maxsize=1024)
def briefly(needles: Needles) -> str:
    """The needles as `which` says them, beside a drawing: no groups are counted out."""
    return _groups_text(needles.spans(), FEW_GROUPS, _rule_alone)


def named(needles: Needles) -> str:
    """The needles with their noun, said once: "needles L4 to R1", "every other needle from L9"."""
    listed = not _is_rule(needles.spans(), 0, FEW_GROUPS)
    return f"needles {which(needles)}" if listed else which(needles)


MANY_GROUPS, FEW_GROUPS, SINGLE = 13, 4, 7  # from so many on, even distances are a rule
_NTH = {2: "other", 3: "third", 4: "fourth", 5: "fifth", 6: "sixth", 7: "seventh", 8: "eighth",
        9: "ninth", 10: "tenth", 11: "eleventh", 12: "twelfth"}
NeedleSpan = tuple[Needle, Needle]


def _groups_text(spans: Sequence[NeedleSpan], least: int,
                 rule: Callable[[Sequence[NeedleSpan]], str] | None = None) -> str:
    """The groups in their order; so many alike and at even distances are told by their rule."""
    by_rule = rule or _rule
    parts, at = [], 0
    while at < len(spans):
        like = _alike(spans, at)
        if _is_rule(spans, at, least):
            parts.append(by_rule(like))
            at += len(like)
        else:
            first, last = spans[at]
            parts.append(first.name if first == last else f"{first} to {last}")
            at += 1
    return joined(parts)


def _is_rule(spans: Sequence[NeedleSpan], at: int, least: int) -> bool:
    """True where the groups from `at` on are given by their rule."""
    like = _alike(spans, at)
    if _every_other(like):
        return len(like) >= FEW_GROUPS
    return len(like) >= (min(least, SINGLE) if _width(like[0]) == 1 else least)


def _alike(spans: Sequence[NeedleSpan], at: int) -> Sequence[NeedleSpan]:
    """The groups from `at` on that are as wide as it, and as far apart as the first two."""
    upto = at + 1
    while upto < len(spans) and _width(spans[upto]) == _width(spans[at]) and \
            _apart(spans[upto - 1:upto + 1]) == _apart(spans[at:at + 2]):
        upto += 1
    return spans[at:upto]


def _width(span: NeedleSpan) -> int:
    return span[1].place - span[0].place + 1


def _apart(spans: Sequence[NeedleSpan]) -> int:
    return spans[1][0].place - spans[0][0].place


def _every_other(spans: Sequence[NeedleSpan]) -> bool:
    return len(spans) > 1 and _width(spans[0]) == 1 and _apart(spans) == 2


def _rule(spans: Sequence[NeedleSpan]) -> str:
    """Groups that are alike and at even distances, and beyond the centre counted out again."""
    crosses = spans[0][0].place < 0 <= spans[-1][0].place
    out = f" ({_counted_out(spans)})" if crosses or _width(spans[0]) > 1 else ""
    return f"{_rule_alone(spans)}{out}"


def _rule_alone(spans: Sequence[NeedleSpan]) -> str:
    """How wide the groups are, and how far apart."""
    size, far = _width(spans[0]), _apart(spans)
    every = f"every {_NTH[far]} needle" if size == 1 and far in _NTH else \
        f"{size} of every {far} needles"
    return f"{every} from {spans[0][0]} to {spans[-1][1]}"


def _counted_out(spans: Sequence[NeedleSpan]) -> str:
    """The first groups of needles, and the first ones beyond the centre, where counting turns."""
    left = [_short(a, b) for a, b in spans if a.place < 0]
    right = [_short(a, b) for a, b in spans if a.place >= 0]
    parts = [f"{', '.join(side[:2])} and so on to {side[-1]}" if len(side) > 3 else ", ".join(side)
             for side in (left, right) if side]
    return ", then ".join(parts)


def _short(a: Needle, b: Needle) -> str:
    return a.name if a == b else f"{a}–{b}"


def needles_toward(needles: Needles, side: Side) -> str:
    """Neighbouring needles in the direction of work: "R50 to R46" towards the left."""
    first, last = needles.first, needles.last
    if side is Side.LEFT:
        first, last = last, first
    return first.name if first == last else f"{first} to {last}"


def dial_text(dial: Dial) -> str:
    """A dial setting, its dots spelled out: "6", "6.1 (one dot past 6)"."""
    whole, dots = divmod(dial.thirds, 3)
    return f"{dial} ({('one dot', 'two dots')[dots - 1]} past {whole})" if dots else str(dial)


def _beyond(needles: Needles, shown: Needles) -> str:
    """Needles of which the outermost of those `shown` stand for all beyond: "L30 and beyond, L9 to
    R9, R30 and beyond"."""
    left = needles.leftmost(1) if needles.first == shown.first else NONE
    right = needles.rightmost(1) if needles.last == shown.last else NONE
    between = needles - left - right
    if not between:
        return f"{needles_text(needles)}, and beyond"
    outer = [f"{one} and beyond" if one else "" for one in (left, right)]
    return ", ".join(filter(None, (outer[0], needles_text(between), outer[1])))


def diagram_text(state: State, shown: Needles, chosen: Needles, mark: Mark = Mark.CHOSEN
                 ) -> str:
    """Everything a needle diagram shows, in words.

    Of the needles out of work beside the work it shows the nearest, which stand for all beyond.
    Needles of one stitch in many groups are said last: they are all that have no other mark.
    """
    marked = sorted_needles(state, shown, chosen, mark)
    is_mixed = any(each not in (Mark.ONE, Mark.OUT) for each, *_ in marked)
    parts, others = [], ""
    for each, loops, needles in marked:
        if each is Mark.ONE and is_mixed and len(needles.spans()) > _FEW_GROUPS:
            others = f"One stitch: all others from {needles.first} to {needles.last}."
            continue
        what = f"{loops} loops on each needle" if each is Mark.MANY else KEY[each]
        ends = each is Mark.OUT and (needles.first == shown.first or needles.last == shown.last)
        parts.append(f"{what[0].upper()}{what[1:]}: "
                     f"{_beyond(needles, shown) if ends else needles_text(needles)}.")
    return " ".join([*parts, *[others] * bool(others)])


def from_to(needles: Needles) -> str:
    """The first and last of the needles, or the only one."""
    first, last = needles.first, needles.last
    return first.name if first == last else f"{first.name} to {last.name}"
