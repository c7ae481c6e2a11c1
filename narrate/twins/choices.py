"""The choices of a twin: each made of the fresh numbers as the old one was made of the old."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import islice
from math import lcm
from random import Random

from narrate.exact.caption import write
from narrate.exact.tree import (
    Decimal,
    Expr,
    Frac,
    Group,
    Mixed,
    Money,
    Op,
    Over,
    Relation,
    Whole,
    Writing,
    has_blank,
    value,
)
from narrate.kinds import kind_of
from narrate.lesson.solved import SolvedPart
from narrate.solution.slips import Slip, Written
from narrate.solution.solve import make_task
from narrate.solution.task import Task, as_decimal, sum_terms
from narrate.twins.numerals import Numeral, numerals_of, numerals_put, replaced

MOST_WRITTEN = 40
"""So many numbers are looked at that one slip makes of a task."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Old:
    """The task of an item's part and the same with fresh numbers; the slips of its kind."""

    task: Task
    fresh: Task
    slips: tuple[Slip, ...]

    @classmethod
    def of(cls, solved: SolvedPart, fresh: Mapping[Numeral, Numeral]) -> Old:
        """Both tasks of a solved part."""
        task = make_task(solved.item, solved.part, solved.reading, {})
        kind = kind_of(task)
        assert kind is not None  # for it is solved
        expression = replaced(task.expression, fresh)
        new = replace(
            task,
            expression=expression,
            terms=sum_terms(expression) or (),
            target=replaced(task.target, fresh),
        )
        return cls(task=task, fresh=new, slips=kind.SLIPS)

    def by_slip(self, tree: Expr, name: str = "") -> str | None:
        """What the slip that made a number makes of the fresh ones, written as that number is.

        None where no slip made it; `name` says which it was.
        """
        for slip in self.slips:
            if name and slip.name != name:
                continue
            pairs = [*zip(_written(slip, self.task), _written(slip, self.fresh), strict=False)]
            for exactly in (True, False):
                for was, now in pairs:
                    if was and now and _is(was, tree, exactly=exactly):
                        return _as_written(now, tree, exactly=exactly)
        return None

    def others(self, tree: Expr) -> Iterator[str]:
        """Numbers written as `tree` is that slips make of the fresh ones."""
        for slip in self.slips:
            for written in _written(slip, self.fresh):
                if written and (text := _as_written(written, tree, exactly=True)):
                    yield text


def _written(slip: Slip, task: Task) -> Iterator[Written | None]:
    """What a slip writes, in the blank of a fraction where there is one; None where it is nothing.

    Two tasks of one form give as many, in the same order.
    """
    for whole, top, bottom in islice(slip.gives(task), MOST_WRITTEN):
        filled = _in_blank(Fraction(top, bottom), task) if bottom else None
        if task.target is None or not bottom:
            yield (whole, top, bottom) if bottom else None
        elif whole or filled is None or filled.denominator > 1:
            yield None
        else:
            yield int(filled), 0, 1


def _in_blank(amount: Fraction, task: Task) -> Fraction | None:
    """The number in the blank of a fraction that makes it an amount; None where it has no blank."""
    if task.target is None or not amount:
        return None
    if has_blank(task.target.top):
        return amount * value(task.target.bottom)
    return value(task.target.top) / amount


def answer_of(task: Task) -> Fraction:
    """What is asked for: the value of the expression, or the number in the blank of a fraction."""
    filled = _in_blank(task.answer, task)
    return task.answer if filled is None else filled


def _amount(written: Written) -> Fraction:
    return written[0] + Fraction(written[1], written[2])


def _is(written: Written, tree: Expr, *, exactly: bool) -> bool:
    if not exactly:
        return _amount(written) == value(tree)
    match tree:
        case Mixed(whole, top, bottom):
            return written == (whole, top, bottom)
        case Frac(top, bottom):
            return written == (0, top, bottom)
        case _:
            return False


def _as_written(written: Written, tree: Expr, *, exactly: bool) -> str | None:
    """A slip's number as a pupil writes it, or in lowest terms; None where it is none of `tree`'s.

    A number below nothing is none.
    """
    whole, top, bottom = written
    amount = _amount(written)
    if amount <= 0 or top < 0:
        return None
    match tree:
        case Mixed() if exactly and whole and top:
            return f"{whole} {top}/{bottom}"
        case Frac() if exactly and not whole and top:
            return f"{top}/{bottom}"
        case _:
            return shaped(amount, tree)


def shaped(amount: Fraction, tree: Expr, size: int = 0) -> str | None:
    """An amount in the form of a numeral, in pieces of `size` if given; None where it cannot be."""
    size = size or amount.denominator
    if (amount * size).denominator != 1 or amount <= 0:
        return None
    top = int(amount * size)
    match tree:
        case Frac() if amount.denominator > 1:
            return f"{top}/{size}"
        case Mixed() if amount.denominator > 1 and amount > 1:
            return f"{top // size} {top % size}/{size}"
        case Whole() if amount.denominator == 1:
            return str(amount)
        case Decimal(_, places):
            found = as_decimal(amount, len(places))
            alike = found is not None and len(found.places) == len(places)
            if found is not None and alike and (found.places[-1] == "0") == (places[-1] == "0"):
                return f"{found.whole}.{found.places}"
    return None


