"""A kind of band or a form is declared once: nothing but its declaration knows it by its name.

What differs between kinds is a fact of the declaration, so that a new one reaches the reader, the
planner, the steps and the sentences without a list that somebody must remember.
"""

from __future__ import annotations

import ast
import subprocess
import sys
from collections.abc import Iterator
from enum import Enum
from pathlib import Path

import pytest
from walebook.catalogue.bands import KINDS, Making
from walebook.catalogue.forms import FORM_KINDS, Construction
from walebook.drawings.garment_flat import FLAT
from walebook.forms.registry import BUILDERS, FORMS
from walebook.program.bands import MAKES

from tests.laws.calls import parsed

ENGINE = Path(__file__).parents[2] / "engine"
DECLARED = {"catalogue/bands.py", "catalogue/forms.py"}
KEYED = (Construction, Making)
# Tables that need not know every form or making, and what holds of those that they do not know.
PARTIAL = {("engine/drawings/garment_flat.py", "FLAT"): "drawn as they are worn (tested below)",
           ("engine/proof/rows_counted.py", "_ROWS"): "each piece has one count of its rows"}
# "raglan", "hat" and "mitten" are seams and pieces too.
NAMES = {*KINDS, *(name for name in FORMS if " " in name or "-" in name),
         Construction.SADDLE_RAGLAN.value, Construction.SIDEWAYS.value}


def named(text: str) -> Iterator[str]:
    """Every name of a kind or form that is compared with, or stands in a list or as a default."""
    for node in ast.walk(parsed(text)):
        if isinstance(node, ast.Compare):
            parts: list[ast.expr | None] = [node.left, *node.comparators]
        elif isinstance(node, ast.Tuple | ast.List | ast.Set):
            parts = list(node.elts)
        elif isinstance(node, ast.Dict):
            parts = list(node.keys)
        elif isinstance(node, ast.Assign | ast.AnnAssign):
            parts = [node.value]
        else:
            continue
        yield from (str(part.value) for part in parts
                    if isinstance(part, ast.Constant) and part.value in NAMES)


def test_no_kind_or_form_is_known_by_its_name() -> None:
    found = {(where, name) for path in sorted(ENGINE.rglob("*.py"))
             if (where := path.relative_to(ENGINE).as_posix()) not in DECLARED
             for name in named(path.read_text(encoding="utf-8"))}
    assert not found, "\n".join(
        f"engine/{where} decides by {name!r}: ask a field of the kind or form, or, where the word "
        "means another thing there, give the new kind or form another name"
        for where, name in sorted(found))


def test_every_construction_is_built_and_drawn() -> None:
    """Of those that are drawn as they lie there is a drawing; the others have a back and a body."""
    assert set(BUILDERS) == set(Construction) == {one.construction for one in FORM_KINDS.values()}
    for construction in set(Construction) - set(FLAT):
        kind = next(one for one in FORM_KINDS.values() if one.construction is construction)
        assert "chest_width" in kind.measures, f"{construction} needs a drawing in FLAT"


def test_every_making_of_a_band_has_its_steps() -> None:
    assert set(MAKES) == set(Making) == {kind.making for kind in KINDS.values()}, (
        "MAKES of engine/program/bands/__init__.py, Making and KINDS of engine/catalogue/bands.py "
        "do not know the same makings")


def tables(text: str) -> Iterator[tuple[str, type[Enum], set[str]]]:
    """Every table of a module that is keyed by a Construction or Making: its name and its keys."""
    for node in parsed(text).body:
        if isinstance(node, ast.Assign | ast.AnnAssign) and isinstance(node.value, ast.Dict):
            name = node.target if isinstance(node, ast.AnnAssign) else node.targets[0]
            keys = [key for key in node.value.keys if isinstance(key, ast.Attribute)]
            for of in KEYED:
                said = {key.attr for key in keys if ast.unparse(key.value) == of.__name__}
                if said:
                    yield ast.unparse(name), of, said


def gaps(where: str, text: str) -> list[str]:
    """What a module's tables do not know, said so that the table can be found."""
    return [f"{name} of {where} has no {of.__name__}.{missing}: give it one"
            for name, of, said in tables(text) if (where, name) not in PARTIAL
            for missing in sorted(of.__members__.keys() - said)]


