"""The record of each published version of the collection: no count moves without a new version.

The failure names the command to run. The commands are those of the guide about
published versions.
"""

from __future__ import annotations

import json
import re
from collections.abc import Mapping

import pytest
from walebook.pages.recorded import moved_since, record_of
from walebook.proof.proof import Proof
from walebook_site.reading import RECORD

from tests.whole_collection import ROOT, collection

COMMAND = ".venv/bin/walebook record"


def records() -> dict[str, str]:
    return {path.parent.name: path.read_text(encoding="utf-8")
            for path in (ROOT / "patterns").glob(f"*/{RECORD}")}


def to_do(proof: Proof, record: str | None) -> str:
    """What is to be done for a pattern's record, "" for nothing."""
    slug, version = proof.pattern.slug, proof.pattern.version
    if record is None:
        return f"patterns/{slug} has no record. Run: {COMMAND} {slug}"
    moved = moved_since(proof, record, "")
    if moved is None:
        return (f"patterns/{slug}/{RECORD} was changed by hand. Take it from git again, or delete "
                f"it and run: {COMMAND} {slug}")
    if moved.found and moved.before == moved.after:
        return (f"patterns/{slug} has other counts than its version {version} was recorded with. "
                f"Run: {COMMAND} {slug} --draft; put what it prints under corrections in the "
                f"source; write version: {moved.wanted} and the date there; then run: {COMMAND} "
                f"{slug}")
    if moved.found or moved.before != moved.after:
        return f"patterns/{slug} is version {version} now. Run: {COMMAND} {slug}"
    return ""


def test_every_pattern_has_the_record_of_its_version() -> None:
    kept = records()
    left = [said for proof in collection().proofs
            if (said := to_do(proof, kept.get(proof.pattern.slug)))]
    assert not left, "\n" + "\n".join(left)


def _moved(record: str) -> str:
    """The same record of a version that had a stitch more somewhere, written as one."""
    proof = _band()
    text = re.sub(r'"39 stitches"', '"40 stitches"', record, count=1)
    assert text != record
    other = json.loads(text)
    return record_of_facts(proof, other)


def _band() -> Proof:
    (proof,) = [each for each in collection().proofs if each.pattern.slug == "practice-band"]
    return proof


def record_of_facts(proof: Proof, said: Mapping[str, object]) -> str:
    from walebook.pages.recorded import _digest
    facts = {key: value for key, value in said.items() if key != "digest"}
    return json.dumps({**facts, "digest": _digest(facts)})


@pytest.mark.parametrize(("spoil", "wanted"), [
    (lambda _: None, f"has no record. Run: {COMMAND} practice-band"),
    (lambda text: text.replace("39 stitches", "40 stitches", 1), "changed by hand"),
    (_moved, f"Run: {COMMAND} practice-band --draft"),
    (lambda text: record_of_facts(_band(), {**json.loads(text), "version": "0.0.1"}),
     f"now. Run: {COMMAND} practice-band"),
])
def test_who_changes_counts_is_told_which_command_to_run(spoil, wanted) -> None:  # type: ignore[no-untyped-def]
    text = record_of(_band(), "")
    assert to_do(_band(), text) == ""
    assert wanted in to_do(_band(), spoil(text))


def test_every_correction_says_which_version_has_it() -> None:
    """Who has an older sheet can then tell whether it is concerned (common practice, no source)."""
    without = {(proof.pattern.slug, str(one.date)) for proof in collection().proofs
               for one in proof.pattern.corrections if not one.version}
    assert without == set()


def test_a_version_above_the_first_says_what_changed() -> None:
    """Or that no size changed: who has an older sheet else cannot tell whether it is good (common
    practice, no source)."""
    untold = {(proof.pattern.slug, proof.pattern.version) for proof in collection().proofs
              if proof.pattern.version != "1.0.0" and proof.pattern.version not in {
                  one.version for one in proof.pattern.corrections}}
    assert untold == set()


def test_a_correction_that_begins_with_sizes_is_on_their_pages_alone() -> None:
    """A knitter of size XS read one that began with "Sizes S, XL and 4X", to take it for XS."""
    apart = {}
    for proof in collection().proofs:
        for one in proof.pattern.corrections:
            begun = re.match(r"Sizes? ([^:]*):", one.text)
            named = set(re.split(r", | and ", begun[1])) if begun else set()
            if not named <= set(one.sizes):
                apart[proof.pattern.slug, one.version] = one.sizes
    assert apart == {}


def test_a_correction_of_an_amount_says_which_one_the_page_has() -> None:
    """ "A fifth more yarn" is a fifth more than before, not more than the page says."""
    unclear = {proof.pattern.slug for proof in collection().proofs
               for one in proof.pattern.corrections
               if "you need" in one.text and "more yarn" in one.text
               and "more yarn than before" not in " ".join(one.text.split())}
    assert unclear == set()
