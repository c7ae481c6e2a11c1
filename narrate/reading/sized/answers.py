"""The answers to questions: how much, how much more, how it changed, how many times, together."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass

from narrate.exact.tree import Expr, value
from narrate.reading.sized.clauses import Clause
from narrate.reading.sized.forms import COMPARED
from narrate.reading.sized.names import Thing
from narrate.reading.sized.rows import CHANGED
from narrate.reading.sized.teller import Teller, base_of, times_of
from narrate.reading.sized.times import labels, when
from narrate.reading.sized.world import Found, UnreadError
from narrate.reading.words.facts import joined
from narrate.reading.words.lexicon import one


@dataclass(frozen=True, slots=True)
class Asked:
    """What answers a question: an expression, the numbers used, the situation, what is unknown."""

    tree: Expr
    used: tuple[int, ...]
    situation: str
    unknown: str


Answerer = Callable[[Teller, "re.Match[str]", Clause], Asked]
"""What answers a question of one form."""


def _noted(teller: Teller, m: re.Match[str]) -> None:
    """Note what the question says of measure, unit and things counted."""
    groups = m.groupdict()
    if (verb := groups.get("V2") or groups.get("V")) and (
        verb.lower() in CHANGED
        or (base_of(verb) in ("be", "do", "have", "will", "would") and not groups.get("G"))
    ):
        groups["V"] = None
    teller.measure(m)
    teller.task(groups.get("E2") or "")
    if unit := groups.get("U"):
        _unit_asked(teller, unit)
    if thing := groups.get("G"):
        _counted(teller, thing)


def _unit_asked(teller: Teller, unit: str) -> None:
    asked = " ".join([one(unit.split()[0]), *unit.lower().split()[2:]])
    if asked not in teller.world.units and not (asked == "year" and teller.ages):
        raise UnreadError
    teller.world.asked_unit = asked


def _counted(teller: Teller, thing: str) -> None:
    """Note what a question counts: nothing but what the story counts, in no more words."""
    words = tuple(one(word) for word in thing.lower().split())
    told = teller.world.counted
    if words == ("money",) and not told:
        return
    if not any(words == each[-len(words) :] for each in told):
        raise UnreadError
    teller.world.asked_unit = words[-1]


def _pick(teller: Teller, thing: Thing, clause: Clause, verb: str) -> int:
    """The time of a thing that a question asks about."""
    world, points = teller.world, thing.points
    if (then := teller.shifted(thing, times_of(clause))) is not None:
        return then
    teller.hush(clause.times, asked=True)
    if not points:
        raise UnreadError
    known = frozenset().union(*(labels(t) for t in clause.times))
    roles = {when(t) for t in clause.times} - {""}
    now = [p for p in points if world.points[p].role == "now"]
    if known and (here := [p for p in points if known <= world.points[p].labels]):
        if len(here) == 1:
            return here[0]
        raise UnreadError
    if roles == {"first"} and len(points) > 1:
        return points[0]
    if roles == {"last"}:
        return now[0] if now else points[-1]
    if known and not roles and (later := _unnamed(teller, thing, known)) is not None:
        return later
    if roles or known:
        raise UnreadError
    if len(points) == 1 or now:
        return (now or points)[0]
    if verb.lower() in ("is", "are", "does", "do", "has", "will", "weigh", "cost"):
        return points[-1]
    unvalued = [p for p in points if world.points[p].number is None]
    if unvalued == points[-1:]:
        return points[-1]
    raise UnreadError


def _unnamed(teller: Teller, thing: Thing, known: frozenset[str]) -> int | None:
    """The last of two times, where only the first is named, and the question names another."""
    if len(thing.points) != 2:
        return None
    first, last = (teller.world.points[p].labels for p in thing.points)
    plain = known & {*_MONTHS, *_DAYS, *_HOURS, *_SEASONS} and first and not last
    return thing.points[1] if plain and not _is_backwards(first, known) else None


def _found(teller: Teller, point: int) -> Found:
    found = teller.world.amount(point)
    if found is None or not teller.world.sensible(found):
        raise UnreadError
    return found


_SITUATIONS = {
    "+": ("larger", "larger"), "−": ("smaller", "smaller"),
    "×": ("times as many", "product"), "÷": ("times as many", "group size"),
}  # fmt: skip


def amount(teller: Teller, m: re.Match[str], clause: Clause) -> Asked:
    """How tall is the lily?"""
    thing = teller.thing(m.groupdict().get("S"))
    _noted(teller, m)
    point = _pick(teller, thing, clause, m.groupdict().get("W") or "")
    if teller.world.loose and point != thing.points[0]:
        raise UnreadError
    found = _found(teller, point)
    if len(found.used) < 2:
        raise UnreadError
    situation, unknown = _SITUATIONS.get(found.sign, ("", ""))
    if found.whole:
        situation, unknown = "take apart", "addend"
    elif found.change:
        first = point == thing.points[0] and not teller.ages
        came = (found.sign == "+") != first
        situation, unknown = ("add to" if came else "take from"), ("start" if first else "result")
    return Asked(found.tree, found.used, situation, unknown)


def _two(teller: Teller, m: re.Match[str]) -> tuple[Thing, Thing]:
    """The two that a question compares; the other one is found where one is named."""
    groups = m.groupdict()
    things = teller.world.cast.things
    if groups.get("S") is None:
        if len(things) != 2:
            raise UnreadError
        return things[0], things[1]
    first = teller.thing(groups["S"], speak=False)
    if groups.get("O") is None:
        others = [t for t in things if t is not first]
        if len(others) != 1:
            raise UnreadError
        return first, others[0]
    second = teller.thing(groups["O"], speak=False)
    if first is second:
        raise UnreadError
    return first, second


def _both(teller: Teller, m: re.Match[str], clause: Clause) -> tuple[Found, Found]:
    first, second = _two(teller, m)
    _noted(teller, m)
    if clause.times or clause.held:
        teller.hush((*clause.times, *clause.held), asked=True)
    points = [teller.world.only(thing) for thing in (first, second)]
    named = frozenset().union(*(labels(t) for t in (*clause.times, *clause.held)))
    known = frozenset().union(*(teller.world.points[p].labels for p in points))
    if named - known:
        raise UnreadError
    one_, two = (_found(teller, p) for p in points)
    return one_, two


def difference(teller: Teller, m: re.Match[str], clause: Clause) -> Asked:
    """How much taller is the rose than the lily?"""
    if (one_thing := _changed_alone(teller, m)) is not None:
        return one_thing(teller, m, clause)
    first, second = _both(teller, m, clause)
    sign = 0
    if compared := m.groupdict().get("C"):
        sign = COMPARED[compared.lower()][0]
    elif "Q" in m.groupdict():
        sign = -1
    high, low = (first, second) if value(first.tree) >= value(second.tree) else (second, first)
    if sign and high is not (first if sign > 0 else second):
        raise UnreadError
    return _less(high, low)


def _changed_alone(teller: Teller, m: re.Match[str]) -> Answerer | None:
    """The rule for a change where only one is spoken of: how much shorter is it now?"""
    things = teller.world.cast.things
    alone = len(things) == 1 and len(things[0].points) == 2
    return change if alone and m.groupdict().get("O") is None else None


def _less(high: Found, low: Found) -> Asked:
    if value(high.tree) <= value(low.tree):
        raise UnreadError
    used = tuple(dict.fromkeys((*high.used, *low.used)))
    return Asked(joined("−", high.tree, low.tree), used, "difference", "difference")


def needed(teller: Teller, m: re.Match[str], clause: Clause) -> Asked:
    """How many more does Kit need to have as many as Jo?"""
    first, second = _both(teller, m, clause)
    return _less(second, first)


def up_to(teller: Teller, m: re.Match[str], clause: Clause) -> Asked:
    """How much must the vine grow to be 16 feet tall?"""
    thing = teller.thing(m["S"])
    _noted(teller, m)
    teller.hush(clause.times, asked=True)
    now = _found(teller, teller.world.only(thing))
    wanted = teller.number(m)
    goal = Found(teller.world.tree(wanted), (wanted,))
    less = _less(goal, now)
    return Asked(less.tree, less.used, "needed", "addend")


def change(teller: Teller, m: re.Match[str], clause: Clause) -> Asked:
    """How many ounces did the kitten gain?"""
    groups = m.groupdict()
    thing = teller.thing(groups.get("S"))
    _noted(teller, m)
    teller.hush(clause.times, asked=True)
    world, points = teller.world, thing.points
    if len(points) != 2 or any(world.points[p].number is None for p in points):
        raise UnreadError
    asked = frozenset().union(*(labels(t) for t in clause.times))
    known = frozenset().union(*(world.points[p].labels for p in points))
    if asked - known - {"week", "month", "year", "day", "season"} or _is_backwards(
        world.points[points[0]].labels, world.points[points[1]].labels
    ):
        raise UnreadError
    said = groups.get("V") or groups.get("R") or ""
    sign = CHANGED.get(said.lower(), _NOUNS.get(said.lower(), 0))
    if compared := groups.get("C"):
        sign = COMPARED[compared.lower()][0]
    first, last = (_found(teller, p) for p in points)
    grew = value(last.tree) > value(first.tree)
    if (sign > 0 and not grew) or (sign < 0 and grew):
        raise UnreadError
    high, low = (last, first) if grew else (first, last)
    less = _less(high, low)
    return Asked(less.tree, less.used, "add to" if grew else "take from", "change")


_NOUNS = {
    **dict.fromkeys(
        ("cut off", "trimmed off", "cut", "trimmed", "sawed off", "trim off", "trim"), -1
    ),
    "rise": 1,
    "increase": 1,
    "gain": 1,
    "growth": 1,
    "drop": -1,
    "fall": -1,
    "decrease": -1,
    "loss": -1,
    "change": 0,
    "difference": 0,
}
_MONTHS = [
    "january",
    "february",
    "march",
    "april",
    "may",
    "june",
    "july",
    "august",
    "september",
    "october",
    "november",
    "december",
]
_DAYS = ["monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"]
_SEASONS = ["spring", "summer", "fall", "autumn", "winter"]
_HOURS = [
    "dawn",
    "sunrise",
    "morning",
    "noon",
    "midday",
    "afternoon",
    "sunset",
    "evening",
    "night",
    "midnight",
]


def _is_backwards(first: frozenset[str], last: frozenset[str]) -> bool:
    """Whether what is told first comes later in the week, the day or the year."""
    for order in (_MONTHS, _DAYS, _HOURS, _SEASONS):
        places = [order.index(w) for words in (first, last) for w in words if w in order]
        if len(places) == 2 and places[0] >= places[1]:
            return True
    return False


def ratio(teller: Teller, m: re.Match[str], clause: Clause) -> Asked:
    """How many times as tall as the bush is the pole?"""
    first, second = _both(teller, m, clause)
    if value(first.tree) <= value(second.tree):
        raise UnreadError
    used = tuple(dict.fromkeys((*first.used, *second.used)))
    teller.world.asked_unit = ""
    return Asked(joined("÷", first.tree, second.tree), used, "times as many", "number of groups")


def total(teller: Teller, m: re.Match[str], clause: Clause) -> Asked:
    """How much do the two weigh together?"""
    groups, world = m.groupdict(), teller.world
    things = world.cast.things
    if groups.get("S") is not None and groups.get("O") is not None:
        named = [teller.thing(groups[k], speak=False) for k in ("S", "O")]
        if named[0] is named[1] or len(things) != 2:
            raise UnreadError
    if (count := groups.get("Q")) and _count(teller, count) != len(things):
        raise UnreadError
    if not (groups.get("Q") or groups.get("O") or _TOGETHER.search(m[0])):
        raise UnreadError
    if len(things) < 2 or ((kind := groups.get("T")) and not _is_kind(kind, things)):
        raise UnreadError
    _noted(teller, m)
    teller.hush(clause.times, asked=True)
    found = [_found(teller, world.only(t)) for t in things]
    used = tuple(dict.fromkeys(n for f in found for n in f.used))
    situation = "put together"
    if any(f.sign for f in found):
        situation = "compare and put together"
    return Asked(joined("+", *(f.tree for f in found)), used, situation, "total")


_TOGETHER = re.compile(r"\b(?:together|altogether|in all|total|combined|sum)\b", re.I)


def _count(teller: Teller, text: str) -> int:
    if text.lower() == "both":
        return 2
    number = int(text[1:])
    teller.world.silent.add(number)
    return int(value(teller.world.tree(number)))


def _is_kind(text: str, things: list[Thing]) -> bool:
    """Whether all are of the kind named: the two ropes; "girls" and "animals" may be any."""
    word = one(text.split()[-1])
    return word in _ANY or all(word in t.words or t.head == word for t in things)


_ANY = frozenset(
    [
        "thing",
        "pair",
        "item",
        "object",
        "animal",
        "child",
        "pupil",
        "friend",
        "people",
        "person",
        "girl",
        "boy",
        "plant",
        "pet",
        "tool",
    ]
)
