"""One fraction in another writing: a blank numerator or denominator, simplest form, its equals.

CCSSM (2010) 4.NF.A.1 and 5.NF.A.1.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import gcd

from narrate.exact.tree import Frac, Mixed, Relation, Whole, has_blank, value
from narrate.solution import moves
from narrate.solution.facts import Fact
from narrate.solution.slips import MIXED_SLIPS, MOST_CHANGE, Slip, Written
from narrate.solution.steps import Step, Work
from narrate.solution.task import Numeral, Task, over

SUMMARY = "one fraction in another writing, a blank numerator or denominator, simplest form"
STANDARDS = ("4.NF.A.1", "5.NF.A.1")


def recognise(task: Task) -> bool:
    """A single amount, 0 or more."""
    return len(task.terms) == 1 and task.terms[0].sign > 0


def solve(task: Task) -> Work:
    """The amount in simplest form where that is asked; its other writings follow from it."""
    numeral = task.terms[0].numeral
    size = moves.fraction_of(numeral).denominator
    rewritten = [*_rewritten(task, numeral)]
    steps = [_same_amount(numeral, {step.move for step in rewritten}), *rewritten]
    line = steps[-1].line
    result = line.sides[-1] if isinstance(line, Relation) else numeral
    return Work(
        steps=tuple(steps),
        amounts=((1, numeral),),
        total=numeral,
        result=result,
        size=size,
        ready=len(steps),
    )


def _rewritten(task: Task, numeral: Numeral) -> Iterator[Step]:
    """The amount as a mixed number or as one fraction, and in simplest form, as it is wanted."""
    if isinstance(numeral, Mixed) and task.result == "improper":
        yield moves.make_improper(numeral)
        numeral = over(value(numeral), numeral.denominator)
    elif isinstance(numeral, Frac) and task.result == "mixed" and value(numeral) >= 1:
        step, numeral = moves.make_mixed(numeral, numeral.denominator)
        yield step
    fraction = moves.fraction_of(numeral)
    if task.simplest and not isinstance(numeral, Whole) and gcd(*_parts(fraction)) > 1:
        yield moves.simplify(numeral)[0]


def _parts(fraction: Frac) -> tuple[int, int]:
    return fraction.numerator, fraction.denominator


def _same_amount(numeral: Numeral, moved: set[str]) -> Step:
    """Cutting every piece alike changes how many there are, not how much there is.

    Where wholes are only written as pieces, or pieces as wholes, nothing is cut.
    """
    only_written = isinstance(numeral, Whole) or (moved and moved <= {"mixed", "improper"})
    fraction = moves.fraction_of(numeral)
    size = fraction.denominator
    return Step(
        move="same amount",
        details={"amount": numeral, "form": "yes" if only_written else ""},
        facts=(Fact(name="makes", args=(int(value(numeral) * size), size)),),
    )


def _target_sizes(task: Task) -> Iterator[Frac]:
    for term in task.terms:
        if isinstance(term.numeral, Frac):
            yield term.numeral


def _added_to_both(task: Task) -> Iterator[Written]:
    """2/3 = 5/6: the same number added to numerator and denominator."""
    for fraction in _target_sizes(task):
        for change in range(1, MOST_CHANGE):
            yield 0, fraction.numerator + change, fraction.denominator + change


def _subtracted_from_both(task: Task) -> Iterator[Written]:
    """6/8 = 4/6: the same number subtracted from numerator and denominator."""
    for fraction in _target_sizes(task):
        for change in range(1, min(fraction.numerator, MOST_CHANGE)):
            yield 0, fraction.numerator - change, fraction.denominator - change


def _denominator_only(task: Task) -> Iterator[Written]:
    """2/3 = 2/6, or 6/8 = 6/4: only the denominator rescaled."""
    for fraction in _target_sizes(task):
        for factor in range(2, 13):
            yield 0, fraction.numerator, fraction.denominator * factor
            if fraction.denominator % factor == 0:
                yield 0, fraction.numerator, fraction.denominator // factor


def _numerator_only(task: Task) -> Iterator[Written]:
    """2/3 = 4/3, or 6/8 = 3/8: only the numerator rescaled."""
    for fraction in _target_sizes(task):
        for factor in range(2, 13):
            yield 0, fraction.numerator * factor, fraction.denominator
            if fraction.numerator % factor == 0:
                yield 0, fraction.numerator // factor, fraction.denominator


def _multiplier_given(task: Task) -> Iterator[Written]:
    """3/4 = □/20, so 5: the number to multiply or divide by, put in the blank."""
    target = task.target
    for fraction in _target_sizes(task) if target else ():
        assert target is not None
        if has_blank(target.top):
            known, here = int(value(target.bottom)), fraction.denominator
        else:
            known, here = int(value(target.top)), fraction.numerator
        larger, smaller = max(known, here), min(known, here)
        if smaller > 0 and larger % smaller == 0 and larger > smaller:
            factor = larger // smaller
            yield (0, factor, known) if has_blank(target.top) else (0, known, factor)


SLIPS = (
    Slip("changed by adding", "S035", "Hart 1981, from memory", _added_to_both),
    Slip("changed by subtracting", "S051", "Ashlock, from memory", _subtracted_from_both),
    Slip("denominator only", "S036", "Ashlock, from memory", _denominator_only),
    Slip("numerator only", "", "common practice, no source", _numerator_only),
    Slip("multiplier given", "", "common practice, no source", _multiplier_given),
    *MIXED_SLIPS,
)
