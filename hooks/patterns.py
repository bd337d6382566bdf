"""The site builder's events: proves every pattern first, then adds its pages to the site."""

from __future__ import annotations

import json
import logging
from pathlib import Path

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import Abort
from mkdocs.plugins import event_priority
from mkdocs.structure.files import File, Files, InclusionLevel
from mkdocs.structure.pages import Page
from walebook.pages import counts_schema, facts_schema, pattern_cards, write_pages
from walebook.pages.source_page import fill_lists
from walebook_site.command import summary
from walebook_site.finishing import Settings, as_preview, finish, publish_beside
from walebook_site.interrupted import complete_site
from walebook_site.keeping import write_worker
from walebook_site.naming import publish_own
from walebook_site.paper import NoPaper
from walebook_site.policy import guard
from walebook_site.sources import Collection, collect
from walebook_site.whole_blocks import Blocks, take_out
from walebook_site.whole_site import (
    NO_DIRTY,
    Build,
    count_when_quiet,
    is_outside,
    no_site,
    start,
)

_log = logging.getLogger("mkdocs.plugins.walebook")
_LIST_MARKER = "<!-- walebook:pattern-list -->"
WORKER = ".worker"  # in site_src/; it is published as one file
SCHEMAS = {"patterns/counts.schema.json": counts_schema, "patterns/facts.schema.json": facts_schema}

# Handed from on_pre_build to on_files of the same build, and taken out there: the module
# outlives a build when the site is served.
_proved: list[Collection] = []
_served: list[bool] = [False]
# Handed from on_page_markdown to on_page_content of the same page.
_blocks: dict[str, Blocks] = {}
# From on_config to the end of the same build, whichever way it ends.
_building: list[Build] = []


def on_startup(command: str, dirty: bool, **_: object) -> None:
    """Note whether the site is served while it is written: then no browser keeps any of it."""
    _served[0] = command == "serve"
    count_when_quiet()
    if dirty and not _served[0]:
        raise Abort(NO_DIRTY)


@event_priority(float("-inf"))  # when every plugin has had its say about the site's folder
def on_config(config: MkDocsConfig) -> MkDocsConfig:
    """Build beside the old site; served, the site builder has a folder of its own for it."""
    if not _served[0]:
        _building.append(start(config))
    elif told := complete_site(Path(config.config_file_path).parent):
        _log.info(told)
    return config


def on_pre_build(config: MkDocsConfig) -> None:
    """Read, plan and knit everything before the old site is touched; stop on any error."""
    _proved.clear()
    _blocks.clear()
    try:
        Settings.read(config.extra)
    except ValueError as fault:
        raise Abort(f"The site was not built: {fault}.") from fault
    collection = collect(Path(config.config_file_path).parent)
    findings = collection.rendered()
    if not collection.is_sound:
        _log.error("\n\n".join(("the patterns have errors", *findings)))
        raise Abort(f"The site was not built. {summary(collection)}")
    for finding in findings:
        _log.info(finding)
    _proved.append(collection)


def on_files(files: Files, config: MkDocsConfig) -> Files:
    """Add the pages, counts and pictures of every pattern, and the list on the home page."""
    collection = _proved.pop()
    for proof in collection.proofs:
        for page in write_pages(proof):
            files.append(File.generated(config, page.path, content=page.text,
                                        inclusion=InclusionLevel.NOT_IN_NAV))
    for path, picture in collection.pictures:
        files.append(File.generated(config, path, abs_src_path=str(picture),
                                    inclusion=InclusionLevel.NOT_IN_NAV))
    for path, schema in SCHEMAS.items():
        content = json.dumps(schema(), indent=1, ensure_ascii=False)
        files.append(File.generated(config, path, content=content))
    _list_patterns(files, config, collection)
    publish_own(files, config)
    return files


def on_page_markdown(markdown: str, page: Page, **_: object) -> str:
    """Put the lists there are on the page about pattern sources; keep our HTML from Markdown."""
    if not (page.file.generated_by and page.file.src_uri.startswith("patterns/")):
        return fill_lists(markdown)
    blocks = _blocks[page.file.src_uri] = take_out(markdown)
    return blocks.markdown


def on_page_content(html: str, page: Page, **_: object) -> str:
    """Put the pages' own HTML back, and tell the site builder what can be linked to in it."""
    blocks = _blocks.pop(page.file.src_uri, None)
    if blocks is None:
        return html
    page.present_anchor_ids = (page.present_anchor_ids or set()) | blocks.anchors
    return blocks.put_back(html)


def on_post_page(output: str, page: Page, config: MkDocsConfig) -> str:
    """Finish a page: its head on paper, the files beside it, what it may load."""
    if _served[0]:
        output = as_preview(output)
    return finish(output, Settings.read(config.extra))


def on_post_template(output_content: str, template_name: str, **_: object) -> str:
    """Give the page that stands for missing ones its policy too."""
    return guard(output_content) if template_name.endswith(".html") else output_content


@event_priority(float("-inf"))  # when all is written, by every other plugin and hook too
def on_post_build(config: MkDocsConfig) -> None:
    """Publish what lies beside the pages, name the edition that all files are, replace the site."""
    site = Path(config.site_dir)
    try:
        publish_beside(site, Settings.read(config.extra))
    except NoPaper as fault:
        raise Abort(f"The site was not built: {fault}.") from fault
    if not _served[0]:
        write_worker(site, Path(config.docs_dir) / WORKER)
    if _building:
        _building[-1].put_in_place()
        _building.pop()


def on_build_error(error: Exception) -> None:
    """Leave the old site as it is, and say what the machine refused, if that was why."""
    site_dir = _building[-1].site_dir if _building else None
    on_shutdown()
    if site_dir and is_outside(error):
        raise no_site(site_dir, error) from error


def on_shutdown() -> None:
    """Give up a build that did not come to its end."""
    while _building:
        _building.pop().give_up()


def _list_patterns(files: Files, config: MkDocsConfig, collection: Collection) -> None:
    home = files.get_file_from_path("index.md")
    if home is None or _LIST_MARKER not in home.content_string:
        return
    text = home.content_string.replace(_LIST_MARKER, pattern_cards(collection.proofs))
    files.remove(home)
    files.append(File.generated(config, "index.md", content=text))
