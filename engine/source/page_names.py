"""Names that would become a file, an address or a key that something else already has.

No page may be called as a device: some file systems take no file of that name, whatever its
ending (Microsoft Learn, "Naming Files, Paths, and Namespaces").
"""

from __future__ import annotations

import unicodedata

BESIDE = "-single-file"
"""A size as one file is called as its page, with this after it; no size is long enough to be so."""
WHOLE = "all-sizes"  # the name of what lies beside the pages for the whole pattern
PREVIEW = "link-preview.png"  # the picture that a link to a pattern shows, beside its pages
CHARTS = "stitch-chart-"  # what the files of a pattern's stitch charts are called
FORMER = "wb-former"  # marks pages of a former pattern, and of a size that was withdrawn
FIRST = ("index", "readme")  # page names that a site builder gives to a folder's first page
GROUPS = ("frame", "reading", "runtime", "try-it")
"""What a device keeps of the site beside patterns."""
COLLECTION = "patterns/collection.yaml"  # the settings of a whole collection
SHARED = "patterns/_shared.yaml"  # what several patterns of a collection take entries from
OWN_CHART = "own"  # stands for chart.yaml in the pattern's own folder
_DEVICES = frozenset(("con", "prn", "aux", "nul",
                      *(f"{port}{number}" for port in ("com", "lpt") for number in range(1, 10))))


def _in_any_letters(word: str) -> str:
    return "".join(f"[{letter}{letter.upper()}]" if letter.isalpha() else letter
                   for letter in word)


NO_DEVICE = rf"(?!(?:{'|'.join(map(_in_any_letters, sorted(_DEVICES)))})(?:\.|$))"
"""A regular expression, for an editor, that fits in front of no device's name."""
NO_OTHER_PAGE = (rf"(?!(?:{'|'.join(map(_in_any_letters, FIRST))})$)"
                 rf"(?!{_in_any_letters(WHOLE).replace('-', '[^A-Za-z0-9]+')}$)")
"""The same, in front of no size whose page or file would be called as another."""


def page_flaw(name: str) -> str:
    """Return what a size's page must be called other than `name`; "" where it may be so called."""
    if name in FIRST:
        return "a size whose page is not the first of its folder"
    if name == WHOLE:
        return f"another name than {WHOLE}, which the files of the whole pattern have"
    return device_flaw(name)


def folder_flaw(name: str) -> str:
    """Return what a pattern's folder must be called other than `name`; "" where it may be so."""
    if name in GROUPS:
        return f"another name than {', '.join(GROUPS)}, which the site has for its own pages"
    return device_flaw(name)


def picture_flaw(name: str) -> str:
    """Return what a picture's file must be called other than `name`; "" where it may be so."""
    if alike(name).startswith(CHARTS):
        return f"a name that does not begin with {CHARTS}, as files of stitch charts do"
    if alike(name) == alike(PREVIEW):
        return f"another name than {PREVIEW}, which the site has for a picture it makes"
    return device_flaw(name)


def device_flaw(name: str) -> str:
    """Return what is expected in place of the name of a device; "" for any other name."""
    if name.partition(".")[0].lower() not in _DEVICES:
        return ""
    return "another name than a device's, such as con or nul, which some computers cannot store"


def alike(name: str) -> str:
    """Return what two file names have in common that some file system takes for one.

    Capital and small letters, and the ways of writing an accent (Unicode Standard Annex 15).
    """
    return normal(normal(name).casefold())


def normal(name: str) -> str:
    """Return a file name with every accent written in the one form (Annex 15, NFC)."""
    return unicodedata.normalize("NFC", name)
