"""Two changes that cosmic-ray does not make, as operators of its kind.

A sentence lives in its texts, and a program in calls whose value nobody takes.
"""

from __future__ import annotations

from collections.abc import Iterator

import parso
from cosmic_ray.operators.operator import Example, Operator
from parso.python.tree import String
from parso.tree import NodeOrLeaf

Place = tuple[int, int]


class EmptyText(Operator):  # type: ignore[misc]
    """Replaces a text by one with nothing in it."""

    def mutation_positions(self, node: NodeOrLeaf) -> Iterator[tuple[Place, Place]]:
        """Yield the place of a text with a word in it, plain or with fields."""
        is_text = isinstance(node, String) or node.type == "fstring"
        if is_text and any(letter.isalpha() for letter in node.get_code().strip("rbfRBF\"'")):
            yield node.start_pos, node.end_pos

    def mutate(self, node: NodeOrLeaf, index: int) -> NodeOrLeaf:
        """Return an empty text."""
        return String('""', node.start_pos, prefix=node.get_first_leaf().prefix)

    @classmethod
    def examples(cls) -> tuple[Example, ...]:
        """Return what it makes of what."""
        return (Example('say("knit")', 'say("")'), Example('f"{n} rows"', '""'))


class LostCall(Operator):  # type: ignore[misc]
    """Leaves out a call, or what a generator yields, where nothing takes its value."""

    def mutation_positions(self, node: NodeOrLeaf) -> Iterator[tuple[Place, Place]]:
        """Yield the place of such a statement."""
        if node.parent is None or node.parent.type != "simple_stmt":
            return
        is_call = node.type in ("atom_expr", "power") and node.get_code().rstrip().endswith(")")
        if is_call or node.type == "yield_expr":
            yield node.start_pos, node.end_pos

    def mutate(self, node: NodeOrLeaf, index: int) -> NodeOrLeaf:
        """Return a statement that does nothing; a generator stays one."""
        does = "(yield from ())" if node.type == "yield_expr" else "pass"
        statement = parso.parse(does).children[0]
        statement.get_first_leaf().prefix = node.get_first_leaf().prefix
        return statement

    @classmethod
    def examples(cls) -> tuple[Example, ...]:
        """Return what it makes of what."""
        return (Example("steps.append(a)\n", "pass\n"),
                Example("yield a\n", "(yield from ())\n"))


OWN: tuple[type[Operator], ...] = (EmptyText, LostCall)
