"""Adding and subtracting fractions, mixed and whole numbers: like and unlike denominators.

CCSSM (2010) 4.NF.B.3, 5.NF.A.1, 5.NF.A.2 (and 7.NS.A.1 where an amount is below zero).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from math import prod

from narrate.exact.tree import Expr, Frac, Mixed, Neg, Relation, Whole, value
from narrate.solution import moves, pictures
from narrate.solution.facts import Fact
from narrate.solution.slips import SUM_SLIPS
from narrate.solution.steps import Step, Work
from narrate.solution.task import Numeral, Task, Term, as_expr, over

SUMMARY = "adding and subtracting fractions, mixed numbers and whole numbers"
STANDARDS = ("4.NF.B.3", "5.NF.A.1", "5.NF.A.2")
SLIPS = SUM_SLIPS


def recognise(task: Task) -> bool:
    """A sum of two amounts or more, of whole numbers, fractions and mixed numbers."""
    return len(task.terms) > 1


def solve(task: Task) -> Work:
    """The sum worked out: one size, rewritten, joined, put in the form that is wanted."""
    board = _Board(task=task)
    board.find_size()
    board.rewrite_all()
    ready = len(board.steps)
    total = board.join()
    result = board.finish(total)
    return Work(
        steps=tuple(board.steps),
        amounts=tuple(board.amounts),
        total=total,
        result=result,
        size=board.size,
        board=dict(board.rewritten),
        ready=ready,
    )


@dataclass(slots=True)
class _Board:
    """The work as it grows: steps so far, the common size, the amounts as they now stand.

    `apart` says that wholes and fractions are worked apart, not as improper fractions, `carried`
    that an earlier part has left the rewritten fractions on the board.
    """

    task: Task
    steps: list[Step] = field(default_factory=list)
    size: int = 1
    apart: bool = False
    carried: bool = False
    amounts: list[tuple[int, Expr]] = field(default_factory=list)
    rewritten: dict[Frac, Frac] = field(default_factory=dict)

    def find_size(self) -> None:
        """The size of piece that serves every amount, found in the way that fits."""
        task, sizes = self.task, self.task.denominators
        strip, carried = pictures.strip_size(task), _carried_size(task)
        self.size = strip or carried or task.least_common
        if len(sizes) > 1:
            self.steps.append(moves.one_size(sizes))
        if strip and sizes != (strip,):
            self.steps.append(_read_strip(strip, task))
        elif carried:
            self.steps.append(_carry(task, self.size))
            self.carried = True
            self.steps.extend(pictures.about_strip(task, self.size))
        elif len(sizes) > 1:
            self._find_common(sizes)
        elif sizes:
            self.steps.append(_like_size(self.size))
            self.steps.extend(pictures.about_strip(task, self.size))
        self.apart = _worked_apart(task, self.size)

    def _find_common(self, sizes: tuple[int, ...]) -> None:
        task = self.task
        if "product" in task.ways:
            self.size = prod(sizes)
            self.steps.append(moves.multiply_denominators(sizes, self.size))
        elif "larger" in task.ways and self.size in sizes:
            self.steps.append(moves.larger_serves(sizes))
        elif self.size // min(sizes) <= moves.LONGEST_LIST:
            self.steps.append(moves.list_multiples(sizes))
        else:
            self._find_far(sizes)
        self.steps.extend(pictures.about_strip(task, self.size))

    def _find_far(self, sizes: tuple[int, ...]) -> None:
        """The least common denominator where not every denominator's multiples can be listed.

        It stays the least one: the written answer is counted in it (7/3444, not 14/6888).
        """
        times = self.size // max(sizes)
        if self.size == prod(sizes) and times > moves.LONGEST_LIST:  # such as 1/89 + 1/97
            self.steps.append(moves.multiply_denominators(sizes, self.size))
        elif times > moves.LONGEST_SINGLE_LIST:  # such as 1/82 + 1/84
            self.steps.append(moves.multiple_of_largest(sizes))
        else:
            self.steps.append(moves.list_largest(sizes))

    def rewrite_all(self) -> None:
        """Every amount written in pieces of the common size."""
        for place, term in enumerate(self.task.terms):
            self.amounts.append((term.sign, self._rewrite(place, term)))
        self._regroup_if_needed()
        if self.steps and self.task.denominators:
            last = self.steps[-1]
            self.steps[-1] = _with_facts(last, *self._ready_facts())

    def _rewrite(self, place: int, term: Term) -> Numeral:
        numeral = term.numeral
        if isinstance(numeral, Mixed) and not self.apart:
            self.steps.append(moves.make_improper(numeral))
            numeral = over(value(numeral), numeral.denominator)
        if isinstance(numeral, Whole):
            return self._whole(numeral)
        layers = pictures.recut(self.task, place, self.size)
        fraction = moves.fraction_of(numeral)
        new = over(value(fraction), self.size)
        known = fraction in self.rewritten or self.carried
        if fraction.denominator != self.size and not known:
            self.steps.append(_keeping(moves.rewrite(numeral, self.size, layers), term))
        self.rewritten[fraction] = new
        return moves.with_fraction(numeral, new)

    def _whole(self, numeral: Whole) -> Numeral:
        if self.apart or not self.task.denominators or numeral.number == 0:
            return numeral
        self.steps.append(moves.whole_as_pieces(numeral.number, self.size))
        return over(value(numeral), self.size)

    def _regroup_if_needed(self) -> None:
        """In a mixed sum with too few pieces to take from, some wholes are cut into pieces."""
        if not self.apart or not self.task.denominators:
            return
        wholes = _wholes_needed(self.task, self.size)
        place = _whole_to_cut(self.task, wholes)
        if wholes and place is not None:
            sign, numeral = self.amounts[place]
            step, regrouped = moves.regroup(numeral, wholes, self.size)
            self.steps.append(step)
            self.amounts[place] = (sign, regrouped)

    def _ready_facts(self) -> Iterator[Fact]:
        yield Fact(name="counted in", args=(self.size,))
        yield Fact(name="amounts", args=tuple(term.signed for term in self.task.terms))

    def join(self) -> Expr:
        """The amounts counted together."""
        total = self._total()
        shown = [tree for _, tree in self.amounts]
        self.steps.extend(pictures.shade_strip(self.task, self.size, shown))
        hops = pictures.hops(self.task, total)
        self.steps.append(moves.join(self.amounts, total, self.size, hops))
        return total

    def _total(self) -> Expr:
        answer = self.task.answer
        if answer < 0:
            return Neg(over(-answer, self.size)) if self.size > 1 else as_expr(answer)
        if not self.task.denominators:
            return Whole(int(answer))
        tops = sum(sign * moves.whole_and_top(tree)[1] for sign, tree in self.amounts)
        whole = sum(sign * moves.whole_and_top(tree)[0] for sign, tree in self.amounts)
        if self.apart and whole:
            return Mixed(whole, tops, self.size) if tops else Whole(whole)
        return Frac(tops, self.size)

    def finish(self, total: Expr) -> Expr:
        """The total in the form that is wanted: mixed or improper, in simplest form or not."""
        if isinstance(total, Neg):
            return self._finish_below_zero(total.inner)
        if not isinstance(total, Frac | Mixed):
            return total
        result: Numeral = total
        top = moves.fraction_of(total).numerator
        if self.task.result == "mixed" or isinstance(total, Mixed):
            if top >= self.size:
                step, result = moves.make_mixed(total, self.size)
                self.steps.append(step)
            if self.task.result == "improper" and isinstance(result, Mixed):
                self.steps.append(moves.make_improper(result))
                result = over(value(result), self.size)
        if self.task.simplest:
            result = self._simplify(result)
        return result

    def _finish_below_zero(self, size: Expr) -> Expr:
        """An amount below zero changes its form as its size does, each line with its sign."""
        before = len(self.steps)
        result = self.finish(size)
        self.steps[before:] = [_opposite(step) for step in self.steps[before:]]
        return Neg(result)

    def _simplify(self, result: Numeral) -> Numeral:
        if isinstance(result, Whole):
            return result
        fraction = moves.fraction_of(result)
        if value(fraction).denominator == fraction.denominator:
            return result
        step, simple = moves.simplify(result)
        self.steps.append(step)
        return simple


def _worked_apart(task: Task, size: int) -> bool:
    """Whether wholes and fractions are worked apart: it fits the answer's form and it can be."""
    if not task.natural or not any(term.whole for term in task.terms):
        return False
    needed = _wholes_needed(task, size)
    if _whole_to_cut(task, needed) is None or _wholes(task) < needed:
        return False
    if "mixed" in task.ways or "improper" in task.ways:
        return "mixed" in task.ways
    return task.result == "mixed"


