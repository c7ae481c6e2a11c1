"""Invariant 3 for whole numbers and decimals: what is told holds, and admits the answer.

The domain: all pairs of whole numbers up to 40 for each operation, where the answer is one that is
written; the same pairs with a decimal point moved; and pairs with a remainder, read in each way.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

import pytest

from narrate.exact.tree import Decimal, Expr, Op, Operation, Whole, value
from narrate.kinds import decimals_and_whole_numbers as arithmetic
from narrate.reading.goal import Goal
from narrate.reading.reading import Rounding
from narrate.solution import facts
from narrate.solution.estimate import estimates
from narrate.solution.facts import Fact, FactRule
from narrate.solution.task import Task, as_decimal, as_expr, sum_terms

LARGEST = 40
SIGNS: tuple[Operation, ...] = ("+", "−", "×", "÷")
ROUNDINGS: tuple[Rounding, ...] = ("up", "down", "remainder")


def tasks(sign: Operation, places: tuple[int, int] = (0, 0)) -> Iterator[Task]:
    """Every pair with an operation, each number counted in pieces of its places."""
    for a in range(1, LARGEST + 1):
        for b in range(1, LARGEST + 1):
            left, right = (_numeral(n, p) for n, p in zip((a, b), places, strict=True))
            expression = Op(sign, left, right)
            decimals = any(isinstance(n, Decimal) for n in (left, right))
            yield Task(expression=expression, terms=sum_terms(expression) or (), decimals=decimals)


def _numeral(count: int, places: int) -> Expr:
    return as_decimal(Fraction(count, 10**places), places) or Whole(count)


def told(task: Task, wrong: list[Expr]) -> list[Fact]:
    """All facts that are told of a task that is solved."""
    steps = (*estimates(task, wrong), *arithmetic.solve(task).steps)
    return [fact for step in steps for fact in step.facts]


def faults(task: Task) -> list[str]:
    """What is wrong with told facts: one that does not hold, or does not admit the answer."""
    goal = Goal(form="value", asked=task.expression, answer=task.answer)
    right = arithmetic.solve(task).result
    wrong = [as_expr(task.answer + change) for change in (1, 10, 1000) if task.answer >= 0]
    return [
        f"{fact} of {task.expression}"
        for fact in told(task, wrong)
        if not fact.holds(goal) or not fact.admits(right)
    ]


@pytest.mark.parametrize("places", [(0, 0), (1, 0), (0, 1), (1, 2), (2, 1), (1, 1)])
@pytest.mark.parametrize("sign", SIGNS)
def test_facts_of_one_operation_are_sound(sign: Operation, places: tuple[int, int]) -> None:
    tried = 0
    for task in tasks(sign, places):
        if arithmetic.recognise(task):
            tried += 1
            assert faults(task) == []
    assert tried >= LARGEST


@pytest.mark.parametrize("rounding", ROUNDINGS)
def test_facts_of_a_remainder_are_sound(rounding: Rounding) -> None:
    for plain in tasks("÷"):
        task = Task(expression=plain.expression, terms=(), rounding=rounding)
        assert arithmetic.recognise(task)
        assert faults(task) == []


def test_bounds_and_last_digits_strike_many_wrong_choices() -> None:
    """An estimate that never struck would be sound as well."""
    struck = sum(
        any(fact.name == name for fact in told(task, [as_expr(task.answer * 10 + 1)]))
        for task in tasks("×")
        for name in ("below", "ends in")
    )
    assert struck > LARGEST * LARGEST // 2


@pytest.mark.parametrize(
    ("name", "rule", "args"),
    [
        # The ones digit of a product taken for that of the sum of the ones.
        ("ends in", None, lambda op: (int(value(op.left) + value(op.right)) % 10, 0)),
        # Rounded down and taken for an upper bound.
        ("below", None, lambda op: (value(op.left) // 10 * 10 * value(op.right),)),
        # Multiplying always makes it larger.
        ("larger", FactRule(lambda goal, n: True, lambda tree, n: value(tree) > n),
         lambda op: (max(value(op.left), value(op.right)),)),
    ],
)  # fmt: skip
def test_a_planted_unsound_fact_is_caught(
    name: str, rule: FactRule | None, args: object, monkeypatch: pytest.MonkeyPatch
) -> None:
    if rule:
        monkeypatch.setitem(facts.RULES, name, rule)
    assert callable(args)
    caught = 0
    for task in tasks("×", (0, 1)) if rule else tasks("×"):
        goal = Goal(form="value", asked=task.expression, answer=task.answer)
        fact = Fact(name=name, args=args(task.expression))
        caught += not (fact.holds(goal) and fact.admits(arithmetic.solve(task).result))
    assert caught > LARGEST
