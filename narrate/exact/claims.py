"""What mathematics in a text claims: whether each line of it is so."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from fractions import Fraction
from itertools import pairwise

from narrate.errors import ExactError
from narrate.exact import prose
from narrate.exact.caption import write
from narrate.exact.tree import Relation, has_blank, value


def untrue(text: str) -> Iterator[tuple[int, str]]:
    """Each line of mathematics in a text that is not so: where it begins, and its sides."""
    for run in prose.read(text):
        if isinstance(run.piece, Relation) and not has_blank(run.piece) and not _holds(run.piece):
            sides = " and ".join(str(value(side)) for side in run.piece.sides)
            yield run.start, f"“{write(run.piece)}” is not so: the sides are {sides}"


def _holds(tree: Relation) -> bool:
    try:
        sides = [value(side) for side in tree.sides]
    except ExactError:
        return True  # not to be worked out, so not judged
    return all(STANDS[tree.sign](one, other) for one, other in pairwise(sides))


STANDS: dict[str, Callable[[Fraction, Fraction], bool]] = {
    "=": lambda one, other: one == other,
    "≠": lambda one, other: one != other,
    "<": lambda one, other: one < other,
    ">": lambda one, other: one > other,
    "≤": lambda one, other: one <= other,
    "≥": lambda one, other: one >= other,
}
"""Whether two values are as a sign between them says."""
