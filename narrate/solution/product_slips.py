"""Slips in products and quotients of fractions: wrong rules that pupils follow, each computable.

Numbers S0xx and sources are those of the list of slips that the project keeps. A rule of one
operation is tried on each operation of a task in turn, the rest of the work being done right. What
pupils write is given unreduced where the operation is the whole task.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from fractions import Fraction

from narrate.errors import ExactError
from narrate.exact.tree import Decimal, Expr, Frac, Group, Mixed, Op, Whole, value, walk
from narrate.solution.moves import fraction_of
from narrate.solution.number_slips import NUMBER_SLIPS
from narrate.solution.slips import Slip, Written
from narrate.solution.task import Numeral, Task, as_numeral

Rule = Callable[[Op], Iterator[Written]]
"""What a wrong rule makes of one operation on whole numbers, fractions and mixed numbers."""


def _of(rule: Rule) -> Callable[[Task], Iterator[Written]]:
    """A rule of one operation, tried on each operation of a task in turn."""

    def gives(task: Task) -> Iterator[Written]:
        yield from _gone_wrong(task.expression, rule)

    return gives


def _gone_wrong(tree: Expr, rule: Rule) -> Iterator[Written]:
    tree = _opened(tree)
    if not isinstance(tree, Op):
        return
    yield from _inside(tree, rule)
    sides = [_as_number(side) for side in (tree.left, tree.right)]
    if all(side is not None and value(side) > 0 for side in sides):
        left, right = sides
        assert left is not None
        assert right is not None
        yield from rule(Op(tree.sign, left, right))


def _inside(tree: Op, rule: Rule) -> Iterator[Written]:
    """The values of an operation one side of which has come out wrong."""
    for wrong in _numerals(_gone_wrong(tree.left, rule)):
        yield from _reduced(replace(tree, left=wrong))
    for wrong in _numerals(_gone_wrong(tree.right, rule)):
        yield from _reduced(replace(tree, right=wrong))


def _numerals(written: Iterator[Written]) -> Iterator[Numeral]:
    for whole, top, bottom in written:
        if bottom:
            yield as_numeral(whole + Fraction(top, bottom))


def _reduced(tree: Expr) -> Iterator[Written]:
    """What an expression comes to, if that's 0 or more."""
    yield from ((0, v.numerator, v.denominator) for v in _valued(tree) if v >= 0)


def _opened(tree: Expr) -> Expr:
    return _opened(tree.inner) if isinstance(tree, Group) else tree


def _as_number(tree: Expr) -> Numeral | None:
    """A side as it is written, or what it comes to."""
    tree = _opened(tree)
    if isinstance(tree, Whole | Frac | Mixed):
        return tree
    if isinstance(tree, Decimal):
        return None
    found = [v for v in _valued(tree) if v >= 0]
    return as_numeral(found[0]) if found else None


def _valued(tree: Expr) -> Iterator[Fraction]:
    try:
        yield value(tree)
    except ExactError:
        return


def _pair(operation: Op) -> tuple[Frac, Frac]:
    """Both sides as fractions: 2 3/4 as 11/4, and 3 as 3/1."""
    left, right = (_improper(side) for side in (operation.left, operation.right))
    return left, right


def _improper(tree: Expr) -> Frac:
    assert isinstance(tree, Whole | Frac | Mixed)
    part = fraction_of(tree)
    whole = tree.whole if isinstance(tree, Mixed) else 0
    return Frac(whole * part.denominator + part.numerator, part.denominator)


def _is_fraction(tree: Expr) -> bool:
    return isinstance(tree, Frac | Mixed)


def _two_fractions(operation: Op) -> bool:
    return _is_fraction(operation.left) and _is_fraction(operation.right)


def _denominator_kept(operation: Op) -> Iterator[Written]:
    """3/5 × 1/5 = 3/5: numerators multiplied, the common denominator kept."""
    (a, b), (c, d) = (_parts(f) for f in _pair(operation))
    if operation.sign == "×" and _two_fractions(operation) and b == d:
        yield 0, a * c, b


def _parts(fraction: Frac) -> tuple[int, int]:
    return fraction.numerator, fraction.denominator


def _cross_multiplied(operation: Op) -> Iterator[Written]:
    """2/3 × 4/5 = 10/12: each numerator times the other denominator."""
    (a, b), (c, d) = (_parts(f) for f in _pair(operation))
    if operation.sign == "×" and _two_fractions(operation):
        yield 0, a * d, b * c
        yield 0, b * c, a * d


def _both_multiplied(operation: Op) -> Iterator[Written]:
    """3 × 2/5 = 6/15: numerator and denominator multiplied by the whole number."""
    whole, fraction = _whole_and_fraction(operation)
    if operation.sign == "×" and whole and fraction:
        yield 0, whole * fraction.numerator, whole * fraction.denominator


