"""A kind of band or a form is declared once: nothing but its declaration knows it by its name.

What differs between kinds is a fact of the declaration, so that a new one reaches the reader, the
planner, the steps and the sentences without a list that somebody must remember.
"""

from __future__ import annotations

import ast
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from walebook.catalogue import forms
from walebook.catalogue.bands import KINDS
from walebook.forms.registry import FORMS

ENGINE = Path(__file__).parents[2] / "engine"
# A declaration, and the tables that say which function writes a kind's steps, or draws a form.
DECLARED = {"catalogue/bands.py", "catalogue/forms.py", "program/bands/__init__.py",
            "drawings/garment_flat.py"}
NAMES = {*KINDS, *(name for name in FORMS if " " in name or "-" in name)}


def named(text: str) -> Iterator[str]:
    """Every name of a kind or form that is compared with, or stands in a list or as a default."""
    for node in ast.walk(ast.parse(text)):
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
    assert not found


def test_every_form_of_the_catalogue_is_built() -> None:
    declared = [each for each in vars(forms).values() if isinstance(each, forms.FormKind)]
    assert sorted(form.name for form in declared) == sorted(FORMS)
    for form in declared:
        assert (FORMS[form.name].measures, FORMS[form.name].edges) == (form.measures, form.edges)


@pytest.mark.parametrize("line", [
    'SEWN = ("enclosing", "folded")', 'kind = "single"', 'MADE = {"casing": 1}',
    'shut = band.kind == "folded"', 'flat = form not in ("panelled blanket",)'])
def test_a_name_is_found(line: str) -> None:
    assert list(named(line))


TRIED = '''
from dataclasses import replace

from walebook.catalogue.bands import KINDS
from walebook.pattern.model import Fold

KINDS["tubular"] = replace(KINDS["folded"], name="tubular", summary="tried", fold=Fold.PICOT,
                           page="bands/tubular.html")

from walebook.program.bands import MAKES

MAKES["tubular"] = MAKES["folded"]

from walebook.pages import write_pages
from walebook.proof.proof import prove
from walebook.source.keys.bands import BandKeys

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
