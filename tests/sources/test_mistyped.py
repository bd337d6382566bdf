"""Words behind `walebook` that mean nothing: each is answered with what was most likely meant."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from walebook_site.command import main
from walebook_site.command_line import parser_of

COMMANDS = re.search(r"\{([a-z,\s-]+)\}", parser_of("").format_usage())[1].split(",")


def answered(capsys: pytest.CaptureFixture[str], *words: str) -> str:
    """What the command says of a wrong call, which ends with 2."""
    with pytest.raises(SystemExit) as ended:
        main(words)
    assert ended.value.code == 2
    return capsys.readouterr().err


@pytest.mark.parametrize(("words", "said"), [
    (["chekc"], "walebook: error: there is no command chekc. Did you mean check?\n"),
    (["comapre", "v1"], "walebook: error: there is no command comapre. Did you mean compare?\n"),
    (["knit"], "walebook: error: there is no command knit. `walebook --help` lists all.\n"),
    (["check", "--jsn"], "--jsn means nothing behind walebook check. Did you mean --json?\n"),
    (["serve", "--port", "8017"],
     "--port means nothing behind walebook serve. Did you mean --at?\n"),
    (["serve", "--port=8017"],
     "--port=8017 means nothing behind walebook serve. Did you mean --at?\n"),
    (["check", "--port", "1"], "It takes --help, --form, --json, --quiet and --root.\n"),
    (["parts", "styles"], "styles means nothing behind walebook parts. It takes --help, --copy "
                          "and --root.\n")])
def test_a_mistyped_word_is_answered_with_the_right_one(
        capsys: pytest.CaptureFixture[str], words: list[str], said: str) -> None:
    assert answered(capsys, *words).endswith(said)


@pytest.mark.parametrize("command", COMMANDS)
def test_every_command_is_found_again_with_two_letters_exchanged(
        capsys: pytest.CaptureFixture[str], command: str) -> None:
    wrong = command[:-2] + command[-1] + command[-2]
    if wrong in COMMANDS or wrong == command:
        return
    assert f"Did you mean {command}?" in answered(capsys, wrong)


def test_no_command_is_answered_with_all_of_them(capsys: pytest.CaptureFixture[str]) -> None:
    said = answered(capsys)
    assert "list every finding of every pattern" in said
    assert said.endswith("walebook: error: no command was given\n")


def test_a_pattern_that_is_not_there_gets_no_list_of_commands(
        tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "patterns" / "pier-hat").mkdir(parents=True)
    assert answered(capsys, "check", "pier-hta", "--root", str(tmp_path)) == (
        "walebook: error: there is no pattern pier-hta in the folder patterns. Did you mean "
        "pier-hat?\n")


def test_no_collection_is_begun_inside_another(
        tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["new", str(tmp_path / "lantern-lane")]) == 0
    capsys.readouterr()
    for inner in ("harbour-lane", "patterns/harbour-lane"):
        assert main(["new", str(tmp_path / "lantern-lane" / inner)]) == 1
        assert capsys.readouterr().out == (
            f"No collection was begun: {tmp_path / 'lantern-lane'} is one already. Name a folder "
            "outside it. A new pattern is a folder in its patterns/.\n")
