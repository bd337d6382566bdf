"""What a check and the way from texts to pages import: nothing that they do not need."""

from __future__ import annotations

import ast
import json
import re
import shutil
import subprocess
import sys
from collections.abc import Iterable, Iterator
from importlib import import_module
from pathlib import Path

import markdown
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from walebook import pages
from walebook.catalogue.bands import Making
from walebook.catalogue.forms import Construction
from walebook.forms.form_parts import FORM_PARTS
from walebook.forms.registry import BUILDERS
from walebook.pages import DOORS
from walebook.plan.part_planners import PLANNERS
from walebook.program.bands import MAKES
from walebook.program.bands.layer_parts import LAYER_PARTS
from walebook.program.piece_parts import PIECE_PARTS
from walebook.program.row_parts import ROW_PARTS
from walebook.program.whole_programs import PROGRAMS
from walebook.source.part_readers import READERS
from walebook.source.section_readers import SECTIONS

from tests.scale import examples

from .test_house import MODULES, imported_by, libraries, neighbours, tree_of

ROOT = Path(__file__).parents[2]
LOADED = ("import json, sys\n"
          "print(json.dumps({n: getattr(m, '__file__', None) for n, m in sys.modules.items()}))")


def loaded(code: str) -> dict[str, str | None]:
    """The modules that `code` imports, run by itself, and the file of each."""
    def modules(text: str) -> dict[str, str | None]:
        made = subprocess.run([sys.executable, "-c", text], check=True, capture_output=True,
                              encoding="utf-8", cwd=ROOT)
        return json.loads(made.stdout.splitlines()[-1])
    before = modules(LOADED)
    return {name: file for name, file in modules(f"{code}\n{LOADED}").items() if name not in before}


def strangers(modules: dict[str, str | None]) -> set[str]:
    """The packages among them that were installed beside Python and the project."""
    return {name.partition(".")[0] for name, file in modules.items()
            if file and "site-packages" in Path(file).parts}


def test_what_is_installed_is_seen():
    assert strangers(loaded("import nh3, yaml, json")) >= {"nh3", "yaml"}


def a_check(root: Path) -> str:
    return ("from walebook_site.command import main\n"
            f"assert main(['check', '--root', {str(root)!r}]) == 0\n")


def collection(tmp_path: Path, slug: str, notes: str = "") -> Path:
    """A folder with one of the collection's patterns alone."""
    for folder in ("_beds", "_sizes", slug):
        shutil.copytree(ROOT / "patterns" / folder, tmp_path / "patterns" / folder,
                        dirs_exist_ok=True)
    # The pages' own code says what a published version is held to.
    (tmp_path / "patterns" / slug / "published.json").unlink(missing_ok=True)
    written = tmp_path / "patterns" / slug / "notes.md"
    written.unlink(missing_ok=True)
    if notes:
        written.write_text(notes, encoding="utf-8")
    shutil.copy(ROOT / "mkdocs.yml", tmp_path)
    if not (tmp_path / "site_src").exists():  # the settings name it
        (tmp_path / "site_src").symlink_to(ROOT / "site_src")
    return tmp_path


def test_a_check_imports_the_standard_library_and_yaml_alone(tmp_path):
    found = loaded(a_check(collection(tmp_path, "practice-band")))
    assert strangers(found) == {"yaml"}
    assert not {name for name in found if name.startswith("walebook.pages")}


def test_a_check_of_what_is_kept_loads_no_engine(tmp_path):
    root = collection(tmp_path, "practice-band", "Notes by *Wren*.\n")
    loaded(a_check(root))
    found = loaded(a_check(root))
    assert strangers(found) == set()
    assert {name for name in found if name.startswith("walebook.")} == {
        "walebook.core", "walebook.core.problems", "walebook.machine", "walebook.machine.records",
        "walebook.source", "walebook.source.page_names", "walebook.source.picture_bytes"}


def of_the_head(name: str) -> Iterator[str]:
    """The engine's modules that a module imports as soon as it is imported itself."""
    for node in tree_of(name).body:
        if isinstance(node, ast.ImportFrom):
            yield from imported_by(node, name)


def led_to(names: Iterable[str]) -> set[str]:
    """These modules, and all that they import as soon as one of them is imported."""
    found, left = set(), list(names)
    while left:
        name = left.pop()
        if name not in found:
            found.add(name)
            left += of_the_head(name)
    return found


