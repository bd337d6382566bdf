"""The lists on the page about pattern sources that follow from what the engine knows."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping

from ..catalogue.outright import outright_of
from ..core.codes import CODES
from ..core.ranges import COMPARED, DEPTHS, MEASURES, OWN_MEASURE, Range
from ..forms.registry import FORMS, Form
from ..markup.html import esc
from ..source.keys.whole import RANGES
from ..words import source_page_text as words
from .key_lists import fill_keys, shut
from .measure_lists import fill_measures

FINDINGS_MARKER = "<!-- walebook:findings -->"
FORMS_MARKER = "<!-- walebook:forms -->"
RANGES_MARKER = "<!-- walebook:ranges -->"
END = "<!-- walebook:end -->"
MARKER = re.compile(r"<!-- walebook:(?!end)[^>]*-->")
_WRITTEN = re.compile(rf"({MARKER.pattern})\n.*?{END}", re.DOTALL)


def without_lists(markdown: str) -> str:
    """Return the page with its markers alone, and nothing of what is written behind them."""
    return _WRITTEN.sub(r"\1", markdown)


def fill_lists(markdown: str) -> str:
    """Return the page with its markers replaced by keys, findings, forms, ranges and measures."""
    text = fill_keys(fill_measures(without_lists(markdown)))
    return _LISTED.sub(_made, text)


def _made(marker: re.Match[str]) -> str:
    """A list, made where it stands: most pages have none, and no form is loaded for them."""
    return _LISTS[marker[0]]()


def _listed(meanings: Mapping[str, str]) -> str:
    return "\n".join(f"- `{code}`: {meanings[code]}" for code in sorted(meanings))


def _ranges(rows: Iterable[Range]) -> str:
    """A table of what is plausible and what is allowed, the source at the end of a row."""
    head = "".join(f'<th scope="col">{title}</th>'
                   for title in words.RANGE_HEAD)
    body = "".join(f'<tr><th scope="row">{esc(row.kind.replace("_", " "))}</th>'
                   f"<td>{row.plausible}</td><td>{row.limits}"
                   f"</td><td>{esc(row.source)}</td></tr>\n" for row in rows)
    return (f'<details><summary>{words.ALL_RANGES}</summary><div class="wb-scroll" role="region" '
            f'tabindex="0" aria-label="{words.RANGES}">'
            f'\n<table class="wb-table">\n<thead><tr>{head}</tr></thead>\n'
            f"<tbody>\n{body}</tbody></table></div></details>")


def _form(form: Form) -> str:
    edges = ", ".join(f"`{edge}`" for edge in form.edges)
    measures = "; ".join(_measure(form, name) for name in form.measures)
    counts = ", ".join(f"`{name}`" for name in form.names if name in outright_of(form, ()))
    rounds = ", ".join(f"`{name.replace('_', ' ')}`" for name in form.rounds)
    more = "; ".join(f"`{name}: {one.sum}`" if one.sum else f"`{name}`"
                     for name, one in form.optional.items())
    return words.form_explained(form, edges=edges, measures=measures, more=more, counts=counts,
                                rounds=rounds)


def _measure(form: Form, name: str) -> str:
    """A measure with its default; where that depends on the chart, the sum to fall back on."""
    usual = form.measures[name]
    better = [sum_ for sum_ in form.better.get(name, ()) if sum_ != usual]
    fallback = words.fallback(usual) if better else ""
    half = words.half_of(form.halves[name]) if name in form.halves else ""
    return f"`{name}: {words.or_else(better) if better else usual}`{fallback}{half}"


_LISTS: dict[str, Callable[[], str]] = {
    FINDINGS_MARKER: lambda: shut(words.ALL_FINDINGS, _listed(CODES)),
    RANGES_MARKER: lambda: _ranges((*RANGES.values(), *COMPARED.values(), *DEPTHS.values(),
                                    *MEASURES.values(), OWN_MEASURE)),
    FORMS_MARKER: lambda: "\n\n".join(shut(esc(form.name), _form(form))
                                      for form in FORMS.values()),
}
_LISTED = re.compile("|".join(map(re.escape, _LISTS)))
