"""The door of a reader's own gauge: what the site tells her device, and what it is answered.

Both are JSON, so that nothing but texts goes in and out.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping
from functools import lru_cache
from typing import Any

from ..core.problems import Problem, Severity
from ..core.units import Length
from ..fabric.gauge import measure
from ..pattern.fabrics import Fabric, Swatch
from ..pattern.model import Pattern
from ..proof.near_gauges import (
    Near,
    gauges_searched,
    limit_to_10cm,
    near_gauges,
    within_limit,
)
from ..proof.own_gauge import (
    OwnSizeResult,
    SourceTexts,
    Wanted,
    has_to_keep,
    make,
    measures_near,
    measures_searched,
    needles_needed,
    published,
    too_far,
    unread,
    working_sizes,
)
from ..proof.own_measures import Changeable, changeable, measures_too_far, unread_measures
from ..proof.parts_of_fabrics import Parts, parts_of_fabrics
from ..proof.proof import Proof, prove_alone
from ..proof.texts import Texts
from ..source.fabric_reading import size_slug
from ..words import own_gauge_text as words
from ..words import own_measure_text
from .from_texts import read_beds, read_charts
from .own_page import called, news, own_page, swatch_text

_TEXTS = ("slug", "source", "shared", "collection", "pictures", "picture_sizes", "beds", "charts")
SCHEMA = 1
"""The number of the form of both; it changes when a key changes its meaning."""


def offered(pattern: Pattern, texts: Texts, *, beds: Mapping[str, str], charts: Mapping[str, str],
            units: str) -> str:
    """Return what a reader's device needs to work at her gauge, as JSON.

    `beds` and `charts` are the texts that the pattern leads to. The notes do not go with it.
    """
    allowed, parts = pattern.reader_change, parts_of_fabrics(pattern)
    by = allowed.measures_within if allowed else None
    return json.dumps({
        "schema": SCHEMA, "pattern": pattern.slug, "title": pattern.title,
        "version": pattern.version, "within": allowed.within if allowed else None,
        "fabrics": [_fabric(pattern.fabrics, parts, key) for key in parts
                    if allowed and allowed.gauge],
        "measures": {size_slug(size): [_measure(one) for one in changeable(pattern, size)]
                     for size in pattern.sizes},
        "measures_within": by and by.in_cm(), "stays": list(words.stays(pattern.reader_keeps)),
        "asked": {"slug": texts.slug, "source": texts.source, "shared": texts.shared,
                  "collection": dict(texts.collection),
                  "pictures": dict(texts.pictures),
                  "picture_sizes": {n: list(s) for n, s in texts.picture_sizes.items()},
                  "beds": dict(beds), "charts": dict(charts), "units": units}},
        ensure_ascii=False, separators=(",", ":"))


def _fabric(fabrics: Mapping[str, Fabric], parts: Mapping[str, Parts], key: str
            ) -> dict[str, Any]:
    swatches = fabrics[key].swatches
    return {"key": key, "called": called(parts, key), "gauge": str(measure(swatches)),
            "swatch": _typed(swatches[0])}


def _measure(one: Changeable) -> dict[str, str]:
    return {"name": one.name, "called": own_measure_text.called(one.name),
            "how": own_measure_text.how(one.name, is_body=bool(one.row)),
            "theirs": Length(one.theirs).in_cm()}


def _typed(swatch: Swatch) -> dict[str, str]:
    return {"stitches": str(swatch.stitches), "width": swatch.width.in_cm(),
            "rows": str(swatch.rows), "height": swatch.height.in_cm()}


def answer(request: str) -> str:
    """Return, as JSON, what comes of a reader's figures: her page, or why there is none.

    `request` is JSON: the texts that `offered` gives, the `size`, her `swatches` by fabric, her
    `measures` by name. The answer has `page`; or `unread`, the figures to put right; or `refused`
    with what would work.
    """
    given = json.loads(request)
    wrong = [{"fabric": key, "field": field, "said": words.unread(field)}
             for key, swatch in given["swatches"].items() for field in unread(swatch)]
    return json.dumps({"unread": wrong} if wrong else _worked(given), ensure_ascii=False)


def _worked(given: Mapping[str, Any]) -> dict[str, Any]:
    texts = json.dumps({key: given[key] for key in _TEXTS})
    ground, pattern = _designers(texts)
    wanted = Wanted(size=next(each for each in pattern.sizes if size_slug(each) == given["size"]),
                    swatches=given["swatches"], measures=given.get("measures", {}))
    if wrong := list(_unread(pattern, wanted)):
        return {"unread": wrong}
    own = wanted.of(ground, pattern)
    if own is None:
        return _refused(words.refused(("",)))
    if far := (*_too_far(pattern, own.fabrics, wanted), *_measures_too_far(pattern, wanted)):
        return _refused(far)
    theirs, known = _designers_size(texts, wanted.size)
    kept = published(theirs).sizes[0] if has_to_keep(pattern.reader_keeps) else None
    made = make(own, pattern.reader_keeps, wanted.size, kept)
    if made.proof is None:
        return _not_knitted(ground, pattern, own, wanted, made)
    page = own_page(published(theirs), made.proof, wanted, news(known, made.found),
                    moved=made.moved, units=given["units"])
    return {"page": {"name": page.name, "mark": page.mark, "html": page.html}}


@lru_cache(maxsize=1)
def _designers(texts: str) -> tuple[SourceTexts, Pattern]:
    """What a pattern is read from, and the designer's own: the same for each gauge of a reader's.

    The last is kept, also in the start that her device keeps.
    """
    ground = _ground(json.loads(texts))
    return ground, published(ground.read({}))


@lru_cache(maxsize=1)
def _designers_size(texts: str, size: str) -> tuple[Proof | None, tuple[Problem, ...]]:
    """The designer's own proof of a size, and what was found."""
    return prove_alone(_designers(texts)[1], size)


