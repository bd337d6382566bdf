"""The reader refuses pages with one thing wrong: at least 95 of 100, no kind under 85 of 100."""

from __future__ import annotations

import re
from collections import Counter

import pytest

from tests.reader import page, spoiling
from tests.reader.visible import Section, sections

# Why a spoiled page may pass: what was changed there says nothing that anything else on the page
# depends on, or is as true as before. A survivor outside these is counted, and must stay rare.
ARGUED = {
    "a stitch goes to its other neighbour": r"onto the needle beside it on the (?:left|right)",
    "an eyelet leans to the other side": r"^Row \d.* one needle to the (?:left|right)\.",
    "the dial is set before or after the counter or a thread": r"Set the (?:dial|row counter)|"
                                                               r"Set both dials|^Thread the",
    "a hand's work is told a sentence earlier or later": r"Darn in|Sew |Block |Join |Work ",
    "a figure that stands once, in a working of words": r"nearest ratio|be changed|Buttonholes: |"
                                                        r"Cap rows|allowed|filled in|upwards",
    "metres of waste yarn and the bed's own width": r"Waste yarn for|written for",
}


def read_in(pages: dict[str, str], readings: dict[str, page.Reading], count: int,
            seed: int) -> tuple[Counter[str], list[tuple[str, spoiling.Spoiled]]]:
    """So many spoiled pages read: how many of each kind there were, and which were not refused."""
    parts: dict[str, list[Section]] = {name: sections(text) for name, text in pages.items()}
    whole = {name: Counter(map(str, reading.faults)) for name, reading in readings.items()}
    made: Counter[str] = Counter()
    survivors = []
    for name, one in spoiling.spoiled_pages(parts, count, seed):
        made[one.kind] += 1
        if not Counter(map(str, page.read_parts(one.parts).faults)) - whole[name]:
            survivors.append((name, one))
    return made, survivors


def told(survivors: list[tuple[str, spoiling.Spoiled]]) -> str:
    """The survivors by kind, each with the reason why it may pass."""
    lines = []
    for name, one in sorted(survivors, key=lambda pair: pair[1].kind):
        text = f"{one.before} {one.after}"
        reason = next((why for why, words in ARGUED.items() if re.search(words, text)), "?")
        lines.append(f"{one.kind}: {name}, {one.section}: {one.before[:160]!r} => "
                     f"{one.after[:160]!r}: {reason}")
    return "\n".join(lines)


def held(made: Counter[str], survivors: list[tuple[str, spoiling.Spoiled]], least: int) -> None:
    """At least 95 of 100 are refused, and of no kind fewer than the least of 100."""
    passed = Counter(one.kind for _, one in survivors)
    assert set(made) == set(spoiling.KINDS)
    assert len(survivors) <= 0.05 * made.total(), told(survivors)
    few = {kind: passed[kind] for kind in made if 100 * passed[kind] > (100 - least) * made[kind]}
    assert not few, f"{few}\n{told(survivors)}"


def test_spoiled_pages_are_refused(
        pages: dict[str, str], readings: dict[str, page.Reading]) -> None:
    """150 by a seed: ten of each kind, of which two may pass."""
    held(*read_in(pages, readings, 150, 3), 80)


@pytest.mark.long
def test_thousands_of_spoiled_pages_are_refused(
        pages: dict[str, str], readings: dict[str, page.Reading]) -> None:
    made, survivors = read_in(pages, readings, 2000, 2)
    print(told(survivors))
    held(made, survivors, 85)