def _denominator_multiplied(operation: Op) -> Iterator[Written]:
    """3 × 2/5 = 2/15: the denominator multiplied by the whole number."""
    whole, fraction = _whole_and_fraction(operation)
    if operation.sign == "×" and whole and fraction:
        yield 0, fraction.numerator, whole * fraction.denominator


def _whole_and_fraction(operation: Op) -> tuple[int, Frac | None]:
    match operation.left, operation.right:
        case (Whole(number), Frac() as fraction) | (Frac() as fraction, Whole(number)):
            return number, fraction
        case _:
            return 0, None


def _divided_only(operation: Op) -> Iterator[Written]:
    """2/3 × 12 = 4 or 6: divided by the denominator only, or by the numerator."""
    whole, fraction = _whole_and_fraction(operation)
    if operation.sign == "×" and fraction and fraction.numerator > 1:
        yield 0, whole, fraction.denominator
        yield 0, whole, fraction.numerator


def _wholes_apart(operation: Op) -> Iterator[Written]:
    """2 1/2 × 3 1/3 = 6 1/6: wholes times wholes, fractions times fractions."""
    left, right = operation.left, operation.right
    if operation.sign == "×" and isinstance(left, Mixed) and isinstance(right, Mixed):
        yield (
            left.whole * right.whole,
            left.numerator * right.numerator,
            left.denominator * right.denominator,
        )


def _whole_part_only(operation: Op) -> Iterator[Written]:
    """4 × 2 1/2 = 8 1/2: only the whole number of the mixed number multiplied."""
    match operation.left, operation.right:
        case (Whole(number), Mixed() as mixed) | (Mixed() as mixed, Whole(number)):
            if operation.sign == "×":
                yield number * mixed.whole, mixed.numerator, mixed.denominator


def _first_inverted(operation: Op) -> Iterator[Written]:
    """2/3 ÷ 4/5 = 12/10, that is 6/5: the first fraction inverted, and not the second."""
    (a, b), (c, d) = (_parts(f) for f in _pair(operation))
    if operation.sign == "÷":
        yield 0, b * c, a * d


def _both_inverted(operation: Op) -> Iterator[Written]:
    """2/3 ÷ 4/5 = 15/8: both fractions inverted."""
    (a, b), (c, d) = (_parts(f) for f in _pair(operation))
    if operation.sign == "÷":
        yield 0, b * d, a * c


def _multiplied(operation: Op) -> Iterator[Written]:
    """2/3 ÷ 4/5 = 8/15: multiplied, with nothing inverted; 6 ÷ 1/2 = 3 with a whole number."""
    (a, b), (c, d) = (_parts(f) for f in _pair(operation))
    if operation.sign == "÷":
        yield 0, a * c, b * d


def _whole_by_denominator(operation: Op) -> Iterator[Written]:
    """6 ÷ 1/2 = 3: the whole number divided by the denominator."""
    match operation:
        case Op("÷", Whole(number), Frac(1, bottom)):
            yield 0, number, bottom


def _shared_by_multiplying(operation: Op) -> Iterator[Written]:
    """1/2 ÷ 3 = 3/2: the numerator multiplied, as if there were more of it."""
    match operation:
        case Op("÷", Frac(top, bottom), Whole(number)):
            yield 0, top * number, bottom


def _added(operation: Op) -> Iterator[Written]:
    """8 × 3/4 = 8 3/4, 6 ÷ 1/2 = 6 1/2: added instead."""
    if operation.sign not in "×÷":
        return
    left, right = operation.left, operation.right
    for whole, fraction in ((left, right), (right, left)):
        if isinstance(whole, Whole) and isinstance(fraction, Frac):
            yield whole.number, fraction.numerator, fraction.denominator
    total = value(left) + value(right)
    yield 0, total.numerator, total.denominator


def _added_across(operation: Op) -> Iterator[Written]:
    """2/3 × 4/5 = 6/8: numerators added, denominators added."""
    (a, b), (c, d) = (_parts(f) for f in _pair(operation))
    if operation.sign == "×" and _two_fractions(operation):
        yield 0, a + c, b + d


def _numerators_added(operation: Op) -> Iterator[Written]:
    """2/3 × 4/5 = 6/15: denominators multiplied, numerators added."""
    (a, b), (c, d) = (_parts(f) for f in _pair(operation))
    if operation.sign == "×" and _two_fractions(operation):
        yield 0, a + c, b * d


def _subtracted(operation: Op) -> Iterator[Written]:
    """3/4 ÷ 1/4 = 2/4: subtracted instead, the smaller from the larger."""
    rest = abs(value(operation.left) - value(operation.right))
    if operation.sign in "×÷" and rest:
        yield 0, rest.numerator, rest.denominator


