"""The keys of the settings of a whole collection of patterns."""

from __future__ import annotations

from ...core.text import clip
from ...machine.records import dataclass
from ...pattern.collection import CM_FIRST, CM_ONLY, INCHES_FIRST
from ..dates import iso_date
from ..spellings import contact
from ..values import Entry, Fault, Text, Word
from .key import Key, Keys, Several


@dataclass(frozen=True, slots=True)
class Language(Word[str]):
    """A reader of the language of the pages."""

    def __call__(self, entry: Entry) -> str:
        """The language as HTML names it. Raises Fault for one that the pages are not written in."""
        text = Text(40)(entry)
        if text in self.choices:
            return self.choices[text]
        raise Fault("unknown-word", entry.place, f'the language "{clip(text)}"',
                    "en: the pages are written in English, and in no other language",
                    "Write language: en, or leave the line out.")


@dataclass(frozen=True, slots=True)
class EngineNumber(Word[int]):
    """A reader of the number of the rules by which the sources are counted."""

    def __call__(self, entry: Entry) -> int:
        """The number. Raises Fault for one that this Walebook does not know."""
        text = Text(40)(entry)
        if text in self.choices:
            return self.choices[text]
        raise Fault("unknown-word", entry.place, f'the engine "{clip(text)}"',
                    f"{' or '.join(self.choices)}: this Walebook counts by no other rules",
                    "Write engine: 1, or take a Walebook that knows this number.")


UNITS = Word({units: units for units in (CM_FIRST, INCHES_FIRST, CM_ONLY)})


class FormerKeys(Keys, example="[{folder: first-band, title: First band, date: 2026-11-20, "
                              "now: practice-band}]"):
    """A pattern that was renamed or withdrawn."""

    folder = Key(Text(60), "The name that its folder had, and so its address.", "first-band")
    title = Key(Text(120), "What it was called.", "First band")
    date = Key(iso_date(), "When it was renamed or withdrawn.", "2026-11-20")
    now = Key(Text(60), "The folder of the pattern that stands in its place.", "practice-band",
              "none: it was withdrawn", "")
    why = Key(Text(600), "A sentence to those who look for it.", "Its crown does not close.",
              "nothing", "")
    sizes = Key(Several("sizes", 40, Text(120)), "The sizes that had a page: each of these pages "
                "says so too.", "[S, M]", "its first page alone")


class CollectionKeys(Keys, example="title: Lantern Quay"):
    """What the first page of the site says of all its patterns together."""

    title = Key(Text(80), "The collection's name: the title of the first page.", "Lantern Quay")
    designer = Key(Text(120), "Who made the collection.", "Wren Ashdown", "none", "")
    licence = Key(Text(120), "What others may do with the patterns that have no "
                  "`licence`.", "CC BY-NC 4.0", "none: each pattern has to have one", "")
    about = Key(Text(600), "A few sentences of hers to whoever chooses a pattern.",
                "Patterns for the weather that we have.", "nothing", "")
    units = Key(UNITS, "{words}: which unit stands before the other in sentences, tables and "
                "drawings, and which of them a table shows until the reader chooses; or that "
                "patterns have no inches beside centimetres. What a calculation of a length comes "
                "to has both units; the sum itself stays in centimetres.",
                "inches first", CM_FIRST, CM_FIRST)
    contact = Key(contact, "The mail address or link by which a knitter can report a step, for all "
                  "patterns that have no `contact`.", "wren@example.org", "nothing", "")
    engine = Key(EngineNumber({"1": 1}), "The number of the rules by which your sources are "
                 "counted. While it stays, a newer Walebook makes the same counts of the same "
                 "source, but for faults that it mends. There is only `1` today, so the line moves "
                 "no count yet.", "1",
                 "the newest rules", 1)
    former = Key(Several("former patterns", 200, keys=FormerKeys), "Patterns that were published "
                 "and are renamed or withdrawn: [a page stays](#former) where each stood, and says "
                 "so.", FormerKeys.example, "none")
    language = Key(Language({"en": "en"}), "The language of the pages, as HTML names it. "
                   "Walebook writes its sentences in English today, so there is only `en`.",
                   "en", "en", "en")
