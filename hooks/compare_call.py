"""What the commands that compare are called with; reading that loads nothing that compares."""

from __future__ import annotations

import argparse
from collections.abc import Iterator
from typing import Any

from walebook_site.pattern_named import folder_named

EXITS = """\
exit codes: 0, nothing differs; 1, something differs; 2, the command was not called as it should
be; 3, something could not be compared: a state could not be read, or a pattern has errors in one
of the states"""


def add_compare(commands: Any) -> Iterator[argparse.ArgumentParser]:
    """Add the commands that compare, and yield the parser of each."""
    compare = commands.add_parser("compare", epilog=EXITS, help="say what a change did: which "
                                  "counts, measures and steps moved, and which input moved them",
                                  formatter_class=argparse.RawDescriptionHelpFormatter)
    compare.add_argument("states", nargs="*", metavar="STATE", help="what is compared: the state "
                         "before, and the one after; each a commit, a tag, a folder with patterns/ "
                         "in it, or a counts.json (default: the last commit, and the files as they "
                         "are)")
    compare.add_argument("--pattern", action="append", default=[], metavar="NAME",
                         type=folder_named, help="only this pattern, by the name of its folder; "
                         "may be given again")
    compare.add_argument("--engine", default="", metavar="OLD", help="compare what Walebook as it "
                         "was makes of the same sources: a commit of its repository, or a folder "
                         "that holds it; its code is run")
    _add_form(compare)
    yield compare
    what_if = commands.add_parser("what-if", epilog=EXITS, help="say what another value in a "
                                  "source would do, and write nothing",
                                  formatter_class=argparse.RawDescriptionHelpFormatter)
    what_if.add_argument("pattern", metavar="NAME", type=folder_named,
                         help="the pattern, by the name of its folder")
    what_if.add_argument("--set", action="append", required=True, metavar="KEY=VALUE",
                         help='such as garment.measures.body_length="54 cm"; may be given again. '
                         "A key that is not written yet is added; places of a list are counted "
                         "from 1")
    _add_form(what_if)
    yield what_if
    record = commands.add_parser("record", help="write down the counts of a version beside its "
                                 "source, so that none of them moves unseen")
    record.add_argument("names", nargs="*", metavar="NAME", type=folder_named,
                        help="the patterns, by the names of their folders (default: all that are "
                        "published)")
    record.add_argument("--draft", action="store_true", help="write nothing: print a draft of the "
                        "correction that says what moved since the recorded version")
    yield record


def _add_form(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--all", action="store_true", help="every size, every step, and the whole "
                        "way that each change took")
    parser.add_argument("--json", dest="form", action="store_const", const="json", default="text",
                        help="for other programs")
    parser.add_argument("--markdown", dest="form", action="store_const", const="markdown",
                        help="for a pull request")
