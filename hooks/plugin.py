"""Walebook as a plugin of the site builder: a collection's site from our parts and its own.

A collection's `mkdocs.yml` names its site and this plugin. Pages, templates, styles, scripts,
search and navigation then come from the settings that are shipped (`shipped.SETTINGS`), unless the
collection says another thing. All else is done by the functions of the hook, `patterns.py`.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from functools import cache
from pathlib import Path
from typing import Any

from mkdocs.config import config_options as options
from mkdocs.config.base import Config, ConfigErrors, ConfigWarnings, ValidationError
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import Abort
from mkdocs.plugins import BasePlugin, CombinedEvent, event_priority
from mkdocs.structure.files import Files, get_files
from mkdocs.structure.pages import Page
from mkdocs.utils.yaml import yaml_load
from walebook.core.text import nearest, series
from walebook_site import patterns
from walebook_site.designer_pages import designer_pages, unlinked, without_section
from walebook_site.shipped import OWN_PAGES, PARTS, SETTINGS, SITE
from walebook_site.try_in_site import PAGE as TRY_IT

SEARCH = "material/search"
LETTER = "assets/letter.css"
_OURS = ("nav", "markdown_extensions", "mdx_configs", "validation", "site_description")
_NO_THEME = ("The site was not built: mkdocs.yml names the theme {name}, and the pages of patterns "
             "need Walebook's own templates. Leave `theme` out. For another theme, write the pages "
             "with `walebook pages FOLDER` and build them without this plugin.")
_NO_FOLDERS = ("The site was not built: mkdocs.yml says `use_directory_urls: true`, and these "
               "pages must open from disk. Leave `use_directory_urls` out.")
_TWICE = ("The site was not built: mkdocs.yml names Walebook both under `plugins` and under "
          "{where}. Leave it out there: the plugin does the same.")


class _YesOrNo(options.Type[bool]):
    """A setting that is on or off."""

    def run_validation(self, value: object) -> bool:
        """Return the value. Raises ValidationError in words."""
        if isinstance(value, bool):
            return value
        raise ValidationError(f"found {value!r}, expected true or false")


class _Paper(options.Choice[str]):
    """The size of a sheet."""

    def run_validation(self, value: object) -> str:
        """Return the value. Raises ValidationError in words."""
        if isinstance(value, str) and value in self.choices:
            return value
        raise ValidationError(f"found {value!r}, expected {series([*self.choices])}")


class PluginSettings(Config):  # type: ignore[no-untyped-call]
    """What may stand under `plugins: - walebook:` in a collection's mkdocs.yml."""

    single_files = _YesOrNo(bool, default=True)
    whole_pattern = _YesOrNo(bool, default=False)
    pdf = _YesOrNo(bool, default=False)
    preview_picture = _YesOrNo(bool, default=False)
    my_gauge = _YesOrNo(bool, default=False)
    try_it = _YesOrNo(bool, default=False)
    for_designers = _YesOrNo(bool, default=True)
    paper = _Paper(("A4", "Letter"), default="A4")

    def validate(self) -> tuple[ConfigErrors, ConfigWarnings]:
        """Return what is wrong, and what is doubtful: an unknown setting, in words."""
        failed, warned = super().validate()
        known = [key for key, _ in self._schema]
        return failed, [(key, text if key in known else _unknown(key, known))
                        for key, text in warned]


def _unknown(key: str, known: list[str]) -> str:
    like = nearest(key, known)
    return "there is no such setting. " + (f"Did you mean {like}?" if like else
                                           f"There are {series(known, 'and')}.")


