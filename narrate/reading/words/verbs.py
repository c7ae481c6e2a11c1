"""Which word of a stretch is its verb: the same words often name things."""

from __future__ import annotations

from collections.abc import Sequence

from narrate.reading.words import lexicon
from narrate.reading.words.lexicon import NO_THING, VERBS
from narrate.reading.words.plain import word_set
from narrate.reading.words.token import Token

BE = word_set("is are was were am been be being")


HAVE = word_set("has have had having")


_CARRIES = word_set(
    "want need have decide plan try start begin go like help manage use let able hope agree"
)


def verb_at(words: Sequence[Token], place: int) -> bool:
    """Whether the word at a place is a verb here, not the name of a thing."""
    word = words[place]
    before = words[place - 1] if place else None
    after = words[place + 1] if place + 1 < len(words) else None
    if word.low == "last" and after is not None and after.low in lexicon.SPANS | lexicon.DATES:
        return False  # last week
    if word.kind != "w" or word.low not in VERBS or word.low in ("like", "park", "saw"):
        return word.low == "saw" and before is not None and _can_see(before)
    if word.low in BE | HAVE or _goes_away(words[place + 1 : place + 3]):
        return True
    if before is None:
        done = word.low in PARTICIPLES and not any(w.kind == "n" for w in words)
        does = done or _does_here(word, after)
        return does or word.low.endswith("ing") or word.low in lexicon.PAST or _takes(after)
    if word.low == "left" and before.low not in lexicon.PRONOUNS and not before.text[:1].isupper():
        return before.kind == "w" and before.low not in BE | HAVE and _takes(after)
    if _plural_before(words, place) and word.low == VERBS[word.low] and _open(after):
        return True
    if before.kind == "n" and word.low == VERBS[word.low]:
        if after is None and place == 1:
            return before.value > 1  # 7 stay, 44 work
        follows = after is not None and after.low in lexicon.PREPOSITIONS
        return word.low not in lexicon.NOUNS_FIRST and follows
    if before.low == "more" and place > 1 and (words[place - 2].kind == "n" or place == 2):
        came = word.low in lexicon.PAST or (word.low == VERBS[word.low] and not _names_first(word))
        return came and _open(after) and not (after is not None and after.kind == "n")
    if _names_first(word):
        return _acts_here(before, after)
    return _by_what_is_before(word, before, after)


_WITH = word_set("with for to from at on in into")


def _does_here(word: Token, after: Token | None) -> bool:
    """Whether a stretch begins with what someone does: pays with a note."""
    does = word.low.endswith("s") and VERBS[word.low] not in lexicon.NOUNS_FIRST
    return does and after is not None and after.low in _WITH


def _goes_away(after: Sequence[Token]) -> bool:
    """Whether an amount goes away, right behind a verb: gives away 16."""
    return [t.low for t in after[:1]] == ["away"] and any(t.kind == "n" for t in after[1:])


def _can_see(before: Token) -> bool:
    return before.kind == "w" and before.low not in NO_THING - lexicon.PRONOUNS


def _takes(after: Token | None) -> bool:
    """Whether what follows could be what a verb acts on: 3, the, some, her."""
    return after is not None and (
        after.kind == "n" or after.low in lexicon.DETERMINERS | lexicon.PRONOUNS
    )


def _open(after: Token | None) -> bool:
    """Whether no thing is named behind the word."""
    return after is None or after.low in NO_THING or after.kind == "n"


def _plural_before(words: Sequence[Token], place: int) -> bool:
    """Whether things counted or known stand before: 150 pupils walk, the pupils eat."""
    before = words[place - 1]
    if before.kind != "w" or before.low == before.lemma or before.low in NO_THING or place < 2:
        return False
    return words[place - 2].kind == "n" or words[place - 2].low in ("the", "many")


def _names_first(word: Token) -> bool:
    """Whether a form more often names a thing: the water, two drinks."""
    acts = word.low.endswith(("ed", "ing")) or word.low in lexicon.PAST - _BOTH | {"drunk"}
    return VERBS[word.low] in lexicon.NOUNS_FIRST and not acts


_BOTH = word_set("cut hit split read")
_POSSESSIVES = word_set("her his their its my your our")
_SPEAKING = word_set("to can will did does do could would must should not also then")


