"""Amounts in two units, known by the choices: 5 feet 8 inches, 2 hours 10 minutes.

The words are read with every such amount in the small unit; what they ask must come out in it.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from functools import reduce

from narrate.errors import Declined
from narrate.exact.caption import write
from narrate.exact.measures import in_units, several, two_units, unit_named
from narrate.exact.tree import Expr, Group, InUnits, Op, Whole, value, walk
from narrate.items.item import Choice, Item, Part
from narrate.reading.bare import find_bare
from narrate.reading.demands import InTwoUnits
from narrate.reading.reading import Reading
from narrate.reading.tellings import stimulus_of, tellings, unknown_of

_AMOUNT = re.compile(r"(?<![\w.,/:$-])\d[\d,]*(?![.,]\d)[ -]?([A-Za-z]+\.?)(?!\w)")
_OF_TIME = ("second", "minute", "hour", "day", "week", "month")
_DO = "(?:did|do|does|will|would|can|is|was)"
_NUMBER = re.compile(r"\d[\d,]*")
_PART = re.compile(r"\d[./:]\d|\b(?:half|quarter|third)s?\b|\b\d+ (?:and )?\d+/\d", re.IGNORECASE)


def two_units_reading(
    item: Item, part: Part, read: Callable[[Item, Part], Reading]
) -> Reading | None:
    """A question whose choices are amounts in two units, None where they are not.

    Raises Declined where what to work out is not certain.
    """
    pair = _units_of(part)
    if pair is None or part.model is not None or part.claim is not None or stimulus_of(item):
        return None
    large, small = pair
    asked = _in_small(part.ask, large, small)
    if asked is None:
        return None
    ask, told = asked
    choices = tuple(
        replace(choice, text=f"{_worth(choice)} {several(small)}", tree=Whole(_worth(choice)))
        for choice in in_two_units(part, large, small).choices
    )
    found = read(item, replace(part, ask=_plainly(ask, small), choices=choices))
    expression = _measured(found.expression, told)
    if found.goal.form != "value" or found.rounding or _measures(expression) != 1:
        raise Declined(
            f"I read {write(expression)}, and choices in {several(large)} and {several(small)}",
            "say it in plainer words, or leave the item out",
        )
    demand = InTwoUnits(large=large, small=small, size=next(iter(told.values())).size)
    return replace(
        found,
        expression=expression,
        goal=replace(found.goal, asked=expression, answer=value(expression), demand=demand),
        unknown=unknown_of(item, part),
        tellings=tuple(tellings(item, part, _numbers(told), found.situation)),
    )


def _plainly(ask: str, small: str) -> str:
    """The words in small units as other readers know them: how many minutes, 83 − 41."""
    if small in _OF_TIME:
        many = rf"\1ow many {several(small)}"
        ask = re.sub(rf"\b([Hh])ow (?:long|much time)(?= {_DO}\b)", many, ask)
    bare = re.sub(rf"(?<=\d) {several(small)}\b", "", ask)
    return bare if find_bare(bare) is not None else ask


def _numbers(told: dict[Expr, InUnits]) -> Expr:
    """The numbers that the words hold, for their marks."""
    numbers = [Whole(n) for each in told.values() for n in (each.large, each.small)]
    return reduce(lambda tree, number: Op("+", tree, number), numbers[2:], Op("+", *numbers[:2]))


def in_two_units(part: Part, large: str, small: str) -> Part:
    """The part whose choices are amounts of both units, or of one of them, as such."""
    return replace(part, choices=tuple(_as_amount(c, large, small) for c in part.choices))


def _as_amount(choice: Choice, large: str, small: str) -> Choice:
    found = two_units(choice.text)
    tree: InUnits | None = found[0] if found else None
    if tree is None and (one := _AMOUNT.fullmatch(choice.text)):
        count = int(_NUMBER.match(choice.text)[0].replace(",", ""))  # type: ignore[index]
        named = unit_named(one[1])
        tree = in_units(*((count, 0) if named == large else (0, count)), large, small)
    return replace(choice, tree=tree, unit="")


def _worth(choice: Choice) -> int:
    assert isinstance(choice.tree, InUnits)
    return int(value(choice.tree))


def _units_of(part: Part) -> tuple[str, str] | None:
    """The large and the small unit of all choices, at least one of which has both."""
    pairs: set[tuple[str, str]] = set()
    ones: set[str] = set()
    for choice in part.choices:
        found = two_units(choice.text)
        if found is not None and found[1] == len(choice.text):
            pairs.add((found[0].names[0][0], found[0].names[1][0]))
        elif one := _AMOUNT.fullmatch(choice.text):
            ones.add(unit_named(one[1]))
        else:
            return None
    pair = next(iter(pairs), None)
    return pair if len(pairs) == 1 and pair is not None and ones <= set(pair) else None


def _in_small(ask: str, large: str, small: str) -> tuple[str, dict[Expr, InUnits]] | None:
    """The words with each amount in the small unit, and what those numbers stand for.

    None where a number may stand for two things, or a unit stands by itself.
    """
    told: dict[Expr, InUnits] = {}
    pieces: list[str] = []
    at = 0
    for found in _AMOUNT.finditer(ask):
        if found.start() < at:
            continue
        two = two_units(ask, found.start())
        if two is not None and {name for name, _ in two[0].names} != {large, small}:
            return None
        if two is None and unit_named(found[1]) not in (large, small):
            continue
        amount, end = two or (_one(found, large, small), found.end())
        told[Whole(int(value(amount)))] = amount
        pieces += [ask[at : found.start()], f"{value(amount)} {several(small)}"]
        at = end
    rest = "".join((*pieces[::2], ask[at:]))
    others = {Whole(int(n.replace(",", ""))) for n in _NUMBER.findall(rest)}
    alone = {unit_named(word) for word in re.findall(r"[a-z]+", rest)} & {large, small}
    asks = re.search(rf"\bin {several(large)} and {several(small)}\b", rest) is not None
    if not told or others & set(told) or (alone and not asks) or _PART.search(ask):
        return None
    return "".join((*pieces, ask[at:])), told


def _one(found: re.Match[str], large: str, small: str) -> InUnits:
    count = int(_NUMBER.match(found[0])[0].replace(",", ""))  # type: ignore[index]
    parts = (count, 0) if unit_named(found[1]) == large else (0, count)
    return in_units(*parts, large, small)


def _measured(tree: Expr, told: dict[Expr, InUnits]) -> Expr:
    """The work with the amounts in two units in it."""
    match tree:
        case Op(sign, left, right):
            return Op(sign, _measured(left, told), _measured(right, told))
        case Group(inner):
            return Group(_measured(inner, told))
        case _:
            return told.get(tree, tree)


def _measures(tree: Expr) -> int | None:
    """How often the measure stands as a factor in the work: once where it comes out in it.

    None where amounts are joined that are not alike.
    """
    match tree:
        case Group(inner):
            return _measures(inner)
        case Op(sign, left, right):
            one, other = _measures(left), _measures(right)
            if one is None or other is None or (sign in "+−" and one != other):
                return None
            return one if sign in "+−" else one + other if sign == "×" else one - other
        case _:
            return int(isinstance(tree, InUnits))


def in_small_units(tree: Expr) -> Expr:
    """The work with each amount in two units as a number of small ones."""
    match tree:
        case Op(sign, left, right):
            return Op(sign, in_small_units(left), in_small_units(right))
        case Group(inner):
            return Group(in_small_units(inner))
        case InUnits():
            return Whole(int(value(tree)))
        case _:
            return tree


def amounts_in_units(tree: Expr) -> tuple[InUnits, ...]:
    """The amounts in two units of the work, each once."""
    return tuple(dict.fromkeys(node for node in walk(tree) if isinstance(node, InUnits)))
