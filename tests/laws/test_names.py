"""Whatever a designer calls things, no two of them share a file, an address, an anchor or a key.

Names are drawn from words that mean something elsewhere on the site. A file system may take
capital and small letters, and the two ways of writing an accent, for the same (Unicode Standard
Annex 15, forms NFC and NFD); some take no name of a device (Microsoft Learn, "Naming Files,
Paths, and Namespaces").
"""

from __future__ import annotations

import json
import re
import unicodedata
from collections import Counter
from dataclasses import replace
from html import unescape
from pathlib import Path
from urllib.parse import unquote, urldefrag
from xml.etree import ElementTree

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st
from walebook.core.problems import Problem, Severity
from walebook.machine.edge_steps import DrawCord, Hang, TakeOff
from walebook.machine.steps import HandKnit
from walebook.markup.notes import notes_html
from walebook.pages import write_pages
from walebook.pages.sheet import one_line
from walebook.pattern.pictures import Picture
from walebook.proof.proof import Proof, prove
from walebook.source.pattern import read_pattern
from walebook.source.source import parse_source
from walebook_site.finishing import BESIDE, WHOLE
from walebook_site.sources import collect

from tests.laws.pieces import chart
from tests.laws.random_sources import BandSpec, written
from tests.laws.test_any_source import FILE, beds, judged
from tests.scale import examples

SITE = Path(__file__).parents[2] / "site_src"
DEVICES = {"con", "prn", "aux", "nul", *(f"{port}{n}" for port in ("com", "lpt")
                                         for n in range(1, 10))}
ID = re.compile(r'\bid="([^"]*)"|^#+ .*\{ #(.*) \}$', re.MULTILINE)
LINK = re.compile(r'\b(?:href|src)="([^"]*)"')
WORDS = ("m", "M", "l", "single-file", "single file", "single", "all", "sizes", "all-sizes",
         "con", "nul", "index", "counts", "1", "2", "36/38", "xl")
TOKENS = ("back", "front", "right", "left", "piece", "facing", "zip", "buttons", "casing", "p", "t",
          "d", "1", "2", "hanging", "part", "make", "up", "sleeve", "drawing", "size")
LETTERS = "abAB 1#?%&'\"+;éÅ~(),=@!"


def names_of_sizes() -> st.SearchStrategy[list[str]]:
    one = st.lists(st.sampled_from(WORDS), min_size=1, max_size=3).flatmap(
        lambda words: st.sampled_from(("-", " ", "", ".")).map(lambda by: by.join(words)[:12]))
    return st.lists(one, min_size=1, max_size=3, unique=True)


def keys() -> st.SearchStrategy[list[str]]:
    one = st.lists(st.sampled_from(TOKENS), min_size=1, max_size=3).flatmap(
        lambda words: st.sampled_from("-_ ").map(lambda by: by.join(words)))
    return st.lists(one, min_size=1, max_size=4, unique=True)


def files() -> st.SearchStrategy[list[str]]:
    one = st.text(LETTERS, min_size=1, max_size=5).filter(lambda name: name.strip() == name)
    named = one | st.sampled_from(sorted(DEVICES)) | st.sampled_from(("Café", "Cafe\u0301"))
    kind = st.sampled_from((".png", ".PNG", ".jpg", ".webp"))
    return st.lists(st.builds(str.__add__, named, kind), max_size=3, unique=True)


@st.composite
def sources(draw: st.DrawFn) -> tuple[BandSpec, list[str]]:
    """A source of few words and the pictures beside it."""
    pictures = draw(files())
    front = {"edge": "front_edge", "kind": "folded", "fold": "loose", "depth": "3 cm"}
    more = ({"buttonholes": {"button": "15 mm", "number": "3", "closing": "slit"}},
            {"zip": "1 cm"}, {})
    kinds = {name: {**front, "fabric": "body", **draw(st.sampled_from(more))}
             for name in draw(keys())}
    for name in draw(keys()):
        kinds.setdefault(name, {"edge": "neck", "kind": draw(st.sampled_from(("casing", "facing"))),
                                "fabric": "body", "depth": "3 cm"})
    for band in kinds.values():
        if band["kind"] == "facing" and draw(st.booleans()):
            band["facing_fabric"] = "lining"
    swatch = {"stitches": "18", "width": "12 cm", "rows": "24", "height": "12 cm", "mass": "9 g"}
    return {
        "title": "Lantern", "version": "1", "date": "2026-11-20", "designer": "Isolde Penhallow",
        "licence": "CC BY-NC 4.0", "summary": "A garment.", "wearer": "women", "bed": "standard",
        **({"pictures": [{"file": name, "alt": "Seen"} for name in pictures]} if pictures else {}),
        "yarns": {"wool": {"name": "Quay", "package": {"mass": "50 g", "length": "120 m"}}},
        "fabrics": {"body": {"yarn": "wool", "dial": "6", "swatch": swatch},
                    "lining": {"yarn": "wool", "dial": "5", "swatch": swatch}},
        "sizes": draw(names_of_sizes()), "bands": kinds}, pictures


