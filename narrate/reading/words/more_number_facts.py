"""More whole questions about numbers: place value, powers, patterns, percents, solids, unknowns.

Rows as in `number_facts`, each a whole question; a row says None where its answer is not certain.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise
from math import isqrt

from narrate.exact.parser import parse_expr
from narrate.exact.tree import Expr, Op, Operation, value
from narrate.reading.words.lexicon import UNITS, one
from narrate.reading.words.plain import word_set
from narrate.reading.words.whole_questions import number

_TENS = {
    "one": 0, "ten": 1, "hundred": 2, "thousand": 3, "ten thousand": 4, "hundred thousand": 5,
    "million": 6, "tenth": -1, "hundredth": -2, "thousandth": -3,
}  # fmt: skip
_POWERS = {
    "second": 2, "third": 3, "fourth": 4, "fifth": 5, "sixth": 6, "squared": 2, "cubed": 3,
}  # fmt: skip
SIDES = {
    "triangle": 3, "quadrilateral": 4, "trapezoid": 4, "rhombus": 4, "parallelogram": 4,
    "rectangle": 4, "pentagon": 5, "hexagon": 6, "heptagon": 7, "octagon": 8, "nonagon": 9,
    "decagon": 10,
}  # fmt: skip
"""Sides, and as many corners and angles, of plane figures by name."""

_SOLID = word_set(
    "a an that is are with the its length width height depth side sides edge edges of and by long "
    "wide high tall deep whose dimensions dimension has have measure measures measuring in on "
    "each"
)


def _digits(told: str) -> dict[int, str]:
    """The digits of a number by the power of ten of their places."""
    whole, _, part = told.replace(",", "").partition(".")
    places = {len(whole) - 1 - at: digit for at, digit in enumerate(whole)}
    return places | {-1 - at: digit for at, digit in enumerate(part)}


def value_of_digit(digit: str, told: str) -> Fraction | None:
    """What a digit is worth in a number, where it stands there just once."""
    found = [place for place, other in _digits(told).items() if other == digit]
    return int(digit) * Fraction(10) ** found[0] if len(found) == 1 else None


def digit_at(place: str, told: str) -> Fraction | None:
    """The digit in a place that a number has."""
    power = _TENS.get(one(place.strip()) if " " not in place else place.strip().removesuffix("s"))
    digit = None if power is None else _digits(told).get(power)
    return None if digit is None else Fraction(digit)


def power(base: str, name: str) -> Fraction | Expr:
    """A number to the power that a word names: a product where it is a plain number."""
    times = _POWERS[name.lower()]
    if re.fullmatch(r"\d+(?:\.\d+)?", base):
        return parse_expr(" × ".join([base] * times))
    return number(base) ** times


def square_root(of: Fraction) -> Fraction | None:
    """The root of a square of a whole number or fraction, None of any other."""
    if of < 0:
        return None
    root = Fraction(isqrt(of.numerator), isqrt(of.denominator))
    return root if root * root == of else None


def next_in(numbers: list[Fraction]) -> Fraction | None:
    """The next number of a pattern by the one rule it goes on by; None where rules disagree.

    One difference or one factor; so many times the last and some more; differences that grow by one
    amount; the sum of the last two.
    """
    least = 3
    if len(numbers) < least:
        return None
    found = {rule(numbers) for rule in (_by_step, _by_factor)} - {None}
    if not found:
        found = {rule(numbers) for rule in (_times_and_more, _by_growing_step, _last_two)} - {None}
    return found.pop() if len(found) == 1 else None


def next_work(numbers: list[Fraction]) -> tuple[str, Expr] | None:
    """The rule by which a pattern of whole numbers goes on, where it is no one step or factor, and
    the work that makes its next number: 19 × 2 + 1."""
    following = next_in(numbers)
    if following is None or any(n.denominator != 1 or n < 0 for n in (*numbers, following)):
        return None
    if following in (_by_step(numbers), _by_factor(numbers)):
        return None
    (first, second, third, *_), (before, last) = numbers, numbers[-2:]
    if _times_and_more(numbers) == following:
        times = (third - second) / (second - first)
        more = following - times * last
        rest = f" {'+' if more > 0 else '−'} {abs(more)}" if more else ""
        return "times and more", parse_expr(f"{last} × {times}{rest}")
    if _by_growing_step(numbers) == following:
        step = following - last
        return "growing steps", parse_expr(f"{last} {'+' if step > 0 else '−'} {abs(step)}")
    return "last two", parse_expr(f"{before} + {last}")


def worked_next(numbers: list[Fraction]) -> Fraction | Expr | None:
    """The next number of a pattern, as one step more where it goes by one step: 25 + 6."""
    following = next_in(numbers)
    whole = all(n.denominator == 1 and n >= 0 for n in numbers)
    if following is None or not whole or following < 0:
        return following
    step = following - numbers[-1]
    if _by_step(numbers) == following and step:
        return parse_expr(f"{numbers[-1]} {'+' if step > 0 else '−'} {abs(step)}")
    if _by_factor(numbers) == following:
        times = following / numbers[-1]
        if times.denominator == 1:
            return parse_expr(f"{numbers[-1]} × {times}")
        if times.numerator == 1:
            return parse_expr(f"{numbers[-1]} ÷ {times.denominator}")
    return following


def _by_step(numbers: list[Fraction]) -> Fraction | None:
    steps = {b - a for a, b in pairwise(numbers)}
    return numbers[-1] + steps.pop() if len(steps) == 1 else None


def _by_factor(numbers: list[Fraction]) -> Fraction | None:
    factors = {b / a for a, b in pairwise(numbers)} if all(numbers) else set()
    return numbers[-1] * factors.pop() if len(factors) == 1 else None


def _times_and_more(numbers: list[Fraction]) -> Fraction | None:
    """3, 7, 15, 31: twice the last and 1; of four numbers or more."""
    first, second, third, *rest = numbers
    if not rest or first == second:
        return None
    times = (third - second) / (second - first)
    more = second - times * first
    holds = all(b == times * a + more for a, b in pairwise(numbers))
    whole = times.denominator == more.denominator == 1 and times > 1
    return numbers[-1] * times + more if holds and whole else None


def _by_growing_step(numbers: list[Fraction]) -> Fraction | None:
    """1, 2, 4, 7, 11: steps that grow by 1; of five numbers or more."""
    steps = [b - a for a, b in pairwise(numbers)]
    grown = _by_step(steps)
    return None if len(steps) < len("1234") or grown is None else numbers[-1] + grown


def _last_two(numbers: list[Fraction]) -> Fraction | None:
    """2, 3, 5, 8, 13: each the sum of the two before it; of five numbers or more."""
    sums = [a + b for a, b in pairwise(numbers)]
    return sums[-1] if len(numbers) >= len("12345") and sums[:-1] == numbers[2:] else None


def volume(told: str) -> Expr | None:
    """The volume of a box by three edges in one unit, of a cube by one; None where more is told."""
    edges = re.findall(r"(\d+(?:\.\d+)?(?:/\d+)?)(?: ([a-z]+))?", told)
    units = {one(unit) for _, unit in edges} & UNITS
    words = {w for w in re.findall(r"[a-z]+", told) if one(w) not in UNITS} - _SOLID
    solid = words & {"box", "prism", "cube", "cuboid"}
    if len(units) > 1 or words - {"rectangular", *solid} or len(solid) != 1:
        return None
    numbers = [number for number, _ in edges]
    if solid == {"cube"} and len(numbers) == 1:
        return parse_expr(" × ".join(numbers * 3))
    if solid != {"cube"} and len(numbers) == len("lwh"):
        return parse_expr(" × ".join(numbers))
    return None


def circle(what: str, line: str, size: str) -> Expr | None:
    """How long a circle is, or its area, with 3.14 for pi; None where the diameter is odd."""
    length = number(size.strip(".,"))
    radius = length / 2 if line == "diameter" else length
    if what == "circumference":
        factors = f"3.14 × {size}" if line == "diameter" else f"2 × 3.14 × {size}"
        return parse_expr(factors.strip(".,"))
    return parse_expr(f"3.14 × {radius} × {radius}") if radius.denominator == 1 else None


def unknown_of(sign: str, known: str, result: str, *, first: bool) -> Fraction | Expr | None:
    """The unknown first or second number of "□ sign known = result" or "known sign □ = result"."""
    match sign, first:
        case ("times" | "multiplied by", _):
            return _worked(result, "÷", known)
        case ("plus" | "added to" | "increased by", _):
            return _worked(result, "−", known)
        case ("minus" | "decreased by", True):
            return _worked(result, "+", known)
        case ("minus" | "decreased by", False):
            return _worked(known, "−", result)
        case ("divided by", True):
            return _worked(result, "×", known) if number(known) else None
        case _:
            return _worked(known, "÷", result) if number(known) else None


def _worked(left: str, sign: Operation, right: str) -> Fraction | Expr | None:
    """Two numbers as work, its value alone where it is below zero; None where it is by zero."""
    a, b = number(left), number(right)
    if sign == "÷" and not b:
        return None
    worked = {"+": a + b, "−": a - b, "×": a * b, "÷": a / (b or 1)}[sign]
    if min(a, b, worked) < 0:
        return worked
    return Op(sign, *(parse_expr(text.replace("$", "")) for text in (left, right)))


def tens_in(place: str, told: str) -> Fraction | Expr | None:
    """How many tens are in 450, where they come out even."""
    power = _TENS.get(one(place.strip()) if " " not in place else place.strip().removesuffix("s"))
    if power is None or power < 1 or number(told) % 10**power:
        return None
    return _worked(told.replace(",", ""), "÷", str(10**power))


def missing_in(told: str) -> Fraction | Expr | None:
    """The one number that is missing in a pattern by one step or one factor: 3, 6, □, 24."""
    parts = [part.strip() for part in told.split(",")]
    gaps = [k for k, part in enumerate(parts) if not re.search(r"\d", part)]
    if len(gaps) != 1 or not 0 < gaps[0] < len(parts) - 1 or len(parts) < len("1234"):
        return None
    at, known = gaps[0], {k: number(part) for k, part in enumerate(parts) if k != gaps[0]}
    made = [filled for filled in _fillings(known, at) if filled is not None]
    values = {worth for worth, _ in made}
    return made[0][1] if len(values) == 1 else None


def _fillings(known: dict[int, Fraction], at: int) -> Iterator[tuple[Fraction, Fraction | Expr]]:
    """The missing number by the step, and by the factor, that all the others go by."""
    before, after = known[at - 1], known[at + 1]
    pairs = [(known[k], known[k + 1]) for k in known if k + 1 in known]
    steps = {b - a for a, b in pairs}
    if len(steps) == 1 and after - before == 2 * (step := steps.pop()) and step:
        sign: Operation = "+" if step > 0 else "−"
        yield before + step, _worked(str(before), sign, str(abs(step))) or before + step
    factors = {b / a for a, b in pairs} if all(known.values()) else set()
    if len(factors) == 1 and after == before * (factor := factors.pop()) ** 2:
        up = factor.denominator == 1
        worked = _worked(str(before), "×" if up else "÷", str(factor if up else 1 / factor))
        yield before * factor, worked or before * factor


def nth_by_rule(sign: str, step: str, first: str, which: str) -> Fraction | Expr | None:
    """The fourth number of a pattern that begins with 5 and goes by "add 7"."""
    count = _NTH.get(which)
    if count is None:
        return None
    signs: dict[str, Operation] = {"add": "+", "subtract": "−", "multiply by": "×"}
    if sign not in signs:
        return None
    text = first + f" {signs[sign]} {step}" * (count - 1)
    tree = parse_expr(text)
    return tree if value(tree) >= 0 else None


_NTH = {"second": 2, "third": 3, "fourth": 4, "fifth": 5}
"""Numbers of a pattern that are counted on to."""
