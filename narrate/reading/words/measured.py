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
from narrate.reading.words.facts import Answer, Story, tree_of
from narrate.reading.words.measured_amounts import (
    PART,
    REST,
    TRAVELS,
    amounts_of,
    asked_of,
    asks_part,
    measure_of,
    walks_them,
)
from narrate.reading.words.measured_roles import marks_of
from narrate.reading.words.quantity import Quantity


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
    Row(r"b[gl]*[gl]|gg+l+", "end", "", "in and out", "result"),
    Row(r"b[gl]*l[gl]*|gg+l+", "left", "", "in and out", "result"),
    Row(r"bn+", "left", "+-", "take from", "result"),
    Row(r"d+b", "left more", "-+", "take apart", "addend"),
    Row(r"b[dl]", "other", "+-", "take apart", "addend"),
    Row(r"l+b", "left", "-+", "take from", "result"),
    Row(r"n+[bt]", "left", "-+", "take from", "result"),
    Row(r"nd+|n[bg]", "left", "+-", "take apart", "addend"),
    Row(r"nd+|n[bg]", "more", "+-", "needed", "addend"),
    Row(r"bd+", "more", "+-", "take apart", "addend"),
    Row(r"[bgd]+n", "more", "-+", "needed", "addend"),
    Row(r"ba", "change", "range", "change", "change"),
    Row(r"l+a", "start", "+", "take from", "start"),
    Row(r"g+a", "start", "-+", "add to", "start"),
    Row(r"t[bdl]+", "other", "+-", "take apart", "addend"),
    Row(r"b+|g+|[dl]+", "other left", "1-", "take apart", "addend", of="part"),
)


def measured(story: Story) -> Iterator[Answer]:
    """The row of TABLE that fits a story of one measure."""
    query = story.query
    yield from _asked_together(story)
    amounts = amounts_of(story)
    if query.per or query.than or query.kind in ("times", "area", "perimeter", "average"):
        return
    if not amounts or (measure_of(amounts[0]) == PART and not asks_part(story, amounts)):
        return
    asked = asked_of(story, amounts)
    marks = marks_of(story, amounts, asked)
    for row in TABLE if marks else ():
        fits = asked in row.asked.split() and re.fullmatch(row.marks, marks)
        if fits and (not row.of or measure_of(amounts[0]) == PART):
            yield from _answer(story, row, marks, amounts)
            return


def _asked_together(story: Story) -> Iterator[Answer]:
    """The total of amounts that the question itself tells: a piece 2 feet and one 3 feet long."""
    known = [q for q in story.quantities if q.known]
    told = len(known) > 1 and all(q.asked and q.sort == "amount" for q in known)
    one = len({measure_of(q) for q in known}) == 1 and len({q.verb for q in known}) == 1
    query = story.query
    if told and one and measure_of(known[0]) and query.total and not (query.sign or query.than):
        tree = write_sum([(1, tree_of(q)) for q in known])
        used = tuple(known)
        yield Answer(tree=tree, used=used, situation="put together", unknown="total")


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
            situation=_situation(row, amounts),
            unknown="not so" if story.query.negative else row.unknown,
            told=_told(story, amounts, row),
        )


def _situation(row: Row, amounts: Sequence[Quantity]) -> str:
    """The situation of a row; of two states, whether something came or went between them."""
    if row.signs != "range":
        return row.situation
    return "add to" if amounts[0].value < amounts[1].value else "take from"


def _told(story: Story, amounts: Sequence[Quantity], row: Row) -> frozenset[int]:
    """The clauses without an amount that a row reads: what changed a state, who shares a whole."""
    numbered = {q.clause for q in amounts}
    idle = [n for n, c in enumerate(story.clauses) if n not in numbered]
    if row.asked == "change":
        first, last = amounts[0].clause, amounts[-1].clause
        between = [n for n in idle if first < n < last]
        return frozenset(between if len(between) <= 1 else ())
    timed = {n for n in idle if _only_tells_when(story.clauses[n])}
    acts = {q.verb for q in amounts}
    nothing = (n for n in idle if "no" in story.clauses[n].lows and story.clauses[n].base in acts)
    timed |= set(nothing)  # on Sunday no rain fell
    if story.query.verb in TRAVELS and walks_them(story, amounts):
        timed |= {n for n in idle if story.clauses[n].base in TRAVELS}
    if row.asked.startswith("other"):
        timed |= {n for n in idle if story.clauses[n].lows & REST}
    if measure_of(amounts[0]) == PART:
        timed |= {n for n in idle if n < amounts[0].clause}
    return frozenset(timed)


def _only_tells_when(clause: Clause) -> bool:
    """Whether a clause without a number says no more than when: before it was lit."""
    when = clause.link in ("before", "after", "when", "while") and not clause.lows & {
        "that",
        "this",
    }
    when = when or (clause.link == "if" and clause.base in ("make", "use", "do", "bake", "sew"))
    return when and not clause.lows & {"some", "another", "rest", "half"}
