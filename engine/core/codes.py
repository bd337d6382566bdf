"""Every code a finding may carry, with its meaning in one line; pages list them from here."""

from __future__ import annotations

from ..pattern.stitch_chart import CHART_CODES

SOURCE_CODES: dict[str, str] = {
    # the text
    "too-large": "The source is longer than 256 KiB.",
    "control-character": "A character that cannot be seen, or that reorders what is seen.",
    "tab": "A tab where spaces are wanted.",
    "syntax": "The text cannot be read as YAML.",
    "tag": "A YAML tag (!…); every value is plain text, so none is needed.",
    "anchor": "A YAML anchor (&…) or alias (*…); values are written out where they are used.",
    "merge-key": "The YAML merge key (<<); entries are written out where they are used.",
    "many-documents": "More than one YAML document in a file.",
    "too-deep": "More levels of nesting than any pattern has.",
    "too-many": "More entries than are allowed here.",
    "duplicate-key": "A key that stands twice in one mapping.",
    "bad-key": "A list or a mapping where a key is expected.",
    "cut-by-remark": "A value that a # cuts off: YAML takes the rest for a remark.",
    "empty-source": "A source with nothing in it.",
    # keys and shapes
    "unknown-key": "A key that means nothing here, often a misspelt one.",
    "missing-key": "An entry that must be there is not.",
    "two-answers": "Two entries of which only one may be given.",
    "empty-value": "A key with nothing after it, or a list or mapping with nothing in it.",
    "wrong-shape": "A list, a mapping or a plain value where another of the three is expected.",
    # values
    "too-long": "A text with more characters than its place allows.",
    "bad-number": "A value that is no number of the kind expected.",
    "bad-length": "A value that is no length: its number or its unit cannot be read.",
    "bad-mass": "A value that is no mass: its number or its unit cannot be read.",
    "bad-percentage": "A value that is no percentage.",
    "bad-dial": "A value that is no dial setting.",
    "bad-date": "A value that is no calendar date written as year-month-day.",
    "bad-version": "A value that is no version number.",
    "out-of-range": "A figure beyond the hard limit of its kind.",
    "unlikely-value": "A figure outside the plausible range of its kind.",
    "odd-needles": "A bed with an odd number of needles; half of them lie on each side of 0.",
    "bad-repeat": "A needle arrangement that is not written as needles in and out of work.",
    # names
    "bad-name": "A name for a yarn, fabric, edge or band that is not in plain small letters.",
    "unknown-name": "A bed, yarn, fabric or edge that is named but not there.",
    "unknown-word": "A word that is not among those that may stand here.",
    "bad-size-name": "A size whose name cannot be printed or cannot name its page.",
    "same-page": "Two sizes whose pages would have the same name.",
    "missing-size": "A value by size that leaves a size out.",
    "unknown-size": "A value for a size the pattern does not have.",
    "same-picture": "Two pictures whose file names some computers take for one.",
    "bad-picture": "A picture that is no plain file of a known kind beside the source.",
    "bad-accepted": "A remark to be kept quiet that is not given by its code and mark.",
    "missing-picture": "A picture that is not beside the source.",
    # sense
    "front-not-stated": "A pattern for anyone that does not say which front has the buttonholes.",
    "edge-not-said": "An edge of the source that does not say what kind of edge it is.",
    "edge-without-ends": "Ends of an edge that is closed round.",
    "stitches-not-said": "Stitches along an edge that are not said to wait, or to be bound off or "
                         "cast on.",
    "no-dial": "A band whose dial cannot be worked out.",
    "edge-without-repeat": "Edge stitches of a fabric in which every needle works.",
    "unequal-layers": "A folded band whose layers differ in rows, so that its holes do not meet.",
    "small-swatch": "A swatch less than 10 cm wide or high, too small to measure well.",
    "unused": "A yarn, fabric or edge that no band needs.",
}

