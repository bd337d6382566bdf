"""The keys of a whole pattern, and of its bed, pictures and corrections."""

from __future__ import annotations

from ...core.ranges import BEDS
from ...pattern.model import Wearer
from ...pattern.publishing import Publish, Status
from ...sizing.ages import Age
from ..dates import iso_date
from ..page_names import NO_DEVICE, NO_OTHER_PAGE
from ..spellings import accepted, contact, even_needles, reader_change, version
from ..values import YES_NO, Text, length, whole_number, word
from .band_keys import BandKeys
from .designer_note_keys import NoteKeys
from .edge_keys import EdgeKeys
from .fabric_keys import ChartKeys, FabricKeys, SwatchKeys, YarnKeys
from .garment_keys import BODY_LENGTH, GarmentKeys
from .key import Key, Keys, Mapped, Name, Several

SIZE = Text(120, spelt=(NO_DEVICE + NO_OTHER_PAGE
                        + r"(?=[^A-Za-z0-9]*[A-Za-z0-9])[A-Za-z0-9 /.-]{1,12}"))
KEPT = Text(60, "what a reader must leave as it is", "Write buttons, or the name of a measure.")
PAGE = Text(300, "the address of a page", "Write one such as index.html#notes.")
_PICTURE = NO_DEVICE + (r"[^./\\:][^/\\:]*\.(?:[Pp][Nn][Gg]|[Jj][Pp][Ee]?[Gg]|[Ww][Ee][Bb][Pp])")


class BedKeys(Keys, example="{pitch: 9 mm, needles: 110}"):
    """A bed of the pattern's own."""

    pitch = Key(length("needle pitch", "2 mm..16 mm", "1 mm..20 mm", BEDS),
                "From needle to needle. A length from {range}.", "9 mm")
    needles = Key(even_needles, "How many there are in all: an even number from 10 to 400.",
                  "110", likely=("120", "250"))
    second_bed = Key(YES_NO, "`yes` where a second bed of as many needles can be set facing it, "
                     "for ribs.", "yes", "no", False)
    name_ = Key(Text(60), "What the page calls it.", "Loft bed", "its pitch", "")


class BedFileKeys(Keys, example=BedKeys.example):
    """A bed in a file, for several patterns."""

    pitch, needles, second_bed = BedKeys.pitch, BedKeys.needles, BedKeys.second_bed
    source = Key(Text(600), "Where the figures come from.", "where its figures come from")


class PictureKeys(Keys, example="[{file: front.png, alt: The front band}]"):
    """A picture."""

    file = Key(Text(100, "the name of a picture file", "Write a name such as front.png.",
                    _PICTURE),
               "The name of a png, jpg, jpeg or webp file in the pattern's folder. Any signs may "
               "stand in it, but two names may not differ in capital letters alone.", "front.png")
    alt = Key(Text(300), "What it shows, in words.", "The front band, folded")
    caption = Key(Text(300), "What stands below it.", "The band before it is closed.", "nothing",
                  "", shared="texts")


class CorrectionKeys(Keys, example="[{date: 2026-10-29, text: Rows of size M put right.}]"):
    """A correction."""

    date = Key(iso_date(), "When it was put right.", "2026-10-29")
    text = Key(Text(600), "What was put right.", "Rows of size M put right.", shared="texts")
    version = Key(version, "The first version that has it, as under `version` of the pattern: the "
                  "pages say from which version on a file or a sheet of paper is right.", "1.1.0",
                  "not stated", "")
    sizes = Key(Several("sizes", 40, Text(120)), "The sizes that it concerns. Their pages show it, "
                "and the other sizes show nothing.", "[M]", "all sizes")
    at = Key(Text(120, "the name of a piece or band", "Write one, such as front."),
             "The key of the piece or band that it concerns, or `making up`, as in "
             "[notes](source.md#notes).",
             "front", "the whole size", "")
    step = Key(whole_number("step of a piece or band", "1..300", "1..2000"), "The step "
               "there, by its number on the page: {range}. With `version`, a knitter who "
               "began with an older version reads the correction there. Sizes with other numbers "
               "take a correction each.", "12", "all its steps", 0, beside="at: front",
               needs=("at",))


