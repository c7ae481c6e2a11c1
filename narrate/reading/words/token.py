"""One token of a text: a word, a number or a mark, with its place."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction

from narrate.exact.tree import Expr, value
from narrate.reading.words.lexicon import one


@dataclass(frozen=True, slots=True, kw_only=True)
class Token:
    """A word (`w`), number (`n`), mark (`p`) or time or date (`t`) at `start` to `end`.

    `sort` of a number: "" , "money", "percent", "times" (twice), "part" (a fraction in words or
    digits below one). `low` is the word in small letters. `joined` says that a hyphen ties the
    next word to it: a 28-pound bag.
    """

    kind: str
    text: str
    start: int
    end: int
    tree: Expr | None = None
    sort: str = ""
    joined: bool = False
    low: str = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "low", self.text.lower())

    @property
    def lemma(self) -> str:
        """The word of one thing."""
        return one(self.text)

    @property
    def value(self) -> Fraction:
        """The exact number; 0 for a word."""
        return value(self.tree) if self.tree is not None else Fraction(0)
