"""Whether an amount came or went: what its verb, the little word and the place beside it say.

A second look at a change, as `witness` is: 5 of the bulbs are not added to the bulbs, what is
poured into a pot leaves the jug, what is sent to the shed comes to the shed, what is put away is
neither. A change that goes against its words does not stand.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from narrate.exact.tree import Expr, Group, Neg, Op
from narrate.reading.words.clauses import Clause
from narrate.reading.words.facts import KINDS, Answer, Story
from narrate.reading.words.lexicon import (
    ADVERBS,
    DETERMINERS,
    MODALS,
    PREPOSITIONS,
    PRONOUNS,
    TIMES,
    UNITS,
    VERBS,
    one,
)
from narrate.reading.words.plain import word_set
from narrate.reading.words.quantity import Quantity
from narrate.reading.words.token import Token

_CHANGES = ("add to", "take from", "in and out")


def misdirected(story: Story, answer: Answer) -> bool:
    """Whether a change adds what went, or takes away what came or stayed."""
    if answer.situation not in _CHANGES or answer.unknown not in ("result", "start"):
        return False
    told = {id(q.tree): q for q in answer.used if q.clause < len(story.clauses)}
    signed = [(told[id(leaf)], sign) for leaf, sign in _signs(answer.tree) if id(leaf) in told]
    if any(q.verb == "leave" and _LEFT_THEIRS.match(story.text, q.start) for q, _ in signed):
        return True  # 6 children left their coats
    there = sorted((q for q, _ in signed if _is_there(q)), key=lambda q: q.start)
    if not there:
        whole = _BROUGHT if answer.unknown == "start" else _OF_ALL
        there = [q for q, _ in signed if whole.search(story.text[: q.start])]
    state = there[0] if there else min((q for q, _ in signed), key=lambda q: q.start, default=None)
    if state is None:
        return False
    back = -1 if answer.unknown == "start" else 1
    if answer.unknown == "start" and any(
        _not_there(story, q, state) for q, _ in signed if q is not state and not _is_there(q)
    ):
        return True
    moved = [(q, sign * back) for q, sign in signed if q is not state and q not in there]
    return any(_goes_against(story, q, sign, state) for q, sign in moved)


def _signs(tree: Expr, sign: int = 1) -> Iterator[tuple[Expr, int]]:
    """Each number of a tree, with +1 where it makes the whole more, −1 where less."""
    match tree:
        case Group(inner):
            yield from _signs(inner, sign)
        case Neg(inner):
            yield from _signs(inner, -sign)
        case Op(joins, left, right):
            yield from _signs(left, sign)
            yield from _signs(right, -sign if joins == "−" else sign)
        case _:
            yield tree, sign


def _is_there(q: Quantity) -> bool:
    return q.verb_sort in ("be", "own")


def _goes_against(story: Story, q: Quantity, sign: int, state: Quantity) -> bool:
    """Whether the words beside one amount speak against the way it is joined."""
    of_it = q.partitive and q.sort != "part" and not q.more
    if of_it and sign > 0 and q.start > state.start:
        return True  # 5 of the bulbs
    if _BECAME.search(story.text[: q.start]):
        return True  # was cut to 4 meters
    if state.start < q.start and _HAD_DONE.search(story.text[state.end : q.start]):
        return True  # there are 30; she had put in 12
    clause = story.clauses[q.clause]
    placed = state.verb_sort == "be" or not state.who & story.names
    if any(word_sign != sign for word_sign in _by_particle(clause, q, placed=placed)):
        return True
    if any(way != sign for way in _by_receiver(clause, q, state)):
        return True
    if q.money or state.money or q.sort == "times":
        return False
    if any(way != sign for way in _by_phrase(story, q, state)):
        return True
    if sign > 0:
        return not _gets_on(clause) and _is_no_gain(q, state, placed=placed)
    return _is_no_loss(story, q, state, placed=placed)


_PLACE = re.compile(
    r"\b(?P<by>in|into|onto|on|from|out of|off) (?:the|an?|his|her|its|their) "
    r"(?:(?:\w+ )?(?P<whose>\w+)'s )?(?:\w+ )?(?P<what>\w+)"
)


def _not_there(story: Story, q: Quantity, state: Quantity) -> bool:
    """Whether what is there at the end is in another place than an amount came to or went from."""
    if q.clause == state.clause or state.clause >= len(story.clauses):
        return False
    there = {t.lemma for t in story.clauses[state.clause].tokens}
    places = [one(m["what"]) for m in _PLACE.finditer(_said_in(story, state))]
    ways = [one(m["what"]) for m in _PLACE.finditer(_said_in(story, q)) if m["by"] != "in"]
    here = {t.lemma for t in story.clauses[q.clause].tokens}
    owners = {t.lemma for t in story.clauses[state.clause].subject if t.low.endswith("'s")}
    elsewhere = bool(ways) and not set(ways) & there and bool(places) and not set(places) & here
    return elsewhere or bool(ways and owners - here)


def _said_in(story: Story, q: Quantity) -> str:
    words = story.clauses[q.clause].tokens
    return story.text[words[0].start : words[-1].end]


def _gets_on(clause: Clause) -> bool:
    """Whether a clause says that somebody got on or in, and of what is not told."""
    lows = [(VERBS.get(t.low), t.low) for t in clause.tokens]
    at = next((i for i, (base, _) in enumerate(lows) if base == "get"), len(lows))
    return [low for _, low in lows[at + 1 :]] in (["on"], ["in"], ["aboard"], ["on", "there"])


_BROUGHT = re.compile(
    r"\b(?:brought|brings) (?:it|the [a-z]+) (?:up |down )?to (?:just |exactly )?$"
)
_OF_ALL = re.compile(r"\d of (?:the|his|her|their|our|my|its) $")
_HAD_DONE = re.compile(
    r"[.?!] (?!(?:by|when|after|once|then|at|on|during|in|the (?:next|second|third|fourth))\b)"
    r"[^.?!]*\bhad [a-z]+"
)
_LEFT_THEIRS = re.compile(r"[^.,;?]* left (?:their|his|her|its) (?!seats?\b|tables?\b|places?\b)")
_BECAME = re.compile(r"\b(?:down |up |back )?to (?:be )?(?:just |only |about )?$")

# -- the little word of a verb: away, out, back

_PARTICLES: dict[str, dict[str, int]] = {
    "away": {"put": 0, "file": 0, "tuck": 0, "": -1},
    "out": {"put": 0, "set": 0, "sort": 0, "lay": 0, "bring": 0, "come": 0, "try": 0, "": -1},
    "off": {"drop": 0, "show": 0, "": -1},
    "aside": {"": 0},
    "behind": {"": 0},
    "ashore": {"": 0},
    "home": {"come": 0},
    "in": {"hand": 0, "turn": 0, "give": 0, "": 1},
    "on": {"put": 0, "sew": 0, "try": 0},
    "around": {"": 0},
    "over": {"give": -1, "hand": -1, "come": 1, "fly": 1, "bring": 1, "walk": 1, "swim": 1,
             "run": 1, "move": 1, "hop": 1, "": 0},
    "back": {"get": 1, "buy": 1, "win": 1, "come": 1, "fly": 1, "bring": 1, "swim": 1, "run": 1,
             "walk": 1, "put": 1, "add": 1, "cut": 0, "take": 0, "hold": 0, "keep": 0, "": -1},
    "down": {"put": 0, "set": 0, "lay": 0, "write": 0, "": -1},
}  # fmt: skip
"""What a little word makes of a verb: more there, less, or (0) not certain; "" for all others."""
_LIGHTS = word_set("lamp light candle fire bulb lantern")
_TO_A_PLACE = word_set("put add come fly bring swim run walk move hop throw send return give")
"""Verbs whose "back" is told of the place: it has more then."""
_BACK_THERE = word_set("give throw send return hand")


def _by_particle(clause: Clause, q: Quantity, *, placed: bool) -> Iterator[int]:
    """What the little words of the amount's verb say of it."""
    for word in _particles(clause.tokens, q):
        row = _PARTICLES[word]
        sign = row.get(q.verb, row.get(""))
        if sign is None:
            continue
        if word == "out" and q.head in _LIGHTS:
            sign = 0
        if word == "back" and placed and q.verb in _BACK_THERE:
            sign = 0
        if word == "back" and not placed and q.verb in _TO_A_PLACE - _BACK_THERE:
            sign = 0
        if word in ("over", "back") and q.to:
            continue  # who it goes to says more
        yield sign


