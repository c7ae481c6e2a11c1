"""What is asked of equal groups: of what, in how many groups, for each of what, or the price."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from narrate.reading.equal_groups.amounts import (
    Line,
    Name,
    UnreadError,
    goes_with,
    line_of,
    without_verb,
)
from narrate.reading.equal_groups.rates import with_rates
from narrate.reading.words import lexicon
from narrate.reading.words.asking import asked_plainly
from narrate.reading.words.lexicon import UNITS, one
from narrate.reading.words.plain import word_set
from narrate.reading.words.things import thing_after
from narrate.reading.words.token import Token


@dataclass(slots=True)
class Asked:
    """What a question asks for: a `thing` that is counted or measured, or `money`.

    `per` is the group that it is asked for each of, () where it is not named, None where there is
    none; `single` that the group is called one of several. `counted`: it asks how many. `rest`
    are its other words.
    """

    line: Line
    thing: Name = ()
    measure: str = ""
    unit: str = ""
    money: bool = False
    per: Name | None = None
    single: bool = False
    counted: bool = False
    change: bool = False
    start: int = 0
    end: int = 0
    rest: list[Token] = field(default_factory=list)


_IMPERATIVE = word_set("find calculate state give determine tell compute work name")
_ASKS = word_set("many much")
_CONDITION = word_set("if when given once")


def apart(sentence: Sequence[Token]) -> tuple[list[Token], list[Token], list[Token]] | None:
    """A sentence that asks, cut in what is told before its question, it, and what is told after."""
    words = asked_plainly(sentence)
    at = _begins(words)
    if at is None:
        return None
    before = words[:at]
    leads = [w.low for w in before if w.kind != "p"]
    if len(leads) == 1 and leads[0] in lexicon.PREPOSITIONS | {"so", "then", "and", "about"}:
        at = 0 if leads[0] == "about" else at
        before = []
    end = next(
        (
            i
            for i in range(at + 2, len(words))
            if words[i].low in _CONDITION - {"given"}
            or (words[i].low == "given" and _points_on(words, i + 1))
            or (words[i].text == "," and _opens(words, i + 1))
        ),
        len(words),
    )
    return list(before), list(words[at:end]), list(words[end:])


def _points_on(words: Sequence[Token], at: int) -> bool:
    """Whether "given" leads on to what is told: given that each holds 6."""
    return at < len(words) and words[at].low in ("that", "the", "a", "an", "these")


def _opens(words: Sequence[Token], at: int) -> bool:
    return at < len(words) and words[at].low in _CONDITION


def _begins(words: Sequence[Token]) -> int | None:
    """Where the question of a sentence begins, None where it asks nothing."""
    for at, word in enumerate(words):
        behind = words[at + 1].low if at + 1 < len(words) else ""
        if word.low == "how" and behind in _ASKS | {"long", "heavy", "far"}:
            return at
        if word.low == "what" or (word.low in _IMPERATIVE and at == 0 and behind == "the"):
            return at
    return None


_NAMES = {"number": "", "amount": "", "quantity": "", "weight": "mass", "length": "length",
          "volume": "volume", "cost": "money", "price": "money", "distance": "length"}  # fmt: skip
_PAID = word_set("cost pay spend earn owe charge")
_WHOLE = word_set("the total whole combined full its their his her")


def asked_in(words: Sequence[Token], number: int, groups: Sequence[Name]) -> Asked:
    """What a question asks; `groups` are those told. Raises UnreadError for an unknown form."""
    plain, unit = _without_unit(words)
    line = line_of(plain, number, asked=True)
    with_rates(line)
    made = Asked(line, unit=unit, start=words[0].start, end=words[-1].end)
    lows = [line.low(at) for at in range(len(line.words))]
    at = _read_thing(made, lows)
    _read_group(made, lows, at, groups)
    bases = {lexicon.VERBS.get(low, "") for low in lows}
    if unit == "dollar" or (lows[:2] == ["how", "much"] and not made.thing and bases & _PAID):
        made.money = True
    made.change = "change" in made.thing
    made.money = made.money or made.change or made.thing[-1:] in (("dollar",), ("money",))
    made.rest += [w for i, w in enumerate(line.words) if i >= at and i not in line.read]
    return made


def _read_thing(made: Asked, lows: Sequence[str]) -> int:
    """Take up what is asked for; the place behind it."""
    words = made.line.words
    made.counted = lows[:2] == ["how", "many"]
    if made.counted:
        if 2 in made.line.amounts:
            amount = made.line.amounts[2]
            made.thing = amount.per or ()
            if not made.thing:
                raise UnreadError
            return 3
        if lows[2:3] and lows[2] in _NOT_ASKED:
            raise UnreadError
        made.thing, end = _name(words, 2)
        return end
    if lows[:2] == ["how", "much"]:
        if lows[2:3] and lows[2] in _NOT_ASKED:
            raise UnreadError
        made.thing, end = _name(words, 2)
        return end
    if lows[0] == "how":
        made.measure = {"heavy": "mass"}.get(lows[1], "length")
        if lows[1] == "long" and made.unit in _TIMES:
            made.thing, made.measure, made.counted = (made.unit,), "", True
        return 2
    return _read_named(made, lows)


def _name(words: Sequence[Token], at: int) -> tuple[Name, int]:
    """A name at a place, without a verb at its end, and the place behind it."""
    name, behind = thing_after(words, at)
    name, end = without_verb(name, words, behind)
    if end < len(words) and words[end].low in ("and", "or"):
        raise UnreadError  # flowers and sticks
    return name, end


_TIMES = word_set("second minute hour day week month year")
_NOT_ASKED = word_set("more fewer less longer times additional extra of other heavier")


def _read_named(made: Asked, lows: Sequence[str]) -> int:
    """Take up a thing behind a name: what is the mass of, what number of, find the cost of."""
    at = 1
    while at < len(lows) and (lows[at] in _WHOLE or lows[at] in ("is", "was", "are", "will", "be")):
        at += 1
    name = lows[at] if at < len(lows) else ""
    if name == "change":
        made.thing = ("change",)
        return at + 1
    if name not in _NAMES:
        raise UnreadError
    made.counted = name == "number"
    made.money, made.measure = _NAMES[name] == "money", _NAMES[name]
    if at + 1 < len(lows) and lows[at + 1] == "of" and not _points(made.line, at + 2):
        made.thing, end = _name(made.line.words, at + 2 + (lows[at + 2] == "the"))
        if _NAMES[name] and made.thing:
            made.rest.extend(made.line.words[at + 2 : end])
            made.thing = ()
        return end
    return at + 1


def _points(line: Line, at: int) -> bool:
    """Whether one of several is named at a place, or a counted thing: of one slice, of 6 bags."""
    return line.low(at) in ("one", "each", "every", "a", "an", "single", "#", "all")


_BEFORE_ONE = word_set(
    "in on into onto to of for does did is was will would must should can do each per at"
)


def _read_group(made: Asked, lows: Sequence[str], at: int, groups: Sequence[Name]) -> None:
    """Take up the group that it is asked for each of."""
    for here in range(at, len(lows)):
        low = lows[here]
        if here in made.line.read and low not in ("each", "every", "per"):
            continue
        counted = low in ("one", "single", "a", "an")
        single = counted and (lows[here - 1] in _BEFORE_ONE or low == "single")
        if low not in ("each", "every", "per") and not single:
            continue
        first = here + 1 + (lows[here + 1 : here + 2] == ["single"])
        if lows[first : first + 1] == ["of"]:
            first += 2
        name, end = _name(made.line.words, first)
        if low in ("a", "an") and not any(goes_with(name, group) for group in groups):
            continue
        made.per = name
        made.single = single
        made.line.read |= set(range(here, max(end, here + 1)))
        return


def _without_unit(words: Sequence[Token]) -> tuple[list[Token], str]:
    """A question without ", in liters," and the unit that it names."""
    for at in range(1, len(words) - 1):
        behind = words[at + 2] if at + 2 < len(words) else None
        named = words[at].low == "in" and words[at + 1].lemma in UNITS
        if named and words[at + 1].low != one(words[at + 1].low) and _closes(behind):
            first = at - (words[at - 1].text == ",")
            end = at + 2 + (behind is not None and behind.text == "," and first < at)
            return [*words[:first], *words[end:]], words[at + 1].lemma
    return list(words), ""


def _closes(behind: Token | None) -> bool:
    return behind is None or behind.kind == "p" or behind.low in ("of", "does", "did", "do", "will")
