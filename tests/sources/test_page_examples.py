"""What the pages show of pattern sources is read and knitted: every example, in its context.

An example is a block, or a span such as `hem: {depth: 3 cm}`; what stands around it is the
smallest pattern in which it makes sense. Its values are looked at by no one here: only that the
reader takes every word of it, and that the bed knits it.
"""

from __future__ import annotations

import re
import shutil
from collections.abc import Iterator, Mapping
from functools import cache
from pathlib import Path
from typing import Any

import pytest
import yaml
from reading import png
from walebook.catalogue.bands import KINDS
from walebook.pages.source_page import without_lists
from walebook.pattern.holes import ButtonholeKind
from walebook.pattern.rib_specs import RibMake
from walebook.source.keys.band_keys import BandKeys
from walebook.source.keys.collection_keys import CollectionKeys
from walebook.source.keys.garment_keys import GarmentKeys
from walebook.source.keys.hole_keys import HoleKeys
from walebook.source.keys.pattern_keys import PatternKeys
from walebook_site.sources import collect

ROOT = Path(__file__).parents[2]
SITE = ROOT / "site_src"
PAGES = [SITE / "source.md", SITE / "guides" / "own-outlines.md",
         *sorted((SITE / "bands").glob("*.md")),
         *sorted((SITE / "closings").glob("*.md"))]
_BLOCK = re.compile(r"```yaml\n(.*?)```", re.DOTALL)
_SPAN = re.compile(r"`(\w+: [^`]+)`")
Source = dict[str, Any]

COLLECTION = set(CollectionKeys.keys) - set(PatternKeys.keys)
SWATCH = {"stitches": "30", "width": "14.3 cm", "rows": "40", "height": "14.2 cm"}
AROUND: Source = yaml.load("""
title: Trial
version: 1.0.0
date: 2026-11-25
designer: Isolde Penhallow
licence: CC BY-NC 4.0
summary: An example of the pages.
wearer: women
bed: {pitch: 6.5 mm, needles: 400, second_bed: yes}
yarns: {wool: {name: Ropewalk Double Knitting}}
sizes: [M]
garment: {form: set-in cardigan, chart: women, fabric: body, hem: {depth: 7.6 cm}}
""", yaml.BaseLoader)
RIB_MAKES = {make.value for make in RibMake}
HOLES = {"button": "18 mm", "number": "5"}
BAND: Source = {"edge": "front_edge", "fabric": "band", "depth": "4 cm", "dial": "5"}
WAITING = {"stitches": "60", "stitches_are": "on waste yarn"}
WAIST = {"waist": {"fabric": "body", "kind": "closed round", "sections": [
    {"title": "front", **WAITING}, {"title": "back", **WAITING}]}}
PULLOVER = {"form": "set-in pullover", "chart": "women", "fabric": "body"}


def fabrics() -> Source:
    return {name: {"yarn": "wool", "dial": dial, "swatch": dict(SWATCH)}
            for name, dial in (("body", "7"), ("band", "5"), ("welt", "5"), ("rib", "5"),
                               ("lining", "5"))}


def examples(page: Path) -> Iterator[tuple[str, Source]]:
    """Every example of a page; lines that give the same key anew are one each."""
    text = without_lists(page.read_text(encoding="utf-8"))
    for block in _BLOCK.findall(text):
        keys = re.findall(r"^(\w+):", block, re.MULTILINE)
        parts = block.splitlines() if len(set(keys)) < len(keys) else [block]
        for part in parts:
            yield part, yaml.load(part, yaml.BaseLoader)
    if page.parent.name == "guides":  # its words stand between whole blocks
        return
    for span in _SPAN.findall(_BLOCK.sub("", text)):
        said = " ".join(span.split())
        try:
            found = yaml.load(f"{{{said}}}", yaml.BaseLoader)
        except yaml.YAMLError:  # a word about YAML itself, such as "repeat: |"
            continue
        yield said, found


# What stands around an example, by its keys


def in_context(own: Source) -> Source:
    """The whole pattern that an example is part of, or what it says of the whole collection."""
    if set(own) <= COLLECTION:
        return own
    if "collar" in own:
        own = {"bands": own}
    if own.get("kind") in RIB_MAKES:
        own = {"hem": {"rib": "1x1", "depth": "5 cm", **own}}
    if set(own) <= {"openings", "at", *GarmentKeys.keys} and is_of_garment(own):
        own = {"garment": own}
    if not set(own) <= set(PatternKeys.keys):
        own = {"bands": {"front": band_with(own)}}
    whole = {**AROUND, "fabrics": fabrics(), "edges": WAIST, **own}
    if "notes" in own:  # they may stand in one size of several
        whole["sizes"] = ["M", "L"]
    whole["garment"] = {**around_parts(own), **own.get("garment", {})}
    if "pieces" in whole["garment"]:
        whole["garment"] = own["garment"]
    elif "bands" not in own:
        whole["bands"] = bands_for(own)
    if "charts" in own:
        whole["fabrics"]["body"]["chart"] = next(iter(own["charts"]))
    return whole


def is_of_garment(own: Source) -> bool:
    """A key of both is the garment's where it names pieces, or a cord through its hem."""
    key, value = next(iter(own.items()))
    if key in BandKeys.keys:
        return isinstance(value, Mapping) and "multiple" not in value and "openings" not in value
    return key in GarmentKeys.keys


