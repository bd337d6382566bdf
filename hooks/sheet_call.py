"""What the command for workbooks is called with; reading that loads nothing that writes them."""

from __future__ import annotations

import argparse
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from walebook_site.pattern_named import folder_named

EXITS = """\
exit codes: 0, written or read; 1, the pattern has errors, or something could not be read or
written; 2, the command was not called as it should be"""


def add_sheet(commands: Any) -> Iterator[argparse.ArgumentParser]:
    """Add the command, and yield its parser."""
    sheet = commands.add_parser("sheet", epilog=EXITS, help="write a workbook of a pattern for its "
                                "tech editor, every count a live formula, or read her remarks",
                                formatter_class=argparse.RawDescriptionHelpFormatter)
    sheet.add_argument("name", nargs="?", default="", metavar="NAME", type=folder_named,
                       help="the pattern, by the name of its folder")
    sheet.add_argument("--out", type=Path, metavar="FILE",
                       help="the file to write (default: NAME.xlsx in this folder)")
    sheet.add_argument("--read", type=Path, metavar="FILE", help="list the remarks in a workbook, "
                       "and keep them beside the pattern until each is answered and done")
    sheet.add_argument("--json", action="store_true", help="write no file: print all sizes of each "
                       "count in one line, for other programs")
    yield sheet
