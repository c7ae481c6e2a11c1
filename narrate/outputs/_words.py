"""The words of captions, each with the time at which it is heard."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator, Sequence
from functools import lru_cache
from itertools import accumulate, pairwise
from typing import NamedTuple

from narrate.lesson.lesson import Sentence, Span
from narrate.lesson.timeline import PER_LETTER, PER_PAUSE, letters

_UNSEEN = frozenset({"Cc", "Cs", "Cn"})
_PAUSES = tuple(",;:.?!")


class Word(NamedTuple):
    """One word of a caption, heard from `start` to `end` (milliseconds)."""

    text: str
    start: int
    end: int


def caption_words(caption: str) -> tuple[str, ...]:
    """The words of a caption, without what no caption format can hold.

    `-->` parts the times of a cue, so it may stand in no text (WebVTT, section 4.1).
    """
    text = caption.replace("-->", "→")
    if not text.isprintable():
        text = "".join(filter(_seen, text))
    return tuple(text.split())


def _seen(character: str) -> bool:
    return character.isspace() or unicodedata.category(character) not in _UNSEEN


def timed_words(sentence: Sentence, span: Span) -> tuple[Word, ...]:
    """The caption's words with times that share the sentence's span as the letters spoken do.

    Mathematics is short to read and long to say, so each symbol gets the time of its spoken words.
    """
    words = caption_words(sentence.caption)
    weights = _weights(sentence.say.split(), words)
    total = sum(weights) or 1
    ends = (span.start + span.length * done // total for done in accumulate(weights))
    times = pairwise([span.start, *ends])
    return tuple(Word(word, *time) for word, time in zip(words, times, strict=True))


def _weights(spoken: Sequence[str], words: Sequence[str]) -> list[int]:
    """How long each caption word is heard, in tenths of milliseconds of the letter model."""
    if tuple(spoken) == tuple(words):
        return [_weight(word) for word in words]
    weights = [0] * len(words)
    if not words:
        return weights
    for low, high, first, last in _matched(spoken, words):
        heard = sum(map(_weight, spoken[low:high]))
        for place, share in zip(range(first, last), _shares(words[first:last], heard), strict=True):
            weights[place] += share
    return weights


@lru_cache(maxsize=4_096)
def _weight(word: str) -> int:
    return PER_LETTER * letters(word) + PER_PAUSE * word.endswith(_PAUSES)


def _matched(spoken: Sequence[str], words: Sequence[str]) -> Iterator[tuple[int, int, int, int]]:
    """Stretches of the same words, and between them words against symbols.

    Yields (first spoken word, end, first caption word, end). Spoken words that have no symbols of
    their own are counted to the caption word before them, or to the first.
    """
    heard = seen = 0
    for low, first in [*_same(spoken, words), (len(spoken), len(words))]:
        if first > seen:
            yield heard, low, seen, first
        elif low > heard:
            near = max(first - 1, 0)
            yield heard, low, near, near + 1
        if low < len(spoken):
            yield low, low + 1, first, first + 1
        heard, seen = low + 1, first + 1


def _same(spoken: Sequence[str], words: Sequence[str]) -> list[tuple[int, int]]:
    """Places of words that stand in both, in order, with as many letters as can be matched.

    The heaviest common subsequence; between equals the pairs that stand nearest to one another, so
    that the `and` of "two and one fifth" is not taken for the next one.
    """
    pairs = _equal_words(spoken, words)
    best: list[tuple[int, int]] = []
    for here, (i, j, weight) in enumerate(pairs):
        before = [(best[at][0], at) for at in range(here) if pairs[at][0] < i and pairs[at][1] < j]
        gained, at = max(before, default=(0, -1))
        best.append((gained + weight, at))
    chain: list[tuple[int, int]] = []
    at = max(range(len(best)), key=lambda place: best[place][0], default=-1)
    while at >= 0:
        chain.append(pairs[at][:2])
        at = best[at][1]
    return chain[::-1]


def _equal_words(spoken: Sequence[str], words: Sequence[str]) -> list[tuple[int, int, int]]:
    """Equal words by their places, with their weight: length first, nearness second."""
    heard, seen = _places(spoken), _places(words)
    return [
        (i, j, 2_000 * len(word) - abs(heard[i] - seen[j]))
        for i, said in enumerate(spoken)
        for j, word in enumerate(words)
        if said == word
    ]


def _places(words: Sequence[str]) -> list[int]:
    """How far into the line each word begins, in thousandths."""
    ends = list(accumulate(map(len, words), initial=0))
    return [1_000 * end // ends[-1] for end in ends[:-1]]


def _shares(words: Sequence[str], heard: int) -> list[int]:
    """`heard` shared among words by their lengths, to the last tenth."""
    lengths = [len(word) for word in words]
    total = sum(lengths)
    marks = [heard * done // total for done in accumulate(lengths, initial=0)]
    return [after - before for before, after in pairwise(marks)]
