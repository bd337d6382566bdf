"""Every code of the table is given: for each there is a source that earns it, through the command.

`codes/` holds a source for each code, called by it; what is no single source (files that are none,
charts, notes) is made here. One run of `walebook check` reads them all.
"""

from __future__ import annotations

import re
import shutil
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest
from reading import HERE, SMALLEST, png
from walebook.bed.run import run
from walebook.core.codes import CODES, REMARK_CODES
from walebook.proof import proof
from walebook.shape.garment import Join
from walebook_site.command import main

ROOT = Path(__file__).parents[2]
# Guards of the engine's own promises: no source earns them, and none should. A spoiled engine does.
OUR_OWN = ("bed-refuses", "join-open", "former-key")  # no key has a former name today
FINDING = re.compile(r"patterns/([^/\n]+)/[^:\n]+:\d+:\d+: "
                     r"(error|warning|caution|remark), ([a-z0-9-]+)")
ALSO = re.compile(r"\(also in ([^)]+)\)")
OWN_CHART = (HERE / "own-sizes.yaml").read_text(encoding="utf-8")
CUT = (HERE / "codes" / "missing-measurement.yaml").read_text(encoding="utf-8")
WITH_OWN_CHART = CUT.replace("[76, 80]", "[S, M]").replace("european-women", "own")
WITH_PICTURE = SMALLEST.replace("yarns:", "pictures: [{file: front.png, alt: A band}]\nyarns:", 1)


def source(folder: Path, text: str = SMALLEST) -> None:
    folder.mkdir(exist_ok=True)
    (folder / "pattern.yaml").write_text(text, encoding="utf-8")


def noted(folder: Path, notes: str) -> None:
    source(folder)
    (folder / "notes.md").write_text(notes, encoding="utf-8")


def charted(folder: Path, old: str, new: str) -> None:
    assert old in OWN_CHART
    source(folder, WITH_OWN_CHART)
    (folder / "chart.yaml").write_text(OWN_CHART.replace(old, new), encoding="utf-8")


def no_utf_8(folder: Path) -> None:
    folder.mkdir()
    (folder / "pattern.yaml").write_bytes(b"title: caf\xe9\n")


def led_outside(folder: Path) -> None:
    source(folder)
    (folder / "notes.md").symlink_to(ROOT / "README.md")


def led_nowhere(folder: Path) -> None:
    source(folder)
    (folder / "notes.md").symlink_to("nowhere.md")


def no_picture(folder: Path) -> None:
    source(folder, WITH_PICTURE)
    (folder / "front.png").write_bytes(b"no picture")


def a_folder_for_notes(folder: Path) -> None:
    source(folder)
    (folder / "notes.md").mkdir()


def recorded(folder: Path, source_version: str, *, spoiled: bool = False) -> None:
    """A record of version 1.2.0 with another count than the source makes."""
    source(folder, SMALLEST)
    assert main(["record", folder.name, "--root", str(folder.parents[1])]) == 0
    record = folder / "published.json"
    if spoiled:
        record.write_text(record.read_text(encoding="utf-8").replace("rows", "row", 1),
                          encoding="utf-8")
    version = re.search(r"^version: .*$", SMALLEST, re.MULTILINE)
    source(folder, SMALLEST.replace(version[0], f"version: {source_version}").replace(
        "pick_up: 3/4", "pick_up: 2/3"))


def corrected_for_all(folder: Path) -> None:
    """A second size whose rows moved since its record, and a correction that names no size."""
    two = SMALLEST.replace("sizes: [one size]", "sizes: [S, M]")
    source(folder, two)
    assert main(["record", folder.name, "--root", str(folder.parents[1])]) == 0
    source(folder, two.replace("version: 1\n", "version: 9.0.0\n").replace(
        "rows: 52", "rows: {S: 52, M: 60}")
        + 'corrections: [{date: 2026-10-30, version: "9.0.0", text: Longer.}]\n')


def of_your_wool(folder: Path) -> None:
    """A published pattern in the yarn of a new collection."""
    named = SMALLEST.replace("Harbour Bulky", "Your Wool")
    assert named != SMALLEST
    source(folder, named)
    assert main(["record", folder.name, "--root", str(folder.parents[1])]) == 0


def recorded_elsewhere(folder: Path) -> None:
    recorded(folder, "1")
    record = folder / "published.json"
    record.write_text(record.read_text(encoding="utf-8").replace(
        f'"pattern": "{folder.name}"', '"pattern": "quay-band"'), encoding="utf-8")


