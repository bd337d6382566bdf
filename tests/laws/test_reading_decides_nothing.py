"""No code of the engine decides by reading what is written for people.

Titles, sentences and phrases are made from facts, and nothing looks into them again: no comparison,
no `in`, no `startswith`, no regular expression. Who reads what is found in the syntax trees.
"""

from __future__ import annotations

import ast
from collections.abc import Iterator

import pytest
from walebook.machine.reasons import Reason
from walebook.words import reason_phrases

from tests.laws.test_house import MODULES, tree_of

# What names a text for people, as an attribute or alone.
FOR_PEOPLE = frozenset({"title", "purpose", "text", "sentence", "phrase", "summary", "caption",
                        "meaning", "label"})
LOOKING = frozenset({"startswith", "endswith", "partition", "rpartition", "split", "find", "index",
                     "count", "removeprefix", "removesuffix", "match", "search", "fullmatch"})
# What names a thing for the engine: compared whole, and not looked into for a part of it.
NAMES = frozenset({"name", "key", "kind", "edge", "garment_edge", "waits", "place"})
# There texts are read: sources (also those that a comparison sets side by side), notes,
# HTML, the designer's expressions, units and repeats, and characters that may not stand in a text.
READERS = ("source/", "markup/", "sizing/expressions", "core/units", "core/text",
           "fabric/arrangement", "compare/inputs")
# Modules that read a text all the same, each for its reason; there is no debt among them.
STILL = frozenset({
    # The first sentence of what a chart's editor wrote stands for all of it in one line.
    "sizing/charts",
    # A bed that its maker calls "standard bed" is not called a bed again.
    "words/material_text",
    # An example that stands in a key's meaning is not given twice.
    "words/keys",
})
# Folders in which no text at all is looked into, however it is called.
WRITERS = ("core/", "plan/", "words/", "drawings/", "pages/")
PARTS = frozenset({"startswith", "endswith", "partition", "rpartition", "split", "rsplit",
                   "splitlines", "removeprefix", "removesuffix", "match", "search", "fullmatch",
                   "findall", "finditer", "sub", "isdigit", "isalpha", "isdecimal", "isnumeric"})
FOUND = frozenset({"find", "rfind", "index", "rindex"})  # lists have them too
# Modules of these folders that look into a text, each for its reason.
INTO_TEXTS = {
    # Paths, keys and names with parts, which a dot, a space or a slash holds apart.
    "core/on_use": "the dotted name of a module and of a function in it",
    "core/problems": "a file's path; characters that are not seen",
    "pages/from_texts": "a file's path", "pages/pattern_facts": "a file's path",
    "pages/pattern_files": "a file's path",
    "pages/garment_facts": "the key of an own outline's edge, of its piece and the edge",
    "pages/sheet_pieces": "the keys of counts, at corners of an own outline",
    "plan/given_counts": "the key of a count, of its piece and the count, as sources write it",
    "words/terms/section_names": "the key of a stretch, of the words that a designer gave it",
    # Tables that are written as one text in the code itself.
    "core/colours": "the table of colours",
    "core/ranges": "limits, as a declared figure writes them",
    # Sources, and pages that are written by hand.
    "core/text": "a source's text", "core/units": "a source's figure with its unit",
    "core/inches": "figures of a size chart, as they are printed there",
    "pages/corrected_places": "the names of sizes in a correction, which the designer writes",
    "words/garment_text": "a remark of a size chart, of which the first words stand for it",
    "pages/key_lists": "marks in a page's Markdown", "pages/source_page": "the same",
    "pages/source_schema": "examples of keys, of which the schema is made, and links in meanings",
    "pages/value_shapes": "words of a source that are figures",
    # Signs of a text that is ready: nothing is decided by what it says.
    "words/moved": "the plural of a unit, and spaces",
    "words/words": "the plural of a word", "words/list_text": "spaces at which no line ends",
    "words/report_text": "signs that Markdown would read",
    "words/terms/working": "digits of a figure that is printed",
    "plan/own_names": "capital letters of a title",
    # HTML and SVG of ours, which are put together a second time.
    "drawings/two_bed_needles": "parts that several diagrams of a page share, known when all are "
                                "drawn",
    "pages/card": "the opening tag, which gets an attribute once the sizes are known",
    "drawings/piece_small": "the opening tag, which the second of two drawings has alike",
    "pages/placed_designer_notes": "the ends of a step, between which a note is set",
    # Two texts that are set side by side: what is alike is shown once.
    "words/comparison_text": "texts of a report, which is read again from its file",
    "words/record_text": "counts of a record, whose file has them as texts with their unit",
}


def is_for_people(node: ast.expr) -> bool:
    if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute):
        return is_for_people(node.func.value) and node.func.attr in {"lower", "strip", "upper"}
    return (isinstance(node, ast.Attribute) and node.attr in FOR_PEOPLE) or (
        isinstance(node, ast.Name) and node.id in FOR_PEOPLE)


def is_name(node: ast.expr) -> bool:
    return is_for_people(node) or (isinstance(node, ast.Attribute) and node.attr in NAMES) or (
        isinstance(node, ast.Name) and node.id in NAMES) or (
        isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute)
        and node.func.attr in {"lower", "strip", "upper"} and is_name(node.func.value))


def has_letters(node: ast.expr) -> bool:
    """True for a text with letters, or a tuple of such, written in the code itself."""
    texts = [part.value for part in ast.walk(node) if isinstance(part, ast.Constant)
             and isinstance(part.value, str)]
    return any(letter.isalpha() for text in texts for letter in text)


