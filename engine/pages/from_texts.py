"""Texts to pages, with nothing on the way but Python and YAML (and Markdown for notes)."""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any

from ..core.problems import Problem, fold_remarks, fold_sizes, has_errors, in_order
from ..machine.records import dataclass
from ..pattern.fabrics import NeedleBed
from ..proof.proof import Proof
from ..proof.texts import Charts, Site, Texts, bed_of, chart_of, prove_texts
from ..sizing.charts import Chart
from ..source.page_names import OWN_CHART
from . import PageFile, has_anchor, write_pages
from .corrected_places import misplaced


@dataclass(frozen=True, slots=True, kw_only=True)
class MadePages:
    """What came of a pattern's texts: all findings in order, and no pages where one is an error.

    `counts` are the published counts by size, as counts.json has them; `pages` the pattern's
    files: its overview, the page of each size asked for, and counts.json with all sizes.
    """

    findings: tuple[Problem, ...]
    counts: Mapping[str, Any]
    pages: tuple[PageFile, ...]


def make(texts: Texts, *, beds: Mapping[str, str], charts: Mapping[str, str],
         size: str | None = None) -> MadePages:
    """Return what comes of a pattern's texts, in one `size` or, without one, in all.

    `beds` and `charts` are texts by name; the pattern's own chart is called "own". Every size is
    knitted and judged, whichever is asked for: one that fails keeps all from being published.
    Links in the notes are followed to the pattern's own pages alone. Raises KeyError for a size
    that a sound pattern has not.
    """
    proof, findings = prove_made(texts, beds=beds, charts=charts)
    if proof is None or has_errors(findings):
        return MadePages(findings=findings, counts={}, pages=())
    pages = write_pages(proof, size)
    counts = json.loads(pages[-1].text)["counts"]
    return MadePages(findings=findings, pages=pages,
                     counts=counts if size is None else {size: counts[size]})


def prove_made(texts: Texts, *, beds: Mapping[str, str], charts: Mapping[str, str],
               is_followed: bool = True) -> tuple[Proof | None, tuple[Problem, ...]]:
    """Return the proof of a pattern's texts in every size, and all findings in order.

    `beds` and `charts` are those of `make`. The proof is None where reading or knitting failed.
    Where the notes are not known, links to the pattern's own page are not followed.
    """
    found: list[Problem] = []
    proof, more = prove_texts(texts, beds=read_beds(beds, found),
                              charts=read_charts(charts, texts, found),
                              site=_site(texts, is_followed))
    found += more + (misplaced(proof) if proof else ())
    return proof, fold_remarks(fold_sizes(in_order(found)))


def read_beds(texts: Mapping[str, str], found: list[Problem]) -> dict[str, NeedleBed]:
    """Return the beds without an error, by name; what is wrong with others is added to `found`."""
    beds = {}
    for name, text in texts.items():
        bed, more = bed_of(text, file=f"patterns/_beds/{name}.yaml", name=name)
        found += more
        if bed is not None:
            beds[name] = bed
    return beds


def read_charts(texts: Mapping[str, str], of: Texts, found: list[Problem]) -> Charts:
    """Return the charts, each read when it is named first; faults of it are added to `found`."""
    known: dict[str, Chart | None] = {}

    def read(key: str) -> Chart | None:
        if key not in known:
            file = f"{of.folder}/chart.yaml" if key == OWN_CHART else f"patterns/_sizes/{key}.yaml"
            known[key], more = chart_of(texts[key], file=file, key=key)
            found.extend(more)
        return known[key]

    return Charts(texts, read)


def _site(texts: Texts, is_followed: bool) -> Site:
    """A site of which only the pattern's own pages are known: every other one may be there.

    Without the notes, so may every place on its first page.
    """
    return Site(lambda path: not path.startswith(f"{texts.folder}/"),
                lambda proof, name: not is_followed or has_anchor(proof, name))
