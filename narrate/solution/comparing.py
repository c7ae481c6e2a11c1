"""Two numbers of 0 or more compared, in the way that a teacher would: what tells most at once.

Whole numbers and decimals place by place; fractions by their pieces, by a whole, by one half, or
counted in pieces of one size. CCSSM (2010) 2.NBT.A.4, 4.NBT.A.2, 5.NBT.A.3b; 3.NF.A.3d, 4.NF.A.2.
"""

from __future__ import annotations

from fractions import Fraction
from math import lcm
from typing import Literal

from narrate.exact.tree import (
    Decimal,
    Expr,
    Frac,
    Mixed,
    Relation,
    RelationSign,
    Whole,
    WithRest,
    value,
)
from narrate.solution.operations import places
from narrate.solution.steps import Detail
from narrate.solution.task import as_decimal, over

Side = Literal["less", "more", "equal"]
Compared = tuple[Side, Relation, dict[str, Detail]]
"""How the first stands to the second, a true line, and what the words may say: `how`, the way."""

HALF = Fraction(1, 2)

PLACES = (
    "ones", "tens", "hundreds", "thousands", "ten thousands", "hundred thousands", "millions",
    "ten millions", "hundred millions", "billions", "ten billions", "hundred billions",
)  # fmt: skip
BEHIND = ("tenths", "hundredths", "thousandths", "ten-thousandths", "hundred-thousandths")
"""The names of places before and behind the decimal point."""

_MOST_PLACES = 3
"""A fraction is written as a decimal with so many digits behind the point at most."""


def compare(left: Expr, right: Expr) -> Compared:
    """Two numerals of 0 or more compared."""
    side = _side(value(left), value(right))
    told: dict[str, Detail] = {"left": left, "right": right, "side": side}
    if side == "equal":
        how = {"how": "same"} if left == right else _as_equal(left, right)
        return side, Relation("=", (left, right)), told | how
    if isinstance(left, Whole | Decimal) and isinstance(right, Whole | Decimal):
        return side, _line(side, left, right), told | _by_digits(left, right)
    if isinstance(left, Decimal) or isinstance(right, Decimal):
        return _with_decimal(side, left, right, told)
    found = _by_pieces(left, right)
    if found["how"] == "common":
        first, second = found["first"], found["second"]
        assert isinstance(first, Frac)
        assert isinstance(second, Frac)
        return side, _line(side, first, second), told | found
    return side, _line(side, left, right), told | found


def _as_equal(left: Expr, right: Expr) -> dict[str, Detail]:
    """Why two numerals are equal: both are `between`, or `coarse` cut smaller is `fine`."""
    told: dict[str, Detail] = {"how": "equal", "between": "", "coarse": "", "fine": ""}
    sizes = [_size(left), _size(right)]
    size = lcm(*sizes)
    if size == 1:
        return told
    if size not in sizes or any(isinstance(tree, Decimal | Mixed) for tree in (left, right)):
        return told | {"between": over(value(left), size)}
    coarse, fine = (left, right) if sizes[1] == size else (right, left)
    return told | ({"coarse": coarse, "fine": fine} if isinstance(coarse, Frac) else {})


def _size(tree: Expr) -> int:
    """The denominator that a numeral is written with: 0.45 counts hundredths."""
    match tree:
        case Frac(_, size) | Mixed(_, _, size):
            return size
        case Decimal():
            return int(10 ** len(tree.places))
    return 1


def _side(left: Fraction, right: Fraction) -> Side:
    return "less" if left < right else "more" if left > right else "equal"


def _line(side: Side, left: Expr, right: Expr) -> Relation:
    signs: dict[Side, RelationSign] = {"less": "<", "more": ">", "equal": "="}
    return Relation(signs[side], (left, right))


# -- whole numbers and decimals


def _by_digits(left: Whole | Decimal, right: Whole | Decimal) -> dict[str, Detail]:
    """The first place from the left in which two numbers differ."""
    wholes = [str(int(value(tree))) for tree in (left, right)]
    if len(wholes[0]) != len(wholes[1]) and isinstance(left, Whole) and isinstance(right, Whole):
        counts = tuple(len(whole) for whole in wholes)
        return {"how": "longer", "left_digits": counts[0], "right_digits": counts[1]}
    if len(wholes[0]) != len(wholes[1]):
        return {"how": "wholes", "left_whole": int(wholes[0]), "right_whole": int(wholes[1])}
    most = max(places(left), places(right))
    digits = [
        whole + (tree.places if isinstance(tree, Decimal) else "").ljust(most, "0")
        for whole, tree in zip(wholes, (left, right), strict=True)
    ]
    at = next(k for k, (a, b) in enumerate(zip(*digits, strict=True)) if a != b)
    before = len(wholes[0]) - 1 - at
    name = PLACES[before] if before >= 0 else BEHIND[min(-before, len(BEHIND)) - 1]
    first = {"left_digit": int(digits[0][at]), "right_digit": int(digits[1][at])}
    return {"how": "place", "place": name, "same_before": "yes" if at else "", **first}


