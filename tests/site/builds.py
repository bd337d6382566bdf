"""Builds of a very small site by processes that can be killed, starved and paused on purpose.

A process is loaded once and forks for each build, so that a build takes a fraction of a second.
"""

from __future__ import annotations

import atexit
import ctypes
import gc
import json
import os
import re
import resource
import shutil
import signal
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from importlib import import_module
from pathlib import Path

from walebook.pages import write_pages
from walebook_site.cache import FOLDER as CACHE
from walebook_site.processes import import_all
from walebook_site.sources import collect

ROOT = Path(__file__).parents[2]
CONFIG = """\
site_name: Lantern Quay
docs_dir: docs
site_dir: {site_dir}
use_directory_urls: false
strict: true
theme: {{name: null, custom_dir: theme, static_templates: [404.html]}}
plugins: []
hooks: [{hooks}]
markdown_extensions: [attr_list, md_in_html, tables]
extra: {{walebook: {{single_files: {single_files}, pdf: {pdf}}}}}
"""
PAGE = """\
<!doctype html>
<html lang="en"><head><meta charset="utf-8"><title>{{ page.title or "Not found" }}</title></head>
<body><article>{{ page.content }}</article></body></html>
"""
Tree = dict[str, bytes | None]


def make_project(root: Path, *, site_dir: str = "site", hooks: tuple[str, ...] = (),
                 single_files: bool = True, pdf: bool = False) -> Path:
    """Write a project with two pages, the worker and one pattern in one size."""
    docs = root / "docs"
    (docs / "assets").mkdir(parents=True)
    for name in (".worker", ".preview"):
        shutil.copytree(ROOT / "site_src" / name, docs / name)
    (docs / "offline.md").write_text("# Without a signal\n")
    for name in ("walebook-mark.svg", "alone.css"):
        shutil.copy(ROOT / "site_src" / "assets" / name, docs / "assets")
    (docs / "index.md").write_text(
        "<!-- walebook:collection -->\n\n<!-- walebook:pattern-list -->\n")
    (docs / "about.md").write_text("# About\n\nThe old text.\n")
    (root / "theme").mkdir()
    for name in ("main.html", "404.html"):
        (root / "theme" / name).write_text(PAGE)
    names = ", ".join((str(ROOT / "hooks" / "patterns.py"), *hooks))
    (root / "mkdocs.yml").write_text(CONFIG.format(
        site_dir=site_dir, hooks=names, single_files=str(single_files).lower(),
        pdf=str(pdf).lower()))
    shutil.copytree(ROOT / "patterns" / "_beds", root / "patterns" / "_beds")
    (root / "patterns" / "harbour-front").mkdir()
    smallest = (ROOT / "tests" / "sources" / "smallest.yaml").read_text(encoding="utf-8")
    (root / "patterns" / "harbour-front" / "pattern.yaml").write_text(smallest, encoding="utf-8")
    for path in _linked(root):
        (docs / path).parent.mkdir(exist_ok=True)
        (docs / path).with_suffix(".md").write_text(f"# {path}\n")
    return root


def _linked(root: Path) -> set[str]:
    """The pages of the site that the pattern's pages link to."""
    (proof,) = collect(root).proofs
    text = "".join(page.text for page in write_pages(proof))
    return set(re.findall(r"\.\./\.\./((?:\w+/)?[\w-]+)\.(?:md|html)", text))


def change(root: Path) -> None:
    """Write the sources of the new site: a changed page, one more, and a pattern renamed."""
    (root / "docs" / "about.md").write_text("# About\n\nThe new text, and more of it.\n")
    (root / "docs" / "more.md").write_text("# More\n")
    (root / "patterns" / "harbour-front").rename(root / "patterns" / "harbour-band")


def tree(folder: Path) -> Tree:
    """Everything in a folder but the cache: the bytes of each file, None for each folder."""
    return {path.relative_to(folder).as_posix(): None if path.is_dir() else path.read_bytes()
            for path in sorted(folder.rglob("*"))
            if CACHE not in path.relative_to(folder).parts}


def left_beside(folder: Path) -> list[str]:
    """What stands hidden beside a folder, but for the cache, which is kept on purpose."""
    return sorted(path.name for path in folder.parent.glob(".*") if path.name != CACHE)


@dataclass(frozen=True, slots=True)
class Ended:
    """How a command ended: its code, below 0 for a signal, and all it printed."""

    code: int
    printed: str

    @property
    def killed(self) -> bool:
        """True when it was ended by SIGKILL."""
        return self.code == -signal.SIGKILL


