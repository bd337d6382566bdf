"""Makes the editor of "Try it": one script from the packages of a pinned lock file, by node."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import tempfile
from collections.abc import Iterator
from hashlib import sha256
from pathlib import Path

from walebook_site.editor import ABOUT, FILES, FOLDER, LICENCES, PARTS, SCRIPT, editor_digest
from walebook_site.runtime_making import NotMade, program, replace_folder

_GIVEN = ("package.json", "package-lock.json", "editor.mjs")
_LICENCE = "MIT"  # of every package that is in it: another one is looked at by a person first


def make_editor(root: Path) -> int:
    """Write the editor beside a collection; return its bytes. The one before it is replaced whole.

    npm brings the packages that the lock file names, each by its digest, and runs none of their
    scripts. Raises NotMade, OSError.
    """
    with tempfile.TemporaryDirectory() as folder:
        there = Path(folder)
        for name in _GIVEN:
            shutil.copy(PARTS / name, there / name)
        _run(there, "npm", "ci", "--ignore-scripts", "--no-audit", "--no-fund", "--loglevel=error",
             fault="npm could not bring the packages of the editor. Is there a connection?")
        _run(there, "node", "node_modules/esbuild/bin/esbuild", "editor.mjs", "--bundle",
             "--minify", "--format=iife", "--target=es2022", "--legal-comments=none",
             f"--outfile={SCRIPT}", fault="node could not join the packages of the editor")
        files = {SCRIPT: (there / SCRIPT).read_bytes(), LICENCES: _licences(there).encode()}
    about = {"parts": editor_digest(),
             "files": {name: sha256(files[name]).hexdigest() for name in FILES}}
    replace_folder(root / FOLDER, {**files, ABOUT: f"{json.dumps(about, indent=1)}\n".encode()})
    return len(files[SCRIPT])


def _run(there: Path, name: str, *words: str, fault: str) -> None:
    tool = program(name)
    path = os.pathsep.join((str(Path(program("node")).parent), os.environ.get("PATH", "")))
    done = subprocess.run([tool, *words], cwd=there, env={**os.environ, "PATH": path},
                          capture_output=True, text=True, check=False)
    if done.returncode:
        output = done.stderr.strip().splitlines()[-1:] or ["it says nothing"]
        raise NotMade(f"{fault} ({output[0]})")


def _licences(there: Path) -> str:
    """The licences of all packages that are joined. Raises NotMade for one that is not expected."""
    return "\n".join(
        f"{name}\n{'=' * len(name)}\n\n{text.strip()}\n" for name, text in _packages(there))


def _packages(there: Path) -> Iterator[tuple[str, str]]:
    lock = json.loads((there / "package-lock.json").read_text(encoding="utf-8"))
    for path, package in lock["packages"].items():
        if not path or package.get("dev") or package.get("optional"):
            continue
        name = f"{path.removeprefix('node_modules/')} {package['version']}"
        if package.get("license") != _LICENCE or not (there / path / "LICENSE").is_file():
            raise NotMade(f"the package {name} does not have the licence {_LICENCE}")
        yield name, (there / path / "LICENSE").read_text(encoding="utf-8")
