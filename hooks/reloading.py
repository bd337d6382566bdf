"""Loads changed code again in a running process: the changed modules and all that import them."""

from __future__ import annotations

import importlib
import re
import sys
from collections.abc import Iterable, Mapping
from pathlib import Path
from types import ModuleType

PACKAGES = ("walebook", "walebook_site")
# In a text that only looks like an import there is no harm: a module is loaded once too often.
_IMPORT = re.compile(r"^[ \t]*(?:from[ \t]+([\w.]+)[ \t]+import[ \t]+(\([^)]*\)|[^\n]*)"
                     r"|import[ \t]+([^\n#]*))", re.MULTILINE)
_WORD = re.compile(r"\w+")


def load_again(files: Iterable[Path], wanted: str) -> None:
    """Drop the modules in `files`, with all that import one of them, and import `wanted`.

    What does not import them stays loaded: it holds nothing of theirs. Raises whatever the changed
    code raises.
    """
    named = {Path(module.__file__).resolve(): name for name, module in _ours().items()
             if module.__file__}
    changed = {name for path in files if (name := named.get(path.resolve()))}
    for name in users_of(changed, {name: imports_of(name, path) for path, name in named.items()}):
        _drop(name)
    importlib.invalidate_caches()
    importlib.import_module(wanted)


def _drop(name: str) -> None:
    """Forget a module, and that its package has it: `from . import` looks there first."""
    module = sys.modules.pop(name, None)
    package, _, last = name.rpartition(".")
    within = sys.modules.get(package)
    if module is not None and getattr(within, last, None) is module:
        delattr(within, last)


def users_of(changed: Iterable[str], imports: Mapping[str, frozenset[str]]) -> frozenset[str]:
    """Return these modules and all that import one of them, directly or through others."""
    users: dict[str, set[str]] = {}
    for name, others in imports.items():
        for other in others:
            users.setdefault(other, set()).add(name)
    found, left = set(changed), list(changed)
    while left:
        more = users.get(left.pop(), set()) - found
        found |= more
        left += more
    return frozenset(found)


def _ours() -> dict[str, ModuleType]:
    return {name: module for name, module in list(sys.modules.items())
            if name.partition(".")[0] in PACKAGES and getattr(module, "__file__", None)}


def imports_of(name: str, path: Path) -> frozenset[str]:
    """Return what a module imports: within functions too, and what may be a name or a module."""
    package = name if path.name == "__init__.py" else name.rpartition(".")[0]
    found: set[str] = set()
    for origin, names, plain in _IMPORT.findall(_text(path)):
        if plain:
            found |= {each.split()[0] for each in plain.split(",") if each.split()}
            continue
        level = len(origin) - len(origin.lstrip("."))
        above = package.rsplit(".", level - 1)[0] if level else ""
        whole = ".".join(filter(None, (above, origin[level:])))
        found |= {whole, *(f"{whole}.{each}" for each in _WORD.findall(names))}
    return frozenset(found)


def _text(path: Path) -> str:
    try:
        return path.read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError):  # its import says what is wrong
        return ""
