"""Writes into each page what it may load: its own files, and nothing from anywhere else."""

from __future__ import annotations

import re
from base64 import b64encode
from functools import cache
from hashlib import sha256

_INLINE = re.compile(r"<script(?![^>]*\bsrc=)([^>]*)>(.*?)</script>", re.DOTALL)
_CHARSET = re.compile(r'<meta charset="utf-8"\s*/?>', re.IGNORECASE)


def guard(html: str, *, alone: bool = False) -> str:
    """Return the page with a content security policy behind its character set.

    The inline scripts that stand in it are allowed by their digests, so that none can be slipped
    in later. `alone` is for a page that holds everything itself and may load nothing at all.
    Raises ValueError when the page names no character set, for the policy must precede all else.
    """
    hashes = " ".join(dict.fromkeys(
        _hash(text) for attributes, text in _INLINE.findall(html) if _runs(attributes)))
    rules = _alone(hashes) if alone else _site(hashes)
    meta = f'<meta http-equiv="Content-Security-Policy" content="{"; ".join(rules)}">'
    guarded, found = _CHARSET.subn(lambda charset: charset[0] + meta, html, count=1)
    if not found:
        raise ValueError("a page without a character set cannot be given a policy")
    return guarded


def _site(hashes: str) -> tuple[str, ...]:
    """From disk 'self' is not the same in every browser: there, file: says what it should.

    Served, file: allows nothing: no browser lets a served page read from the disk.
    """
    return (
        "default-src 'self' file:", f"script-src 'self' file: {hashes}".rstrip(),
        "style-src 'self' file: 'unsafe-inline'", "img-src 'self' file: data:",
        "connect-src 'self'", "worker-src 'self' blob:", "object-src 'none'",
        "base-uri 'self'", "form-action 'none'")


def _alone(hashes: str) -> tuple[str, ...]:
    return ("default-src 'none'", f"script-src {hashes or chr(39) + 'none' + chr(39)}",
            "style-src 'unsafe-inline'", "font-src data:", "img-src data: blob:",
            "base-uri 'none'", "form-action 'none'")


def _runs(attributes: str) -> bool:
    """Data in a script element is not run, and needs no leave."""
    return "type=" not in attributes or "javascript" in attributes


@cache
def _hash(text: str) -> str:
    return f"'sha256-{b64encode(sha256(text.encode()).digest()).decode()}'"
