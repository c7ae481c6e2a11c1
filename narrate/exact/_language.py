"""What a language brings to mathematics aloud."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from narrate.exact.tree import Operation, RelationSign


@dataclass(frozen=True, slots=True, kw_only=True)
class Unit:
    """A unit in words, for its abbreviation: `one`, `many`, and what follows a part of one."""

    one: str
    many: str
    part: str


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Language:
    """The words and patterns of one language. `{}` in a pattern takes what is spoken.

    `pieces(denominator, count)` names the parts of a whole, and `reads_as_pieces(denominator)` says
    whether a fraction is read with that name or as "seven over twenty-five". `units` holds units by
    their abbreviation, `written_units` by their name, one or many; after one of the `articles` a
    unit belongs to the noun behind it ("a 3/4 liter jug"). `money` takes dollars and cents in
    digits, `clock` hour, minute and "a", "p" or nothing.
    """

    code: str
    cardinal: Callable[[int], str]
    ordinal: Callable[[int], str]
    year: Callable[[int], str]
    pieces: Callable[[int, int], str]
    reads_as_pieces: Callable[[int], bool]
    operations: Mapping[Operation, str]
    relations: Mapping[RelationSign, str]
    over: str
    remainder: str
    mixed: str
    point: str
    negative: str
    opposite: str
    quantity: str
    fraction: str
    blank: str
    unknown: str
    question_mark: str
    slash: str
    to: str
    powers: Mapping[str, str]
    symbols: Mapping[str, str]
    units: Mapping[str, Unit]
    written_units: Mapping[str, Unit]
    articles: frozenset[str]
    raised: Callable[[Unit, str], Unit]
    rate: Callable[[Unit, Unit], Unit]
    coin: Unit
    half_day: str
    money: Callable[[str, str], str]
    clock: Callable[[int, int, str], str]
