"""Amounts in two units: all in the small one, worked out there, and put in both units again.

CCSSM (2010) 4.MD.A.2: measurements of a larger unit in terms of a smaller one. The facts are those
of `exact/measures.py`.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from narrate.exact.tree import Expr, InUnits, Op, Relation, Whole, value
from narrate.kinds import kind_of
from narrate.reading.demands import InTwoUnits
from narrate.reading.two_units import amounts_in_units, in_small_units
from narrate.solution.facts import Fact
from narrate.solution.slips import Slip, Written
from narrate.solution.steps import Detail, Step, Work
from narrate.solution.task import Task

SUMMARY = "amounts in two units: feet and inches, pounds and ounces, hours and minutes"
STANDARDS = ("4.MD.A.2",)
TAKES = InTwoUnits


def recognise(task: Task) -> bool:
    """Whatever some kind works out in the small unit, if it comes to a whole number of them."""
    amount = value(task.expression)
    return amount > 0 and amount.denominator == 1 and kind_of(_in_small(task)) is not None


def solve(task: Task) -> Work:
    """The large units counted as small ones, the work, and the large units taken out again."""
    small = _in_small(task)
    kind = kind_of(small)
    assert kind is not None
    work = kind.solve(small)
    before = amounts_in_units(task.expression)
    opened = [_opened(amount) for amount in before if amount.large]
    steps = (replace(step, facts=()) for step in work.steps)
    last, result = _in_both(task, before[0])
    return replace(work, steps=(*opened, *steps, last), total=result, result=result)


def _in_small(task: Task) -> Task:
    return replace(task, demand=None, expression=in_small_units(task.expression), decimals=False)


def _product(amount: InUnits) -> Expr:
    """5 feet 8 inches as 5 × 12 + 8."""
    product = Op("×", Whole(amount.large), Whole(amount.size))
    return Op("+", product, Whole(amount.small)) if amount.small else product


def _told(amount: InUnits) -> dict[str, Detail]:
    (large, larges), (small, smalls) = amount.names
    return {"amount": amount, "large": large, "larges": larges, "small": small, "smalls": smalls}


def _opened(amount: InUnits) -> Step:
    total = Whole(int(value(amount)))
    line = Relation("=", (_product(amount), total))
    sized: dict[str, Detail] = {"size": Whole(amount.size), "one": Whole(1)}
    return Step(
        move="in small units",
        line=line,
        details=_told(amount) | sized | {"line": line, "made": total},
    )


def _in_both(task: Task, like: InUnits) -> tuple[Step, InUnits]:
    total = int(value(task.expression))
    full, rest = divmod(total, like.size)
    result = replace(like, large=full, small=rest)
    product = Op("×", Whole(full), Whole(like.size))
    line = Relation("=", (Whole(total), Op("+", product, Whole(rest)) if rest else product))
    told: dict[str, Detail] = {
        "result": result,
        "total": replace(like, large=0, small=total),
        "full": Whole(full),
        "rest": Whole(rest),
        "size": Whole(like.size),
        "line": line,
        "how": "fewer" if not full else "even" if not rest else "both",
    }
    step = Step(
        move="in both units",
        line=line if full else None,
        details=_told(result) | told,
        facts=(Fact(name="exchanged"), Fact(name="comes to", args=(task.answer,))),
    )
    return step, result


# -- slips


def _give(large: int, small: int, size: int) -> Written:
    return 0, large * size + small, 1


def _two(task: Task) -> tuple[str, InUnits, InUnits | int] | None:
    """The only operation, what stands before it, and the other amount or number."""
    match task.expression:
        case Op(sign, InUnits() as one, InUnits() as other):
            return sign, one, other
        case Op("×", InUnits() as one, Whole(times)) | Op("×", Whole(times), InUnits() as one):
            return "×", one, times
        case _:
            return None


def _by_tens(task: Task) -> Iterator[Written]:
    """5 lb 3 oz − 2 lb 9 oz = 2 lb 4 oz: ten small units made of, or for, a large one."""
    match _two(task):
        case "+", one, InUnits() as other:
            carried, small = divmod(one.small + other.small, 10)
            yield _give(one.large + other.large + carried, small, one.size)
        case "−", one, InUnits() as other if one.small < other.small:
            small = one.small + 10 - other.small
            if small >= 0:
                yield _give(one.large - 1 - other.large, small, one.size)
        case "×", one, int() as times:
            carried, small = divmod(one.small * times, 10)
            yield _give(one.large * times + carried, small, one.size)


def _larger_from_smaller(task: Task) -> Iterator[Written]:
    """5 lb 3 oz − 2 lb 9 oz = 3 lb 6 oz: in each unit the smaller number from the larger."""
    match _two(task):
        case "−", one, InUnits() as other:
            yield _give(one.large - other.large, abs(one.small - other.small), one.size)


def _not_lowered(task: Task) -> Iterator[Written]:
    """5 lb 3 oz − 2 lb 9 oz = 3 lb 10 oz: a pound opened and still counted."""
    match _two(task):
        case "−", one, InUnits() as other if one.small < other.small:
            small = one.small + one.size - other.small
            yield _give(one.large - other.large, small, one.size)


def _not_carried(task: Task) -> Iterator[Written]:
    """3 ft 8 in. + 2 ft 9 in. = 5 ft 5 in.: the new foot forgotten."""
    match _two(task):
        case "+", one, InUnits() as other:
            yield _give(one.large + other.large, (one.small + other.small) % one.size, one.size)
        case "×", one, int() as times:
            yield _give(one.large * times, one.small * times % one.size, one.size)


def _one_unit_only(task: Task) -> Iterator[Written]:
    """5 ft 8 in. × 32 = 160 ft 8 in.: only one of the units multiplied."""
    match _two(task):
        case "×", one, int() as times:
            yield _give(one.large * times, one.small, one.size)
            yield _give(one.large, one.small * times, one.size)


def _other_operation(task: Task) -> Iterator[Written]:
    """The amounts added where they are subtracted, or the other way."""
    match _two(task):
        case "−", one, InUnits() as other:
            yield 0, int(value(one) + value(other)), 1
        case "+", one, InUnits() as other:
            yield 0, abs(int(value(one) - value(other))), 1


SLIPS = (
    Slip("units exchanged by tens", "", "common practice, no source", _by_tens),
    Slip("smaller unit from larger", "", "common practice, no source", _larger_from_smaller),
    Slip("unit not lowered", "", "common practice, no source", _not_lowered),
    Slip("new unit forgotten", "", "common practice, no source", _not_carried),
    Slip("one unit only", "", "common practice, no source", _one_unit_only),
    Slip("added or subtracted instead", "", "common practice, no source", _other_operation),
)
