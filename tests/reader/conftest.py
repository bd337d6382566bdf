"""The pages of the collection, as a reader gets them."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import TypeVar

import pytest
from walebook.pages import page_names, write_page
from walebook.pages.from_texts import prove_made
from walebook.proof.texts import Texts

from tests.laws.texts import read_folder, texts_of
from tests.reader import page
from tests.reader.visible import Section, sections
from tests.whole_collection import files

ROOT = Path(__file__).parents[2]
Made = TypeVar("Made")


class WhenAsked(Mapping[str, Made]):
    """A value for each name, made when somebody asks for it first, and kept."""

    def __init__(self, names: Mapping[str, object], make: Callable[[str], Made]) -> None:
        self.names, self.make = names, make
        self.made: dict[str, Made] = {}

    def __getitem__(self, name: str) -> Made:
        if name not in self.made:
            if name not in self.names:
                raise KeyError(name)
            self.made[name] = self.make(name)
        return self.made[name]

    def __iter__(self) -> Iterator[str]:
        return iter(self.names)

    def __len__(self) -> int:
        return len(self.names)


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
def parted(pages: dict[str, str]) -> Mapping[str, list[Section]]:
    """The sections of every size page; no test changes one of them."""
    return WhenAsked(pages, lambda name: sections(pages[name]))


@pytest.fixture(scope="session")
def readings(parted: Mapping[str, list[Section]]) -> Mapping[str, page.Reading]:
    """Every size page, read."""
    return WhenAsked(parted, lambda name: page.read_parts(parted[name]))


def page_of(written: Texts) -> str:
    """The page of the first size that these texts of a pattern have."""
    proof, _ = prove_made(written, **read_folder(ROOT))
    assert proof is not None
    return write_page(proof, page_names(proof)[1]).text


@pytest.fixture
def one_page(slug: str) -> str:
    """The page of a pattern's first size, made from the texts of that pattern alone."""
    return made_alone(slug)


@cache
def made_alone(slug: str) -> str:
    """That page: made once in a process, for every test that looks at it."""
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
