"""Amounts that belong elsewhere: to a part of the whole, to somebody else, to the end of a change.

"Of the planted part, 1/3 is mint" tells no part of the bed. "Her neighbor cooked 10" takes nothing
from Iris. What grew from 32 inches to 51 inches did not grow by both.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import pairwise

from narrate.exact.tree import Op
from narrate.reading.words.facts import Answer, Story, tree_of
from narrate.reading.words.lexicon import VERBS, one
from narrate.reading.words.measured_amounts import measure_of
from narrate.reading.words.plain import word_set
from narrate.reading.words.quantity import Quantity
from narrate.reading.words.verbs import BE, HAVE

_BEFORE = re.compile(
    r"\bof (?:all )?(?:the|an?|these|those|that|this|them|it|her|his|their) ?([^.,;?]*),\s*$"
)
_BEHIND = re.compile(
    r"^[^.,;?]*? of (?:all )?(?:the|an?|these|those|that|this|her|his|their) ([^.,;?]+)"
)
_ENDS = (
    BE
    | HAVE
    | word_set("in on at of for and or that which who with by from to during after before")
)
_SAME = word_set("whole entire same full total all other")
_LESS = word_set("part portion half third quarter section share rest remainder")


def belongs_elsewhere(story: Story, answer: Answer) -> str:
    """Why an amount of an answer belongs elsewhere, "" if none does."""
    if _of_narrower_wholes(story, answer):
        return "a part is of less than the whole"
    parts = [q for q in answer.used if q.sort == "part"]
    if story.query.kind == "fraction" and len(parts) == len(answer.used) and answer.value > 1:
        return "it would be more than the whole"
    if answer.unknown in ("total", "result") and _ends_of_a_change(story, answer):
        return "the amounts are the two ends of a change"
    if answer.situation in _CHANGES and any(_of_another(story, q) for q in answer.used):
        return "an amount is of another one"
    if _of_somebody_else(story, answer):
        return "an amount is somebody else's"
    if answer.unknown in ("product", "total") and _among_others(answer):
        return "an amount may be some of another"
    by_time = story.query.head in _TIMES and answer.unknown == "number of groups"
    if by_time and not answer.rounding and answer.value.denominator != 1:
        return f"it comes out in parts of a {story.query.head}"
    return ""


def _among_others(answer: Answer) -> bool:
    """Whether a count that is added may be of things counted before: 7 trays; 4 trays are red."""
    counts = [q for q in answer.used if q.sort == "amount" and not q.asked and q.thing]
    return any(
        set(a.thing) >= set(b.thing)
        and a.sentence != b.sentence
        and b.before_verb
        and b.verb_sort == "be"
        and not b.more
        for a, b in pairwise(counts)
    )


_TIMES = word_set("day week month year night visit lesson")


def _of_narrower_wholes(story: Story, answer: Answer) -> bool:
    """Whether two parts that are joined are of wholes named differently: bowls, blue bowls."""
    if answer.situation not in ("put together", "take apart", "take from", "add to", "in and out"):
        return False
    parts = sorted((q for q in answer.used if q.sort == "part"), key=lambda q: q.start)
    wholes = [_whole_of(story, q) for q in parts]
    if any(whole & _LESS for whole in wholes):
        return True
    return any(b - a for a, b in pairwise(whole for whole in wholes if whole))


def _whole_of(story: Story, part: Quantity) -> frozenset[str]:
    """The words of what a part is of, as the text names it; none where it does not."""
    behind = _BEHIND.match(story.text[part.start :])
    before = _BEFORE.search(story.text[: part.start])
    named = behind[1] if behind else before[1] if before else ""
    words: list[str] = []
    for word in re.findall(r"[a-z'-]+", named):
        if word in _ENDS or (words and VERBS.get(word)):
            break
        words.append(one(word))
    return frozenset(words) - _SAME


def _ends_of_a_change(story: Story, answer: Answer) -> bool:
    """Whether two amounts that are joined stand as "from 32 inches to 51 inches"."""
    places = sorted((q.start, q.end) for q in answer.used if not q.asked)
    return any(
        re.search(r"\bfrom (?:\w+ )?$", story.text[:a_start])
        and re.fullmatch(r"[^.,;?]{0,30}\bto (?:\w+ )?", story.text[a_end:b_start])
        for (a_start, a_end), (b_start, _) in pairwise(places)
    )


_CHANGING = word_set(
    "grow rise fall drop increase decrease change climb gain lose shrink go warm cool sink widen"
)


def from_to(story: Story) -> Iterator[Answer]:
    """By how much something changed that went from one amount to another."""
    query = story.query
    known = [q for q in story.quantities if q.known]
    two = len(known) == len("ab") and not query.sign and not query.than and not query.negative
    if not two or query.kind not in ("many", "much", "long") or query.verb not in _CHANGING:
        return
    first, last = known
    answer = Answer(tree=tree_of(first), used=(first, last), situation="", unknown="")
    alike = measure_of(first) == measure_of(last) or (first.money and last.money)
    if first.clause != last.clause or not alike or not _ends_of_a_change(story, answer):
        return
    grew = last.value > first.value
    larger, smaller = (last, first) if grew else (first, last)
    yield Answer(
        tree=Op("−", tree_of(larger), tree_of(smaller)),
        used=(first, last),
        situation="add to" if grew else "take from",
        unknown="change",
    )


_CHANGES = ("take from", "add to", "in and out")


def _of_another(story: Story, q: Quantity) -> bool:
    """Whether an amount is of something else of that name: 1/4 m of another plank."""
    behind = (
        r"^[^.,;?]*? (?:of|from|off) (?:another|a different|the other (?!end\b|side\b)[a-z]+)\b"
    )
    return re.match(behind, story.text[q.start :]) is not None


def _of_somebody_else(story: Story, answer: Answer) -> bool:
    """Whether something comes or goes by somebody who is not asked about, of their own."""
    people = story.names | _RELATED
    own = [q for q in answer.used if not (answer.situation == "needed" and q.to & _HIM)]
    owners = [q.who & people for q in own if q.who & people]
    if answer.situation == "needed" and any(not a & b for a, b in pairwise(owners)):
        return True  # Tia needs 20; Zelda has 7
    whose = [q.who for q in answer.used if not q.asked]
    if answer.situation == "needed" and any(a & b and a - b and b - a for a, b in pairwise(whose)):
        return True  # the garden club needs $250; the book club has $165
    asked = story.query.words & story.names
    if answer.situation not in _CHANGES or not asked or answer.unknown != "result":
        return False
    first, *others = sorted(answer.used, key=lambda q: q.start)
    if not first.who & asked:
        another = bool(first.who & story.names) and not first.to & asked
        return another and any(q.who & asked and q.verb_sort in _HAVING for q in others)
    return any(_is_theirs(story, q, asked) for q in others)


_HAVING = ("own", "gain")
_HIM = word_set("him her them")


def _is_theirs(story: Story, q: Quantity, asked: frozenset[str]) -> bool:
    if q.clause >= len(story.clauses):
        return False
    clause = story.clauses[q.clause]
    told = {t.low for t in clause.subject}
    named = told & _RELATED or (q.who & story.names and not q.who & asked)
    end = clause.subject[-1].start if clause.subject else 0
    after = {t.low for t in clause.tokens if t.start > end}
    shared = after & {"them", "it", "these", "those", "her", "him", "his"}
    reached = (q.to | q.source) & asked
    behind = re.match(r"[^.,;?]* of (?:the|these|those|them|it|her|his)\b", story.text[q.start :])
    passive = q.passive or not clause.subject
    own = "own" in after  # 3 of his own pins
    return bool(named) and (own or not (shared or reached or behind or passive))


_RELATED = word_set(
    "brother sister cousin friend neighbor neighbour aunt uncle mother father mom dad teacher "
    "classmate partner grandmother grandfather"
)