def band_with(own: Source) -> Source:
    """A band with what the example says of it, of a kind that can have that."""
    if "first" in (own.get("rows") or {}):  # holes by the row counter
        kind = next(k.name for k in KINDS.values() if k.lengthwise)
        return {"edge": BAND["edge"], "fabric": "band", "depth": "4 cm", "kind": kind,
                "buttonholes": {"button": "13 mm", "number": "3", **own}}
    if set(own) <= set(HoleKeys.keys) and not {"round", "rows"} & set(own):
        closing = own.get("closing", "enclosed")
        kind = next(k.name for k in KINDS.values() if ButtonholeKind(closing) in k.buttonhole_kinds)
        spacing = {} if {"at", "every"} & set(own) else {"number": "5"}
        return {**BAND, "kind": kind, "buttonholes": {"button": "18 mm", **spacing, **own}}
    if "rows" in own:
        return {key: said for key, said in {**BAND, **own}.items() if key != "depth"}
    if "dials" in own:
        return {key: said for key, said in {**BAND, **own}.items() if key != "dial"}
    return {**BAND, **suiting(own), **own}


def suiting(own: Source) -> Source:
    if "shows" in own:
        return {"kind": "shawl collar", "edge": "neck", "back_depth": "10 cm"}
    if "mitre" in own:
        return {"edge": "neck"}
    if "cord" in own:
        return {"edge": "waist", "kind": "casing"}
    return {"kind": "folded"} if "bind_off" in own or "zip" in own else {}


def around_parts(own: Source) -> Source:
    """The garment that a crown needs: a hat; else one whose edges the bands need."""
    if "crown" in own.get("garment", {}):
        return {**PULLOVER, "form": "hat", "measures": {
            "hat_width": "52 cm", "hat_depth": "22 cm", "hat_length": "60 cm"}}
    return around_bands(own.get("bands", {}))


def around_bands(bands: Source) -> Source:
    """The garment whose edges the bands need."""
    mitred = any("mitre" in band for band in bands.values())
    return {**PULLOVER, "neck": "v"} if mitred else AROUND["garment"]


def bands_for(own: Source) -> Source:
    if "pockets" in own.get("garment", {}):
        return {"pocket": {**BAND, "edge": "pocket", "kind": "folded"}}
    if crown := own.get("garment", {}).get("crown"):
        edge = "waist" if "both_ends" in crown else "brim"
        return {edge: {**BAND, "edge": edge, "kind": "folded"}}
    edges = own.get("edges")
    return {edge: {**BAND, "edge": edge} for edge in edges} if edges else {
        "front": {**BAND, "buttonholes": HOLES}}


ALL = [pytest.param(page.relative_to(SITE).with_suffix("").as_posix(), number, own,
                    id=f"{page.stem}-{number}-{said.split(':')[0]}")
       for page in PAGES for number, (said, own) in enumerate(examples(page))
       if not {"second_bed", "neck", "needles", "chart"} & set(own)]


def write(root: Path, name: str, text: str) -> None:
    """Write a pattern with a picture and notes, to which its examples may lead."""
    folder = root / "patterns" / name
    folder.mkdir()
    (folder / "front.png").write_bytes(png())
    (folder / "notes.md").write_text("How I do it.\n", encoding="utf-8")
    (folder / "pattern.yaml").write_text(text, encoding="utf-8")


def place(page: str, number: int, own: Source) -> str:
    """Where the errors of an example are found."""
    return "collection.yaml" if set(own) <= COLLECTION else f"{page.replace('/', '-')}-{number}"


@cache
def found(root: Path) -> Mapping[str, list[str]]:
    """The errors of every example, by the folder it is written to, all read at once."""
    shutil.copytree(ROOT / "patterns" / "_sizes", root / "patterns" / "_sizes")
    shared = root / "patterns" / "collection.yaml"
    shared.write_text(f"{CollectionKeys.example}\n", encoding="utf-8")
    for case in ALL:
        page, number, own = case.values
        text = yaml.safe_dump(in_context(own), sort_keys=False)
        if set(own) <= COLLECTION:
            shared.write_text(shared.read_text(encoding="utf-8") + text, encoding="utf-8")
        else:
            write(root, place(page, number, own), text)
    write(root, "practice-band", yaml.safe_dump(in_context(dict(BAND))))  # in a former one's place
    read = collect(root)
    said: dict[str, list[str]] = {name: [] for name in read.unproved}
    for problem in read.problems:
        if problem.severity.value == "error":
            said.setdefault(problem.place.file.split("/")[1], []).append(str(problem))
    return said


@pytest.fixture(scope="module")
def root(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("pages")


def test_the_pages_say_how_every_kind_of_band_and_closing_is_written() -> None:
    shown = "\n".join(page.read_text(encoding="utf-8") for page in PAGES)
    missing = [kind for kind in KINDS if f"kind: {kind}" not in shown and f"`{kind}`" not in shown]
    missing += [c.value for c in ButtonholeKind if f"closing: {c.value}" not in shown]
    assert missing == []


@pytest.mark.parametrize(("page", "number", "own"), ALL)
def test_an_example_is_read_and_knitted(page: str, number: int, own: Source, root: Path) -> None:
    assert found(root).get(place(page, number, own), []) == []
