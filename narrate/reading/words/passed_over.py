"""What a reading passes over: another tub, a move the other way, some of what all was shared of.

The fourth part of the second look (see `witness`).
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from narrate.reading.words.cues import cue_of
from narrate.reading.words.facts import Answer, Story
from narrate.reading.words.lexicon import UNITS, VERBS
from narrate.reading.words.plain import word_set
from narrate.reading.words.quantity import Quantity


def passed_over(story: Story, answer: Answer) -> str:
    """What of the story a reading passes over, "" if nothing."""
    used = sorted(answer.used, key=lambda q: q.start)
    if answer.unknown == "change" and _went_the_other_way(story, used):
        return "nobody says how many came or went in between"
    if answer.unknown == "change" and _asks_the_other_way(story, answer):
        return "less is there though some came, or more though some went"
    if answer.unknown == "change" and _somebody_else_did(story):
        return "somebody else is asked for"
    if answer.unknown in ("change", "start", "addend") and _is_another(story, used[1:]):
        return "what is told then is of something else"
    if answer.unknown in ("group size", "number of groups") and _leaves_some(story, answer):
        return "not all of what is shared is read"
    if answer.situation == "part of" and any(_are_some_who(story, q) for q in used):
        return "more is told of the part than is asked"
    return ""


def _went_the_other_way(story: Story, used: Sequence[Quantity]) -> bool:
    """Whether some came though there is less, or went though there is more."""
    other = "went" if used[0].value < used[-1].value else "came"
    untold = (q for q in story.original if not q.known and not q.asked)
    return any(cue_of(story, q) == other for q in untold)


_CAME = word_set("add gain receive buy collect join arrive")
_WENT = word_set("use eat sell lose remove spend leak drink evaporate spill")


def _asks_the_other_way(story: Story, answer: Answer) -> bool:
    """Whether the question asks what was added where there is less, or used where there is more."""
    other = {"take from": _CAME, "add to": _WENT}.get(answer.situation, frozenset())
    return story.query.verb in other


def _somebody_else_did(story: Story) -> bool:
    """Whether the question names another than who is told to have moved some: pupils ate some."""
    asked = (story.query.words & story.owners) - set(story.query.thing) - {story.query.verb}
    moved = [q.who for q in story.original if not q.known and not q.asked and q.who]
    return bool(asked and moved) and not any(asked & who for who in moved)


_ANOTHER = re.compile(
    r"\banother (?:[a-z]+ )?[a-z]+ "
    r"(?:holds?|held|has|had|contains?|contained|weighs?|weighed|is|was) $"
)


def _is_another(story: Story, later: Sequence[Quantity]) -> bool:
    """Whether what there is later is told of another thing of that name: another tub held 14."""
    return any(_ANOTHER.search(story.text[: q.start]) for q in later)


_ALL = word_set("all everything whole entire")


def _leaves_some(story: Story, answer: Answer) -> bool:
    """Whether all is shared, and an amount of the same measure is not used: one bag, another."""
    if not any(c.lows & _ALL for c in story.clauses):
        return False
    measures = [set(q.thing) & UNITS for q in answer.used if set(q.thing) & UNITS]
    unused = [q for q in story.original if q.known and q.start not in answer.places]
    return any(q.sort == "amount" and set(q.thing) & UNITS in measures for q in unused)


_WHO = re.compile(r"[^.?!;,]* who ([a-z]+)")


def _are_some_who(story: Story, q: Quantity) -> bool:
    """Whether a part is told to be those who do something not asked: 3/8 are girls who rake."""
    found = _WHO.match(story.text, q.start) if q.sort == "part" else None
    return found is not None and VERBS.get(found[1], found[1]) not in story.query.words
