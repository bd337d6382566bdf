"""Patterns of one title: in the list of patterns nothing tells their cards apart."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from walebook.core.problems import Place, Problem, Severity, note


def same_titles(titles: Iterable[tuple[str, Place]]) -> Iterator[Problem]:
    """Yield a caution for each title that a pattern before it has, at its place.

    `titles` are those of published patterns, in order. Capital letters and blanks make no
    difference.
    """
    first: dict[str, Place] = {}
    for title, place in titles:
        there = first.setdefault(" ".join(title.casefold().split()), place)
        if there is not place:
            from walebook.core.text import clip  # a check of what is kept loads no engine
            yield note(Severity.CAUTION, "same-title", place,
                       found=f'the title "{clip(title)}", which {there} has too',
                       expected="a title for each pattern, by which a knitter finds it in the list",
                       remedy="Write another title in one of them.")
