"""A question for an expression or equation, made the question that the expression answers.

"Which expression shows how much flour is left?" asks how much flour is left; "which equation can be
used to find b, the number of beans that are left?" how many beans are left.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from narrate.reading.words.plain import word_set
from narrate.reading.words.token import Token

_NAMED = word_set("expression expressions equation equations sentence sentences")
_OPENS = word_set(
    "show shows represent represents give gives tell tells model models describe describes find "
    "finds determine calculate match matches"
)
_BETWEEN = word_set(
    "can could should would will must best correctly be used to you use help helps he she they we "
    "him her them number below"
)
_CAN = word_set("can could do does should would will")
_STORY = word_set("problem story situation answer it this that")


def asked_of_work(sentence: Sequence[Token]) -> list[Token] | None:
    """The question inside a question for an expression; [] where it only points at the story.

    None where the sentence is no question for an expression.
    """
    lows = [t.low for t in sentence]
    how = lows.index("how") if "how" in lows and lows[:1] in (["if"], ["how"]) else -1
    asks = how == 0 or (how > 0 and lows[how - 1] == ",")
    if asks and _CAN & set(lows[how + 1 : how + 2]) and "find" in lows[how : how + 6]:
        rest = list(_without_letter(sentence[lows.index("find", how) + 1 :]))
        return [*sentence[:how], *(_question(rest) if rest else [])]
    named = next((i for i, low in enumerate(lows[:8]) if low in _NAMED), None)
    if named is None or not {"which", "what"} & set(lows[:named]):
        return None
    at = named + 1
    while at < len(lows) and lows[at] not in _OPENS:
        if lows[at] not in _BETWEEN and not sentence[at].text[:1].isupper():
            return None
        at += 1
    if lows[at + 1 : at + 3] == ["how", "to"]:
        at += 3  # shows how to find the number of beans
    if lows[at + 1 : at + 4] == ["a", "way", "to"]:
        at += 4
    rest = _without_letter(sentence[at + 1 :])
    words = [t for t in rest if t.kind != "p"]
    if not words or (words[0].low in ("the", "this") and {w.low for w in words[1:]} <= _STORY):
        return []
    return _question(rest)


def _without_letter(words: Sequence[Token]) -> list[Token]:
    """Words without a letter that names what is asked for: b, the number of beans."""
    kept: list[Token] = []
    for at, word in enumerate(words):
        letter = is_letter(word) and not (at and words[at - 1].kind == "n")
        beside_letter = word.text == "," and any(
            is_letter(w) for w in (*words[max(0, at - 1) : at], *words[at + 1 : at + 2])
        )
        if not letter and not beside_letter:
            kept.append(word)
    if [w.low for w in kept[:3]] == ["the", "value", "of"]:
        kept = kept[3:]
    return kept


def is_letter(word: Token) -> bool:
    """Whether a word is a letter that stands for an amount."""
    return word.kind == "w" and len(word.text) == 1 and word.low not in ("a", "i")


def _question(rest: Sequence[Token]) -> list[Token]:
    """The words behind "shows" as a question: the number of beans becomes how many beans."""
    lows = [t.low for t in rest]
    text = " ".join(lows)
    if lows[0] in ("how", "what"):
        return list(rest)
    for pattern, asking in _FORMS:
        if found := re.match(pattern, text):
            many, cut = asking.split(), len(found[0].split())
            first = rest[0]
            asked = [replace(first, text=word) for word in many]
            return [*asked, *_plainly(rest[cut:])]
    what = [replace(rest[0], text="what"), replace(rest[0], text="is")]
    return [*what, *rest]


_FORMS = (
    (r"the total number of(?= )", "how many total"),
    (r"the number of(?= )", "how many"),
    (r"the (?:total )?amount of (?=(?!money\b)\w)", "how much"),
    (r"the (?=\w+s (?:that|who|which|left|in all|altogether)\b)", "how many"),
)


def _plainly(words: Sequence[Token]) -> list[Token]:
    """Beans that are left: beans are left."""
    return [w for at, w in enumerate(words) if not (at and w.low in ("that", "who", "which"))]
