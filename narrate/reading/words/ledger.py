"""Amounts of one thing, and what is asked of them: what was there, came and went, and is there now.

CCSSM (2010), glossary Table 1, without comparisons: whoever acts, and whatever is counted. What was
there and came, less what went, is what is there now; where one of these is asked for and all others
are told, it is read.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from narrate.exact.tree import value, write_sum
from narrate.reading.words.clauses import Clause
from narrate.reading.words.cues import CAME, MOVES, WENT, Cue, base_of, cue_of
from narrate.reading.words.facts import KINDS, Answer, Story, tree_of
from narrate.reading.words.heard import beside, only_counts, stands_by
from narrate.reading.words.ledger_asked import MOVING, START, TIMED, asked_of
from narrate.reading.words.lexicon import TIMES, UNITS, one
from narrate.reading.words.measured_amounts import measure_of
from narrate.reading.words.measured_roles import STATES
from narrate.reading.words.plain import word_set
from narrate.reading.words.quantity import Quantity

_MOST = 4
"""So many amounts at most."""


def ledger(story: Story) -> Iterator[Answer]:
    """What is asked for of the amounts of a story, where all others are told."""
    query = story.query
    if query.per or query.than or query.negative or query.kind not in ("many", "much", "long"):
        return
    if story.quantities is not story.original:
        return  # steps before the last are told in no words
    if _SHARED.search(story.text) or _COMPARED.search(story.text):
        return
    told = _alike(story)
    if not told:
        return
    cues = [cue_of(story, q) for q in told]
    cues[1:] = ["" if c == "there" and q.more else c for c, q in zip(cues, told, strict=True)][1:]
    if (
        not cues[0]
        and "after" in cues
        and told[0].verb in _MADE
        and not (told[0].more or told[0].partitive)
    ):
        cues[0] = "there"  # what was baked is there
    _see_later(story, told, cues)
    asked = asked_of(story, told, cues)
    if asked == "start" and "after" not in cues and "there" in cues[1:]:
        at = cues.index("there")
        if cues[at - 1] in MOVING and _since(story, told[at - 1], told[at]):
            cues[at] = "after"
    if set(cues) != {"there", "after"} and not _one_side(story, told):
        return
    placed = _PLACED.search(_around(story, told[0]))
    untold = [q for q in story.quantities if not q.known] if asked == "came" and placed else []
    if any(_is_elsewhere(story, told[0], q) for q in untold):
        return
    if any(
        (cue != "after" or placed) and _is_elsewhere(story, told[0], q)
        for cue, q in zip(cues[1:], told[1:], strict=True)
    ):
        return
    yield from _answer(story, list(zip(cues, told, strict=True)), asked)


_MADE = word_set(
    "bake make cook fill pick harvest grow set prepare knit sew print fold build pot wrap paint"
)


def _see_later(story: Story, told: Sequence[Quantity], cues: list[Cue]) -> None:
    """Marks the amount that the words around it say was there after all had come and gone."""
    there = [at for at, cue in enumerate(cues) if cue == "there"]
    if len(there) == 2 and "after" not in cues:
        first, second = there
        if _later(story, told[first], told[second]):
            cues[second] = "after"
    between = story.text[told[0].end : told[1].start]
    if there[:1] == [0] and "after" not in cues and cues[1] in MOVING and _AFTER.search(between):
        cues[0] = "after"
    if "all" in cues and MOVING & set(cues) and "after" not in cues and cues.count("all") == 1:
        cues[cues.index("all")] = "after"


_SHARED = re.compile(
    r"\b(?:each|every|per|apiece|equal\w*|evenly|same|twice|times|half|halves|double|shared?|split"
    r"|divided?|average|percent|rows?|groups?|or|if she had|would|instead)\b|%"
)
_COMPARED = re.compile(
    r"\b(?:than|as (?:many|much|long|tall|heavy|old)|shorter|taller|longer|heavier|lighter|older"
    r"|younger|fewer|less)\b"
)


def _alike(story: Story) -> Sequence[Quantity]:
    """The amounts that are alike, where all are."""
    known = [q for q in story.quantities if q.known and not only_counts(story, q)]
    known = [q for q in known if not (stands_by(story, q) or beside(q, story.query.thing))]
    known = [
        q for q in known if not (set(q.thing) & _TIMES and not set(story.query.thing) & _TIMES)
    ]
    plain = all(q.sort in ("amount", "part") and not q.percent for q in known)
    if not 2 <= len(known) <= _MOST or not plain:
        return ()
    first, *others = known
    thing = story.query.thing
    asked = all(story.agrees(q, thing) or (measure_of(q) and q.who & {*thing}) for q in known)
    asked = asked or not thing
    return known if asked and all(_is_like(first, q) for q in others) else ()


def _is_like(a: Quantity, b: Quantity) -> bool:
    """Whether two amounts are of one measure, or of one thing."""
    if a.money or b.money:
        return a.money and b.money
    return measure_of(a) == measure_of(b) if measure_of(a) else _same_thing(a, b)


_TIMES = word_set("minute hour day week month year second")


def _same_thing(a: Quantity, b: Quantity) -> bool:
    return not measure_of(b) and (a.head == b.head or b.borrowed or a.head in KINDS.get(b.head, ()))


def _one_side(story: Story, told: Sequence[Quantity]) -> bool:
    """Whether all that happens is to one thing or one person's amount."""
    people = [q.who & story.names for q in told if q.who & story.names]
    if any(not people[0] & others for others in people[1:]):
        return False
    return len({w for q in told for w in set(q.thing) & UNITS}) <= 1


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
    if re.search(r"\b(?:in|into|onto|on|to) another\b", behind):
        return True
    return any(one(noun) not in here | {"it", *TIMES} for noun in _PLACED.findall(behind))


