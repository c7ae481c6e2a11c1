"""Moves of products and quotients with fractions: each makes one step, as those of `moves` do.

CCSSM (2010): a product as so many parts of a partition, and as pieces of pieces (5.NF.B.4); a
quotient with a unit fraction as equal shares or as pieces that fit (5.NF.B.7); a quotient of two
fractions by counting both in pieces of one size (6.NS.A.1).
"""

from __future__ import annotations

from collections.abc import Sequence
from math import lcm

from narrate.exact.tree import Expr, Frac, Mixed, Op, Over, Relation, Whole, value
from narrate.reading.reading import Rounding
from narrate.solution.facts import Fact
from narrate.solution.figures import Layer
from narrate.solution.moves import equal, fraction_of
from narrate.solution.steps import Detail, Step
from narrate.solution.task import Numeral, mixed, over


def _worked(operation: Op, through: Expr, result: Numeral) -> tuple[Relation, Relation]:
    """The line of an operation, and the same as it is shown, with what it goes through."""
    return equal(operation, result), equal(operation, through, result)


def count_copies(
    operation: Op, *, turned: bool = False, layers: Sequence[Layer] = ()
) -> tuple[Step, Frac]:
    """A fraction taken a whole number of times: 5 × 2/3 is five times two thirds, ten thirds.

    `turned` says that the second number tells how much is taken of the first.
    """
    left, right = operation.left, operation.right
    times, fraction = (left, right) if isinstance(left, Whole) else (right, left)
    assert isinstance(times, Whole)
    assert isinstance(fraction, Frac)
    size = fraction.denominator
    count = times.number * fraction.numerator
    result = Frac(count, size)
    tops = Whole(times.number), Whole(fraction.numerator)
    product = Op("×", *(tops if isinstance(left, Whole) else tops[::-1]))
    line, shown = _worked(operation, Over(product, Whole(size)), result)
    details: dict[str, Detail] = {
        "times": times.number,
        "fraction": fraction,
        "of": "yes" if (fraction is left) != turned and value(fraction) < 1 else "",
        "top": fraction.numerator,
        "size": size,
        "count": count,
        "result": result,
        "product": equal(product, Whole(count)),
    }
    return Step(
        move="count copies", line=line, shown=shown, details=details, layers=tuple(layers)
    ), result


def by_one(operation: Op, result: Whole | Frac) -> Step:
    """A number multiplied or divided by one."""
    line = equal(operation, result)
    details: dict[str, Detail] = {"sign": operation.sign, "line": line, "result": result}
    return Step(move="by one", line=line, details=details)


def cut_again(operation: Op, layers: Sequence[Layer] = ()) -> Step:
    """Why 2/3 × 4/5 counts fifteenths: every fifth is cut in three."""
    share, of = _fractions(operation)
    size = share.denominator * of.denominator
    return Step(
        move="cut again",
        details={
            "share": share,
            "of": of,
            "factor": share.denominator,
            "old": of.denominator,
            "size": size,
            "product": equal(Op("×", Whole(share.denominator), Whole(of.denominator)), Whole(size)),
        },
        layers=tuple(layers),
    )


def take_pieces(
    operation: Op, *, turned: bool = False, layers: Sequence[Layer] = ()
) -> tuple[Step, Frac]:
    """So many of the small pieces from each of the larger: 2/3 × 4/5 = (2 × 4)/(3 × 5) = 8/15.

    `turned` says that the second number tells how much is taken of the first.
    """
    left, right = _fractions(operation)
    share, of = (right, left) if turned else (left, right)
    top = Op("×", Whole(left.numerator), Whole(right.numerator))
    bottom = Op("×", Whole(left.denominator), Whole(right.denominator))
    result = Frac(share.numerator * of.numerator, share.denominator * of.denominator)
    line, shown = _worked(operation, Over(top, bottom), result)
    details: dict[str, Detail] = {
        "share": share,
        "of": of,
        "each": share.numerator,
        "over": "yes" if share.numerator > share.denominator else "",
        "groups": of.numerator,
        "old": of.denominator,
        "size": result.denominator,
        "count": result.numerator,
        "result": result,
        "product": equal(top, Whole(result.numerator)),
    }
    return Step(
        move="take pieces", line=line, shown=shown, details=details, layers=tuple(layers)
    ), result


def _fractions(operation: Op) -> tuple[Frac, Frac]:
    left, right = operation.left, operation.right
    assert isinstance(left, Frac)
    assert isinstance(right, Frac)
    return left, right


