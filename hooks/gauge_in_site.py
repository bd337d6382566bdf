"""The part "My gauge" of a built site: the runtime, the texts of patterns, its place on pages."""

from __future__ import annotations

import json
from pathlib import Path
from posixpath import dirname

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import Abort
from mkdocs.structure.files import File, Files, InclusionLevel
from mkdocs.structure.pages import Page
from walebook.pattern.collection import CollectionSettings
from walebook.words.site_files import own_on_site
from walebook_site.finishing import Settings
from walebook_site.offered_texts import texts_offered
from walebook_site.pattern_pages import PatternPage
from walebook_site.reading import Reading
from walebook_site.results import Results
from walebook_site.runtime import NoRuntime, Runtime, runtime_of

FILE = "my-gauge.json"
"""What lies beside the pages of a pattern whose reader may have her own gauge."""


class GaugeInSite:
    """What one build's site has for its readers' own gauges; nothing where it is not to have it."""

    def __init__(self) -> None:
        self._runtime: Runtime | None = None
        self._texts: dict[str, str] = {}

    def begin(self, config: MkDocsConfig, results: Results) -> None:
        """Have all ready that the settings ask for. Raises Abort where there is no runtime."""
        self._runtime, self._texts = None, {}
        if not Settings.read(config.extra).my_gauge:
            return
        root = Path(config.config_file_path).parent
        try:
            self._runtime = runtime_of(root)
        except NoRuntime as fault:
            raise Abort(f"The site was not built: {fault}.") from fault
        reading = Reading(root)
        settings = CollectionSettings(**results.collection)
        offers = {each.slug: texts_offered(reading, reading.folder(each.slug), settings)
                  for each in results.patterns}
        self._texts = {slug: text for slug, text in offers.items() if text}

    def add(self, files: Files, config: MkDocsConfig) -> None:
        """Add the runtime to the site, and beside the pages of each pattern what it works with."""
        if self._runtime is None:
            return
        made: dict[str, bytes | str] = {
            f"{self._runtime.folder}/{name}": data for name, data in self._runtime.files.items()}
        made |= {f"patterns/{slug}/{FILE}": text for slug, text in self._texts.items()}
        for path, content in made.items():
            files.append(File.generated(config, path, content=content,
                                        inclusion=InclusionLevel.NOT_IN_NAV))

    def has(self, page: Page) -> bool:
        """True for a page of a pattern whose reader may have her own gauge."""
        return isinstance(page, PatternPage) and _folder(page) in self._texts

    def place(self, page: Page) -> str:
        """Return the place of the part on a page, as HTML; "" where there is none.

        A script fills it. From disk, and in a single file, its words stay.
        """
        if self._runtime is None or not self.has(page):
            return ""
        offered = json.loads(self._texts[_folder(page)])
        of = [what for what, is_there in (
            ("gauge", offered["fabrics"]), ("measures", any(offered["measures"].values())))
            if is_there]
        return (f'<section class="wb-my-gauge" id="my-gauge" data-wb-of="{" and ".join(of)}" '
                f'data-wb-runtime="{self._runtime.folder}" data-wb-bytes="{self._runtime.bytes}">'
                f"{own_on_site(of)}</section>")


def _folder(page: Page) -> str:
    """The folder of a pattern's page."""
    return dirname(page.file.src_uri).removeprefix("patterns/")