_LEFT = re.compile(r"\b(?:left|remain\w*|stay\w*)\b")
_AFTER = re.compile(r"^[^.?!;]*\bafter (?!that\b|this\b)")


def _since(story: Story, moved: Quantity, state: Quantity) -> bool:
    """Whether an amount is what was there when the one before it had come or gone."""
    sentence = re.split(r"(?<!\bmr)(?<!\bms)(?<!\bmrs)[.?!] ", story.text[: moved.start])[-1]
    between = story.text[moved.end : state.start]
    then = re.search(r"\b(?:now|then|after (?:that|this)|afterwards?)\b", between)
    said = {t.lemma for c in story.clauses[: state.clause] for t in c.tokens}
    told = not state.before and state.who <= said and bool(_AND_THEN.fullmatch(between))
    if told and START.search(story.query.text):
        return True
    return bool(re.match(r"\W*(?:after|when|once|as soon as)\b", sentence) or then)


_AND_THEN = re.compile(
    r"[^.?!;]*,? and (?:the|it|she|he|they|there|its|his|her|their) "
    r"(?:(?!before|first|had been)[^.?!;])*"
)
"""Between what came and what is told of it in the same breath: and the pile weighed 9 kg."""


def _around(story: Story, q: Quantity) -> str:
    """The words of the clause in which an amount stands."""
    words = story.clauses[q.clause].tokens if q.clause < len(story.clauses) else []
    return story.text[words[0].start : words[-1].end] if words else ""


def _later(story: Story, a: Quantity, b: Quantity) -> bool:
    """Whether the second of two states is told as a later one of the same thing."""
    same = a.who == b.who or not b.who or b.borrowed
    same = same or (a.verb == b.verb and b.verb in STATES and bool(a.who & b.who))
    same = same or (bool(b.who) and b.who <= _INSTRUMENTS)
    apart = a.clause != b.clause or bool(_WHEN.search(story.text[b.end :].split(".")[0]))
    return same and apart and bool(_WHEN.search(story.text[a.end : b.end + 30]))


_INSTRUMENTS = word_set("scale scales gauge meter thermometer ruler tape clock counter balance")
_WHEN = re.compile(
    r"\b(?:now|later|after\w*|then|today|by (?:noon|evening|night|\w+day)|when|at (?:noon|night|the"
    r" end)|in (?:may|june|july|august|september|october))\b"
)


def _is_one_state(marked: Sequence[tuple[Cue, Quantity]]) -> bool:
    """Whether what was there at first is told once, of one thing or of several side by side."""
    there = [q.clause for cue, q in marked if cue == "there"]
    if len(there) > 1 and any(_SIZES & q.near for cue, q in marked if cue == "there"):
        return False  # a plank 5 meters long on a wall 3 meters high
    beside = all(cue == "there" for cue, _ in marked[: len(there)]) and len(set(there)) == 1
    return len(there) < 2 or beside


