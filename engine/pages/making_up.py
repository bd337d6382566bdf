"""Making up: the order of work after knitting, with the figures that both sides of a seam have."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

from ..machine.programs import Program
from ..machine.steps import Attend
from ..markup.html import block, esc, heading, items, link, shown_once
from ..shape.garment import Garment, Join
from ..words.joins import JOINED, MARKS_OUT, join_said, shoulders_worn
from ..words.page_headings import MAKING_UP


def making_up(garment: Garment, programs: Iterable[Program] = ()) -> str:
    """Return the section: a numbered sentence each, its joins with what either side has.

    What the `programs` of the pieces tie into edges is taken out at the end.
    """
    ties = any(isinstance(step, Attend) and step.to == "mark edges"
               for program in programs for step in program.steps)
    told = _by_sentence(garment.making_up, garment.joins) + [(MARKS_OUT, [])] * ties
    body = shown_once("".join(
        f'<li id="make-up-{n}"><p>{esc(sentence)}{_more(sentence)}</p>'
        f'{items(map(join_said, joins), "wb-holes")}'
        "</li>\n" for n, (sentence, joins) in enumerate(told, 1)))
    turned = f"<p>{shoulders_worn(garment.joins)}</p>\n" if _has_shoulders(garment) else ""
    return heading(2, MAKING_UP, "making-up") + block(
        f'{turned}<ol class="wb-steps">\n{body}</ol>')


# What a sentence of the making up tells to do, and the page that shows it.
_SHOWN = (("block", "techniques/blocking", "How to block"),
          ("bind them off as one", "techniques/joining-shoulders", "How to join shoulders"),
          ("graft", "techniques/grafted", "How to graft"),
          ("back-stitch", "techniques/back-stitched", "How to back-stitch"),
          ("set in the sleeve", "techniques/setting-in-a-sleeve", "How to set in a sleeve"),
          ("seam", "techniques/mattress-seam-by-rows", "How to sew row to row"),
          ("row to row", "techniques/mattress-seam-by-rows", "How to sew row to row"),
          ("foot of the slit", "bands/placket", "About plackets"),
          ("tied into an edge", "techniques/markers", "How to take markers out"),
          ("crown", "techniques/gathering-a-crown", "How to gather a crown"))


# What is done to the two sides of a join.
_SEWN = r"\b(?:sew|join|graft|back-stitch|set)\b"


def _more(sentence: str) -> str:
    """Links to the techniques that a sentence names, where it tells more than to work a band."""
    said = sentence.lower()
    if said.startswith("work") and not re.search(_SEWN, said):
        return ""
    shown = dict.fromkeys((page, label) for word, page, label in _SHOWN if word in said)
    return "".join(f" {link(f'../../{page}.html', label, 'wb-how')}" for page, label in shown)


def _has_shoulders(garment: Garment) -> bool:
    return any("shoulder" in name for piece in garment.pieces for name in piece.waits)


def _by_sentence(sentences: Sequence[str], joins: Sequence[Join]
                 ) -> list[tuple[str, list[Join]]]:
    """Each sentence with the joins that are made in it; what no sentence names comes last."""
    told: list[tuple[str, list[Join]]] = [(sentence, []) for sentence in sentences]
    left = []
    for join in joins:
        made = [_is_made_in(join, sentence) for sentence in sentences]
        if any(made):
            told[made.index(max(made))][1].append(join)
        else:
            left.append(join)
    return told + ([(JOINED, left)] if left else [])


def _is_made_in(join: Join, sentence: str) -> int:
    """How surely a join is made in a sentence: not at all (0), where it tells to sew one of the
    two sides that the join is called by (1), or both of them (2). A seam is called by its whole
    name: shoulders that are hung "right sides together" are no side seam."""
    one, _, other = join.title.partition(",")[0].lower().partition(" and ")
    first, *_, last = one.split() * 2
    said = sentence.lower()
    if said.startswith("back-stitch the top of"):
        return 0  # an edge of one piece
    if not _names(rf"{first}\b[^.]*\bseam" if last == "seam" else first, said):
        return 0
    return 2 if other and _names(other.split()[-1], said) else 1


def _names(word: str, said: str) -> bool:
    """True where `said` tells to sew or join something and names `word` after it."""
    return re.search(rf"{_SEWN}.*\b{word}", said) is not None
