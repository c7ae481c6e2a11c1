"""Words that speak for an operation, to be held against a teacher's own `model:`.

A word never decides what is worked out (Powell & Fuchs 2018): it only lets a person look again. So
each function is silent where the question turns the story round ("How much at first?", "How much
longer than?") or where the words can be meant either way. Patterns: common practice, no source.
"""

from __future__ import annotations

import re

from narrate.exact import prose
from narrate.reading.situation import BY_A_NUMBER, START

_ASKING = r"\b(?:how (?:much|many|long|far|full|heavy|tall)|what|which|find)\b"
_CLAUSE = r"(?:(?!\b(?:if|when|half|with)\b)[^?.\d¼½¾⅐-⅞])*?"
"""What may stand between asking and the word: no amount, which would be told and not asked for."""

_LEFT = r"\b(?<!to the )(?<!on the )(?<!the )(?:left(?: over)?|remains?|remaining)\b|\bthe rest\b"
_COMPARED = r"how (?:much|many) (?:more|less|fewer|longer|shorter|farther|taller|heavier)"
_IN_ALL = r"(?:in all|altogether|in total|total|combined|both together)\b"
_NOT_IN_ALL = (
    r"\b(?:left|remain\w*|rest|other|more|less|fewer|\w+er than|difference|needs?|needed|missing"
    r"|of the total|without|still)\b"
)
_EARLIER = rf"{START}|\b(?:if|did|had|was|were)\b"
"""A question for what was before, though it may tell what is now."""
_NOW = r"\b(?:now|still|then)\b"
_OUT = (
    r"\b(?:us(?:es?|ed)|eats?|ate|eaten|gives? away|gave away|given away|takes? out|took out"
    r"|pours? out|poured out|cuts? off|sells?|sold|spends?|spent|drinks?|drank|drunk|spills?"
    r"|spilled|loses?|lost|leaks?|leaked|runs out|ran out|removes?|removed)\b"
)
_IN = (
    r"\b(?:adds?|added|another|joins?|joined|gets?|got|grows?|grew|rises?|rose|buys?|bought"
    r"|pours? in|poured in|fills?|filled)\b"
)
_GONE = rf"{_OUT}|\b(?:use|eat|drink|sell|spend|lose|gone|missing)\b"


def asks_for_left(ask: str, story: str) -> str:
    """The words of a question for what is left, or for a difference; "" where it is none."""
    question = _question(ask)
    if _search(START, question) or _search(BY_A_NUMBER, story) or _search(_IN_ALL, question):
        return ""
    for word in (rf"{_ASKING}{_CLAUSE}(?P<word>{_LEFT})", rf"\b(?P<word>{_COMPARED})\b"):
        if found := _search(word, question):
            return found["word"].lower()
    return ""


def goes_out(ask: str, story: str) -> str:
    """What goes out where it is asked how much there is now, "" where something comes in too."""
    question = _question(ask)
    asks_now = _search(_NOW, question) and not _search(f"{_EARLIER}|{_IN_ALL}|{_GONE}", question)
    found = _search(_OUT, story)
    return found[0].lower() if asks_now and found and not _search(_IN, story) else ""


def asks_in_all(ask: str) -> str:
    """The words of a question for what there is in all, "" where it is none."""
    question = _question(ask)
    found = _search(rf"{_ASKING}{_CLAUSE}\b(?P<word>{_IN_ALL})", question)
    return found["word"].lower() if found and not _search(_NOT_IN_ALL, question) else ""


def comes_in(ask: str, story: str) -> str:
    """What comes in where it is asked how much there is now, "" where something goes out too."""
    question = _question(ask)
    asks_now = _search(_NOW, question) and not _search(f"{_EARLIER}|{_NOT_IN_ALL}", question)
    found = _search(_IN, story)
    out = rf"{_OUT}|\b(?:gives?|gave|takes?|took|cuts?|pours?|poured|of it|of them)\b"
    silent = _search(out, story) or _search(BY_A_NUMBER, story)
    return found[0].lower() if asks_now and found and not silent else ""


def _question(ask: str) -> str:
    """The last sentence that asks; the last sentence where none does."""
    sentences = prose.sentences(ask)
    asking = [sentence for sentence in sentences if sentence.rstrip().endswith("?")]
    return (asking or sentences or ("",))[-1]


def _search(pattern: str, text: str) -> re.Match[str] | None:
    return re.search(pattern, text, re.IGNORECASE)
