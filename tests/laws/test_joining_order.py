"""One order of joining a folded hem or band, told alike by the technique pages and the size pages.

The cord is drawn after the joining row: Hems, clearwaterknits.com (W3-001); Cut and sew neckbands,
longbuckbymk.com (W3-002); "Band aid", Machine Knitting Monthly (W3-032). The needles stand forward
in that row: Mock rib hem, myknittingmachinesandme.wordpress.com, 2009 (W3-003).
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from walebook.pattern.model import Fold

from tests.site.garments import assembled
from tests.site.quay_lamp import PATTERNS, built, proved, steps_of, where

TECHNIQUES = Path(__file__).parents[2] / "site_src" / "techniques"
HEM = {"weights off": r"weights off", "fold up": r"fold the hem up", "half loop": r"half loop",
       "looser dial": r"one number looser|for the joining row only",
       "forward": r"bring all needles in work fully forward", "join": r"knit (?:one|1) row\b",
       "cord": r"draw out the ravel cord", "weights on": r"hang the weights on again",
       "piece's dial": r"set the dial for the piece|, for the piece"}
BAND = {"fold up": r"fold the band (?:or hem )?up", "half loop": r"take .*half loop|half loop at",
        "join": r"knit the joining row|knit one loose row by hand",
        "cord": r"draw out the ravel cord"}
CHAINED = {"loose row": r"take the yarn out of the feeder|knit one loose row by hand",
           "cord": r"draw out the ravel cord",
           "chain": r"chain the stitches off|chain off the stitches|put the latch tool"}
TAG = re.compile(r"<[^>]+>")


def technique(page: str) -> list[str]:
    """The numbered steps of a technique page, without marks."""
    told = (TECHNIQUES / page).read_text(encoding="utf-8")
    told = told.split("{ #steps }")[1].split("\n## ")[0].replace("**", "")
    told = re.sub(r"\[([^\]]*)\]\([^)]*\)", r"\1", told)
    return [" ".join(each.split()).lower() for each in re.split(r"^\d+\. ", told, flags=re.M)[1:]]


def sentences(steps: list[str]) -> list[str]:
    """The sentences of steps, in small letters: one step may tell several things."""
    plain = (" ".join(TAG.sub("", step).split()).lower() for step in steps)
    return [said for step in plain for said in re.split(r"(?<=[.:]) ", step)]


def size_sentences(page: str) -> list[str]:
    return sentences(re.findall(r"<li id=\"[a-z-]+\d+\">(.*?)</li>\n", page, re.S))


def order(steps: list[str], stages: dict[str, str], start: str) -> list[str]:
    """The stages in the order of the steps that tell them, from `start` on, each once."""
    found: list[str] = []
    for step in steps:
        for stage, words in stages.items():
            if re.search(words, step) and stage not in found and (found or stage == start):
                found.append(stage)
    return found


def hems_of(page: str) -> list[list[str]]:
    """The sentences from the weights off before a hem is folded up to the end of its section."""
    told = size_sentences(page)
    out = []
    for up in (n for n, said in enumerate(told) if said.startswith("fold the hem up")):
        before = [n for n in range(up) if re.search(HEM["weights off"], told[n])]
        assert before, f"no sentence is {HEM['weights off']!r}: of a reworded one say so in HEM"
        start = before[-1]
        end = next(n for n in range(up, len(told)) if "for the piece" in told[n])
        out.append(told[start:end + 1])
    return out


def hem_pages() -> list[str]:
    """The size pages of a pullover with hung hems, and of one whose hems are picot."""
    return [page for fold in (Fold.LOOSE, Fold.PICOT)
            for path, page in built(assembled("drop-shoulder pullover", hem=fold)).items()
            if path.endswith("/s.md")]


def test_a_hung_hem_is_joined_in_one_order() -> None:
    taught = order(technique("hung-hem.md"), HEM, "weights off")
    assert taught == list(HEM)
    for page in hem_pages():
        told = hems_of(page)
        assert len(told) >= 3
        assert all(order(steps, HEM, "weights off") == taught for steps in told)


@pytest.mark.parametrize("stage", [stage for stage in HEM if stage != "weights off"])
def test_a_stage_left_out_or_told_too_early_is_seen(stage: str) -> None:
    told = hems_of(hem_pages()[0])[0]
    at = next(n for n, said in enumerate(told) if re.search(HEM[stage], said))
    others = [*told[:at], *told[at + 1:]]
    assert order(others, HEM, "weights off") != list(HEM)
    before = [stage for stage in HEM if any(re.search(HEM[stage], said) for said in told[1:at])]
    if before:
        early = [told[0], told[at], *told[1:at], *told[at + 1:]]
        assert order(early, HEM, "weights off") != list(HEM)


def test_a_band_knitted_apart_is_closed_in_one_order() -> None:
    taught = order(technique("hanging-first-row.md"), BAND, "fold up")
    assert taught == list(BAND)
    closing = order(technique("loose-row-and-chain-off.md"), CHAINED, "loose row")
    assert closing == list(CHAINED)
    for pattern in PATTERNS.values():
        told = steps_of(proved(pattern))
        starts = where(told, "Fold the band up towards you")
        assert len(starts) == 2
        for start in starts:
            last = sentences(told[start:start + 4])
            assert order(last, BAND, "fold up") == taught
            assert order(last, CHAINED, "loose row") == closing
