"""The forms of a question: how many, how much, what fraction, what is the area of."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from narrate.reading.words import lexicon
from narrate.reading.words.comparing import LONGER, MORE
from narrate.reading.words.lexicon import COLOURS, NAMES_NOTHING, NO_THING, UNITS, VERBS
from narrate.reading.words.plain import word_set
from narrate.reading.words.query import Kind, Query
from narrate.reading.words.things import is_size
from narrate.reading.words.token import Token
from narrate.reading.words.verbs import PARTICIPLES, verb_at


def how(base: Query, words: Sequence[Token]) -> Query | None:
    """How many, how much, how long, how many times as many."""
    second = words[1].low
    if second == "many":
        if words[2:3] and words[2].low == "times" and any(w.low == "as" for w in words[3:]):
            return replace(base, kind="times", thing=())
        return _many(base, words, 2)
    if second == "much":
        return _much(base, words)
    if second == "full":
        thing = next((w.lemma for w in words[2:] if w.low not in NAMES_NOTHING), "")
        return replace(base, kind="fraction", thing=(thing,) if thing else ())
    return replace(base, kind="long", thing=())


def _many(base: Query, words: Sequence[Token], at: int) -> Query:
    sign = 0
    if at < len(words) and (words[at].low in MORE or words[at].low in ("additional", "extra")):
        sign, at = MORE.get(words[at].low, 1), at + 1
    if at + 2 < len(words) and words[at].kind == "n" and is_size(words, at):
        at += 2  # "how many 1/3-cup servings"
    if at == 2 and _only_done(words, at):
        return replace(base, thing=())
    if at < len(words) and words[at].low == "of" and not sign:
        return replace(base, thing=tuple(after_of(words, at + 1)))
    thing, at = named_at(words, at)
    also = []
    while (
        at + 1 < len(words)
        and words[at].low in ("and", "or")
        and words[at + 1].kind == "w"
        and words[at + 1].low not in NO_THING
    ):
        more, at = named_at(words, at + 1)
        also.append(more)
    if thing[1:] and LONGER.fullmatch(thing[-1]) and thing[-2] in UNITS:
        sign, thing = 1, thing[:-1]  # how many miles farther
    if thing[1:] and MORE.get(thing[-1], 1) < 0 and thing[-2] in UNITS:
        sign, thing = -1, thing[:-1]  # how many inches shorter
    if also and len(also[-1]) > len(thing) and thing and thing[-1] != also[-1][-1]:
        thing = (*thing, *also[-1][len(thing) :]) if _adjectives(thing) else thing
    return replace(base, thing=thing, also=tuple(also), sign=sign)


def _only_done(words: Sequence[Token], at: int) -> bool:
    """Whether the question says what was done and names no thing: how many flew away?"""
    after = words[at + 1] if at + 1 < len(words) else None
    done = words[at].low in lexicon.PAST | PARTICIPLES if at < len(words) else False
    return done and (after is None or after.low in lexicon.PREPOSITIONS | lexicon.ADVERBS)


def _adjectives(thing: tuple[str, ...]) -> bool:
    return thing[0] in COLOURS


def named_at(words: Sequence[Token], at: int) -> tuple[tuple[str, ...], int]:
    """The words of the thing that a question names from a place on, and where they end."""
    found: list[str] = []
    while at < len(words) and not _ends_name(words, at, found):
        word = words[at]
        if word.low == "of":
            inner = after_of(words, at + 1)
            found = [*found, *inner] if found[-1] in UNITS else [*inner, *found]
            return tuple(found), _behind(words, at + 1, found)
        if not (not found and word.low in ("total", "different", "whole")) and word.low not in (
            "full",
            "complete",
        ):
            found.append(word.lemma)
        at += 1
    return tuple(found), at


def _behind(words: Sequence[Token], at: int, found: Sequence[str]) -> int:
    """The place behind the words of "of the ..."."""
    while at < len(words) and (words[at].low in lexicon.DETERMINERS or words[at].lemma in found):
        at += 1
    return at


_ASKED_VERBS = word_set("cost costs need needs weigh weighs hold get have last fit fits")


def _ends_name(words: Sequence[Token], at: int, found: Sequence[str]) -> bool:
    """Whether the name of a thing ends before a place."""
    word = words[at]
    if word.low == "of" and found and at + 1 < len(words):
        return False
    if not found and word.low in ("total", "different", "whole"):
        return False
    if found and (len(word.low) == 1 or (word.text[:1].isupper() and words[at - 1].text.islower())):
        return True  # "how many plants, p, are there", "shows how many pages Ben read"
    if word.kind != "w" or word.low in NO_THING | {
        "is",
        "are",
        "was",
        "were",
        "has",
        "have",
        "had",
    }:
        return True
    if found and word.low in _ASKED_VERBS:
        return True
    acts = word.low in VERBS and (verb_at(words, at) or word.low in lexicon.PAST)
    plain = word.low in lexicon.PAST or not word.low.endswith("s") or at == len(words) - 1
    return bool(found) and acts and plain and word.low not in ("show", "play", "park")


def after_of(words: Sequence[Token], at: int) -> list[str]:
    """The words that name a thing behind "of"."""
    found: list[str] = []
    while at < len(words) and words[at].kind == "w":
        if words[at].low in lexicon.DETERMINERS and not found:
            at += 1
            continue
        if words[at].low in NO_THING or words[at].low in VERBS:
            break
        found.append(words[at].lemma)
        at += 1
    return found


def _much(base: Query, words: Sequence[Token]) -> Query:
    at, sign = 2, 0
    if at < len(words) and (words[at].low in MORE or LONGER.fullmatch(words[at].low)):
        sign, at = MORE.get(words[at].low, 1), at + 1
    thing, at = named_at(words, at)
    if not thing and at < len(words) and words[at].low == "of":
        thing = tuple(after_of(words, at + 1))
    return replace(base, kind="much", thing=thing, sign=sign)


def _named(words: str) -> list[str]:
    """The words of what a fraction is of, without what it does: of the pupils cycle."""
    named = words.split()
    acts = named[1:] and VERBS.get(named[-1]) == named[-1] and named[-2] != lexicon.one(named[-2])
    return named[:-1] if acts else named


def what(base: Query, words: Sequence[Token]) -> Query | None:
    """What fraction of; what is the cost, the area, the number of."""
    lows = [w.low for w in words]
    text = " ".join(lows)
    if found := re.match(
        r"what (?:fraction|part) of (?:the |a |an |his |her |their |all )?([a-z ]+?)"
        r"(?: (?:is|are|was|were|did|does|do|has|have|will|that|in)\b|$)",
        text,
    ):
        return replace(
            base,
            kind="fraction",
            thing=tuple(lexicon.one(w) for w in _named(found[1]) if w not in NO_THING),
        )
    if found := re.match(r"what (?:length|amount|weight|distance|height) (?:of )?", text):
        return replace(base, kind="much", thing=tuple(after_of(words, len(found[0].split()))))
    if re.match(r"what (?:is|was|will be) (?:the|his|her|their) change$", text):
        return replace(base, kind="much", thing=("change",))
    if re.match(r"what (?:is|was) the (?:sum|total) of\b", text):
        return replace(base, kind="long", thing=(), total=True)
    if found := re.match(
        r"(?:what (?:is|was|are|will be|would be) |find |calculate )(?:(?:the|its|his|her|their) )?"
        r"(?:total |combined )?(temperature|balance|number|amount|cost|price|length|height|weight"
        r"|area|perimeter|distance|width|mean|average)\b(?: of (.*))?",
        text,
    ):
        name = found[1]
        if name == "number" and found[2]:
            rest = [w for w in words if w.start >= words[lows.index("number") + 2].start]
            return _many(base, rest, 1 if rest and rest[0].low in lexicon.DETERMINERS else 0)
        kind: Kind = {
            "cost": "much",
            "price": "much",
            "area": "area",
            "perimeter": "perimeter",
            "mean": "average",
            "average": "average",
        }.get(name, "long")  # type: ignore[assignment]
        return replace(base, kind=kind, thing=("dollar",) if name in ("cost", "price") else ())
    return None
