"""Two days, weeks or years of a story held against each other, written so that rows can read it.

"Last year 214, 58 more than this year", "18 pages on Friday and twice as many on Saturday": what is
told in passing is said in full, "which is 58 more than on", "twice as many on Saturday as on".
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

from narrate.reading.words.comparing import MORE
from narrate.reading.words.lexicon import DATES, SPANS
from narrate.reading.words.plain import word_set
from narrate.reading.words.token import Token

_TODAY = word_set("today yesterday")
_AT_TIMES = word_set("on in")


def with_days_compared(sentences: Sequence[list[Token]]) -> list[list[Token]]:
    """The sentences, the two times of the story as names, comparisons of them in full."""
    made = [[*_named(s)] for s in sentences] if _tells_both(sentences) else [*map(list, sentences)]
    days = [word for s in made for word in s if _is_time(word)]
    first = days[0] if days else None
    if first is None or len({day.low for day in days}) != 2:
        return list(sentences)
    return [[*_in_full(s, first)] for s in made]


def _tells_both(sentences: Sequence[list[Token]]) -> bool:
    """Whether today and yesterday are told, or this year and last year."""
    said = [w.low for s in sentences for w in s]
    spans = [(a, b) for a, b in pairwise(said) if a in ("this", "last") and b in SPANS]
    return said.count("today") > 0 < said.count("yesterday") or len({*spans}) == 2


def _named(words: Sequence[Token]) -> Iterator[Token]:
    """Words with "on last-year" for last year, as for "on Monday"."""
    skip = False
    for at, word in enumerate(words):
        behind = words[at + 1] if at + 1 < len(words) else None
        if skip:
            skip = False
        elif word.low in _TODAY:
            yield from _on(word, f"{word.text.title()}-day")
        elif word.low in ("this", "last") and behind is not None and behind.low in SPANS:
            yield from _on(word, f"{word.text.title()}-{behind.low}")
            skip = True
        else:
            yield word


def _on(word: Token, name: str) -> Iterator[Token]:
    yield replace(word, text="on", end=word.start)
    yield replace(word, text=name)


def _is_time(word: Token) -> bool:
    return word.low in DATES


def _in_full(words: Sequence[Token], first: Token) -> Iterator[Token]:
    """The words of a sentence with "which is" and "as on Friday" where it leaves them out."""
    for at, word in enumerate(words):
        yield word
        if word.text == "," and _is_aside(words, at + 1):
            yield replace(word, kind="w", text="which")
            yield replace(word, kind="w", text="is")
        if _ends_comparison(words, at, first):
            than = "as" if _sort(words, at) == "times" else "than"
            for said in (than, "on"):
                yield replace(word, kind="w", text=said, start=word.end)
            yield replace(first, start=word.end, end=word.end)


def _is_aside(words: Sequence[Token], at: int) -> bool:
    """Whether "58 more than on Tuesday" begins at a place."""
    behind = words[at : at + 7]
    lows = [w.low for w in behind]
    held = next((i for i, low in enumerate(lows) if low == "than"), len(lows))
    short = 1 < held < 5 and bool(set(lows[1:held]) & MORE.keys()) and behind[0].kind == "n"
    return (
        short
        and held + 2 < len(lows)
        and lows[held + 1] in _AT_TIMES
        and _is_time(behind[held + 2])
    )


def _sort(words: Sequence[Token], at: int) -> str:
    """The comparison that stands before a place in its stretch: so many times, fewer; or none."""
    stretch = _stretch(words, at)
    lows = [w.low for w in stretch]
    if "than" in lows or lows.count("as") > 1:
        return ""
    share = any(a.sort == "part" and b.low == "as" for a, b in pairwise(stretch))
    if share or any(w.sort == "times" for w in stretch) or "times" in lows:
        return "times" if "as" in lows else ""
    counted = any(a.kind == "n" and b.low in ("fewer", "less") for a, b in pairwise(stretch))
    return "fewer" if counted else ""


def _stretch(words: Sequence[Token], at: int) -> Sequence[Token]:
    """The words up to a place since the last comma or "and"."""
    cuts = [i for i in range(at) if words[i].low in ("and", "but", ",", ";")]
    return words[cuts[-1] + 1 if cuts else 0 : at + 1]


def _ends_comparison(words: Sequence[Token], at: int, first: Token) -> bool:
    """Whether a comparison of the other time ends at a place that does not say so."""
    behind = words[at + 1] if at + 1 < len(words) else None
    ends = words[at].kind != "p" and (
        behind is None or behind.low in (".", ",", "?", ";", "and", "but")
    )
    if not ends or not _sort(words, at):
        return False
    times = {w.low for w in _stretch(words, at) if _is_time(w)}
    return bool(times) and first.low not in times
