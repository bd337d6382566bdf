"""Words for a published version: what moved since, and the correction that says so to knitters."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from ..compare.compared_facts import FactKind
from ..compare.differences import FactDifference
from ..core.text import series
from ..pattern.corrections import Correction
from .moved import ROWS_TAKEN

LONGEST = 600  # characters of a correction in a source
_FEW = 3  # facts that a finding names; the draft of the correction names all
NOT_AS_WRITTEN = "a record of a published version that is not as Walebook wrote it"
AS_WRITTEN = "the file as walebook record wrote it"
TAKE_AGAIN = "Take it from your version control again, or delete it and run walebook record."
RAISE_AGAIN = "Raise the version: a knitter may have a file of the published one."


def moved_text(version: str, found: Sequence[FactDifference], titles: Mapping[str, str]) -> str:
    """That the counts of a published version moved, with the first of them."""
    texts = list(dict.fromkeys(_size_text(one, titles) for one in found))
    more = f"; and {len(texts) - _FEW} more" if len(texts) > _FEW else ""
    first = "; ".join(texts[:_FEW])
    return f"other counts than version {version} was published with: {first}{more}"


def _size_text(one: FactDifference, titles: Mapping[str, str]) -> str:
    """What moved in a size: the size itself, a count, or that a piece is shaped on other rows."""
    if not one.key.name and not _title(one, titles):
        return f"size {one.key.size} is {'gone' if one.after is None else 'new'}"
    what, moved = _shaping(one, titles) if one.key.kind is FactKind.SCHEDULE else \
        _fact(one, titles)
    return f"size {one.key.size}, {what}: {moved}"


def rise_text(before: str, after: str, found: Sequence[FactDifference], titles: Mapping[str, str]
              ) -> str:
    """That a version rose too little for what moved."""
    return f"version {after} after {before}, with {moved_text(before, found, titles)}"


def below_text(before: str, after: str) -> str:
    """That a version is below the published one."""
    return f"version {after}, below the published {before}"


def at_least(version: str) -> str:
    """Which version is expected."""
    return f"version {version} or above"


def named(version: str, sizes: Sequence[str] = ()) -> str:
    """Which correction is expected; with `sizes`, since those that there are leave them out."""
    of = f" and has the {_of_sizes(sizes)}" if sizes else ""
    return f"a correction that names version {version}{of}"


OF_SIZES = "a correction that names the sizes it concerns"


def of_all_sizes(before: str, after: str, same: Sequence[str]) -> str:
    """That corrections are of all sizes, and some sizes have the counts that they had."""
    return f"a correction of version {after} for all sizes, where the counts and the shaping of " \
        f"{_of_sizes(same)} are those of version {before}"


def name_sizes(sizes: Sequence[str]) -> str:
    """What to write where a correction concerns some sizes alone."""
    return f"If nothing else is corrected in these, write sizes: [{', '.join(sizes)}] in the " \
        "correction: the pages of the others then do not show it."


def not_recorded(before: str, after: str, left: Sequence[str], slug: str, *, some: bool) -> str:
    """Why a version is not recorded: a correction is missing, or it leaves sizes out."""
    missing = f"no correction that names it has the {_of_sizes(left)}" if some else \
        "no correction names it"
    return f"version {after} has other counts than version {before}, and {missing}. Write one " \
        f"first: walebook record {slug} --draft drafts it."


def write_this(slug: str, draft: Correction) -> str:
    """The draft of a correction that is missing, as an entry of a source."""
    sizes = f", sizes: [{', '.join(draft.sizes)}]" if draft.sizes else ""
    return (f"Knitters read in a correction what moved. Write one, such as {{date: (its day), "
            f'version: {draft.version}{sizes}, text: "{draft.text}"}}: walebook record {slug} '
            "--draft drafts it.")


def write_correction(slug: str, gone: Sequence[str] = (), names: Mapping[str, str] = {}) -> str:
    """What to do where counts moved because the source did; sizes that are `gone` keep a page.

    `names` has the new labels of those that were probably renamed.
    """
    keep = f" Name {', '.join(gone)} under withdrawn_sizes: a page then says so." if gone else ""
    called = [(old, names[old]) for old in gone if old in names]
    likely = "".join(f"Size {old} may be called {new} now: then write former: [{old}] beside that "
                     "label, and who knits it keeps her place. " for old, new in called)
    return f"{likely}{'Otherwise raise' if likely else 'Raise'} the version, and write a " \
        f"correction: walebook record {slug} --draft drafts it.{keep}"


def renamed_folder(old: str) -> str:
    """That a pattern was published from a folder of another name."""
    return f"the record of {old}, which was published under that name"


def name_the_former(old: str, new: str) -> str:
    """What to do where the folder of a published pattern was renamed."""
    return f"Write it under former in patterns/collection.yaml, with its title and the day: " \
        f"- {{folder: {old}, title: …, date: …, now: {new}}}."


STAYING_PAGE = "a page at its address that says what became of it"


def gone_pattern(slug: str) -> str:
    """That the folder of a pattern whose version was recorded is not there."""
    return f"no folder patterns/{slug}, whose published version git has"


def name_the_gone(slug: str) -> str:
    """What to do where a published pattern is gone."""
    return f"If it was published, write under former: - {{folder: {slug}, title: …, date: …}}, " \
        "and now: with the folder of a pattern that stands in its place."


def no_copy(old: str) -> str:
    """What to do with the record in a copy of a published pattern."""
    return f"This is a copy of {old}: delete published.json here."


def tool_moved(slug: str) -> str:
    """What to do where an update of Walebook alone moved counts."""
    return "Your source is as it was: Walebook itself counts otherwise now. Before you publish, " \
        f"raise the version and write a correction: walebook record {slug} --draft drafts it."


def corrections_text(sizes: Sequence[str], found: Sequence[FactDifference],
                     titles: Mapping[str, str]
                     ) -> tuple[str, ...]:
    """The draft of a correction: which numbers in which sizes, and who is not concerned.

    Of shaping it says whose rows moved, and not which: they are on the page. What is too long for
    one correction is several.
    """
    facts: dict[str, dict[str, list[str]]] = {}
    for one in found:
        what, values = _shaping(one, titles) if one.key.kind is FactKind.SCHEDULE \
            else _fact(one, titles)
        where = facts.setdefault(what, {}).setdefault(values, [])
        where += [one.key.size] * (one.key.size not in where)
    texts = [f"{what}: {'; '.join(_in_sizes(v, each, sizes) for v, each in values.items())}."
             for what, values in facts.items()]
    same = [size for size in sizes if size not in {one.key.size for one in found}]
    if same:
        texts.append(f"{_sizes(same, sizes)} {'is' if len(same) == 1 else 'are'} as before.")
    return _in_texts(texts)


def _in_texts(sentences: Sequence[str]) -> tuple[str, ...]:
    """The sentences, as many together as one correction has room for."""
    texts: list[str] = []
    for sentence in sentences:
        if texts and len(texts[-1]) + len(sentence) < LONGEST:
            texts[-1] += f" {sentence}"
        else:
            texts.append(sentence)
    return tuple(texts)


def _in_sizes(values: str, some: Sequence[str], every: Sequence[str]) -> str:
    sizes = _sizes(some, every)
    return f"{values} in {sizes[:1].lower()}{sizes[1:]}"


def _sizes(some: Sequence[str], every: Sequence[str]) -> str:
    if len(some) > 1 and set(some) == set(every):
        return "All sizes"
    return f"{'Sizes' if len(some) > 1 else 'Size'} {series(some, 'and')}"


def _of_sizes(some: Sequence[str]) -> str:
    return f"{'sizes' if len(some) > 1 else 'size'} {series(some, 'and')}"


def _shaping(one: FactDifference, titles: Mapping[str, str]) -> tuple[str, str]:
    """Whose rows of shaping moved: those of the whole piece, or the rows that a band takes."""
    title = _title(one, titles)
    return title, "other rows are taken" if one.key.name == ROWS_TAKEN else "shaped on other rows"


def _title(one: FactDifference, titles: Mapping[str, str]) -> str:
    return titles.get(one.key.place, one.key.place.replace("_", " ").capitalize())


def _fact(one: FactDifference, titles: Mapping[str, str]) -> tuple[str, str]:
    """What moved and how: ("Front band, band stitches", "162, not 156")."""
    title, name = _title(one, titles), one.key.name.replace("_", " ")
    what = f"{title}, {name}" if name else title or "The size"
    if one.before is None or one.after is None:
        fact = one.after or one.before
        shown = f" ({fact.shown})" if fact and name else ""
        return what, f"{'gone' if one.after is None else 'new'}{shown}"
    old, new = one.before.shown, one.after.shown
    if one.key.kind is FactKind.COUNT and old.rpartition(" ")[2] == new.rpartition(" ")[2]:
        old, new = old.rpartition(" ")[0], new.rpartition(" ")[0]
    return what, f"{new}, not {old}"
