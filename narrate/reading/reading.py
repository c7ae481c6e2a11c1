"""What an item's words say: amounts, situation, unknown, expression, and the form of the answer."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor
from typing import Literal

from narrate.exact.tree import Expr, Op, Over, Relation, value
from narrate.reading.goal import Goal

Source = Literal["stimulus", "ask"]
Role = Literal["amount", "relationship", "unknown", "condition", "extra"]
Situation = Literal[
    "bare",
    "add to",
    "start",
    "put together",
    "larger",
    "take from",
    "take apart",
    "difference",
    "smaller",
    "in and out",
    "both compared",
    "needed",
    "change added",
    "change taken",
    "start added",
    "equal groups",
    "group size",
    "for one",
    "mean",
    "of both",
    "number of groups",
    "left over",
    "times as many",
    "times fewer",
    "how many times",
    "part of",
    "area",
    "perimeter",
    "equal sides",
    "side",
    "steps",
]
"""Situations of CCSSM (2010), glossary Tables 1 and 2, by what is unknown; "bare" has no story.

add to: result unknown · change added, start added: what came, or what was there before it,
unknown · start: what was there before some went, change taken: what went · put together: total
unknown · take apart: addend unknown · difference, larger, smaller: compare · in and out: a
chain of changes · needed: what is still missing · both compared: two amounts together, one told
by how it stands to the other · of both: the other way about, the total told. Of Table 2, equal
groups: product, group size or number of groups unknown, how much it is for one ("for one"), a mean,
and what is left over · times as many: larger unknown, "times fewer" smaller unknown · part of:
a fraction or percent of an amount · area, perimeter, side: of a rectangle · equal sides: around a
shape all of whose sides are alike. "steps" is any other story, told step by step.
"""

Rounding = Literal["", "up", "down", "remainder"]
"""How a quotient that leaves a remainder is read: one more, full groups only, what is left over."""


def rounded(amount: Fraction, expression: Expr, rounding: Rounding) -> Fraction:
    """An answer read as its remainder is: 86 ÷ 8 up is 11, down is 10, its remainder 6."""
    match rounding, expression:
        case "up", _:
            return Fraction(ceil(amount))
        case "down", _:
            return Fraction(floor(amount))
        case "remainder", Op("÷", _, size):
            return (amount - floor(amount)) * value(size)
        case _:
            return amount


@dataclass(frozen=True, slots=True, kw_only=True)
class Counted:
    """What a part of the expression counts: `unit` as the words name it ("seedlings", "" unsaid).

    `situation` says how its two amounts are related, "" where the words do not tell.
    """

    tree: Expr
    unit: str
    situation: Situation | Literal[""] = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Telling:
    """A telling phrase: characters `start` to `end` of the stimulus text or of the question."""

    source: Source
    start: int
    end: int
    role: Role
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Unknown:
    """What is asked for: `noun` such as "a fraction of the barrel", "" if it was not made out.

    `question` is the sentence that asks.
    """

    question: str
    noun: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """A part, read. `expression` is what to work out; `equation` the one with a blank, if any.

    `target` is the fraction with a blank in it that the expression equals (`□/20`), if any.
    `misleading` is a word of the story that often goes with the other operation, "" if none.
    `rounding` says how a remainder is read, `decimals` that the answer is written as a decimal,
    `money` that it is dollars, `counted` what the numbers and the steps between them count.
    """

    goal: Goal
    expression: Expr
    equation: Relation | None
    target: Over | None
    situation: Situation
    unknown: Unknown
    tellings: tuple[Telling, ...]
    misleading: str = ""
    unit: str = ""
    rounding: Rounding = ""
    decimals: bool = False
    money: bool = False
    counted: tuple[Counted, ...] = ()

    @property
    def story(self) -> bool:
        """Whether there is a story to tell."""
        return self.situation != "bare"
