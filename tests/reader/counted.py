"""The working of every number, done again: each chain of equals, each rounding, each label."""

from __future__ import annotations

import math
import re
from itertools import pairwise

from tests.reader.arithmetic import Range, Unread, printed, value
from tests.reader.bed import Wrong, need

ROUNDED = re.compile(
    r"^(.*?), (nearest even number|nearest odd number|rounded|rounded up|rounded down|"
    r"rounded down to an even number|rounded up to an even number|"
    r"a multiple of (\d+)(?: plus (\d+))?): (\d+)"
    r"(?: \((\d+(?:\.\d+)?) mm (more|less)\))?(.*)$")
LABEL = re.compile(r"^([A-Z][^:]*?)(?:, |: )(−?\d+(?:\.\d+)?) (stitches|stitch|rows|row|"
                   r"cm|times|pairs|needles|loops|buttonholes|centimetres)\b[^:]*: (.*)$")
UNIT = re.compile(r"(\d+(?:\.\d+)?) (?:stitches|rows) to 10 cm|÷ (\d+(?:\.\d+)?) (mm|cm) a|"
                  r"rows of (\d+(?:\.\d+)?) mm")


def working(text: str) -> None:
    """Do a line of the workings again; raises Wrong where it does not come out."""
    match = LABEL.match(text)
    body = match[4] if match else text
    joined(text)
    _changed(body)
    if match and " = " not in body:
        plain(match[2], match[3], body)
    final = None
    for clause in re.split(r"; |: (?=[^:]*=)|\. (?=[A-Z])|, (?=\d+ − \d)", body.rstrip(".")):
        found = chain(clause)
        if (found is not None and final is None) or found is not None:
            final = found
    if match and final is not None:
        label = printed(match[2], 1 if match[3] == "cm" else 0)
        if match[3] == "cm":  # a count of centimetres is worked out as a number
            label = label * Range(10, 10)
        changed = re.findall(r"; (\d+) so that [^;]*$", body)
        need(not changed or changed == [match[2]], "working", f"it is changed to {changed}")
        need(label.meets(final) or _told_later(body, match[2]) or _a_term(match, body), "working",
             f"the label says {match[2]}, the working {final.middle:g}")


CHANGED = re.compile(r"= (\d+(?:\.\d+)?), [a-z ]+: \d+(?: \([^()]*\))?; "
                     r"(\d+) so that [^(=]*\((\d+(?:\.\d+)?) mm (more|less)\)")


def _changed(body: str) -> None:
    """What a rounded figure is changed to lies so far from the figure itself as is said."""
    pitch = [float(b or d) * (10 if c == "cm" else 1) if b or d else 100 / float(a)
             for a, b, c, d in UNIT.findall(body)]
    for exact, number, worth, which in CHANGED.findall(body) if pitch else ():
        off = int(number) - float(exact)
        need(math.isclose(abs(off) * pitch[-1], float(worth), abs_tol=0.06 + 0.006 * pitch[-1]),
             "working", f"that is {abs(off) * pitch[-1]:.1f} mm, not {worth}")
        need((off > 0) == (which == "more"), "working", "the other way")


def _told_later(body: str, number: str) -> bool:
    """Whether the label's number is what the last words of a working change it to."""
    return bool(re.search(rf"(?:; |: |covers |, less one: |of which ){number}\b", body))


def _a_term(match: re.Match[str], body: str) -> bool:
    """Whether a label is one of the terms of its sum: the rows before a buttonhole, or after."""
    terms = re.search(r"(\d+) \+ (\d+) = ", body)
    if not terms or "buttonholes" not in match[1]:
        return False
    return match[2] == (terms[1] if match[1].startswith("Rows to") or "from the fold" in match[1]
                        else terms[2])


FIGURE = r"(\d+(?:\.\d+)?)"
JOINED = re.compile(rf"{FIGURE} and {FIGURE} (rows|stitches|mm)(?:, {FIGURE} \w+ (less|more) "
                    rf"where (-?\d+(?:\.\d+)?) \w+[^:]* are asked for)?: "
                    rf"(?:no difference|a difference of "
                    rf"{FIGURE} \w+) \({FIGURE} \w+ allowed\)")


