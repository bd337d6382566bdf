"""Named lengths as plain arithmetic on body measurements, ease and each other, exactly.

An expression holds numbers (`2`, `0.5`, `3/4`), shares (`90 %`), lengths (`2 cm`, `17 1/4 in`),
names (`chest`, `half_width`), + - * / and brackets, and min(…), max(…), round_to(x, step).
A fraction written close together with a unit behind it is one length: `1/2 in` is half an inch.
A name that has spaces
or hyphens elsewhere is written with underscores.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from types import MappingProxyType

from ..core.problems import Place, Problem, Severity, error, note
from ..core.ranges import OWN_MEASURE, Measured, Range
from ..core.text import clip, suggest
from ..core.text_kinds import FindingText
from ..machine.records import dataclass
from .expression_tree import ExpressionFault, MeasureName, MeasureTree, within
from .expressions import ARGUMENTS, UNITS, parse_expression
from .measure_text import shown
from .quantities import Quantity, plain_name
from .reckoning import Pitches, Reckoning

MOST_DEFINITIONS = 200
CHECK: FindingText = "Check the figure and its unit."
_ANY_MEASURE: FindingText = "a measure of this pattern, or of its size chart"


@dataclass(frozen=True, slots=True)
class Definition:
    """The text of a measure, and where its first character stands.

    `standard` is true of a form's own, whose likelihood is none of the designer's doing.
    """

    text: str
    place: Place
    standard: bool = False


def evaluate(definitions: Mapping[str, Definition], known: Mapping[str, Quantity],
             ranges: Mapping[str, Range] = MappingProxyType({}), *, size: str = "",
             pitches: Pitches | None = None) -> tuple[dict[str, Quantity], tuple[Problem, ...]]:
    """Return every measure that can be worked out, by name, and what is wrong with the others.

    Order does not matter. Of measures that depend on a faulty one nothing more is said. A measure
    with a range (see `ranges`) is at fault outside its hard limit, and warned of, for that `size`,
    outside the plausible one. Counts of stitches and rows are lengths by the `pitches`. Raises
    nothing, whatever the texts.
    """
    sheet = _SizeSheet(known, ranges, size, pitches)
    for number, (name, definition) in enumerate(definitions.items()):
        if number == MOST_DEFINITIONS:
            sheet.problems.append(error(
                "too-many", definition.place, found=f"more than {MOST_DEFINITIONS} measures",
                expected=f"at most {MOST_DEFINITIONS}", remedy="Leave some out."))
            break
        sheet.enter(name, definition)
    sheet.work_out()
    return ({name: sheet.found[plain_name(name)] for name in definitions
             if sheet.names.get(plain_name(name)) == name and plain_name(name) in sheet.found},
            tuple(sheet.problems))


def names_in(text: str) -> tuple[str, ...]:
    """The names that expression `text` uses, each once; none when it cannot be read."""
    try:
        tree = parse_expression(text)
    except ExpressionFault:
        return ()
    return tuple(dict.fromkeys(name.name for name in _names(tree)))


def leads(name: str, texts: Mapping[str, str]) -> set[str]:
    """Return every name that the sum of `name` uses, and those their sums use in turn."""
    seen: set[str] = set()
    waiting = [name]
    while waiting:
        for used in names_in(texts.get(waiting.pop(), "")):
            if used not in seen:
                seen.add(used)
                waiting.append(used)
    return seen


def _names(tree: MeasureTree) -> Iterator[MeasureName]:
    return (part for part in within(tree) if isinstance(part, MeasureName))


class _SizeSheet:
    """The measures of one size while they are worked out."""

    def __init__(self, known: Mapping[str, Quantity], ranges: Mapping[str, Range], size: str,
                 pitches: Pitches | None) -> None:
        self.ranges, self.size, self.pitches = ranges, size, pitches
        self.known = {plain_name(name): quantity for name, quantity in known.items()}
        self.names: dict[str, str] = {}
        self.places: dict[str, Definition] = {}
        self.trees: dict[str, MeasureTree] = {}
        self.found: dict[str, Quantity] = {}
        self.problems: list[Problem] = []

    def enter(self, name: str, definition: Definition) -> None:
        """Take in one measure, unless its name or its text is at fault."""
        plain = plain_name(name)
        refusal = self._refusal(plain)
        if refusal:
            self.names.setdefault(plain, name)
            self.problems.append(error(
                "bad-measure-name", definition.place, expected="another name",
                found=f'the measure "{clip(name)}", {refusal}', remedy="Rename it."))
            return
        self.names[plain], self.places[plain] = name, definition
        try:
            self.trees[plain] = parse_expression(definition.text)
        except ExpressionFault as fault:
            self.blame(plain, fault)

    def _refusal(self, plain: str) -> FindingText:
        if plain in self.known:
            return "which is given already"
        if plain in self.names:
            return "which is there already"
        return "which means something else in a sum" if plain in (*ARGUMENTS, *UNITS) else ""

    def blame(self, plain: str, fault: ExpressionFault) -> None:
        """Record what is wrong in the text of a measure, pointing at the spot."""
        place = self.places[plain].place
        spot = Place(place.file, place.line, place.column + fault.at)
        self.problems.append(error(fault.code, spot, found=fault.found, expected=fault.expected,
                                   remedy=fault.remedy))

    def work_out(self) -> None:
        """Work out each measure as soon as all that it depends on is worked out."""
        needs = {plain: self._needs(plain, tree) for plain, tree in self.trees.items()}
        users: dict[str, list[str]] = {}
        for plain, names in needs.items():
            for name in names & needs.keys():
                users.setdefault(name, []).append(plain)
        waiting = {plain: len(names & needs.keys()) for plain, names in needs.items()}
        ready = [plain for plain, number in waiting.items() if number == 0]
        while ready:
            plain = ready.pop()
            del waiting[plain]
            self._settle(plain)
            for user in users.get(plain, ()):
                waiting[user] -= 1
                if waiting[user] == 0:
                    ready.append(user)
        self._name_circles(waiting, needs)

    def _needs(self, plain: str, tree: MeasureTree) -> set[str]:
        names = set()
        for name in _names(tree):
            if name.name in self.known:
                continue
            if name.name not in self.names and name.name not in names:
                choice = (*self.names, *self.known)
                expected, remedy = suggest(name.name, choice, "Define it, or use one of these.")
                if len(expected) > 300:
                    expected = _ANY_MEASURE
                self.blame(plain, ExpressionFault(
                    "unknown-measure", name.at, f'nothing called "{name.name}"', expected, remedy))
            names.add(name.name)
        return names

    def _settle(self, plain: str) -> None:
        tree = self.trees[plain]
        reckoning = Reckoning(self.known, self.found, self.pitches)
        try:
            made, is_length = reckoning.measure(plain, tree)
        except ExpressionFault as fault:
            self.blame(plain, fault)
        except KeyError:  # depends on a measure whose fault is recorded
            pass
        else:
            if not self._is_likely(plain, made.value, is_length):
                return
            definition = self.places[plain]
            self.found[plain] = Quantity(made, is_length, plain,
                                         None if definition.standard else definition.place)

    def _is_likely(self, plain: str, value: Fraction, is_length: bool) -> bool:
        """True unless a measure is no length, or no number, where it must be, or out of range."""
        own = OWN_MEASURE if self.ranges and is_length else None
        row, definition = self.ranges.get(plain, own), self.places[plain]
        if row is None:
            return True
        found = f"{plain} {shown(value, is_length)}".replace(" -", " −")
        if is_length != (row.measured is Measured.LENGTH):
            self._blame_unit(plain, definition, is_length)
            return False
        if not row.is_allowed(value):
            self.problems.append(error(
                "out-of-range", definition.place, found=found, size=self.size,
                expected=row.allowed, remedy=CHECK))
            return False
        if not row.is_plausible(value) and not definition.standard:
            self.problems.append(note(
                Severity.WARNING, "unlikely-value", definition.place, found=found, size=self.size,
                expected=row.usual, remedy=CHECK))
        return True

    def _blame_unit(self, plain: str, definition: Definition, is_length: bool) -> None:
        text = clip(definition.text.strip())
        self.problems.append(error(
            "unlike-measures", definition.place, found=f"{plain}: {text}, "
            + ("a length" if is_length else "a number without a unit"),
            expected=f"a plain number for {plain}, such as 3" if is_length else
            f"a length for {plain}, such as 5 cm or 2 in",
            remedy="Leave the unit out." if is_length else "Write the unit after the number."))

    def _name_circles(self, waiting: Mapping[str, int], needs: Mapping[str, set[str]]) -> None:
        seen: set[str] = set()
        for start in waiting:
            path: dict[str, None] = {}
            here = start
            while here not in seen and here not in path:
                path[here] = None
                here = next(n for n in sorted(needs[here]) if n in waiting)
            seen |= path.keys()
            if here in path:
                walk = list(path)
                self._blame_circle([*walk[walk.index(here):], here])

    def _blame_circle(self, circle: list[str]) -> None:
        first, second = circle[:2]
        at = next(name.at for name in _names(self.trees[first]) if name.name == second)
        self.blame(first, ExpressionFault(
            "circular-measure", at, f"measures that use each other: {clip(' → '.join(circle))}",
            "measures that come back to the body or to a figure", "Give one of them outright."))