def _acts_here(before: Token, after: Token | None) -> bool:
    """Whether a word that mostly names is a verb: they row, to cut, she plants 3."""
    subject = before.low in lexicon.PRONOUNS - _POSSESSIVES
    named = before.kind == "w" and before.text[:1].isupper() and before.low not in NO_THING
    loose = before.low not in lexicon.DETERMINERS | lexicon.PREPOSITIONS and before.kind == "w"
    return subject or named or before.low in _SPEAKING or (loose and _takes(after))


_BEFORE_NAMES = lexicon.DETERMINERS | word_set("of in each per every 's for with more fewer new")
_BEFORE_DOING = BE | word_set("after before by when while went go started enjoys and")


def _by_what_is_before(word: Token, before: Token, after: Token | None) -> bool:
    if before.low in ("some", "all", "both", "many"):
        goes = word.low == VERBS[word.low] and (after is None or after.low in _AWAY)
        if goes or word.low in lexicon.PAST:
            return True
    if before.kind == "n":
        named = after is not None and after.kind == "w" and after.low not in NO_THING | {"home"}
        return word.low in lexicon.PAST and not named
    if before.low == "each" and word.low == VERBS[word.low] and (after is None or _takes(after)):
        return True
    if before.low == "each" and word.low in lexicon.PAST and after is not None:
        return after.kind == "n"  # 8 pupils each planted 14 seeds
    if before.low in _BEFORE_NAMES or before.low.endswith("'s"):
        return word.low.endswith("ing") and before.low in ("for", "of", "in") and _takes(after)
    if word.low.endswith("ing"):
        return before.low in _BEFORE_DOING or before.kind == "p"
    return True


_AWAY = word_set("away off out in back home down up")


def main_verb(words: Sequence[Token]) -> tuple[int, str, bool, str] | None:
    """The place of the main verb, its base, whether it is passive, and the verb that carries it."""
    here = [i for i in range(len(words)) if verb_at(words, i)]
    if not here:
        return None
    sure = [i for i in here if words[i].low in lexicon.PAST and _low(words, i - 1) != "to"]
    noun_first = (
        sure
        and words[here[0]].low == VERBS[words[here[0]].low]
        and words[here[0]].low not in _CARRIES
    )
    first = sure[0] if noun_first or _while_doing(words, here[0], sure) else here[0]
    base, place, passive, carried = VERBS[words[first].low], first, False, ""
    for step in range(first + 1, min(first + 6, len(words))):
        word = words[step]
        if word.kind != "w" or word.low in ("there",):
            break
        if (
            word.low in VERBS
            and (word.low not in BE | HAVE or word.low in ("been", "had"))
            and _goes_on(words, place, step, base)
        ):
            passive = (
                base == "be"
                and not word.low.endswith("ing")
                and word.low in lexicon.PAST | PARTICIPLES
            )
            carried = base if base in _CARRIES and base not in ("have", "go") else carried
            base, place = VERBS[word.low], step
            continue
        if word.low not in _BETWEEN and word.low not in VERBS:
            break
    return place, base, passive, carried


def _while_doing(words: Sequence[Token], doing: int, sure: Sequence[int]) -> bool:
    """Whether a stretch begins with what was done meanwhile: after watering, there were 3."""
    begins = doing == 0 and words[0].low.endswith("ing") and bool(sure)
    return begins and all(w.kind == "w" for w in words[: sure[0]])


_BETWEEN = word_set("to been being be not n't only already also now just either still each all")


PARTICIPLES = word_set(
    "eaten given sold taken grown drawn written driven broken thrown known built made "
    "used put cut left planted drunk sown gone read hit done come run become hung"
)
"""Forms that stand behind "is" and "have", or alone in notes."""


def _low(words: Sequence[Token], at: int) -> str:
    return words[at].low if 0 <= at < len(words) else ""


def _goes_on(words: Sequence[Token], verb: int, step: int, base: str) -> bool:
    """Whether the verb at `step` goes on from the one before: had eaten, were riding, to buy."""
    between = [w.low for w in words[verb + 1 : step]]
    if "to" in between:
        return base in _CARRIES | {"be"} and between[-1] == "to"
    if words[step].low == "left":
        return False
    low = words[step].low
    if base == "be":
        return low.endswith("ing") or low in lexicon.PAST | PARTICIPLES
    if base == "have":
        return low in lexicon.PAST | PARTICIPLES and low != "left"
    if base == "do":
        return low not in lexicon.PAST
    return base == "go" and low.endswith("ing")
