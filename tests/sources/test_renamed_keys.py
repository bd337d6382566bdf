"""A key that was renamed is still read, with a warning, and the command writes its new name."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from reading import BASE, messages, read
from walebook.source.keys.collection_keys import CollectionKeys
from walebook.source.keys.fabric_keys import FabricKeys
from walebook.source.keys.hole_keys import HoleKeys
from walebook.source.keys.key import Key, Keys
from walebook.source.keys.size_chart_keys import RowKeys
from walebook_site.command import main

OWN_CHART = (Path(__file__).parent / "own-sizes.yaml").read_text(encoding="utf-8")
OLD = BASE.replace("      number: {XS", "      how_many: {XS")
SAID = ('54:7: warning, former-key: found "how_many", the former name of a key; expected "number". '
        "Write number, or run walebook fix.")


def rename(patch: pytest.MonkeyPatch, table: type[Keys], key: Key[object], former: str) -> None:
    """Declare that a key had another name."""
    patch.setitem(table.keys, key.name, replace(key, former=(former,)))


@pytest.fixture(autouse=True)
def _renamed(monkeypatch: pytest.MonkeyPatch) -> None:
    rename(monkeypatch, HoleKeys, HoleKeys.number, "how_many")
    rename(monkeypatch, RowKeys, RowKeys.label, "called")
    rename(monkeypatch, FabricKeys, FabricKeys.dial, "tension")
    rename(monkeypatch, CollectionKeys, CollectionKeys.about, "blurb")


def test_it_is_read_with_a_warning() -> None:
    assert OLD != BASE
    pattern, _ = read(OLD)
    sound, _ = read(BASE)
    assert pattern is not None and sound is not None
    assert pattern.bands == sound.bands
    assert messages(OLD) == [SAID]


def test_a_check_warns_of_it_at_its_place(root: Path, capsys: pytest.CaptureFixture[str]) -> None:
    source = root / "patterns" / "trial" / "pattern.yaml"
    without = source.read_bytes().replace(
        b"pictures:\r\n  - {file: front.png, alt: The front band}\r\n", b"")
    source.write_bytes(without)
    assert main(["check", "--root", str(root)]) == 0
    said = capsys.readouterr().out
    assert ('patterns/trial/pattern.yaml:53:7: warning, former-key: found "how_many", the former '
            'name of a key; expected "number". Write number, or run walebook fix.') in said


def test_beside_its_new_name_the_old_one_is_unknown() -> None:
    both = BASE.replace("      number: {XS", "      how_many: 4\n      number: {XS")
    (found,) = messages(both)
    assert found.startswith('54:7: error, unknown-key: found the unknown key "how_many"')


@pytest.fixture
def root(tmp_path: Path) -> Path:
    folder = tmp_path / "patterns" / "trial"
    folder.mkdir(parents=True)
    lines = OLD.replace("how_many:", '"how_many" :').replace("\n", "\r\n")
    (folder / "pattern.yaml").write_bytes(b"\xef\xbb\xbf" + f"# how_many\r\n{lines}".encode())
    (folder / "chart.yaml").write_text(OWN_CHART.replace("label:", "called:"), encoding="utf-8")
    return tmp_path


def test_the_command_writes_the_new_name_and_nothing_else(
        root: Path, capsys: pytest.CaptureFixture[str]) -> None:
    before = (root / "patterns" / "trial" / "pattern.yaml").read_bytes()
    assert main(["fix", "--root", str(root)]) == 0
    after = (root / "patterns" / "trial" / "pattern.yaml").read_bytes()
    assert after == before.replace(b'"how_many"', b'"number"')
    assert (root / "patterns" / "trial" / "chart.yaml").read_text(encoding="utf-8") == OWN_CHART
    said = capsys.readouterr().out
    assert "patterns/trial/pattern.yaml:55:7: how_many is number now" in said
    assert said.endswith("2 keys renamed.\n")
    assert main(["fix", "--root", str(root)]) == 0
    assert capsys.readouterr().out == "0 keys renamed.\n"
    assert sorted(path.name for path in (root / "patterns" / "trial").iterdir()) == [
        "chart.yaml", "pattern.yaml"]


def test_a_source_that_cannot_be_read_is_left(root: Path) -> None:
    path = root / "patterns" / "trial" / "pattern.yaml"
    path.write_text("title: [how_many: 1\n", encoding="utf-8")
    assert main(["fix", "--root", str(root)]) == 0
    assert path.read_text(encoding="utf-8") == "title: [how_many: 1\n"


SHARED = ("# the tension of all\nfabrics:\n"
          "  body: {yarn: main, tension: 6}  # tension: measured twice\n")
SETTINGS = "title: Quay\n\n# blurb: is new\nblurb: 'blurb: as it is'\n"


def bytes_of(root: Path) -> dict[str, bytes]:
    return {path.relative_to(root).as_posix(): path.read_bytes()
            for path in sorted(root.rglob("*")) if path.is_file()}


def test_what_patterns_share_and_the_collection_are_rewritten_too(root: Path) -> None:
    (root / "patterns" / "_shared.yaml").write_text(SHARED, encoding="utf-8")
    (root / "patterns" / "collection.yaml").write_text(SETTINGS, encoding="utf-8")
    before = bytes_of(root)
    assert main(["fix", "--root", str(root)]) == 0
    after = bytes_of(root)
    assert after["patterns/_shared.yaml"] == SHARED.replace("{yarn: main, tension:",
                                                            "{yarn: main, dial:").encode()
    assert after["patterns/collection.yaml"] == SETTINGS.replace("\nblurb:", "\nabout:").encode()
    assert before.keys() == after.keys()


def test_it_can_show_what_it_would_write(root: Path, capsys: pytest.CaptureFixture[str]) -> None:
    before = bytes_of(root)
    assert main(["fix", "--show", "--root", str(root)]) == 0
    assert bytes_of(root) == before
    said = capsys.readouterr().out
    assert "patterns/trial/pattern.yaml:55:7: how_many is number now" in said
    assert said.endswith("2 keys to rename. Nothing was written.\n")


def test_its_former_name_is_still_the_command() -> None:
    assert main(["rename", "--root", str(Path(__file__).parents[2])]) == 0
