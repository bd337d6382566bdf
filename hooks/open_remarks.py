"""Says where a pattern has remarks of its tech editor that are open."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from pathlib import Path

FILE = "remarks.yaml"


def open_remarks(root: Path, slugs: Collection[str]) -> Iterator[str]:
    """Yield a line for each of these patterns that has a file of remarks beside it."""
    for slug in slugs:
        folder = root / "patterns" / slug
        if not (folder / FILE).exists():
            continue
        from walebook_site.remarks import NoRemarks, kept_remarks  # a check without any loads none
        try:
            kept = kept_remarks(folder)
        except NoRemarks as fault:
            yield str(fault)
            continue
        if kept:
            many, waiting = len(kept), sum(not one.answer for one in kept)
            yield (f"{slug}: {many} open remark{'s' * (many != 1)} of the tech editor, {waiting} "
                   f"without your answer: patterns/{slug}/{FILE}")
