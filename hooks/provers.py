"""Processes that prove patterns while others are shown, and what they answer."""

from __future__ import annotations

import contextlib
import json
import subprocess
import sys
import threading
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from walebook.core.problems import Problem, Severity
from walebook_site.cache import CacheEntry, UnfitEntry, unpack
from walebook_site.prover import as_bytes
from walebook_site.results import from_json


@dataclass(frozen=True, slots=True)
class ProverAnswer:
    """What came of a pattern: its findings, and its entry, or the text of the page asked for.

    `shared` are the findings in files that all patterns share: beds, and the collection's settings.
    `lines` has the author's line of a finding by "file:line". `missing` names a page that the
    pattern has not. `fault` is said where our own code could not answer.
    """

    problems: tuple[Problem, ...] = ()
    shared: tuple[Problem, ...] = ()
    lines: dict[str, str] = field(default_factory=dict)
    draft: bool = False
    entry: CacheEntry | None = None
    page: str = ""
    title: str = ""
    text: str = ""
    missing: str = ""
    fault: str = ""

    @property
    def has_errors(self) -> bool:
        """True where nothing can be shown of it."""
        return any(each.severity is Severity.ERROR for each in self.problems)


class ProverProcess:
    """A process that proves one pattern at a time; whoever asks waits for the answer."""

    def __init__(self, root: Path, *, kindly: bool) -> None:
        self._root, self._kindly = root, kindly
        self._turn = threading.Lock()
        self._process: subprocess.Popen[str] | None = None

    def ask(self, do: str, slug: str, page: str = "") -> ProverAnswer | None:
        """Return what came of a pattern, None where the process was stopped meanwhile.

        `do` is "page" or "whole".
        """
        data = self._answer_to({"do": do, "slug": slug, "page": page})
        return None if data is None or "stale" in data else _read(data)

    def reload(self) -> str:
        """Let the process load changed code; return what is wrong with that code, "" if nothing."""
        if self._process is None:
            return ""
        data = self._answer_to({"do": "reload"}) or {}
        return str(data.get("fault", ""))

    def stop(self) -> None:
        """End the process."""
        process, self._process = self._process, None
        if process is not None:
            process.kill()
            process.wait()
            for stream in (process.stdin, process.stdout):
                with contextlib.suppress(OSError):
                    if stream:
                        stream.close()

    def _answer_to(self, request: dict[str, Any]) -> dict[str, Any] | None:
        with self._turn:
            process = self._running()
            assert process.stdin is not None and process.stdout is not None
            try:
                process.stdin.write(json.dumps(request) + "\n")
                process.stdin.flush()
                answer: dict[str, Any] = json.loads(process.stdout.readline())
            except (OSError, ValueError) as fault:
                if self._process is not process:
                    return None
                self.stop()
                return {"fault": f"The process that knits has ended ({fault})."}
            return answer

    def _running(self) -> subprocess.Popen[str]:
        if self._process is None or self._process.poll() is not None:
            words = ["kindly"] if self._kindly else []
            self._process = subprocess.Popen(
                [sys.executable, "-m", "walebook_site.prover", str(self._root), *words],
                stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True, encoding="utf-8")
        return self._process


def _read(fields: dict[str, Any]) -> ProverAnswer:
    if "fault" in fields:
        return ProverAnswer(fault=fields["fault"])
    problems = tuple(map(from_json, fields["problems"]))
    common = {"problems": problems, "shared": tuple(map(from_json, fields["shared"])),
              "lines": fields["lines"], "draft": fields["draft"]}
    if "file" in fields:
        path = Path(fields["file"]) if fields["file"] else None
        try:
            data = path.read_bytes() if path else as_bytes(fields["data"])
            return ProverAnswer(**common, entry=unpack(data, path))
        except (OSError, UnfitEntry) as fault:
            return ProverAnswer(fault=f"{path} was lost: {fault}")
    return ProverAnswer(**common, page=fields.get("page", ""), text=fields.get("text", ""),
                        title=fields.get("title", ""), missing=fields.get("missing", ""))
