"""One operation on whole numbers or decimals worked out: a step with a true line and its method.

`details` say how it is worked out: `how` names the method, which has a template `work/<how>`. A
method only shows what the numbers call for; the result is exact whatever the method.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from math import ceil, floor

from narrate.exact.tree import Decimal, Expr, Frac, Op, Operation, Relation, Whole, value, write_sum
from narrate.solution.steps import Detail, Step
from narrate.solution.task import as_decimal

Number = Whole | Decimal

MOST_PARTS = 3
"""A number is split by its places into so many parts at most."""

EASY = 12
"""Products and quotients of the tables up to this are known by heart (CCSSM 3.OA.C.7 up to 10)."""

LARGEST_PLACES = 1000
"""Pieces smaller than thousandths are not named."""


def number(amount: Fraction, *, decimals: bool, money: bool = False) -> Number | None:
    """An amount of 0 or more as a whole number or a decimal, None where it is neither.

    Dollars with cents have two places; without `decimals` only whole numbers are written.
    """
    if amount.denominator == 1:
        return Whole(int(amount))
    return as_decimal(amount, 2 if money else 0) if decimals else None


def work_out(operation: Op, result: Expr, **details: Detail) -> Step:
    """The step of one operation on two numbers whose result is known."""
    left, right = operation.left, operation.right
    line: Relation = Relation("=", (operation, result))
    how: dict[str, Detail] = {"how": "plain"}
    if isinstance(left, Whole | Decimal) and isinstance(right, Whole | Decimal):
        how, through = _method(operation.sign, left, right, result)
        line = Relation("=", (operation, *through, result))
    facts = {"sign": operation.sign, "left": left, "right": right, "result": result}
    return Step(move="work", line=line, details=facts | how | details)


def _method(
    sign: Operation, left: Number, right: Number, result: Expr
) -> tuple[dict[str, Detail], tuple[Expr, ...]]:
    """How an operation is worked out, and the sides that its line goes through."""
    if isinstance(result, Frac):
        return {"how": "as fraction"}, ()
    decimal = isinstance(left, Decimal) or isinstance(right, Decimal)
    match sign:
        case "+" | "−" if decimal:
            return _same_places(sign, left, right)
        case "×" if decimal:
            return _count_pieces(left, right), ()
        case "÷" if isinstance(right, Decimal):
            return _scaled(left, right)
        case "÷" if isinstance(result, Decimal) or decimal:
            return _share_pieces(left, result)
        case "×":
            return _split_product(value(left), value(right))
        case "÷":
            return _split_quotient(value(left), value(right))
        case _:
            return {"how": "plain"}, ()


def places(tree: Expr) -> int:
    """The digits behind the decimal point, as written."""
    return len(tree.places) if isinstance(tree, Decimal) else 0


def _same_places(
    sign: Operation, left: Number, right: Number
) -> tuple[dict[str, Detail], tuple[Expr, ...]]:
    """3.75 + 0.6 is 3.75 + 0.60: hundredths and hundredths."""
    most = max(places(left), places(right))
    size = 10**most
    padded = tuple(as_decimal(value(tree), most) or tree for tree in (left, right))
    details: dict[str, Detail] = {"how": "one place", "size": size}
    if size > LARGEST_PLACES:
        return {"how": "plain"}, ()
    changed = tuple(new for old, new in zip((left, right), padded, strict=True) if old != new)
    if not changed:
        return details, ()
    old = left if padded[0] != left else right
    details |= {"how": "same places", "old": old, "new": changed[0]}
    return details, (Op(sign, *padded),)


def _count_pieces(left: Number, right: Number) -> dict[str, Detail]:
    """4.75 × 3: 475 hundredths, three times; 0.3 × 0.2: tenths of tenths are hundredths."""
    sizes = 10 ** places(left), 10 ** places(right)
    counts = value(left) * sizes[0], value(right) * sizes[1]
    size = sizes[0] * sizes[1]
    if max(size, *sizes) > LARGEST_PLACES:
        return {"how": "plain"}
    product = Relation(
        "=",
        (
            Op("×", Whole(int(counts[0])), Whole(int(counts[1]))),
            Whole(int(counts[0] * counts[1])),
        ),
    )
    how = "pieces times" if 1 in sizes else "pieces of pieces"
    small = max(sizes)
    return {
        "how": how,
        "product": product,
        "count": int(counts[0] * counts[1]),
        "size": size if how == "pieces of pieces" else small,
        "first_size": sizes[0],
        "second_size": sizes[1],
    }


def _scaled(left: Number, right: Number) -> tuple[dict[str, Detail], tuple[Expr, ...]]:
    """7.2 ÷ 0.4 is 72 ÷ 4: both times ten, so that we divide by a whole number."""
    factor = 10 ** places(right)
    scaled = value(left) * factor, value(right) * factor
    new_left = number(scaled[0], decimals=True)
    if new_left is None:
        return {"how": "plain"}, ()
    through = Op("÷", new_left, Whole(int(scaled[1])))
    return {"how": "scaled", "factor": factor, "through": through}, (through,)


def _share_pieces(left: Number, result: Expr) -> tuple[dict[str, Detail], tuple[Expr, ...]]:
    """14.4 ÷ 6: 144 tenths shared by 6 are 24 tenths."""
    size = 10 ** max(places(result), places(left))
    if size > LARGEST_PLACES or size == 1:
        return {"how": "plain"}, ()
    counts = value(left) * size, value(result) * size
    return {
        "how": "pieces shared",
        "size": size,
        "count": int(counts[0]),
        "shared": int(counts[1]),
    }, ()


def by_place(amount: Fraction) -> tuple[int, ...]:
    """A whole number split by its places: 1,204 is 1,000 and 200 and 4."""
    digits = str(int(amount))
    parts = (int(d) * 10 ** (len(digits) - k - 1) for k, d in enumerate(digits))
    return tuple(part for part in parts if part)


def _split_product(left: Fraction, right: Fraction) -> tuple[dict[str, Detail], tuple[Expr, ...]]:
    """6 × 24 is 6 × 20 + 6 × 4 (CCSSM 4.NBT.B.5: by place value and the distributive property)."""
    first, second = by_place(left), by_place(right)
    if (left <= EASY and right <= EASY) or len(first) < 1 or len(second) < 1:
        return {"how": "known"}, ()
    split_left = len(first) > 1 and (len(second) == 1 or len(first) <= len(second))
    parts, whole, other = (first, left, right) if split_left else (second, right, left)
    if not 1 < len(parts) <= MOST_PARTS:
        return {"how": "plain"}, ()
    kept = Whole(int(other))
    products = [
        Op("×", Whole(part), kept) if split_left else Op("×", kept, Whole(part)) for part in parts
    ]
    return _summed("split", products, parts, Whole(int(whole)))


def _split_quotient(left: Fraction, right: Fraction) -> tuple[dict[str, Detail], tuple[Expr, ...]]:
    """144 ÷ 6 is 120 ÷ 6 + 24 ÷ 6 (CCSSM 4.NBT.B.6: by place value and properties)."""
    quotient = left / right
    parts = tuple(part * int(right) for part in by_place(quotient))
    if quotient <= EASY and right <= EASY:
        return {"how": "fact", "product": _product(right, quotient)}, ()
    if len(parts) == 1:
        return {"how": "times", "product": _product(right, quotient)}, ()
    if not 1 < len(parts) <= MOST_PARTS:
        return {"how": "times", "product": _product(right, quotient)}, ()
    shares = [Op("÷", Whole(part), Whole(int(right))) for part in parts]
    return _summed("split shares", shares, parts, Whole(int(left)))


def _product(size: Fraction, count: Fraction) -> Relation:
    return Relation("=", (Op("×", Whole(int(size)), Whole(int(count))), Whole(int(size * count))))


def _summed(
    how: str, each: list[Op], parts: tuple[int, ...], whole: Whole
) -> tuple[dict[str, Detail], tuple[Expr, ...]]:
    """A number split into parts, each worked out by itself and then joined."""
    values = tuple(int(value(one)) for one in each)
    lines = tuple(Relation("=", (one, Whole(v))) for one, v in zip(each, values, strict=True))
    through = (
        write_sum([(1, one) for one in each]),
        write_sum([(1, Whole(v)) for v in values]),
    )
    return {"how": how, "whole": whole, "parts": parts, "lines": lines, "values": values}, through


def with_remainder(total: Number, size: Number) -> tuple[Step, int, int | Decimal]:
    """How many full groups there are and what is left over: 86 = 8 × 10 + 6, 3 = 0.4 × 7 + 0.2."""
    full, left = divmod(value(total), value(size))
    rest = _counted(left)
    product = Op("×", size, Whole(full))
    line = Relation("=", (total, Op("+", product, _written(left))))
    more = Op("×", size, Whole(full + 1))
    details: dict[str, Detail] = {
        "total": total,
        "size": size,
        "full": full,
        "rest": rest,
        "product": Relation("=", (product, _written(value(product)))),
        "next": Relation("=", (more, _written(value(more)))),
    }
    return Step(move="remainder", line=line, details=details), full, rest


def put_together(size: Number, full: int, rest: int | Decimal) -> Expr:
    """The full groups and what is left over as the total again: 8 × 10 + 6."""
    product = Op("×", size, Whole(full))
    if not rest:
        return product
    return Op("+", product, Whole(rest) if isinstance(rest, int) else rest)


def _written(amount: Fraction) -> Number:
    """What numbers with an end add up to or make, written with its places."""
    found = number(amount, decimals=True)
    assert found is not None
    return found


def _counted(amount: Fraction) -> int | Decimal:
    found = _written(amount)
    return found.number if isinstance(found, Whole) else found


def inverse(operation: Op, result: Expr) -> Step | None:
    """The operation undone: from 6 × 24 = 144, 144 ÷ 24 = 6."""
    left, right = operation.left, operation.right
    undo: dict[Operation, Operation] = {"+": "−", "−": "+", "×": "÷", "÷": "×"}
    sign = undo[operation.sign]
    if sign == "÷" and value(right) == 0:
        return None
    line = Relation("=", (Op(sign, result, right), left))
    how = {"+": "add back", "−": "subtract back", "×": "multiply back", "÷": "divide back"}[sign]
    details: dict[str, Detail] = {
        "how": how,
        "line": line,
        "result": result,
        "other": right,
        "first": left,
    }
    return Step(move="look back", line=line, details=details)


def bounds(sign: Operation, left: Expr, right: Expr) -> tuple[Op, Op] | None:
    """Two easy operations between which the result of one lies, by rounding to leading digits.

    The first comes to less and the second to more; None where nothing is gained by rounding.
    """
    a, b = value(left), value(right)
    if a < 1 or b < 1:
        return None
    low_a, high_a, low_b, high_b = (Whole(n) for n in (*_between(a), *_between(b)))
    match sign:
        case "+":
            pairs = Op("+", low_a, low_b), Op("+", high_a, high_b)
        case "×":
            pairs = Op("×", low_a, low_b), Op("×", high_a, high_b)
        case "−" if low_a.number >= high_b.number:
            pairs = Op("−", low_a, high_b), Op("−", high_a, low_b)
        case _:
            return None
    exact = value(Op(sign, left, right))
    return pairs if value(pairs[0]) < exact < value(pairs[1]) else None


def _between(amount: Fraction) -> tuple[int, int]:
    """The numbers with one digit and zeros that an amount lies between: 48 is from 40 to 50."""
    unit = 10 ** (len(str(int(amount))) - 1) if amount >= 1 else 1
    return floor(amount / unit) * unit, ceil(amount / unit) * unit


def quotient_bounds(left: Expr, right: Expr) -> tuple[Op, Op] | None:
    """Two easy products between which a dividend lies: 144 ÷ 6 is more than 20 and less than 30."""
    total, size = value(left), value(right)
    if size <= 0 or total <= 0 or not isinstance(right, Whole):
        return None
    low, high = _between(total / size)
    if not 0 < low < total / size < high:
        return None
    return Op("×", right, Whole(low)), Op("×", right, Whole(high))


def last_digit(sign: Operation, left: Expr, right: Expr) -> tuple[int, int, Relation] | None:
    """The last digit of a sum or product of whole numbers, and the line that shows it."""
    if sign not in "+×" or not (isinstance(left, Whole) and isinstance(right, Whole)):
        return None
    if left.number < 10 and right.number < 10:
        return None
    ones = Op(sign, Whole(left.number % 10), Whole(right.number % 10))
    made = int(value(ones))
    return made % 10, made, Relation("=", (ones, Whole(made)))


_SIGNS: tuple[Operation, ...] = ("+", "−", "×", "÷")


def leading_to(amount: Fraction, left: Expr, right: Expr) -> Iterator[Operation]:
    """The operations on two numbers, in either order, that come to an amount."""
    for sign in _SIGNS:
        for one_side, other in ((left, right), (right, left)):
            if (sign != "÷" or value(other)) and value(Op(sign, one_side, other)) == amount:
                yield sign
