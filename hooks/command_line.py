"""The words that may stand behind `walebook`: its commands, with what each takes."""

from __future__ import annotations

import argparse
from pathlib import Path

from walebook_site.compare_call import add_compare
from walebook_site.mistyped import Parser
from walebook_site.pattern_named import folder_named
from walebook_site.reporting import FORMS
from walebook_site.sheet_call import add_sheet

SOURCES = ("pattern", "bed", "size-chart", "collection", "shared")
EXITS = """\
exit codes: 0, nothing stops publication; 1, a pattern has errors, or there is no pattern, or
something could not be written; 2, the command was not called as it should be"""


class _Version(argparse.Action):
    """Prints the version of Walebook; it is looked up only then, for it takes a while."""

    def __call__(self, parser: argparse.ArgumentParser, *_: object) -> None:
        """Print it, and end."""
        from walebook_site.new_collection import tool_version
        print(f"walebook {tool_version()}")
        parser.exit()


def parser_of(about: str | None) -> argparse.ArgumentParser:
    """Return what reads the words behind `walebook`, whose command does what is said `about` it."""
    parser = Parser(prog="walebook", description=about, epilog=EXITS,
                    formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--version", action=_Version, nargs=0, help="say which Walebook this is")
    commands = parser.add_subparsers(dest="command", required=True)
    _beginning(commands.add_parser("new", help="begin a collection in a folder that is not there "
                                   "yet"))
    check = commands.add_parser("check", help="list every finding of every pattern", epilog=EXITS)
    check.add_argument("names", nargs="*", metavar="NAME", type=folder_named,
                       help="the patterns to check, by the names of their folders (default: all)")
    check.add_argument("--form", choices=FORMS, default="text", help="text for a person, lines for "
                       "an editor, json, sarif, or annotations for the host of a repository")
    check.add_argument("--json", dest="form", action="store_const", const="json",
                       help="the same as --form json")
    check.add_argument("--quiet", action="store_true", help="list errors alone, and say nothing "
                       "where there are none")
    pages = commands.add_parser("pages", help="write the pages as plain Markdown files")
    pages.add_argument("out", type=Path, help="the folder to write into; made if missing")
    fix = commands.add_parser("fix", aliases=["rename"], help="write the new names of renamed keys "
                              "and the kind of front edges into the sources, and leave all else "
                              "as it is")
    fix.add_argument("--show", action="store_true", help="list what would be written, and write "
                     "nothing")
    keys = commands.add_parser("keys", help="explain the keys, measures, findings, charts "
                               "and beds that have a name")
    keys.add_argument("name", nargs="?", default="", help="such as pick_up, or bands.pick_up "
                      "(default: list the names of all keys)")
    schema = commands.add_parser("schema", help="print the JSON Schema of a kind of source, for an "
                                 "editor")
    schema.add_argument("what", nargs="?", choices=SOURCES, default=SOURCES[0])
    parts = commands.add_parser("parts", help="list what of the site is yours, and what is ours")
    parts.add_argument("--copy", default="", metavar="NAME",
                       help="copy this part of ours to where yours is looked for")
    runtime = commands.add_parser("runtime", help="make what a site with my_gauge or try_it: true "
                                  "brings to its readers' devices")
    runtime.add_argument("--package", type=Path, help="the archive of the pinned package; that of "
                         "the unpacker lies beside it (default: npm fetches both)")
    build = commands.add_parser("build", help="check every pattern, and build the site into site/")
    serve = commands.add_parser("serve", help="show the site while it is written")
    serve.add_argument("--at", metavar="ADDRESS:PORT", type=_address,
                       help="where it is served (default: as mkdocs.yml says, 127.0.0.1:8000)")
    for each in (check, pages, fix, build, serve, parts, runtime, *add_compare(commands),
                 *add_sheet(commands)):
        each.add_argument("--root", type=Path, default=Path.cwd(),
                          help="the folder that holds patterns/ (default: this one)")
    return parser


def _address(word: str) -> str:
    """An address with its port; a port alone is one of this device."""
    port = word.rpartition(":")[2]
    if not port.isdecimal() or not 0 < int(port) < 65536:
        raise argparse.ArgumentTypeError(f"found {word!r}, expected an address and a port such as "
                                         "127.0.0.1:8001")
    return f"127.0.0.1:{port}" if port == word else word


def _beginning(new: argparse.ArgumentParser) -> None:
    new.add_argument("folder", type=Path)
    new.add_argument("--name", default="", help="of the collection (default: from the folder)")
    new.add_argument("--designer", default="Wren Ashdown", help="your name (default: an invented "
                     "one)")
    new.add_argument("--licence", default="CC BY-NC 4.0", help="what others may do with it")
    new.add_argument("--paper", choices=("A4", "Letter"), default="A4")
    new.add_argument("--units", choices=("cm", "inches"), default="cm",
                     help="which unit stands first on the pages")
    new.add_argument("--host", choices=("github", "gitlab"), default="", help="the git host whose "
                     "page service publishes it (default: none)")
