"""The page of the versions of Walebook: what it names is there, and the tool says its version."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

import pytest
from walebook.source.keys.whole import TABLES
from walebook_site.command import main

ROOT = Path(__file__).parents[2]
PAGE = (ROOT / "site_src" / "guides" / "changelog.md").read_text(encoding="utf-8")
OURS = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]["version"]
ENTRIES = re.findall(r"^## ([0-9.]+) \{ #v([0-9-]+) \}$", PAGE, re.MULTILINE)


def numbers(version: str) -> tuple[int, ...]:
    return tuple(map(int, version.split(".")))


def test_the_newest_entry_is_this_version_and_the_tool_says_it(
        capsys: pytest.CaptureFixture[str]) -> None:
    versions = [version for version, _ in ENTRIES]
    assert versions[0] == OURS
    assert [version.replace(".", "-") for version in versions] == [name for _, name in ENTRIES]
    assert versions == sorted(versions, key=numbers, reverse=True)
    with pytest.raises(SystemExit) as end:
        main(["--version"])
    assert end.value.code == 0
    assert capsys.readouterr().out == f"walebook {OURS}\n"


def test_every_version_that_a_key_names_has_its_entry() -> None:
    """A key that was renamed is named with its former name, so that it is found by either."""
    keys = [key for table in TABLES.values() for key in table.keys.values()]
    assert {key.since for key in keys} - {""} <= {version for version, _ in ENTRIES}
    missing = [f"`{former}`" for key in keys for former in key.former
               if f"`{former}`" not in PAGE]
    assert missing == []


def test_every_command_that_the_page_names_is_there(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit):
        main(["--help"])
    commands = re.search(r"\{([\w,-]+)\}", capsys.readouterr().out)
    assert commands is not None
    named = set(re.findall(r"`walebook (\w[\w-]*)", PAGE))
    assert named and named <= set(commands[1].split(","))
