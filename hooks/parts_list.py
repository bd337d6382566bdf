"""Which parts of a collection's site are the designer's own, and which are Walebook's."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from walebook_site.shipped import BEDS, CHARTS, OWN_PAGES, PARTS, SITE


@dataclass(frozen=True, slots=True)
class SitePart:
    """A file of the site: its name there, the designer's own file or "", and whether it is ours.
    """

    name: str
    own: str
    ours: bool

    def __str__(self) -> str:
        if not self.own:
            return f"ours   {self.name}"
        instead = "in place of ours" if self.ours else "a further one"
        return f"yours  {self.name}  ({self.own}, {instead})"


def parts_of(root: Path) -> list[SitePart]:
    """Return every page, style, script, bed and chart of a collection, hers first, by names."""
    found = []
    for folder, ours, own in _places(root):
        files = _names(ours), set() if own.resolve() == ours.resolve() else _names(own)
        found += [SitePart(f"{folder}{name}",
                           (own / name).relative_to(root).as_posix() if name in files[1] else "",
                           name in files[0]) for name in files[0] | files[1]]
    return sorted(found, key=lambda part: (not part.own, part.name))


def copy_part(root: Path, name: str) -> Path | None:
    """Copy a part of ours to the place where the collection's own is looked for; return that.

    Return None where we have no such part. Raises FileExistsError where the collection has one.
    """
    for folder, ours, own in _places(root):
        plain = name.removeprefix(folder)
        if name.startswith(folder) and plain in _names(ours):
            target = own / plain
            if target.exists():
                raise FileExistsError(target)
            target.parent.mkdir(parents=True, exist_ok=True)
            shutil.copyfile(ours / plain, target)
            return target
    return None


def _places(root: Path) -> Iterator[tuple[str, Path, Path]]:
    """How names begin, the folder with ours, the folder with the designer's own."""
    yield "_beds/", PARTS / BEDS, root / BEDS
    yield "_sizes/", PARTS / CHARTS, root / CHARTS
    yield "", SITE, root / OWN_PAGES


def _names(folder: Path) -> set[str]:
    paths = (path.relative_to(folder) for path in folder.rglob("*") if path.is_file())
    return {path.as_posix() for path in paths if not any(p.startswith(".") for p in path.parts)}
