"""Where hooks read a text by regular expressions, how often, and why: the numbers only shrink.

What the engine knows is handed on as facts (`wb-facts`, files beside a page), and no hook recovers
it from a page. What is left rewrites markup that is ready, or reads what people write.
"""

from __future__ import annotations

import ast
from collections.abc import Iterable, Mapping

import pytest

from tests.laws.calls import files_of

# Lines with a call of `re`, by module of hooks, and what they are for.
READS: Mapping[str, tuple[int, str]] = {
    "designer_pages": (1, "Markdown's links to a page that a site leaves out"),
    "interrupted": (1, "the folder of the site, in settings that could not be read as YAML"),
    "keeping": (8, "the paths of the files of a site, by what keeps them"),
    "key_words": (1, "Markdown's links in the meaning of a key, for a terminal"),
    "mistyped": (1, "what argparse says of a command that it does not know"),
    "new_collection": (1, "the words of a folder's name, of which a title is made"),
    "own_page_links": (1, "the places of a page written by hand, in its HTML"),
    "paper": (11, "takes out of a built page, and sets into it, what paper has otherwise"),
    "policy": (2, "inline scripts of a built page, of which the policy has the digests"),
    "preview_pages": (2, "where the article of a built page begins; names of folders"),
    "preview_picture": (2, "takes out what a drawing has as a file"),
    "preview_server": (1, "names of files that hold their digest"),
    "printed_sketch": (5, "gives the parts of a drawing their colours: PDFs know no styles"),
    "reading": (5, "names of folders, the headings of a page written by hand, and the pattern of a "
                   "record that stands alone"),
    "recording": (1, "a line of a draft that is the designer's to change"),
    "reloading": (2, "imports in our own code, before it is loaded again"),
    "reporting": (1, "the path of a pattern's file"),
    "running_head": (1, "signs that a style sheet would read"),
    "search": (3, "the text of a built page, for whoever searches it"),
    "sheet_file": (1, "cells of a workbook that its library wrote without their values"),
    "shipped": (3, "settings, where they may have faults that YAML does not survive"),
    "single_file": (21, "joins built pages, pages written by hand among them, which have no facts"),
    "slimming": (12, "takes out of a built page what HTML lets go"),
    "standing": (3, "words of sources that changed since a commit, before they are parsed"),
    "text_files": (1, "the lines of a file"),
    "whole_blocks": (3, "keeps the engine's HTML from Markdown"),
}


def lines(tree: ast.AST) -> set[int]:
    """The lines of a module that call a function of `re`."""
    return {node.lineno for node in ast.walk(tree) if isinstance(node, ast.Call)
            and isinstance(node.func, ast.Attribute) and isinstance(node.func.value, ast.Name)
            and node.func.value.id == "re"}


def counted(files: Iterable[tuple[str, str]]) -> dict[str, int]:
    """How many lines of each module call a function of `re`, of those that do."""
    return {name: many for name, text in files if (many := len(lines(ast.parse(text))))}


def test_hooks_have_no_more_regular_expressions_than_are_listed() -> None:
    found = counted((path.stem, text) for path, text in files_of("hooks"))
    assert found == {name: many for name, (many, _) in READS.items()}


@pytest.mark.parametrize(("text", "many"), [
    ("import re\n_A = re.compile('<h1>')\n_B = re.compile('x')", 2),
    ("def f(html):\n    return re.sub('a', re.escape('b'), html)", 1), ("x.partition('a')", 0)])
def test_every_line_is_counted(text: str, many: int) -> None:
    assert counted([("spoiled", text)]).get("spoiled", 0) == many
