"""The table of measures of all sizes: no group without a row, and no ease without its body."""

from __future__ import annotations

import re

from walebook.pages.overview_tables import measures_table
from walebook.proof.advice import advise_all
from walebook.words.garment_text import body_of

from tests.whole_collection import collection


def test_no_group_is_empty_and_every_ease_has_its_body() -> None:
    eased = 0
    for proof in collection().proofs:
        advice = advise_all(proof)
        if advice is None:
            continue
        text = measures_table(proof, None, advice)
        assert not re.search(r"rowgroup[^\n]*?</th></tr></tbody>", text), proof.pattern.slug
        for label in {fit.label for size in advice.sizes for fit in size.fits}:
            assert body_of(label) in text, (proof.pattern.slug, label)
            eased += 1
    assert eased
