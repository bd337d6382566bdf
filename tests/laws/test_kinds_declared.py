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
from walebook.catalogue.bands import KINDS, Making
from walebook.catalogue.forms import FORM_KINDS, Construction
from walebook.drawings.garment_flat import FLAT
from walebook.forms.registry import BUILDERS, FORMS
from walebook.program.bands import MAKES

from tests.laws.calls import parsed

ENGINE = Path(__file__).parents[2] / "engine"
DECLARED = {"catalogue/bands.py", "catalogue/forms.py"}
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
    assert set(MAKES) == set(Making) == {kind.making for kind in KINDS.values()}


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
