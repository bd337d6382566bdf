"""What holds for every measure: it equals the same sum done by others, and no text does harm."""

import warnings
from fractions import Fraction

import pytest
import sympy
from hypothesis import given, settings
from hypothesis import strategies as st
from walebook.core.counts import decimal
from walebook.core.problems import Place
from walebook.core.units import Length
from walebook.sizing.grading import look_across
from walebook.sizing.measure_text import shown
from walebook.sizing.measures import Definition, evaluate, names_in
from walebook.sizing.quantities import Quantity

from tests.small_patterns import given_length, given_number

PLACE = Place("pattern.yaml", 7, 12)
LENGTHS = {"chest": Fraction(940), "upper_arm": Fraction(280), "neck_to_wrist": Fraction(1435, 2)}
NUMBERS = {"parts": Fraction(3), "share": Fraction(2, 5)}
KNOWN = {**{n: given_length(Length(v)) for n, v in LENGTHS.items()},
         **{n: given_number(v) for n, v in NUMBERS.items()}}
UNITS = {"mm": Fraction(1), "cm": Fraction(10), "in": Fraction(254, 10)}


def one(text: str) -> tuple[Quantity | None, list[str]]:
    """The value of one expression, and the findings."""
    found, problems = evaluate({"it": Definition(text, PLACE)}, KNOWN)
    return found.get("it"), [str(p) for p in problems]


# Expressions of a known dimension: our text, the same for sympy (exact, in mm), is it a length.
Sum = tuple[str, str, bool]


@st.composite
def figures(draw: st.DrawFn) -> Sum:
    """A number, a length, or a name."""
    digits = draw(st.decimals(0, 9999, places=draw(st.integers(0, 3))))
    text = f"{digits:f}"
    exact = f"Rational('{text}')"
    kind = draw(st.sampled_from(["number", "length", "name", "%"]))
    if kind == "number":
        return text, exact, False
    if kind == "%":
        return f"{text} %", f"({exact}/100)", False
    if kind == "length":
        unit = draw(st.sampled_from(list(UNITS)))
        return f"{text} {unit}", f"({exact}*Rational('{UNITS[unit]}'))", True
    name = draw(st.sampled_from([*LENGTHS, *NUMBERS]))
    return name, f"Rational('{(LENGTHS | NUMBERS)[name]}')", name in LENGTHS


def joined(parts: tuple[Sum, Sum, str]) -> Sum:
    """Two sums with an operator that suits their dimensions."""
    (a, x, a_length), (b, y, b_length), sign = parts
    if sign in "+-" and a_length != b_length:
        sign = "*"
    if sign == "*" and a_length and b_length:
        sign = "+"
    if sign == "/" and b_length and not a_length:
        sign, a, b, x, y, a_length, b_length = "/", b, a, y, x, b_length, a_length
    if sign in "+-":
        return f"({a} {sign} {b})", f"({x} {sign} {y})", a_length
    if sign == "*":
        return f"{a} * ({b})", f"({x} * ({y}))", a_length or b_length
    return f"({a}) / ({b})", f"(({x}) / ({y}))", a_length and not b_length


def wrapped(part: Sum) -> Sum:
    """Minus a sum."""
    text, exact, is_length = part
    return f"(-({text}))", f"(-({exact}))", is_length


SUMS = st.recursive(figures(), lambda inner: st.one_of(
    st.tuples(inner, inner, st.sampled_from("+-*/")).map(joined), inner.map(wrapped)),
    max_leaves=6)


@given(SUMS)
@settings(deadline=None)
def test_a_measure_equals_the_same_sum_in_a_computer_algebra_system(part: Sum) -> None:
    text, exact, is_length = part
    expected = sympy.sympify(exact, rational=True)
    quantity, problems = one(text)
    if len(text) > 200:
        assert "error, long-measure:" in problems[0]
    elif expected.is_finite is not True:
        assert "error, division-by-nothing:" in problems[0]
    elif problems:
        assert "error, long-measure:" in problems[0] or "error, division-by-nothing:" in problems[0]
    else:
        assert quantity is not None
        assert quantity.value == Fraction(int(expected.p), int(expected.q))
        assert quantity.is_length == is_length
        assert quantity.working.endswith(f"= {shown(quantity.value, is_length)}")


