"""Answers to be rounded: "to the nearest tenth", of a number, of a story's one number, or of the
result that a story comes to.

The phrase is found and taken away; what is left must be a question by itself, or name one number.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cache

from narrate.errors import Declined
from narrate.exact import prose
from narrate.exact.caption import write
from narrate.exact.tree import Decimal, Expr, Frac, Mixed, Whole, value
from narrate.items.item import Item, Part
from narrate.reading.demands import Nearest
from narrate.reading.goal import Goal
from narrate.reading.reading import Reading, Situation
from narrate.reading.tellings import stimulus_of, tellings, unknown_of
from narrate.reading.words.lexicon import UNITS, one
from narrate.reading.words.number_facts import PLACES
from narrate.reading.words.unfinished import as_question

_PHRASE = (
    r"(?P<lead>,? ?\(?\b(?:(?:when |if |is |that is )?rounded(?: off)?|(?:correct|accurate)) )?"
    r",?\s*\bto the nearest (?P<place>(?:(?:whole |one |ten |hundred )?[a-z]+|[\d,]*\d)\b)"
    r"(?: of an? (?P<of>[a-z]+))?\)?"
)
_ORDER = (
    r"(?P<order>(?:please )?\(?(?:round|give|write|express|state|report)(?: off)? "
    r"(?:your |the |this |that |its )?(?:final |exact )?"
    r"(?:answer|result|sum|difference|product|quotient|total)?)"
)
_AN_ORDER = rf"(?:(?<=[.?!] )|^){_ORDER}{_PHRASE}[.?!]?\)?"
_NOT_TOLD = (
    r"\b(?:estimat\w*|rounding|(?:round|rounded) (?:each|both|the numbers|all|every|up|down)"
    r"|each (?:number|addend|factor|amount)[^.?!]* (?:is )?rounded|before (?:it|they) (?:was|were)"
    r"|which(?! (?:number|value|amount) (?:is|shows|equals|gives) (?:the )?[\d$])"
    r"|compatible|approximat\w*|could|greatest|least|explain)\b"
)
_BARE = (
    r"(?:(?:(?:what|which (?:number|value|amount)) (?:is|shows|equals|gives)"
    r"|what do you get for|find|give|write|calculate|determine|how much is|round(?: off)?|so|about)"
    r"(?: the)?(?: (?:number|decimal|fraction|value|amount|price|length|weight|mass)(?: of)?)?:? )?"
    r"#(?: (?P<unit>[a-z]+))?(?: round(?:ed|s)?(?: off)?)?"
    r"(?: (?:is|equals|=|is equal to|rounds) ?(?:□|_+|\?|what|what number|which number)?)?[ .?:!]*"
)
_LOOSE = (
    r"\b(?:half|halves|thirds?|quarters?|twice|thrice|double|doubled|triple|each|every|per|percent"
    r"|more|less|fewer|other|another|times|total|altogether|all|left|remain\w*|rest|between|both"
    r"|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|twenty|dozen|pairs?|same)\b|%"
)
"""Words that a story which only tells one number to round does not have."""

_SAME: tuple[tuple[str, str], ...] = (
    (r"long|length|longer", r"long|length|kilometers?|miles?|far"),
    (r"tall|height|high", r"tall|height|high|grew|grown|reaches"),
    (r"wide|width", r"wide|width"),
    (r"deep|depth", r"deep|depth"),
    (r"thick|thickness", r"thick|thickness"),
    (r"heavy|weigh|weight|mass", r"heavy|weigh|weighs|weighed|weight|mass"),
    (r"far|distance", r"far|distance|away|walk\w*|r[au]ns?|rides?|rode|biked?|hiked?|dro?ives?"),
    (r"cost|price|pay", r"costs?|price|paid|pays?|spen[dt]s?"),
    (r"old|age", r"old|age"),
    (r"hot|warm|cold|temperature", r"hot|warm|cold|temperature|degrees"),
    (r"fast|speed", r"fast|speed"),
    (r"take|took|time|last", r"takes?|took|time|lasts?|lasted|ran|swam|finished"),
)
"""What a question may ask of the one number, and the words that tell it is that."""

_READ_BACK = (
    r"\b(?:how|what)\b|^(?:round|write|give|express|find|to the nearest)\b"
    r"|\b(?:rounds?|rounded) to\b"
)
_UNIT_AFTER = re.compile(r"[ -]?([A-Za-z]+)")
_ORDERED = r"(?:round|write|give|express)(?: off)?"
_ITSELF = (
    r"(?:(?:this|that|the|its|his|her|their) )?(?:exact )?"
    r"(?:number|amount|measurement|value|figure)"
)
_THE_NUMBER = (
    rf"\b(?:{_ORDERED} (?:it|this|that|{_ITSELF})|what is (?:it|this|that|{_ITSELF})"
    r"|what number (?:is|does) [a-z ]+)[ .?]*$"
)
_NUMBER_OF = rf"\b(?:{_ORDERED} (?:the|this|that) number of|how (?:many|much)) ([a-z]+)"

_NUMERALS = Whole | Decimal | Frac | Mixed
_NAMES = {
    "one": "whole number", "unit": "whole number", "integer": "whole number", "one hundred":
    "hundred", "one thousand": "thousand", "10": "ten", "100": "hundred", "1000": "thousand",
    "10000": "ten thousand", "100000": "hundred thousand", "1000000": "million", "penny": "cent",
}  # fmt: skip
_MONEY = frozenset({"dollar", "cent", "penny"})
_MOST_ASKED = 2_000
"""Longer texts are not looked at."""


@cache
def _compiled(pattern: str) -> re.Pattern[str]:
    """A pattern, compiled when it is first wanted: most reviews round nothing."""
    return re.compile(pattern, re.IGNORECASE)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Found:
    """To what is rounded, and the question without that phrase."""

    nearest: Nearest
    rest: str
    of_number: bool
    """Whether nothing but a number, or "this number", was to be rounded."""


def rounded_reading(
    item: Item, part: Part, read: Callable[[Item, Part], Reading]
) -> Reading | None:
    """A question whose answer is to be rounded, None where nothing is.

    `read` reads a part whose answer is not. Raises Declined where what to round is not certain.
    """
    text = as_question(part.ask)
    if "nearest" not in text.lower() or len(text) > _MOST_ASKED:
        return None
    if _compiled(_NOT_TOLD).search(text) or part.claim is not None:
        raise Declined(
            "the question asks about rounding, not for one rounded number",
            "ask for a number, such as “What is 4,387 rounded to the nearest hundred?”, leave the "
            "item out, or tell it yourself with `told:`",
        )
    found = _find(text)
    numbers = [run for run in prose.read(_whole(item, found.rest)) if _is_number(run.piece)]
    if part.model is None and len(numbers) == 1 and not stimulus_of(item):
        return _of_one_number(item, part, found, numbers[0])
    try:
        exact = read(item, replace(part, ask=found.rest, choices=()))
    except Declined as declined:
        raise Declined(
            f"{declined.understood}; the answer is to be rounded", declined.add
        ) from declined
    if exact.goal.form != "value" or exact.rounding or _is_number(exact.expression):
        raise Declined(
            f"I read {write(exact.expression)}, and the nearest {found.nearest.name}",
            "say what to work out and then to round, or leave the item out",
        )
    return _reading(item, part, exact, found.nearest)


def _whole(item: Item, ask: str) -> str:
    return f"{stimulus_of(item)} {ask}".strip()


def _is_number(piece: object) -> bool:
    return isinstance(piece, _NUMERALS)


def _find(text: str) -> _Found:
    """The phrase in a question. Raises Declined where it is not one, or of no known place."""
    phrases = list(_compiled(_PHRASE).finditer(text))
    if len(phrases) != 1:
        raise Declined(
            "the question speaks of the nearest, and I am not sure of what",
            "say it once, such as “to the nearest hundred”",
        )
    phrase = phrases[0]
    nearest = _nearest(phrase["place"].lower(), (phrase["of"] or "").lower(), text)
    order = _compiled(_AN_ORDER).search(text)
    if (
        order
        and order["order"]
        and re.search(r"\b(?:answer|result|sum|total|quotient|product)", order[0])
    ):
        return _Found(nearest=nearest, rest=_joined(text, order), of_number=False)
    return _Found(nearest=nearest, rest=_joined(text, phrase), of_number=True)


def _joined(text: str, cut: re.Match[str]) -> str:
    """The text without a phrase, tidied where it was cut."""
    rest = f"{text[: cut.start()]} {text[cut.end() :]}"
    rest = re.sub(r"\s+([,.?!:])", r"\1", " ".join(rest.split()))
    rest = re.sub(r"^[,:] ?|(?<=[.?!])[,:]|,(?=[.?!])", "", rest).strip()
    return re.sub(r"(?:^|(?<=[.?!] ))[a-z]", lambda letter: letter[0].upper(), rest)


def place_named(place: str) -> Nearest | None:
    """The place of a name such as ten, tenth or 10; None where it has no name here."""
    name = place.replace(",", "")
    if name not in PLACES:
        return None
    return Nearest(size=Fraction(PLACES[name]), name=_NAMES.get(name, name))


def _nearest(place: str, of: str, text: str) -> Nearest:
    """The place by its name. Raises Declined where it has no name here."""
    name = place.replace(",", "")
    known = place_named(name)
    if known is not None and (not of or known.size < 1):
        return known
    unit = one(name)
    if unit in UNITS and not of and unit not in _MONEY:
        return Nearest(size=Fraction(1), name=unit)
    raise Declined(
        f"the answer is to be rounded to the nearest {place}",
        "round to a place (ten, hundred, tenth ...), to a whole number or to a whole unit that the "
        "numbers are in",
    )


def _of_one_number(item: Item, part: Part, found: _Found, run: prose.Run) -> Reading:
    """One number is told, and it is to be rounded. Raises Declined where that is not certain."""
    rest, tree = found.rest, run.piece
    assert isinstance(tree, _NUMERALS)
    money = rest[: run.start].endswith("$")
    start = run.start - money
    masked = f"{rest[:start]}#{rest[run.end :]}"
    after = _UNIT_AFTER.match(rest, run.end)
    unit = one(after[1]) if after and one(after[1]) in UNITS else ""
    if not unit and after and after[1] in ("g", "m", "L", "l"):
        unit = {"g": "gram", "m": "meter"}.get(after[1], "liter")
    in_money = found.nearest.name in ("dollar", "cent")
    told = _compiled(_BARE).fullmatch(masked) is not None or tells_one(rest, masked, unit)
    whole_unit = found.nearest.name in UNITS and not in_money
    fits = (found.nearest.name == unit) if whole_unit else (not in_money or money)
    if not told or not fits:
        raise Declined(
            f"I read {write(tree)}, to be rounded to the nearest {found.nearest.name}; I am not "
            "sure that it is what the question asks for",
            "ask for the very number, such as “What is 4,387 rounded to the nearest hundred?”",
        )
    return _single(item, part, tree, found.nearest, money=money, bare=_is_bare(masked))


def _is_bare(masked: str) -> bool:
    return _compiled(_BARE).fullmatch(masked) is not None


def tells_one(rest: str, masked: str, unit: str, *, same: bool = False) -> bool:
    """Whether a story tells just one number, and its question asks for that one.

    `masked` has # for the number; `same` says that the question points at what was told.
    """
    if _compiled(_LOOSE).search(masked):
        return False
    *_, question = prose.sentences(rest) or ("",)
    told = rest.removesuffix(question)
    if not _compiled(_READ_BACK).search(question) or not told.strip():
        return False
    if same or _compiled(_THE_NUMBER).search(question):
        return True
    if any(
        _compiled(rf"\b(?:how|what|{_ORDERED})\b[^?]*\b(?:{asked})\b").search(question)
        and _compiled(rf"\b(?:{words})\b").search(told)
        for asked, words in _SAME
    ):
        return True
    thing = _compiled(_NUMBER_OF).search(question)
    return thing is not None and one(thing[1]) in {
        one(word) for word in re.findall(r"[A-Za-z]+", told)
    } | {unit}


def _single(
    item: Item, part: Part, tree: Expr, nearest: Nearest, *, money: bool, bare: bool
) -> Reading:
    goal = Goal(form="value", asked=tree, answer=value(tree))
    situation: Situation = "bare" if bare else "steps"
    exact = Reading(
        goal=goal,
        expression=tree,
        equation=None,
        target=None,
        situation=situation,
        unknown=unknown_of(item, part),
        tellings=(),
        unit=part.unit,
        money=money,
    )
    return _reading(item, part, exact, nearest)


def _reading(item: Item, part: Part, exact: Reading, nearest: Nearest) -> Reading:
    """The reading of a question whose exact answer is known, with its answer rounded."""
    goal = exact.goal
    if goal.answer < 0:
        raise Declined(f"I read {write(goal.asked)}, below zero", "round a number of 0 or more")
    decimals = nearest.size < 1 or exact.decimals or goal.answer.denominator != 1
    return replace(
        exact,
        goal=replace(goal, answer=nearest.answered(goal.answer), demand=nearest),
        unknown=unknown_of(item, part),
        tellings=tuple(tellings(item, part, exact.expression, exact.situation)),
        decimals=decimals and not isinstance(exact.expression, Frac | Mixed),
        money=exact.money or nearest.name in _MONEY,
    )
