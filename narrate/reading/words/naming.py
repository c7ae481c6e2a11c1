"""Numbers that only name: Class 4, Room 9, a year, a day, an age that nothing asks about."""

from __future__ import annotations

import re

from narrate.reading.words.lexicon import NO_THING, NOUNS_FIRST, PAST, VERBS
from narrate.reading.words.plain import word_set

_MONTHS = word_set(
    "january february march april may june july august september october november december "
    "jan feb mar apr jun jul aug sep sept oct nov dec"
)
_LABELS = (
    "class|team|group|room|year|grade|table|bed|plot|row|box|bus|gate|number|day|week|lesson|level"
    "|station|route|house|stall|lot|stage|part|chapter|period|shelf|page"
)
_LABEL = re.compile(rf"\b(?:{_LABELS}|no\.) $", re.IGNORECASE)
_NO_LABEL = re.compile(
    r"\b(?:an?|each|every|per|the|last|this|that|next|other|one|first|second|third|fourth) \w+ $",
    re.IGNORECASE,
)
_DOES = PAST | NO_THING | word_set("pupils students graders children kids class has have uses gets")
_AGED = re.compile(r"(?:-| )years?(?:-| )(?:old\b|of age\b)", re.IGNORECASE)
_AGE_ASKED = re.compile(r"\b(?:old|older|younger|ages?)\b", re.IGNORECASE)
_YEAR_BEFORE = re.compile(r"\b(?:in|since|by|from|until|of|year|before|after) $", re.IGNORECASE)
_YEAR_BEHIND = re.compile(r"(?:,| the | there | a | [a-z]+ed |\.|\?)")


def is_date(text: str, start: int) -> bool:
    """Whether a number at a place of a text is a day: May 4."""
    before = re.search(r"\b([A-Z][a-z]{2,8})\.? $", text[:start])
    return before is not None and before[1].lower() in _MONTHS


def is_name(text: str, start: int, question: str) -> bool:
    """Whether the digits at a place of a text only name; ages do where `question` asks for none."""
    digits = re.match(r"\d+(?![\d.,/%]\d|%)", text[start:])
    if digits is None:
        return False
    before, behind = text[:start], text[start + len(digits[0]) :]
    if _AGED.match(behind):
        return not _AGE_ASKED.search(question)
    if _LABEL.search(before) and not _NO_LABEL.search(before):
        return _is_alone(behind)
    year = re.fullmatch(r"(?:19|20)\d\d", digits[0]) and _YEAR_BEFORE.search(before)
    return is_date(text, start) or bool(year and _YEAR_BEHIND.match(behind))


def _is_alone(behind: str) -> bool:
    """Whether what follows a number names no thing that it could count: Class 4 dug."""
    word = re.match(r"(?:'s)? ([a-z]+)\??(?P<what> (?:\d|them\b|it\b|the\b|an?\b|all\b))?", behind)
    if word is None or word[1] in _DOES or word[0].endswith("?"):
        return True
    does = VERBS.get(word[1], "")
    return bool(does) and (does not in NOUNS_FIRST or word["what"] is not None)
