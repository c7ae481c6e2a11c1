"""Amounts asked for in another unit: how many inches are in 3 1/2 feet, 250 cm in meters.

One fact of `measures` at a time, and one system of units. Every word of a question is accounted
for, or it is declined, or left to the other readers.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

from narrate.errors import Declined
from narrate.exact.caption import write
from narrate.exact.measures import METRIC, how_many, is_unit, several
from narrate.exact.tree import Decimal, Expr, Frac, Group, Mixed, Op, Whole, value
from narrate.items.item import Item, Part
from narrate.reading.conditions import Asked, Numeral, masked
from narrate.reading.demands import Conversion
from narrate.reading.goal import Goal
from narrate.reading.nearest import tells_one
from narrate.reading.reading import Counted, Reading, Situation
from narrate.reading.tellings import SIMPLEST, stimulus_of, tellings, unknown_of
from narrate.reading.words.lexicon import PRONOUNS, VERBS, one

_AMOUNT = (
    r"(?P<amount>#(?P<n>\d+)[ -]?(?P<unit>[a-z]+)(?:,? (?:and )?#(?P<n2>\d+) (?P<unit2>[a-z]+))?)"
)
_TO = r"(?P<to>[a-z]+)"
_BLANK = r"(?:blank|how many|what number of)"
_WHOLE_QUESTIONS = (
    rf"how many {_TO}(?: (?:are|is|long is|equals?|make|makes))?(?: there)?(?: equal to| in)? "
    rf"{_AMOUNT}\?",
    rf"how many {_TO} (?:are|are there|there are|make)(?: in)? (?:an?|one) (?P<unit>[a-z]+)\?",
    rf"(?:convert|change|rewrite) {_AMOUNT} (?:to|into|in) {_TO}\?",
    rf"(?:write|express|give) {_AMOUNT} (?:in|as) {_TO}\?",
    rf"(?:what|how much) is {_AMOUNT} in {_TO}\?",
    rf"{_AMOUNT} (?:equals?|is|are|is equal to|is the same as) {_BLANK} {_TO}\?",
    rf"{_BLANK} {_TO} (?:equals?|is|are|is equal to) {_AMOUNT}\?",
)
"""Questions that are nothing but an amount and the unit that it is asked for in."""

_AFTER = (
    rf"how many {_TO}(?: of (?P<again>[a-z]+(?: [a-z]+)?))? (?:is|are|was|were) (?:that|it|this)"
    r"(?: long| tall| wide| high| deep)?\?",
    rf"(?:how (?:long|tall|wide|high|deep|far|heavy|much)|what) [a-z' ]+,? in {_TO}\?",
    rf"how many {_TO} (?:long|tall|wide|high|deep) (?:is|are|was|were) "
    r"(?:the )?(?P<again>[a-z]+)\?",
)
"""Questions that come after one amount has been told."""

_SAME_DONE = (
    rf"how many {_TO} (?:does|did|do|can|will) (?P<who>[a-z' ]+?) (?P<did>[a-z]+)(?: for)?\?"
)
_SERVINGS = (
    r"how many #(?P<n2>\d+)[ -](?P<to>[a-z]+) (?P<thing>[a-z]+)(?: of [a-z ]+?)? (?:are|are there|"
    r"can be (?:made|cut|filled|poured)|fit) (?:in|from|out of|into) (?:an?|the|one|this) "
    r"#(?P<n>\d+)[ -](?P<unit>[a-z]+) [a-z ]+\?"
)
_SHORT = {"l": "liter", "h": "hour", "s": "second", "c": "cup"}
_CONVERTS = (
    r"\b(?:inch|foot|feet|ft|yards?|yd|miles?|mi|ounces?|oz|pounds?|lbs?|tons?|spoons?|cups?|pints?"
    r"|pt|quarts?|qt|gallons?|gal|seconds?|minutes?|min|hours?|hrs?|days?|weeks?|months?|years?"
    r"|decades?|cents?|dollars?|[kcm]?m|[km]?g|m?L|\w*meters?|\w*grams?|\w*liters?|inches"
    r"|t(?:ea|able)spoons?)\b"
)


@cache
def _compiled(pattern: str) -> re.Pattern[str]:
    return re.compile(pattern)


@dataclass(frozen=True, slots=True)
class _Found:
    """What is converted: amounts with their units, the unit asked for; how much is in one part."""

    amounts: tuple[tuple[Numeral, str], ...]
    to: str
    story: bool
    part: Numeral | None = None
    things: str = ""


def converted_reading(item: Item, part: Part) -> Reading | None:
    """A question for an amount in another unit, None where it is none.

    Raises Declined where it is one that is not worked out here.
    """
    ask = _without_fact(part.ask)
    if part.claim is not None or part.model is not None or stimulus_of(item) or len(ask) > 600:
        return None
    if len(re.findall(_CONVERTS, ask)) < 2:
        return None
    plain = re.sub(r" ?[□▢☐]|_+| \?(?= [a-z])| [Bb]ox(?= [a-zA-Z]+[.?]?$)", " blank", ask).replace(
        "=", " equals "
    )
    asked = masked(plain)
    found = _found(asked) if asked else None
    return None if found is None else _reading(item, part, found)


_FACT = re.compile(
    r" ?[(\[](?:hint|remember|note|use)?:? ?(?:1|one|an?) (?P<large>[a-z]+) ?(?:=|is|equals) ?"
    r"(?P<size>\d[\d,]*) (?P<small>[a-z]+)\.?[)\]]",
    re.IGNORECASE,
)
"""The fact of two units, as a question tells it beside itself: (1 gallon = 4 quarts)."""


def _without_fact(ask: str) -> str:
    """The question without the fact that it tells, where that is so."""
    found = _FACT.search(ask)
    if found is None:
        return ask
    size = how_many(_unit(found["small"].lower()), _unit(found["large"].lower()))
    if size != int(found["size"].replace(",", "")):
        return ask
    return (ask[: found.start()] + ask[found.end() :]).strip()


def _found(asked: Asked) -> _Found | None:
    text = re.sub(
        r"^(?:find|what is) the (?:missing number|number(?: that makes (?:the|this) "
        r"(?:statement|equation|sentence) true)?)[:.] ",
        "",
        asked.text,
    )
    text = re.sub(r"[?.]+$", "?", text if text.endswith(("?", ".")) else f"{text}?")
    for pattern in _WHOLE_QUESTIONS:
        if match := _compiled(pattern).fullmatch(text):
            return _of(match, asked, story=False)
    return _servings(text, asked) or _after_told(text, asked)


def _unit(word: str) -> str:
    return _SHORT.get(word, one(word))


def _of(match: re.Match[str], asked: Asked, *, story: bool) -> _Found | None:
    groups = match.groupdict()
    first: Numeral = asked.numbers[int(groups["n"])] if groups.get("n") else Whole(1)
    amounts = [(first, _unit(groups["unit"]))]
    if groups.get("n2"):
        amounts.append((asked.numbers[int(groups["n2"])], _unit(groups["unit2"])))
    if len(asked.numbers) != len(amounts) - (groups.get("n") is None):
        return None
    found = _Found(tuple(amounts), _unit(groups["to"]), story)
    return found if _convertible(found) else None


def _convertible(found: _Found) -> bool:
    units = [unit for _, unit in found.amounts]
    return all(map(is_unit, (*units, found.to))) and found.to != units[0]


def _after_told(text: str, asked: Asked) -> _Found | None:
    """A bed is 3 feet long. How many inches is that?"""
    told, _, question = text.rpartition(". ")
    amounts = list(_compiled(_AMOUNT).finditer(told))
    if len(amounts) != 1 or len(re.findall(r"#\d+", text)) != len(asked.numbers):
        return None
    whole = amounts[0].groupdict()
    if (match := _compiled(_SAME_DONE).fullmatch(question)) and _same_done(told, match):
        about = re.sub(r"#\d+", "#", text)
        if tells_one(_sentences(text), about, _unit(whole["unit"]), same=True):
            return _joined(asked, {**whole, **match.groupdict()})
        return None
    for pattern in _AFTER:
        if match := _compiled(pattern).fullmatch(question):
            groups = {**whole, **match.groupdict()}
            if (again := groups.pop("again", "")) and again not in told:
                return None
            about = re.sub(r"#\d+", "#", text)
            same = re.search(r"\b(?:that|it|this)\b", question) and "many" in question
            if not tells_one(_sentences(text), about, _unit(groups["unit"]), same=bool(same)):
                return None
            return _joined(asked, groups)
    return None


def _same_done(told: str, match: re.Match[str]) -> bool:
    """Whether who did what is asked for is who was told to have done it: it holds 3 quarts."""
    words = re.findall(r"[a-z']+", told)
    done = {VERBS.get(word, word) for word in words}
    who = set(match["who"].split()) - {"the", "a", "an", "this", "that"}
    return VERBS.get(match["did"], match["did"]) in done and (who <= PRONOUNS or who <= set(words))


def _sentences(text: str) -> str:
    return ". ".join(part[:1].upper() + part[1:] for part in text.split(". "))


def _joined(asked: Asked, groups: dict[str, str | None]) -> _Found | None:
    amounts: list[tuple[Numeral, str]] = []
    for n, unit in (("n", "unit"), ("n2", "unit2")):
        if groups.get(n):
            amounts.append((asked.numbers[int(groups[n] or 0)], _unit(groups[unit] or "")))
    found = _Found(tuple(amounts), _unit(groups["to"] or ""), True)
    return found if len(asked.numbers) == len(amounts) and _convertible(found) else None


def _servings(text: str, asked: Asked) -> _Found | None:
    """How many 8-ounce servings are in a 28-pound bag? What was told before repeats its numbers."""
    told, _, question = f". {text}".rpartition(". ")
    match = _compiled(_SERVINGS).fullmatch(question)
    if match is None:
        return None
    whole, small = asked.numbers[int(match["n"])], asked.numbers[int(match["n2"])]
    known = {(value(whole), _unit(match["unit"])), (value(small), _unit(match["to"]))}
    for number, unit in re.findall(r"#(\d+)[ -]?([a-z]*)", told):
        if (value(asked.numbers[int(number)]), _unit(unit)) not in known:
            return None
    if len(re.findall(r"#\d+", text)) != len(asked.numbers):
        return None
    found = _Found(
        ((whole, _unit(match["unit"])),), _unit(match["to"]), True, small, match["thing"]
    )
    return found if _convertible(found) else None


def _reading(item: Item, part: Part, found: _Found) -> Reading:
    demand = _demand(found)
    converted: Op = demand.first
    if len(found.amounts) > 1:
        rest, rest_unit = found.amounts[1]
        if not demand.smaller or rest_unit != found.to or not _plain(rest):
            raise _not_worked(found, "the second part of the amount is in another unit")
        converted = Op("+", converted, rest)
    expression: Op = converted
    if found.part is not None:
        if not _plain(found.part) or not value(found.part):
            raise _not_worked(found, "one part is no whole number or decimal")
        expression = Op("÷", Group(converted), found.part)
    fractions = _in_fractions(part)
    decimals = not fractions and (
        _metric(found.to) or value(expression).denominator != 1 or _has_decimal(expression)
    )
    goal = Goal(
        form="value",
        asked=expression,
        answer=value(expression),
        simplest=part.simplest or bool(re.search(SIMPLEST, part.ask, re.IGNORECASE)),
        demand=demand,
    )
    situation: Situation = "steps" if found.story or isinstance(expression.left, Op) else "bare"
    return Reading(
        goal=goal,
        expression=expression,
        equation=None,
        target=None,
        situation=situation,
        unknown=unknown_of(item, part),
        tellings=tuple(tellings(item, part, _told(found), situation)),
        unit=part.unit,
        decimals=decimals,
        counted=tuple(_counted(found, demand, converted, expression)),
    )


def _told(found: _Found) -> Expr:
    """The numbers of the words, for their marks."""
    numbers = [number for number, _ in found.amounts]
    numbers += [found.part] if found.part is not None else []
    tree: Expr = numbers[0]
    for number in numbers[1:]:
        tree = Op("+", tree, number)
    return tree


def _demand(found: _Found) -> Conversion:
    """The fact that is used. Raises Declined where there is none, or the amount does not go in."""
    amount, unit = found.amounts[0]
    down, up = how_many(found.to, unit), how_many(unit, found.to)
    if down is not None:
        first = _times(amount, down)
        if first is None:
            raise _not_worked(found, "its pieces do not come out in whole units")
        return Conversion(small=found.to, large=unit, size=down, smaller=True, first=first)
    if up is not None and _plain(amount):
        first = Op("÷", amount, Whole(up))
        return Conversion(small=unit, large=found.to, size=up, smaller=False, first=first)
    raise _not_worked(found, "there is no one fact for these units")


def _times(amount: Numeral, size: int) -> Op | None:
    """So many times as many: a mixed number in two products, 3 1/2 feet as 3 × 12 + 1/2 × 12."""
    match amount:
        case Mixed(whole, top, bottom) if size * top % bottom == 0:
            parts = Op("×", Whole(whole), Whole(size)), Op("×", Frac(top, bottom), Whole(size))
            return Op("+", *parts)
        case Frac(top, bottom) if bottom and size * top % bottom == 0:
            return Op("×", amount, Whole(size))
        case Whole() | Decimal():
            return Op("×", amount, Whole(size))
        case _:
            return None


def _plain(number: Numeral) -> bool:
    return isinstance(number, Whole | Decimal)


def _has_decimal(tree: Expr) -> bool:
    match tree:
        case Op(_, left, right):
            return _has_decimal(left) or _has_decimal(right)
        case Group(inner):
            return _has_decimal(inner)
        case _:
            return isinstance(tree, Decimal)


def _metric(unit: str) -> bool:
    return unit.endswith(METRIC)


def _in_fractions(part: Part) -> bool:
    """Whether the answer is written with a fraction: its boxes or its choices say so."""
    trees = [choice.tree for choice in part.choices]
    return "denominator" in part.boxes or any(isinstance(tree, Frac | Mixed) for tree in trees)


def _not_worked(found: _Found, why: str) -> Declined:
    amounts = " ".join(f"{write(number)} {unit}" for number, unit in found.amounts)
    return Declined(
        f"I read {amounts}, asked for in another unit ({found.to}): {why}",
        "add a line that says what to work out, such as `model: 3 × 12`, or leave the item out",
    )


def _counted(
    found: _Found, demand: Conversion, converted: Expr, expression: Expr
) -> Iterator[Counted]:
    many = {True: demand.small, False: demand.large}[demand.smaller]
    yield Counted(tree=found.amounts[0][0], unit=several(found.amounts[0][1]))
    yield Counted(tree=converted, unit=several(many))
    if isinstance(converted, Op) and converted.sign == "+":
        yield Counted(tree=converted.left, unit=several(many))
        yield Counted(tree=converted.right, unit=several(many))
    if found.part is not None:
        yield Counted(tree=found.part, unit=several(demand.small))
        yield Counted(tree=expression, unit=found.things)
