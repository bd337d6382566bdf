"""The lists and drawings on the page about measures, from the forms and the meaning of names."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping

from ..drawings.body_measures import body_drawings, marks, piece_drawings
from ..forms.registry import FORMS, Form
from ..sizing.measures import names_in
from ..words import measure_names as words
from ..words.measure_names import BODY, MEASURES


def fill_measures(markdown: str) -> str:
    """Return the page with its markers about measures replaced."""
    for marker, made in _MADE.items():
        if marker in markdown:
            markdown = markdown.replace(marker, made())
    return markdown


def explained(name: str) -> dict[str, str]:
    """What a measure of a body or of a garment is, as text, by which of the two it is of."""
    meanings = {words.OF_BODY: BODY.get(name, ""), words.OF_GARMENT: MEASURES.get(name, "")}
    forms = {words.OF_BODY: _using(name), words.OF_GARMENT: _with(name)}
    return {whose: f"{meaning}{words.used_by(forms[whose], _many())}"
            for whose, meaning in meanings.items() if meaning}


def _body() -> str:
    return _listed(BODY, {name: _using(name) for name in BODY})


def _using(measurement: str) -> list[str]:
    """The forms whose sums name a measurement of a body."""
    return [form.name for form in FORMS.values() if measurement in set(_names_of_sums(form))]


def _many() -> dict[str, list[str]]:
    return {words.WITH_BODY: _with("chest_width"), words.WITH_SLEEVES: _with("sleeve_length")}


def _measures() -> str:
    return _listed(MEASURES, {name: _with(name) for name in MEASURES})


def _with(measure: str) -> list[str]:
    """The forms that have a measure."""
    return [form.name for form in FORMS.values() if measure in form.names]


def _names_of_sums(form: Form) -> Iterator[str]:
    """The names in every sum that a form can take."""
    for name, usual in form.measures.items():
        for text in (usual, *form.better.get(name, ())):
            yield from names_in(text)
    for one in form.optional.values():
        yield from names_in(one.sum)


def _listed(meanings: Mapping[str, str], using: Mapping[str, list[str]]) -> str:
    known, many = marks(meanings), _many()
    return "\n".join(words.entry(name, known.get(name, ""), meaning,
                                 words.used_by(using[name], many))
                     for name, meaning in meanings.items())


_MADE: Mapping[str, Callable[[], str]] = {
    "<!-- walebook:body -->": _body, "<!-- walebook:measures -->": _measures,
    "<!-- walebook:body-drawings -->": body_drawings,
    "<!-- walebook:piece-drawings -->": piece_drawings}