@dataclass
class Commands:
    """The loaded process that forks for each command; one command at a time."""

    process: subprocess.Popen[str]
    printed: Path
    pid: int = 0
    running: bool = False

    def start(self, cwd: Path, *args: str, **trouble: object) -> None:
        """Start `mkdocs` or `walebook` with its arguments, in trouble of the given kinds.

        `kill_at`: SIGKILL before that file operation; `kill_after`: after a file was begun whose
        name ends so, before the next operation; `log`: a file that lists them; `fsize`: the
        largest file [bytes]; `without`: a library that is not there; `two_renames`: no single call,
        and SIGKILL between the renames; `modes`: file modes hold for root too. Nothing is in the
        cache, so that every command does all that there is to do.
        """
        shutil.rmtree(cwd / CACHE, ignore_errors=True)
        asked = {"args": args, "cwd": str(cwd), "out": str(self.printed), "trouble": trouble}
        assert self.process.stdin is not None and self.process.stdout is not None
        self.process.stdin.write(json.dumps(asked) + "\n")
        self.process.stdin.flush()
        self.pid = int(self.process.stdout.readline())
        self.running = True

    def end(self) -> Ended:
        """Wait for the command's end."""
        assert self.process.stdout is not None
        code = int(self.process.stdout.readline())
        self.running = False
        return Ended(code, self.printed.read_text(encoding="utf-8", errors="replace"))

    def stop(self) -> None:
        """Kill the command if it is running."""
        if self.running:
            os.kill(self.pid, signal.SIGKILL)
            self.end()

    def run(self, cwd: Path, *args: str, **trouble: object) -> Ended:
        """Run a command to its end."""
        self.start(cwd, *args, **trouble)
        return self.end()


@contextmanager
def commands() -> Iterator[Commands]:
    """A loaded process, ended with the block."""
    process = subprocess.Popen(
        [sys.executable, "-m", "tests.site.builds"], cwd=ROOT, text=True,
        stdin=subprocess.PIPE, stdout=subprocess.PIPE,
        env={**os.environ, "NO_MKDOCS_2_WARNING": "1", "DISABLE_MKDOCS_2_WARNING": "true",
             "SOURCE_DATE_EPOCH": "1780000000"})
    try:
        with tempfile.TemporaryDirectory() as folder:
            yield Commands(process, Path(folder) / "printed")
    finally:
        assert process.stdin is not None
        process.stdin.close()
        process.wait()


def wait_for(path: Path) -> None:
    """Wait until a file is there."""
    for _ in range(3000):
        if path.exists():
            return
        time.sleep(0.01)
    raise TimeoutError(path)


# -- in the loaded process ------------------------------------------------------------------------

_CHANGES = {"os.mkdir", "os.rename", "os.remove", "os.rmdir", "os.link", "os.chmod", "os.truncate",
            "os.symlink", "ctypes.dlsym"}


def _watch(kill_at: int | None, after: str | None, log: str | None) -> None:
    """Note what changes files, and end this process before the one asked for, or after
    a file whose name ends so was opened to be written."""
    seen: list[str] = []

    def hook(event: str, args: tuple[object, ...]) -> None:
        if event == "open":
            flags = args[2]
            if not (isinstance(flags, int) and flags & (os.O_WRONLY | os.O_RDWR)):
                return
        elif event not in _CHANGES:
            return
        if seen and after and seen[-1].endswith(after):
            os.kill(os.getpid(), signal.SIGKILL)
        seen.append(f"open {args[0]}" if after and event == "open" else event)
        between = kill_at == 0 and event == "os.rename" and str(args[0]).endswith("/new")
        if len(seen) == kill_at or between:
            os.kill(os.getpid(), signal.SIGKILL)

    sys.addaudithook(hook)
    if log:
        atexit.register(lambda: Path(log).write_text("\n".join(seen)))


def _obey_modes() -> None:
    """Let go of what root may do beyond the modes of files: the capabilities 1, 2 and 3."""
    libc = ctypes.CDLL(None)
    header = (ctypes.c_uint32 * 2)(0x20080522, 0)
    data = (ctypes.c_uint32 * 6)()
    libc.capget(header, data)
    for at in (0, 1):
        data[at] &= ~0b1110
    libc.capset(header, data)


def _trouble(kill_at: int | None = None, kill_after: str | None = None, log: str | None = None,
             fsize: int | None = None, without: str | None = None, two_renames: bool = False,
             modes: bool = False) -> None:
    if without:
        sys.modules[without] = None  # type: ignore[assignment]
    if two_renames:
        from walebook_site import exchange

        exchange._exchange = lambda one, other: False
        kill_at = 0
    if modes:
        _obey_modes()
    if fsize:
        resource.setrlimit(resource.RLIMIT_FSIZE, (fsize, fsize))
    _watch(kill_at, kill_after, log)


def _run(args: list[str]) -> None:
    from mkdocs.__main__ import cli
    from walebook_site.command import main

    sys.argv = args
    sys.exit(cli() if args[0] == "mkdocs" else main(args[1:]))


def _serve() -> None:
    """Fork for each command that is asked for on the standard input."""
    for module in ("mkdocs.commands.build", "mkdocs.commands.serve", "walebook_site.patterns"):
        import_module(module)
    import_all()
    collect(ROOT / "tests")
    gc.freeze()  # what the forks share stays, and no collector looks at it, and so copies it
    for line in sys.stdin:
        asked = json.loads(line)
        child = os.fork()
        if not child:
            out = os.open(asked["out"], os.O_WRONLY | os.O_CREAT | os.O_TRUNC)
            for stream in (1, 2):
                os.dup2(out, stream)
            os.chdir(asked["cwd"])
            signal.signal(signal.SIGINT, signal.default_int_handler)  # ignored behind a shell's `&`
            _trouble(**asked["trouble"])
            _run(asked["args"])
        print(child, flush=True)
        print(os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]), flush=True)


if __name__ == "__main__":
    _serve()