def of_table(table: Iterable[str], folder: str) -> set[str]:
    """The modules that a table names, such as "hat.builder" in forms."""
    return {f"{folder}/{entry.partition('.')[0]}" for entry in table}


TERMS = {name for name in MODULES if name.startswith("words/terms/")}
"""What findings print as well as pages."""
HANDED = {"pages/__init__": DOORS, "source/part_readers": READERS,
          "source/section_readers": SECTIONS, "forms/form_parts": FORM_PARTS,
          "plan/part_planners": PLANNERS, "program/piece_parts": PIECE_PARTS,
          "program/row_parts": ROW_PARTS, "program/whole_programs": PROGRAMS,
          "program/bands/layer_parts": LAYER_PARTS}
"""The tables whose module has what they name as if it were its own."""
NAMES = {"forms/registry": BUILDERS, "program/bands/__init__": MAKES, **HANDED}
"""The tables of what is imported by its name, by their modules."""


def under_types(name: str) -> ast.If:
    """What a module imports for those alone who read types."""
    return next(node for node in tree_of(name).body if isinstance(node, ast.If)
                and ast.unparse(node.test) == "TYPE_CHECKING")


@pytest.mark.parametrize("user", NAMES)
def test_what_is_imported_by_name_is_seen_by_whoever_reads_imports(user):
    """A table of names has the imports of the same modules beside it, which are for the types."""
    named = of_table(NAMES[user].values(), user.rpartition("/")[0])
    assert not named & led_to([user])
    assert named == {other for node in under_types(user).body if isinstance(node, ast.ImportFrom)
                     for other in imported_by(node, user)}


@pytest.mark.parametrize("user, table", [("forms/registry", BUILDERS),
                                         ("program/bands/__init__", MAKES)])
def test_functions_that_are_imported_by_name_are_listed_for_their_types(user, table):
    seen = next(node for node in under_types(user).body if isinstance(node, ast.AnnAssign))
    assert isinstance(seen.value, ast.Tuple)
    assert {ast.unparse(each) for each in seen.value.elts} == set(table.values())


@pytest.mark.parametrize("user", HANDED)
def test_what_a_module_hands_out_has_its_types(user):
    folder = f"walebook.{user.rpartition('/')[0].replace('/', '.')}"
    there = import_module(f"walebook.{user.removesuffix('/__init__').replace('/', '.')}")
    imports = {alias.name: f"{node.module}.{alias.name}" for node in
               under_types(user).body if isinstance(node, ast.ImportFrom)
               for alias in node.names}
    assert imports == HANDED[user]
    for name, entry in HANDED[user].items():
        module, _, part = entry.partition(".")
        assert f"{user.removesuffix('/__init__')}/{name}" not in MODULES, "it would be hidden"
        assert getattr(there, name) is getattr(sys.modules[f"{folder}.{module}"], part)
    with pytest.raises(AttributeError):
        there.no_such_name  # noqa: B018


def test_the_pages_name_all_that_they_hand_out():
    assert sorted(pages.__all__) == sorted(DOORS)


def test_nothing_else_is_imported_by_name():
    """Such an import is hidden from who looks for circles, the order of folders and types."""
    assert {name for name in MODULES if "core/on_use" in neighbours(name)} == set(NAMES)
    assert {name for name in MODULES if "importlib" in libraries(name)} == {
        "core/on_use", "markup/notes"}
    asked = "from importlib.util import find_spec"  # is the library there?
    assert MODULES["markup/notes"].read_text(encoding="utf-8").count("importlib") == \
        asked.count("importlib") == MODULES["markup/notes"].read_text(encoding="utf-8").count(asked)


@pytest.mark.parametrize("slug, form, makings", [
    ("halyard-hat", Construction.HAT, []),
    ("practice-band", None, [Making.ENCLOSING]),
    ("ropewalk-cardigan", Construction.RAGLAN, [Making.ENCLOSING, Making.FACING])])
