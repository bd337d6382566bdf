"""What a page may name: buttons, zips, seams, neckbands and cords, only where its size has them.

What a size has is read from its source and its programs, not from what the pages take it from.
"""

from __future__ import annotations

import re
from html import unescape

from walebook.machine.steps import Attend, HandKnit
from walebook.pattern.model import Pattern
from walebook.proof.proof import SizeProof
from walebook.words.instruction import works

WORDS = {"buttons": r"\bbutton", "zip": r"\bzips?\b", "seam": r"\bseams?\b",
         "neckband": r"\bneckband", "front band": r"\bfront bands?\b", "cord": r"\bcords?\b",
         "clip": r"\bclips?\b"}


def has(pattern: Pattern, size: SizeProof) -> set[str]:
    """What a size has, of what `WORDS` names."""
    bands = [plan.band for plan in size.plans]
    programs = [work.program for work in works(size)]
    corded = any(p.cord_yarn for p in programs) or any(
        isinstance(step, HandKnit) and step.cord for p in programs for step in p.steps)
    worn = (pattern.garment and pattern.garment.cord) or any(band.cord for band in bands)
    facts = {"buttons": any(band.buttonholes for band in bands),
             "zip": any(band.zip for band in bands),
             "neckband": any(_called(band.title, band.edge, "neck") for band in bands),
             "front band": any(_called(band.title, band.edge, "front") for band in bands),
             # a band without pieces may end in a seam of the garment that it is for; one that is
             # knitted lengthwise is sewn on by a seam
             "seam": bool(size.assembled and size.assembled.garment.joins) or any(
                 plan.part or len(plan.strips) > 1 or plan.edge_path.ring or plan.is_lengthwise
                 or plan.band.kind == "casing"
                 for plan in size.plans),
             "cord": bool(corded or worn),
             "clip": any(isinstance(step, Attend) and step.to == "clip ends"
                         for p in programs for step in p.steps)}
    return {name for name, true in facts.items() if true}


def _called(title: str, edge: str, word: str) -> bool:
    return word in edge.replace("_", " ") or f"{word}band" in title.lower().replace(" ", "")


def named_without(pattern: Pattern, size: SizeProof, page: str) -> list[str]:
    """Every place where a page names what its size has not, with some words around it.

    What the designer wrote, titles and names, is taken out before, and the facts for scripts, which
    no reader sees.
    """
    shown = re.sub(r"<script\b.*?</script>", "", page.split("---\n", 2)[-1], flags=re.S)
    said = " ".join(unescape(re.sub(r"<[^>]*>", " ", shown)).split())
    for own in (pattern.title, pattern.designer, pattern.licence,
                *(band.title for band in pattern.bands.values()),
                *(yarn.name for yarn in pattern.yarns.values())):
        said = said.replace(own, "…")
    said = said.replace("in no seam", "…")  # an edge that is bare
    absent = WORDS.keys() - has(pattern, size)
    return [f"{name}: {said[max(0, m.start() - 60):m.end() + 30]}" for name in sorted(absent)
            for m in re.finditer(WORDS[name], said, re.IGNORECASE)]
