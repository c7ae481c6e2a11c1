"""A second look at a line that is offered: its units, and which amounts it leaves out.

What is added is of one kind, a rate is used with what it is for each of, and what comes out is what
is asked for. Units are words: of a measure its name, of things all words that name them.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from narrate.exact.parser import parse_expr
from narrate.exact.tree import Expr, Group, Neg, Op, leaves, value
from narrate.reading.words.lexicon import UNITS
from narrate.reading.words.offered_amounts import LENGTHS, Amount
from narrate.reading.words.offered_asked import Told
from narrate.reading.words.witness import MEASURE_OF

Names = frozenset[str]
_PURE = ("part", "percent", "times", "into")
"""Roles of numbers that count nothing."""


_SOME: Names = frozenset({"?"})
"""What a rate is for each of, where that is not told."""


@dataclass(frozen=True, slots=True)
class Units:
    """What a value counts: the words of each factor, and of each that it is so much for each of."""

    over: tuple[Names, ...] = ()
    under: tuple[Names, ...] = ()
    unsure: bool = False
    """Whether a number is in it of which it is not told what it counts."""

    def times(self, other: Units) -> Units:
        """The units of a product."""
        over, under = [*self.over, *other.over], [*self.under, *other.under]
        for name in [*over]:
            if (same := next((u for u in under if u & name), None)) is not None:
                over.remove(name)
                under.remove(same)
        counted = [name for name in over if not name & UNITS]
        if _SOME in under and counted:
            under.remove(_SOME)
            over.remove(counted[0])
        return Units(tuple(over), tuple(under), self.unsure or other.unsure)

    def turned(self) -> Units:
        """The units of one over it."""
        return Units(self.under, self.over, self.unsure)

    def joins(self, other: Units) -> bool:
        """Whether values of both can be added."""
        if self.unsure or other.unsure:
            return True
        pairs = ((self.over, other.over), (self.under, other.under))
        return all(
            len(a) == len(b) and all(_alike(x, y) for x, y in zip(a, b, strict=True))
            for a, b in pairs
        )


def _alike(one: Names, other: Names) -> bool:
    """Whether words name one kind: the same words, or both things that are counted."""
    return bool(one & other) or not (one | other) & UNITS


def units_of(tree: Expr, held: dict[int, Amount]) -> Units | None:
    """The units of a line's value; None where what is added does not go together."""
    match tree:
        case Group(inner) | Neg(inner):
            return units_of(inner, held)
        case Op(sign, left, right):
            first, second = units_of(left, held), units_of(right, held)
            if first is None or second is None:
                return None
            if sign in "+−":
                return (first if not first.unsure else second) if first.joins(second) else None
            return first.times(second if sign == "×" else second.turned())
        case _:
            return _of(held[id(tree)]) if id(tree) in held else Units()


def _of(amount: Amount) -> Units:
    if amount.role in _PURE:
        return Units()
    names = _counted(amount)
    over = (names,) * (2 if amount.role == "area" else 1) if names else ()
    under = (amount.per or _SOME,) if amount.role == "each" else ()
    return Units(over, under, unsure=not names)


def held_in(tree: Expr, amounts: Sequence[Amount]) -> dict[int, Amount]:
    """The amounts that the numbers of a line are, by the numbers' identity."""
    found: dict[int, Amount] = {}
    free = list(amounts)
    for leaf in leaves(tree):
        worth = value(leaf)
        same = [a for a in free if a.worth == worth] or [a for a in amounts if a.worth == worth]
        if same:
            found[id(leaf)] = same[0]
            free = [a for a in free if a is not same[0]]
    return found


def speaks_against(story: Told, every: Sequence[Amount], line: str) -> bool:
    """Whether units or amounts left out speak against a line; `every` are all that are told."""
    tree = parse_expr(line)
    found = units_of(tree, held_in(tree, story.amounts))
    return found is None or _comes_out_wrong(story, found) or _leaves_out(story, every, line)


def _comes_out_wrong(story: Told, found: Units) -> bool:
    """Whether a line's value counts something else than what is asked for."""
    kinds = [
        {MEASURE_OF.get(w) for n in names for w in n} - {None}
        for names in (found.over, found.under)
    ]
    if kinds[0] & kinds[1]:
        return True  # kilograms over grams
    if any(story.head in names for names in found.under) and story.head not in story.query.per:
        return True
    if not story.head and len(found.over) == 1 and not found.under and story.asks(_HOW_LONG):
        return any(a.unit in LENGTHS for a in story.amounts) and not found.over[0] & UNITS
    if found.unsure or not story.head or len(found.over) != 1 or story.asks(_OF_ANOTHER):
        return False
    (names,) = found.over
    if story.head in names:
        return False
    if story.counts and names <= UNITS:
        return True
    if story.head in UNITS:
        return story.head == "dollar" or bool(names & UNITS)
    named = [a for a in story.amounts if story.head in a.names]
    counted = bool(named) and not any(_counted(a) & names for a in named)
    return counted and not any(a.role in (*_PURE, "more", "fewer") for a in story.amounts)


_HOW_LONG = "how (?:long|tall|far|high|wide|deep)"
_OF_ANOTHER = "fraction|percent|times as"


def _leaves_out(story: Told, every: Sequence[Amount], line: str) -> bool:
    """Whether an amount is not used that may be needed: its unit leads to what is asked for."""
    numbers = re.findall(r"[\d.,]+(?: \d+/\d+|/\d+)?", line)
    numbers += [n for number in numbers for n in re.split("[ /]", number)]
    used = [a for a in every if a.said in numbers]
    leads = {story.head, *story.query.thing, *story.query.per} - {""}
    leads |= {w for a in used for w in (*_counted(a), *a.per)}
    kinds = {MEASURE_OF.get(w) for w in leads} - {None}
    leads |= {unit for unit, kind in MEASURE_OF.items() if kind in kinds}
    return _is_for_longer(story, used) or any(
        a not in used
        and a.worth != 1
        and not _is_idle(story, a)
        and (_in_question(story, a) or (_counted(a) | a.per) & leads or _is_group(story, a))
        for a in every
    )


def _in_question(story: Told, amount: Amount) -> bool:
    """Whether the question itself tells an amount: how much in 6 weeks?"""
    return 0 <= amount.told.start - story.query.start < len(story.question)


def _is_for_longer(story: Told, used: Sequence[Amount]) -> bool:
    """Whether a rate is for one time, and it is asked for another: a day, how many in a week?"""
    asked = re.findall(
        rf"\b(?:an?|per|each|every|one|whole|entire|the) ({_SPANS})\b", story.question
    )
    told = {w for a in used for w in (*a.per, a.unit)} & set(_SPANS.split("|"))
    return bool(told and asked) and not told & set(asked)


_SPANS = "second|minute|hour|day|week|month|year"


def _counted(amount: Amount) -> Names:
    return frozenset({amount.unit}) if amount.measured else amount.names


def _is_idle(story: Told, amount: Amount) -> bool:
    """Whether an amount is another person's, or a number in words that counts what is told."""
    asked = story.query.words | story.query.than
    others = amount.told.who & story.names - asked
    return bool(others and asked & story.names) or amount.told.text[:1].isalpha()


def _is_group(story: Told, amount: Amount) -> bool:
    """Whether the story speaks of each one, or of that one, of what an amount counts."""
    return amount.head != "" and story.says(rf"(?:each|every|per|one|that) (?:of )?{amount.head}")