def joined(text: str) -> None:
    """Two edges that are joined: how far they are apart, and how far they may be."""
    match = JOINED.search(text)
    need(bool(match) or " allowed)" not in text, "working-unread", f"no two edges: {text!r}")
    if match:
        one, two, more, ease, off, allowed = (float(match[i] or 0) for i in (1, 2, 4, 6, 7, 8))
        need(abs(abs(two - one - ease) - off) < 0.11, "working",
             f"{one:g} and {two:g} are {abs(two - one - ease):g} apart")
        need(not match[4] or (abs(abs(two - one) - more) < 0.11 and
                              (two < one) == (match[5] == "less")), "working", "the ease")
        need(off <= allowed, "working", "more than is allowed")


def plain(number: str, unit: str, body: str) -> None:
    """A label whose working is no arithmetic: the same count must stand in its words."""
    numbers = re.findall(r"\d+(?:\.\d+)?", body)
    if re.match(r"(?:as the |knitted |one layer|no row|the work)", body) or not numbers:
        return
    need(number in numbers, "working", f"{number} {unit} are not in {body!r}")


def chain(clause: str) -> Range | None:
    """The last value of a chain of equals; None where there is none."""
    if " = " not in clause or "armhole rows = " in clause:
        return None
    if divided := re.fullmatch(r"(\d+) ÷ (\d+) rows = (\d+), and (\d+) more", clause):
        whole, by, times, more = (int(one) for one in divided.groups())
        need(by * times + more == whole and more < by, "working", f"not so: {clause!r}")
        return Range(times, times)
    one_unit(clause)
    parts = clause.split(" = ")
    last = parts[-1]
    rounded = ROUNDED.match(last)
    values = []
    for part in parts[:-1]:
        if re.search(r"\d", part):
            try:
                values.append(value(part))
            except Unread as unread:
                raise Wrong("working-unread", f"no arithmetic: {part!r} ({unread})") from unread
    end = rounded[1] if rounded else last
    values.append(result(end))
    for one, two in pairwise(values):
        need(one.meets(two), "working", f"{one.middle:g} is not {two.middle:g}: {clause!r}")
    if not rounded:
        return values[-1]
    return rounding(rounded, values[-1], clause)


def one_unit(clause: str) -> None:
    """A sum has its lengths in centimetres or in millimetres: a calculator knows no units."""
    sum_ = re.sub(r"\([^()]* mm (?:more|less|wider|narrower)\)", "", clause)
    units = set(re.findall(r"\d (mm|cm)\b", sum_))
    need(len(units) < 2, "working", f"centimetres and millimetres in one sum: {clause!r}")


def result(words: str) -> Range:
    """A result at the end of a chain: a figure and what it counts."""
    match = re.match(r"^(?:[a-z_ ]*)(−?\d+(?:\.\d+)?)(?: (cm|mm))?", words.strip())
    if not match:
        raise Wrong("working-unread", f"no figure: {words!r}")
    if match[2] == "cm":
        return printed(match[1], 1) * Range(10, 10)
    return printed(match[1], 1 if match[2] else 0)


def rounding(match: re.Match[str], exact: Range, clause: str) -> Range:
    """Hold a rounding to its rule, and what it is worth to the figures."""
    rule, of, plus, number, worth, which = match.groups()[1:7]
    whole = int(number)
    step, offset = 1, 0
    if "even" in rule:
        step = 2
    elif "odd" in rule:
        step, offset = 2, 1
    elif of:
        step, offset = int(of), int(plus or 0)
    need((whole - offset) % step == 0, "working", f"{whole} is not {rule}: {clause!r}")
    off = whole - exact.middle
    if rule.startswith("rounded up"):
        need(-0.01 <= off < step + 0.01, "working", f"{whole} is not {rule} from {exact.middle:g}")
    elif rule.startswith("rounded down"):
        need(-step - 0.01 < off <= 0.01, "working", f"{whole} is not {rule} from {exact.middle:g}")
    else:
        need(abs(off) <= step / 2 + 0.01, "working", f"{whole} is not next to {exact.middle:g}")
    unit = [float(b or d) * (10 if c == "cm" else 1) if b or d else 100 / float(a)
            for a, b, c, d in UNIT.findall(clause)]
    if worth and unit:
        need(math.isclose(abs(off) * unit[-1], float(worth), abs_tol=0.06 + 0.006 * unit[-1]),
             "working", f"that is {abs(off) * unit[-1]:.1f} mm, not {worth}")
        need(abs(off) < 0.006 or (off > 0) == (which == "more"), "working", "the other way")
    return Range(whole, whole)
