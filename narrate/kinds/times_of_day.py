"""A time of day some time later or earlier, and the time between two: in hops on the clock.

CCSSM (2010) 3.MD.A.1 and 4.MD.A.2: elapsed time, told with hops to a full hour (common practice).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import reduce

from narrate.exact.measures import in_units
from narrate.exact.tree import Expr, InUnits, Op, Relation, TimeOfDay, value
from narrate.reading.demands import OnTheClock
from narrate.solution.facts import Fact
from narrate.solution.slips import Slip, Written
from narrate.solution.steps import Detail, Step, Work
from narrate.solution.task import Task

SUMMARY = "times of day: when something begins or ends, and how long it takes"
STANDARDS = ("3.MD.A.1", "4.MD.A.2")
TAKES = OnTheClock

HOUR = 60
"""Minutes."""
_MOST = 24 * HOUR


def recognise(task: Task) -> bool:
    """A time and a length of less than a day, or two times."""
    return 0 < _minutes(task) < _MOST


def solve(task: Task) -> Work:
    """The hours in one hop, then the minutes, to the full hour first where they go over it."""
    start, way = _start(task), _way(task)
    hops = list(_hops(start, _minutes(task), way))
    told: dict[str, Detail] = {"way": way, "start": start, "end": _sides(task)[0]}
    told |= {"expression": task.expression}
    first = Step(move="clock set up", line=task.expression, details=told)
    made = Fact(name="exchanged"), Fact(name="comes to", args=(task.answer,))
    if way == "between":
        total = _span(_minutes(task))
        steps = [*hops, _gathered(hops, total)]
        result: Expr = total
    else:
        steps, end = hops, hops[-1].details["to"]
        assert isinstance(end, TimeOfDay)
        result = end
    steps[-1] = replace(steps[-1], facts=made)
    return Work(
        steps=(first, *steps),
        amounts=((1, result),),
        total=result,
        result=result,
        size=1,
        check=_check(start, _minutes(task), way),
        opened=True,
    )


def _way(task: Task) -> str:
    assert isinstance(task.demand, OnTheClock)
    return task.demand.name


def _sides(task: Task) -> tuple[TimeOfDay, Expr]:
    match task.expression:
        case Op(_, TimeOfDay() as time, other):
            return time, other
        case _:
            raise AssertionError(task.expression)


def _start(task: Task) -> TimeOfDay:
    """Where the hops begin: at the earlier of two times, else at the time that is told."""
    time, other = _sides(task)
    return other if isinstance(other, TimeOfDay) else time


def _minutes(task: Task) -> int:
    """How long it is, in minutes."""
    time, other = _sides(task)
    return int(value(time) - value(other)) if isinstance(other, TimeOfDay) else int(value(other))


def _span(minutes: int) -> InUnits:
    return in_units(*divmod(minutes, HOUR), "hour", "minute")


def _hops(start: TimeOfDay, minutes: int, way: str) -> Iterator[Step]:
    back = way == "earlier"
    hours, rest = divmod(minutes, HOUR)
    time = start
    to_full = start.minute if back else -start.minute % HOUR
    parts = [(hours * HOUR, "hours")] if hours else []
    if 0 < to_full < rest:
        parts += [(to_full, "full hour"), (rest - to_full, "rest")]
    elif rest:
        parts += [(rest, "full hour" if rest == to_full else "minutes")]
    for place, (hop, why) in enumerate(parts):
        end = time.moved(-hop if back else hop)
        line = Relation("=", (Op("−" if back else "+", time, _span(hop)), end))
        told: dict[str, Detail] = {
            "from": time,
            "hop": _span(hop),
            "to": end,
            "why": why,
            "back": "yes" if back else "",
            "first": "yes" if place == 0 else "",
            "line": line,
        }
        yield Step(move="clock hop", line=line, details=told)
        time = end


def _gathered(hops: list[Step], total: InUnits) -> Step:
    spans = [hop.details["hop"] for hop in hops]
    trees = [span for span in spans if isinstance(span, InUnits)]
    joined: Expr = reduce(lambda tree, span: Op("+", tree, span), trees[1:], trees[0])  # type: ignore[arg-type, return-value]
    several = len(trees) > 1
    line = Relation("=", (joined, total)) if several else None
    told: dict[str, Detail] = {"total": total, "several": "yes" if several else ""}
    return Step(
        move="clock gather", line=line, details=told | ({"line": line} if line else {"line": ""})
    )


def _check(start: TimeOfDay, minutes: int, way: str) -> Step:
    """The way back: from the end by as much to where it began."""
    forth, back = ("−", "+") if way == "earlier" else ("+", "−")
    moved = -minutes if way == "earlier" else minutes
    end = start.moved(moved)
    if way == "between":
        line = Relation("=", (Op("+", start, _span(minutes)), end))
    else:
        line = Relation("=", (Op(back, end, _span(minutes)), start))  # type: ignore[arg-type]
    told: dict[str, Detail] = {"how": "clock", "line": line, "way": way, "forth": forth}
    return Step(move="look back", line=line, details=told)


# -- slips


def _give(minutes: int) -> Written:
    return 0, minutes, 1


def _around(task: Task, minutes: int) -> Iterator[Written]:
    """A wrong time, as often as the clock shows it again within a day on the side of the answer."""
    start = _begin(task)
    period = 24 * HOUR if _start(task).half else 12 * HOUR
    ahead = (minutes - start) % period
    yield _give(start + ahead - (period if _way(task) == "earlier" and ahead else 0))


def _begin(task: Task) -> int:
    return int(value(_start(task)))


def _wrong_way(task: Task) -> Iterator[Written]:
    """4 minutes before 4:02 is 4:06: forward instead of back, or the other way."""
    if _way(task) != "between":
        sign = 1 if _way(task) == "earlier" else -1
        yield from _around(task, _begin(task) + sign * _minutes(task))


def _hours_for_minutes(task: Task) -> Iterator[Written]:
    """4 minutes after 4:02 is 8:02: the minutes taken as hours."""
    if _way(task) != "between" and _minutes(task) < 12:
        for sign in (1, -1):
            yield from _around(task, _begin(task) + sign * _minutes(task) * HOUR)


def _hour_kept(task: Task) -> Iterator[Written]:
    """20 minutes after 3:50 is 3:10: the hour that is passed forgotten."""
    start = _begin(task)
    match _way(task):
        case "later":
            yield from _around(task, start + _minutes(task) - HOUR)
        case "earlier":
            yield from _around(task, start - _minutes(task) + HOUR)
        case _:
            yield _give(_minutes(task) + HOUR)
            yield _give(_minutes(task) - HOUR)


def _by_hundred(task: Task) -> Iterator[Written]:
    """From 3:45 to 6:10 it is 2 hours 65 minutes: an hour taken as 100 minutes."""
    if _way(task) == "between":
        yield _give(_minutes(task) + 40)
        yield _give(_minutes(task) - 40)
    else:
        for sign in (1, -1):
            moved = -_minutes(task) if _way(task) == "earlier" else _minutes(task)
            yield from _around(task, _begin(task) + moved + sign * 40)


def _other_half(task: Task) -> Iterator[Written]:
    """11:50 a.m. and 20 minutes is 12:10 a.m.: the other half of the day."""
    if _way(task) != "between" and _start(task).half:
        yield from _around(task, int(task.answer) + 12 * HOUR)


SLIPS = (
    Slip("clock the wrong way", "", "common practice, no source", _wrong_way),
    Slip("minutes as hours", "", "common practice, no source", _hours_for_minutes),
    Slip("hour not counted", "", "common practice, no source", _hour_kept),
    Slip("hour as a hundred", "", "common practice, no source", _by_hundred),
    Slip("other half of the day", "", "common practice, no source", _other_half),
)
