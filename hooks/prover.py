"""A process that proves patterns for the preview; its code is loaded again when it was changed.

It is asked, and answers, in lines of JSON: `python -m walebook_site.prover ROOT`.
"""

from __future__ import annotations

import base64
import importlib
import json
import os
import sys
import traceback
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, TextIO

from walebook_site.dependencies import code_files
from walebook_site.reloading import load_again

MAKER = "walebook_site.making"
Request = Mapping[str, Any]


@dataclass
class Code:
    """Our own code as it is loaded: the digest of each of its files."""

    files: dict[Path, bytes] = field(default_factory=dict)

    def load(self) -> None:
        """Load the code as it is now. Raises whatever it raises."""
        now = code_files()
        changed = [path for path in {*now, *self.files} if now.get(path) != self.files.get(path)]
        load_again(changed if self.files else (), MAKER)
        self.files = now
        dependencies = importlib.import_module("walebook_site.dependencies")
        dependencies.code_digest.cache_clear()
        dependencies.code_digest()

    @property
    def is_current(self) -> bool:
        """True when what is loaded is what the files say, and what entries are named by."""
        dependencies = importlib.import_module("walebook_site.dependencies")
        now = code_files()
        return (now == self.files
                and bool(dependencies.digest_of_code(now) == dependencies.code_digest()))


def main(root: Path, requests: TextIO, answers: TextIO, *, kindly: bool) -> None:
    """Answer what is asked until there is no more; `kindly`, when nothing else is to be done."""
    if kindly and hasattr(os, "nice"):
        os.nice(10)
    sys.dont_write_bytecode = True  # a compiled file is known by a time in whole seconds
    code = Code()
    for line in requests:
        wanted = json.loads(line)
        try:
            if wanted["do"] == "reload" or not code.files:
                code.load()
            answer = _answer(root, wanted, code)
        except Exception as fault:  # of our own code, which is being changed
            answer = {"fault": "".join(traceback.format_exception(fault, limit=-4))}
        answers.write(json.dumps(answer) + "\n")
        answers.flush()


def _answer(root: Path, wanted: Request, code: Code) -> dict[str, Any]:
    if wanted["do"] == "reload":
        return {}
    current = wanted["do"] != "whole" or code.is_current
    answer: dict[str, Any] = importlib.import_module(MAKER).answer(root, wanted, current=current)
    return answer


def as_text(data: bytes) -> str:
    """Return bytes as an answer can hold them."""
    return base64.b64encode(data).decode()


def as_bytes(text: str) -> bytes:
    """Return the bytes that `as_text` wrote."""
    return base64.b64decode(text)


if __name__ == "__main__":
    out = os.fdopen(os.dup(1), "w", encoding="utf-8")
    os.dup2(2, 1)  # nothing else that is printed is an answer
    main(Path(sys.argv[1]), sys.stdin, out, kindly="kindly" in sys.argv)
