"""A quotient of whole numbers with its remainder: the full groups, and what is left.

CCSSM (2010) 4.NBT.B.6; 4.OA.A.3 for what a remainder is.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from narrate.exact.tree import Op, Relation, Whole, WithRest, write_sum
from narrate.reading.demands import Remainder
from narrate.solution import operations
from narrate.solution.facts import Fact
from narrate.solution.slips import Slip, Written
from narrate.solution.steps import Detail, Step, Work
from narrate.solution.task import Task

SUMMARY = "a quotient of whole numbers, written with its remainder"
STANDARDS = ("4.NBT.B.6",)
TAKES = Remainder


def recognise(task: Task) -> bool:
    """A whole number divided by another, neither of them 0."""
    match task.expression:
        case Op("÷", Whole(total), Whole(size)):
            return total > 0 and size > 0
        case _:
            return False


def solve(task: Task) -> Work:
    """The full groups and the rest; then both written as the answer, and put together again."""
    total, size = _numbers(task)
    full, rest = divmod(total, size)
    result = WithRest(full, rest, size) if rest else Whole(full)
    details: dict[str, Detail] = {
        "full": full,
        "rest": rest,
        "size": Whole(size),
        "result": result,
        "total": Whole(total),
    }
    less = Fact(name="rest below", args=(size,))
    made = Fact(name="comes to", args=(task.answer,))
    named = Step(move="with remainder", details=details, facts=(less, made))
    steps = tuple(_by_places(total, size)) if full > operations.EASY else (_groups(total, size),)
    return Work(
        steps=(*steps, named),
        amounts=((1, result),),
        total=result,
        result=result,
        size=1,
        check=_check(total, size, full, rest),
    )


def _groups(total: int, size: int) -> Step:
    """All full groups at once, where the product is known by heart."""
    step, full, rest = operations.with_remainder(Whole(total), Whole(size))
    line = Relation("=", (Whole(total), operations.put_together(Whole(size), full, rest)))
    return replace(step, line=line, details={**step.details, "units": ("", ""), "unit": ""})


def _by_places(total: int, size: int) -> Iterator[Step]:
    """The quotient place by place, 178 as 100, 70 and 8, each part taken out of what is left.

    CCSSM (2010) 4.NBT.B.6 asks for strategies based on place value.
    """
    digits = str(total // size)
    parts = [int(d) * 10**place for place, d in enumerate(reversed(digits)) if d != "0"][::-1]
    left = total
    for count, part in enumerate(parts):
        product, before = size * part, left
        left -= product
        taken = Op("−", Whole(before), Op("×", Whole(size), Whole(part)))
        yield Step(
            move="take out",
            line=Relation("=", (taken, Whole(left))),
            details={
                "part": Whole(part),
                "size": Whole(size),
                "product": Relation("=", (Op("×", Whole(size), Whole(part)), Whole(product))),
                "before": Whole(before),
                "left": Whole(left),
                "first": "yes" if count == 0 else "",
            },
        )
    if len(parts) > 1:
        total_of = write_sum([(1, Whole(part)) for part in parts])
        line = Relation("=", (total_of, Whole(total // size)))
        yield Step(move="gather", line=line, details={"gathered": line})


def _check(total: int, size: int, full: int, rest: int) -> Step:
    line = Relation("=", (operations.put_together(Whole(size), full, rest), Whole(total)))
    told: dict[str, Detail] = {"how": "remainder", "line": line, "total": Whole(total)}
    return Step(move="look back", line=line, details=told | {"full": full, "rest": rest})


def _numbers(task: Task) -> tuple[int, int]:
    match task.expression:
        case Op("÷", Whole(total), Whole(size)):
            return total, size
        case _:
            raise AssertionError(task.expression)


def _too_few(task: Task) -> Iterator[Written]:
    """123 ÷ 8 is 14 remainder 11: the remainder still holds a full group."""
    total, size = _numbers(task)
    for full in range(max(0, total // size - 9), total // size):
        yield full, total - full * size, size


def _exchanged(task: Task) -> Iterator[Written]:
    """123 ÷ 8 is 3 remainder 15: quotient and remainder exchanged."""
    total, size = _numbers(task)
    yield total % size, total // size, size


def _zero_left_out(task: Task) -> Iterator[Written]:
    """618 ÷ 6 is 13: the zero that holds a place of the quotient left out."""
    total, size = _numbers(task)
    digits = str(total // size)
    if "0" in digits:
        yield int(digits.replace("0", "") or 0), total % size, size


def _missing(task: Task) -> Iterator[Written]:
    """123 ÷ 8 is 15 remainder 5: what is missing for another group, not what is left."""
    total, size = _numbers(task)
    if total % size:
        yield total // size, size - total % size, size


def _left_out(task: Task) -> Iterator[Written]:
    """123 ÷ 8 is 15: the remainder left out."""
    total, size = _numbers(task)
    yield total // size, 0, size


SLIPS = (
    Slip("remainder too large", "", "common practice, no source", _too_few),
    Slip("quotient and remainder exchanged", "", "common practice, no source", _exchanged),
    Slip("zero in quotient left out", "", "common practice, no source", _zero_left_out),
    Slip("missing for remainder", "", "common practice, no source", _missing),
    Slip("remainder left out", "", "common practice, no source", _left_out),
)
