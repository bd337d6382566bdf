"""Every sentence that a reader of the site sees is made in engine/words/.

Pages say what stands where, drawings draw: a string of three words or more in either is a sentence
that a translator, or whoever rewords a step, would look for in vain. What is measured, shaped,
planned, written as steps and proved has roles: a name there is one too, of two words or more, with
a capital letter, or beside a value. Findings are left out, which are worded where they are found:
the arguments of `error`, `note` and of what is raised, and functions that return findings.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.laws.calls import parsed
from tests.laws.typed_texts import Homes, TypedTexts, homes_of, of_engine

ENGINE = Path(__file__).parents[2] / "engine"
FOLDERS = ("pages", "drawings")
TAG = re.compile(r"<[^>]*>")
SPOKEN = re.compile(r'(?:aria-label|alt|title)="([^"]*)"')
WORD = re.compile(r"[A-Za-z][a-z'’-]*")
ALONE = re.compile(r"[A-Z][a-z]+")
UNITS = {"cm", "in", "mm"}
BESIDE = re.compile(r"0 [a-z]|[a-z] 0")
# What no reader of a page sees, by module and function: why an argument cannot be, what JSON is
# written with, and what a schema says of itself.
UNSEEN = {
    ("pages/counts_json.py", "counts_json"),
    ("pages/counts_schema.py", "counts_schema"),
    ("pages/expression_json.py", ""),
    ("pages/expression_kinds.py", ""),
    ("pages/page_facts.py", "facts_schema"),
    ("pages/page_facts.py", "_part_schema"),
    ("drawings/dimensions.py", "px"),
    ("drawings/two_beds.py", "two_bed_diagram"),
}

def sentences(text: str) -> Iterator[tuple[str, str]]:
    """The function, or "" outside any, and the text of every string of three words or more."""
    tree = parsed(text)
    notes = docstrings(tree)
    yield from _found(tree, "", notes)


def docstrings(tree: ast.Module) -> set[ast.expr]:
    """The strings that stand alone, which say what the code beside them does."""
    return {node.value for node in ast.walk(tree)
            if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant)}


def _found(node: ast.AST, within: str, notes: set[ast.expr]) -> Iterator[tuple[str, str]]:
    for child in ast.iter_child_nodes(node):
        name = child.name if isinstance(child, ast.FunctionDef) and not within else within
        if child not in notes and len(words_of(said := string(child))) >= 3:
            yield name, said
        yield from _found(child, name, notes)


def string(node: ast.AST) -> str:
    """A string's text; of one with values in it, all but the values."""
    if isinstance(node, ast.JoinedStr):
        return " ".join(string(part) for part in node.values if isinstance(part, ast.Constant))
    return node.value if isinstance(node, ast.Constant) and isinstance(node.value, str) else ""


def words_of(text: str) -> list[str]:
    """The words between the tags and in labels; keys, addresses and paths of drawings are none."""
    bare = (token.strip(".,:;!?()“”‘’\"'")
            for token in " ".join((TAG.sub(" ", text), *SPOKEN.findall(text))).split())
    return [token for token in bare if (WORD.fullmatch(token) and len(token) > 1) or token == "a"]


def outside() -> set[tuple[str, str]]:
    return {(path.relative_to(ENGINE).as_posix(), name)
            for folder in FOLDERS for path in sorted((ENGINE / folder).rglob("*.py"))
            for name, _ in sentences(path.read_text(encoding="utf-8"))}


def test_every_sentence_is_made_in_words() -> None:
    assert outside() == UNSEEN


NAMED = ("catalogue", "fabric", "forms", "plan", "program", "proof", "shape", "sizing")
"""The folders that decide what a garment is and how it is knitted: what they name, `words/` is to
name."""
STILL = Path(__file__).with_name("worded_outside.txt")
"""The functions there that still word something, as "module function"; the list only shrinks.

The declarations of the kinds of band and of the forms stay: each says in a line what it is, and a
kind is declared once (`test_kinds_declared.py`).
"""


def refusals() -> set[str]:
    """What makes a finding: `error`, `note`, and every exception of the engine."""
    return {"error", "note", "Problem"} | {
        node.name for path in ENGINE.rglob("*.py")
        for node in parsed(path.read_text(encoding="utf-8")).body
        if isinstance(node, ast.ClassDef) and any(
            ast.unparse(base).endswith(("Exception", "Error", "Fault"))
            or ast.unparse(base).startswith("Cannot") for base in node.bases)}


def _is_apart(node: ast.AST, refused: set[str], typed: TypedTexts) -> bool:
    """True for what words a finding, for keys of enumerations, for what says a type, and for what
    is of a type that no reader meets (`core/text_kinds.py`)."""
    if isinstance(node, ast.Raise | ast.Assert):
        return True
    if isinstance(node, ast.Call):
        return ast.unparse(node.func).rpartition(".")[2] in refused
    if isinstance(node, ast.ClassDef):
        return any(ast.unparse(base).endswith(("Enum", "Members")) for base in node.bases)
    if isinstance(node, ast.AnnAssign):
        return typed.names(ast.unparse(node.annotation))
    return (isinstance(node, ast.FunctionDef) and node.returns is not None
            and ("Problem" in (said := ast.unparse(node.returns)) or typed.names(said)))


