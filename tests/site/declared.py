"""Python told of the plugin as an installed package tells it: where this environment does not know.

An editable installation that is older than the plugin has no entry point for it.
"""

from __future__ import annotations

import os
import tempfile
import tomllib
from functools import cache
from pathlib import Path

ROOT = Path(__file__).parents[2]
HOOKED = "hooks:\n  - hooks/patterns.py\n"


@cache
def entry_points() -> str:
    """The folder with the metadata that names the plugin."""
    said = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    folder = Path(tempfile.mkdtemp(prefix="declared-"))
    told = folder / "walebook_declared-0.dist-info"
    told.mkdir()
    (told / "METADATA").write_text("Metadata-Version: 2.1\nName: walebook-declared\nVersion: 0\n")
    points = said["project"]["entry-points"]["mkdocs.plugins"]
    (told / "entry_points.txt").write_text("[mkdocs.plugins]\n" + "".join(
        f"{name} = {goal}\n" for name, goal in points.items()))
    return str(folder)


def environment() -> dict[str, str]:
    """The environment of a process that builds a site by the plugin."""
    paths = [entry_points(), *os.environ.get("PYTHONPATH", "").split(os.pathsep)]
    return {**os.environ, "PYTHONPATH": os.pathsep.join(filter(None, paths)),
            "NO_MKDOCS_2_WARNING": "1", "DISABLE_MKDOCS_2_WARNING": "true"}


def hooked(root: Path) -> None:
    """Write settings with the hook into a copy of the project, in place of the plugin's."""
    settings = (ROOT / "site_src" / ".site.yml").read_text(encoding="utf-8")
    (root / "mkdocs.yml").write_text(settings + HOOKED, encoding="utf-8")
