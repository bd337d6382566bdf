"""What a template says to a reader stands in `words/frame_text.py`, and all that stands there is
said."""

from __future__ import annotations

import re
from html.parser import HTMLParser
from pathlib import Path

import pytest
from jinja2 import Environment, StrictUndefined
from walebook.words.frame_text import FRAME_TEXTS

TEMPLATES = sorted((Path(__file__).parents[2] / "site_src" / ".overrides").rglob("*.html"))
NAMED = re.compile(r"\btexts\.(\w+)")
TAGS = re.compile(r"\{#.*?#\}|\{%.*?%\}|\{\{.*?\}\}", re.DOTALL)
READ_OUT = {"alt", "aria-description", "aria-label", "aria-placeholder", "placeholder", "title"}
"""Attributes whose value a reader sees or hears."""


class _Texts(HTMLParser):
    """What a page shows or reads out, but for what its scripts and styles are."""

    def __init__(self) -> None:
        super().__init__()
        self.found: list[str] = []
        self.within = ""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.within = tag if tag in ("script", "style") else ""
        self.found += [value for name, value in attrs if name in READ_OUT and value]

    def handle_endtag(self, tag: str) -> None:
        self.within = ""

    def handle_data(self, data: str) -> None:
        if not self.within:
            self.found.append(data)


def own_texts(template: str) -> list[str]:
    """What a template says in words that are written in it."""
    parser = _Texts()
    parser.feed(TAGS.sub(" ", template))
    parser.close()
    return [text.strip() for text in parser.found if re.search(r"[^\W\d_]", text)]


@pytest.mark.parametrize("path", TEMPLATES, ids=lambda path: path.name)
def test_a_template_has_no_words_for_readers(path: Path) -> None:
    assert own_texts(path.read_text(encoding="utf-8")) == []


@pytest.mark.parametrize(("template", "found"), [
    ("<h1>Not here</h1>", ["Not here"]), ("<h1>{{ texts.not_here }}</h1>", []),
    ('<nav aria-label="All pages">', ["All pages"]), ('<nav class="wb-foot" id="all">', []),
    ("{# A remark. #}<p>{% if a %}One{% endif %}</p>", ["One"]),
    ("<style>p { margin: 0 }</style><script>go()</script>", []),
    ('<link title="{{ name }}: corrections">', [":  corrections".replace("  ", " ")])])
def test_words_in_a_template_are_seen(template: str, found: list[str]) -> None:
    assert own_texts(template) == found


def test_templates_name_each_text_and_no_other() -> None:
    named = {name for path in TEMPLATES for name in NAMED.findall(path.read_text(encoding="utf-8"))}
    assert named == set(FRAME_TEXTS)


def test_a_text_that_is_not_there_would_show_as_nothing() -> None:
    """So the names are held together here, and not where a page is rendered."""
    template = Environment(autoescape=True).from_string("<p>{{ texts.no_such }}</p>")
    assert template.render(texts=FRAME_TEXTS) == "<p></p>"
    assert Environment(undefined=StrictUndefined, autoescape=True).from_string(
        "{{ texts.skip }}").render(texts=FRAME_TEXTS) == "Skip to the text"
