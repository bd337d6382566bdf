"""How `walebook check` prints: by pattern, in the forms of editors and hosts, in colour or not.

The forms are held to their own papers: `file:line:column:` to what compilers write (common
practice, no source), SARIF to sections 3.13, 3.27 and 3.30 of the standard (OASIS, SARIF 2.1.0;
from memory), colour to the convention NO_COLOR (from memory).
"""

from __future__ import annotations

import json
import re
import shlex
import subprocess
import sys
from pathlib import Path
from typing import Any

import jsonschema
import pytest
import yaml
from reading import HERE
from walebook_site.command import main
from walebook_site.reporting import reported, wants_colour
from walebook_site.sources import collect

SMALLEST = (HERE / "smallest.yaml").read_text(encoding="utf-8")
WRONG = SMALLEST.replace("pick_up: 3/4", "pikc_up: 3/4")


@pytest.fixture
def root(tmp_path: Path) -> Path:
    """Two patterns: one sound, one with an error."""
    for slug, text in (("harbour-wall", SMALLEST), ("slack-tide", WRONG)):
        folder = tmp_path / "patterns" / slug
        folder.mkdir(parents=True)
        (folder / "pattern.yaml").write_text(text, encoding="utf-8")
    return tmp_path


def check(root: Path, capsys: pytest.CaptureFixture[str], *words: str) -> tuple[int, str]:
    code = main(["check", *words, "--root", str(root)])
    return code, capsys.readouterr().out


def test_one_pattern_is_checked_by_its_name(root: Path, capsys: pytest.CaptureFixture[str]
                                            ) -> None:
    code, told = check(root, capsys, "harbour-wall")
    assert code == 0 and "slack-tide" not in told
    assert told.splitlines()[-1].startswith("1 pattern knitted on the virtual bed in 1 size: ")
    code, told = check(root, capsys, "slack-tide")
    assert code == 1 and "patterns/harbour-wall" not in told and "pikc_up" in told


