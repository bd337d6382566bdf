"""What is in the wheel and is not ours is named with its licence, as the thing itself states it.

Outside the project: the records in the font files (OpenType, table `name`, records 0 and 14, which
fontTools reads), the metadata of the installed libraries, and the text of the SIL Open Font License
1.1, whose condition 2 wants the copyright notice in every copy.
"""

from __future__ import annotations

import re
import tomllib
from importlib import metadata
from pathlib import Path

import pytest
from fontTools.ttLib import TTFont
from setuptools.glob import glob

ROOT = Path(__file__).parents[2]
NOTICES = (ROOT / "hooks" / "NOTICES.md").read_text(encoding="utf-8")
FONTS = sorted((ROOT / "site_src" / "assets" / "fonts").glob("*.woff2"))
DECLARED = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
PERMISSION = "Permission is hereby granted, free of charge"  # the MIT licence begins so
SOMEONES = re.compile(r"copyright|\(c\)|©|@licen[cs]e|@preserve|SPDX", re.IGNORECASE)


@pytest.mark.parametrize("font", FONTS, ids=lambda path: path.stem)
def test_the_copyright_in_a_font_stands_in_its_licence_and_in_the_notices(font: Path) -> None:
    names = TTFont(font)["name"]
    held, licence = names.getDebugName(0), names.getDebugName(14)
    assert "scripts.sil.org/OFL" in licence
    family = re.sub(r"-latin.*", "", font.stem)
    text = font.with_name(f"{family}.LICENSE.txt").read_text(encoding="utf-8")
    assert held in text and "SIL OPEN FONT LICENSE Version 1.1" in text
    assert held in NOTICES and f"{family}.LICENSE.txt" in NOTICES


def test_no_script_or_style_says_that_another_made_it() -> None:
    texts = [path for kind in ("*.js", "*.css", "*.html", "*.svg")
             for path in (ROOT / "site_src").rglob(kind)]
    assert len(texts) > 50
    assert [str(path) for path in texts if SOMEONES.search(path.read_text(encoding="utf-8"))] == []


def test_each_size_chart_is_named_with_its_publisher() -> None:
    for chart in sorted((ROOT / "patterns" / "_sizes").glob("*.yaml")):
        (publisher,) = re.findall(r"^publisher: (.*)$", chart.read_text(encoding="utf-8"), re.M)
        assert publisher in NOTICES, chart.name


def test_each_library_that_is_installed_beside_it_is_named_with_its_licence() -> None:
    extras = DECLARED["project"]["optional-dependencies"]
    wanted = [*DECLARED["project"]["dependencies"], *extras["pdf"], *extras["pictures"],
              *extras["sheet"], *extras["photographs"]]
    for each in wanted:
        name = re.match(r"[\w-]+", each)[0]
        said = metadata.metadata(name)
        texts = (path.read_text() for path in metadata.files(name) if path.name == "LICENSE")
        stated = [said.get("License-Expression"), said.get("License"),
                  *(c for c in said.get_all("Classifier") or () if "License ::" in c),
                  *("MIT" for text in texts if PERMISSION in text)]
        licence = " ".join(filter(None, stated))
        (line,) = [line for line in NOTICES.splitlines() if line.startswith(f"| {name} |")]
        kind = re.match("[A-Z]+", line.split("|")[2].strip())[0]
        assert kind in licence and kind in ("BSD", "MIT"), (line, licence)


def test_the_wheel_takes_them_along() -> None:
    said = DECLARED["tool"]["setuptools"]
    named = {Path(path).relative_to(ROOT).as_posix() for pattern in said["license-files"]
             for path in glob(str(ROOT / pattern))}
    assert named == {"hooks/NOTICES.md", *(path.relative_to(ROOT).as_posix() for path in
                                          FONTS[0].parent.glob("*.LICENSE.txt"))}
    assert said["package-data"]["walebook_site"] == ["NOTICES.md"]
