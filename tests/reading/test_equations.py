"""Equations with the blank in every place, isolated by hand."""

from __future__ import annotations

from fractions import Fraction

import pytest

from narrate.errors import Declined
from narrate.exact.caption import write
from narrate.exact.parser import parse
from narrate.exact.tree import Relation, value
from narrate.reading.equations import Isolated, isolate


def _isolated(text: str) -> Isolated:
    tree = parse(text)
    assert isinstance(tree, Relation)
    return isolate(tree)


# The equation, what its blank's term equals, the number in the blank.
WHOLE_TERM: list[tuple[str, str, str]] = [
    ("3/4 + □ = 19/20", "19/20 − 3/4", "1/5"),
    ("□ + 3/4 = 19/20", "19/20 − 3/4", "1/5"),
    ("19/20 = 3/4 + □", "19/20 − 3/4", "1/5"),
    ("19/20 = □ + 3/4", "19/20 − 3/4", "1/5"),
    ("7/8 − □ = 1/4", "7/8 − 1/4", "5/8"),
    ("1/4 = 7/8 − □", "7/8 − 1/4", "5/8"),
    ("□ − 1/4 = 5/8", "5/8 + 1/4", "7/8"),
    ("5/8 = □ − 1/4", "5/8 + 1/4", "7/8"),
    ("1/2 + □ + 1/3 = 11/12", "11/12 − 1/2 − 1/3", "1/12"),
    ("1 − 1/2 − □ = 1/6", "1 − 1/6 − 1/2", "1/3"),
    ("1 − (1/2 + □) = 1/6", "1 − 1/6 − 1/2", "1/3"),
    ("1 − (□ − 1/2) = 2/3", "1 + 1/2 − 2/3", "5/6"),
    ("2 1/2 + □ = 1/2 + 3 1/4", "1/2 + 3 1/4 − 2 1/2", "5/4"),
    ("n + 3/4 = 19/20", "19/20 − 3/4", "1/5"),
    ("1/2 + □ = 1/4", "1/4 − 1/2", "-1/4"),
]


@pytest.mark.parametrize(("equation", "expression", "answer"), WHOLE_TERM)
def test_the_blank_is_left_alone(equation: str, expression: str, answer: str) -> None:
    found = _isolated(equation)
    assert write(found.expression) == expression
    assert value(found.expression) == found.answer == Fraction(answer)
    assert (found.target, found.alone) == (None, False)


@pytest.mark.parametrize("equation", ["□ = 3/4 + 1/5", "3/4 + 1/5 = □"])
def test_a_blank_that_stands_alone(equation: str) -> None:
    found = _isolated(equation)
    assert found.alone
    assert write(found.expression) == "3/4 + 1/5"
    assert found.answer == Fraction(19, 20)


# The equation, what the fraction with the blank equals, the fraction, the number in the blank.
INSIDE: list[tuple[str, str, str, int]] = [
    ("3/4 = □/20", "3/4", "□/20", 15),
    ("□/20 = 3/4", "3/4", "□/20", 15),
    ("3/4 = 15/□", "3/4", "15/□", 20),
    ("15/□ = 3/4", "3/4", "15/□", 20),
    ("3/4 + □/20 = 19/20", "19/20 − 3/4", "□/20", 4),
    ("3/4 + 1/5 = □/20", "3/4 + 1/5", "□/20", 19),
    ("3/4 + 1/□ = 19/20", "19/20 − 3/4", "1/□", 5),
    ("19/20 − □/4 = 1/5", "19/20 − 1/5", "□/4", 3),
    ("1/2 = 1/2 + □/3", "1/2 − 1/2", "□/3", 0),
    ("2 = □/5", "2", "□/5", 10),
]


@pytest.mark.parametrize(("equation", "expression", "target", "answer"), INSIDE)
def test_a_blank_in_a_fraction(equation: str, expression: str, target: str, answer: int) -> None:
    found = _isolated(equation)
    assert found.target is not None
    assert (write(found.expression), write(found.target)) == (expression, target)
    assert found.answer == answer


@pytest.mark.parametrize(("equation", "expression", "answer"), WHOLE_TERM)
def test_the_answer_makes_the_equation_true(equation: str, expression: str, answer: str) -> None:
    """Put back in the blank, both sides are equal."""
    tree = parse(equation)
    assert isinstance(tree, Relation)
    left, right = tree.sides
    assert value(left, Fraction(answer)) == value(right, Fraction(answer))


@pytest.mark.parametrize(
    "equation",
    [
        "3/4 = □/7",  # 21/4 sevenths: no whole number fits
        "3/4 = 5/□",  # 20/3
        "1/2 − 1/2 = 3/□",  # nothing is three pieces
        "1/4 = 1/2 + □/4",  # below zero pieces
        "1/4 = 1/2 + 1/□",  # below zero pieces
        "□ + □ = 3/4",  # two blanks
        "□ = □",
        "1/2 + 1/4 = 3/4",  # none
        "2 × □ + 1 = 7",  # a product in a sum
        "0 × □ = 3",  # no number
        "3/4 + □ < 19/20",  # not an equation
        "1/2 + □ = 2/4 + 1/4 = 3/4",  # three sides
        "(□ + 1)/4 = 3/4",  # inside a longer numerator
    ],
)
def test_what_cannot_be_left_alone_is_declined(equation: str) -> None:
    with pytest.raises(Declined) as caught:
        _isolated(equation)
    assert caught.value.understood == f"I read the equation {equation}"
    assert "`model: 3/4 + □ = 19/20`" in caught.value.add


def test_the_advice_is_itself_read() -> None:
    assert _isolated("3/4 + □ = 19/20").answer == Fraction(1, 5)
