"""What the tables of sentences are written in: names of things, amounts, adjectives, times.

A sentence is a line of words: a number is written "#3" there, money "$3", "twice" "x3", each with
its place among the numbers of the story.
"""

from __future__ import annotations

from collections.abc import Sequence

from narrate.reading.words.lexicon import DETERMINERS, NO_THING, ORDINALS, UNITS
from narrate.reading.words.plain import word_set
from narrate.reading.words.token import Token

WORD = r"[^\W\d_]+(?:['-][^\W\d_]+)*'?"
_BEHIND = rf" (?:of|in|on|at|near|by|next door to) (?:(?:the|an?|his|her|our) )?(?:{WORD} )?{WORD}"
NAME = rf"(?:{WORD} ){{0,4}}?(?!(?:the|an|its|their|our|my|(?-i:a))\b){WORD}(?:{_BEHIND})?"
"""A name of someone or something; `names.named` judges its words."""

_SHORT = "kg|g|mg|lbs?|oz|ft|cm|mm|km|m|mi|yd|ml|qt|pt|gal|hrs?|mins?|kilos?"
_LONG = rf"(?:{'|'.join(sorted(UNITS - {'foot', 'inch'}, reverse=True))})(?:e?s)?"
_BRITISH = r"(?:centi|milli|kilo)?(?:met|lit)res?"
UNIT = (
    rf"(?:{_LONG}|{_BRITISH}|{_SHORT}|feet|foot|inch(?:es)?)(?: (?:per|an) (?:hour|minute|second))?"
)
_SCALE = r"(?: (?:celsius|fahrenheit|c|f))?"


def amount(letter: str) -> str:
    """The pattern of an amount: #3 feet, $3, #3 of a mile."""
    return rf"(?P<{letter}>[#$]\d+)(?:(?: of)? an?)?(?: (?P<{letter}u>{UNIT}){_SCALE})?"


TIMES = r"(?P<K>x\d+|#\d+ times|½\d+)"
"""So many times: twice, 3 times, half."""

_TALL, _LONG_, _FAR = "height", "length", "distance"
ADJECTIVES = {
    "tall": "height", "high": "height", "long": "length time", "deep": "depth", "wide": "width",
    "thick": "thickness", "old": "age", "heavy": "weight", "far": "distance", "away": "distance",
    "hot": "temperature", "warm": "temperature", "cold": "temperature", "expensive": "price",
    "fast": "time speed", "large": "", "big": "", "much": "", "of age": "age",
}  # fmt: skip
"""Adjectives by what they measure; "" where that may be anything."""

COMPARED = {
    "taller": (1, "height"), "higher": (1, "height temperature price"),
    "longer": (1, "length time"),
    "deeper": (1, "depth"), "wider": (1, "width"), "thicker": (1, "thickness"), "older": (1, "age"),
    "heavier": (1, "weight"), "farther": (1, "distance"), "further": (1, "distance"),
    "hotter": (1, "temperature"), "warmer": (1, "temperature"), "larger": (1, ""),
    "bigger": (1, ""),
    "more expensive": (1, "price"), "greater": (1, ""),
    "shorter": (-1, "height length time"),
    "lower": (-1, "height temperature price"), "shallower": (-1, "depth"),
    "narrower": (-1, "width"),
    "thinner": (-1, "thickness"), "younger": (-1, "age"), "lighter": (-1, "weight"),
    "closer": (-1, "distance"), "nearer": (-1, "distance"), "colder": (-1, "temperature"),
    "cooler": (-1, "temperature"), "cheaper": (-1, "price"), "less expensive": (-1, "price"),
    "smaller": (-1, ""), "faster": (-1, "time"), "quicker": (-1, "time"), "slower": (1, "time"),
    "more": (1, ""), "less": (-1, ""), "fewer": (-1, ""), "higher in price": (1, "price"),
    "less tall": (-1, "height"), "less deep": (-1, "depth"), "less wide": (-1, "width"),
    "less long": (-1, "length time"), "less heavy": (-1, "weight"),
}  # fmt: skip
"""Words of comparison: whether the first is more or less, and what is measured."""