def _whole_plus_top(operation: Op) -> Iterator[Written]:
    """2 3/4 taken as 5/4: the whole number added to the numerator."""
    yield from _badly_improper(operation, lambda m: m.whole + m.numerator)


def _whole_times_top_plus_bottom(operation: Op) -> Iterator[Written]:
    """2 3/4 taken as 10/4: whole times numerator, plus the denominator."""
    yield from _badly_improper(operation, lambda m: m.whole * m.numerator + m.denominator)


def _badly_improper(operation: Op, top_of: Callable[[Mixed], int]) -> Iterator[Written]:
    sides = [
        Frac(top_of(side), side.denominator) if isinstance(side, Mixed) else _improper(side)
        for side in (operation.left, operation.right)
    ]
    if operation.sign in "×÷" and any(
        isinstance(side, Mixed) for side in (operation.left, operation.right)
    ):
        (a, b), (c, d) = (_parts(side) for side in sides)
        yield (0, a * c, b * d) if operation.sign == "×" else (0, a * d, b * c)


def _slip(name: str, number: str, source: str, rule: Rule) -> Slip:
    return Slip(name, number, source, _of(rule))


_OF_STEPS = (
    "remainder left out",
    "group not full",
    "parts of whole things",
    "first step only",
    "parentheses ignored",
    "left to right",
    "all numbers added",
)
"""Slips of several operations and of a remainder, whatever the numbers are."""

_NO_SOURCE = "common practice, no source"


def _part_as_amount(task: Task) -> Iterator[Written]:
    """48 − 3/8 × 48 = 47 5/8: the part taken off as if it were an amount."""
    match task.expression:
        case Op("−", whole, Op("×", Frac() as part, of)) if whole == of:
            left = value(whole) - value(part)
            full, top = divmod(left.numerator, left.denominator)
            yield full, top, left.denominator
        case _:
            return


PRODUCT_SLIPS: tuple[Slip, ...] = (
    *(slip for slip in NUMBER_SLIPS if slip.name in _OF_STEPS),
    _slip("denominator kept", "S037", "Siegler & Pyke 2013; Braithwaite, Pyke & Siegler 2017, "
          "from memory", _denominator_kept),
    _slip("cross-multiplied", "S038", "Ashlock, from memory", _cross_multiplied),
    _slip("whole by denominator", "S041", "Ma 1999; WWC 2010, from memory", _whole_by_denominator),
    _slip("nothing inverted", "S040", "Siegler & Pyke 2013, from memory", _multiplied),
    _slip("first inverted", "S039", "Ashlock; Braithwaite et al. 2017, from memory",
          _first_inverted),
    _slip("both parts multiplied", "S042", "Ashlock, from memory", _both_multiplied),
    _slip("wholes apart", "S050", "Ashlock, from memory", _wholes_apart),
    _slip("whole added to numerator", "S046", "Ashlock, from memory", _whole_plus_top),
    _slip("whole times numerator", "S047", "Ashlock, from memory", _whole_times_top_plus_bottom),
    _slip("denominator only divided", "S053", "Hart 1981, from memory", _divided_only),
    _slip("only the whole multiplied", "", _NO_SOURCE, _whole_part_only),
    _slip("added instead", "S015", "Brown & Burton 1978, from memory", _added),
    _slip("denominators added too", "S029", "CCSSM (2010) 5.NF.A.2; Siegler et al. 2010",
          _added_across),
    _slip("numerators added", "", _NO_SOURCE, _numerators_added),
    _slip("denominator multiplied", "", _NO_SOURCE, _denominator_multiplied),
    _slip("multiplied to share", "", _NO_SOURCE, _shared_by_multiplying),
    _slip("both inverted", "", _NO_SOURCE, _both_inverted),
    _slip("subtracted instead", "", _NO_SOURCE, _subtracted),
    *(slip for slip in NUMBER_SLIPS if slip.name == "number given"),
)  # fmt: skip
"""Tried in this order; the first that makes a number names it."""


def _where_told(slip: Slip) -> Slip:
    """A slip with a fraction's parts, only where the task tells a fraction: not for 30 ÷ 4 × 2."""

    def gives(task: Task) -> Iterator[Written]:
        if any(isinstance(node, Frac | Mixed) for node in walk(task.expression)):
            yield from slip.gives(task)

    return replace(slip, gives=gives)


SHARE_SLIPS = (
    Slip("part taken as amount", "", "common practice, no source", _part_as_amount),
    *(
        _where_told(slip)
        for slip in PRODUCT_SLIPS
        if slip.name in ("both parts multiplied", "denominator multiplied")
    ),
)
"""Slips of a fraction of a whole number, however it is worked out."""
