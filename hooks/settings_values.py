"""What is wrong with single settings of a mkdocs.yml: keys that stand twice, values of another
shape, and styles, scripts and pages that are not there."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import TypeAlias
from urllib.parse import urlsplit

import yaml
from walebook.core.problems import Place, Problem, error
from walebook.core.text import clip, nearest
from walebook_site.shipped import OWN_PAGES, SITE

SettingEntry: TypeAlias = tuple[yaml.Node, yaml.Node]
SettingEntries: TypeAlias = Mapping[str, SettingEntry]
FILE = "mkdocs.yml"
_FILES = {"extra_css": ".css", "extra_javascript": ".js"}
_SWITCHES = ("strict", "use_directory_urls")
_PATTERNS = "patterns/"  # pages that are made, for which there is no file


def place_of(node: yaml.Node) -> Place:
    """Return where a node begins."""
    return Place(FILE, node.start_mark.line + 1, node.start_mark.column + 1)


def keys_twice(node: yaml.Node | None) -> Iterator[Problem]:
    """Yield a finding for each key that stands in its mapping a second time."""
    if isinstance(node, yaml.SequenceNode):
        for item in node.value:
            yield from keys_twice(item)
    if not isinstance(node, yaml.MappingNode):
        return
    first: dict[str, yaml.Node] = {}
    for key, value in node.value:
        if isinstance(key, yaml.ScalarNode) and first.setdefault(key.value, key) is not key:
            line = first[key.value].start_mark.line + 1
            yield error("duplicate-key", place_of(key), expected="each key once",
                        found=f'"{clip(key.value)}", which line {line} has already',
                        remedy="Delete one of the two.")
        yield from keys_twice(value)


def wrong_settings(entries: SettingEntries, root: Path) -> Iterator[Problem]:
    """Yield what is wrong with the settings that a collection is most likely to write."""
    yield from _name(entries)
    yield from _address(entries)
    for name in _SWITCHES:
        _, node = entries.get(name, (None, None))
        if isinstance(node, yaml.ScalarNode) and node.tag == "tag:yaml.org,2002:str":
            yield error("unknown-word", place_of(node), found=f'"{clip(node.value)}"',
                        expected="true or false", remedy="Write one of these.")
    for name, ending in _FILES.items():
        yield from _listed(entries, name, ending, root)
    _, pages = entries.get("nav", (None, None))
    for node in _leaves(pages):
        if node.value.endswith(".md") and not node.value.startswith(_PATTERNS):
            yield from _missing(node, root, ".md")


def _name(entries: SettingEntries) -> Iterator[Problem]:
    key, node = entries.get("site_name", (None, None))
    if key is None and "INHERIT" not in entries:
        yield error("missing-key", Place(FILE, 1, 1), found='no "site_name"',
                    remedy="Write the name of your site: site_name: Lantern Lane")
    elif node is not None and node.tag != "tag:yaml.org,2002:str" and node.tag.startswith("tag:"):
        yield error("wrong-shape", place_of(node), found="no text", expected="a text",
                    remedy="Write the name of your site in quotes.")


def _address(entries: SettingEntries) -> Iterator[Problem]:
    _, node = entries.get("site_url", (None, None))
    if not isinstance(node, yaml.ScalarNode) or node.tag != "tag:yaml.org,2002:str":
        return
    whole = urlsplit(node.value)
    if node.value and not (whole.scheme and whole.netloc):
        yield error("unknown-word", place_of(node), found=f'"{clip(node.value)}"',
                    expected="the address of the site", remedy="Write it whole, such as "
                    "https://lantern-lane.example/.")


def _listed(entries: SettingEntries, name: str, ending: str, root: Path) -> Iterator[Problem]:
    _, node = entries.get(name, (None, None))
    if isinstance(node, yaml.ScalarNode) and node.value and node.tag.startswith("tag:"):
        yield error("wrong-shape", place_of(node), found="a plain value", expected="a list",
                    remedy=f"Write it in a line below {name}: - {clip(node.value)}")
    for item in node.value if isinstance(node, yaml.SequenceNode) else ():
        path = {key.value: value for key, value in item.value}.get("path") if isinstance(
            item, yaml.MappingNode) else item
        if isinstance(path, yaml.ScalarNode) and not _is_outside(path.value):
            yield from _missing(path, root, ending)


def _is_outside(name: str) -> bool:
    return "//" in name


def _leaves(node: yaml.Node | None) -> Iterator[yaml.ScalarNode]:
    """The pages of a navigation, however deep."""
    if isinstance(node, yaml.ScalarNode):
        yield node
    elif isinstance(node, yaml.SequenceNode):
        for item in node.value:
            yield from _leaves(item)
    elif isinstance(node, yaml.MappingNode):
        for _, item in node.value:
            yield from _leaves(item)


def _missing(node: yaml.ScalarNode, root: Path, ending: str) -> Iterator[Problem]:
    """A file that is neither the collection's nor ours."""
    name, own = node.value.partition("?")[0], root / OWN_PAGES
    if (own / name).is_file() or (SITE / name).is_file():
        return
    there = {path.stem: path.relative_to(folder).as_posix() for folder in (SITE, own)
             for path in sorted(folder.rglob(f"*{ending}"))}
    like = there.get(nearest(Path(name).stem, there) or "")
    if (root / name).is_file():
        remedy = f"Move {name} to {OWN_PAGES}/{name}."
    else:
        remedy = f"Write {like}." if like else "Put it there, or leave this line out."
    yield error("unknown-name", place_of(node), found=f"no file {OWN_PAGES}/{clip(name)}",
                expected=f"a file in {OWN_PAGES}/, or one of ours", remedy=remedy)
