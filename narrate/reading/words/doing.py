"""Time spent on two things that are done: half an hour less watering than weeding.

CCSSM (2010), glossary Table 1: compare, larger or smaller unknown, or both put together.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from narrate.exact.tree import Op, Operation, value
from narrate.reading.words.facts import Answer, Story, tree_of
from narrate.reading.words.quantity import Quantity


def doing(story: Story) -> Iterator[Answer]:
    """The time of the other thing done, or of both."""
    known = [q for q in story.quantities if q.known]
    query = story.query
    if len(known) != 2 or query.sign or query.than or query.per or query.negative:
        return
    amount, step = known
    plain = amount.sort == "amount" and step.sort == "compare" and step.sign and not amount.more
    if not plain or {q.verb for q in known} != {"spend"} or amount.who != step.who:
        return
    first, pair = _done(story, amount), _done(story, step)
    if len(first) != 1 or len(pair) != 2 or not _than_between(story, step, pair):
        return
    one, other = pair
    if first[0] not in pair or one == other:
        return
    sign: Operation = "+" if (step.sign > 0) == (first[0] == other) else "−"
    found, named = Op(sign, tree_of(amount), tree_of(step)), one if first[0] == other else other
    asked = [word for word in dict.fromkeys((*first, *pair)) if word in query.lows]
    if value(found) <= 0:
        return
    if asked == [named] and not query.total:
        unknown = "larger" if sign == "+" else "smaller"
        yield Answer(tree=found, used=(amount, step), situation=unknown, unknown=unknown)
    elif query.total and (not asked or len(asked) == 2):
        both = Op("+", tree_of(amount), found)
        yield Answer(tree=both, used=(amount, step), situation="put together", unknown="total")


def _done(story: Story, q: Quantity) -> tuple[str, ...]:
    """The words of what is done behind a number of its clause: weeding."""
    words = story.clauses[q.clause].tokens
    return tuple(t.low for t in words if t.start > q.start and t.low.endswith("ing"))


def _than_between(story: Story, step: Quantity, pair: Sequence[str]) -> bool:
    lows = [t.low for t in story.clauses[step.clause].tokens]
    return "than" in lows and lows.index(pair[0]) < lows.index("than") < lows.index(pair[1])
