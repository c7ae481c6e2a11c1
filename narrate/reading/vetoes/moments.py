"""What is still to come, was over before, or was only meant: it changes nothing of what is now."""

from __future__ import annotations

import re
from fractions import Fraction

from narrate.exact.tree import Expr
from narrate.reading.vetoes.row import Row, Rows
from narrate.reading.vetoes.summed import go_alike, numbers, sums, worth
from narrate.reading.vetoes.told_numbers import NUMBER, read_number
from narrate.reading.words.directions import MONEY
from narrate.reading.words.lexicon import CLASS_OF, VERBS

_TO_COME = re.compile(
    r"\b(?:will|tomorrow|tonight|next (?:week|month|year|day)|is going to|plans to)\b"
)
_OVER = re.compile(r"\b(?:yesterday|last (?:week|month|year|night|monday|friday)|the day before)\b")
_NOW = re.compile(r"\b(?:has|have|is|are|this morning|now|left)\b")


_NOW_ASKED = re.compile(r"^(?!.*\bold\b).*\b(?:now|today)\b")
_LEFT_ASKED = re.compile(r"^(?!.*\b(?:fewer|more|less|than)\b).*\b(?:now|left|remain)\b")


def counts_another_time(story: str, question: str, tree: Expr | None) -> bool:
    """Whether what is still to come, or was already over, changes what there is now."""
    used = {*numbers(tree)}
    now = _NOW_ASKED.search(question) and not _TO_COME.search(question)
    base: set[Fraction] = set()
    for clause in re.split(r"[.;]\s+|, (?:and|but) (?=today|now)", story):
        told = {read_number(each) for each in re.findall(NUMBER, clause)}
        if now and told & used and _TO_COME.search(clause):
            return True
        if _OVER.search(clause):
            if _LEFT_ASKED.search(question) and any(
                _joined(tree, b, over) for b in base for over in told - base
            ):
                return True
        elif _NOW.search(clause):
            base |= told
    return False


def _joined(tree: Expr | None, first: Fraction, second: Fraction) -> bool:
    worths = [{worth(term) for _, term in terms} for terms in sums(tree)]
    return any(first in each and second in each for each in worths)


_MEANT = re.compile(
    r"\b(?:going|meant|intended|started|planned|wanted|allowed|hoped|expected|supposed|about|tried"
    rf"|thought of)(?: to)? [a-z]+ (?:[a-z]+ )?\$?({NUMBER})\b"
    rf"[^.?!]*\b(?:but|only|just|and)\b[^.?!]*?({NUMBER})"
)


def counts_what_was_meant(story: str, question: str, tree: Expr | None) -> bool:
    """Whether what somebody only meant to do is taken as done, beside what was done."""
    found = _MEANT.search(story)
    return found is not None and go_alike(tree, read_number(found[1]), read_number(found[2]))


_AFTER = re.compile(
    rf"\b(?:after|before) (?P<first>[a-z]+ing)\b[^.?!]*?\$?(?P<a>{NUMBER})\b"
    r"[^.?!]*?,? (?:he|she|they|it|[a-z]+) (?P<passive>was |were )?(?P<second>[a-z]+) "
    rf"(?:[a-z]+ )?\$?(?P<b>{NUMBER})"
)


def goes_on_the_same_way(story: str, question: str, tree: Expr | None) -> bool:
    """Whether what is done after another thing is taken to go the same way as that."""
    found = _AFTER.search(story)
    if found is None or not go_alike(tree, read_number(found["a"]), read_number(found["b"])):
        return False
    money = "$" in found[0]
    second = 1 if found["passive"] else _way(found["second"], money=money)
    return _way(found["first"], money=money) * second < 0


def _way(verb: str, *, money: bool) -> int:
    """+1 for a verb by which something comes, −1 by which it goes, 0 where that is not known."""
    base = VERBS.get(verb, verb)
    return MONEY.get(base, 0) if money else _WAYS.get(CLASS_OF.get(base, ""), 0)


_WAYS = {"gain": 1, "lose": -1, "take": -1}


_BACK = re.compile(
    r"\b(?:g[ai]ves?|gave|gives|brought|brings|puts?|took|takes) (?:them|it|all of them) back\b"
    r"|\breturned (?:them|it|all of them)\b"
)


def forgets_what_came_back(story: str, question: str, tree: Expr | None) -> bool:
    """Whether a text tells that all came back, which work that counts it as gone forgets."""
    return _BACK.search(story) is not None and bool(sums(tree))


_TRADED = re.compile(
    rf"\b(?:trad|exchang|swapp?)(?:e|ed|es|ing|s)? ({NUMBER})[^.?!]*? for ({NUMBER})"
)


def trades_one_way(story: str, question: str, tree: Expr | None) -> bool:
    """Whether both sides of a trade go the same way."""
    found = _TRADED.search(story)
    return found is not None and go_alike(tree, read_number(found[1]), read_number(found[2]))


ROWS: Rows = (
    Row(
        counts_another_time,
        "something is told of another time",
        "yesterday|last |the day before|will|tomorrow|tonight|next |going to|plans to",
    ),
    Row(
        counts_what_was_meant,
        "something is only planned or wanted, and I cannot tell whether it happened",
        "going|meant|intended|started|planned|wanted|allowed|hoped|expected|supposed"
        "|about|thought|tried",
    ),
    Row(goes_on_the_same_way, "what comes after may go the other way", "after |before "),
    Row(forgets_what_came_back, "some came back", " back|returned"),
    Row(trades_one_way, "a trade goes both ways", "trad|exchang|swap"),
)
