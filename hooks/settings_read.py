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
from walebook.core.text import clip, nearest, series
from walebook.source.syntax import read_fault
from walebook_site.plugin import PluginSettings
from walebook_site.results import as_json
from walebook_site.settings_values import (
    FILE,
    SettingEntries,
    SettingEntry,
    keys_twice,
    place_of,
    wrong_settings,
)

_TAKEN_OUT = "INHERIT"  # the name of a file with further settings, which the reader takes out


def settings_findings(root: Path) -> list[Problem]:
    """Return what is wrong with the mkdocs.yml of a root: errors, and settings that are unknown.

    A file that is not text is left to the site builder.
    """
    try:
        text = (root / FILE).read_text(encoding="utf-8-sig")
        tree = yaml.compose(text, Loader=yaml.SafeLoader)  # reads no tag, so it makes nothing
    except (OSError, UnicodeDecodeError):
        return []
    except yaml.YAMLError as fault:
        return [read_fault(fault, text, FILE)]
    entries = _entries(tree)
    return [*keys_twice(tree), *wrong_settings(entries, root), *_unknown(entries),
            *_folder(entries, root), *_of_plugin(entries.get("plugins"))]


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


def _of_plugin(plugins: SettingEntry | None) -> Iterator[Problem]:
    """What is wrong with the settings of our own plugin."""
    items = plugins[1].value if plugins and isinstance(plugins[1], yaml.SequenceNode) else ()
    for item in items:
        _, given = _entries(item).get("walebook", (None, None))
        if isinstance(given, yaml.MappingNode):
            yield from _wrong_values(_entries(given))
        elif given is not None and given.value not in ("", "~", "null"):
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
