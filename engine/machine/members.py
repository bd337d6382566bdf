"""Enumerations whose members stand in many sets and tables."""

from __future__ import annotations

from enum import Enum


class Members(Enum):
    """An enumeration whose members are hashed by identity, as they are compared.

    Python hashes a member by its name, in Python: the sets and tables of a pattern's steps and
    pages ask for it some forty thousand times.
    """

    __hash__ = object.__hash__
