"""Lists tested: numbers in order, all factors of a number, its multiples, its prime factors."""

from __future__ import annotations

import re
from collections.abc import Callable
from fractions import Fraction
from itertools import pairwise

from narrate.exact.tree import Expr, Op, Operation, Whole, Writing, value
from narrate.items.item import Choice
from narrate.reading.demands import Tested, least_factor
from narrate.reading.tested.said import (
    Asked,
    all_tested,
    expression,
    listed,
    number_of,
    plain_of,
    whole,
)

Found = tuple[bool, tuple[Writing | str, ...]] | None
_COUNTS = {"two": 2, "three": 3, "four": 4, "five": 5, "six": 6}


def ordered(asked: Asked) -> Tested | None:
    """Which list is in order from least to greatest?"""
    rising = asked["first"] in ("least", "smallest", "lowest", "shortest", "lightest")
    given = listed(asked["list"]) if asked.found.groupdict().get("list") else None
    wanted = None if given is None else sorted(map(value, given))

    def holds(choice: Choice) -> Found:
        numbers = listed(choice.text)
        if numbers is None or (wanted is not None and sorted(map(value, numbers)) != wanted):
            return None
        return all(_before(a, b, rising=rising) for a, b in pairwise(numbers)), numbers

    return all_tested(asked, "ordered", holds, ("rising" if rising else "falling",))


def _before(one: Expr, other: Expr, *, rising: bool) -> bool:
    return value(one) < value(other) if rising else value(one) > value(other)


def all_factors(asked: Asked) -> Tested | None:
    """Which list has all the factors of 12?"""
    number = whole(expression(asked["n"]))

    def holds(choice: Choice) -> Found:
        found = _wholes(choice)
        if number is None or found is None:
            return None
        factors = {n for n in range(1, number + 1) if number % n == 0}
        return set(found) == factors and len(found) == len(factors), tuple(map(Whole, found))

    return all_tested(asked, "all factors", holds, (Whole(number),)) if number else None


def multiples(asked: Asked) -> Tested | None:
    """Which list has only multiples of 6; the first four of them?"""
    number = whole(expression(asked["n"]))
    first = _COUNTS.get(asked["count"]) if asked.found.groupdict().get("count") else None

    def holds(choice: Choice) -> Found:
        found = _wholes(choice)
        if number is None or found is None or (first and len(found) != first):
            return None
        if first:
            is_so = found == tuple(number * n for n in range(1, first + 1))
            return None if not is_so and _all(found, number) else (is_so, tuple(map(Whole, found)))
        return _all(found, number), tuple(map(Whole, found))

    return all_tested(asked, "multiples", holds, (Whole(number),)) if number else None


def _all(numbers: tuple[int, ...], of: int) -> bool:
    return all(n % of == 0 for n in numbers)


def _wholes(choice: Choice) -> tuple[int, ...] | None:
    numbers = listed(choice.text)
    found = [whole(n) for n in numbers or ()]
    return None if not found or None in found else tuple(n for n in found if n is not None)


def prime_factors(asked: Asked) -> Tested | None:
    """Which is the prime factorization of 60?"""
    named = asked.found.groupdict().get("n")
    number = whole(expression(named)) if named else None
    if named and number is None:
        return None

    def holds(choice: Choice) -> Found:
        said = number_of(choice)
        factors = None if said is None else _factors(said)
        if said is None or factors is None:
            return None
        prime = all(n > 1 and n.denominator == 1 and not least_factor(n) for n in factors)
        right = number is None or value(said) == number
        return prime and right and len(factors) > 1, (said,)

    about: tuple[Writing | str, ...] = (Whole(number),) if number else ()
    return all_tested(asked, "prime factors", holds, about)


def _factors(tree: Expr) -> list[Fraction] | None:
    """The factors of a product, None where it is anything else."""
    match tree:
        case Op("×", left, right):
            both = _factors(left), _factors(right)
            return None if None in both else [n for side in both for n in side or ()]
        case Op():
            return None
        case _:
            return [value(tree)]


