"""What an answer counts: square measures, and the unit of a question that does not repeat it.

"How many are boys?" asks for boys, "How many came?" for those who came, an area for squares.
"""

from __future__ import annotations

import re

from narrate.exact.tree import Expr, Op
from narrate.reading.tellings import question_of
from narrate.reading.words.lexicon import MODALS, PAST, one
from narrate.reading.words.plain import word_set
from narrate.reading.words.understood import (
    Understood,
    as_written,
    in_full,
    unit_in,
)

_LENGTHS = word_set("inch foot yard mile meter centimeter millimeter kilometer m cm mm km ft in")
_FILLED = r"(?:(?:square|cubic) )"
_BE = r"(?:is|are|was|were|do|does|did|has|have|had|will|would|can|could|must|should|might)"
_SAID = re.compile(
    rf"\bhow many (?:(?:more|fewer|different|full) )*(?P<unit>{_FILLED}?(?:[a-z]+ )?[a-z]+"
    rf"(?: of [a-z]+)?)(?: than [a-z]+)? {_BE}\b",
    re.IGNORECASE,
)
"""The unit as a question names it: how many pieces of fruit did they eat?"""
_WHICH = re.compile(
    r"\bhow many (?:(?:more|fewer|of (?:them|these|those|the [a-z]+)) )?"
    r"(?:is|are|was|were) (?P<which>[a-z]+)(?: ones)?[?,]?(?: |$)",
    re.IGNORECASE,
)
_ELLIPTIC = re.compile(
    rf"\bhow many (?:(?:more|fewer|of (?:them|these|those)|[a-z]+ ones) )?"
    rf"(?:{_BE}|came|come|went|left|grew|stayed)\b|\bhow many of the\b",
    re.IGNORECASE,
)
"""A question that does not say what it counts."""
_ASKS_SPACE = re.compile(
    r"\b(?:what (?:is|was)|find|give|work out) (?:the |its )?(?P<space>area|volume)\b",
    re.IGNORECASE,
)
_ON_SPACE = re.compile(r"\b(?:area|covers?|covered|large|big)\b", re.IGNORECASE)
_MEASURED = re.compile(r"\d (?P<unit>(?:square |cubic )?[a-z]+)\b")
_FAR = re.compile(r"\bhow (?:far|tall|high|wide|deep)\b", re.IGNORECASE)
_NO_UNIT = word_set("time percent number one other")


def unit_of_answer(found: Understood, ask: str, text: str) -> str:
    """The answer's unit as the question `ask` or else the whole `text` tells it, "" if unsure."""
    if found.money or found.unknown == "fraction" or _asks_times(found, ask):
        return ""
    unit, question = unit_in(found, ask), question_of(ask)
    if unit and unit not in PAST and unit != _which(question):
        return _filled(unit, question, text)
    if space := _ASKS_SPACE.search(question):
        return _of_shape(space["space"], text)
    if _FAR.search(question):
        return _one_length(text)
    named = _counted_by(question)
    return _elliptic(found, question, text) if not named and _ELLIPTIC.search(question) else named


def _asks_times(found: Understood, ask: str) -> bool:
    """Whether it is asked how many times as much one is as the other."""
    return found.unknown == "number of groups" and "times" in ask.lower()


def _filled(unit: str, question: str, text: str) -> str:
    """A measure with "square" or "cubic" where the question, or all of the text, tells it so."""
    if unit.startswith(("square ", "cubic ")) or one(unit) not in _LENGTHS:
        return unit
    for source in (question, text if _ON_SPACE.search(question) else ""):
        told = set(re.findall(rf"({_FILLED}?)\b(?:{unit}|{one(unit)})\b", source))
        if told:
            return f"{told.pop()}{unit}" if len(told) == 1 else unit
    return unit


def _of_shape(space: str, text: str) -> str:
    """The unit of an area or a volume, by the one measure that its sides are told in."""
    units = {m["unit"] for m in _MEASURED.finditer(text)}
    lengths = {one(unit) for unit in units} & _LENGTHS
    if len(lengths) != 1 or any(" " in unit for unit in units):
        return ""
    unit = as_written(lengths.pop(), text)
    return f"{'square' if space.lower() == 'area' else 'cubic'} {in_full(unit)}"


def _one_length(text: str) -> str:
    """The one measure of length of a text, "" where it has several."""
    lengths = {one(m["unit"]) for m in _MEASURED.finditer(text)} & _LENGTHS
    return as_written(lengths.pop(), text) if len(lengths) == 1 else ""


def _counted_by(question: str) -> str:
    """The things that a question counts, in its own words."""
    said = _SAID.search(question)
    if said is None:
        return ""
    words = said["unit"].lower().split()
    head = words[words.index("of") - 1] if "of" in words else words[-1]
    named = one(head) != head and one(head) not in _NO_UNIT and MODALS.isdisjoint(words)
    return " ".join(words) if named and words[0] != "of" else ""


def _which(question: str) -> str:
    """Which of the things are asked for: how many are white?"""
    found = _WHICH.search(question)
    return found["which"].lower() if found else ""


def _elliptic(found: Understood, question: str, text: str) -> str:
    """The unit of a question that does not say it: how many came, how many are boys?"""
    things, which = _things(found, text), _which(question)
    if which and one(which) != which:
        return which
    known = things and re.search(rf"\b{which} {things}\b", text)
    return f"{which} {things}" if which and known else things


def _things(found: Understood, text: str) -> str:
    """What the story counts; of several things the whole, or what is shared; "" if unsure."""
    units = [each.unit for each in found.counted if each.unit]
    if not units:
        units = [m["unit"] for m in _MEASURED.finditer(text) if one(m["unit"]) != m["unit"]]
    if len(set(units)) > 1 and (found.unknown == "group size" or found.situation == "take apart"):
        whole = _first(found.expression)
        units = [each.unit for each in found.counted if each.tree == whole][:1]
    return units[0] if len(set(units)) == 1 and one(units[0]) != units[0] else ""


def _first(tree: Expr | None) -> Expr | None:
    """What a whole is: the amount that something is taken from, or that is shared."""
    while isinstance(tree, Op) and tree.sign in "−÷":
        tree = tree.left
    return tree
