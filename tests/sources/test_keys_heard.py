"""Every key that is read is heard: another value prints other pages, or other counts.

That a key is read is held by test_declared_keys; here its value must reach a reader of the pages. A
key that changes nothing is listed with the reason.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache
from typing import Any

import pytest
from declared import ALL, CARDIGAN, Declared, around, in_place, value_of, whole, written
from test_declared_keys import beds, charts
from walebook.core.problems import has_errors
from walebook.pages import page_names, write_page
from walebook.pages.counts_json import piece_counts
from walebook.proof.proof import Proof
from walebook.proof.texts import Site, Texts, prove_texts
from walebook.source.keys.key import Name
from walebook.source.keys.pattern_keys import PatternKeys
from walebook.source.values import Figure, Text, Word

# A key that holds other keys is heard when one of these is.
IN_PATTERN = [one for one in ALL if one.root is PatternKeys and one.key.table is None]
HOLDING = [one for one in ALL if one.root is PatternKeys and one.key.table is not None]
TITLE = next(one for one in ALL if one.key is PatternKeys.title)
OTHERS = {"fabric": ("lining", "band"), "yarn": ("lamp",), "chart": ("lamps",), "edge": ("waist",),
          "measure": ("bag_top", "bag_half", "bag_fold")}
# Values that pass, of keys whose kind of value does not say one.
VALUES: dict[str, Any] = {
    "version": "2.0.0", "sizes": ["M", "L"], "skills": ["shape a neck"],
    "accepted": ["chart-remark 00000000"], "yarns.package.length": "130 m",
    "garment.form": "set-in pullover", "garment.neckline.front_steps": ["3", "2", "1"],
    "garment.round.multiple": "6", "edges.sections.rows": "57",
    "bands.buttonholes.ends.lower": "4 stitches", "bands.buttonholes.at": ["2 cm", "9 cm"],
    "bands.buttonholes.in_hem.ends": "1 cm", "bands.back_depth": "10 cm"}
# A key that is heard together with others: what differs in the whole file, on either side.
HOLES = {"button": "13 mm", "stitches": "3", "ends": "2 stitches", "number": "6", "end_give": "0"}
BLANKET = {"form": "panelled blanket", "fabric": "body"}


def measured(long: str, key: str) -> dict[str, Any]:
    """A blanket whose swatch has so much yarn in it, alone or in a list."""
    body = dict(around()["PatternKeys"]["fabrics"]["body"])
    shown = {**body.pop("swatch"), "yarn": long}
    return {"fabrics": {"body": {**body, key: shown if key == "swatch" else [shown]}},
            "garment": BLANKET}


def striped(rows: str, *yarns: str, **more: str) -> dict[str, Any]:
    """A blanket in stripes of so many rows."""
    sequence = [{"yarn": yarn, "rows": rows} for yarn in yarns or ("main", "lamp")]
    return {"garment": {**BLANKET, "stripes": {"sequence": sequence, **more}}}


def layers(near: str, far: str) -> dict[str, Any]:
    """A front band of so many rows from the edge to the holes, and from there to the fold."""
    rows = {"to_holes": near, "holes_to_fold": far, "fold_to_holes": far, "to_finish": near}
    return {"bands": {"front": {"edge": "front", "fabric": "band", "rows": rows}}}


def holed(kind: str = "enclosing", **more: str) -> dict[str, Any]:
    """A front band of six holes that do not divide it, whose ends give nothing."""
    return {"bands": {"front": {"edge": "front", "fabric": "band", "depth": "3 cm", "kind": kind,
                                "buttonholes": {**HOLES, **more}}}}


def two_coloured(contrast: str) -> dict[str, Any]:
    """A blanket of a fabric in two colours; its yarns are three."""
    body = {**around()["PatternKeys"]["fabrics"]["body"], "chart": "lamps", "contrast": contrast}
    return {"fabrics": {"body": body}, "garment": BLANKET,
            "yarns": {"quay": {"name": "Harbour Quay"}}}


def charted(**more: Any) -> dict[str, Any]:
    """A blanket of a fabric with a chart."""
    return {"charts": {"ladder": {"repeat": "||\n|u\n", **more}},
            "garment": {**BLANKET, "fabric": "charted"}}


def laid_out(**more: str) -> dict[str, Any]:
    """A blanket of a fabric with needles left out of work."""
    body = {**around()["PatternKeys"]["fabrics"]["body"], "needles": "2 in 1 out", **more}
    return {"fabrics": {"lining": body}, "garment": {**BLANKET, "fabric": "lining"}}


def on_edge(band: str, **more: Any) -> dict[str, Any]:
    """A band of a kind on an edge that is written out."""
    return {"edges": {"waist": {"fabric": "body", **more}},
            "bands": {"waist": {"edge": "waist", "fabric": "band", "depth": "3 cm", "kind": band}}}


def around_the_waist(**more: str) -> dict[str, Any]:
    """A band longer than the bed, closed round two sections on waste yarn."""
    front, back = ({"title": title, "stitches": many, "stitches_are": "on waste yarn"}
                   for title, many in (("front", "190"), ("back", "290")))
    return on_edge("folded", kind="closed round", sections=[front, {**back, **more}])


def outlined(top: str = "bound off", *join: str) -> dict[str, Any]:
    """A bag with a band on its top, and perhaps a join."""
    bag = {"width": "wide", "height": "high", "top": top}
    return {"bands": {"top": {"edge": "bag.top", "fabric": "band", "depth": "3 cm",
                              "kind": "single"}},
            "garment": {"form": "own outline", "fabric": "body", "pieces": {"bag": bag},
                        "measures": {"wide": "30 cm", "high": "40 cm"},
                        **({"joins": [{"sew": join[0], "to": join[1]}]} if join else {})}}


ROUNDED = {"right front cast on": {"parity_of": "back cast on"}}
TOGETHER: dict[str, tuple[Any, Any]] = {
    **dict.fromkeys(("bands.rows.to_holes", "bands.rows.to_finish"),
                    (layers("4", "4"), layers("5", "4"))),
    **dict.fromkeys(("bands.rows.holes_to_fold", "bands.rows.fold_to_holes"),
                    (layers("4", "4"), layers("4", "5"))),
    "bands.buttonholes.closing": (holed("single", closing="slit"),
                                  holed("single", closing="eyelet")),
    "bands.buttonholes.odd_gap": (holed(band_give="0"), holed(band_give="0", odd_gap="lowest")),
    "bands.buttonholes.band_give": (holed(band_give="0"), holed()),
    "bands.buttonholes.tolerance": (holed(), holed(tolerance="0 %")),
    "techniques": ({}, {"techniques": {"waste-start": "../../techniques/increase.html"}}),
    "notes.sizes": tuple({"sizes": ["S", "M"], "notes": [{"text": "Ours.", "sizes": [size]}]}
                         for size in ("S", "M")),
    "sizes.age": tuple({"wearer": "anyone", "garment": BLANKET,
                        "sizes": [{"label": "S", "age": age}]} for age in ("child", "adult")),
    "charts.edge": (charted(edge="1"), charted(edge="3")),
    "charts.key": (charted(), charted(key={"u": "a loop of ours"})),
    "fabrics.edge_stitches": (laid_out(edge_stitches="1"), laid_out(edge_stitches="2")),
    "edges.sections.centre_back": (around_the_waist(), around_the_waist(centre_back="yes")),
    "edges.ends": (on_edge("single", kind="one edge", length="40 cm"),
                   on_edge("single", kind="one edge", length="40 cm", ends=["hem", "top"])),
    "fabrics.contrast": (two_coloured("lamp"), two_coloured("quay")),
    "garment.pieces.top": (outlined(), outlined("waste yarn")),
    **dict.fromkeys(("garment.joins.sew", "garment.joins.to"),
                    (outlined("bound off", "bag.left", "bag.right"),
                     outlined("bound off", "bag.top", "bag.bottom"))),
    "garment.stripes.sequence.yarn": (striped("4"), striped("4", "lamp", "main")),
    "garment.stripes.sequence.rows": (striped("4"), striped("6")),
    "garment.stripes.odd_rows": (striped("4"), striped("3", odd_rows="cut")),
    **{f"fabrics.{key}.yarn": (measured("17 m", key), measured("18 m", key))
       for key in ("swatch", "swatches")},
    "garment.round.parity_of": ({"garment": CARDIGAN},
                                {"garment": {**CARDIGAN, "round": ROUNDED}})}
UNHEARD = {
    "status": "says whether anything is published: tests/site/test_drafts.py",
    "reader_must_keep": "stops her figures alone: tests/laws/test_own_measures.py",
    "bed.second_bed": "allows ribs on two beds: tests/sources/test_rib_sources.py",
    "pictures.file": "names the one picture that these sources have",
    "garment.chart": "these sources have one chart: tests/sources/test_garment_sources.py",
    "garment.pockets.number": "says which edges there are: tests/sources/test_pocket_sources.py",
    "fabrics.longest_float": "moves the bound of a warning: tests/sources/test_chart_fabrics.py",
    "garment.stripes.unmatched": "keeps a warning quiet: tests/laws/test_stripes.py",
    "bands.cord.below_neck": "lets a child have a cord: tests/sources/test_casing_sources.py"}


PLACE = re.compile(r'(?<=\.yaml):\d+:\d+|"line": \d+, "column": \d+')


@cache
def proved(source: str) -> tuple[Proof | None, tuple[str, ...]]:
    """The proof of a source, None where it is refused, and what is found in it.

    Without the places in the source: a key that is left out moves those of all others.
    """
    texts = Texts(slug="trial", source=source, pictures={"front.png": ""})
    site = Site(is_page=lambda path: True, has_anchor=lambda proof, name: True)
    proof, found = prove_texts(texts, beds=beds(), charts=charts(), site=site)
    return (None if has_errors(found) else proof), tuple(PLACE.sub("", str(one)) for one in found)


@cache
def counts(source: str) -> tuple[tuple[str, str, int], ...]:
    """The counts of pieces that counts.json has of a source that is not refused, by size and name.
    """
    proof, _ = proved(source)
    assert proof is not None
    return tuple((size.size, name, count.value) for size in proof.sizes for piece in size.pieces
                 for name, count in piece_counts(size, piece))


@cache
def names(source: str) -> tuple[str, ...]:
    """What is published of a source that is not refused: the pages of its sizes first, on which
    nearly all keys are heard, and last what takes long to write."""
    proof, _ = proved(source)
    assert proof is not None
    overview, *sizes, data = page_names(proof)
    return (*sizes, overview, data)


@cache
def page(source: str, name: str) -> str:
    """One page that is published of a source."""
    proof, _ = proved(source)
    assert proof is not None
    return PLACE.sub("", write_page(proof, name).text)


def differ(one: str, other: str) -> bool:
    """True where two sources are published, and not alike.

    What is found in them and the counts of pieces are compared first: these take the least time.
    Then it is page by page, up to the first that differs.
    """
    if None in (proved(one)[0], proved(other)[0]):
        return False
    return (proved(one)[1] != proved(other)[1] or counts(one) != counts(other)
            or names(one) != names(other)
            or any(page(one, name) != page(other, name) for name in names(one)))


def others(one: Declared) -> Iterator[Any]:
    """Other values of a key: its likely ones, other words, the ends of what is plausible."""
    read = one.key.read
    if str(one) in VALUES:
        yield VALUES[str(one)]
    if one.above:
        yield "null"  # left out
    yield from (said if "\n" in said else value_of(said) for said in one.key.likely)
    if isinstance(read, Word):
        yield from read.choices
    elif isinstance(read, Figure):
        yield from (read.range.low, read.range.high)
    elif isinstance(read, Name):
        yield from OTHERS.get(read.what, ())
    elif isinstance(read, Text):
        yield "Another text"


def heard(one: Declared) -> bool:
    """True where some value, or none, makes other pages than the example does."""
    usual = written(in_place(one, value_of(one.key.example)))
    proof, said = proved(usual)
    assert proof is not None, ("the key's example is not knitted", [str(p) for p in said])
    if str(one) in TOGETHER:
        first, second = (written(whole(TITLE, given)) for given in TOGETHER[str(one)])
        return differ(first, second)
    return any(differ(usual, written(in_place(one, value))) for value in others(one))


@pytest.mark.parametrize("one", HOLDING, ids=str)
def test_the_example_of_a_key_that_holds_others_is_knitted(one: Declared) -> None:
    proof, said = proved(written(in_place(one, value_of(one.key.example))))
    assert proof is not None, said


@pytest.mark.parametrize("one", IN_PATTERN, ids=str)
def test_a_key_that_is_read_is_heard(one: Declared) -> None:
    if str(one) in UNHEARD:
        assert not heard(one), f"{one} is heard: take it out of UNHEARD"
    else:
        assert heard(one), (f"no page and no finding is another for another value of {one}: print "
                            "it in engine/words, or give the reason in UNHEARD")
