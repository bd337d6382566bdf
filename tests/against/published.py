"""The published worked examples, and the bookkeeping that none of them is passed over in silence.

A check marked with `against` gets its cases one by one, and each case's author, title and
address stand in the check's own id, so that a failure names the publication it disagrees with.
"""

from collections.abc import Callable, Collection, Mapping
from pathlib import Path
from typing import Any

import pytest
import yaml

CASES: dict[str, dict[str, Any]] = {
    case["id"]: case
    for case in yaml.load(  # by libyaml, in a tenth of the time
        Path(__file__).with_name("worked-examples.yaml").read_text(encoding="utf-8"),
        yaml.CSafeLoader)
}


def named(key: str) -> str:
    """The case with its source, in one line."""
    source = CASES[key]["source"]
    return f"{key}: {source['author']}, {source['title']}, {source['url']}"


def against(*keys: str) -> Callable[[Callable[..., None]], Callable[..., None]]:
    """Run a check once for each of these cases, under its source's name."""

    def mark(check: Callable[..., None]) -> Callable[..., None]:
        cases = [pytest.param(CASES[key], id=named(key)) for key in keys]
        check = pytest.mark.parametrize("case", cases)(check)
        check.against = keys  # type: ignore[attr-defined]
        return check

    return mark


def asserted(module: Mapping[str, Any]) -> set[str]:
    """The cases that a module's checks assert."""
    checks = [thing for name, thing in module.items() if name.startswith("test_")]
    return {key for check in checks for key in getattr(check, "against", ())}


def account_for(
    module: Mapping[str, Any],
    *,
    topics: Collection[str],
    direct: Collection[str],
    not_followed: Mapping[str, str],
) -> None:
    """Fail unless every direct case of `topics` is asserted or its not being so is explained.

    `direct` is the module's own list, written out, and must be what the collection holds. A key
    of `not_followed` is a case, or a case and the part of it that is left out ("G05 seam_sts");
    a case left out in part only must be asserted for the rest.
    """
    held = {k for k, c in CASES.items() if c["topic"] in topics and c["use"].startswith("direct")}
    assert set(direct) == held
    whole = {key for key in not_followed if " " not in key}
    parts = {key.split()[0] for key in not_followed if " " in key}
    assert asserted(module) | whole >= held
    assert not asserted(module) & whole
    assert parts <= asserted(module)
    assert all(reason.strip() for reason in not_followed.values())
