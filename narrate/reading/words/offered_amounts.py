"""The amounts that a line of work could be made of, each with the part that it plays in the story.

Numbers that only name (Class 4, Room 9, dates, times, years, ages) are no amounts.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction

from narrate.exact.caption import write
from narrate.reading.words.clauses import Clause
from narrate.reading.words.lexicon import NOUNS_FIRST, PAST, UNITS, VERBS
from narrate.reading.words.naming import is_name
from narrate.reading.words.plain import plain, word_set
from narrate.reading.words.quantities import quantities
from narrate.reading.words.quantity import Quantity
from narrate.reading.words.tokens import tokens

LENGTHS = word_set("inch foot yard mile meter centimeter millimeter kilometer")


@dataclass(frozen=True, slots=True, kw_only=True)
class Amount:
    """A number of the story and its role, a name of `ROLES`; `told` is what was read of it."""

    role: str
    told: Quantity

    @property
    def said(self) -> str:
        """The number as it is written."""
        return write(self.told.tree) if self.told.tree is not None else ""

    @property
    def worth(self) -> Fraction:
        """Its value."""
        return self.told.value

    @property
    def names(self) -> frozenset[str]:
        """The words of what it counts."""
        return frozenset(self.thing) | ({"dollar"} if self.told.money else set())

    @property
    def thing(self) -> tuple[str, ...]:
        """The words of what it counts in order, without what that does: families living near."""
        words = self.told.thing
        if words[:1] and words[0] in (PAST | VERBS.keys()) - NOUNS_FIRST:
            return ()
        while len(words) > 1 and (words[-1].endswith("ing") or words[-1] == "call"):
            words = words[:-1]
        return words

    @property
    def head(self) -> str:
        """What it counts in one word, "" unsaid."""
        return self.thing[-1] if self.thing else ""

    @property
    def unit(self) -> str:
        """What it counts in one word: its measure where it has one, "" unsaid."""
        if self.told.money:
            return "dollar"
        return next((w for w in self.thing if w in UNITS), self.head)

    @property
    def measured(self) -> bool:
        """Whether it measures: cups, feet, dollars."""
        return self.unit in UNITS

    @property
    def per(self) -> frozenset[str]:
        """What it is so much for each of."""
        return frozenset((*self.told.per, *self.told.of_one, *filter(None, [self.told.periodic])))


def times_told(text: str) -> list[str]:
    """The times of day that a text tells: 9:20."""
    return [t.text for t in tokens(text) if t.kind == "t" and ":" in t.text]


_COUNTS_THE_TOLD = word_set("two three four both")


def _names(text: str, q: Quantity, question: str) -> bool:
    """Whether a number only names, or is the "one" of one sack."""
    in_words = q.text.lower().split()[:1] == ["one"] or re.match(r"1 \w+ ?=", text[q.start :])
    return bool(in_words and q.value == 1) or is_name(text, q.start, question)


def _counts_told(q: Quantity, every: Sequence[Quantity]) -> bool:
    """Whether a number in words says how many amounts are told: two hens weigh 3 and 4 pounds."""
    others = [p for p in every if p is not q and p.text[:1].isdigit() | p.text.startswith("$")]
    in_words = q.text.lower().split()[:1]
    measured = Counter(w for p in others for w in UNITS & set(p.thing)).values()
    told = q.value == len(others) or q.value in measured
    return bool(in_words) and in_words[0] in _COUNTS_THE_TOLD and told


def _counts_again(text: str, q: Quantity, every: Sequence[Quantity]) -> bool:
    """Whether the question says again how many there were: at the end of the 8 days."""
    if re.search(r"\bth[eo]se $", text[: q.start]):
        return True
    again = re.search(r"\b(?:the|all)(?: of the)? $", text[: q.start])
    return again is not None and any(
        p.head == q.head and p.start < q.start and p.sort != "part" and not p.percent for p in every
    )


# -- the parts that amounts play


def _is_percent(text: str, q: Quantity) -> bool:
    return q.percent or bool(re.match(r"(?:[\d.,]+|[A-Za-z-]+) ?(?:%|percent)", text[q.start :]))


def _is_times(text: str, q: Quantity) -> bool:
    said = re.match(r"(?:\S+|\d+ \d+/\d+) times (?:as|more|the|that|its|his|her|older|bigger|larger"
        r"|longer|heavier|taller)\b", text[q.start :])  # fmt: skip
    return q.sort == "times" or said is not None or text[q.start :].lower().startswith("twice")


def _is_area(text: str, q: Quantity) -> bool:
    """Whether an amount is an area: 22.4 square meters, an area of 48."""
    said = re.search(r"\barea (?:of |is |was )$", text[: q.start])
    return bool({"square"} & set(q.thing) and set(q.thing) & LENGTHS) or said is not None


def _is_round(text: str, q: Quantity) -> bool:
    return re.search(r"\b(?:perimeter|all the way around)(?: \w+){0,5} (?:of|is) $", text[: q.start]
        ) is not None  # fmt: skip


def _is_part(text: str, q: Quantity) -> bool:
    """Whether a number below one is a share, not a measure of its own."""
    if q.sort == "part" and not q.percent:
        return True
    measure = bool(set(q.thing[:1]) & UNITS)
    return 0 < q.value < 1 and not q.money and not measure and "/" in write_of(q)


def _compares(text: str, q: Quantity) -> bool:
    """Whether an amount is so much more or less, not what it is more than: 3/4 less than 2."""
    bound = re.search(r"\bat (?:least|most) \$?$", text[: q.start])
    return q.sort == "compare" and q.lead != "than" and bound is None


def write_of(q: Quantity) -> str:
    """The number of a quantity as it is written."""
    return write(q.tree) if q.tree is not None else ""


def _is_each(text: str, q: Quantity) -> bool:
    does = bool(q.per) and set(q.per) <= PAST - NOUNS_FIRST  # people each sat in one seat
    return (q.sort == "rate" or bool(q.periodic)) and not (set(q.per) & set(q.thing) or does)


ROLES: tuple[tuple[str, Callable[[str, Quantity], bool]], ...] = (
    ("percent", _is_percent),
    ("times", _is_times),
    ("more", lambda text, q: _compares(text, q) and q.sign >= 0),
    ("fewer", lambda text, q: _compares(text, q) and q.sign < 0),
    ("area", _is_area),
    ("round", _is_round),
    ("part", _is_part),
    ("each", _is_each),
)
"""The parts that amounts play, the first that fits; others are plain: "amount"."""


def role_of(text: str, q: Quantity) -> str:
    """The part that a number plays by its own words."""
    return next((role for role, fits in ROLES if fits(text, q)), "amount")


def amounts_in(text: str, made: Sequence[Clause], question: str) -> list[Amount]:
    """The amounts to work with, in the order of the words."""
    told = [q for q in quantities(made) if q.known]
    plainly = plain(text)
    asks = max(plainly.lower().rfind(question), 0)
    per = {w for q in told for w in q.per}
    told = [q for q in told if q.head in per or not _names(plainly, q, question)]
    told = [
        q
        for q in told
        if not _counts_told(q, told) and not (q.start >= asks and _counts_again(plainly, q, told))
    ]
    return [Amount(role=role_of(plainly, q), told=q) for q in told]