@given(st.fractions(-1000, 1000), st.fractions(Fraction(1, 8), 50))
def test_round_to_is_the_nearest_multiple_a_half_upwards(value: Fraction, step: Fraction) -> None:
    known = {"x": given_length(Length(value)), "step": given_length(Length(step))}
    found, problems = evaluate({"it": Definition("round_to(x, step)", PLACE)}, known)
    assert not problems
    rounded = found["it"].value
    assert (rounded / step).denominator == 1
    assert -step / 2 < rounded - value <= step / 2


@given(st.lists(st.sampled_from(["2 cm", "chest", "5 in", "chest / 3"]), min_size=2, max_size=8))
def test_min_and_max_are_those_of_the_parts(parts: list[str]) -> None:
    values = [one(part)[0] for part in parts]
    least, most = (one(f"{f}({', '.join(parts)})")[0] for f in ("min", "max"))
    assert least is not None and most is not None
    assert (least.value, most.value) == (min(v.value for v in values if v),
                                         max(v.value for v in values if v))


@given(st.permutations(range(12)))
def test_the_order_of_definitions_does_not_matter(order: list[int]) -> None:
    texts = {0: "chest", **{n: f"m{n - 1} / 2 + {n} mm" for n in range(1, 12)}}
    found, problems = evaluate({f"m{n}": Definition(texts[n], PLACE) for n in order}, KNOWN)
    value = LENGTHS["chest"]
    for n in range(12):
        value = value if n == 0 else value / 2 + n
        assert found[f"m{n}"].value == value
    assert not problems


@given(st.text(max_size=220))
def test_any_text_is_worked_out_or_refused_with_its_place(text: str) -> None:
    found, problems = evaluate({"it": Definition(text, PLACE)}, KNOWN)
    assert bool(found) != bool(problems)
    for problem in problems:
        assert problem.place.line == 7
        assert 12 <= problem.place.column <= 12 + len(text)
        assert problem.found and problem.remedy


ALPHABET = st.sampled_from([*"+-*/(),.%^[]{}:;='\"\\@! \n", "chest", "parts", "min", "max", "2",
                            "round_to", "1/2", "cm", "in", "%", "it", "0", "lambda", "__import__",
                            "e9", "9" * 7, "**", "//", "if", "for", "é", "−", "²", "\x00"])


@given(st.lists(ALPHABET, max_size=60).map("".join))
def test_any_likely_text_is_worked_out_or_refused(text: str) -> None:
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        found, problems = evaluate({"it": Definition(text, PLACE)}, KNOWN)
    assert bool(found) != bool(problems)
    assert isinstance(names_in(text), tuple)


NAMES = st.sampled_from(["a", "b", "c", "d", "chest", "min", "nothing"])


@given(st.dictionaries(NAMES, st.lists(NAMES, min_size=1, max_size=4), max_size=6))
def test_every_measure_is_found_or_faulty_or_leans_on_a_faulty_one(
        leaning: dict[str, list[str]]) -> None:
    places = {name: Place("pattern.yaml", n, 1) for n, name in enumerate(leaning, start=1)}
    found, problems = evaluate({name: Definition(" + ".join(names), places[name])
                                for name, names in leaning.items()}, KNOWN)
    faulty = {p.place.line for p in problems}
    for name, names in leaning.items():
        excused = any(n in leaning and n not in found and n not in KNOWN for n in names)
        assert name in found or places[name].line in faulty or excused, name
    for name, quantity in found.items():
        expected = sum((found[n].value if n in found else KNOWN[n].value
                        for n in leaning[name]), Fraction(0))
        assert quantity.value == expected


def test_doubling_again_and_again_stays_small() -> None:
    texts = {"m0": "parts", **{f"m{n}": f"m{n - 1} * m{n - 1}" for n in range(1, 200)}}
    found, problems = evaluate({n: Definition(t, PLACE) for n, t in texts.items()}, KNOWN)
    assert [p.code for p in problems] == ["huge-measure"]
    assert len(found) < 12
    assert all(len(q.working) < 700 for q in found.values())


