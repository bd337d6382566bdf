"""A designer's own collection: begun by the command, built by the plugin, overridden by her files.

What must come out is the promise of README.md, "A collection of your own". The rules of a wheel
are those of the packaging standard that setuptools follows.
"""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
import tomllib
import zipfile
from collections.abc import Iterator
from pathlib import Path
from urllib.error import URLError
from urllib.request import urlopen

import pytest
import yaml
from mkdocs.config import load_config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import Abort
from pypdf import PdfReader
from setuptools.glob import glob
from walebook_site.command import main
from walebook_site.shipped import is_collection

from tests.site.declared import entry_points, environment
from tests.site.serving import WITH_RUNTIME

ROOT = Path(__file__).parents[2]
DECLARED = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
DATA = ("patterns/_beds", "patterns/_sizes", "site_src")


def begun(folder: Path) -> Path:
    """A new collection in a folder."""
    assert main(["new", str(folder), "--designer", "Wren Ashdown", "--paper", "Letter",
                 "--units", "inches"]) == 0
    return folder


@pytest.fixture
def collection(tmp_path: Path) -> Path:
    return begun(tmp_path / "lantern-lane")


@pytest.fixture(scope="module")
def declared() -> str:
    """A folder that tells Python of the plugin as an installed package does."""
    return entry_points()


@pytest.fixture
def known(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.syspath_prepend(entry_points())


def built(collection: Path) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "mkdocs", "build"], cwd=collection, capture_output=True, text=True,
        env=environment(), check=False)


def test_a_new_collection_holds_little_and_is_sound(
        collection: Path, capsys: pytest.CaptureFixture[str]) -> None:
    files = sorted(path.relative_to(collection).as_posix()
                   for path in collection.rglob("*") if path.is_file())
    assert files == [".ci/build", ".ci/compare", ".gitignore", "README.md", "mkdocs.yml",
                     "patterns/collection.yaml", "patterns/first-band/notes.md",
                     "patterns/first-band/pattern.yaml", "requirements.txt"]
    assert main(["check", "--root", str(collection)]) == 0
    assert "1 pattern knitted on the virtual bed in 2 sizes: 0 errors, 0 warnings" in (
        capsys.readouterr().out)
    assert main(["check", "--root", str(collection), "--form", "lines"]) == 0
    told = [line for line in capsys.readouterr().out.splitlines() if "remark" in line]
    assert told and all(len(line.split()) <= 25 for line in told)  # short, as a remark should be
    assert "site_name: \"Lantern Lane\"" in (collection / "mkdocs.yml").read_text()
    for script in (".ci/build", ".ci/compare"):
        assert subprocess.run(["sh", "-n", script], cwd=collection, check=False).returncode == 0


def test_a_script_that_finds_no_wheel_says_where_to_put_it(
        collection: Path, tmp_path: Path) -> None:
    stand_in = tmp_path / "bin" / "python3"  # an environment that installs nothing
    stand_in.parent.mkdir()
    stand_in.write_text("#!/bin/sh\nmkdir -p .venv/bin\ncp /bin/false .venv/bin/python\n")
    stand_in.chmod(0o755)
    done = subprocess.run(
        ["sh", ".ci/build"], cwd=collection, capture_output=True, text=True, check=False,
        env={**os.environ, "PATH": f"{stand_in.parent}:{os.environ['PATH']}"})
    assert done.returncode == 1 and "into the folder wheels/" in done.stderr


def test_a_folder_with_files_becomes_no_collection(
        tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "letter.txt").write_text("Dear")
    assert main(["new", str(tmp_path)]) == 1
    assert f"{tmp_path} holds files already (letter.txt)" in capsys.readouterr().out
    assert [path.name for path in tmp_path.iterdir()] == ["letter.txt"]


