"""The site builder's events: proves every pattern first, then adds its pages to the site."""

from __future__ import annotations

import json
import logging
import sys
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import cast

from jinja2 import Environment
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import Abort
from mkdocs.livereload import LiveReloadServer
from mkdocs.plugins import CombinedEvent, event_priority
from mkdocs.structure.files import File, Files, InclusionLevel
from mkdocs.structure.nav import Navigation
from mkdocs.structure.pages import Page
from mkdocs.utils.templates import TemplateContext
from walebook.pages import SCHEMAS
from walebook.pages.lists import ListPage
from walebook.pages.source_page import fill_lists
from walebook.pattern.collection import CollectionSettings
from walebook.words.frame_text import FRAME_TEXTS
from walebook_site.cache import Cache
from walebook_site.command import summary
from walebook_site.feed import add_feed
from walebook_site.finishing import Settings, as_preview, finish, publish_beside
from walebook_site.former import former_of
from walebook_site.frame import SiteFrame, make_room, reloads
from walebook_site.gauge_in_site import GaugeInSite
from walebook_site.handing_over import hand_over
from walebook_site.home_page import list_patterns, open_home
from walebook_site.interrupted import complete_site
from walebook_site.keeping import write_worker
from walebook_site.lock import Held
from walebook_site.naming import publish_own
from walebook_site.own_files import OwnFiles
from walebook_site.paper import NoPaper
from walebook_site.pattern_pages import Headings, PatternPage, pattern_files
from walebook_site.policy import guard
from walebook_site.preview_picture import NO_ADDRESS, NoPicture
from walebook_site.progress import Progress
from walebook_site.proving import Workshop, prove_all
from walebook_site.reading import Reading
from walebook_site.results import Result, Results
from walebook_site.search import shorten
from walebook_site.serving import Serving
from walebook_site.targets import BadTarget
from walebook_site.try_in_site import TryInSite
from walebook_site.whole_site import (
    NO_DIRTY,
    Build,
    count_when_quiet,
    is_outside,
    no_site,
    start,
)

_log = logging.getLogger("mkdocs.plugins.walebook")
WORKER = ".worker"  # in site_src/; it is published as one file

# Handed from on_pre_build to on_files of the same build, and taken out there: the module
# outlives a build when the site is served.
_proved: list[Results] = []
_served: list[bool] = [False]
# Whether the patterns of a served site are made when they are asked for.
_on_demand: list[bool] = [False]
# Whether a pattern is published, from on_files on.
_dated: list[bool] = [False]
# What the designer says of the whole collection, from on_files on.
_collection: list[CollectionSettings] = [CollectionSettings()]
# The patterns of a build whose sizes are handed over as files.
_handed: list[Result] = []
# Their files, from their making until the new site is in its place.
_apart: list[OwnFiles] = []
# The last frame of a site that is served so, and what is known of the next one.
_frames: list[SiteFrame] = []
_navigation: list[Navigation] = []
# What turns the headings of this build's pages into HTML.
_headings: list[Headings] = []
# What this build's site has for its readers' own gauges.
_gauge = GaugeInSite()
# What it has for the page "Try it".
_try_it = TryInSite()
# Says how far the build is: from on_pre_build to its end.
_progress: list[Progress] = []
# From on_config to the end of the same build, whichever way it ends.
_building: list[Build] = []


def on_startup(command: str, dirty: bool, **_: object) -> None:
    """Note whether the site is served while it is written: then no browser keeps any of it."""
    _served[0] = command == "serve"
    _on_demand[0] = _served[0] and reloads()
    count_when_quiet()
    if dirty and not _served[0]:
        raise Abort(NO_DIRTY)


@event_priority(float("-inf"))  # when every plugin has had its say about the site's folder
def on_config(config: MkDocsConfig) -> MkDocsConfig:
    """Build beside the old site; served, the site builder has a separate folder for it."""
    if not _served[0]:
        _building.append(start(config))
    elif notice := complete_site(Path(config.config_file_path).parent):
        _log.info(notice)
    if _on_demand[0]:
        make_room(config, len(_frames))
    return config


def on_pre_build(config: MkDocsConfig) -> None:
    """Read, plan and knit everything before the old site is touched; stop on any error."""
    _proved.clear()
    _headings[:] = [Headings(config)]
    try:
        if Settings.read(config.extra).preview_picture and not config.site_url:
            raise ValueError(NO_ADDRESS)
    except ValueError as fault:
        raise Abort(f"The site was not built: {fault}.") from fault
    _progress[:] = [progress := Progress(sys.stderr if _log.isEnabledFor(logging.INFO) else None)]
    if _on_demand[0]:
        return
    with progress:
        results = prove_all(Path(config.config_file_path).parent, pages=True,
                            watch=progress.proved)
    findings = results.rendered()
    if not results.is_sound:
        _log.error("\n\n".join(("the patterns have errors", *findings)))
        raise Abort(f"The site was not built. {summary(results)}")
    for finding in findings:
        _log.info(finding)
    _gauge.begin(config, results)
    _try_it.begin(config, results)
    _proved.append(results)


