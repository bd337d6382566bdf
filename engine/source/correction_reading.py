"""Reads what a pattern says that was put right: when, in which version, in which sizes."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from ..core.text import clip, suggest
from ..pattern.corrections import Correction
from .fields import Fields, open_fields
from .keys.key import Key, Several
from .keys.pattern_keys import CorrectionKeys, PatternKeys
from .measure_reading import plain


def read_corrections(fields: Fields, sizes: Sequence[str], withdrawn: Sequence[str]
                     ) -> tuple[Correction, ...]:
    """Return the corrections in their order; one at fault is recorded and left out.

    One may name a size that is withdrawn.
    """
    known = (*sizes, *withdrawn) if sizes else ()
    made = []
    for entry in fields.each(PatternKeys.corrections):
        own = open_fields(fields.findings, entry, "a correction", CorrectionKeys)
        if own is None:
            continue
        date, what = own.need(CorrectionKeys.date), own.need(CorrectionKeys.text)
        release = own.get(CorrectionKeys.version)
        concerned = tuple(sizes_named(own, CorrectionKeys.sizes, known, fields.findings.former))
        if "step" in own and "at" not in own:
            own.required(CorrectionKeys.at)
        if date is not None and what is not None:
            made.append(Correction(date=date, text=what, version=release or "", sizes=concerned,
                                   at=plain(own.get(CorrectionKeys.at)),
                                   step=own.get(CorrectionKeys.step)))
    return tuple(made)


def sizes_named(own: Fields, key: Key[Any], sizes: Sequence[str],
                former: Mapping[str, str] | None = None) -> Iterator[str]:
    """Yield the sizes listed under `key`; one that the pattern does not have is recorded.

    A label in `former` stands for the size that has another one now.
    """
    assert isinstance(key.read, Several)
    for entry in own.each(key):
        size = own.findings.read(entry, key.read.item)
        if size is None:
            continue
        size = (former or {}).get(size, size)
        if sizes and size not in sizes:
            expected, remedy = suggest(size, sizes, "Delete it, or add it to sizes.")
            own.findings.fault("unknown-size", entry.place, f'the unknown size "{clip(size)}"',
                               expected, remedy)
        else:
            yield size


def compare_with_version(fields: Fields, release: str | None, date: str | None,
                         corrections: Sequence[Correction]) -> None:
    """Warn of a correction later than the version: is it in what the reader has?"""
    last = max((one.date for one in corrections), default="")
    if date is not None and last > date:
        fields.findings.warn("correction-later", fields.at(PatternKeys.date),
                             f"{date}, and a correction of {last}",
                             "a date not before the last correction", "Write the date of the "
                             f"version that has it: date: {last}, and raise the version.")
    named = [one.version for one in corrections if one.version]
    newest = max(named, key=_parts, default="")
    if release is not None and newest and _parts(newest) > _parts(release):
        fields.findings.warn("correction-later", fields.at(PatternKeys.version),
                             f"version {release}, and a correction of version {newest}",
                             "a version that has every correction",
                             f"Write version: {newest}, or mend the version of the correction.")


def _parts(release: str) -> tuple[int, ...]:
    """The numbers of a version, as versions are compared: 1.10 is later than 1.9."""
    return tuple(map(int, release.split(".")))
