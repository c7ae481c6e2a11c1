"""How amounts are related, as clauses tell it: so much more, so many times as much, together."""

from __future__ import annotations

import re

from narrate.exact.tree import Operation
from narrate.reading.sized.clauses import Clause
from narrate.reading.sized.forms import COMPARED
from narrate.reading.sized.names import Thing, named
from narrate.reading.sized.rows import subject
from narrate.reading.sized.teller import Teller, counts, known_by, of_measure
from narrate.reading.sized.world import PRESENT, Point, Relation, Sum, UnreadError, World
from narrate.reading.words.lexicon import VERBS


def compared(teller: Teller, m: re.Match[str], clause: Clause, other: Thing | None = None) -> None:
    """So much more than another: 12 years older, 8 feet deeper than the lake."""
    sign, _ = COMPARED[m["C"].lower()]
    thing = teller.thing(m.groupdict().get("S"))
    if m.groupdict().get("O"):
        other = _other(teller, m["O"], thing)
    elif other is None:
        others = [t for t in teller.world.cast.things if t is not thing]
        other = others[0] if len(others) == 1 else None
    if other is None and not m.groupdict().get("O"):
        _before_or_after(teller, thing, m, clause)
        return
    if other is None or other is thing:
        raise UnreadError
    teller.held = other
    number = teller.number(m)
    teller.measure(m)
    _agree(teller, m, clause, thing, other)
    _relate(teller.world, thing, "+" if sign > 0 else "−", number, other)


def _other(teller: Teller, text: str, thing: Thing) -> Thing:
    """What something is held against; a pronoun means another: as much as he did."""
    name = named(text)
    if name is None or not name.pronoun:
        return teller.thing(text, speak=False)
    meant = teller.world.cast.meant(name, but=thing)
    if meant is None:
        raise UnreadError
    return meant


def _agree(teller: Teller, m: re.Match[str], clause: Clause, thing: Thing, other: Thing) -> None:
    """Raises UnreadError where a comparison is of another time than the amounts told."""
    world = teller.world
    teller.hush((*clause.times, *clause.held))
    own, held = world.points[world.only(thing)], world.points[world.only(other)]
    if m.groupdict().get("S") is not None and m.groupdict().get("V"):
        own.told(m["V"].lower())
    for point, times in ((own, clause.times), (held, clause.held)):
        if not known_by(times) <= point.labels | (
            known_by(clause.times) if point is own else set()
        ):
            raise UnreadError
    if own.labels and clause.times and not known_by(clause.times) <= own.labels:
        raise UnreadError


def _before_or_after(teller: Teller, thing: Thing, m: re.Match[str], clause: Clause) -> None:
    """So much more than it is at the other time that is told: it was 11 inches taller yesterday."""
    world = teller.world
    if len(world.cast.things) > 1 or len(thing.points) != 1 or "V" not in m.groupdict():
        raise UnreadError
    told = world.points[thing.points[0]]
    present = m["V"].lower() in PRESENT
    if told.number is None or (present == told.present and not clause.times):
        raise UnreadError
    number = teller.number(m)
    teller.measure(m)
    teller.hush(clause.times)
    base, made = thing.points[0], Point(labels=known_by(clause.times), present=present)
    new = world.point(thing, made, 0 if told.present and not present else None)
    sign: Operation = "+" if COMPARED[m["C"].lower()][0] > 0 else "−"
    world.relations.append(Relation(new, sign, number, base, change=True))


def counts_compared(teller: Teller, m: re.Match[str], clause: Clause) -> None:
    """So many more than another has or did: Ali has 5 more stickers than Bea."""
    base = VERBS.get(m["V"].lower(), "")
    if not base:
        raise UnreadError
    compared(teller, m, clause)
    counts(teller, base, m.groupdict().get("G"))


def _relate(world: World, thing: Thing, sign: Operation, number: int, other: Thing) -> None:
    world.relations.append(Relation(world.only(thing), sign, number, world.only(other)))


