"""What is imported by its name when it is first used: code of one kind, which few patterns need."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from importlib import import_module
from typing import Any


def on_use(package: str, name: str) -> Any:
    """Return what a module of `package` has: its part of "hat.builder" is `builder` of `hat`.

    The module of the table also imports it where types are checked, so that whoever reads imports
    sees all of them.
    """
    module, _, part = name.partition(".")
    return getattr(import_module(f"{package}.{module}"), part)


def by_table(package: str, table: Mapping[str, str]) -> Callable[[str], Any]:
    """Return the `__getattr__` of a module that has what `table` names, imported when it is used.

    What it returns raises AttributeError for a name that is not in the table.
    """
    def has(name: str) -> Any:
        if name not in table:
            raise AttributeError(name)
        return on_use(package, table[name])
    return has


def import_all_of(package: str, names: Iterable[str]) -> None:
    """Import every module that these names of a table begin with."""
    for name in names:
        on_use(package, name)
