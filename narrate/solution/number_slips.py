"""Slips with whole numbers and decimals: wrong rules that pupils follow, each computable.

Numbers S0xx and sources are those of the list of slips that the project keeps. Slips of one
operation are tried on a task that is one operation on two numbers; in a longer one they are tried
on each operation in turn, the rest of the work being done right.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from fractions import Fraction
from math import floor

from narrate.errors import ExactError
from narrate.exact.caption import write
from narrate.exact.parser import parse_expr
from narrate.exact.tree import Decimal, Expr, Frac, Group, Mixed, Op, Operation, Whole, value, walk
from narrate.solution import digit_slips
from narrate.solution.slips import Slip, Written
from narrate.solution.task import Task, as_decimal

Rule = Callable[[Op], Iterator[Fraction]]

_FROM_MEMORY = "Ashlock, from memory"


def _written(amount: Fraction) -> Written:
    return 0, amount.numerator, amount.denominator


def _sides(tree: Expr) -> tuple[Expr, Expr] | None:
    return (tree.left, tree.right) if isinstance(tree, Op) else None


def _opened(tree: Expr) -> Expr:
    return _opened(tree.inner) if isinstance(tree, Group) else tree


def _numeral(amount: Fraction) -> Expr | None:
    if amount < 0:
        return None
    return Whole(int(amount)) if amount.denominator == 1 else as_decimal(amount)


def _gone_wrong(tree: Expr, rule: Rule) -> Iterator[Fraction]:
    """The values of an expression in which one operation is done by a wrong rule."""
    tree = _opened(tree)
    if not isinstance(tree, Op):
        return
    for wrong in _gone_wrong(tree.left, rule):
        if (numeral := _numeral(wrong)) is not None:
            yield from _valued(replace(tree, left=numeral))
    for wrong in _gone_wrong(tree.right, rule):
        if (numeral := _numeral(wrong)) is not None:
            yield from _valued(replace(tree, right=numeral))
    numbers = [_numeral(v) for v in _values(tree)]
    if len(numbers) == 2 and numbers[0] is not None and numbers[1] is not None:
        left, right = (
            _opened(side) if isinstance(_opened(side), Whole | Decimal) else number
            for side, number in zip((tree.left, tree.right), numbers, strict=True)
        )
        yield from rule(Op(tree.sign, left, right))  # type: ignore[arg-type]


def _values(tree: Op) -> Iterator[Fraction]:
    for side in (tree.left, tree.right):
        yield from _valued(side)


def _valued(tree: Expr) -> Iterator[Fraction]:
    try:
        yield value(tree)
    except ExactError:
        return


def _of(rule: Rule) -> Callable[[Task], Iterator[Written]]:
    """A rule of one operation, tried on each operation of a task in turn."""

    def gives(task: Task) -> Iterator[Written]:
        if not task.rounding:
            yield from (_written(v) for v in _gone_wrong(task.expression, rule) if v >= 0)

    return gives


# -- steps left out, taken in another order or read wrongly


def _only_first_step(task: Task) -> Iterator[Written]:
    """3 × 8 − 5 = 24: the answer of the hidden first question."""
    yield from (_written(v) for v in _inner(task.expression))


def _inner(tree: Expr) -> Iterator[Fraction]:
    """The results of the operations inside an expression."""
    tree = _opened(tree)
    for side in _sides(tree) or ():
        yield from _inner(side)
        if isinstance(_opened(side), Op):
            yield from _valued(side)


def _left_to_right(task: Task) -> Iterator[Written]:
    """2 + 3 × 4 = 20: worked strictly from left to right."""
    flat = list(_flat(task.expression))
    if len(flat) < 2:
        return
    total: Expr = flat[0][1]
    for sign, number in flat[1:]:
        total = Group(Op(sign, total, number))
    yield from (_written(v) for v in _valued(total) if v >= 0)


def _multiply_before_divide(task: Task) -> Iterator[Written]:
    """12 ÷ 3 × 2 = 2, or 10 − 3 + 2 = 5: the second operation first."""
    match task.expression:
        case Op("×", Op("÷", first, second), third):
            yield from map(_written, _valued(Op("÷", first, Group(Op("×", second, third)))))
        case Op("+", Op("−", first, second), third):
            yield from map(_written, _valued(Op("−", first, Group(Op("+", second, third)))))


def _flat(tree: Expr) -> Iterator[tuple[Operation, Expr]]:
    """The numbers of an expression in the order they stand, each with the sign before it."""
    if isinstance(tree, Op):
        left = list(_flat(tree.left))
        right = list(_flat(tree.right))
        yield from left
        yield tree.sign, right[0][1]
        yield from right[1:]
    else:
        yield "+", tree


def _parentheses_ignored(task: Task) -> Iterator[Written]:
    """(36 − 12) ÷ 4 + 5 = 38: worked as if there were no parentheses."""
    if any(isinstance(node, Group) for node in walk(task.expression)):
        bare = write(task.expression).replace("(", "").replace(")", "")
        yield from (_written(v) for v in _valued(parse_expr(bare)) if v >= 0)


def _all_added(task: Task) -> Iterator[Written]:
    """6 × 24 − 18 = 48: all numbers added, whatever the story."""
    numerals = [n for n in walk(task.expression) if isinstance(n, Whole | Decimal | Frac | Mixed)]
    if len(numerals) > 2:
        yield _written(sum((value(numeral) for numeral in numerals), Fraction(0)))


def _factors_added(task: Task) -> Iterator[Written]:
    """4 × 4 × 4 = 12: the factors added."""
    ops = [node for node in walk(task.expression) if isinstance(node, Op)]
    if ops and all(op.sign == "×" for op in ops):
        yield from _all_added(task)


def _rest(task: Task) -> tuple[int, Fraction]:
    """The full groups of a division and what is left over."""
    exact = value(task.expression)
    full = floor(exact)
    size = value(task.expression.right) if isinstance(task.expression, Op) else Fraction(0)
    return full, (exact - full) * size


def _remainder_left_out(task: Task) -> Iterator[Written]:
    """1,128 riders, 36 in a bus: 31 buses; those who are left over stay behind."""
    if task.rounding == "up":
        yield _written(Fraction(_rest(task)[0]))


def _group_not_full(task: Task) -> Iterator[Written]:
    """86 jars, 8 in a crate: 11 full crates; what is left over counted as one more."""
    if task.rounding == "down":
        yield _written(Fraction(_rest(task)[0] + 1))


def _remainder_given(task: Task) -> Iterator[Written]:
    """86 jars, 8 in a crate: 6 crates; what is left over for the groups."""
    if task.rounding in ("up", "down"):
        yield _written(_rest(task)[1])


def _groups_given(task: Task) -> Iterator[Written]:
    """50 beans, 7 in a pot, how many are left over: 7; the groups for the remainder."""
    if task.rounding == "remainder":
        yield _written(Fraction(_rest(task)[0]))


def _quotient_given(task: Task) -> Iterator[Written]:
    """86 jars, 8 in a crate: 10.75 or 10 6/8 crates; parts of what comes only whole."""
    if task.rounding:
        exact = value(task.expression)
        yield _written(exact)
        expression = task.expression
        sides = (expression.left, expression.right) if isinstance(expression, Op) else ()
        if sides and all(value(side).denominator == 1 for side in sides):
            total, size = (int(value(side)) for side in sides)
            full, rest = divmod(total, size)
            yield full, rest, size
            yield _written(Fraction(f"{full}.{rest}"))


def _divided_only(task: Task) -> Iterator[Written]:
    """2/3 of 12 = 4 or 6: divided by the denominator only, or by the numerator."""
    match task.expression:
        case Op("×", Frac(top, bottom), of):
            yield from (
                _written(v / number) for v in _valued(of) for number in (bottom, top) if number
            )


def _number_given(task: Task) -> Iterator[Written]:
    """63 − 29 = 29: one of the numbers given back."""
    yield from (_written(v) for _, n in _flat(task.expression) for v in _valued(_opened(n)))


def _number_left_out(task: Task) -> Iterator[Written]:
    """12 + 30 + 8 = 42: one of the numbers left out."""
    terms = task.terms
    if len(terms) > 2:
        for term in terms:
            yield from (_written(v) for v in [task.answer - term.signed] if v > 0)


def _slip(name: str, number: str, source: str, rule: Rule) -> Slip:
    return Slip(name, number, source, _of(rule))


NUMBER_SLIPS: tuple[Slip, ...] = (
    Slip("remainder left out", "S028", "NAEP 1983; Silver et al. 1993, from memory",
         _remainder_left_out),
    Slip("group not full", "S028", "NAEP 1983; Silver et al. 1993, from memory", _group_not_full),
    Slip("remainder given", "S028", "NAEP 1983; Silver et al. 1993, from memory", _remainder_given),
    Slip("groups given", "S028", "NAEP 1983; Silver et al. 1993, from memory", _groups_given),
    Slip("parts of whole things", "S028", "NAEP 1983; Silver et al. 1993, from memory",
         _quotient_given),
    Slip("first step only", "S112", "WWC 2012, from memory", _only_first_step),
    Slip("parentheses ignored", "", "common practice, no source", _parentheses_ignored),
    Slip("left to right", "S086", "Linchevski & Livneh 1999, from memory", _left_to_right),
    Slip("second operation first", "S087", "Karp, Bush & Dougherty 2014, from memory",
         _multiply_before_divide),
    Slip("denominator only divided", "S053", "Hart 1981, from memory", _divided_only),
    _slip("new ten dropped", "S001", _FROM_MEMORY, digit_slips.new_ten_dropped),
    _slip("all regrouping dropped", "S001", _FROM_MEMORY, digit_slips.all_regrouping_dropped),
    _slip("regrouping dropped", "S001", _FROM_MEMORY, digit_slips.regrouping_dropped),
    _slip("always regrouped", "S006", "Brown & Burton 1978, from memory",
          digit_slips.always_regrouped),
    _slip("columns side by side", "S002", _FROM_MEMORY, digit_slips.columns_side_by_side),
    _slip("smaller digit from larger", "S007", "Brown & Burton 1978; VanLehn 1990",
          digit_slips.smaller_from_larger),
    _slip("ten not taken", "S008", "Brown & VanLehn 1980", digit_slips.ten_not_taken),
    _slip("nought where too small", "S014", "VanLehn 1990, from memory",
          digit_slips.zero_where_too_small),
    _slip("one zero only", "S022", _FROM_MEMORY, digit_slips.one_zero_only),
    _slip("no place shift", "S016", _FROM_MEMORY, digit_slips.no_place_shift),
    _slip("tens and ones only", "S021", "Ashlock; Young-Loveridge, from memory",
          digit_slips.tens_and_ones_only),
    _slip("product without regrouping", "S019", _FROM_MEMORY, digit_slips.times_without_regrouping),
    _slip("one part multiplied", "", "common practice, no source", digit_slips.one_part_multiplied),
    _slip("zero missing", "S023", _FROM_MEMORY, digit_slips.zero_missing),
    _slip("written backward", "S024", _FROM_MEMORY, digit_slips.written_backward),
    _slip("digit by digit", "S025", _FROM_MEMORY, digit_slips.digit_by_digit),
    _slip("remainder as decimal", "S026", _FROM_MEMORY, digit_slips.remainder_as_decimal),
    _slip("larger by smaller", "S027", "Bell, Swan & Taylor 1981, from memory",
          digit_slips.larger_by_smaller),
    _slip("lined up at the right", "S060", "Hiebert & Wearne 1985, from memory",
          digit_slips.lined_up_at_the_right),
    _slip("parts apart", "S061", "Brown 1981 (CSMS), from memory", digit_slips.parts_apart),
    _slip("places copied down", "S062", "VanLehn 1990; Hiebert & Wearne 1985, from memory",
          digit_slips.smaller_from_larger_padded),
    _slip("places as in adding", "S064", "Hiebert & Wearne 1985, from memory",
          digit_slips.places_as_in_adding),
    _slip("zero written", "S063", "Brown 1981 (CSMS), from memory", digit_slips.zero_written),
    _slip("point ignored", "S065", "Bell et al. 1981, from memory", digit_slips.point_ignored),
    Slip("factors added", "", "common practice, no source", _factors_added),
    Slip("all numbers added", "S110", "Powell & Fuchs 2018", _all_added),
    _slip("another operation", "S015", "Brown & Burton 1978, from memory",
          digit_slips.other_operation),
    Slip("number left out", "", "common practice, no source", _number_left_out),
    Slip("number given", "", "common practice, no source", _number_given),
)  # fmt: skip
"""Tried in this order; the first that makes a number names it."""
