"""The runtime of "My gauge": it makes what this Python makes, byte for byte.

The tests that run it need a runtime, which `walebook runtime` makes, and node.
"""

from __future__ import annotations

import json
import re
import runpy
import shutil
import subprocess
from contextlib import redirect_stdout
from hashlib import sha256
from io import StringIO
from pathlib import Path
from random import Random
from typing import Any

import pytest
from walebook.source.fabric_reading import size_slug
from walebook_site.runtime import (
    ABOUT,
    FOLDER,
    LOADED,
    PYTHON,
    UNPACKER,
    NoRuntime,
    runtime_of,
)
from walebook_site.runtime_making import NotMade, make_runtime

from tests.laws.test_own_gauge import SEED, SLUGS, asked_of, drawn, pattern_of, texts_of
from tests.laws.texts import read_folder

ROOT = Path(__file__).parents[2]
HERE = Path(__file__).parent


@pytest.fixture(scope="module")
def runtime() -> Path:
    try:
        runtime_of(ROOT)
    except NoRuntime as fault:
        pytest.skip(f"`walebook runtime` makes what this needs, from an archive: {fault}")
    if shutil.which("node") is None:
        pytest.skip("node runs the runtime, and this machine has none")
    return ROOT / FOLDER


def request(random: Random, slug: str, *, is_limited: bool) -> dict[str, Any]:
    """What is asked of a drawn size with every fabric drawn, within what the designer allows or
    beside it: with her limit most of these are refused before anything is planned."""
    pattern, asked = pattern_of(slug), asked_of(slug)["asked"]
    source = asked["source"] if is_limited else re.sub(r"(?m)^reader_may_change: .*\n", "",
                                                       asked["source"])
    return {**asked, "source": source, "size": size_slug(random.choice(pattern.sizes)),
            "swatches": {key: drawn(random, key, pattern) for key in pattern.fabrics}}


def case(slug: str, sizes: list[str], asked: int) -> dict[str, Any]:
    """What the runtime is given of a pattern, with so many gauges to answer."""
    texts, random, shelf = texts_of(slug), Random(f"{SEED} {slug}"), read_folder(ROOT)
    gauges = [request(random, slug, is_limited=number % 2 == 0) for number in range(asked)]
    return {"texts": {"slug": slug, "source": texts.source, "shared": texts.shared,
                      "pictures": dict(texts.pictures),
                      "picture_sizes": {k: list(v) for k, v in texts.picture_sizes.items()}},
            **shelf, "sizes": sizes, "asked": [json.dumps(each) for each in gauges]}


def here(cases: list[dict[str, Any]]) -> list[str]:
    said = StringIO()
    with redirect_stdout(said):
        runpy.run_path(str(HERE / "in_runtime.py"), {"given": json.dumps(cases)})
    return said.getvalue().splitlines()