def _unread(pattern: Pattern, wanted: Wanted) -> Iterator[dict[str, str]]:
    able = {one.name: one.range for one in changeable(pattern, wanted.size)}
    for name in unread_measures(pattern, wanted.size, wanted.measures):
        sentence = own_measure_text.unread(name, able[name].least, able[name].most) \
            if name in able else own_measure_text.stays(name)
        yield {"measure": name, "said": sentence}


def _ground(given: Mapping[str, Any]) -> SourceTexts:
    texts = Texts(slug=given["slug"], source=given["source"], shared=given["shared"],
                  collection=given["collection"], pictures=given["pictures"],
                  picture_sizes={n: (w, h) for n, (w, h) in given["picture_sizes"].items()})
    faults: list[Problem] = []
    return SourceTexts(texts, read_beds(given["beds"], faults),
                       read_charts(given["charts"], texts, faults))


def _too_far(pattern: Pattern, own: Mapping[str, Fabric], wanted: Wanted) -> Iterator[str]:
    parts = parts_of_fabrics(pattern)
    most = pattern.reader_change.within if pattern.reader_change else None
    for key in too_far(pattern.reader_change, pattern.fabrics, own):
        swatch, fabric = wanted.swatches[key], pattern.fabrics[key]
        yield words.too_far(called(parts, key), most or 0, measure(own[key].swatches),
                            measure(fabric.swatches))
        yield words.limit(*limit_to_10cm(fabric, most or 0))
        yield words.within_limit(swatch["stitches"], swatch["rows"],
                                 *within_limit(swatch, fabric, most or 0))


def _measures_too_far(pattern: Pattern, wanted: Wanted) -> Iterator[str]:
    most = pattern.reader_change.measures_within if pattern.reader_change else None
    for one, own in measures_too_far(pattern, wanted.size, wanted.measures):
        yield own_measure_text.too_far(one.name, own, Length(one.theirs), wanted.size,
                                    most or Length(one.theirs))


def _not_knitted(ground: SourceTexts, pattern: Pattern, own: Pattern, wanted: Wanted,
                 made: OwnSizeResult
                 ) -> dict[str, Any]:
    """Why there is no page, and what would work: near figures, other sizes, another bed."""
    sentences = words.refused((p.code for p in made.found if p.severity is Severity.ERROR),
                              with_measures=bool(wanted.measures))
    lost = (own_measure_text.lost(*one) for one in made.lost)
    needles = needles_needed(own, wanted.size, made.found)
    bed = (words.bed_needed(needles, own.bed.needles),) if needles else ()
    gauges = list(_data(parts_of_fabrics(pattern), near_gauges(ground, pattern, wanted)))
    near = [{"measure": name, "text": text, "said": own_measure_text.figure(name, text)}
            for name, text in measures_near(ground, pattern, wanted)]
    searched = words.searched(gauges_searched(wanted), measures_searched(wanted))
    return _refused((*sentences, *lost, *bed), [*near, *gauges],
                    working_sizes(ground, pattern, wanted), "" if near or gauges else searched)


def _data(parts: Mapping[str, Parts], gauges: Iterable[Near]) -> Iterator[dict[str, Any]]:
    for near in gauges:
        yield {"swatches": dict(near),
               "said": words.of_fabrics(words.of_fabric(called(parts, key), swatch_text(swatch))
                                        for key, swatch in near.items())}


def _refused(sentences: tuple[str, ...], gauges: list[dict[str, Any]] | None = None,
             sizes: tuple[str, ...] = (), searched: str = "") -> dict[str, Any]:
    """The answer without a page; `gauges` are the figures that work, None where none was tried;
    `searched` is how far, where none was found."""
    return {"refused": {"said": list(sentences), "gauges": gauges, "searched": searched,
                        "sizes": {size: size_slug(size) for size in sizes}}}
