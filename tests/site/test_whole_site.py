"""A site is whole, or it is the old one: kills, full disks, late faults, two builds at once.

What is expected is a law: after whatever happened the site's folder is, byte for byte, the old site
or the new one, each as an undisturbed build makes it.
"""

from __future__ import annotations

import os
import random
import shutil
import signal
import socket
import subprocess
import time
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path
from urllib.error import HTTPError

import pytest
from walebook_site.lock import take

from tests.site.builds import (
    Commands,
    Tree,
    change,
    commands,
    left_beside,
    make_project,
    tree,
    wait_for,
)

BUILD = ("mkdocs", "build", "--quiet")
AS_IT_WAS = "site is as it was."


@pytest.fixture(scope="module")
def loaded() -> Iterator[Commands]:
    with commands() as process:
        yield process


@dataclass
class Trial:
    """A project whose sources were changed since its site was built; both sites as they must be."""

    root: Path
    old: Tree
    new: Tree

    @property
    def site(self) -> Path:
        return self.root / "site"

    @property
    def now(self) -> Tree:
        """What is served."""
        return tree(self.site)

    def again(self) -> None:
        """Put the old site back, as if nothing had happened."""
        for folder in (self.site, self.root / ".site.walebook"):
            shutil.rmtree(folder, ignore_errors=True)
        shutil.copytree(self.root / "old", self.site)

    def is_old(self, *, beside: tuple[str, ...] = ()) -> bool:
        """True when nothing changed and nothing is left over."""
        return self.now == self.old and left_beside(self.site) == list(beside)


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory, loaded: Commands) -> Trial:
    root = make_project(tmp_path_factory.mktemp("whole"))
    assert loaded.run(root, *BUILD).code == 0
    (root / "site").rename(root / "old")
    change(root)
    assert loaded.run(root, *BUILD).code == 0
    trial = Trial(root, tree(root / "old"), tree(root / "site"))
    assert trial.old != trial.new and "patterns/harbour-front/index.html" in trial.old
    assert "patterns/harbour-band/one-size-single-file.html" in trial.new
    assert b"const EDITION = {" in (trial.new["sw.js"] or b"")
    return trial


@pytest.fixture
def trial(made: Trial) -> Trial:
    made.again()
    return made


def operations(loaded: Commands, trial: Trial) -> list[str]:
    """What an undisturbed build does to files, in its order."""
    log = trial.root / "log"
    assert loaded.run(trial.root, *BUILD, log=str(log)).code == 0
    done = log.read_text().split()
    log.unlink()
    return done


def kill_and_build(loaded: Commands, trial: Trial, kill_at: int) -> Tree:
    """Kill a build before one of its operations, look, build again; return what was served."""
    trial.again()
    assert loaded.run(trial.root, *BUILD, kill_at=kill_at).killed
    served = trial.now
    assert served in (trial.old, trial.new), f"half a site, killed before operation {kill_at}"
    after = loaded.run(trial.root, *BUILD)
    assert after.code == 0, after.printed
    assert trial.now == trial.new and left_beside(trial.site) == []
    return served


