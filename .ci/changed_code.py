"""Changes the functions of a module that is loaded, so that nothing is imported anew for it."""

from __future__ import annotations

import gc
import inspect
from collections import defaultdict
from collections.abc import Iterator
from types import CodeType, FunctionType

Key = tuple[str, str, int]
Functions = dict[Key, list[FunctionType]]


def functions_of(folder: str) -> Functions:
    """All functions that were made from the modules of a folder, by what `key` says."""
    found: Functions = defaultdict(list)
    for each in gc.get_objects():
        if isinstance(each, FunctionType) and each.__code__.co_filename.startswith(folder):
            found[key(each.__code__)].append(each)
    return found


def key(code: CodeType) -> Key:
    """Where a function is written."""
    return code.co_filename, code.co_qualname, code.co_firstlineno


def change(functions: Functions, name: str, before: str, after: str) -> bool:
    """Give the functions of a module the code of another text of it.

    False, with nothing changed, where the texts differ in what runs once, when it is imported.
    """
    pairs = list(differing(compile(before, name, "exec"), compile(after, name, "exec")))
    found: list[tuple[FunctionType, CodeType]] = []
    for old, new in pairs:
        live = [] if old is None else [each for each in functions.get(key(old), [])
                                       if each.__code__ == old]
        if new is None or not live or any(each.__code__.co_freevars != new.co_freevars
                                          for each in live):
            return False
        found += [(each, new) for each in live]
    for function, new in found:
        function.__code__ = new
    return bool(found)


def differing(old: CodeType, new: CodeType) -> Iterator[tuple[CodeType | None, CodeType | None]]:
    """The outermost functions that differ; (None, None) where what is around them does."""
    if old.co_flags & inspect.CO_OPTIMIZED:
        if old != new:
            yield old, new
        return
    if outside(old) != outside(new):
        yield None, None
        return
    for one, other in zip(old.co_consts, new.co_consts, strict=True):
        if isinstance(one, CodeType):
            yield from differing(one, other)


def outside(code: CodeType) -> tuple[object, ...]:
    """What a module or a class does besides making functions."""
    return (code.co_code, code.co_names,
            [type(each) if isinstance(each, CodeType) else (type(each), each)
             for each in code.co_consts])
