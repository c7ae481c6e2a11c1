"""A story of equal groups read whole: its rates, what is asked, and how they go together."""

from __future__ import annotations

from narrate.exact.tree import Group
from narrate.reading.equal_groups.amounts import Amount, UnreadError, line_of
from narrate.reading.equal_groups.asked import apart, asked_in
from narrate.reading.equal_groups.rates import with_rates
from narrate.reading.equal_groups.steps import steps
from narrate.reading.equal_groups.words import refuse_unread
from narrate.reading.equal_groups.work import Told, Worked, work
from narrate.reading.words.clauses import sentences
from narrate.reading.words.facts import Answer, Story
from narrate.reading.words.plain import BELOW_ZERO
from narrate.reading.words.quantity import Quantity
from narrate.reading.words.query import Query
from narrate.reading.words.tokens import tokens
from narrate.reading.words.understood import Understood, from_answer

_MOST_SENTENCES, _MOST_NUMBERS, _LONGEST = 5, 6, 500


def read_groups(text: str) -> Understood | None:
    """What a story of equal groups asks and its answer; None where not all of it is read."""
    if len(text) > _LONGEST or BELOW_ZERO.search(text.lower()) or "%" in text:
        return None
    try:
        told = _told(text)
        worked = [w for w in (work(told), *steps(told)) if w is not None]
        refuse_unread(told.lines, told.asked)
    except UnreadError:
        return None
    return _understood(text, told, worked[0]) if len(worked) == 1 else None


def _told(text: str) -> Told:
    read = tokens(text)
    found = sentences(read)
    numbers = sum(token.kind == "n" for token in read)
    if not 1 <= len(found) <= _MOST_SENTENCES or numbers > _MOST_NUMBERS:
        raise UnreadError
    cut = [apart(sentence) for sentence in found]
    asking = [at for at, parts in enumerate(cut) if parts is not None]
    if len(asking) != 1 or asking[0] < len(found) - 2:
        raise UnreadError
    at = asking[0]
    before, question, after = cut[at] or ([], [], [])
    told = [*found[:at], before, *found[at + 1 :], after]
    lines = [line_of(words, n) for n, words in enumerate(told) if words]
    for line in lines:
        with_rates(line)
    names = [n for line in lines for a in line.amounts.values() for n in (a.thing, a.per) if n]
    asked = asked_in(question, at, names)
    amounts = [a for line in (*lines, asked.line) for a in line.amounts.values()]
    return Told(lines, asked, sorted(amounts, key=lambda a: a.start))


# -- what is handed on


def _understood(text: str, told: Told, worked: Worked) -> Understood:
    known = {part.start: part for a in worked.used for part in a.parts or (a,)}
    quantities = [_quantity(text, known.get(a.start, a)) for a in told.amounts]
    made = [_quantity(text, a) for a in (*worked.made, *worked.used) if a.parts]
    asked = told.asked
    thing = ("dollar",) if asked.money else asked.thing or ((asked.unit,) if asked.unit else ())
    query = Query(
        kind="much" if asked.money else "many", thing=thing, words=frozenset(),
        start=asked.start, end=asked.end,
    )  # fmt: skip
    story = Story(
        text=text.lower(), clauses=(), quantities=[*quantities, *made], query=query,
        original=quantities,
    )  # fmt: skip
    by_start = {q.start: q for q in quantities}
    used = [part for a in worked.used for part in a.parts or (a,)]
    answer = Answer(
        tree=worked.tree,
        used=tuple(by_start[a.start] for a in used),
        situation=worked.situation,
        unknown=worked.unknown,
    )
    return from_answer(text, story, answer)


def _quantity(text: str, amount: Amount) -> Quantity:
    return Quantity(
        start=amount.start,
        end=amount.end,
        tree=amount.tree.inner if isinstance(amount.tree, Group) else amount.tree,
        sort="amount" if amount.alone else "rate",
        thing=amount.thing,
        per=amount.per or (),
        money=amount.money,
        text=text[amount.start : amount.end],
        parts=tuple(part.start for part in amount.parts),
        made_by=amount.made_by,
    )
