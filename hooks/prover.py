"""A process that proves patterns for the preview; its code is loaded again when it was changed.

It is asked, and answers, in lines of JSON: `python -m walebook_site.prover ROOT`.
"""

from __future__ import annotations

import base64
import importlib
import json
import os
import sys
import time
import traceback
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any, TextIO

from walebook_site.reloading import load_again

MAKER = "walebook_site.making"
Asked = Mapping[str, Any]


def main(root: Path, asked: TextIO, answers: TextIO, *, kindly: bool) -> None:
    """Answer what is asked until there is no more; `kindly`, when nothing else is to be done."""
    if kindly and hasattr(os, "nice"):
        os.nice(10)
    maker: Callable[[Path, Asked], dict[str, Any]] | None = None
    sys.dont_write_bytecode = True  # a compiled file is known by a time in whole seconds
    for line in asked:
        wanted = json.loads(line)
        start = time.perf_counter()
        try:
            if wanted["do"] == "reload":
                load_again([Path(path) for path in wanted["files"]], MAKER)
                maker = None
            maker = maker or importlib.import_module(MAKER).answer
            answer = maker(root, wanted) if wanted["do"] != "reload" else {}
        except Exception as fault:  # of our own code, which is being changed
            answer = {"fault": "".join(traceback.format_exception(fault, limit=-4))}
        answer["took"] = time.perf_counter() - start
        answers.write(json.dumps(answer) + "\n")
        answers.flush()


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
