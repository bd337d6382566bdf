"""A pattern of a folder as a side of a comparison, and as it would be with some inputs set back."""

from __future__ import annotations

import json
from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, field, replace
from functools import lru_cache, partial

from walebook.compare.causes import KnitAgain
from walebook.compare.compared_facts import ComparedSide
from walebook.compare.inputs import Files, Input, as_text, moved, set_back, with_new_names
from walebook.core.problems import Place, Problem
from walebook.pages import has_anchor
from walebook.pages.pattern_facts import side_of
from walebook.pattern.fabrics import NeedleBed
from walebook.proof.texts import Charts, Site, Texts, bed_of, chart_of, prove_texts
from walebook.sizing.charts import Chart
from walebook.source.page_names import OWN_CHART, SHARED
from walebook.source.source import Node, Scalar, parse_source
from walebook_site.reading import Folder
from walebook_site.sources import Proved, Prover
from walebook_site.standing import Standing

ReadChart = tuple[Chart | None, tuple[Problem, ...]]
_NOTES, _PICTURES = "notes.md", "(pictures)"


@dataclass
class Knitted:
    """The patterns of a root in one state, each knitted when it is asked for."""

    standing: Standing
    prover: Prover
    _proved: dict[str, Proved] = field(default_factory=dict)
    _charts_read: dict[tuple[str, str, str], ReadChart] = field(default_factory=dict)

    @classmethod
    def of(cls, standing: Standing) -> Knitted:
        """Return the patterns of a state, none of them knitted yet."""
        return cls(standing, Prover.of(standing.reading))

    def proved(self, slug: str) -> Proved:
        """Return what came of a pattern."""
        if slug not in self._proved:
            folder = replace(self.standing.folder(slug), record=None)  # no fact of the pattern
            self._proved[slug] = self.prover.prove(folder)
        return self._proved[slug]

    def side(self, slug: str) -> ComparedSide:
        """Return a pattern as a side of a comparison."""
        made = self.proved(slug)
        return side_of(slug, made.proof, made.problems)

    def forget(self, slug: str) -> None:
        """Let go of what came of a pattern."""
        self._proved.pop(slug, None)

    def files(self, slug: str, also: Collection[str] = ()) -> dict[str, Node]:
        """Return the trees of all that a pattern is read from; what is no YAML is one text.

        Its notes, and what is known of its pictures, are one text each. `also` names beds and
        charts that it does not lead to, and another state of it does.
        """
        return {name: _tree(name, text) for name, text in self._texts(slug, also)}

    def _texts(self, slug: str, also: Collection[str]) -> Iterator[tuple[str, str]]:
        folder, home = self.standing.folder(slug), f"patterns/{slug}"
        if folder.source is not None:
            yield f"{home}/pattern.yaml", folder.source
        yield f"{home}/{_NOTES}", folder.notes
        if folder.pictures:
            yield f"{home}/{_PICTURES}", json.dumps(
                [dict(folder.pictures), dict(folder.picture_sizes)], sort_keys=True)
        if folder.shared:
            yield SHARED, folder.shared
        beds = {path.stem: path for path in self.standing.reading.beds()}
        for name in dict.fromkeys((*self.proved(slug).depends, *also)):
            kind, _, which = name.partition(" ")
            path = {"bed": beds, "chart": folder.charts}.get(kind, {}).get(which)
            if path and (text := self.standing.reading.apart(path)[0]) is not None:
                yield self.standing.reading.name(path), text

    def as_if(self, slug: str, files: Files) -> ComparedSide:
        """Return the side that a pattern would be if these were its files.

        What is wrong with the reading of a file stays, until it is another.
        """
        folder, home = self.standing.folder(slug), f"patterns/{slug}"
        texts = {name: _text(node) for name, node in files.items()}
        now = self.files(slug)
        found = [each for each in folder.problems
                 if files.get(each.place.file) == now.get(each.place.file)]
        if f"{home}/pattern.yaml" not in files and folder.source is None:
            return side_of(slug, None, tuple(found))
        pictures, sizes = json.loads(texts.get(f"{home}/{_PICTURES}", "[{}, {}]"))
        proof, more = prove_texts(
            Texts(slug=slug, source=texts.get(f"{home}/pattern.yaml", ""),
                  notes=texts.get(f"{home}/{_NOTES}", ""), pictures=pictures,
                  picture_sizes={name: (wide, high) for name, (wide, high) in sizes.items()},
                  shared=texts.get(SHARED, ""), collection=self.prover.collection.for_patterns),
            beds=self._beds(texts, found), charts=self._charts(folder, texts, found),
            site=Site(lambda path: self.standing.reading.is_page(path, folder), has_anchor))
        return side_of(slug, proof, (*found, *more))

    def _beds(self, texts: Mapping[str, str], found: list[Problem]) -> dict[str, NeedleBed]:
        beds = dict(self.prover.beds)
        for file, name in _named(texts, "_beds"):
            bed, more = bed_of(texts[file], file=file, name=name)
            found += more
            beds |= {name: bed} if bed is not None else {}
        return beds

    def _charts(self, folder: Folder, texts: Mapping[str, str], found: list[Problem]) -> Charts:
        files = {name: self.standing.reading.name(path) for name, path in folder.charts.items()
                 if name != OWN_CHART} | {name: file for file, name in _named(texts, "_sizes")}
        own = f"patterns/{folder.slug}/chart.yaml"
        files |= {OWN_CHART: own} if own in texts else {}
        known: dict[str, Chart | None] = {}

        def read(key: str) -> Chart | None:
            if key not in known:
                text = texts.get(files[key])
                if text is None:
                    text = self.standing.reading.apart(folder.charts[key])[0] or ""
                known[key], more = self._chart(text, files[key], key)
                found.extend(more)
            return known[key]

        return Charts(files, read)

    def _chart(self, text: str, file: str, key: str) -> ReadChart:
        """A size chart, read once while its text is the same."""
        name = (text, file, key)
        if name not in self._charts_read:
            self._charts_read[name] = chart_of(text, file=file, key=key)
        return self._charts_read[name]


