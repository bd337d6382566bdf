"""What is wrong with a collection's mkdocs.yml, as findings with their places.

The site builder says the same faults in its parser's words, or without a place. Whatever is not
looked at here it says itself.
"""

from __future__ import annotations

import json
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import yaml
from mkdocs.config.base import ValidationError
from mkdocs.config.defaults import MkDocsConfig
from walebook.core.problems import Problem, Severity, error, note
from walebook.core.text import clip, misspelt, nearest, series
from walebook.source.syntax import read_fault
from walebook_site.plugin import PluginSettings
from walebook_site.reading import Reading
from walebook_site.results import as_json
from walebook_site.settings_values import (
    FILE,
    SettingEntries,
    SettingEntry,
    keys_twice,
    place_of,
    wrong_settings,
)
from walebook_site.shipped import OWN_PAGES, SETTINGS, is_collection

OURS = "walebook"
_USUAL_THEME, _NOTHING = "mkdocs", ("", "~", "null")
_TAKEN_OUT = "INHERIT"  # the name of a file with further settings, which the reader takes out


def settings_findings(root: Path) -> list[Problem]:
    """Return what is wrong with the mkdocs.yml of a root: errors, and settings that are unknown.

    One that cannot be read at all is left to the site builder.
    """
    text, problems = Reading(root).apart(root / FILE)
    if text is None:
        return [each for each in problems if each.code == "not-utf-8"]
    try:
        tree = yaml.compose(text, Loader=yaml.SafeLoader)  # reads no tag, so it makes nothing
    except yaml.YAMLError as fault:
        return [read_fault(fault, text, FILE)]
    entries = _entries(tree)
    return [*keys_twice(tree), *wrong_settings(entries, root), *_unknown(entries),
            *_folder(entries, root), *_of_plugins(entries.get("plugins")), *_theme(entries),
            *_links(entries, root)]


def _links(entries: SettingEntries, root: Path) -> list[Problem]:
    """Bad links of the collection's own pages. Where its pages take extensions of Markdown of its
    choice, or its links are held to other rules, they are left to the site builder."""
    if not (root / OWN_PAGES).is_dir() or not is_collection(root) \
            or {"validation", "markdown_extensions", _TAKEN_OUT} & entries.keys():
        return []
    from walebook_site.own_page_links import page_link_findings  # loads what reads Markdown
    ours = yaml.safe_load(SETTINGS.read_text(encoding="utf-8"))["markdown_extensions"]
    given = [next(iter(each)) if isinstance(each, dict) else each for each in ours]
    _, strict = entries.get("strict", (None, None))
    return list(page_link_findings(
        root, list(dict.fromkeys([*given, "fenced_code"])), {},
        strict=strict is None or strict.value == "true"))


def _entries(node: yaml.Node | None) -> dict[str, SettingEntry]:
    """The entries of a mapping by their keys; none of any other node."""
    pairs = node.value if isinstance(node, yaml.MappingNode) else ()
    return {key.value: (key, value) for key, value in pairs if isinstance(key, yaml.ScalarNode)}


def _unknown(entries: SettingEntries) -> Iterator[Problem]:
    """Settings that the site builder does not know and passes over."""
    known = [name for name, _ in MkDocsConfig()._schema]
    for name, (key, _) in entries.items():
        if name not in known and name != _TAKEN_OUT:
            like = nearest(name, known)
            yield note(Severity.WARNING, "unknown-key", place_of(key), found=f'"{name}"',
                       expected="a setting of the site builder",
                       remedy=f"Write {like}." if like else "Leave it out.")


def _folder(entries: SettingEntries, root: Path) -> Iterator[Problem]:
    """A folder of sources that is not there."""
    _, node = entries.get("docs_dir", (None, None))
    if isinstance(node, yaml.ScalarNode) and not (root / node.value).is_dir():
        yield error("unknown-name", place_of(node), found=f'no folder "{node.value}"',
                    expected="a folder beside this file", remedy="Write patterns.")


def _theme(entries: SettingEntries) -> Iterator[Problem]:
    """Another theme, where the plugin makes the site with our templates."""
    _, node = entries.get("theme", (None, None))
    _, named = _entries(node).get("name", (None, node))
    _, plugins = entries.get("plugins", (None, None))
    names = [each for item in plugins.value for each in (_entries(item) or (item.value,))] \
        if isinstance(plugins, yaml.SequenceNode) else []
    if OURS in names and isinstance(named, yaml.ScalarNode) \
            and named.value not in (_USUAL_THEME, *_NOTHING):
        yield error("unknown-word", place_of(named), found=f'the theme "{clip(named.value)}"',
                    expected="Walebook's own templates, which pages of patterns need",
                    remedy="Leave theme out.")


def _of_plugins(plugins: SettingEntry | None) -> Iterator[Problem]:
    """What is wrong with the list of plugins, and with the settings of our own."""
    node = plugins[1] if plugins else None
    if isinstance(node, yaml.ScalarNode) and node.value not in _NOTHING:
        name = OURS if misspelt(node.value, [OURS]) else clip(node.value)
        yield error("wrong-shape", place_of(node), found="a plain value", expected="a list",
                    remedy=f"Write it in a line below plugins: - {name}")
    for item in node.value if isinstance(node, yaml.SequenceNode) else ():
        key = item if isinstance(item, yaml.ScalarNode) else next(
            (first for first, _ in _entries(item).values()), None)
        if key is not None and key.value != OURS and misspelt(key.value, [OURS]):
            yield error("unknown-name", place_of(key), found=f'no plugin "{clip(key.value)}"',
                        expected="a plugin of the site builder", remedy=f"Write {OURS}.")
        _, given = _entries(item).get(OURS, (None, None))
        if isinstance(given, yaml.MappingNode):
            yield from _wrong_values(_entries(given))
        elif given is not None and given.value not in _NOTHING:
            yield error("wrong-shape", place_of(given), found="a plain value or a list",
                        expected="settings", remedy="Write each as name: value on its own line.")


def _wrong_values(entries: SettingEntries) -> Iterator[Problem]:
    options: dict[str, Any] = dict(PluginSettings()._schema)
    reader = yaml.SafeLoader("")
    for name, (key, node) in entries.items():
        if name not in options:
            like = nearest(name, options)
            yield error("unknown-key", place_of(key), found=f'"{name}"',
                        expected=f"one of {series(sorted(options))}",
                        remedy=f"Write {like}." if like else "Leave it out.")
            continue
        try:
            options[name].validate(reader.construct_object(node, deep=True))
        except (ValidationError, yaml.YAMLError) as fault:
            shown = node.value if isinstance(node, yaml.ScalarNode) else "a list or a mapping"
            yield error("unknown-word", place_of(node), found=f'"{clip(shown)}"',
                        expected=str(fault).partition(", expected ")[2],
                        remedy="Write one of these.")


if __name__ == "__main__":  # for a check, which loads no site builder (settings_apart.py)
    print(json.dumps([as_json(each) for each in settings_findings(Path(sys.argv[1]))]))
