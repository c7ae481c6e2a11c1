"""What changed, as clauses tell it: grown by so much, fallen to so much, cut off."""

from __future__ import annotations

import re

from narrate.exact.tree import Operation
from narrate.reading.sized.clauses import Clause
from narrate.reading.sized.forms import COMPARED
from narrate.reading.sized.names import Thing
from narrate.reading.sized.rows import CHANGED
from narrate.reading.sized.teller import Teller, known_by
from narrate.reading.sized.world import Point, Relation, UnreadError, World


def changed(teller: Teller, m: re.Match[str], clause: Clause) -> None:
    """Grown, fallen and so on by so much, perhaps to so much."""
    groups = m.groupdict()
    sign = CHANGED[m["V"].lower()]
    if compared := groups.get("C"):
        by = COMPARED[compared.lower()][0]
        if sign and sign != by and compared.lower() not in ("shorter",):
            raise UnreadError
        sign = by
    if not sign:
        raise UnreadError
    thing, number = teller.thing(m.groupdict().get("S")), teller.number(m)
    teller.measure(m)
    teller.hush(clause.times)
    after = _change(teller.world, thing, sign, number, clause, groups.get("X") or "")
    if groups.get("M"):
        after.number = teller.number(m, "M")


def cut_off(teller: Teller, m: re.Match[str], clause: Clause) -> None:
    """So much cut off something."""
    thing, number = teller.thing(m["S"]), teller.number(m)
    teller.measure(m)
    teller.hush(clause.times)
    _change(teller.world, thing, -1, number, clause, "")


def made_change(teller: Teller, m: re.Match[str], clause: Clause) -> None:
    """The store raised the price by so much, perhaps to so much."""
    thing, number = teller.thing(m["S"]), teller.number(m)
    sign = 1 if m["V"].lower() in ("raised", "increased") else -1
    teller.hush(clause.times)
    after = _change(teller.world, thing, sign, number, clause, "")
    if m["M"]:
        after.number = teller.number(m, "M")


def _change(world: World, thing: Thing, sign: int, number: int, clause: Clause, aux: str) -> Point:
    """A new time of a thing, before or after those told; the one after the change."""
    if not thing.points:
        world.point(thing, Point())
    op: Operation = "+" if sign > 0 else "−"
    last = world.points[thing.points[-1]]
    told = last.present and last.number is not None and aux.lower() not in ("will", "will be")
    if told:
        world.loose = world.loose or not (
            last.role == "last" or aux.lower() in ("has", "have", "has been")
        )
        first = thing.points[0]
        since = [t for t in clause.times if t.lower().startswith("since ")]
        before = world.point(thing, Point(labels=known_by(since)), 0)
        world.relations.append(Relation(first, op, number, before, change=True))
        return world.points[first]
    by = [t for t in clause.times if t.lower().startswith("by ") or aux.lower() == "had"]
    before = thing.points[-1]
    for period in (
        t.lower().removeprefix("this ") for t in clause.times if t[:5].lower() == "this "
    ):
        world.points[before].labels |= {"last", period}  # it grew this year: it was less last year
    after = world.point(thing, Point(labels=known_by(by)))
    world.relations.append(Relation(after, op, number, before, change=True))
    return world.points[after]


def from_to(teller: Teller, m: re.Match[str], clause: Clause) -> None:
    """From so much to so much."""
    thing = teller.thing(m.groupdict().get("S"))
    if thing.points:
        raise UnreadError
    teller.hush(clause.times)
    teller.measure(m)
    first, last = teller.number(m), teller.number(m, "M")
    if not m["Nu"] and m["Mu"]:
        teller.world.units.discard("")
    teller.world.point(thing, Point(number=first))
    teller.world.point(thing, Point(number=last))


def to(teller: Teller, m: re.Match[str], clause: Clause) -> None:
    """Grown or fallen to so much."""
    thing = teller.thing(m.groupdict().get("S"))
    if not thing.points:
        raise UnreadError
    teller.hush(clause.times)
    teller.measure(m)
    teller.world.point(thing, Point(number=teller.number(m)))
