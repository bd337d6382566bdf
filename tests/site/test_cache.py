"""What is kept of a proof: the same findings and pages as without it, and nothing that is stale.

A page that should have been made anew is one whose source says another thing than the page: every
case changes what a text says, and looks for it in the findings and pages. Common practice for
caches that are kept by the digest of all that a result depends on, no source.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from walebook_site import proving
from walebook_site.cache import FOLDER, Cache
from walebook_site.proving import Workshop, prove_all
from walebook_site.reading import Folder, Reading
from walebook_site.results import Results
from walebook_site.sources import Proved, Prover, collect

from tests.site.builds import make_project
from tests.site.test_same_bytes import HERE, built

ROOT = Path(__file__).parents[2]
SMALLEST = ROOT / "tests" / "sources" / "smallest.yaml"
OTHER = "tideline-hat"
BED = "bed: {pitch: 9 mm, needles: 110}"
SOUND = "pitch: 6.5 mm\nneedles: 160\nsource: measured\n"
NO_UNIT = SOUND.replace(" mm", "")
WORN = "tide-pool-top"


def project(root: Path, *slugs: str) -> Path:
    """A folder with one small band and these patterns of the collection."""
    for name in ("_beds", "_sizes", *slugs):
        shutil.copytree(ROOT / "patterns" / name, root / "patterns" / name)
    (root / "patterns" / "harbour-front").mkdir()
    shutil.copy(SMALLEST, root / "patterns" / "harbour-front" / "pattern.yaml")
    return root


def collection_of_one(root: Path) -> Path:
    """A collection with one small band, whose beds and charts are ours."""
    (root / "mkdocs.yml").write_text("site_name: Lantern Quay\nplugins:\n- walebook\n")
    (root / "patterns" / "harbour-front").mkdir(parents=True)
    text = SMALLEST.read_text(encoding="utf-8")
    assert BED in text
    (root / "patterns" / "harbour-front" / "pattern.yaml").write_text(
        text.replace(BED, "bed: mid"), encoding="utf-8")
    return root


@pytest.fixture
def made(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """The patterns that are proved, in order, once a test has begun."""
    monkeypatch.setenv(proving.JOBS, "1")
    monkeypatch.delenv("WALEBOOK_CACHE", raising=False)
    seen: list[str] = []
    make = Workshop.make

    def note(shop: Workshop, folder):
        seen.append(folder.slug)
        return make(shop, folder)

    monkeypatch.setattr(Workshop, "make", note)
    return seen


def outcome(results: Results) -> object:
    """All that comes of patterns."""
    return results.rendered(), dict(results.texts()), results.cards(), results.pictures


def test_a_second_run_makes_nothing_and_says_the_same(tmp_path: Path, made: list[str]) -> None:
    root = project(tmp_path, OTHER)
    first = outcome(prove_all(root, pages=True))
    assert made == ["harbour-front", OTHER]
    assert outcome(prove_all(root, pages=True)) == first
    assert made == ["harbour-front", OTHER]
    fresh = collect(root)
    assert first == (fresh.rendered(), dict(fresh.texts()), fresh.cards(), fresh.pictures)


def test_a_check_uses_what_a_build_found_and_not_the_other_way(tmp_path: Path, made: list[str]
                                                               ) -> None:
    root = project(tmp_path)
    checked = prove_all(root, pages=False)
    assert made == ["harbour-front"] and not checked.patterns[0].pages
    assert prove_all(root, pages=False).problems == checked.problems and len(made) == 1
    built = prove_all(root, pages=True)
    assert len(made) == 2 and built.patterns[0].pages and built.problems == checked.problems
    shutil.rmtree(root / FOLDER)
    prove_all(root, pages=True)
    prove_all(root, pages=False)
    assert len(made) == 3


def _worn_on(root: Path, slug: str = WORN) -> str:
    """The chart of a pattern of the collection."""
    text = (root / "patterns" / slug / "pattern.yaml").read_text()
    return next(line.partition("chart:")[2].strip() for line in text.splitlines()
                if line.strip().startswith("chart:"))


def _more(path: Path, text: str = "# more\n") -> None:
    path.write_text((path.read_text() if path.exists() else "") + text)


CHANGES: dict[str, tuple[Callable[[Path], None], list[str]]] = {
    "a source": (lambda root: _more(root / "patterns" / OTHER / "pattern.yaml"), [OTHER]),
    "notes": (lambda root: _more(root / "patterns" / OTHER / "notes.md", "\nWarm.\n"), [OTHER]),
    "a picture added": (lambda root: shutil.copy(
        ROOT / "site_src" / "assets" / "size-page.png", root / "patterns" / OTHER / "a.png"),
        [OTHER]),
    "a chart that is named": (lambda root: _more(
        root / "patterns" / "_sizes" / f"{_worn_on(root)}.yaml"), [WORN]),
    "a chart that none names": (lambda root: _more(next(
        path for path in (root / "patterns" / "_sizes").glob("*.yaml")
        if path.stem not in {_worn_on(root, slug) for slug in (OTHER, WORN)})), []),
    "nothing": (lambda root: None, []),
}


@pytest.mark.parametrize("change", CHANGES)
def test_a_change_makes_anew_what_depends_on_it_and_nothing_else(
        tmp_path: Path, made: list[str], change: str) -> None:
    root = project(tmp_path, OTHER, WORN)
    do, expected = CHANGES[change]
    prove_all(root, pages=False)
    made.clear()
    do(root)
    again = prove_all(root, pages=False)
    assert made == expected
    assert again.rendered() == collect(root).rendered()


def test_a_changed_bed_makes_anew_the_patterns_that_are_knitted_on_it(tmp_path: Path,
                                                                      made: list[str]) -> None:
    root = project(tmp_path, OTHER)
    beds = {slug: _bed_of(root, slug) for slug in ("harbour-front", OTHER)}
    prove_all(root, pages=False)
    made.clear()
    for path in (root / "patterns" / "_beds").glob("*.yaml"):
        text = path.read_text()
        path.write_text(f"{text}# more\n")
        prove_all(root, pages=False)
        assert made == [slug for slug, bed in beds.items() if bed == path.stem], path.stem
        made.clear()


def _bed_of(root: Path, slug: str) -> str:
    return next(line.partition(":")[2].strip() for line in
                (root / "patterns" / slug / "pattern.yaml").read_text().splitlines()
                if line.startswith("bed:"))


def test_a_page_that_notes_link_to_is_looked_for_again(tmp_path: Path, made: list[str]) -> None:
    root = project(tmp_path, OTHER)
    (root / "patterns" / "harbour-front" / "notes.md").write_text(
        f"For [a hat](../{OTHER}/index.html).\n")
    assert prove_all(root, pages=False).is_sound
    shutil.rmtree(root / "patterns" / OTHER)
    made.clear()
    gone = prove_all(root, pages=False)
    assert made == ["harbour-front"] and gone.rendered() == collect(root).rendered()
    assert gone.problems


def test_a_changed_setting_changes_the_site_and_makes_no_pattern_anew(tmp_path: Path) -> None:
    root = make_project(tmp_path / "quay")
    beside = "patterns/harbour-front/one-size-single-file.html"
    before = built(root, HERE)
    kept = {path: path.stat().st_ino for path in entries(root, "harbour-front")}
    settings = root / "mkdocs.yml"
    text = settings.read_text()
    settings.write_text(text.replace("single_files: true", "single_files: false"))
    after = built(root, HERE)
    assert beside in before and beside not in after
    assert b"-single-file" not in (after["patterns/harbour-front/one-size.html"] or b"")
    assert {path: path.stat().st_ino for path in entries(root, "harbour-front")} == kept
    assert len(kept) == 1


def entries(root: Path, slug: str) -> list[Path]:
    return entries_in(root / FOLDER / slug)


def test_an_entry_with_one_flipped_byte_is_not_trusted(tmp_path: Path, made: list[str]) -> None:
    root = project(tmp_path)
    first = outcome(prove_all(root, pages=True))
    (entry,) = entries(root, "harbour-front")
    sound = entry.read_bytes()
    for at in (0, 70, 200, len(sound) // 2, len(sound) - 1):
        entry.write_bytes(sound[:at] + bytes([sound[at] ^ 1]) + sound[at + 1:])
        made.clear()
        assert outcome(prove_all(root, pages=True)) == first
        assert made == ["harbour-front"], f"byte {at}"
    entry.write_bytes(sound[:-5])
    assert outcome(prove_all(root, pages=True)) == first and len(made) == 2
    assert len(entries(root, "harbour-front")) == 1


@pytest.mark.parametrize("loss", ["flipped", "deleted"])
def test_a_page_that_is_lost_after_it_was_found_is_made_again(tmp_path: Path, made: list[str],
                                                              loss: str) -> None:
    root = project(tmp_path)
    prove_all(root, pages=True)
    results = prove_all(root, pages=True)
    first = dict(results.texts())
    (entry,) = entries(root, "harbour-front")
    if loss == "deleted":
        shutil.rmtree(root / FOLDER)
    else:
        data = entry.read_bytes()
        entry.write_bytes(data[:-300] + bytes([data[-300] ^ 8]) + data[-299:])
    made.clear()
    assert dict(results.texts()) == first and "harbour-front" in made


def test_two_clones_share_a_cache(tmp_path: Path, made: list[str],
                                  monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("WALEBOOK_CACHE", str(tmp_path / "shared"))
    one, other = (project(tmp_path / name, OTHER) for name in ("one", "other"))
    first = prove_all(one, pages=True)
    made.clear()
    second = prove_all(other, pages=True)
    assert made == [] and dict(second.texts()) == dict(first.texts())
    assert not (one / FOLDER).exists()


def test_two_builds_share_a_cache_at_once(tmp_path: Path) -> None:
    """Both begin with nothing and write the same entries while the other reads them."""
    clones = [project(tmp_path / name) for name in ("one", "other")]
    for root in clones:
        for number in range(3):
            shutil.copytree(root / "patterns" / "harbour-front", root / "patterns" / f"b{number}")
    shared = tmp_path / "shared"
    env = {**os.environ, "WALEBOOK_CACHE": str(shared), proving.JOBS: "1"}
    running = [subprocess.Popen([sys.executable, "-m", "walebook_site.command", "pages", "out"],
                                cwd=root, env=env, stdout=subprocess.PIPE, stderr=subprocess.STDOUT)
               for root in clones]
    for process in running:
        said, _ = process.communicate()
        assert process.returncode == 0, said.decode()
    wanted = dict(collect(clones[0]).texts())
    for root in clones:
        written = {path: (root / "out" / path).read_text(encoding="utf-8") for path in wanted}
        assert written == wanted
    assert [path.name for path in shared.rglob(".*") if path.name != ".gitignore"] == []
    assert len(entries_in(shared / "b0")) == 1


def entries_in(folder: Path) -> list[Path]:
    return sorted(folder.glob("*"))


def test_two_branches_share_a_cache_while_both_are_written(tmp_path: Path, made: list[str],
                                                           monkeypatch: pytest.MonkeyPatch) -> None:
    """What one build has found stays, whatever another makes of the same pattern meanwhile."""
    monkeypatch.setenv("WALEBOOK_CACHE", str(tmp_path / "shared"))
    one, other = (project(tmp_path / name, WORN) for name in ("one", "other"))
    first = prove_all(one, pages=True)
    before = dict(first.texts())
    chart = other / "patterns" / "_sizes" / f"{_worn_on(other)}.yaml"
    _more(chart)
    prove_all(other, pages=True)
    made.clear()
    assert dict(first.texts()) == before and made == []
    prove_all(one, pages=True)
    prove_all(other, pages=True)
    assert made == []


def test_only_so_many_versions_of_a_pattern_are_kept(tmp_path: Path, made: list[str]) -> None:
    root = project(tmp_path)
    source = root / "patterns" / "harbour-front" / "pattern.yaml"
    text = source.read_text()
    for number in range(10):
        source.write_text(f"{text}# {number}\n")
        prove_all(root, pages=False)
    assert 1 < len(entries(root, "harbour-front")) <= 8
    made.clear()
    prove_all(root, pages=False)
    assert made == []


def test_without_a_place_to_write_all_is_made_and_told(tmp_path: Path, made: list[str],
                                                       monkeypatch: pytest.MonkeyPatch) -> None:
    root = project(tmp_path)
    (tmp_path / "file").write_text("no folder")
    monkeypatch.setenv("WALEBOOK_CACHE", str(tmp_path / "file" / "cache"))
    results = prove_all(root, pages=True)
    assert dict(results.texts()) == dict(collect(root).texts()) and made == ["harbour-front"]


def test_one_process_and_two_make_the_same(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    root = project(tmp_path)
    for number in range(4):
        shutil.copytree(root / "patterns" / "harbour-front", root / "patterns" / f"band-{number}")
    found = []
    for jobs in ("1", "2"):
        monkeypatch.setenv(proving.JOBS, jobs)
        monkeypatch.setenv("WALEBOOK_CACHE", str(tmp_path / f"cache-{jobs}"))
        found.append(outcome(prove_all(root, pages=True)))
    assert found[0] == found[1]
    kept = [{path.relative_to(tmp_path / f"cache-{jobs}").as_posix(): path.read_bytes()
             for path in (tmp_path / f"cache-{jobs}").rglob("*") if path.is_file()}
            for jobs in ("1", "2")]
    assert kept[0] == kept[1] and len(kept[0]) > 5


def test_the_cache_lies_beside_the_sources(tmp_path: Path, made: list[str]) -> None:
    root = project(tmp_path)
    prove_all(root, pages=False)
    assert Cache.beside(root).folder == root / FOLDER
    assert (root / FOLDER / ".gitignore").read_text() == "*\n"
    assert os.listdir(root / FOLDER / "harbour-front")


def _own_bed(root: Path) -> Path:
    """A bed of the designer's own, in which the pitch is wrong, in the place of ours."""
    bed = root / "patterns" / "_beds" / "mid.yaml"
    bed.parent.mkdir()
    bed.write_text(NO_UNIT, encoding="utf-8")
    return bed