def proved(spec: BandSpec, pictures: list[str]) -> tuple[Proof | None, tuple[Problem, ...]]:
    """The proof of a source whose own sizes all have the body of the chart's S."""
    body = chart("women")
    own = replace(body, sizes=tuple(spec["sizes"]), rows={
        name: replace(row, cells=dict.fromkeys(spec["sizes"], row.cells["S"]))
        for name, row in body.rows.items() if "S" in row.cells})
    node, faults = parse_source(written({**spec, "garment": {
        "form": "set-in cardigan", "chart": "own", "fabric": "body"}}), name=FILE)
    assert node is not None, faults
    made, found = read_pattern(node, slug="lantern", beds=beds(), pictures=frozenset(pictures),
                               charts={"own": own})
    if made is None:
        return None, (*faults, *found)
    proof, more = prove(made)
    return proof, (*found, *more)


def published(proof: Proof) -> list[str]:
    """Every path that is written for a pattern, pages and what lies beside them."""
    paths = []
    for page in write_pages(proof):
        built = page.path.removesuffix(".md") + ".html" if page.path.endswith(".md") else page.path
        paths.append(built)
        name = built.removesuffix(".html").rpartition("/")[2]
        if built.endswith(".html"):
            folder = built.rpartition("/")[0]
            name = WHOLE if name == "index" else name
            paths += [f"{folder}/{name}{BESIDE}", f"{folder}/{name}.pdf"]
    return paths + [f"patterns/{proof.pattern.slug}/{p.file}" for p in proof.pattern.pictures]


def twins(paths: list[str]) -> list[str]:
    """Those that some file system takes for one of the others."""
    folded = Counter(unicodedata.normalize("NFC", path).casefold() for path in paths)
    return [path for path, number in folded.items() if number > 1]


def once(pairs: list[tuple[str, object]]) -> dict[str, object]:
    """A JSON object; no key may stand in it twice."""
    twice = [key for key, number in Counter(key for key, _ in pairs).items() if number > 1]
    assert not twice, twice
    return dict(pairs)


def check_links(proof: Proof, paths: set[str]) -> None:
    """Every link leads to a file that is written, and to an anchor that stands in it."""
    pages = {page.path: page.text for page in write_pages(proof)}
    ids = {path: [a or b for a, b in ID.findall(text)] for path, text in pages.items()}
    for path, text in pages.items():
        if path.endswith(".svg"):
            ElementTree.fromstring(text)
            continue
        if not path.endswith(".md"):
            json.loads(text, object_pairs_hook=once)
            continue
        assert len(ids[path]) == len(set(ids[path])), (
            path, [i for i, n in Counter(ids[path]).items() if n > 1])
        for target in {unescape(link) for link in LINK.findall(text)}:
            if target.startswith(("https:", "http:", "mailto:")):
                continue
            assert not re.search(r"[^!-~]|[\"<>\\^`{|}]", target), target
            address, anchor = urldefrag(target)
            assert "?" not in address
            goal = path
            if address:
                folders = path.split("/")[:-1]
                steps = unquote(address).split("/")
                up = steps.count("..")
                goal = "/".join([*folders[:len(folders) - up], *steps[up:]])
                assert goal in paths or (SITE / goal.replace(".html", ".md")).exists(), target
            own = goal.replace(".html", ".md")
            assert not anchor or own not in ids or anchor in ids[own], target


def check_published(proof: Proof) -> None:
    paths = published(proof)
    assert not twins(paths)
    assert not [path for path in paths
                if path.rpartition("/")[2].partition(".")[0].casefold() in DEVICES]
    check_links(proof, set(paths))


NAMING = {"bad-size-name", "same-page", "bad-name", "bad-picture", "same-picture"}


@given(drawn=sources())
@settings(max_examples=examples(4), deadline=None)
def test_no_two_names_meet(drawn: tuple[BandSpec, list[str]]) -> None:
    proof, found = proved(*drawn)
    if proof is not None:
        check_published(proof)
        return
    errors = {p.code for p in found if p.severity is Severity.ERROR}
    assert errors, found


MET: dict[str, tuple[list[str], list[str], list[str]]] = {
    "a size and the file beside another": (["M", "M-single-file"], ["front"], []),
    "a size and the file of all": (["all-sizes", "M"], ["front"], []),
    "a device": (["con", "M"], ["front"], []),
    "a band called as a piece": (["M"], ["back", "back_piece", "sleeve"], []),
    "a band called as another's facing": (["M"], ["front", "front_facing"], []),
    "a band called as the ids of another": (
        ["M"], ["front", "front right", "front-zip", "front-buttons", "p", "p-back"], []),
    "pictures that differ in capitals": (["M"], ["front"], ["Front.png", "front.png"]),
    "pictures that differ in form": (["M"], ["front"], ["Café.png", "Cafe\u0301.png"]),
    "pictures with signs of an address": (
        ["M"], ["front"], ["a#b.png", "50 %.png", "is it?.png", "you & me.png", "100%25.png",
                           "it's \"so\".png", "a+b;c=d.png", "Café.png"]),
    "a picture called as a device": (["M"], ["front"], ["nul.png"]),
}


