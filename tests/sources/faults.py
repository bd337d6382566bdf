"""The sources with one fault that the checks of this folder hold, and text as YAML 1.2 reads it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

import test_bad_sources
import test_band_specs
import test_garment_sources
import test_hostile_sources
import yaml
from reading import HERE, changed

_ERROR = re.compile(r"error, ([a-z0-9-]+):")


class Core(yaml.CBaseLoader):
    """Reads scalars by the core schema of YAML 1.2 (10.3), as editors do; the rest is text."""

    yaml_implicit_resolvers: dict[str, Any] = {}  # noqa: RUF012  PyYAML's own way


_CORE = {"null": (r"(null|Null|NULL|~|)$", [*"nN~", ""], lambda said: None),
         "bool": (r"(true|True|TRUE|false|False|FALSE)$", [*"tTfF"],
                  lambda said: said.lower() == "true"),
         "int": (r"[-+]?[0-9]+$", [*"-+0123456789"], int),
         "float": (r"[-+]?(\.[0-9]+|[0-9]+(\.[0-9]*)?)([eE][-+]?[0-9]+)?$",
                   [*"-+.0123456789"], float)}
for _name, (_spelt, _first, _made) in _CORE.items():
    _tag = f"tag:yaml.org,2002:{_name}"
    Core.add_implicit_resolver(_tag, re.compile(_spelt), _first)
    Core.add_constructor(_tag, lambda loader, node, made=_made: made(node.value))


@dataclass(frozen=True)
class Faulty:
    """A source with a fault: the code that it gets, and what is wrong in words."""

    code: str
    what: str
    text: str


def faulty() -> Iterator[Faulty]:
    """Every such source whose first finding is an error."""
    garment = test_garment_sources.GARMENT
    whole = [(name, changed(old, new), found) for cases in (test_bad_sources.CASES,
                                                            test_band_specs.CASES)
             for name, (old, new, found) in cases.items()]
    whole += [(name, changed(old, new, garment), found)
              for name, (old, new, found) in test_garment_sources.CASES.items()]
    whole += [(name, text, found) for name, (text, found) in test_hostile_sources.CASES.items()]
    for name, text, found in whole:
        if code := _ERROR.search(" ".join(found[:1])):
            yield Faulty(code[1], name, text)
    for path in sorted((HERE / "codes").glob("*.yaml")):
        yield Faulty(path.stem, f"codes/{path.name}", path.read_text(encoding="utf-8"))