def _particles(words: Sequence[Token], q: Quantity) -> Iterator[str]:
    """The little words right behind the verb, or behind the amount where no name follows."""
    for at, word in enumerate(words):
        if word.kind != "w" or word.low not in _PARTICLES:
            continue
        after = words[at + 1] if at + 1 < len(words) else None
        before = words[at - 1] if at else None
        by_verb = before is not None and VERBS.get(before.low) == q.verb
        open_end = after is None or after.kind != "w" or after.low in PREPOSITIONS | ADVERBS
        number = after is not None and after.kind == "n"  # poured in 5
        if (word.start >= q.end and open_end) or (by_verb and (open_end or number)):
            yield word.low


# -- who it goes to

_PERSON = word_set("him her them me us it you")
_HANDING = word_set(
    "give sell send lend hand pay bring return pass mail make buy read show get find pick catch win"
)


def _by_receiver(clause: Clause, q: Quantity, state: Quantity) -> Iterator[int]:
    """What it says of an amount that it goes to him, or that the shop was sold it."""
    if q.verb not in _HANDING:
        return
    own = bool(q.who & state.who) and not q.passive
    to = q.to & _PERSON
    if to and not own:
        yield 1
    first = clause.stretches[0]
    behind = first[clause.verb + 1 :] if clause.verb >= 0 and not clause.passive else ()
    named: set[str] = set()
    for word in behind:
        if word.kind != "w" or word.low in PREPOSITIONS | ADVERBS:
            break
        named |= {word.lemma} - DETERMINERS
    if behind and named and any(t.start == q.start for t in first) and named != {q.head}:
        to_state = bool(named & state.who) or (bool(named & _PERSON) and not own)
        yield 1 if to_state else -1