@pytest.mark.parametrize(("text", "working"), [
    ("(chest + 5 cm) / 2", "it = (chest 94 cm [women M, bust 36–38 in, middle] + 5 cm) / 2"
                           " = 49.5 cm"),
    ("chest - (upper_arm - 17 1/4 in) * 1/2",
     "it = chest 94 cm [women M, bust 36–38 in, middle] − (upper arm 28 cm − 17 1/4 in) × 1 / 2"
     " = 101.91 cm"),
    ("max(chest * 90 %, 1/2 in)",
     "it = max(chest 94 cm [women M, bust 36–38 in, middle] × 90 %, 1/2 in) = 84.6 cm"),
    ("-upper_arm / 3", "it = (−upper arm 28 cm) / 3 = −9.33 cm"),
    ("chest / (2 * 3)", "it = chest 94 cm [women M, bust 36–38 in, middle] / (2 × 3) = 15.67 cm"),
])
def test_the_working_is_written_out_to_the_charts_row(text: str, working: str) -> None:
    # The values were worked by hand; 17 1/4 in is 43.815 cm.
    known = {"chest": given_length(Length(Fraction(940)), "women M, bust 36–38 in, middle"),
             "upper_arm": given_length(Length(Fraction(280)))}
    found, _ = evaluate({"it": Definition(text, PLACE)}, known)
    assert found["it"].working == working


def test_a_measure_shows_those_it_leans_on() -> None:
    found, problems = evaluate({
        "front": Definition("half_width / 2 + half_width", PLACE),
        "half-width": Definition("(chest + ease) / 2", PLACE),
        "ease": Definition("5 cm", PLACE)}, KNOWN)
    assert not problems
    assert [found[name].working for name in ("ease", "half-width", "front")] == [
        "ease = 5 cm", "half width = (chest 94 cm + ease 5 cm) / 2 = 49.5 cm",
        "front = half width 49.5 cm / 2 + half width 49.5 cm = 74.25 cm"]
    assert found["half-width"].length == Length(Fraction(495))
    with pytest.raises(TypeError):
        _ = given_number(2).length


# Grading: what is out of step is found, what is in step is not.
STEPS = st.lists(st.fractions(1, 2, max_denominator=4), min_size=4, max_size=10)


@given(STEPS)
def test_sizes_in_step_are_passed(steps: list[Fraction]) -> None:
    values = [sum(steps[:n], Fraction(50)) for n in range(len(steps) + 1)]
    named = [(str(n), v) for n, v in enumerate(values)]
    assert look_across("width", named, grows=values) == ()
    assert look_across("width", named) == ()  # steps from 1 to 2 are within twice the usual


@given(STEPS, st.data())
def test_one_size_out_of_step_is_named_with_its_numbers(steps: list[Fraction],
                                                        data: st.DataObject) -> None:
    spot = data.draw(st.integers(1, len(steps)))
    values = [sum(steps[:n], Fraction(50)) for n in range(len(steps) + 1)]
    kind, off = data.draw(st.sampled_from([("against", Fraction(-3)), ("jumps", Fraction(20)),
                                           ("repeats", -steps[spot - 1])]))
    moved = [(str(n), v + (off if n >= spot else 0)) for n, v in enumerate(values)]
    found = look_across("width", moved, grows=values)
    assert [(f.kind, f.size) for f in found] == [(kind, str(spot))]
    assert decimal(moved[spot][1], 2) in found[0].text
    assert decimal(moved[spot - 1][1], 2) in found[0].text


def test_a_chart_whose_steps_widen_is_no_jump_when_the_body_is_known() -> None:
    # The European bust steps are 4 cm to 104 and 6 cm beyond; here stretched to 4 and 12.
    body = [Fraction(n) for n in (76, 80, 84, 88, 92, 96, 108, 120)]
    width = [(str(b), b / 2) for b in body]
    assert look_across("width", width, grows=body) == ()
    assert [f.size for f in look_across("width", width)] == ["108", "120"]
    with pytest.raises(ValueError):
        look_across("width", width, grows=body[:-1])


def test_a_count_may_rest_or_skip_by_its_rounding() -> None:
    counts = [(s, Fraction(n)) for s, n in zip("abcdef", (20, 21, 21, 22, 23, 23), strict=True)]
    body = [Fraction(n) for n in range(70, 76)]
    assert [f.size for f in look_across("rows", counts, grows=body)] == ["c", "f"]
    assert look_across("rows", counts, grows=body, grain=Fraction(1)) == ()
