"""Numbers that are asked for by name, found in steps: multiples and factors that numbers share, the
middle of data, roots, digits and their places.

CCSSM (2010) 4.NBT.A.1, 5.NBT.A.1 (digits), 6.NS.B.4 (factors and multiples), 6.SP.B.5c (data),
8.EE.A.2 (roots); a range is common practice, no source.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator
from fractions import Fraction
from itertools import combinations, pairwise
from math import gcd, lcm

from narrate.exact.tree import (
    Blank,
    Decimal,
    Expr,
    Frac,
    Group,
    Mixed,
    Op,
    Relation,
    Whole,
    Writing,
    leaves,
    value,
    walk,
    write_sum,
)
from narrate.kinds._places import PLACES
from narrate.reading.demands import Named
from narrate.reading.words.by_name import linear
from narrate.solution import moves
from narrate.solution.closing import put_in
from narrate.solution.facts import Fact
from narrate.solution.operations import number, with_remainder
from narrate.solution.slips import Slip
from narrate.solution.steps import Detail, Step, Work
from narrate.solution.task import Task, as_expr

SUMMARY = "the least common multiple, greatest common factor, mean, median, mode, range, a digit"
STANDARDS = ("4.NBT.A.1", "5.NBT.A.1", "6.NS.B.4", "6.SP.B.5c", "8.EE.A.2")
TAKES = Named
SLIPS: tuple[Slip, ...] = ()

_LONGEST = 12
"""So many multiples of a number are listed at most."""
_MOST_FACTORS = 12


def recognise(task: Task) -> bool:
    """Whole numbers and decimals of 0 or more, with lists that are short enough to be read."""
    demand = _demand(task)
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


def _step(how: str, shown: Writing | None = None, /, **details: Detail) -> Step:
    return Step(move="named", line=shown, details={"how": how, **details})


def _written(amount: Fraction) -> Expr:
    found = number(amount, decimals=True)
    assert found is not None
    return found


def _common_multiple(demand: Named, result: Expr) -> Iterator[Step]:
    numbers, shared = _wholes(demand), lcm(*_wholes(demand))
    for each in numbers:
        values = tuple(range(each, shared + 1, each))
        yield Step(move="multiples of", details={"of": each, "values": values})
    yield _step("common multiple", numbers=numbers, result=result)


def _factors(of: int) -> tuple[int, ...]:
    return tuple(n for n in range(1, of + 1) if of % n == 0)


def _common_factor(demand: Named, result: Expr) -> Iterator[Step]:
    numbers = _wholes(demand)
    for each in numbers:
        pairs = [n for n in _factors(each) if n * n <= each]
        line = Relation("=", (Whole(each), *(Op("×", Whole(n), Whole(each // n)) for n in pairs)))
        yield _step("factors", line, of=each, values=_factors(each))
    yield _step("common factor", shared=_factors(gcd(*numbers)), numbers=numbers, result=result)


def _mean(demand: Named, result: Expr) -> Iterator[Step]:
    total = sum((value(tree) for tree in demand.of), Fraction(0))
    line = Relation("=", (write_sum([(1, tree) for tree in demand.of]), _written(total)))
    yield _step("all together", line, line=line)
    shared = Relation("=", (Op("÷", _written(total), Whole(len(demand.of))), result))
    yield _step("shared equally", shared, count=len(demand.of), line=shared, result=result)


def _in_order(demand: Named) -> tuple[Expr, ...]:
    return tuple(sorted(demand.of, key=value))


def _median(demand: Named, result: Expr) -> Iterator[Step]:
    values = _in_order(demand)
    same = any(value(a) == value(b) for a, b in pairwise(values))
    yield _step("in order", Relation("≤" if same else "<", values), values=values)
    beside, even = divmod(len(values) - 1, 2)
    if not even:
        yield _step("middle", result=result, beside=beside)
        return
    low, high = values[beside], values[beside + 1]
    line = Relation("=", (Op("÷", Group(Op("+", low, high)), Whole(2)), result))
    yield _step("middle of both", line, low=low, high=high, line=line, result=result)


def _mode(demand: Named, result: Expr) -> Iterator[Step]:
    counts = Counter(map(value, demand.of))
    others = max((n for amount, n in counts.items() if amount != value(result)), default=0)
    yield _step("most often", result=result, count=counts[value(result)], others=others)


def _range(demand: Named, result: Expr) -> Iterator[Step]:
    least, *_, greatest = _in_order(demand)
    yield _step("ends", least=least, greatest=greatest)
    line = Relation("=", (Op("−", greatest, least), result))
    yield _step("apart", line, line=line, result=result)


def _root(demand: Named, result: Expr) -> Iterator[Step]:
    line = Relation("=", (Op("×", result, result), demand.of[0]))
    yield _step("root", line, line=line, result=result, of=demand.of[0])


def _as_fraction(demand: Named, result: Expr) -> Iterator[Step]:
    """0.35 = 35/100 = 7/20."""
    (decimal,) = demand.of
    assert isinstance(decimal, Decimal)
    top, size = int(decimal.places), 10 ** len(decimal.places)
    whole = int(decimal.whole)
    first = Mixed(whole, top, size) if whole else Frac(top, size)
    place = PLACES[Fraction(1, size)]
    line = Relation("=", (decimal, first))
    yield _step("as fraction", line, of=decimal, line=line, count=top, place=place)
    yield from _simplified(first)


def _simplified(first: Frac | Mixed) -> Iterator[Step]:
    """The step to simplest form, where it is not that already."""
    if value(first) and gcd(first.numerator, first.denominator) > 1:
        yield moves.simplify(first)[0]


def _part_of(demand: Named, result: Expr) -> Iterator[Step]:
    part, of = demand.of
    first = Frac(int(value(part)), int(value(of)))
    yield _step("part over whole", first, part=part, of=of, first=first)
    yield from _simplified(first)


def _reciprocal(demand: Named, result: Expr) -> Iterator[Step]:
    (of,) = demand.of
    line = Relation("=", (Op("×", of, result), Whole(1)))
    yield _step("reciprocal", line, of=of, line=line, result=result, one=Whole(1))


def _absolute(demand: Named, result: Expr) -> Iterator[Step]:
    """Each number between bars, then what is left to do."""
    *inner, work = demand.of
    for tree in inner:
        made = as_expr(value(tree))
        line = Relation("=", (tree, made)) if made != tree else None
        size = as_expr(abs(value(tree)))
        yield _step("distance", line, of=made, line=line or "", size=size)
    if isinstance(work, Op):
        line = Relation("=", (work, result))
        yield _step("with distances", line, line=line, result=result)


def _longest_side(demand: Named, result: Expr) -> Iterator[Step]:
    """9 × 9 + 12 × 12 = 225 = 15 × 15."""
    squares = [Op("×", leg, leg) for leg in demand.of]
    yield from _by_squares(Op("+", *squares), demand, result)


def _other_leg(demand: Named, result: Expr) -> Iterator[Step]:
    """13 × 13 − 5 × 5 = 144 = 12 × 12."""
    squares = [Op("×", side, side) for side in demand.of]
    yield from _by_squares(Op("−", *squares), demand, result)


def _by_squares(work: Op, demand: Named, result: Expr) -> Iterator[Step]:
    square = _written(value(work))
    apart = Op(work.sign, _written(value(work.left)), _written(value(work.right)))
    line = Relation("=", (work, apart, square))
    first, second = demand.of
    kept = {"first": first, "second": second, "line": line, "square": square}
    yield _step("squares" if work.sign == "+" else "squares apart", line, **kept)
    line = Relation("=", (Op("×", result, result), square))
    yield _step("side of square", line, line=line, result=result, of=square)


def _coins(demand: Named, result: Expr) -> Iterator[Step]:
    """Each kind of coin by itself, then all of them."""
    made = []
    for count, size in zip(demand.of[::2], demand.of[1::2], strict=True):
        amount = number(value(count) * value(size), decimals=True, money=True)
        assert amount is not None
        made.append(amount)
        line = Relation("=", (Op("×", count, size), amount))
        yield _step("coins", line, count=count, size=size, line=line, result=amount)
    total = Relation("=", (write_sum([(1, tree) for tree in made]), result))
    yield _step("coins together", total, line=total, result=result)


def _surface(demand: Named, result: Expr) -> Iterator[Step]:
    """One face, and all of a cube; of a box, each face with the one across from it."""
    if len(demand.of) == 1:
        (edge,) = demand.of
        face = _written(value(edge) ** 2)
        line = Relation("=", (Op("×", edge, edge), face))
        yield _step("face", line, line=line, result=face)
        line = Relation("=", (Op("×", Whole(_FACES), face), result))
        yield _step("faces", line, line=line, count=_FACES, result=result)
        return
    made = []
    for one, other in combinations(demand.of, 2):
        pair = _written(2 * value(one) * value(other))
        made.append(pair)
        line = Relation("=", (Op("×", Op("×", Whole(2), one), other), pair))
        yield _step("face pair", line, line=line, first=one, second=other, result=pair)
    line = Relation("=", (write_sum([(1, tree) for tree in made]), result))
    yield _step("faces together", line, line=line, result=result)


_FACES = 6


def _letter(demand: Named, result: Expr) -> Iterator[Step]:
    """The letter taken from one side, then the number beside it, then one of it found."""
    left, right = demand.of
    name = next(node for node in walk(left) if isinstance(node, Blank))
    (a, b), (c, d) = linear(left), linear(right)
    few = min(a, c)
    sides = _side(a - few, b, name), _side(c - few, d, name)
    line = Relation("=", sides)
    moved = _times(abs(few), name)
    yield _step(
        "letter moved", line, moved=moved, line=line, name=name, taken="yes" if few > 0 else ""
    )
    times = abs(a - c)
    beside, alone = (b, d) if a > c else (d, b)
    rest = as_expr(alone - beside)
    if beside:
        line = Relation("=", (_times(times, name), rest))
        number_moved = as_expr(abs(beside))
        taken = "yes" if beside > 0 else ""
        yield _step("number moved", line, moved=number_moved, line=line, name=name, taken=taken)
    if times != 1:
        line = Relation("=", (name, Op("÷", rest, as_expr(times)), result))
        yield _step("letter alone", line, times=as_expr(times), line=line, name=name, result=result)
    checked = Relation("=", tuple(put_in(side, result) for side in demand.of))
    both = as_expr(value(left, value(result)))
    yield _step("letter put in", checked, line=checked, name=name, result=result, both=both)


def _side(times: Fraction, beside: Fraction, name: Blank) -> Expr:
    """So many times a letter, and a number beside it."""
    if not times:
        return as_expr(beside)
    return write_sum(
        [
            (1, _times(times, name)),
            *([(1 if beside > 0 else -1, as_expr(abs(beside)))] * (beside != 0)),
        ]
    )


def _times(count: Fraction, name: Blank) -> Expr:
    return name if count == 1 else Op("×", as_expr(count), name)


def _rest(demand: Named, result: Expr) -> Iterator[Step]:
    total, size = demand.of
    assert isinstance(total, Whole)
    assert isinstance(size, Whole)
    step, full, rest = with_remainder(total, size)
    units: dict[str, Detail] = {"units": ("", ""), "unit": ""}
    yield Step(move=step.move, line=step.line, details={**step.details, **units})
    yield _step("rest", result=rest, full=full, size=size)


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
    line = Relation("=", (Op("×", digit, _written(size)), result))
    yield _step("place of", digit=digit, of=of, place=PLACES[size])
    yield _step("worth", line, digit=digit, place=PLACES[size], line=line, result=result)


def _digit(demand: Named, result: Expr) -> Iterator[Step]:
    (of,) = demand.of
    parts = [(size, n) for size, n in _digits(of).items() if n]
    apart = tuple(_written(size * n) for size, n in parts)
    line = Relation("=", (of, write_sum([(1, tree) for tree in apart]))) if len(apart) > 1 else None
    place = demand.place.removesuffix("s") + "s"
    yield _step("digit", line, of=of, place=place, result=result)


def _estimate(demand: Named, result: Expr) -> Iterator[Step]:
    """Every number rounded, each of them once; then the work with these."""
    work, rounded = demand.of
    pairs = dict.fromkeys(zip(leaves(work), leaves(rounded), strict=True))
    for old, new in pairs:
        if value(old) != value(new):
            line = Relation("≈", (old, new))
            yield _step("rounded", line, number=old, rounded=new)
    line = Relation("=", (rounded, result))
    yield _step("about", line, line=line, work=work, result=result)


_STEPS: dict[str, Callable[[Named, Expr], Iterator[Step]]] = {
    "least common multiple": _common_multiple,
    "greatest common factor": _common_factor,
    "mean": _mean,
    "median": _median,
    "mode": _mode,
    "range": _range,
    "square root": _root,
    "least common denominator": _common_multiple,
    "fraction": _as_fraction,
    "mixed number": _as_fraction,
    "part as a fraction": _part_of,
    "reciprocal": _reciprocal,
    "value": _absolute,
    "amount of money": _coins,
    "surface area": _surface,
    "number for the letter": _letter,
    "hypotenuse": _longest_side,
    "leg of a right triangle": _other_leg,
    "remainder": _rest,
    "value of a digit": _worth,
    "digit in a place": _digit,
    "estimate": _estimate,
}
