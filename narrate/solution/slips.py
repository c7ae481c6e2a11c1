"""Slips: wrong rules that pupils follow, each computable.

Numbers S0xx and sources are those of the list of slips that the project keeps (published error
studies where named; rows marked "from memory" were not looked up again). A slip takes a task and
gives the numbers that pupils who follow the rule write, unreduced; where the rule changes nothing
it gives none.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from math import prod

from narrate.exact.tree import Expr, Frac, Mixed, Over, WithRest, has_blank, value
from narrate.reading.demands import Remainder
from narrate.solution.task import Task, Term

MOST_CHANGE = 100
"""A pupil who adds to or subtracts from numerator and denominator changes them by less than this.

It also keeps a slip's work small where a numerator has twelve digits.
"""

Written = tuple[int, int, int]
"""Whole, numerator, denominator, as a pupil writes it; whole 0 for a fraction."""


@dataclass(frozen=True, slots=True)
class Slip:
    """A named wrong rule. `gives` computes what a pupil who follows it writes."""

    name: str
    number: str
    source: str
    gives: Callable[[Task], Iterator[Written]]


@dataclass(frozen=True, slots=True)
class Made:
    """What the slips of a kind make of a task: each wrong number with the first slip that does."""

    as_written: Mapping[Written, Slip]
    by_value: Mapping[Fraction, Slip]

    def slip(self, tree: Expr) -> Slip | None:
        """The slip that writes a wrong number just so (3/6); else one that makes its value."""
        return self.as_written.get(_written(tree)) or self.by_value.get(value(tree))


_AS_WRITTEN = ("changed by adding", "changed by subtracting")
"""Slips that make nearly any value: only a choice written as they write it is sure to be theirs."""


def made_by(slips: tuple[Slip, ...], task: Task) -> Made:
    """All wrong numbers that slips turn a task into."""
    as_written: dict[Written, Slip] = {}
    by_value: dict[Fraction, Slip] = {}
    for slip in slips:
        for whole, top, bottom in slip.gives(task):
            amount = whole + Fraction(top, bottom) if bottom else task.answer
            if amount != task.answer or _too_large_a_rest(task, top):
                as_written.setdefault((whole, top, bottom), slip)
            if amount != task.answer and slip.name not in _AS_WRITTEN:
                by_value.setdefault(amount, slip)
    return Made(as_written, by_value) if task.target is None else _of_blank(as_written, task.target)


def _too_large_a_rest(task: Task, rest: int) -> bool:
    """Whether a remainder is none: 14 remainder 11, divided by 8, has the value of the answer."""
    return isinstance(task.demand, Remainder) and rest >= task.demand.by


def _of_blank(as_written: Mapping[Written, Slip], target: Over) -> Made:
    """The numbers that slips put in the blank of a fraction: for 4/9 = □/20, by 4/20, four."""
    top, bottom = (None if has_blank(side) else value(side) for side in (target.top, target.bottom))
    by_value: dict[Fraction, Slip] = {}
    for (whole, over, under), slip in as_written.items():
        if not whole and bottom == under:
            by_value.setdefault(Fraction(over), slip)
        elif not whole and top == over:
            by_value.setdefault(Fraction(under), slip)
    return Made({}, by_value)


def _written(tree: Expr) -> Written:
    match tree:
        case Mixed(whole, top, bottom):
            return whole, top, bottom
        case Frac(top, bottom):
            return 0, top, bottom
        case WithRest(quotient, rest, by):
            return quotient, rest, by
        case _:
            return 0, 0, 0  # no slip writes it


def _tops(task: Task) -> list[int]:
    return [term.sign * term.fraction.numerator for term in task.terms if term.fraction]


def _bottoms(task: Task) -> list[int]:
    return [term.fraction.denominator for term in task.terms if term.fraction]


def _wholes(task: Task) -> int:
    return sum(term.sign * term.whole for term in task.terms)


def _two_or_more(task: Task) -> bool:
    return len(_bottoms(task)) > 1


def _add_across(task: Task) -> Iterator[Written]:
    """1/2 + 2/5 = 3/7: numerators together, denominators together."""
    if _two_or_more(task) and task.adds_only:
        yield _wholes(task), sum(_tops(task)), sum(_bottoms(task))
        yield (
            0,
            sum(_as_fraction(t)[0] for t in task.terms),
            sum(_as_fraction(t)[1] for t in task.terms),
        )


def _subtract_across(task: Task) -> Iterator[Written]:
    """5/6 − 1/4 = 4/2: numerators subtracted, denominators subtracted."""
    fractions = [term.fraction for term in task.terms if term.fraction]
    if len(fractions) == 2 and task.takes_only:
        first, second = fractions
        tops = abs(first.numerator - second.numerator)
        yield abs(_wholes(task)), tops, abs(first.denominator - second.denominator)


def _as_fraction(term: Term) -> tuple[int, int]:
    fraction = term.fraction
    if fraction is None:
        return term.whole, 1
    return term.whole * fraction.denominator + fraction.numerator, fraction.denominator


def _not_rescaled(task: Task) -> Iterator[Written]:
    """5/6 + 1/4 = 6/12: the common denominator written, the numerators left as they were."""
    if len(set(_bottoms(task))) > 1:
        yield _wholes(task), sum(_tops(task)), task.least_common


def _denominators_multiplied(task: Task) -> Iterator[Written]:
    """5/6 + 1/4 = 6/24: numerators added, denominators multiplied."""
    if _two_or_more(task):
        yield _wholes(task), sum(_tops(task)), prod(_bottoms(task))


def _larger_denominator_kept(task: Task) -> Iterator[Written]:
    """2/3 + 1/4 = 3/4: numerators added, the larger denominator kept."""
    if len(set(_bottoms(task))) > 1:
        yield _wholes(task), sum(_tops(task)), max(_bottoms(task))


def _smaller_denominator_kept(task: Task) -> Iterator[Written]:
    """2/3 + 1/4 = 3/3: numerators added, the smaller denominator kept."""
    if len(set(_bottoms(task))) > 1:
        yield _wholes(task), sum(_tops(task)), min(_bottoms(task))


def _rescaled_by_adding(task: Task) -> Iterator[Written]:
    """2/3 = 5/6: what the denominator gained is added to the numerator."""
    size = task.least_common
    if len(set(_bottoms(task))) > 1:
        tops = [
            t.sign * (f.numerator + size - f.denominator) for t in task.terms if (f := t.fraction)
        ]
        yield _wholes(task), sum(tops), size


def _one_not_rescaled(task: Task) -> Iterator[Written]:
    """3/4 + 1/5 = 16/20: one numerator rescaled, another left as it was."""
    size = task.least_common
    fractions = [(t.sign, f) for t in task.terms if (f := t.fraction)]
    for left in range(len(fractions)):
        tops = [
            sign * (f.numerator if k == left else f.numerator * size // f.denominator)
            for k, (sign, f) in enumerate(fractions)
        ]
        if fractions[left][1].denominator != size:
            yield _wholes(task), sum(tops), size


def _whole_plus_top(task: Task) -> Iterator[Written]:
    """2 3/4 = 5/4: the whole number added to the numerator."""
    yield from _badly_improper(task, lambda whole, top, bottom: whole + top)


def _whole_times_top_plus_bottom(task: Task) -> Iterator[Written]:
    """2 3/4 = 10/4: whole times numerator, plus the denominator."""
    yield from _badly_improper(task, lambda whole, top, bottom: whole * top + bottom)


def _badly_improper(task: Task, top_of: Callable[[int, int, int], int]) -> Iterator[Written]:
    if not any(term.whole and term.fraction for term in task.terms):
        return
    total = Fraction(0)
    for term in task.terms:
        fraction = term.fraction
        if fraction is None:
            total += term.signed
        elif term.whole:
            top = top_of(term.whole, fraction.numerator, fraction.denominator)
            total += term.sign * Fraction(top, fraction.denominator)
        else:
            total += term.signed
    yield 0, total.numerator, total.denominator


def _pair(task: Task) -> tuple[Term, Term] | None:
    if len(task.terms) == 2 and task.takes_only:
        return task.terms[0], task.terms[1]
    return None


def _parts(term: Term, size: int) -> tuple[int, int]:
    """The whole number of a term as written and its fraction's numerator over `size`."""
    fraction = term.fraction
    if fraction is None:
        return term.whole, 0
    return term.whole, fraction.numerator * size // fraction.denominator