def inputs_between(before: Knitted, former: str, after: Knitted, slug: str,
                   sizes: Mapping[str, str]) -> tuple[tuple[Input, ...], Files]:
    """Return the inputs of a pattern that moved, and the files it has after.

    A bed or chart to which one state alone leads is held to itself in the other.
    `former` is what its folder was called before: its files are held to those of the same name. So
    are the values of `sizes`, by the names that they had before: those they have now.
    """
    led_to = dict.fromkeys((*before.proved(former).depends, *after.proved(slug).depends))
    old = {name.replace(f"patterns/{former}/", f"patterns/{slug}/"): node
           for name, node in before.files(former, led_to).items()}
    new = after.files(slug, led_to)
    return moved(with_new_names(old, new, sizes), new), new


def with_inputs_back(after: Knitted, slug: str, files: Files,
                     inputs: frozenset[Input]) -> ComparedSide:
    """Return the side after the change, with these inputs set back."""
    return after.as_if(slug, set_back(files, inputs))


def _named(texts: Mapping[str, str], folder: str) -> Iterator[tuple[str, str]]:
    """The files of a shared folder, each with the name by which patterns name it."""
    for file in texts:
        if f"/{folder}/" in file:
            yield file, file.rpartition("/")[2].removesuffix(".yaml")


def _is_prose(name: str) -> bool:
    return name.endswith((f"/{_NOTES}", f"/{_PICTURES}"))


@lru_cache(maxsize=64)  # size charts and beds stand behind many patterns, and on both sides
def _tree(name: str, text: str) -> Node:
    tree = None if _is_prose(name) else parse_source(text, name=name)[0]
    return Scalar(text, Place(name, 1, 1)) if tree is None else tree


def _text(node: Node) -> str:
    return node.text if isinstance(node, Scalar) else as_text(node)


def with_other_source(now: Knitted, slug: str, text: str
                      ) -> tuple[ComparedSide, tuple[Input, ...], KnitAgain]:
    """Return the side that a pattern would be with another source, what moved, and what knits it
    with some of that set back."""
    name = f"patterns/{slug}/pattern.yaml"
    made = now.prover.prove(replace(now.standing.folder(slug), source=text, record=None))
    files = now.files(slug)
    after = {**files, name: _tree(name, text)}
    return (side_of(slug, made.proof, made.problems), moved(files, after),
            partial(with_inputs_back, now, slug, after))
