"""What a person should look at once a part is read: most likely a slip, though it need not be one.

Nothing here is a fault: each line says what was found and what would be right if it is a slip.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from narrate.exact.caption import write
from narrate.exact.tree import Decimal, Mixed, Neg, Op, Relation, Whole, has_blank, value, walk
from narrate.items.item import Choice, Item, Part
from narrate.reading.bare import find_bare
from narrate.reading.goal import Goal
from narrate.reading.opposed import asks_for_left, asks_in_all, comes_in, goes_out
from narrate.reading.tellings import signs_of

LAST_GRADE_ABOVE_ZERO = 6
"""Fractions below zero are no matter of the grades up to this one (CCSSM 2010, 7.NS.A.1)."""

_ASKS_A_FRACTION = r"\bfractions?\b|\bmixed numbers?\b"


def doubts(item: Item, part: Part, goal: Goal) -> Iterator[str]:
    """What to look at in one part, a line each, with its place."""
    if against := _against(item, part):
        yield f"{part.at('model')}: {item.id}: {against}"
    if goal.answer < 0 and item.grade <= LAST_GRADE_ABOVE_ZERO:
        yield (
            f"{part.at('model')}: {item.id}: {write(goal.asked)} is below zero, which is rare in "
            f"grade {item.grade}; look whether the larger amount should stand first"
        )
    if part.claim is not None and goal.accepts(part.claim):
        yield (
            f"{part.at('claim')}: {item.id}: the claim {write(part.claim)} is right; "
            "look whether it is meant to be"
        )
    yield from _one_box(item, part, goal)


_ASKS_WHICH_EQUAL = r"\b(?:equal|equals|equivalent|same (?:value|amount|number)|worth the same)\b"
"""Choices of one value in two writings are meant so: which is not equal to 1/2? 50%, 0.5, 3/5."""


def same_choices(item: Item, part: Part) -> Iterator[str]:
    """Two choices that are the same, both wrong: they are struck together."""
    first: dict[object, Choice] = {}
    equal = re.search(_ASKS_WHICH_EQUAL, part.ask, re.IGNORECASE)
    for choice in part.choices:
        same: object = choice.text
        if (
            not equal
            and isinstance(choice.tree, Whole | Decimal | Neg)
            and not has_blank(choice.tree)
        ):
            same = value(choice.tree), choice.unit
        other = first.setdefault(same, choice)
        if other is not choice:
            yield (
                f"{part.at('choices')}: {item.id}: {other.letter} and {choice.letter} are the "
                f"same: {choice.text}; look whether one of them is a slip"
            )


def _one_box(item: Item, part: Part, goal: Goal) -> Iterator[str]:
    """One box for an answer that is a fraction, where the words do not ask for a fraction."""
    asks = re.search(_ASKS_A_FRACTION, part.ask, re.IGNORECASE)
    decimal = any(isinstance(node, Decimal) for node in walk(goal.asked))
    decimal = decimal or "as a decimal" in part.ask or "$" in part.ask
    if part.boxes != ("number",) or goal.answer.denominator == 1 or asks or decimal:
        return
    mixed = any(isinstance(node, Mixed) for node in walk(goal.asked))
    boxes = "whole, numerator, denominator" if mixed else "numerator, denominator"
    yield (
        f"{part.at('boxes')}: {item.id}: the answer is a fraction, and there is one box for it; "
        f"look whether pupils have `boxes: [{boxes}]`"
    )


def _against(item: Item, part: Part) -> str:
    """Words that speak for the other operation than a model's, "" where nothing speaks so."""
    model = part.model
    if model is None or isinstance(model, Relation) or find_bare(part.ask, part.claim) is not None:
        return ""
    story = f"{item.stimulus.text if item.stimulus else ''} {part.ask}"
    is_sum = isinstance(model, Op) and model.sign in "+−"
    does = {"+": "adds", "−": "takes away"}.get(signs_of(model), "") if is_sum else ""
    if does == "adds" and (word := asks_for_left(part.ask, story) or goes_out(part.ask, story)):
        other = "taking away"
    elif does == "takes away" and (word := asks_in_all(part.ask) or comes_in(part.ask, story)):
        other = "adding"
    else:
        return ""
    return (
        f"`model:` {write(model)} {does}, but “{word}” in the words speaks for {other}; "
        "look whether it is meant"
    )
