"""The door of a reader's own gauge: what the site tells her device, and what it is answered.

Both are JSON, so that nothing but texts goes in and out.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from typing import Any

from ..core.problems import Problem, Severity
from ..fabric.gauge import measure
from ..pattern.fabrics import Swatch
from ..pattern.model import Pattern
from ..proof.fabric_names import fabric_names
from ..proof.own_gauge import (
    Ground,
    near_gauges,
    needles_needed,
    published,
    too_far,
    unread,
    working_sizes,
)
from ..proof.proof import prove_alone
from ..proof.texts import Texts
from ..source.materials import size_slug
from ..source.own_swatch import Measured
from ..words import own_gauge as words
from .from_texts import read_beds, read_charts
from .own_gauge import called, news, own_page, swatch_said

SCHEMA = 1
"""The number of the form of both; it changes when a key changes its meaning."""


def offered(pattern: Pattern, texts: Texts, *, beds: Mapping[str, str], charts: Mapping[str, str],
            units: str) -> str:
    """Return what a reader's device needs to work at her gauge, as JSON.

    `beds` and `charts` are the texts that the pattern leads to. The notes do not go with it.
    """
    allowed = pattern.reader_gauge
    return json.dumps({
        "schema": SCHEMA, "pattern": pattern.slug, "title": pattern.title,
        "version": pattern.version, "within": allowed.within if allowed else None,
        "fabrics": [_fabric(pattern, key) for key in fabric_names(pattern)],
        "asked": {"slug": texts.slug, "source": texts.source, "shared": texts.shared,
                  "pictures": dict(texts.pictures),
                  "picture_sizes": {n: list(s) for n, s in texts.picture_sizes.items()},
                  "beds": dict(beds), "charts": dict(charts), "units": units}},
        ensure_ascii=False, separators=(",", ":"))


def _fabric(pattern: Pattern, key: str) -> dict[str, Any]:
    swatches = pattern.fabrics[key].swatches
    return {"key": key, "called": called(pattern, key), "gauge": str(measure(swatches)),
            "swatch": _typed(swatches[0])}


def _typed(swatch: Swatch) -> dict[str, str]:
    return {"stitches": str(swatch.stitches), "width": swatch.width.in_cm(),
            "rows": str(swatch.rows), "height": swatch.height.in_cm()}


def answer(asked: str) -> str:
    """Return, as JSON, what comes of a reader's gauge: her page, or why there is none.

    `asked` is JSON: the texts that `offered` gives, the `size`, and her `swatches` by fabric. The
    answer has `page`; or `unread`, the figures to put right; or `refused` with what would work.
    """
    given = json.loads(asked)
    wrong = [{"fabric": key, "field": field, "said": words.unread(field)}
             for key, swatch in given["swatches"].items() for field in unread(swatch)]
    return json.dumps({"unread": wrong} if wrong else _worked(given), ensure_ascii=False)


def _worked(given: Mapping[str, Any]) -> dict[str, Any]:
    ground = _ground(given)
    swatches: dict[str, Measured] = given["swatches"]
    pattern, own = published(ground.read({})), ground.read(swatches)
    if own is None:
        return _refused(words.refused(("",)))
    if far := list(too_far(pattern, own)):
        return _refused(_too_far(pattern, own, far))
    name = next(each for each in own.sizes if size_slug(each) == given["size"])
    theirs, known = prove_alone(pattern, name)
    proof, found = prove_alone(own, name)
    if proof is None:
        return _not_knitted(ground, pattern, own, name, swatches, found)
    page = own_page(published(theirs), proof, swatches, news(known, found),
                    units=given["units"])
    return {"page": {"name": page.name, "mark": page.mark, "html": page.html}}


def _ground(given: Mapping[str, Any]) -> Ground:
    texts = Texts(slug=given["slug"], source=given["source"], shared=given["shared"],
                  pictures=given["pictures"],
                  picture_sizes={n: (w, h) for n, (w, h) in given["picture_sizes"].items()})
    faults: list[Problem] = []
    return Ground(texts, read_beds(given["beds"], faults),
                  read_charts(given["charts"], texts, faults))


def _too_far(pattern: Pattern, own: Pattern, fabrics: list[str]) -> tuple[str, ...]:
    most = pattern.reader_gauge.within if pattern.reader_gauge else None
    return tuple(words.too_far(called(pattern, key), most or 0, measure(own.fabrics[key].swatches),
                               measure(pattern.fabrics[key].swatches)) for key in fabrics)


def _not_knitted(ground: Ground, pattern: Pattern, own: Pattern, size: str,
                 swatches: Mapping[str, Measured], found: tuple[Problem, ...]) -> dict[str, Any]:
    """Why there is no page, and what would work: near gauges, other sizes, another bed."""
    said = words.refused(p.code for p in found if p.severity is Severity.ERROR)
    needles = needles_needed(own, size, found)
    bed = (words.bed_needed(needles, own.bed.needles),) if needles else ()
    gauges = near_gauges(ground, pattern, size, swatches)
    return _refused((*said, *bed), list(_told(pattern, gauges)), working_sizes(own, size))


def _told(pattern: Pattern, gauges: Iterator[tuple[str, Measured]]) -> Iterator[dict[str, Any]]:
    for key, swatch in gauges:
        yield {"fabric": key, "swatch": dict(swatch),
               "said": words.of_fabric(called(pattern, key), swatch_said(swatch))}


def _refused(said: tuple[str, ...], gauges: list[dict[str, Any]] | None = None,
             sizes: tuple[str, ...] = ()) -> dict[str, Any]:
    """The answer without a page; `gauges` are None where none was tried."""
    return {"refused": {"said": list(said), "gauges": gauges,
                        "sizes": {size: size_slug(size) for size in sizes}}}
