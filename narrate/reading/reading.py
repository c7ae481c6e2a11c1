"""What an item's words say: amounts, situation, unknown, expression, and the form of the answer."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from narrate.exact.tree import Expr, Over, Relation
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
]
"""Situations of CCSSM (2010), glossary Table 1, by what is unknown; "bare" has no story.

add to: result unknown · start: start unknown · put together: total unknown · take apart: addend
unknown · difference, larger, smaller: compare · in and out: a chain of changes.
"""


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

    @property
    def story(self) -> bool:
        """Whether there is a story to tell."""
        return self.situation != "bare"