class SizeKeys(Keys, example="{label: 1X, as: XL}"):
    """A size that the chart calls otherwise, or does not have."""

    label = Key(SIZE, "What it is called, in the source and on its page.", "1X")
    as_ = Key(SIZE, "The size of the garment's chart whose body it is for. Sizes of one body may "
              "differ in length, or in ease.", "XL", "the size that the chart has by its label, "
              "unless it has a `body`", "")
    body = Key(Several("body measurements", 60, BODY_LENGTH, by_name=True), "Its own body "
               "measurements by the chart's names, a length from 1 cm to 400 cm each. Without `as` "
               "it has these and no others: `{label: 6X, body: {chest: 160 cm, ...}}`. They hold "
               "before those under `body` of the garment.", "{chest: 125 cm}", "those of the chart")
    age = Key(word(Age), "Whose body it is, in a pattern for anyone: {words}. The page of a "
              "child's size says so among its cautions.", "child", "as the chart says", None)
    former = Key(Several("former labels", 12, SIZE), "Labels that it had in earlier versions, up "
                 "to 12: it [is the same size](#former-sizes) to comparisons, to the record of a "
                 "version, in corrections, and to a knitter who began it under one of them. Do "
                 "not use an earlier label, or its page address, for any size now.", "[1XL]",
                 "none")


class WithdrawnSizeKeys(Keys, example="[{label: 5X, date: 2026-11-20}]"):
    """A size that was published and is withdrawn."""

    label = Key(SIZE, "What it was called. Do not use this label, or its page address, for any "
                "size now.", "5X")
    date = Key(iso_date(), "When it was withdrawn.", "2026-11-20")
    why = Key(Text(600), "A sentence to those who look for it.", "Its back is too wide for the "
              "bed.", "nothing", "")