@pytest.mark.parametrize("meanwhile", ["deleted", "mended"])
def test_a_file_that_changes_while_patterns_are_proved_leaves_nothing_stale(
        tmp_path: Path, made: list[str], monkeypatch: pytest.MonkeyPatch, meanwhile: str) -> None:
    """What stands in the cache must be of the texts by whose digests it is found: after the
    change a check has the findings of a check without a cache."""
    root = collection_of_one(tmp_path)
    bed = _own_bed(root)
    prove = Prover.prove

    def change(prover: Prover, folder: Folder, look: str = "") -> Proved:
        if meanwhile == "deleted":
            bed.unlink(missing_ok=True)
        else:
            bed.write_text(SOUND, encoding="utf-8")
        return prove(prover, folder, look)

    monkeypatch.setattr(Prover, "prove", change)
    assert any(problem.code == "bad-length" for problem in prove_all(root, pages=False).problems)
    monkeypatch.setattr(Prover, "prove", prove)
    now = prove_all(root, pages=False)
    fresh = collect(root)
    assert now.rendered() == fresh.rendered()
    assert not any(problem.code in ("bad-length", "unknown-name") for problem in now.problems)


def test_a_bed_mended_between_its_digest_and_its_reading_leaves_nothing_stale(
        tmp_path: Path, made: list[str], monkeypatch: pytest.MonkeyPatch) -> None:
    root = collection_of_one(tmp_path)
    bed = _own_bed(root)
    prove_all(root, pages=False)
    shutil.rmtree(root / FOLDER / "_shared")
    read = Prover.of

    def mended_first(reading: Reading) -> Prover:
        bed.write_text(SOUND, encoding="utf-8")
        return read(reading)

    monkeypatch.setattr(Prover, "of", mended_first)
    prove_all(root, pages=False)
    monkeypatch.setattr(Prover, "of", read)
    bed.write_text(NO_UNIT, encoding="utf-8")
    assert any(problem.code == "bad-length" for problem in prove_all(root, pages=False).problems)