def test_a_check_imports_no_form_or_kind_of_band_but_its_own(tmp_path, slug, form, makings):
    found = {name.removeprefix("walebook.").replace(".", "/")
             for name in loaded(a_check(collection(tmp_path, slug)))}
    own = of_table([BUILDERS[form]] if form else [], "forms")
    forms = {name for name in found if name.startswith("forms/")}
    shared = set.intersection(*(led_to([each]) for each in of_table(BUILDERS.values(), "forms")))
    assert forms <= led_to({"forms/registry", *own}) | shared
    assert own == forms & of_table(BUILDERS.values(), "forms")
    assert found & of_table(MAKES.values(), "program/bands") == \
        of_table([MAKES[making] for making in makings], "program/bands")


def of_its_functions(name: str) -> Iterator[str]:
    """The modules that functions of a module import, when they are called."""
    for each in ast.walk(tree_of(name)):
        if isinstance(each, ast.FunctionDef):
            for node in ast.walk(each):
                if isinstance(node, ast.ImportFrom):
                    yield from imported_by(node, name)


ASKED_FOR = {other for name in MODULES if name.partition("/")[0] in ("plan", "proof")
             and name != "plan/__init__" for other in of_its_functions(name)
             if other.startswith("plan/")}
"""What is planned for few patterns: it is imported where one asks for it."""


@pytest.mark.parametrize("slug, asked", [
    ("halyard-hat", {"all_sizes"}),
    ("practice-band", {"all_bands", "band_counts", "band_holes", "hole_ground"}),
    ("lock-keeper-gilet", {"all_bands", "all_sizes", "band_counts", "cords", "pockets", "zips"}),
    ("foghorn-cowl", {"all_bands", "all_sizes", "band_counts", "own_pieces"})])
def test_a_check_imports_no_plan_that_its_pattern_does_not_ask_for(tmp_path, slug, asked):
    """A hat has no band, a band no garment, and neither has pockets, stripes, a cord or a zip."""
    found = {name.removeprefix("walebook.").replace(".", "/")
             for name in loaded(a_check(collection(tmp_path, slug)))}
    assert found & ASKED_FOR == {f"plan/{name}" for name in asked}


def test_all_that_is_asked_for_is_imported_before_processes_divide():
    assert set(of_its_functions("plan/__init__")) == ASKED_FOR


@pytest.mark.parametrize("slug, recorded, shown", [
    ("halyard-hat", False, set()),
    ("halyard-hat", True, {"recorded", "shown_counts", "figures"}),
    ("capstan-hat", False, {"corrected_places", "numbering", "anchors"})])
def test_a_check_imports_what_it_needs_of_pages(tmp_path, slug, recorded, shown):
    """A record has counts as pages show them; a correction names a step by its number there."""
    root = collection(tmp_path, slug)
    if recorded:
        shutil.copy(ROOT / "patterns" / slug / "published.json", root / "patterns" / slug)
    found = {name.removeprefix("walebook.").replace(".", "/") for name in loaded(a_check(root))}
    its = {f"pages/{name}" for name in shown}
    needed, terms = led_to(its), {name.removesuffix("/__init__") for name in TERMS}
    for folder in ("words", "drawings", "pages"):
        assert {each for each in found if each.startswith(f"{folder}/")} == {
            each for each in needed | terms if each.startswith(f"{folder}/")}
    assert {each for each in needed if each.startswith("pages/")} == its
    assert not {each for each in needed if each.startswith("drawings/")}


def test_processes_divide_when_all_is_imported(tmp_path):
    """What is imported later, each of them imports for itself."""
    for slug in ("practice-band", "halyard-hat", "compass-hat", "fathom-hat"):
        root = collection(tmp_path, slug)
    found = {name.removeprefix("walebook.").replace(".", "/") for name in loaded(
        f"import os\nos.environ['WALEBOOK_JOBS'] = '2'\n{a_check(root)}")}
    assert found >= of_table(BUILDERS.values(), "forms")
    assert found >= of_table(MAKES.values(), "program/bands")
    for user, table in HANDED.items():
        if user != "pages/__init__":
            assert found >= of_table(table.values(), user.rpartition("/")[0])
    assert found >= ASKED_FOR