def test_the_plugin_builds_it_with_our_parts_and_her_own(collection: Path) -> None:
    own = collection / "pages"
    (own / "assets").mkdir(parents=True)
    (own / "about.md").write_text("# About these patterns\n\nHello.\n")
    (own / "abbreviations.md").write_text("# My abbreviations\n")
    (own / "assets" / "base.css").write_text(".of-her-own { color: red; }\n")
    notes = collection / "patterns" / "first-band" / "notes.md"
    notes.write_text("See [blocking](../../techniques/blocking.html), [me](../../about.html).\n")
    done = built(collection)
    assert done.returncode == 0, done.stderr
    site = collection / "site"
    home = (site / "index.html").read_text()
    assert "Lantern Lane" in home and 'href="about.html"' in home and "First band" in home
    assert "My abbreviations" in (site / "abbreviations.html").read_text()
    assert (site / "techniques" / "blocking.html").is_file() and (site / "sw.js").is_file()
    assert (site / "search" / "search_index.js").is_file()
    styles = "".join(path.read_text() for path in (site / "assets").glob("walebook.*.css"))
    assert ".of-her-own" in styles and _page_size(site) == "letter"
    assert not list(site.rglob("*.yaml")) and not (site / "patterns" / "_beds").exists()
    size = (site / "patterns" / "first-band" / "s.html").read_text()
    assert re.search(r"[\d¼½¾]\sin\s\([\d.]+\scm\)", size)
    assert not re.search(r"\d cm \([\d¼½¾⅛⅜⅝⅞]+ in\)", size)
    assert '<html lang="en" ' in size[:600]


def test_a_site_without_the_pages_for_designers(collection: Path) -> None:
    settings = collection / "mkdocs.yml"
    settings.write_text(settings.read_text().replace(
        "for_designers: true", "for_designers: false"))
    (collection / "pages" / "guides").mkdir(parents=True)
    (collection / "pages" / "guides" / "selling.md").write_text("# How I sell\n")
    done = built(collection)
    assert done.returncode == 0, done.stderr
    site = collection / "site"
    assert not (site / "source.html").exists() and not (site / "first-pattern.html").exists()
    assert [path.name for path in (site / "guides").iterdir()] == ["selling.html"]
    for page in site.rglob("*.html"):
        assert not re.search(r'href="[^":]*\b(?:source|first-pattern|publishing)\.html',
                             page.read_text()), page
    assert "See a hem." in re.sub("<[^>]+>", "", (site / "bands" / "hung-hem.html").read_text())
    assert 'href="guides/selling.html"' in (site / "index.html").read_text()
    assert "First pattern" not in (site / "search" / "search_index.js").read_text()


@pytest.mark.long
def test_a_pdf_has_the_paper_that_is_asked_for(collection: Path) -> None:
    """Letter is 8 1/2 by 11 in (ANSI/ASME Y14.1, size A), 72 points to the inch (ISO 32000-1)."""
    settings = collection / "mkdocs.yml"
    settings.write_text(settings.read_text().replace("pdf: false", "pdf: true"))
    assert built(collection).returncode == 0
    box = PdfReader(collection / "site" / "patterns" / "first-band" / "s.pdf").pages[0].mediabox
    assert [round(float(box.width)), round(float(box.height))] == [612, 792]


def _page_size(site: Path) -> str:
    """The size of the paper as a page's style sheets end up with: the last that says one."""
    page = (site / "patterns" / "first-band" / "s.html").read_text()
    styles = [(site / "assets" / Path(name).name).read_text() for name in
              re.findall(r'<link rel="stylesheet" href="([^"]+)"', page)]
    return re.findall(r"@page\s*{\s*size:\s*(\w+)", "\n".join(styles))[-1]


def test_a_link_to_no_page_of_hers_or_ours_is_an_error(
        collection: Path, capsys: pytest.CaptureFixture[str]) -> None:
    notes = collection / "patterns" / "first-band" / "notes.md"
    notes.write_text("See [blocking](../../techniques/blokcing.html).\n")
    assert main(["check", "--root", str(collection)]) == 1
    assert "blokcing" in capsys.readouterr().out


def test_a_bed_and_a_chart_of_hers_take_the_place_of_ours(
        collection: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["parts", "--copy", "_beds/standard.yaml", "--root", str(collection)]) == 0
    bed = collection / "patterns" / "_beds" / "standard.yaml"
    bed.write_text(bed.read_text().replace("needles: 200", "needles: 20"))
    assert main(["check", "--root", str(collection)]) == 1
    told = capsys.readouterr().out
    assert "needles" in told and "20" in told
    main(["parts", "--root", str(collection)])
    assert "yours  _beds/standard.yaml  (patterns/_beds/standard.yaml, in place of ours)" in (
        lines := capsys.readouterr().out.splitlines())
    assert "ours   _sizes/women.yaml" in lines and "ours   techniques/blocking.md" in lines