def test_a_changed_licence_of_the_collection_makes_the_patterns_without_one_anew(
        tmp_path: Path, made: list[str]) -> None:
    root = project(tmp_path, OTHER)
    source = root / "patterns" / "harbour-front" / "pattern.yaml"
    source.write_text(source.read_text().replace("licence: CC BY-NC 4.0\n", ""))
    settings = root / "patterns" / "collection.yaml"
    spoilt = "licence: CC0 1.0\nabuot: Warm.\n"  # nothing holds of it, as in the first state
    for text, anew in (("", True), ("licence: CC BY 4.0\n", True), ("licence: CC0 1.0\n", True),
                       ("licence: CC0 1.0\nabout: Warm.\n", False), (spoilt, False),
                       ("licence: CC0 1.0\n", False)):
        made.clear()
        settings.write_text(f"title: Quay\n{text}")
        results = prove_all(root, pages=True)
        assert [slug for slug in made if slug != OTHER] == ["harbour-front"] * anew, text
        assert results.rendered() == collect(root).rendered()
        assert dict(results.texts()) == dict(collect(root).texts())


def test_a_link_to_nothing_that_is_taken_away_leaves_no_finding(tmp_path: Path, made: list[str]
                                                                ) -> None:
    root = collection_of_one(tmp_path)
    settings = root / "patterns" / "collection.yaml"
    settings.symlink_to(root / "patterns" / "nothing.yaml")
    assert any(each.code == "unreadable" for each in prove_all(root, pages=False).problems)
    settings.unlink()
    assert not any(each.code == "unreadable" for each in prove_all(root, pages=False).problems)