def is_empty(node: ast.expr) -> bool:
    return isinstance(node, ast.Constant) and node.value in ("", None)


def reads(node: ast.AST) -> bool:
    """True where a node looks into a text for people, and not only for whether there is one."""
    match node:
        case ast.Compare(left=ast.Constant() as left, ops=[ast.In() | ast.NotIn()],
                         comparators=[of]) if has_letters(left) and is_name(of):
            return True
        case ast.Call(func=ast.Attribute(value=of, attr=attr), args=[part, *_]) \
                if attr in LOOKING and has_letters(part) and is_name(of):
            return True
        case ast.Compare(left=left, comparators=others):
            sides = [left, *others]
            return any(map(is_for_people, sides)) and not any(map(is_empty, sides))
        case ast.Call(func=ast.Attribute(value=of, attr=attr), args=args) if attr in LOOKING:
            return is_for_people(of) or any(map(is_for_people, args))
        case ast.MatchClass(kwd_attrs=named, kwd_patterns=patterns):
            return any(name in FOR_PEOPLE and isinstance(pattern, ast.MatchValue)
                       for name, pattern in zip(named, patterns, strict=True))
    return False


def looks_into(node: ast.AST) -> bool:
    """True where a node takes a text apart, puts other words into it, or asks what it begins or
    ends with or has in it."""
    match node:
        case ast.Call(func=ast.Attribute(attr=attr), args=[ast.Constant(value=str() as part), *_]) \
                if attr == "replace" and " " in part and has_letters(node.args[0]):
            return True
        case ast.Call(func=ast.Attribute(attr=attr), args=[ast.Constant(value=str() as part), *_]) \
                if attr in FOUND and not part.isidentifier():
            return True
        case ast.Attribute(attr=attr):
            return attr in PARTS
    return False


def readings(tree: ast.AST) -> Iterator[int]:
    """The lines on which a module reads a text for people."""
    return (node.lineno for node in ast.walk(tree) if reads(node) and hasattr(node, "lineno"))


def test_nothing_reads_what_is_written_for_people() -> None:
    found = {name: lines for name in MODULES
             if not name.startswith(READERS) and (lines := list(readings(tree_of(name))))}
    more = {name: found[name] for name in found.keys() - STILL}
    assert not more, more
    assert not STILL - found.keys(), f"listed, but reads nothing: {STILL - found.keys()}"


def test_who_writes_for_people_takes_no_text_apart() -> None:
    found = {name: lines for name in MODULES if name.startswith(WRITERS) and (lines := [
        node.lineno for node in ast.walk(tree_of(name))
        if looks_into(node) and isinstance(node, ast.expr)])}
    more = {name: found[name] for name in found.keys() - INTO_TEXTS}
    assert not more, more
    assert not INTO_TEXTS.keys() - found.keys(), INTO_TEXTS.keys() - found.keys()


@pytest.mark.parametrize("spoiled", [
    "piece, _, what = name.rpartition(' ')", "old.split('–')", "_SIZE.search(drawn)",
    "re.sub('a', 'b', told)", "takewhile(str.isalpha, sentence)", "end.removesuffix(f' {unit}')",
    "drawn[:drawn.index('>')]", "text.replace('your gauge', 'your figures')"])
def test_every_way_of_taking_apart_is_found(spoiled: str) -> None:
    assert any(map(looks_into, ast.walk(ast.parse(spoiled))))


@pytest.mark.parametrize("plain", ["order.index(one)", "sizes.index(size) + 1",
                                   "key.replace('_', ' ')", "replace(one, text='two words')"])
def test_a_place_in_a_list_is_no_text(plain: str) -> None:
    assert not any(map(looks_into, ast.walk(ast.parse(plain))))


@pytest.mark.parametrize("spoiled", [
    "if 'collar' in band.kind: pass", "key.endswith('front')", "edge.key.startswith('left_')",
    "if step.purpose == 'to the fold': pass", "if 'neck' in section.title: pass",
    "if join.title.startswith('shoulder'): pass", "if sentence.startswith('Join'): pass",
    "re.search(_SEWN, phrase)", "step.text.lower().partition('all')",
    "match step:\n case Bring(purpose='again'): pass"])
def test_every_way_of_reading_is_found(spoiled: str) -> None:
    assert list(readings(ast.parse(spoiled)))


def names_of(name: str) -> set[str]:
    """The reasons that a module names."""
    return {node.attr for node in ast.walk(tree_of(name)) if isinstance(node, ast.Attribute)
            and isinstance(node.value, ast.Name) and node.value.id == "Reason"}


def test_every_reason_is_written_and_is_said_or_decides() -> None:
    written = {reason for name in MODULES if name.startswith("program/")
               for reason in names_of(name)}
    read = {reason for name in MODULES if not name.startswith(("program/", "machine/"))
            for reason in names_of(name)} | KEPT_APART
    every = {reason.name for reason in Reason} - {Reason.NONE.name}
    assert written - {Reason.NONE.name} == every
    assert every <= read, f"neither said nor decides: {every - read}"


# Said nowhere: they tell moved stitches, and an end that is cut, from others of their kind.
KEPT_APART = {Reason.FOR_CORD.name, Reason.TO_SEW_SLIT.name}


def test_a_reason_with_a_number_says_it() -> None:
    said = reason_phrases._PHRASES
    numbered = {reason for reason in said if "{number}" in said[reason]}
    assert numbered == {Reason.BUTTONHOLE, Reason.TO_BUTTONHOLE, Reason.PART, Reason.OVER_PART,
                        Reason.FOR_NEXT_ROWS, Reason.ROWS_OF_SIDES}
