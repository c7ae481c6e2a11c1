"""Sentences that tell nothing of the amounts: who they are, what they do, how they feel.

"Mara is making wreaths for the spring fair." may be left out; "Mara bought a wreath." may not, for
"a wreath" is an amount where its price is told, nor "Each bag is full." or "They share them.".
"Two clubs hold a bake sale." counts what is told by itself afterwards, and shares out nothing.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from narrate.reading.words.lexicon import TIMES, VERBS, one
from narrate.reading.words.plain import word_set
from narrate.reading.words.tokens import tokens

BINDS = word_set(
    "not n't no none never neither nor without except only just all every half third quarter some "
    "few several many much most least more less fewer than another other others else rest "
    "remaining remain remains remained remainder left leave leaves same equal equally equals equal "
    "evenly share shares shared sharing split splits divide divides divided double doubles doubled "
    "triple twice times dozen pair pairs couple again back return returns returned round too still "
    "already enough extra spare free include includes included lost missing broken empty full "
    "if unless until instead either or whole total altogether together average per apiece percent "
    "off sale discount minus plus as first second last next daily weekly monthly weekday weekdays "
    "closed until through between away out up down"
)
"""Words that could bind an amount: with one of them a sentence is never left out."""

_SUMS = word_set("mean median mode range sum product difference list number numbers ratio data")
"""Words of what is worked out: no story begins with them."""

_STATES = word_set(
    "be have own belong cost weigh hold contain measure need use take fit last equal include "
    "seat charge pay leave stay double triple halve share split divide return"
)
"""Verbs that say how things are, or what it takes: what they say may be needed."""

_PLACES = (
    r"(?:in|at|on|during|for|near|beside|by|to|from|outside|inside|behind|into|with) "
    r"(?:the|a|an|his|her|their|its|this|that)\b(?: [\w'-]+){1,3}"
)
_SAME_PLACE = re.compile(
    r"\b(?:to|at|in|from|on) the same (?:school|class|club|team|park|street|town"
    r"|neighborhood|garden|library|market|camp)\b"
)
_HAVING = re.compile(
    r"\b(?:had|has|have|having|held|hold|holds|holding|ran|run|runs|running) "
    r"(?:a|an|their|its|the) (?:[\w-]+ ){0,3}?(?:contest|party|picnic|fair|festival|concert|dinner"
    r"|lunch|breakfast|sale|stand|race|club|show|booth|feast|meeting|competition|celebration)\b"
    r"|\b(?:had|has|having) (?:dinner|lunch|breakfast|fun)\b"
)
_COUNTING = re.compile(
    r"\b(?:counted|counts|recorded|records|measured|kept (?:a )?(?:count|track|record) of"
    r"|keeps (?:a )?(?:count|track|record) of|used an? [\w ]+ to (?:find|measure|compare)"
    r"|compared|weighed) (?:the |some )?[\w ']+"
)
_OBJECT = re.compile(r"\b(?:a|an|the|his|her|their|its|this|that|one)((?: [\w-]+){1,3})")
_SPREADS = re.compile(
    r"\b(?:each|every|per|apiece|both(?! days)|an? (?:day|week|month|hour|minute|year)|daily|weekly"
    r"|equal(?:ly)?|even(?:ly)?|shared?|split|half|average|mean)\b"
)
_SPANS = word_set("day days week weeks month months year years weekend hour hours")


def idle_opening(sentence: str, rest: Sequence[str], before: Sequence[str] = ()) -> str | None:
    """Who a sentence that opens a story tells nothing of, None where it tells more than that.

    It is "" where nobody else is meant by a "she" or "he" behind it.
    """
    said = _SAME_PLACE.sub("", sentence.rstrip())
    behind = " ".join(rest)
    low = said.lower()
    if "?" in said or any(map(_numbers, before)) or not _numbers(behind):
        return None
    counts = _numbers(said)
    if counts and not (
        counts == ["two"] and not re.search(r"\bone\b", low) and _named_after(low, behind.lower())
    ):
        return None
    counting = _COUNTING.search(low)
    words = re.findall(r"[a-z'-]+", low[: counting.start()] if counting else low)
    if BINDS.intersection(words) or _SUMS.intersection(re.findall(r"[a-z]+", low)):
        return None
    spread = {"each", "both", *_SPANS}.intersection(words) or counts
    if spread and _SPREADS.search(behind.lower()):
        return None
    if not counting and not _does_no_more(said, behind, counted=bool(counts)):
        return None
    return _who(said, behind)


_DIGIT = re.compile(r"\d")


def _has_number(text: str) -> bool:
    return _DIGIT.search(text) is not None or bool(_numbers(text))


def _numbers(text: str) -> list[str]:
    return [t.low for t in tokens(text) if t.kind == "n"]


def _does_no_more(said: str, behind: str, *, counted: bool) -> bool:
    """Whether a sentence says that something is done, and not how much of what is told behind."""
    if _HAVING.search(said.lower()):
        return True
    words = [t.low for t in tokens(said) if t.kind == "w"]
    verbs = [VERBS[w] for w in words if w in VERBS and not w.endswith("ing")]
    doing = re.search(r"\b(?:is|are|was|were|been) ((?:[a-z]+ )?)([a-z]+ing)\b", said.lower())
    states = set(verbs) & _STATES - ({"be"} if doing else set())
    if (states and not (counted and states <= {"have"})) or not (verbs or doing):
        return False
    if doing and VERBS.get(doing[2], "") in _STATES - {"use"}:
        return False
    told = {one(w) for w in re.findall(r"[a-z-]+", behind.lower())}
    objects = _OBJECT.findall(re.sub(_PLACES, "", _behind_verb(said.lower())))
    named = {one(w) for phrase in objects for w in phrase.split()}
    return not named & told or (doing is not None and _one_price(behind))


def _behind_verb(low: str) -> str:
    """The words behind the first verb."""
    for found in re.finditer(r"[a-z'-]+", low):
        if found[0] in VERBS and found.start():
            return low[found.end() :]
    return low


def _one_price(behind: str) -> bool:
    """Whether just one price is told, of the one thing that is bought."""
    return len(re.findall(r"\$", behind)) == 1 and not re.search(r"\b(?:each|both|per)\b", behind)


_JOINT = word_set("friend sister brother girl boy child class student pupil neighbor cousin club")


def _named_after(low: str, behind: str) -> bool:
    """Whether the two that a sentence counts are told by themselves afterwards."""
    if re.search(r"\btwo [a-z ]+, [a-z' ]+ and [a-z' ]+(?:,|\.|$)", low):
        return True
    nouns = [one(w) for w in re.findall(r"[a-z]+", low.partition("two ")[2])[:3]]
    for noun in nouns:
        told = set(re.findall(rf"\b([\w'.-]+) {noun}(?:'s)?\b", behind)) - _NO_NAMES
        if len(told) == len("ab"):
            return not told & set(re.findall("[a-z]+", low))  # two large tanks and a small one
        if noun in _JOINT and not re.search(rf"\b{noun}", behind) and "they" in behind:
            return True
    other = re.search(r"\bone\b[^?]*\bthe (?:other|second)\b", behind)
    return bool(other) or ("day" in nouns and len(TIMES.intersection(behind.split())) > 1)


_NO_NAMES = word_set("a an the each every both two one per this that his her their which of in")


def _who(said: str, behind: str) -> str | None:
    """Who a pronoun behind a sentence means, "" where there is none; None where it is not sure."""
    if re.match(r"(?:It|This|That|These|Those)\b", behind):
        return None
    if not re.search(r"\b(?:he|she)\b", behind, re.I):
        return ""
    low = said[:1].lower() + said[1:]
    found = _SUBJECT.match(re.sub(r"^(?:in|on|at|during) [^,]+, ", "", low))
    if found is None:
        return None
    who = found[0].strip()
    named = re.sub(r"^(?:an?|the) ", "The ", who)
    return None if {"and", "or"} & set(who.split()) else named[:1].upper() + named[1:]


_VERB = r"(?:is|are|was|were|has|had|[a-z]+(?:ed|s)|kept|ran|made|went|wants?|took|gave|bought)\b"
_SUBJECT = re.compile(
    rf"(?:an? |the )?(?:(?:mr|mrs|ms|dr|Mr|Mrs|Ms|Dr)\. )?(?:[\w-]+ ){{1,3}}?(?={_VERB})"
)


# -- sentences between the amounts


_FEELS = (
    "hungry|tired|thirsty|happy|excited|proud|sleepy|cold|hot|warm|sunny|rainy|windy|cloudy|busy"
    "|delicious|beautiful|fun|glad|nervous|sad"
)
_IDLE = re.compile(
    r"(?:[A-Z][\w'-]*|The [a-z]+(?: [a-z]+)?|(?:His|Her|Their|My) [a-z]+)(?: [A-Z][\w'-]*)? (?:"
    r"(?:is|are|was|were) (?:now |still )?(?:trying to decide|wondering|curious|deciding|thinking)"
    r"(?: about)? (?:which|what|whether|where|who|how)\b[\w ,'-]*"
    r"|(?:wonders?|wondered|cannot decide|wants? to know) (?:which|what|whether|where|who)\b"
    r"[\w ,'-]*"
    rf"|(?:is|are|was|were|feels?|felt) (?:very |so |really |both |all )?(?:{_FEELS})"
    rf"(?: and (?:very |so )?(?:{_FEELS}))?"
    r"|had (?:fun|a (?:great|good|lovely|wonderful) time)(?: [a-z]+){0,3}"
    rf"|(?:is|was) an? (?:very )?(?:{_FEELS}) (?:day|morning|afternoon|evening)(?: [a-z]+){{0,4}}"
    r")[.!]\s*"
)


def is_idle(sentence: str) -> bool:
    """Whether a sentence between the amounts tells only what somebody feels or wonders."""
    told = _IDLE.fullmatch(sentence)
    wonders = re.search(r"\b(?:which|what|whether|where|who|how)\b", sentence)
    words = set(re.findall(r"[a-z'-]+", sentence[: wonders.start()] if wonders else sentence))
    return bool(told) and not _numbers(sentence) and not (words & BINDS - {"all", "still"})
