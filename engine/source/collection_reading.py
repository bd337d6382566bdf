"""A located tree to the settings of a collection, with every fault in it found at once."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator

from ..core.problems import Problem, Severity, has_errors, in_order, note
from ..core.text import clip, suggest
from ..pattern.collection import CollectionSettings
from ..pattern.former_patterns import FormerPattern
from .fields import Fields, Findings, open_fields
from .keys.collection_keys import CollectionKeys, FormerKeys
from .renamed import with_new_names
from .source import Node
from .values import Entry

PLACEHOLDER = "Write here in a few sentences"  # how `about` begins in a new collection
_FOLDER = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")


def read_collection(node: Node, folders: Collection[str] | None = None
                    ) -> tuple[CollectionSettings | None, tuple[Problem, ...]]:
    """Return the settings that a collection's file says, and all findings; None with an error.

    `folders` are the names of its patterns' folders, None where they are not known.
    """
    findings = Findings()
    node = with_new_names(findings, node, CollectionKeys)
    fields = open_fields(findings, Entry("the collection", node, "", node.place),
                         "the collection", CollectionKeys)
    if fields is None:
        return None, in_order(findings.problems)
    title = fields.need(CollectionKeys.title)
    about = fields.get(CollectionKeys.about)
    if about.startswith(PLACEHOLDER):
        findings.problems.append(note(
            Severity.REMARK, "placeholder", fields.at(CollectionKeys.about),
            found=f'"{PLACEHOLDER} …", on your first page', expected="your words",
            remedy="Write what your patterns are for."))
    settings = CollectionSettings(title=title or "", designer=fields.get(CollectionKeys.designer),
                                  licence=fields.get(CollectionKeys.licence), about=about,
                                  units=fields.get(CollectionKeys.units),
                                  contact=fields.get(CollectionKeys.contact),
                                  engine=fields.get(CollectionKeys.engine),
                                  former=tuple(_former(fields, folders)),
                                  language=fields.get(CollectionKeys.language))
    return (None if has_errors(findings.problems) else settings), in_order(findings.problems)


def _former(fields: Fields, folders: Collection[str] | None) -> Iterator[FormerPattern]:
    """The former patterns; one at fault is recorded and left out."""
    for entry in fields.each(CollectionKeys.former):
        own = open_fields(fields.findings, entry, "a former pattern", FormerKeys)
        if own is None:
            continue
        folder, title = own.need(FormerKeys.folder), own.need(FormerKeys.title)
        date, now = own.need(FormerKeys.date), own.get(FormerKeys.now)
        if folder is None or title is None or date is None:
            continue
        if not _FOLDER.fullmatch(folder):
            own.findings.fault("bad-name", own.at(FormerKeys.folder),
                               f'the folder name "{clip(folder)}"', "small letters, digits and "
                               "single hyphens, such as slack-tide", "Write the folder's name.")
        elif folders is not None:
            _compare(own, folder, now, folders)
        yield FormerPattern(folder=folder, title=title, date=date, now=now,
                            why=own.get(FormerKeys.why), sizes=own.listed(FormerKeys.sizes))


def _compare(own: Fields, folder: str, now: str, folders: Collection[str]) -> None:
    """Record a former pattern that is still there, or leads to one that is not."""
    if folder in folders:
        own.findings.fault("two-answers", own.at(FormerKeys.folder),
                           f'the former pattern "{folder}", whose folder is still there',
                           "a pattern or a former one, not both",
                           "Rename or delete the folder, or delete this.")
    if now and now not in folders:
        expected, remedy = suggest(now, sorted(folders), "Write one of these.")
        own.findings.fault("unknown-name", own.at(FormerKeys.now),
                           f'no pattern in the folder "{clip(now)}"', expected, remedy)