# -- where to and where from

_INTO = word_set("into onto to")
_WITHIN = word_set("in on")
_LAID = word_set("put plant set lay place hang sow")
_FROM = word_set("from")
_STAYING = word_set("at with")
_GOING = word_set("run walk drive ride travel jog swim hike bike fly read go climb row")


def _by_phrase(story: Story, q: Quantity, state: Quantity) -> Iterator[int]:
    """What "into the pot", "to the shed", "from the barn" behind an amount say of it."""
    if q.verb in _GOING or not _is_there(state):
        return
    there = _words_of(story, state)
    held = state.clause < len(story.clauses) and state.clause > q.clause
    if held and {t.low for t in story.clauses[state.clause].subject} == {"it"}:
        return  # into the tank; then it held 12 liters
    opening = _INTO | (_WITHIN if q.verb in _LAID else frozenset())
    words = [t for t in story.clauses[q.clause].tokens if t.start >= q.end]
    for at, word in enumerate(words):
        if word.low not in opening | _FROM | _STAYING:
            continue
        named = _named(words[at + 1 :])
        if word.low in _STAYING:
            if q.verb == "leave" and named & there:
                yield 0  # left at the shelter
            continue
        if not named or named & (_SOMEONE | TIMES):
            continue
        if named & there and not named <= there:
            continue  # into Roy's bucket
        yield 1 if bool(named & there) == (word.low in opening) else -1


_SOMEONE = PRONOUNS | word_set("each all total addition order front half one")
_OF_THE_STATE = MODALS | DETERMINERS | PREPOSITIONS | ADVERBS | UNITS | TIMES


def _words_of(story: Story, state: Quantity) -> frozenset[str]:
    """The words that tell where or whose an amount is that was there."""
    clause = story.clauses[state.clause] if state.clause < len(story.clauses) else None
    said = frozenset(t.lemma for t in clause.tokens) if clause is not None else frozenset()
    return (said | state.who | state.around) - frozenset(state.thing) - _OF_THE_STATE


def _named(words: Sequence[Token]) -> frozenset[str]:
    """The words of a name right behind a preposition; none where a verb or number follows."""
    found: list[str] = []
    for word in words:
        if word.kind != "w" or (word.low in PREPOSITIONS | ADVERBS and found):
            break
        if not found and VERBS.get(word.low) == word.low:
            return frozenset()  # to make
        if word.low not in DETERMINERS:
            found.append(word.lemma)
    return frozenset(found)


# -- verbs that alone say nothing

_MADE_READY = word_set("fill check pack unpack load save order park sew sow")
_RAW = KINDS["fruit"] | KINDS["vegetable"]
_BY_SOMEONE = word_set("borrow buy get catch find pick collect win earn save check make grow raise")


def _is_no_gain(q: Quantity, state: Quantity, *, placed: bool) -> bool:
    """Whether what is said to be done does not make more of what was there."""
    if q.verb in ("plant", "sow") and q.head in _SOWN:
        return not (placed and q.more)
    if q.more:
        return q.verb == "check"
    if q.verb == "pour" and not q.near & (_INTO | _WITHIN):
        return True
    if q.verb in _MADE_READY or (q.verb == "bake" and q.head in _RAW):
        return q.verb != state.verb
    there = state.verb_sort == "be" and placed
    by_someone = q.verb in _BY_SOMEONE and not set(q.thing) & UNITS
    return there and by_someone and (not q.passive or q.verb == "borrow")


_SOWN = word_set("seed bulb grain")


def _is_no_loss(story: Story, q: Quantity, state: Quantity, *, placed: bool) -> bool:
    """Whether an amount may stay, or come in, by what is done: pupils returned 5 books."""
    if q.verb in _MADE_READY or (q.verb == "read" and "left" not in story.query.lows):
        return True
    if q.verb == "buy" and q.passive:
        return q.more or not (placed or q.partitive)
    if q.verb not in _GIVEN or q.partitive or q.to or q.source or "away" in q.near:
        return False
    return q.passive or bool(q.who and not q.who & (state.who | state.around))


_GIVEN = word_set("return donate give send mail")
"""What others do with an amount to somebody who is not told."""
