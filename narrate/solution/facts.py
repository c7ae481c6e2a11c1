"""Facts: what has been told that rules choices out.

A fact is true of an item (`holds`) and admits a candidate or does not. A choice is struck only by a
told fact that does not admit it; so every rule here must be sound: whatever the item, a fact that
holds admits the answer. The tests try it on all pairs with denominators up to 12.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction

from narrate.errors import ExactError
from narrate.exact.caption import write
from narrate.exact.parser import parse_expr
from narrate.exact.tree import Expr, Neg, WithRest, Writing, value
from narrate.reading.demands import InTwoUnits, Judged, OnTheClock, Remainder, Tested, is_exchanged
from narrate.reading.goal import (
    Goal,
    divmod_parts,
    in_simplest_form,
    keeps_amount,
    one_size,
    pieces,
    shaped,
    signed_values,
    split_values,
)
from narrate.reading.saying import amounts, operations, says_same, work_of

Argument = Fraction | int | str


@dataclass(frozen=True, slots=True)
class FactRule:
    """How one kind of fact is judged. `is_true` judges an item, `admits` a candidate."""

    is_true: Callable[..., bool]
    admits: Callable[..., bool]


@dataclass(frozen=True, slots=True, kw_only=True)
class Fact:
    """Something told. `rests_on` names the lines already shown that it follows from."""

    name: str
    args: tuple[Argument, ...] = ()
    rests_on: tuple[str, ...] = ()

    def holds(self, inputs: Goal) -> bool:
        """Whether it is true of an item."""
        return RULES[self.name].is_true(inputs, *self.args)

    def admits(self, candidate: Writing | str) -> bool:
        """Whether the answer could still be this: a tree, or the letter of a sentence."""
        if isinstance(candidate, str) and self.name not in ("declared", "tested"):
            return True  # a sentence has no value that could be held against the work
        try:
            return RULES[self.name].admits(candidate, *self.args)
        except ExactError:
            return True


def _takes(tree: Expr) -> bool:
    """Whether a sum takes an amount away."""
    return any(sign < 0 or isinstance(term, Neg) for sign, term in pieces(tree))


def _same(tree: Expr, amounts: tuple[Fraction, ...]) -> bool:
    return signed_values(tree) == Counter(amounts) or split_values(tree) == Counter(
        part for amount in amounts for part in divmod_parts(amount) if part
    )


def _counted_in(amount: Fraction, size: int) -> bool:
    return (amount * size).denominator == 1


def _ends_in(amount: Fraction, digit: int, places: int) -> bool:
    """Whether a number of 0 or more counted in tenths, hundredths ... has this ones digit."""
    count = amount * int(f"1{'0' * places}")
    return count.denominator == 1 and count >= 0 and count.numerator % 10 == digit


def _of_work(choice: Writing, what: Callable[[Expr], tuple[str, ...]]) -> tuple[str, ...]:
    """Something of the work that a choice says, () where it says none."""
    work = work_of(choice)
    return () if work is None else what(work)


def _fails(goal: Goal, at: int, amount: Fraction) -> bool:
    """Whether a number is not as a condition of the question says."""
    demand = goal.demand
    return isinstance(demand, Judged) and not demand.conditions[at].holds(amount, demand.values)


def _stands_not(goal: Goal, letter: str) -> bool:
    """Whether a choice does not stand the test of the question."""
    return isinstance(goal.demand, Tested) and letter not in goal.demand.right


ABOUT_LINES = frozenset({"operation", "keeps", "one size", "amounts"})
"""Facts about a line of work; the others are about the answer's value and writing."""


