"""Finished HTML kept from Markdown comes out as if Markdown had read it.

What the page is without taking it apart is asked of Markdown itself, with the extensions of the
site.
"""

from __future__ import annotations

import re
from xml.etree.ElementTree import Element

import markdown
from hypothesis import given
from hypothesis import strategies as st
from markdown.extensions import Extension
from markdown.treeprocessors import Treeprocessor
from walebook.markup.html import block, esc, heading, part, table
from walebook_site.pattern_pages import Headings
from walebook_site.slimming import slim_html
from walebook_site.whole_blocks import take_out

EXTENSIONS = ["admonition", "attr_list", "def_list", "md_in_html", "tables", "toc"]
TEXT = st.text(st.characters(codec="utf-8", exclude_categories=("Cs", "Cc")), min_size=1,
               max_size=40).filter(str.strip)
BLOCKS = st.one_of(
    TEXT.map(lambda text: block(f"<p>{esc(text)}</p>\n<p><b>{esc(text)}</b></p>")),
    TEXT.map(lambda text: part(text, "part")),
    TEXT.map(lambda text: f'<ol start="2"><li id="s-2"><p>{esc(text)}</p></li>\n</ol>\n\n'),
    TEXT.map(lambda text: block(table(esc(text), ("One", "Two"), [("1", "2")]))),
)
SECTIONS = st.tuples(st.integers(1, 2), TEXT, st.lists(BLOCKS, max_size=3))


def page(sections: list[tuple[int, str, list[str]]]) -> str:
    """A page as the engine writes it: a heading, then HTML, and so on."""
    return "".join(heading(level, title, f"section-{n}") + "".join(blocks)
                   for n, (level, title, blocks) in enumerate(sections))


def made(text: str) -> str:
    return markdown.markdown(text, extensions=EXTENSIONS)


@given(st.lists(SECTIONS, min_size=1, max_size=4))
def test_a_page_is_the_same_as_if_markdown_had_read_all_of_it(
        sections: list[tuple[int, str, list[str]]]) -> None:
    text = page(sections)
    blocks = take_out(text)
    assert slim_html(blocks.put_back(made(blocks.markdown))) == slim_html(made(text))
    assert "<li" not in blocks.markdown


@given(st.lists(SECTIONS, min_size=1, max_size=4))
def test_everything_that_can_be_linked_to_is_known(
        sections: list[tuple[int, str, list[str]]]) -> None:
    text = page(sections)
    assert take_out(text).anchors == set(re.findall(r'\sid="([^"]+)"', text))


def test_what_is_no_html_stays_with_markdown() -> None:
    text = heading(1, "Hats", "hats") + "Plain *words*.\n\n" + block("<p>HTML</p>")
    assert take_out(text).markdown == text


@given(st.text("a \t\n<>/prescito\u00a0", max_size=60))
def test_slimming_takes_only_space_around_line_ends(text: str) -> None:
    """HTML, 4.5 and CSS Text 3, 4.1: space around a line's end is shown as one space at most."""
    slim = slim_html(text)
    assert slim.split() == text.split()
    assert len(slim) <= len(text)
    if "<pre" not in text and "<script" not in text:
        assert not re.search(r"[ \t]\n|\n\s", slim)


def test_a_figure_and_its_unit_stay_on_one_line() -> None:
    """What breaks between lines: a space does, U+00A0 does not (Unicode, UAX 14, class GL)."""
    text = '<p title="2 cm (3 in)">About 190 cm (74¾ in), 4 in to 5 in; knit 3 in each <b>5 in</b>'
    assert slim_html(text) == ('<p title="2 cm (3 in)">About 190~cm (74¾~in), 4~in to 5~in; knit 3 '
                               "in each <b>5~in</b>").replace("~", "\u00a0")


def test_the_needles_of_a_range_stay_on_one_line() -> None:
    """ "L12 to" at the end of a line is half of what is to be set."""
    text = '<b title="L1 to R1">13 stitches</b> (L12 to R12), <b>R3 to R9</b>, about 74¾ in long'
    assert slim_html(text) == ('<b title="L1 to R1">13 stitches</b> (L12~to~R12), <b>R3~to~R9</b>, '
                               "about 74¾~in long").replace("~", "\u00a0")


class Numbered(Extension):
    """Writes its number before every heading: what a heading becomes depends on those before it."""

    def extendMarkdown(self, md: markdown.Markdown) -> None:
        class Numbers(Treeprocessor):
            def run(self, root: Element) -> None:
                for number, element in enumerate(root.iter("h2"), 1):
                    element.text = f"{number}. {element.text}"

        md.treeprocessors.register(Numbers(md), "numbers", 1)


@given(st.lists(st.lists(SECTIONS, min_size=1, max_size=4), min_size=2, max_size=3),
       st.booleans())
def test_headings_are_as_if_each_page_had_been_read_by_itself(
        pages: list[list[tuple[int, str, list[str]]]], numbered: bool) -> None:
    extensions = [*EXTENSIONS, *([Numbered()] if numbered else [])]
    headings = Headings({"markdown_extensions": extensions, "mdx_configs": {}})
    first = page([(2, "One", [block("<p>1</p>")]), (2, "Two", [block("<p>2</p>")])])
    for text in (first, *map(page, pages)):
        blocks = take_out(text)
        alone = markdown.Markdown(extensions=extensions)
        head, html, toc = headings.read(text)
        assert head == {} and html == blocks.put_back(alone.convert(blocks.markdown))
        assert [(item.id, item.title) for item in toc] == [
            (token["id"], token["name"]) for token in alone.toc_tokens]
    assert headings.by_themselves is not numbered
