"""What is never joined: a board and its pieces, some of a group and all of it, two sorts of stuff.

A crate is weighed with what is in it; a length told of all together is no length of each; a
fraction is not taken of those who are that fraction already. Each looks at the story and the
question in small letters and at the work (see `vetoes`).
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from fractions import Fraction

from narrate.exact.tree import Expr, Op
from narrate.reading.vetoes.row import Row, Rows
from narrate.reading.vetoes.summed import Term, factors, is_number, numbers, sums, worth
from narrate.reading.vetoes.told_numbers import NUMBER, found_all, read_number
from narrate.reading.words.lexicon import one


def _plain(terms: Iterable[Term], sign: int) -> set[Fraction | None]:
    """What the terms of a sign that are single numbers are worth."""
    return {worth(term) for way, term in terms if way == sign and is_number(term)}


_N = rf"({NUMBER})"
_WEIGHS = r"(?:weighs?|weighed|ha[sd] a (?:mass|weight) of)"
_CONTAINER = re.compile(
    rf"\b(?:empty [a-z]+|alone|by itself|when (?:it is )?empty) {_WEIGHS} {_N}"
    rf"|\bempty,? (?:the|it) [a-z]* ?{_WEIGHS} {_N}"
    rf"|\b{_WEIGHS} {_N} [a-z]+ (?:when (?:it is )?empty|by itself|alone)\b"
)
_OF_EACH = re.compile(r"\b(?:each|one|every|all|together)\b[^?]*\?")


def passes_over_a_crate(story: str, question: str, tree: Expr | None) -> bool:
    """Whether what a container weighs is told, and nothing is done with it."""
    found = _CONTAINER.search(story + question)
    if found is None or _OF_EACH.search(question) is None:
        return False
    return read_number(next(number for number in found.groups() if number)) not in {*numbers(tree)}


_CUT_FROM = re.compile(
    rf"\b(?:cuts?|sawed|snipped|sawed off)\b[^.?!]*\bfrom (?:an?|the|her|his) (?:{_N}-[a-z]+|[a-z "
    rf"]*?{_N} [a-z]+ long)"
    rf"|\bfrom (?:an?|the|her|his) (?:{_N}-[a-z]+|[a-z ]*?{_N} [a-z]+ long)[^.?!]*\b(?:cuts?|sawed"
    rf"|snipped)\b"
)


def adds_what_it_is_cut_from(story: str, question: str, tree: Expr | None) -> bool:
    """Whether the pieces cut from a board are added to the board."""
    found = _CUT_FROM.search(story + question)
    if found is None:
        return False
    told = read_number(next(number for number in found.groups() if number))
    added = [terms for terms in sums(tree) if all(sign > 0 for sign, _ in terms)]
    return any(told in _plain(terms, 1) for terms in added)


_SOME_OF = re.compile(rf"{_N} of (?:the|these|those|them)\b")


def adds_some_of_the_groups(story: str, question: str, tree: Expr | None) -> bool:
    """Whether some of what is in groups are added to all that is in them."""
    some = {read_number(found[1]) for found in found_all(_SOME_OF, story) if "/" not in found[1]}
    return any(
        any(sign > 0 and isinstance(term, Op) and term.sign == "×" for sign, term in terms)
        and bool(some & _plain(terms, 1))
        for terms in (sums(tree) if some else ())
    )


_STUFF = re.compile(
    rf"{_N} (?P<u>[a-z]+) of (?!the\b|it\b|them\b|this\b|that\b)(?P<s>[a-z]+(?: [a-z]+)?)"
)
_LEFT = re.compile(
    r"\bhow many (?P<u>[a-z]+) of (?P<s>[a-z]+)\b[^?]*\b(?:left|remain|remains|remained)\b"
)


def takes_other_stuff(story: str, question: str, tree: Expr | None) -> bool:
    """Whether cups of one thing are taken from cups of another, of which the rest is asked."""
    asked = _LEFT.search(question)
    if asked is None:
        return False
    told = [
        (read_number(f[1]), f["u"], {*map(one, f["s"].split())}) for f in found_all(_STUFF, story)
    ]
    stuff, unit = one(asked["s"]), one(asked["u"])
    if not any(stuff in named for _, _, named in told):
        return False
    others = {told_as for told_as, u, named in told if one(u) == unit and stuff not in named}
    return any(others & _plain(terms, -1) for terms in sums(tree))


_ALL_LONG = re.compile(
    rf"{_N} [a-z]+ (?:long|tall|wide|high) (?:in all|altogether|in total|together)\b"
)


def multiplies_all(story: str, question: str, tree: Expr | None) -> bool:
    """Whether a length that is told of all together is multiplied by how many they are."""
    found = _ALL_LONG.search(story)
    return found is not None and read_number(found[1]) in {*factors(tree)}


_PART_COUNTED = re.compile(
    r"\bof (?:all )?(?:the|his|her|their) (?P<x>[a-z]+)(?: (?:in|on|of|at) [a-z ]+?)? "
    r"(?P<did>(?:are|were|is|was) [a-z ]+|[a-z]+ed)[.,;] (?:and )?(?:if )?"
    rf"{_N} of (?:the|these|those|them)(?: (?P=x))? (?P=did)\b"
)


def takes_a_part_of_the_part(story: str, question: str, tree: Expr | None) -> bool:
    """Whether a fraction is taken of the very count of those that the fraction tells of."""
    found = _PART_COUNTED.search(story + question)
    if found is None or not isinstance(tree, Op):
        return False
    told = read_number(found[3])
    share = told != 0 and worth(tree) is not None and (worth(tree) or 0) < told
    return share and told in {*numbers(tree)}


ROWS: Rows = (
    Row(passes_over_a_crate, "what is in the container is weighed with it", "empty|alone|itself"),
    Row(adds_what_it_is_cut_from, "one amount is some of the other", "cut|saw|snip"),
    Row(
        adds_some_of_the_groups,
        "one amount is some of the other",
        " of the| of these| of those| of them",
    ),
    Row(takes_a_part_of_the_part, "the part itself is told", "of "),
    Row(takes_other_stuff, "what went is something else than what was there", "left|remain"),
    Row(multiplies_all, "all of them together are so long", " in all|altogether|in total|together"),
)
