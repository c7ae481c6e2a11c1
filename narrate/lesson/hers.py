"""Sentences that a teacher has written herself, mathematics as in items, and what they claim.

Her words are told as they stand; what can be checked in them is the mathematics: a line must be
true, and a number must be one that the part holds.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from fractions import Fraction
from functools import lru_cache
from itertools import pairwise

from narrate.errors import ExactError
from narrate.exact import prose
from narrate.exact.caption import write
from narrate.exact.parser import parse
from narrate.exact.spoken import pieces_name, speak
from narrate.exact.tree import (
    Decimal,
    Frac,
    Mixed,
    Relation,
    Whole,
    Writing,
    value,
    walk,
)
from narrate.lesson.lesson import Sentence
from narrate.lesson.shows import Line, Takeaway
from narrate.lesson.solved import SolvedPart

BENCHMARKS = (Fraction(0), Fraction(1, 2), Fraction(1))
"""Numbers that any part may be held against."""

_LARGEST_WORD = 100
_SMALL = ("one", "two")
"""Number words that count no amount ("one size", "the two beds") unless pieces follow."""


def plain_sentences(text: str, spoken: str, *, stem: bool = False) -> Iterator[Sentence]:
    """A text as sentences, spoken and captioned; one that ends in mathematics gets a full stop."""
    for sentence in prose.sentences(text):
        stop = "" if sentence.rstrip(' "”’)').endswith((".", "?", "!", ":")) else "."
        say, shown = prose.say_prose(sentence, spoken), prose.caption_prose(sentence)
        yield Sentence(say=_capital(say) + stop, caption=_capital(shown) + stop, stem=stem)


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def foreign(text: str, held: frozenset[Fraction], spoken: str) -> Iterator[tuple[int, str]]:
    """Each number in a text that is none of `held`: where it stands and how it is written."""
    for run in prose.read(text):
        if isinstance(run.piece, str):
            for offset, word, amount in _in_words(run.piece, spoken):
                if amount not in held:
                    yield run.start + offset, word
            continue
        for node in walk(run.piece):
            if isinstance(node, Whole | Frac | Mixed | Decimal) and value(node) not in held:
                yield run.start, write(node)


def _in_words(text: str, spoken: str) -> Iterator[tuple[int, str, Fraction]]:
    """The numbers said in words: `nineteen`, `nineteen twentieths`, `twentieths`."""
    counts, pieces, piece = _vocabulary(spoken)
    found = list(re.finditer(r"[a-z]+(?:-[a-z]+)*", text.lower()))
    skip = False
    words = [*(each[0] for each in found), ""]
    for here, (word, next_word) in zip(found, pairwise(words), strict=True):
        if skip:
            skip = False
            continue
        names = pieces | piece if word == "one" else pieces
        if word in counts and next_word in names:
            skip = True
            yield here.start(), f"{word} {next_word}", Fraction(counts[word], names[next_word])
        elif word in counts and word not in _SMALL:
            yield here.start(), word, Fraction(counts[word])
        elif word in pieces:
            yield here.start(), word, Fraction(pieces[word])


@lru_cache(maxsize=4)
def _vocabulary(spoken: str) -> tuple[dict[str, int], dict[str, int], dict[str, int]]:
    """Words for whole numbers, for pieces of a size, and for one such piece."""
    sizes = range(2, _LARGEST_WORD + 1)
    counts = {speak(Whole(n), spoken): n for n in range(_LARGEST_WORD)}
    return (
        counts,
        {pieces_name(n, 2, spoken): n for n in sizes},
        {pieces_name(n, 1, spoken): n for n in sizes},
    )


def numbers_held(solved: SolvedPart, captions: Sequence[str]) -> frozenset[Fraction]:
    """All numbers of a part: of the item's own words, its choices, its work, and what is said."""
    found = set(BENCHMARKS)
    for text in (solved.words_of("stimulus"), solved.words_of("ask"), *captions):
        trees = (piece for piece in prose.pieces(text) if not isinstance(piece, str))
        found.update(number for tree in trees for number in _all(tree))
    for choice in solved.part.choices:
        found.update(_all(choice.tree) if choice.tree is not None else ())
    for step in solved.solution.steps:
        for tree in (step.line, step.shown):
            found.update(_all(tree) if tree is not None else ())
        found.update(Fraction(number) for listed in step.lists for number in listed.values)
    return frozenset(found)


def _all(tree: Writing) -> Iterator[Fraction]:
    """The values of a tree's numbers and expressions, and the parts of its fractions."""
    for node in walk(tree):
        if isinstance(node, Frac | Mixed):
            yield from (Fraction(node.numerator), Fraction(node.denominator))
        if isinstance(node, Mixed):
            yield Fraction(node.whole)
        if isinstance(node, Relation):
            continue
        try:
            yield abs(value(node))
        except ExactError:
            continue


def line_or_words(text: str) -> Line | Takeaway:
    """A text as a line of work where all of it is mathematics, else as words."""
    try:
        return Line(tree=parse(text))
    except ExactError:
        return Takeaway(prose.caption_prose(text))
