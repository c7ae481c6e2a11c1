"""What is said, broken into short lines to read from a screen while talking.

Four to six words and at most 32 characters a line, broken where a phrase ends, no word divided
(common practice of prompters, no source).
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from itertools import accumulate

from narrate.exact.spoken import speak
from narrate.exact.tree import Mixed, Whole
from narrate.outputs._breaks import NEVER, break_costs

LEAST_WORDS, MOST_WORDS, LINE = 4, 6, 32
_ODD_WORD, _A_LINE, _TOO_LONG = 5, 6, 500


@lru_cache(maxsize=4_096)
def prompt_lines(say: str, language: str = "en") -> tuple[str, ...]:
    """The words of a sentence in lines, as cheap as they can be broken."""
    words = say.split()
    costs = _costs(words, language)
    offsets = list(accumulate((len(word) + 1 for word in words), initial=0))
    best: list[tuple[int, int]] = [(0, 0)]
    for end in range(1, len(words) + 1):
        ways: list[tuple[int, int]] = []
        for start in range(end - 1, max(0, end - MOST_WORDS - 2) - 1, -1):
            characters = offsets[end] - offsets[start] - 1
            if characters > LINE and ways:
                break  # a word less is better
            ways.append((best[start][0] + _line_cost(end - start, characters), start))
        price, start = min(ways)
        best.append((price + 2 * costs[end - 1], start))
    lines: list[str] = []
    end = len(words)
    while end:
        start = best[end][1]
        lines.append(" ".join(words[start:end]))
        end = start
    return tuple(reversed(lines))


def _costs(words: Sequence[str], language: str) -> list[int]:
    """What a break after each word costs; never inside "two and one fifth"."""
    numbers = _numbers(language)
    costs = list(break_costs(tuple(numbers.get(word.lower(), word) for word in words), language))
    join = _join(language)
    for place, (whole, joined, top) in enumerate(zip(words, words[1:], words[2:], strict=False)):
        if joined == join and {whole.lower(), top.lower()} <= numbers.keys():
            costs[place] = costs[place + 1] = NEVER
    return costs


@lru_cache
def _numbers(language: str) -> dict[str, str]:
    """The words of small numbers, which are not parted from what they count."""
    return {speak(Whole(n), language): str(n) for n in (*range(1, 21), *range(30, 100, 10))}


@lru_cache
def _join(language: str) -> str:
    """The word between a whole number and a fraction."""
    return speak(Mixed(1, 1, 2), language).split()[1]


def _line_cost(words: int, characters: int) -> int:
    odd = max(LEAST_WORDS - words, words - MOST_WORDS, 0)
    over = max(characters - LINE, 0)
    return _A_LINE + _ODD_WORD * odd + (_TOO_LONG + 10 * over if over else 0)