# -- the choices


def choice_texts(solved: SolvedPart, old: Old, random: Random) -> dict[str, str] | None:
    """The text of each choice with fresh numbers; None where one cannot be made."""
    numbers = [c for c in solved.part.choices if isinstance(_plain(c.tree), Numeral)]
    if len(numbers) < len(solved.part.choices):
        return _by_places(solved, old, random)
    texts: dict[str, str] = {}
    right = answer_of(old.task)
    taken = {answer_of(old.fresh), right}
    late = []
    for choice in numbers:
        tree = _plain(choice.tree)
        assert isinstance(tree, Numeral)
        slip = solved.solution.slips.get(choice.letter)
        if value(tree) == right:
            text = _right(old, tree)
        elif slip:
            text = old.by_slip(tree, slip)
        else:
            late.append(choice)
            continue
        if text is None:
            return None
        taken.add(_value(text))
        texts[choice.letter] = _put(choice.text, text)
    for choice in late:
        tree = _plain(choice.tree)
        assert isinstance(tree, Numeral)
        text = next((each for each in old.others(tree) if _value(each) not in taken), None)
        if text is None:
            return None
        taken.add(_value(text))
        texts[choice.letter] = _put(choice.text, text)
    return {choice.letter: texts[choice.letter] for choice in solved.part.choices}


def _plain(tree: Writing | None) -> Writing | None:
    return tree.amount if isinstance(tree, Money) else tree


def _value(text: str) -> Fraction:
    (found,) = numerals_of(text)
    return value(found)


def _put(text: str, number: str) -> str:
    """A choice's text with another number in the place of its one."""
    (old,) = numerals_of(text)
    (new,) = numerals_of(number)
    return numerals_put(text, {old: new})


def _right(old: Old, tree: Numeral) -> str | None:
    """The right answer, written as the old one is: in lowest terms, or in the same pieces."""
    if not isinstance(tree, Frac | Mixed):
        return shaped(answer_of(old.fresh), tree)
    lowest = value(tree).denominator
    if tree.denominator == lowest:
        return shaped(old.fresh.answer, tree)
    if tree.denominator == old.task.least_common:
        return shaped(old.fresh.answer, tree, old.fresh.least_common)
    return shaped(old.fresh.answer, tree, old.fresh.answer.denominator * tree.denominator // lowest)


# -- choices that are lines of work


Place = tuple[str, int]
"""Where a whole number stands in a choice (over a bar, under one, by itself), and which it is."""


def _by_places(solved: SolvedPart, old: Old, random: Random) -> dict[str, str] | None:
    """Lines of work with every number exchanged for the one that came about in the same way."""
    known = _came_about(old)
    texts = {}
    for choice in solved.part.choices:
        tree = _plain(choice.tree)
        if tree is None or isinstance(tree, Relation):
            return None
        try:
            texts[choice.letter] = write(_exchanged(tree, "by itself", known, random))
        except _Unknown:
            return None
    return texts


def _came_about(old: Old) -> dict[Place, list[int]]:
    """For each number in its place, the fresh numbers that come about as it did."""
    known: dict[Place, list[int]] = {("by itself", 1): [1]}
    for (place, was), (_, now) in zip(_numbers(old.task), _numbers(old.fresh), strict=True):
        found = known.setdefault((place, was), [])
        if now not in found:
            found.append(now)
    return known


def _numbers(task: Task) -> Iterator[tuple[str, int]]:
    """The numbers of a task's amounts, counted in common pieces too, and of what slips make of it.

    Two tasks of one form give as many, in the same order.
    """
    fractions = [term.fraction for term in task.terms if term.fraction]
    for term in task.terms:
        yield "by itself", term.whole
    for each in fractions:
        yield "over", each.numerator
        yield "under", each.denominator
    for times in (1, 2, 3):
        size = lcm(*(f.denominator for f in fractions)) * times if fractions else 1
        yield "under", size
        for each in fractions:
            yield "over", each.numerator * size // each.denominator
        rest = task.answer * size
        yield "over", int(rest)
        yield "over", size - int(rest)
    yield "over", sum(f.numerator for f in fractions)
    yield "under", sum(f.denominator for f in fractions)


class _Unknown(Exception):
    """A number of a choice that did not come about in a way that is known."""


def _exchanged(tree: Expr, place: str, known: Mapping[Place, list[int]], random: Random) -> Expr:
    """A choice with its numbers exchanged. Raises _Unknown."""

    def number(was: int, where: str) -> int:
        if (where, was) not in known:
            raise _Unknown
        return random.choice(known[where, was])

    def inside(inner: Expr, where: str = place) -> Expr:
        return _exchanged(inner, where, known, random)

    match tree:
        case Whole(was):
            return Whole(number(was, place))
        case Frac(top, bottom):
            return Frac(number(top, "over"), number(bottom, "under"))
        case Mixed(whole, top, bottom):
            first = number(whole, "by itself")
            return Mixed(first, number(top, "over"), number(bottom, "under"))
        case Op(sign, left, right):
            return Op(sign, inside(left), inside(right))
        case Over(over, under):
            return Over(inside(over, "over"), inside(under, "under"))
        case Group(inner):
            return Group(inside(inner))
        case _:
            raise _Unknown