def _smaller_from_larger(task: Task) -> Iterator[Written]:
    """4 1/4 − 1 3/4 = 3 2/4: the smaller fraction from the larger, whichever stands first."""
    if pair := _pair(task):
        size = task.least_common
        (whole, top), (less_whole, less_top) = (_parts(term, size) for term in pair)
        if top < less_top and pair[0].fraction:
            yield whole - less_whole, less_top - top, size


def _regrouped_as_ten(task: Task) -> Iterator[Written]:
    """4 1/4 − 1 3/4 = 2 8/4: one whole regrouped as ten parts."""
    if pair := _pair(task):
        size = task.least_common
        (whole, top), (less_whole, less_top) = (_parts(term, size) for term in pair)
        if top < less_top:
            yield whole - 1 - less_whole, 10 + top - less_top, size


def _regrouped_not_lowered(task: Task) -> Iterator[Written]:
    """4 1/4 − 1 3/4 = 3 2/4: a whole cut into parts, the whole number left as it was."""
    if pair := _pair(task):
        size = task.least_common
        (whole, top), (less_whole, less_top) = (_parts(term, size) for term in pair)
        if top < less_top:
            yield whole - less_whole, size + top - less_top, size


def _fraction_kept(task: Task) -> Iterator[Written]:
    """6 − 2/5 = 6 2/5 or 4 2/5 for 6 − 2 2/5: wholes subtracted, the fraction carried down."""
    if (pair := _pair(task)) and pair[0].fraction is None and pair[1].fraction:
        fraction = pair[1].fraction
        yield pair[0].whole - pair[1].whole, fraction.numerator, fraction.denominator