HERS = {  # her file, the name of the part, whether it takes the place of ours
    "pages/techniques/blocking.md": ("techniques/blocking.md", True),
    "pages/about.md": ("about.md", False),
    "pages/assets/base.css": ("assets/base.css", True),
    "pages/assets/keep.js": ("assets/keep.js", True),
    "pages/assets/mine.css": ("assets/mine.css", False),
    "patterns/_beds/fine.yaml": ("_beds/fine.yaml", True),
    "patterns/_beds/loft.yaml": ("_beds/loft.yaml", False),
    "patterns/_sizes/women.yaml": ("_sizes/women.yaml", True),
    "patterns/_sizes/quay.yaml": ("_sizes/quay.yaml", False),
}


def test_parts_says_of_each_kind_which_are_hers_and_which_ours(
        collection: Path, capsys: pytest.CaptureFixture[str]) -> None:
    for name in HERS:
        (collection / name).parent.mkdir(parents=True, exist_ok=True)
        (collection / name).write_text("# mine\n")
    (collection / "pages" / ".notes").write_text("no part of the site\n")
    capsys.readouterr()
    assert main(["parts", "--root", str(collection)]) == 0
    lines = capsys.readouterr().out.splitlines()
    assert all(line.startswith("yours") for line in lines[:len(HERS)])
    assert {line for line in lines if line.startswith("yours")} == {
        f"yours  {name}  ({own}, {'in place of ours' if instead else 'a further one'})"
        for own, (name, instead) in HERS.items()}
    ours = {path.removeprefix("patterns/").removeprefix("site_src/") for path in parts()
            if not any(part.startswith(".") for part in Path(path).parts)}
    replaced = {name for name, instead in HERS.values() if instead}
    assert {line for line in lines if line.startswith("ours")} == {
        f"ours   {name}" for name in ours - replaced}


def test_the_demo_is_a_collection_by_the_plugin() -> None:
    """Its settings are its own name and folders; the rest comes from the plugin."""
    assert is_collection(ROOT)
    said = yaml.safe_load((ROOT / "mkdocs.yml").read_text(encoding="utf-8"))
    assert said["plugins"] == ["walebook"]
    assert said.keys() == {"site_name", "site_url", "docs_dir", "site_dir", "strict", "plugins"}


@pytest.mark.usefixtures("known")
def test_the_demo_with_the_runtime_differs_in_two_settings_alone() -> None:
    """They are those of a new collection, off, in the one, and on in the other."""
    def settings(name: str) -> tuple[dict[str, object], dict[str, object]]:
        config = load_config(str(ROOT / name))
        rest = {key: value for key, value in config.items()
                if key not in ("plugins", "config_file_path")}
        return dict(config.plugins["walebook"].config), rest | {"plugins": list(config.plugins)}
    (before, plain), (after, whole) = settings("mkdocs.yml"), settings(WITH_RUNTIME)
    assert {key for key in plain if plain[key] != whole[key]} == set()
    assert {key for key in before if before[key] != after[key]} == {"my_gauge", "try_it"}
    assert after["my_gauge"] is after["try_it"] is True


def test_the_readme_says_how_the_demo_is_built_with_the_runtime() -> None:
    """And the build command hands on what is named behind it."""
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    commands = f"```sh\n.venv/bin/walebook runtime\nsh .ci/build --config-file {WITH_RUNTIME}\n"
    assert commands in text and text.index("## Two commands") < text.index(commands)
    assert 'build --strict "$@"\n' in (ROOT / ".ci" / "build").read_text(encoding="utf-8")


def test_the_parts_of_this_repository_are_all_ours(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["parts", "--root", str(ROOT)]) == 0
    assert "yours" not in capsys.readouterr().out


REFUSED = {
    "pdf: perhaps": "Option 'pdf': found 'perhaps', expected true or false",
    "paper: A3": "Option 'paper': found 'A3', expected A4 or Letter",
    "pfd: true": "Option 'pfd': there is no such setting. Did you mean pdf?",
    "colour: true": "there is no such setting. There are single_files, whole_pattern, pdf, "
                    "preview_picture, my_gauge, try_it, for_designers and paper",
}


