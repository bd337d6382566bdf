"""The keys of a designer's notes at places of the instructions."""

from __future__ import annotations

from ...machine.headings import Heading
from ...shape.tasks import TaskKind
from ..values import Text, Word, whole_number
from .key import Key, Keys, Several

SECTIONS = {word: word for word in (kind.name.lower().replace("_", " ")
                                    for kind in (*Heading, *TaskKind) if kind is not TaskKind.KNIT)}
STANDS = {"before": False, "after": True}


class NoteKeys(Keys, example="{at: front, text: Count its rows twice.}"):
    """A note of yours at a place of the instructions."""

    text = Key(Text(600), "The note, as plain text. The page marks it as yours.",
               "Knit both sleeves from one ball.", shared="texts")
    at = Key(Text(120, "the name of a piece or band", "Write one, such as front."),
             "The key of a piece or of a band, or `making up`. A piece goes before a band of the "
             "same name.", "front", "the whole page of a size", "")
    section = Key(Word(SECTIONS), "A section of the steps there: {words}; in the making up a task. "
                  "The page's headings say them in the same or in more words.", "fold", "", "",
                  beside="at: front", needs=("at",), instead_of=("row",))
    row = Key(whole_number("row of a note", "1..400", "1..2000"), "A row of the piece or band by "
              "the row counter, {range}: the note stands at the first step that ends at this "
              "number or a higher one.", "2", "at the whole part", 0, beside="at: front",
              needs=("at",))
    stands = Key(Word(STANDS), "{words}: whether it stands before or after the page, piece, band, "
                 "section or step.", "after", "before", False)
    sizes = Key(Several("sizes", 40, Text(120)), "The sizes whose pages show it.", "[M]",
                "all sizes")
