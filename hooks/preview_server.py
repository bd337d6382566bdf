"""Serves a preview: answers browsers, and tells them when the page that they show was changed."""

from __future__ import annotations

import json
import logging
import re
import socket
import sys
import threading
import time
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from posixpath import normpath
from urllib.parse import parse_qs, quote, unquote, urlsplit

from walebook_site.preview_pages import Answer, Preview, changes

_log = logging.getLogger("mkdocs.plugins.walebook")
ASK = ".preview/changes"
WAIT = 25.0  # seconds that a browser's question is held open
OFTEN = 1.0  # seconds between two answers that only list other patterns
# One address, one content: the digest stands in the name.
_FOR_EVER = re.compile(r"\.[0-9a-f]{8,}\.(min\.)?(js|css)$")


class Server(ThreadingHTTPServer):
    """Answers each browser in a thread; `preview` is what it shows."""

    daemon_threads = True
    request_queue_size = 64  # they wait while a preview begins again
    preview: Preview

    def __init__(self, address: tuple[str, int], given: int | None = None) -> None:
        if ":" in address[0]:
            self.address_family = socket.AF_INET6
        super().__init__(address, Handler, bind_and_activate=False)
        if given is None:
            self.server_bind()
            self.server_activate()
        else:  # the socket of the process that this one takes over from
            self.socket.close()
            self.socket = socket.socket(fileno=given)
            self.server_address = self.socket.getsockname()[:2]
            self.server_name, self.server_port = address[0], self.server_address[1]

    def handle_error(self, request: object, client_address: object) -> None:
        """A browser that goes away is nothing to be told of."""
        if not isinstance(sys.exc_info()[1], ConnectionError):
            _log.exception("a page could not be served")


class Handler(BaseHTTPRequestHandler):
    """Answers one browser."""

    protocol_version = "HTTP/1.1"
    disable_nagle_algorithm = True
    server: Server

    def do_GET(self) -> None:
        """Answer with a page, a file, or what was changed."""
        url = urlsplit(self.path)
        base = self.server.preview.base
        path = unquote(url.path)
        if not f"{path}/".startswith(base):
            self._go(base)
            return
        whole = normpath(f"/{path[len(base):]}").lstrip("/")
        if whole == ASK:
            self._changes({name: values[0] for name, values in parse_qs(url.query).items()})
            return
        if not whole or path.endswith("/"):
            whole = f"{whole}/index.html".lstrip("/")
        self._send(self.server.preview.answer(whole), whole)

    do_HEAD = do_GET

    def _changes(self, query: dict[str, str]) -> None:
        """Answer when the page is another than the browser has seen, or when it has waited."""
        preview = self.server.preview
        path, seen, shown = (query.get(name, "") for name in ("page", "seen", "mark"))
        begun = time.monotonic()
        condition = preview.patterns.changed_or_done
        news = None
        with preview.patterns.looked_at(path):
            while news is None and time.monotonic() - begun < WAIT:
                before = preview.patterns.count
                preview = self.server.preview
                news = changes(preview, path, seen, shown)
                if news and not json.loads(news)["reload"] and not preview.patterns.is_idle and (
                        shown and time.monotonic() - begun < OFTEN):
                    news = None
                with condition:
                    if news is None and preview.patterns.count == before:
                        condition.wait(OFTEN)
        self._send(Answer((news or "{}").encode(), "application/json"), "")

    def _send(self, answer: Answer, path: str) -> None:
        tag = f'"{answer.mark}"'
        same = answer.found and self.headers.get("If-None-Match") == tag
        self.send_response(304 if same else 200 if answer.found else 404)
        text = answer.kind.startswith("text/") or answer.kind.endswith("json")
        self.send_header("Content-Type", f"{answer.kind}; charset=utf-8" if text else answer.kind)
        self.send_header("ETag", tag)
        self.send_header("Cache-Control", "max-age=31536000, immutable"
                         if _FOR_EVER.search(path) and answer.found else "no-cache")
        self.send_header("Content-Length", "0" if same else str(len(answer.body)))
        self.end_headers()
        if not same and self.command != "HEAD":
            self.wfile.write(answer.body)

    def _go(self, where: str) -> None:
        self.send_response(302)
        self.send_header("Location", quote(where))
        self.send_header("Content-Length", "0")
        self.end_headers()

    def log_message(self, format: str, *args: object) -> None:
        """Say nothing of what goes well."""
        _log.debug(format, *args)


def in_background(server: Server) -> None:
    """Begin to answer, in a thread."""
    threading.Thread(target=server.serve_forever, args=(0.1,), daemon=True).start()