SIZE_CODES: dict[str, str] = {
    # size charts
    "bad-span": "A measurement in a size chart that is neither a number nor a range upwards.",
    "units-apart": "A cell of a size chart whose inches and centimetres disagree.",
    # measures
    "bad-measure": "A measure that cannot be read as a sum of names, numbers and lengths.",
    "long-measure": "A measure too long, or too deep in brackets, to be checked by eye.",
    "bad-measure-name": "A measure whose name is taken, or means something else in a sum.",
    "unknown-measure": "A name in a measure that is no measure and no body measurement.",
    "circular-measure": "Measures that lean on each other in a circle.",
    "unlike-measures": "Lengths and numbers put together as only like and like can be.",
    "division-by-nothing": "A division by 0, or rounding to a step that is not above 0.",
    "huge-measure": "A figure with more digits than any measure of a garment has.",
}

GARMENT_CODES: dict[str, str] = {
    # a garment as asked for
    "unknown-form": "A garment whose form there is not.",
    "size-not-in-chart": "A size of the pattern that its size chart does not have.",
    "size-order": "Sizes in another order than that of the size chart.",
    "wearer-chart": "A size chart for others than the pattern's wearer.",
    "missing-measurement": "A body measurement that is needed and not in the size chart.",
    "no-such-edge": "An edge that the garment does not have with the neck it has.",
    "no-such-placket": "A placket in a garment that is open at the front, or has no neck.",
    "overruled-measure": "A measure that is not knitted as given, because another one wins.",
    "unused-measure": "A measure that neither the form nor another measure uses.",
    "no-such-count": "A count to round that the form has not, or that follows from others.",
    "not-of-kind": "An entry of a hem that its kind does not take.",
    "no-second-bed": "A rib of two beds on a bed that no second one can face.",
    "rib-yarn": "A rib swatched in another yarn than the piece above it.",
    "rib-needles": "A rib swatched with other needles in work than it is knitted on.",
    "rib-not-swatched": "A rib whose rows are counted without a swatch of its own.",
    # a garment in whole stitches and rows
    "cannot-shape": "A piece that cannot be shaped from its measures.",
    "neck-to-wrist": "A sleeve that ends far from the wrist, reckoned from the back neck.",
    "neck-over-head": "A closed neck that must give more than a third to go over the head.",
    "hem-not-swatched": "A hem whose rows are counted without a swatch at its dial.",
    "cannot-round": "A count that cannot be rounded as asked in some size.",
    "chart-remark": "What is known of a body chart that the measures lean on.",
    "no-such-way": "A way on or off that the piece or band cannot have.",
    "way-too-firm": "A way on or off that may be too firm where the edge must stretch.",
    "edge-too-short": "An edge cast on or bound off in a way that makes it too short.",
    "pocket-too-wide": "A pocket wider than the room its front has at that row.",
    "pocket-too-low": "A pocket that opens in the hem or right above it.",
    "pocket-too-high": "A pocket that opens where its front has ended.",
    "pocket-too-deep": "A pocket whose lining reaches below the garment's lower edge or hem.",
    "pocket-in-chart": "A pocket in a piece knitted from a stitch chart or with needles left out.",
    "pocket-nowhere": "Pockets on a form without fronts.",
    "pocket-open": "A pocket whose waiting stitches no band takes.",
    "pocket-with-holes": "Buttonholes asked of a pocket top.",
    "cord-on-baby": "A cord in a baby's garment.",
    "cord-too-long": "A cord whose ends hang out too far on a child's garment.",
    "cord-for-anyone": "A cord with long ends in a garment that a child might wear.",
    "cord-without-hem": "A cord in a garment that has no hung hem for it to lie in.",
    "casing-too-shallow": "A hem or casing too shallow for the cord that goes through it.",
    "cord-at-neck": "A cord at the neck or head of a child's garment, or of one for anyone.",
    "facing-far-off": "A facing whose stitches are too wide or narrow for those before its fold.",
    "facing-not-plain": "A facing in a fabric with a chart or with needles out of work.",
    "cord-not-round": "A cord about the middle of an edge that does not go round.",
    "no-such-section": "A section that an edge does not have.",
    "join-open": "Two edges to be joined whose lengths differ by more than they may.",
    "yarn-not-weighed": "An amount of yarn that is estimated, as a swatch was not weighed.",
    "align-without-chart": "A line to lay repeats from, for a fabric that has none.",
}

