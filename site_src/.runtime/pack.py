"""Run by the runtime: compiles its library of our engine, PyYAML and what they use of Python.

/sources.zip has the sources; the library is written to /library.zip, and is the same for the same
sources: one date, one order, and no path of this machine. The standard library writes the methods
of a class of fields as text and compiles it when the class is loaded, which takes a quarter of the
time in which the engine is loaded: these texts are compiled here, and lie in the library too. The
engine's first module lets `quick_imports` find all others.
"""

import ast
import dataclasses
import importlib
import marshal
import sys
import zipfile
from importlib.util import MAGIC_NUMBER
from io import BytesIO
from types import CodeType

SOURCES, LIBRARY = "/sources.zip", "/library.zip"
STANDARD = f"/lib/python{sys.version_info[0]}{sys.version_info[1]}.zip"
FOREIGN = {"markdown", "nh3", "pint", "yaml._yaml", "_yaml"}  # of ways that are not gone here
FIRST = "walebook/__init__.py"
METHODS = "methods_of_fields"
LOOK_UP = f"""
import builtins
import marshal
from {METHODS} import COMPILED

def exec(text, space, names):
    packed = COMPILED.get(text)
    builtins.exec(text if packed is None else marshal.loads(packed), space, names)
"""
UNCHECKED = MAGIC_NUMBER + (1).to_bytes(4, "little") + bytes(8)  # PEP 552: nothing to compare with


def names_in(tree: ast.AST) -> set[str]:
    """The modules that a source names in its imports by their whole names."""
    found = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and node.level == 0 and node.module:
            found.add(node.module)
    return found


def without_words(tree: ast.Module) -> ast.Module:
    """A source's tree with each docstring a point: a class without one is given one as it loads."""
    for node in ast.walk(tree):
        match node:
            case ast.Module(body=body) | ast.ClassDef(body=body) | ast.FunctionDef(body=body) | \
                    ast.AsyncFunctionDef(body=body):
                match body:
                    case [ast.Expr(value=ast.Constant(value=str()) as text), *_]:
                        text.value = "."
    return tree


def compiled(tree: ast.Module, name: str) -> bytes:
    return UNCHECKED + marshal.dumps(without_lines(compile(tree, name, "exec", dont_inherit=True)))


def without_lines(code: CodeType) -> CodeType:
    """Code without the table of its lines, a fifth of it: no source is there to be shown."""
    inner = tuple(without_lines(each) if isinstance(each, CodeType) else each
                  for each in code.co_consts)
    return code.replace(co_consts=inner, co_linetable=b"")


methods: dict[str, CodeType] = {}


def noted(text: str, space: dict[str, object], names: dict[str, object]) -> None:
    """What `exec` does, and the text's code is noted."""
    methods[text] = compile(text, "<string>", "exec", dont_inherit=True)
    exec(methods[text], space, names)  # what the standard library would have run


def methods_compiled() -> bytes:
    """A module with the code of each text that was noted, by the text."""
    packed = {text: marshal.dumps(without_lines(methods[text])) for text in sorted(methods)}
    tree = ast.parse(f"COMPILED = {packed!r}\n")
    return compiled(tree, f"{METHODS}.py")


sys.path.insert(0, SOURCES)
vars(dataclasses)["exec"] = noted
with zipfile.ZipFile(SOURCES) as given:
    own = {name: ast.parse(given.read(name)) for name in sorted(given.namelist())}
for tree in own.values():
    for name in names_in(tree):
        if name not in FOREIGN and name.partition(".")[0] not in FOREIGN:
            importlib.import_module(name)
for name in own.keys() - {"quick_imports.py"}:  # which is for the library
    module = name.removesuffix(".py").removesuffix("/__init__")
    try:
        importlib.import_module(module.replace("/", "."))
    except ModuleNotFoundError as fault:
        if fault.name not in FOREIGN:
            raise
del vars(dataclasses)["exec"]
own[FIRST].body += ast.parse("import quick_imports").body

with zipfile.ZipFile(STANDARD) as given:
    there = set(given.namelist())
    loaded = sorted({file.removeprefix(f"{STANDARD}/") for module in list(sys.modules.values())
                     if (file := getattr(module, "__file__", None) or "").startswith(STANDARD)})
    loaded = [name for name in loaded if name in there]
    standard = {name: ast.parse(given.read(name)) for name in loaded}
standard["dataclasses.py"].body += ast.parse(LOOK_UP).body

made = BytesIO()
with zipfile.ZipFile(made, "w", zipfile.ZIP_STORED) as library:
    for name, tree in {**standard, **own}.items():
        entry = zipfile.ZipInfo(f"{name}c", (1980, 1, 1, 0, 0, 0))
        library.writestr(entry, compiled(without_words(tree), name))
    library.writestr(zipfile.ZipInfo(f"{METHODS}.pyc", (1980, 1, 1, 0, 0, 0)), methods_compiled())
with open(LIBRARY, "wb") as file:
    file.write(made.getvalue())
print(len(standard), len(own), len(made.getvalue()))
