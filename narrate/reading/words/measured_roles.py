"""What was done with each amount of a story of one measure: the marks of `measured.TABLE`."""

from __future__ import annotations

import re
from collections.abc import Sequence

from narrate.reading.words.comparing import LONGER, MORE
from narrate.reading.words.directions import MONEY, elsewhere
from narrate.reading.words.facts import Story
from narrate.reading.words.lexicon import ORDINALS
from narrate.reading.words.plain import word_set
from narrate.reading.words.quantity import Quantity
from narrate.reading.words.whom import PEOPLE

_WANTED = word_set("need want require call plan hope must")
_GOALS = word_set("goal must plans planned calls")
STATES = word_set("weigh measure stand cost show")
_SERVED = word_set("serve scoop ladle")
_TIME = word_set("second minute hour day week")


def marks_of(story: Story, amounts: Sequence[Quantity], asked: str) -> str:
    """The marks of the amounts, "" where one has none or they are of several people."""
    marks = ""
    for place, q in enumerate(amounts):
        mark = _mark(story, q, asked)
        if mark == "l" and q.more and "l" not in marks:
            return ""  # another 0.85 inch of rain fell
        if mark == "g" and place and (there := elsewhere(story.text, q, amounts[0])):
            mark = "l" if there < 0 else ""
        if mark == "b" and _is_after(story, q, amounts[:place], marks):
            mark = "a"
        marks += mark
    uniform = len(set(marks)) == 1
    if not uniform and not _one_owner(amounts, story.names):
        return ""
    if len(amounts) == 2 and marks == "bb" and asked == "other" and is_of_all(story, amounts[0]):
        return "tb"
    if uniform and asked == "total" and len({q.verb for q in amounts}) > 1 and marks[0] == "d":
        return ""
    return marks if len(marks) == len(amounts) else ""


def _mark(story: Story, q: Quantity, asked: str) -> str:
    """What was done with one amount."""
    clause = story.clauses[q.clause]
    if q.carried in _WANTED or q.verb in _WANTED or _GOALS & clause.lows:
        return "n"
    if q.verb == "cost" and asked == "more":
        return "n"
    if re.search(r"of (?:the|his|her|their|its) $", story.text[: q.start]):
        return "b"  # 1 cup of the 2 cups
    if re.search(r"\bfrom (?:an?|the|his|her)(?: [a-z]+){1,2} of $", story.text[: q.start]):
        return "b"  # from a roll of 12 meters
    if re.search(r"\bfrom (?:an?|the|his|her) $", story.text[: q.start]) and _is_sized(story, q):
        return "b"  # from a 10-foot board
    if is_of_all(story, q):
        return "t" if q.verb_sort in ("be", "own") or q.verb in STATES else ""
    if q.verb_sort in ("be", "own") or q.verb in STATES:
        changed = next((MORE.get(w, 1) for w in q.thing if w in MORE or LONGER.fullmatch(w)), 0)
        return "" if q.more else {0: "b", 1: "g", -1: "l"}[changed]
    if set(q.thing) & _TIME:
        return "d"
    if q.money and q.who & PEOPLE and story.names - q.who:
        return ""  # her uncle gave her $15
    if q.money:
        return {1: "g", -1: "l"}.get(MONEY.get(q.verb, 0), "")
    if q.verb_sort == "gain":
        if any(MORE.get(low, 1) < 0 for low in q.near):
            return "l" if q.verb in ("get", "become", "grow") else ""
        return "l" if q.source or {"out", "off"} & q.near else "g"
    if q.verb_sort in ("lose", "take") or q.verb in _SERVED:
        return "l"
    return "d" if q.verb else ""


def _is_sized(story: Story, q: Quantity) -> bool:
    return "-" in story.text[q.start : q.end]


def is_of_all(story: Story, q: Quantity) -> bool:
    """Whether an amount is of all that is told: 9 cups of nuts and seeds in all."""
    clause = story.clauses[q.clause]
    said = _TOTAL & clause.lows or {"in", "all"} <= clause.lows
    return q.total or bool(said and sum(t.kind == "n" for t in clause.tokens) == 1)


_TOTAL = word_set("together altogether total combined")


def _is_after(story: Story, q: Quantity, before: Sequence[Quantity], marks: str) -> bool:
    """Whether what is there now was told of before: the tank was full, then it was half full."""
    if not before:
        return False
    later = q.left or q.after or story.clauses[q.clause].link in ("then", "after", ",")
    if marks == "b":
        shared = before[0].who & q.who
        same = bool(shared) and shared in (before[0].who, q.who)
        same = same and not (q.who ^ before[0].who) & ORDINALS  # a hose, a second hose
        return (same or q.left) and q.clause != before[0].clause
    return (later and set(marks) <= {"l", "g"}) or (set(marks) <= {"l", "g"} and q.left)


def _one_owner(amounts: Sequence[Quantity], names: frozenset[str]) -> bool:
    """Whether the people who do things with the amounts are one, or the amounts are nobody's."""
    people = [q.who & names for q in amounts if q.who & names and q.verb_sort != "be"]
    return all(a & b or not _both_have(amounts) for a in people for b in people)


def _both_have(amounts: Sequence[Quantity]) -> bool:
    """Whether several own or take of their own, so that one's is not another's."""
    return any(q.verb_sort == "own" and q.verb in ("have", "own", "possess") for q in amounts)