def digits(asked: Asked) -> Tested | None:
    """Which number has a 7 in the hundredths place; in which has the 4 a value of 400?"""
    size, digit = _place(asked)
    if size is None:
        return None

    def holds(choice: Choice) -> Found:
        said = number_of(choice)
        if said is None:
            return None
        count = value(said) // size
        return int(count) % 10 == int(digit), (said,)

    place = expression(str(size)) if size >= 1 else None
    return all_tested(asked, "digit", holds, (Whole(int(digit)), place or str(size)))


def _place(asked: Asked) -> tuple[Fraction | None, str]:
    """The place that is named, as what one of it is worth, and the digit."""
    groups = asked.found.groupdict()
    digit = groups["digit"]
    if groups.get("place"):
        return SIZES.get(groups["place"].replace("-", " ").rstrip("s")), digit
    worth = expression(groups["worth"] or "")
    size = value(worth) / int(digit) if worth is not None and int(digit) else None
    return (size if size in SIZES.values() else None), digit


_RULE = re.compile(r"(add|plus|subtract|minus|multiply by|times|divide by) (\d+)\.?", re.IGNORECASE)
_SIGNS: dict[str, Operation] = {
    "add": "+", "plus": "+", "subtract": "−", "minus": "−", "multiply by": "×", "times": "×",
    "divide by": "÷",
}  # fmt: skip


def rules(asked: Asked) -> Tested | None:
    """What is the rule for the pattern 41, 38, 35, 32?"""
    numbers = listed(asked["list"].strip(" .…,"))
    if numbers is None or len(numbers) < len("123"):
        return None

    def holds(choice: Choice) -> Found:
        said = _RULE.fullmatch(choice.text.strip())
        if said is None:
            return None
        sign, by = _SIGNS[said[1].lower()], Whole(int(said[2]))
        if sign == "÷" and not by.number:
            return None
        is_so = all(value(Op(sign, a, by)) == value(b) for a, b in pairwise(numbers))
        return is_so, (sign, by)

    return all_tested(asked, "rule", holds, numbers)


def between(asked: Asked) -> Tested | None:
    """Estimate 32 × 68. The product is between which numbers?"""
    work = expression(asked["n"])
    if work is None:
        return None

    def holds(choice: Choice) -> Found:
        ends = listed(choice.text)
        if ends is None or len(ends) != 2:
            return None
        low, high = map(value, ends)
        return (low < value(work) < high, ends) if low < high else None

    return all_tested(asked, "between", holds, (work,))


def roots(asked: Asked) -> Tested | None:
    """Between which two whole numbers is the square root of 50?"""
    number = whole(expression(asked["n"]))

    def holds(choice: Choice) -> Found:
        ends = _wholes(choice)
        if number is None or ends is None or len(ends) != 2:
            return None
        low, high = ends
        return (low * low < number < high * high, (Whole(low), Whole(high))) if low < high else None

    return all_tested(asked, "roots", holds, (Whole(number),)) if number else None


def extreme(asked: Asked) -> Tested | None:
    """Which integer is the least? Only where some are below zero: others are judged elsewhere."""
    trees = [tree for choice in asked.choices if (tree := plain_of(choice.tree)) is not None]
    units = {choice.unit for choice in asked.choices}
    amounts = list(map(value, trees))
    if len(trees) != len(asked.choices) or len(units) > 1 or min(amounts) >= 0:
        return None
    best = min(amounts) if re.fullmatch(LEAST, asked["end"]) else max(amounts)

    def holds(choice: Choice) -> Found:
        said = plain_of(choice.tree)
        return None if said is None else (value(said) == best, (said,))

    return all_tested(asked, "extreme", holds, (trees[amounts.index(best)],))


LEAST = r"(?:least|smallest|lowest|coldest)"

SIZES: dict[str, Fraction] = {
    "one": Fraction(1), "ten": Fraction(10), "hundred": Fraction(100), "thousand": Fraction(1000),
    "ten thousand": Fraction(10_000), "hundred thousand": Fraction(100_000),
    "million": Fraction(1_000_000), "tenth": Fraction(1, 10), "hundredth": Fraction(1, 100),
    "thousandth": Fraction(1, 1000),
}  # fmt: skip
Holds = Callable[[Choice], Found]
