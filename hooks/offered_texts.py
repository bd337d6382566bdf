"""What a pattern that allows "My gauge" offers to its readers' devices: its texts."""

from __future__ import annotations

from walebook.core.problems import Problem
from walebook.pages.from_texts import read_beds, read_charts
from walebook.pages.own_gauge_door import offered
from walebook.pattern.collection import CollectionSettings
from walebook.proof.texts import Texts, read_texts
from walebook_site.dependencies import Recorded
from walebook_site.reading import Folder, Reading

_KEY = "reader_may_change"


def texts_offered(reading: Reading, folder: Folder, settings: CollectionSettings) -> str | None:
    """Return what a pattern offers, with the beds and charts it leads to; None where nothing is."""
    if folder.source is None or _KEY not in folder.source:
        return None
    texts = Texts(slug=folder.slug, source=folder.source, pictures=folder.pictures,
                  picture_sizes=folder.picture_sizes, shared=folder.shared,
                  collection=settings.for_patterns)
    beds = {path.stem: reading.apart(path)[0] or "" for path in reading.beds()}
    charts = {name: reading.apart(path)[0] or "" for name, path in folder.charts.items()}
    noted: set[str] = set()
    faults: list[Problem] = []
    pattern, _ = read_texts(texts, beds=Recorded("bed", read_beds(beds, faults), noted),
                            charts=Recorded("chart", read_charts(charts, texts, faults), noted))
    if pattern is None or pattern.reader_change is None or pattern.files_only:
        return None
    return offered(pattern, texts, units=settings.units,
                   beds={name: text for name, text in beds.items() if f"bed {name}" in noted},
                   charts={name: text for name, text in charts.items() if f"chart {name}" in noted})
