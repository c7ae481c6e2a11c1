"""What a question asks of amounts that came and went: what was there, what came or went, or now."""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import pairwise

from narrate.reading.words.cues import CAME, MOVES, WENT, Cue, base_of, cue_of
from narrate.reading.words.facts import Story
from narrate.reading.words.lexicon import NO_THING, one
from narrate.reading.words.measured_roles import STATES
from narrate.reading.words.plain import word_set
from narrate.reading.words.quantity import Quantity

MOVING: frozenset[Cue] = frozenset({"came", "went"})
"""What changes how much there is."""

_END = re.compile(
    r"\b(?:left|remain\w*|still|now|then|stay\w*|afterwards?|after (?:that|this|he|she|they|it)"
    r"|in the end|at the end|by (?:evening|noon|night|then|the end)|does that (?:make|leave)|keep"
    r"|kept|(?:bring|take|have|go|come|went|came)(?: \w+)? home)\b"
)
START = re.compile(
    r"\b(?:to (?:start|begin) with|at first|at the (?:start|beginning|outset)|in the beginning"
    r"|originally|initially|before|beforehand|begin|began|start|used to|in the first place|earlier"
    r"|(?:had|has) (?:he|she|they|it|there|\w+) (?:been|had))\b"
)
_BEGAN = re.compile(
    r"\b(?:with how (?:much|many)|before (?:\w+ ){1,6}?(?:was|were|came|arrived)"
    r"|(?:when|as) (?:\w+ ){1,3}?(?:found|began|begun|started|opened|arrived"
    r"|(?:was|were) (?:carried|brought|new|full|bought|opened)))\b"
)

_PAST = re.compile(r"\b(?:had|was|were|did)\b")


def _question(story: Story) -> str:
    """All of the sentence that asks."""
    begun = max(story.text.rfind(mark, 0, story.query.start) for mark in (". ", "? ", "! "))
    return story.text[begun + 1 :]


def asked_of(story: Story, told: Sequence[Quantity], cues: Sequence[Cue]) -> str:
    """What is asked: the end, the start, or what came or went."""
    query = story.query
    if query.sign:
        return ""
    ends = bool(_END.search(query.text)) or query.ended
    if "home" in query.lows and ends:
        return "end"
    if START.search(query.text) or _BEGAN.search(_question(story)):
        return "start"
    moved = {q.verb for q, cue in zip(told, cues, strict=True) if cue in MOVING}
    doing = _doing(story)
    if doing and {"there", "after"} <= set(cues):
        way = _by_size(told, cues)
        return "" if doing & (moved | (CAME - WENT if way == "went" else WENT - CAME)) else way
    again = doing == moved and all(q.more for q in told[1:]) and "had" in query.lows
    if again and set(cues) == {"came"}:
        return "end"
    if query.total and set(cues) <= {"there", "came"}:
        return "" if "there" in cues and query.verb in moved else "end"
    if "after" in cues and MOVING & set(cues) and _PAST.search(query.text) and not (ends or doing):
        return "start"
    if "there" not in cues and set(cues) == {"went", "after"} and doing <= _BROUGHT and doing:
        return "start"
    state = query.verb_sort in ("be", "own") or query.verb in STATES - {"cost"}
    if doing or (query.verb and not state):
        known = doing - moved
        return "went" if known & WENT else "came" if known & CAME else ""
    will = "will" in query.lows and MOVING & set(cues)
    return "end" if ends or will or _asks_state(story, told, cues) else _moved_thing(story)


def _asks_state(story: Story, told: Sequence[Quantity], cues: Sequence[Cue]) -> bool:
    """Whether what is asked can only be how many there are when all has come and gone."""
    query = story.query
    state = query.verb_sort in ("be", "own") or query.kind == "long"
    others = query.words & story.names - frozenset().union(*(q.who | q.to for q in told))
    behind = TIMED.search(query.text)
    last = behind is None or _named_last(story, told[-1], behind[0])
    return "there" in cues and "after" not in cues and state and not others and last


TIMED = re.compile(r"\b(?:after|when|as|once|by|at|on|in (?:the )?(?:morning|\w+ month))\b.*")


def _named_last(story: Story, last: Quantity, when: str) -> bool:
    """Whether what happened last is named in the words that tell when."""
    words = {one(word) for word in re.findall("[a-z]+", when)} - NO_THING - {"have", "be"}
    here = story.clauses[last.clause].tokens if last.clause < len(story.clauses) else []
    return bool(words & ({t.lemma for t in here} | {"delivery", "day", "end"}))


_BROUGHT = word_set("bring arrive come")


def _doing(story: Story) -> frozenset[str]:
    """The verbs of the question that say what was done: had been sliced, did she use."""
    lows = story.query.text.split()
    lows = [low for before, low in pairwise(("", *lows)) if before != "still"]  # still hanging
    verbs = {base_of(low) for low in lows if _DONE.fullmatch(low) or base_of(low) in MOVES}
    return frozenset(verbs) - STATES - {"leave"}  # how many are left


_DONE = re.compile(r"[a-z]{2,}ed")


def _by_size(told: Sequence[Quantity], cues: Sequence[Cue]) -> str:
    """Whether some came or went: less is there than was."""
    there, after = (told[cues.index(cue)].value for cue in ("there", "after"))
    return "went" if after < there else "came"


def _moved_thing(story: Story) -> str:
    """Whether what is asked for came or went untold: she shook in some sugar; the sugar?"""
    asked = story.query.words | set(story.query.thing)
    untold = [q for q in story.quantities if not q.known and set(q.thing) & asked]
    cues = {cue_of(story, q) for q in untold}
    return cues.pop() if len(untold) == 1 and cues <= {"came", "went"} else ""