NOUNS = {
    "height": "height", "length": "length time", "depth": "depth", "width": "width", "age": "age",
    "weight": "weight", "mass": "weight", "price": "price", "cost": "price", "rent": "price",
    "temperature": "temperature", "distance": "distance", "time": "time", "thickness": "thickness",
    "speed": "speed", "size": "", "water level": "depth height", "level": "depth height",
    "depth of the water": "depth", "fare": "price", "fee": "price", "value": "price",
    "sale price": "price", "capacity": "holds", "snow depth": "depth",
}  # fmt: skip
"""Names of what is measured."""

MEASURING = {
    "weigh": "weight", "cost": "price", "measure": "", "stand": "height", "hold": "holds",
    "last": "time", "take": "time", "sell for": "price", "stretch": "length",
}  # fmt: skip
"""Verbs of measures."""

CHANGING = {
    **dict.fromkeys(word_set("grow gain rise increase climb"), 1),
    **dict.fromkeys(word_set("lose fall drop decrease shrink sink"), -1),
    "go up": 1, "go down": -1, "put on": 1, "warm up": 1, "cool down": -1, "come down": -1,
    "be reduced": -1, "be raised": 1, "be lowered": -1, "be marked down": -1, "warm": 1, "cool": -1,
    "be cut": -1, "be increased": 1, "get": 0, "become": 0, "change": 0,
}  # fmt: skip
"""Verbs of change, and whether there is more or less after it."""


def one_of(words: Sequence[str]) -> str:
    """The pattern of any of some words, the longest first."""
    return "|".join(sorted(words, key=len, reverse=True))


def line(sentence: Sequence[Token], numbers: list[Token]) -> str:
    """A sentence as a line of words; its numbers are put behind those there are."""
    said: list[str] = []
    for at, token in enumerate(sentence):
        if token.kind == "n" and _is_a_thing(sentence, at):
            said.append("one")
        elif token.kind == "n" and [t.low for t in sentence[at + 1 : at + 2]] == ["o'clock"]:
            said.append(str(token.value))
        elif token.kind == "n":
            times = token.sort == "times"
            part = token.sort == "part" and _is_share(sentence, at)
            mark = (
                "x"
                if times
                else "½"
                if part
                else {"money": "$", "": "#", "part": "#"}.get(token.sort, "%")
            )
            said.append(f"{mark}{len(numbers)}")
            numbers.append(token)
        elif (token.text == "." and at and sentence[at - 1].kind == "w") or (
            token.text in "-" and at and sentence[at - 1].kind == "n"
        ):
            continue
        elif token.text == "°":
            said.append("degrees")
        elif token.text == "¢":
            said.append("cents")
        else:
            said.append(token.text)
    while said and said[-1] in ".?!;":
        said.pop()
    return " ".join(said)


def _is_a_thing(sentence: Sequence[Token], at: int) -> bool:
    """Whether "one" stands for a thing: the green one, her first one."""
    after = [token.low for token in sentence[at + 1 : at + 4]]
    if sentence[at].low == "one" and ["of", "each"] in (after[:2], after[1:]):
        return True
    before = [token.low for token in sentence[max(0, at - 2) : at]]
    if sentence[at].low != "one" or len(before) < 2:
        return False
    return before[0] in DETERMINERS | ORDINALS and before[1] not in NO_THING - ORDINALS - {"other"}


def _is_share(sentence: Sequence[Token], at: int) -> bool:
    """Whether a fraction says how many times: half as tall, half the height."""
    after = [token.low for token in sentence[at + 1 : at + 3]]
    return (
        after[:1] == ["as"]
        or after == ["of", "what"]
        or (after[:1] == ["the"] and after[1:] != [] and after[1] in NOUNS)
    )
