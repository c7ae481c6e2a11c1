"""What kind of story it is: situations of CCSSM (2010), glossary Table 1, and telling phrases.

A story's situation comes from its reading (`words/parts.situation_of`). Here stand the phrases
that tell it, and the situation of a story whose words allow no reading but whose `model:` says
what to work out: only rows that fit its signs are looked at, and the last of them says what is
true of any such sum. A word never stands for an operation: a phrase tells how the amounts are
related, and a word that would mislead is reported.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from narrate.reading.reading import Situation

_COMPARING = r"(?:more|less|fewer|\w+er|farther|further)"


@dataclass(frozen=True, slots=True)
class Row:
    """A situation for sums of some signs, if the question and the story are worded so.

    `signs` is "+" (only added), "−" (only taken away) or "±" (both).
    """

    situation: Situation
    signs: str
    question: str = ""
    story: str = ""


_COUNT = r"(?:one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve)"
_PIECES = (
    r"(?:half|halves|quarters?|thirds?|fourths?|fifths?|sixths?|sevenths?|eighths?|ninths?"
    r"|tenths?|elevenths?|twelfths?)"
)
_AMOUNT = (
    rf"(?:(?:\d+ )?\d+/\d+|\d*[¼½¾⅐-⅞]|\d+(?:\.\d+)?|\b(?:{_COUNT}|an?)[ -]{_PIECES}\b|\bhalf\b"
    rf"|(?<!\bwhich )(?<!\bthe )(?<!\beach )(?<!\bthis )(?<!\bthat )\b{_COUNT}\b)"
)
BY_A_NUMBER = (
    rf"{_AMOUNT}(?:\s+of)?(?:\s+an?)?(?:\s+(?!is\b|are\b|was\b|were\b|an?\b|of\b)[a-z]+)?"
    rf"\s+{_COMPARING}\b[^.?!]{{0,60}}?\bthan\b"
)
"""A comparison by an amount that is told: "1/5 meter longer than", "a fourth of a foot taller"."""

START = r"\b(?:at first|to begin with|at the start|originally|before|start with)\b"
"""A question for what there was at the start."""

ROWS: tuple[Row, ...] = (
    Row("larger", "+", "", BY_A_NUMBER),
    Row("start", "+", START),
    Row(
        "add to",
        "+",
        r"\b(?:now|then|once|after|afterwards?|end)\b",
        r"\b(?:adds?|added|adding|another|pours?|poured|joins?|joined|gets?|got|buys?|bought"
        r"|grows?|grew|rises?|rose|fills?|filled|picks?|picked|puts?|put|more)\b",
    ),
    Row("put together", "+", r"\b(?:in all|altogether|in total|total|both|combined|together)\b"),
    Row("put together", "+"),
    Row("smaller", "−", "", BY_A_NUMBER),
    Row(
        "difference",
        "−",
        rf"\bhow (?:much|many) {_COMPARING}\b|\bdifference\b|\b{_COMPARING}\b[^?]*\bthan\b",
    ),
    Row(
        "take from",
        "−",
        r"\b(?:left|remains?|remaining|still|now|then|rest|afterwards?)\b",
        r"\b(?:uses?|used|eats?|ate|eaten|gives?|gave|given|takes?|took|taken|pours?|poured"
        r"|cuts?|sells?|sold|spends?|spent|drinks?|drank|drunk|spills?|spilled|loses?|lost"
        r"|(?:cooks?|plants)(?= (?:\d|some|all|half|them|it)\b)|cooked|planted|sews?|sewed|saws"
        r"|sawed|trims?|trimmed|shortens?|shortened"
        r"|scoops?|scooped|tears?|tore|torn|breaks?|broke|broken"
        r"|runs? out|leaks?|leaked|removes?|removed|feeds?|fed)\b",
    ),
    Row("take apart", "−", r"\b(?:rest|left|remains?|remaining|other)\b"),
    Row("take apart", "−"),
    Row("in and out", "±"),
)

_NAMED = r"(?:[a-z]+ ){0,4}?[a-z]+"
_ADVERB = (
    r"(?:altogether|together|each|both|still|now|then|left|in|of|more|fewer"
    r"|long|tall|high|wide|deep|old)\b"
)
_VERB = r"(?:is|are|was|were|do|does|did|has|have|will|can|in all|altogether)\b"

_NOUNS: tuple[tuple[str, str], ...] = (
    (r"\b(?:what|which) fraction of (?P<of>.+?) (?:is|are|was|were|did|does|has|have|will)\b",
     "a fraction of {of}"),
    (rf"\bhow many (?P<of>(?!more\b|fewer\b)[a-z]+ of {_NAMED}) {_VERB}", "a number of {of}"),
    (rf"\bhow many (?P<of>(?!more\b|fewer\b)[a-z]+ (?!{_ADVERB})[a-z]+) {_VERB}",
     "a number of {of}"),
    (r"\bhow many (?:different |possible )?(?P<of>(?!more\b|fewer\b)[a-z]+)\b",
     "a number of {of}"),
    (r"\bhow long\b", "a length"),
    (r"\bhow far\b", "a distance"),
    (r"\bhow (?:tall|high)\b", "a height"),
    (r"\bhow heavy\b", "a weight"),
    (r"\bhow wide\b", "a width"),
    (r"\bhow deep\b", "a depth"),
    (r"\bhow old\b", "an age"),
    (r"\bhow much\b", "an amount"),
)  # fmt: skip

_OF_TIME = r"\b(?:hours?|minutes?|seconds|days?|weeks?)\b|\d second\b"
_IS_LONG = r"\bhow long (?:is|are|was|were)\b"
_OF_LENGTH = (
    r"\d[ -]?(?:m|cm|mm|km|ft|in|inch|inches|foot|feet|yards?|miles?"
    r"|(?:centi|milli|kilo)?met(?:er|re)s?)\b"
)

_MISLEADING: tuple[tuple[str, str], ...] = (
    ("−", r"\b(more|altogether|total|added|sum)\b"),
    ("+", r"\b(left|fewer|less|difference|gave away|remain)\b"),
)
"""Words that often go with the other operation (Powell & Fuchs 2018): reported, never obeyed."""


def find_situation(signs: str, story: str, question: str) -> Situation:
    """The situation of a sum whose words allow no reading: the first row that fits."""
    for row in ROWS:
        if row.signs == signs and _phrase(row, story, question) is not None:
            return row.situation
    raise ValueError(f"no situation for sums of {signs}")


def _phrase(row: Row, story: str, question: str) -> tuple[int, int] | None:
    """The place of a row's phrase, (0, 0) where it needs none; None where the row does not fit."""
    if row.question and not _search(row.question, question):
        return None
    if row.story:
        found = _search(row.story, story)
        return found.span() if found else None
    found = _search(row.question, question) if row.question else None
    at = story.rfind(question)
    return (at + found.start(), at + found.end()) if found and at >= 0 else (0, 0)


