"""Whole numbers and decimals in one or more operations, remainders read as the question asks.

CCSSM (2010) 3.OA.D.8, 4.OA.A.3, 4.NBT.B, 5.NBT.B, 6.NS.B.3; a fraction of a whole number 4.NF.B.4,
5.NF.B.4; a quotient of whole numbers as a fraction 5.NF.B.3; a percent of a number 6.RP.A.3c.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from fractions import Fraction

from narrate.errors import ExactError
from narrate.exact.tree import Decimal, Expr, Frac, Group, Mixed, Op, Relation, Whole, terms, value
from narrate.solution import moves, operations
from narrate.solution.facts import Fact
from narrate.solution.number_slips import NUMBER_SLIPS
from narrate.solution.product_slips import SHARE_SLIPS
from narrate.solution.relations import why
from narrate.solution.steps import Detail, Step, Work
from narrate.solution.task import Task

SUMMARY = "whole numbers and decimals in one or more operations, with remainders"
STANDARDS = ("3.OA.D.8", "4.OA.A.3", "4.NBT.B", "5.NBT.B", "6.NS.B.3")
SLIPS = (*SHARE_SLIPS, *NUMBER_SLIPS)

CENTS = 2
"""Dollars have so many places; what does not come out in cents would have to be rounded."""

MOST_STEPS = 4
"""A longer expression is not told."""

MOST_AVERAGED = 7
"""As many numbers are added up, one a line, where their mean is asked."""


def recognise(task: Task) -> bool:
    """Operations on whole numbers and decimals, nothing below zero, every line exact."""
    if not isinstance(task.expression, Op) or (task.target and task.decimals):
        return False
    try:
        board = _Board(task=task)
        board.work(task.expression)
    except (_NotSolvedError, ExactError):
        return False
    most = MOST_AVERAGED if _is_mean(task.expression) else MOST_STEPS
    return len(board.steps) <= most + (task.rounding != "")


def _is_mean(expression: Expr) -> bool:
    """Whether a sum of several numbers is divided by how many they are."""
    match expression:
        case Op("÷", Group(inner), Whole(count)):
            added = terms(inner)
            return len(added) == count and all(
                sign > 0 and not isinstance(term, Op) for sign, term in added
            )
        case _:
            return False


def solve(task: Task) -> Work:
    """The expression worked out, one operation a line, then put in the form that is wanted."""
    board = _Board(task=task)
    total = board.work(task.expression)
    result = board.finish(total)
    last = board.steps[-1]
    told = (*last.facts, Fact(name="comes to", args=(task.answer,)))
    board.steps[-1] = replace(last, facts=told)
    return Work(
        steps=tuple(board.steps),
        amounts=tuple((term.sign, term.numeral) for term in task.terms) or ((1, result),),
        total=total,
        result=result,
        size=1,
        check=board.check,
    )


class _NotSolvedError(Exception):
    """The work would leave the numbers that this kind writes."""


@dataclass(slots=True)
class _Board:
    """The work as it grows, and how its last step is looked back at."""

    task: Task
    steps: list[Step] = field(default_factory=list)
    done: dict[Op, Expr] = field(default_factory=dict)
    check: Step | None = None

    def work(self, tree: Expr) -> Expr:
        """A tree worked out, inner operations first, left to right."""
        match tree:
            case Whole() | Decimal():
                return tree
            case Group(inner):
                return self.work(inner)
            case Op("×", Frac() as share, of):
                return self._share(tree, share, self.work(of))
            case Op("÷", left, right) if tree is self.task.expression and self.task.rounding:
                return self._read_remainder(self.work(left), self.work(right))
            case Op(sign, left, right):
                if tree not in self.done:  # the same work is told once
                    numbers = Op(sign, self.work(left), self.work(right))
                    self.done[tree] = self._operate(tree, numbers)
                return self.done[tree]
            case _:
                raise _NotSolvedError

    def _operate(self, tree: Op, numbers: Op) -> Expr:
        """One operation on the numbers that its two sides have come to."""
        exact = value(numbers)
        if exact < 0 or not all(isinstance(n, Whole | Decimal) for n in _sides(numbers)):
            raise _NotSolvedError
        result = self._written(tree, numbers, exact)
        self._add(operations.work_out(numbers, result, **self._why(tree)))
        self.check = operations.inverse(numbers, result)
        return result

    def _written(self, tree: Op, numbers: Op, exact: Fraction) -> Expr:
        decimals = self.task.decimals or any(isinstance(n, Decimal) for n in _sides(numbers))
        money = self.task.money and (tree is self.task.expression or decimals)
        found = operations.number(exact, decimals=decimals, money=money)
        if found is None and self.task.money and not decimals:
            money = self._is_money(tree)
            found = operations.number(exact, decimals=True, money=money)
        left, right = numbers.left, numbers.right
        last = tree is self.task.expression and not decimals
        if found is None and last and isinstance(left, Whole) and isinstance(right, Whole):
            return Frac(left.number, right.number)
        if found is None or (money and operations.places(found) > CENTS):
            raise _NotSolvedError
        return found

    def _is_money(self, tree: Op) -> bool:
        """Whether an operation makes dollars, as the reading tells of it or of the answer."""
        units = [counted.unit for counted in self.task.counted if counted.tree == tree]
        return tree is self.task.expression or not units or units[0] in ("", "dollars")

    def _share(self, tree: Op, share: Frac, of: Expr) -> Expr:
        """A fraction of a whole number: cut in equal parts, and so many of them taken.

        Where the number cannot be cut in whole parts, it is taken so many times and then divided.
        """
        if not isinstance(of, Whole) or share.denominator == 0:
            raise _NotSolvedError
        top, bottom = Whole(share.numerator), Whole(share.denominator)
        details = self._why(tree) | {"share": share, "of": of, "cut": share.denominator}
        cut_first = of.number % share.denominator == 0
        if cut_first:
            one = Whole(of.number // share.denominator)
            self._part(Op("÷", of, bottom), one, "one part", details)
            if share.numerator == 1:
                result: Expr = one
            else:
                result = Whole(one.number * share.numerator)
                self._part(Op("×", top, one), result, "parts", details)
        else:
            times = Whole(of.number * share.numerator)
            exact = Fraction(times.number, share.denominator)
            found = operations.number(exact, decimals=True, money=self.task.money)
            if found is None or (isinstance(found, Decimal) and not self.task.decimals):
                raise _NotSolvedError
            result = found
            if share.numerator != 1:
                self._part(Op("×", top, of), times, "all parts", details)
            self._part(Op("÷", times, bottom), result, "one part of all", details)
        if isinstance(result, Whole) and of.number:
            line = moves.equal(Frac(result.number, of.number), share)
            found_check: dict[str, Detail] = {"how": "share", "line": line, "share": share}
            found_check |= {"result": result, "of": of}
            self.check = Step(move="look back", line=line, details=found_check)
        return result

    def _part(self, operation: Op, result: Expr, role: str, details: dict[str, Detail]) -> None:
        self._add(operations.work_out(operation, result, **details, role=role))

    def _read_remainder(self, total: Expr, size: Expr) -> Expr:
        """The full groups and what is left over, then the one that the question asks for."""
        if not isinstance(total, Whole | Decimal) or not isinstance(size, Whole | Decimal):
            raise _NotSolvedError
        if not value(size):
            raise _NotSolvedError
        step, full, rest = operations.with_remainder(total, size)
        why = self._why(self.task.expression)
        self._add(replace(step, details={**step.details, **why}))
        line = Relation("=", (operations.put_together(size, full, rest), total))
        found: dict[str, Detail] = {"how": "remainder", "line": line, "total": total}
        found |= {"full": full, "rest": rest, "size": size}
        self.check = Step(move="look back", line=line, details=found)
        result = {"up": full + (rest != 0), "down": full, "remainder": rest}[self.task.rounding]
        answer = Whole(result) if isinstance(result, int) else result
        up = moves.equal(Op("+", Whole(full), Whole(1)), Whole(full + 1))
        details: dict[str, Detail] = {"full": full, "rest": rest, "result": answer}
        details |= why | {"rounding": self.task.rounding, "size": size}
        whole = Fact(name="whole things")
        is_up = self.task.rounding == "up" and rest != 0
        self._add(
            Step(
                move="read remainder",
                line=up if is_up else None,
                details=details,
                facts=(whole,),
            )
        )
        return answer

    def _add(self, step: Step) -> None:
        self.steps.append(step)

    def _why(self, tree: Expr) -> dict[str, Detail]:
        """What an operation counts and from which relation it follows, as the reading tells."""
        assert isinstance(tree, Op)
        return why(self.task, tree, first=not self.steps)

    def finish(self, total: Expr) -> Expr:
        """A quotient that is a fraction in the form that is wanted: mixed, in simplest form."""
        result: Expr = total
        if isinstance(result, Frac) and self.task.result == "mixed" and value(result) >= 1:
            step, result = moves.make_mixed(result, result.denominator)
            self.steps.append(step)
        if self.task.simplest and isinstance(result, Frac | Mixed):
            fraction = moves.fraction_of(result)
            if value(fraction).denominator != fraction.denominator:
                step, result = moves.simplify(result)
                self.steps.append(step)
        return result


def _sides(tree: Op) -> tuple[Expr, Expr]:
    return tree.left, tree.right
