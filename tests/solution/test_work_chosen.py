"""Facts about the work of a story: whatever the work, they admit every choice that says it."""

from __future__ import annotations

from fractions import Fraction
from itertools import permutations, product

from narrate.exact.parser import parse_expr
from narrate.exact.tree import Expr
from narrate.reading.goal import Goal
from narrate.reading.saying import amounts, operations, says_same
from narrate.solution.facts import Fact
from narrate.solution.work_chosen import facts_of

SIGNS = "+−×÷"
NUMBERS = ("2", "3", "12", "n")


def _works() -> list[Expr]:
    """Work of one and of two operations on some of four amounts, brackets on either side."""
    two = [f"{a} {s} {b}" for a, b in permutations(NUMBERS, 2) for s in SIGNS]
    forms = ("({0} {3} {1}) {4} {2}", "{0} {3} ({1} {4} {2})", "{0} {3} {1} {4} {2}")
    three = [
        form.format(*numbers, first, second)
        for form in forms
        for numbers in permutations(NUMBERS[:3], 3)
        for first, second in product(SIGNS, repeat=2)
    ]
    return [parse_expr(text) for text in (*two, *three)]


def _goal(asked: Expr) -> Goal:
    return Goal(form="expression", asked=asked, answer=Fraction(0))


def test_every_fact_holds_and_admits_just_what_says_the_same() -> None:
    works = _works()
    for asked in works[:: len(SIGNS) + 1]:
        facts = facts_of(asked)
        assert all(fact.holds(_goal(asked)) for fact in facts)
        for choice in works:
            admitted = all(fact.admits(choice) for fact in facts)
            assert admitted == says_same(asked, choice), (asked, choice)


def test_an_unsound_fact_would_be_found() -> None:
    asked = parse_expr("20 − 6")
    adds = Fact(name="does", args=("+",))
    assert not adds.holds(_goal(asked))
    assert not adds.admits(asked)


def test_what_the_work_does_and_with_what() -> None:
    tree = parse_expr("3 × 8 − n")
    assert operations(tree) == ("−", "×")
    assert amounts(tree) == ("3", "8", "n")
