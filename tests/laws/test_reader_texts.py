"""What a script says to a reader stands in a file of texts: the rule of `.ci/reader_texts.js`.

`.ci/scripts.py` holds the site's scripts to it. Here the rule itself is tried on lines of a script.
"""

from __future__ import annotations

import json
import shutil
import subprocess
from collections.abc import Sequence
from pathlib import Path

import pytest

CI = Path(__file__).parents[2] / ".ci"
FOUND = (
    'say("The screen stays on while you knit.");', 'const said = "Done";',
    "button(`Go on at step ${step + 1}`);", 'const part = "row counter ";',
    'make("p", { "aria-label": "All steps" });', 'field.setAttribute("placeholder", "Your note");',
    "const many = `${number} loops on`;", 'tell(isLast ? ". All rows are knitted." : "");',
)
LEFT = (
    '"use strict";', 'document.querySelector("main article p");',
    'throw new Error("no such part here");',
    'make("p", { class: "wb-sheet md-typeset", id: "wb-step" });', 'if (key === "Enter") go();',
    "const path = `M${left} 22V${end}`;", 'media("(max-width: 479px) and (max-height: 400px)");',
    'const kinds = { "upper arm": 1 };', "const needle = `L${n}`;", 'const key = "counter";',
)
LINT = """
import { Linter } from "eslint";
import rule from "./reader_texts.js";
const config = [{ languageOptions: { ecmaVersion: 2022, sourceType: "script" },
  plugins: { walebook: { rules: { "reader-texts": rule } } },
  rules: { "walebook/reader-texts": "error" } }];
console.log(JSON.stringify(JSON.parse(process.argv[1]).map((text) =>
  new Linter().verify(text, config).map((each) => each.ruleId))));
"""


def looked_at(lines: Sequence[str]) -> list[list[str]]:
    """The rules that each line breaks."""
    node = shutil.which("node")
    if node is None or not (CI / "node_modules" / "eslint").is_dir():
        pytest.skip("eslint runs by node, and this machine has none, or eslint is not installed")
    done = subprocess.run([node, "--input-type=module", "--eval", LINT, json.dumps(lines)], cwd=CI,
                          capture_output=True, text=True, check=True)
    found: list[list[str]] = json.loads(done.stdout)
    return found


def test_a_text_for_readers_is_found() -> None:
    assert [line for line, rules in zip(FOUND, looked_at(FOUND), strict=True)
            if rules != ["walebook/reader-texts"]] == []


def test_what_no_reader_reads_is_left() -> None:
    assert [line for line, rules in zip(LEFT, looked_at(LEFT), strict=True) if rules] == []
