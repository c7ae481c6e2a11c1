"""Slips in one operation on whole numbers or decimals: what its digits come to by a wrong rule.

Each rule takes an operation on two numbers and gives the numbers that pupils write, none where the
rule does not apply. Their numbers in the list of slips and sources stand in `number_slips`.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from narrate.exact.tree import Decimal, Op, Operation, Whole, value

Digits = list[int]

_OPERATIONS: tuple[Operation, ...] = ("+", "−", "×", "÷")


def _wholes(operation: Op, sign: str) -> tuple[int, int] | None:
    """The two whole numbers of an operation with this sign."""
    left, right = operation.left, operation.right
    if operation.sign != sign or not (isinstance(left, Whole) and isinstance(right, Whole)):
        return None
    return left.number, right.number


def _digits(number: int, length: int = 0) -> Digits:
    """The digits from the ones on: 47 is 7, 4."""
    found = [int(d) for d in reversed(str(number))]
    return found + [0] * (length - len(found))


def _number(digits: Digits) -> int:
    return sum(d * 10**k for k, d in enumerate(digits))


def _columns(left: int, right: int) -> list[tuple[int, int]]:
    length = max(len(str(left)), len(str(right)))
    return list(zip(_digits(left, length), _digits(right, length), strict=True))


def _in_places(op: Op, sign: str) -> tuple[int, int, int] | None:
    """The two numbers of an operation counted in its smallest places, and how many those are.

    2.75 + 1.6 is 275 and 160, with 2.
    """
    if op.sign != sign:
        return None
    if found := _wholes(op, sign):
        return *found, 0
    if (decimal := decimals(op)) is None:
        return None
    left, right, *places = decimal
    most = max(places)
    return int(left) * 10 ** (most - places[0]), int(right) * 10 ** (most - places[1]), most


# -- whole numbers


def new_ten_dropped(op: Op) -> Iterator[Fraction]:
    """47 + 38 = 75: the new ten forgotten."""
    if (found := _wholes(op, "+")) and max(found) >= 10 and sum(_columns(*found)[0]) >= 10:
        yield Fraction(sum(found) - 10)


def all_regrouping_dropped(op: Op) -> Iterator[Fraction]:
    """348 + 275 = 513: the new ten and the new hundred forgotten; 67 + 58 = 15."""
    if (found := _wholes(op, "+")) and max(found) >= 10:
        columns = _columns(*found)
        if sum(columns[0]) >= 10:
            *low, top = map(sum, columns)
            yield Fraction(_number([*[made % 10 for made in low], top]))
            yield Fraction(_number([made % 10 for made in (*low, top)]))


def regrouping_dropped(op: Op) -> Iterator[Fraction]:
    """2.75 + 1.60 = 3.35, or 362 + 275 = 537: what a place makes of the next, dropped."""
    if found := _in_places(op, "+"):
        *sides, places = found
        columns = _columns(*sides)
        if len(columns) > 1:
            carried = [10 ** (k + 1) for k, carry in enumerate(_carries(columns)) if carry]
            for dropped in (*carried, sum(carried)):
                yield Fraction(sum(sides) - dropped, 10**places)
            yield Fraction(_number([sum(c) % 10 for c in columns]), 10**places)


def always_regrouped(op: Op) -> Iterator[Fraction]:
    """42 + 35 = 87: one carried to the next place, needed or not; 2.75 + 1.60 = 4.45."""
    if found := _in_places(op, "+"):
        *sides, places = found
        columns = _columns(*sides)
        if len(columns) > 1:
            carries = _carries(columns)[:-1]
            more = sum(10 ** (k + 1) for k, carry in enumerate(carries) if not carry)
            yield Fraction(sum(sides) + more, 10**places)


def _carries(columns: list[tuple[int, int]]) -> list[int]:
    """For each column from the ones on, whether it makes one of the next place."""
    carries: list[int] = []
    for a, b in columns:
        carries.append((a + b + (carries[-1] if carries else 0)) // 10)
    return carries


def columns_side_by_side(op: Op) -> Iterator[Fraction]:
    """47 + 38 = 715: every column's sum written in full."""
    if found := _wholes(op, "+"):
        yield Fraction(int("".join(str(sum(c)) for c in reversed(_columns(*found)))))


