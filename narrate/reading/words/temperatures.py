"""A temperature that rises and falls, below zero too, and what it is in the end.

CCSSM (2010) 6.NS.C.5, 7.NS.A.1. Changes are told in the order in which they come; what is asked for
is the last temperature, else nothing is read.
"""

from __future__ import annotations

import re
from contextlib import suppress

from narrate.errors import ExactError
from narrate.exact.parser import parse_expr
from narrate.exact.tree import Expr, Op
from narrate.reading.words.plain import SHORT, plain

_N = (
    r"(?:(?P<below>\d+(?:\.\d+)?) ?(?:°|degrees?) ?(?:[fc]\b|fahrenheit|celsius)? below "
    r"zero|(?P<n>-?\d+(?:\.\d+)?))"
)
_UNIT = r" ?(?:°|degrees?)? ?(?:[fc]\b|fahrenheit|celsius)?"
_STARTS = re.compile(rf"\btemperature(?: [a-z ]+?)? (?:was|is|started at|stood at) {_N}{_UNIT}")
_UP = r"rose|rises|risen|went up|goes up|gone up|increased|warmed(?: up)?|climbed"
_DOWN = r"fell|falls|fallen|dropped|drops|went down|goes down|gone down|decreased|cooled(?: down)?"
_CHANGES = re.compile(
    rf"\b(?:(?P<up>{_UP})|(?P<down>{_DOWN}))(?: (?:by|another))? (?P<by>\d+(?:\.\d+)?)"
    r" ?(?:°|degrees?)(?: [fc]\b)?"
)
_ASKS = re.compile(
    r"what (?:was|is) the (?:(?:new|final|last|evening|morning|noon|afternoon|night|midnight) )?"
    r"temperature(?: (?:then|now|in the end|at the end|after (?:that|this|these changes|both "
    r"changes)"
    r"|(?:at|by|in the|that) (?P<when>[a-z]+)|at [\d:]+ ?[ap]\.?m\.?))?(?: in degrees(?: [a-z]+)?)?"
)
_TIMES = ("morning", "noon", "afternoon", "evening", "night", "midnight", "overnight")
_OTHER = re.compile(
    r"\b(?:each|every|per|twice|double|half|average|mean|difference|if|not|from|how|than|same|"
    r"before"
    r"|usual|normal|hourly)\b"
)
_CLOCK = re.compile(r"\d{1,2}(?::\d\d)? ?[ap]\.?m\b\.?|\d{1,2}:\d\d")


def temperature(text: str) -> tuple[str, Expr] | None:
    """The rule and the work: what was there, and each change, up or down."""
    said = " ".join(plain(text).split()).lower()
    if "temperature" not in said or len(text) > SHORT:
        return None
    said = re.sub(r" from the [a-z]+ temperature", "", _CLOCK.sub("then", said))
    *told, asked = re.split(r"(?<=[a-z°])[.] ", said.rstrip(" ?."))
    story = ". ".join(told)
    start, question = _STARTS.search(story), _ASKS.fullmatch(asked)
    changes = list(_CHANGES.finditer(story))
    if start is None or question is None or not changes or _OTHER.search(story):
        return None
    numbers = len(re.findall(r"\d+(?:\.\d+)?", said))
    if numbers != 1 + len(changes) or start.start() > changes[0].start():
        return None
    if not _of_the_end(asked, story, changes[-1].start()):
        return None
    first = f"-{start['below']}" if start["below"] else start["n"]
    work = first + "".join(f" {'+' if c['up'] else '-'} {c['by']}" for c in changes)
    with suppress(ExactError):
        made = parse_expr(work)
        return ("temperature", made) if isinstance(made, Op) else None
    return None


def _of_the_end(asked: str, story: str, last: int) -> bool:
    """Whether a time of day in the question is the one told with the last change."""
    named = [word for word in re.findall(r"[a-z]+", asked) if word in _TIMES]
    clause = max(story.rfind(mark, 0, last) for mark in (". ", ", and ", " and ", "; ", "then "))
    end = story[max(clause, 0) :]
    return all(re.search(rf"\b(?:over)?{word}\b", end) for word in named)
