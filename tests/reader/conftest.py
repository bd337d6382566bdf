"""The pages of the collection, as a reader gets them."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from walebook.pages import page_names, write_page
from walebook.pages.from_texts import prove_made
from walebook.proof.texts import Texts

from tests.laws.texts import read_folder, texts_of
from tests.reader import page
from tests.whole_collection import files

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="session")
def every_page() -> dict[str, str]:
    """Every page of the collection's patterns, as `walebook pages` writes it."""
    texts = files()
    return {path.relative_to("patterns").with_suffix("").as_posix(): texts[path.as_posix()]
            for path in sorted(map(Path, texts)) if path.suffix == ".md"}


@pytest.fixture(scope="session")
def pages(every_page: dict[str, str]) -> dict[str, str]:
    """Every size page."""
    return {name: text for name, text in every_page.items() if not name.endswith("/index")}


@pytest.fixture(scope="session")
def readings(pages: dict[str, str]) -> dict[str, page.Reading]:
    """Every page, read."""
    return {name: page.read(text) for name, text in pages.items()}


def page_of(written: Texts) -> str:
    """The page of the first size that these texts of a pattern have."""
    proof, _ = prove_made(written, **read_folder(ROOT))
    assert proof is not None
    return write_page(proof, page_names(proof)[1]).text


@pytest.fixture
def one_page(slug: str) -> str:
    """The page of a pattern's first size, made from the texts of that pattern alone."""
    return page_of(texts_of(ROOT, slug))


@pytest.fixture
def with_another(slug: str, told: str, instead: str) -> str:
    """The same page, where the source says something else."""
    return with_others(slug, {told: instead})


def with_others(slug: str, changes: dict[str, str]) -> str:
    """The page of a pattern's first size, where the source says all these things otherwise."""
    written = texts_of(ROOT, slug)
    source = written.source
    for told, instead in changes.items():
        assert told in source, told
        source = source.replace(told, instead)
    return page_of(replace(written, source=source))
