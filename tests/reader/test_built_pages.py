"""The pages of the built site, as a parser of HTML reads them: what a knitter has before her."""

from __future__ import annotations

import random
import re
from dataclasses import replace
from itertools import zip_longest
from pathlib import Path

import pytest

from tests.reader import page
from tests.reader.visible import Section, built_sections, sections
from tests.site.conftest import site

__all__ = ["site"]  # the fixture: the demo site, built once for all tests
OFFERED = "Download as one file: "  # the site's own line at the head of a page


def of_the_page(parts: list[Section]) -> list[Section]:
    """The sections of a built page without the line that the site offers files in."""
    return [replace(part, blocks=[b for b in part.blocks if not b.text.startswith(OFFERED)])
            for part in parts]


def faults_as_built(built: str, plain: str) -> list[str]:
    """What is wrong with a built page, and the first block in which it is not the plain page."""
    parts, own = of_the_page(built_sections(built)), of_the_page(sections(plain))
    unlike = [f"built {one}, plain {other}" for one, other in zip_longest(parts, own)
              if one != other]
    return unlike[:1] + [str(fault) for fault in page.read_parts(parts).faults]


def held(site: Path, pages: dict[str, str], names: list[str]) -> None:
    """Each of these pages is the plain page, and has no fault."""
    found = {name: faults for name in names if (faults := faults_as_built(
        (site / "patterns" / f"{name}.html").read_text("utf-8"), pages[name]))}
    assert not found


def test_a_sample_of_the_built_pages_is_read_as_the_plain_ones(
        site: Path, pages: dict[str, str]) -> None:
    """Eight by a seed. End tags that HTML (13.1.2.4) lets be left out are left out there."""
    held(site, pages, random.Random(7).sample(sorted(pages), 8))


@pytest.mark.long
def test_every_built_page_is_read_as_the_plain_one(site: Path, pages: dict[str, str]) -> None:
    held(site, pages, sorted(pages))


def test_a_step_or_a_word_that_is_lost_in_building_is_missed(
        site: Path, pages: dict[str, str]) -> None:
    name = min(pages, key=lambda one: (len(pages[one]), one))
    built = (site / "patterns" / f"{name}.html").read_text("utf-8")
    assert not faults_as_built(built, pages[name])
    step = re.search(r"<li id=[^>]*><p><b>Thread.*?(?=<li id=)", built, re.DOTALL)
    assert step
    for lost in (step[0], "<b>Check</b>"):
        assert lost in built
        assert faults_as_built(built.replace(lost, "", 1), pages[name]), lost
