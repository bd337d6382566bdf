"""Sources that ask for a facing in another fabric, and what is refused beside one.

Lines and columns counted in base.yaml.
"""

from __future__ import annotations

import pytest
from reading import BASE, changed, messages, read

FACED = "    dial: 4\n    kind: facing\n    facing_fabric: band\n"
PLAIN = BASE[:BASE.index("    buttonholes:")]


def said(new: str) -> list[str]:
    return messages(changed("    dial: 4\n", new, PLAIN))


def test_a_facing_names_a_fabric_of_the_pattern() -> None:
    pattern, problems = read(changed("    dial: 4\n", FACED.replace(": band", ": body"), PLAIN))
    assert pattern is not None and {p.code for p in problems} == {"unused"}
    assert pattern.bands["front"].facing_fabric == "body"
    found = said(FACED.replace(": band", ": nothing"))
    assert len(found) == 1 and "unknown-name" in found[0]


@pytest.mark.parametrize("kind", ("enclosing", "single", "stand collar"))
def test_only_a_folded_band_or_a_facing_has_one(kind: str) -> None:
    found = said(FACED.replace("kind: facing", f"kind: {kind}").replace(": band", ": body"))
    assert f"not-this-kind: found facing_fabric in a band of the kind {kind}; expected it only " \
        "in a band of the kind folded or facing. Delete it, or choose one of these" in found[0]


@pytest.mark.parametrize(("key", "value"), (("dials", "[5, 4]"), ("mitre", "yes")))
def test_it_goes_with_no_graded_tension_and_no_mitre(key: str, value: str) -> None:
    dial = "" if key == "dials" else "    dial: 4\n"
    found = said(f"{dial}    kind: folded\n    {key}: {value}\n    facing_fabric: body\n")
    assert any(f'two-answers: found both "{key}" and "facing_fabric" in band "front"; expected one '
               "of the two: the layers have not as many stitches. Delete one of them." in one
               for one in found)


def test_of_all_closings_only_loops_go_with_it() -> None:
    folded = "    dial: 4\n    kind: folded\n    facing_fabric: body\n"
    found = messages(changed("    dial: 4\n", folded))
    assert any('found both "buttonholes" and "facing_fabric"' in one for one in found)
    loops = changed("    buttonholes:\n", "    buttonholes:\n      closing: loops\n",
                    changed("    dial: 4\n", folded))
    assert messages(loops) == []


def test_it_is_plain() -> None:
    out = changed("  body:\n", "  body:\n    needles: 2 in 1 out\n", PLAIN)
    found = messages(changed("    dial: 4\n", FACED.replace(": band", ": body"), out))
    assert any('facing-not-plain: found a facing of the fabric "body", knitted with needles out of '
               "work; expected a plain fabric" in one for one in found)
