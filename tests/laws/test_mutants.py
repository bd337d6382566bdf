"""The tool that changes the engine to see whether a test notices: what it changes, and what not."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest
from cosmic_ray.mutating import mutate_code

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT / ".ci"))

import mutants  # noqa: E402
from cover_by_test import FEW, name_of  # noqa: E402
from mutant_drawing import Mutant, changes, operators  # noqa: E402
from mutant_tests import choose, lines_about  # noqa: E402
from mutants import (  # noqa: E402
    ARGUED,
    Kept,
    argued,
    is_measured,
    measure,
    refuse_untested,
    started,
    tried,
    try_all,
)
from own_operators import OWN  # noqa: E402

MODULE = '''"""What it is for."""

from __future__ import annotations

LEAST = 2


def said(rows: int | None) -> str:
    """Rows in words."""
    if rows is None:
        raise ValueError("no rows")
    return (f"{rows} rows"
            if rows >= LEAST else "one row")
'''

NEEDLES = ROOT / "engine" / "machine" / "needles.py"
COUNTED = "return self.mask.bit_count()"
HTML = ROOT / "engine" / "markup" / "html.py"
DASHED = 'return name.replace(" ", "-")'
TESTS_OF_ONE_NEEDLE = '''
from pathlib import Path

import pytest
from hypothesis import given, strategies as st
from walebook.machine.needles import Needles

EXAMPLES = []

@given(st.integers())
def test_a_law(number):
    EXAMPLES.append(number)

def test_how_many_examples_there_were():
    assert len(EXAMPLES) <= 2, len(EXAMPLES)

def test_that_reads():
    assert "class Needles" in Path("engine/machine/needles.py").read_text()

def test_of_a_module_that_is_loaded_later():
    from walebook.markup.html import anchor
    assert anchor("back neck") == "back-neck"

def test_that_fails():
    assert not str(Needles)

@pytest.mark.parametrize("n", range(5))
def test_of_many(n):
    assert len(Needles(1 << n)) == 1
'''


def mutant_of(line: str, changed: str) -> Mutant:
    """A change of one line of the needles, made by hand."""
    text = NEEDLES.read_text(encoding="utf-8")
    assert text.count(line) == 1
    return Mutant(path="engine/machine/needles.py", kind="ByHand", code=text.replace(line, changed),
                  line=text[:text.index(line)].count("\n") + 1, changed=f"{line} => {changed}")


@pytest.mark.parametrize("own", OWN)
def test_an_operator_of_ours_makes_what_it_says(own: type) -> None:
    for example in own.examples():
        made = mutate_code(example.pre_mutation_code, own(), example.occurrence)
        assert made == example.post_mutation_code


def test_what_no_reader_meets_is_not_changed() -> None:
    kinds = operators()
    made = {mutate_code(MODULE, kinds[kind], occurrence)
            for _, kind, occurrence in changes(MODULE, kinds)}
    assert MODULE.replace('f"{rows} rows"', '""') in made
    assert MODULE.replace('"one row"', '""') in made
    assert MODULE.replace("rows is None", "not rows is None") in made
    for kept in ('"""What it is for."""', "int | None", '"""Rows in words."""', '"no rows"'):
        assert all(code and kept in code for code in made), kept


def test_a_change_is_tried_by_the_tests_of_its_whole_statement() -> None:
    assert lines_about(MODULE, 13) == range(12, 14)
    assert lines_about(MODULE, 10) == range(10, 11)
    assert lines_about(MODULE, 5) is None


def test_each_mutant_that_is_argued_for_still_has_its_line() -> None:
    for name in argued():
        path, _, changed = name.partition(" ")
        text = (ROOT / path).read_text(encoding="utf-8")
        lines = {line.strip() for line in text.splitlines()}
        before = changed.partition(": ")[2].partition(" => ")[0]
        assert any(line and before.startswith(line) for line in lines), name


def test_each_mutant_that_is_argued_for_has_its_reason_above_it() -> None:
    lines = ARGUED.read_text(encoding="utf-8").splitlines()
    for before, line in zip(["", *lines], lines, strict=False):
        assert not line.startswith("engine/") or before.startswith(("#", "engine/")), line


def test_a_mutant_that_no_test_runs_is_refused_with_the_reason() -> None:
    mutant = mutant_of("_CENTRE = ", "_CENTRE = 1 + ")
    refuse_untested({mutant: (["tests/a.py::test_a"], [], [])})
    with pytest.raises(SystemExit, match=r"No test in .* runs the lines of 1 of 1 mutants:\n"
                                         r"  engine/machine/needles.py:\d+ ByHand: _CENTRE"):
        refuse_untested({mutant: ([], [], ["tests/b.py::test_that_reads_its_text"])})
    with pytest.raises(ValueError, match="no test was chosen for engine"):
        tried(ROOT, mutant, ([], []))


def run_in(folder: Path, *arguments: str) -> None:
    """Run the tests of one needle in a folder of their own, with a plugin of the tool."""
    for name in ("engine", ".ci"):
        (folder / name).symlink_to(ROOT / name)
    (folder / "test_needles.py").write_text(TESTS_OF_ONE_NEEDLE)
    subprocess.run([sys.executable, "-m", "pytest", "-q", "-n", "0", *arguments, "test_needles.py"],
                   cwd=folder, check=False, capture_output=True,
                   env={**os.environ, "PYTHONPATH": str(ROOT / ".ci"), "PYTEST_ADDOPTS": ""})


def test_a_mutant_is_tried_by_the_tests_that_were_measured_to_run_it(tmp_path: Path) -> None:
    """Few examples and few of many tests are measured; a test that fails is none to try."""
    measured = tmp_path / "measured"
    measured.mkdir()
    run_in(tmp_path, "-p", "cover_by_test", "--cover-by-test", str(measured))
    (file,) = measured.iterdir()
    functions = {name.partition("[")[0] for name, *_ in json.loads(file.read_text())["tests"]}
    assert {name.partition("::")[2] for name in functions} == {
        "test_a_law", "test_how_many_examples_there_were", "test_of_many",
        "test_of_a_module_that_is_loaded_later", "test_that_reads"}
    (first, rest, reading), = choose([mutant_of(COUNTED, "return 2")], measured).values()
    assert reading == ["test_needles.py::test_that_reads"]
    assert sorted(first[:FEW]) == [f"test_needles.py::test_of_many[{n}]" for n in (0, 4)]
    assert len(first + rest) == 9
    unmeasured = mutant_of("self.mask | other.mask == other.mask", "1")
    (first, rest, _), = choose([unmeasured], measured).values()
    of_many = {f"test_needles.py::test_of_many[{n}]" for n in range(5)}
    assert of_many <= {*first, *rest}, "no test runs it that was measured: those of the module"


def test_the_test_that_runs_what_few_run_is_tried_before_quicker_ones(tmp_path: Path) -> None:
    """Ten tests run the mutant's line in half a second each; one of 0.9 s also runs another line of
    the module, which no other test does."""
    mutant = mutant_of(COUNTED, "return 2")
    names = [*(f"test_a.py::test_{n}" for n in range(10)), "test_a.py::test_about_it"]
    (tmp_path / "test_a.py.json").write_text(json.dumps({
        "tests": [[name, .9 if "about" in name else .5, []] for name in names], "fixtures": {},
        "lines": {mutant.path: {str(mutant.line): list(range(11)), str(mutant.line - 5): [10]}}}))
    (first, rest, _), = choose([mutant], tmp_path).values()
    assert first[0] == "test_a.py::test_about_it"
    assert sorted([*first, *rest]) == sorted(names)


@pytest.mark.parametrize("names", [
    [f"test_a.py::test_every_one[{name}]" for name in ("beds", "combs", "needles-even")],
    ["test_a.py::test_one", "test_a.py::test_one[2]", "test_needles_left.py::test_one"]])
def test_what_is_called_as_the_module_is_tried_first(names: list[str], tmp_path: Path) -> None:
    """Also where it was not measured: of many cases only two are."""
    mutant = mutant_of(COUNTED, "return 2")
    (tmp_path / "test_a.py.json").write_text(json.dumps({
        "tests": [[name, .5, []] for name in names], "fixtures": {},
        "lines": {mutant.path: {str(mutant.line): [0, 1]}}}))
    (tmp_path / "test_b.py.json").write_text(json.dumps({
        "tests": [["test_b.py::test_else", .1, []]], "fixtures": {},
        "lines": {mutant.path: {str(mutant.line): [0]}}}))
    (first, rest, _), = choose([mutant], tmp_path).values()
    assert [*first, *rest] == [names[2], "test_b.py::test_else", names[0], names[1]]


def test_tests_are_measured_by_their_names_wherever_that_is_kept(tmp_path: Path) -> None:
    """Another project's settings beside the folder are none of the copy's."""
    copy, kept = tmp_path / "copy", tmp_path / "project" / "kept"
    for folder in (copy, kept):
        folder.mkdir(parents=True)
        (folder / "pyproject.toml").write_text("[tool.pytest.ini_options]\ntimeout = 600\n")
    for name in ("engine", ".ci"):
        (copy / name).symlink_to(ROOT / name)
    (copy / "test_needles.py").write_text(TESTS_OF_ONE_NEEDLE)
    said, _ = started(copy, "-p", "cover_by_test", "--cover-by-test", str(kept),
                      "test_needles.py").communicate()
    found = [*kept.glob("*.json")]
    assert [file.name for file in found] == ["test_needles.py.json"], said
    assert json.loads(found[0].read_text())["lines"]


def test_a_measuring_that_wrote_nothing_is_refused(tmp_path: Path,
                                                   monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(mutants, "started", lambda *_: subprocess.Popen(
        ["echo", "no tests ran"], text=True, stdout=subprocess.PIPE))
    with pytest.raises(SystemExit, match="could not be measured:\nno tests ran"):
        measure([tmp_path], tmp_path / "measured")


def test_forks_try_mutants_apart_and_say_what_they_cannot_change(tmp_path: Path) -> None:
    """Each is tried on the engine as it was, and a change of what an import runs is not."""
    one, fails = "test_needles.py::test_of_many[1]", "test_needles.py::test_that_fails"
    law = "test_needles.py::test_a_law"
    asked = [(COUNTED, "return 2", [one]), ("_CENTRE = ", "_CENTRE = 1 + ", [one]),
             (COUNTED, "return 0 + self.mask.bit_count()", [one]),
             (COUNTED, "return 2", [law, one]), (COUNTED, COUNTED, [fails]),
             (COUNTED, "return 2", ["test_needles.py::test_gone"])]
    reads = "test_needles.py::test_that_reads"
    later = "test_needles.py::test_of_a_module_that_is_loaded_later"
    written = HTML.read_text(encoding="utf-8")
    (tmp_path / "asked").write_text("".join(json.dumps({
        "mark": f"m{number}", "path": "engine/machine/needles.py", "tests": tests, "reading": [],
        "code": mutant_of(line, changed).code}) + "\n"
        for number, (line, changed, tests) in enumerate(asked)) + json.dumps({
            "mark": "m6", "path": "engine/markup/html.py", "tests": [later], "reading": [],
            "code": written.replace(DASHED, "return name")}) + "\n" + json.dumps({
                "mark": "m7", "path": "engine/machine/needles.py", "tests": [], "reading": [reads],
                "code": NEEDLES.read_text(encoding="utf-8").replace("class Needles", "class N")}))
    run_in(tmp_path, "--capture=sys", "-p", "tried_by_forking", "--mutants",
           str(tmp_path / "asked"), "--results", str(tmp_path / "results"))
    results = map(json.loads, (tmp_path / "results").read_text().splitlines())
    assert {each["mark"]: (each["came"], each["by"]) for each in results} == {
        "m0": ("killed", one), "m1": ("not here", ""), "m2": ("survived", ""),
        "m3": ("killed", one), "m4": ("not here", ""), "m5": ("not here", ""),
        "m6": ("killed", later), "m7": ("killed", reads)}


def test_what_was_broken_off_goes_on_where_it_stopped(tmp_path: Path,
                                                      monkeypatch: pytest.MonkeyPatch) -> None:
    """What is decided is not tried again; what survived in a fork, or was not tried in one, is."""
    changed = {which: mutant_of(COUNTED, f"return {which}") for which in (2, 3, 4, 5)}
    assert len({mutant.mark for mutant in changed.values()}) == len(changed)
    kept = Kept(tmp_path / "kept")
    kept.file.write_text("".join(
        json.dumps({"mark": changed[which].mark, "came": came, "by": "a"}) + "\n"
        for which, came in ((2, "killed"), (3, "survived"), (4, "not here"))))
    kept.add(changed[5].mark, "survived", "")
    anew: list[Mutant] = []
    monkeypatch.setattr(mutants, "tried", lambda _, mutant, __: (
        anew.append(mutant) or ("killed", "b")))
    for _ in range(2):  # and the second time nothing is left to try
        assert try_all([tmp_path], {mutant: which for which, mutant in changed.items()},
                       dict.fromkeys(changed.values(), (["a"], [], [])), kept) == {
            changed[2]: "killed", changed[3]: "killed", changed[4]: "killed",
            changed[5]: "survived"}
    assert anew == [changed[3], changed[4]]


def test_a_file_of_tests_that_has_changed_is_measured_again(tmp_path: Path) -> None:
    file = "tests/laws/test_mutants.py"
    assert not is_measured(file, tmp_path)
    (tmp_path / name_of(file)).write_text("{}")
    assert is_measured(file, tmp_path)
    os.utime(tmp_path / name_of(file), (0, 0))
    assert not is_measured(file, tmp_path)
