"""The house's own laws: what may import what, and that the engine stays pure and exact."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterable, Iterator
from functools import cache
from graphlib import TopologicalSorter
from pathlib import Path

import pytest

from tests.laws.calls import parsed

ROOT = Path(__file__).parents[2]
ENGINE = ROOT / "engine"
MAP = ROOT / "DEVELOPERS.md"
MODULES = {path.relative_to(ENGINE).with_suffix("").as_posix(): path
           for path in sorted(ENGINE.rglob("*.py"))}
# The one module that may know each library.
DOORS = {"yaml": "source/source", "pint": "core/foreign_units", "markdown": "markup/notes",
         "nh3": "markup/notes"}
# Files, clock, chance, network, the site builder: none of it belongs in the engine. Its own modules
# are imported from where they lie beside each other, so that every import is seen by `neighbours`.
OUTSIDE = {"os", "io", "sys", "pathlib", "shutil", "tempfile", "time", "random", "secrets",
           "subprocess", "socket", "urllib", "logging", "mkdocs", "walebook", "walebook_site"}
# The folders of the engine, each of which reads only those before it. Findings are worded where
# they are found: the names and workings that they share with pages stand before all that finds.
FOLDERS = ("machine", "bed", "core", "words/terms", "sizing", "pattern", "catalogue", "fabric",
           "shape", "forms", "source", "plan", "program", "markup", "proof", "compare", "words",
           "drawings", "pages")
INEXACT = {"float", "round", "open", "print", "input", "exec", "eval"}


@cache
def tree_of(name: str) -> ast.Module:
    return parsed(MODULES[name].read_text(encoding="utf-8"))


@cache
def nodes_of(path: Path) -> tuple[ast.AST, ...]:
    """Every node of a module's syntax tree."""
    return tuple(ast.walk(parsed(path.read_text(encoding="utf-8"))))


@cache
def libraries(name: str) -> set[str]:
    """The packages outside the engine that a module imports."""
    return packages(nodes_of(MODULES[name]))


