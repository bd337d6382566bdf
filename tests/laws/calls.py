"""Who calls whom: what the sources of the engine and its hook reach, read from the syntax trees.

A source enters through the hook, or as a text through `ENTRIES`. What these refer to is reached,
and what a reached function, class or table refers to is reached as well. A name is resolved
through the imports of its module; an attribute may be any method of that name, so that a method
counts as reached too readily, never too late.
"""

from __future__ import annotations

import ast
from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from functools import cache, cached_property
from pathlib import Path
from typing import NamedTuple

ROOT = Path(__file__).parents[2]
PACKAGES = {"engine": "walebook", "hooks": "walebook_site"}
ENTRIES = {("walebook.pages.from_texts", "make")}  # what a caller with texts and no files begins at
CALLED_BY_LIBRARIES = {"HTMLParser"}  # they call the methods of whoever inherits from them


class Name(NamedTuple):
    """A function, class, table or method (`Class.method`) of a module."""

    module: str
    name: str

    def __str__(self) -> str:
        return f"{self.module}.{self.name}"

    @property
    def public(self) -> bool:
        return not any(part.startswith("_") for part in self.name.split("."))


@dataclass
class Calls:
    """The names of some packages with what each refers to. `trees` are by dotted module."""

    trees: dict[str, ast.Module]
    homes: dict[str, list[str]]
    bodies: dict[Name, list[ast.AST]] = field(default_factory=lambda: defaultdict(list))
    functions: set[Name] = field(default_factory=set)
    loose: dict[str, list[ast.AST]] = field(default_factory=lambda: defaultdict(list))
    _known: dict[Name, frozenset[Name]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        for module, tree in self.trees.items():
            for node in tree.body:
                self._enter(module, node)

    def _enter(self, module: str, node: ast.stmt) -> None:
        if isinstance(node, ast.FunctionDef):
            self._enter_function(Name(module, node.name), node)
        elif isinstance(node, ast.ClassDef):
            self._enter_class(module, node)
        elif isinstance(node, ast.Assign | ast.AnnAssign):
            targets = node.targets if isinstance(node, ast.Assign) else [node.target]
            for target in targets:
                for made in ast.walk(target):
                    if isinstance(made, ast.Name) and not made.id.startswith("__"):
                        self.bodies[Name(module, made.id)].append(node.value or node)
        elif not isinstance(node, ast.Import | ast.ImportFrom):
            self.loose[module].append(node)

    def _enter_function(self, name: Name, node: ast.FunctionDef) -> None:
        self.bodies[name].append(node)
        self.functions.add(name)

    def _enter_class(self, module: str, node: ast.ClassDef) -> None:
        whole = Name(module, node.name)
        self.bodies[whole] += [*node.bases, *node.decorator_list]
        bases = {base.id for base in node.bases if isinstance(base, ast.Name)}
        for part in node.body:
            own = (isinstance(part, ast.FunctionDef) and not part.name.startswith("__")
                   and not bases & CALLED_BY_LIBRARIES)
            if own and isinstance(part, ast.FunctionDef):
                self._enter_function(Name(module, f"{node.name}.{part.name}"), part)
            else:
                self.bodies[whole].append(part)

    @cached_property
    def imports(self) -> dict[str, dict[str, tuple[str, str | None]]]:
        """By module: each imported name, the module it is from and its name there."""
        return {module: dict(self._imported(module)) for module in self.trees}

    def _imported(self, module: str) -> Iterator[tuple[str, tuple[str, str | None]]]:
        home = self.homes[module]
        for node in ast.walk(self.trees[module]):
            if isinstance(node, ast.ImportFrom):
                base = home[:len(home) - node.level + 1] if node.level else []
                start = ".".join([*base, *([node.module] if node.module else [])])
                for alias in node.names:
                    yield alias.asname or alias.name, (start, alias.name)
            elif isinstance(node, ast.Import):
                for alias in node.names:
                    yield alias.asname or alias.name, (alias.name, None)

    @cached_property
    def methods(self) -> dict[str, set[Name]]:
        """All methods of a name."""
        found = defaultdict(set)
        for name in self.functions:
            if "." in name.name:
                found[name.name.partition(".")[2]].add(name)
        return found

    def resolved(self, module: str, name: str) -> Name | None:
        """What `name` means in `module`, None where it is none of ours."""
        while module in self.trees and Name(module, name) not in self.bodies:
            start, inner = self.imports[module].get(name, ("", None))
            if inner is None or (start, inner) == (module, name):
                return None
            module, name = start, inner
        return Name(module, name) if Name(module, name) in self.bodies else None

    def named_in(self, module: str, nodes: Iterable[ast.AST]) -> set[Name]:
        """What some nodes of `module` refer to."""
        found: set[Name | None] = set()
        for node in (inner for outer in nodes for inner in ast.walk(outer)):
            if isinstance(node, ast.Name):
                found.add(self.resolved(module, node.id))
            elif isinstance(node, ast.Attribute):
                found |= self.methods.get(node.attr, set())
                if isinstance(node.value, ast.Name):
                    start, inner = self.imports[module].get(node.value.id, ("", None))
                    found.add(self.resolved(f"{start}.{inner}" if inner else start, node.attr))
        return {name for name in found if name is not None}

    def named_by(self, name: Name) -> frozenset[Name]:
        """What a name refers to, looked up once."""
        if name not in self._known:
            self._known[name] = frozenset(self.named_in(name.module, self.bodies[name]))
        return self._known[name]

    def from_these(self, start: Iterable[Name]) -> set[Name]:
        """All that `start` refers to, directly or through others, with `start` itself."""
        seen: set[Name] = set()
        todo = list(start)
        while todo:
            name = todo.pop()
            if name not in seen:
                seen.add(name)
                todo += self.named_by(name)
        return seen

    @cached_property
    def reached(self) -> set[Name]:
        """What the hook and the entries reach."""
        start = {name for name in self.bodies
                 if name.module.startswith("walebook_site") or name in ENTRIES}
        for module, nodes in self.loose.items():
            start |= self.named_in(module, nodes)
        return self.from_these(start)

    @cached_property
    def unreached(self) -> set[Name]:
        """What neither the hook nor an entry reaches: functions, classes and tables."""
        return set(self.bodies) - self.reached


@cache
def parsed(text: str) -> ast.Module:
    """The syntax tree of a module, which nobody changes."""
    return ast.parse(text)


def calls_of(files: Iterable[tuple[Path, str]]) -> Calls:
    """The calls in some files: (path from the top folder, text) of each."""
    trees, homes = {}, {}
    for path, text in files:
        folder, *rest = path.with_suffix("").parts
        parts = [PACKAGES.get(folder, folder), *rest]
        package = parts[-1] == "__init__"
        module = ".".join(parts[:-1] if package else parts)
        trees[module] = parsed(text)
        homes[module] = parts[:-1]
    return Calls(trees, homes)


def files_of(*folders: str) -> list[tuple[Path, str]]:
    """The Python files of some folders of the project."""
    return [(path.relative_to(ROOT), path.read_text(encoding="utf-8"))
            for folder in folders for path in sorted((ROOT / folder).rglob("*.py"))]
