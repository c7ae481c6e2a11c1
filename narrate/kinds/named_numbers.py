"""Numbers that are asked for by name, found in steps: multiples and factors that numbers share, the
middle of data, roots, digits and their places.

CCSSM (2010) 4.NBT.A.1, 5.NBT.A.1 (digits), 6.NS.B.4 (factors and multiples), 6.SP.B.5c (data),
8.EE.A.2 (roots); a range is common practice, no source.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator
from fractions import Fraction
from itertools import pairwise
from math import gcd, lcm

from narrate.exact.tree import (
    Decimal,
    Expr,
    Group,
    Op,
    Relation,
    Whole,
    leaves,
    value,
    write_sum,
)
from narrate.kinds import _named_steps as more
from narrate.kinds._named_slips import SLIPS as SLIPS
from narrate.kinds._named_steps import step, written
from narrate.kinds._places import PLACES
from narrate.reading.demands import Named
from narrate.solution.facts import Fact
from narrate.solution.operations import number, with_remainder
from narrate.solution.steps import Detail, Step, Work
from narrate.solution.task import Task

SUMMARY = "the least common multiple, greatest common factor, mean, median, mode, range, a digit"
STANDARDS = ("4.NBT.A.1", "5.NBT.A.1", "6.NS.B.4", "6.SP.B.5c", "8.EE.A.2")
TAKES = Named

_LONGEST = 12
"""So many multiples of a number are listed at most."""
_MOST_FACTORS = 12


def recognise(task: Task) -> bool:
    """Whole numbers and decimals of 0 or more, with lists that are short enough to be read."""
    demand = _demand(task)
    if demand.name == "opposite":
        return True
    if demand.name in _ANY_NUMBERS:
        return task.answer >= 0
    numbers = all(isinstance(tree, Whole | Decimal) for tree in demand.of)
    if not numbers or demand.name not in _STEPS or task.answer < 0:
        return False
    match demand.name:
        case "least common multiple" | "least common denominator":
            return max(task.answer / n for n in _wholes(demand)) <= _LONGEST
        case "greatest common factor":
            return max(len(_factors(n)) for n in _wholes(demand)) <= _MOST_FACTORS
        case "mean" | "median":
            return number(task.answer, decimals=True) is not None
        case _:
            return True


_ANY_NUMBERS = (
    "estimate", "number for the letter", "reciprocal", "value", "fraction", "mixed number",
)  # fmt: skip
"""Of these, other numbers than whole ones and decimals may be named."""


def solve(task: Task) -> Work:
    """The steps that lead to the number; the last of them names it."""
    demand, result = _demand(task), task.expression
    *steps, last = _STEPS[demand.name](demand, result)
    told = Fact(name="comes to", args=(task.answer,))
    last = Step(move=last.move, line=last.line, details=last.details, facts=(*last.facts, told))
    return Work(
        steps=(*steps, last),
        amounts=((1, result),),
        total=result,
        result=result,
        size=1,
        opened=True,
    )


def _demand(task: Task) -> Named:
    assert isinstance(task.demand, Named)
    return task.demand


def _wholes(demand: Named) -> tuple[int, ...]:
    return tuple(int(value(tree)) for tree in demand.of)


def _common_multiple(demand: Named, result: Expr) -> Iterator[Step]:
    numbers, shared = _wholes(demand), lcm(*_wholes(demand))
    for each in numbers:
        values = tuple(range(each, shared + 1, each))
        yield Step(move="multiples of", details={"of": each, "values": values})
    yield step("common multiple", numbers=numbers, result=result)


def _factors(of: int) -> tuple[int, ...]:
    return tuple(n for n in range(1, of + 1) if of % n == 0)


def _common_factor(demand: Named, result: Expr) -> Iterator[Step]:
    numbers = _wholes(demand)
    for each in numbers:
        pairs = [n for n in _factors(each) if n * n <= each]
        line = Relation("=", (Whole(each), *(Op("×", Whole(n), Whole(each // n)) for n in pairs)))
        yield step("factors", line, of=each, values=_factors(each))
    yield step("common factor", shared=_factors(gcd(*numbers)), numbers=numbers, result=result)


def _mean(demand: Named, result: Expr) -> Iterator[Step]:
    total = sum((value(tree) for tree in demand.of), Fraction(0))
    line = Relation("=", (write_sum([(1, tree) for tree in demand.of]), written(total)))
    yield step("all together", line, line=line)
    shared = Relation("=", (Op("÷", written(total), Whole(len(demand.of))), result))
    yield step("shared equally", shared, count=len(demand.of), line=shared, result=result)


def _in_order(demand: Named) -> tuple[Expr, ...]:
    return tuple(sorted(demand.of, key=value))


def _median(demand: Named, result: Expr) -> Iterator[Step]:
    values = _in_order(demand)
    same = any(value(a) == value(b) for a, b in pairwise(values))
    yield step("in order", Relation("≤" if same else "<", values), values=values)
    beside, even = divmod(len(values) - 1, 2)
    if not even:
        yield step("middle", result=result, beside=beside)
        return
    low, high = values[beside], values[beside + 1]
    line = Relation("=", (Op("÷", Group(Op("+", low, high)), Whole(2)), result))
    yield step("middle of both", line, low=low, high=high, line=line, result=result)


def _mode(demand: Named, result: Expr) -> Iterator[Step]:
    counts = Counter(map(value, demand.of))
    others = max((n for amount, n in counts.items() if amount != value(result)), default=0)
    yield step("most often", result=result, count=counts[value(result)], others=others)


def _range(demand: Named, result: Expr) -> Iterator[Step]:
    least, *_, greatest = _in_order(demand)
    yield step("ends", least=least, greatest=greatest)
    line = Relation("=", (Op("−", greatest, least), result))
    yield step("apart", line, line=line, result=result)


def _root(demand: Named, result: Expr) -> Iterator[Step]:
    line = Relation("=", (Op("×", result, result), demand.of[0]))
    yield step("root", line, line=line, result=result, of=demand.of[0])


def _rest(demand: Named, result: Expr) -> Iterator[Step]:
    total, size = demand.of
    assert isinstance(total, Whole)
    assert isinstance(size, Whole)
    found, full, rest = with_remainder(total, size)
    units: dict[str, Detail] = {"units": ("", ""), "unit": ""}
    yield Step(move=found.move, line=found.line, details={**found.details, **units})
    yield step("rest", result=rest, full=full, size=size)


def _digits(tree: Expr) -> dict[Fraction, int]:
    """The digits of a number by what one of each place is worth."""
    assert isinstance(tree, Whole | Decimal)
    whole = str(int(value(tree)))
    found = {Fraction(10) ** (len(whole) - 1 - n): int(d) for n, d in enumerate(whole)}
    part = tree.places if isinstance(tree, Decimal) else ""
    return found | {Fraction(1, 10 ** (n + 1)): int(d) for n, d in enumerate(part)}


def _worth(demand: Named, result: Expr) -> Iterator[Step]:
    digit, of = demand.of
    digits = _digits(of)
    size = next(size for size, found in digits.items() if found == int(value(digit)))
    line = Relation("=", (Op("×", digit, written(size)), result))
    yield step("place of", digit=digit, of=of, place=PLACES[size])
    yield step("worth", line, digit=digit, place=PLACES[size], line=line, result=result)


def _digit(demand: Named, result: Expr) -> Iterator[Step]:
    (of,) = demand.of
    parts = [(size, n) for size, n in _digits(of).items() if n]
    apart = tuple(written(size * n) for size, n in parts)
    line = Relation("=", (of, write_sum([(1, tree) for tree in apart]))) if len(apart) > 1 else None
    place = demand.place.removesuffix("s") + "s"
    yield step("digit", line, of=of, place=place, result=result)


def _estimate(demand: Named, result: Expr) -> Iterator[Step]:
    """Every number rounded, each of them once; then the work with these."""
    work, rounded = demand.of
    pairs = dict.fromkeys(zip(leaves(work), leaves(rounded), strict=True))
    for old, new in pairs:
        if value(old) != value(new):
            line = Relation("≈", (old, new))
            yield step("rounded", line, number=old, rounded=new)
    line = Relation("=", (rounded, result))
    yield step("about", line, line=line, work=work, result=result)


_STEPS: dict[str, Callable[[Named, Expr], Iterator[Step]]] = {
    "least common multiple": _common_multiple,
    "greatest common factor": _common_factor,
    "mean": _mean,
    "median": _median,
    "mode": _mode,
    "range": _range,
    "square root": _root,
    "least common denominator": _common_multiple,
    "fraction": more.as_fraction,
    "mixed number": more.as_fraction,
    "part as a fraction": more.part_of,
    "reciprocal": more.reciprocal,
    "opposite": more.opposite,
    "power below zero": more.small_power,
    "power of zero": more.zero_power,
    **dict.fromkeys(
        (
            f"number of {what}"
            for what in ("faces", "edges", "vertices", "corners", "sides", "angles")
        ),
        more.known_parts,
    ),
    "value": more.absolute,
    "amount of money": more.coins,
    "surface area": more.surface,
    "number for the letter": more.letter,
    "hypotenuse": more.longest_side,
    "leg of a right triangle": more.other_leg,
    "remainder": _rest,
    "value of a digit": _worth,
    "digit in a place": _digit,
    "estimate": _estimate,
}
