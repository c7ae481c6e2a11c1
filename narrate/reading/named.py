"""Numbers that are asked for by name: the median, the greatest common factor, a digit's value.

The questions are those of `words/number_facts`, as far as a lesson works them out in steps.
"""

from __future__ import annotations

import re
from contextlib import suppress
from fractions import Fraction

from narrate.errors import ExactError
from narrate.exact.parser import parse_expr
from narrate.exact.tree import Decimal, Expr, Frac, Mixed, Neg, Op, Whole, value, walk
from narrate.items.item import Item, Part
from narrate.reading.demands import Named, Ruled
from narrate.reading.goal import Goal
from narrate.reading.reading import Reading
from narrate.reading.tellings import SIMPLEST, tellings, unknown_of
from narrate.reading.words.by_name import READERS
from narrate.reading.words.last_question import last_question
from narrate.reading.words.number_facts import named_number, ruled_number
from narrate.reading.words.parts import in_digits, words_of
from narrate.reading.words.plain import SHORT
from narrate.reading.words.unfinished import as_question


def named_reading(item: Item, part: Part) -> Reading | None:
    """A part that asks for a number by its name, None where it asks for none."""
    text = words_of(item, part)
    if part.claim is not None or part.model is not None or len(text) > SHORT:
        return None
    asked = as_question(text)
    if (by_rule := ruled_number(asked)) is not None:
        return _ruled(item, part, *by_rule)
    for reader in READERS:
        if (by_name := reader(text)) is not None:
            name, worth, numbers = by_name
            return reading_of(item, part, worth, Named(name=name, of=numbers))
    found = named_number(asked) or named_number(last_question(text))
    if found is None:
        return None
    name, worth, said = found
    numbers, words = _numbers(said), [each for each in said if not re.search(r"\d", each)]
    if not numbers:
        return None
    place = words[0].replace("-", " ").strip() if words else ""
    return reading_of(item, part, worth, Named(name=name, of=numbers, place=place))


def _ruled(item: Item, part: Part, rule: str, expression: Expr) -> Reading:
    """The reading of a part whose answer follows by a rule, which says what to work out."""
    amounts = [node for node in walk(expression) if isinstance(node, Op | Decimal)]
    fractions = any(isinstance(node, Frac | Mixed) for node in walk(expression))
    parted = any(value(tree).denominator != 1 for tree in amounts)
    return Reading(
        goal=Goal(
            form="value", asked=expression, answer=value(expression), demand=Ruled(rule=rule)
        ),
        expression=expression,
        equation=None,
        target=None,
        situation="bare",
        unknown=unknown_of(item, part),
        tellings=tuple(tellings(item, part, expression, "bare")),
        unit=part.unit,
        decimals=parted and not fractions,
    )


def reading_of(item: Item, part: Part, worth: Fraction | Expr, demand: Named) -> Reading:
    """The reading of a part whose answer is a number found by name, not by an expression."""
    answer = parse_expr(in_digits(worth)) if isinstance(worth, Fraction) else worth
    goal = Goal(
        form="value",
        asked=answer,
        answer=value(answer),
        simplest=part.simplest or bool(re.search(SIMPLEST, part.ask, re.IGNORECASE)),
        demand=demand,
    )
    return Reading(
        goal=goal,
        expression=answer,
        equation=None,
        target=None,
        situation="bare",
        unknown=unknown_of(item, part),
        tellings=tuple(tellings(item, part, answer, "bare")),
        unit=part.unit,
        decimals=isinstance(answer, Decimal),
        money=demand.name == "amount of money",
    )


def _numbers(said: tuple[str, ...]) -> tuple[Expr, ...]:
    """The numbers that the question names, as they are written."""
    found = []
    for each in said:
        texts = re.split(r",? and |, ", each)
        if re.search(r"[a-z]{2}", each):
            texts = re.findall(r"\d[\d,]*(?:\.\d+)?", each)
        for text in texts:
            with suppress(ExactError):
                found.append(parse_expr(text.replace("$", "").strip(" ,")))
    return tuple(tree for tree in found if isinstance(tree, Whole | Decimal | Frac | Neg))