OF_PARTS = {
    "a zip": {"source/zip_reading", "plan/zips"},
    "stripes": {"source/stripe_reading", "plan/laid_stripes"},
    "pockets": {"source/pocket_reading", "plan/pockets", "program/pocket"},
    "a cord": {"source/cord", "plan/cords", "plan/casings", "plan/cord_rules"},
    "an outline": {"source/outline_reading", "forms/outline_garment"},
    "darts": {"source/dart_reading", "forms/dart_places", "program/dart_steps"},
    "short rows": {"source/short_row_reading", "forms/bust", "forms/tail",
                   "program/short_row_steps"},
    "a collar": {"source/collar_reading", "plan/collars", "shape/shoulders"},
    "a mitre": {"plan/mitres", "program/bands/mitre"},
    "a facing of another fabric": {"source/facing_reading", "plan/facings"},
    "rows along its edge": {"source/lengthwise_reading"},
    "a hem": {"source/hem", "program/hems"},
    "a rib": {"program/rib"},
    "a crown": {"source/crown"},
    "a crown in quarters": {"program/quarters"},
    "an opening": {"program/halves", "program/held_neck"},
    "shaping that is asked for": {"source/convention_reading", "source/slope_reading"},
    "a stitch chart": {"source/stitch_chart_reading", "forms/charted", "plan/chart_sense"},
    "a garment": {"source/garment_reading", "plan/all_sizes", "program/piece_program"},
    "a size chart": {"source/size_chart"},
    "a band": {"source/band_reading", "plan/all_bands"},
    "an edge": {"source/edge_reading"},
    "notes at its steps": {"source/designer_note_reading"},
    "own words": {"source/own_words"},
    "entries of a shared file": {"source/shared"}}
"""The modules of parts that few patterns have: those that read them, plan them and knit them."""


@pytest.mark.parametrize("slug, parts", [
    ("practice-band", {"a band", "an edge"}),
    ("rope-ladder-rug", {"a garment", "a stitch chart"}),
    ("fog-bank-shawl", {"a garment", "a size chart"}),
    ("halyard-hat", {"a garment", "a size chart", "a crown"})])
def test_a_check_imports_nothing_of_a_part_that_its_pattern_lacks(tmp_path, slug, parts):
    found = {name.removeprefix("walebook.").replace(".", "/")
             for name in loaded(a_check(collection(tmp_path, slug)))}
    assert set[str]().union(*OF_PARTS.values()) <= set(MODULES)
    assert {part for part, modules in OF_PARTS.items() if modules & found} == parts
    assert set[str]().union(*(OF_PARTS[part] for part in parts)) <= found


@pytest.mark.parametrize("notes, more", [
    ("Notes by *Wren*.\n", set()),
    ("Notes by [*Wren*](../../techniques/index.html).\n", {"markdown"})])
def test_a_check_of_notes_with_links_imports_markdown_besides(tmp_path, notes, more):
    root = collection(tmp_path, "practice-band", notes)
    found = loaded(a_check(root))
    assert strangers(found) == {"yaml"} | more
    assert not {name for name in found if name.startswith("walebook.pages")}


@given(st.text("*_`!()#>|-:/.&;@ \\ aw1\n\t\"'", max_size=60))
@settings(max_examples=examples(60), deadline=None)
def test_text_without_brackets_leads_nowhere(notes):
    """By Markdown itself, extensions and all."""
    html = markdown.markdown(notes + "\nhttps://a.w a@w.a", extensions=["tables", "sane_lists"])
    assert not re.search(r"<(a|img)\b", html)


def test_texts_become_pages_with_the_standard_library_and_yaml_alone(tmp_path):
    code = ("import sys\nsys.path.insert(0, '')\n"
            "from tests.laws.texts import texts_of, read_folder\n"
            "from pathlib import Path\n"
            "from walebook.pages.from_texts import make\n"
            f"made = make(texts_of(Path({str(tmp_path)!r}), 'tideline-hat'), "
            f"**read_folder(Path({str(tmp_path)!r})))\n"
            "assert len(made.pages) > 2 and made.counts\n")
    collection(tmp_path, "tideline-hat")
    assert strangers(loaded(code)) == {"yaml"}


def test_only_a_unit_that_the_trade_lacks_imports_pint():
    known = ("from walebook.core.units import UnitError, read_length, read_yarn_count\n"
             "read_length('24 ligne'), read_yarn_count('20/2 cotton')\n")
    assert not strangers(loaded(known))
    asked = known + "try: read_length('3 month')\nexcept UnitError: pass\n"
    assert "pint" in strangers(loaded(asked))
