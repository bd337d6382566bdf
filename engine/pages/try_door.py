"""The door of "Try it": a source as it is typed, and what `walebook check` would find, with a page.

What goes in and out is JSON, so that nothing but texts passes.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any

from ..core.problems import has_errors
from ..markup.notes import can_follow
from ..markup.titled import titled
from ..markup.units_shown import in_units
from ..proof.proof import Proof
from ..proof.texts import Texts
from ..source.fabric_reading import size_slug
from . import write_page
from .findings_json import finding_json
from .from_texts import prove_made


def answer(request: str) -> str:
    """Return, as JSON, the findings of a source, and the page of one of its sizes.

    `request` is JSON: `slug`, `source`, `shared`, `pictures`, `picture_sizes`, `beds`, `charts`
    (the pattern's own is called "own"), `units`, `collection` (what holds for a source without that
    key), and the `size` whose page is wanted, by the name of its page. Without such a size it is
    the first. `notes` may be left out: then no link to the pattern's own page is judged, as where
    nothing reads the Markdown of notes with links. The answer has `findings`; `sizes`, names with
    the names of their pages; `page`, None where a finding is an error; and `notes_followed`.
    """
    given = json.loads(request)
    texts, is_followed = _texts(given)
    proof, findings = prove_made(texts, beds=given["beds"], charts=given["charts"],
                                 is_followed=is_followed)
    is_sound = proof is not None and not has_errors(findings)
    sizes = {size.size: size_slug(size.size) for size in proof.sizes} if proof else {}
    return json.dumps({
        "findings": [finding_json(each) for each in findings], "sizes": sizes,
        "page": _page(proof, sizes, given) if proof and is_sound else None,
        "notes_followed": is_followed}, ensure_ascii=False)


def _texts(given: Mapping[str, Any]) -> tuple[Texts, bool]:
    """The texts, and whether the links in the notes can be followed here."""
    notes: str = given.get("notes", "")
    is_followed = "notes" in given and can_follow(notes)
    return Texts(slug=given["slug"], source=given["source"], notes=notes if is_followed else "",
                 shared=given.get("shared", ""), collection=given.get("collection", {}),
                 pictures=given.get("pictures", {}),
                 picture_sizes={name: (wide, high) for name, (wide, high)
                                in given.get("picture_sizes", {}).items()}), is_followed


def _page(proof: Proof, sizes: Mapping[str, str], given: Mapping[str, Any]) -> dict[str, str]:
    """The page of the size that is wanted, as the article of a site."""
    wanted = given.get("size", "")
    name, page = next(((name, page) for name, page in sizes.items() if page == wanted),
                      next(iter(sizes.items())))
    text = write_page(proof, f"patterns/{proof.pattern.slug}/{page}.md").text
    return {"size": name, "name": page, "title": proof.pattern.title,
            "html": titled(in_units(text, given["units"]), "")}
