"""A new collection: the folder that a designer begins with."""

from __future__ import annotations

import json
import os
import re
from collections.abc import Iterator
from dataclasses import dataclass
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path
from string import Template

from walebook_site.shipped import NEW

_PLACES = {"gitignore": ".gitignore", "ci/build": ".ci/build", "ci/compare": ".ci/compare",
           "hosts/github-compare.yml": ".github/workflows/compare.yml"}
"""Files whose names begin with a dot in a collection, and not where they are kept."""
_FIRST = "patterns/first-band/pattern.yaml"
_RUN = (".ci/build", ".ci/compare")
HOSTS = {"github": ".github/workflows/pages.yml", "gitlab": ".gitlab-ci.yml"}
"""Git hosts whose page service we have a script for, and where each looks for it."""


class NotNew(Exception):
    """The folder cannot become a collection; says why, and what to do."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Beginning:
    """What a new collection is called, whose it is, its paper, and its git host."""

    name: str = ""
    designer: str = "Wren Ashdown"
    licence: str = "CC BY-NC 4.0"
    paper: str = "A4"
    units: str = "cm first"
    host: str = ""

    def filled(self, text: str) -> str:
        """Return a text of the new collection with these in it."""
        quoted = {name: json.dumps(value, ensure_ascii=False) for name, value in (
            ("name", self.name), ("designer", self.designer), ("licence", self.licence))}
        return Template(text).substitute(
            **quoted, paper=self.paper, units=self.units, title=" ".join(self.name.split()),
            version=tool_version())

    def source_alone(self) -> str:
        """Return the source of the first pattern, with the licence that its collection has."""
        text = (NEW / _FIRST).read_text(encoding="utf-8")
        return self.filled(text.replace("\nsummary:", "\nlicence: $licence\nsummary:", 1))


def name_of(folder: Path) -> str:
    """Return the name that a folder suggests: lantern-lane is Lantern Lane."""
    words = re.split(r"[-_\s]+", folder.resolve().name)
    return " ".join(word[:1].upper() + word[1:] for word in words if word) or "My patterns"


def begin(folder: Path, beginning: Beginning) -> list[str]:
    """Write a new collection into an empty folder, or one that is made; return its files, in order.

    Raises NotNew where files are there already, or a collection is around it, and OSError where a
    file cannot be written.
    """
    if folder.exists() and not folder.is_dir():
        raise NotNew(f"{folder} is a file. Name a folder that is not there yet.")
    there = sorted(path.name for path in folder.iterdir() if path.name != ".git") if (
        folder.is_dir()) else []
    if there:
        raise NotNew(f"{folder} holds files already ({there[0]}). Name a folder that is empty, or "
                     "is not there yet.")
    around = next((above for above in folder.resolve().parents
                   if (above / "patterns").is_dir() and (above / "mkdocs.yml").is_file()), None)
    if around is not None:
        raise NotNew(f"{around} is one already. Name a folder outside it. A new pattern is a "
                     "folder in its patterns/.")
    written = []
    for place, text in _files(beginning):
        path = folder / place
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
        if place in _RUN and os.name == "posix":
            path.chmod(0o755)
        written.append(place)
    return written


def _files(beginning: Beginning) -> Iterator[tuple[str, str]]:
    for path in sorted(path for path in NEW.rglob("*") if path.is_file()):
        name = path.relative_to(NEW).as_posix()
        if name.startswith("hosts/"):
            host, _, more = path.stem.partition("-")
            if host != beginning.host:
                continue
            name = name if more else HOSTS[host]
        yield _PLACES.get(name, name), beginning.filled(path.read_text(encoding="utf-8"))


def tool_version() -> str:
    """Return the version of Walebook itself, which no pattern's follows."""
    try:
        return version("walebook")
    except PackageNotFoundError:  # run from a folder, installed nowhere
        return "0.1.0"
