"""What a pupil is asked where the lesson waits: choices or boxes, and what is said of each answer.

All of it is plain data, chosen when the lesson is made, so that a page can judge an answer with
whole numbers alone and say nothing that the lesson did not hold.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from narrate.items.item import Box
from narrate.lesson.lesson import Sentence

Said = tuple[Sentence, ...]
Form = Literal["any", "mixed", "improper"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Offered:
    """One choice as printed. `told` is what is said to who takes it, if anything."""

    letter: str
    text: str
    right: bool
    told: Said = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Foreseen:
    """A wrong number that a slip makes, as it is written (`whole` 0 for a fraction; over 1 for a
    whole number), and what is said of it."""

    whole: int
    numerator: int
    denominator: int
    told: Said


@dataclass(frozen=True, slots=True, kw_only=True)
class Bound:
    """What the answer is more than, or less than; `told` is said of a number that is not."""

    side: Literal["above", "below"]
    amount: Fraction
    told: Said


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """What is asked at the end of the words of a beat.

    `words` are the item's own, a paragraph each. There are `choices` (`several` where every right
    one is to be marked), or `boxes` with their printed `unit`; then `answer` is what they are to
    hold, equal amounts counting as right, but for `form` and `simplest`. `right` is said of the
    right answer, `other` of one that nothing is known of, `more` where right choices are missing,
    `not_as_asked` of the right amount in another form.
    """

    beat: str
    words: tuple[str, ...]
    choices: tuple[Offered, ...] = ()
    several: bool = False
    boxes: tuple[Box, ...] = ()
    unit: str = ""
    answer: Fraction = Fraction(0)
    form: Form = "any"
    simplest: bool = False
    foreseen: tuple[Foreseen, ...] = ()
    bounds: tuple[Bound, ...] = ()
    right: Said = ()
    other: Said = ()
    more: Said = ()
    not_as_asked: Said = ()