def _wholes(task: Task) -> int:
    """The whole numbers of a task alone, with their signs: −1 for 9/4 − 1."""
    return sum(term.sign * term.whole for term in task.terms)


def _wholes_needed(task: Task, size: int) -> int:
    """How many wholes must be cut into pieces before the pieces can be taken away."""
    pieces = sum(
        term.sign * over(value(fraction), size).numerator
        for term in task.terms
        if (fraction := term.fraction)
    )
    return max(0, -(pieces // size))


def _whole_to_cut(task: Task, wholes: int) -> int | None:
    """The place of the first amount that has so many wholes to cut."""
    places = (k for k, t in enumerate(task.terms) if t.sign > 0 and t.whole >= wholes)
    return next(places, None)


def _opposite(step: Step) -> Step:
    line, shown = (
        Relation(written.sign, tuple(Neg(side) for side in written.sides))
        if isinstance(written, Relation)
        else written
        for written in (step.line, step.shown)
    )
    return replace(step, line=line, shown=shown)


def _with_facts(step: Step, *facts: Fact) -> Step:
    return replace(step, facts=(*step.facts, *facts))


def _keeping(step: Step, term: Term) -> Step:
    return _with_facts(step, Fact(name="keeps", args=(term.signed,)))


def _like_size(size: int) -> Step:
    return Step(move="like size", details={"size": size}, facts=(Fact(name="one size"),))


def _carried_size(task: Task) -> int | None:
    """The size in which an earlier part has left every fraction of a task, if it has."""
    fractions = [term.fraction for term in task.terms if term.fraction]
    if len(set(task.denominators)) < 2 or any(f not in task.carried for f in fractions):
        return None
    sizes = {task.carried[f].denominator for f in fractions}
    return sizes.pop() if len(sizes) == 1 else None


def _carry(task: Task, size: int) -> Step:
    """The equivalent fractions that an earlier part left on the board, used again."""
    pairs = tuple(
        moves.equal(f, task.carried[f])
        for f in dict.fromkeys(term.fraction for term in task.terms if term.fraction)
        if f.denominator != size
    )
    return Step(move="carried", line=pairs[0], details={"pairs": pairs, "size": size})


def _read_strip(parts: int, task: Task) -> Step:
    """The strip that is given is already cut in pieces that serve."""
    return Step(
        move="read strip",
        details={"size": parts, "others": tuple(d for d in task.denominators if d != parts)},
    )
