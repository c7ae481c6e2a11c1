"""Numbers and mathematics as templates see them: one private character each.

So the words around them can be laid out first; then they are spoken for the voice and written for
the caption.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from typing import Any

from narrate.exact.caption import ended_once, write
from narrate.exact.tree import Money, Neg, Piece, Sayable, TimeOfDay, Whole

_FIRST_MARK = 0xE000
_RUNS = re.compile(r"[\uE000-\uF8FF]|[^\uE000-\uF8FF]+")


class Marks:
    """Trees that stand in a text as one private character each."""

    def __init__(self) -> None:
        self.trees: list[Sayable] = []

    def mark(self, tree: Sayable) -> str:
        """The character that stands for a tree."""
        self.trees.append(tree)
        return chr(_FIRST_MARK + len(self.trees) - 1)

    def fill(self, text: str, how: Callable[[Sayable], str]) -> str:
        """The text with every mark written by `how`."""
        pieces = self._runs(text)
        return ended_once("".join(p if isinstance(p, str) else how(p) for p in pieces))

    def pieces(self, text: str) -> Iterator[Piece]:
        """The text as words and trees in turn; dollars as words."""
        time = False
        for piece in self._runs(text):
            if time and isinstance(piece, str):
                piece = piece.removeprefix(".")
            time = isinstance(piece, TimeOfDay) and piece.half
            yield write(piece) if isinstance(piece, Money) else piece

    def _runs(self, text: str) -> Iterator[str | Sayable]:
        for run in _RUNS.findall(text):
            at = ord(run[0]) - _FIRST_MARK
            yield self.trees[at] if 0 <= at < len(self.trees) else run


class Said:
    """A detail as a template sees it: prints as a mark, compares as its number."""

    def __init__(self, detail: int | Sayable, marks: Marks) -> None:
        self.detail = detail
        self._marks = marks

    def __str__(self) -> str:
        return self._marks.mark(as_tree(self.detail))

    def __eq__(self, other: object) -> bool:
        return self.detail == (other.detail if isinstance(other, Said) else other)

    def __hash__(self) -> int:
        return hash(self.detail)


def as_tree(detail: int | Sayable) -> Sayable:
    """A number as a tree."""
    if isinstance(detail, int):
        return Whole(detail) if detail >= 0 else Neg(Whole(-detail))
    return detail


def fixed(detail: Any) -> Any:
    """A detail with its lists as tuples, so that it can be looked up."""
    return tuple(map(fixed, detail)) if isinstance(detail, tuple | list) else detail


def plain(said: object) -> Any:
    """What a template was given, as it was before it was wrapped."""
    return said.detail if isinstance(said, Said) else said


def wrapped(detail: Any, marks: Marks) -> Any:
    """A detail as templates see it: numbers and trees say themselves, names stay names."""
    if isinstance(detail, str | bool) or detail is None:
        return detail
    if isinstance(detail, tuple | list):
        return [wrapped(inner, marks) for inner in detail]
    return Said(detail, marks)