_SIGNS: dict[Situation, str] = {
    **{row.situation: row.signs for row in ROWS},
    "both compared": "+±",
    "needed": "−",
    "change added": "−",
    "change taken": "−",
    "start added": "−",
}


def fits(situation: Situation, signs: str) -> bool:
    """Whether a sum of these signs can be the work of a situation."""
    return signs in _SIGNS.get(situation, "")


def find_noun(question: str, words: str = "") -> str:
    """What kind of thing is asked for: "a fraction of the barrel"; "" if it is not made out.

    `words` are all the words of the part: "how long" asks for a time where they speak of one, and
    "how long is" for a length where they tell one.
    """
    if _search(_IS_LONG, question) and _search(_OF_LENGTH, words):
        return "a length"
    if _search(r"\bhow long\b", question) and _search(_OF_TIME, f"{question} {words}"):
        return "a length of time"
    for pattern, noun in _NOUNS:
        if found := _search(pattern, question):
            return noun.format(**found.groupdict())
    return ""


def misleading_word(signs: str, text: str) -> str:
    """A word of the story that often goes with the other operation, "" if there is none."""
    for sign, pattern in _MISLEADING:
        if sign == signs and (found := _search(pattern, text)):
            return found.group(1).lower()
    return ""


def _search(pattern: str, text: str) -> re.Match[str] | None:
    return re.search(pattern, text, re.IGNORECASE)
