"""Questions whose own words write out what to work out, beside a story that adds nothing.

"The barrel holds 794 pints. What is 794 rounded to the nearest hundred?" and "Use the expression
below to find the pints in all. 12 × 380 How many pints are there?" need no story to be read, where
every number told is among those written out.
"""

from __future__ import annotations

import re
from contextlib import suppress
from fractions import Fraction

from narrate.errors import Declined, ExactError
from narrate.exact import prose
from narrate.exact.tree import Expr, Op, Relation, has_blank, value
from narrate.reading.equations import isolate
from narrate.reading.words.arithmetic import read_arithmetic
from narrate.reading.words.number_facts import read_number_fact
from narrate.reading.words.plain import plain
from narrate.reading.words.tokens import tokens

_BELOW = re.compile(
    r"\b(?:expression|number sentence|equation)\b[^.?]*\b(?:to find|to represent|shows)\b", re.I
)
_VALUE = re.compile(r"(?:how (?:many|much)|what (?:is|was) (?:the|his|her))\b", re.I)


def written_out(text: str) -> tuple[Fraction, Expr | None] | None:
    """The value asked for and its expression, None where the words do not write it out."""
    told = re.split(r"(?<=[.?!])\s+", text.strip())
    if len(told) < 2:
        return None
    *before, asked = told
    found = _alone(asked)
    if found is not None and _numbers(" ".join(before)) <= _numbers(asked):
        return found
    return _below(text) if _BELOW.search(text) and _asks(asked) else None


def story_beside(text: str) -> str:
    """The words of a text beside the expression that they give, "" where they give none."""
    runs = [run for run in prose.read(plain(text)) if isinstance(run.piece, Op | Relation)]
    if len(runs) != 1 or not _BELOW.search(text):
        return ""
    rest = f"{text[: runs[0].start]}. {text[runs[0].end :]}"
    told = re.split(r"(?<=[.?!])\s+", rest)
    return " ".join(sentence for sentence in told if not _BELOW.search(sentence))


def _alone(asked: str) -> tuple[Fraction, Expr | None] | None:
    worked = read_arithmetic(asked)
    if worked is not None:
        return worked.value, worked.expression
    fact = read_number_fact(asked)
    if fact is None or isinstance(fact, Fraction):
        return None if fact is None else (fact, None)
    return value(fact), fact


def _numbers(text: str) -> set[Fraction]:
    return {token.value for token in tokens(text) if token.kind == "n"}


def _asks(asked: str) -> bool:
    """Whether the last sentence asks for a value, perhaps behind the expression."""
    return bool(_VALUE.search(asked)) and not re.search(r"\bwhich\b", asked, re.I)


def _below(text: str) -> tuple[Fraction, Expr | None] | None:
    """The one expression or equation with a letter of a text that holds all its numbers."""
    runs = [run for run in prose.read(plain(text)) if not isinstance(run.piece, str)]
    work = [run for run in runs if isinstance(run.piece, Op | Relation)]
    if len(work) != 1:
        return None
    piece, inside = work[0].piece, _numbers(text[work[0].start : work[0].end])
    if not _numbers(text) <= inside:
        return None
    with suppress(Declined, ExactError):
        if isinstance(piece, Op) and not has_blank(piece):
            return value(piece), piece
        if isinstance(piece, Relation) and has_blank(piece):
            alone = isolate(piece)
            return alone.answer, alone.expression
    return None
