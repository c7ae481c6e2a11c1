"""Why an operation of several comes now: the relation of a story, brackets, or the order."""

from __future__ import annotations

import re

from narrate.exact.tree import Decimal, Expr, Frac, Group, Op, Whole, value, walk
from narrate.lesson import known_forms
from narrate.lesson.solved import SolvedPart
from narrate.reading.words.parts import words_of
from narrate.solution.steps import Step

_THEN = ("take from", "add to", "put together", "difference", "group size", "equal groups", "mean")
"""Situations whose last step of several has words of its own."""


BY_TIMES = ("times as many", "times fewer")


_EARNED = (
    r"\b(?:earn|save|raise|win|won|collect|donate|give|gave|get paid|receive|make)(?:s|d|ed)?\b"
)


_COSTS = (
    r"\b(?:costs?|prices?|buys?|bought|paid|pays?|purchase[sd]?|order(?:s|ed)?|rent(?:s|ed)?)\b"
)


_GIVEN = r"\bto each of\b|\beach of (?:his|her|their|the) \d+\b|\bper hour\b|\ban hour\b"


def operations_of(expression: Expr) -> int:
    """How many operations are in an expression."""
    return sum(isinstance(node, Op) for node in walk(expression))


def reason(step: Step, solved: SolvedPart) -> str:
    """Why an operation comes now: the relation, brackets, or the order; "" for a single one."""
    if step.details.get("role") or operations_of(solved.reading.expression) < 2:
        return ""
    first, last = step.details["first"], step.details["last"]
    situation = str(step.details["situation"])
    if not solved.reading.story:
        if own := _of_form(step, solved):
            return own
        return "then" if not first else str(step.details["order"]) or "in order"
    if own := _of_form(step, solved):
        return own
    if last:
        told = situation in (*_THEN, "perimeter") and not is_age(solved)
        return f"then {situation}" if told else "then"
    if first and (own := _first_of(step, solved)):
        return own
    if situation in BY_TIMES and _by_a_part(step):
        situation = ""  # so many times as much is not more
    if situation:
        return situation
    return "hidden" if first else "then"


def _of_form(step: Step, solved: SolvedPart) -> str:
    """Why a step comes in a story of a form that has words for each of its steps; "" elsewhere."""
    form = known_forms.form_of(solved)
    sign = str(step.details["sign"])
    first, last = step.details["first"], step.details["last"]
    if form and form.asked == "change" and not last and sign in "+×":
        return "to pay"
    if _is_by_age(step, solved):
        return "other age"
    match form.set_up if form else "":
        case "square back":
            return "single side" if first else "side by side" if last else ""
        case "by comparing" if sign in "+−":
            return "compared"
        case "volume":
            return "layer" if first else "layers" if last else ""
        case "rate" if sign == "÷":
            return "for one"
    return ""


def _is_by_age(step: Step, solved: SolvedPart) -> bool:
    """Whether a first step goes to another age by so many years older or younger."""
    years = step.details.get("right")
    if not step.details["first"] or not isinstance(years, Whole) or not is_age(solved):
        return False
    told = rf"\b{years.number} years? (?:older|younger) than\b"
    return re.search(told, words_of(solved.item, solved.part)) is not None


def _by_a_part(step: Step) -> bool:
    """Whether one side of an operation is less than 1."""
    sides = (step.details.get("left"), step.details.get("right"))
    return any(isinstance(side, Frac | Decimal) and value(side) < 1 for side in sides)


def _first_of(step: Step, solved: SolvedPart) -> str:
    """Why a first step comes in a story whose first step is always of one sort; "" elsewhere."""
    if step.details["sign"] == "×" and known_forms.is_with_percent(solved):
        return "percent"
    match solved.reading.situation:
        case "perimeter":
            return "half around" if step.details["sign"] == "+" else ""
        case "mean":
            return "level out" if step.details["sign"] == "+" else ""
        case "of both" if is_by_times(solved):
            counts = step.details["sign"] == "+" and not _by_a_part(step)
            return "equal parts" if counts else ""
        case "of both":
            return "made equal" if str(step.details["sign"]) in "+−" else ""
    return ""


def is_by_times(solved: SolvedPart) -> bool:
    """Whether the total is divided by so many times and the one: 48 ÷ (3 + 1)."""
    return any(
        isinstance(node, Op) and node.sign == "÷" and isinstance(node.right, Group)
        for node in walk(solved.reading.expression)
    )


def compares_ages(solved: SolvedPart) -> bool:
    """Whether an age is told by another as well: 3 years older, and 5 years later."""
    told = re.search(r"\b(?:older|younger) than\b", words_of(solved.item, solved.part))
    return told is not None and operations_of(solved.reading.expression) > 1


def is_age(solved: SolvedPart) -> bool:
    """Whether the question asks how old someone is."""
    return re.search(r"\bhow old\b", solved.reading.unknown.question, re.IGNORECASE) is not None


def is_price(solved: SolvedPart) -> bool:
    """Whether money is what things cost, not what someone earns, saves or is given."""
    return re.search(_EARNED, words_of(solved.item, solved.part), re.IGNORECASE) is None


def costs(solved: SolvedPart) -> bool:
    """Whether what is counted in groups is bought: 3 brothers who are given $5 each do not cost."""
    words = words_of(solved.item, solved.part)
    bought = re.search(_COSTS, words, re.IGNORECASE) is not None
    return bought and is_price(solved) and re.search(_GIVEN, words, re.IGNORECASE) is None
