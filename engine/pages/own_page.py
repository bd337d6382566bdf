"""A size's page at a reader's own gauge and measures, as HTML: hers, and marked as hers."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping
from hashlib import sha256

from ..core.problems import Problem, Severity
from ..core.units import Length
from ..fabric.gauge import Gauge, measure
from ..machine.records import dataclass
from ..markup.html import esc
from ..markup.titled import titled
from ..markup.units_shown import in_units
from ..pattern.fabrics import Fabric
from ..pattern.model import Pattern
from ..proof.own_gauge import Wanted
from ..proof.own_measures import changeable, read_figure
from ..proof.parts_of_fabrics import Parts, parts_of_fabrics
from ..proof.proof import Proof
from ..source.fabric_reading import size_slug
from ..source.own_swatch import TypedSwatch
from ..words import own_gauge_text as words
from ..words import own_measure_text
from ..words.fabric_names import fabric_names
from ..words.page_headings import size_title
from . import write_page
from .compared import compared
from .shared_by_pages import shared

DIGITS = 12


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnPage:
    """A page at a reader's gauge.

    `name` is what its place, counters and notes are kept under, beside those of the size; `mark`
    the short text for every screen; `html` the article, and `text` the page as the site writes it.
    """

    name: str
    mark: str
    html: str
    text: str


def own_page(theirs: Proof, own: Proof, wanted: Wanted, found: Iterable[Problem], *, moved: int,
             units: str) -> OwnPage:
    """Return the page of the one size that both proofs have, with a head that says whose it is.

    `theirs` is of the designer's figures, `wanted` what the reader entered, `found` what is less
    usual with hers, `moved` how far its buttonholes are [stitches]; `units` are those of the site.
    """
    pattern, (size,) = own.pattern, own.sizes
    page = size_slug(size.size)
    text = write_page(own, f"patterns/{pattern.slug}/{page}.md").text
    name = own_name(pattern.fabrics, pattern.version, wanted)
    parts = parts_of_fabrics(pattern)
    gauge = _main_gauge(pattern.fabrics, parts, wanted.swatches)
    about = words.About(gauge if wanted.swatches else None, bool(wanted.measures))
    head = "".join((
        f'<section class="wb-mine" data-wb-own="{name}" '
        f'data-wb-mark="{esc(about.short_mark)}">\n',
        words.mine(size_title(pattern.title, size.size), pattern.version, about,
                   [*((called(parts, key), _gauge_text(pattern.fabrics, key, wanted.swatches))
                      for key in parts),
                    *_measures_text(theirs.pattern, wanted)]),
        words.less_usual((*words.doubts(p.code for p in found), *words.holes_moved(moved))),
        words.designers_page(f"{page}.html"),
        words.changed(changes(theirs, own)), "</section>\n"))
    text = in_units(text, units)
    return OwnPage(name=name, mark=about.mark, text=text, html=titled(text, head))


def own_name(fabrics: Mapping[str, Fabric], version: str, wanted: Wanted) -> str:
    """Return the name of a reader's page: the pattern's version and a digest of her figures.

    The digest is of what was measured, in whatever units it was written.
    """
    facts: list[list[str]] = [
        [key, *(str(value) for swatch in fabrics[key].swatches
                for value in (swatch.stitches, swatch.width.mm, swatch.rows, swatch.height.mm,
                              swatch.mass_g))] for key in sorted(wanted.swatches)]
    facts += [["measure", name, str(length.mm)] for name, text in sorted(wanted.measures.items())
              if (length := read_figure(text))]
    digest = sha256(json.dumps(facts).encode()).hexdigest()[:DIGITS]
    return f"my-{version}-{digest}"


def _measures_text(pattern: Pattern, wanted: Wanted) -> Iterator[tuple[str, str]]:
    """Each of the reader's measures by its name, beside the designer's."""
    for one in changeable(pattern, wanted.size):
        if one.name in wanted.measures:
            yield (own_measure_text.called(one.name),
                   own_measure_text.beside(wanted.measures[one.name], Length(one.theirs)))


def called(parts: Mapping[str, Parts], key: str) -> str:
    """Return what a fabric of a pattern is called to its readers, by the parts knitted in it."""
    return words.called(fabric_names(parts)[key])


def swatch_text(swatch: TypedSwatch) -> str:
    """Return a swatch in words, as it was measured."""
    return words.swatch_text(swatch["stitches"], swatch["width"], swatch["rows"], swatch["height"])


def changes(theirs: Proof, own: Proof) -> list[tuple[str, str, str]]:
    """Return the counts of two proofs of one size that differ: name, the first's, the second's."""
    before, now = (compared(proof.sizes[0], shared(proof).figures) for proof in (theirs, own))
    names = list(dict.fromkeys((*before, *now)))
    return [(name, before.get(name, "–"), now.get(name, "–")) for name in names
            if before.get(name) != now.get(name)]


def news(theirs: Iterable[Problem], own: Iterable[Problem]) -> tuple[Problem, ...]:
    """Return the warnings and cautions of the second that the first does not have, by code."""
    known = {p.code for p in theirs}
    return tuple(p for p in own if p.code not in known
                 and p.severity in (Severity.WARNING, Severity.CAUTION))


def _gauge_text(fabrics: Mapping[str, Fabric], key: str,
                swatches: Mapping[str, TypedSwatch]) -> str:
    if key in swatches:
        return swatch_text(swatches[key])
    return words.as_designed(measure(fabrics[key].swatches))


def _main_gauge(fabrics: Mapping[str, Fabric], parts: Iterable[str],
                swatches: Mapping[str, TypedSwatch]) -> Gauge:
    """The gauge of the first fabric that a reader swatched, in the order of its parts."""
    key = next((key for key in parts if key in swatches), next(iter(fabrics)))
    return measure(fabrics[key].swatches)
