"""What the editor of "Try it" makes of a place in a source, held to PyYAML and the schema.

PyYAML says where each key and value of the collection stands and which keys lead to it; the
script, which never sees it, must come to the same from the text alone.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
import yaml
from playwright.sync_api import Browser, Page
from walebook.pages import SCHEMAS

ROOT = Path(__file__).parents[2]
SCRIPT = ROOT / "site_src" / "assets" / "try-schema.js"
SOURCES = sorted((ROOT / "patterns").glob("*/pattern.yaml"))
BASE = "title: A\nfabrics:\n  body:\n    yarn: wool\n    "


@pytest.fixture(scope="module")
def page(browser: Browser) -> Iterator[Page]:
    made = browser.new_page()
    made.add_script_tag(path=str(SCRIPT))
    yield made
    made.close()


def places(node: yaml.Node, path: tuple[str, ...]) -> Iterator[tuple[int, tuple[str, ...], bool]]:
    """The end of each key and the beginning of each plain value, with the keys that lead to it."""
    if isinstance(node, yaml.MappingNode):
        for key, value in node.value:
            yield key.end_mark.index, path, True
            yield from places(value, (*path, key.value))
    elif isinstance(node, yaml.SequenceNode):
        for value in node.value:
            yield from places(value, (*path, "[]"))
    elif node.style is None and node.start_mark.line == node.end_mark.line:
        yield node.start_mark.index, path, False


@pytest.mark.parametrize("part", range(4))
def test_every_place_of_the_collection_has_the_path_that_yaml_has(page: Page, part: int) -> None:
    for source in SOURCES[part::4]:
        text = source.read_text(encoding="utf-8")
        assert all(ord(sign) < 0x10000 for sign in text)  # one unit a sign, in the browser as here
        wanted = list(places(yaml.compose(text, Loader=yaml.BaseLoader), ()))
        found = page.evaluate("([text, all]) => all.map((at) => walebook.trySchema.at(text, at))",
                              [text, [at for at, _, _ in wanted]])
        assert len(found) > 20
        for (at, path, is_key), made in zip(wanted, found, strict=True):
            said = f"{source.parent.name}: {text[:at].rpartition(chr(10))[2]}"
            assert tuple(made["path"]) == path, said
            # Behind a dash a word may become a key.
            assert made["isKey"] == is_key or (path[-1:] == ("[]",) and not is_key), said


def offered(page: Page, text: str) -> dict[str, Any]:
    """What is offered at the mark | of a text: by label, with its information."""
    schema = SCHEMAS["pattern"]()
    made = page.evaluate(
        "([schema, text, at]) => walebook.trySchema.offers(schema, text, at)",
        [schema, text.replace("|", ""), text.index("|")])
    return {each["label"]: each["info"] for each in made["options"]}


@pytest.mark.parametrize("text, table", [
    ("ti|", None), ("title: A\n|", None), (f"{BASE}|", "FabricKeys"),
    (f"{BASE}swatch: {{|", "SwatchKeys"),
    (f"{BASE}swatch: {{stitches: 4, w|", "SwatchKeys"), (f"{BASE}swatch:\n      r|", "SwatchKeys"),
    ("garment:\n  f|", "GarmentKeys"), ("corrections:\n  - v|", "CorrectionKeys"),
    ("corrections:\n  - version: 1.0.1\n    t|", "CorrectionKeys"),
    ("bands:\n  front: {edge: front, buttonholes: {b|", "HoleKeys")])
def test_keys_are_those_of_the_schema_at_the_place(
        page: Page, text: str, table: str | None) -> None:
    schema = SCHEMAS["pattern"]()
    wanted = schema["$defs"][table] if table else schema
    assert set(offered(page, text)) >= set(wanted["properties"])
    assert all(offered(page, text).values())  # each with its meaning


def test_words_are_those_that_a_value_may_be(page: Page) -> None:
    schema = SCHEMAS["pattern"]()
    forms = schema["$defs"]["GarmentKeys"]["properties"]["form"]["enum"]
    assert list(offered(page, "garment:\n  form: |")) == forms
    assert list(offered(page, "garment: {form: set|")) == forms
    assert offered(page, "title: |") == {}


@pytest.mark.parametrize("text, key", [
    ("title: A\nwea|rer: women", "wearer"), (f"{BASE}di|al: 6", "dial"),
    (f"{BASE}swatch: {{stitches: 4|0, width: 14 cm}}", "stitches"),
    (f"{BASE}swatch: {{stitches: 40, wi|dth: 14 cm}}", "width"), ("bed: stan|dard", "bed")])
def test_the_meaning_is_that_of_the_key_at_the_cursor(page: Page, text: str, key: str) -> None:
    made = page.evaluate("([schema, text, at]) => walebook.trySchema.meaning(schema, text, at)",
                         [SCHEMAS["pattern"](), text.replace("|", ""), text.index("|")])
    assert made["key"] == key
    assert made["text"] in json.dumps(SCHEMAS["pattern"](), ensure_ascii=False).replace('\\"', '"')


@pytest.mark.parametrize("text", ["", "\n", "}", "]]", "a: {", "- - |", "'", 'a: "', "#", ": :",
                                  "a:\n- b\n -c: [{", "\t", "a: |\n  {text\n", "é: {ü: ["])
def test_any_text_has_a_place_at_each_of_its_signs(page: Page, text: str) -> None:
    found = page.evaluate("(text) => [...Array(text.length + 1).keys()].map((at) => "
                          "walebook.trySchema.at(text, at))", text)
    assert len(found) == len(text) + 1
    for at, made in enumerate(found):
        assert 0 <= made["from"] <= at and made["prefix"] == text[made["from"]:at]


def test_a_site_that_does_not_ask_for_it_has_nothing_of_try_it(site: Path) -> None:
    paths = {path.relative_to(site).as_posix() for path in site.rglob("*")}
    assert not any(path.startswith("try-it") or "/try-" in path for path in paths)
    assert "try-it" not in (site / "first-pattern.html").read_text(encoding="utf-8")
