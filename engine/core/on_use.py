"""What is imported by its name when it is first used: code of one kind, which few patterns need."""

from __future__ import annotations

from importlib import import_module
from typing import Any


def on_use(package: str, name: str) -> Any:
    """Return what a module of `package` has: its part of "hat.builder" is `builder` of `hat`.

    The module of the table also imports it where types are checked, so that whoever reads imports
    sees all of them.
    """
    module, _, part = name.partition(".")
    return getattr(import_module(f"{package}.{module}"), part)
