"""The editor of "Try it": as it lies ready beside a collection."""

from __future__ import annotations

import json
from collections.abc import Mapping
from hashlib import sha256
from pathlib import Path

from walebook_site.runtime import MAKE
from walebook_site.runtime import PARTS as RUNTIME_PARTS

FOLDER = ".walebook-editor"
"""Where it lies, beside the collection's patterns."""
ABOUT = "editor.json"
SCRIPT = "editor.js"
LICENCES = "LICENSES.txt"
FILES = (SCRIPT, LICENCES)
PARTS = RUNTIME_PARTS / "editor"
"""What it is made from: our script, the packages that it takes, and the lock file that pins them.
"""


class NoEditor(Exception):
    """There is no editor, or not the one that this site needs; says why, and what to do."""


def editor_of(root: Path) -> Mapping[str, bytes]:
    """Return the files of the editor that lies beside a collection.

    Raises NoEditor where there is none, where it is damaged, or was made from other parts.
    """
    kept = root / FOLDER
    try:
        about = json.loads((kept / ABOUT).read_text(encoding="utf-8"))
        files = {name: (kept / name).read_bytes() for name in FILES}
    except (OSError, ValueError) as fault:
        raise NoEditor(f"try_it is on, and {FOLDER} has no whole editor: {MAKE}") from fault
    if about.get("files") != {name: sha256(data).hexdigest() for name, data in files.items()}:
        raise NoEditor(f"the editor in {FOLDER} is damaged: {MAKE}")
    if about.get("parts") != editor_digest():
        raise NoEditor(f"the editor in {FOLDER} was made by another Walebook than this: {MAKE}")
    return files


def editor_digest() -> str:
    """Return the digest of what the editor is made from."""
    hashed = sha256()
    for path in sorted(PARTS.iterdir()):
        hashed.update(f"{path.name}\n".encode())
        hashed.update(sha256(path.read_bytes()).digest())
    return hashed.hexdigest()
