"""Products and quotients of fractions, mixed and whole numbers; also one inside a sum.

CCSSM (2010) 5.NF.B.4, 5.NF.B.6, 5.NF.B.7 and 6.NS.A.1. A fraction of a whole number that is cut
in whole parts, and a quotient of whole numbers (5.NF.B.3), are arithmetic of whole numbers.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from math import lcm

from narrate.errors import ExactError
from narrate.exact.tree import Expr, Frac, Group, Mixed, Op, Relation, Whole, value, walk
from narrate.kinds import kind_of
from narrate.solution import closing, moves, product_moves, product_pictures
from narrate.solution.product_slips import PRODUCT_SLIPS
from narrate.solution.relations import counted, why
from narrate.solution.steps import Step, Work
from narrate.solution.task import Numeral, Task, over, sum_terms

SUMMARY = "products and quotients of fractions, mixed numbers and whole numbers"
STANDARDS = ("5.NF.B.4", "5.NF.B.6", "5.NF.B.7", "6.NS.A.1")
SLIPS = PRODUCT_SLIPS

MOST_OPERATIONS = 2
"""An expression of more operations is not told."""


def recognise(task: Task) -> bool:
    """One or two operations on amounts above zero, a product or quotient and a fraction in it.

    A quotient whose remainder is read is more than one whole, and nothing else.
    """
    if task.decimals or task.money or task.rounding == "remainder":
        return False
    if task.rounding and value(task.expression) < 1:
        return False
    nodes = [node for node in walk(task.expression) if not isinstance(node, Group | Relation)]
    operations = [node for node in nodes if isinstance(node, Op)]
    if not all(isinstance(node, Op | Whole | Frac | Mixed) for node in nodes):
        return False
    if not 1 <= len(operations) <= MOST_OPERATIONS or not any(o.sign in "×÷" for o in operations):
        return False
    try:
        values = [value(node) for node in nodes]
    except ExactError:
        return False
    fractions = any(isinstance(node, Frac | Mixed) for node in nodes)
    if task.rounding and (len(operations) > 1 or not fractions):
        return False
    return min(values) > 0 and (fractions or any(each.denominator > 1 for each in values))


def solve(task: Task) -> Work:
    """The expression worked out, one operation after another, then put in the form wanted."""
    task = replace(task, expression=_opened(task.expression))
    board = _Board(task=task)
    total = board.work(task.expression)
    result = board.finish(total)
    return Work(
        steps=tuple(board.steps),
        amounts=((1, result),),
        total=total,
        result=result,
        size=total.denominator if isinstance(total, Frac | Mixed) else 1,
        check=board.check,
    )


@dataclass(slots=True)
class _Board:
    """The work as it grows, and how its last operation is looked back at."""

    task: Task
    steps: list[Step] = field(default_factory=list)
    check: Step | None = None
    simplified: bool = False
    """Whether a number was put in simplest form on the way: then the result is, too."""

    def work(self, tree: Expr) -> Numeral:
        """A tree worked out, inner operations first, left to right."""
        match tree:
            case Whole() | Frac() | Mixed():
                return tree
            case Group(inner):
                return self.work(inner)
            case Op(sign, left, right):
                return self._operate(tree, Op(sign, self.work(left), self.work(right)))
            case _:
                raise ExactError("not a product or quotient of fractions")

    def _operate(self, tree: Op, numbers: Op) -> Numeral:
        """One operation on the numbers that its two sides have come to."""
        root = tree is self.task.expression
        numbers = self._in_larger_pieces(tree, numbers)
        if numbers.sign in "+−" or all(isinstance(n, Whole) for n in _sides(numbers)):
            return self._by_its_kind(tree, numbers)
        self._in_turn(tree)
        operation = Op(numbers.sign, *(self._one_fraction(n) for n in _sides(numbers)))
        if all(isinstance(n, Whole) for n in _sides(operation)):
            return self._by_its_kind(tree, operation)
        if Whole(1) in _sides(operation)[operation.sign == "÷" :]:
            return self._by_one(tree, operation)
        turned = numbers.sign == "×" and self._is_turned(tree)
        if numbers.sign == "×":
            result: Numeral = self._multiply(operation, turned=turned)
        else:
            result = self._divide(operation)
        if root and not self.task.rounding:
            last = self.steps[-1]
            self.steps[-1] = replace(last, facts=(*last.facts, product_moves.makes(result)))
        if isinstance(result, Frac) and value(result).denominator == 1 and not self.task.target:
            step, result = moves.make_mixed(result, result.denominator)
            self.steps.append(step)
        if root and self.task.rounding:
            return self._read_part(numbers, result)
        if numbers.sign == "×":
            asked = Op("×", *reversed(_sides(operation))) if turned else operation
            self.check = product_moves.share_back(asked, result)
        else:
            self.check = product_moves.multiply_back(operation, result)
        return result

    def _by_one(self, tree: Op, operation: Op) -> Numeral:
        """Once as much, or all of it in one share: nothing changes."""
        one_left = operation.left == Whole(1) and operation.sign == "×"
        same = operation.right if one_left else operation.left
        assert isinstance(same, Whole | Frac)
        step = product_moves.by_one(operation, same)
        last = tree is self.task.expression
        self.steps.append(replace(step, facts=(product_moves.makes(same),)) if last else step)
        return same

    def _is_turned(self, tree: Op) -> bool:
        """Whether a product says the amount first, and then which part or how many times of it."""
        amount, factor = (counted(self.task, side) for side in _sides(tree))
        return bool(amount and amount.unit and not (factor and factor.unit))

    def _in_larger_pieces(self, tree: Op, numbers: Op) -> Op:
        """The numbers with what was worked out before simplified, where it's easier to go on so.

        3/12 stays before 5/12 is added, for its pieces are those of the other.
        """
        left, right = _sides(numbers)
        if isinstance(_opened(tree.left), Op):
            left = self._simpler(left, right, numbers)
        elif isinstance(_opened(tree.right), Op):
            right = self._simpler(right, left, numbers)
        return Op(numbers.sign, left, right)

    def _simpler(self, worked: Expr, other: Expr, numbers: Op) -> Expr:
        if not isinstance(worked, Frac):
            return worked
        simple, size = value(worked).denominator, _size_of(other)
        fewer = lcm(simple, size) < lcm(worked.denominator, size)
        if simple == worked.denominator or (numbers.sign in "+−" and not fewer):
            return worked
        step, result = moves.simplify(worked)
        self.simplified = True
        self.steps.append(replace(step, facts=()))
        return result

    def _read_part(self, numbers: Op, result: Numeral) -> Whole:
        """The full groups, and what the question makes of a part of another."""
        if isinstance(result, Frac):
            step, result = moves.make_mixed(result, result.denominator)
            self.steps.append(step)
        self.steps.append(product_moves.read_part(result, self.task.rounding))
        self.check = product_moves.groups_back(numbers, int(value(result)))
        return Whole(int(self.task.answer))

    def _in_turn(self, tree: Op) -> None:
        """Why this operation comes now, where there are several."""
        if any(
            isinstance(node, Op) for side in _sides(self.task.expression) for node in walk(side)
        ):
            details = why(self.task, tree, first=not self.steps)
            details |= {"sign": tree.sign, "left": tree.left, "right": tree.right}
            self.steps.append(Step(move="in turn", details=details))

    def _one_fraction(self, numeral: Expr) -> Whole | Frac:
        """A numeral without wholes beside its fraction: 2 3/4 as 11/4, and 3/1 as 3."""
        assert isinstance(numeral, Whole | Frac | Mixed)
        if isinstance(numeral, Mixed):
            step = moves.make_improper(numeral)
            self.steps.append(step)
            numeral = over(value(numeral), numeral.denominator)
        return (
            Whole(numeral.numerator)
            if isinstance(numeral, Frac) and numeral.denominator == 1
            else numeral
        )

    def _multiply(self, operation: Op, *, turned: bool) -> Frac:
        """A product; where it is `turned`, its first number is what the other is taken of."""
        if isinstance(operation.left, Whole) or isinstance(operation.right, Whole):
            step, result = product_moves.count_copies(
                operation, turned=turned, layers=product_pictures.copies(operation)
            )
            self.steps.append(step)
            return result
        asked = Op("×", *reversed(_sides(operation))) if turned else operation
        ground, taken = product_pictures.pieces_of_pieces(asked)
        self.steps.append(product_moves.cut_again(asked, ground))
        step, result = product_moves.take_pieces(operation, turned=turned, layers=taken)
        self.steps.append(step)
        return result

    def _divide(self, operation: Op) -> Numeral:
        left, right = operation.left, operation.right
        if isinstance(right, Whole):
            step, shared = product_moves.share_pieces(operation, product_pictures.shares(operation))
            self.steps.append(step)
            return shared
        assert isinstance(right, Frac)
        if isinstance(left, Whole) and right.numerator == 1:
            step, whole = product_moves.pieces_in_wholes(
                operation, product_pictures.pieces_in(operation)
            )
            self.steps.append(step)
            return whole
        if "reciprocal" in self.task.ways:
            self.steps.append(product_moves.reciprocal(right))
            step, product = product_moves.times_reciprocal(operation)
            self.steps.append(step)
            return product
        step, result = product_moves.divide_counts(operation, self._one_size(left, right))
        self.steps.append(step)
        return result

    def _one_size(self, left: Expr, right: Frac) -> Op:
        """What is divided and what it is divided by, both in pieces of one size."""
        if isinstance(left, Whole):
            self.steps.append(product_moves.count_wholes(left.number, right.denominator))
            return Op("÷", over(value(left), right.denominator), right)
        assert isinstance(left, Frac)
        size = lcm(left.denominator, right.denominator)
        if left.denominator != right.denominator:
            self.steps.append(product_moves.one_size_to_divide(left, right, size))
        for fraction in (left, right):
            if fraction.denominator != size:
                self.steps.append(moves.rewrite(fraction, size))
        return Op("÷", over(value(left), size), over(value(right), size))

    def _by_its_kind(self, tree: Op, numbers: Op) -> Numeral:
        """A sum of fractions, or an operation on whole numbers, as the kind that it is does it."""
        root = tree is self.task.expression
        task = Task(
            expression=numbers,
            terms=sum_terms(numbers) or (),
            result=self.task.result if root else "improper",
            simplest=self.task.simplest and root,
            ways=self.task.ways,
        )
        kind = kind_of(task)
        assert kind is not None, numbers
        work = kind.solve(task)
        steps = [step if root else replace(step, facts=()) for step in work.steps]
        details = why(self.task, tree, first=not self.steps)
        if steps[0].move != "work":
            self._in_turn(tree)
        self.steps.extend(
            replace(step, details={**step.details, **details}) if step.move == "work" else step
            for step in steps
        )
        self.check = next(iter(closing.look_back(task, work)), None)
        assert isinstance(work.result, Whole | Frac | Mixed)
        return work.result

    def finish(self, total: Numeral) -> Numeral:
        """The result in the form that is wanted, and in the last step what it counts."""
        result = total
        wanted = self.task.simplest or (self.simplified and not self.task.target)
        if wanted and isinstance(result, Frac | Mixed):
            fraction = moves.fraction_of(result)
            if value(fraction).denominator != fraction.denominator:
                step, result = moves.simplify(result)
                self.steps.append(step if self.task.simplest else replace(step, facts=()))
        if isinstance(result, Frac) and self.task.result == "mixed" and value(result) > 1:
            step, result = moves.make_mixed(result, result.denominator)
            self.steps.append(step)
        self._name_unit()
        return result

    def _name_unit(self) -> None:
        last, expression = self.steps[-1], self.task.expression
        assert isinstance(expression, Op)
        details = why(self.task, expression, first=len(self.steps) == 1)
        self.steps[-1] = replace(last, details={**last.details, **details})


def _sides(tree: Expr) -> tuple[Expr, Expr]:
    assert isinstance(tree, Op)
    return tree.left, tree.right


def _size_of(numeral: Expr) -> int:
    assert isinstance(numeral, Whole | Frac | Mixed)
    return moves.fraction_of(numeral).denominator


def _opened(tree: Expr) -> Expr:
    return _opened(tree.inner) if isinstance(tree, Group) else tree
