"""Completes what a build that was killed left between the old site and the new one."""

from __future__ import annotations

from pathlib import Path

from mkdocs.utils.yaml import yaml_load
from walebook_site.replacement import complete


def complete_site(root: Path) -> str:
    """Complete an interrupted replacing of the site of the project in `root`; return what to say.

    Nothing is said where there was none, or where mkdocs.yml or the folder cannot be read.
    """
    site = _configured(root / "mkdocs.yml")
    try:
        if site is None or not complete(site.resolve()):
            return ""
    except OSError as fault:
        return f"The interrupted build of {site} could not be completed: {fault.strerror}."
    return f"The interrupted build of {site} was completed: the site there is whole."


def _configured(file: Path) -> Path | None:
    """The folder that a project's mkdocs.yml names for its site; None where it cannot be read."""
    try:
        with file.open("rb") as text:
            return file.parent / str(yaml_load(text).get("site_dir") or "site")
    except Exception:  # whatever is wrong with the file, the site builder says it better
        return None
