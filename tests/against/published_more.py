"""The published cases that are put through sources alone, read beside those of `published`."""

from pathlib import Path

import yaml
from published_pieces import CASES, against

__all__ = ["CASES", "MORE", "against"]

_HELD = Path(__file__).with_name("worked-examples-more.yaml")
MORE = {case["id"]: case for case in yaml.load(_HELD.read_text(encoding="utf-8"),
                                               yaml.CSafeLoader)}
CASES.update(MORE)
