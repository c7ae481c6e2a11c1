"""Words that add nothing to a sentence of measures, left out before it is cut in clauses.

"A piece that is 3 feet long" is a piece 3 feet long; "how far, in miles," asks how far.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace

from narrate.exact.tree import Whole
from narrate.reading.words.lexicon import UNITS
from narrate.reading.words.plain import word_set
from narrate.reading.words.token import Token

_MEASURING = word_set(
    "is are was were measure measures measured weigh weighs weighed hold holds held"
)


def shorter(sentence: Sequence[Token]) -> list[Token]:
    """A sentence without the words that only tie a measure to what it measures."""
    sentence = [w for at, w in enumerate(sentence) if not _is_such(sentence, at)]
    plain = _with_the_rest(_without_use_of_all(_with_them(_with_ends(sentence))))
    return _without_unit_named(_without_that_is([*_with_cans(plain)]))


def _is_such(words: Sequence[Token], at: int) -> bool:
    """Whether "such" stands behind a number: 12 such boxes are boxes like the one told of."""
    return words[at].low == "such" and at > 0 and words[at - 1].kind == "n"


def _with_the_rest(words: list[Token]) -> list[Token]:
    """The rest, where a sentence tells it by what was left: the ones that were left are shared."""
    lows = [w.low for w in words]
    if not any(said[-1] in lows for said in _WHAT_IS_LEFT):
        return words
    for at in range(len(words)):
        for said in _WHAT_IS_LEFT:
            end = at + len(said)
            if tuple(lows[at:end]) == said and end < len(words) and words[end].kind == "w":
                rest = [replace(words[at], text="the"), replace(words[at + 1], text="rest")]
                return _with_the_rest([*words[:at], *rest, *words[end:]])
    return words


_WHAT_IS_LEFT = tuple(
    (*ones.split(), *left.split())
    for ones in ("what", "the ones that", "those that", "the ones", "the ones which")
    for left in (
        "is left over", "was left over", "are left over", "were left over", "is left", "was left",
        "are left", "were left", "remained", "remains", "had remained", "was not used",
    )
)  # fmt: skip


def _without_use_of_all(words: list[Token]) -> list[Token]:
    """Without "and used it all up": what is put in groups is all there is."""
    lows = [w.low for w in words]
    while lows and not lows[-1].isalpha():
        lows.pop()
    for said in _USES_ALL:
        at = len(lows) - len(said)
        if at > len(said) and tuple(lows[at:]) == said and words[at - 1].low in (",", "and"):
            kept = words[: at - 1]
            return kept[:-1] if kept[-1].low in (",", "and") else kept
    return words


_USES_ALL = tuple(
    tuple(said.split())
    for said in (
        "used it all up", "used it all", "used them all", "used all of it", "used all of them",
        "using it all", "using all of it", "using them all", "using all of them",
    )
)  # fmt: skip


def _with_ends(words: Sequence[Token]) -> list[Token]:
    """From one end, on one side: no number is told."""
    return [
        replace(w, kind="w", tree=None) if _is_one_end(words, at) else w
        for at, w in enumerate(words)
    ]


def _is_one_end(words: Sequence[Token], at: int) -> bool:
    named = at + 1 < len(words) and words[at + 1].low in ("end", "side", "corner")
    placed = at > 0 and words[at - 1].low in ("from", "at", "on", "off")
    return words[at].low == "one" and named and placed


def _with_them(words: Sequence[Token]) -> list[Token]:
    """Of whom and of which, beside a number, are of them: 24 pupils, of whom 13 are girls."""
    return [
        replace(w, text="them") if w.low in ("whom", "which") and _counted(words, at) else w
        for at, w in enumerate(words)
    ]


def _counted(words: Sequence[Token], at: int) -> bool:
    """Whether "of whom" at a place stands right behind or before a number."""
    of = at > 1 and words[at - 1].low == "of"
    return of and any(w.kind == "n" for w in (words[at - 2], *words[at + 1 : at + 2]))


def with_a_for_one(sentences: Sequence[list[Token]]) -> list[list[Token]]:
    """The sentences with "a trowel costs" for "one trowel costs", where no other one is told of."""
    if any(word.low in _ANOTHER for sentence in sentences for word in sentence):
        return list(sentences)
    return [[_a_for_one(sentence, at) for at in range(len(sentence))] for sentence in sentences]


def _a_for_one(words: Sequence[Token], at: int) -> Token:
    """The word at a place, "a" for a "one" that opens what one of a thing costs or holds."""
    word, behind = words[at], words[at + 1 : at + 5]
    opens = at == 0 or words[at - 1].low in ("and", "if", ",", "when", "but")
    does = _ONE_DOES | ({"is"} if behind and behind[0].low in _PORTIONS else set())
    end = next((i for i, w in enumerate(behind) if w.low in does), 0)
    named = end > 0 and all(w.kind == "w" for w in behind[:end])
    named = named and ("of" not in {w.low for w in behind[:end]} or behind[end].low == "is")
    if word.tree == Whole(1) and opens and named and not word.sort:
        return replace(word, kind="w", text="a", tree=None)
    return word


def with_one_of_each(sentences: Sequence[list[Token]]) -> list[list[Token]]:
    """How much do they cost, where one of each is asked for and prices of one are all that is told.

    A number that counts anything leaves the question as it is: 3 pots cost $6.
    """
    *told, asked = sentences or [[]]
    lows = " ".join(w.low for w in asked)
    found = _ONE_OF_EACH.match(lows)
    if found is None or any(_counts(s, at) for s in told for at in range(len(s))):
        return list(sentences)
    first = next((w for w in asked if w.kind == "w"), asked[0])
    read = ["how", "much", "do", "they", "cost", "together"]
    return [*told, [replace(first, text=word) for word in read]]


_ONE_OF_EACH = re.compile(
    r"(?:how much (?:would|will|does|do|must she pay for) |what is the (?:total )?cost of "
    r"|find the (?:total )?cost of |what (?:would|will|does|do) )"
    r"one (?:[a-z]+ )?of each(?: kind| type| one)?(?: cost)?"
    r"(?: (?:together|altogether|in all|in total))?(?: [?.])?$"
)


def _counts(words: Sequence[Token], at: int) -> bool:
    """Whether the number at a place counts things: no price, not "three times"."""
    word, behind = words[at], words[at + 1] if at + 1 < len(words) else None
    compares = behind is not None and behind.low in ("times", "percent", "cents", "dollars")
    return word.kind == "n" and not (word.sort or compares)


_ANOTHER = word_set("another other others two both")
_PORTIONS = word_set("serving portion helping scoop dose lap")
_ONE_DOES = word_set("costs holds weighs seats contains takes needs uses fits carries serves")


_BEFORE_CAN = word_set("a the this that one each every per his her full watering paint gas trash")


def _with_cans(words: Sequence[Token]) -> Iterator[Token]:
    """A can that is a thing is written as cans are, so that nobody takes it for a verb."""
    for at, word in enumerate(words):
        thing = word.low == "can" and at and words[at - 1].low in _BEFORE_CAN
        yield replace(word, text="cans") if thing else word


def _without_that_is(words: list[Token]) -> list[Token]:
    """A piece that is 3 feet long, sides that measure 3 feet: no clause of its own."""
    kept: list[Token] = []
    for at, word in enumerate(words):
        tied = word.low in _MEASURING and _ties(words, at - 1)
        if not (tied or (word.low in ("that", "which") and _ties(words, at))):
            kept.append(word)
    return kept


def _ties(words: Sequence[Token], at: int) -> bool:
    """Whether "that" at a place opens no more than a measure."""
    opens = 0 < at < len(words) - 2 and words[at].low in ("that", "which")
    if not opens or words[at - 1].kind != "w" or words[at + 1].low not in _MEASURING:
        return False
    measured = words[at + 2].kind == "n" and at + 3 < len(words) and words[at + 3].lemma in UNITS
    return measured and all(word.low not in ("than", "times") for word in words[at + 2 :])


def _without_unit_named(words: list[Token]) -> list[Token]:
    """What is the total distance, in miles, that she rode? The unit is that of the amounts."""
    asks = any(word.low in ("what", "how") for word in words)
    at = next((i for i, w in enumerate(words) if _names_unit(words, i)), None) if asks else None
    if at is None:
        return words
    first = at - 1 if words[at - 1].text == "," else at
    end = at + 2
    if end < len(words) and words[end].text == "," and first < at:
        end += 1
    return [*words[:first], *words[end:]]


def _names_unit(words: Sequence[Token], at: int) -> bool:
    """Whether "in miles" at a place says in which unit to answer, and no more."""
    here = 1 < at < len(words) - 1 and words[at].low == "in" and words[at + 1].kind == "w"
    if not here or words[at + 1].lemma not in UNITS or words[at + 1].low == words[at + 1].lemma:
        return False
    behind = words[at + 2] if at + 2 < len(words) else None
    return behind is None or behind.kind == "p"
