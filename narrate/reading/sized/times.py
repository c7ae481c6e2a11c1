"""Words that say when: which of several times of a thing is meant."""

from __future__ import annotations

import re

from narrate.reading.sized.forms import one_of
from narrate.reading.words.lexicon import DATES, one
from narrate.reading.words.plain import word_set

_DAY = one_of(
    [
        *DATES,
        *[
            "may",
            "noon",
            "midnight",
            "dawn",
            "sunrise",
            "sunset",
            "midday",
            "bedtime",
            "night",
            "morning",
            "nightfall",
            "afternoon",
            "evening",
            "spring",
            "summer",
            "autumn",
            "winter",
            "lunchtime",
            "breakfast",
            "lunch",
            "dinner",
        ],
    ]
)
_PART = r"(?:morning|afternoon|evening|night|day|week|month|year|spring|summer|fall|autumn|winter)"
_SPAN = r"(?:minutes?|hours?|days?|weeks?|months?|years?|decades?)"
_LONG = r"(?:days?|weeks?|months?|years?)"
_COUNTED = rf"(?:an?|one|#\d+|several|a few) {_SPAN}"
_IT = r"(?:it|he|she|they|\w+|the \w+)"
_EVENT = (
    r"(?:rise|drop|fall|change|increase|sale|storm|rain|haircut|trim|decrease|raise|discount"
    r"|growth|spurt)"
)
_HAPPENED = (
    r"(?:fell|dropped|rose|grew|shrank|changed|went up|went down|increased|decreased|reduced"
    r"|raised|lowered|marked down|got sick|lost weight)"
)
_WAS = r"(?:planted|born|bought|sick|new|ill|young|adopted|lit|made)"
_PLAIN = (
    r"(?-i:(?!(?:it|he|she|they|the|an?|his|her|its|their|was|were|is|are|had|has|will)\b)[a-z]+)"
)
TIME = re.compile(
    "|".join(
        (
            rf"(?:in|on|by|at|last|this|next|early in|late in|during|since|before|until)"
            rf"(?: early| late)? (?:{_DAY})(?: (?:morning|afternoon|evening|night))?",
            rf"(?:in|by|during|over|since|at)? ?(?:the|this|that|last|next|the next|the same)"
            rf"(?: past| last)? {_PART}",
            r"(?:at|by) (?:[a-z\d]+ o'clock|\d\d?(?::\d\d)?(?: ?[ap]\.?m\.?)?)"
            r"(?: in the (?:morning|afternoon|evening))?",
            rf"at the (?:start|beginning|end) of (?:the|that) (?:{_PART}|season|sale)",
            rf"(?:in|after) (?:#\d+|one) {_LONG}(?: time)?",
            rf"{_COUNTED} (?:ago|later|earlier|from now|after that|before that|before)",
            rf"(?:in|for|over|within) (?:an?|one|several|a few) {_SPAN}",
            rf"(?:in|for|over|within) #\d+ {_LONG}",
            r"yesterday|today|tomorrow|right now|now|then|at first|originally|initially|at birth",
            r"later|afterwards?|so far|since then|after that|before that|in the beginning",
            r"to start with|since|at present|currently|presently|at that time|already|also|still",
            r"only|just|too|before|beforehand|in the end|exactly",
            r"after (?:the|an?|one) (?:\w+ )?(?:hour|day|week|month|year)",
            rf"(?:before|after) (?:the|this|that|a) (?:\w+ )?{_EVENT}",
            rf"(?:before|after) (?:the|a|that) {_PLAIN}(?: {_PLAIN}){{0,2}}",
            rf"(?:before|after) (?:it|he|she|they|the price|the temperature) (?:was |were )?"
            rf"{_HAPPENED}",
            rf"(?:when|while) {_IT} (?:was|were|got) {_WAS}",
            r"when \w+ (?:planted|bought|adopted|got) (?:it|him|her|them)",
            r"at the (?:start|beginning|end)",
            r"(?:on|by|at|before) (?:his|her|its|their|the) (?:\w+ )?birthday",
            rf"(?:in|over|during) the (?:next|last|past|following) #\d+ {_LONG}",
        )
    ),
    re.IGNORECASE,
)
"""Words that say when."""

_EARLY = re.compile(
    r"\b(?:before|first|originally|initially|birth|beginning|start|ago|earlier|planted|born|bought"
    r"|adopted|new|young|lit|made)\b"
)
_LATE = re.compile(
    r"\b(?:now|then|today|later|after\w*|end|from now|present\w*|currently|tomorrow)\b"
)
_NO_LABEL = word_set(
    "in on by at during since before until the that same past over for within a an one"
    " early late of start beginning end so far then now later after when it he she they was were"
    " got"
    " also only just too exactly still already o clock o'clock m"
)


def when(phrase: str) -> str:
    """Whether a phrase of time means the first of several times or the last, "" for neither."""
    low = phrase.lower()
    return "first" if _EARLY.search(low) else "last" if _LATE.search(low) else ""


def labels(phrase: str) -> frozenset[str]:
    """The words by which a phrase of time is known again: in May, on Monday."""
    words = (one(word) for word in re.findall(r"(?<!#)\b\d+(?::\d+)?|[^\W\d_]+", phrase.lower()))
    return frozenset(word for word in words if word not in _NO_LABEL)