def _keys(node: ast.AST, typed: TypedTexts, homes: Homes) -> Iterator[ast.AST]:
    """Yield the parts of a node that are keys: by which something is looked up, or with which it
    is compared or matched, and arguments of a type that no reader meets."""
    if isinstance(node, ast.Subscript):
        yield node.slice
    elif isinstance(node, ast.Compare):
        yield from (node.left, *node.comparators)
    elif isinstance(node, ast.Call):
        yield from typed.apart(node, homes)
        if ast.unparse(node.func).endswith((".get", ".count")):
            yield from node.args[:1]
    elif isinstance(node, ast.match_case):
        yield node.pattern


def named(node: ast.AST) -> str:
    """A string's text; of one with values in it, all but the values, which stand for a letter."""
    if isinstance(node, ast.JoinedStr):
        return "".join(string(part) if isinstance(part, ast.Constant) else "0"
                       for part in node.values)
    return string(node)


def is_named(text: str) -> bool:
    """True for a name that a reader could meet: two words or more, one word with a capital letter,
    or one that stands beside a value, as in ", 8 cm apart"."""
    words = words_of(text)
    return len(words) >= 2 or any(ALONE.fullmatch(text) or BESIDE.search(text)
                                  for word in words if word not in UNITS)


def names(text: str, refused: set[str], typed: TypedTexts | None = None, own: str = ""
          ) -> Iterator[tuple[str, str]]:
    """The function, or "" outside any, and the text of every string that is a name, and neither
    a finding's nor a key."""
    typed = typed or of_engine()
    tree = parsed(text)
    homes = homes_of(tree, own)
    notes = docstrings(tree)

    def found(node: ast.AST, within: str) -> Iterator[tuple[str, str]]:
        left = {getattr(node, "annotation", None), getattr(node, "returns", None),
                *_keys(node, typed, homes)}
        for child in ast.iter_child_nodes(node):
            if child in notes or child in left or _is_apart(child, refused, typed) or (
                    isinstance(node, ast.JoinedStr) and isinstance(child, ast.Constant)):
                continue
            name = child.name if isinstance(child, ast.FunctionDef) and not within else within
            if is_named(said := named(child)):
                yield name, said
            yield from found(child, name)

    yield from found(tree, "")


def test_what_is_shaped_and_planned_is_named_in_words() -> None:
    """A function that names nothing any more is taken from the list."""
    refused = refusals()
    found = {f"{path.relative_to(ENGINE).as_posix()} {name}".strip()
             for folder in NAMED for path in sorted((ENGINE / folder).rglob("*.py"))
             for name, _ in names(path.read_text(encoding="utf-8"), refused, own=path.stem)}
    assert found == set(STILL.read_text(encoding="utf-8").splitlines())


HOOKS = Path(__file__).parents[2] / "hooks"
PREVIEW = {"compared_page", "notices", "preview_pages"}  # what no reader of a site meets
PUBLISH = {"feed", "finishing", "former", "gauge_in_site", "handing_over", "home_page", "keeping",
           "news", "running_head", "search", "single_file", "try_in_site"}
"""The hooks that write into a site, each of whose texts is read; of the others only HTML is."""
OUR_HOOKS = {
    ("finishing", "publish_beside"), ("handing_over", "hand_over"),  # progress of a build
    ("keeping", ""),  # where the list of files goes in the worker
    ("own_page_links", "_has_place"), ("paper", "_printable"), ("reading", "_shared"),
    ("reading", "has_place"),  # these look for what stands in angle brackets
}


def published(text: str, *, all_of_it: bool) -> Iterator[tuple[str, str]]:
    """The function, or "" outside any, and every text with words that a hook may publish: in HTML,
    and else where `all_of_it` is read."""
    for name, said in names(text, {"error", "note"}):
        if all_of_it or "<" in said:
            yield name, said
    tree = ast.parse(text)
    for node in ast.walk(tree):
        if len(words_of(said := named(node))) == 1 and "<" in said and node not in docstrings(tree):
            yield next((one.name for one in ast.walk(tree) if isinstance(one, ast.FunctionDef)
                        and one.lineno <= node.lineno <= (one.end_lineno or 0)), ""), said


def test_what_hooks_publish_is_made_in_words() -> None:
    found = {(path.stem, name) for path in HOOKS.glob("*.py") if path.stem not in PREVIEW
             for name, _ in published(path.read_text(encoding="utf-8"),
                                      all_of_it=path.stem in PUBLISH)}
    assert found == OUR_HOOKS
    assert {path.stem for path in HOOKS.glob("*.py")} >= PREVIEW | PUBLISH


@pytest.mark.parametrize("line", [
    'return {"title": "The frame of the site"}',
    'return f"<p>Open {page} on the site.</p>"',
    'return f"<a href={page}>Size {page}</a>"',
])
def test_a_published_text_is_found(line: str) -> None:
    assert [name for name, _ in published(f"def at(page):\n    {line}\n", all_of_it=True)]