BAND_CODES: dict[str, str] = {
    "zip-nowhere": "A zip along an edge that is no front.",
    "zip-too-long": "A front shorter than the shortest zip.",
    "zip-far-off": "A zip so much shorter than its front that the edge would be drawn up.",
    "holes-too-close": "Holes put at places that leave no room between them or at the ends.",
    "band-too-tight": "A band so much shorter than its edge that it pulls.",
    "band-wavy": "A band so much longer than its edge that it waves.",
    "dials-of-kind": "A graded tension asked of a kind of band that keeps one setting.",
    "mitre-of-kind": "A mitre asked of a kind of band that cannot have one, or with buttonholes.",
    "no-corner": "A mitre along an edge without the point of a V.",
    "too-many-dials": "More settings for a band than it has rows in a layer.",
    "no-such-closing": "A kind of buttonhole that this kind of band cannot have.",
    "rows-of-one-layer": "Rows from fold to fold asked of a band without a fold.",
    # collars
    "not-this-kind": "A key that only other kinds of band take.",
    "points-too-sharp": "A collar whose points want more than a stitch a row at each end.",
    "dial-too-far": "An outer dial with more settings on the way to it than the band has rows.",
    "collar-rides-up": "A collar that falls over and is no longer at its outer edge.",
    "collar-not-deeper": "A back depth that is not two rows more than the collar's own.",
    "collar-too-deep": "A back depth that wants more short rows than the slopes have stitches.",
    "collar-needs-opening": "A collar that falls over, on a neck that is closed all round.",
    # likelihood
    "long-tuck": "A needle of a chart that tucks in more than four rows before it knits.",
    "long-float": "A row of two colours in which a yarn floats past more than 2.5 cm of stitches.",
    "gauge-off-bed": "A stitch much wider or narrower than such a bed makes.",
    "out-of-step": "A figure of one size that is far out of line with its neighbours.",
    # bands in whole stitches and rows
    "band-not-swatched": "A band counted by a pick-up rule, without a swatch of its own.",
    "needles-in-band": "A band in a fabric with needles left out of work that cannot be laid out.",
    "needles-at-edge": "An edge and its band whose needles in work are not the same.",
    "band-too-short": "An edge that gives its band fewer than three stitches.",
    "band-too-shallow": "A band whose layers have fewer than two rows.",
    "hole-at-end": "A buttonhole too near to the band's end: less than a stitch, two of an end "
                   "that is sewn.",
    "hole-at-join": "A buttonhole across a join or seam of its edge, or too near to one.",
    "hole-on-other-front": "A buttonhole along a neck on the front that has the buttons.",
    "hole-wider-than-gap": "More buttonholes than the band has room for.",
    "button-too-large": "A button whose half does not fit between the holes and the band's edge.",
    "slit-too-long": "A slit for a button that is as long as its band is deep.",
    "edge-in-hole": "A garment's edge that reaches the buttonholes inside its band.",
    "against-neighbours": "A band that shrinks from one size to the next where its edge grows.",
    # the bed
    "bed-too-short": "A piece or band with more stitches than the bed has needles.",
    "bed-refuses": "A program that the virtual bed cannot knit: a fault of ours, not the source's.",
}

FILE_CODES: dict[str, str] = {
    "folder-name": "A pattern's folder whose name cannot be a page's address.",
    "no-source": "A pattern's folder without a pattern.yaml.",
    "not-utf-8": "A file that is no text in UTF-8.",
    "outside-folder": "A link to a file outside the pattern's folder.",
    "accepted-gone": "A remark that is kept quiet and no longer occurs, or whose facts changed.",
    "unreadable": "A file that cannot be opened.",
    "false-picture": "A picture's file that is empty, cut off, no picture, or of another kind.",
    "not-a-file": "A folder, pipe or device where a text file should be.",
    "no-patterns": "A folder patterns/ without a pattern in it.",
    "picture-not-listed": "A picture in the notes that the pattern does not list.",
    "bad-link": "A link in the notes that leads nowhere, or out of the site.",
    "link-outside": "A link in the notes to another site.",
}

CODES: dict[str, str] = {**SOURCE_CODES, **SIZE_CODES, **GARMENT_CODES, **BAND_CODES,
                         **CHART_CODES, **FILE_CODES}

# Those that are remarks, which a source can accept: they then stay quiet until their facts change.
REMARK_CODES = ("band-not-swatched", "chart-remark", "hem-not-swatched", "link-outside",
                "rib-not-swatched")
