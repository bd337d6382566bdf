"""Published patterns whose folders are gone: git has their records, and no page says so."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from walebook.core.problems import Place, Problem, Severity, note
from walebook_site.git_reading import NotRead, ever_added
from walebook_site.reading import COLLECTION, RECORD, Reading
from walebook_site.results import Results


def with_gone_patterns(found: Results) -> Results:
    """Return the results of a check with a warning for each pattern that is gone unsaid.

    Where git has no history to read, none is known.
    """
    problems = tuple(_gone(found))
    return replace(found, problems=problems + found.problems) if problems else found


def _gone(found: Results) -> Iterator[Problem]:
    reading = Reading(found.root)
    try:
        recorded = ever_added(found.root, f"patterns/*/{RECORD}")
    except NotRead:
        return
    gone = {path.parts[1] for path in recorded} - {*reading.names(), *reading.renamed.values()}
    if not gone:
        return
    from walebook.pattern.collection import CollectionSettings  # few checks need these
    from walebook.words import record_text as words
    named = {one.folder for one in CollectionSettings(**found.collection).former_patterns}
    for slug in sorted(gone - named):
        yield note(Severity.WARNING, "gone-pattern", Place(COLLECTION, 1, 1),
                   found=words.gone_pattern(slug), expected=words.STAYING_PAGE,
                   remedy=words.name_the_gone(slug))
