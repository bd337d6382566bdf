"""Published cases put through the source: a pattern's text in, the counts of its data file out.

What is read here is what every reader of `counts.json` gets. Where a case is about the rows on
which something happens, the pieces that were proved with those counts are asked.
"""

from __future__ import annotations

import json
from fractions import Fraction
from itertools import groupby, pairwise
from typing import Any

import wardrobe
import yaml
from walebook.core.problems import has_errors
from walebook.pages.counts_json import counts_json
from walebook.pages.shared_by_pages import shared
from walebook.pattern.model import Pattern
from walebook.proof.proof import KnittedPiece, Proof, prove
from walebook.shape.piece import Piece
from walebook.shape.profile import Change, How
from walebook.source.pattern import read_pattern
from walebook.source.source import parse_source

from tests.small_sources import head

HEAD = head()


def swatch(stitches: object, rows: object, over: str = "10 cm") -> str:
    """A swatch that shows so many stitches and rows to a length, 20 times as large in counts."""
    length, unit = over.split()
    wide, high = (Fraction(str(count)) for count in (stitches, rows))
    scale = wide.denominator * high.denominator
    while wide * scale < 10 or high * scale < 10:
        scale *= 2
    side = Fraction(length) * scale
    return (f"{{stitches: {wide * scale}, width: {float(side):g} {unit}, "
            f"rows: {high * scale}, height: {float(side):g} {unit}}}")


def fabrics(**swatches: str) -> str:
    """Fabrics of the wool by name, each with its swatch."""
    return "fabrics:\n" + "".join(f"  {name}: {{yarn: wool, dial: 5, swatch: {shown}}}\n"
                                  for name, shown in swatches.items())


def garment(form: str, shown: str, measures: dict[str, object], **more: str) -> str:
    """A garment of one size in one fabric, with the measures given and the chart's for the rest."""
    return (HEAD + fabrics(body=shown) + more.pop("above", "")
            + f"sizes: [M]\ngarment:\n  form: {form}\n  fabric: body\n"
            + ("" if form == "panelled blanket" else "  chart: women\n")
            + "".join(f"  {key}: {value}\n" for key, value in more.items())
            + "  measures:\n" + "".join(f"    {k}: {v}\n" for k, v in measures.items()))


def own_outline(shown: str, measures: dict[str, str], pieces: dict[str, dict[str, Any]],
                **more: Any) -> str:
    """A garment of own pieces in one size and one fabric."""
    own = {"form": "own outline", "fabric": "body", "measures": measures, "pieces": pieces, **more}
    return HEAD + fabrics(body=shown) + yaml.safe_dump({"sizes": ["M"], "garment": own},
                                                       sort_keys=False)


def banded(edge: str, band: str, body: str, own: str = "") -> str:
    """A band along an edge, both as a source has them between braces."""
    swatches = {"body": body, **({"band": own} if own else {})}
    return (HEAD + fabrics(**swatches) + f"sizes: [M]\nedges:\n"
            f"  front: {{kind: pair of fronts, fabric: body, {edge}}}\n"
            f"bands:\n  front: {{title: Band, edge: front, {band}}}\n")


def read(text: str) -> Pattern:
    """The pattern that a source says. Fails with its findings where there are errors."""
    node, problems = parse_source(text, name="pattern.yaml")
    assert node is not None, problems
    charts = {"women": wardrobe.chart("women")}
    pattern, more = read_pattern(node, slug="case", beds={}, charts=charts)
    assert pattern is not None and not has_errors(more), [str(each) for each in more]
    return pattern


def proved(text: str) -> Proof:
    """The proof of a source. Fails with its findings where there are errors."""
    proof, problems = prove(read(text))
    assert proof is not None, [str(each) for each in problems]
    return proof


def counts(text: str) -> dict[str, dict[str, Any]]:
    """The counts of the one size by piece or band and by name, as the data file has them."""
    proof = proved(text)
    places = json.loads(counts_json(proof, shared(proof)))["counts"]["M"]
    return {place: {name: entry["value"] for name, entry in named.items()}
            for place, named in places.items()}


def piece(text: str, key: str) -> Piece:
    """A piece of the one size, as it was proved."""
    return knitted(text, key).piece


def knitted(text: str, key: str) -> KnittedPiece:
    """The same with its program and what the bed made of that."""
    return next(each for each in proved(text).sizes[0].pieces if each.piece.key == key)


def gaps(changes: tuple[Change, ...], how: How) -> list[tuple[int, int]]:
    """The rows between the changes of a kind: (every so many, so many times)."""
    rows = [0, *(c.row for c in changes if c.how is how)]
    return [(gap, len(list(same)))
            for gap, same in groupby(b - a for a, b in pairwise(rows))]


def held(changes: tuple[Change, ...]) -> list[int]:
    """The stitches of every step of a held shoulder, those held a row later counted to it."""
    steps: dict[int, int] = {}
    made = [change for change in changes if change.how is How.HOLD]
    for change in made:
        step = (change.row - made[0].row) // 2  # a step takes two rows
        steps[step] = steps.get(step, 0) + change.stitches
    return [steps[step] for step in sorted(steps)]
