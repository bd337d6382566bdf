"""A located tree to the settings of a collection, with every fault in it found at once."""

from __future__ import annotations

from ..core.problems import Problem, has_errors, in_order
from ..pattern.collection import CollectionSettings
from .fields import Findings, open_fields
from .keys.collection import CollectionKeys
from .renamed import with_new_names
from .source import Node
from .values import Entry


def read_collection(node: Node) -> tuple[CollectionSettings | None, tuple[Problem, ...]]:
    """Return the settings that a collection's file says, and all findings; None with an error."""
    findings = Findings()
    node = with_new_names(findings, node, CollectionKeys)
    fields = open_fields(findings, Entry("the collection", node, "", node.place),
                         "the collection", CollectionKeys)
    if fields is None:
        return None, in_order(findings.problems)
    title = fields.need(CollectionKeys.title)
    settings = CollectionSettings(title=title or "", designer=fields.get(CollectionKeys.designer),
                                  about=fields.get(CollectionKeys.about),
                                  units=fields.get(CollectionKeys.units),
                                  contact=fields.get(CollectionKeys.contact),
                                  language=fields.get(CollectionKeys.language))
    return (None if has_errors(findings.problems) else settings), in_order(findings.problems)
