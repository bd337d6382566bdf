"""The texts of a pattern, of the beds and of the size charts of a folder."""

from __future__ import annotations

from pathlib import Path

from walebook.proof.texts import Texts


def texts_of(root: Path, slug: str) -> Texts:
    """What is written in the folder of a pattern that has no pictures."""
    folder = root / "patterns" / slug
    notes = folder / "notes.md"
    return Texts(slug=slug, source=(folder / "pattern.yaml").read_text(encoding="utf-8"),
                 notes=notes.read_text(encoding="utf-8") if notes.exists() else "")


def read_folder(root: Path) -> dict[str, dict[str, str]]:
    """The beds and charts of a folder, as the engine is given them."""
    return {name: {path.stem: path.read_text(encoding="utf-8")
                   for path in (root / "patterns" / f"_{folder}").glob("*.yaml")}
            for name, folder in (("beds", "beds"), ("charts", "sizes"))}
