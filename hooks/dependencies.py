"""What the pages of a pattern depend on beside its own texts, by name and digest."""

from __future__ import annotations

import sys
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from hashlib import sha256
from importlib.util import find_spec
from pathlib import Path
from typing import TypeVar

_LIBRARIES = ("yaml", "markdown", "nh3", "pint")
_CALLED = {"yaml": "pyyaml"}  # where a library is installed under another name
CODE = ("walebook", "walebook_site")
V = TypeVar("V")


def code_files() -> dict[Path, bytes]:
    """Return the digest of each file of our own code, as it is now."""
    return {path: sha256(path.read_bytes()).digest()
            for package in CODE for path in sorted(folder_of(package).rglob("*.py"))}


@cache
def code_digest() -> str:
    """Return the digest of the code that makes findings and pages: ours, Python's, libraries'.

    It is that of the first call: what is loaded is not what was changed later.
    """
    return digest_of_code(code_files())


def digest_of_code(files: Mapping[Path, bytes]) -> str:
    """Return the digest of these files of ours, of Python, and of the libraries.

    A library stands here by its release, and Python by its release too: its tables of letters
    change with it.
    """
    hashed = sha256(f"{sys.implementation.name} {sys.version_info[:2]}\n".encode())
    for name in _LIBRARIES:
        hashed.update(f"{name} {_release(name)}\n".encode())
    for package in CODE:
        folder = f"{folder_of(package).as_posix()}/"
        for path, digest in files.items():
            name = path.as_posix()
            if name.startswith(folder):
                hashed.update(f"{name.removeprefix(folder)}\n".encode())
                hashed.update(digest)
    return hashed.hexdigest()


def folder_of(package: str) -> Path:
    """Return the folder that a package of ours lies in."""
    found = find_spec(package)
    assert found is not None and found.submodule_search_locations
    return Path(found.submodule_search_locations[0]).resolve()


def _release(library: str) -> str:
    """The name of the folder that an installed library is described in; "" where there is none."""
    found = find_spec(library)
    if found is None or found.origin is None:
        return ""
    called = f"{_CALLED.get(library, library)}-"
    return ",".join(sorted(path.name for path in Path(found.origin).parents[1].glob("*.dist-info")
                           if path.name.lower().startswith(called)))


@dataclass
class Recorded(Mapping[str, V]):
    """A mapping that adds to `noted` what is asked of it: "chart women", or "charts" for its names.
    """

    kind: str
    of: Mapping[str, V]
    noted: set[str]

    def __getitem__(self, name: str) -> V:
        self.noted.add(f"{self.kind} {name}")
        return self.of[name]

    def __contains__(self, name: object) -> bool:
        self.noted.add(f"{self.kind} {name}")
        return name in self.of

    def __iter__(self) -> Iterator[str]:
        self.noted.add(f"{self.kind}s")
        return iter(self.of)

    def __len__(self) -> int:
        self.noted.add(f"{self.kind}s")
        return len(self.of)


def digest_of(*parts: object) -> str:
    """Return the digest of these values, in this order."""
    return sha256(repr(parts).encode("utf-8", "surrogatepass")).hexdigest()
