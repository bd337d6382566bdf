"""Run by the runtime, with `given` as JSON: prints a line of JSON for each pattern that is given.

For each size the digests of its page and of its part of counts.json, and the answers to what is
asked at a reader's gauge.
"""

import json
from hashlib import sha256

from walebook.pages import page_names, write_page
from walebook.pages.from_texts import read_beds, read_charts
from walebook.pages.own_gauge_door import answer
from walebook.proof.proof import prove_alone
from walebook.proof.texts import Texts, read_texts


def digest(text: str) -> str:
    """A digest of a text."""
    return sha256(text.encode()).hexdigest()


def digests(case: dict) -> dict:
    """Page and counts.json of each size that is asked for, proved by itself."""
    texts = Texts(**case["texts"])
    pattern, _ = read_texts(texts, beds=read_beds(case["beds"], []),
                            charts=read_charts(case["charts"], texts, []))
    proofs = [(size, prove_alone(pattern, size)[0]) for size in case["sizes"]]
    return {size: [digest(write_page(proof, path).text) for path in page_names(proof)
                   if path.endswith("counts.json") or (
                       path.endswith(".md") and not path.endswith("index.md"))]
            for size, proof in proofs}


for one in json.loads(globals()["given"]):
    print(json.dumps({"sizes": digests(one), "answers": [digest(answer(asked))
                                                         for asked in one["asked"]]}))
