"""Stories whose amounts are all of one measure, or all parts of one whole.

So are the printed stories of fractions and decimals: every amount plays one part in them, by what
was done with it. A row of TABLE says which parts, in the order told, and which question make which
situation (CCSSM 2010, glossary Table 1). Counts of the amounts themselves ("two pieces") are no
amounts of the measure; any other number makes the story one that is not read here.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from narrate.exact.tree import Whole, value, write_sum
from narrate.reading.words.clauses import Clause
from narrate.reading.words.comparing import LONGER, MORE
from narrate.reading.words.facts import Answer, Story, tree_of
from narrate.reading.words.heard import beside, only_counts
from narrate.reading.words.lexicon import UNITS
from narrate.reading.words.plain import word_set
from narrate.reading.words.quantity import Quantity

PART = "part of one whole"


@dataclass(frozen=True, slots=True)
class Row:
    """Marks in the order told, what is asked, the sign of each mark, and which situation it is.

    Marks: `t` of all together, `b` there, `a` there after, `g` came, `l` went, `d` done, `n`
    needed. `of` is "part" where the amounts must be parts of one whole, from which `1` takes
    them all away; signs: "+" and "-" for a mark each, the last goes on.
    """

    marks: str
    asked: str
    signs: str
    situation: str
    unknown: str
    of: str = ""


TABLE: tuple[Row, ...] = (
    Row(r"b{2,}|d{2,}|g{2,}|l{2,}", "total", "+", "put together", "total"),
    Row(r"[bg]l+|tl+|bd+", "left", "+-", "take from", "result"),
    Row(r"[bg]l+", "end", "+-", "take from", "result"),
    Row(r"bg+", "end", "+", "add to", "result"),
    Row(r"b[gl]*[gl]|gg+l+", "end left", "", "in and out", "result"),
    Row(r"b[dl]", "other", "+-", "take apart", "addend"),
    Row(r"l+b", "left", "-+", "take from", "result"),
    Row(r"n+[bt]", "left", "-+", "take from", "result"),
    Row(r"nd+|n[bg]", "left more", "+-", "take apart", "addend"),
    Row(r"bd+", "more", "+-", "take apart", "addend"),
    Row(r"[bgd]+n", "more", "-+", "take apart", "addend"),
    Row(r"ba", "change", "range", "change", "change"),
    Row(r"l+a", "start", "+", "take from", "start"),
    Row(r"g+a", "start", "-+", "add to", "start"),
    Row(r"t[bdl]+", "other", "+-", "take apart", "addend"),
    Row(r"b+|g+|[dl]+", "other left", "1-", "take apart", "addend", of="part"),
)


def measured(story: Story) -> Iterator[Answer]:
    """The row of TABLE that fits a story of one measure."""
    query = story.query
    amounts = _amounts(story)
    if query.per or query.than or query.kind in ("times", "area", "perimeter", "average"):
        return
    if not amounts or (_measure(amounts[0]) == PART and not _asks_part(story, amounts)):
        return
    asked = _asked(story, amounts)
    marks = _marks(story, amounts, asked)
    for row in TABLE if marks else ():
        fits = asked in row.asked.split() and re.fullmatch(row.marks, marks)
        if fits and (not row.of or _measure(amounts[0]) == PART):
            yield from _answer(story, row, marks, amounts)
            return


def _answer(story: Story, row: Row, marks: str, amounts: Sequence[Quantity]) -> Iterator[Answer]:
    signs = [1 if mark in "bgt" else -1 for mark in marks]
    if row.signs in ("+", "+-"):
        signs = [1, *[-1 if row.signs == "+-" else 1] * (len(marks) - 1)]
    elif row.signs == "-+":
        signs = [*[-1] * (len(marks) - 1), 1]
    elif row.signs == "range":
        signs = [1, -1] if amounts[0].value > amounts[1].value else [-1, 1]
    signed = [(sign, tree_of(q)) for sign, q in zip(signs, amounts, strict=True)]
    if row.signs == "1-":
        signed = [(1, Whole(1)), *((-1, tree_of(q)) for q in amounts)]
    signed.sort(key=lambda pair: pair[0] < 0)
    tree = write_sum(signed)
    if value(tree) > 0:
        yield Answer(
            tree=tree,
            used=tuple(amounts),
            situation=row.situation,
            unknown="not so" if story.query.negative else row.unknown,
            told=_told(story, amounts, row),
        )


# -- the amounts


def _measure(q: Quantity) -> str:
    """The unit of an amount, "" where it has none."""
    if q.sort == "part" and not q.percent:
        return PART
    units = sorted(set(q.thing) & UNITS)
    return units[0] if len(units) == 1 else ""


def _amounts(story: Story) -> list[Quantity]:
    """The amounts of the one measure, in the order told; none where other numbers are told."""
    known = [q for q in story.quantities if q.known and not only_counts(story, q)]
    parts = [q for q in known if _measure(q) == PART]
    if story.query.kind == "fraction" and len(parts) > 1:
        known = [q for q in known if q in parts or q.sort != "amount" or q.percent]
    known = [q for q in known if not beside(q, story.query.thing)]
    measures = {_measure(q) for q in known}
    one = len(measures) == 1 and "" not in measures
    plain = all(
        q.sort in ("amount", "part")
        and not (q.percent or q.asked or q.periodic or q.equal or q.parts)
        for q in known
    )
    untold = any(
        not q.known and set(q.thing) & {w for k in known for w in k.thing} for q in story.quantities
    )
    of_rest = any(re.search(_OF_REST, story.text[q.end :]) for q in parts)
    if not one or not plain or of_rest or (untold and len(known) < 2):
        return []
    wholes = [_whole(q) for q in known if _whole(q)]
    if measures == {PART} and wholes and not frozenset.intersection(*wholes):
        return []
    return known


_OF_REST = r"^ (?:of )?(?:the |what )?(?:was |is )?(?:rest|remain|left)"


def _whole(q: Quantity) -> frozenset[str]:
    """What a part is of; empty where it takes over what was said before."""
    return frozenset() if q.borrowed or not q.thing else frozenset(q.thing)


def _asks_part(story: Story, amounts: Sequence[Quantity]) -> bool:
    """Whether a question about parts asks for a part of the same whole."""
    query = story.query
    wholes = {w for q in amounts for w in q.thing}
    part = query.kind == "fraction" or {"of", "full"} & set(query.lows)
    return bool(part) and bool(wholes & (query.words | set(query.thing)))


# -- what is asked


_LEFT = word_set("left remain remains remained remaining unused")
_OTHER = word_set("other rest")
_THEN = word_set("now then afterward afterwards")
_REST = word_set("rest others remaining remainder other")


def _asked(story: Story, amounts: Sequence[Quantity]) -> str:
    """What is asked of the amounts, in a word of TABLE, "" where it is none."""
    query = story.query
    lows = set(query.lows)
    acts = {q.verb for q in amounts}
    if query.negative:
        return "left" if query.verb in acts else ""
    if query.sign > 0:
        return "more" if query.needs or _still_to_do(lows) else ""
    if query.sign:
        return ""
    if query.began:
        return "start"
    if lows & _LEFT or _still_to_do(lows) or ("still" in lows and query.verb_sort in ("be", "own")):
        return "left"
    if lows & _OTHER or _rest_told(story):
        return "other"
    if query.total:
        return "total"
    if lows & _THEN or ("after" in lows and query.verb_sort in ("be", "own")):
        return "end"
    states = all(q.verb_sort in ("be", "own") for q in amounts)
    if states and query.verb and query.verb_sort not in ("be", "own"):
        return "change"
    if states and _asks_other_thing(story, amounts):
        return "other"
    done = acts == {query.verb} and query.verb_sort not in ("be", "own")
    return "total" if done and not _names_one(story, amounts) else ""


def _still_to_do(lows: set[str]) -> bool:
    """How much does she still have to walk?"""
    return (
        bool({"have", "has", "must"} & lows)
        and bool({"to", "must"} & lows)
        and bool({"still", "left", "more", "farther", "further", "longer", "must"} & lows)
    )


def _rest_told(story: Story) -> bool:
    """Whether the story says that what is asked for is the rest."""
    asked = story.query.words | set(story.query.thing)
    said = (c for c in story.clauses if c.lows & _REST and not any(t.kind == "n" for t in c.tokens))
    return any({t.lemma for t in c.tokens} & asked for c in said)


def _asks_other_thing(story: Story, amounts: Sequence[Quantity]) -> bool:
    """Whether a total of two things is told, one of them, and the other is asked for."""
    asked = set(story.query.thing) - UNITS
    totals = [q for q in amounts if _is_total(story, q)]
    parts = [w for q in amounts if q not in totals for w in q.thing]
    named = {t.lemma for q in totals for t in story.clauses[q.clause].tokens}
    return len(totals) == 1 and bool(asked) and asked <= named and not asked & set(parts)


def _names_one(story: Story, amounts: Sequence[Quantity]) -> bool:
    """Whether the question names some of the amounts and not the others."""
    asked = story.query.words - set(story.query.thing)
    telling = [_behind(story, q) | q.who for q in amounts]
    shared = frozenset.intersection(*telling)
    named = [bool((words - shared) & asked) for words in telling]
    return any(named) and not all(named)


def _behind(story: Story, q: Quantity) -> frozenset[str]:
    """The words behind a number up to the next one of its clause, or all where it is alone."""
    words = story.clauses[q.clause].tokens
    numbers = [t.start for t in words if t.kind == "n"]
    if len(numbers) < 2:
        return frozenset(t.lemma for t in words)
    end = next((n for n in numbers if n > q.start), words[-1].end)
    return frozenset(t.lemma for t in words if q.start < t.start < end)


# -- the part that each amount plays


_WANTED = word_set("need want require call plan hope must")
_GOALS = word_set("goal must plans planned")
_STATES = word_set("weigh measure stand cost")
_TIME = word_set("second minute hour day week")


def _marks(story: Story, amounts: Sequence[Quantity], asked: str) -> str:
    """The marks of the amounts, "" where one has none or they are of several people."""
    marks = ""
    for place, q in enumerate(amounts):
        mark = _mark(story, q, asked)
        if mark == "b" and _is_after(story, q, amounts[:place], marks):
            mark = "a"
        marks += mark
    uniform = len(set(marks)) == 1
    if not uniform and not _one_owner(amounts, story.names):
        return ""
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
    if _is_total(story, q):
        return "t" if q.verb_sort in ("be", "own") or q.verb in _STATES else ""
    if q.verb_sort in ("be", "own") or q.verb in _STATES:
        changed = next((MORE.get(w, 1) for w in q.thing if w in MORE or LONGER.fullmatch(w)), 0)
        return "" if q.more else {0: "b", 1: "g", -1: "l"}[changed]
    if set(q.thing) & _TIME:
        return "d"
    if q.verb_sort == "gain":
        return "l" if q.source or {"out", "off"} & q.near else "g"
    if q.verb_sort in ("lose", "take"):
        return "l"
    return "d" if q.verb else ""


def _is_total(story: Story, q: Quantity) -> bool:
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
        same = bool(before[0].who) and before[0].who & q.who == min(before[0].who, q.who, key=len)
        return (same and q.clause != before[0].clause) or (q.left and q.clause != before[0].clause)
    return (later and set(marks) <= {"l", "g"}) or (set(marks) <= {"l", "g"} and q.left)


def _one_owner(amounts: Sequence[Quantity], names: frozenset[str]) -> bool:
    """Whether the people who do things with the amounts are one, or the amounts are nobody's."""
    people = [q.who & names for q in amounts if q.who & names and q.verb_sort != "be"]
    return all(a & b or not _both_have(amounts) for a in people for b in people)


def _both_have(amounts: Sequence[Quantity]) -> bool:
    """Whether several own or take of their own, so that one's is not another's."""
    return any(q.verb_sort == "own" and q.verb in ("have", "own", "possess") for q in amounts)


def _told(story: Story, amounts: Sequence[Quantity], row: Row) -> frozenset[int]:
    """The clauses without an amount that a row reads: what changed a state, who shares a whole."""
    numbered = {q.clause for q in amounts}
    idle = [n for n, c in enumerate(story.clauses) if n not in numbered]
    if row.asked == "change":
        first, last = amounts[0].clause, amounts[-1].clause
        between = [n for n in idle if first < n < last]
        return frozenset(between if len(between) <= 1 else ())
    timed = {n for n in idle if _only_tells_when(story.clauses[n])}
    if row.asked.startswith("other"):
        timed |= {n for n in idle if story.clauses[n].lows & _REST}
    if _measure(amounts[0]) == PART:
        timed |= {n for n in idle if n < amounts[0].clause}
    return frozenset(timed)


def _only_tells_when(clause: Clause) -> bool:
    """Whether a clause without a number says no more than when: before it was lit."""
    when = clause.link in ("before", "after", "when", "while")
    return when and not clause.lows & {"some", "another", "rest", "half"}