def there(cases: list[dict[str, Any]], folder: Path, tmp_path: Path) -> list[str]:
    given = tmp_path / "given.json"
    given.write_text(json.dumps(cases), encoding="utf-8")
    done = subprocess.run(
        ["node", str(HERE / "runtime.mjs"), str(folder), str(HERE / "in_runtime.py"), str(given)],
        capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr[-2000:]
    return done.stdout.splitlines()


def test_some_pages_and_counts_are_those_of_this_python(runtime: Path, tmp_path: Path) -> None:
    some = Random(SEED).sample(SLUGS, 3)
    cases = [case(slug, [Random(SEED).choice(pattern_of(slug).sizes)], 2) for slug in some]
    assert there(cases, runtime, tmp_path) == here(cases)


def test_every_fabric_of_a_request_is_drawn() -> None:
    many = next(slug for slug in SLUGS if len(pattern_of(slug).fabrics) > 1)
    asked = [json.loads(each) for each in case(many, [], 2)["asked"]]
    assert all(each["swatches"].keys() == pattern_of(many).fabrics.keys() for each in asked)
    assert len({each["swatches"][key]["width"] for each in asked for key in each["swatches"]}) > 2


@pytest.mark.long
def test_all_pages_and_counts_are_those_of_this_python(runtime: Path, tmp_path: Path) -> None:
    cases = [case(slug, list(pattern_of(slug).sizes), 4) for slug in SLUGS]
    made = there(cases, runtime, tmp_path)
    assert made == here(cases)
    assert sum(len(json.loads(line)["sizes"]) for line in made) > 100


@pytest.fixture
def kept(runtime: Path, tmp_path: Path) -> Path:
    """A root with a copy of the runtime."""
    shutil.copytree(runtime, tmp_path / FOLDER)
    return tmp_path


@pytest.mark.parametrize("name", LOADED)
def test_a_runtime_that_is_damaged_is_refused(kept: Path, name: str) -> None:
    path = kept / FOLDER / name
    data = bytearray(path.read_bytes())
    data[len(data) // 2] ^= 1
    path.write_bytes(data)
    with pytest.raises(NoRuntime, match="is damaged"):
        runtime_of(kept)


def test_a_runtime_of_another_engine_is_refused(kept: Path) -> None:
    about = kept / FOLDER / "runtime.json"
    said = json.loads(about.read_text())
    about.write_text(json.dumps({**said, "engine": "0" * 64}))
    with pytest.raises(NoRuntime, match="another engine"):
        runtime_of(kept)


def test_the_worker_knows_what_it_loads(kept: Path) -> None:
    published = runtime_of(kept)
    worker = published.files["worker.js"].decode()
    for name in LOADED:
        data = published.files[name]
        assert f'["{name}","{sha256(data).hexdigest()}",{len(data)}]' in worker
    assert published.bytes == sum(len(published.files[name]) for name in LOADED)


def test_without_a_runtime_it_is_said_what_makes_one(tmp_path: Path) -> None:
    with pytest.raises(NoRuntime, match="walebook runtime"):
        runtime_of(tmp_path)


def test_another_package_is_refused_and_nothing_is_written(tmp_path: Path) -> None:
    package = tmp_path / "pyodide-314.0.7.tgz"
    package.write_bytes(b"another")
    with pytest.raises(NotMade, match=r"the package is not|is not on this machine"):
        make_runtime(tmp_path, package)
    assert not (tmp_path / FOLDER).exists()


def test_the_licences_of_its_parts_lie_with_it() -> None:
    text = (ROOT / "site_src" / ".runtime" / "LICENSES.txt").read_text(encoding="utf-8")
    for said in ("Mozilla Public License Version 2.0", "PYTHON SOFTWARE FOUNDATION LICENSE",
                 "https://github.com/pyodide/pyodide", "PyYAML", "fzstd"):
        assert said in text


def test_the_licence_of_every_part_lies_with_a_runtime_that_was_made(runtime: Path) -> None:
    text = (runtime / "LICENSES.txt").read_text(encoding="utf-8")
    for said in ("Copyright (c) 2020 Arjun Barrett", "Kirill Simonov", "Mozilla Public License"):
        assert said in text


def test_the_unpacker_is_the_pinned_one_and_unpacks_python_as_the_browser_looks_at_it(
        runtime: Path, tmp_path: Path) -> None:
    """The digest that the browser compares (as `integrity`) is of what the unpacker makes."""
    script = tmp_path / "unpack.mjs"
    shutil.copy(runtime / UNPACKER, script)
    code = ("import { readFileSync } from 'node:fs'; import { createHash } from 'node:crypto';"
            f"const {{ decompress }} = await import('{script.as_uri()}');"
            f"const packed = readFileSync({json.dumps(str(runtime / PYTHON))});"
            "console.log(createHash('sha256').update(decompress(packed)).digest('base64'));")
    done = subprocess.run(["node", "--input-type=module", "-e", code], capture_output=True,
                          text=True, check=True)
    assert done.stdout.strip() == json.loads((runtime / ABOUT).read_text())["wasm"]