def on_files(files: Files, config: MkDocsConfig) -> Files:
    """Add the pages, counts and pictures of every pattern, and the list on the home page."""
    _try_it.add(files, config)
    if not _on_demand[0]:
        results = _proved.pop()
        _collection[:] = [CollectionSettings(**results.collection)]
        _handed[:] = [each for each in results.patterns if each.files_only]
        _dated[0] = bool(results.patterns)
        for file in pattern_files(results, config):
            files.append(file)
        _gauge.add(files, config)
        add_feed(files, config, results, _collection[-1])
        list_patterns(files, config, results)
        open_home(files, config, _collection[-1], len(results.patterns))
        _add(files, config, former_of(_collection[-1], results.patterns))
        _progress[0].expect(len(files.documentation_pages()), "pages written")
    else:
        shop = Workshop(Reading(Path(config.config_file_path).parent),
                        Cache.beside(Path(config.config_file_path).parent), pages=False)
        _collection[:] = [CollectionSettings(**shop.collection())]
        open_home(files, config, _collection[-1], len(shop.reading.folders()))
        _add(files, config, former_of(_collection[-1], (), shop.reading.names()))
    for name, schema in SCHEMAS.items():
        content = json.dumps(schema(), indent=1, ensure_ascii=False)
        files.append(File.generated(config, f"patterns/{name}.schema.json", content=content))
    publish_own(files, config)
    return files


def _add(files: Files, config: MkDocsConfig, pages: Iterable[ListPage]) -> None:
    """Add pages that no navigation leads to."""
    for page in pages:
        files.append(File.generated(config, page.path, content=page.text,
                                    inclusion=InclusionLevel.NOT_IN_NAV))


def on_pre_page(page: Page, **_: object) -> Page:
    """Take from a fixed page the day on which it is built: no source says when it was changed.

    Where there is no pattern to be dated by, it stays: the site builder needs one date.
    """
    if _dated[0] and not isinstance(page, PatternPage):
        page.update_date = ""
    return page


def on_nav(nav: Navigation, **_: object) -> Navigation:
    """Keep the navigation for pages that are rendered later."""
    _navigation[:] = [nav]
    return nav


def on_env(env: Environment, config: MkDocsConfig, files: Files) -> Environment:
    """Keep what pages are rendered with, where that is done when they are asked for."""
    if not _on_demand[0]:
        _frames.clear()
    collection = _collection[-1]
    env.globals |= {"language": collection.language, "contact": collection.contact,
                    "texts": FRAME_TEXTS}
    _frames.append(SiteFrame(config, files, _navigation[0], env, collection.units,
                             collection.language))
    return env


@event_priority(100)  # before a plugin that has something to be watched
def on_serve(server: LiveReloadServer, config: MkDocsConfig, builder: Callable[[], None]
             ) -> LiveReloadServer:
    """Let our own server take the place of the site builder's."""
    if not _on_demand[0]:
        return server
    server.server_close()
    return cast(LiveReloadServer, Serving(config, builder, lambda: _frames[-1]))


def on_page_markdown(markdown: str, page: Page, **_: object) -> str:
    """Put the lists there are on the page about pattern sources."""
    return markdown if isinstance(page, PatternPage) else fill_lists(markdown)


@event_priority(float("-inf"))  # when the search has taken what it finds the page by
def on_page_context(context: TemplateContext, page: Page, nav: Navigation, **_: object
                    ) -> TemplateContext:
    """Read a pattern's page: its template is rendered next."""
    if isinstance(page, PatternPage):
        page.fill(_headings[0])
        page.meta["my_gauge"] = _gauge.has(page)
    return context


def on_post_page(output: str, page: Page, config: MkDocsConfig) -> str:
    """Finish a page: its head on paper, the files beside it, what it may load."""
    _progress[0].step()
    settings = Settings.read(config.extra)
    if isinstance(page, PatternPage):
        if settings.preview_picture:
            output = output.replace("</head>", f"{page.tags()}</head>", 1)
        page.drop()
    if _served[0]:
        output = as_preview(output)
    files_only = isinstance(page, PatternPage) and page.file.result.files_only
    return finish(output, settings, files_only=files_only, further=_gauge.place(page))


def on_post_template(output_content: str, template_name: str, **_: object) -> str:
    """Give the page that stands for missing ones its policy too."""
    return guard(output_content) if template_name.endswith(".html") else output_content


@event_priority(-50)  # behind the search, which writes its index, and before it is copied
def _shorten_search(config: MkDocsConfig) -> None:
    shorten(Path(config.site_dir))


@event_priority(float("-inf"))  # when all is written, by every other plugin and hook too
def _publish(config: MkDocsConfig) -> None:
    """Publish what lies beside the pages, name the edition that all files are, replace the site."""
    site = Path(config.site_dir)
    if _on_demand[0]:
        return
    apart = None
    try:
        publish_beside(site, Settings.read(config.extra), _progress[0],
                       frozenset(each.slug for each in _handed), _collection[-1].language)
        if not _served[0]:
            apart = hand_over(_frames[-1], _handed, _building[-1].site_dir, _progress[0])
    except (NoPaper, NoPicture, BadTarget) as fault:
        raise Abort(f"The site was not built: {fault}.") from fault
    except Held as fault:
        raise Abort(f"The site was not built: its files to hand over are being written by another "
                    f"command ({fault}).") from fault
    _apart[:] = [apart] if apart else []
    if not _served[0]:
        write_worker(site, Path(config.docs_dir) / WORKER)
    if _building:
        _building[-1].put_in_place()
        _building.pop()
    while _apart:
        _apart[0].put_in_place()
        _log.info(f"{_apart[0].count} files to hand over are in {_apart[0].target}")
        _apart.pop()


on_post_build = CombinedEvent(_shorten_search, _publish)


def on_build_error(error: Exception) -> None:
    """Leave the old site as it is, and say what the machine refused, if that was why."""
    site_dir = _building[-1].site_dir if _building else None
    on_shutdown()
    if site_dir and is_outside(error):
        raise no_site(site_dir, error) from error


def on_shutdown() -> None:
    """Give up a build that did not come to its end."""
    while _apart:
        _apart.pop().give_up()
    while _building:
        _building.pop().give_up()