def smaller_from_larger(op: Op) -> Iterator[Fraction]:
    """63 − 29 = 46: the smaller digit from the larger in every column."""
    if found := _wholes(op, "−"):
        yield Fraction(_number([abs(a - b) for a, b in _columns(*found)]))


def ten_not_taken(op: Op) -> Iterator[Fraction]:
    """143 − 28 = 125: ten ones more, but the tens left as they were; 4.6 − 1.85 = 2.85."""
    found = _in_places(op, "−")
    if found and found[0] > found[1]:
        *sides, places = found
        made, owed = [], 0
        for a, b in _columns(*sides):
            owed = int(a - b - owed < 0)
            made.append(owed)
        opened = [10 ** (k + 1) for k, one in enumerate(made) if one]
        for left in (sum(opened), *opened):
            yield Fraction(sides[0] - sides[1] + left, 10**places)


def zero_where_too_small(op: Op) -> Iterator[Fraction]:
    """63 − 29 = 40: nought written where a digit is too small."""
    if found := _wholes(op, "−"):
        yield Fraction(_number([max(0, a - b) for a, b in _columns(*found)]))


def no_place_shift(op: Op) -> Iterator[Fraction]:
    """43 × 26 = 344: the tens of the second number multiplied as if they were ones."""
    if (found := _wholes(op, "×")) and found[1] >= 10:
        yield Fraction(sum(found[0] * d for d in _digits(found[1])))
    if found and found[0] >= 10:
        yield Fraction(sum(found[1] * d for d in _digits(found[0])))


def tens_and_ones_only(op: Op) -> Iterator[Fraction]:
    """43 × 26 = 818: tens times tens and ones times ones, the other products left out."""
    if (found := _wholes(op, "×")) and min(found) >= 10:
        yield Fraction(sum(a * b * 100**k for k, (a, b) in enumerate(_columns(*found))))


def times_without_regrouping(op: Op) -> Iterator[Fraction]:
    """27 × 4 = 88: the tens that the ones make are forgotten."""
    if found := _wholes(op, "×"):
        for number, digit in (found, found[::-1]):
            if digit < 10 <= number:
                yield Fraction(_number([d * digit % 10 for d in _digits(number)]))
                *low, top = _digits(number)
                yield Fraction(_number([*[d * digit % 10 for d in low], top * digit]))


def one_part_multiplied(op: Op) -> Iterator[Fraction]:
    """6 × 24 = 124: only the tens multiplied, or only the ones."""
    if found := _wholes(op, "×"):
        for number, other in (found, found[::-1]):
            if number >= 10:
                ones = number % 10
                yield Fraction((number - ones) * other + ones)
                yield Fraction((number - ones) + ones * other)


def one_zero_only(op: Op) -> Iterator[Fraction]:
    """30 × 40 = 120: the product of the tens with one zero."""
    if (found := _wholes(op, "×")) and all(n >= 10 and n % 10 == 0 for n in found):
        yield Fraction(found[0] * found[1], 10)


