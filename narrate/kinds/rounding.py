"""A number, or the result of a calculation, rounded: to which of its two neighbors it is nearer.

CCSSM (2010) 3.NBT.A.1 (tens and hundreds), 4.NBT.A.3 (any place of whole numbers), 5.NBT.A.4
(decimals). That halfway rounds up is common practice in schools, no source.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

from narrate.exact.tree import Decimal, Expr, Frac, Mixed, Op, Relation, Whole, value
from narrate.kinds import kind_of
from narrate.reading.demands import Nearest
from narrate.solution.facts import Fact
from narrate.solution.figures import Layer, NumberLine, Point
from narrate.solution.operations import places
from narrate.solution.slips import Slip, Written
from narrate.solution.steps import Detail, Step, Work
from narrate.solution.task import LONGEST_DECIMAL, Task, as_decimal, as_numeral

SUMMARY = "a number, or what a calculation comes to, rounded to a place or a whole unit"
STANDARDS = ("3.NBT.A.1", "4.NBT.A.3", "5.NBT.A.4")
TAKES = Nearest

_NUMERALS = Whole | Decimal | Frac | Mixed
_MOST_CUTS = 12
"""A number line between two whole numbers is cut into so many parts at most."""


def recognise(task: Task) -> bool:
    """A number of 0 or more, or whole numbers and decimals whose result can be written."""
    nearest = _nearest(task)
    expression = task.expression
    if isinstance(expression, Frac | Mixed):
        return nearest.size == 1 and value(expression) >= 0
    if isinstance(expression, Whole | Decimal):
        return places(expression) < LONGEST_DECIMAL
    exact = _exact_work(task)
    if exact is None:
        return _without_end(task)
    return isinstance(exact.result, Whole | Decimal) or (
        isinstance(exact.result, Frac | Mixed) and nearest.size == 1
    )


def solve(task: Task) -> Work:
    """The calculation, if there is one, then its result rounded."""
    if isinstance(task.expression, _NUMERALS):
        return _work(*_round(task, task.expression))
    exact = _exact_work(task)
    if exact is None:
        assert isinstance(task.expression, Op)
        nearest = _nearest(task)
        result = _written(nearest, task.answer)
        return _work(tuple(_by_products(nearest, task.expression)), result)
    steps, result = _round(task, exact.result)
    worked = tuple(replace(step, facts=()) for step in exact.steps)
    return replace(_work((*worked, *steps), result), check=exact.check)


def _exact_work(task: Task) -> Work | None:
    """The calculation without the rounding, by whichever kind does it; None where none does."""
    exact = replace(task, demand=None)
    kind = kind_of(exact) if isinstance(task.expression, Op) else None
    return kind.solve(exact) if kind else None


def _work(steps: tuple[Step, ...], result: Expr) -> Work:
    return Work(steps=steps, amounts=((1, result),), total=result, result=result, size=1)


def _nearest(task: Task) -> Nearest:
    assert isinstance(task.demand, Nearest)
    return task.demand


def _without_end(task: Task) -> bool:
    """Whether it is one quotient whose decimal has no end: 100 ÷ 7."""
    match task.expression:
        case Op("÷", Whole() | Decimal(), (Whole() | Decimal()) as by):
            exact = value(task.expression) if value(by) else Fraction(0)
            return exact > 0 and as_decimal(exact) is None
        case _:
            return False


def _by_products(nearest: Nearest, quotient: Op) -> Iterator[Step]:
    """A quotient without an end between its neighbors: 7 × 14.2 is less than 100, 7 × 14.3 more.

    Products are exact, so nothing is divided on and on.
    """
    exact, total, by = value(quotient), quotient.left, quotient.right
    low = nearest.below(exact)
    high, middle = low + nearest.size, low + nearest.size / 2
    below, above, half = (
        _written(nearest, low),
        _written(nearest, high),
        _decimal(middle, nearest.places),
    )
    products = {
        f"{name}_product": _decimal(value(by) * amount, 0)
        for name, amount in (("low", low), ("high", high), ("middle", middle))
    }
    told: dict[str, Detail] = {
        "number": quotient,
        "low": below,
        "high": above,
        "name": nearest.name,
        "middle": half,
        "total": total,
        "by": by,
        **products,
    }
    yield Step(
        move="neighbors by product",
        line=Relation("<", (Op("×", by, below), total, Op("×", by, above))),
        details=told,
        facts=(Fact(name="neighbors", args=(low, high)),),
    )
    more = exact > middle
    yield Step(
        move="halfway by product",
        line=Relation("<" if more else ">", (Op("×", by, half), total)),
        details=told | {"side": "more" if more else "less", "nearer": above if more else below},
    )
    yield _rounded(nearest, quotient, above if more else below, told)


def _rounded(nearest: Nearest, number: Expr, result: Expr, told: dict[str, Detail]) -> Step:
    return Step(
        move="round",
        line=Relation("≈", (number, result)),
        details=told | {"result": result},
        facts=(Fact(name="comes to", args=(nearest.answered(value(number)),)),),
    )


def _round(task: Task, number: Expr) -> tuple[tuple[Step, ...], Expr]:
    nearest, exact = _nearest(task), value(number)
    low = nearest.below(exact)
    if low == exact:
        result = _written(nearest, exact)
        told = {"number": number, "name": nearest.name, "result": result}
        fact = Fact(name="comes to", args=(exact,))
        return (Step(move="round already", details=told, facts=(fact,)),), result
    steps = tuple(_steps(nearest, number, low))
    result = _written(nearest, nearest.answered(exact))
    return steps, result


def _steps(nearest: Nearest, number: Expr, low: Fraction) -> Iterator[Step]:
    high, middle = low + nearest.size, low + nearest.size / 2
    exact = value(number)
    below, above = _written(nearest, low), _written(nearest, high)
    fraction = isinstance(number, Frac | Mixed)
    half = _mixed_half(low) if fraction else _decimal(middle, nearest.places)
    half = number if exact == middle else half
    told: dict[str, Detail] = {
        "number": number,
        "low": below,
        "high": above,
        "name": nearest.name,
        "middle": half,
    }
    yield Step(
        move="neighbors",
        line=Relation("<", (below, number, above)),
        details=told,
        facts=(Fact(name="neighbors", args=(low, high)),),
        layers=tuple(_line(nearest, number, low)),
    )
    side = "more" if exact > middle else "less" if exact < middle else "halfway"
    sign = {"more": ">", "less": "<", "halfway": "="}[side]
    nearer = below if side == "less" else above
    points = [_point(number)] if exact == middle else [_point(half), _point(number)]
    yield Step(
        move="halfway",
        line=Relation(sign, (number, half)) if number != half else None,  # type: ignore[arg-type]
        details=told | {"side": side, "nearer": nearer},
        layers=tuple(points),
    )
    yield _rounded(nearest, number, nearer, told)


def _mixed_half(low: Fraction) -> Expr:
    return Mixed(int(low), 1, 2) if low else Frac(1, 2)


def _point(number: Expr) -> Layer:
    return Point(of="rounding", at=value(number), label=number)


def _line(nearest: Nearest, number: Expr, low: Fraction) -> Iterator[Layer]:
    """The number line from one neighbor to the other, cut in tenths, or as the fraction is."""
    parts = 10
    if isinstance(number, Frac | Mixed):
        size = number.denominator
        parts = size if size % 2 == 0 else 2 * size
        parts = parts if parts <= _MOST_CUTS else 2
    first = int(low / nearest.size)
    yield NumberLine(of="rounding", low=first, high=first + 1, parts=parts, unit=nearest.size)


def _written(nearest: Nearest, amount: Fraction) -> Expr:
    """A whole number of the place, with a digit for each place down to it: 3.0 to tenths."""
    return _decimal(amount, nearest.places) if nearest.places else as_numeral(amount)


def _decimal(amount: Fraction, least: int) -> Expr:
    return as_decimal(amount, least) or as_numeral(amount)


# -- slips


def _told(task: Task) -> tuple[Nearest, Fraction]:
    return _nearest(task), value(task.expression)


def _give(amount: Fraction) -> Written:
    return 0, amount.numerator, amount.denominator


def _cut_off(task: Task) -> Iterator[Written]:
    """3.46 to the nearest tenth is 3.4: the later digits cut off."""
    nearest, exact = _told(task)
    yield _give(nearest.below(exact))


def _rounded_up_anyway(task: Task) -> Iterator[Written]:
    """4,327 to the nearest hundred is 4,400: up, though it is nearer to the lower one."""
    nearest, exact = _told(task)
    if nearest.below(exact) != exact:
        yield _give(nearest.below(exact) + nearest.size)


def _in_turn(task: Task) -> Iterator[Written]:
    """3.446 to the nearest tenth is 3.5: first 3.45, and that rounded again."""
    nearest, exact = _told(task)
    size = Fraction(1, 10**LONGEST_DECIMAL)
    amount = exact
    while size <= nearest.size:
        amount = replace(nearest, size=size).answered(amount)
        size *= 10
    if nearest.size.numerator == 1 or nearest.size.denominator == 1:
        yield _give(amount)


def _another_place(task: Task) -> Iterator[Written]:
    """4,387 to the nearest hundred is 4,390: rounded to another place."""
    nearest, exact = _told(task)
    for shift in (Fraction(1, 10), 10, Fraction(1, 100), 100, Fraction(1, 1000), 1000):
        other = replace(nearest, size=nearest.size * shift)
        if other.answered(exact) != exact:
            yield _give(other.answered(exact))


def _later_digits_kept(task: Task) -> Iterator[Written]:
    """4,387 to the nearest hundred is 4,487: the digit rounded up, the later ones left standing."""
    nearest, exact = _told(task)
    if nearest.answered(exact) > exact:
        yield _give(exact + nearest.size)


def _zeros_left_out(task: Task) -> Iterator[Written]:
    """4,387 to the nearest hundred is 44: the hundreds alone, without the zeros after them."""
    nearest, exact = _told(task)
    if nearest.size > 1:
        yield _give(nearest.answered(exact) / nearest.size)


def _not_rounded(task: Task) -> Iterator[Written]:
    """4,387: the number as it was."""
    yield _give(value(task.expression))


SLIPS = (
    Slip("not rounded", "", "common practice, no source", _not_rounded),
    Slip("later digits cut off", "", "common practice, no source", _cut_off),
    Slip("rounded in turn", "", "common practice, no source", _in_turn),
    Slip("rounded up anyway", "", "common practice, no source", _rounded_up_anyway),
    Slip("later digits kept", "", "common practice, no source", _later_digits_kept),
    Slip("zeros left out", "", "common practice, no source", _zeros_left_out),
    Slip("another place", "", "common practice, no source", _another_place),
)
