"""Amounts as clauses tell them: so old, so tall, so many, at some time."""

from __future__ import annotations

import re

from narrate.reading.sized.clauses import Clause
from narrate.reading.sized.names import Thing
from narrate.reading.sized.teller import Teller, counts, known_by, times_of
from narrate.reading.sized.times import when
from narrate.reading.sized.world import PRESENT, Point, UnreadError, World
from narrate.reading.words.lexicon import PAST, VERBS, one


def state(teller: Teller, m: re.Match[str], clause: Clause) -> None:
    """So much at some time: the lily is 3 feet tall."""
    thing, number = teller.thing(m.groupdict().get("S")), teller.number(m)
    teller.measure(m)
    verb = m.groupdict().get("V") or teller.verb
    teller.verb = verb
    if (then := teller.shifted(thing, times_of(clause))) is not None:
        teller.world.points[then].number = number
        return
    teller.hush(clause.times)
    _put(teller.world, thing, number, clause, verb.lower())


def done(teller: Teller, m: re.Match[str], clause: Clause) -> None:
    """So many that one has or did something with: Bea has 13 stickers."""
    base = VERBS.get(m["V"].lower(), "")
    if not base or base in ("be", "do", "need") or clause.held:
        raise UnreadError
    thing, number = teller.thing(m.groupdict().get("S")), teller.number(m)
    counts(teller, base, m.groupdict().get("G"))
    teller.verb = m["V"]
    teller.hush(clause.times)
    _put(teller.world, thing, number, clause, m["V"].lower())


def placed(teller: Teller, m: re.Match[str], clause: Clause) -> None:
    """So warm in one place: 71 degrees in the garden and 65 degrees in the cellar."""
    if m.groupdict().get("V") is None and not (teller.placed and clause.joint):
        raise UnreadError
    teller.placed = True
    thing, number = teller.thing(m["S"]), teller.number(m)
    if teller.world.units != {"degree"}:
        raise UnreadError
    teller.world.measured("temperature")
    teller.hush(clause.times)
    _put(teller.world, thing, number, clause, "was")


def there(teller: Teller, m: re.Match[str], clause: Clause) -> None:
    """So many of a thing there are: there are 9 forks on the tray."""
    if m["Nu"]:
        raise UnreadError
    thing, number = teller.thing(m["S"]), teller.number(m)
    teller.world.counted.add(("thing",))
    teller.hush(clause.times)
    _put(teller.world, thing, number, clause, "are")


def raced(teller: Teller, m: re.Match[str], clause: Clause) -> None:
    """So long for a race: Lia ran it in 10.2 seconds."""
    thing, number = teller.thing(m["S"]), teller.number(m)
    if one((m["Nu"] or "").lower()) not in ("second", "minute", "hour") or clause.times:
        raise UnreadError
    teller.task(m["E"] or "")
    if m["V"].lower() not in PAST | {"takes"}:
        raise UnreadError
    teller.world.once("how", frozenset({VERBS[m["V"].lower()]}))
    teller.world.measured("time")
    _put(teller.world, thing, number, clause, m["V"].lower())


def _put(world: World, thing: Thing, number: int, clause: Clause, verb: str) -> None:
    """Put a number at the time that a clause tells of."""
    known = known_by(clause.times)
    roles = {when(t) for t in clause.times} - {""}
    role = "first" if verb.startswith("used") else roles.pop() if len(roles) == 1 else ""
    present = verb in PRESENT and role != "first"
    made = Point(labels=known, role=role, present=present, number=number)
    made.told(verb)
    if not thing.points:
        world.point(thing, made)
        return
    first, last = world.points[thing.points[0]], world.points[thing.points[-1]]
    if role == "first" and first.number is None and len(thing.points) > 1:
        first.number, first.labels = number, first.labels | known
    elif (
        last.number is None
        and role != "first"
        and not (known and last.labels and not known & last.labels)
    ):
        last.told(verb)
        last.number, last.labels, last.present = number, last.labels | known, present
        last.role = last.role or role
    elif (
        last.number is None
        or (known and (known <= last.labels or last.labels <= known) and last.labels)
        or (not (known or role) and present == last.present)
    ):
        raise UnreadError
    elif role == "first" or (last.present and not present):
        world.point(thing, made, 0)
    else:
        world.point(thing, made)