def _wholes_left_out(task: Task) -> Iterator[Written]:
    """2 1/5 + 1 3/5 = 4/5: the fractions worked out, the whole numbers forgotten."""
    if any(term.whole for term in task.terms) and _bottoms(task):
        rest = task.answer - _wholes(task)
        if rest > 0:
            yield 0, rest.numerator, rest.denominator


def _whole_not_carried(task: Task) -> Iterator[Written]:
    """1 3/4 + 2 3/4 = 3 2/4: the new whole from the fractions is forgotten."""
    if any(term.whole for term in task.terms) and task.adds_only:
        rest = task.answer - _wholes(task)
        if rest >= 1:
            yield _wholes(task), (rest - int(rest)).numerator, (rest - int(rest)).denominator


def _other_operation(task: Task) -> Iterator[Written]:
    """3/4 − 1/5 = 19/20: added instead of subtracted, or the other way, larger less smaller."""
    if len(task.terms) > 1:
        other = task.terms[0].signed - sum(term.signed for term in task.terms[1:])
        if len(task.terms) == 2 and task.terms[0].signed > 0:  # −6 + 9 is not 15 by taking away
            other = abs(other)
        if other > 0:
            yield 0, other.numerator, other.denominator


def _stopped_early(task: Task) -> Iterator[Written]:
    """1 − 1/3 − 2/5 = 2/3: the work stopped before the last amount."""
    total = task.terms[0].signed
    for term in task.terms[1:-1]:
        total += term.signed
        if total > 0:
            yield 0, total.numerator, total.denominator


def _amount_left_out(task: Task) -> Iterator[Written]:
    """1/2 + 1/3 + 1/4 = 7/12: one amount left out."""
    if len(task.terms) > 2:
        for term in task.terms:
            rest = task.answer - term.signed
            if rest > 0:
                yield 0, rest.numerator, rest.denominator


