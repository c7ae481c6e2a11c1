"""What choices say, as the tests of a question take it: numbers, sums, equations, lists."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from contextlib import suppress
from dataclasses import dataclass
from fractions import Fraction

from narrate.errors import ExactError
from narrate.exact.tree import Expr, Frac, Relation, Writing, has_blank, value
from narrate.items.item import Choice
from narrate.items.spelled import spelled
from narrate.items.texts import mathematics, read_choice
from narrate.reading.demands import Offer, Tested, TestName

Offered = Sequence[Choice]
Holds = Callable[[Choice], tuple[bool, tuple[Writing | str, ...]] | None]
"""Whether a choice stands a test, and what it says; None where that is not certain."""


@dataclass(frozen=True, slots=True)
class Asked:
    """A whole question in small letters, its choices, and whether what is not so is wanted."""

    found: re.Match[str]
    choices: Offered
    negated: bool

    def __getitem__(self, name: str) -> str:
        return self.found[name] or ""


def all_tested(
    asked: Asked, name: TestName, holds: Holds, about: tuple[Writing | str, ...] = ()
) -> Tested | None:
    """The test of every choice; None where one of them cannot be tested."""
    offers = []
    for choice in asked.choices:
        found = holds(choice)
        if found is None:
            return None
        is_so, said = found
        offers.append(Offer(letter=choice.letter, holds=is_so != asked.negated, said=said))
    return Tested(name=name, offers=tuple(offers), about=about, negated=asked.negated)


def choices_of(texts: Sequence[str]) -> tuple[Choice, ...]:
    """Texts as choices; what is no number has no tree."""
    return tuple(map(_choice, (chr(ord("A") + n) for n in range(len(texts))), texts))


def _choice(letter: str, text: str) -> Choice:
    with suppress(ExactError):
        return read_choice(letter, text.strip(), keyed=False)
    return Choice(letter=letter, text=text, tree=None)


def number_of(choice: Choice) -> Expr | None:
    """The number or the work without letters that a choice says, None where it says none."""
    if choice.tree is None:
        return ratio(choice.text)
    return None if choice.unit else plain_of(choice.tree)


def ratio(text: str) -> Frac | None:
    """A ratio as the fraction that it stands for: 4:6 is 4/6."""
    found = re.fullmatch(r"(\d{1,3}) ?: ?([1-9]\d{0,2})", text.strip(" .?"))
    return Frac(int(found[1]), int(found[2])) if found else None


def plain_of(tree: Writing | None) -> Expr | None:
    """A tree without letters that has a value."""
    if tree is None or isinstance(tree, Relation) or has_blank(tree):
        return None
    with suppress(ExactError):
        value(tree)
        return tree
    return None


def written(text: str) -> Writing | None:
    """What a stretch of a question's words writes, in signs or in words."""
    plain = text.strip(" .,:;?\"'“”‘’")
    with suppress(ExactError):
        return mathematics(plain)
    return ratio(plain) or spelled(plain)


def expression(text: str) -> Expr | None:
    """The number or work without letters that a stretch of words writes."""
    return plain_of(written(text))


def listed(text: str) -> tuple[Expr, ...] | None:
    """The numbers of a list, in its order."""
    found = [expression(each) for each in re.split(r", and |, | and |; ", text.strip(" ."))]
    return None if len(found) < 2 or None in found else tuple(e for e in found if e is not None)


def whole(tree: Expr | None) -> int | None:
    """A whole number above 0, None of anything else."""
    amount = Fraction(0) if tree is None else value(tree)
    return int(amount) if amount.denominator == 1 and amount > 0 else None