def test_a_name_that_no_pattern_has_is_a_wrong_call(root: Path,
                                                    capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as ended:
        main(["check", "slack-tid", "--root", str(root)])
    assert ended.value.code == 2
    assert "there is no pattern slack-tid in the folder patterns. Did you mean slack-tide?" in (
        capsys.readouterr().err)


def test_the_findings_end_with_what_each_pattern_has(root: Path,
                                                     capsys: pytest.CaptureFixture[str]) -> None:
    _, told = check(root, capsys)
    *blocks, last = told.rstrip("\n").split("\n\n")
    counted = dict(re.split(r"  +", line, maxsplit=1) for line in blocks[-1].splitlines())
    findings = [block.splitlines()[0] for block in blocks[:-1]]
    assert set(counted) == {"harbour-wall", "slack-tide"}
    for name, tally in counted.items():
        own = [line for line in findings if line.startswith(f"patterns/{name}/")]
        assert sum(map(int, re.findall(r"\d+", tally))) == len(own) > 0
    assert last.endswith("Not knitted: slack-tide.")


def test_where_one_pattern_is_wrong_no_page_is_written_and_that_is_said(
        root: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["pages", str(tmp_path / "out"), "--root", str(root)]) == 1
    last = capsys.readouterr().out.splitlines()[-1]
    assert last == ("No pages were written, of any pattern. Mend the errors, or write status: "
                    "draft in the patterns that have them. Then write the pages again.")
    assert not (tmp_path / "out").exists()


def test_quiet_says_errors_alone_and_nothing_of_what_is_sound(
        root: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert check(root, capsys, "harbour-wall", "--quiet") == (0, "")
    code, told = check(root, capsys, "--quiet")
    assert code == 1
    assert {line.split(": ")[1].partition(",")[0] for line in told.splitlines()
            if line.startswith("patterns/")} == {"error"}


def test_a_line_is_a_finding_in_the_form_that_editors_read(
        root: Path, capsys: pytest.CaptureFixture[str]) -> None:
    _, told = check(root, capsys, "--form", "lines")
    for line in told.splitlines():
        assert re.match(r"patterns/[a-z-]+/pattern\.yaml:\d+:\d+: (error|warning|caution|remark), ",
                        line), line
    assert len(told.splitlines()) == len(collect(root).problems)


def as_json(root: Path, capsys: pytest.CaptureFixture[str], *words: str) -> dict[str, Any]:
    made: dict[str, Any] = json.loads(check(root, capsys, *words)[1])
    return made


def test_the_json_has_every_finding_and_the_counts(root: Path,
                                                   capsys: pytest.CaptureFixture[str]) -> None:
    made = as_json(root, capsys, "--json")
    expected = [(p.place.file, p.place.line, p.place.column, p.code, p.severity.value, p.message)
                for p in collect(root).problems]
    assert [(f["file"], f["line"], f["column"], f["code"], f["severity"], f["message"])
            for f in made["findings"]] == expected
    assert sum(made["counts"].values()) == len(expected)
    assert made["sound"] is False and made["not_knitted"] == ["slack-tide"]
    assert made["knitted"] == {"harbour-wall": 1}
    wrong = next(f for f in made["findings"] if f["severity"] == "error")
    line = WRONG.splitlines()[wrong["line"] - 1]
    assert line[wrong["column"] - 1:].startswith("pikc_up") and wrong["pattern"] == "slack-tide"


def test_the_log_of_the_standard_has_its_parts(root: Path, capsys: pytest.CaptureFixture[str]
                                               ) -> None:
    log = as_json(root, capsys, "--form", "sarif")
    assert log["version"] == "2.1.0" and len(log["runs"]) == 1
    run = log["runs"][0]
    assert run["tool"]["driver"]["name"] == "walebook"
    rules = [rule["id"] for rule in run["tool"]["driver"]["rules"]]
    assert len(rules) == len(set(rules)) and len(run["results"]) == len(collect(root).problems)
    for result in run["results"]:
        assert rules[result["ruleIndex"]] == result["ruleId"]
        assert result["level"] in ("none", "note", "warning", "error")
        assert result["message"]["text"]
        place = result["locations"][0]["physicalLocation"]
        assert (root / place["artifactLocation"]["uri"]).is_file()
        assert place["region"]["startLine"] >= 1 and place["region"]["startColumn"] >= 1
    assert [r["level"] for r in run["results"]].count("error") == 1


def test_an_annotation_is_one_line_whatever_it_says(root: Path,
                                                    capsys: pytest.CaptureFixture[str]) -> None:
    hostile = SMALLEST.replace("title: A plain band", 'title: "a\\n::error::b, 100 %: c"').replace(
        "pick_up: 3/4", '"pikc\\n::error::up": 3/4')
    (root / "patterns" / "slack-tide" / "pattern.yaml").write_text(hostile, encoding="utf-8")
    _, told = check(root, capsys, "--form", "annotations")
    lines = told.splitlines()
    assert len(lines) == len(collect(root).problems)
    for line in lines:
        assert re.fullmatch(r"::(error|warning|notice) file=patterns/[a-z-]+/pattern\.yaml,"
                            r"line=\d+,col=\d+,title=[a-z-]+::.+", line), line
        assert not re.search(r"%(?![0-9A-F]{2})", line)


class Screen:
    """Something that is looked at, or not."""

    def __init__(self, looked_at: bool) -> None:
        self.looked_at = looked_at

    def isatty(self) -> bool:
        return self.looked_at


def test_colour_is_for_a_person_who_wants_it() -> None:
    for looked_at, environment, wanted in (
            (True, {}, True), (False, {}, False), (True, {"NO_COLOR": "1"}, False),
            (True, {"NO_COLOR": ""}, True), (True, {"TERM": "dumb"}, False)):
        assert wants_colour(Screen(looked_at), environment) is wanted  # type: ignore[arg-type]


def test_colour_changes_no_word(root: Path) -> None:
    from walebook_site.proving import prove_all
    found = prove_all(root, pages=False)
    plain, coloured = (reported(found, "text", coloured=each) for each in (False, True))
    assert "\x1b" not in plain and "\x1b[1;31merror\x1b[0m" in coloured
    assert re.sub(r"\x1b\[[0-9;]*m", "", coloured) == plain


def test_a_key_is_explained_from_its_declaration(capsys: pytest.CaptureFixture[str]) -> None:
    from walebook.source.keys.whole import TABLES
    from walebook.words.keys import explained
    names = sorted({name for table in TABLES.values() for name in table.keys})
    assert main(["keys"]) == 0 and capsys.readouterr().out.split() == names
    for name in names:
        assert main(["keys", name]) == 0
        told = " ".join(capsys.readouterr().out.split())
        for table in TABLES.values():
            if name in table.keys:
                said = re.sub(r"\[([^\]]+)\]\(.+?\)", r"\1", explained(table.keys[name], table))
                assert " ".join(said.split()) in told, name
    assert main(["keys", "pikc_up"]) == 1
    assert ("No key, measure, finding, chart or bed is called pikc_up. Did you mean pick_up?"
            in capsys.readouterr().out)
    assert main(["keys", "buttonholes.button"]) == 0
    narrowed = capsys.readouterr().out
    assert main(["keys", "button"]) == 0
    assert "bands > buttonholes > button" in narrowed
    assert len(narrowed) <= len(capsys.readouterr().out)


def test_a_measure_is_explained_by_its_name(capsys: pytest.CaptureFixture[str]) -> None:
    from walebook.words.measure_names import BODY, MEASURES
    for meanings in (BODY, MEASURES):
        for name, meaning in meanings.items():
            assert main(["keys", name]) == 0
            assert meaning in " ".join(capsys.readouterr().out.split()), name
    assert main(["keys", "chest_widht"]) == 1
    assert "Did you mean chest_width" in capsys.readouterr().out


def test_a_finding_a_chart_and_a_bed_are_explained_by_their_names(
        capsys: pytest.CaptureFixture[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
        ) -> None:
    from walebook.core.codes import CODES
    for code, meaning in CODES.items():
        assert main(["keys", code]) == 0
        told = " ".join(capsys.readouterr().out.split())
        assert f"{code}: a finding of the check {meaning}" in told, code
        assert "source.html#findings" in told, code
    for folder, what in (("_sizes", "a size chart"), ("_beds", "a needle bed")):
        for path in (Path(__file__).parents[2] / "patterns" / folder).glob("*.yaml"):
            assert main(["keys", path.stem]) == 0
            told = capsys.readouterr().out
            assert f"{path.stem}: {what}" in told
            assert f"walebook parts --copy {folder}/{path.stem}.yaml" in " ".join(told.split())
    (tmp_path / "patterns" / "_sizes").mkdir(parents=True)
    (tmp_path / "patterns" / "_sizes" / "friends.yaml").write_text("sizes: [S]\n", encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    assert main(["keys", "friends"]) == 0
    assert "Yours: patterns/_sizes/friends.yaml." in capsys.readouterr().out
    assert main(["keys", "gauge-of-bed"]) == 1
    assert "Did you mean gauge-off-bed " in capsys.readouterr().out


@pytest.mark.parametrize("word", ["quay", "patterns/quay", "patterns/quay/", "./patterns/quay/",
                                  "patterns/quay/pattern.yaml", "quay/", "quay/pattern.yaml",
                                  "/home/wren/lane/patterns/quay/notes.md"])
def test_a_pattern_is_named_by_its_folder_or_by_a_path(word: str) -> None:
    """As a shell completes it, from the collection's folder or from patterns/."""
    from walebook_site.pattern_named import folder_named
    assert folder_named(word) == "quay"


def test_from_inside_a_collection_its_folder_is_named(
        tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    inside = tmp_path / "patterns" / "quay"
    inside.mkdir(parents=True)
    for settings, said in ((False, "walebook new"), (True, f"Go into {tmp_path.resolve()}")):
        if settings:
            (tmp_path / "mkdocs.yml").write_text("site_name: Quay", encoding="utf-8")
        with pytest.raises(SystemExit):
            main(["check", "--root", str(inside)])
        assert said in capsys.readouterr().err


def test_an_address_without_its_port_is_said(capsys: pytest.CaptureFixture[str]) -> None:
    from walebook_site.command_line import parser_of
    parser = parser_of("")
    assert not parser.parse_args(["serve"]).at  # then mkdocs.yml says
    assert parser.parse_args(["serve", "--at", "8001"]).at == "127.0.0.1:8001"
    assert parser.parse_args(["serve", "--at", "0.0.0.0:80"]).at == "0.0.0.0:80"
    for word in ("localhost", "127.0.0.1:", "127.0.0.1:99999"):
        with pytest.raises(SystemExit):
            parser.parse_args(["serve", "--at", word])
        assert "such as 127.0.0.1:8001" in capsys.readouterr().err


def test_each_command_of_the_guides_is_called_as_it_should_be() -> None:
    from walebook_site.command_line import parser_of
    parser, site = parser_of(""), HERE.parents[1] / "site_src"
    pages = (site.parent / "README.md", site / ".new" / "README.md", *site.glob("*.md"),
             *(site / "guides").glob("*.md"))
    said = {line.partition(" > ")[0].partition("  ")[0] for page in pages for line in re.findall(
        r"^(?:\.venv/bin/)?walebook ([a-z].*)$|`(?:\.venv/bin/)?walebook ([a-z-]+ [^`]*)`",
        page.read_text(encoding="utf-8"), re.MULTILINE) for line in line if line}
    assert {"serve", "build", "keys button", "record NAME --draft"} <= said
    half = {"compare --engine", "new --host"}  # these name an option, not what it takes
    for line in sorted(said - half):
        assert parser.parse_args(shlex.split(line)).command == line.split()[0]


def test_the_schemas_of_sources_come_with_the_command(capsys: pytest.CaptureFixture[str]) -> None:
    for what, good in (("pattern", "smallest.yaml"), ("size-chart", "women.yaml")):
        assert main(["schema", what]) == 0
        schema = json.loads(capsys.readouterr().out)
        jsonschema.Draft202012Validator.check_schema(schema)
        said = yaml.load((HERE / good).read_text(encoding="utf-8"), yaml.BaseLoader)
        check = jsonschema.Draft202012Validator(schema)
        assert not list(check.iter_errors(said))
        assert list(check.iter_errors({**said, "titel": "x"}))


def test_a_reader_who_has_read_enough_sees_no_traceback() -> None:
    command = f"{sys.executable} -c 'from walebook_site.command import main; main()' schema"
    done = subprocess.run(["sh", "-c", f"{command} | head -n 1"], capture_output=True, text=True,
                          check=False)
    assert (done.stdout, done.stderr) == ("{\n", "")