RULES: dict[str, FactRule] = {
    # The answer is greater than a bound.
    "above": FactRule(
        lambda goal, bound: goal.answer > bound,
        lambda tree, bound: value(tree) > bound,
    ),
    # The answer is less than a bound.
    "below": FactRule(
        lambda goal, bound: goal.answer < bound,
        lambda tree, bound: value(tree) < bound,
    ),
    # The answer is a whole number of pieces of one size.
    "counted in": FactRule(
        lambda goal, size: _counted_in(goal.answer, size),
        lambda tree, size: _counted_in(value(tree), size),
    ),
    # The answer is this many pieces of this size.
    "makes": FactRule(
        lambda goal, count, size: goal.answer == Fraction(count, size),
        lambda tree, count, size: value(tree) == Fraction(count, size),
    ),
    # The work comes to this number.
    "comes to": FactRule(
        lambda goal, amount: goal.answer == amount,
        lambda tree, amount: value(tree) == amount,
    ),
    # The answer, rounded, is one of the two numbers beside the exact one.
    "neighbors": FactRule(
        lambda goal, low, high: goal.demand is not None and goal.answer in (low, high),
        lambda tree, low, high: value(tree) in (low, high),
    ),
    # A number, as it is written, that is not as one of the question's conditions says.
    "judged": FactRule(
        lambda goal, at, amount, written: _fails(goal, int(at), Fraction(amount)),
        lambda tree, at, amount, written: value(tree) != amount or write(tree) != written,
    ),
    # The remainder of a quotient is less than what was divided by.
    "rest below": FactRule(
        lambda goal, by: isinstance(goal.demand, Remainder) and goal.demand.by == by,
        lambda tree, by: not isinstance(tree, WithRest) or tree.rest < by,
    ),
    # No small units are left in the answer that make a large one.
    "exchanged": FactRule(
        lambda goal: isinstance(goal.demand, InTwoUnits | OnTheClock),
        is_exchanged,
    ),
    # The answer counts whole things.
    "whole things": FactRule(
        lambda goal: goal.answer.denominator == 1,
        lambda tree: value(tree).denominator == 1,
    ),
    # The answer's last digit, so many places behind the decimal point, and none behind it.
    "ends in": FactRule(
        lambda goal, digit, places: _ends_in(goal.answer, digit, places),
        lambda tree, digit, places: _ends_in(value(tree), digit, places),
    ),
    # The answer must be in simplest form.
    "simplest": FactRule(
        lambda goal: goal.simplest,
        in_simplest_form,
    ),
    # The answer must be written as a mixed number, or as a fraction.
    "shape": FactRule(
        lambda goal, shape: goal.shape == shape,
        shaped,
    ),
    # A line of work adds, or takes away, as the question does; a number alone does neither.
    "operation": FactRule(
        lambda goal, sign: goal.form == "first line" and _takes(goal.asked) == (sign == "−"),
        lambda tree, sign: len(pieces(tree)) == 1 or _takes(tree) == (sign == "−"),
    ),
    # A line of work still has this (signed) amount in it.
    "keeps": FactRule(
        lambda goal, amount: goal.form == "first line" and keeps_amount(goal.asked, amount),
        keeps_amount,
    ),
    # A line of work counts pieces of one size.
    "one size": FactRule(
        lambda goal: goal.form == "first line",
        one_size,
    ),
    # A line of work joins and takes away just these (signed) amounts.
    "amounts": FactRule(
        lambda goal, *amounts: goal.form == "first line" and _same(goal.asked, amounts),
        lambda tree, *amounts: _same(tree, amounts),
    ),
    # The work of the story is made of these operations.
    "does": FactRule(
        lambda goal, *signs: goal.form == "expression" and operations(goal.asked) == signs,
        lambda tree, *signs: _of_work(tree, operations) == signs,
    ),
    # The work of the story is done with these amounts (told as text, letters by name).
    "uses": FactRule(
        lambda goal, *told: goal.form == "expression" and amounts(goal.asked) == told,
        lambda tree, *told: _of_work(tree, amounts) == told,
    ),
    # The work of the story is just this, but for the order.
    "says": FactRule(
        lambda goal, work: goal.form == "expression" and write(goal.asked) == work,
        lambda tree, work: says_same(parse_expr(work), tree),
    ),
    # The choice with this letter does not stand the test of the question.
    "tested": FactRule(
        _stands_not,
        lambda candidate, letter: candidate != letter,
    ),
    # The item's own key names these letters (for choices that are sentences).
    "declared": FactRule(
        lambda goal, *letters: goal.form == "told",
        lambda letter, *letters: letter in letters,
    ),
}
