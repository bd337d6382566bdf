"""The lists on the page about pattern sources that follow from what the engine knows."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from ..codes import CODES
from ..forms.registry import FORMS, Form
from ..ranges import MEASURES, OWN_MEASURE, RANGES, Range

FINDINGS_MARKER = "<!-- walebook:findings -->"
FORMS_MARKER = "<!-- walebook:forms -->"
RANGES_MARKER = "<!-- walebook:ranges -->"


def fill_lists(markdown: str) -> str:
    """Return the page with its markers replaced by the findings, forms and ranges there are."""
    return (markdown.replace(FINDINGS_MARKER, _listed(CODES))
            .replace(RANGES_MARKER, _ranges((*RANGES.values(), *MEASURES.values(), OWN_MEASURE)))
            .replace(FORMS_MARKER, "\n".join(_form(form) for form in FORMS.values())))


def _listed(meanings: Mapping[str, str]) -> str:
    return "\n".join(f"- `{code}`: {meanings[code]}" for code in sorted(meanings))


def _ranges(rows: Iterable[Range]) -> str:
    """A table of what is plausible and what is allowed, the source at the end of a row."""
    lines = [f"| {row.kind.replace('_', ' ')} | {row.low} to {row.high} | {row.least} to "
             f"{row.most} | {row.source} |" for row in rows]
    return "\n".join(("| Figure | Plausible | Allowed | Source |", "| --- | --- | --- | --- |",
                      *lines)).replace("| -", "| −").replace(" to -", " to −")


def _form(form: Form) -> str:
    edges = ", ".join(f"`{edge}`" for edge in form.edges)
    measures = "; ".join(f"`{name}: {default}`" for name, default in form.measures.items())
    rounds = ", ".join(f"`{name.replace('_', ' ')}`" for name in form.rounds)
    return (f"{form.name}\n:   {form.summary[:1].upper()}{form.summary[1:]}.\n\n"
            f"    Edges for bands: {edges}.\n\n    Measures: {measures}.\n\n"
            f"    Counts to round: {rounds}.\n")