@pytest.mark.parametrize("setting", REFUSED)
@pytest.mark.usefixtures("known")
def test_a_wrong_setting_is_refused_by_the_schema(collection: Path, setting: str,
                                                  caplog: pytest.LogCaptureFixture) -> None:
    settings = collection / "mkdocs.yml"
    settings.write_text(f"site_name: x\ndocs_dir: patterns\nstrict: true\n"
                        f"plugins:\n  - walebook: {{{setting}}}\n")
    with pytest.raises(Abort):
        load_config(str(settings))
    assert REFUSED[setting].lower() in caplog.text.lower()


CLASHES = {
    "theme: readthedocs": "names the theme readthedocs",
    "use_directory_urls: true": "must open from disk",
    "extra: {walebook: {pdf: true}}": "under `extra`",
    f"hooks: ['{(ROOT / 'hooks' / 'patterns.py').as_posix()}']": "under `hooks`",
}


@pytest.mark.parametrize("setting", CLASHES)
@pytest.mark.usefixtures("known")
def test_settings_that_cannot_hold_together_are_refused_in_words(
        collection: Path, setting: str) -> None:
    settings = collection / "mkdocs.yml"
    settings.write_text(f"site_name: x\ndocs_dir: patterns\nplugins: [walebook]\n{setting}\n")
    config: MkDocsConfig = load_config(str(settings))
    config.plugins.on_startup(command="serve", dirty=False)
    with pytest.raises(Abort, match=CLASHES[setting]):
        config.plugins.on_config(config)


@pytest.mark.usefixtures("known")
def test_the_folder_of_own_pages_is_watched_before_it_is_there(collection: Path) -> None:
    """Made while the preview ran, it was not followed until that was started again."""
    settings = collection / "mkdocs.yml"
    settings.write_text("site_name: x\ndocs_dir: patterns\nplugins: [walebook]\n")
    config: MkDocsConfig = load_config(str(settings))
    config.plugins.on_startup(command="serve", dirty=False)
    assert not (collection / "pages").exists()
    assert str(collection / "pages") in config.plugins.on_config(config).watch


def test_a_part_whose_name_is_misspelt_is_not_copied(
        collection: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["parts", "--root", str(collection), "--copy", "techniques/blokking.md"]) == 1
    assert "Did you mean techniques/blocking.md?" in capsys.readouterr().out


def test_settings_without_the_plugin_build_no_other_site(
        tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "patterns").mkdir()
    (tmp_path / "mkdocs.yml").write_text("site_name: x\ndocs_dir: patterns\n")
    assert main(["build", "--root", str(tmp_path)]) == 1
    assert "does not name the plugin walebook" in capsys.readouterr().out
    assert not (tmp_path / "site").exists()


def parts() -> set[str]:
    """The files of the repository that every collection needs, as the folders have them."""
    return {path.relative_to(ROOT).as_posix() for name in DATA
            for path in ([ROOT / name] if (ROOT / name).is_file() else (ROOT / name).rglob("*"))
            if path.is_file()}


