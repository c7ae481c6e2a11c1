"""Puts what clauses tell into a world: whom they name, which numbers, in what measure."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from narrate.reading.sized.clauses import Clause
from narrate.reading.sized.forms import ADJECTIVES, COMPARED, NOUNS
from narrate.reading.sized.names import Thing, named
from narrate.reading.sized.rows import MEASURES, is_named, may_fit, pattern, subject
from narrate.reading.sized.times import labels
from narrate.reading.sized.world import Point, Relation, UnreadError, World
from narrate.reading.words.lexicon import UNITS, VERBS, one

_OF = {
    "weigh": "weight",
    "cost": "price",
    "hold": "holds",
    "last": "time",
    "take": "time",
    "stand": "height",
}


@dataclass(slots=True)
class Teller:
    """Puts what clauses tell into a world; `ages`: bare numbers are years."""

    world: World
    ages: bool = False
    last: Thing | None = None
    held: Thing | None = None
    verb: str = ""
    placed: bool = False

    def thing(self, text: str | None, *, speak: bool = True) -> Thing:
        """Whom a name means; who was last spoken of where none is said."""
        if text is None:
            if self.last is None:
                raise UnreadError
            return self.last
        owner, measure = subject(text)
        self.world.measured(NOUNS.get(measure, ""))
        thing = self._named(owner, measure)
        if speak:
            self.last = thing
            self.world.cast.spoken.append(thing)
        return thing

    def _named(self, owner: str, measure: str) -> Thing:
        cast = self.world.cast
        if not owner or (owner.lower() == "it" and not cast.things):
            if len(cast.things) == 1:
                return cast.things[0]
            if cast.things:
                raise UnreadError
            measure = measure or "temperature"
            cast.things.append(Thing(frozenset(measure.split()), "", measure, False, ""))
            return cast.things[0]
        name = named(owner)
        thing = cast.meant(name) if name is not None else None
        if thing is None:
            raise UnreadError
        return thing

    def number(self, m: re.Match[str], letter: str = "N") -> int:
        """The place of an amount's number; its unit is noted."""
        unit = m[f"{letter}u"]
        money = m[letter].startswith("$")
        self.world.units.add("dollar" if money else _unit(unit) if unit else "")
        return int(m[letter][1:])

    def measure(self, m: re.Match[str]) -> None:
        """Note what a clause measures, by its verb, adjective or noun."""
        groups = m.groupdict()
        if verb := groups.get("V"):
            self.world.measured(_OF.get(base_of(verb), ""))
        if adjective := groups.get("A"):
            self.world.measured(ADJECTIVES[adjective.lower()])
        if noun := groups.get("D"):
            self.world.measured(NOUNS[noun.lower()])
        if compared := groups.get("C"):
            self.world.measured(COMPARED[compared.lower()][1])
        if place := groups.get("F"):
            self.place(place)
        if task := groups.get("E"):
            self.task(task)
        if (counted := groups.get("G")) and groups.get("N") and not groups.get("Nu"):
            self.world.counted.add(_things(counted))

    def task(self, text: str) -> None:
        """Note what is done in the times told; all of a story must be one: to water the beds."""
        words = frozenset(text.lower().split()) - {"the", "a", "an", "it", "them", "to"}
        if words:
            self.world.once("task", words)

    def place(self, text: str) -> None:
        """Note the place that ways are measured from; all of a story must be one."""
        name = named(text)
        if name is None:
            raise UnreadError
        self.world.once("from", name.words)

    def hush(self, times: tuple[str, ...], *, asked: bool = False) -> None:
        """Numbers that only say when are not worked with; of ages they are.

        A question may only name a number of days and so on that was told before.
        """
        told = {self.world.tree(number) for number in self.world.silent}
        for number in map(int, re.findall(r"#(\d+)", " ".join(times))):
            if self.ages or (asked and self.world.tree(number) not in told):
                raise UnreadError
            self.world.silent.add(number)

    def shifted(self, thing: Thing, times: tuple[str, ...], sign_needed: int = 0) -> int | None:
        """The time of an age so many years from now or ago; None where no such time is named."""
        found = [m for t in times if (m := _SHIFT.fullmatch(t))]
        if not self.ages or not found:
            return None
        if len(found) > 1 or len(times) > 1:
            raise UnreadError
        number = int(found[0]["ahead"] or found[0]["back"])
        now = next((p for p in thing.points if self.world.points[p].role == "now"), None)
        if now is None and thing.points:
            now = self.world.only(thing)
            self.world.points[now].role = "now"
        if now is None:
            now = self.world.point(thing, Point(role="now", present=True))
        then = self.world.point(thing, Point(role="then"))
        if found[0]["ahead"]:
            self.world.relations.append(Relation(then, "+", number, now, change=True))
        else:
            self.world.relations.append(Relation(now, "+", number, then, change=True))
        return then


_SHIFT = re.compile(
    r"(?:in|after) #(?P<ahead>\d+) years?(?: time)?|#(?P<back>\d+) years? (?:ago|earlier)", re.I
)
_FROM_NOW = re.compile(r"#(\d+) (years?) (?:from now|later)", re.I)


def times_of(clause: Clause) -> tuple[str, ...]:
    """The times of a clause, "5 years from now" written "in 5 years"."""
    return tuple(_FROM_NOW.sub(r"in #\1 \2", time) for time in clause.times)


def _unit(text: str) -> str:
    first, *rest = text.lower().split()
    return " ".join([one(first), *rest[-1:]])


def base_of(verb: str) -> str:
    """The plain form of a verb of measure as a clause writes it."""
    low = verb.lower().removeprefix("used to ")
    measured = next((base for base, forms in MEASURES.items() if re.fullmatch(forms, low)), "")
    return measured or VERBS.get(low.split()[-1], low)


def fitting(form: str, clause: Clause) -> re.Match[str] | None:
    """The match of a row with a clause, where all its names can be names."""
    m = pattern(form).fullmatch(clause.text) if may_fit(form, clause.text) else None
    if m is None:
        return None
    groups = m.groupdict()
    if groups.get("S") is None and "S" in groups and clause.first and not _points(clause.text):
        return None
    return m if all(is_named(groups.get(name)) for name in ("S", "O", "F")) else None


def _points(text: str) -> bool:
    return text.lower().startswith(("this ", "that "))


# -- what rows do


def counts(teller: Teller, base: str, counted: str | None) -> None:
    """Note what is done with what; all of a story must be one."""
    teller.world.measures.append(frozenset({f"do {base}"}))
    if counted and (unit := one(counted.split()[-1])) in UNITS:
        teller.world.units.discard("")
        teller.world.units.add(unit)
    elif counted:
        teller.world.counted.add(_things(counted))


def _things(counted: str) -> tuple[str, ...]:
    """The words for what is counted, each of one thing."""
    return tuple(one(word) for word in counted.lower().split())


def of_measure(verb: str) -> bool:
    """Whether a verb is one of measures: weighs, costs."""
    return any(re.fullmatch(forms, verb.lower()) for forms in MEASURES.values())


def known_by(times: Sequence[str]) -> frozenset[str]:
    """The words by which times are known again."""
    return frozenset().union(*(labels(time) for time in times))
