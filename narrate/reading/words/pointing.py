"""A comparison that points back at the amount told before it.

"That was 1/4 mile farther than Rosa walked", "which is 2 pounds more than Lucia picked", "it
served 58 fewer lunches on Tuesday": CCSSM (2010), glossary Table 1, compare, with the larger or the
smaller amount unknown, or both put together.
"""

from __future__ import annotations

from collections.abc import Iterator

from narrate.exact.tree import value, write_sum
from narrate.reading.words import lexicon
from narrate.reading.words.clauses import Clause
from narrate.reading.words.comparing import LONGER, MORE
from narrate.reading.words.facts import Answer, Story, tree_of
from narrate.reading.words.lexicon import COLOURS, UNITS, one
from narrate.reading.words.plain import word_set
from narrate.reading.words.quantity import Quantity


def pointed(story: Story) -> Iterator[Answer]:
    """The amount that a comparison with the one told just before it leads to, or both together."""
    query = story.query
    known = [q for q in story.quantities if q.known and q.sort in ("amount", "compare")]
    compared = [q for q in known if q.sort == "compare" and q.sign]
    others = any(q.known and q.sort not in ("amount", "compare") for q in story.quantities)
    if others or len(compared) != 1 or query.than or query.sign or query.per or query.negative:
        return
    step = compared[0]
    before = [q for q in known if q.start < step.start and q.sort == "amount" and _alike(q, step)]
    if len(before) != 1 or step.asked or step.equal or step.periodic:
        return
    base = before[0]
    if base.made_by and not step.other:
        return  # 3 miles on each of 5 days, then 2 more than that
    back = _points_back(story.clauses[step.clause], step)
    on = not step.other and step.verb == base.verb and bool(step.who) and step.who == base.who
    to = bool(_behind_than(story, step)) and _behind_than(story, step) <= base.who - step.who
    if step.who == base.who and _of_the_other(story, step):
        yield from _other_one(base, step)
    elif to:
        yield from _led_to(story, base, step, step.sign, back)
    elif not (back or (on and step.verb_sort not in ("be", "own", "lose"))):
        return
    else:
        yield from _led_to(story, base, step, -step.sign if back else step.sign, back)


def _of_the_other(story: Story, step: Quantity) -> bool:
    """Whether it is longer than the other one, and the other, or the shorter one, is asked for."""
    words = [t.low for t in story.clauses[step.clause].tokens]
    told = "than" in words and "other" in words[words.index("than") :]
    lows = story.query.lows
    asked = "other" in lows or any(
        MORE.get(low, 1 if LONGER.fullmatch(low) else 0) == -step.sign for low in lows
    )
    return told and asked


def _other_one(base: Quantity, step: Quantity) -> Iterator[Answer]:
    tree = write_sum([(1, tree_of(base)), (-step.sign, tree_of(step))])
    unknown = "smaller" if step.sign > 0 else "larger"
    if value(tree) > 0:
        yield Answer(tree=tree, used=(base, step), situation=unknown, unknown=unknown)


def _alike(q: Quantity, step: Quantity) -> bool:
    """Whether an amount is of the measure, or the things, that are compared."""
    measure = set(step.thing) & UNITS
    colours = set(q.thing) & COLOURS
    if colours - step.other and set(step.thing) & COLOURS - colours:
        return False  # 5 more blue beads, of 14 red ones
    if measure:
        return measure == set(q.thing) & UNITS and q.clause in (step.clause - 1, step.clause)
    return q.head == step.head and q.clause == step.clause - 1


_THAT = word_set("that this which it")


def _points_back(clause: Clause, step: Quantity) -> bool:
    """Whether a clause says of the amount before it that it is so much more than another."""
    lows = [w.low for w in clause.subject]
    pointing = (lows and set(lows) <= _THAT - {"it"}) or (
        not lows and clause.link in (_THAT - {"it"}) | {"said"} | {"said"}
    )
    return bool(pointing) and clause.base == "be" and bool(step.other)


def _led_to(
    story: Story, base: Quantity, step: Quantity, sign: int, back: bool
) -> Iterator[Answer]:
    """The answers for the other amount, where the question names it, and for both together."""
    query = story.query
    if back:
        told = _telling(base) - _behind_than(story, step)
        told -= base.who if _same_owner(story, step) else frozenset()
        other = _behind_than(story, step) - _telling(base)
    else:
        told = _telling(base) - step.who
        other = (step.around - base.around) | (step.who - base.who)
    asked = query.words | set(query.thing)
    if not {"he", "she", "they", "it"} & set(query.lows):
        asked = frozenset(one(low) for low in query.lows)  # how much does her rabbit weigh?
    pair = [(1, tree_of(base)), (sign, tree_of(step))]
    if other and value(write_sum(pair)) > 0:
        named, also = bool(other & asked), bool(told & asked)
        both = query.total or _of_two(story)
        if named and not also and not query.total and (other & asked) == other:
            unknown = "larger" if sign > 0 else "smaller"
            yield Answer(
                tree=write_sum(pair), used=(base, step), situation=unknown, unknown=unknown
            )
        elif both and named == also:
            tree = write_sum([(1, tree_of(base)), *pair])
            used = (base, step)
            yield Answer(tree=tree, used=used, situation="put together", unknown="total")


def _same_owner(story: Story, step: Quantity) -> bool:
    """Whether it is held against what the same one did: longer than she walked on Friday."""
    words = [t.low for t in story.clauses[step.clause].tokens]
    return bool({"he", "she", "they", "it"} & set(words[words.index("than") :]))


def _of_two(story: Story) -> bool:
    """Whether the question speaks of two: the two days."""
    return any(q.asked and q.known and q.value == 2 for q in story.quantities)


def _telling(q: Quantity) -> frozenset[str]:
    return (q.who | q.around) - UNITS


def _behind_than(story: Story, step: Quantity) -> frozenset[str]:
    """The words behind "than" that name someone or some time: no verb, no pronoun."""
    words = story.clauses[step.clause].tokens
    start = next((t.start for t in words if t.low == "than" and t.start > step.start), None)
    if start is None:
        return frozenset()
    named = (t for t in words if t.start > start and t.kind == "w")
    return frozenset(
        t.lemma for t in named if t.low not in lexicon.NAMES_NOTHING or t.low in lexicon.ORDINALS
    )
