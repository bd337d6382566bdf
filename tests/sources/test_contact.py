"""The designer's contact: a mail address or a link and nothing else, in a pattern and a collection.

Addresses are those that RFC 6761 and RFC 2606 keep for examples.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from harbour_store import BAND, write
from walebook.pages import write_pages
from walebook.proof.texts import collection_of
from walebook_site.sources import collect


@pytest.mark.parametrize(("said", "leads"), [
    ("wren@example.org", "mailto:wren@example.org"),
    ("wren.ashdown+knit@quay.example.org", "mailto:wren.ashdown+knit@quay.example.org"),
    ("https://example.org/contact?about=knitting", "https://example.org/contact?about=knitting"),
    ("http://example.org", "http://example.org")])
def test_an_address_is_a_link_on_the_page_of_a_size(tmp_path: Path, said: str, leads: str) -> None:
    write(tmp_path, f"{BAND}contact: {said}\n")
    proof, = collect(tmp_path).proofs
    pages = {page.path.rpartition("/")[2]: page.text for page in write_pages(proof)}
    assert f'"contact":"{leads}"' in pages["m.md"]
    settings, found = collection_of(f"title: Quay\ncontact: {said}\n", file="collection.yaml")
    assert settings is not None and settings.contact == leads and found == ()


@pytest.mark.parametrize("said", [
    "Wren Ashdown", "Wren <wren@example.org>", "wren@example.org, mara@example.org", "wren@example",
    "javascript:alert(1)", "mailto:wren@example.org?bcc=a@example.org", "//example.org",
    "ftp://example.org", "https://example.org/\\\"onclick=x", "https://wren@example.org/",
    "wren&bcc@example.org", "wren%0Abcc@example.org"])
def test_anything_else_is_an_error(tmp_path: Path, said: str) -> None:
    write(tmp_path, f"{BAND}contact: '{said}'\n")
    one, = (each for each in collect(tmp_path).problems if each.code == "bad-contact")
    assert (one.place.line, one.place.column) == (BAND.count("\n") + 1, 10)
    assert one.expected.startswith("a mail address such as wren@example.org")
    settings, found = collection_of(f"title: Quay\ncontact: '{said}'\n", file="collection.yaml")
    assert settings is None and [each.code for each in found] == ["bad-contact"]
