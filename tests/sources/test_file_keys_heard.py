"""Every key of a bed file and of a size chart is heard: another value makes other pages.

As in test_keys_heard.py, and by the same door: the file is read, and a pattern that names it is
knitted and published. A key that changes nothing is listed with the reason.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from functools import cache
from typing import Any

import pytest
import yaml
from declared import ALL, CARDIGAN, HERE, Source, around, whole, written
from test_declared_keys import beds, charts
from test_keys_heard import TITLE
from walebook.core.problems import Problem, has_errors
from walebook.pages import write_pages
from walebook.proof.texts import Site, Texts, prove_texts
from walebook.source.keys.key import Keys
from walebook.source.keys.pattern_keys import BedFileKeys
from walebook.source.keys.size_chart_keys import ChartFileKeys
from walebook.source.pattern import read_bed
from walebook.source.size_chart import read_chart
from walebook.source.source import Node, parse_source

Pages = tuple[str, ...]
REFUSED: Pages = ("refused",)
RIB = {"kind": "two-bed rib", "rib": "2x2", "depth": "5 cm"}
CHEST = {"cm": {"S": "81–86", "M": "91.5–96.5"}, "in": {"S": "32–34", "M": "36–38"}}
WOMEN = yaml.load((HERE / "women.yaml").read_text(encoding="utf-8"), yaml.BaseLoader)


def node_of(source: Source) -> Node:
    node, faults = parse_source(written(source), name="file")
    assert node is not None, faults
    return node


def published(pattern: Source, found: tuple[Problem, ...], **shelf: Any) -> Pages:
    """All that is published of a pattern that is knitted with such a file, and found in it."""
    texts = Texts(slug="trial", source=written({**whole(TITLE, {}), **pattern}),
                  pictures={"front.png": ""})
    site = Site(is_page=lambda path: True, has_anchor=lambda proof, name: True)
    proof, more = prove_texts(texts, **{"beds": beds(), "charts": charts(), **shelf}, site=site)
    if proof is None or has_errors((*found, *more)):
        return REFUSED
    return (*map(str, more), *(page.text for page in write_pages(proof)))


def on_bed(given: Source, **garment: Any) -> Pages:
    """The pages of a cardigan on the bed of a file."""
    bed, found = read_bed(node_of({**around()["BedFileKeys"], "needles": "400", **given}),
                          name="own")
    return published({"bed": "own", "garment": {**CARDIGAN, **garment}}, found,
                     beds={"own": bed})


def ribbed_on_bed(given: Source) -> Pages:
    """The pages of a cardigan with a hem that takes a pair of beds."""
    return on_bed(given, hem=RIB)


def by_chart(given: Source) -> Pages:
    """The pages of a cardigan in two sizes by the chart of a file, whose inches are rounded."""
    return _by_chart(json.dumps(given))


def for_anyone(given: Source) -> Pages:
    """The pages of the same cardigan in a pattern for anyone."""
    return _by_chart(json.dumps(given), "anyone")


@cache
def _by_chart(said: str, wearer: str = "women") -> Pages:
    given = json.loads(said)
    file = {**around()["ChartFileKeys"], "sizes": ["S", "M"], "remarks": [remark()], **given}
    rows = {name: {"cm": {size: row["cm"][size] for size in file["sizes"]},
                   "in": {size: in_inches(row["cm"][size]) for size in file["sizes"]}}
            for name, row in WOMEN["measurements"].items()}
    file["measurements"] = {**rows, **given.get("measurements", {})}
    chart, found = read_chart(node_of(file), key="own")
    return published({"sizes": ["S", "M"], "wearer": wearer,
                      "garment": {**CARDIGAN, "chart": "own"}}, found,
                     charts={"own": chart})


def in_inches(span: str) -> str:
    """Figures in centimetres in inches, to a quarter."""
    return "–".join(str(round(float(end) / 2.54 * 4) / 4) for end in span.split("–"))


def remark(**more: Any) -> Source:
    return {"text": "Friends are tall. They are.", "source": "Wren Ashdown", **more}


def chest(unit: str = "cm", **changes: Any) -> Source:
    """A chart whose figures in `unit` hold, with what it has of the chest."""
    return {"authority": unit, "measurements": {"chest": {**CHEST, **changes}}}


def mended(unit: str, figures: str, how: str = "measured anew", **more: Any) -> Source:
    """The same with the figures for M put right."""
    return chest(unit, mended={"M": {unit: figures, "how": how}}, **more)


def filled(unit: str, figures: str, how: str = "from friends") -> Source:
    """The same with no figure for M in print, and one filled in."""
    return chest(unit, **{unit: {"S": CHEST[unit]["S"]}},
                 filled={unit: {"M": figures}, "how": how})


def remarked(**more: Any) -> Source:
    return {"remarks": [remark(**more)]}


Made = tuple[Callable[[Source], Pages], Source, Source]
DIFFERING: dict[type[Keys], dict[str, Made]] = {
    BedFileKeys: {
        "pitch": (on_bed, {"pitch": "9 mm"}, {"pitch": "8 mm"}),
        "needles": (on_bed, {}, {"needles": "60"}),
        "second_bed": (ribbed_on_bed, {"second_bed": "yes"}, {"second_bed": "no"})},
    ChartFileKeys: {
        "title": (by_chart, {"title": "Sizes"}, {"title": "Other sizes"}),
        "publisher": (by_chart, {"publisher": "Lantern Quay"}, {"publisher": "Ash Quay"}),
        "source": (by_chart, {"source": "friends", **mended("cm", "92–97")},
                   {"source": "others", **mended("cm", "92–97")}),
        "authority": (by_chart, chest("cm"), chest("in")),
        "sizes": (by_chart, {}, {"sizes": ["S"]}),
        "ages": (for_anyone, {"ages": {"S": "child"}}, {"ages": {"S": "adult"}}),
        "measurements.label": (by_chart, chest(label="bust"), chest(label="around the bust")),
        "measurements.source": (by_chart, mended("cm", "92–97", source="friends"),
                                mended("cm", "92–97", source="others")),
        "measurements.cm": (by_chart, chest(), chest(cm={"S": "81–86", "M": "92–97"})),
        "measurements.in": (by_chart, chest("in"), chest("in", **{"in": {"S": "32–34",
                                                                        "M": "37–38"}})),
        "measurements.mended.cm": (by_chart, mended("cm", "92–97"), mended("cm", "92–98")),
        "measurements.mended.in": (by_chart, mended("in", "36–37"), mended("in", "37–38")),
        "measurements.mended.how": (by_chart, mended("cm", "92–97"), mended("cm", "92–97", "so")),
        "measurements.filled.cm": (by_chart, filled("cm", "92"), filled("cm", "94")),
        "measurements.filled.in": (by_chart, filled("in", "36"), filled("in", "37")),
        "measurements.filled.how": (by_chart, filled("cm", "92"), filled("cm", "92", "so")),
        "remarks.short": (by_chart, remarked(short="Tall"), remarked(short="Long")),
        "remarks.text": (by_chart, remarked(), remarked(text="Friends are short.")),
        "remarks.source": (by_chart, remarked(), remarked(source="Isolde Penhallow")),
        "remarks.rows": (by_chart, remarked(rows=["chest"]), remarked(rows=["waist"])),
        "remarks.sizes": (by_chart, remarked(sizes=["S"]), remarked(sizes=["M"]))}}
# What stands in a file for whoever uses it, and is printed on no page.
UNHEARD = {BedFileKeys: {"source"},
           ChartFileKeys: {"url", "version", "read", "measurements.how"}}
KEYS = [(root, str(one)) for root in DIFFERING for one in ALL
        if one.root is root and one.key.table is None]


REFUSING = {"needles", "second_bed", "sizes"}  # heard where a pattern can no longer be knitted


@pytest.mark.parametrize(("root", "name"), KEYS, ids=[f"{r.__name__} {n}" for r, n in KEYS])
def test_a_key_of_a_file_for_several_patterns_is_heard(root: type[Keys], name: str) -> None:
    if name in UNHEARD[root]:
        made, below = on_bed if root is BedFileKeys else by_chart, name.rpartition(".")[2]
        first, second = ((chest(**{below: text}) if "." in name else {below: text})
                         for text in ("Some words", "Other words"))
    else:
        made, first, second = DIFFERING[root][name]
    usual, other = made(first), made(second)
    assert usual != REFUSED and (other == REFUSED) is (name in REFUSING)
    assert (usual != other) is (name not in UNHEARD[root])
