"""The page "Try it" of a built site: the runtime, the editor, and the texts that it begins with."""

from __future__ import annotations

from collections.abc import Iterator
from hashlib import sha256
from pathlib import Path
from typing import Any

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import Abort
from mkdocs.structure.files import File, Files, InclusionLevel
from walebook.pattern.collection import CollectionSettings
from walebook.source.page_names import OWN_CHART
from walebook.words.site_files import EDITOR_ON_SITE
from walebook_site.editor import LICENCES, SCRIPT, NoEditor, editor_of
from walebook_site.finishing import Settings
from walebook_site.keeping import compact_json
from walebook_site.naming import digest_name
from walebook_site.new_collection import Beginning
from walebook_site.reading import Reading
from walebook_site.results import Results
from walebook_site.runtime import NoRuntime, Runtime, runtime_of

PAGE = "try-it.md"
FOLDER = "try-it"
START = f"{FOLDER}/start.json"
"""What all patterns share, and the list of those to begin with."""
SCHEMA = 1
"""The number of the form of these files; it changes when a key changes its meaning."""
_MARKER = "<!-- walebook:try-it -->"
_LISTS = ("try_css", "try_scripts")


class TryInSite:
    """What one build's site has for the page "Try it"; nothing where it is not to have it."""

    def __init__(self) -> None:
        self._runtime: Runtime | None = None
        self._made: dict[str, bytes | str] = {}
        self._script = ""

    def begin(self, config: MkDocsConfig, results: Results) -> None:
        """Have all ready that the settings ask for. Raises Abort where a part of it is missing."""
        self._runtime, self._made = None, {}
        if not Settings.read(config.extra).try_it:
            return
        root = Path(config.config_file_path).parent
        try:
            self._runtime, editor = runtime_of(root), editor_of(root)
        except (NoRuntime, NoEditor) as fault:
            raise Abort(f"The site was not built: {fault}.") from fault
        digest = sha256(editor[SCRIPT]).hexdigest()
        self._script = digest_name(f"{FOLDER}/{SCRIPT}", digest)
        self._made = {f"{self._runtime.folder}/{name}": data
                      for name, data in self._runtime.files.items()}
        self._made |= {self._script: editor[SCRIPT], f"{FOLDER}/{LICENCES}": editor[LICENCES]}
        self._made |= dict(texts_to_begin(Reading(root), results))

    def add(self, files: Files, config: MkDocsConfig) -> None:
        """Add all of it to the site; where it is not to be there, take its page out."""
        page = files.get_file_from_path(PAGE)
        if page is None or self._runtime is None:
            _leave_out(files, config)
            return
        for path, content in self._made.items():
            if files.get_file_from_path(path) is None:  # "My gauge" has the same runtime
                files.append(File.generated(config, path, content=content,
                                            inclusion=InclusionLevel.NOT_IN_NAV))
        text = page.content_string.replace(_MARKER, self._place(self._runtime))
        files.remove(page)
        files.append(File.generated(config, PAGE, content=text))

    def _place(self, runtime: Runtime) -> str:
        """The place of the editor on the page, as HTML; a script fills it."""
        return (f'<section class="wb-try" data-wb-runtime="{runtime.folder}" '
                f'data-wb-bytes="{runtime.bytes}" data-wb-editor="{self._script}">'
                f"{EDITOR_ON_SITE}</section>")


def texts_to_begin(reading: Reading, results: Results) -> Iterator[tuple[str, str]]:
    """Yield the files with what a pattern is begun from: what all share, and a file a pattern.

    A pattern whose pages are sold as files has none.
    """
    beds = {path.stem: reading.apart(path)[0] or "" for path in reading.beds()}
    listed: list[dict[str, str]] = []
    charts: dict[str, str] = {}
    for each in results.patterns:
        folder = reading.folder(each.slug)
        if folder.source is None or each.files_only:
            continue
        own: dict[str, Any] = {"schema": SCHEMA, "slug": each.slug, "source": folder.source,
                               "shared": folder.shared, "pictures": dict(folder.pictures),
                               "picture_sizes": {name: list(size) for name, size
                                                 in folder.picture_sizes.items()},
                               "own_chart": "", "has_notes": bool(folder.notes.strip())}
        for name, path in folder.charts.items():
            text = reading.apart(path)[0] or ""
            if name == OWN_CHART:
                own["own_chart"] = text
            else:
                charts[name] = text
        listed.append({"slug": each.slug, "title": each.pages[0].title})
        yield f"{FOLDER}/{each.slug}.json", compact_json(own)
    settings = CollectionSettings(**results.collection)
    yield START, compact_json({"schema": SCHEMA, "units": settings.units, "beds": beds,
                              "charts": charts, "collection": dict(settings.for_patterns),
                              "patterns": listed, "blank": Beginning().source_alone()})


def _leave_out(files: Files, config: MkDocsConfig) -> None:
    """Take the page out of a site that is not to have it, with what only it loads."""
    for path in (PAGE, *(name for each in _LISTS for name in config.extra.get(each, ()))):
        if file := files.get_file_from_path(path):
            files.remove(file)
    if config.nav is not None:
        config.nav = _without(config.nav)


def _without(nav: list[Any]) -> list[Any]:
    """The navigation without the page, at whatever depth it is named."""
    left: list[Any] = []
    for item in nav:
        if isinstance(item, dict):
            within = {title: _without(what) if isinstance(what, list) else what
                      for title, what in item.items() if what != PAGE}
            left += [within] if within else []
        elif item != PAGE:
            left.append(item)
    return left
