"""The door of "Try it" finds what `walebook check` finds, and gives the page that the site has.

Held against the command, which reads the same sources from a folder and knows nothing of the door.
"""

from __future__ import annotations

import json
import os
import re
import sys
from pathlib import Path
from random import Random
from typing import Any

import pytest
from walebook.pages import write_page
from walebook.pages.doors import answer
from walebook.pages.from_texts import prove_made
from walebook.source.fabric_reading import size_slug
from walebook_site.command import main
from walebook_site.reading import Reading

from tests.laws.test_own_gauge import SLUGS, asked_of, body, swatch, texts_of
from tests.laws.texts import read_folder

ROOT = Path(__file__).parents[2]
CODES = sorted((ROOT / "tests" / "sources" / "codes").glob("*.yaml"))
HAT = "tideline-hat"
# In the order in which a folder has them, as the command names them.
SHELF = {kind: dict(sorted(texts.items())) for kind, texts in read_folder(ROOT).items()}
SEED = int(os.environ.get("WALEBOOK_SEED", "16"))


def ask(source: str, slug: str = HAT, size: str = "", **more: Any) -> dict[str, Any]:
    folder = Reading(ROOT).folder(slug) if slug in SLUGS else None
    given = {"door": "try-it", "slug": slug, "source": source, "size": size, "units": "cm first",
             **SHELF, **more}
    if folder:
        given |= {"shared": folder.shared, "pictures": dict(folder.pictures),
                  "picture_sizes": {k: list(v) for k, v in folder.picture_sizes.items()}}
    made: dict[str, Any] = json.loads(answer(json.dumps(given)))
    return made


def checked(root: Path, capsys: pytest.CaptureFixture[str], *names: str) -> list[dict[str, Any]]:
    """The findings of the command, without the name of the pattern that each is of."""
    main(["check", "--root", str(root), "--json", *names])
    found = json.loads(capsys.readouterr().out)["findings"]
    return [{key: value for key, value in each.items() if key != "pattern"} for each in found]


def some(every: list[Any], many: int) -> list[Any]:
    """Some by a seed, the rest when all is run."""
    drawn = set(Random(f"try {SEED}").sample(range(len(every)), many))
    return [pytest.param(each, id=getattr(each, "stem", each),
                         marks=() if number in drawn else pytest.mark.long)
            for number, each in enumerate(every)]


@pytest.mark.parametrize("path", some(CODES, 16))
def test_bad_sources_have_the_findings_of_the_command(
        path: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    source = path.read_text(encoding="utf-8")
    folder = tmp_path / "patterns" / "draft"
    folder.mkdir(parents=True)
    (folder / "pattern.yaml").write_text(source, encoding="utf-8")
    made = ask(source, "draft")
    found = checked(tmp_path, capsys)
    assert made["findings"] == found
    codes = {each["code"] for each in found}
    assert path.stem in codes or "missing-picture" in codes  # with its pictures it is another's
    assert (made["page"] is None) == any(each["severity"] == "error" for each in found)


@pytest.mark.parametrize("slug", some(SLUGS, 2))
def test_the_collection_has_the_findings_of_the_command_and_its_page(
        slug: str, capsys: pytest.CaptureFixture[str]) -> None:
    texts = texts_of(slug)
    proof, _ = prove_made(texts, **with_own(slug))
    assert proof is not None
    name = Random(f"{SEED} {slug}").choice(proof.sizes).size
    made = ask(texts.source, slug, size_slug(name), notes=Reading(ROOT).folder(slug).notes,
               **with_own(slug))
    found = checked(ROOT, capsys, slug)
    assert made["findings"] == found
    page = made["page"]
    assert (page["size"], page["name"]) == (name, size_slug(name))
    text = write_page(proof, f"patterns/{slug}/{size_slug(name)}.md").text
    assert page["html"].partition("</h1>\n")[2].strip() == body(text)
    assert list(made["sizes"]) == [each.size for each in proof.sizes]


def with_own(slug: str) -> dict[str, dict[str, str]]:
    """The beds and charts that a pattern can name, its own chart among them."""
    own = ROOT / "patterns" / slug / "chart.yaml"
    return {**SHELF, "charts": {**SHELF["charts"],
                                **({"own": own.read_text("utf-8")} if own.exists() else {})}}


def test_without_notes_no_link_to_the_own_page_is_refused() -> None:
    """The Pennant cap has a technique in its notes: `index.html#notes`."""
    source = texts_of("pennant-cap").source
    assert "index.html#notes" in source
    made = ask(source, "pennant-cap")
    assert made["page"] and not made["notes_followed"]
    made = ask(source, "pennant-cap", notes="")
    assert "bad-link" in {each["code"] for each in made["findings"]} and not made["page"]


def test_a_size_that_is_not_there_is_the_first() -> None:
    made = ask(texts_of(HAT).source, size="enormous")
    assert made["page"]["size"] == next(iter(made["sizes"]))


def test_a_narrower_swatch_takes_more_stitches() -> None:
    """30 stitches over 12 cm instead of 15.2 cm: 1.27 times as many for the same width."""
    def cast_on(width: str) -> int:
        html = ask(source.replace("15.2 cm", width))["page"]["html"]
        return int(re.search(r'"Hat: cast on":"(\d+) stitches', html)[1])  # type: ignore[index]
    source = texts_of(HAT).source
    assert "width: 15.2 cm" in source
    assert 1.2 < cast_on("12 cm") / cast_on("15.2 cm") < 1.34


@pytest.mark.parametrize("notes", ["See [none](#nowhere).\n", "Knit it.\n", ""])
def test_notes_are_followed_where_markdown_is_read(notes: str) -> None:
    made = ask(texts_of(HAT).source, notes=notes)
    assert made["notes_followed"]
    assert ("bad-link" in {each["code"] for each in made["findings"]}) == ("nowhere" in notes)


def test_where_no_markdown_is_read_it_is_said_and_nothing_fails(
        monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("walebook.markup.notes.find_spec", lambda _: None)
    monkeypatch.setitem(sys.modules, "markdown", None)
    made = ask(texts_of(HAT).source, notes="See [none](#nowhere).\n")
    assert made["notes_followed"] is False and made["page"]


def test_a_unit_that_only_a_library_knows_is_refused_without_it(
        monkeypatch: pytest.MonkeyPatch) -> None:
    """In a browser there is no pint: what it would name more exactly is a finding all the same."""
    monkeypatch.setitem(sys.modules, "pint", None)
    from walebook.core.foreign_units import _registry
    _registry.cache_clear()
    made = ask(texts_of(HAT).source.replace("15.2 cm", "15.2 fortnight"))
    assert next(each["severity"] for each in made["findings"]) == "error" and not made["page"]


def test_without_a_name_the_door_is_that_of_my_gauge() -> None:
    given = {**asked_of(HAT)["asked"], "size": "woman",
             "swatches": {"plain": swatch("14 cm", "14.4 cm")}}
    assert "wb-mine" in json.loads(answer(json.dumps(given)))["page"]["html"]
