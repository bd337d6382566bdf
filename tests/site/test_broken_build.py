"""What the build does with wrong or hostile sources: no half site, no script, no leak."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from playwright.sync_api import Page
from walebook_site.command import main

from tests.site.conftest import ROOT, build


@pytest.fixture
def project(tmp_path: Path) -> Path:
    """A small copy of the project with one pattern."""
    for name in ("mkdocs.yml", "hooks", "site_src"):
        source = ROOT / name
        if source.is_dir():  # compiled code may be written beside the sources while they are copied
            shutil.copytree(source, tmp_path / name,
                            ignore=shutil.ignore_patterns("__pycache__"))
        else:
            shutil.copy(source, tmp_path / name)
    for name in ("_beds", "practice-band"):
        shutil.copytree(ROOT / "patterns" / name, tmp_path / "patterns" / name)
    return tmp_path


def source_of(project: Path) -> Path:
    return project / "patterns" / "practice-band" / "pattern.yaml"


def test_an_error_leaves_the_old_site_whole(project: Path) -> None:
    assert build(project, project / "site").returncode == 0
    before = {p: p.read_bytes() for p in sorted((project / "site").rglob("*")) if p.is_file()}
    source = source_of(project)
    source.write_text(source.read_text().replace("pick_up: 3/4", "pikc_up: 3/4"))
    done = build(project, project / "site")
    assert done.returncode != 0
    assert "patterns/practice-band/pattern.yaml:" in done.stderr
    assert 'pick_up' in done.stderr and "Traceback" not in done.stderr
    assert before == {p: p.read_bytes() for p in sorted((project / "site").rglob("*"))
                      if p.is_file()}


def test_an_error_writes_no_new_site(project: Path) -> None:
    source_of(project).write_text("title: [\n")
    done = build(project, project / "site")
    assert done.returncode != 0
    assert done.stdout.strip().endswith(
        "The site was not built. 0 patterns knitted on the virtual bed in 0 sizes: 1 error, "
        "0 warnings, 0 cautions, 0 remarks. Not knitted: practice-band.")
    assert not (project / "site").exists()


def test_check_lists_every_pattern_and_says_so_by_its_exit(
        project: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", "--root", str(project)]) == 0
    other = project / "patterns" / "second"
    shutil.copytree(source_of(project).parent, other)
    source_of(project).write_text("title: [\n")
    (other / "pattern.yaml").write_bytes(b"title: caf\xe9\n")
    assert main(["check", "--root", str(project)]) == 1
    said = capsys.readouterr().out
    assert "patterns/practice-band/pattern.yaml:2:1: error, " in said
    assert "patterns/second/pattern.yaml:1:11: error, not-utf-8" in said
    assert said.endswith("Not knitted: practice-band, second.\n")


@pytest.mark.parametrize("left", [True, False])
def test_no_pattern_is_no_success(
        project: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str], left: bool) -> None:
    """An empty collection: a wrong folder, or a checkout that is not whole."""
    shutil.rmtree(project / "patterns" / "practice-band")
    if not left:
        shutil.rmtree(project / "patterns" / "_beds")
    for command in (["check"], ["pages", str(tmp_path / "plain")]):
        assert main([*command, "--root", str(project)]) == 1
        assert "patterns:1:1: error, no-patterns: " in capsys.readouterr().out
    assert not (tmp_path / "plain").exists()
    done = build(project, project / "site")
    assert done.returncode == 1 and "no-patterns" in done.stderr
    assert not (project / "site").exists()


def test_pages_can_be_written_without_a_site_builder(project: Path, tmp_path: Path) -> None:
    out = tmp_path / "plain"
    assert main(["pages", str(out), "--root", str(project)]) == 0
    assert (out / "patterns" / "practice-band" / "3-months.md").exists()
    assert (out / "patterns" / "practice-band" / "counts.json").exists()


HOSTILE = '"><script>alert(1)</script><img src=x onerror=alert(2)>'


def test_no_text_of_a_source_becomes_a_script(project: Path, phone: Page) -> None:
    source = source_of(project)
    text = source.read_text()
    for line in ("title", "designer", "licence"):
        old = next(x for x in text.splitlines() if x.startswith(f"{line}:"))
        text = text.replace(old, f"{line}: '{line} {HOSTILE}'", 1)
    text = text.replace("name: Lamplight Baby", f"name: 'Yarn {HOSTILE}'")
    source.write_text(text)
    (source.parent / "notes.md").write_text(
        "# Notes <script>alert(1)</script>\n\n<script>alert(3)</script>\n\n<b onclick=alert(4)>b"
        "</b>\n\n<iframe src='https://example.org'></iframe>\n")
    done = build(project, project / "site")
    assert done.returncode == 0, done.stderr
    alarms: list[str] = []
    phone.on("dialog", lambda box: (alarms.append(box.message), box.dismiss()))
    folder = project / "site" / "patterns" / "practice-band"
    for path in [project / "site" / "index.html", *sorted(folder.glob("*.html"))]:
        phone.goto(path.as_uri())
        for harm in ("script:not([type='application/json'])", "iframe", "[onerror]",
                     "a[href^='javascript']", "a[href^='data']"):
            assert phone.locator(f"article.md-content__inner {harm}").count() == 0
    assert alarms == []


def test_a_picture_outside_the_folder_is_not_published(project: Path) -> None:
    secret = project / "secret.png"
    secret.write_bytes(b"\x89PNG secret")
    (source_of(project).parent / "front.png").symlink_to(secret)
    source = source_of(project)
    source.write_text(source.read_text() + "pictures:\n  - {file: front.png, alt: A front}\n")
    done = build(project, project / "site")
    assert done.returncode != 0
    assert "front.png" in done.stderr
