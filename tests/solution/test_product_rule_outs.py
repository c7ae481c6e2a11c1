"""Invariant 3 for products and quotients of fractions: what is told holds, and admits the answer.

The domain: all pairs of proper fractions with denominators up to 7, of whole numbers up to 5, of
fractions above one and of mixed numbers, multiplied and divided; samples of two operations.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction
from random import Random

import pytest

from narrate.exact.tree import Expr, Frac, Group, Mixed, Op, Operation, Relation, Whole, value
from narrate.lesson.solved import SolvedPart
from narrate.reading.goal import Goal
from narrate.reading.read import read
from narrate.solution import estimate, facts
from narrate.solution.facts import Fact, FactRule
from narrate.solution.slips import made_by
from narrate.solution.solve import make_task
from narrate.solution.steps import Step
from narrate.solution.task import as_numeral, mixed
from tests.solution.sums import asking, solved

LARGEST = 7

NUMBERS: list[Expr] = [
    *(Frac(top, bottom) for bottom in range(2, LARGEST + 1) for top in range(1, bottom)),
    *(Whole(number) for number in range(1, 6)),
    *(Frac(bottom + 2, bottom) for bottom in (2, 3, 5)),
    *(Mixed(whole, top, bottom) for whole in (1, 3) for top, bottom in ((1, 2), (2, 3), (3, 4))),
]
SIGNS: tuple[Operation, ...] = ("×", "÷")


def pairs(sign: Operation) -> Iterator[Op]:
    """Every pair of numbers with a fraction in it."""
    for left in NUMBERS:
        for right in NUMBERS:
            if not (isinstance(left, Whole) and isinstance(right, Whole)):
                yield Op(sign, left, right)


def chains(count: int) -> Iterator[Op]:
    """Products and quotients inside a sum, difference or product, nothing below zero."""
    random, found = Random(3), 0
    signs: tuple[Operation, ...] = ("+", "−", "×", "÷")
    while found < count:
        a, b, c = (random.choice(NUMBERS) for _ in range(3))
        inner = Op(random.choice(SIGNS), a, b)
        tree = Op(random.choice(signs), c, Group(inner))
        if random.random() < 0.5:
            tree = Op(random.choice(signs), inner, c)
        if value(tree) > 0 and not all(isinstance(n, Whole) for n in (a, b)):
            found += 1
            yield tree


def right_forms(amount: Fraction) -> list[Expr]:
    """The answer as pupils may write it: in lowest terms, unsimplified, as a mixed number."""
    found: list[Expr] = [as_numeral(amount), Frac(amount.numerator * 3, amount.denominator * 3)]
    return [*found, mixed(amount, amount.denominator)] if amount > 1 else found


def wrong_forms(tree: Op) -> list[Expr]:
    """What slips make of it, and answers that are near or far."""
    item = asking(tree)
    task = make_task(item, item.parts[0], read(item, item.parts[0]), {})
    kind_slips = solved(tree).solution.rules
    slips = [value for value in made_by(kind_slips, task).by_value if value > 0]
    near = [task.answer * Fraction(*by) for by in ((3, 2), (1, 3), (9, 10), (5, 1))]
    return [as_numeral(amount) for amount in dict.fromkeys((*slips[:6], *near))]


def unsound(goal: Goal, told: Iterable[Fact], right: Iterable[Expr]) -> list[str]:
    """Told facts that do not hold, or do not admit a form of the answer."""
    answers = [form for form in right if goal.accepts(form)]
    assert answers, goal
    return [
        f"{fact} of {goal}"
        for fact in told
        if not fact.holds(goal) or not all(fact.admits(form) for form in answers)
    ]


def told(steps: Iterable[Step | None]) -> list[Fact]:
    """The facts of steps."""
    return [fact for step in steps if step is not None for fact in step.facts]


def struck_badly(part: SolvedPart) -> Iterator[str]:
    """Choices struck without reason, or wrong ones that stay."""
    struck = {rule_out.letter: rule_out for rule_out in part.solution.rule_outs}
    for choice in part.part.choices:
        rule_out = struck.get(choice.letter)
        assert choice.tree is not None
        assert not isinstance(choice.tree, Relation)
        if (rule_out is None) != part.reading.goal.accepts(choice.tree):
            yield f"{choice.text} of {part.reading.expression}"
        if rule_out and rule_out.fact not in told(part.solution.steps[: rule_out.step + 1]):
            yield f"{choice.text}: {rule_out.fact} is not told by then"
        if rule_out and rule_out.fact.admits(choice.tree):
            yield f"{choice.text}: {rule_out.fact} admits it"


def test_the_domain_is_whole() -> None:
    """21 proper fractions, 5 whole numbers, 3 fractions above one, 6 mixed: 35² less 5² pairs."""
    assert len(list(pairs("×"))) == 35 * 35 - 5 * 5


@pytest.mark.parametrize("sign", SIGNS)
@pytest.mark.parametrize("share", range(2))
def test_facts_of_one_operation_are_sound_and_strike_only_wrong_choices(
    sign: Operation, share: int
) -> None:
    for tree in list(pairs(sign))[share::2]:
        right = right_forms(value(tree))
        part = solved(tree, choices=[right[0], *wrong_forms(tree)])
        assert unsound(part.reading.goal, told(part.solution.steps), right) == []
        assert list(struck_badly(part)) == []


def test_facts_of_two_operations_are_sound_and_strike_only_wrong_choices() -> None:
    for tree in chains(500):
        right = right_forms(value(tree))
        part = solved(tree, choices=[right[0], *wrong_forms(tree)])
        assert unsound(part.reading.goal, told(part.solution.steps), right) == []
        assert list(struck_badly(part)) == []


def test_facts_about_simplest_form_are_sound() -> None:
    for tree in [*pairs("×"), *pairs("÷")][::4]:
        right = right_forms(value(tree))
        part = solved(tree, choices=[right[0], *wrong_forms(tree)[:3]], simplest=True)
        assert unsound(part.reading.goal, told(part.solution.steps), right) == []
        assert list(struck_badly(part)) == []


@pytest.mark.parametrize("sign", SIGNS)
def test_every_estimate_is_sound_whether_it_is_used_or_not(sign: Operation) -> None:
    """Estimates are told only where they decide something; each must be true everywhere."""
    found = 0
    for tree in pairs(sign):
        item = asking(tree)
        reading = read(item, item.parts[0])
        task = make_task(item, item.parts[0], reading, {})
        facts_told = told(make(task) for make in estimate._OF_PRODUCTS)
        found += len(facts_told)
        assert unsound(reading.goal, facts_told, right_forms(value(tree))) == []
    assert found > len(list(pairs(sign)))


def test_a_third_of_the_wrong_choices_go_before_the_answer_is_known() -> None:
    """Bounds that never struck would be sound as well."""
    early = wrong = 0
    for tree in [*pairs("×"), *pairs("÷")][::4]:
        part = solved(tree, choices=[right_forms(value(tree))[0], *wrong_forms(tree)])
        for rule_out in part.solution.rule_outs:
            wrong += 1
            early += rule_out.fact.name in ("above", "below")
    assert wrong > 2000
    assert early * 3 >= wrong


# -- the checker checks

_BIGGER = FactRule(lambda goal, bound: True, lambda tree, bound: value(tree) >= bound)
_SMALLER = FactRule(lambda goal, bound: True, lambda tree, bound: value(tree) <= bound)


@pytest.mark.parametrize(
    ("sign", "rule"),
    [("×", _BIGGER), ("÷", _SMALLER)],
    ids=["multiplying makes bigger", "dividing makes smaller"],
)
def test_a_planted_unsound_fact_is_caught(
    sign: Operation, rule: FactRule, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Rules that hold of whole numbers only (Karp, Bush & Dougherty 2014, from memory)."""
    monkeypatch.setitem(facts.RULES, "planted", rule)
    caught = 0
    for tree in pairs(sign):
        goal = Goal(form="value", asked=tree, answer=value(tree))
        planted = Fact(name="planted", args=(value(tree.left),))
        caught += bool(unsound(goal, [planted], right_forms(value(tree))))
    assert caught == sum(value(tree.right) < 1 for tree in pairs(sign))


def test_a_planted_bound_on_the_wrong_side_is_caught() -> None:
    part = solved(Op("×", Frac(2, 3), Frac(4, 5)))
    planted = Fact(name="above", args=(Fraction(4, 5),))
    assert len(unsound(part.reading.goal, [planted], [Frac(8, 15)])) == 1
