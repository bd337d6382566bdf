"""Where the parts lie that every collection takes from Walebook: pages, styles, beds, charts.

Installed, they are in the folder `parts` of this package. In a clone of the repository they are
the folders beside this one.
"""

from __future__ import annotations

import re
from pathlib import Path

_HERE = Path(__file__).resolve().parent
PARTS = _HERE / "parts" if (_HERE / "parts").is_dir() else _HERE.parent
SITE = PARTS / "site_src"
"""The fixed pages, styles, scripts and templates."""
SETTINGS = SITE / ".site.yml"
"""The settings of a site that is made of these parts."""
NEW = SITE / ".new"
"""What a new collection begins with."""
OWN_PAGES = "pages"
"""The folder of a collection with pages, styles and scripts that take the place of ours."""
BEDS, CHARTS = "patterns/_beds", "patterns/_sizes"
_NAMED = re.compile(r"^[^#\n]*(?:\bwalebook\b|\bpatterns\.py\b|^INHERIT\b)", re.MULTILINE)
_ITEM = re.compile(r"^(?:\s*-|plugins:)\s*[\"']?(\w+)", re.MULTILINE)
_PLUGIN = re.compile(r"^\s*-\s*[\"']?walebook\b", re.MULTILINE)


def is_collection(root: Path) -> bool:
    """True for a folder whose site is made by the plugin, and so with our pages."""
    try:
        return bool(_PLUGIN.search((root / "mkdocs.yml").read_text(encoding="utf-8")))
    except (OSError, UnicodeDecodeError):
        return False


def makes_patterns(root: Path) -> bool:
    """False for settings that name neither the plugin nor the hook, and take none from a file.

    True for those that cannot be read, and for a name that is like the plugin's: their findings
    say so.
    """
    try:
        text = (root / "mkdocs.yml").read_text(encoding="utf-8")
        if _NAMED.search(text):
            return True
        from walebook.core.text import misspelt  # a check of sound settings needs none
        return any(misspelt(name, ["walebook"]) for name in _ITEM.findall(text))
    except (OSError, UnicodeDecodeError):
        return True


def layered(root: Path, folder: str, kind: str = "*.yaml") -> dict[str, Path]:
    """Return the files of this folder by name: the collection's own, and ours where it has none."""
    ours, own = (sorted((each / folder).glob(kind)) for each in (PARTS, root))
    return dict(sorted({path.stem: path for path in (*ours, *own)}.items()))
