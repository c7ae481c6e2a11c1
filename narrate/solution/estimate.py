"""Bounds on an answer before it is worked out, from benchmarks a pupil can see at once.

Each estimate tells facts that hold of the task; one is used only where it decides something: it
rules a choice out, or it tells on which side of a whole the answer lies (CCSSM 2010, 5.NF.A.2).
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

from narrate.exact.tree import Expr
from narrate.solution import number_estimates, product_estimates
from narrate.solution.bounds import HALF, bounded, plain_order
from narrate.solution.steps import Step
from narrate.solution.task import Task, Term, as_expr


def estimates(task: Task, wrong: list[Expr]) -> tuple[Step, ...]:
    """The estimates that decide something, in order. `wrong` holds the wrong choices as trees."""
    used: list[Step] = []
    left = list(wrong)
    for make in _makers(task):
        step = make(task)
        if step is None:
            continue
        still = [tree for tree in left if all(fact.admits(tree) for fact in step.facts)]
        if len(still) < len(left) or _decides_whole(step, wrong):
            used.append(step)
            left = still
    return tuple(used)


def _makers(task: Task) -> tuple[Callable[[Task], Step | None], ...]:
    """The estimates that there are for a task: a sum of fractions, a product of them, numbers."""
    if product_estimates.one_operation(task):
        return _OF_PRODUCTS
    if not any(term.fraction for term in task.terms):
        return _OF_NUMBERS if task.natural else ()
    return _ESTIMATES if task.natural and len(task.terms) > 1 else ()


def _decides_whole(step: Step, wrong: list[Expr]) -> bool:
    """Without choices to rule out, which side of one whole the answer lies is worth knowing."""
    return not wrong and step.move in _TOLD_ALONE and not _is_wide(step)


def _is_wide(step: Step) -> bool:
    """Whether round numbers tell next to nothing: 12 − 7 lies between 3 and 13."""
    if step.move != "estimate rounded":
        return False
    above, below = (step.details[name] for name in ("above", "below"))
    assert isinstance(above, int)
    assert isinstance(below, int)
    return below > 2 * above


_TOLD_ALONE = ("halves", "room", "estimate quotient", "estimate rounded", "estimate how many fit")
"""Estimates that are worth telling where there is no choice to rule out."""


def _joins(task: Task) -> Step | None:
    """A sum is greater than each of its amounts."""
    if not task.adds_only or sum(term.size > 0 for term in task.terms) < 2:
        return None
    largest = max(task.terms, key=lambda term: term.size)
    return bounded("joins", task, above=largest.size, amount=largest.numeral)


def _takes(task: Task) -> Step | None:
    """What is left is less than what was there."""
    if not task.takes_only:
        return None
    first = task.terms[0]
    if not any(term.size for term in task.terms[1:]):
        return None
    return bounded("takes", task, below=first.size, amount=first.numeral)


def _halves(task: Task) -> Step | None:
    """Two fractions both less than one half make less than one whole; both more make more."""
    if not (task.adds_only and len(task.terms) == 2 and _proper(task.terms)):
        return None
    sizes = [term.size for term in task.terms]
    amounts = tuple(term.numeral for term in task.terms)
    if all(size < HALF for size in sizes):
        return bounded("halves", task, below=Fraction(1), side="less", amounts=amounts)
    if all(size > HALF for size in sizes):
        return bounded("halves", task, above=Fraction(1), side="more", amounts=amounts)
    return None


def _room(task: Task) -> Step | None:
    """3/4 leaves room for one fourth: 1/5 fits in it, 1/3 does not."""
    if not (task.adds_only and len(task.terms) == 2 and _proper(task.terms)):
        return None
    for full, more in (task.terms, task.terms[::-1]):
        gap = 1 - full.size
        if gap.numerator == more.size.numerator == 1 and gap != more.size:
            fits = more.size < gap
            return bounded(
                "room",
                task,
                above=full.size if fits else Fraction(1),
                below=Fraction(1) if fits else None,
                amount=full.numeral,
                gap=as_expr(gap),
                gap_size=gap.denominator,
                more=more.numeral,
                more_size=more.size.denominator,
                fits="yes" if fits else "no",
            )
    return None


def _proper(terms: tuple[Term, ...]) -> bool:
    return all(0 < term.size < 1 for term in terms)


def _wholes(task: Task) -> Step | None:
    """The wholes of mixed numbers alone, and one more for each fraction."""
    if not task.adds_only or not any(term.whole for term in task.terms):
        return None
    with_part = [term for term in task.terms if term.size.denominator != 1]
    whole = sum(int(term.size) for term in task.terms)
    if not with_part:
        return None
    return bounded(
        "wholes",
        task,
        above=Fraction(whole),
        below=Fraction(whole + len(with_part)),
        wholes=tuple(int(term.size) for term in task.terms if term.size >= 1),
        whole=whole,
        parts=len(with_part),
    )


def _less_than_a_whole(task: Task) -> Step | None:
    """Taking less than one whole from a whole number leaves more than one whole less."""
    if len(task.terms) != 2 or not task.takes_only:
        return None
    first, second = task.terms
    if first.size.denominator != 1 or not 0 < second.size < 1:
        return None
    return bounded(
        "part of a whole",
        task,
        above=first.size - 1,
        below=first.size,
        first=first.numeral,
        second=second.numeral,
    )


def _wholes_apart(task: Task) -> Step | None:
    """The difference of two mixed numbers lies within one of the difference of their wholes."""
    if len(task.terms) != 2 or not task.takes_only:
        return None
    first, second = (int(term.size) for term in task.terms)
    rests = [term.size - int(term.size) for term in task.terms]
    if second == 0 or not all(rests) or rests[0] == rests[1]:
        return None
    near = Fraction(first - second)
    side = plain_order(*rests)
    return bounded(
        "wholes apart",
        task,
        above=near if side == "more" else near - 1,
        below=near if side == "less" else near + 1,
        first=first,
        second=second,
        near=int(near),
        first_part=as_expr(rests[0]),
        second_part=as_expr(rests[1]),
        side=side,
    )


_ESTIMATES: tuple[Callable[[Task], Step | None], ...] = (
    _room,
    _halves,
    _wholes,
    _less_than_a_whole,
    _wholes_apart,
    _joins,
    _takes,
)

_OF_NUMBERS: tuple[Callable[[Task], Step | None], ...] = (
    number_estimates.rounded,
    number_estimates.quotient,
    _joins,
    _takes,
    number_estimates.last_digit,
)
"""Of whole numbers and decimals."""

_OF_PRODUCTS: tuple[Callable[[Task], Step | None], ...] = (
    product_estimates.rounded,
    product_estimates.how_many_fit,
    product_estimates.first_factor,
    product_estimates.second_factor,
    product_estimates.divisor,
)
"""Of a product or quotient with fractions."""