def test_every_table_knows_every_form_and_making() -> None:
    paths = [*sorted(ENGINE.rglob("*.py")), *sorted((ENGINE.parent / "tests").rglob("*.py"))]
    texts = {path.relative_to(ENGINE.parent).as_posix(): path.read_text(encoding="utf-8")
             for path in paths}
    found = [gap for where, text in texts.items()
             if any(f"{of.__name__}." in text for of in KEYED) for gap in gaps(where, text)]
    assert not found, "\n".join(found)
    known = {(where, name) for where in texts if any(where == one for one, _ in PARTIAL)
             for name, _, _ in tables(texts[where])}
    assert known >= PARTIAL.keys(), "PARTIAL names a table that is not there"


@pytest.mark.parametrize(("where", "name"), [
    ("engine/catalogue/outright.py", "BY_CONSTRUCTION"), ("engine/forms/registry.py", "BUILDERS"),
    ("engine/source/idle_keys.py", "_DECREASED"), ("engine/proof/parts_of_fabrics.py", "_WHOLE"),
    ("tests/laws/random_sources.py", "PIECES"), ("engine/program/bands/__init__.py", "MAKES")])
def test_a_key_that_a_table_does_not_have_is_named(where: str, name: str) -> None:
    text = (ENGINE.parent / where).read_text(encoding="utf-8")
    of, key = next((of, min(said)) for found, of, said in tables(text) if found == name)
    spoiled = text.replace(f"{of.__name__}.{key}:", "NOTHING:", 1)
    assert spoiled != text
    assert gaps(where, spoiled) == [f"{name} of {where} has no {of.__name__}.{key}: give it one"]


@pytest.mark.parametrize("line", [
    'SEWN = ("enclosing", "folded")', 'kind = "single"', 'MADE = {"casing": 1}',
    'shut = band.kind == "folded"', 'turned = garment.form == "sideways"',
    'flat = form not in ("panelled blanket",)'])
def test_a_name_is_found(line: str) -> None:
    assert list(named(line))


TRIED = '''
from dataclasses import replace

from walebook.catalogue.bands import KINDS
from walebook.pattern.model import Fold

KINDS["tubular"] = replace(KINDS["folded"], name="tubular", summary="tried", fold=Fold.PICOT,
                           page="bands/tubular.html")

from walebook.pages import write_pages
from walebook.proof.proof import prove
from walebook.source.keys.band_keys import BandKeys

from tests.sources.reading import changed, read


def pages(lines):
    pattern, _ = read(changed("    fold: turned\\n", lines))
    assert pattern.bands["front"].fold is Fold.PICOT
    return "".join(page.text for page in write_pages(prove(pattern)[0])
                   if page.path.endswith(".md"))


assert "[`tubular`](bands/tubular.md) (tried)" in BandKeys.kind.meaning
assert "of the kind `tubular` picot" in BandKeys.fold.left_out
assert "`tubular`" in BandKeys.dials.meaning and "`tubular`" in BandKeys.mitre.meaning
there = pages("    kind: folded\\n    fold: picot\\n")
here = pages("    kind: tubular\\n")
assert "tubular" not in there and "tubular" in here
assert here.replace("tubular", "folded") == there
'''


def test_a_kind_declared_once_reaches_every_page() -> None:
    """Like another in all but its name and its fold, it is knitted and told as that one is."""
    done = subprocess.run([sys.executable, "-c", TRIED], cwd=ENGINE.parent, capture_output=True,
                          text=True, check=False)
    assert done.returncode == 0, done.stderr


FORM = '''
from dataclasses import replace

from walebook.catalogue.forms import FORM_KINDS

FORM_KINDS["gansey"] = replace(FORM_KINDS["drop-shoulder pullover"], name="gansey", summary="tried")

from walebook.forms.registry import FORMS
from walebook.pages import write_pages
from walebook.proof.proof import prove
from walebook.source.keys.garment_keys import GarmentKeys

from tests.against import wardrobe


def pages(form):
    return "".join(page.text for page in write_pages(prove(wardrobe.pattern(form))[0])
                   if page.path.endswith(".md"))


there, here = pages("drop-shoulder pullover"), pages("gansey")
assert "gansey" not in there
assert here.replace("gansey", "drop-shoulder pullover") == there
'''


def test_a_form_declared_once_reaches_every_page() -> None:
    """Like another in all but its name, it is cut, knitted, drawn and told as that one is."""
    done = subprocess.run([sys.executable, "-c", FORM], cwd=ENGINE.parent, capture_output=True,
                          text=True, check=False)
    assert done.returncode == 0, done.stderr
