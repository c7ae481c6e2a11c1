"""A question whose choices are tested one by one, read only where one of them is right."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from functools import cache

from narrate.errors import Declined, ExactError
from narrate.exact.tree import (
    Decimal,
    Frac,
    Mixed,
    Neg,
    Relation,
    Whole,
    Writing,
    has_blank,
    value,
)
from narrate.items.item import Choice, Item, Part
from narrate.items.texts import PERCENT, of_one
from narrate.reading.demands import Tested
from narrate.reading.goal import Goal
from narrate.reading.reading import Reading
from narrate.reading.tellings import stimulus_of, tellings, unknown_of
from narrate.reading.tested.rows import ROWS, Row
from narrate.reading.tested.said import Asked, choices_of
from narrate.reading.words.last_question import last_question
from narrate.reading.words.plain import may_be, words_said

_MOST = 300
_NOT = "(?P<not{}>not |never )?"
_ALIKE = str.maketrans({"–": "−", "’": "'", "‘": "'", "“": '"', "”": '"', "⁄": "/"})


@cache
def _compiled(row: Row) -> re.Pattern[str]:
    """A row's pattern, each place where it may deny with a name of its own."""
    parts = row.question.split("{NOT}")
    made = (f"{_NOT.format(n)}{part}" for n, part in enumerate(parts[1:]))
    return re.compile("".join((parts[0], *made)))


def tested_by(ask: str, choices: Sequence[Choice]) -> Tested | None:
    """The test of each choice, None where the question asks for none.

    Raises Declined where no choice, or more than one, is right.
    """
    if len(ask) > _MOST or len(choices) < 2:
        return None
    said = _small(last_question(ask))
    plain = tuple(of_one(c) if c.unit == PERCENT else c for c in choices)
    words = words_said(said)
    for row in ROWS:
        if not may_be(row.question.replace("{NOT}", ""), words):
            continue
        if (found := _compiled(row).fullmatch(said)) is None:
            continue
        denied = any(said for name, said in found.groupdict().items() if name.startswith("not"))
        asked = Asked(found, plain, denied)
        if (test := row.test(asked)) is not None:
            _refuse_unsettled(test)
            return test
    return None


def _small(ask: str) -> str:
    """A question in small letters, its signs made alike, without the mark at its end."""
    said = " ".join(ask.translate(_ALIKE).split()).lower()
    said = re.sub(r"\b(can)not\b", r"\1 not", said)
    said = re.sub(r",? (?:except|but not):?$", "", said) if "all of the following" in said else said
    return said.rstrip(" ?.:")


def _refuse_unsettled(test: Tested) -> None:
    right = test.right
    if len(right) != 1:
        named = " and ".join(right) or "none"
        raise Declined(
            f"I read which choice stands the test of the question, and {named} would be right",
            "correct the choices, or say it in other words",
        )


def tested_value(ask: str, choices: Sequence[str]) -> Fraction | None:
    """The number of the right choice where choices are numbers; None where none is asked so."""
    offered = choices_of(choices)
    if not all(_is_number(choice) for choice in offered):
        return None
    test = tested_by(ask, offered)
    if test is None:
        return None
    tree = next(c.tree for c in offered if c.letter in test.right)
    return _value(tree)


def _is_number(choice: Choice) -> bool:
    """Whether a choice is a number in digits, and no work."""
    tree = choice.tree.inner if isinstance(choice.tree, Neg) else choice.tree
    return isinstance(tree, Whole | Decimal | Frac | Mixed) and bool(re.search(r"\d", choice.text))


def _value(tree: Writing | None) -> Fraction | None:
    if tree is None or isinstance(tree, Relation) or has_blank(tree):
        return None
    try:
        return value(tree)
    except ExactError:
        return None


def tested_reading(item: Item, part: Part) -> Reading | None:
    """A part whose choices are tested one by one, None where they are not."""
    if part.claim is not None or part.model is not None or stimulus_of(item) or part.select_all:
        return None
    test = tested_by(part.ask, part.choices)
    if test is None:
        return None
    right = next(c for c in part.choices if c.letter in test.right)
    shown = right.tree if right.tree is not None and _value(right.tree) is not None else Whole(0)
    assert not isinstance(shown, Relation)
    goal = Goal(form="tested", asked=shown, answer=value(shown), demand=test)
    return Reading(
        goal=goal,
        expression=shown,
        equation=None,
        target=None,
        situation="bare",
        unknown=unknown_of(item, part),
        tellings=tuple(tellings(item, replace(part, choices=()), shown, "bare")),
        unit=part.unit,
    )
