"""The runtime of "My gauge": Python for a reader's browser, as it lies ready, and in the site."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from hashlib import sha256
from importlib.metadata import version
from pathlib import Path

from walebook.pages.doors import answer
from walebook_site.dependencies import folder_of
from walebook_site.shipped import SITE
from walebook_site.slimming import slim_code

FOLDER = ".walebook-runtime"
"""Where it lies, beside the collection's patterns."""
ABOUT = "runtime.json"
FINDER = "quick_imports.py"
PYTHON = "python.bin"
PACKED = (PYTHON, "library.bin")
UNPACKER = "unpack.js"
LOADED = (*PACKED, "python.js", "loader.js", UNPACKER)
"""What a reader's device loads, in this order."""
LICENCES = "LICENSES.txt"
PARTS = SITE / ".runtime"
"""Our own part of it: its worker, what makes it, and the licences of the rest."""
SCRIPTS = ("worker.js", "kept_start.js")
"""Of what the worker's script is put together, in this order."""
EMPTY = "const RUNTIME = null;"
DIGITS = 10
MAKE = "make it by `walebook runtime`"


class NoRuntime(Exception):
    """There is no runtime, or not the one that this site needs; says why, and what to do."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Runtime:
    """A runtime for a site: its folder there, its files, and what a device loads of it [bytes]."""

    folder: str
    files: Mapping[str, bytes]
    bytes: int


def runtime_of(root: Path) -> Runtime:
    """Return the runtime that lies beside a collection, as its site publishes it.

    Raises NoRuntime where there is none, where it is damaged, or where it was made with another
    engine: its pages would not be the site's.
    """
    kept, about = root / FOLDER, {}
    try:
        about = json.loads((kept / ABOUT).read_text(encoding="utf-8"))
        files = {name: (kept / name).read_bytes() for name in (*LOADED, LICENCES)}
    except (OSError, ValueError) as fault:
        raise NoRuntime(f"{FOLDER} has no whole runtime, which my_gauge and try_it need: "
                        f"{MAKE}") from fault
    if about.get("files") != {name: sha256(data).hexdigest() for name, data in files.items()}:
        raise NoRuntime(f"the runtime in {FOLDER} is damaged: {MAKE}")
    if about.get("engine") != engine_digest():
        raise NoRuntime(f"the runtime in {FOLDER} was made with another engine than this: {MAKE}")
    worker = _worker(files, about["info"], about["wasm"])
    digest = sha256(worker.encode() + json.dumps(about["files"]).encode()).hexdigest()[:DIGITS]
    return Runtime(folder=f"runtime/{digest}", files={**files, "worker.js": worker.encode()},
                   bytes=sum(len(files[name]) for name in LOADED))


def _worker(files: Mapping[str, bytes], info: object, wasm: str) -> str:
    """The worker's script, with the list of what it loads, each with its digest and length."""
    source = "".join(slim_code((PARTS / name).read_text(encoding="utf-8")) for name in SCRIPTS)
    if source.count(EMPTY) != 1:
        raise ValueError(f"the worker does not have the line {EMPTY!r} once")
    listed = [[name, sha256(files[name]).hexdigest(), len(files[name])] for name in LOADED]
    door = f"from {answer.__module__} import {answer.__name__}\n{answer.__name__}"
    filled = json.dumps({"files": listed, "wasm": f"sha256-{wasm}", "info": info, "door": door},
                        separators=(",", ":"))
    return source.replace(EMPTY, f"const RUNTIME = {filled};")


@cache
def engine_digest() -> str:
    """Return the digest of the engine that a runtime has: our files, and the release of PyYAML."""
    hashed = sha256(f"pyyaml {version('pyyaml')}\n".encode())
    folder = folder_of("walebook")
    for path in sorted(folder.rglob("*.py")):
        hashed.update(f"{path.relative_to(folder).as_posix()}\n".encode())
        hashed.update(sha256(path.read_bytes()).digest())
    for part in ("pack.py", "squeeze.py", "make.mjs", FINDER):
        hashed.update((PARTS / part).read_bytes())
    return hashed.hexdigest()