def share_pieces(operation: Op, layers: Sequence[Layer] = ()) -> tuple[Step, Frac]:
    """A fraction in equal shares: 6/7 ÷ 3 = (6 ÷ 3)/7, or every piece cut: 1/2 ÷ 3 = 1/(2 × 3)."""
    fraction, shares = operation.left, operation.right
    assert isinstance(fraction, Frac)
    assert isinstance(shares, Whole)
    number, count, old = shares.number, fraction.numerator, fraction.denominator
    even = count % number == 0
    if even:
        result = Frac(count // number, old)
        through = Over(Op("÷", Whole(count), shares), Whole(old))
    else:
        result = Frac(count, old * number)
        through = Over(Whole(count), Op("×", Whole(old), shares))
    line, shown = _worked(operation, through, result)
    details: dict[str, Detail] = {
        "fraction": fraction,
        "shares": number,
        "count": count,
        "old": old,
        "size": result.denominator,
        "new_count": result.numerator,
        "result": result,
        "product": equal(Op("×", Whole(old), shares), Whole(old * number)),
        "line": equal(Op("÷", Whole(count), shares), Whole(result.numerator)) if even else "",
    }
    move = "share pieces" if even else "cut to share"
    return Step(move=move, line=line, shown=shown, details=details, layers=tuple(layers)), result


def pieces_in_wholes(operation: Op, layers: Sequence[Layer] = ()) -> tuple[Step, Whole]:
    """How many unit fractions are in a whole number: 4 ÷ 1/5 = 4 × 5 = 20, five in each whole."""
    wholes, piece = operation.left, operation.right
    assert isinstance(wholes, Whole)
    assert isinstance(piece, Frac)
    through = Op("×", wholes, Whole(piece.denominator))
    result = Whole(wholes.number * piece.denominator)
    line, shown = _worked(operation, through, result)
    details: dict[str, Detail] = {
        "wholes": wholes.number,
        "piece": piece,
        "size": piece.denominator,
        "result": result,
        "product": equal(through, result),
    }
    return Step(
        move="pieces in wholes", line=line, shown=shown, details=details, layers=tuple(layers)
    ), result


def count_wholes(whole: int, size: int) -> Step:
    """A whole number counted in the pieces that it's divided by: 7 ÷ 3/4 is of 28/4."""
    pieces = Frac(whole * size, size)
    details: dict[str, Detail] = {"whole": whole, "size": size, "pieces": pieces}
    line = equal(Whole(whole), pieces)
    return Step(move="count wholes", line=line, details=details)


def one_size_to_divide(first: Frac, second: Frac, size: int) -> Step:
    """Why both are counted in pieces of one size before one is divided by the other."""
    sizes = first.denominator, second.denominator
    return Step(
        move="one size to divide",
        details={"sizes": sizes, "size": size, "first": first, "second": second},
    )


def divide_counts(operation: Op, counted: Op) -> tuple[Step, Numeral]:
    """Pieces of one size divided as numbers: 8/12 ÷ 9/12 = 8 ÷ 9 = 8/9.

    `operation` is what is divided, `counted` the same in pieces of one size.
    """
    first, second = _fractions(counted)
    count, by = first.numerator, second.numerator
    result: Numeral = Whole(count // by) if count % by == 0 else Frac(count, by)
    counts = Op("÷", Whole(count), Whole(by))
    shown = equal(counted, counts, result)
    details: dict[str, Detail] = {
        "operation": operation,
        "first": first,
        "second": second,
        "count": count,
        "by": by,
        "size": first.denominator,
        "result": result,
        "counts": counts,
        "even": "yes" if isinstance(result, Whole) else "",
        "line": equal(counts, result),
    }
    return Step(move="divide counts", line=shown, details=details), result


def reciprocal(by: Frac) -> Step:
    """How often a fraction fits in one whole: 3/4 four thirds times, for 4 ÷ 3 = 4/3."""
    result = _inverted(by)
    line = equal(Op("÷", Whole(1), by), result)
    details: dict[str, Detail] = {
        "by": by,
        "top": by.numerator,
        "size": by.denominator,
        "reciprocal": result,
        "counts": equal(Op("÷", Whole(by.denominator), Whole(by.numerator)), result),
        "line": line,
    }
    return Step(move="reciprocal", line=line, details=details)


def _inverted(fraction: Frac) -> Whole | Frac:
    top, bottom = fraction.denominator, fraction.numerator
    return Whole(top) if bottom == 1 else Frac(top, bottom)


def times_reciprocal(operation: Op) -> tuple[Step, Frac]:
    """A quotient by what is in one whole: 2/3 ÷ 3/4 = 2/3 × 4/3 = (2 × 4)/(3 × 3) = 8/9."""
    amount, by = operation.left, operation.right
    first, second = _numeral(amount), _numeral(by)
    inverse = _inverted(second)
    tops = Op("×", Whole(first.numerator), Whole(second.denominator))
    bottoms = [n for n in (first.denominator, second.numerator) if n > 1]
    bottom = first.denominator * second.numerator
    result = Frac(first.numerator * second.denominator, bottom)
    under: Expr = Op("×", *map(Whole, bottoms)) if len(bottoms) == 2 else Whole(bottom)
    product = Op("×", amount, inverse)
    details: dict[str, Detail] = {
        "amount": amount,
        "by": by,
        "reciprocal": inverse,
        "result": result,
        "line": equal(product, result),
    }
    return Step(
        move="times reciprocal",
        line=equal(operation, product, result),
        shown=equal(operation, product, Over(tops, under), result),
        details=details,
    ), result


def read_part(quotient: Numeral, rounding: Rounding) -> Step:
    """A quotient of 9 1/3 where whole things are asked for: 9 full ones, or 10 for all of it."""
    full = int(value(quotient))
    more = rounding == "up" and value(quotient) != full
    result = Whole(full + 1 if more else full)
    details: dict[str, Detail] = {
        "quotient": quotient,
        "full": full,
        "rounding": rounding,
        "result": result,
    }
    line = equal(Op("+", Whole(full), Whole(1)), result) if more else None
    facts = (Fact(name="whole things"), Fact(name="comes to", args=(result.number,)))
    return Step(move="read part", line=line, details=details | {"line": line or ""}, facts=facts)


def groups_back(operation: Op, full: int) -> Step:
    """Full groups looked back at: 9 × 3/4 is not more than 7, and 10 × 3/4 is."""
    size = operation.right
    line, after = (_taken(size, count) for count in (full, full + 1))
    details: dict[str, Detail] = {
        "how": "groups back",
        "line": line,
        "next": after,
        "first": operation.left,
        "full": full,
    }
    return Step(move="look back", line=line, details=details)


def _taken(size: Expr, count: int) -> Relation:
    amount = value(size) * count
    bottom = _numeral(size).denominator
    return equal(Op("×", Whole(count), size), mixed(amount, bottom))


def _numeral(tree: Expr) -> Frac:
    assert isinstance(tree, Whole | Frac | Mixed)
    return fraction_of(tree)


def makes(result: Numeral) -> Fact:
    """What a product or quotient that ends the work tells of the answer."""
    if isinstance(result, Whole):
        return Fact(name="comes to", args=(result.number,))
    assert isinstance(result, Frac)
    return Fact(name="makes", args=(result.numerator, result.denominator))


def multiply_back(operation: Op, result: Numeral) -> Step:
    """A quotient looked back at: 8/9 × 3/4 = 24/36 = 2/3, which we divided."""
    first, other = operation.left, operation.right
    line = equal(Op("×", result, other), first)
    details: dict[str, Detail] = {
        "how": "multiply back",
        "line": line,
        "result": result,
        "other": other,
    }
    return Step(
        move="look back",
        line=line,
        shown=_through_product(line),
        details={**details, "first": first},
    )


def _through_product(line: Relation) -> Relation:
    """A product's line with what it makes before it is put as it was: 20 × 1/5 = 20/5 = 4."""
    product, first = line.sides
    assert isinstance(product, Op)
    left, right = (_numeral(side) for side in (product.left, product.right))
    top, bottom = left.numerator * right.numerator, left.denominator * right.denominator
    made = Frac(top, bottom) if bottom > 1 else Whole(top)
    return line if made == first else equal(product, made, first)


def share_back(operation: Op, result: Numeral) -> Step:
    """A product looked back at: 8/15 is two of the three equal parts, so three of them are 4/5.

    Where a whole number of copies was taken, one of them is a share of the result: 10/3 ÷ 5 = 2/3.
    """
    left, right = operation.left, operation.right
    if isinstance(left, Whole):
        line = equal(Op("÷", result, left), right)
        return Step(
            move="look back",
            line=line,
            details={"how": "divide back", "line": line, "result": result, "other": left},
        )
    assert isinstance(left, Frac)
    improper = left.numerator > left.denominator
    if improper and left.numerator % left.denominator and isinstance(right, Whole):
        return _taken_apart(left, right, result)
    part = _one_part(result, left.numerator)
    line = equal(Op("×", Whole(left.denominator), part), right)
    details: dict[str, Detail] = {
        "how": "steps back" if improper else "share back" if left.numerator > 1 else "part back",
        "share": left,
        "of": right,
        "taken": left.numerator,
        "parts": left.denominator,
        "result": result,
        "part": part,
        "line": line,
    }
    return Step(move="look back", line=line, shown=_through_product(line), details=details)


def _taken_apart(times: Frac, of: Expr, result: Numeral) -> Step:
    """A product by a number of times that is no whole number, done in two parts.

    9/2 × 8: 4 times 8 is 32 and 1/2 of 8 is 4, which is 36 together.
    """
    whole, top = divmod(times.numerator, times.denominator)
    rest = Frac(top, times.denominator)
    made = [whole * value(of), value(rest) * value(of), value(result)]
    size = lcm(*(each.denominator for each in made))
    first, second, total = (mixed(each, size) for each in made)
    line = equal(Op("+", first, second), total)
    details: dict[str, Detail] = {
        "how": "wholes back",
        "times": mixed(value(times), times.denominator),
        "whole": Whole(whole),
        "rest": rest,
        "of": of,
        "first": first,
        "second": second,
        "line": line,
    }
    return Step(move="look back", line=line, details=details)


def _one_part(amount: Numeral, parts: int) -> Numeral:
    """One of so many equal parts of an amount that is a whole number of them in its own pieces."""
    share = value(amount) / parts
    if share.denominator == 1:
        return Whole(share.numerator)
    size = fraction_of(amount).denominator
    return over(share, size if size % share.denominator == 0 else share.denominator)
