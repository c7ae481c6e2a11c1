"""A part without a unit of its own, which is never added to a count or a measure.

"Of these pupils, 3/8 walk" tells no 3/8 of a pupil, "25% of them" no 25: where such a number may be
a part of what was told, no reading joins it to that by + or −, whoever made the reading. "3/8 of a
cup" and "2/3 mile" are amounts, and parts of one whole may be put together.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import takewhile

from narrate.exact.tree import Decimal, Expr, Frac, Whole, value
from narrate.reading.vetoes.summed import is_number, sums
from narrate.reading.words.lexicon import NO_THING, UNITS, VERBS
from narrate.reading.words.plain import word_set
from narrate.reading.words.token import Token
from narrate.reading.words.tokens import tokens

_ONE = word_set("a an one")
_LISTED = word_set(", and or to by than plus minus -")
_BESIDE = word_set("more less fewer extra additional another other full whole")


Told = dict[str, set[tuple[Fraction, bool]]]
"""The numbers of a text by what they are, each with whether it is a percent.

"bare" is without a unit, "one" of one whole (3/8 of a pie), "own" an amount of its own.
"""


def joins_a_bare_part(text: str, tree: Expr | None) -> bool:
    """Whether a tree adds a part of a text that has no unit to what is counted or measured."""
    joined = [[term for _, term in terms] for terms in sums(tree)]
    percents = "%" in text or "percent" in text
    if not any(percents or any(map(_may_be_part, terms)) for terms in joined):
        return False
    told = _told(tokens(text))
    return any(_joins(terms, told) for terms in joined)


def _joins(terms: Sequence[Expr], told: Told) -> bool:
    """Whether one of the terms is a bare part, and another is no part and no whole."""
    for percent, wholes in ((False, 1), (True, 100)):
        sorts = [(t, value(t), (value(t), percent)) for t in terms]
        own = told["own"] | {(of, True) for of, _ in told["own"]}
        bare = [t for t, _, key in sorts if is_number(t) and key in told["bare"] - own]
        others = [(t, of, key) for t, of, key in sorts if t not in bare and of != wholes]
        if percent and bare and others:
            return True
        if bare and any(of > 1 or (is_number(t) and key in told["own"]) for t, of, key in others):
            return True
    return False


def _may_be_part(tree: Expr) -> bool:
    return isinstance(tree, Frac | Decimal) and value(tree) < 1


def _told(read: Sequence[Token]) -> Told:
    told: Told = {"bare": set(), "one": set(), "own": set()}
    for at, word in enumerate(read):
        if word.kind == "n" and word.tree is not None:
            percent = word.sort == "percent"
            sort = "bare" if percent or _is_bare(read, at) else "own"
            told["one" if sort == "own" and _is_of_one(read, at) else sort].add(
                (word.value, percent)
            )
    return told


def _is_of_one(read: Sequence[Token], at: int) -> bool:
    """Whether a number is of one thing that is no measure: 3/8 of a pie."""
    lows = [t.low for t in read[at + 1 : at + 3]]
    behind = read[at + 3 : at + 4]
    of_one = len(lows) > 1 and lows[0] == "of" and lows[1] in _ONE
    return of_one and bool(behind) and behind[0].lemma not in UNITS


def _is_bare(read: Sequence[Token], at: int) -> bool:
    """Whether the number at a place is below one and names no unit or thing of its own."""
    word = read[at]
    if word.sort == "money" or word.joined or word.value >= 1 or isinstance(word.tree, Whole):
        return False
    behind = [t for t in read[at + 1 : at + 4] if t.low not in _BESIDE]
    lows = [t.low for t in behind]
    if not behind or _is_of_these(read, at):
        return True
    if lows[0] == "of":  # of a 9-foot rope is of so much, of a pie of one
        return lows[1:2] == [] or lows[1] not in _ONE or any(t.kind == "n" for t in behind)
    if lows[0] in _LISTED and len(behind) > 1 and behind[1].kind == "n":
        return _is_bare(read, read.index(behind[1])) or behind[1].value >= 1
    named = behind[0].kind == "w" and (behind[0].low not in NO_THING or lows[0] in _ONE)
    others = (i for i, n in enumerate(read) if n.kind == "n" and i != at)
    counted = {t.lemma for i in others for t in _behind(read, i)}
    shared = any(t.low in _REST for t in read)  # then an unknown word may be what is done
    known = behind[0].lemma in UNITS | counted or not (shared or behind[0].low in VERBS)
    return not (named and known)


def _behind(read: Sequence[Token], at: int) -> list[Token]:
    """The words right behind a number, before the next one."""
    return [*takewhile(lambda t: t.kind != "n" and t.low != ",", read[at + 1 : at + 4])]


_REST = word_set("rest others remainder")


def _is_of_these(read: Sequence[Token], at: int) -> bool:
    """Whether the sentence of a number begins with what it is a part of: of these pupils, 3/8."""
    start = max((i + 1 for i in range(at) if read[i].low in (".", "?", "!")), default=0)
    return read[start].low == "of" and read[at + 1].lemma not in UNITS
