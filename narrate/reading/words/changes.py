"""Situations in which an amount changes, is put together, or is held against another.

CCSSM (2010), glossary Table 1: add to, take from (result, change, start unknown); put together,
take apart (total, part unknown); compare (difference, larger, smaller unknown).
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from narrate.exact.tree import Expr, value, write_sum
from narrate.reading.words.clauses import Clause
from narrate.reading.words.directions import direction, elsewhere
from narrate.reading.words.facts import Answer, Story, tree_of
from narrate.reading.words.lexicon import CLASS_OF, UNITS, one
from narrate.reading.words.plain import word_set
from narrate.reading.words.quantity import Quantity
from narrate.reading.words.query import STILL_TO, Query

# -- changes: a chain of what was there, came and went, and is there


@dataclass(frozen=True, slots=True)
class Chain:
    """A row: the marks of a chain of amounts, what is asked of it, and which situation that is.

    Marks: `b` there before, `g` came, `l` went, `a` there after; capitals where it is not told.
    """

    marks: str
    asked: str
    situation: str
    unknown: str


CHAINS: tuple[Chain, ...] = (
    Chain(r"[bg]l+", "not so", "take from", "not so"),
    Chain(r"[bg]g+", "end", "add to", "result"),
    Chain(r"[bg]l+", "end", "take from", "result"),
    Chain(r"[bg][gl]*[gl]", "end", "in and out", "result"),
    Chain(r"b[gl]*Ga", "change", "add to", "change"),
    Chain(r"[bg][gl]*La", "change", "take from", "change"),
    Chain(r"b[gl]*a", "change", "change", "change"),
    Chain(r"B?g+a", "start", "add to", "start"),
    Chain(r"B?l+a", "start", "take from", "start"),
    Chain(r"B?[gl]+a", "start", "in and out", "start"),
)


def changes(story: Story) -> Iterator[Answer]:
    """The rows of CHAINS that fit."""
    chain = None if story.query.kind not in ("many", "much", "long") else _chain(story)
    if chain is None or any(q.periodic for _, q in chain):
        return
    marks = "".join(mark for mark, _ in chain)
    asked = _asked(story, chain)
    for row in CHAINS:
        if row.asked == asked and re.fullmatch(row.marks, marks):
            tree = _chain_tree(chain, asked)
            used = tuple(q for _, q in chain if q.known)
            if tree is not None:
                yield Answer(tree=tree, used=used, situation=row.situation, unknown=row.unknown)
            return


def _asked(story: Story, chain: Sequence[tuple[str, Quantity]]) -> str:
    """What is asked of a chain: its end, its start, a change in it, "" where none is certain."""
    query = story.query
    marks = "".join(mark for mark, _ in chain)
    if query.than or query.sign or query.per or ("g" in marks and re.search(STILL_TO, query.text)):
        return ""
    by_verb = [m for m, q in chain if q.verb == query.verb and q.verb_sort not in ("be", "own")]
    if "a" in marks:
        return _asked_before(story, chain, by_verb)
    if query.negative:
        spent = [m for m, q in chain if q.verb == query.verb]
        gone = spent == list(marks[1:]) and set(spent) == {"l"}
        return "not so" if marks[:1] in ("b", "g") and gone else ""
    sort = CLASS_OF.get(query.verb, "")
    if query.total and not query.ended and "l" in marks:
        return ""  # the total cost
    present = bool({"does", "do", "is", "are", "will", "has"} & set(query.lows)) or (
        query.total and set(marks) <= set("bg")
    )
    if not query.ended and any(q.verb == "read" for _, q in chain):
        return ""  # what is read stays on the shelf
    if query.ended or (sort in ("be", "own", "") and present and not query.began and not by_verb):
        return "end"
    return ""


def _asked_before(
    story: Story, chain: Sequence[tuple[str, Quantity]], by_verb: Sequence[str]
) -> str:
    """What is asked where the amount at the end is told: a change, or what there was."""
    query = story.query
    sort = CLASS_OF.get(query.verb, "")
    marks = "".join(mark for mark, _ in chain)
    unknown = [m for m in marks if m in "GL"]
    plainly = sort in ("be", "own") and not query.ended and not query.began and query.sign > 0
    if unknown and (by_verb == unknown or plainly):
        return "change"
    told = marks.startswith("b") and not unknown
    told = told and not query.total  # how many minutes does it take in all
    arrived = query.verb in _ARRIVED and chain[0][1].value < chain[-1][1].value
    if told and (sort in ("lose", "take") or arrived) and not by_verb:
        return "change"
    if marks == "ba" and any(is_what_went(c, query) for c in story.clauses):
        return "change"
    got = chain[0][0] == "B" and query.verb == chain[0][1].verb
    got = got or (_went_with(chain[0][1]) and query.verb in _TAKEN)
    begun = query.began or ("B" in marks and not query.ended and (sort in ("be", "own") or got))
    return "start" if begun and not marks.startswith("b") else ""


_TAKEN = word_set("take bring carry have")


def _went_with(q: Quantity) -> bool:
    """Whether somebody went with some of it: she went to the fair with some money."""
    went = q.lead == "with" and q.verb in ("go", "come", "leave", "set", "start")
    taken = q.verb in ("take", "bring", "carry") and _is_money(q)
    return not q.known and (went or taken)


def _is_money(q: Quantity) -> bool:
    return q.thing in (("money",), ("dollar",))


_ARRIVED = word_set("come arrive join hatch")


def is_what_went(clause: Clause, query: Query) -> bool:
    """Whether a clause without a number says of what is asked that it went: a piece is cut off."""
    counted = any(t.kind == "n" for t in clause.tokens)
    named = {t.lemma for t in clause.tokens} & query.words - {query.verb}
    return clause.sort in ("lose", "take") and bool(named) and not counted


def _chain(story: Story) -> list[tuple[str, Quantity]] | None:
    """The amounts of the thing that is asked for, each with its mark; None where one has none."""
    query = story.query
    found = [
        q
        for q in story.quantities
        if q.sort == "amount" and any(story.agrees(q, t) for t in (query.thing, *query.also))
    ]
    if story.money_asked:
        untold = [q for q in story.quantities if _went_with(q) and q.thing == ("money",)]
        found = [q for q in found if q.money and q not in untold] + untold
    owners = {w for q in found for w in q.who | q.to} & query.words
    found = _of_places(found, query.words, owners)
    if len(found) < 2 or (
        not query.thing and len({(q.money, q.head) for q in found if q.thing}) > 1
    ):
        return None
    chain: list[tuple[str, Quantity]] = []
    for q in sorted(found, key=_in_time):
        mark = mark_of(q, query, chain, owners)
        if mark == "g" and chain and (there := elsewhere(story.text, q, chain[0][1])):
            mark = "l" if there < 0 else None
        if mark == "G" and chain and _into_another(story, q, chain[0][1]):
            mark = None
        if mark is None or (mark == "l" and q.more and "l" not in [m for m, _ in chain]):
            return None
        chain.append((mark, q))
    return chain


def _into_another(story: Story, q: Quantity, state: Quantity) -> bool:
    """Whether some go into another thing than the one told of: into the crate."""
    found = re.match(
        r"[^.,?]*?\binto (?:the|an?|his|her) (?:\w+ )??(\w+)\b(?! \w)", story.text[q.end :]
    )
    there = state.who | state.around
    return found is not None and bool(there) and one(found[1]) not in there


def _in_time(q: Quantity) -> tuple[int, int, int]:
    """The order of what happened: "after" and "since" begin what came before."""
    if q.before:
        return -1, 0, q.start
    return q.sentence, -1 if q.link in ("after", "since", "because") else 0, q.start


def _of_places(found: list[Quantity], words: frozenset[str], owners: set[str]) -> list[Quantity]:
    """Those of the owner or kind that the question names, where it names one."""
    kinds = [
        w
        for w in words
        if any(w in q.thing for q in found) and not all(w in q.thing for q in found)
    ]
    return [q for q in found if all(w in q.thing for w in kinds) or set(q.thing) <= UNITS]


def mark_of(
    q: Quantity, query: Query, chain: Sequence[tuple[str, Quantity]], owners: set[str]
) -> str | None:
    """The mark of an amount in a chain (see Chain), None where it has none."""
    changed_before = any(mark in "glGL" for mark, _ in chain)
    there = q.verb_sort in ("be", "own")
    if not q.verb and q.stretch < q.start:
        return None  # a verb that is not known
    if there and owners and q.who and not q.who & owners:
        return None
    states = [mark for mark, _ in chain if mark in "bBa"]
    if q.equal or (q.total and q.verb_sort not in ("be", "own")):
        return None
    if q.verb_sort in ("be", "own") or (not chain and q.verb_sort == "do"):
        if q.left and not changed_before and not q.known:
            return None
        if (
            ((q.left or q.after) and not q.before)
            or (changed_before and not q.before)
            or "b" in states
            or "B" in states
        ):
            if "a" in states:
                return None
            return "a" if q.known else None
        if states:
            return None
        return "b" if q.known else "B"
    if not chain and _went_with(q):
        return "B"
    if not chain and q.verb_sort == "gain" and (q.passive or not q.known):
        return "b" if q.known else "B"  # 92 plums were picked
    state = chain[0][1] if chain else None
    sign = direction(q, owners, state)
    if sign == 0:
        return None
    if q.left:
        return None
    return {1: "g", -1: "l"}[sign] if q.known else {1: "G", -1: "L"}[sign]


def _chain_tree(chain: Sequence[tuple[str, Quantity]], asked: str) -> Expr | None:
    signs = {"b": 1, "g": 1, "l": -1, "a": -1}
    signed = [(signs[m], tree_of(q)) for m, q in chain if q.known]
    if asked in ("end", "not so"):
        return write_sum(signed)
    total = sum(s * value(t) for s, t in signed)
    came = any(mark == "G" for mark, _ in chain) or [m for m, _ in chain] == ["b", "a"]
    if asked == "start" or (total < 0 and came):
        signed = [(-s, t) for s, t in signed]
    signed.sort(key=lambda pair: pair[0] < 0)
    tree = write_sum(signed) if signed[0][0] > 0 else None
    return tree if tree is not None and value(tree) > 0 else None
