"""Words that no row has read: which of them say nothing of how much there is."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from narrate.reading.equal_groups.amounts import Line, UnreadError
from narrate.reading.equal_groups.asked import Asked
from narrate.reading.words import lexicon
from narrate.reading.words.lexicon import UNITS, VERBS
from narrate.reading.words.plain import word_set
from narrate.reading.words.token import Token

_LOADED = word_set(
    "not no none never nothing except without only other others another more most less least fewer "
    "than left leaving remain remains remained remaining remainder rest half halves third quarter "
    "double doubled triple twice times percent discount tax tip coupon off free again about around "
    "approximately nearly almost roughly up average mean some several few many much enough instead "
    "unless or either neither broken broke empty missing extra additional spare different both "
    "each every per first second last next then later still already before after until between "
    "would could might may back away share least biggest largest smallest longest shortest but "
    "perimeter area difference faster slower older younger as so plus minus extra alone besides "
    "ones kept keep keeps total daily weekly hourly monthly too short lack lost pair pairs dozen "
    "because although though while since who whose"
)
_GOING = word_set(
    "lose eat break die throw steal spoil burn rot escape crack wilt melt leak spill forget remove "
    "return borrow lend discard ruin damage waste double triple halve repeat join"
)
_OF_ALL = word_set("total all altogether in each every one same as amount number so")
_BENIGN = word_set(
    "is are was were be been will would do does did can could must should may have has had "
    "need needs needed take takes took use used uses get gets make makes made hold holds fit fits "
    "there it they he she them her his their its the a an this that these those to for of in "
    "on at with by from into out and all altogether total whole together combined such "
    "be cost costs pay paid buy bought fill filled full pack order arrive come came go went "
    "belong contain stand required require receive give given gives bake cut weigh measure "
    "long heavy ready home , ? . set sow put run last enough many much what how"
) - word_set("first")


def _stem(low: str) -> str:
    """A verb that is in no table, without its ending: cooling, ripened."""
    return low.removesuffix("ing").removesuffix("ed")


_SHARES = word_set("share person part piece portion one")
_HANDED = word_set("use give send pay spend sell")


def refuse_unread(lines: Sequence[Line], asked: Asked) -> None:
    """Raises UnreadError where a word that was not read could change the amounts."""
    equal = any(line.equal for line in lines)
    for at, line in enumerate(lines):
        words = [w for i, w in enumerate(line.words) if i not in line.read and w.kind != "n"]
        spared = _OF_ALL if equal else word_set("in all altogether total one")
        if any(is_loaded(word, spared) for word in words) or _has_span(words):
            raise UnreadError
        if not line.amounts and at and not line.equal:
            raise UnreadError  # a sentence more, which says what no number does
    _refuse_asked(lines, asked)


def is_loaded(word: Token, spared: frozenset[str]) -> bool:
    """Whether a word could change the amounts, beside those that are `spared`."""
    low = word.low
    if low in spared:
        return False
    if low in _LOADED or low.endswith("n't") or word.kind == "t":
        return True
    return VERBS.get(low, "") in _GOING


def _has_span(words: Sequence[Token]) -> bool:
    """Whether words that were not read name a time in which all happens: in a year."""
    pairs = pairwise(words)
    return any(a.low in _ONE and b.lemma in _SPANS for a, b in pairs)


_ONE = word_set("a an one per in for")
_SPANS = word_set("minute hour day week month year")


def _refuse_asked(lines: Sequence[Line], asked: Asked) -> None:
    """Raises UnreadError where the question speaks of what the story does not."""
    told = {VERBS.get(word.low, word.lemma) for line in lines for word in line.words}
    told |= {word.lemma for line in lines for word in line.words}
    told |= {w for line in (*lines, asked.line) for a in line.amounts.values() for w in a.thing}
    told |= {w for line in (*lines, asked.line) for a in line.amounts.values() for w in a.per or ()}
    if _has_span(asked.rest):
        raise UnreadError
    alone = not any(line.amounts for line in lines)
    named = {w for w in (*asked.thing, *(asked.per or ())) if w not in UNITS | _SHARES}
    if not alone and named - told - {"dollar", "money", "change", "square", "cubic"}:
        raise UnreadError
    for word in asked.rest:
        if word.kind != "w" or word.low in _BENIGN:
            continue
        if is_loaded(word, word_set("in all altogether total one enough")):
            raise UnreadError
        done = lexicon.CLASS_OF.get(VERBS.get(word.low, ""), "lose")
        known = word.lemma in told or VERBS.get(word.low) in told or word.lemma in UNITS
        known = (
            known
            or alone
            or _stem(word.low) in told
            or done != "lose"
            or VERBS.get(word.low) in _HANDED
        )
        new = word.text[:1].isupper() and word.low not in lexicon.NO_THING
        if not (known or (new and any(a.asked for a in asked.line.amounts.values()))):
            raise UnreadError
