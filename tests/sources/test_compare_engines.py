"""`walebook compare --engine`: what another engine makes of the same sources.

The other engine is ours with one known change: it rounds down where ours rounds to the nearest.
A button of 16 mm over stitches of 3 1/3 mm takes 4.8 of them: 5 by ours and 4 by the other, and a
hole has one stitch less (the README's band).
"""

from __future__ import annotations

import json
import os
import shutil
import subprocess
from pathlib import Path

import pytest
from harbour_store import BAND, SLUG, counts, write
from walebook_site.command import main

ROOT = Path(__file__).parents[2]
NEAREST = "return max(0, (2 * figure.numerator + figure.denominator) // (2 * figure.denominator))"
DOWN = "return max(0, figure.numerator // figure.denominator)"


@pytest.fixture
def store(tmp_path: Path) -> Path:
    write(tmp_path / "store", BAND)
    return tmp_path / "store"


@pytest.fixture
def old(tmp_path: Path) -> Path:
    """A copy of the engine."""
    for name in ("engine", "hooks"):
        shutil.copytree(ROOT / name, tmp_path / "old" / name)  # what is compiled as well
    return tmp_path / "old"


def compared(capsys: pytest.CaptureFixture[str], root: Path, old: Path) -> tuple[int, dict]:
    code = main(["compare", "--engine", str(old), "--json", "--root", str(root)])
    return code, json.loads(capsys.readouterr().out)["patterns"][0]


def test_an_engine_that_rounds_otherwise_is_seen(store, old, capsys):
    module = old / "engine" / "core" / "counts.py"
    text = module.read_text(encoding="utf-8")
    assert NEAREST in text
    module.write_text(text.replace(NEAREST, DOWN), encoding="utf-8")
    code, report = compared(capsys, store, old)
    found = counts(report)
    assert (code, report["slug"], report["inputs"], report["by_engine"]) == (1, SLUG, [], True)
    for size in "SM":
        assert found[size, "hole_stitches"] == ("3 stitches", "4 stitches", ())
        assert found[size, "closing_loops"] == ("4 loops", "5 loops", ())
        assert not {(size, "edge_rows"), (size, "band_stitches")} & set(found)
    assert [c for c in report["changes"] if c["kind"] == "steps" and c["steps"]]
    main(["compare", "--engine", str(old), "--root", str(store)])
    assert "Because of the engine:" in capsys.readouterr().out


def test_a_recorded_pattern_is_compared_as_well(store, old, capsys, monkeypatch):
    """Its record is of one engine's counts: the other side was an error, and nothing compared."""
    monkeypatch.setenv("WALEBOOK_CACHE", str(store.parent / "cache"))
    assert main(["record", SLUG, "--root", str(store)]) == 0
    module = old / "engine" / "core" / "counts.py"
    text = module.read_text(encoding="utf-8")
    module.write_text(text.replace(NEAREST, DOWN), encoding="utf-8")
    capsys.readouterr()
    code, report = compared(capsys, store, old)
    assert (code, report["state"]) == (1, "changed")
    assert counts(report)["M", "hole_stitches"] == ("3 stitches", "4 stitches", ())
    assert not [one for one in report["changes"] if one["kind"] == "findings"]
    assert (store / "patterns" / SLUG / "published.json").is_file()


def test_the_same_engine_makes_the_same(store, old, capsys):
    """A source with an error is not knitted by either; the other pattern is."""
    write(store, BAND.replace("pick_up: 3/4", "pick_up: many"), "quay-front")
    assert main(["compare", "--engine", str(old), "--json", "--root", str(store)]) == 3
    first, second = json.loads(capsys.readouterr().out)["patterns"]
    assert (first["state"], first["changes"]) == ("same", [])
    assert (second["state"], second["changes"]) == ("not knitted on either side", [])


def test_an_engine_that_does_not_run_is_said(store, old, capsys):
    (old / "engine" / "core" / "counts.py").write_text("raise RuntimeError('adrift')\n")
    assert main(["compare", "--engine", str(old), "--root", str(store)]) == 3
    assert "Nothing was compared: the" in capsys.readouterr().out


def test_a_folder_without_an_engine_is_said(store, capsys):
    assert main(["compare", "--engine", str(store), "--root", str(store)]) == 3
    assert "there is no engine in" in capsys.readouterr().out


def test_states_are_not_named_beside_an_engine(store, capsys):
    with pytest.raises(SystemExit) as ended:
        main(["compare", "HEAD", "--engine", "HEAD", "--root", str(store)])
    assert ended.value.code == 2


@pytest.mark.parametrize(("commits", "base", "said"), [
    (1, "", "Not compared with a former engine: BASE is not set, and there is no commit before "
            "this one.\n"),
    (2, "", "compared {before}\n"), (1, "main", "compared main\n"), (2, "main", "compared main\n")])
def test_ci_compares_with_the_commit_before(tmp_path, commits, base, said):
    """Where BASE names another, with that; then it runs the tests in each case."""
    (tmp_path / ".ci").mkdir()
    shutil.copy(ROOT / ".ci" / "run", tmp_path / ".ci" / "run")
    (tmp_path / ".ci" / "compared").write_text('echo "compared $1"\n')
    (tmp_path / ".ci" / "test").write_text("echo tested\n")
    git(tmp_path, "init", "-q")
    for number in range(commits):
        git(tmp_path, "commit", "-q", "--allow-empty", "-m", f"{number}")
    before = git(tmp_path, "rev-parse", "HEAD~1") if commits > 1 else ""
    done = subprocess.run(["sh", ".ci/run"], cwd=tmp_path, capture_output=True, text=True,
                          env=os.environ | {"BASE": base}, check=True)
    assert done.stdout == said.format(before=before) + "tested\n"


def git(folder: Path, *words: str) -> str:
    who = ("-c", "user.name=A", "-c", "user.email=a@example.org")
    return subprocess.run(["git", *who, *words], cwd=folder, capture_output=True, text=True,
                          check=True).stdout.strip()
