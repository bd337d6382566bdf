"""Which entry of a source is named where one value becomes a mapping by size."""

from __future__ import annotations

from walebook.compare.inputs import Files, moved, plain, set_back
from walebook.source.source import parse_source

NAME = "patterns/band/pattern.yaml"
SIZES = "sizes: [S, {label: M, as: 40}]\n"


def read(text: str) -> Files:
    tree, _ = parse_source(SIZES + text, name=NAME)
    assert tree is not None
    return {NAME: tree}


def test_a_size_that_no_longer_has_the_value_of_all_is_named_alone() -> None:
    """Both sizes had 200 rows; M alone has others now. Set back, both have 200 again."""
    after = read("edges:\n  front: {rows: {S: 200, M: 208}}\n")
    (one,) = moved(read("edges:\n  front: {rows: 200}\n"), after)
    assert one.key == "edges.front.rows.M"
    assert (one.place.line, one.place.column) == (3, len("  front: {rows: {S: 200, M: ") + 1)
    assert (plain(one.before), plain(one.after)) == ("200", "208")
    assert plain(set_back(after, (one,))[NAME])["edges"] == {
        "front": {"rows": {"S": "200", "M": "200"}}}


def test_a_value_that_becomes_another_mapping_is_named_whole() -> None:
    """Nobody says that the depth was that of each key."""
    (one,) = moved(read("hem: 5 cm\n"), read("hem: {depth: 5 cm, fold: turned}\n"))
    assert one.key == "hem"
