"""Words for the page about pattern sources: its table of ranges, and the forms of garments."""

from __future__ import annotations

from collections.abc import Sequence

from ..forms.registry import Form

ALL_FINDINGS = "All findings, by name"
ALL_RANGES = "All figures"
RANGES = "What is likely, and what is allowed"
RANGE_HEAD = ("Figure", "Plausible", "Allowed", "Source")


def form_explained(form: Form, *, edges: str, measures: str, more: str, counts: str,
                   rounds: str) -> str:
    """A form with its edges, measures and counts, in Markdown; a source has those of own pieces."""
    if not measures:
        return f"{form.summary[:1].upper()}{form.summary[1:]}: see [own outlines](#outlines).\n"
    return (f"{form.summary[:1].upper()}{form.summary[1:]}.\n\n"
            f"Edges for bands: {edges or 'none'}.\n\nMeasures: {measures}.\n\n"
            f"{f'Measures that may be left out: {more}.' if more else ''}"
            f"{chr(10) * 2 if more else ''}"
            f"Measures that can be [counts](#counts): {counts}.\n\n"
            f"Counts to round: {rounds}.\n")


def keys_named(names: Sequence[str]) -> str:
    """The keys of a list that is shut, as HTML."""
    return f"Keys: {', '.join(f'<code>{name}</code>' for name in names)}"


def fallback(usual: str) -> str:
    """By what a measure is set where the chart lacks something, in Markdown."""
    return f" (`{usual}` where the chart has not all of these)"


def half_of(whole: str) -> str:
    """That a measure is half of another, in Markdown."""
    return f" (`{whole} / 2` where only that is given)"


def or_else(sums: Sequence[str]) -> str:
    """The sums by which a measure is set, the first that can be."""
    return ", or ".join(sums)