def packages(nodes: Iterable[ast.AST]) -> set[str]:
    """The packages that are imported by their whole names."""
    found = set()
    for node in nodes:
        if isinstance(node, ast.Import):
            found |= {alias.name.partition(".")[0] for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and not node.level and node.module:
            found.add(node.module.partition(".")[0])
    return found


def neighbours(name: str) -> Iterator[str]:
    """The engine's own modules that a module imports: at its head, within functions, for types."""
    for node in nodes_of(MODULES[name]):
        if isinstance(node, ast.ImportFrom):
            yield from imported_by(node, name)


def imported_by(node: ast.ImportFrom, name: str) -> Iterator[str]:
    """The engine's own modules that an import in the module called `name` imports."""
    if not node.level:
        return
    home = name.split("/")[:-1]
    base = home[:len(home) - node.level + 1]
    start = "/".join([*base, *(node.module or "").split(".")]).strip("/")
    if start in MODULES:
        yield start
        return
    if f"{start}/__init__" in MODULES and any(
            f"{start}/{alias.name}" not in MODULES for alias in node.names):
        yield f"{start}/__init__"
    for alias in node.names:
        inner = f"{start}/{alias.name}".strip("/")
        if inner in MODULES:
            yield inner


def test_no_import_runs_in_a_circle():
    order = list(TopologicalSorter({m: set(neighbours(m)) for m in MODULES}).static_order())
    assert len(order) == len(MODULES)


def folder_of(name: str) -> str:
    """The folder of a module, as FOLDERS has it: that of a part of a folder, where that is one."""
    first, second = f"{name}/".split("/")[:2]
    return f"{first}/{second}" if f"{first}/{second}" in FOLDERS else first


def test_folders_read_only_those_before_them():
    place = {folder: n for n, folder in enumerate(FOLDERS)}
    folders = {folder_of(name) for name in MODULES if "/" in name}
    assert folders == set(FOLDERS)
    assert [name for name in MODULES if "/" not in name] == ["__init__"]
    found = {(name, other) for name in MODULES for other in neighbours(name)
             if "/" in name and "/" in other
             and place[folder_of(other)] > place[folder_of(name)]}
    assert not found, "an import points from an earlier folder to a later one"


def test_the_bed_shares_nothing_with_what_it_checks():
    """Its agreement is evidence only while it cannot see a plan."""
    for name in MODULES:
        if name.startswith(("bed/", "machine/")):
            strangers = {n for n in neighbours(name) if not n.startswith(("bed/", "machine/"))}
            assert not strangers, name


def test_nothing_but_a_page_knows_of_pages():
    for name in MODULES:
        if not name.startswith("pages/"):
            assert not [n for n in neighbours(name) if n.startswith("pages/")], name


def test_pages_never_run_the_bed_themselves():
    """A page shows the trace that the proof has run; one that ran programs could show others."""
    for name in MODULES:
        if name.startswith("pages/"):
            assert "bed/run" not in set(neighbours(name)), name


@pytest.mark.parametrize("library", DOORS)
def test_one_module_knows_each_library(library):
    assert [name for name in MODULES if library in libraries(name)] == [DOORS[library]]


@pytest.mark.parametrize("line", ["import walebook.pages", "from walebook import pages",
                                  "from walebook.pages import shared", "import os.path"])
def test_an_import_by_its_whole_name_is_seen(line):
    """One of a later folder would else pass by those that read relative imports."""
    assert packages(ast.walk(ast.parse(f"def made():\n    {line}\n"))) & OUTSIDE


def test_the_engine_is_pure_and_exact():
    for name, path in MODULES.items():
        assert not libraries(name) & OUTSIDE, name
        called = {node.func.id for node in nodes_of(path)
                  if isinstance(node, ast.Call) and isinstance(node.func, ast.Name)}
        assert not called & INEXACT, name
        assert not [node for node in nodes_of(path)
                    if isinstance(node, ast.Constant) and isinstance(node.value, float)], name


def written() -> dict[str, Path]:
    """Every module of the engine, the hooks and the test command, by its path."""
    return {path.relative_to(ROOT).as_posix(): path
            for folder, kind in (("engine", "**/*.py"), ("hooks", "*.py"), (".ci", "*.py"))
            for path in sorted((ROOT / folder).glob(kind))}


def functions(path: Path) -> Iterator[tuple[str, int]]:
    """The name of each function of a module, and its length in lines."""
    for node in nodes_of(path):
        if isinstance(node, ast.FunctionDef) and node.end_lineno is not None:
            yield node.name, node.end_lineno - node.lineno + 1


def test_modules_stay_small():
    """A module that outgrows this holds two ideas."""
    lengths = {name: len(path.read_text(encoding="utf-8").splitlines())
               for name, path in written().items()}
    long = {name for name, lines in lengths.items() if lines > 300}
    assert not long, "a module is longer than 300 lines"


def test_functions_stay_small():
    long = {(name, function) for name, path in written().items()
            for function, lines in functions(path) if lines > 50}
    assert not long, "a function is longer than 50 lines"


RIDDLES = {"asked", "said", "says", "tell", "teller", "telling", "tells", "told", "way", "ways"}


def names(node: ast.AST) -> Iterator[str]:
    """The names that a node of a module gives: to a function, a class, an argument, a variable, an
    attribute, a parameter that is named in a call, or what is imported."""
    match node:
        case ast.FunctionDef(name=name) | ast.AsyncFunctionDef(name=name) | \
                ast.ClassDef(name=name) | ast.arg(arg=name) | ast.Name(id=name) | \
                ast.Attribute(attr=name) | ast.MatchStar(name=str(name)) | \
                ast.keyword(arg=str(name)) | ast.MatchAs(name=str(name)) | \
                ast.MatchMapping(rest=str(name)) | ast.ExceptHandler(name=str(name)):
            yield name
        case ast.Import() | ast.ImportFrom():
            yield from (alias.asname for alias in node.names if alias.asname)


def riddles(name: str) -> set[str]:
    """The words of a name that do not say what it holds."""
    return RIDDLES & set(re.findall(r"[a-z]+", re.sub("([a-z])([A-Z])", r"\1_\2", name).lower()))


@pytest.mark.parametrize("written_so, found", (
    ("def _told(m): ...", {"_told"}), ("class Asked: ...", {"Asked"}),
    ("HALF_WAY = 1", {"HALF_WAY"}), ("f(way=1)", {"way"}), ("lambda asked: 1", {"asked"}),
    ("one.said", {"said"}), ("import text as said", {"said"}), ("[x for ways in y]", {"ways"}),
    ("async def ask_way(): ...", {"ask_way"}), ("try: 1\nexcept E as told: 1", {"told"}),
    ("match one:\n case [way, *ways]: 1\n case {**said}: 1", {"way", "ways", "said"}),
    ("sideways, away, essaid = 'said', one['told'], 1  # way", set())))
def test_a_riddle_is_found_wherever_a_name_is_given(written_so: str, found: set[str]) -> None:
    assert {name for node in ast.walk(ast.parse(written_so)) for name in names(node)
            if riddles(name)} == found


def test_names_are_plain():
    """Whatever has a name is named by what it is: a text, a finding, a path, a method."""
    found = {(name, given) for name, path in written().items()
             for given in (path.stem, *(each for node in nodes_of(path) for each in names(node)))
             if riddles(given)}
    assert not found, "say what it holds: `needles_text`, `request`, `remedy`"


SCRIPT_PARTS = re.compile(r'''
    (?:/\*.*?\*/ | //[^\n]* | "(?:[^"\\\n]|\\.)*" | '(?:[^'\\\n]|\\.)*')  # no names
    | `(?P<template>(?:[^`\\]|\\.)*)` | (?P<name>[A-Za-z_$][\w$]*)''', re.VERBOSE | re.DOTALL)
# What is sent between a page, its workers and Python has these names at both sides; the scripts of
# "My gauge" have them for their own. This list only grows shorter.
RIDDLES_LEFT: dict[str, set[str]] = {
    ".ci/page.d.ts": {"said", "asked"}, ".ci/runtime.d.ts": {"asked", "Said"},
    "site_src/.runtime/kept_start.js": {"said"}, "site_src/.runtime/worker.js": {"asked"},
    "site_src/assets/my-gauge.js": {"asked", "said", "says", "tell", "tellRefused", "tellUnread",
                                    "wayTo"},
    "site_src/assets/my-page.js": {"asked"},
    "site_src/assets/my-runtime.js": {"tell", "asked", "says"},
}


def script_names(text: str) -> Iterator[str]:
    """The names in a script, in the values of its templates too: no comments and no texts."""
    for found in SCRIPT_PARTS.finditer(text):
        if found["name"]:
            yield found["name"]
        for value in re.findall(r"\$\{([^}]*)\}", found["template"] or ""):
            yield from script_names(value)


@pytest.mark.parametrize("script, found", (
    ("const farSaid = 1;", {"farSaid"}), ("face.tell(now)", {"tell"}),
    ("`at ${says.it}`", {"says"}),
    ("type Asked = { said: string }", {"Asked", "said"}),
    ("away('he said', \"told\"); // asked\n/* tell */ `tells ${sideways}`", set())))
def test_a_riddle_is_found_in_a_script(script: str, found: set[str]) -> None:
    assert {name for name in script_names(script) if riddles(name)} == found


def test_names_of_scripts_are_plain():
    scripts = [path for folder, kinds in (("site_src", ("js", "mjs")), (".ci", ("js", "d.ts")))
               for kind in kinds for path in (ROOT / folder).rglob(f"*.{kind}")
               if "node_modules" not in path.parts]
    found = {path.relative_to(ROOT).as_posix(): wrong for path in scripts
             if (wrong := {name for name in script_names(path.read_text(encoding="utf-8"))
                           if riddles(name)})}
    assert found == RIDDLES_LEFT


def test_every_script_is_put_on_the_page_once():
    """Plain scripts come in the order of the list: one that is not on it is not there."""
    listed = re.findall(r"^ {2,4}- (assets/[\w/-]+\.js)$",
                        (ROOT / "site_src" / ".site.yml").read_text(encoding="utf-8"), re.MULTILINE)
    written = {path.relative_to(ROOT / "site_src").as_posix()
               for path in (ROOT / "site_src" / "assets").rglob("*.js")}
    alone = {"assets/one-size.js"}  # it is put into files of several sizes alone
    assert sorted(listed) == sorted(written - alone)


def test_the_lock_file_names_no_host():
    """What was installed from a mirror is to be installed from any other registry too."""
    locked = (ROOT / ".ci" / "package-lock.json").read_text(encoding="utf-8")
    assert '"integrity": "sha512-' in locked
    assert "://" not in locked and '"resolved"' not in locked


def test_the_map_shows_rooms_that_exist():
    """A developer's page that names what has moved sends its reader astray."""
    named = set(re.findall(r"`([\w./]+\.(?:py|md|js))`", MAP.read_text(encoding="utf-8")))
    there = {path.relative_to(ROOT).as_posix()
             for folder in ("engine", "hooks", "tests", "site_src", ".ci", "patterns")
             for path in (ROOT / folder).rglob("*")
             if path.is_file() and "node_modules" not in path.parts}
    assert not [name for name in named
                if not any(f"/{path}".endswith(f"/{name}") for path in there)]


def test_the_map_shows_every_room():
    """The drawing at the head of DEVELOPERS.md has the folders of the engine in their order, and
    every module of hooks/: add a new one there, in a line that says what it is for."""
    drawing = MAP.read_text(encoding="utf-8").split("```")[1]
    assert tuple(re.findall(r"^ +\|  ([\w/]+)/ ", drawing, re.MULTILINE)) == FOLDERS
    hooks = {path.stem for path in (ROOT / "hooks").glob("*.py")} - {"__init__"}
    drawn = set(re.findall(r"(\w+)\.py", drawing.partition("\nhooks/")[2]))
    assert not hooks ^ drawn, f"not in both: {', '.join(sorted(hooks ^ drawn))}"