def times(teller: Teller, m: re.Match[str], clause: Clause, other: Thing | None = None) -> None:
    """So many times as much as another: twice as tall as the shed."""
    thing = teller.thing(m.groupdict().get("S"))
    if m.groupdict().get("O"):
        other = _other(teller, m["O"], thing)
        if not ({"as", "what"} & set(m[0].split()) or m.groupdict().get("D") or subject(m["O"])[1]):
            raise UnreadError
    elif other is None:
        others = [t for t in teller.world.cast.things if t is not thing]
        other = others[0] if len(others) == 1 else None
    if other is None or thing is other:
        raise UnreadError
    teller.held = other
    teller.measure(m)
    if (
        (verb := m.groupdict().get("V"))
        and VERBS.get(verb.lower()) not in (None, "be")
        and not of_measure(verb)
    ):
        counts(teller, VERBS[verb.lower()], m.groupdict().get("G"))
    _agree(teller, m, clause, thing, other)
    number = int(re.sub(r"\D", "", m["K"].split()[0]))
    _relate(teller.world, thing, "×", number, other)


_PAST = ("was", "were", "weighed", "cost", "stood", "measured", "did", "had been")


def then_and_now(teller: Teller, m: re.Match[str], clause: Clause) -> None:
    """More than it was, or so many times as much: 5 inches taller than it was in May."""
    thing, world = teller.thing(m.groupdict().get("S")), teller.world
    pronoun = named(m["H"])
    assert pronoun is not None
    itself = clause.held or (m["H2"] in _PAST and m.groupdict().get("V", "") in PRESENT)
    held = thing if itself else teller.world.cast.meant(pronoun, but=thing)
    if held is not thing:
        (times if "K" in m.groupdict() else compared)(teller, m, clause, held)
        return
    teller.measure(m)
    teller.hush((*clause.times, *clause.held))
    if not thing.points:
        world.point(thing, Point(labels=known_by(clause.held)))
    before = world.only(thing)
    known = known_by(clause.held)
    if world.points[before].labels and known and not known & world.points[before].labels:
        raise UnreadError
    if world.points[before].present:
        earlier = world.point(thing, Point(labels=known), 0)
        own, other = before, earlier
    else:
        own, other = world.point(thing, Point(labels=known_by(clause.times), present=True)), before
    if "K" in m.groupdict():
        number, sign = int(re.sub(r"\D", "", m["K"].split()[0])), "×"
        world.relations.append(Relation(own, "×", number, other))
    else:
        sign = "+" if COMPARED[m["C"].lower()][0] > 0 else "−"
        world.relations.append(
            Relation(own, "+" if sign == "+" else "−", teller.number(m), other, change=True)
        )


def there_compared(teller: Teller, m: re.Match[str], clause: Clause) -> None:
    """So many more of one thing than of another: there are 4 more tulips than roses."""
    if m["Nu"]:
        raise UnreadError
    teller.world.counted.add(("thing",))
    compared(teller, m, clause)


def there_times(teller: Teller, m: re.Match[str], clause: Clause) -> None:
    """So many times as many of one thing: there are twice as many spoons as forks."""
    teller.world.counted.add(("thing",))
    times(teller, m, clause)


def together(teller: Teller, m: re.Match[str], clause: Clause) -> None:
    """So much together."""
    both = (teller.thing(m.groupdict().get("S"), speak=False), teller.thing(m["O"], speak=False))
    if both[0] is both[1]:
        raise UnreadError
    teller.measure(m)
    teller.hush(clause.times)
    if (
        (verb := m.groupdict().get("V"))
        and VERBS.get(verb.lower()) not in (None, "be")
        and not of_measure(verb)
    ):
        counts(teller, VERBS[verb.lower()], m.groupdict().get("G"))
    parts = frozenset(teller.world.only(thing) for thing in both)
    teller.world.sums.append(Sum(parts, teller.number(m)))
