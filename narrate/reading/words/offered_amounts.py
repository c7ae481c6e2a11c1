"""The amounts that a line of work could be made of: numbers with what they count, and no dates."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from narrate.exact.caption import write
from narrate.exact.tree import Expr
from narrate.reading.words.lexicon import UNITS, one
from narrate.reading.words.plain import plain, word_set
from narrate.reading.words.token import Token
from narrate.reading.words.tokens import tokens

_SHORT_UNITS = {
    "ft": "foot", "in": "inch", "yd": "yard", "mi": "mile", "m": "meter", "cm": "centimeter",
    "mm": "millimeter", "km": "kilometer", "g": "gram", "kg": "kilogram", "lb": "pound",
    "lbs": "pound", "oz": "ounce", "l": "liter", "ml": "milliliter", "gal": "gallon",
    "qt": "quart", "pt": "pint", "tbsp": "tablespoon", "tsp": "teaspoon", "hr": "hour",
    "min": "minute", "sec": "second", "degrees": "degree",
}  # fmt: skip
_MONTHS = word_set(
    "january february march april may june july august september october november december "
    "jan feb mar apr jun jul aug sep sept oct nov dec"
)
_AGED = re.compile(r"[ -]years?[ -]old\b|[ -]years? of age\b", re.IGNORECASE)
_OF_AGE = re.compile(r"\b(?:old|older|younger|age|ages)\b", re.IGNORECASE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Amount:
    """A number of the story, what it counts ("" unsaid), and where it stands."""

    tree: Expr
    unit: str
    sort: str
    start: int
    end: int

    @property
    def said(self) -> str:
        """The number as it is written."""
        return write(self.tree)

    @property
    def measured(self) -> bool:
        """Whether it measures: cups, feet, dollars."""
        return self.unit in UNITS or self.sort == "money"


def is_date(text: str, start: int) -> bool:
    """Whether a number at a place of a text is a day: May 4."""
    before = re.search(r"\b([A-Z][a-z]{2,8})\.? $", text[:start])
    return before is not None and before[1].lower() in _MONTHS


def times_told(text: str) -> list[str]:
    """The times of day that a text tells: 9:20."""
    return [t.text for t in tokens(text) if t.kind == "t" and ":" in t.text]


def question_in(text: str) -> str:
    """The last sentence that asks, in small letters."""
    sentences = re.split(r"(?<=[.?!])\s+", text.strip())
    asking = [sentence for sentence in sentences if sentence.endswith("?")]
    return (asking or sentences)[-1].lower()


def amounts_in(text: str) -> list[Amount]:
    """The amounts to work with: no dates, and no ages where age is not asked for."""
    said = tokens(text)
    asks_age = _OF_AGE.search(question_in(text)) is not None
    made = []
    for at, token in enumerate(said):
        if token.tree is None or token.kind != "n" or is_date(plain(text), token.start):
            continue
        if _AGED.match(text, token.end) and not asks_age:
            continue
        behind = at + 2 if token.joined else at + 1
        unit = _unit(said[behind : behind + 2])
        made.append(
            Amount(tree=token.tree, unit=unit, sort=token.sort, start=token.start, end=token.end)
        )
    figures = [amount for amount in made if re.match(r"\$? ?[\d.]", text[amount.start :])]
    return figures if len(figures) > 1 else made


_NO_UNIT = word_set("of and or the a an by to in are is was were each every more less times")


def _unit(after: Sequence[Token]) -> str:
    """What a number counts, by the words behind it."""
    if not after or after[0].kind != "w":
        return ""
    first = _SHORT_UNITS.get(after[0].low, one(after[0].low))
    if after[0].low == "in" and len(after) > 1 and after[1].kind == "w" and after[1].low != "by":
        return ""  # 4 in the pot
    return "" if first in _NO_UNIT else first
