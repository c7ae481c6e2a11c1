"""Two amounts of one thing, and what is asked of them: a table of what the words beside them say.

CCSSM (2010), glossary Table 1, without comparisons: whoever acts, and whatever is counted, what was
there and what came or went lead to what is there now, to what was there, or to what came or went.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from narrate.exact.tree import Op, value
from narrate.reading.words.clauses import Clause
from narrate.reading.words.cues import CAME, WENT, Cue, cue_of
from narrate.reading.words.facts import KINDS, Answer, Story, tree_of
from narrate.reading.words.heard import beside, only_counts, stands_by
from narrate.reading.words.lexicon import TIMES, UNITS, one
from narrate.reading.words.measured_amounts import measure_of
from narrate.reading.words.measured_roles import STATES
from narrate.reading.words.plain import word_set
from narrate.reading.words.quantity import Quantity


@dataclass(frozen=True, slots=True)
class Pair:
    """What the words say of the first and the second amount, what is asked, and the sign between.

    "-" takes the second from the first, "~" the first from the second.
    """

    first: Cue
    second: Cue
    asked: str
    sign: str
    situation: str
    unknown: str


TABLE: tuple[Pair, ...] = (
    Pair("there", "came", "end", "+", "add to", "result"),
    Pair("came", "came", "end", "+", "add to", "result"),
    Pair("there", "went", "end", "-", "take from", "result"),
    Pair("came", "went", "end", "-", "take from", "result"),
    Pair("went", "there", "end", "~", "take from", "result"),
    Pair("went", "after", "start", "+", "take from", "start"),
    Pair("after", "went", "start", "+", "take from", "start"),
    Pair("came", "after", "start", "~", "add to", "start"),
    Pair("after", "came", "start", "-", "add to", "start"),
    Pair("there", "after", "went", "-", "take from", "change"),
    Pair("there", "after", "came", "~", "add to", "change"),
    Pair("after", "there", "went", "~", "take from", "change"),
    Pair("came", "after", "went", "-", "take from", "change"),
)


def pairs(story: Story) -> Iterator[Answer]:
    """The row of TABLE that fits the two amounts of a story."""
    query = story.query
    if query.per or query.than or query.negative or query.kind not in ("many", "much", "long"):
        return
    if story.quantities is not story.original:
        return  # steps before the last are told in no words
    if _SHARED.search(story.text) or _COMPARED.search(story.text):
        return
    two = _two(story)
    if not two:
        return
    first, second = (cue_of(story, q) for q in two)
    if first == "there" and second == "there" and _later(story, two):
        second = "after"
    if first == "there" and second in ("came", "went") and _AFTER.search(_between(story, two)):
        first = "after"
    asked = _asked(story, two, {first, second})
    if asked == "start" and first in ("came", "went") and second == "there" and _since(story, two):
        second = "after"
    if {first, second} != {"there", "after"} and not _one_side(story, two):
        return
    if (second != "after" or _PLACED.search(_around(story, two[0]))) and _is_elsewhere(story, *two):
        return
    for row in TABLE:
        if (row.first, row.second, row.asked) == (first, second, asked):
            yield from _answer(story, row, two)


_SHARED = re.compile(
    r"\b(?:each|every|per|apiece|equal\w*|evenly|same|twice|times|half|halves|double|shared?|split"
    r"|divided?|average|percent|rows?|groups?|or|if she had|would|instead)\b|%"
)
_COMPARED = re.compile(
    r"\b(?:than|as (?:many|much|long|tall|heavy|old)|shorter|taller|longer|heavier|lighter|older"
    r"|younger|fewer|less)\b"
)


def _two(story: Story) -> Sequence[Quantity]:
    """The two amounts that are alike, where there are just two."""
    known = [q for q in story.quantities if q.known and not only_counts(story, q)]
    known = [q for q in known if not (stands_by(story, q) or beside(q, story.query.thing))]
    known = [
        q for q in known if not (set(q.thing) & _TIMES and not set(story.query.thing) & _TIMES)
    ]
    plain = all(q.sort in ("amount", "part") and not q.percent for q in known)
    if len(known) != 2 or not plain:
        return ()
    a, b = known
    alike = (
        (a.money and b.money)
        or (bool(measure_of(a)) and measure_of(a) == measure_of(b))
        or (not measure_of(a) and not measure_of(b) and _same_thing(a, b))
    )
    asked = all(story.agrees(q, story.query.thing) for q in known) or not story.query.thing
    return known if alike and asked and a.money == b.money else ()


_TIMES = word_set("minute hour day week month year second")


def _same_thing(a: Quantity, b: Quantity) -> bool:
    return a.head == b.head or b.borrowed or a.head in KINDS.get(b.head, ())


def _one_side(story: Story, two: Sequence[Quantity]) -> bool:
    """Whether all that happens is to one thing or one person's amount."""
    people = [q.who & story.names for q in two if q.who & story.names]
    if len(people) == 2 and not people[0] & people[1]:
        return False
    return len({w for q in two for w in set(q.thing) & UNITS}) <= 1


_PLACED = re.compile(r"\b(?:in|into|onto|on|to) (?:the|a|an|his|her|its|their) (?:\w+ )?(\w+)")
_TO_ONESELF = word_set("get receive buy find collect earn win gather save borrow acquire purchase")


