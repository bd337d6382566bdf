"""What the home page has of the patterns: whose they are, and the list of them all."""

from __future__ import annotations

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import File, Files, InclusionLevel
from walebook.pages import first_list, further_lists, opening
from walebook.pattern.collection import CollectionSettings
from walebook_site.results import Results

HOME = "index.md"
_LIST_MARKER = "<!-- walebook:pattern-list -->"
_OPENING_MARKER = "<!-- walebook:collection -->"


def open_home(files: Files, config: MkDocsConfig, settings: CollectionSettings, patterns: int
              ) -> None:
    """Say on the home page whose patterns these are, and how many."""
    _fill(files, config, _OPENING_MARKER, opening(settings, patterns))


def list_patterns(files: Files, config: MkDocsConfig, results: Results) -> None:
    """List the patterns on the home page, and on pages of their own where they are many."""
    cards = results.cards()
    if not _fill(files, config, _LIST_MARKER, first_list(cards)):
        return
    for page in further_lists(cards):
        files.append(File.generated(config, page.path, content=page.text,
                                    inclusion=InclusionLevel.NOT_IN_NAV))


def _fill(files: Files, config: MkDocsConfig, marker: str, text: str) -> bool:
    """Put a text in the place of a marker of the home page; False where it has none."""
    home = files.get_file_from_path(HOME)
    if home is None or marker not in home.content_string:
        return False
    filled = home.content_string.replace(marker, text)
    files.remove(home)
    files.append(File.generated(config, HOME, content=filled))
    return True