def test_the_workbook_names_a_piece_that_is_called_as_a_band() -> None:
    """By what it is, after its name, as often as a band is so called."""
    sizes, bands, _ = MET["a band called as a piece"]
    proof, problems = proved(source(sizes, bands, []), [])
    assert proof is not None, problems
    assert {"back", "back_piece", "back_piece_piece", "sleeve", "sleeve_piece"} <= set(
        one_line(proof))


BANDS: tuple[BandSpec, ...] = (
    {"kind": "enclosing", "buttonholes": {"button": "15 mm", "number": "1"}}, {"kind": "folded"},
    {"kind": "folded", "bind_off": "back-stitched"}, {"kind": "facing"},
    {"kind": "folded", "facing_fabric": "lining"}, {"kind": "single", "bind_off": "back-stitched"})


def names_on_the_bed(band: BandSpec, title: str) -> set[str]:
    """What the steps of a band call edges, cords and waiting stitches; its section is so called."""
    edge = {"kind": "one edge", "fabric": "body", "sections": [{"title": title, "rows": "24"}]}
    proof, problems = judged(written({
        **SMALL[0], "sizes": ["M"], "edges": {"rail": edge}, "bands": {"rail": {
            "edge": "rail", "fabric": "body", "depth": "3 cm", "fold": "loose", **band}}}))
    assert proof is not None, [str(p) for p in problems if p.severity is Severity.ERROR]
    steps = [step for strip in proof.sizes[0].strips for step in strip.program.steps]
    return {step.edge for step in steps if isinstance(step, Hang | TakeOff | DrawCord)} | {
        step.cord for step in steps if isinstance(step, HandKnit)} - {""}


def source(sizes: list[str], bands: list[str], pictures: list[str]) -> BandSpec:
    spec, _ = SMALL
    one = {"edge": "front_edge", "kind": "facing", "fold": "loose", "depth": "3 cm",
           "fabric": "body", "facing_fabric": "lining"}
    return {**spec, "sizes": sizes, "bands": dict.fromkeys(bands, one),
            **({"pictures": [{"file": name, "alt": "Seen"} for name in pictures]}
               if pictures else {})}


SWATCH = {"stitches": "18", "width": "12 cm", "rows": "24", "height": "12 cm", "mass": "9 g"}
SMALL: tuple[BandSpec, list[str]] = ({
    "title": "Lantern", "version": "1", "date": "2026-11-20", "designer": "Isolde Penhallow",
    "licence": "CC BY-NC 4.0", "summary": "A garment.", "wearer": "women", "bed": "standard",
    "yarns": {"wool": {"name": "Quay", "package": {"mass": "50 g", "length": "120 m"}},
              "silk": {"name": "Lamp", "package": {"mass": "50 g", "length": "120 m"}}},
    "fabrics": {"body": {"yarn": "wool", "dial": "6", "swatch": SWATCH},
                "lining": {"yarn": "silk", "dial": "5", "swatch": SWATCH}}}, [])


@pytest.mark.parametrize("case", MET)
def test_names_that_could_meet_do_not(case: str) -> None:
    sizes, bands, pictures = MET[case]
    proof, found = proved(source(sizes, bands, pictures), pictures)
    if proof is not None:
        check_published(proof)
    else:
        assert {p.code for p in found if p.severity is Severity.ERROR} <= NAMING, found


@pytest.mark.parametrize("name", ("frame", "reading", "con", "lpt1"))
def test_a_pattern_is_not_called_as_the_sites_own(name: str, tmp_path: Path) -> None:
    """The list of what is kept on a device has the frame of the site and its reading by name."""
    folder = tmp_path / "patterns" / name
    folder.mkdir(parents=True)
    (folder / "pattern.yaml").write_text(yaml.dump(SMALL[0]))
    (finding,) = collect(tmp_path).problems
    assert finding.code == "folder-name" and name in finding.found


def test_notes_show_pictures_by_any_name() -> None:
    """As Markdown has an address with spaces: between < and >, or with them quoted."""
    files = [*MET["pictures with signs of an address"][2][:-2], "front view.png"]
    notes = "\n\n".join(f"![Seen](<{name}>)" for name in files if "%" not in name
                        and '"' not in name) + "\n\n![Seen](front%20view.png)"
    shown = re.findall(r'src="([^"]*)"', notes_html(notes, tuple(
        Picture(file=name, alt="Seen") for name in files)))
    wanted = [name for name in files if "%" not in name and '"' not in name] + ["front view.png"]
    assert [unquote(unescape(src)) for src in shown] == wanted
    assert not [src for src in shown if re.search(r"[#?& ]", src)]


@pytest.mark.parametrize("band", BANDS, ids=lambda band: " ".join(map(str, band.values())))
def test_a_section_may_be_called_as_anything_on_the_bed(band: BandSpec) -> None:
    """Its name is the designer's; those of cords, first rows and waiting stitches are ours."""
    for name in names_on_the_bed(band, "front"):
        assert names_on_the_bed(band, name)
