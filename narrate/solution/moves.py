"""Moves that kinds share: each makes one step from computed values.

A move's name is the name of its sentence templates; `details` are all that the sentences may say.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import lcm
from typing import Literal

from narrate.errors import ExactError
from narrate.exact.tree import Expr, Frac, Mixed, Neg, Op, Over, Relation, Whole, value, write_sum
from narrate.solution.facts import Fact
from narrate.solution.figures import Layer
from narrate.solution.steps import MultiplesList, Step
from narrate.solution.task import Numeral, as_numeral, mixed, over

Signed = Sequence[tuple[int, Expr]]

LONGEST_LIST = 12
"""Multiples listed for one denominator; past that the larger denominator's list is shown alone."""

LONGEST_SINGLE_LIST = 40
"""Multiples listed where the largest denominator's list is shown alone."""


def equal(*sides: Expr) -> Relation:
    """Sides joined by equals signs."""
    return Relation("=", sides)


def multiples(of: int, to: int) -> MultiplesList:
    """The multiples of a number up to and with `to`."""
    return MultiplesList(of=of, values=tuple(range(of, to + 1, of)))


def one_size(denominators: Sequence[int]) -> Step:
    """Why pieces of two sizes cannot be counted together."""
    return Step(
        move="one size",
        details={"sizes": tuple(denominators)},
        facts=(Fact(name="one size"),),
    )


def list_multiples(denominators: Sequence[int]) -> Step:
    """Multiples of every denominator, listed until the first that all share."""
    size = lcm(*denominators)
    lists = tuple(multiples(number, size) for number in sorted(denominators, reverse=True))
    return Step(
        move="multiples",
        details={"sizes": tuple(m.of for m in lists), "size": size},
        lists=lists,
    )


def list_largest(denominators: Sequence[int]) -> Step:
    """Multiples of the largest denominator alone, until the others divide one."""
    size, largest = lcm(*denominators), max(denominators)
    others = tuple(number for number in denominators if number != largest)
    return Step(
        move="multiples of the largest",
        details={"largest": largest, "others": others, "size": size},
        lists=(multiples(largest, size),),
    )


