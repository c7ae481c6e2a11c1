"""Where a caption may be broken, and how gladly.

Captions break at a logical pause: after punctuation, before a conjunction, a preposition or a
relation sign (DCMP Captioning Key; BBC Subtitle Guidelines). Never inside a fraction or a mixed
number, between a number and what it counts, or inside one side of an equation.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

from narrate.lesson.templates import labels

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


@dataclass(frozen=True, slots=True)
class _Known:
    """Words by what they do in a sentence; see `breaks` in `labels.yaml`."""

    begins: frozenset[str]
    leans: frozenset[str]
    counted: frozenset[str]
    labels: frozenset[str]


@lru_cache(maxsize=8)
def _known(language: str) -> _Known:
    found = labels("breaks", language)
    return _Known(**{name: frozenset(words.split()) for name, words in found.items()})


def break_costs(words: tuple[str, ...], language: str) -> tuple[int, ...]:
    """What a break after each word costs: from `AT_END` (best) to `NEVER`."""
    costs: list[int] = []
    depth, counting, known = 0, False, _known(language)
    for place, word in enumerate(words):
        depth += _opened(word)
        after = words[place + 1] if place + 1 < len(words) else ""
        counting = is_number(word) or (counting and word.lower() in known.counted)
        costs.append(_cost(word, after, depth, counting, known) if after else AT_END)
    return tuple(costs)


def _opened(word: str) -> int:
    return word.count("(") + word.count("[") - word.count(")") - word.count("]")


def _cost(word: str, after: str, depth: int, counting: bool, known: _Known) -> int:
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
    return _in_words(word.lower(), after.lower(), counting, known)


def _in_words(word: str, after: str, counting: bool, known: _Known) -> int:
    phrase = after in known.begins
    if counting and not phrase:
        return NEVER
    if word in known.labels and _tells_apart(after):
        return NEVER
    if word in known.leans:
        return UNGLADLY
    return AT_PHRASE if phrase else ANYWHERE


def _mixed(word: str, after: str) -> bool:
    return bool(_WHOLE.fullmatch(word) and _FRACTION.match(after))


def _tells_apart(after: str) -> bool:
    """`3` of question 3, `A` of part A."""
    bare = after.rstrip(".,;:?!")
    return bare.isdigit() or len(bare) == 1


@lru_cache(maxsize=4_096)
def is_number(word: str) -> bool:
    """Whether a caption word is a numeral: `20`, `3/4`, `2.5`, `□/20`."""
    return bool(_NUMBER.fullmatch(word))


def is_operand(word: str) -> bool:
    """Whether a word ends one side of an equation: a numeral, a bracket or a single letter."""
    bare = word.rstrip(",;:")
    return is_number(bare) or bare.endswith((")", "]", "□")) or (len(bare) == 1 and bare.isalpha())
