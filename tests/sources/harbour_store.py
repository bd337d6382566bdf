"""The band of the README in a store of a test, and what a report of a comparison says of it."""

from __future__ import annotations

import os
import subprocess
from pathlib import Path

import pytest


def head(title: str, summary: str) -> str:
    """A source down to its fabric."""
    return f"""\
title: {title}
version: 1.0.0
date: 2026-11-20
designer: Your Name
licence: CC BY-NC 4.0
summary: {summary}
wearer: women
bed: standard
yarns:
  wool: {{name: Your Wool}}
fabrics:
  body:
    yarn: wool
    dial: 6
    swatch: {{stitches: 40, width: 14.2 cm, rows: 60, height: 15 cm}}
"""


BAND = head("Harbour front band", "A folded front band with buttonholes.") + """\
sizes: [S, M]
edges:
  front: {kind: pair of fronts, fabric: body, rows: {S: 200, M: 208}}
bands:
  front:
    edge: front
    pick_up: 3/4
    rows: {to_holes: 4, holes_to_fold: 4, fold_to_holes: 4, to_finish: 4}
    buttonholes: {button: 16 mm, number: 7, ends: 4 stitches}
"""
SLUG = "harbour-front"
ROWS_KEY, NUMBER_KEY = "edges.front.rows.M", "bands.front.buttonholes.number"


def git(root: Path, *words: str) -> str:
    named = {"GIT_AUTHOR_NAME": "A", "GIT_AUTHOR_EMAIL": "a@b.c", "GIT_COMMITTER_NAME": "A",
             "GIT_COMMITTER_EMAIL": "a@b.c", "GIT_CONFIG_GLOBAL": os.devnull}
    return subprocess.run(["git", "-C", str(root), *words], check=True, capture_output=True,
                          text=True, env={**os.environ, **named}).stdout


def begun(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A repository without a commit, with a cache beside it."""
    monkeypatch.setenv("WALEBOOK_CACHE", str(tmp_path / "cache"))
    root = tmp_path / "store"
    root.mkdir()
    git(root, "init", "-q")
    return root


def write(root: Path, text: str, slug: str = SLUG) -> None:
    (root / "patterns" / slug).mkdir(parents=True, exist_ok=True)
    (root / "patterns" / slug / "pattern.yaml").write_text(text, encoding="utf-8")


def commit(root: Path, text: str, slug: str = SLUG) -> None:
    write(root, text, slug)
    git(root, "add", "-A")
    git(root, "commit", "-q", "--allow-empty", "-m", "A change")


def counts(report: dict) -> dict[tuple[str, str], tuple[str, str, tuple[str, ...]]]:
    """Each count that changed: size and name, its two values, the keys of its causes."""
    return {(c["size"], c["name"]): (c["before"], c["after"], causes(report, c))
            for c in report["changes"] if c["kind"] == "count"}


def causes(report: dict, change: dict) -> tuple[str, ...]:
    return tuple(report["inputs"][n]["key"] for n in change["causes"])
