"""Reads the files of a repository as a commit has them: git is asked, and nothing is changed."""

from __future__ import annotations

import os
import subprocess
from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path, PurePosixPath

from walebook_site.shipped import OWN_PAGES

_LINK, _TREE_OF_ANOTHER = "120000", "160000"
SOURCES = ("patterns", "mkdocs.yml")
PAGES = ("site_src", OWN_PAGES)
"""Folders of which the names of the pages matter, to which notes may lead, and not their texts."""


class NotRead(Exception):
    """Why a side of a comparison cannot be read, and what to do."""


def lay_out(root: Path, name: str, into: Path, *, read: Sequence[str] = SOURCES,
            named: Sequence[str] = PAGES) -> None:
    """Write what of `root` is to be `read`, as the commit called `name` has it.

    Of the folders `named` the pages are there, and are empty. `into` is an empty folder. A link is
    written as a link, and a submodule left out. Raises NotRead where there is no git, no repository
    or no such commit, or where the clone lacks a file.
    """
    commit = _commit(root, name)
    prefix = _git(root, "rev-parse", "--show-prefix").strip()
    listed = list(_listed(root, commit, [f"{prefix}{each}" for each in (*read, *named)], prefix))
    for path in (each[0] for each in listed if each[0].parts[0] in named):
        if path.suffix == ".md":
            _target(into, path).touch()
    wanted = [each for each in listed if each[0].parts[0] in read]
    for (path, mode, _), data in zip(wanted, _contents(root, [n for _, _, n in wanted]),
                                     strict=True):
        if mode == _LINK:
            _target(into, path).symlink_to(os.fsdecode(data))
        else:
            _target(into, path).write_bytes(data)


def ever_added(root: Path, named: str) -> frozenset[PurePosixPath]:
    """Return the paths below `root` of all files that a commit up to now added under a pattern of
    names, such as "patterns/*/published.json"; of a shallow clone, of the commits that it has.

    Raises NotRead where there is no git, no repository or no commit.
    """
    printed = _git(root, "log", "--no-renames", "--diff-filter=A", "--format=", "--name-only",
                   "--relative", "-z", "--", f":(glob){named}")
    return frozenset(map(PurePosixPath, filter(None, printed.split("\0"))))


def last_commit_of(root: Path, path: str, text: str) -> str:
    """Return the number of the last commit that changed a file below `root`, "" where there is none
    or the file is not this `text` there.

    Raises NotRead where there is no git, no repository or no commit.
    """
    commit = _git(root, "log", "-1", "--format=%H", "--", path).strip()
    there = _git(root, "show", f"{commit}:./{path}", fails=True) if commit else ""
    return commit if there == text else ""


def _target(into: Path, path: PurePosixPath) -> Path:
    target = into / path
    target.parent.mkdir(parents=True, exist_ok=True)
    return target


def _commit(root: Path, name: str) -> str:
    """The number of a commit, a branch or a tag."""
    if _git(root, "rev-parse", "--is-inside-work-tree", fails=True).strip() != "true":
        raise NotRead(f"{root} is in no git repository. Name two folders: "
                      "walebook compare OLD NEW.")
    found = "" if name.startswith("-") else _git(
        root, "rev-parse", "--verify", "--quiet", f"{name}^{{commit}}", fails=True).strip()
    if found:
        return found
    if name == "HEAD":
        raise NotRead("the repository has no commit yet. Commit once, or name two folders: "
                      "walebook compare OLD NEW.")
    if _git(root, "rev-parse", "--is-shallow-repository", fails=True).strip() == "true":
        raise NotRead(f"no commit {name} is in this clone, which is shallow. Fetch the rest: "
                      "git fetch --unshallow.")
    raise NotRead(f"there is no commit, tag, folder or counts.json called {name}. `git log "
                  "--oneline` and `git tag` list commits and tags.")


def _listed(root: Path, commit: str, wanted: Sequence[str], prefix: str
            ) -> Iterator[tuple[PurePosixPath, str, str]]:
    """The files that are wanted: path from the root, mode, number of the content."""
    output = _git(root, "ls-tree", "-r", "-z", "--full-tree", commit, "--", *wanted)
    for entry in filter(None, output.split("\0")):
        head, _, name = entry.partition("\t")
        mode, _, number = head.split()[:3]
        path = PurePosixPath(name.removeprefix(prefix))
        if mode != _TREE_OF_ANOTHER and not path.is_absolute() and ".." not in path.parts:
            yield path, mode, number


def _contents(root: Path, numbers: Iterable[str]) -> Iterator[bytes]:
    """The contents of files by their numbers, in this order; one process reads them all."""
    request = "".join(f"{number}\n" for number in numbers)
    data = _run(root, "cat-file", "--batch", given=request.encode()).stdout
    start = 0
    for number in request.split():
        end = data.index(b"\n", start)
        head = data[start:end].split()
        if len(head) != 3:
            raise NotRead(f"this clone lacks a file of the commit ({number[:9]}). Fetch it: "
                          "git fetch --refetch.")
        size = int(head[2])
        yield data[end + 1:end + 1 + size]
        start = end + 2 + size


def _git(root: Path, *words: str, fails: bool = False) -> str:
    """What git prints; "" where it fails, and that is allowed."""
    done = _run(root, *words)
    if done.returncode and not fails:
        raise NotRead(f"git {words[0]} failed: {os.fsdecode(done.stderr).strip()}")
    return "" if done.returncode else os.fsdecode(done.stdout)


def _run(root: Path, *words: str, given: bytes = b"") -> subprocess.CompletedProcess[bytes]:
    quiet = {**os.environ, "GIT_OPTIONAL_LOCKS": "0", "LC_ALL": "C", "GIT_TERMINAL_PROMPT": "0"}
    try:
        return subprocess.run(["git", "-C", str(root), *words], input=given, env=quiet,
                              capture_output=True, check=False)
    except FileNotFoundError as fault:
        raise NotRead("git is not installed here. Name two folders: walebook compare OLD NEW."
                      ) from fault
