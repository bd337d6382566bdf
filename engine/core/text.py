"""Words of a source as a message shows them, and what is written most like them."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from difflib import get_close_matches

from .text_kinds import FindingText

_SEVERAL = ("Write one of these.", "Use one of these.", "Use one of these words.")
ALIKE_WITHIN = 7 / 10  # where the first letter is another
ALIKE = 13 / 20  # how like a word must be to be offered, of 1; below it "price" becomes "pictures"

# Controls, YAML's other line breaks (they would put our line numbers out of step with an
# editor's), halves of surrogate pairs, byte-order marks, and marks that reorder the line.
UNSEEN = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u2028\u2029\u202a-\u202e"
                     "\u2066-\u2069\ud800-\udfff\ufeff\ufffe\uffff]")


def unseen(text: str) -> str:
    """The first character of `text` that cannot be shown as it is, or ""."""
    match = UNSEEN.search(text)
    return match[0] if match else ""


def clip(text: str) -> str:
    """`text` as a message may show it: short, on one line, with nothing unseen in it."""
    shown = text if len(text) <= 60 else text[:59] + "…"
    return UNSEEN.sub(lambda match: f"\\u{ord(match[0]):04x}", " ".join(shown.split()))


def suggest(word: str, words: Iterable[str], otherwise: FindingText, alone: FindingText = ""
            ) -> tuple[str, str]:
    """What to expect in place of a `word` that is not among `words`, and what to do about it.

    `alone` is what to do where there are no words at all.
    """
    choice = list(words)
    if not choice:
        return "", alone or otherwise
    near = nearest(word, choice)
    if near:
        return f'"{near}"', f"Write {near}."
    if len(choice) == 1:
        return f'"{choice[0]}"', f"Write {choice[0]}." if otherwise in _SEVERAL else otherwise
    return f"one of {', '.join(choice)}", otherwise


def series(words: Sequence[str], last: str = "or") -> str:
    """Return the words as a choice: "enclosing, folded or single"."""
    return f" {last} ".join(filter(None, (", ".join(words[:-1]), *words[-1:])))


def misspelt(word: str, words: Iterable[str]) -> str | None:
    """The one of `words` that is a letter or two off `word`, and no more than a third of it."""
    near = [(off, one) for one in words if (off := _apart(word, one)) <= min(2, len(word) // 3)]
    return min(near)[1] if near else None


def _apart(one: str, other: str) -> int:
    """How many letters are to be put in, taken out or changed to make `other` of `one`."""
    row = list(range(len(other) + 1))
    for number, letter in enumerate(one, 1):
        before, row[0] = row[0], number
        for place, there in enumerate(other, 1):
            before, row[place] = row[place], min(row[place] + 1, row[place - 1] + 1,
                                                 before + (letter != there))
    return row[-1]


def a_form(name: str) -> str:
    """The name of a garment form behind its article: "an own outline"."""
    return f"{'an' if name[0] in 'aeiou' else 'a'} {name}"


def nearest(word: str, words: Iterable[str]) -> str | None:
    """The one of `words` that `word` is most likely a misspelling of, if it is like any.

    One that begins with another letter must be more like it: "ladies" are no "babies". Common
    practice, no source.
    """
    given, choice = word.lower()[:60], {w.lower(): w for w in words}
    near = get_close_matches(given, choice, n=3, cutoff=ALIKE)
    return next((choice[one] for one in near if one[:1] == given[:1]
                 or get_close_matches(given, [one], cutoff=ALIKE_WITHIN)), None)
