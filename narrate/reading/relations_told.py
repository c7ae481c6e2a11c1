"""The words that tell how amounts are related: a table of phrases for each situation.

A word never stands for an operation: what is marked tells a situation that was read otherwise. The
first row with a phrase in the text wins; where a row has groups, only they are marked.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from functools import cache

from narrate.reading.reading import Situation
from narrate.reading.words.comparing import LONGER, MORE
from narrate.reading.words.lexicon import NAMES_NOTHING, PREPOSITIONS

_MORE = rf"\b(?:{'|'.join(sorted(MORE))}|{LONGER.pattern}|colder|cooler|hotter|thinner)\b"
_THAN = (
    rf"{_MORE}(?:\s+(?!(?:than|is|are|was|were|do|does|did|has|have|had|on|in|at)\b)[a-z]+){{0,3}}"
    r"\s+than\b",
    rf"({_MORE})[^.?!]{{0,80}}?\b(than)\b",
)
_START = r"\b(?:at first|to begin with|at the start|originally|before|start with|beforehand)\b"
_GOES = (
    r"(?:uses?|used|eats?|ate|eaten|gives?|gave|given|takes?|took|taken|pours?|poured|cuts?|sells?"
    r"|sold|spends?|spent|drinks?|drank|drunk|spills?|spilled|loses?|lost|sews?|sewed|saws|sawed"
    r"|trims?|trimmed|shortens?|shortened|scoops?|scooped|tears?|tore|torn|breaks?|broke|broken"
    r"|runs? out|leaks?|leaked|removes?|removed|feeds?|fed|cooked|planted"
    r"|(?:cooks?|plants)(?= (?:\d|some|all|half|them|it)\b))"
)
_COMES = (
    r"(?:adds?|added|adding|pours?|poured|joins?|joined|gets?|got|buys?|bought|grows?|grew|grown"
    r"|rises?|rose|fills?|filled|picks?|picked|puts?|put|mixed|gave|gives)"
)
_OFF = r"(?:off|away|out|up|back|down)"
_WENT = (
    rf"\b{_GOES} {_OFF}\b",
    rf"\b({_GOES})\b(?: (?!and\b|but\b)[^ .?!,]+){{1,6}}? (off|away)\b",
    rf"\b{_GOES}\b",
)
_JOINED = ("?", r"\b(?:in all|altogether|in total|total|both|combined|together)\b")
_LEFT = ("?", r"\b(?:left over|left|remains?|remaining|still|over)\b")
_REST = r"\bthe (?:rest|others?|remaining(?: [a-z]+)?|remainder)\b"
_NO_NOUN = "|".join(sorted((NAMES_NOTHING | PREPOSITIONS) - {"plant", "cup", "row", "box", "bag"}))
_EACH = (
    rf"\b(?:each|every)(?: of)?(?: (?!(?:{_NO_NOUN})\b)[a-z]+)?\b",
    r"\bper [a-z]+\b",
    r"\b(?:an?|one) (?:second|minute|hour|day|week|month|year)\b",
    r"\bapiece\b",
)
_SHARED = (
    r"\b(?:share[sd]?|sharing|divide[sd]?|splits?|poured|cut|cuts) (?:equally|evenly)"
    r"(?: (?:among|between|into))?\b"
)
_EQUALLY = (
    _SHARED,
    r"\b(share[sd]?|sharing|divide[sd]?|splits?)\b[^.?!]{1,50}? ((?:equally|evenly)"
    r"(?: (?:among|between|into))?)\b",
    r"\b(?:equally|evenly)(?: (?:among|between|into))?\b",
    r"\bthe same (?:number|amount|length|size|weight)\b(?: (?:in|on|to|of) (?:each|every))?",
    r"\b(?:share[sd]?|divide[sd]?|splits?)\b",
    r"\bequal\b",
)
_AS_MANY = (
    r"\btimes as [a-z]+(?: [a-z]+)? as\b",
    r"\b(?:times|twice|half|thrice) as [a-z]+\b",
    r"\btimes (?:the [a-z]+|more)\b",
    r"\b(?:doubles?|doubled|triples?|tripled)\b",
    r"\btimes\b",
)
_OF_IT = (r"(?:\d|%|percent|half|quarters?|thirds?|[a-z]+ths?) (of (?:the|them|it|this|these|all"
          r"|those|that|its|his|her|their))\b",)  # fmt: skip
_LARGE = (*_THAN, _MORE)
_AROUND = r"\b(?:perimeter|(?:all the way )?around)\b"

_TABLE: Mapping[str, Sequence[str | tuple[str, str]]] = {
    "larger": _LARGE,
    "smaller": _LARGE,
    "difference": (
        ("?", rf"(how (?:much|many) {_MORE})(?:[^?]{{0,80}}?\b(than)\b)?"),
        ("?", r"\bdifference\b"),
        *(("?", row) for row in _THAN),
    ),
    "both compared": _LARGE,
    "start": (("?", _START), *_WENT),
    "start added": (("?", _START), r"\bsome(?: more)?\b"),
    "add to": (rf"\b(?:{_COMES} )?another\b", rf"\b{_COMES}\b(?: (?:in|up)\b)?", r"\bmore\b"),
    "change added": (r"\bsome(?: more)?\b", r"\bmore\b"),
    "change taken": (*_WENT, _LEFT),
    "put together": (_JOINED,),
    "take from": _WENT,
    "take apart": (_REST, ("?", r"\b(?:rest|other|not)\b"), _LEFT),
    "needed": (("?", r"\b(?:how (?:much|many) more|still)\b"), r"\b(?:more|still)\b"),
    "equal groups": _EACH,
    "group size": (*_EQUALLY, *_EACH),
    "for one": (*_EACH, *_EQUALLY),
    "number of groups": (*_EACH, r"\b(?:in|into) [a-z]+ of(?= \d)"),
    "left over": (_LEFT, *_EACH),
    "mean": (r"\b(?:average|mean)\b",),
    "of both": (*_AS_MANY, _JOINED),
    "times as many": _AS_MANY,
    "times fewer": _AS_MANY,
    "how many times": _AS_MANY,
    "part of": _OF_IT,
    "area": (r"\barea\b",),
    "side": (r"\barea\b",),
    "perimeter": (_AROUND,),
    "equal sides": (_AROUND,),
    "steps": (*_AS_MANY[:3], _REST, *_EQUALLY[:2], r"\b(?:ratio of|for every)\b", *_THAN),
}
"""Rows for each situation, the surest first; "?" where only the question is looked at."""


def relations(
    situation: Situation, text: str, question: tuple[int, int]
) -> tuple[int, list[tuple[int, int]]]:
    """The number of the first row with a phrase in `text`, and where it stands; no place if none.

    `question` is where the question stands in the text.
    """
    rows = _TABLE.get(situation, ())
    for number, row in enumerate(rows):
        pattern, span = (row[1], question) if isinstance(row, tuple) else (row, (0, len(text)))
        if found := _compiled(pattern).search(text, *span):
            return number, list(_stretches(found))
    return len(rows), []


@cache
def _compiled(pattern: str) -> re.Pattern[str]:
    """A pattern, compiled when it is first wanted."""
    return re.compile(pattern, re.IGNORECASE)


def _stretches(found: re.Match[str]) -> Iterator[tuple[int, int]]:
    """Where the groups of a phrase stand, or all of it where it has none."""
    for group in range(1, (found.re.groups or 0) + 1):
        if found[group] is not None:
            yield found.span(group)
    if not found.re.groups:
        yield found.span()