def zero_missing(op: Op) -> Iterator[Fraction]:
    """618 ÷ 6 = 13: the zero that holds a place left out of the quotient."""
    found = _wholes(op, "÷")
    if found and found[1] and found[0] % found[1] == 0:
        quotient = str(found[0] // found[1])
        inner = quotient.rstrip("0")
        if "0" in inner:
            yield Fraction(int(inner.replace("0", "") + quotient[len(inner) :]))
        if len(inner) < len(quotient) > 1:
            yield Fraction(int(quotient[:-1]))


def written_backward(op: Op) -> Iterator[Fraction]:
    """72 ÷ 3 = 42: the digits of the quotient from right to left."""
    found = _wholes(op, "÷")
    if found and found[1] and found[0] % found[1] == 0:
        yield Fraction(int(str(found[0] // found[1])[::-1]))


def digit_by_digit(op: Op) -> Iterator[Fraction]:
    """76 ÷ 3 = 22: every digit divided by itself, what is left of it dropped."""
    if (found := _wholes(op, "÷")) and found[1]:
        yield Fraction(_number([d // found[1] for d in _digits(found[0])]))


def remainder_as_decimal(op: Op) -> Iterator[Fraction]:
    """17 ÷ 5 = 3.2: the remainder written behind the point."""
    if (found := _wholes(op, "÷")) and found[1] and found[0] % found[1]:
        full, rest = divmod(found[0], found[1])
        yield Fraction(f"{full}.{rest}")


def larger_by_smaller(op: Op) -> Iterator[Fraction]:
    """3 ÷ 12 = 4: the larger divided by the smaller, whichever stands first."""
    left, right = value(op.left), value(op.right)
    if op.sign == "÷" and 0 < left < right:
        yield right / left


# -- decimals


def decimals(op: Op) -> tuple[str, str, int, int] | None:
    """The digits of two numbers without their points, and the places of each."""
    if not any(isinstance(side, Decimal) for side in (op.left, op.right)):
        return None
    digits, places = [], []
    for side in (op.left, op.right):
        match side:
            case Decimal(whole, behind):
                digits.append(f"{whole or '0'}{behind}")
                places.append(len(behind))
            case Whole(number):
                digits.append(str(number))
                places.append(0)
            case _:
                return None
    return digits[0], digits[1], places[0], places[1]


def lined_up_at_the_right(op: Op) -> Iterator[Fraction]:
    """2.5 + 0.13 = 0.38: the last digits lined up, not the places."""
    found = decimals(op)
    if found and op.sign in "+−" and found[2] != found[3]:
        left, right, *places = found
        made = int(left) + (int(right) if op.sign == "+" else -int(right))
        for count in {max(places), min(places)}:
            if made >= 0:
                yield Fraction(made, 10**count)


def parts_apart(op: Op) -> Iterator[Fraction]:
    """1.7 + 2.6 = 3.13: two whole numbers, before and behind the point."""
    found = decimals(op)
    if found and op.sign == "+" and found[2] and found[3]:
        sides = [side for side in (op.left, op.right) if isinstance(side, Decimal)]
        wholes = sum(int(side.whole or "0") for side in sides)
        behind = sum(int(side.places) for side in sides)
        yield Fraction(f"{wholes}.{behind}")


def smaller_from_larger_padded(op: Op) -> Iterator[Fraction]:
    """3 − 0.45 = 3.45: the empty places copied down, or smaller from larger in every place."""
    if decimals(op) and (found := _in_places(op, "−")):
        *sides, places = found
        yield Fraction(_number([abs(a - b) for a, b in _columns(*sides)]), 10**places)


def places_as_in_adding(op: Op) -> Iterator[Fraction]:
    """0.3 × 0.2 = 0.6: as many places as for adding; beside a whole number that would be right."""
    found = decimals(op)
    if found and op.sign == "×":
        left, right, *places = found
        if min(places):
            yield Fraction(int(left) * int(right), 10 ** max(places))


def zero_written(op: Op) -> Iterator[Fraction]:
    """2.5 × 10 = 2.50: a zero written behind, and the number is the same."""
    if op.sign == "×" and decimals(op):
        for number, by in ((op.left, op.right), (op.right, op.left)):
            if value(by) in (10, 100, 1000):
                yield value(number)


def point_ignored(op: Op) -> Iterator[Fraction]:
    """6 ÷ 0.2 = 3: divided as whole numbers, the point left out; also 4.5 × 2 = 90."""
    found = decimals(op)
    if found and op.sign in "×÷":
        left, right = int(found[0]), int(found[1])
        if op.sign == "×":
            yield Fraction(left * right)
        elif right:
            for places in {0, found[2]}:
                yield Fraction(left, right * 10**places)


def other_operation(op: Op) -> Iterator[Fraction]:
    """63 − 29 = 92, or 6 × 9 = 15: the numbers put together by another operation."""
    left, right = value(op.left), value(op.right)
    made = {"+": left + right, "−": abs(left - right), "×": left * right}
    if right:
        made["÷"] = left / right
    for sign in _OPERATIONS:
        if sign != op.sign and sign in made:
            yield made[sign]
