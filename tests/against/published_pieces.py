"""The published cases on whole pieces, read beside those of `published`."""

from pathlib import Path

import yaml
from published import CASES, account_for, against

__all__ = ["account_for", "against"]

_HELD = Path(__file__).with_name("worked-examples-pieces.yaml")
CASES.update({case["id"]: case for case in yaml.load(_HELD.read_text(encoding="utf-8"),
                                                    yaml.CSafeLoader)})
