"""Where a caption may be broken, and how gladly.

Captions break at a logical pause: after punctuation, before a conjunction, a preposition or a
relation sign (DCMP Captioning Key; BBC Subtitle Guidelines). Never inside a fraction or a mixed
number, between a number and what it counts, or inside one side of an equation.
"""

from __future__ import annotations

import re
from functools import lru_cache

AT_END, AT_PAUSE, AT_PHRASE, ANYWHERE, UNGLADLY = 0, 2, 4, 10, 18
IN_SUM, NEVER = 200, 5_000
"""`IN_SUM`: at an operation sign, only where one side of an equation is too long for a line."""

_NUMBER = re.compile(r"[−-]?[(\[$]*(\d+(,\d{3})*(\.\d+)?|\.\d+|□)(/(\d+|□))?[)\]%]*")
_WHOLE = re.compile(r"[−-]?[(\[]*\d+")
_FRACTION = re.compile(r"\d+/\d+\W*")
_RELATIONS = frozenset("=≠<>≤≥≈")
_OPERATIONS = frozenset("+−×÷")
_SIGNS = _RELATIONS | _OPERATIONS
_ENDS = (".", "?", "!", "…")
_PAUSES = (",", ";", ":", "–", "—")


def _set(words: str) -> frozenset[str]:
    return frozenset(words.split())


# English is the language there is; another one brings its own sets.
_PHRASE_STARTS = _set(
    "and but or nor so because since if when while where that which who than as then until "
    "though although before after at by for from in into of on onto out over to up with without "
    "is are was were be equals makes make"
)
_LEANS_ON_NEXT = _set(
    "a an the this that these those its it's their our your his her my each every both one no "
    "is are was were be been can can't could has have had will would should may might must do "
    "does don't doesn't didn't did we i you they he she it we're that's there's let's not and or "
    "but so of to in into from by for with at on than as"
)
_COUNTED = _set(
    "equal more small smaller large larger whole new same shaded empty full extra other"
)
_LABELS = _set("question part problem step item page choice choices answer bed lesson")


def break_costs(words: tuple[str, ...]) -> tuple[int, ...]:
    """What a break after each word costs: from `AT_END` (best) to `NEVER`."""
    costs: list[int] = []
    depth, counting = 0, False
    for place, word in enumerate(words):
        depth += _opened(word)
        after = words[place + 1] if place + 1 < len(words) else ""
        counting = is_number(word) or (counting and word.lower() in _COUNTED)
        costs.append(_cost(word, after, depth, counting) if after else AT_END)
    return tuple(costs)


def _opened(word: str) -> int:
    return word.count("(") + word.count("[") - word.count(")") - word.count("]")


def _cost(word: str, after: str, depth: int, counting: bool) -> int:
    if word.endswith(_ENDS):
        return AT_END
    if after in _RELATIONS and is_operand(word):
        return AT_PAUSE
    if after in _OPERATIONS:
        return NEVER if depth > 0 else IN_SUM
    if word in _SIGNS or _mixed(word, after):
        return NEVER
    if after in _RELATIONS:
        return UNGLADLY
    if word.endswith(_PAUSES):
        return AT_PAUSE
    return _in_words(word.lower(), after.lower(), counting)


def _in_words(word: str, after: str, counting: bool) -> int:
    phrase = after in _PHRASE_STARTS
    if counting and not phrase:
        return NEVER
    if _labels(word, after):
        return NEVER
    if word in _LEANS_ON_NEXT:
        return UNGLADLY
    return AT_PHRASE if phrase else ANYWHERE


def _mixed(word: str, after: str) -> bool:
    return bool(_WHOLE.fullmatch(word) and _FRACTION.match(after))


def _labels(word: str, after: str) -> bool:
    """`Question 3`, `Part A`: a name and what tells it from others."""
    bare = after.rstrip(".,;:?!")
    return word in _LABELS and (bare.isdigit() or len(bare) == 1)


@lru_cache(maxsize=4_096)
def is_number(word: str) -> bool:
    """Whether a caption word is a numeral: `20`, `3/4`, `2.5`, `□/20`."""
    return bool(_NUMBER.fullmatch(word))


def is_operand(word: str) -> bool:
    """Whether a word ends one side of an equation: a numeral, a bracket or a single letter."""
    bare = word.rstrip(",;:")
    return is_number(bare) or bare.endswith((")", "]", "□")) or (len(bare) == 1 and bare.isalpha())