def _is_elsewhere(story: Story, state: Quantity, q: Quantity) -> bool:
    """Whether an amount came to another place or person than where the first one was."""
    if q.verb in _TO_ONESELF and (q.passive or not q.who & (state.who | {"she", "he", "they"})):
        return True
    if max(q.clause, state.clause) >= len(story.clauses):
        return False  # the question itself tells it
    here = {t.lemma for t in story.clauses[state.clause].tokens}
    behind = story.text[q.start : story.clauses[q.clause].tokens[-1].end]
    return any(one(noun) not in here | {"it", *TIMES} for noun in _PLACED.findall(behind))


_END = re.compile(
    r"\b(?:left|remain\w*|still|now|then|stay\w*|afterwards?|after (?:that|this|he|she|they|it)"
    r"|in the end|at the end|by (?:evening|noon|night|then|the end)|does that (?:make|leave)|keep"
    r"|kept|(?:bring|take|have|go|come|went|came)(?: \w+)? home)\b"
)
_START = re.compile(
    r"\b(?:at first|at the (?:start|beginning|outset)|in the beginning|originally|initially|before"
    r"|beforehand|begin|began|start|used to|(?:had|has) (?:he|she|they|it|there|\w+) (?:been|had)"
    r"|in the first place|earlier)\b"
)


def _asked(story: Story, two: Sequence[Quantity], cues: set[Cue]) -> str:
    """What is asked: the end, the start, or what came or went."""
    query = story.query
    if query.sign:
        return ""
    ends = bool(_END.search(query.text)) or query.ended
    if "home" in query.lows and ends:
        return "end"
    if _START.search(query.text) or (
        "after" in cues and cues & {"came", "went"} and _PAST.search(query.text) and not ends
    ):
        return "start"
    state = query.verb_sort in ("be", "own") or query.verb in STATES - {"cost"}
    if query.verb and not state:
        if query.verb in {q.verb for q in two if cue_of(story, q) not in ("there", "after")}:
            return ""
        return "went" if query.verb in WENT else "came" if query.verb in CAME else ""
    will = "will" in query.lows and cues & {"came", "went"}
    return "end" if ends or will else _moved_thing(story)


def _moved_thing(story: Story) -> str:
    """Whether what is asked for came or went untold: she shook in some sugar; the sugar?"""
    asked = story.query.words | set(story.query.thing)
    untold = [q for q in story.quantities if not q.known and set(q.thing) & asked]
    cues = {cue_of(story, q) for q in untold}
    return cues.pop() if len(untold) == 1 and cues <= {"came", "went"} else ""


_LEFT = re.compile(r"\b(?:left|remain\w*|stay\w*)\b")
_AFTER = re.compile(r"^[^.?!;]*\bafter (?!that\b|this\b)")


def _between(story: Story, two: Sequence[Quantity]) -> str:
    return story.text[two[0].end : two[1].start]


def _since(story: Story, two: Sequence[Quantity]) -> bool:
    """Whether the second amount is what was there when the first had come or gone."""
    sentence = re.split(r"(?<!\bmr)(?<!\bms)(?<!\bmrs)[.?!] ", story.text[: two[0].start])[-1]
    then = re.search(r"\b(?:now|then|after (?:that|this)|afterwards?)\b", _between(story, two))
    return bool(re.match(r"\W*(?:after|when|once|as soon as)\b", sentence) or then)


def _around(story: Story, q: Quantity) -> str:
    """The words of the clause in which an amount stands."""
    words = story.clauses[q.clause].tokens if q.clause < len(story.clauses) else []
    return story.text[words[0].start : words[-1].end] if words else ""


_PAST = re.compile(r"\b(?:had|was|were|did)\b")


def _later(story: Story, two: Sequence[Quantity]) -> bool:
    """Whether the second of two states is told as a later one of the same thing."""
    a, b = two
    same = a.who == b.who or not b.who or b.borrowed
    same = same or (a.verb == b.verb and b.verb in STATES and bool(a.who & b.who))
    apart = a.clause != b.clause or bool(_WHEN.search(story.text[b.end :].split(".")[0]))
    return same and apart and bool(_WHEN.search(story.text[a.end : b.end + 30]))


_WHEN = re.compile(
    r"\b(?:now|later|after\w*|then|today|by (?:noon|evening|night|\w+day)|when|at (?:noon|night|the"
    r" end)|in (?:may|june|july|august|september|october))\b"
)


def _answer(story: Story, row: Pair, two: Sequence[Quantity]) -> Iterator[Answer]:
    told = frozenset(n for n, c in enumerate(story.clauses) if _changes_nothing(c))
    a, b = two
    left, right = {"~": (b, a)}.get(row.sign, (a, b))
    tree = Op("+" if row.sign == "+" else "−", tree_of(left), tree_of(right))
    if value(tree) > 0:
        used, unknown = (left, right), row.unknown
        said = frozenset({"home", "bring"} if row.asked == "end" else ())
        yield Answer(
            tree=tree, used=used, situation=row.situation, unknown=unknown, told=told, said=said
        )


def _changes_nothing(clause: Clause) -> bool:
    """Whether a clause without a number says only when, or what somebody thought or saw."""
    lows = clause.lows
    numbered = any(t.kind == "n" for t in clause.tokens)
    open_ = lows & {"some", "another", "rest", "half", "more", "others", "none", "any", "all"}
    when = clause.link in ("before", "after", "when", "while", "as") and not lows & {"that", "this"}
    moves = clause.sort in ("gain", "lose", "take") or clause.base in WENT | CAME
    return not (numbered or open_ or clause.negative or moves) and (when or clause.base in _MINDED)


_MINDED = word_set("think know see like feel decide notice believe look wonder hear remember")
