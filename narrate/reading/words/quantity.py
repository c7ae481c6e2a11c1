"""A quantity of a story: a number with what it counts, whose it is, and how it is related."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from narrate.exact.tree import Expr, value

Sort = Literal["amount", "rate", "compare", "times", "part"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Quantity:
    """One number of the story (`tree` is None where it is not told), at `start` to `end`.

    `thing` are the words of what is counted, `head` the last of them. `per` is the thing that a
    rate is for each of. `sign` is +1 or −1 of a comparison, `other` the words it is held against.
    `more`: it comes on top of what was there; `total`: it is of all together; `left`: what remains.
    `made_by` is the situation by which it was worked out of others, "" where the words tell it.
    `lead` is the word right before it.
    `place`, `to`, `source`: words of where, to whom and from whom; `around`: all words near it.
    """

    start: int
    end: int
    tree: Expr | None
    sort: Sort = "amount"
    thing: tuple[str, ...] = ()
    per: tuple[str, ...] = ()
    sign: int = 0
    other: frozenset[str] = frozenset()
    money: bool = False
    percent: bool = False
    more: bool = False
    total: bool = False
    left: bool = False
    equal: bool = False
    borrowed: bool = False
    before: bool = False
    after: bool = False
    before_verb: bool = False
    clause: int = 0
    verb: str = ""
    verb_sort: str = ""
    passive: bool = False
    carried: str = ""
    who: frozenset[str] = frozenset()
    to: frozenset[str] = frozenset()
    source: frozenset[str] = frozenset()
    around: frozenset[str] = frozenset()
    text: str = ""
    near: frozenset[str] = frozenset()
    asked: bool = False
    periodic: str = ""
    partitive: bool = False
    of_one: tuple[str, ...] = ()
    parts: tuple[int, ...] = ()
    stretch: int = 0
    link: str = ""
    sentence: int = 0
    made_by: str = ""
    lead: str = ""

    @property
    def head(self) -> str:
        """What is counted, in one word."""
        return self.thing[-1] if self.thing else ""

    @property
    def known(self) -> bool:
        """Whether its number is told."""
        return self.tree is not None

    @property
    def value(self) -> Fraction:
        """Its number."""
        return value(self.tree) if self.tree is not None else Fraction(0)

    @property
    def words(self) -> frozenset[str]:
        """Everything that tells it from others."""
        verb = {self.verb} if self.verb and self.verb_sort not in ("be", "own") else set()
        return frozenset(self.thing) | self.who | self.around | self.to | self.source | verb
