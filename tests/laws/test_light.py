"""What a check and the way from texts to pages import: nothing that they do not need."""

from __future__ import annotations

import json
import re
import shutil
import subprocess
import sys
from pathlib import Path

import markdown
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

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
        shutil.copytree(ROOT / "patterns" / folder, tmp_path / "patterns" / folder)
    # The pages' own code says what a published version is held to.
    (tmp_path / "patterns" / slug / "published.json").unlink(missing_ok=True)
    written = tmp_path / "patterns" / slug / "notes.md"
    written.unlink(missing_ok=True)
    if notes:
        written.write_text(notes, encoding="utf-8")
    shutil.copy(ROOT / "mkdocs.yml", tmp_path)
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
        "walebook.core", "walebook.core.problems", "walebook.source", "walebook.source.page_names",
        "walebook.source.pictures"}


@pytest.mark.parametrize("notes, more", [
    ("Notes by *Wren*.\n", set()),
    ("Notes by [*Wren*](../../techniques/index.html).\n", {"markdown"})])
def test_a_check_of_notes_with_links_imports_markdown_besides(tmp_path, notes, more):
    root = collection(tmp_path, "practice-band", notes)
    found = loaded(a_check(root))
    assert strangers(found) == {"yaml"} | more
    assert not {name for name in found if name.startswith("walebook.pages")}


@given(st.text("*_`!()#>|-:/.&;@ \\ aw1\n\t\"'", max_size=60))
@settings(max_examples=60, deadline=None)
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
