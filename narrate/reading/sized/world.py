"""Amounts at their times, how they are related, and the way from what is told to what is asked."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from narrate.exact.tree import Expr, Operation, value
from narrate.reading.sized.names import Cast, Thing
from narrate.reading.words.facts import joined
from narrate.reading.words.plain import word_set
from narrate.reading.words.token import Token

_UNDO: dict[Operation, Operation] = {"+": "−", "−": "+", "×": "÷", "÷": "×"}


class UnreadError(Exception):
    """A story says what is not certain here."""


@dataclass(frozen=True, slots=True)
class Relation:
    """The amount at `own` is that at `other` with a number added, taken away, or times it."""

    own: int
    sign: Operation
    number: int
    other: int
    change: bool = False


@dataclass(frozen=True, slots=True)
class Sum:
    """Several amounts together."""

    parts: frozenset[int]
    number: int


@dataclass(frozen=True, slots=True)
class Found:
    """An amount worked out: its expression, the numbers used, and the last step to it."""

    tree: Expr
    used: tuple[int, ...]
    sign: str = ""
    change: bool = False
    whole: bool = False


@dataclass(slots=True)
class Point:
    """One time of a thing: how it is called, whether it is told as now or as a time before."""

    labels: frozenset[str] = frozenset()
    role: str = ""
    present: bool = False
    number: int | None = None
    tense: str = ""

    def told(self, verb: str) -> None:
        """Note whether a clause says what is so or what was; all of one time must agree."""
        tense = "now" if verb in PRESENT else "" if verb in UNCLEAR else "then"
        if tense and self.tense not in ("", tense):
            raise UnreadError
        self.tense = self.tense or tense


PRESENT = word_set(
    "is are weighs weigh costs measures stands holds lasts takes has have sells shows needs"
)
"""Verbs of what is so now."""
UNCLEAR = word_set("cost read cut put hit let")
"""Forms that may be of now or of then."""


@dataclass(slots=True)
class World:
    """All that a story tells: who, when, how much, and how amounts are related."""

    numbers: list[Token]
    cast: Cast = field(default_factory=Cast)
    points: list[Point] = field(default_factory=list)
    relations: list[Relation] = field(default_factory=list)
    sums: list[Sum] = field(default_factory=list)
    units: set[str] = field(default_factory=set)
    measures: list[frozenset[str]] = field(default_factory=list)
    silent: set[int] = field(default_factory=set)
    counted: set[tuple[str, ...]] = field(default_factory=set)
    loose: bool = False
    asked_unit: str = ""
    said: dict[str, frozenset[str]] = field(default_factory=dict)

    def point(self, thing: Thing, made: Point, at: int | None = None) -> int:
        """A new time of a thing, the last one unless `at` says where."""
        self.points.append(made)
        place = len(self.points) - 1
        thing.points.insert(len(thing.points) if at is None else at, place)
        return place

    def only(self, thing: Thing) -> int:
        """The one time of a thing."""
        if not thing.points:
            return self.point(thing, Point())
        if len(thing.points) > 1:
            raise UnreadError
        return thing.points[0]

    def measured(self, dims: str) -> None:
        """Note what is measured; all of a story must be one thing."""
        if dims:
            self.measures.append(frozenset(dims.split()))

    def once(self, what: str, words: frozenset[str]) -> None:
        """Note what all of a story must agree in: the place that ways lead from, the race run."""
        if self.said.setdefault(what, words) != words:
            raise UnreadError

    def tree(self, number: int) -> Expr:
        """A number as it is written."""
        found = self.numbers[number].tree
        if found is None:
            raise UnreadError
        return found

    def amount(self, point: int, passed: tuple[object, ...] = ()) -> Found | None:
        """The amount at a point, told or worked out. Raises UnreadError for two ways."""
        own = self.points[point].number
        if own is not None:
            return Found(self.tree(own), (own,))
        found = list(self._ways(point, passed))
        if len(found) > 1:
            raise UnreadError
        return found[0] if found else None

    def _ways(self, point: int, passed: tuple[object, ...]) -> Iterator[Found]:
        for link in self.relations:
            if link in passed or point not in (link.own, link.other):
                continue
            forward = point == link.own
            base = self.amount(link.other if forward else link.own, (*passed, link))
            if base is None:
                continue
            sign = link.sign if forward else _UNDO[link.sign]
            tree = joined(sign, base.tree, self.tree(link.number))
            yield Found(tree, (*base.used, link.number), sign, link.change)
        for told in self.sums:
            if told in passed or point not in told.parts:
                continue
            others = [self.amount(p, (*passed, told)) for p in sorted(told.parts - {point})]
            parts = [f for f in others if f is not None]
            if len(parts) == len(others):
                tree = joined("−", self.tree(told.number), *(f.tree for f in parts))
                used = (told.number, *(n for f in parts for n in f.used))
                yield Found(tree, used, "−", whole=True)

    def sensible(self, found: Found) -> bool:
        """Whether an amount worked out can be one."""
        return value(found.tree) > 0
