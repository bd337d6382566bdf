"""One of two states of a pattern that are compared: every fact of it, by its key."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import field
from typing import NamedTuple

from ..core.expression import Expression
from ..core.problems import Problem
from ..machine.members import Members
from ..machine.records import dataclass


class FactKind(Members):
    """What a fact is about."""

    MEASURE = "measure"
    LENGTH = "finished length"
    COUNT = "count"
    SCHEDULE = "schedule"
    YARN = "yarn"
    GAUGE = "gauge"
    JOIN = "join"
    BAND = "band measure"
    FINDING = "finding"
    STEPS = "steps"
    MATERIAL = "material"


EVERY_KIND = frozenset(FactKind)


class FactKey(NamedTuple):
    """Which fact it is: in which size ("" for all), of which piece, band, yarn or fabric, its name.
    """

    size: str
    kind: FactKind
    place: str
    name: str


@dataclass(frozen=True, slots=True)
class Fact:
    """A fact: its `value`, which is compared, and how it is shown.

    `say` is that text, or gives it: most facts are the same on both sides, and are not shown.
    `closer` gives others, each telling more apart than the one before. `unit` is what a count
    counts, "" of others. `made` are the expressions that compute it. Of steps `texts` gives the
    text of each; it is asked only where they differ.
    """

    value: object
    say: str | Callable[[], str]
    made: tuple[Expression, ...] = ()
    texts: Callable[[], tuple[str, ...]] | None = field(default=None, compare=False)
    closer: Callable[[], Iterator[str]] | None = field(default=None, compare=False)
    unit: str = field(default="", compare=False)

    @property
    def shown(self) -> str:
        """How it is shown."""
        return self.say if isinstance(self.say, str) else self.say()

    def texts_shown(self) -> Iterator[str]:
        """Yield how it is shown, and then closer and closer."""
        yield self.shown
        if self.closer:
            yield from self.closer()


def shown_apart(before: Fact, after: Fact) -> tuple[str, str]:
    """Return how two facts are shown, so closely that they differ where they can."""
    pairs = list(zip(before.texts_shown(), after.texts_shown(), strict=False))
    return next((pair for pair in pairs if pair[0] != pair[1]), pairs[-1])


@dataclass(frozen=True, slots=True, kw_only=True)
class ComparedSide:
    """A pattern in one of its states.

    `titles` are those of its pieces, bands and yarns by their keys, `kinds` the kinds of facts that
    are known of it. Where it has `errors` it was not knitted, and findings are all its facts.
    `former_sizes` are labels that its sizes had before, by those they have.
    """

    slug: str
    title: str = ""
    version: str = ""
    sizes: tuple[str, ...] = ()
    facts: Mapping[FactKey, Fact] = field(default_factory=dict)
    titles: Mapping[str, str] = field(default_factory=dict)
    kinds: frozenset[FactKind] = EVERY_KIND
    errors: tuple[Problem, ...] = ()
    former_sizes: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
