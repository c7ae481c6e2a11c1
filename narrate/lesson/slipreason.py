"""What stands beside a strike where a slip makes the choice: what went wrong, in a few words.

The fact that strikes the choice stays its sound ground, and is what is said aloud.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from typing import Any

from narrate.exact.tree import Expr, Frac, Mixed, Op, Relation, Whole, value, walk
from narrate.lesson import number_moments
from narrate.lesson.slipwords import went_wrong
from narrate.solution.steps import RuleOut, Solution
from narrate.solution.task import Task

_SAYS_LESS = frozenset({"above", "below", "counted in", "keeps", "amounts", "neighbors"})
"""Facts that say of a choice that it's wrong, and not what went wrong."""

_ONE_LEFT_OUT = frozenset({"stopped early", "amount left out", "number left out"})
"""Slips that are told by the amount that they leave out."""

ONE_NEW_TEN = "one new ten"
"""The name of the words for new tens that are dropped where there is just one."""


def about(
    tree: Expr, solution: Solution, rule_out: RuleOut, found: dict[str, Any], language: str
) -> dict[str, Any] | None:
    """What the words of a slip name; None where the fact's own words say as much.

    `found` are the details of the fact.
    """
    slip = rule_out.slip
    if slip == "product without regrouping" and _new_tens(solution) == 1:
        slip = ONE_NEW_TEN
    did = went_wrong(slip, language)
    if not did or not _says_more(rule_out.fact.name, found):
        return None
    if found["is_work"] and not _has_numerators(tree, solution.task):
        return None
    other = number_moments.other_operation(solution, tree)
    if rule_out.slip == "other operation":
        task = solution.task
        other = {"other": "−" if task.adds_only else "+" if task.takes_only else "", "sign": ""}
    return {
        "did": did,
        "slip": rule_out.slip,
        "left": _left_out(tree, solution.task) if rule_out.slip in _ONE_LEFT_OUT else "",
        **other,
    }


def _says_more(fact: str, found: dict[str, Any]) -> bool:
    """Whether what went wrong says more of a choice than a fact does."""
    match fact:
        case "comes to" | "makes":
            return not found["is_work"]  # else the words say what it makes
        case "keeps" | "amounts":
            return not found["ends"]
    return fact in _SAYS_LESS


def _has_numerators(tree: Expr, task: Task) -> bool:
    """Whether the task's own numerators stand in an expression: by value alone, it may have come
    about in another way."""
    wanted = Counter(term.fraction.numerator for term in task.terms if term.fraction)
    return bool(wanted) and not wanted - Counter(_counts(tree))


def _counts(tree: Expr) -> Iterator[int]:
    for node in walk(tree):
        match node:
            case Whole(number):
                yield number
            case Frac(top, _) | Mixed(_, top, _):
                yield top


def _left_out(tree: Expr, task: Task) -> Expr | str:
    """The amount without which the work comes to a wrong number."""
    for term in reversed(task.terms):
        if task.answer - term.signed == value(tree):
            return term.numeral
    return ""


def _new_tens(solution: Solution) -> int:
    """How many tens the ones make where a single digit multiplies tens and ones; 0 elsewhere."""
    lines = [step.line for step in solution.steps if step.move == "work"]
    for line in lines:
        match line.sides[0] if isinstance(line, Relation) else None:
            case Op("×", Whole(left), Whole(right)) if min(left, right) < 10 <= max(left, right):
                return (left % 10) * (right % 10) // 10 if max(left, right) < 100 else 0
    return 0
