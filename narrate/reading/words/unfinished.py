"""Unfinished sentences, as tests with choices write them, made the questions that they ask.

"The product of 48 and 206 is", "If 3x + 7 = 25, then x =", "5 − 8 equals which of these?"
"""

from __future__ import annotations

import re
from dataclasses import replace

from narrate.reading.words.understood import Marked, Understood

_OPEN = r"(?:is|are|was|were|equals?|will be|would be|=|(?:is|are) equal to|is the same as)"
_ENDS = re.compile(
    rf"\s*(?:\b|(?<=[\d)²³ ])){_OPEN}\s*(?:which of (?:these|the following)(?: numbers)?\s*\?"
    r"|[:_…]*|_+\.|\.\.\.|\?)\s*$",
    re.IGNORECASE,
)
_ASKS = re.compile(
    r"\b(?:what|which|how|who|when does|find|solve|calculate|give|write|explain|select|choose)\b",
    re.IGNORECASE,
)
_IF = re.compile(r"(?P<told>(?:if|when|in|on|at|for|to)\b.+), (?:then )?(?P<open>[^,]+)", re.I)
_FORM_FIRST = re.compile(
    r"(?P<form>(?:(?:written|expressed|rounded) (?:as|in|to) [^,\d]+"
    r"|rounded to the nearest [\w,]+(?: \w+)?)), (?P<rest>[^,].*)",
    re.IGNORECASE,
)
_SENTENCE = re.compile(r"(?<=[.?!])\s+(?=[A-Z\d(√$-])")


def as_question(text: str) -> str:
    """An unfinished last sentence as the question that it asks; any other text as it is."""
    start = _last(text)
    found = _ENDS.search(text, start)
    told = text[start : found.start()].strip() if found else ""
    if not re.search(r"\w", told) or _ASKS.search(told):
        return text
    return text[:start] + _asked(told)


def _last(text: str) -> int:
    """Where the last sentence begins."""
    return max((found.end() for found in _SENTENCE.finditer(text)), default=0)


def _asked(told: str) -> str:
    if re.fullmatch(r"[\d., /%]+", told):
        return f"Which is equal to {told}?"
    if found := _FORM_FIRST.fullmatch(told):
        return f"What is {found['rest']} {_small(found['form'])}?"
    if found := _IF.fullmatch(told):
        return f"{found['told']}, what is {found['open']}?"
    return f"What is {_small(told)}?"


def _small(words: str) -> str:
    """Words within a sentence: a first capital is kept only where it begins a name."""
    first = words.split(" ", 1)[0]
    article = first.lower() in ("the", "a", "an", "its", "this", "written", "rounded", "expressed")
    return words[:1].lower() + words[1:] if article else words


def marked_in(text: str, found: Understood) -> Understood:
    """What was read of the question, with the places that its phrases have in the text itself."""
    start = _last(text)
    kept = [mark for mark in found.marks if mark.end <= start]
    for mark in found.marks:
        if mark.end > start and mark.role != "unknown" and (at := text.find(mark.text, start)) >= 0:
            kept.append(replace(mark, start=at, end=at + len(mark.text)))
    asked = Marked(start=start, end=len(text), role="unknown", text=text[start:])
    return replace(found, marks=(*sorted(kept, key=lambda mark: mark.start), asked))
