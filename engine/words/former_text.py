"""Words for the page of a pattern that was renamed or withdrawn."""

from __future__ import annotations

from ..markup.html import esc, link
from ..pattern.corrections import WithdrawnSize
from ..pattern.former_patterns import FormerPattern

_KEPT = "What you saved of it, as a file or offline, stays as it is on your device."
_FILE_KEPT = "A file that you saved of it stays as it is on your device."
_UPDATED = "What you saved offline has its new name after Update."
_ALSO = "So do your place and your notes."
_HANDED_OVER = "Its instructions are in files that the designer hands over."
_TAKEN_OVER = "Its page now takes over your place and your notes."


def summary(one: FormerPattern) -> str:
    """What the page is, for lists and search engines."""
    return f"{one.title} {'has another name now' if one.now else 'was withdrawn'}."


def gone(one: FormerPattern) -> str:
    """What became of a pattern, and why, as HTML."""
    return esc(gone_plain(one))


def gone_plain(one: FormerPattern) -> str:
    """What became of a pattern, and why, as text."""
    what = "This pattern has had another name since" if one.now else \
        "The designer withdrew this pattern on"
    return f"{what} {one.date}. {one.why}".rstrip()


def kept(one: FormerPattern, *, files_only: bool = False) -> str:
    """What becomes of what a reader has on her device; with `files_only` the pattern that is now
    in its place has no page that takes anything over."""
    return _renamed_kept(files_only=files_only) if one.now else f"{_KEPT} {_ALSO}"


def size_kept(*, files_only: bool = False) -> str:
    """What becomes of what a reader has on her device of a size that was called otherwise."""
    if not files_only:
        return f"{_FILE_KEPT} {_UPDATED} {_TAKEN_OVER}"
    return f"{_KEPT} {_ALSO} {_HANDED_OVER}"


def _renamed_kept(*, files_only: bool) -> str:
    return f"{_KEPT} {_ALSO} {_HANDED_OVER}" if files_only else f"{_KEPT} {_TAKEN_OVER}"


def size_gone(label: str) -> str:
    """What became of a size's page, as HTML."""
    return f"The size that was called {esc(label)} has another name now."


def size_withdrawn(one: WithdrawnSize) -> str:
    """That a size is withdrawn, and why, as text."""
    return f"The designer withdrew the size {one.label} on {one.date}. {one.why}".rstrip()


def withdrawn_kept() -> str:
    """What becomes of what a reader has on her device of a size that was withdrawn."""
    return f"{_KEPT} {_ALSO}"


def size_summary(title: str, label: str, *, withdrawn: bool) -> str:
    """What the page of a size that is gone is, for lists and search engines."""
    became = "was withdrawn" if withdrawn else "has another name now"
    return f"{title}: the size {label} {became}."


def where_now(address: str, title: str) -> str:
    """Where the pattern is now, as HTML."""
    return f"It is now {link(address, esc(title))}."


def other_sizes(address: str, title: str) -> str:
    """The way to the sizes that a pattern has, as HTML."""
    return f"See the other sizes of {link(address, esc(title))}."


def all_patterns(address: str) -> str:
    """The way to all patterns, as HTML."""
    return f"See {link(address, 'all patterns')}."