def multiple_of_largest(denominators: Sequence[int]) -> Step:
    """The multiple of the largest denominator that the others divide, its list being too long."""
    size, largest = lcm(*denominators), max(denominators)
    line = equal(Op("×", Whole(largest), Whole(size // largest)), Whole(size))
    return Step(
        move="multiple of the largest",
        line=line,
        details={
            "largest": largest,
            "others": tuple(number for number in denominators if number != largest),
            "size": size,
            "product": line,
        },
    )


def multiply_denominators(denominators: Sequence[int], size: int) -> Step:
    """The product of the denominators as a common denominator."""
    product: Expr = Whole(denominators[0])
    for number in denominators[1:]:
        product = Op("×", product, Whole(number))
    line = equal(product, Whole(size))
    return Step(
        move="product",
        line=line,
        details={"sizes": tuple(denominators), "size": size, "product": line},
    )


def larger_serves(denominators: Sequence[int]) -> Step:
    """One denominator is a multiple of the others, so it serves for all."""
    size = max(denominators)
    others = tuple(number for number in denominators if number != size)
    return Step(move="larger", details={"size": size, "others": others})


def scaled(fraction: Frac, size: int) -> Relation:
    """The line 3/4 = (3 × 5)/(4 × 5) = 15/20."""
    return by_factor(fraction, "×", size // fraction.denominator)


def by_factor(fraction: Frac, sign: Literal["×", "÷"], factor: int) -> Relation:
    """A fraction, both its numbers by one factor, and what that makes: 8/12 = (8 ÷ 4)/(12 ÷ 4)."""
    top, bottom = (
        Op(sign, Whole(number), Whole(factor))
        for number in (fraction.numerator, fraction.denominator)
    )
    return equal(fraction, Over(top, bottom), Frac(int(value(top)), int(value(bottom))))


def rewrite(numeral: Numeral, size: int, layers: Sequence[Layer] = ()) -> Step:
    """One amount's fraction counted in smaller pieces: numerator and denominator times one factor.

    `size` is a multiple of its denominator.
    """
    fraction = fraction_of(numeral)
    rewritten = with_fraction(numeral, over(value(fraction), size))
    return Step(
        move="rewrite",
        line=equal(numeral, rewritten),
        shown=scaled(fraction, size),
        details={
            "fraction": fraction,
            "equal": over(value(fraction), size),
            "old": fraction.denominator,
            "size": size,
            "factor": size // fraction.denominator,
            "count": fraction.numerator,
            "new_count": fraction.numerator * size // fraction.denominator,
        },
        layers=tuple(layers),
    )


def fraction_of(numeral: Numeral) -> Frac:
    """The fraction of a fraction or a mixed number."""
    match numeral:
        case Frac():
            return numeral
        case Mixed(_, numerator, denominator):
            return Frac(numerator, denominator)
        case Whole(number):
            return Frac(number, 1)


def with_fraction(numeral: Numeral, fraction: Frac) -> Numeral:
    """The numeral with another fraction in the place of its own."""
    if isinstance(numeral, Mixed):
        return Mixed(numeral.whole, fraction.numerator, fraction.denominator)
    return fraction


def make_improper(numeral: Mixed) -> Step:
    """A mixed number as a fraction: 2 3/4 = 11/4."""
    size = numeral.denominator
    top = numeral.whole * size + numeral.numerator
    return Step(
        move="improper",
        line=equal(numeral, Frac(top, size)),
        details={
            "mixed": numeral,
            "improper": Frac(top, size),
            "whole": numeral.whole,
            "size": size,
            "from_wholes": numeral.whole * size,
            "count": numeral.numerator,
            "top": top,
        },
    )


def whole_as_pieces(whole: int, size: int) -> Step:
    """A whole number as pieces: 1 = 15/15."""
    return Step(
        move="whole as pieces",
        line=equal(Whole(whole), Frac(whole * size, size)),
        details={"whole": whole, "size": size, "pieces": Frac(whole * size, size)},
    )


def regroup(numeral: Expr, wholes: int, size: int) -> tuple[Step, Numeral]:
    """Some wholes of an amount cut into pieces: 4 1/4 = 3 5/4. Gives the step and the numeral."""
    whole, top = whole_and_top(numeral)
    left, new_top = whole - wholes, top + wholes * size
    regrouped: Numeral = Mixed(left, new_top, size) if left else Frac(new_top, size)
    step = Step(
        move="regroup",
        line=equal(numeral, regrouped),
        details={
            "numeral": numeral,
            "regrouped": regrouped,
            "wholes": wholes,
            "left": left,
            "size": size,
            "from_wholes": wholes * size,
            "count": top,
            "new_count": new_top,
        },
    )
    return step, regrouped


def whole_and_top(numeral: Expr) -> tuple[int, int]:
    """The whole number and the numerator of a numeral as written."""
    match numeral:
        case Whole(number):
            return number, 0
        case Frac(numerator, _):
            return 0, numerator
        case Mixed(whole, numerator, _):
            return whole, numerator
        case _:
            raise ExactError("a whole number, fraction or mixed number was expected")


def join(amounts: Signed, total: Expr, size: int, layers: Sequence[Layer] = ()) -> Step:
    """Pieces of one size counted together or taken away; the pieces keep their size."""
    tops = [(sign, Whole(whole_and_top(tree)[1])) for sign, tree in amounts]
    tops = [(sign, top) for sign, top in tops if top.number] or tops
    wholes = [(sign, Whole(whole_and_top(tree)[0])) for sign, tree in amounts]
    wholes = [(sign, whole) for sign, whole in wholes if whole.number or size == 1]
    amount = value(total)
    return Step(
        move="join",
        line=equal(write_sum(list(amounts)), total),
        details={
            "signs": tuple(sign for sign, _ in tops),
            "tops": tuple(top.number for _, top in tops),
            "top": abs(sum(sign * top.number for sign, top in tops)),
            "counted": _counted(tops),
            "whole_signs": tuple(sign for sign, _ in wholes),
            "wholes": tuple(whole.number for _, whole in wholes),
            "whole": sum(sign * whole.number for sign, whole in wholes),
            "size": size,
            "total": total,
            "below_zero": "yes" if amount < 0 else "",
        },
        facts=(Fact(name="makes", args=(int(amount * size), size)),),
        layers=tuple(layers),
    )


def _counted(tops: Sequence[tuple[int, Whole]]) -> Relation:
    total = sum(sign * top.number for sign, top in tops)
    return equal(write_sum(list(tops)), integer(total))


def integer(number: int) -> Expr:
    """A whole number with its sign."""
    return Whole(number) if number >= 0 else Neg(Whole(-number))


def make_mixed(total: Numeral, size: int) -> tuple[Step, Numeral]:
    """Pieces that fill wholes traded for them: 29/10 = 2 9/10. Gives the step and the numeral."""
    whole, top = whole_and_top(total)
    result = mixed(value(total), size)
    made = top // size
    step = Step(
        move="mixed",
        line=equal(total, result),
        details={
            "total": total,
            "mixed": result,
            "size": size,
            "top": top,
            "made": made,
            "from_wholes": made * size,
            "rest": top - made * size,
            "had": whole,
        },
    )
    return step, result


def simplify(total: Numeral) -> tuple[Step, Numeral]:
    """Numerator and denominator divided by their greatest common factor: 8/12 = 2/3."""
    fraction = fraction_of(total)
    simple = value(fraction)
    factor = fraction.denominator // simple.denominator
    result = (
        Whole(value(total).numerator)
        if simple.denominator == 1
        else with_fraction(total, Frac(simple.numerator, simple.denominator))
    )
    step = Step(
        move="simplify",
        line=equal(total, result),
        shown=by_factor(fraction, "÷", factor),
        details={
            "fraction": fraction,
            "equal": as_numeral(simple),
            "factor": factor,
            "count": fraction.numerator,
            "old": fraction.denominator,
            "size": simple.denominator,
            "new_count": simple.numerator,
        },
        facts=(Fact(name="simplest"),),
    )
    return step, result
