"""The pages of a proved pattern as the cache keeps them: their texts, and what lists show."""

from __future__ import annotations

import json
from typing import Any

from walebook.pages import pattern_card, search_text, write_pages
from walebook.pages.former_sizes import gone_sizes
from walebook.proof.proof import Proof


def pages_of(proof: Proof) -> tuple[dict[str, Any], dict[str, str]]:
    """Return what lists and the search say of a pattern, and the text of each page by its path."""
    written = write_pages(proof)
    facts = {"card": pattern_card(proof).as_json(), "search": search_text(proof),
             "gone_sizes": gone_sizes(proof.pattern.sizes, proof.pattern.former_sizes,
                                      proof.pattern.withdrawn_sizes),
             "pages": [(page.path, title_of(page.text), page.searchable) for page in written]}
    return facts, {page.path: page.text for page in written}


def title_of(text: str) -> str:
    """Return the title in a page's front matter, where it stands as JSON; "" without one."""
    line = text.partition("\ntitle: ")[2].partition("\n")[0] if text.startswith("---\n") else ""
    return str(json.loads(line)) if line else ""
