"""The files of a proved pattern: overview, a page a size, the sketch, charts and counts.json."""

from __future__ import annotations

from ..machine.records import dataclass
from ..proof.advice import GarmentAdvice, advise_all
from ..proof.proof import Proof
from ..source.fabric_reading import size_slug
from .chart_files import chart_files
from .counts_json import counts_json
from .overview_page import overview_page
from .shared_by_pages import Shared, shared
from .size_page import size_page
from .sketch import FILE as SKETCH
from .sketch import Sketch, sketch_of


@dataclass(frozen=True, slots=True)
class PageFile:
    """A file of the site: its path under the site's source folder, its text, and whether the
    site's search may find it. The text of a `BINARY` file is the base64 of its bytes."""

    path: str
    text: str
    searchable: bool


def write_pages(proof: Proof, only: str | None = None) -> tuple[PageFile, ...]:
    """Return the overview, a page a size, the sketch, the files of charts and counts.json of a
    proved pattern.

    Of the sizes' pages it is that of `only`, where a size is given.
    """
    common = shared(proof)
    advice = advise_all(proof)
    return tuple(_written(proof, name, common, advice)
                 for name in _names(proof, only, common.sketch))


def page_names(proof: Proof, only: str | None = None) -> tuple[str, ...]:
    """Return the paths of a proved pattern's files, in the order in which they are written."""
    return _names(proof, only, sketch_of(proof))


def _names(proof: Proof, only: str | None, sketch: Sketch | None) -> tuple[str, ...]:
    folder = f"patterns/{proof.pattern.slug}"
    sizes = (size_slug(size.size) for size in proof.sizes if only in (None, size.size))
    return (f"{folder}/index.md", *(f"{folder}/{name}.md" for name in sizes),
            *[f"{folder}/{SKETCH}"] * (sketch is not None),
            *(f"{folder}/{name}" for name, _ in chart_files(proof.pattern.stitch_charts)),
            f"{folder}/counts.json")


def write_page(proof: Proof, path: str) -> PageFile:
    """Return one of the files that `page_names` has, as `write_pages` writes it."""
    return _written(proof, path, shared(proof), advise_all(proof))


def _written(proof: Proof, path: str, common: Shared,
             advice: GarmentAdvice | None) -> PageFile:
    name = path.rpartition("/")[2]
    if name == "counts.json":
        return PageFile(path, counts_json(proof, common, advice), searchable=False)
    charts = dict(chart_files(proof.pattern.stitch_charts)) if proof.pattern.stitch_charts else {}
    if name in charts:
        return PageFile(path, charts[name], searchable=False)
    if name == SKETCH:
        return PageFile(path, common.sketch.svg if common.sketch else "", searchable=False)
    if name == "index.md":
        return PageFile(path, overview_page(proof, common, advice), searchable=True)
    size = next(each for each in proof.sizes if f"{size_slug(each.size)}.md" == name)
    own = next((each for each in advice.sizes if each.size == size.size), None) if advice else None
    return PageFile(path, size_page(proof.pattern, size, common, own), searchable=False)


def has_anchor(proof: Proof, name: str) -> bool:
    """True when the overview of a proved pattern has the id `name`."""
    page = overview_page(proof, shared(proof), advise_all(proof))
    return f'id="{name}"' in page or f"{{ #{name} }}" in page
