"""A plugin for pytest: runs the tests that a file names, one a line, in the order of the file.

    pytest -n 0 -p in_this_order --in-this-order FILE TESTS...
"""

from __future__ import annotations

from pathlib import Path

import pytest


def pytest_addoption(parser: pytest.Parser) -> None:
    """Name the option."""
    parser.addoption("--in-this-order", type=Path, required=True)


@pytest.hookimpl(trylast=True)
def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Leave out what is not named, and put the others in order."""
    names = config.getoption("--in-this-order").read_text(encoding="utf-8").splitlines()
    place = {name: at for at, name in enumerate(names)}
    items[:] = sorted((item for item in items if item.nodeid in place),
                      key=lambda item: place[item.nodeid])
