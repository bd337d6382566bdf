"""Completes what a build that was killed left between the old site and the new one."""

from __future__ import annotations

import re
from pathlib import Path

from walebook_site.replacement import complete

_PLAIN = re.compile(rb"^site_dir:[ \t]+([A-Za-z][A-Za-z0-9_./-]*)[ \t\r]*$", re.MULTILINE)


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
        text = file.read_bytes()
        plain = _PLAIN.search(text)
        if plain and text.count(b"site_dir") == 1:
            return file.parent / plain[1].decode()
        from mkdocs.utils.yaml import yaml_load  # slow, so only where no plain name is said
        with file.open("rb") as settings:  # its name is what inherited settings are found by
            return file.parent / str(yaml_load(settings).get("site_dir") or "site")
    except Exception:  # whatever is wrong with the file, the site builder says it better
        return None