def test_every_part_and_every_module_is_named_for_the_wheel() -> None:
    said = DECLARED["tool"]["setuptools"]
    named = {Path(path).as_posix() for pattern in said["package-data"]["walebook_site.parts"]
             for path in glob(str(ROOT / pattern), recursive=True) if Path(path).is_file()}
    assert {ROOT.joinpath(part).as_posix() for part in parts()} == named
    folders = {path.parent.relative_to(ROOT).as_posix()
               for top in ("engine", "hooks") for path in (ROOT / top).rglob("*.py")}
    assert folders | {"."} == set(said["package-dir"].values())
    assert set(said["packages"]) == set(said["package-dir"])


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The wheel, built from a copy of the sources by the backend that pyproject.toml names."""
    sources: Path = tmp_path_factory.mktemp("sources")
    for name in ("engine", "hooks", "site_src", "patterns"):
        shutil.copytree(ROOT / name, sources / name, ignore=shutil.ignore_patterns("__pycache__"))
    for name in ("pyproject.toml", "README.md", "mkdocs.yml"):
        shutil.copy(ROOT / name, sources)
    subprocess.run([sys.executable, "-m", "pip", "wheel", "--quiet", "--no-deps", "--no-index",
                    "--no-build-isolation", "--wheel-dir", str(sources / "out"), str(sources)],
                   check=True)
    (made,) = (sources / "out").glob("*.whl")
    return made


@pytest.fixture(scope="module")
def installed(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The Python of an environment with nothing but the wheel and what it needs.

    What it needs is read from this environment, where no module of ours can be found so: an
    editable installation is found by a file that is not read there.
    """
    folder: Path = tmp_path_factory.mktemp("empty") / "venv"
    subprocess.run([sys.executable, "-m", "venv", "--without-pip", str(folder)], check=True)
    python = folder / "bin" / "python"
    subprocess.run([sys.executable, "-m", "pip", "--python", str(python), "install", "--quiet",
                    "--no-deps", "--no-index", str(wheel)], check=True)
    (packages,) = folder.glob("lib/python*/site-packages")
    needed = Path(pytest.__file__).parents[1]
    (packages / "needed.pth").write_text(f"{needed}\n")
    return python


@pytest.mark.long
def test_the_wheel_holds_every_part_and_licence(wheel: Path) -> None:
    names = set(zipfile.ZipFile(wheel).namelist())
    assert {f"walebook_site/parts/{part}" for part in parts()} <= names
    assert "walebook_site/parts/site_src/assets/fonts/source-sans-3.LICENSE.txt" in names
    assert "walebook_site/NOTICES.md" in names
    assert [name for name in names if ".dist-info/" in name and name.endswith("NOTICES.md")]
    assert not [name for name in names if "/parts/patterns/" in name
                and "/_beds/" not in name and "/_sizes/" not in name]
    # What packs the runtime is run by `walebook runtime`, and is no module of a package.
    assert [name for name in names if "/parts/" in name and name.endswith(".py")] == [
        "walebook_site/parts/site_src/.runtime/pack.py",
        "walebook_site/parts/site_src/.runtime/quick_imports.py",
        "walebook_site/parts/site_src/.runtime/squeeze.py"]


@pytest.mark.long
def test_the_installed_wheel_begins_checks_builds_and_serves_a_collection(
        installed: Path, tmp_path: Path) -> None:
    def run(*words: str, at: Path = tmp_path) -> subprocess.CompletedProcess[str]:
        return subprocess.run([str(installed), *words], cwd=at, capture_output=True, text=True,
                              check=False)

    where = run("-c", "import walebook, walebook_site; print(walebook.__file__)")
    assert str(installed.parents[1]) in where.stdout, where.stderr
    command = ("-m", "walebook_site.command")
    assert (installed.parent / "walebook").is_file()
    assert run(*command, "new", "lantern-lane").returncode == 0
    home = tmp_path / "lantern-lane"
    assert run(*command, "check", at=home).returncode == 0
    assert run(*command, "check", "first-band", "--json", at=home).returncode == 0
    assert "Example" in run(*command, "keys", "pick_up", at=home).stdout
    done = run(*command, "build", at=home)
    assert done.returncode == 0, done.stderr
    assert "Lantern Lane" in (home / "site" / "index.html").read_text()
    assert (home / "site" / "patterns" / "first-band" / "m.html").is_file()
    for address in served(installed, home):
        with urlopen(f"{address}/patterns/first-band/s.html", timeout=30) as page:
            assert b"wb-steps" in page.read()


def served(python: Path, home: Path) -> Iterator[str]:
    """The address of a preview of the collection, which ends behind it."""
    address = "127.0.0.1:8431"
    serving = subprocess.Popen([str(python), "-m", "walebook_site.command", "serve", "--at",
                                address], cwd=home, stderr=subprocess.PIPE, text=True)
    try:
        assert serving.stderr
        said = next((line for line in serving.stderr if "Serving on" in line), "")
        assert said, "the preview did not begin"
        yield f"http://{address}"
    except URLError as fault:  # pragma: no cover  says where it failed
        raise AssertionError(address) from fault
    finally:
        serving.terminate()
        serving.wait(20)