def _with_decimal(side: Side, left: Expr, right: Expr, told: dict[str, Detail]) -> Compared:
    """A fraction beside a decimal: as a decimal itself where it ends soon, else both in pieces."""
    fraction = right if isinstance(left, Decimal) else left
    as_written = as_decimal(value(fraction), 1)
    if as_written is not None and places(as_written) <= _MOST_PLACES:
        both = (left, as_written) if fraction is right else (as_written, right)
        pair = Relation("=", (fraction, as_written))
        made: dict[str, Detail] = {"how": "decimal", "pairs": (pair,)}
        return side, _line(side, *both), told | made
    size = lcm(value(left).denominator, value(right).denominator)
    one, other = over(value(left), size), over(value(right), size)
    pairs = tuple(
        Relation("=", (old, new)) for old, new in ((left, one), (right, other)) if old != new
    )
    told |= {"how": "common", "first": one, "second": other, "pairs": pairs, "same_whole": ""}
    return side, _line(side, one, other), told


# -- fractions


def _by_pieces(left: Expr, right: Expr) -> dict[str, Detail]:
    """Fractions, mixed and whole numbers: by wholes, by their pieces, by a half, in one size."""
    if isinstance(left, Frac) and isinstance(right, Frac) and (alike := _alike(left, right)):
        return alike
    wholes = int(value(left)), int(value(right))
    if wholes[0] != wholes[1]:
        return _by_wholes(left, right, wholes)
    one, other = (_fraction(tree, whole) for tree, whole in zip((left, right), wholes, strict=True))
    same = "yes" if wholes[0] else ""
    told: dict[str, Detail] = {"first": one, "second": other, "same_whole": same}
    if not one.numerator or not other.numerator:
        return told | {"how": "more than whole"}
    if alike := _alike(one, other):
        return alike | {"same_whole": told["same_whole"]}
    if Frac(1, 2) in (one, other):
        return _in_one_size(one, other, told)
    halves = _side(value(one), HALF), _side(value(other), HALF)
    if halves[0] != halves[1]:
        return told | {
            "how": "half",
            "left_half": halves[0],
            "right_half": halves[1],
            "half": Frac(1, 2),
        }
    return _in_one_size(one, other, told)


def _in_one_size(one: Frac, other: Frac, told: dict[str, Detail]) -> dict[str, Detail]:
    """Both fractions counted in pieces of one size."""
    size = lcm(one.denominator, other.denominator)
    first, second = over(value(one), size), over(value(other), size)
    pairs = tuple(
        Relation("=", (old, new)) for old, new in ((one, first), (other, second)) if old != new
    )
    return told | {"how": "common", "first": first, "second": second, "size": size, "pairs": pairs}


def _alike(one: Frac, other: Frac) -> dict[str, Detail]:
    """Fractions with pieces of one size, or as many pieces; empty where it is neither."""
    fractions: dict[str, Detail] = {"first": one, "second": other, "same_whole": ""}
    if one.denominator == other.denominator:
        tops: dict[str, Detail] = {"left_top": one.numerator, "right_top": other.numerator}
        return fractions | tops | {"how": "same size", "size": one.denominator}
    if one.numerator == other.numerator:
        return fractions | {"how": "same count", "top": one.numerator}
    return {}


def _by_wholes(left: Expr, right: Expr, wholes: tuple[int, int]) -> dict[str, Detail]:
    """Numbers with another number of wholes; a fraction beside 1 by its own two numbers."""
    told: dict[str, Detail] = {"how": "wholes", "left_whole": wholes[0], "right_whole": wholes[1]}
    if sorted(wholes) == [0, 1] and Whole(1) in (left, right):
        return told | {"how": "part of whole", "part": left if right == Whole(1) else right}
    if sorted(wholes) == [0, 1]:
        improper = left if wholes[0] else right
        if isinstance(improper, Frac | Mixed | Whole):
            return told | {"how": "one", "one": Whole(1)}
    return told


def _fraction(tree: Expr, whole: int) -> Frac:
    """What is over the wholes, in the pieces that a numeral is written in."""
    match tree:
        case Frac(top, bottom):
            return Frac(top - whole * bottom, bottom)
        case Mixed(_, top, bottom):
            return Frac(top % bottom, bottom)
        case Whole() | WithRest():
            return Frac(0, 1)
        case _:
            rest = value(tree) - whole
            return Frac(rest.numerator, rest.denominator)