_SIZES = word_set("long tall high wide deep")
_SIGNS: dict[str, dict[Cue, int]] = {
    "end": {"there": 1, "came": 1, "went": -1},
    "start": {"after": 1, "came": -1, "went": 1},
    "came": {"after": 1, "there": -1, "came": -1, "went": 1},
    "went": {"there": 1, "came": 1, "went": -1, "after": -1},
}
"""What is added and what is taken away for what is asked."""

_UNKNOWN = {"end": "result", "start": "start", "came": "change", "went": "change"}


def _answer(story: Story, marked: Sequence[tuple[Cue, Quantity]], asked: str) -> Iterator[Answer]:
    """What comes out where the amounts that are told leave just what is asked for."""
    cues = [cue for cue, _ in marked]
    signs = _SIGNS.get(asked, {})
    if not set(cues) <= set(signs) or cues.count("after") > 1 or not _is_one_state(marked):
        return
    begun = "there" in cues or cues[0] == "came"
    if not ("after" in cues if asked == "start" else begun) or not (
        "after" in cues or asked in ("end", "start")
    ):
        return
    signed = sorted(((signs[cue], q) for cue, q in marked), key=lambda pair: pair[0] < 0)
    tree = write_sum([(sign, tree_of(q)) for sign, q in signed])
    moves = {cue for cue in (*cues, asked) if cue in MOVING}
    if signed[0][0] > 0 and value(tree) > 0 and moves:
        yield Answer(
            tree=tree,
            used=tuple(q for _, q in signed),
            situation={"came": "add to", "went": "take from"}.get("".join(moves), "in and out"),
            unknown=_UNKNOWN[asked],
            told=_clauses_read(story, marked, asked),
            said=_said(story, asked),
        )


def _clauses_read(
    story: Story, marked: Sequence[tuple[Cue, Quantity]], asked: str
) -> frozenset[int]:
    """The clauses without a number that belong to the question, change nothing or are asked for."""
    plain = [(n, c) for n, c in enumerate(story.clauses) if not _is_numbered(c)]
    told = {n for n, c in plain if _is_asking(story, c) or _changes_nothing(c)}
    open_ = [(n, c) for n, c in plain if n not in told]
    end = max((q.start for cue, q in marked if cue == "after"), default=0)
    if asked in MOVING and len(open_) == 1 and _moves_some(open_[0][1], end):
        told.add(open_[0][0])
    return frozenset(told)


def _moves_some(clause: Clause, end: int) -> bool:
    """Whether a clause says that some came or went before what is there at the end is told."""
    moves = clause.base in MOVES or clause.sort in ("gain", "lose", "take")
    before = bool(clause.tokens) and clause.tokens[0].start < end
    return moves and before and not clause.negative and not clause.lows & _PARTS


_PARTS = word_set("half third quarter twice again each every all both others")


def _is_numbered(clause: Clause) -> bool:
    return any(t.kind == "n" for t in clause.tokens)


def _is_asking(story: Story, clause: Clause) -> bool:
    return bool(clause.tokens) and clause.tokens[0].start >= story.query.start


def _said(story: Story, asked: str) -> frozenset[str]:
    """The words of the question that say of what time it asks."""
    when = _BEFORE.search(story.query.text) if asked == "start" else TIMED.search(story.query.text)
    words = re.findall("[a-z]+", when[0]) if when else []
    home = {"home", "bring"} if asked == "end" else set()
    return frozenset({one(word) for word in words} | {base_of(word) for word in words} | home)


_BEFORE = re.compile(r"\b(?:before|when|as)\b.*")


def _changes_nothing(clause: Clause) -> bool:
    """Whether a clause without a number says only when, or what somebody thought or saw."""
    lows = clause.lows
    open_ = lows & {"some", "another", "rest", "half", "more", "others", "none", "any", "all"}
    when = clause.link in ("before", "after", "when", "while", "as") and not lows & {"that", "this"}
    moves = clause.sort in ("gain", "lose", "take") or clause.base in WENT | CAME
    finds = clause.base in ("find", "be") and {"too", "that"} & lows
    if finds and not (open_ or clause.negative):
        return True
    return not (open_ or clause.negative or moves) and (when or clause.base in _MINDED)


_MINDED = word_set("think know see like feel decide notice believe look wonder hear remember")
