"""What to say more plainly where no line can be offered: the sentence that is not understood."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from narrate.reading.words.clauses import sentences as cut_in_sentences
from narrate.reading.words.offered_asked import Told, told
from narrate.reading.words.offered_heard import loaded
from narrate.reading.words.offered_kinds import holds
from narrate.reading.words.offered_links import linked
from narrate.reading.words.offered_sums import letters_of
from narrate.reading.words.plain import plain, shortened
from narrate.reading.words.tokens import tokens

_HARD = re.compile(
    r"\b(?:again|half|halves|rest|remaining|twice|double[sd]?|except|without|not|never|instead"
    r"|back|both|other|others|almost|would|none|nobody|some|several|few)\b",
    re.IGNORECASE,
)
"""Words by which a sentence without a number changes what there is."""


def not_understood(text: str, reason: str = "") -> str:
    """The sentence to say more plainly, shortened where it is long.

    A `reason` that quotes words of the text speaks of the sentence that holds them.
    """
    story = told(text)
    said = [s for s in sentences_of(text) if s]
    asking = [s for s in said if s.endswith("?")] or said[-1:]
    telling = [s for s in said if s not in asking]
    named = asking[-1:] if not story.query.text else [*_unclear(story, telling, reason)]
    return shortened((named or asking[-1:] or [""])[0])


def _unclear(story: Told, telling: Sequence[str], reason: str) -> Iterator[str]:
    """The sentences that are not understood, the surest first."""
    quoted = re.search("“([^”]+?)(?: …)?”", reason)
    if quoted is not None:
        yield from (s for s in telling if re.search(rf"(?<!\w){re.escape(quoted[1])}(?!\w)", s))
    yield from (s for s in telling if loaded(s))
    yield from (s for s in telling if _HARD.search(s) and not re.search(r"\d", s))
    for numbers in (_unused(story), _neither_here_nor_there(story)):
        yield from (s for s in telling if any(_stands_in(n, s) for n in numbers))


def sentences_of(text: str) -> list[str]:
    """The sentences of a text as they stand: a point behind a.m. ends none."""
    plainly = plain(text).strip()
    cut = cut_in_sentences(tokens(plainly))
    starts = [s[0].start for s in cut if s]
    ends = [*starts[1:], len(plainly)][: len(starts)]
    return [
        re.sub(r"\s+", " ", plainly[start:end]).strip()
        for start, end in zip(starts, ends, strict=True)
    ]


def _unused(story: Told) -> list[str]:
    """The numbers that lead to nothing that is asked for, as they are written."""
    kept = {amount.told.start for amount in linked(story).amounts}
    return [a.told.text.split()[0] for a in story.amounts if a.told.start not in kept]


def _neither_here_nor_there(story: Told) -> list[str]:
    """The numbers of which it is not told whether they come or go, where that matters."""
    if not holds(story, "left|now|start"):
        return []
    plain_ones = story.of("amount")
    letters = zip(plain_ones[1:], letters_of(story)[1:], strict=True) if plain_ones else ()
    return [a.told.text.split()[0] for a, letter in letters if letter == "d"]


def _stands_in(number: str, sentence: str) -> bool:
    return number in sentence.split()