def test_a_build_that_is_killed_leaves_the_old_site_or_the_new_one(
        loaded: Commands, trial: Trial) -> None:
    """One kill in each twentieth of the build; the long run kills at 200 places more."""
    most = len(operations(loaded, trial))
    drawn = random.Random(9)
    for twentieth in range(20):
        kill_and_build(loaded, trial, drawn.randint(
            twentieth * most // 20 + 1, (twentieth + 1) * most // 20))


def test_a_kill_around_the_exchange_leaves_the_old_site_or_the_new_one(
        loaded: Commands, trial: Trial) -> None:
    done = operations(loaded, trial)
    exchange = len(done) - done[::-1].index("ctypes.dlsym")
    assert kill_and_build(loaded, trial, exchange) == trial.old
    assert kill_and_build(loaded, trial, exchange + 1) == trial.new
    assert kill_and_build(loaded, trial, len(done)) == trial.new


def kill_at_a_pdf(loaded: Commands, trial: Trial) -> None:
    """Kill a build that makes PDFs when the first of them stands in the new folder, and look."""
    assert loaded.run(trial.root, *BUILD, kill_after=".pdf").killed
    begun = sorted(path.name for path in (trial.root / ".site.walebook").rglob("*.pdf"))
    assert begun == ["one-size.pdf"] and trial.now == trial.old


def test_a_kill_during_the_pdfs_leaves_the_old_site(loaded: Commands, trial: Trial) -> None:
    with changed(trial.root / "mkdocs.yml", "pdf: false", "pdf: true"):
        kill_at_a_pdf(loaded, trial)
    assert loaded.run(trial.root, *BUILD).code == 0
    assert trial.now == trial.new and left_beside(trial.site) == []


@pytest.mark.long
def test_kills_among_the_pdfs_leave_the_old_site_or_the_new_one(
        loaded: Commands, trial: Trial) -> None:
    """At the first PDF, and at any moment of a build that makes them."""
    with changed(trial.root / "mkdocs.yml", "pdf: false", "pdf: true"):
        began = time.monotonic()
        assert loaded.run(trial.root, *BUILD).code == 0
        printed, lasts = trial.now, time.monotonic() - began
        assert [name for name in printed if name.endswith(".pdf")]
        drawn = random.Random(20)
        for kill in range(5):
            trial.again()
            if not kill:
                kill_at_a_pdf(loaded, trial)
            else:
                loaded.start(trial.root, *BUILD)
                time.sleep(drawn.uniform(0, lasts))
                with suppress(ProcessLookupError):  # it was quicker this time
                    os.kill(loaded.pid, signal.SIGKILL)
                loaded.end()
            assert trial.now in (trial.old, printed)
            assert loaded.run(trial.root, *BUILD).code == 0
            assert trial.now == printed and left_beside(trial.site) == []


@pytest.mark.long
def test_three_hundred_killed_builds_leave_the_old_site_or_the_new_one(
        loaded: Commands, trial: Trial) -> None:
    most = len(operations(loaded, trial))
    drawn = random.Random(300)
    for _ in range(200):
        kill_and_build(loaded, trial, drawn.randint(1, most))
    for _ in range(100):  # at any moment, not only between what changes files
        trial.again()
        loaded.start(trial.root, *BUILD)
        time.sleep(drawn.uniform(0, 0.5))
        os.kill(loaded.pid, signal.SIGKILL)
        loaded.end()
        assert trial.now in (trial.old, trial.new)
        assert loaded.run(trial.root, *BUILD).code == 0
        assert trial.now == trial.new and left_beside(trial.site) == []


@pytest.mark.parametrize("command", ["build", "check", "pages", "serve"])
def test_the_next_command_completes_a_swap_of_two_renames(
        loaded: Commands, trial: Trial, command: str) -> None:
    """Where folders cannot be exchanged in one call there is a moment without a site."""
    interrupt_between_renames(loaded, trial)
    if command == "serve":
        with served(loaded, trial.root):
            assert trial.now == trial.new
        return
    args = {"build": (*BUILD, "--site-dir", "site"), "check": ("walebook", "check"),
            "pages": ("walebook", "pages", "plain")}[command]
    ended = loaded.run(trial.root, *args)
    assert ended.code == 0 and trial.now == trial.new and left_beside(trial.site) == []
    shutil.rmtree(trial.root / "plain", ignore_errors=True)
    if command == "check":
        assert f"The interrupted build of {trial.root}/site was completed" in ended.printed


def interrupt_between_renames(loaded: Commands, trial: Trial) -> None:
    """Kill a build when the old site is away and the new one is not yet there."""
    assert loaded.run(trial.root, *BUILD, two_renames=True).killed
    assert not trial.site.exists()


def test_a_swap_is_completed_by_a_build_that_then_fails(loaded: Commands, trial: Trial) -> None:
    interrupt_between_renames(loaded, trial)
    with changed(trial.root / "patterns" / "harbour-band" / "pattern.yaml", "title:", "titel:"):
        assert loaded.run(trial.root, *BUILD).code == 1
    assert trial.now == trial.new and left_beside(trial.site) == []


def test_a_completing_leaves_a_running_build_alone(loaded: Commands, trial: Trial) -> None:
    interrupt_between_renames(loaded, trial)
    held = take(trial.root / ".site.walebook" / "lock")
    try:
        assert loaded.run(trial.root, "walebook", "check").code == 0
        assert not trial.site.exists()
    finally:
        held.release()


# -- what the machine refuses ----------------------------------------------------------------------


def test_a_write_that_is_refused_leaves_the_old_site(loaded: Commands, trial: Trial) -> None:
    largest = max(len(content or b"") for content in trial.new.values())
    for most in (2000, largest - 1):
        ended = loaded.run(trial.root, *BUILD, fsize=most)
        assert ended.code == 1 and trial.is_old()
        assert "The site was not built: File too large" in ended.printed
        assert AS_IT_WAS in ended.printed and "Traceback" not in ended.printed


@contextmanager
def mounted(folder: Path, *options: str) -> Iterator[None]:
    """A small separate disk on a folder; skips the test where that is not allowed."""
    folder.mkdir(exist_ok=True)
    done = subprocess.run(["mount", "-t", "tmpfs", *options, "walebook", str(folder)],
                          check=False, capture_output=True)
    if done.returncode:
        folder.rmdir()
        pytest.skip("a disk can be mounted by root alone")
    try:
        yield
    finally:
        subprocess.run(["umount", str(folder)], check=True)
        folder.rmdir()


def test_a_full_disk_leaves_the_old_site(loaded: Commands, trial: Trial) -> None:
    disk = trial.root / "disk"
    size = sum(len(content or b"") for content in trial.old.values()) // 1024
    with mounted(disk, "-o", f"size={size * 3 // 2 + len(trial.old) * 4}k"):
        site = shutil.copytree(trial.root / "old", disk / "site")
        ended = loaded.run(trial.root, *BUILD, "-d", str(site))
        assert ended.code == 1 and tree(site) == trial.old and left_beside(site) == []
        assert "The site was not built: No space left on device" in ended.printed
        assert "Traceback" not in ended.printed


@pytest.mark.parametrize("closed", ["site", "."])
def test_a_folder_that_cannot_be_written_leaves_the_old_site(
        loaded: Commands, trial: Trial, closed: str) -> None:
    folder = trial.root / "closed"
    site = shutil.copytree(trial.root / "old", folder / "site")
    (folder / closed).chmod(0o555)
    try:
        ended = loaded.run(trial.root, *BUILD, "-d", str(site), modes=True)
        assert ended.code == 1 and tree(site) == trial.old and left_beside(site) == []
        assert f"{(folder / closed).resolve()} cannot be written" in ended.printed
        assert "Traceback" not in ended.printed
    finally:
        (folder / closed).chmod(0o755)
        shutil.rmtree(folder)


def test_a_missing_pdf_library_leaves_the_old_site(loaded: Commands, trial: Trial) -> None:
    with changed(trial.root / "mkdocs.yml", "pdf: false", "pdf: true"):
        ended = loaded.run(trial.root, *BUILD, without="weasyprint")
    assert ended.code == 1 and trial.is_old()
    assert "pip install 'walebook[pdf]'" in ended.printed and "Traceback" not in ended.printed


# -- what is found late ----------------------------------------------------------------------------


@contextmanager
def changed(file: Path, old: str, new: str) -> Iterator[None]:
    """A file in which something else stands for a while."""
    before = file.read_text()
    assert old in before
    file.write_text(before.replace(old, new))
    try:
        yield
    finally:
        file.write_text(before)


@contextmanager
def hook(trial: Trial, text: str) -> Iterator[None]:
    """A hook of the designer's own beside ours."""
    (trial.root / "own.py").write_text("from mkdocs.plugins import event_priority\n" + text)
    try:
        with changed(trial.root / "mkdocs.yml", "patterns.py]", "patterns.py, own.py]"):
            yield
    finally:
        (trial.root / "own.py").unlink()


@pytest.mark.parametrize("event", ["config", "files", "page_markdown", "env", "post_page",
                                   "post_build"])
def test_a_late_fault_in_any_hook_leaves_the_old_site(
        loaded: Commands, trial: Trial, event: str) -> None:
    text = f"@event_priority(-1000)\ndef on_{event}(*a, **k):\n    raise RuntimeError('late')\n"
    with hook(trial, text):
        ended = loaded.run(trial.root, *BUILD)
    assert ended.code == 1 and "RuntimeError: late" in ended.printed
    assert trial.is_old()


def test_a_hook_that_ends_the_process_leaves_the_old_site(loaded: Commands, trial: Trial) -> None:
    with hook(trial, "def on_post_page(*a, **k):\n    raise KeyboardInterrupt\n"):
        assert loaded.run(trial.root, *BUILD).code != 0
    assert trial.is_old()


@pytest.mark.parametrize("options", [[], ["--quiet"], ["--strict"], ["--quiet", "--strict"]])
def test_a_broken_link_in_strict_mode_leaves_the_old_site(
        loaded: Commands, trial: Trial, options: list[str]) -> None:
    with changed(trial.root / "docs" / "more.md", "# More", "# More\n\n[gone](gone.md)"):
        ended = loaded.run(trial.root, "mkdocs", "build", *options)
    assert ended.code == 1 and trial.is_old()
    assert "1 warning in strict mode" in ended.printed
    assert ("gone.md" in ended.printed) == ("--quiet" not in options)


def test_a_broken_link_is_only_told_where_strict_mode_is_off(
        loaded: Commands, trial: Trial) -> None:
    with changed(trial.root / "docs" / "more.md", "# More", "# More\n\n[gone](gone.md)"):
        ended = loaded.run(trial.root, "mkdocs", "build", "--no-strict")
    assert ended.code == 0 and "gone.md" in ended.printed
    assert trial.now.keys() == trial.new.keys() and b"gone.md" in (trial.now["more.html"] or b"")


# -- two builds at once ----------------------------------------------------------------------------


WAITS = """\
import pathlib, time
def on_env(env, config, **k):
    root = pathlib.Path(config.config_file_path).parent
    (root / "reached").touch()
    while not (root / "go").exists():
        time.sleep(0.01)
"""


@contextmanager
def waiting_build(loaded: Commands, trial: Trial) -> Iterator[None]:
    """A build that stands still in the middle; its files to wait by are taken away afterwards."""
    with hook(trial, WAITS):
        loaded.start(trial.root, *BUILD)
        wait_for(trial.root / "reached")
    try:
        yield
    finally:
        loaded.stop()
        for name in ("reached", "go"):
            (trial.root / name).unlink(missing_ok=True)


def test_of_two_builds_at_once_the_second_stops_and_the_first_is_whole(
        loaded: Commands, trial: Trial) -> None:
    with waiting_build(loaded, trial), commands() as other:
        second = other.run(trial.root, *BUILD)
        assert second.code == 1 and trial.now == trial.old
        assert f"another build of {trial.site} is running (process {loaded.pid}, since" in (
            second.printed)
        (trial.root / "go").touch()
        assert loaded.end().code == 0
    assert trial.now == trial.new and left_beside(trial.site) == []


def test_a_dead_process_holds_no_lock(loaded: Commands, trial: Trial) -> None:
    with waiting_build(loaded, trial):
        os.kill(loaded.pid, signal.SIGKILL)
        assert loaded.end().killed
    assert trial.is_old(beside=(".site.walebook",))
    assert loaded.run(trial.root, *BUILD).code == 0
    assert trial.now == trial.new and left_beside(trial.site) == []


# -- where the site goes ---------------------------------------------------------------------------


@pytest.mark.parametrize("relative", [True, False])
def test_the_folder_named_with_d_is_replaced_whole(
        loaded: Commands, trial: Trial, relative: bool) -> None:
    site = shutil.copytree(trial.root / "old", trial.root / "else" / "where")
    named = "else/where" if relative else str(site)
    assert loaded.run(trial.root, *BUILD, "-d", named).code == 0
    assert tree(site) == trial.new and left_beside(site) == [] and trial.is_old()
    shutil.rmtree(trial.root / "else")


def test_a_link_is_followed_and_stays(loaded: Commands, trial: Trial) -> None:
    site = shutil.copytree(trial.root / "old", trial.root / "real" / "site")
    (trial.root / "link").symlink_to("real/site")
    assert loaded.run(trial.root, *BUILD, "-d", "link").code == 0
    assert (trial.root / "link").is_symlink()
    assert tree(site) == trial.new and left_beside(site) == []
    (trial.root / "link").unlink()
    shutil.rmtree(trial.root / "real")


def test_a_mount_point_is_refused(loaded: Commands, trial: Trial) -> None:
    disk = trial.root / "disk"
    with mounted(disk):
        shutil.copytree(trial.root / "old", disk, dirs_exist_ok=True)
        ended = loaded.run(trial.root, *BUILD, "-d", str(disk))
        assert ended.code == 1 and tree(disk) == trial.old
        assert "is a mount point" in ended.printed and str(disk / "site") in ended.printed


def test_a_folder_that_cannot_be_moved_is_told(loaded: Commands, trial: Trial) -> None:
    """A container whose image has the site: its lowest layer cannot be moved."""
    disk = trial.root / "disk"
    with mounted(disk):
        for name in ("upper", "work", "merged"):
            (disk / name).mkdir()
        shutil.copytree(trial.root / "old", disk / "lower" / "site")
        layers = f"lowerdir={disk}/lower,upperdir={disk}/upper,workdir={disk}/work"
        if subprocess.run(["mount", "-t", "overlay", "-o", f"{layers},redirect_dir=off", "walebook",
                           str(disk / "merged")], check=False, capture_output=True).returncode:
            pytest.skip("this system cannot lay one folder over another (overlay)")
        try:
            site = disk / "merged" / "site"
            ended = loaded.run(trial.root, *BUILD, "-d", str(site))
            assert ended.code == 1 and tree(site) == trial.old and left_beside(site) == []
            assert "cannot move it: remove it, or name another folder" in ended.printed
        finally:
            subprocess.run(["umount", str(disk / "merged")], check=True)


def test_a_deployed_site_is_the_new_one(
        loaded: Commands, trial: Trial, tmp_path: Path) -> None:
    """The site builder's own deploying reads the site's folder when the build has ended."""
    git = ("git", "-c", "user.name=Wren", "-c", "user.email=wren@example.org", "-C")
    subprocess.run(["git", "init", "-q", "--bare", str(tmp_path)], check=True)
    for command in (("init", "-q"), ("remote", "add", "origin", str(tmp_path)),
                    ("config", "user.name", "Wren"), ("config", "user.email", "w@example.org"),
                    ("commit", "-q", "--allow-empty", "-m", "Start")):
        subprocess.run([*git, str(trial.root), *command], check=True)
    try:
        ended = loaded.run(trial.root, "mkdocs", "gh-deploy", "-q", "--ignore-version")
        assert ended.code == 0, ended.printed
    finally:
        shutil.rmtree(trial.root / ".git")
    listed = subprocess.run([*git, str(tmp_path), "ls-tree", "-r", "--name-only", "gh-pages"],
                            check=True, capture_output=True, text=True).stdout.split()
    assert set(listed) == {path for path, content in trial.new.items() if content is not None} | {
        ".nojekyll"}
    assert trial.now == trial.new


@pytest.mark.parametrize("named", ["patterns", "patterns/harbour-band", "theme", ".", "link",
                                   "docs", "mkdocs.yml", "other"])
def test_no_folder_is_replaced_that_is_not_a_site(
        loaded: Commands, trial: Trial, named: str) -> None:
    (trial.root / "link").symlink_to("docs")
    (trial.root / "other").mkdir()
    (trial.root / "other" / "letter.txt").write_text("not a site")
    before = tree(trial.root)
    ended = loaded.run(trial.root, *BUILD, "-d", named)
    (trial.root / "link").unlink()
    assert ended.code == 1 and "Traceback" not in ended.printed
    after = tree(trial.root)
    assert {path: before[path] for path in after} == after
    assert before.keys() - after.keys() <= {p for p in before if p.startswith("link")}
    shutil.rmtree(trial.root / "other")


def test_hidden_files_of_the_site_stay(loaded: Commands, trial: Trial) -> None:
    """The site builder never cleans them: a server's own rules, a repository."""
    (trial.site / ".htaccess").write_text("Options -Indexes\n")
    (trial.site / ".git" / "refs" / "heads").mkdir(parents=True)
    (trial.site / ".git" / "refs").chmod(0o700)
    assert loaded.run(trial.root, *BUILD).code == 0
    assert trial.now == trial.new | {".htaccess": b"Options -Indexes\n", ".git": None,
                                     ".git/refs": None, ".git/refs/heads": None}
    assert (trial.site / ".git" / "refs").stat().st_mode & 0o777 == 0o700


def test_the_site_keeps_its_rights(loaded: Commands, trial: Trial) -> None:
    trial.site.chmod(0o2750)
    assert loaded.run(trial.root, *BUILD).code == 0
    assert trial.site.stat().st_mode & 0o7777 == 0o2750


def test_a_dirty_build_is_refused(loaded: Commands, trial: Trial) -> None:
    ended = loaded.run(trial.root, *BUILD, "--dirty", "--no-strict")
    assert ended.code == 1 and trial.is_old()
    assert "Leave --dirty out." in ended.printed and "Traceback" not in ended.printed


@contextmanager
def served(loaded: Commands, root: Path) -> Iterator[str]:
    """The address of a preview."""
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    loaded.start(root, "mkdocs", "serve", "-a", f"127.0.0.1:{port}", "--no-livereload")
    address = f"http://127.0.0.1:{port}"
    try:
        for _ in range(1000):
            try:
                urllib.request.urlopen(address, timeout=5).close()
                break
            except OSError:
                time.sleep(0.02)
        yield address
    finally:
        os.kill(loaded.pid, signal.SIGINT)
        loaded.end()


def test_a_preview_touches_no_site_and_leaves_nothing(loaded: Commands, trial: Trial) -> None:
    with served(loaded, trial.root) as address:
        with urllib.request.urlopen(f"{address}/about.html") as page:
            assert b"The new text" in page.read()
        with pytest.raises(HTTPError):
            urllib.request.urlopen(f"{address}/sw.js")
    assert trial.is_old()
