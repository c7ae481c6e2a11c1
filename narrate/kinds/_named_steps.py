"""Steps to numbers found by name: fractions, powers, sides, surfaces, coins, letters."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import combinations
from math import gcd

from narrate.exact.tree import (
    Blank,
    Decimal,
    Expr,
    Frac,
    Mixed,
    Op,
    Relation,
    Whole,
    Writing,
    value,
    walk,
    write_sum,
)
from narrate.kinds._places import PLACES
from narrate.reading.demands import Named
from narrate.reading.words.by_name import linear
from narrate.solution import moves
from narrate.solution.operations import number
from narrate.solution.put_back import put_in
from narrate.solution.steps import Detail, Step
from narrate.solution.task import as_expr


def step(how: str, shown: Writing | None = None, /, **details: Detail) -> Step:
    return Step(move="named", line=shown, details={"how": how, **details})


def written(amount: Fraction) -> Expr:
    found = number(amount, decimals=True)
    assert found is not None
    return found


def as_fraction(demand: Named, result: Expr) -> Iterator[Step]:
    """0.35 = 35/100 = 7/20."""
    (decimal,) = demand.of
    assert isinstance(decimal, Decimal)
    top, size = int(decimal.places), 10 ** len(decimal.places)
    whole = int(decimal.whole)
    first = Mixed(whole, top, size) if whole else Frac(top, size)
    place = PLACES[Fraction(1, size)]
    line = Relation("=", (decimal, first))
    yield step("as fraction", line, of=decimal, line=line, count=top, place=place)
    yield from _simplified(first)


def _simplified(first: Frac | Mixed) -> Iterator[Step]:
    """The step to simplest form, where it is not that already."""
    if value(first) and gcd(first.numerator, first.denominator) > 1:
        yield moves.simplify(first)[0]


def part_of(demand: Named, result: Expr) -> Iterator[Step]:
    part, of = demand.of
    first = Frac(int(value(part)), int(value(of)))
    yield step("part over whole", first, part=part, of=of, first=first)
    yield from _simplified(first)


def reciprocal(demand: Named, result: Expr) -> Iterator[Step]:
    (of,) = demand.of
    line = Relation("=", (Op("×", of, result), Whole(1)))
    yield step("reciprocal", line, of=of, line=line, result=result, one=Whole(1))


def absolute(demand: Named, result: Expr) -> Iterator[Step]:
    """Each number between bars, then what is left to do."""
    *inner, work = demand.of
    for tree in inner:
        made = as_expr(value(tree))
        line = Relation("=", (tree, made)) if made != tree else None
        size = as_expr(abs(value(tree)))
        yield step("distance", line, of=made, line=line or "", size=size)
    if isinstance(work, Op):
        line = Relation("=", (work, result))
        yield step("with distances", line, line=line, result=result)


def opposite(demand: Named, result: Expr) -> Iterator[Step]:
    (of,) = demand.of
    yield step("opposite", of=of, size=as_expr(abs(value(of))), result=result)


def small_power(demand: Named, result: Expr) -> Iterator[Step]:
    """2 to the power −3 is 1 over 2 × 2 × 2."""
    base, to = demand.of
    product: Expr = base
    for _ in range(int(value(to)) - 1):
        product = Op("×", product, base)
    below = as_expr(value(product))
    line = Relation("=", (product, below)) if product != base else None
    yield step("power above zero", line, base=base, to=to, line=line or "", result=below)
    yield step("power below zero", None, base=base, below=below, result=result)


def zero_power(demand: Named, result: Expr) -> Iterator[Step]:
    (base,) = demand.of
    line = Relation("=", (Op("÷", base, base), result))
    yield step("power of zero", line, base=base, line=line, result=result)


def known_parts(demand: Named, result: Expr) -> Iterator[Step]:
    yield step("known parts", what=demand.name.removeprefix("number of "), result=result)


def longest_side(demand: Named, result: Expr) -> Iterator[Step]:
    """9 × 9 + 12 × 12 = 225 = 15 × 15."""
    squares = [Op("×", leg, leg) for leg in demand.of]
    yield from _by_squares(Op("+", *squares), demand, result)


def other_leg(demand: Named, result: Expr) -> Iterator[Step]:
    """13 × 13 − 5 × 5 = 144 = 12 × 12."""
    squares = [Op("×", side, side) for side in demand.of]
    yield from _by_squares(Op("−", *squares), demand, result)


def _by_squares(work: Op, demand: Named, result: Expr) -> Iterator[Step]:
    square = written(value(work))
    apart = Op(work.sign, written(value(work.left)), written(value(work.right)))
    line = Relation("=", (work, apart, square))
    first, second = demand.of
    kept = {"first": first, "second": second, "line": line, "square": square}
    yield step("squares" if work.sign == "+" else "squares apart", line, **kept)
    line = Relation("=", (Op("×", result, result), square))
    yield step("side of square", line, line=line, result=result, of=square)


def coins(demand: Named, result: Expr) -> Iterator[Step]:
    """Each kind of coin by itself, then all of them."""
    made = []
    for count, size in zip(demand.of[::2], demand.of[1::2], strict=True):
        amount = number(value(count) * value(size), decimals=True, money=True)
        assert amount is not None
        made.append(amount)
        line = Relation("=", (Op("×", count, size), amount))
        yield step("coins", line, count=count, size=size, line=line, result=amount)
    total = Relation("=", (write_sum([(1, tree) for tree in made]), result))
    yield step("coins together", total, line=total, result=result)


def surface(demand: Named, result: Expr) -> Iterator[Step]:
    """One face, and all of a cube; of a box, each face with the one across from it."""
    if len(demand.of) == 1:
        (edge,) = demand.of
        face = written(value(edge) ** 2)
        line = Relation("=", (Op("×", edge, edge), face))
        yield step("face", line, line=line, result=face)
        line = Relation("=", (Op("×", Whole(_FACES), face), result))
        yield step("faces", line, line=line, count=_FACES, result=result)
        return
    made = []
    for one, other in combinations(demand.of, 2):
        pair = written(2 * value(one) * value(other))
        made.append(pair)
        line = Relation("=", (Op("×", Op("×", Whole(2), one), other), pair))
        yield step("face pair", line, line=line, first=one, second=other, result=pair)
    line = Relation("=", (write_sum([(1, tree) for tree in made]), result))
    yield step("faces together", line, line=line, result=result)


_FACES = 6


def letter(demand: Named, result: Expr) -> Iterator[Step]:
    """The letter taken from one side, then the number beside it, then one of it found."""
    left, right = demand.of
    name = next(node for node in walk(left) if isinstance(node, Blank))
    (a, b), (c, d) = linear(left), linear(right)
    few = min(a, c)
    close = any(isinstance(node, Op) and node.close for side in demand.of for node in walk(side))
    sides = _side(a - few, b, name, close=close), _side(c - few, d, name, close=close)
    line = Relation("=", sides)
    moved = _times(abs(few), name, close=close)
    yield step(
        "letter moved", line, moved=moved, line=line, name=name, taken="yes" if few > 0 else ""
    )
    times = abs(a - c)
    beside, alone = (b, d) if a > c else (d, b)
    rest = as_expr(alone - beside)
    if beside:
        line = Relation("=", (_times(times, name, close=close), rest))
        number_moved = as_expr(abs(beside))
        taken = "yes" if beside > 0 else ""
        yield step("number moved", line, moved=number_moved, line=line, name=name, taken=taken)
    if times != 1:
        line = Relation("=", (name, Op("÷", rest, as_expr(times)), result))
        yield step("letter alone", line, times=as_expr(times), line=line, name=name, result=result)
    checked = Relation("=", tuple(put_in(side, result) for side in demand.of))
    both = as_expr(value(left, value(result)))
    yield step("letter put in", checked, line=checked, name=name, result=result, both=both)


def _side(times: Fraction, beside: Fraction, name: Blank, *, close: bool) -> Expr:
    """So many times a letter, and a number beside it."""
    if not times:
        return as_expr(beside)
    return write_sum(
        [
            (1, _times(times, name, close=close)),
            *([(1 if beside > 0 else -1, as_expr(abs(beside)))] * (beside != 0)),
        ]
    )


def _times(count: Fraction, name: Blank, *, close: bool) -> Expr:
    """So many times a letter, `close` as the question writes it: 5n."""
    return name if count == 1 else Op("×", as_expr(count), name, close=close)