@pytest.mark.parametrize("line", [
    'return run_of("neck", "Neck", rows, detail="from the hem")',
    'return f"top of the {side} band"',
    'return straight("front edge", rows)',
    'yield straight("front edge", rows)',
    'found.append(straight("front edge", rows))',
    'return Piece(key="sleeve", title="Sleeve")',
    'return f", {rows} apart"',
    'return Piece(key=side, title=f"{side} front")',
])
def test_a_name_outside_is_found(line: str) -> None:
    found = names(f"def at(rows, side):\n    {line}\n", {"error"})
    assert {name for name, _ in found} == {"at"}


@pytest.mark.parametrize("text", [
    'def at(rows):\n    return error("no-room", found=f"{rows} of the front edge")\n',
    'def at(rows) -> list[Problem]:\n    why = "no room at the neck"\n    return no(why)\n',
    'class Role(Enum):\n    NECK = "front neck"\n',
    'def at(rows):\n    raise ValueError("no such front edge")\n',
    'def at(rows):\n    match rows:\n        case "front edge":\n            return 1\n',
    'def at(rows):\n    return rows.count("front edge"), f"{rows} cm", "back"\n',
    'def at(rows: "Sequence of rows") -> "a tuple":\n    """The front edge."""\n',
])
def test_findings_keys_and_types_are_no_names(text: str) -> None:
    assert not list(names(text, {"error"}))


def test_no_page_is_given_the_text_of_a_finding() -> None:
    """Pages, drawings and words name no such type, and import nothing that gives such a text."""
    gives = {(path.stem, node.name) for path in ENGINE.rglob("*.py")
             for node in ast.walk(parsed(path.read_text(encoding="utf-8")))
             if isinstance(node, ast.FunctionDef) and node.returns is not None
             and "FindingText" in ast.unparse(node.returns)}
    assert len(gives) > 5
    for folder in (*FOLDERS, "words"):
        for path in (ENGINE / folder).rglob("*.py"):
            text = path.read_text(encoding="utf-8")
            assert "FindingText" not in text, path
            homes = homes_of(parsed(text))
            assert not [name for name, home in homes.items() if (home, name) in gives], path


def test_no_words_are_the_key_of_a_role() -> None:
    """The keys of roles are for counts.json, which `pages/expression_json.py` writes."""
    found = {path.relative_to(ENGINE).as_posix() for folder in (*FOLDERS, "words")
             for path in (ENGINE / folder).rglob("*.py")
             if re.search(r"\brole\.value\b", path.read_text(encoding="utf-8"))}
    assert found == {"pages/expression_json.py"}


TYPED = '''
Counts = Mapping[Key, int]

@dataclass
class Task:
    kind: str
    name: Key

def rows_of(cut: str, count: Key) -> int: ...
'''


@pytest.mark.parametrize("line", [
    'return rows_of("short cut", "panel rows")',
    'return Task(kind="panel rows", name="panel rows")',
    'return f"{rows} of the {\'left side\' if rows else \'\'}"',
    'said = "panel rows" if rows == "panel rows" else ""',
])
def test_what_is_typed_is_left_out_alone(line: str) -> None:
    typed = TypedTexts([("typed", TYPED)], {"Key"})
    found = list(names(f"def at(rows):\n    {line}\n", set(), typed))
    assert len(found) == (2 if "left" in line else 1)


@pytest.mark.parametrize("text", [
    'ROWS: Counts = {"panel rows": 1}',
    'at = rows_of(1, "panel rows"), made["panel rows"], made.get("panel rows")',
    'at = Task("shoulder", f"the {rows} rows")',
    'def at(rows: int) -> Key:\n    return "panel rows"',
    'at = f"bands.{rows}.edge"',
])
def test_what_is_typed_is_no_name(text: str) -> None:
    assert not list(names(text, set(), TypedTexts([("typed", TYPED)], {"Key"})))


@pytest.mark.parametrize("line", [
    'return f"<p>Bands are not {drawn}.</p>"',
    'yield f"<p>Bands are not {drawn}.</p>"',
    'return "<b>Knit one more</b>"',
    'said = {1: ", from the waste yarn"}',
    'title = f"The needles after step {number}"',
    'return f\'<a aria-label="Page {number} of the patterns">{number}</a>\'',
])
def test_a_sentence_is_found(line: str) -> None:
    found = sentences(f"def at(number, drawn):\n    {line}\n")
    assert {name for name, _ in found} == {"at"}


@pytest.mark.parametrize("line", [
    'path = f"M{x} {y}V{foot}H{end - 2}"',
    'key = "rows_holes_to_fold"',
    'to = "../../techniques/swatch-and-gauge.html"',
    'shape = \'stroke-width="2.2" d="M2 10v6H14v-6"\'',
    'return f\'<p class="wb-on-paper">{said}</p>\'',
    '"""A function that says what it gives back."""',
])
def test_what_is_no_sentence_is_left(line: str) -> None:
    assert not list(sentences(f"def at(x, y, said):\n    {line}\n"))
