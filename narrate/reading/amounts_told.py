"""Where a text tells the amounts of a sum, in digits or in words, each with its unit."""

from __future__ import annotations

import re
from collections.abc import Iterator

from narrate.exact import prose
from narrate.exact.tree import Decimal, Expr, Frac, Mixed, Neg, Whole, value, walk
from narrate.reading.words.lexicon import NO_THING, PAST, UNITS, one
from narrate.reading.words.plain import word_set
from narrate.reading.words.tokens import tokens

_NUMBERS = Whole | Frac | Mixed | Decimal
_PERCENT = re.compile(r"%| percent\b")
_HYPHENED = re.compile(r"(?:-[a-z]+)+")
_FILLED = re.compile(r" (?:square|cubic) [a-z]+")
_WORDS = re.compile(r" [a-z]+")
_MOST_WORDS = 3
_STOP_WORDS = NO_THING | PAST | word_set(
    "and of is are was were has goes short cheaper times have stay stays stayed come work works "
    "costs remain remains two three four five six seven eight nine ten eleven twelve"
)  # fmt: skip
"""Words that are no name of what is counted, where they follow a number."""
_ALIKE = word_set("fish sheep deer dozen cm mm km m kg g mg ml l ft lb oz fruit cattle")
"""Words for several that are as the word for one, and measures in short."""


def amounts(text: str, expression: Expr) -> Iterator[tuple[int, int]]:
    """Where the numbers stand that the expression holds, each with the unit that follows."""
    wanted = {value(node) for node in walk(expression) if isinstance(node, _NUMBERS)}
    found = [*_in_digits(text)]
    told = {number for number, _, _ in found}
    found += [each for each in _in_words(text, found) if each[0] not in told]
    yield from sorted((start, end) for number, start, end in found if number in wanted)


def _in_digits(text: str) -> Iterator[tuple[object, int, int]]:
    for run in prose.read(text):
        if not isinstance(run.piece, _NUMBERS | Neg):
            continue
        if percent := _PERCENT.match(text, run.end):
            yield value(run.piece) / 100, run.start, percent.end()
        elif text[run.start - 1 : run.start] == "$":
            yield value(run.piece), run.start - 1, run.end
        else:
            several = isinstance(run.piece, Whole) and run.piece.number != 1
            yield value(run.piece), run.start, _with_unit(text, run.end, several)


def _in_words(
    text: str, in_digits: list[tuple[object, int, int]]
) -> Iterator[tuple[object, int, int]]:
    """Numbers in words; "one" seldom counts, so it is none."""
    for token in tokens(text):
        if token.tree is None or token.value == 1 or not re.search("[a-z]", token.low):
            continue
        if any(start < token.end and token.start < end for _, start, end in in_digits):
            continue
        part = token.value / 100 if token.sort == "percent" else token.value
        several = isinstance(token.tree, Whole) and not token.sort
        end = token.end if token.sort == "times" else _with_unit(text, token.end, several)
        yield part, token.start, end


def _with_unit(text: str, end: int, several: bool) -> int:
    """Where the name of what is counted ends: "seed packets" of `several`, "-pound", "cup"."""
    if found := _HYPHENED.match(text, end) or _FILLED.match(text, end):
        return found.end()
    at = end
    for _ in range(_MOST_WORDS if several else 1):
        found = _WORDS.match(text, at)
        word = found.group().strip() if found else ""
        if not found or not _STOP_WORDS.isdisjoint({word}):
            return end
        at = found.end()
        if not several or one(word) != word or word in UNITS | _ALIKE:
            return at
    return end