class Plugin(BasePlugin[PluginSettings]):  # type: ignore[no-untyped-call]
    """The plugin `walebook`: the events of the hook, after the collection's settings are complete.
    """

    def on_startup(self, *, command: str, dirty: bool) -> None:
        """Note how the site builder was called."""
        self._called: dict[str, Any] = {"command": command, "dirty": dirty}
        patterns.on_startup(**self._called)

    @event_priority(float("inf"))  # before any other plugin looks at the settings
    def _complete(self, config: MkDocsConfig) -> MkDocsConfig:
        """Fill in what the collection's mkdocs.yml leaves to us."""
        given = _given(config)
        _refuse(config, given)
        ours = _our_settings()
        own = Path(config.config_file_path).parent / OWN_PAGES
        for name in _OURS:
            if name not in given:
                config[name] = ours[name]
        gone = set() if self.config.for_designers else designer_pages(ours.nav or [])
        if "nav" not in given:
            nav = [*without_section(ours.nav or []), TRY_IT] if gone else ours.nav or ()
            config.nav = [*nav, *_further_pages(own, gone - {TRY_IT})]
        self._gone = {page for page in gone - {TRY_IT}  # which has a setting to itself
                      if not (own / page).is_file()}
        if "markdown_extensions" in given:
            config.markdown_extensions = list(
                dict.fromkeys([*ours.markdown_extensions, *config.markdown_extensions]))
            config.mdx_configs = {**ours.mdx_configs, **config.mdx_configs}
        config.use_directory_urls = False
        config.extra.update({**ours.extra, **config.extra, "walebook": self._beside()})
        paper = [LETTER] if self.config.paper == "Letter" else []
        config.extra["print_css"] = [*ours.extra["print_css"], *paper]
        config.extra_css = [*ours.extra_css, *config.extra_css]
        config.extra_javascript = [*ours.extra_javascript, *config.extra_javascript]
        templates = [config.theme.custom_dir] if config.theme.custom_dir else []
        ours.theme.dirs[:0] = templates
        config.theme = ours.theme
        config.docs_dir = str(SITE)
        config.watch = [*config.watch, *templates, str(own)]  # which may come later
        self._add_search(config, ours)
        return config

    def _beside(self) -> dict[str, bool]:
        names = ("single_files", "whole_pattern", "pdf", "preview_picture", "my_gauge",
                 "try_it")
        return {name: self.config[name] for name in names}

    def _add_search(self, config: MkDocsConfig, ours: MkDocsConfig) -> None:
        """Let the search collect its index, unless the collection names a search itself."""
        if not any(name.endswith("search") for name in config.plugins):
            search = ours.plugins[SEARCH]
            search.on_startup(**self._called)
            config.plugins[SEARCH] = search

    on_config = CombinedEvent(_complete, staticmethod(patterns.on_config))

    @event_priority(float("inf"))
    def _lay_over(self, files: Files, config: MkDocsConfig) -> Files:
        """Put the collection's own pages, styles and scripts in the place of ours."""
        own = Path(config.config_file_path).parent / OWN_PAGES
        for page in self._gone:
            if ours := files.get_file_from_path(page):
                files.remove(ours)
        if own.is_dir():
            config.docs_dir = str(own)
            for file in get_files(config):
                if ours := files.get_file_from_path(file.src_uri):
                    files.remove(ours)
                files.append(file)
            config.docs_dir = str(SITE)
        return files

    on_files = CombinedEvent(_lay_over, staticmethod(patterns.on_files))
    on_pre_build = staticmethod(patterns.on_pre_build)
    on_nav = staticmethod(patterns.on_nav)
    on_env = staticmethod(patterns.on_env)
    on_serve = staticmethod(patterns.on_serve)
    on_pre_page = staticmethod(patterns.on_pre_page)

    @event_priority(float("inf"))
    def _unlink(self, markdown: str, page: Page, **_: object) -> str:
        """Take out the links to pages that the collection leaves out."""
        return unlinked(markdown, page.file.src_uri, self._gone)

    on_page_markdown = CombinedEvent(_unlink, staticmethod(patterns.on_page_markdown))
    on_page_context = staticmethod(patterns.on_page_context)
    on_post_page = staticmethod(patterns.on_post_page)
    on_post_template = staticmethod(patterns.on_post_template)
    on_post_build = CombinedEvent(*map(staticmethod, patterns.on_post_build.methods))
    on_build_error = staticmethod(patterns.on_build_error)
    on_shutdown = staticmethod(patterns.on_shutdown)


def _given(config: MkDocsConfig) -> set[str]:
    """The names of the settings that the collection's mkdocs.yml gives."""
    with Path(config.config_file_path).open("rb") as file:  # its name leads to what it inherits
        return set(yaml_load(file))


def _refuse(config: MkDocsConfig, given: set[str]) -> None:
    """Raise Abort, in words, where the settings cannot hold together."""
    if config.theme.name not in (None, "mkdocs"):
        raise Abort(_NO_THEME.format(name=config.theme.name))
    if "use_directory_urls" in given and config.use_directory_urls:
        raise Abort(_NO_FOLDERS)
    if isinstance(config.extra, Mapping) and "walebook" in config.extra:
        raise Abort(_TWICE.format(where="`extra`"))
    if any(Path(name).resolve() == Path(patterns.__file__).resolve() for name in config.hooks):
        raise Abort(_TWICE.format(where="`hooks`"))


@cache
def _shipped_text() -> str:
    return SETTINGS.read_text(encoding="utf-8")


def _our_settings() -> MkDocsConfig:
    """The shipped settings, read and checked by the site builder. Raises Abort if they fail."""
    settings = yaml_load(_shipped_text())
    ours = MkDocsConfig(config_file_path=str(PARTS / SETTINGS.name))  # paths are from there
    ours.load_dict(settings)
    errors, _ = ours.validate()
    if errors:
        faults = "; ".join(f"{name}: {fault}" for name, fault in errors)
        raise Abort(f"The site was not built: the parts of Walebook are not whole ({faults}). "
                    "Install it again.")
    return ours


def _further_pages(own: Path, gone: Collection[str]) -> list[str]:
    """The pages of a collection that are in the place of none of ours, or of one that is `gone`."""
    found = (path.relative_to(own) for path in sorted(own.rglob("*.md")))
    return [path.as_posix() for path in found
            if not ((SITE / path).is_file() and path.as_posix() not in gone)
            and not any(p.startswith(".") for p in path.parts)]
