"""Numbers judged one by one by what the question says of them, until the right ones are left.

Comparing: CCSSM (2010) 3.NF.A.3d, 4.NF.A.2, 4.NBT.A.2, 5.NBT.A.3b; factors, multiples and primes
4.OA.B.4; even and odd 2.OA.C.3; what rounds to a number 3.NBT.A.1, 4.NBT.A.3, 5.NBT.A.4.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from narrate.exact.caption import write
from narrate.exact.tree import Expr, Op, Relation, Whole, value
from narrate.reading.demands import Condition, Judged, least_factor
from narrate.solution.comparing import compare
from narrate.solution.facts import Fact
from narrate.solution.operations import number
from narrate.solution.slips import Slip
from narrate.solution.steps import Detail, Step, Work
from narrate.solution.task import Task

SUMMARY = "which number is greater, less or between, a factor, a multiple, even, odd or prime"
STANDARDS = ("3.NF.A.3d", "4.NF.A.2", "4.NBT.A.2", "4.OA.B.4", "5.NBT.A.3b")
TAKES = Judged
SLIPS: tuple[Slip, ...] = ()

_COMPARING = ("greater", "less", "at least", "at most", "equal", "greatest", "least")


def recognise(task: Task) -> bool:
    """Numbers of 0 or more."""
    demand = _demand(task)
    named = [value(each.than) for each in demand.conditions if each.than is not None]
    return min((*demand.values, *named), default=Fraction(0)) >= 0


def solve(task: Task) -> Work:
    """Every number held against the conditions in turn, until it fails one or stands them all."""
    demand = _demand(task)
    right = task.expression
    steps = tuple(_steps(demand))
    return Work(steps=steps, amounts=((1, right),), total=right, result=right, size=1)


def _demand(task: Task) -> Judged:
    assert isinstance(task.demand, Judged)
    return task.demand


def _steps(demand: Judged) -> Iterator[Step]:
    """A choice that fails is told by the condition that it fails, the others by all of them."""
    if demand.conditions[0].name in ("greatest", "least"):
        yield from _one_after_another(demand)
        return
    every = range(len(demand.conditions))
    for letter, tree in demand.offered:
        failed = [at for at in every if not _holds(demand, at, tree)]
        for at in failed[:1] or every:
            yield _judge(demand, at, letter, tree)


def _holds(demand: Judged, at: int, tree: Expr) -> bool:
    return demand.conditions[at].holds(value(tree), demand.values)


def _judge(demand: Judged, at: int, letter: str, tree: Expr) -> Step:
    condition = demand.conditions[at]
    line, details = _judged(condition, tree)
    facts = () if _holds(demand, at, tree) else (_fails(at, tree),)
    told: dict[str, Detail] = {"letter": letter, "tree": tree, **_of(condition)}
    told |= {"about": letter}
    return Step(move="judge", line=line, details=told | details, facts=facts)


def _one_after_another(demand: Judged) -> Iterator[Step]:
    """The greatest or least: two are compared, and the one that stays is held against the next."""
    condition = demand.conditions[0]
    (best_letter, best), *others = demand.offered
    for letter, tree in others:
        side, line, details = compare(tree, best)
        wins = side == ("more" if condition.name == "greatest" else "less")
        lost_letter, lost = (best_letter, best) if wins else (letter, tree)
        if wins:
            best_letter, best = letter, tree
        told: dict[str, Detail] = {"letter": lost_letter, "tree": lost, **_of(condition)}
        told |= {"than": best, "about": letter}
        yield Step(move="judge", line=line, details=told | details, facts=(_fails(0, lost),))


def _of(condition: Condition) -> dict[str, Detail]:
    """What the words may say of a condition."""
    return {
        "condition": condition.name,
        "than": condition.than if condition.than is not None else "",
        "negated": "yes" if condition.negated else "",
        "place": condition.nearest.name if condition.nearest else "",
    }


def _fails(at: int, tree: Expr) -> Fact:
    return Fact(name="judged", args=(at, value(tree), write(tree)))


def _judged(condition: Condition, tree: Expr) -> tuple[Relation | None, dict[str, Detail]]:
    """A true line about a number and a condition, and how it is told."""
    amount = value(tree)
    if condition.name in _COMPARING:
        assert condition.than is not None
        _, line, details = compare(tree, condition.than)
        return (None if details["how"] == "same" else line), details
    if condition.name == "rounds":
        return _rounds(condition, tree)
    if amount.denominator != 1:
        return None, {"how": "not whole"}
    whole = int(amount)
    match condition.name:
        case "multiple":
            return _multiple(whole, int(value(_than(condition))))
        case "factor":
            return _factor(whole, int(value(_than(condition))))
        case "even" | "odd":
            return None, {"how": "last digit", "digit": whole % 10, "is_even": _yes(whole % 2 == 0)}
        case _:
            return _prime(whole)


def _than(condition: Condition) -> Expr:
    assert condition.than is not None
    return condition.than


def _yes(so: bool) -> str:
    return "yes" if so else ""


def _times(one: int, other: int) -> Op:
    return Op("×", Whole(one), Whole(other))


def _multiple(whole: int, of: int) -> tuple[Relation, dict[str, Detail]]:
    """42 is 7 × 6; 45 lies between 7 × 6 and 7 × 7."""
    count, rest = divmod(whole, of)
    if not rest:
        line = Relation("=", (_times(of, count), Whole(whole)))
        return line, {"how": "multiple", "product": line, "of": of, "count": count}
    line = Relation("<", (_times(of, count), Whole(whole), _times(of, count + 1)))
    low = Relation("=", (_times(of, count), Whole(of * count)))
    high = Relation("=", (_times(of, count + 1), Whole(of * (count + 1))))
    return line, {"how": "no multiple", "low": low, "high": high, "of": of}


def _factor(whole: int, of: int) -> tuple[Relation, dict[str, Detail]]:
    """6 × 4 is 24; 5 × 4 and 5 × 5 leave 24 out."""
    if whole == 0:
        return Relation("<", (Whole(whole), Whole(of))), {"how": "nought", "of": of}
    if whole > of:
        return Relation(">", (Whole(whole), Whole(of))), {"how": "larger factor", "of": of}
    line, details = _multiple(of, whole)
    return line, details | {"how": "factor" if details["how"] == "multiple" else "no factor"}


def _prime(whole: int) -> tuple[Relation | None, dict[str, Detail]]:
    if whole < 2:
        return None, {"how": "neither prime"}
    least = least_factor(whole)
    if not least:
        return None, {"how": "prime", "one": 1}
    line = Relation("=", (_times(least, whole // least), Whole(whole)))
    return line, {"how": "composite", "product": line, "one": 1}


def _rounds(condition: Condition, tree: Expr) -> tuple[Relation | None, dict[str, Detail]]:
    nearest = condition.nearest
    assert nearest is not None
    amount = value(tree)
    low = nearest.below(amount)
    rounded = number(nearest.answered(amount), decimals=True)
    middle = number(low + nearest.size / 2, decimals=True)
    if rounded is None or middle is None or low == amount:
        return None, {"how": "stays", "rounded": tree}
    side = "less" if amount < value(middle) else "more" if amount > value(middle) else "halfway"
    line = Relation("≈", (tree, rounded))
    return line, {"how": "rounds", "rounded": rounded, "middle": middle, "side": side}