def _hidden_first_answer(task: Task) -> Iterator[Written]:
    """1 − 1/3 − 2/5 = 11/15: what is taken away in all, not what is left."""
    if task.takes_only and len(task.terms) > 2:
        taken = sum((term.size for term in task.terms[1:]), Fraction(0))
        yield 0, taken.numerator, taken.denominator


def _parts_added_across(task: Task) -> Iterator[Written]:
    """1 − 1/3 − 2/5 = 5/8, or 3/8: the known parts put together across."""
    parts = [term.fraction for term in task.terms[1:] if term.fraction and not term.whole]
    if task.takes_only and 1 < len(parts) == len(task.terms) - 1:
        top, bottom = sum(f.numerator for f in parts), sum(f.denominator for f in parts)
        yield 0, top, bottom
        rest = task.terms[0].size - Fraction(top, bottom)
        if task.terms[0].fraction is None and rest > 0:
            yield 0, task.terms[0].whole * bottom - top, bottom


def _one_amount_given(task: Task) -> Iterator[Written]:
    """3/4 + 1/5 = 3/4: one of the amounts given back as the answer."""
    for term in task.terms:
        if term.size > 0:
            yield 0, term.size.numerator, term.size.denominator


def _simplified_by_subtracting(task: Task) -> Iterator[Written]:
    """6/8 = 4/6: the same number subtracted from numerator and denominator."""
    size = task.least_common
    rest = task.answer - int(task.answer)
    top = rest * size
    if task.simplest and top > 0:
        for less in range(1, min(top.numerator, MOST_CHANGE)):
            yield int(task.answer), top.numerator - less, size - less


MIXED_SLIPS: tuple[Slip, ...] = (
    Slip("whole added to numerator", "S046", "Ashlock, from memory", _whole_plus_top),
    Slip("whole times numerator", "S047", "Ashlock, from memory", _whole_times_top_plus_bottom),
)
"""Slips of writing a mixed number as a fraction."""

SUM_SLIPS: tuple[Slip, ...] = (
    Slip("adds across", "S029", "CCSSM (2010) 5.NF.A.2; Siegler et al. 2010", _add_across),
    Slip("subtracts across", "S030", "Schumacher & Malone 2017", _subtract_across),
    Slip("numerators not rescaled", "S032", "Schumacher & Malone 2017", _not_rescaled),
    Slip("denominators multiplied", "S033", "Ashlock, from memory", _denominators_multiplied),
    Slip("larger denominator kept", "S034", "Schumacher & Malone 2017", _larger_denominator_kept),
    Slip("rescaled by adding", "S035", "Hart 1981, from memory", _rescaled_by_adding),
    Slip("one numerator not rescaled", "S036", "Ashlock, from memory", _one_not_rescaled),
    *MIXED_SLIPS,
    Slip("smaller from larger", "S048", "Ashlock, from memory", _smaller_from_larger),
    Slip("regrouped as ten", "S049", "Ashlock, from memory", _regrouped_as_ten),
    Slip("simplified by subtracting", "S051", "Ashlock, from memory", _simplified_by_subtracting),
    Slip("whole not lowered", "", "common practice, no source", _regrouped_not_lowered),
    Slip("fraction carried down", "", "common practice, no source", _fraction_kept),
    Slip("new whole forgotten", "", "common practice, no source", _whole_not_carried),
    Slip("wholes left out", "", "common practice, no source", _wholes_left_out),
    Slip("other operation", "S015", "Brown & Burton 1978, from memory", _other_operation),
    Slip("answers a first question", "S112", "common practice, no source", _hidden_first_answer),
    Slip("parts added across", "", "common practice, no source", _parts_added_across),
    Slip("stopped early", "S096", "Booth et al. 2013, from memory", _stopped_early),
    Slip("amount left out", "", "common practice, no source", _amount_left_out),
    Slip("smaller denominator kept", "", "common practice, no source", _smaller_denominator_kept),
    Slip("one amount given", "", "common practice, no source", _one_amount_given),
)
