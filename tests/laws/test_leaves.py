"""Where every leaf of a published expression comes from.

Reads counts.json alone. What a count is made of leads to the source, to a measure by its name, to a
gauge, to another count by its name, to what the bed counted, or to a constant of a rule.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from copy import deepcopy
from fractions import Fraction

import pytest

from tests.laws.recomputed import Tree
from tests.laws.test_expressions import listed, published
from tests.whole_collection import ROOT

MEASURES = {"measure": "mm", "measure that is a plain number": "number"}
PITCHES = {"width of a stitch", "width of a band stitch", "height of a row",
           "height of a band row", "stitches to a length", "rows to a length",
           "width or height of one"}
OF_FABRICS = {"mass of a stitch", "yarn in a stitch"}

TRIED = "figure that a search tries"

BED = {
    "counted on the bed": "rows, needles and stitches that the bed reads after its last step",
    "stitches counted on the bed": "the stitches of a fabric that the bed counted, for their yarn",
    "stitches in the second colour": "the stitches that the bed counted with the contrast yarn",
    "stitches in stripes": "the stitches that the bed counted with the yarn of a stripe",
    "needles that yarn is laid along": "the needles of the steps that the bed ran, for their yarn",
    "ends that are cut": "the ends of yarn in these steps, and those that seams are sewn with"}

CONSTANTS: dict[str, dict[Fraction, str]] = {
    "number": {
        Fraction(0): "none", Fraction(1): "one more or fewer, the least there is",
        Fraction(2): "two sides, two edges, every second row", Fraction(3): "a third of an armhole",
        Fraction(4): "a quarter, the least rows of a neck",
        Fraction(2, 5): "the share at the centre of an ellipse",
        Fraction(1, 4): "of the root by which a stair of steps is as high as its stitches allow",
        Fraction(6): "rows of a neck above the underarm", Fraction(1, 2): "half of a band's top",
        Fraction(3, 10): "the share of a neck that a side can take",
        Fraction(9, 10): "the share of a button that a slit is long",
        Fraction(55, 32): "how much longer than it lies a stitch of a buttonhole can be drawn",
        Fraction(1000): "metres in a kilometre"},
    "stitches": {Fraction(20): "how wide a piece is that is knitted first for a band",
                 Fraction(3): "of a facing at either open end, that are sewn down last"},
    "rows": {Fraction(1): "a row at the top of a raglan, or bound off a row later",
             Fraction(2): "from one row with shaping to the next, at the least",
             Fraction(20): "how high a piece is that is knitted first for a band"},
    "stitches for the seam": {Fraction(1): "a seam takes a stitch of each side"},
    "stitches for the seams": {Fraction(2): "a seam at both sides",
                               Fraction(1): "a seam at one of two sides"},
    "one stitch less than is covered": {Fraction(1): "a hole of so many needles"},
    "rows over what was held": {Fraction(1): "the row that closes the turns of a held neck"},
    "rows that join the hem": {Fraction(1): "the joining row", Fraction(2): "picots: a row more"},
    "girth to width of a circle": {Fraction(355, 113): "the circle"},
    "height to width": {Fraction(1): "a square corner"},
    "a centimetre": {Fraction(10): "millimetres in a centimetre"},
    "times as long as what it goes along": {
        Fraction(3): "sewn, drawn up, or bound off stitch over stitch",
        Fraction(4): "cast on, or a chain", Fraction(5): "a row by hand, without its stitches",
        Fraction(6): "round two gate pegs, or closely overcast",
        Fraction(8): "a hole that is closed and cast on again"},
    "a hand's length": {Fraction(150): "an end to hold"},
    "step of the lengths that are cut": {Fraction(50): "five centimetres"},
    "share": {Fraction(1, 2): "the margins of a swatch, half as much again"},
    "allowance factor": {Fraction(11, 10): "a tenth more yarn"}}

Bare = tuple[str, str, Fraction]  # role, the name of the count, value


def leaves(tree: Tree) -> Iterator[Tree]:
    """The operands of an expression; of a search not the figures that its candidates are weighed
    by."""
    if tree["is"] == "operand":
        yield tree
    weighed = tree.get("rule", "").startswith("of all but the first")
    for key in ("of", "candidates") if weighed else ("of", "candidates", "given"):
        for one in listed(tree.get(key, [])):
            yield from leaves(one)


def tried_elsewhere(tree: Tree, *, sought: bool = False) -> Iterator[Tree]:
    """The figures that a search tries which stand in none."""
    if tree["is"] == "operand" and tree["role"] == TRIED and not sought:
        yield tree
    for key in ("of", "candidates", "given"):
        here = sought if key == "of" else \
            key == "candidates" and tree.get("rule", "").startswith("of all but the first")
        for one in listed(tree.get(key, [])):
            yield from tried_elsewhere(one, sought=here)


def counted(document: Tree) -> Iterator[tuple[str, dict[str, Tree], str, Tree]]:
    """Every count: its size, the counts beside it, its name and itself."""
    for part in ("counts", "yarn"):
        for size, places in document.get(part, {}).items():
            for named in places.values():
                for name, count in named.items():
                    yield size, named, name, count
    for size, named in document["materials"].items():
        for name, count in named.items():
            yield size, named, name, count


def pitches(document: Tree) -> set[Fraction]:
    """The width of a stitch and the height of a row of every fabric, and one over each."""
    own = {Fraction(gauge[name]["mm"]) for gauge in document["gauges"].values()
           for name in ("stitch", "row")}
    return own | {1 / one for one in own}


def figures_of_schedules(document: Tree, size: str) -> dict[str, Tree]:
    """Every figure of every schedule of a size by its whole name: "front.neck.steps.0"."""
    found = {}
    for piece, named in document["schedules"].get(size, {}).items():
        for name, schedule in named.items():
            found |= {f"{piece}.{name}.{key}": one for key, one in schedule.items()
                      if isinstance(one, dict)}
            found |= {f"{piece}.{name}.steps.{n}": one
                      for n, one in enumerate(schedule.get("steps", ()))}
    return found


def bare(document: Tree) -> Iterator[Bare]:
    """The leaves that lead nowhere."""
    gauges = pitches(document)
    scheduled_ = {size: figures_of_schedules(document, size) for size in document["sizes"]}
    for size, own, name, count in counted(document):
        beside = own | scheduled_[size]
        measures = document.get("measures", {}).get(size, {})
        for tree in listed(count["expression"]):
            for leaf in leaves(tree):
                if not leads(leaf, measures, gauges, beside):
                    yield leaf["role"], name, Fraction(leaf["value"])


def scheduled(document: Tree) -> Iterator[tuple[str, dict[str, Tree], str, Tree]]:
    """Every figure and step of every schedule: its size, its named figures and the counts of its
    piece, what it is, and itself."""
    for size, places in document["schedules"].items():
        for piece, named in places.items():
            for name, schedule in named.items():
                own = {key: one for key, one in schedule.items()
                       if isinstance(one, dict) and "expression" in one}
                beside = document["counts"][size].get(piece, {}) | {
                    f"{name}.{key}": one for key, one in own.items()}
                yield from ((size, beside, key, one) for key, one in own.items())
                yield from ((size, beside, f"step {n}", one)
                            for n, one in enumerate(schedule.get("steps", ())))


def bare_in_schedules(document: Tree) -> Iterator[Bare]:
    """The leaves of schedules that lead nowhere; a number by which a step is counted off is its
    place among the steps, or that of the step before it."""
    gauges = pitches(document)
    for size, beside, name, count in scheduled(document):
        at = int(name.removeprefix("step ")) if name.startswith("step ") else None
        for leaf in leaves(count["expression"]):
            counted_off = at is not None and leaf["role"] == "number" and Fraction(
                leaf["value"]) in (at, at - 1)
            if not counted_off and not leads(leaf, document["measures"][size], gauges, beside):
                yield leaf["role"], name, Fraction(leaf["value"])


def bare_in_joins(document: Tree) -> Iterator[Bare]:
    """The leaves of both sides of joins that lead nowhere."""
    gauges = pitches(document)
    for size, named in document.get("joins", {}).items():
        beside, measures = figures_of_schedules(document, size), document["measures"][size]
        for title, join in named.items():
            for leaf in (*leaves(join["one"]["expression"]), *leaves(join["other"]["expression"])):
                if not leads(leaf, measures, gauges, beside):
                    yield leaf["role"], title, Fraction(leaf["value"])


def leads(leaf: Tree, measures: Tree, gauges: set[Fraction], beside: dict[str, Tree]) -> bool:
    """Whether a leaf has a place, or a name under which its figure is published."""
    role, figure, name = leaf["role"], Fraction(leaf["value"]), leaf.get("name", "")
    if "source" in leaf or role in BED or role in OF_FABRICS or role == TRIED:
        return True
    if role == "place among the holes":
        return figure < beside["buttonholes"]["value"]
    if role in MEASURES:
        return MEASURES[role] in measures.get(name, ())
    if role in PITCHES:
        return figure in gauges
    if name in beside:
        return figure == beside[name]["value"]
    return figure in CONSTANTS.get(role, ())


OPEN: dict[str, dict[str, str]] = {}
"""Leaves without a name, by what they are: the role, and the counts in which it stands."""

OPEN_IN_SCHEDULES: set[tuple[str, Fraction]] = set()
"""Leaves of schedules that lead nowhere, role and figure: none."""

CAP = ("sleeve cap and armhole", "left sleeve cap and armhole")
OPEN_IN_JOINS = {
    *((role, title) for role in ("number", "rows", "stitches") for title in CAP),
    *((role, "placket bands, their depth and the width of the slit")
      for role in ("depth of the front bands", "stitches inside the bands"))}
"""Leaves of joins that lead nowhere, by role and join."""

OPEN_AT_MOST = 0  # counts with such a leaf; may only shrink


def still_open() -> set[tuple[str, str]]:
    return {(role, name) for roles in OPEN.values() for role, names in roles.items()
            for name in names.split()}


def found() -> set[tuple[str, str]]:
    """The leaves of the collection that lead nowhere, by role and count."""
    return {(role, name) for document in published().values()
            for role, name, _ in bare(document)}


def test_every_leaf_leads_to_the_source_to_a_name_or_to_a_rule() -> None:
    assert found() - still_open() == set()


def test_the_open_leaves_only_shrink() -> None:
    assert still_open() - found() == set(), "no longer bare: take it off the list"
    assert len(still_open()) <= OPEN_AT_MOST


def test_every_leaf_of_a_schedule_leads_to_a_name_or_to_a_rule() -> None:
    found = {(role, figure) for document in published().values()
             for role, name, figure in bare_in_schedules(document)}
    assert not found - set(OPEN_IN_SCHEDULES)
    assert not set(OPEN_IN_SCHEDULES) - found, "no longer bare: take it off the list"


def test_every_leaf_of_a_join_leads_somewhere_but_for_caps_and_placket_bands() -> None:
    found = {(role, title) for document in published().values()
             for role, title, _ in bare_in_joins(document)}
    assert found == OPEN_IN_JOINS


def test_what_a_search_tries_stands_among_its_candidates() -> None:
    """Each beside what it costs; `recomputed.py` chooses among them again."""
    lost = [(slug, name) for slug, document in published().items()
            for _, _, name, count in (*counted(document), *scheduled(document))
            for tree in listed(count["expression"]) if any(tried_elsewhere(tree))]
    assert not lost
    sum_ = {"is": "sum", "of": [{"is": "operand", "role": TRIED, "value": "7"}]}
    assert any(tried_elsewhere(sum_))


# To what a unit of the source comes in that of the role: mm, m or g.
WORTH = {"mm": Fraction(1), "cm": Fraction(10), "m": Fraction(1000), "in": Fraction(254, 10),
         "g": Fraction(1), "": Fraction(1), "%": Fraction(1, 100)}
LENGTHS = {"length", "length that the source states", "button", "cord", "length of a package"}
WHOLE = {"figure of the source", "holes that the source asks for", "mass of a package"}
FIGURE = re.compile(r"([-−]?\d+(?:\.\d+)?(?:/\d+)?)(?:st|nd|rd|th)?"
                    r"(?: ?((?:mm|cm|m|in|g)\b|%)|\b)")
SPELT = {"once": 1, "twice": 2, "every row": 1, "every other": 2}


def written_at(place: Tree) -> set[Fraction]:
    """The figures that stand on a line of a source from a place on, each by its unit, and how many
    are listed there."""
    rest = (ROOT / place["file"]).read_text(encoding="utf-8").splitlines()[place["line"] - 1]
    rest = rest[place["column"] - 1:]
    found = FIGURE.findall(rest) + [(str(one), "") for words, one in SPELT.items() if words in rest]
    if "[" in rest:
        found.append((str(rest.partition("[")[2].partition("]")[0].count(",") + 1), ""))
    figures = {Fraction(figure.replace("−", "-")) * WORTH[unit] for figure, unit in found}
    return figures | {-one for one in figures}


def misplaced() -> Iterator[tuple[str, str, str, int]]:
    """Lengths and whole numbers with a place in the source at which another figure stands."""
    for slug, document in published().items():
        for _, _, name, count in (*counted(document), *scheduled(document)):
            for leaf in (leaf for tree in listed(count["expression"]) for leaf in leaves(tree)):
                role, figure = leaf["role"], Fraction(leaf["value"])
                if "source" not in leaf or role not in LENGTHS | WHOLE:
                    continue
                if role == "length of a package":
                    figure *= 1000
                if figure not in written_at(leaf["source"]):
                    yield slug, role, name, leaf["source"]["line"]


def test_at_its_place_in_the_source_a_figure_is_written() -> None:
    assert not set(misplaced())


def misnamed(document: Tree) -> Iterator[tuple[str, str]]:
    """The plain numbers that have the name of a count beside them, and another figure."""
    for _, beside, name, count in counted(document):
        for leaf in (leaf for tree in listed(count["expression"]) for leaf in leaves(tree)):
            if leaf["role"] == "number" and (one := beside.get(leaf.get("name", ""))) \
                    and Fraction(leaf["value"]) != one["value"]:
                yield name, leaf["name"]


def test_a_number_with_the_name_of_a_count_has_its_figure() -> None:
    assert not [(slug, *each) for slug, document in published().items()
                for each in misnamed(document)]


def test_what_is_listed_is_met() -> None:
    """No role of the bed or of a rule is listed that nothing is published with."""
    met = {(leaf["role"], Fraction(leaf["value"])) for document in published().values()
           for _, _, _, count in (*counted(document), *scheduled(document))
           for tree in listed(count["expression"]) for leaf in leaves(tree)}
    roles = {role for role, _ in met}
    assert {*BED} <= roles
    assert {(role, figure) for role, figures in CONSTANTS.items() for figure in figures} <= met


def test_a_measure_without_a_place_is_found_by_its_name() -> None:
    """In counts, lengths and joins alike: under `measures`, with the same figure."""
    seen, lost = 0, []
    for slug, document in published().items():
        for size, tree in measured(document):
            if "source" in tree:
                continue
            seen += 1
            one = document["measures"][size].get(tree["name"], {})
            figure = one.get(MEASURES[tree["role"]])
            if figure is None or abs(Fraction(figure) - Fraction(tree["value"])) > Fraction(1, 200):
                lost.append((slug, size, tree["name"]))
    assert seen > 2000 and not lost


def measured(document: Tree) -> Iterator[tuple[str, Tree]]:
    """The measures in all expressions of a document, each with its size."""
    trees = [(size, tree) for size, _, _, count in counted(document)
             for tree in listed(count["expression"])]
    trees += [(size, one["expression"]) for part in ("lengths", "measures")
              for size, named in document.get(part, {}).items() for one in named.values()]
    trees += [(size, join[side]["expression"]) for size, named in document.get("joins", {}).items()
              for join in named.values() for side in ("one", "other")]
    for size, tree in trees:
        yield from ((size, leaf) for leaf in leaves(tree) if leaf["role"] in MEASURES)


def first_leaf(document: Tree, role: str) -> Tree:
    return next(leaf for _, _, _, count in counted(document) for tree in listed(
        count["expression"]) for leaf in leaves(tree)
        if leaf["role"] == role and "source" not in leaf)


@pytest.mark.parametrize(("role", "change"), [
    ("measure", {"name": "nowhere"}), ("height of a row", {"value": "7"}),
    ("counted on the bed", {"role": "rows"}), ("rows that join the hem", {"value": "5"}),
    ("number", {"value": "97", "name": ""}), ("stitches for the seams", {"role": "stitches"})])
def test_a_leaf_that_leads_nowhere_is_noticed(role: str, change: dict[str, str]) -> None:
    document = deepcopy(published()["bollard-slipover"])
    before = set(bare(document))
    first_leaf(document, role).update(change)
    assert set(bare(document)) - before
