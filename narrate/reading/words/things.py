"""What a number counts: the words behind it that name a thing."""

from __future__ import annotations

from collections.abc import Sequence

from narrate.reading.words import lexicon
from narrate.reading.words.lexicon import NAMES_NOTHING, NO_THING, UNITS, VERBS
from narrate.reading.words.plain import word_set
from narrate.reading.words.token import Token
from narrate.reading.words.verbs import verb_at

_SKIP = word_set(
    "more additional extra other another fewer less lesser different of only remaining equal same"
)


SOME = word_set("some several few")


def is_size(words: Sequence[Token], place: int) -> bool:
    """Whether a number says how large each of some things is: 1/3-cup servings, 3/4 cup portions.

    Without a hyphen it must be less than one, or be asked for the number of: "2 pound bags" may
    be two bags.
    """
    number = words[place]
    unit, thing = (words[place + i] if place + i < len(words) else None for i in (1, 2))
    if unit is None or unit.lemma not in UNITS:
        return number.joined
    one = unit.low == unit.lemma and thing is not None and thing.kind == "w"
    several = thing is not None and thing.low != thing.lemma and thing.low not in NO_THING
    sure = number.value < 1 or low_at(words, place - 1) == "many"
    measure = thing is not None and thing.lemma in UNITS
    return number.joined or (one and several and sure and not measure)


LONG = word_set("long tall wide deep high old away heavy")


def thing_after(words: Sequence[Token], start: int) -> tuple[tuple[str, ...], int]:
    """The words of what is counted from a place on, and where they end."""
    found: list[str] = []
    at = start
    while at < len(words):
        word = words[at]
        if word.low in _SKIP and word.low != "of" and not found:
            at += 1
            continue
        if word.low == "of" and at + 1 < len(words):
            inner = partitive(words, at + 1)
            if inner is None:
                break
            found = [w for w in found if w not in ("number", "amount")]
            found = (
                [*found, *inner[0]]
                if not found or found[-1] in UNITS or inner[2]
                else [*inner[0], *found]
            )
            at = inner[1]
            more = partitive(words, at + 1) if low_at(words, at) == "of" else None
            if more is not None and found[-1:] and found[-1] in UNITS:
                found, at = [*found, *more[0]], more[1]  # 3/4 of a liter of paint
            break
        if word.kind != "w" or word.low in NO_THING or word.low == "ones":
            break
        if word.low in LONG and not _names(words, at + 1):
            break
        if found and word.low == "cost" and at == len(words) - 1:
            break
        if (word.low in VERBS and verb_at(words, at)) or (found and _begins_name(words, at)):
            break
        if found and word.low.endswith("ing") and low_at(words, at + 1) in _PLACED:
            break  # 12 pots standing on each shelf
        found.append(word.lemma)
        at += 1
    return () if low_at(words, at) == "ones" else tuple(found), at


_PLACED = word_set("on in at by under around along near")


def _begins_name(words: Sequence[Token], at: int) -> bool:
    """Whether a name follows what was named: to make 3 jars of jam Noor needs ..."""
    return words[at].text[:1].isupper() and not words[at - 1].text[:1].isupper()


def _names(words: Sequence[Token], at: int) -> bool:
    """Whether a word goes on naming: 6 old pots, but 6 feet long."""
    word = words[at] if at < len(words) else None
    return word is not None and word.kind == "w" and word.low not in NAMES_NOTHING


_SORTS = word_set("type kind sort brand flavor piece")


def partitive(words: Sequence[Token], at: int) -> tuple[list[str], int, bool] | None:
    """What stands behind "of": its words, their end, whether it points back (of them)."""
    if at >= len(words):
        return None
    if words[at].low in ("them", "it", "those", "these"):
        follows = (
            at + 1 < len(words)
            and words[at + 1].kind == "w"
            and words[at + 1].low not in NO_THING
            and words[at + 1].low not in VERBS
        )
        if not follows:
            return [], at + 1, True
    points = words[at].low in lexicon.DETERMINERS | lexicon.PRONOUNS
    here = at + 1 if points else at
    if points and here < len(words) and words[here].kind == "n":
        here += 1
    found: list[str] = []
    while (
        here < len(words)
        and words[here].kind == "w"
        and words[here].low not in NO_THING
        and not (found and verb_at(words, here))
    ):
        if found and _begins_name(words, here):
            break
        found.append(words[here].lemma)
        here += 1
        if found[-1] in _SORTS and low_at(words, here) == "of" and here + 1 < len(words):
            inner = partitive(words, here + 1)
            return (inner[0], inner[1], points) if inner else (found, here, points)
    return (found, here, points) if found else None


def low_at(words: Sequence[Token], at: int) -> str:
    """The word at a place in small letters, "" outside."""
    return words[at].low if 0 <= at < len(words) else ""


def lemmas_of(words: Sequence[Token]) -> frozenset[str]:
    """The words that name someone or something, each of one thing."""
    keep = lexicon.PRONOUNS
    return frozenset(
        w.lemma
        for w in words
        if w.kind == "w"
        and (w.low not in NO_THING or w.low in keep | lexicon.ORDINALS)
        and w.low not in ("have", "has", "had", "is", "are", "was", "were")
    )


def has_number(words: Sequence[Token]) -> bool:
    """Whether an amount is told or spoken of."""
    return any(w.kind == "n" or w.low in SOME for w in words)
