"""A number of an engine keeps what a source means: the counts of a store of old sources stay.

The records in the store were written by `walebook record` when the number was given: they are no
evidence that a count is right, only of what it was. That a count which moves is found is held by
tests/sources/test_recorded.py, and here on one that is spoiled.
"""

from __future__ import annotations

import json
from pathlib import Path

import pytest
import yaml
from walebook.catalogue.bands import KINDS, USUAL
from walebook.catalogue.forms import FORM_KINDS
from walebook.pages.recorded import _digest, moved_since
from walebook.proof.texts import collection_of
from walebook.source.keys.collection_keys import CollectionKeys
from walebook_site.reading import COLLECTION, Reading
from walebook_site.sources import Prover

STORES = sorted((Path(__file__).parents[1] / "store").glob("engine-*"))


def test_every_number_that_is_read_has_its_store() -> None:
    assert {f"engine-{number}" for number in CollectionKeys.engine.read.choices} \
        == {store.name for store in STORES}
    for store in STORES:
        settings, found = collection_of((store / COLLECTION).read_text(encoding="utf-8"),
                                        file=COLLECTION)
        assert settings is not None and found == ()
        assert store.name == f"engine-{settings.engine}"


@pytest.mark.parametrize("store", STORES, ids=lambda store: store.name)
def test_every_form_and_every_kind_of_band_stands_in_the_store(store: Path) -> None:
    sources = [yaml.safe_load((store / "patterns" / slug / "pattern.yaml").read_text("utf-8"))
               for slug in Reading(store).names()]
    assert {each["garment"]["form"] for each in sources if "garment" in each} == set(FORM_KINDS)
    bands = [band for each in sources for band in each.get("bands", {}).values()]
    assert {band.get("kind", USUAL) for band in bands} == set(KINDS)


@pytest.mark.parametrize("store", STORES, ids=lambda store: store.name)
def test_the_counts_of_its_store_are_as_they_were(store: Path) -> None:
    prover = Prover.of(Reading(store))
    slugs = prover.reading.names()
    assert len(slugs) > 4
    for slug in slugs:
        folder = prover.reading.folder(slug)
        made = prover.prove(folder)
        assert made.proof is not None and folder.record is not None, slug
        moved = moved_since(made.proof, folder.record, "")
        assert moved is not None and moved.found == (), slug
        said = json.loads(folder.record)
        size = said["sizes"][0]
        place, named = next(iter(said["counts"][size].items()))
        named[next(iter(named))] = "1 thing"
        del said["digest"]
        spoiled = json.dumps(said | {"digest": _digest(said)})
        again = moved_since(made.proof, spoiled, "")
        assert again is not None
        assert [(one.key.size, one.key.place) for one in again.found] == [(size, place)]


@pytest.mark.parametrize(("said", "number"), [("engine: 1\n", 1), ("", 1)])
def test_the_number_is_read(said: str, number: int) -> None:
    settings, found = collection_of(f"title: Quay\n{said}", file=COLLECTION)
    assert settings is not None and found == () and settings.engine == number


@pytest.mark.parametrize("said", ["2", "0", "one", "1.0"])
def test_a_number_that_is_not_known_is_an_error(said: str) -> None:
    settings, (one,) = collection_of(f"title: Quay\nengine: {said}\n", file=COLLECTION)
    assert settings is None
    assert (one.code, one.place.line, one.place.column) == ("unknown-word", 2, 9)
    assert f'the engine "{said}"' in one.found and one.expected.startswith("1: ")