class PatternKeys(Keys, example="title: My cardigan bands"):
    """A whole pattern."""

    title = Key(Text(120), "The pattern's name.", "Slack Tide cardigan bands")
    version = Key(version, "One to three numbers with points between: `1.2.0`.", "1.0.0")
    date = Key(iso_date(), "Of this version, as year-month-day: `2026-10-30`.", "2026-10-30")
    designer = Key(Text(120), "Who made it.", "Wren Ashdown", shared="texts")
    licence = Key(Text(120), "What others may do with it: `CC BY-NC 4.0`. It must stand here or in "
                  "the collection.", "CC BY-NC 4.0", "the [collection's](#collection)", "",
                  shared="texts")
    summary = Key(Text(600), "What it is, in a sentence or two.", "Folded bands for a cardigan.",
                  shared="texts")
    wearer = Key(word(Wearer), "{words}. It decides which front has the buttonholes, and whether "
                 "the cautions on children's clothes are shown.", "women")
    status = Key(word(Status), "{words}. A draft is shown in the preview and is not published, and "
                 "its errors do not stop the build of other patterns.", "draft", "published",
                 Status.PUBLISHED)
    publish = Key(word(Publish), "{words}. With `files only`, for a pattern that is sold, the site "
                  "shows the [overview](#files-only) and no instructions.", "files only",
                  "pages", Publish.PAGES)
    contact = Key(contact, "A mail address or a link. On the page of a size and on its bench a "
                  "knitter can then write to you of a step: a text with pattern, version, size, "
                  "piece and step, which she sends herself. Everyone can read the address.",
                  "wren@example.org", "the [collection's](#collection)", "",
                  likely=("https://example.org/contact",))
    reader_may_change = Key(
        reader_change, "`nothing`; `gauge`, and a reader can have the page of her size made for "
        "her own swatch; `gauge within 10 %` of yours, in stitches and in rows; `measures`, and "
        "for her own body and ease; `measures within 6 cm` of those of her size; or both with a "
        "comma between. It takes effect on a site that has [the runtime](publishing.md#my-gauge). "
        "The source then lies on that site, for anyone to read; a remark of the check says so.",
        "gauge within 10 %, measures within 6 cm", "nothing", None,
        likely=("gauge", "gauge within 10 %", "measures", "nothing"))
    reader_must_keep = Key(
        Several("things that stay", 40, KEPT), "What a reader may not change, a list: "
        "names of measures, of the chart or of the form, which she then cannot enter; `buttons`, "
        "and no page is made on which another number of them closes a band; `band depths`, and "
        "none on which a band is a row deeper or shallower than yours.",
        "[buttons, band depths]", "nothing")
    bed = Key(Name("bed"), "The name of a bed in `patterns/_beds/` (`fine`, `standard`, "
              "`standard-double`, `mid`, `chunky`, `bulky`), or a [bed of your own](#bed).",
              "bulky", inside=BedKeys)
    skills = Key(Several("skills", 40, Text(80)),
                 "A list of what the knitter must be able to do, up to 40 of up to 80 characters "
                 "each.", "[knit rows]", "none")
    pictures = Key(Several("pictures", 20, keys=PictureKeys),
                   "A list of [pictures](#pictures), up to 20.", PictureKeys.example, "none")
    corrections = Key(Several("corrections", 100, keys=CorrectionKeys),
                      "A list of [corrections](#corrections), up to 100.", CorrectionKeys.example,
                      "none")
    withdrawn_sizes = Key(Several("withdrawn sizes", 40, keys=WithdrawnSizeKeys),
                          "Sizes that were published and are withdrawn, up to 40: [a page "
                          "stays](#withdrawn-sizes) where each stood, and says so.",
                          WithdrawnSizeKeys.example, "none")
    notes = Key(Several("notes", 60, keys=NoteKeys),
                "A list of your [notes](#notes) at places of the instructions, up to 60. What is "
                "about the whole pattern belongs in notes.md.", f"[{NoteKeys.example}]", "none")
    techniques = Key(Several("technique pages", 40, PAGE, by_name=True),
                     "Pages of yours that steps link to in place of ours: the name of "
                     "[our page](techniques/index.md) as its address has it, and your page's "
                     "address, written from this pattern's page. With `index.html#notes` it is "
                     "your notes.md.", "{waste-start: https://quay.example/waste.html}", "ours")
    accepted = Key(Several("remarks", 100, accepted),
                   "A list of remarks that you have read and do not want to see again, up to 100, "
                   "each by its code and mark as the check prints them: "
                   "`[chart-remark 1a2b3c4d]`. When the facts behind a remark change, the check "
                   "prints it again. A remark in the list that is no longer found is a warning.",
                   "[chart-remark 1a2b3c4d]", "none")
    yarns = Key(Several("yarns", 20, keys=YarnKeys, by_name=True),
                "The [yarns](#yarns) by name, up to 20.", "{main: {name: Harbour Bulky}}",
                shared="yarns")
    charts = Key(Several("charts", 12, keys=ChartKeys, by_name=True),
                 "The [stitch charts](#charts) by name, up to 12.",
                 f"{{ladder: {ChartKeys.example}}}", "none")
    fabrics = Key(Several("fabrics", 20, keys=FabricKeys, by_name=True),
                  "The [fabrics](#fabrics) by name, up to 20.", f"{{body: {FabricKeys.example}}}",
                  shared="fabrics")
    sizes = Key(Several("sizes", 40, SIZE, keys=SizeKeys),
                "A list of sizes, the smallest first, up to 40: `[S, M, L]`. A size has up to 12 "
                "letters A to Z or a to z, digits, spaces and `/ . -`. Its page is called by its "
                "small letters and digits: two sizes may not share one. A mapping is a [size of "
                "your own](#own-sizes).",
                "[S, M, L]")
    garment = Key(Mapped(GarmentKeys), "The [garment](#garment) itself, where the pattern has "
                  "more than bands.", GarmentKeys.example, "bands only")
    edges = Key(Several("edges", 40, keys=EdgeKeys, by_name=True),
                "The [edges](#edges) that bands are knitted for, by name, up to 40. Needed unless "
                "there is a garment.", f"{{front: {EdgeKeys.example}}}", "")
    bands = Key(Several("bands", 20, keys=BandKeys, by_name=True),
                "The [bands](#bands) by name, up to 20. Needed unless there is a garment.",
                f"{{front: {BandKeys.example}}}", "")


SHARED_TEXT = Text(2000)


class SharedFileKeys(Keys, example="yarns: {harbour: {name: Harbour Bulky}}"):
    """What several patterns of a collection use."""

    yarns, fabrics = PatternKeys.yarns, PatternKeys.fabrics
    swatches = Key(Several("swatches", 40, keys=SwatchKeys, by_name=True),
                   "Swatches by name, up to 40.", f"{{wool: {SwatchKeys.example}}}", "none")
    texts = Key(Several("texts", 60, SHARED_TEXT, by_name=True), "Texts by name, up to 60 of up to "
                "2000 characters each.", "{licence: CC BY-NC 4.0}", "none")
