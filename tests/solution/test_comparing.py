"""Two numbers compared: the side, the line and what the way claims, over all small fractions.

Judged by `fractions` and by the digits of the numbers as Python prints them.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import combinations, pairwise
from math import gcd
from random import Random

from narrate.exact.parser import parse_expr
from narrate.exact.tree import Decimal, Expr, Frac, Mixed, Relation, Whole, value
from narrate.solution.comparing import BEHIND, PLACES, compare

HALF = Fraction(1, 2)


def is_true(line: Relation) -> bool:
    """Whether each side of a line stands to the next as its sign says."""
    amounts = [value(side) for side in line.sides]
    pairs = [*pairwise(amounts)]
    if line.sign == "<":
        return all(a < b for a, b in pairs)
    if line.sign == ">":
        return all(a > b for a, b in pairs)
    return line.sign == "=" and all(a == b for a, b in pairs)


def check(left: Expr, right: Expr) -> str:
    side, line, told = compare(left, right)
    a, b = value(left), value(right)
    assert side == ("less" if a < b else "more" if a > b else "equal")
    assert is_true(line)
    pairs = told.get("pairs", ())
    assert isinstance(pairs, tuple)
    assert all(isinstance(pair, Relation) and is_true(pair) for pair in pairs)
    how = str(told["how"])
    match how:
        case "half":
            first, second = told["first"], told["second"]
            assert isinstance(first, Frac)
            assert isinstance(second, Frac)
            for part, said in ((first, told["left_half"]), (second, told["right_half"])):
                amount = value(part)
                assert said == ("less" if amount < HALF else "more" if amount > HALF else "equal")
            assert told["left_half"] != told["right_half"]
        case "same count":
            assert isinstance(told["first"], Frac)
            assert isinstance(told["second"], Frac)
            assert told["first"].numerator == told["second"].numerator
            smaller_pieces = told["first"].denominator > told["second"].denominator
            assert smaller_pieces == (side == "less")
        case "same size":
            tops = told["left_top"], told["right_top"]
            assert isinstance(tops[0], int)
            assert isinstance(tops[1], int)
            assert (tops[0] < tops[1]) == (side == "less")
        case "one":
            assert (a >= 1) != (b >= 1)
        case "wholes":
            assert (told["left_whole"], told["right_whole"]) == (int(a), int(b))
            assert int(a) != int(b)
    return how


def test_all_fractions_up_to_twelfths() -> None:
    fractions = [Frac(top, size) for size in range(2, 13) for top in range(1, size + 5)]
    ways = {check(left, right) for left, right in combinations(fractions, 2)}
    assert ways >= {"half", "same count", "same size", "one", "common", "equal"}


def test_mixed_and_whole_numbers() -> None:
    random = Random(5)
    numbers: list[Expr] = [Whole(n) for n in range(4)]
    numbers += [
        Mixed(random.randint(1, 3), top, size)
        for size in range(2, 13)
        for top in range(1, size)
        if gcd(top, size) == 1
    ]
    numbers += [Frac(random.randint(1, 30), random.randint(2, 12)) for _ in range(40)]
    for left, right in combinations(numbers, 2):
        check(left, right)


def test_the_place_that_decides() -> None:
    """It is the first from the left in which the printed digits differ."""
    random = Random(7)
    for _ in range(2_000):
        places = random.randint(0, 4)
        texts = [
            f"{random.randint(0, 10 ** random.randint(1, 7)) / 10**places:.{places}f}"
            for _ in range(2)
        ]
        left, right = (parse_expr(text) for text in texts)
        how = check(left, right)
        if how != "place":
            continue
        assert isinstance(left, Whole | Decimal)
        told = compare(left, right)[2]
        name = str(told["place"])
        at = PLACES.index(name) if name in PLACES else -1 - BEHIND.index(name)
        for text, digit in zip(texts, (told["left_digit"], told["right_digit"]), strict=True):
            assert int(Fraction(text) / Fraction(10) ** at) % 10 == digit
        higher = [int(Fraction(text) / Fraction(10) ** (at + 1)) for text in texts]
        assert higher[0] == higher[1]