# What is no single source: what makes the folder of each code.
MADE: dict[str, Callable[[Path], None]] = {
    "control-character": lambda folder: source(folder, "title: a\u2028b\n"),
    "too-large": lambda folder: source(folder, "# " + 300_000 * "x"),
    "not-utf-8": no_utf_8, "outside-folder": led_outside, "unreadable": led_nowhere,
    "same-title": source,  # as in the folders before it
    "not-a-file": a_folder_for_notes, "false-picture": no_picture,
    "no-source": lambda folder: folder.mkdir(),
    "picture-not-listed": lambda folder: noted(folder, "![front](front.png)"),
    "bad-link": lambda folder: noted(folder, "[here](/nowhere)"),
    "link-outside": lambda folder: noted(folder, "[there](https://example.org/wool)"),
    "bad-span": lambda folder: charted(folder, "81–86, M", "eighty, M"),
    "units-apart": lambda folder: charted(folder, "in: {S: 32–34", "in: {S: 42–44"),
    "bad-record": lambda folder: recorded(folder, "1", spoiled=True),
    "placeholder": of_your_wool,
    "renamed-folder": recorded_elsewhere,
    "count-moved": lambda folder: recorded(folder, "1"),
    "no-correction": lambda folder: recorded(folder, "2.0.0"),
    "correction-sizes": corrected_for_all,
    "version-rise": lambda folder: recorded(folder, "1.0.1"),
    "accepted-gone": lambda folder: source(
        folder, f"accepted: [chart-remark 01234567]\n{SMALLEST}"),
}
FOLDERS = {"folder-name": "Folder_Name"}  # the fault is the folder's own name
# The first has the root to itself; the second is of no folder (test_recorded.py).
ALONE = ("no-patterns", "gone-pattern")


@pytest.fixture(scope="module")
def given(tmp_path_factory: pytest.TempPathFactory) -> dict[str, set[str]]:
    """The codes that the command gives, by the folder they are given for."""
    root = tmp_path_factory.mktemp("codes")
    for shared in ("_beds", "_sizes"):
        shutil.copytree(ROOT / "patterns" / shared, root / "patterns" / shared)
    source(root / "patterns" / FOLDERS["folder-name"])
    for code in MADE:
        MADE[code](root / "patterns" / code)
    for path in (HERE / "codes").glob("*.yaml"):
        folder = root / "patterns" / path.stem
        source(folder, path.read_text(encoding="utf-8"))
        for name in ("front.png", "Front.png"):
            (folder / name).write_bytes(png())
        (folder / "neck.webp").write_bytes(b"RIFF\x0c\0\0\0WEBPVP8 \0\0\0\0")
    return findings_of(root)


def findings_of(root: Path) -> dict[str, set[str]]:
    with pytest.MonkeyPatch.context() as patch:
        said: list[str] = []
        patch.setattr("builtins.print", lambda *text, **_: said.append(" ".join(map(str, text))))
        assert main(["check", "--root", str(root)]) == 1
    found: dict[str, set[str]] = {}
    for block in "\n".join(said).split("\n\n"):
        if match := FINDING.match(block):
            also = ALSO.search(block)
            for folder in (match[1], *(also[1].split(", ") if also else ())):
                found.setdefault(folder, set()).add(match[3])
    return found


@pytest.mark.parametrize("code", [c for c in CODES if c not in (*OUR_OWN, *ALONE)])
def test_a_source_earns_it(code: str, given: dict[str, set[str]]) -> None:
    assert code in given.get(FOLDERS.get(code, code), set())


def test_an_empty_folder_earns_its_own(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "patterns").mkdir()
    assert main(["check", "--root", str(tmp_path)]) == 1
    assert "error, no-patterns" in capsys.readouterr().out


def test_no_source_stands_there_for_a_code_that_is_none() -> None:
    assert {path.stem for path in (HERE / "codes").glob("*.yaml")} | MADE.keys() | FOLDERS.keys() \
        | {*OUR_OWN, *ALONE} == set(CODES)


def test_only_remarks_are_called_remarks(given: dict[str, set[str]]) -> None:
    assert set(REMARK_CODES) <= set().union(*given.values())


def garments(tmp_path: Path) -> Path:
    for shared in ("_beds", "_sizes"):
        shutil.copytree(ROOT / "patterns" / shared, tmp_path / "patterns" / shared)
    source(tmp_path / "patterns" / "trial", CUT.replace("[76, 80]", "[M]").replace(
        "european-women", "women"))
    return tmp_path


def test_a_bed_that_refuses_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(proof, "run",
                        lambda program: replace(run(program), refusal="step 1: no"))
    assert "bed-refuses" in findings_of(garments(tmp_path))["trial"]


def test_a_join_that_does_not_close_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch
                                            ) -> None:
    monkeypatch.setattr(Join, "closes", property(lambda join: False))
    assert "join-open" in findings_of(garments(tmp_path))["trial"]
